"""What cannot be said in a list of parts alone: places without reading, tables without values."""

from collections.abc import Callable
from decimal import Decimal
from itertools import product
from typing import Any, cast

import pytest

from areafit.checks.ignition.light_metal import MassPercent, content_of
from areafit.demands.demand import required_level
from areafit.facts.mechanics import BeltUse, Sparks
from areafit.facts.part import MaterialUse
from areafit.facts.place import Area, AreaSystem
from areafit.tables import Tables
from areafit.tables.limits import (
    BeltLimit,
    HandToolRow,
    LightMetalLimit,
    StaticLimit,
    SteelToolGas,
)
from areafit.tables.load import rows
from areafit.tables.substances import SubstanceRow
from areafit.values import replace
from areafit.verdict import Verdict


def test_an_unclassified_area_asks_for_no_level() -> None:
    assert required_level(Area(AreaSystem.UNCLASSIFIED)) is None


class Silent:
    """Tables whose one material says nothing of its light metals."""

    def materials(self, name: str) -> tuple[Any, ...]:
        known = Tables.shipped().materials(name)
        return (replace(known[0], light_metal_pct_max=None),)

    def remembered(self, key: object, make: Callable[[], Any]) -> Any:
        del key
        return make()


def test_a_grade_without_figures_is_not_known() -> None:
    tables = cast("Tables", Silent())
    found = content_of(MaterialUse("AL-6082"), "AL-6082", tables)
    assert not found.known
    assert found.total == MassPercent(Decimal(0), Decimal(100))


def test_limits_tighten_with_level_and_group() -> None:
    """IEC 60079-0:2017 7.4.2 and 8.3: no level or group allows more than a milder one."""
    static = {(row.level, row.group): row for row in rows("static_limits", StaticLimit)}
    for better, weaker in (("Ga", "Gb"), ("Gb", "Gc")):
        for group in ("IIA", "IIB", "IIC"):
            assert static[better, group].area_cm2 <= static[weaker, group].area_cm2
            assert static[better, group].capacitance_pf <= static[weaker, group].capacitance_pf
    for level in ("Ga", "Gb", "Gc"):
        areas = [static[level, group].area_cm2 for group in ("IIA", "IIB", "IIC")]
        assert areas == sorted(areas, reverse=True)
    metals = {row.level: row for row in rows("light_metal_limits", LightMetalLimit)}
    assert metals["Ga"].al_mg_ti_zr_pct == 10
    assert {row.mg_ti_zr_pct for row in metals.values()} == {Decimal("7.5")}
    assert {level for level, row in metals.items() if row.fans_only} == {"Gc", "Dc"}


@pytest.mark.parametrize(
    ("level", "group", "square_millimetres"),
    [  # a national restatement of IEC 60079-0, table of areas
        ("Ga", "IIA", 5000), ("Ga", "IIB", 2500), ("Ga", "IIC", 400),
        ("Gb", "IIA", 10000), ("Gb", "IIB", 10000), ("Gb", "IIC", 2000),
        ("Gc", "IIA", 10000), ("Gc", "IIB", 10000), ("Gc", "IIC", 2000),
    ],
)  # fmt: skip
def test_areas_are_those_published(level: str, group: str, square_millimetres: int) -> None:
    row = next(
        each
        for each in rows("static_limits", StaticLimit)
        if (each.level, each.group) == (level, group)
    )
    assert row.area_cm2 * 100 == square_millimetres


@pytest.mark.parametrize(
    ("material", "counterface", "expected"),
    [
        ("zinc-diecast", "rusty steel", Verdict.UNPROVEN),  # 4 % aluminium: by the share alone
        ("bronze-aluminium", "S235JR", Verdict.UNPROVEN),
        ("zinc-diecast", "PTFE", Verdict.PASS),
        ("zinc-diecast", "316L", Verdict.PASS),
        ("S235JR", "rusty steel", Verdict.PASS),
        ("321", "rusty steel", Verdict.PASS),
        ("AL-6082", "rusty steel", Verdict.FLAG),
    ],
)
def test_a_pass_by_the_share_of_light_metal_rests_on_judgement(
    say: Callable[..., Verdict], material: str, counterface: str, expected: Verdict
) -> None:
    """No standard gives a share for this pair: from memory of EN 1127-1 and IEC 60079-0, 8."""
    use = f"{{component: wheel, material: {material}, counterface: {counterface}}}"
    part = f"kind: structural, materials: [{use}]"
    assert say("light-metal", part, "area: 'Zone 2, IIB, T3'") is expected


def test_belts_have_a_row_wherever_surfaces_have_one_and_tighten_alike() -> None:
    """IEC TS 60079-32-1:2013, from memory: no level or group allows more than a milder one."""
    belts = {(row.use, row.level, row.group): row for row in rows("belts", BeltLimit)}
    places = {(row.level, row.group) for row in rows("static_limits", StaticLimit)}
    assert set(belts) == {(use, *place) for use in BeltUse for place in places}
    for use in BeltUse:
        for hazard, groups in (("G", ("IIA", "IIB", "IIC")), ("D", ("III",))):
            steps = [(f"{hazard}{a}", g) for a in "cba" for g in groups]
            for milder, worse in product(steps, steps):
                if milder[0] >= worse[0] and groups.index(milder[1]) <= groups.index(worse[1]):
                    assert belts[use, *worse].allowed <= belts[use, *milder].allowed
                    assert belts[use, *worse].fastest <= belts[use, *milder].fastest


def test_the_gases_that_bar_steel_tools_are_known_and_each_level_has_its_row() -> None:
    """EN 1127-1, annex on tools, as quoted on a page: acetylene and five more."""
    known = {row.id for row in rows("substances", SubstanceRow)}
    gases = {row.substance for row in rows("steel_tool_gases", SteelToolGas)}
    assert gases <= known
    assert len(gases) == 6
    told = {(row.level, row.sparks) for row in rows("hand_tools", HandToolRow)}
    levels = {row.level for row in rows("light_metal_limits", LightMetalLimit)}
    assert told == set(product(levels, (Sparks.SINGLE, Sparks.SHOWER)))
