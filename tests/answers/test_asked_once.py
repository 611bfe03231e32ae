"""What a first-time user was asked without need, or told without what to do: by rule, not by case.

The lists are invented. IEC 60079-0:2017 3.17 and Annex A for glands, IEC 60529 for digits of
immersion, 2014/34/EU Annex II 1.0.5 for the category on a plate, all from memory; else own design,
no source.
"""

from datetime import date

import pytest

import areafit
from areafit.answers.causes import CauseKind, causes
from areafit.answers.questions import questions
from areafit.findings.report import BomReport, Finding
from areafit.verdict import Verdict

HEAD = """\
areafit: 1
assembly: {number: T-9, assessment: IHA-9}
code: LAW
locations:
  head:
    area: AREA
    document: AC-1
    substances: ethanol
    ambient: 5..40 °C
    ingress: RATING
    chemicals: none
parts:
"""


def _report(
    line: str, law: str = "IEC", area: str = "Zone 1, IIB, T3", rating: str = "IP65"
) -> BomReport:
    head = HEAD.replace("LAW", law).replace("AREA", area).replace("RATING", rating)
    return areafit.judge(
        areafit.read((head + f'  - {{item: "1", location: head, {line}}}\n').encode(), "t.yaml"),
        areafit.Tables.shipped(),
        areafit.Options(as_of=date(2026, 1, 1)),
    )


def _found(report: BomReport, rule: str) -> Finding:
    return next(f for p in report.parts for f in p.findings() if f.rule.id == rule)


def _asked(report: BomReport) -> set[str]:
    return {one.key for one in questions(report)}


ELECTRICAL = "kind: electrical, marking: Ex eb IIC Gb, evidence: [{type: certificate, number: C 1}]"


@pytest.mark.parametrize(
    "name", ["Kabelverschraubung M20", "Cable gland", "presse-étoupe", "pressacavo", "prensaestopa"]
)
def test_what_is_called_a_gland_is_asked_whether_it_is_one(name: str) -> None:
    """And neither how hot it is nor what closes it; nothing passes by the name."""
    report = _report(f"description: {name}, {ELECTRICAL}")
    entry, heat = _found(report, "cable-entry"), _found(report, "temperature-class")
    assert entry.verdict is heat.verdict is Verdict.UNPROVEN
    assert "`device: cable gland`" in entry.remedy
    assert "`device: cable gland`" in heat.remedy
    assert "part.device" in _asked(report)
    assert "part.entries" not in _asked(report)
    stated = _report(f"description: {name}, device: cable gland, {ELECTRICAL}")
    assert _found(stated, "temperature-class").verdict is Verdict.PASS


@pytest.mark.parametrize(
    "line",
    [
        "description: Getriebemotor, kind: electrical, marking: Ex db eb IIC T4 Gb",
        "description: Junction box, kind: electrical, marking: Ex eb IIC T6 Gb",
        "device: junction box, kind: electrical, marking: Ex eb IIC T6 Gb",
    ],
)
def test_what_is_something_else_is_not_asked_which_fitting_it_is(line: str) -> None:
    report = _report(line)
    assert "gland" not in _found(report, "cable-entry").remedy
    assert "part.device" not in _asked(report)
    assert "part.entries" in _asked(report)


def test_what_may_be_a_fitting_is_asked_both() -> None:
    report = _report(ELECTRICAL)
    assert "cable gland" in _found(report, "cable-entry").remedy


def test_of_two_ways_to_answer_one_question_is_made() -> None:
    report = _report(
        "kind: structural, description: Cover, exposure: room, contacts: none, "
        "materials: [{material: POM-C}]"
    )
    told = [one.what for one in causes(report) if one.kind is CauseKind.ANSWER]
    (surface,) = (one for one in told if "free surface" in one)
    assert surface.startswith("How large is its greatest free surface, or which resistance does")


def test_whether_a_motor_is_fed_by_an_inverter_asks_no_document_yet() -> None:
    motor = "description: Motor, kind: electrical, marking: Ex db IIC T4 Gb"
    report = _report(f"{motor}, evidence: [{{type: certificate, number: IECEx QQQ 19.0001}}]")
    told = [one.what for one in causes(report)]
    (asked,) = (one for one in told if "inverter" in one)
    assert asked == "Is the motor fed by an inverter?"


@pytest.mark.parametrize("rating", ["IP67", "IP68", "IP69"])
def test_immersion_is_told_to_be_no_jets_in_the_first_sentence(rating: str) -> None:
    """The short reports print the first sentence alone."""
    found = _found(_report(f"ingress: {rating}, {ELECTRICAL}"), "ingress")
    assert found.verdict is Verdict.FLAG
    assert "no jets" in found.message.partition(". ")[0]
    assert "jets" not in _found(_report(f"ingress: IP54, {ELECTRICAL}"), "ingress").message


def test_a_plate_without_its_category_is_told_to_be_copied_whole_first() -> None:
    found = _found(_report(ELECTRICAL, law="ATEX"), "protection-level")
    assert found.verdict is Verdict.FLAG
    assert found.remedy.startswith("Copy the category from the nameplate into `marking`")
    assert "category 2G or better" in found.remedy


@pytest.mark.parametrize(
    ("stated", "asked", "other"),
    [
        ("drop_height: none", "end_stops", "drop_height"),
        ("end_stops: none", "drop_height", "end_stops"),
    ],
)
def test_of_falls_and_blows_only_what_is_missing_is_asked(
    stated: str, asked: str, other: str
) -> None:
    found = _found(_report(f"kind: mechanical, electrical_content: none, {stated}"), "impact")
    assert found.verdict is Verdict.UNPROVEN
    assert f"`{asked}: none`" in found.remedy
    assert other not in found.remedy


def test_an_area_that_cannot_be_read_is_asked_about_by_its_words() -> None:
    told = [one.what for one in causes(_report(ELECTRICAL, area="Danger Area 51"))]
    assert any("'Danger Area 51'" in one for one in told)
    assert not any("How does the area classification" in one for one in told)


def test_a_rating_of_the_place_that_cannot_be_read_is_asked_about_by_its_words() -> None:
    told = [one.what for one in causes(_report(f"ingress: IP65, {ELECTRICAL}", rating="4"))]
    assert any("could not be read: '4'" in one for one in told)
    assert not any("Which enclosure rating does the place" in one for one in told)
