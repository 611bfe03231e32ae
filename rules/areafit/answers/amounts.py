"""Quantities of the facts with the units that a list would write behind them."""

from collections.abc import Iterable, Mapping
from decimal import Decimal
from typing import Any

from areafit.facts.loop import ByGroup, Cable
from areafit.facts.place import Concentration
from areafit.facts.quantity import Dimension, Range, number, show, show_range

UNITLESS = frozenset({"quantity", "unit_cost", "ph"})
_NONE_AT_ZERO = frozenset({"layer", "drop_height"})
_D = Dimension
_BY_NAME: Mapping[str, Dimension] = {
    **dict.fromkeys(("value", "at_ambient", "ambient", "temperature"), _D.TEMPERATURE),
    **dict.fromkeys(("autoignition", "flash_point", "process_temperature"), _D.TEMPERATURE),
    **dict.fromkeys(("cloud_ignition", "layer_ignition"), _D.TEMPERATURE),
    **dict.fromkeys(("rubbing_speed", "speed"), _D.SPEED),
    **dict.fromkeys(("drop_height", "layer", "width", "layer_thickness"), _D.LENGTH),
    **dict.fromkeys(("within", "length"), _D.LENGTH),
    "surface_area": _D.AREA,
    **dict.fromkeys(("surface_resistance", "resistance", "resistance_to_earth"), _D.RESISTANCE),
    "charge": _D.CHARGE,
    **dict.fromkeys(("voltage", "breakdown_voltage", "maximum_voltage", "supply"), _D.VOLTAGE),
    "current": _D.CURRENT,
    "power": _D.POWER,
    "capacitance": _D.CAPACITANCE,
    "inductance": _D.INDUCTANCE,
    "inductance_per_resistance": _D.INDUCTANCE_PER_RESISTANCE,
    "pressure": _D.PRESSURE,
    "oxygen": _D.FRACTION,
}
_OF_CABLES: Mapping[str, Dimension] = {
    "capacitance": _D.CAPACITANCE_PER_LENGTH,
    "inductance": _D.INDUCTANCE_PER_LENGTH,
}


def dimension(kind: type[Any], name: str) -> Dimension | None:
    """In what a field of a fact is measured; None where it is a plain number."""
    found = _OF_CABLES.get(name) if kind is Cable else None
    return found or _BY_NAME.get(name)


def amount(kind: type[Any], name: str, value: Decimal) -> str:
    """The value of a field with its unit; `none` where a list would write that."""
    if value.is_infinite() or (value == 0 and name in _NONE_AT_ZERO):
        return "none"
    measured = dimension(kind, name)
    return number(value) if measured is None else show(value, measured)


def span(kind: type[Any], name: str, value: Range) -> str:
    """The range of a field with its unit."""
    measured = dimension(kind, name)
    return _plain(value) if measured is None else show_range(value, measured)


def concentration(value: Concentration) -> str:
    """A concentration in the unit that was written."""
    return f"{_plain(value.span)} {value.unit.value}"


def by_group(kind: type[Any], name: str, value: ByGroup) -> str:
    """A permitted reactance: one figure, or one for each group."""
    figures = [amount(kind, name, value.any)] if value.any is not None else []
    figures += [f"{group.value} {amount(kind, name, one)}" for group, one in value.groups]
    return ", ".join(figures)


def composition(value: Iterable[tuple[str, Decimal]]) -> str:
    """What a material consists of."""
    return ", ".join(f"{name} {show(share, Dimension.FRACTION)}" for name, share in value)


def _plain(value: Range) -> str:
    low, high = number(value.low), number(value.high)
    return low if low == high else f"{low}..{high}"
