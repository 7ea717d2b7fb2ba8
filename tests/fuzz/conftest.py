"""Leaves the fuzzing out where its engine is not there: it has no wheel for every machine."""

from importlib.util import find_spec

collect_ignore = [] if find_spec("atheris") else ["test_fuzzing.py"]
