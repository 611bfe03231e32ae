"""Frozen, hashable values of the trade; only `file` and `marking` make them from text."""
