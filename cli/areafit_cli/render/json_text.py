"""Values as JSON text that is safe to print: one line a value, or several for a person."""

import json
from collections.abc import Callable, Iterable, Mapping
from decimal import Decimal
from enum import Enum
from typing import TYPE_CHECKING

from areafit.values import Frozen
from areafit_cli.safe_text import clean_json

if TYPE_CHECKING:
    from areafit.answers.asks import Asked
    from areafit.findings.report import Finding


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


def fields(value: object) -> dict[str, object]:
    """A frozen value as a mapping of its fields, nested ones too."""
    if not isinstance(value, Frozen):
        raise TypeError(f"{type(value).__name__} has no fields")
    return {name: _field(getattr(value, name)) for name in value.__struct_fields__}


def _field(value: object) -> object:
    if isinstance(value, Frozen):
        return fields(value)
    if isinstance(value, tuple):
        return [_field(one) for one in value]
    if isinstance(value, frozenset):
        return sorted((_field(one) for one in value), key=str)
    return value.value if isinstance(value, Enum) else value


def findings(found: Iterable["Finding"], **more: Callable[["Finding"], object]) -> list[object]:
    """Findings in the vocabulary of the JSON report, for an answer that is none."""
    return [
        {
            "rule": each.rule.id,
            "verdict": each.verdict,
            **{key: of(each) for key, of in more.items()},
            "message": each.message,
            "required": each.required,
            "found": each.found,
            "clause": each.clause,
            "sources": each.sources,
            "basis": each.basis,
            "reason": each.reason,
            "remedy": each.remedy,
            "answer_by": each.answer_by,
        }
        for each in found
    ]


def asked(one: "Asked") -> dict[str, object]:
    """A key that would settle the finding, with the words or the unit that it takes."""
    takes = {"words": one.row.choices or None, "unit": one.row.unit or None}
    stated = {name: value for name, value in takes.items() if value}
    return {"path": one.path, "key": one.key, **stated}


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
