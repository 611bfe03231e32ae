"""What facts are made of: frozen records, and closed lists of the trade's words."""

from enum import Enum
from typing import TYPE_CHECKING, dataclass_transform

import msgspec

if TYPE_CHECKING:  # checks the names and types of what is replaced, which that of msgspec does not
    from dataclasses import replace as replace  # noqa: PLC0414 - exported
else:
    from msgspec.structs import replace as replace  # noqa: PLC0414 - exported


@dataclass_transform(frozen_default=True)
class Frozen(msgspec.Struct, frozen=True, cache_hash=True):
    """A record that never changes, equal to another of its class with the same values.

    `class Place(Frozen, eq=False)` is equal only to itself. Facts are looked up by the million, so
    a record works out its hash once.
    """


def defaults(kind: type[Frozen]) -> dict[str, object]:
    """The fields of a class that may be left out, with the value that they hold then."""
    values = kind.__struct_defaults__
    names = kind.__struct_fields__
    return dict(zip(names[len(names) - len(values) :], values, strict=True))


class Term(Enum):
    """A closed list of words.

    Each word is one object, so its identity is its hash. That of `Enum` is worked out in Python,
    and facts, which hold many words, are looked up by the million.
    """

    __hash__ = object.__hash__
