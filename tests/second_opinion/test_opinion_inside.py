"""What stands inside an enclosure: by `inside`, never by `parent`, if the enclosure counts itself.

IEC 60079-0:2017 13 (components), 29.3; IEC 60079-7:2015 4.10 (IP54 of type e), from memory. That an
enclosure counts only where its own marking, document and rating pass and its document names or
allows what is inside is the project's own reading.
"""

from datetime import date

import pytest

import areafit
from areafit.engine import judge
from areafit.options import Options
from areafit.registry import RULES
from areafit.rule import Judgement
from areafit.tables import Tables
from areafit.verdict import Reason, Verdict

P, F, U, N = Verdict.PASS, Verdict.FLAG, Verdict.UNPROVEN, Verdict.NOT_APPLICABLE
_PLACE = "{area: 'Zone 2, IIB, T3', substances: [ethanol], ambient: 0..40 °C, ingress: IP54}"
_CABINET = (
    "kind: electrical, part_number: CAB-1, marking: Ex ec IIC T4 Gc, ingress: IP65, "
    "evidence: [{type: certificate, number: IECEx ABC 21.0009, covers: CAB-1 with MOD-7}]"
)
_MODULE = (
    "kind: electrical, part_number: MOD-7, marking: Ex ec IIC T4 Gc -25°C ≤ Ta ≤ +60°C, "
    "ingress: IP20, evidence: [{type: certificate, number: IECEx ABC 21.0010X, conditions: "
    "[{text: in an enclosure of IP54, met_by: cabinet, document: DN-1, role: designer}]}]"
)
_INSIDE = "inside: cabinet, inside_ambient: 0..55 °C"


def _asked(
    rule: str, more: str = _INSIDE, module: str = _MODULE, cabinet: str = _CABINET, place: str = ""
) -> Judgement:
    text = (
        "areafit: 1\nassembly: {number: T-1}\ncode: IEC\n"
        f"locations:\n  room: {_PLACE}\n  yard: {_PLACE}\n"
        f"parts:\n  - {{item: module, location: {place or 'room'}, {module}, {more}}}\n"
        f"  - {{item: cabinet, location: room, {cabinet}}}\n"
    )
    options = Options(as_of=date(2026, 1, 1), only=frozenset({rule}))
    report = judge(areafit.read(text.encode(), "t.yaml"), Tables.shipped(), options)
    blocks = report.parts[0].blocks
    found = [each.judgement for block in blocks for each in block.judged if each.rule.id == rule]
    order = list(Verdict)
    silent = Judgement(N, "")
    return min(found, key=lambda each: order.index(each.verdict), default=silent)


def test_a_module_in_a_cabinet_that_counts() -> None:
    for rule in ("protection-level", "gas-group", "temperature-class", "ambient-range", "ingress"):
        assert _asked(rule).verdict is P, rule
    assert _asked("cable-entry").verdict is N
    assert _asked("special-conditions").verdict is P


@pytest.mark.parametrize(
    ("cabinet", "why"),
    [
        (_CABINET.replace("IP65", "IP44"), "ingress"),
        (_CABINET.replace("ingress: IP65, ", ""), "rating"),
        (_CABINET.replace("Ex ec IIC T4 Gc", "none"), "no enclosure"),
        (_CABINET.replace("Ex ec IIC T4 Gc", "Ex ia IIC T4 Ga"), "no enclosure"),
        (_CABINET.replace("Ex ec IIC T4 Gc", "Ex ec IIA T4 Gc"), "gas-group"),
        (_CABINET.replace("Ex ec IIC T4 Gc", "Ex ec IIC T1 Gc"), "temperature-class"),
        (_CABINET.replace("Ex ec IIC T4 Gc", "Ex ec IIC T4 Gc Ta ≤ 30°C"), ""),
        (_CABINET.replace("Ex ec IIC T4 Gc", "Ex ec IIC Gc U"), ""),
        (_CABINET.replace("21.0009", "21.0009X"), "special-conditions"),
        (_CABINET.replace(", number: IECEx ABC 21.0009", ""), "evidence"),
        (_CABINET.replace("covers:", "valid_until: 2020-01-01, covers:"), "evidence"),
        (_CABINET.replace("CAB-1 with MOD-7", "CAB-1"), "names"),
        (_CABINET.replace("CAB-1 with MOD-7", "CAB-1 with MOD-70"), "names"),
        (_CABINET.replace("CAB-1 with MOD-7", "MOD-7"), "evidence"),  # not the cabinet's own
        (
            _CABINET.replace("kind: electrical", "kind: electrical, entries: [{type: open hole}]"),
            "",
        ),
        ("kind: structural, ingress: IP65", "no enclosure"),
    ],
)
def test_a_cabinet_that_does_not_count_protects_nothing(cabinet: str, why: str) -> None:
    assert _asked("ingress", cabinet=cabinet).verdict is F
    component = _MODULE.replace("Ex ec IIC T4 Gc -25°C ≤ Ta ≤ +60°C", "Ex ec IIC Gc U")
    told = _asked("ex-component", module=component, cabinet=cabinet)
    assert told.verdict is U
    titles = {rule.id: f"“{rule.title}” is not met" for rule in RULES}
    assert titles.get(why, why) in told.message


def test_a_parent_protects_nothing() -> None:
    for more in ("parent: cabinet", "parent: cabinet, inside_ambient: 0..55 °C"):
        assert _asked("ingress", more).verdict is F
        component = _MODULE.replace("Ex ec IIC T4 Gc -25°C ≤ Ta ≤ +60°C", "Ex ec IIC Gc U")
        told = _asked("ex-component", more, component)
        assert told.verdict is U
        assert "inside" in told.remedy
    assert _asked("ingress", "parent: cabinet, " + _INSIDE).verdict is P


def test_an_enclosure_at_another_place_protects_nothing() -> None:
    assert _asked("ingress", place="yard").verdict is F
    assert _asked("ingress", place="[room, yard]").verdict is F


def test_a_condition_that_is_met_may_allow_what_is_inside() -> None:
    allowed = _CABINET.replace(
        "21.0009, covers: CAB-1 with MOD-7",
        "21.0009X, conditions: [{text: only type ec components inside, met_by: list, "
        "document: DN-2}]",
    )
    assert _asked("ingress", cabinet=allowed).verdict is P
    for less in ("document: DN-2", "met_by: list, "):
        assert _asked("ingress", cabinet=allowed.replace(less, "role: designer, ")).verdict is F
    other = allowed.replace("only type ec components inside", "protect from impact")
    assert _asked("ingress", cabinet=other).verdict is F
    # what bears no protection of its own must be named
    component = _MODULE.replace("Ex ec IIC T4 Gc -25°C ≤ Ta ≤ +60°C", "Ex ec IIC Gc U")
    assert _asked("ex-component", module=component, cabinet=allowed).verdict is U
    assert _asked("ex-component", module=component).verdict is P


@pytest.mark.parametrize(
    ("stated", "verdict", "reason"),
    [
        ("inside: cabinet", U, Reason.FACT_MISSING),
        ("inside: cabinet, inside_ambient: 0..60 °C", P, None),
        ("inside: cabinet, inside_ambient: 0..61 °C", F, None),
        ("inside: cabinet, inside_ambient: -30..50 °C", F, None),
        ("inside_ambient: 0..90 °C", P, None),  # of what would stand in it
    ],
)
def test_the_air_inside_is_what_the_part_stands_in(
    stated: str, verdict: Verdict, reason: Reason | None
) -> None:
    # IEC 60079-0:2017 5.1.1: the ambient is that at the equipment
    said = _asked("ambient-range", stated)
    assert (said.verdict, said.reason) == (verdict, reason)


def test_the_enclosure_may_state_its_air_and_the_widest_counts() -> None:
    cabinet = f"{_CABINET}, inside_ambient: 0..65 °C"
    assert _asked("ambient-range", "inside: cabinet", cabinet=cabinet).verdict is F
    assert _asked("ambient-range", _INSIDE, cabinet=cabinet).verdict is F
    milder = f"{_CABINET}, inside_ambient: 0..50 °C"
    assert _asked("ambient-range", "inside: cabinet", cabinet=milder).verdict is P
    assert _asked("ambient-range", _INSIDE, cabinet=milder).verdict is P


def test_a_class_holds_at_the_air_inside() -> None:
    # IEC 60079-0:2017 29.3: classes by ambient
    by_air = _MODULE.replace(
        "Ex ec IIC T4 Gc -25°C ≤ Ta ≤ +60°C", "'Ex ec IIC T4 (Ta ≤ 40 °C) T2 (Ta ≤ 60 °C) Gc'"
    )
    assert (
        _asked("temperature-class", "inside: cabinet, inside_ambient: 0..40 °C", by_air).verdict
        is P
    )
    assert _asked("temperature-class", _INSIDE, by_air).verdict is F


_BARE = "kind: electrical, part_number: MOD-7, marking: none, ambient: -25..60 °C, ingress: IP20"


def test_what_bears_no_marking_is_answered_by_the_enclosure_that_names_it() -> None:
    for rule in ("protection-level", "gas-group", "temperature-class", "ambient-range"):
        assert _asked(rule, module=_BARE).verdict is P, rule
    assert "item cabinet" in _asked("protection-level", module=_BARE).message
    assert _asked("protection-level", "parent: cabinet", _BARE).verdict is F
    unnamed = _CABINET.replace("CAB-1 with MOD-7", "CAB-1")
    assert _asked("protection-level", module=_BARE, cabinet=unnamed).verdict is F
    hot = "inside: cabinet, inside_ambient: 0..70 °C"
    assert _asked("ambient-range", hot, _BARE).verdict is F
    silent = _BARE.replace("ambient: -25..60 °C, ", "")
    assert _asked("ambient-range", module=silent).verdict is U


def test_references_of_inside_must_lead_somewhere() -> None:
    with pytest.raises(areafit.InputErrors, match="no part has the item `cabnet`"):
        _asked("ingress", "inside: cabnet")
    with pytest.raises(areafit.InputErrors, match="inside itself"):
        _asked("ingress", "inside: module")
    with pytest.raises(areafit.InputErrors, match="inside itself"):
        _asked("ingress", cabinet=f"{_CABINET}, inside: module")


def test_an_unmarked_part_is_told_what_its_enclosure_lacks() -> None:
    """Whether contacts arc in it is no matter inside a purged enclosure that counts (NFPA 496)."""
    place = "{area: 'Class I, Division 2, Group D', substances: [acetone], ambient: 0..40 °C}"
    cabinet = (
        "kind: electrical, part_number: CAB-1, marking: 'Class I, Division 2, Groups C, D T4, "
        "Type Z purge', pressurization: {contents: general purpose, on_loss: alarm}, "
        "inside_ambient: 0..50 °C, "
        "evidence: [{type: listing, number: E-9, covers: CAB-1 with RL-1}]"
    )
    relay = (
        "kind: electrical, part_number: RL-1, marking: none, device: relay, arcing: true, "
        "contact_protection: none, inside: cabinet"
    )
    for rating, expected, said in (
        (", ingress: Type 12", P, "It stands inside item cabinet"),
        ("", U, "its enclosure rating is not stated"),
    ):
        text = (
            "areafit: 1\nassembly: {number: T-1}\ncode: NEC\n"
            f"locations:\n  room: {place}\n"
            f"parts:\n  - {{item: relay, location: room, {relay}}}\n"
            f"  - {{item: cabinet, location: room, {cabinet}{rating}}}\n"
        )
        asked = frozenset({"protection-level", "protection-type"})
        options = Options(as_of=date(2026, 1, 1), only=asked)
        report = judge(areafit.read(text.encode(), "t.yaml"), Tables.shipped(), options)
        [found] = report.parts[0].findings()  # the purge is asked of the cabinet alone
        assert found.verdict is expected
        assert said in found.message


_PANEL = (
    "kind: electrical, part_number: CAB-1, marking: 'Class I, Division 1, Groups C, D T4, Type {} "
    "purge', ingress: Type 12, pressurization: {{contents: {}, on_loss: power cut}}, "
    "inside_ambient: 0..50 °C, evidence: [{{type: listing, number: E-9, covers: CAB-1 with IN-1}}]"
)
_OPEN_RELAY = "marking: none, device: relay, arcing: true, contact_protection: none"
_SEALED = _OPEN_RELAY.replace("protection: none", "protection: hermetically sealed")
_DIVISION_2 = "marking: 'Class I, Division 2, Groups C, D T4 Ta 60 °C'"


@pytest.mark.parametrize(
    ("purge", "contents", "inner", "expected"),
    [
        ("X", "general purpose", _OPEN_RELAY, P),
        ("X", "general purpose", _DIVISION_2, P),
        ("Y", "Division 2", _OPEN_RELAY, F),
        ("Y", "Division 2", _SEALED, P),
        ("Y", "Division 2", _DIVISION_2, P),
        ("Y", "Division 2", "marking: none", U),
    ],
)
def test_what_stands_in_a_purge(purge: str, contents: str, inner: str, expected: Verdict) -> None:
    """NFPA 496, a maker's page: X to unclassified; Y to Division 2, which contents must suit."""
    place = (
        "{area: 'Class I, Division 1, Group D', substances: [acetone], ambient: 0..40 °C, "
        "required_epl: Gb}"
    )
    text = (
        "areafit: 1\nassembly: {number: T-1}\ncode: NEC\n"
        f"locations:\n  room: {place}\n"
        f"parts:\n  - {{item: inner, location: room, kind: electrical, part_number: IN-1, {inner}, "
        "inside: cabinet}\n"
        f"  - {{item: cabinet, location: room, {_PANEL.format(purge, contents)}}}\n"
    )
    options = Options(as_of=date(2026, 1, 1), only=frozenset({"protection-level"}))
    report = judge(areafit.read(text.encode(), "t.yaml"), Tables.shipped(), options)
    assert [each.verdict for each in report.parts[0].findings()] == [expected]


def test_a_terminal_in_a_box_that_does_not_name_it_is_asked_once() -> None:
    """IEC 60079-0:2017 13, from memory: a component has no rating of its own to fail by."""
    terminal = "kind: electrical, part_number: MOD-7, marking: Ex eb IIC Gb U, ingress: IP20"
    nameless = _CABINET.replace(" with MOD-7", "")
    assert _asked("ex-component", module=terminal, cabinet=nameless).verdict in {U, F}
    assert _asked("ingress", module=terminal, cabinet=nameless).verdict is N
    assert _asked("ingress", module=terminal).verdict is P
    assert _asked("ingress", module=terminal.replace(" U,", ","), cabinet=nameless).verdict is F
