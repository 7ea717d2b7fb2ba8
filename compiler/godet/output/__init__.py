"""Finished patterns as files: SVG, tiled PDF, JSON. Sees only `godet.pattern.pieces`."""
