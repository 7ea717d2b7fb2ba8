"""The files a person keeps in git beside a recipe: bodies, fabrics, dockets and size tables."""
