"""Chloride that a surface meets: whether there is any, how much, and what is known of it."""

from areafit.demands.exposure import Form, Met
from areafit.demands.strength import milligrams_per_litre
from areafit.tables import Tables
from areafit.tables.chemicals import Chemical, Presence, Reaction
from areafit.tables.chlorides import ChlorideContent
from areafit.tables.lookup import Range

# Those whose vapour holds free chlorine: the air of pools, from hypochlorite and its kin.
_FREE = frozenset({"chlorine-dioxide", "chlorine-wet", "sodium-hypochlorite"})


def frees_chlorine(chemical: Chemical) -> bool:
    """Whether its vapour carries free chlorine."""
    return chemical.id in _FREE


def brings_chloride(met: Met) -> bool:
    """Whether there is or may be chloride in what is met; what the list states decides."""
    stated = met.stated.chloride
    if stated is not None:
        return stated.span.high > 0
    aqueous = met.chemical.reaction is not Reaction.NOT_AQUEOUS
    return aqueous and met.chemical.chloride is not Presence.NO


def chloride_is_stated(met: Met) -> bool:
    """Whether chloride is certain: stated, or a part of the chemical itself."""
    return met.stated.chloride is not None or met.chemical.chloride is Presence.YES


def content_row(chemical: Chemical, tables: Tables) -> ChlorideContent | None:
    """What the tables know of the chloride that a chemical brings."""
    rows = tables.rows("chloride_content", ChlorideContent)
    return next((row for row in rows if row.chemical == chemical.id), None)


def chloride_content(met: Met, row: ChlorideContent | None) -> Range | None:
    """The chloride in mg/L of the water as it stands; None where it is not known.

    What a drop leaves as it dries is for the rule to say: the same for a salt by its strength and
    for a water whose chloride is stated.
    """
    if met.stated.chloride is not None:
        return milligrams_per_litre(met.stated.chloride)
    if row is None:
        return None
    if row.mg_l is not None:
        return Range.of(row.mg_l)
    bath = [one for one in met.strengths if one.form is Form.BATH]
    if row.mg_l_per_pct is None or not all(one.certain for one in bath):
        return None
    low = min(one.span.low for one in bath)
    high = max(one.span.high for one in bath)
    return Range(low * row.mg_l_per_pct, high * row.mg_l_per_pct)
