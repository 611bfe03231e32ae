"""The clauses that findings cite: which documents bind under which law, and how far each was read.

A citation is what a report prints, `NFPA 70-2023 500.6(A), 505.6`; several are separated by
semicolons. Each has its row, so that a pass that rests on no other row rests on its clause.
"""

from functools import cache, lru_cache

from areafit.facts.protection import Law
from areafit.pattern import pattern
from areafit.tables.load import rows
from areafit.values import Frozen
from areafit.verdict import Basis, weakest

_NEXT = pattern(r"; (?![^()]*\))")  # none inside round brackets


class Clause(Frozen):
    """A clause as it is cited; `law` names the laws under which it binds, none: under all."""

    citation: str
    document: str
    edition: str
    clause: str
    law: tuple[str, ...]
    source_id: str
    locator: str
    basis: Basis
    note: str


@lru_cache(maxsize=4096)
def binding(citations: str, law: Law) -> tuple[str, ...]:
    """The citations without those of laws that do not govern; all where none would be left."""
    every = tuple(_NEXT.split(citations))
    own = tuple(
        c for c in every if not (row := _rows().get(c)) or law.value in (row.law or law.value)
    )
    return own or every


@lru_cache(maxsize=4096)
def basis_of(citations: str, law: Law) -> Basis:
    """The weakest basis of the clauses that bind; a citation without a row is judgement."""
    known = _rows()
    found = (known[c].basis if c in known else Basis.JUDGEMENT for c in binding(citations, law))
    return weakest(found) or Basis.JUDGEMENT


def _binds(row: Clause | None, law: Law) -> bool:
    return row is None or not row.law or law.value in row.law


@cache
def _rows() -> dict[str, Clause]:
    return {row.citation: row for row in rows("clauses", Clause)}
