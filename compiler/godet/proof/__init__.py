"""What holds for every body, proved by algebra where algebra can; nothing here needs a body."""
