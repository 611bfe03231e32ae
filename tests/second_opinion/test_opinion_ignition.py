"""Mechanical parts as a second reader sees them; ISO 80079-36:2016 from memory."""

from collections.abc import Callable

import pytest

from areafit.rule import Judgement
from areafit.verdict import Role, Verdict

P, F, U = Verdict.PASS, Verdict.FLAG, Verdict.UNPROVEN
Ask = Callable[..., Judgement]
PLACE = "area: 'Zone 1, IIB, T3', ambient: 0..40 °C"
ASSESSED = "kind: mechanical, evidence: [{type: assessment, number: IHA-1}]"
FIGURE = "surface_temperature: {{value: {} °C, at_ambient: 40 °C, case: expected malfunction}}"


def test_an_assessment_without_its_figure_asks_the_designer_to_copy_it(ask: Ask) -> None:
    # ISO 80079-36:2016 6.2: the assessment determines the maximum surface temperature
    said = ask("hot-surface", ASSESSED, PLACE)
    assert (said.verdict, said.answer_by) == (U, Role.DESIGNER)
    assert "Copy" in said.remedy
    plain = ask("hot-surface", "kind: mechanical", PLACE)
    assert (plain.verdict, plain.answer_by) == (U, None)


@pytest.mark.parametrize(("value", "verdict"), [(70, P), (250, F)])
def test_the_figure_decides_with_or_without_an_assessment(
    ask: Ask, value: int, verdict: Verdict
) -> None:
    figure = FIGURE.format(value)
    assert ask("hot-surface", f"{ASSESSED}, {figure}", PLACE).verdict is verdict
    assert ask("hot-surface", f"kind: mechanical, {figure}", PLACE).verdict is verdict


def test_leaving_out_a_figure_that_fails_never_passes(ask: Ask) -> None:
    assert ask("hot-surface", f"{ASSESSED}, {FIGURE.format(250)}", PLACE).verdict is F
    assert ask("hot-surface", ASSESSED, PLACE).verdict is U
