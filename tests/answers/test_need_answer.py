"""What `need` offers must be what the rules then accept; what is not known is an open point."""

from collections.abc import Callable
from datetime import date
from decimal import Decimal

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

import areafit
from areafit.answers.marking_options import MarkingOption, marking_options
from areafit.answers.need import Fitness, exposure_need, need
from areafit.demands import Demands, Limit
from areafit.facts.part import Exposure
from areafit.facts.protection import Hazard, Level
from areafit.findings.report import BomReport
from areafit.options import Options
from areafit.tables import Tables
from areafit.values import replace
from areafit.verdict import Verdict

AREAS = {
    "IEC": [
        "Zone 0, IIC, T4",
        "Zone 1, IIB",
        "Zone 2, IIA, T3",
        "Zone 20",
        "Zone 21, IIIC",
        "Zone 22",
    ],
    "ATEX": ["Zone 0", "Zone 1, IIB", "Zone 2", "Zone 20", "Zone 21", "Zone 22, IIIB"],
    "NEC": [
        "Class I, Division 1, Group D",
        "Class I, Division 2, Groups C and D",
        "Class I, Zone 1, IIB",
        "Class II, Division 1, Group G",
        "Class II, Division 2, Group G",
        "Class III, Division 1",
        "Zone 21, IIIB",
    ],
}
_PROTECTION = {"Ga": "ia", "Gb": "db", "Gc": "ec", "Da": "ta", "Db": "tb", "Dc": "tc"}
_NUMBER = {"a": "0", "b": "1", "c": "2"}
RULES = ("protection-level", "gas-group", "dust-group", "temperature-class")


def world(code: str, area: str, marking: str | None = None, more: str = "") -> BomReport:
    dusty = any(word in area for word in ("Zone 20", "Zone 21", "Zone 22", "Class II,"))
    substances = "wheat flour" if dusty else "none" if "Class III" in area else "ethanol"
    text = (
        f"areafit: 1\nassembly: {{number: N-1}}\ncode: {code}\nlocations:\n  here:\n"
        f"    area: {area!r}\n    document: AC-1\n    substances: {substances}\n"
        f"    ambient: 5..40 °C\n    layer: 5 mm\n{more}"
        f"parts:\n  - {{item: '1', location: here, kind: electrical, "
        f"marking: {marking or 'none'!r}}}\n"
    )
    given = Options(as_of=date(2026, 1, 1))
    return areafit.judge(areafit.read(text.encode(), "n.yaml"), Tables.shipped(), given)


def demands(report: BomReport) -> Demands:
    found = report.places[0].demands
    assert found is not None
    return found


def nameplate(option: MarkingOption, offer: str) -> str:
    """A nameplate of the family, as its text says."""
    mark = (option.temperature or "").split(" or ")[0]
    if offer.startswith(("Class", "Intrinsically")):
        return option.text.split(" or cooler")[0]
    level = offer.rsplit("EPL ", 1)[1].split(",", maxsplit=1)[0]
    group = option.groups[0] if option.groups else "IIIB"
    code = f"Ex {_PROTECTION[level]} {group} {mark} {level}".replace("  ", " ")
    if option.system == "NEC zone":
        zone = ("2" if level[0] == "D" else "") + _NUMBER[level[1]]
        lead = "" if level[0] == "D" else "Class I, "
        return f"{lead}Zone {zone}, A{code}"
    return f"{option.text.split(' Ex,')[0]} {code}" if option.text.startswith("II ") else code


@pytest.mark.parametrize(("code", "area"), [(c, a) for c, areas in AREAS.items() for a in areas])
def test_every_offered_marking_is_accepted_by_the_rules(code: str, area: str) -> None:
    asked = need(demands(world(code, area)))
    options = [option for hazard in asked.hazards for option in hazard.options]
    assert options, asked
    for option in options:
        if option.text.startswith("Pressurized"):
            continue  # what stands inside decides, which no purchase text can state
        plate = nameplate(option, option.text)
        report = world(code, area, plate)
        verdicts = {
            finding.rule.id: (finding.verdict, finding.message)
            for finding in report.parts[0].findings()
            if finding.rule.id in RULES
        }
        wrong = {rule: told for rule, told in verdicts.items() if told[0] is not Verdict.PASS}
        assert not wrong, (plate, wrong)
        assert verdicts


def test_one_class_hotter_or_a_group_milder_is_refused() -> None:
    (hazard,) = need(demands(world("IEC", "Zone 1, IIB"))).hazards
    assert {option.groups for option in hazard.options} == {("IIB",)}
    assert hazard.options[0].temperature == "T2 or cooler (300 °C)"
    for plate in ("Ex db IIA T2 Gb", "Ex db IIB T1 Gb"):
        assert world("IEC", "Zone 1, IIB", plate).parts[0].verdict is Verdict.FLAG


def test_two_areas_ask_for_what_both_accept() -> None:
    found = demands(world("IEC", "Zone 2, IIB"))
    stricter = demands(world("IEC", "Zone 0, IIB")).hazards[0].areas
    hazard = replace(found.hazards[0], areas=(*found.hazards[0].areas, *stricter))
    assert {o.text.split(",")[1] for o in marking_options(found, hazard)} == {" EPL Ga"}


def test_where_no_class_is_cool_enough_none_is_offered(
    judged: Callable[..., BomReport], small: str
) -> None:
    own = "substances: [{name: own, group: IIB, autoignition: 80 °C, source: TR-1}]"
    hot = small.replace("substances: ethanol", own).replace(", T3", "")
    (hazard,) = need(demands(judged(hot))).hazards
    assert not hazard.options
    assert hazard.surface is not None
    assert hazard.surface.startswith("80 °C")


@pytest.mark.parametrize(
    ("limit", "mark"),
    [
        (Limit(Decimal(300), "c", "x", inclusive=True), "T300 °C or cooler"),
        (Limit(Decimal(300), "c", "x"), "T299 °C or cooler"),
        (Limit(Decimal("300.4"), "c", "x"), "T300 °C or cooler"),
        (None, None),
    ],
)
def test_a_dust_figure_stays_within_its_limit(limit: Limit | None, mark: str | None) -> None:
    found = demands(world("IEC", "Zone 22, IIIB"))
    hazard = replace(found.hazards[0], limits=() if limit is None else (limit,))
    assert {option.temperature for option in marking_options(found, hazard)} == {mark}


def test_what_the_site_asks_beyond_the_area_counts() -> None:
    found = demands(world("NEC", "Class I, Zone 2, IIB", more="    required_epl: Gb\n"))
    assert found.place.required_levels == (Level.GB,)
    (hazard,) = need(found).hazards
    systems = {option.system for option in hazard.options}
    assert systems == {"NEC zone"}
    assert not any("Gc" in option.text for option in hazard.options)
    dust = demands(world("IEC", "Zone 22, IIIB", more="    required_epl: Ga\n"))
    assert any("Dc" in option.text for option in need(dust).hazards[0].options)


def test_what_is_not_stated_is_an_open_point_and_no_option(
    judged: Callable[..., BomReport], small: str
) -> None:
    bare = (
        small[: small.index("    area")]
        + "    title: Somewhere\n"
        + small[small.index("  office") :]
    )
    asked = need(demands(judged(bare)))
    about = [point.split(" ")[1] for point in asked.open]
    assert about == ["area", "document", "air", "chemicals"]
    assert asked.title == "Somewhere"
    assert asked.ambient is None
    gas = demands(judged(small.replace("    substances: ethanol\n", "").replace(", IIB, T3", "")))
    asked = need(gas)
    assert "The gases, vapours and dusts present are not stated." in asked.open
    (hazard,) = asked.hazards
    assert not hazard.options
    assert hazard.ingress == ()
    assert hazard.open[-1] == "No marking can be named before these points are answered."
    dust = small.replace("Zone 1, IIB, T3", "Zone 21").replace("ethanol", "wheat flour")
    assert "The dust layer to be expected is not stated." in need(demands(judged(dust))).open
    torn = need(demands(judged(small.replace("Zone 1, IIB, T3", "Zone 1, IIB, T3, purple"))))
    assert any("cannot be relied on" in point for point in torn.open)


def test_ratings_of_types_of_protection_come_from_their_table() -> None:
    (gas,) = need(demands(world("IEC", "Zone 1, IIB"))).hazards
    assert "eb: IP54 (IEC 60079-7:2015 4.10)" in gas.ingress  # IEC 60079-7:2015, 4.10
    (dust,) = need(demands(world("IEC", "Zone 21, IIIC"))).hazards
    assert [one.split(" (")[0] for one in dust.ingress] == ["ta: IP6X", "tb: IP6X", "tc: IP6X"]


@pytest.mark.parametrize("exposure", [Exposure.SPLASH, Exposure.ROOM])
def test_a_material_that_suits_passes_its_rule(
    judged: Callable[..., BomReport], small: str, exposure: Exposure
) -> None:
    found = exposure_need(demands(judged(small)), exposure)
    assert found.suits
    assert found.limited
    assert found.avoid
    assert all(suit.fitness is Fitness.SUITS and not suit.conditions for suit in found.suits)
    assert all(suit.conditions for suit in (*found.limited, *found.avoid))
    head = small[: small.index("parts:")] + "parts:\n  - item: '1'\n    location: head\n"
    named = [suit.material for suit in (*found.suits, *found.avoid)]
    uses = "".join(
        f"      - {{material: {name!r}, component: {name!r}, exposure: {exposure.value}}}\n"
        for name in named
    )
    report = judged(f"{head}    kind: structural\n    materials:\n{uses}")
    verdicts: dict[str, set[Verdict]] = {}
    for finding in report.parts[0].findings():
        own = finding.rule.subject.value == "material" or finding.rule.id == "light-metal"
        if finding.component and own:
            verdicts.setdefault(finding.component, set()).add(finding.verdict)
    for suit in found.suits:
        assert all(verdict.passes for verdict in verdicts[suit.material]), suit
    for suit in found.avoid:
        assert Verdict.FLAG in verdicts[suit.material], suit


def test_an_unknown_chemical_leaves_no_material(
    judged: Callable[..., BomReport], small: str
) -> None:
    strange = small.replace("name: sodium hydroxide", "name: unobtainic acid")
    found = exposure_need(demands(judged(strange)), Exposure.SPLASH)
    assert found.unknown == ("unobtainic acid",)
    assert not found.suits
    office = judged(small).places[1].demands
    assert office is not None
    assert exposure_need(office, Exposure.SPLASH).no_data == 0
    assert need(office, [Exposure.ROOM]).exposures[0].suits == ()
    assert office.hazard(Hazard.GAS) is None


@pytest.mark.parametrize(("air", "fit"), [("severe", Fitness.LIMITED), ("normal", Fitness.SUITS)])
def test_bare_steel_is_no_offer_in_severe_air(air: str, fit: Fitness) -> None:
    """ISO 9223:2012 Table 2, from memory: 25 to 200 um a year."""
    more = f"    atmosphere: {air}\n    chemicals: [{{name: acetone, temperature: 20 °C}}]\n"
    where = demands(world("IEC", "Zone 2, IIA, T1", more=more))
    found = exposure_need(where, Exposure.ROOM)
    told = {each.material: each.fitness for each in (*found.suits, *found.limited, *found.avoid)}
    assert told["carbon-steel"] is fit


_CHEMICALS = sorted(Tables.shipped().ids("chemicals"))
_MATERIAL_FAMILY = "materials"


@st.composite
def _places(draw: st.DrawFn) -> str:
    """A place at random, in flow style: area, air, ambient and up to two chemicals."""
    area = draw(
        st.sampled_from(
            [
                "area: unclassified, substances: none",
                "area: 'Zone 0, IIB, T3', substances: ethanol",
                "area: 'Zone 1, IIC, T2', substances: acetylene",
                "area: 'Zone 2, IIC, T4', substances: hydrogen",
                "area: 'Zone 1, IIA, T1', substances: ammonia",
            ]
        )
    )
    air = draw(st.sampled_from(["", "severe", "normal", "controlled"]))
    ambient = draw(st.sampled_from(["5..40 °C", "-20..40 °C", "-40..60 °C"]))
    met = []
    for name in draw(st.lists(st.sampled_from(_CHEMICALS), max_size=2, unique=True)):
        strength, heat = draw(st.sampled_from([1, 10, 50, 98])), draw(st.sampled_from([20, 40, 80]))
        more = draw(st.sampled_from(["", ", mist: false", ", chloride: 200 mg/L"]))
        met.append(f"{{name: '{name}', concentration: {strength} %, temperature: {heat} °C{more}}}")
    chemicals = f"[{', '.join(met)}]" if met else "none"
    outside = f", atmosphere: {air}" if air else ""
    return f"{{{area}{outside}, document: A, ambient: {ambient}, chemicals: {chemicals}}}"


def _list_at(place: str, lines: list[tuple[str, str]]) -> BomReport:
    text = f"areafit: 1\nassembly: {{number: P}}\ncode: IEC\nlocations:\n  cell: {place}\nparts:\n"
    for number, (material, exposure) in enumerate(lines):
        text += (
            f"  - {{item: '{number}', kind: structural, location: cell, contacts: none, "
            f"materials: [{{material: '{material}', exposure: {exposure}}}]}}\n"
        )
    given = Options(as_of=date(2026, 1, 1))
    return areafit.judge(areafit.read(text.encode(), "n.yaml"), Tables.shipped(), given)


@given(place=_places())
@settings(max_examples=25, deadline=None)
@example(place="{area: 'Zone 2', substances: methane, chemicals: none, atmosphere: severe}")
def test_what_is_named_passes_the_rules_that_judge_it(place: str) -> None:
    """Own reasoning: of what suits no rule on materials asks more, nor flags what is limited."""
    here = demands(_list_at(place, [("PTFE", "room")]))
    named = [
        (suit, exposure.value)
        for exposure in Exposure
        for asked in [exposure_need(here, exposure)]
        for suit in (*asked.suits, *asked.limited)
    ]
    if not named:  # nothing corrodes there, or no table knows it
        return
    report = _list_at(place, [(suit.material, exposure) for suit, exposure in named])
    for (suit, exposure), part in zip(named, report.parts, strict=True):
        for finding in part.findings():
            material = finding.rule.family.value == _MATERIAL_FAMILY
            where = (suit, exposure, finding.rule.id, finding.message)
            if material or finding.rule.id == "light-metal":
                assert finding.verdict is not Verdict.FLAG, where
            if material and suit.fitness is Fitness.SUITS and finding.rule.id != "materials-listed":
                assert finding.verdict.passes, where


@given(place=_places(), data=st.data())
@settings(max_examples=25, deadline=None)
def test_what_a_remedy_names_is_flagged_by_no_rule_on_materials(
    place: str, data: st.DataObject
) -> None:
    """Own reasoning: a remedy that leads into the next flag is none."""
    materials = sorted(Tables.shipped().ids("materials"))
    tried = data.draw(st.lists(st.sampled_from(materials), min_size=4, max_size=8, unique=True))
    exposure = data.draw(st.sampled_from(["immersed", "splash", "fume", "room", "washdown"]))
    report = _list_at(place, [(material, exposure) for material in tried])
    cures = {
        name.removesuffix(" (may keep a charge)")
        for part in report.parts
        for finding in part.findings()
        if finding.rule.id == "chemical-resistance"
        for better in [getattr(finding.judged.ask.question, "better", None)]
        if better is not None and better.everywhere
        for name in better.names
    }
    for name in sorted(cures):
        for part in _list_at(place, [(name, exposure)]).parts:
            for finding in part.findings():
                if (
                    finding.rule.family.value == _MATERIAL_FAMILY
                    or finding.rule.id == "light-metal"
                ):
                    assert finding.verdict is not Verdict.FLAG, (name, finding.message)


def test_light_metal_is_named_where_the_level_allows_it() -> None:
    """IEC 60079-0:2017 8.3, from memory: at Ga aluminium counts, at Gb magnesium and titanium."""
    here = "document: A, ambient: 5..40 °C, chemicals: [{name: tap water, temperature: 20 °C}]"
    found = {}
    for area in ("area: unclassified", "area: 'Zone 1, IIB, T3'", "area: 'Zone 0, IIB, T3'"):
        asked = exposure_need(
            demands(_list_at(f"{{{area}, {here}}}", [("PTFE", "room")])), Exposure.ROOM
        )
        found[area[6:12]] = {suit.material for suit in (*asked.suits, *asked.limited)}
        told = {suit.material: suit.conditions for suit in asked.avoid}
    assert {"Ti-gr2", "AL-6082"} <= found["unclas"]
    assert "Ti-gr2" not in found["'Zone "]
    assert "AL-6082" not in found["'Zone "]  # of Zone 0, the last
    assert "holds more light metal than EPL Ga allows" in told["AL-6082"]
