"""The walk-through is a script of its own, run by its test."""

collect_ignore = ["walk_through.py"]
