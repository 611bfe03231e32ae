"""Plain values as a person reads them: one line a fact, empty where nothing is stated."""

from collections.abc import Iterable, Iterator, Mapping
from decimal import Decimal
from enum import Enum

from areafit.facts.quantity import limit, number
from areafit_cli.render.paper import Paper

_UNITS = {
    "_c": " °C",
    "_g_cm3": " g/cm³",
    "_mm": " mm",
    "_mv": " mV",
    "_pct": " %",
    "_pct_max": " % at most",
}


def show(value: object) -> str:
    """A value in words; empty where nothing is stated."""
    match value:
        case bool():
            text = "yes" if value else "no"
        case Decimal():
            text = number(value)
        case Enum():
            text = str(value.value)
        case Mapping():
            pairs = ((_label(key), show(one)) for key, one in value.items())
            text = ", ".join(f"{key} {one}" for key, one in pairs if one)
        case list() | tuple():
            text = "; ".join(filter(None, map(show, value)))
        case set() | frozenset():
            text = "; ".join(sorted(filter(None, map(show, value))))
        case _:
            text = "" if value is None else str(value)
    return text


def block(
    data: Mapping[str, object], paper: Paper, *, indent: int = 2, skip: Iterable[str] = ()
) -> Iterator[str]:
    """One line a fact; a list of mappings becomes one indented block each.

    A key that ends in a unit, `_c` or `_pct`, is shown with the unit behind the value.
    """
    texts = {key: _text(key, value) for key, value in data.items() if key not in skip}
    column = 2 + max((len(_label(key)) for key, text in texts.items() if text), default=0)
    for key, text in texts.items():
        value = data[key]
        if isinstance(value, list) and any(isinstance(one, Mapping) for one in value):
            for one in value:
                yield f"{' ' * indent}{_label(key)}\n"
                yield from block(one, paper, indent=indent + 2)
        elif text:
            yield from paper.labelled(_label(key), text + _unit(key), indent, column)


def _text(key: object, value: object) -> str:
    """The value in words; two temperatures are the ends of a range."""
    if str(key).endswith("_c") and isinstance(value, list):
        return "..".join(map(show, value))
    if str(key).endswith("below_c") and isinstance(value, Decimal):
        return limit(value)
    return show(value)


def _label(key: object) -> str:
    return _bare(str(key)).replace("_", " ")


def _bare(key: str) -> str:
    for suffix in _UNITS:
        key = key.removesuffix(suffix)
    return key


def _unit(key: object) -> str:
    return next((unit for suffix, unit in _UNITS.items() if str(key).endswith(suffix)), "")
