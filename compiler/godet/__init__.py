"""Godet: a small declarative language for sewing-pattern recipes, and its compiler."""

__version__ = "0.1.0"
