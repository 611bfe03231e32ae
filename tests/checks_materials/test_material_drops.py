"""What a drop becomes as it dries, and what condenses over a bath, by the vapour over solutions."""

import itertools
import math
from decimal import Decimal
from typing import Any

import pytest

from areafit.demands.activity import Blend
from areafit.demands.demand import CorrodingChemical
from areafit.demands.exposure import SolutionState, meet
from areafit.demands.liquids import MixedLiquid, component_known, liquids_of
from areafit.facts.part import Exposure
from areafit.facts.place import Concentration, ConcentrationUnit, PresentChemical
from areafit.facts.quantity import Range
from areafit.tables import Tables
from areafit.tables.chemicals import Chemical, Drying
from areafit.tables.load import rows
from areafit.tables.vapours import (
    SolutionCondensate,
    SolutionVapour,
    solution_condensate,
    takes_water,
    vapour_pressure,
)
from areafit.verdict import Verdict

T = Tables.shipped()
CONDENSATES = rows("solution_condensates", SolutionCondensate)
PASS, FLAG, UNPROVEN = Verdict.PASS, Verdict.FLAG, Verdict.UNPROVEN
WATER = 18.015  # g/mol


def _liquid(name: str) -> MixedLiquid:
    return liquids_of(name, component_known(name, T))[0]


def _mole(percent: float, molar_mass: float) -> float:
    moles = percent / molar_mass
    return moles / (moles + (100 - percent) / WATER)


def _mass(mole: float, molar_mass: float) -> float:
    return 100 * mole * molar_mass / (mole * molar_mass + (1 - mole) * WATER)


def _vapour(name: str, percent: float) -> list[float]:
    """The mass % of a liquid in the vapour over its solution, from 10 °C to where it boils."""
    one, water = _liquid(name), _liquid("water")
    assert one.molar_mass is not None
    share = _mole(percent, one.molar_mass)
    blend = Blend.of((one, water), (share, 1 - share))
    found = []
    for celsius in range(10, 100, 5):
        active = blend.activities(celsius)
        own, steam = active[0] * one.pascal(celsius), active[1] * water.pascal(celsius)
        if own + steam > 101_325:
            break
        found.append(_mass(own / (own + steam), one.molar_mass))
    return found


# The table of what condenses


@pytest.mark.parametrize("row", CONDENSATES, ids=lambda row: f"{row.chemical}-{row.conc_max_pct}")
def test_what_condenses_is_what_the_model_says(row: SolutionCondensate) -> None:
    """UNIFAC and the vapour pressures of the tables; the most of every weaker solution too."""
    weaker = [
        one.conc_max_pct
        for one in CONDENSATES
        if one.chemical == row.chemical and one.conc_max_pct <= row.conc_max_pct
    ]
    most = max(max(_vapour(row.chemical, float(percent))) for percent in weaker)
    assert row.condensate_pct == max(Decimal(math.ceil(most * 10)) / 10, row.conc_max_pct)


@pytest.mark.parametrize(
    ("name", "liquid", "vapour"),
    [  # mole fractions at 101.3 kPa; Perry's Handbook, from memory
        ("ethanol", 0.0190, 0.1700),
        ("ethanol", 0.0721, 0.3891),
        ("ethanol", 0.1238, 0.4704),
        ("ethanol", 0.2608, 0.5580),
        ("ethanol", 0.5079, 0.6564),
        ("ethanol", 0.7472, 0.7815),
        # read in a table of the equilibrium in the public repository chennieXD/McCabe-Thiele
        ("methanol", 0.10, 0.421395),
        ("methanol", 0.20, 0.580482),
        ("methanol", 0.50, 0.779072),
        ("methanol", 0.80, 0.911073),
        # isopropanol, azeotrope of 87.4 mass % at 80.3 °C; CRC Handbook, from memory
        ("isopropanol", 0.675, 0.675),
    ],
)
def test_what_condenses_is_as_published_where_it_boils(
    name: str, liquid: float, vapour: float
) -> None:
    mass = _liquid(name).molar_mass
    assert mass is not None
    percent, published = _mass(liquid, mass), _mass(vapour, mass)
    assert published - 2 <= _vapour(name, percent)[-1] <= published + 6  # richer where weak
    row = solution_condensate(name, Decimal(round(percent, 3)))
    assert row is not None
    assert float(row.condensate_pct) >= published - 0.5


def _met(name: str, percent: str, exposure: Exposure) -> list[tuple[SolutionState, Range]]:
    [chemical] = T.chemicals(name)
    strength = Concentration(Range.of(Decimal(percent)), ConcentrationUnit.MASS)
    stated = PresentChemical(name, strength, Range.of(Decimal(40)))
    met = meet(chemical, CorrodingChemical(stated), exposure, None)
    return [(one.form, one.span) for one in met.strengths if one.form is not SolutionState.BATH]


def test_over_a_solvent_in_water_condenses_more_of_it_than_the_bath_holds() -> None:
    [(form, span)] = _met("isopropanol", "15", Exposure.FUME)
    assert form is SolutionState.CONDENSATE
    assert span.low == 15
    assert 70 <= span.high <= 80
    assert _met("isopropanol", "100", Exposure.FUME) == []
    assert _met("isopropanol", "15", Exposure.IMMERSED) == []


def test_where_the_table_says_nothing_the_condensate_may_be_all_of_it() -> None:
    """The more onerous stays where the model sees two liquids: ethyl acetate in water."""
    assert _met("ethyl acetate", "5", Exposure.FUME) == [
        (SolutionState.CONDENSATE, Range(Decimal(5), Decimal(100)))
    ]


def test_a_stronger_bath_never_condenses_weaker() -> None:
    for name in {row.chemical for row in CONDENSATES}:
        found = []
        for percent in range(1, 100):
            condensed = _met(name, str(percent), Exposure.FUME)
            found.append(condensed[0][1].high if condensed else Decimal(percent))
        assert found == sorted(found)


@pytest.mark.parametrize(
    ("material", "chemical", "strength", "fume"),
    [
        ("FKM", "ethanol", "5 %", FLAG),
        ("PVC-C", "isopropanol", "10 %", UNPROVEN),
        ("PTFE", "ethanol", "5 %", PASS),
    ],
)
def test_what_stands_the_bath_meets_what_condenses_over_it(
    resist: Any, material: str, chemical: str, strength: str, fume: Verdict
) -> None:
    assert resist(material, chemical, strength, "20 °C").verdict is PASS
    answer = resist(material, chemical, strength, "20 °C", "fume")
    assert answer.verdict is fume, answer.text
    assert fume is PASS or "as condensate" in answer.text
    assert fume is PASS or "what condenses" in answer.text


# Drops


def _water_mixing() -> list[tuple[str, Chemical]]:
    return [
        (chemical.id, chemical)
        for chemical in T.rows("chemicals", Chemical)
        if takes_water(chemical.id) and vapour_pressure(chemical.substance) is not None
    ]


def test_a_drop_that_leaves_nothing_loses_more_of_it_than_of_water() -> None:
    """By the vapour over a weak solution; what water leaves first is `concentrates`."""
    tried = 0
    for name, chemical in _water_mixing():
        if _liquid(name).groups is None:
            continue
        tried += 1
        leaves_first = max(_vapour(name, 5)) > 5
        assert leaves_first == (chemical.drying is Drying.EVAPORATES), name
    assert tried > 10


@pytest.mark.parametrize("name", ["dimethylformamide", "NMP", "monoethanolamine"])
def test_what_is_less_volatile_than_water_dries_to_itself(name: str) -> None:
    """Boil at 153, 202 and 170 °C; CRC Handbook, from memory."""
    [end, way] = _met(name, "20", Exposure.SPLASH)
    assert end == (SolutionState.DRIED, Range.of(Decimal(100)))
    assert way == (SolutionState.DRIED, Range(Decimal(20), Decimal(100)))


def _acid() -> list[SolutionVapour]:
    found = [
        r for r in rows("solution_vapours", SolutionVapour) if r.chemical == "hydrochloric-acid"
    ]
    return sorted(found, key=lambda row: row.conc_max_pct)


def _constant(celsius: float) -> float:
    """The mass % of hydrochloric acid that evaporates unchanged.

    The vapour pressure of the water follows from those of the acid by the equation of Gibbs and
    Duhem; at 2 % the water is that of ideal ions.
    """
    water = vapour_pressure("water")
    assert water is not None
    steam = float(water.pressure(Decimal(celsius)))
    strengths = [float(row.conc_max_pct) for row in _acid()]
    pressures = [float(row.pressure(Decimal(celsius))) for row in _acid()]
    ratios = [(c / 36.46) / ((100 - c) / WATER) for c in strengths]
    log_activity, surplus = -2 * ratios[0], []
    for step in itertools.count():
        if step:
            mean = (ratios[step] + ratios[step - 1]) / 2
            log_activity -= mean * math.log(pressures[step] / pressures[step - 1])
        over = pressures[step] / (math.exp(log_activity) * steam) / ratios[step]
        surplus.append(math.log(over))
        if over > 1:
            part = -surplus[-2] / (surplus[-1] - surplus[-2])
            return strengths[step - 1] + part * (strengths[step] - strengths[step - 1])
    raise AssertionError


@pytest.mark.parametrize(
    ("celsius", "published"),
    [  # CRC Handbook, constant-boiling hydrochloric acid, from memory: at 101.3, 53.3 and 6.7 kPa
        (108.6, 20.2),
        (92.1, 21.2),
        (48.7, 23.4),
    ],
)
def test_the_constant_strength_of_hydrochloric_acid(celsius: float, published: float) -> None:
    assert _constant(celsius) == pytest.approx(published, abs=0.8)


def test_hydrochloric_acid_dries_to_what_evaporates_unchanged_in_a_room() -> None:
    [chemical] = T.chemicals("hydrochloric acid")
    assert chemical.dried_pct is not None
    assert _constant(20) <= float(chemical.dried_pct) <= _constant(20) + 1
    [end, way] = _met("hydrochloric acid", "2", Exposure.SPLASH)
    assert end[1] == Range.of(Decimal(25))
    assert way[1] == Range(Decimal(2), Decimal(25))


def test_a_drop_passes_what_it_takes_a_moment_to_do(resist: Any) -> None:
    """On the way counts what needs no time, such as pitting; own reasoning."""
    answer = resist("6Mo", "cupric chloride", "1 %", "60 °C", "splash")
    assert answer.verdict is FLAG
    assert "5..8 % as the drop dries" in answer.text


def test_a_strength_that_is_passed_and_has_no_row_asks_nothing(resist: Any) -> None:
    answer = resist("316L", "sulfuric acid", "1 %", "25 °C", "splash")
    assert "70 % as the drop dries" in answer.text
