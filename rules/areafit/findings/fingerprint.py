"""Fingerprints: what binds a waiver to the facts that it was granted for.

A fingerprint is `2:` and a digest of the line, place and component judged, the rule, the verdict,
the question's values by their published names, and table, key and value of each row
that governs. Another
fact, demand, verdict or figure makes another fingerprint. No wording counts, no source or basis,
no class name, no line number, no order, and no item where a part number or the CAD's id tells the
line (`facts.identity`); what is not
stated (None, or the default of its field) is left out, so that a release may add a field. Published
names never change, nor does a default or what it means: `tests/findings/published_names.csv` lists
them.
"""

import hashlib
from collections.abc import Mapping
from datetime import date
from decimal import Decimal
from enum import Enum
from functools import lru_cache
from typing import Any

import msgspec

from areafit.facts.bom import Bom
from areafit.facts.identity import identity
from areafit.facts.part import Item
from areafit.findings.report import Judged
from areafit.values import Frozen, defaults

SCHEME = "2:"
WORDING = frozenset(
    {
        "basis",
        "because",
        "better",
        "by_fact",
        "cause",
        "clause",
        "consequence",
        "disputed",
        "example",
        "grades",
        "languages",
        "locator",
        "message",
        "natural",
        "nearest",
        "note",
        "read_as",
        "remedy",
        "remedy_told",
        "required",
        "source_id",
        "title",
        "trade",
    }
)
"""Fields that say something to a person and decide nothing."""
COUNTED = frozenset({"problems"})
"""Fields of sentences about a text that is digested itself: only how many there are counts."""


def fingerprint(judged: Judged, place: str | None, subject: str, bom: Bom) -> str:
    """What binds a waiver to one answer about a subject of the list, at a place."""
    own = (identity(bom, subject), place or "", judged.ask.component or "", _digest(judged, bom))
    return SCHEME + hashlib.sha256("\x1f".join(own).encode()).hexdigest()[:24]


@lru_cache(maxsize=65536)
def _digest(judged: Judged, bom: Bom) -> str:
    """The part of the digest that all subjects with the same answer share."""
    said = {
        "rule": judged.rule.id,
        "verdict": judged.judgement.verdict.value,
        "asked": published(judged.ask.question, bom),
        "rows": sorted([row.table, row.key, row.value] for row in judged.judgement.rows),
    }
    return msgspec.json.encode(said, order="sorted").decode()


def published(value: Any, bom: Bom) -> Any:  # noqa: ANN401, PLR0911 - any fact, as JSON has it
    """A value as it is digested: fields by name, the trade's words, numbers in shortest form.

    Equal facts share it and different ones do not.
    """
    if isinstance(value, Item):
        return identity(bom, value)
    if value is None or isinstance(value, str | bool | int):
        return value
    if isinstance(value, Frozen):
        return _fields(value, bom)
    if isinstance(value, Enum):
        return value.value
    if isinstance(value, tuple | frozenset):
        told = [published(each, bom) for each in value]
        alike = len({type(each) for each in value}) == 1  # of a pair, each has its own place
        return sorted(told, key=str) if alike else told
    if isinstance(value, Decimal):
        return f"{value.normalize():f}"
    if isinstance(value, date):
        return value.isoformat()
    raise TypeError(f"{type(value).__name__} has no published form")


@lru_cache(maxsize=65536)
def _fields(value: Frozen, bom: Bom) -> Mapping[str, Any]:
    """The fields that say something; rules ask about the same materials and codes again."""
    usual = defaults(type(value))
    stated = ((name, getattr(value, name)) for name in value.__struct_fields__)
    return {
        name: len(each) if name in COUNTED else published(each, bom)
        for name, each in stated
        if name not in WORDING and each != usual.get(name)
    }
