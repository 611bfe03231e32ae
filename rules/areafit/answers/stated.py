"""Facts and requirements as paths and texts, so that two of them can be told apart."""

from collections.abc import Iterator, Mapping
from decimal import Decimal
from enum import Enum
from typing import Any

from areafit.facts.loop import Loop
from areafit.facts.marking import Marking
from areafit.facts.part import Body, Equipment, Part
from areafit.facts.place import AreaReading, Place
from areafit.facts.quantity import Range, number
from areafit.frozen import field_names, frozen, is_fact

# What a value only repeats: its place in the list, its name, or what its neighbours hold.
_UNTOLD: Mapping[type[Any], frozenset[str]] = {
    Part: frozenset({"index", "item", "alternate"}),
    Body: frozenset({"equipment", "materials"}),
    Place: frozenset({"name", "law", "edition"}),
    Loop: frozenset({"index", "name"}),
}
_ASPECTS = (Equipment, Body)


@frozen
class FactChange:
    """A fact of a part, location or loop that differs; None where one list does not state it."""

    fact: str
    old: str | None
    new: str | None


def changes(old: object, new: object) -> tuple[FactChange, ...]:
    """The facts that differ between two frozen values; None stands for one that is not there."""
    return _differing(dict(_flat(old)), dict(_flat(new)))


def plain_changes(old: object, new: object) -> tuple[FactChange, ...]:
    """As `changes`, for plain values such as what a report says a place requires."""
    return _differing(dict(_plain(old)), dict(_plain(new)))


def _differing(before: Mapping[str, str], after: Mapping[str, str]) -> tuple[FactChange, ...]:
    return tuple(
        FactChange(fact, before.get(fact), after.get(fact))
        for fact in dict.fromkeys((*before, *after))
        if before.get(fact) != after.get(fact)
    )


def _flat(value: object, path: str = "") -> Iterator[tuple[str, str]]:
    """Every stated fact as a path and a text; unstated ones yield nothing."""
    if value is None:
        return
    if isinstance(value, Marking | AreaReading):
        yield path, value.text
    elif isinstance(value, Range):
        yield path, f"{number(value.low)}..{number(value.high)}"
    elif is_fact(type(value)):
        for name in field_names(type(value)):
            if name not in _UNTOLD.get(type(value), ()):
                inner = getattr(value, name)
                step = "" if isinstance(inner, _ASPECTS) else name
                yield from _flat(inner, ".".join(filter(None, (path, step))))
    elif isinstance(value, tuple) and value and not isinstance(value[0], str):
        for i, each in enumerate(value):
            yield from _flat(each, f"{path}[{i + 1}]")
    else:
        yield path, _text(value)


def _text(value: object) -> str:
    match value:
        case bool():
            return "true" if value else "false"
        case Decimal():
            return number(value)
        case Enum():
            return str(value.value)
        case frozenset():
            return ", ".join(sorted(_text(each) for each in value))
        case tuple():
            return ", ".join(_text(each) for each in value) or "none"
        case _:
            return str(value)


def _plain(value: object, path: str = "") -> Iterator[tuple[str, str]]:
    match value:
        case Mapping():
            name = value.get("hazard")
            for key, one in value.items():
                if key != "hazard":
                    yield from _plain(one, ".".join(filter(None, (path, name, key))))
        case [Mapping(), *_]:
            for one in value:
                yield from _plain(one, path)
        case list():
            yield path, "; ".join(map(_text, value)) or "none"
        case None:
            pass
        case _:
            yield path, _text(value)
