"""Finished pieces: what a recipe cannot read back (cutting lines, walked notches, labels)."""
