"""How large an input may be: far above any real list, far below what harms the machine."""

FILE_BYTES = 64 * 1024 * 1024
SCALAR_CHARACTERS = 64 * 1024
DEPTH = 32
PARTS = 200_000
NODES = 12_000_000
"""Entries of all lists and mappings together; a list of 200,000 parts needs about half."""
ERRORS = 500
"""Mistakes reported in one go; a file with more has one cause that repeats."""
NAME_CHARACTERS = 2_000
