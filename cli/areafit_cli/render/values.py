"""Plain values as a person reads them: one line a fact, empty where nothing is stated."""

from collections.abc import Iterable, Iterator, Mapping
from decimal import Decimal
from enum import Enum

from areafit.facts.quantity import number
from areafit_cli.render.paper import Paper


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

    A key that ends in `_c` holds degrees Celsius and is shown so.
    """
    texts = {key: show(value) for key, value in data.items() if key not in skip}
    column = 2 + max((len(_label(key)) for key, text in texts.items() if text), default=0)
    for key, text in texts.items():
        value = data[key]
        if isinstance(value, list) and any(isinstance(one, Mapping) for one in value):
            for one in value:
                yield f"{' ' * indent}{_label(key)}\n"
                yield from block(one, paper, indent=indent + 2)
        elif text:
            unit = " °C" if str(key).endswith("_c") else ""
            yield from paper.labelled(_label(key), text + unit, indent, column)


def _label(key: object) -> str:
    return str(key).removesuffix("_c").replace("_", " ")
