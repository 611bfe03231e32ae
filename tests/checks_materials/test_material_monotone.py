"""Over the whole resistance table: heat never helps, and milder exposure never harms but where
there is a physical reason, which is listed here."""

from collections.abc import Iterator
from decimal import Decimal
from functools import cache

import pytest

from areafit.corrosion.rating import Outcome, decide, rate
from areafit.corrosion.relief import PieceFacts
from areafit.demands.demand import CorrodingChemical
from areafit.demands.exposure import meet
from areafit.facts.part import Exposure
from areafit.facts.place import Concentration, ConcentrationUnit, PresentChemical
from areafit.facts.quantity import Range
from areafit.tables import Tables
from areafit.tables.chemicals import Chemical, Drying
from areafit.tables.materials import Material, is_elastomer
from areafit.tables.resistance import ResistanceRow

TABLES = Tables.shipped()
BADNESS = {
    Outcome.SUITABLE: 0,
    Outcome.LIMITED: 1,
    Outcome.OPEN: 1,
    Outcome.NO_DATA: 1,
    Outcome.UNSUITABLE: 2,
}
MILDER = (Exposure.IMMERSED, Exposure.FUME, Exposure.ROOM, Exposure.ENCLOSED)
# A chemical whose vapour or mist is worse than the liquid, and why.
_RICHER = "what condenses over a solution in water holds more of it than the bath"
WORSE_AS_VAPOUR = {
    "ethanol": _RICHER,
    "isopropanol": _RICHER,
    "methanol": _RICHER,
    "hydrochloric-acid": "vapour above a weak bath condenses at 10 to 25 %",
    "hydrofluoric-acid": "nickel-copper cracks in moist, aerated vapour",
    "chromic-acid": "a mist dries to a stronger acid",
    "fluoboric-acid": "a mist dries to a stronger acid",
    "hydrobromic-acid": "what condenses is stronger than the bath, and nothing is printed of it",
    "hydrogen-chloride": "moist fume condenses as acid of 10 to 25 %; the dry gas is milder",
    "nitric-acid": "moist vapour of strong acid condenses through the strengths that attack",
    "sulfuric-acid": "moist vapour of strong acid condenses through the strengths that attack",
}


@cache
def pairs() -> tuple[tuple[Material, Chemical], ...]:
    rows = TABLES.rows("resistance", ResistanceRow)
    ids = dict.fromkeys((row.material, row.chemical) for row in rows)
    return tuple((TABLES.materials(m)[0], TABLES.chemicals(c)[0]) for m, c in ids)


def strengths(material: Material, chemical: Chemical) -> list[Decimal]:
    """One strength in every band: its upper end, which it holds."""
    rows = TABLES.resistance(material.id, chemical.id)
    return sorted({row.conc_max_pct for row in rows})


def heats(material: Material, chemical: Chemical) -> list[Decimal]:
    """One temperature in every stretch, and one beyond the data."""
    rows = TABLES.resistance(material.id, chemical.id)
    limits = {row.temp_max_c for row in rows if row.temp_max_c is not None}
    return sorted({*limits, max(limits, default=Decimal(20)) + 1})


@cache
def stated(strength: Decimal, heat: Decimal, *, rinsed: bool) -> CorrodingChemical:
    concentration = Concentration(Range(strength, strength), ConcentrationUnit.MASS)
    facts = PresentChemical("it", concentration, Range(heat, heat), rinsed=rinsed, mist=None)
    return CorrodingChemical(facts)


def outcome(
    material: Material,
    chemical: Chemical,
    strength: Decimal,
    heat: Decimal,
    exposure: Exposure,
    *,
    rinsed: bool = False,
) -> int:
    mist = chemical.volatile.value == "mist"
    corroding = stated(strength, heat, rinsed=rinsed)
    met = meet(chemical, corroding, exposure, None, mist=mist)
    return BADNESS[decide(rate(material, met, TABLES, PieceFacts())).outcome]


def cases() -> Iterator[tuple[Material, Chemical, Decimal]]:
    for material, chemical in pairs():
        for strength in strengths(material, chemical):
            yield material, chemical, strength


@pytest.mark.parametrize("exposure", list(Exposure))
def test_heat_never_improves_a_rating(exposure: Exposure) -> None:
    rinsed = exposure is Exposure.SPLASH
    for material, chemical, strength in cases():
        found = [
            outcome(material, chemical, strength, heat, exposure, rinsed=rinsed)
            for heat in heats(material, chemical)
        ]
        assert found == sorted(found), (material.id, chemical.id, strength)


def test_milder_exposure_never_harms_but_where_listed() -> None:
    excepted = set()
    for material, chemical, strength in cases():
        for heat in heats(material, chemical):
            found = [outcome(material, chemical, strength, heat, one) for one in MILDER]
            if found[1] > found[0]:
                excepted.add(chemical.id)
            assert found[1] >= found[2] >= found[3], (material.id, chemical.id, strength, heat)
    assert excepted == set(WORSE_AS_VAPOUR)


def test_a_splash_is_worse_only_where_a_drop_leaves_something_stronger() -> None:
    for material, chemical, strength in cases():
        for heat in heats(material, chemical)[:1]:
            immersed = outcome(material, chemical, strength, heat, Exposure.IMMERSED)
            splash = outcome(material, chemical, strength, heat, Exposure.SPLASH)
            dries_away = chemical.drying is Drying.EVAPORATES
            if splash > immersed:
                assert not dries_away, (material.id, chemical.id, strength, heat)
            if splash < immersed:
                assert dries_away, (material.id, chemical.id, strength, heat)
                assert is_elastomer(material)
