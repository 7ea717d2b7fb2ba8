"""Solves a draft for many bodies at once; what fails, fails for its own body only."""
