"""One intrinsically safe circuit as a list of its own, from words of the command line.

Facts are built directly, and the circuit is judged by the rules that judge the loops of lists.
"""

from collections.abc import Iterator, Mapping
from decimal import Decimal
from types import MappingProxyType
from typing import Any

from areafit.facts.bom import Assembly, Bom, Position
from areafit.facts.groups import Group
from areafit.facts.loop import ByGroup, Cable, Loop, LoopDevice, LoopSource
from areafit.facts.part import Generates, Kind, Part
from areafit.facts.quantity import Dimension, QuantityError, parse, units
from areafit.pattern import pattern
from areafit.values import Frozen, replace
from areafit_cli import one_part, words
from areafit_cli.faults import CallError

SOURCE, DEVICE = "source", "device"
_D = Dimension
_SOURCE: Mapping[str, tuple[str, Dimension]] = MappingProxyType(
    {
        **dict.fromkeys(("uo", "voc"), ("voltage", _D.VOLTAGE)),
        **dict.fromkeys(("io", "isc"), ("current", _D.CURRENT)),
        "po": ("power", _D.POWER),
        **dict.fromkeys(("co", "ca"), ("capacitance", _D.CAPACITANCE)),
        **dict.fromkeys(("lo", "la"), ("inductance", _D.INDUCTANCE)),
        **dict.fromkeys(
            ("lo/ro", "la/ra"), ("inductance_per_resistance", _D.INDUCTANCE_PER_RESISTANCE)
        ),
        "um": ("maximum_voltage", _D.VOLTAGE),
        "supply": ("supply", _D.VOLTAGE),
    }
)
_DEVICE: Mapping[str, tuple[str, Dimension]] = MappingProxyType(
    {
        **dict.fromkeys(("ui", "vmax"), ("voltage", _D.VOLTAGE)),
        **dict.fromkeys(("ii", "imax"), ("current", _D.CURRENT)),
        "pi": ("power", _D.POWER),
        "ci": ("capacitance", _D.CAPACITANCE),
        "li": ("inductance", _D.INDUCTANCE),
    }
)
_RATINGS = frozenset({"voltage", "current", "power"})
_CABLE = (
    ("length", _D.LENGTH),
    ("capacitance", _D.CAPACITANCE_PER_LENGTH),
    ("inductance", _D.INDUCTANCE_PER_LENGTH),
    ("inductance_per_resistance", _D.INDUCTANCE_PER_RESISTANCE),
)
_NAME_END = pattern(r"\s*[=:\s]\s*")
_NOTHING = Generates(Decimal(0), Decimal(0), Decimal(0))


class Stated(Frozen):
    """What the call states, in words; empty and None mean not stated."""

    sources: tuple[str, ...] = ()
    devices: tuple[str, ...] = ()
    cable: str | None = None
    group: str | None = None
    area: tuple[str, ...] = ()
    source_area: tuple[str, ...] = ()
    substances: tuple[str, ...] = ()
    source_markings: tuple[str, ...] = ()
    device_markings: tuple[str, ...] = ()
    code: str | None = None


class _End(Frozen):
    """The values of a source or device with the words beside them."""

    values: Mapping[str, Decimal]
    flags: frozenset[str]


def build(stated: Stated) -> Bom:
    """The list of one circuit, its sources and its devices.

    Raises:
        CallError: a word or a quantity cannot be read.
    """
    sources = [_end(text, "--source", _SOURCE, ("linear", "non-linear")) for text in stated.sources]
    known = ("active", "passive", "simple apparatus")
    devices = [_end(text, "--device", _DEVICE, known) for text in stated.devices]
    here = _list_of_one(stated, stated.area, None, simple=False)
    there = _list_of_one(
        replace(stated, code=here.law.value), stated.source_area, None, simple=False
    )
    parts: list[Part] = []
    for place, word, ends, plates in (
        (SOURCE, SOURCE, sources, stated.source_markings),
        (one_part.PLACE, DEVICE, devices, stated.device_markings),
    ):
        markings = _for_each(plates, len(ends), f"--{word}-marking")
        for i, (end, marking) in enumerate(zip(ends, markings, strict=True)):
            part = _part(stated, end, marking)
            item = str(i + 1) if word == DEVICE else word + (f" {i + 1}" if i else "")
            parts.append(replace(part, index=len(parts), item=item, locations=(place,)))
    return Bom(
        name="command line",
        assembly=Assembly("one loop"),
        law=here.law,
        places={**here.places, SOURCE: replace(there.places[one_part.PLACE], name=SOURCE)},
        parts=tuple(parts),
        loops=(_loop(stated, sources, devices, [part.item for part in parts]),),
        locate=locate,
    )


def locate(path: str) -> Position:
    """The option that states the fact of a path; there are no lines to point at."""
    for step, option in (("device", "--device"), ("source", "--source"), ("group", "--group")):
        if f"/{step}" in path:
            return Position(option, 0, 0)
    return Position("--source, --device, --cable", 0, 0)


_BEHIND = (
    ("/device", ("device", "device_marking", "area")),
    ("/source", ("source", "source_marking", "source_area")),
    ("/group", ("group", "area", "source_area", "substance")),
    (
        "",
        (
            *("source", "device", "cable", "group"),
            *("area", "source_area", "source_marking", "device_marking"),
        ),
    ),
)
_PLURAL = frozenset({"source", "device", "source_marking", "device_marking", "substance"})


def left_out(path: str, stated: Stated) -> list[str]:
    """The options not given that a finding on this path may lack."""
    options = next(options for step, options in _BEHIND if step in path)
    return [
        f"--{option.replace('_', '-')}"
        for option in options
        if not getattr(stated, f"{option}s" if option in _PLURAL else option)
    ]


def _list_of_one(
    stated: Stated, area: tuple[str, ...], marking: str | None, *, simple: bool
) -> Bom:
    """A place with a part in it, as `areafit part` makes them."""
    return one_part.build(
        one_part.Stated(
            code=stated.code,
            area=area,
            substances=stated.substances if area == stated.area else (),
            markings=() if marking is None else (marking,),
            kinds=(Kind.SIMPLE_APPARATUS.value if simple else Kind.ELECTRICAL.value,),
        )
    )


def _part(stated: Stated, end: _End, marking: str | None) -> Part:
    simple = "simple apparatus" in end.flags
    (part,) = _list_of_one(stated, stated.area, marking, simple=simple).parts
    if "passive" in end.flags:
        return replace(part, equipment=replace(part.equipment, generates=_NOTHING))
    return part


def _loop(stated: Stated, sources: list[_End], devices: list[_End], items: list[str]) -> Loop:
    names = iter(items)
    return Loop(
        index=0,
        name="one loop",
        group=None
        if stated.group is None
        else words.word(Group, stated.group, "group", drop="group "),
        sources=tuple(_source(next(names), end) for end in sources),
        devices=tuple(_device(next(names), end) for end in devices),
        cable=None if stated.cable is None else _cable(stated.cable),
    )


def _source(item: str, end: _End) -> LoopSource:
    values: dict[str, Any] = dict(end.values)
    for name in ("capacitance", "inductance"):
        if name in values:
            values[name] = ByGroup(any=values[name])
    linear = None if not end.flags else "linear" in end.flags
    return LoopSource(item, **values, linear=linear)


def _device(item: str, end: _End) -> LoopDevice:
    return LoopDevice(item, **end.values, active=True if "active" in end.flags else None)


def _end(
    text: str, option: str, names: Mapping[str, tuple[str, Dimension]], flags: tuple[str, ...]
) -> _End:
    """`Uo 28 V, Io 93 mA`: values by name, each once, and words that stand alone."""
    values: dict[str, Decimal] = {}
    found: set[str] = set()
    for entry in _entries(text):
        if entry.casefold() in flags:
            found.add(entry.casefold())
            continue
        name, _, value = _NAME_END.sub(" ", entry, count=1).partition(" ")
        field = names.get(name.casefold())
        if field is None or not value:
            known = ", ".join((*_shown(names), *flags))
            raise CallError(f"{option}: {entry!r} is no value of it; write some of: {known}")
        if field[0] in values:
            raise CallError(f"{option}: {name} is stated twice")
        limit = option == "--device" and field[0] in _RATINGS
        read = words.rating if limit else words.quantity
        values[field[0]] = read(value.strip(), field[1], option)
    return _End(values, frozenset(found))


def _entries(text: str) -> Iterator[str]:
    return (entry.strip() for entry in text.split(",") if entry.strip())


def _shown(names: Mapping[str, tuple[str, Dimension]]) -> Iterator[str]:
    return ("/".join(part.capitalize() for part in name.split("/")) for name in names)


def _cable(text: str) -> Cable:
    """`200 m, 180 pF/m, 0.7 µH/m` or `200 m, default`: each unit says what it is of."""
    found: dict[str, Decimal] = {}
    default = False
    for entry in _entries(text):
        if entry.casefold() == "default":
            default = True
            continue
        name, value = _of_cable(entry)
        if name in found:
            raise CallError(f"--cable: {name.replace('_', ' ')} is stated twice")
        found[name] = value
    return Cable(**found, default=default)


def _of_cable(entry: str) -> tuple[str, Decimal]:
    for name, dimension in _CABLE:
        if _is_of(entry, dimension):
            return name, words.quantity(entry, dimension, "--cable")
    serve = "; ".join(units(dimension) for _, dimension in _CABLE)
    raise CallError(f"--cable: {entry!r} is neither `default` nor a quantity in {serve}")


def _is_of(entry: str, dimension: Dimension) -> bool:
    try:
        parse(entry, dimension)
    except QuantityError:
        return False
    return True


def _for_each(texts: tuple[str, ...], count: int, option: str) -> list[str | None]:
    """The n-th marking goes with the n-th end; a single one holds for all."""
    if len(texts) not in (0, 1, count):
        raise CallError(f"give one {option} for all, or one for each in their order")
    if len(texts) == count:
        return list(texts)
    return [texts[0] if texts else None] * count
