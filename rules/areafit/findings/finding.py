"""A judged answer tied to its line: position, citation and fingerprint."""

import hashlib
from decimal import Decimal
from enum import Enum
from functools import lru_cache
from typing import Any

from areafit.facts.bom import Bom
from areafit.findings.report import Block, Finding, Judged
from areafit.rule import Row
from areafit.tables.clauses import binding
from areafit.values import Frozen, defaults


def expand(judged: Judged, block: Block, bom: Bom, subject: str) -> Finding:
    """The finding that a judged answer makes for one subject at one place."""
    rule, ask, judgement = judged.rule, judged.ask, judged.judgement
    waiver = judged.waiver
    path = "/".join(step for step in (block.prefix, ask.path) if step)
    return Finding(
        rule=rule,
        verdict=judgement.verdict,
        message=judgement.message,
        required=judgement.required,
        found=judgement.found,
        clause="; ".join(binding(judgement.clause or rule.clause, bom.law)),
        sources=tuple(dict.fromkeys(cite(row) for row in judgement.rows)),
        rows=judgement.rows,
        basis=judgement.basis,
        reason=judgement.reason,
        remedy=judgement.remedy or rule.remedy,
        answer_by=judgement.answer_by or rule.answer_by,
        location=block.place,
        component=ask.component,
        path=path,
        position=bom.locate(path),
        fingerprint=waiver.fingerprint if waiver else fingerprint(judged, block.place, subject),
        waiver=waiver,
    )


def cite(row: Row) -> str:
    """A table row as a report cites it: table, key, value, source and locator."""
    value = f" = {row.value}" if row.value else ""
    return f"{row.table}: {row.key}{value} ({row.source_id}, {row.locator}; {row.basis.value})"


def fingerprint(judged: Judged, place: str | None, subject: str) -> str:
    """A digest of the subject, the rule, the typed facts asked about and the rows used.

    It changes when a fact, a demand, a verdict or a table row changes, and not when wording or a
    line number does, nor when a release adds an optional field to a fact: a field that holds its
    default is left out. So a default must never change its value or its meaning.
    """
    own = "\x1f".join((subject, place or "", judged.ask.component or "", _digest(judged)))
    return hashlib.sha256(own.encode()).hexdigest()[:24]


@lru_cache(maxsize=65536)
def _digest(judged: Judged) -> str:
    """The part of the digest that is shared by all subjects with the same answer."""
    parts = [judged.rule.id, judged.judgement.verdict.value, canonical(judged.ask.question)]
    parts += [f"{r.table}|{r.key}|{r.value}|{r.source_id}" for r in judged.judgement.rows]
    return "\x1f".join(parts)


def canonical(value: object) -> str:
    """A text that two equal facts share and two different ones do not."""
    kind = type(value)
    if kind is str or value is None:  # most facts are one of the two
        return repr(value)
    if isinstance(value, Frozen):
        return _canonical_fact(value)
    if isinstance(value, Enum):
        return f"{kind.__name__}.{value.name}"
    if isinstance(value, (frozenset, tuple)):
        items = [canonical(item) for item in value]
        return (
            f"({','.join(items)})" if isinstance(value, tuple) else f"{{{','.join(sorted(items))}}}"
        )
    return repr(_shortest(value) if isinstance(value, Decimal) else value)


@lru_cache(maxsize=65536)
def _canonical_fact(value: Any) -> str:  # noqa: ANN401 - any frozen fact
    kind = type(value)
    stated = [(name, getattr(value, name)) for name in kind.__struct_fields__]
    usual = defaults(kind)
    inner = ",".join(
        [f"{name}={canonical(each)}" for name, each in stated if not _same(each, usual, name)]
    )
    return f"{kind.__name__}({inner})"


def _same(value: object, defaults: dict[str, Any], name: str) -> bool:
    """Whether a field holds its default."""
    return name in defaults and bool(value is defaults[name] or value == defaults[name])


def _shortest(value: Decimal) -> Decimal:
    """The number without trailing zeros: 1.0 m and 1 m are one fact."""
    return Decimal(f"{value.normalize():f}") if value else Decimal(0)
