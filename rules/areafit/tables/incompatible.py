"""Chemicals that must not meet: pairs of EPA reactivity groups, and pairs by name."""

from collections.abc import Mapping

from areafit.tables.chemicals import Chemical
from areafit.values import Frozen, Term
from areafit.verdict import Basis


class PairKind(Term):
    """What `a` and `b` of a row name."""

    GROUPS = "groups"  # reactivity group numbers
    CHEMICALS = "chemicals"  # chemical ids


class Separation(Term):
    """What follows for the place, worst first."""

    MUST_NOT = "must not share"
    CAUTION = "caution"
    INFORMATION = "information"


class Incompatible(Frozen):
    """One pair of groups or of chemicals, `a` before `b`.

    `codes` are the letters of the EPA chart: H heat, F fire, G gas, GT toxic gas, GF flammable
    gas, E explosion, P polymerisation, S toxic solution, U unknown, X extremely reactive.
    """

    a: str
    b: str
    kind: PairKind
    codes: tuple[str, ...]
    consequence: str
    separation: Separation
    example: str
    source_id: str
    locator: str
    basis: Basis
    note: str


def find(
    rows: Mapping[tuple[str, str, str], Incompatible], a: Chemical, b: Chemical
) -> tuple[Incompatible, ...]:
    """The rows for two chemicals: the pair by name, then every pair of their groups."""
    first, second = sorted((a.id, b.id))
    named = rows.get((PairKind.CHEMICALS.value, first, second))
    pairs = {
        (PairKind.GROUPS.value, min(left, right, key=int), max(left, right, key=int))
        for left in a.epa_groups
        for right in b.epa_groups
    }
    groups = [rows[pair] for pair in sorted(pairs) if pair in rows]
    return (*([named] if named else []), *groups)
