"""Sources that contradict each other: the more onerous governs, and the finding shows both."""

from collections.abc import Callable
from datetime import date

import pytest

import areafit
from areafit.verdict import Verdict

F, P = Verdict.FLAG, Verdict.PASS
Say = Callable[..., Verdict]


def _sources(rule: str, marking: str, substance: str, area: str, law: str) -> tuple[str, ...]:
    text = (
        f"areafit: 1\nassembly: {{number: M-1}}\ncode: {law}\n"
        f"locations: {{here: {{area: '{area}', substances: [{substance}]}}}}\n"
        f"parts: [{{item: '1', location: here, kind: electrical, marking: {marking}}}]\n"
    )
    bom = areafit.read(text.encode(), "x.yaml")
    options = areafit.Options(as_of=date(2026, 1, 1), only=frozenset({rule}))
    report = areafit.judge(bom, areafit.Tables.shipped(), options)
    return next(
        finding.sources for finding in report.parts[0].findings() if finding.rule.id == rule
    )


@pytest.mark.parametrize(
    ("substance", "place", "milder", "governing"),
    [
        # PUE Table 7.3.3 of 1980: IIB; IIA is recalled of IEC 60079-20-1
        ("diesel fuel", ("Zone 1", "IEC"), "Ex db IIA T3 Gb", "Ex db IIB T3 Gb"),
        # a supplier's list with MESG limits: C; a web list of NEC groups: D
        (
            "cyclopropane",
            ("Class I, Division 1", "NEC"),
            "'Class I, Division 1, Group D T1'",
            "'Class I, Division 1, Group C T1'",
        ),
    ],
)
def test_of_two_groups_the_more_onerous_is_asked_for_and_the_other_shown(
    say: Say, substance: str, place: tuple[str, str], milder: str, governing: str
) -> None:
    area, law = place
    here = f"area: '{area}', substances: [{substance}]"
    assert say("gas-group", f"kind: electrical, marking: {milder}", here, law) is F
    assert say("gas-group", f"kind: electrical, marking: {governing}", here, law) is P
    for marking in (milder, governing):
        shown = _sources("gas-group", marking, substance, area, law)
        assert len(shown) == 2
        assert ["disputed, the stricter row governs" in one for one in shown] == [False, True]


@pytest.mark.parametrize(
    ("substance", "too_hot", "fits"),
    [
        # the class is printed in PUE Table 7.3.3 of 1980, 450 and 200 °C are its upper ends
        ("propylene", "T1", "T2"),
        ("methyl acrylate", "T1", "T2"),
        ("propionic acid", "T1", "T2"),
        ("n-butyraldehyde", "T3", "T4"),
        # far from the border the two lists of today hold: 260 °C is T3
        ("hydrogen sulfide", "T2", "T3"),
    ],
)
def test_a_class_at_its_border_is_judged_by_the_lower_value(
    say: Say, substance: str, too_hot: str, fits: str
) -> None:
    place = f"area: Zone 1, substances: [{substance}]"
    part = "kind: electrical, marking: Ex db IIC {} Gb"
    assert say("temperature-class", part.format(too_hot), place, "IEC") is F
    assert say("temperature-class", part.format(fits), place, "IEC") is P
