"""Facts and requirements as paths and texts with their units, so that two can be told apart."""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from decimal import Decimal
from enum import Enum
from functools import cache
from typing import Any

from areafit.facts.evidence import Evidence
from areafit.facts.loop import ByGroup, Cable, Loop, LoopDevice, LoopSource
from areafit.facts.marking import Marking
from areafit.facts.part import Body, ContactRef, Equipment, MaterialUse, Part
from areafit.facts.place import (
    AreaReading,
    Concentration,
    Mixture,
    Place,
    PresentChemical,
    PresentSubstance,
)
from areafit.facts.quantity import Dimension, Range, number, show, show_range
from areafit.file.facts import facts
from areafit.values import Frozen, defaults

UNITLESS = frozenset({"quantity", "unit_cost", "ph", "share", "trade_size"})
_NONE_AT_ZERO = frozenset({"layer", "drop_height"})


def amount(kind: type[Any], name: str, value: Decimal) -> str:
    """The value of a field with its unit; `none` where a list would write that."""
    if value.is_infinite() or (value == 0 and name in _NONE_AT_ZERO):
        return "none"
    measured = dimension(kind, name)
    return number(value) if measured is None else show(value, measured)


def span(kind: type[Any], name: str, value: Range) -> str:
    """The range of a field with its unit."""
    measured = dimension(kind, name)
    return _figures(value) if measured is None else show_range(value, measured)


def concentration(value: Concentration) -> str:
    """A concentration in the unit that was written."""
    return f"{_figures(value.span)} {value.unit.value}"


def by_group(kind: type[Any], name: str, value: ByGroup) -> str:
    """A permitted reactance: one figure, or one for each group."""
    figures = [amount(kind, name, value.any)] if value.any is not None else []
    figures += [f"{group.value} {amount(kind, name, one)}" for group, one in value.groups]
    return ", ".join(figures)


def composition(value: Iterable[tuple[str, Decimal]]) -> str:
    """What a material consists of."""
    return ", ".join(f"{name} {show(share, Dimension.FRACTION)}" for name, share in value)


def _figures(value: Range) -> str:
    low, high = number(value.low), number(value.high)
    return low if low == high else f"{low}..{high}"


# What a value only repeats: its place in the list, its name, or what other facts say already.
_UNTOLD: Mapping[type[Any], frozenset[str]] = {
    Part: frozenset(
        {
            *("index", "item", "alternate", "disagreements", "contacts_note"),
            *("materials_document", "answered", "otherwise"),
        }
    ),
    Equipment: frozenset({"in_loop"}),
    Body: frozenset({"equipment", "materials", "materials_complete"}),
    Evidence: frozenset({"elsewhere"}),
    Place: frozenset({"name", "law", "edition"}),
    Loop: frozenset({"index", "name"}),
}
_ASPECTS = (Equipment, Body)
# By what an entry is found again in another list, whatever was written before it.
_FOUND_BY: Mapping[type[Any], tuple[str, ...]] = {
    Part: ("part_number",),
    Evidence: ("type", "number"),
    MaterialUse: ("component",),
    ContactRef: ("item", "component"),
    PresentSubstance: ("name",),
    PresentChemical: ("name",),
    LoopSource: ("item",),
    LoopDevice: ("item",),
}
# The letters of a loop, as a list writes them.
_OUTPUTS = {"voltage": "Uo", "current": "Io", "power": "Po", "maximum_voltage": "Um"}
_INPUTS = {"voltage": "Ui", "current": "Ii", "power": "Pi", "capacitance": "Ci", "inductance": "Li"}
_LETTERS: Mapping[type[Any], Mapping[str, str]] = {
    LoopSource: {
        **_OUTPUTS,
        "capacitance": "Co",
        "inductance": "Lo",
        "inductance_per_resistance": "Lo/Ro",
    },
    LoopDevice: _INPUTS,
}
_THERE = "stated"
# As the table of facts writes them.
_MEASURED: Mapping[str, Dimension] = {
    "oxygen": Dimension.FRACTION,
    **{each.name.lower().replace("_", " "): each for each in Dimension},
}


def dimension(kind: type[Any], name: str) -> Dimension | None:
    """In what a field of a fact is measured, by the table of facts; None for a plain number."""
    return _dimensions().get((kind is Cable, name))


@cache
def _dimensions() -> Mapping[tuple[bool, str], Dimension]:
    """By field; a cable alone has quantities per length under the names of others."""
    fields = {letter: name for each in _LETTERS.values() for name, letter in each.items()}
    found: dict[tuple[bool, str], Dimension] = {}
    for row in facts().values():
        above, _, key = row.key.rpartition(".")
        measured = _MEASURED.get(row.unit.removesuffix(" range").removesuffix(" by group"))
        if measured is not None:
            found[above == "cable", fields.get(key, key)] = measured
    return found


class FactChange(Frozen):
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
    pairs = (
        (fact, _side(before, fact), _side(after, fact)) for fact in dict.fromkeys((*before, *after))
    )
    return tuple(
        FactChange(fact, old, new)
        for fact, old, new in pairs
        if old != new and not (_filled(before, fact) or _filled(after, fact))
    )


def _side(values: Mapping[str, str], fact: str) -> str | None:
    """What one side says of a fact; an entry of a list that is `none` there is none."""
    stem = fact.partition("[")[0]
    return values.get(fact) or ("none" if values.get(stem) == "none" else None)


def _filled(values: Mapping[str, str], fact: str) -> bool:
    """Whether these list entries of a fact, which tell more than that the other has none."""
    return any(key.startswith(f"{fact}[") for key in values)


def _flat(value: object, path: str = "") -> Iterator[tuple[str, str]]:
    """Every stated fact as a path and a text; what is left at its default yields nothing."""
    if value is None:
        return
    if isinstance(value, Marking | AreaReading | Mixture):
        yield path, value.text
    elif isinstance(value, Concentration):
        yield path, concentration(value)
    elif isinstance(value, Frozen):
        kind = type(value)
        untold = _UNTOLD.get(kind, frozenset[str]())
        usual = defaults(kind)
        for name in kind.__struct_fields__:
            inner = getattr(value, name)
            if name in untold or (name in usual and inner == usual[name]):
                continue
            step = "" if isinstance(inner, _ASPECTS) else _LETTERS.get(kind, {}).get(name, name)
            yield from _field(kind, name, inner, ".".join(filter(None, (path, step))))
    elif isinstance(value, tuple) and value and not isinstance(value[0], str):
        yield from _entries(value, path)
    else:
        yield path, _text(value)


def _field(kind: type[Any], name: str, value: object, path: str) -> Iterator[tuple[str, str]]:
    """A field of a fact; a quantity with its unit."""
    if isinstance(value, Decimal):
        yield path, amount(kind, name, value)
    elif isinstance(value, Range):
        yield path, span(kind, name, value)
    elif isinstance(value, ByGroup):
        yield path, by_group(kind, name, value)
    elif name == "composition" and isinstance(value, tuple):
        yield path, composition(value)
    else:
        yield from _flat(value, path)


def _entries(values: tuple[Any, ...], path: str) -> Iterator[tuple[str, str]]:
    seen: Counter[str] = Counter()
    for position, each in enumerate(values, start=1):
        label = _label(each) or str(position)
        seen[label] += 1
        step = f"{path}[{label}]" if seen[label] == 1 else f"{path}[{label}, {seen[label]}]"
        if type(each) in _FOUND_BY and not isinstance(each, MaterialUse):  # which has its material
            yield step, _THERE
        found_by = {f"{step}.{name}" for name in _FOUND_BY.get(type(each), ())}
        yield from ((fact, text) for fact, text in _flat(each, step) if fact not in found_by)


def _label(value: object) -> str:
    """By what an entry is found in another list; empty where only its place tells it apart."""
    names = _FOUND_BY.get(type(value), ())
    return " ".join(_text(told) for name in names if (told := getattr(value, name)) is not None)


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
