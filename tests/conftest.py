"""Lies here so that the tests of every room can import what lies beside it."""
