"""Division 1 in every rule: level b, or a where the place says that the atmosphere stays for long.

NFPA 70-2023 500.5(B)(1), (C)(1) and 505.5(B), 506.5(B), from memory: a Division 1 takes in what
zones call 0 and 1. That what is not electrical is judged at b where nothing is said, and that the
place is asked, is the project's own reading.
"""

from collections.abc import Callable

import pytest

from areafit.rule import Judgement
from areafit.verdict import Role, Verdict

P, F, U, N = Verdict.PASS, Verdict.FLAG, Verdict.UNPROVEN, Verdict.NOT_APPLICABLE
Ask = Callable[..., Judgement]
_GAS = "area: 'Class I, Division 1, Group D', substances: [acetone], chemicals: none"
_DUST = "area: 'Class II, Division 1, Group G', substances: [sugar], chemicals: none"


def _at(area: str, level: str) -> str:
    rest = "ambient: 5..40 °C, layer: none, document: AC-1"
    return f"{area}, {rest}" + (f", required_epl: {level}" if level else "")


_COVER = "kind: structural, materials: [{component: cover, material: PTFE, surface_area: %s}]"
_PLATE = "kind: structural, materials: [{component: plate, material: '6082'}]"
_ASSESSED = "kind: mechanical, evidence: [{type: assessment, number: IHA-1%s}]"
_WARM = (
    "kind: mechanical, evidence: [{type: assessment, number: IHA-1, level: Ga}], "
    "surface_temperature: {value: 400 °C, at_ambient: 40 °C, case: expected malfunction}"
)
_SLOW = "kind: mechanical, drive: manual, rubbing_speed: 0.1 m/s"


@pytest.mark.parametrize(
    ("rule", "part", "levels"),
    [
        # IEC 60079-0:2017 Table 8, IIB: 100 cm² at b, 25 cm² at a (letter D may hold IIB)
        ("static-surface", _COVER % "90 cm²", {"": P, "Gb": P, "Gc": P, "Ga": F}),
        ("static-surface", _COVER % "40 cm²", {"": P, "Gb": P, "Ga": U}),
        ("static-surface", _COVER % "60 cm²", {"": P, "Gb": P, "Ga": F}),
        ("static-surface", _COVER % "20 cm²", {"": P, "Gb": P, "Ga": P}),
        ("static-surface", _COVER % "120 cm²", {"": F, "Gb": F, "Ga": F}),
        # IEC 60079-0:2017 8.3: 7.5 % without aluminium at b, 10 % with it at a
        ("light-metal", _PLATE, {"": P, "Gb": P, "Gc": P, "Ga": F}),
        # ISO 80079-36:2016 5.2: rare malfunctions count at a
        ("ignition-hazard", _ASSESSED % "", {"": P, "Gb": P, "Ga": U}),
        ("ignition-hazard", _ASSESSED % ", level: Gb", {"": P, "Gb": P, "Ga": F}),
        ("ignition-hazard", _ASSESSED % ", level: Ga", {"": P, "Gb": P, "Ga": P}),
        ("ignition-hazard", _ASSESSED % ", level: Gc", {"": F, "Gb": F, "Ga": F}),
        ("ignition-hazard", _SLOW, {"": P, "Gb": P, "Ga": U}),
        # EN 1127-1:2019 6.4.2: acetone ignites at 465 °C, 80 % of it at a in any state
        ("hot-surface", _WARM, {"": P, "Gb": P, "Ga": F}),
    ],
)
def test_one_answer_for_what_is_not_electrical(
    ask: Ask, rule: str, part: str, levels: dict[str, Verdict]
) -> None:
    for level, verdict in levels.items():
        said = ask(rule, part, _at(_GAS, level), "NEC")
        assert said.verdict is verdict, (level, said.message)


@pytest.mark.parametrize("level", ["", "Gb", "Ga"])
@pytest.mark.parametrize(
    ("marking", "verdict"),
    [
        ("'Class I, Division 1, Group D T2'", P),
        ("'Class I, Zone 0, AEx ia IIC T4 Ga'", P),
        ("'Class I, Zone 1, AEx db IIC T4 Gb'", F),
        ("'Class I, Division 2, Group D T2'", F),
    ],
)
def test_electrical_equipment_follows_articles_501_to_503(
    ask: Ask, level: str, marking: str, verdict: Verdict
) -> None:
    # NFPA 70-2023 501.5, 500.8(A), from memory
    part = f"kind: electrical, marking: {marking}, evidence: [{{type: listing, number: E-1}}]"
    assert ask("protection-level", part, _at(_GAS, level), "NEC").verdict is verdict


def test_what_a_division_2_states_still_counts(ask: Ask) -> None:
    # IEC 60079-14:2013 5.3: the site may ask for more than the area
    place = _at("area: 'Class I, Division 2, Group D', substances: [acetone], chemicals: none", "")
    part = "kind: electrical, marking: 'Class I, Zone 2, AEx ec IIC T4 Gc'"
    assert ask("protection-level", part, place, "NEC").verdict is P
    assert ask("protection-level", part, f"{place}, required_epl: Gb", "NEC").verdict is F


@pytest.mark.parametrize(
    ("place", "verdict"),
    [
        (_at(_GAS, ""), U),
        (_at(_GAS, "Gb"), P),
        (_at(_GAS, "Ga"), P),
        (_at(_GAS, "Gc"), U),  # no answer to the question
        (_at(_GAS, "Db"), U),  # said of dust, of which there is none
        (_at(_DUST, ""), U),
        (_at(_DUST, "Db"), P),
        (_at(_DUST, "Gb"), U),
        (
            _at("area: 'Class I, Division 2, Group D', substances: [acetone], chemicals: none", ""),
            P,
        ),
        (_at("area: 'Class III, Division 1', substances: [cotton], chemicals: none", ""), P),
    ],
)
def test_a_division_1_is_asked_how_long(
    say: Callable[..., Verdict],
    remedies: Callable[..., list[str]],
    place: str,
    verdict: Verdict,
) -> None:
    assert say("place-stated", "kind: structural", place, "NEC") is verdict
    told = remedies("place-stated", "kind: structural", place, "NEC")
    assert ["required_epl" in each for each in told] == ([True] if verdict is U else [])


def test_who_is_asked_of_a_division_1(judged: Callable[..., object]) -> None:
    """One finding for each hazard of the place, however many parts stand there."""
    text = (
        "areafit: 1\nassembly: {number: T-1}\ncode: NEC\nlocations:\n  case: {area: "
        "['Class I, Division 1, Group D', 'Class II, Division 1, Group G'], substances: "
        "[acetone, sugar], chemicals: none, ambient: 5..40 °C, layer: none, document: AC-1%s}\n"
        "parts:\n  - {item: '1', location: case, kind: structural}\n"
        "  - {item: '2', location: case, kind: structural}\n"
    )

    def asked(more: str) -> list[str]:
        report = judged(text % more, only=frozenset({"place-stated"}))
        subjects = report.subjects()  # type: ignore[attr-defined]
        found = [j for each in subjects for block in each.blocks for j in block.judged]
        open_ones = [j for j in found if j.judgement.verdict is U]
        assert all(
            (j.judgement.answer_by or j.rule.answer_by) is Role.AREA_OWNER for j in open_ones
        )
        return [j.ask.path for j in open_ones]

    assert asked("") == ["required_epl", "required_epl"]
    assert asked(", required_epl: Gb") == ["required_epl"]
    assert asked(", required_epl: [Gb, Da]") == []


def test_what_leaks_into_a_room_is_thin_unless_it_stays_for_long(ask: Ask) -> None:
    """Vapour at room exposure, by the same level: own reasoning, no source."""
    part = "kind: structural, materials: [{component: seal, material: NBR, exposure: room}]"
    gas = "area: 'Class I, Division 1, Group B', substances: [ethylene oxide], chemicals: none"
    for level, verdict in (("", U), ("Gb", U), ("Ga", F)):
        assert ask("chemical-resistance", part, _at(gas, level), "NEC").verdict is verdict, level
