"""One operation, one record: what it takes, its numeric function, when it fails."""
