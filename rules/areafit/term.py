"""Enumerations of trade words, hashed as fast as anything can be."""

from enum import Enum


class Term(Enum):
    """A closed list of words.

    Each word is one object, so its identity is its hash. That of `Enum` is worked out in Python,
    and facts, which hold many words, are looked up by the million.
    """

    __hash__ = object.__hash__
