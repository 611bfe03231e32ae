"""Values as JSON text that is safe to print: one line a value, or several for a person."""

import json
from collections.abc import Iterable, Mapping
from decimal import Decimal
from enum import Enum

from areafit_cli.safe_text import clean_json


def encode(value: object) -> str:
    """One line of JSON; decimals become numbers, enumerations their words, sets sorted lists."""
    return clean_json(json.dumps(value, ensure_ascii=False, default=_plain))


def text(value: str | None) -> str:
    """One text as JSON; most need no encoding, which is told faster than done."""
    if value is None or not value.isascii() or not value.isprintable():
        return encode(value)
    return encode(value) if '"' in value or "\\" in value else f'"{value}"'


def pretty(value: object) -> str:
    """JSON over several lines, for an answer that a person may read too."""
    text = json.dumps(value, ensure_ascii=False, default=_plain, indent=2)
    return "\n".join(map(clean_json, text.split("\n")))


def _plain(value: object) -> object:
    match value:
        case Decimal():
            return int(value) if value == value.to_integral_value() else float(value)
        case Enum():
            return value.value
        case Mapping():
            return dict(value)
        case set() | frozenset():
            return sorted((_plain(one) for one in value), key=str)
        case str() | int() | float():
            return value
    raise TypeError(f"{type(value).__name__} has no form in a JSON report")


def lines(items: Iterable[str]) -> str:
    """A list with an item a line."""
    body = ",\n ".join(items)
    return f"[\n {body}]" if body else "[]"
