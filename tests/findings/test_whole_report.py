"""What a report says as a whole: its subjects, what is open, and whether a date decided."""

from collections.abc import Callable

import pytest

from areafit.findings.report import BomReport
from areafit.verdict import worst

Judged = Callable[..., BomReport]
ENDS = "evidence: [{type: certificate, number: E-2, valid_until: 2030-01-31}]"


def test_every_subject_stands_once_the_list_itself_first(judged: Judged) -> None:
    report = judged()
    names = [subject.name for subject in report.subjects()]
    assert names == ["T-1", "head", "office", "10", "20", "30", "L-1"]
    assert report.passes == worst(each.verdict for each in report.subjects()).passes


def test_what_is_open_is_what_holds_the_gate(judged: Judged) -> None:
    for subject in judged().subjects():
        found = [each.fingerprint for each in subject.open_findings()]
        kept = [each.fingerprint for each in subject.findings() if not each.verdict.passes]
        assert found == kept
        assert bool(found) == (not subject.verdict.passes)


@pytest.mark.parametrize(
    ("more", "decided"),
    [
        ("", False),
        (ENDS, True),
        ("alternates: [{part_number: PN-9}]", False),
        (f"alternates: [{{part_number: PN-9, {ENDS}}}]", True),
    ],
)
def test_a_date_decides_where_any_document_ends(
    judged: Judged, small: str, more: str, *, decided: bool
) -> None:
    line = '  - {item: "20", location: [head, office], kind: structural'
    report = judged(small.replace(line, f"{line}, {more}" if more else line))
    assert report.decided_by_date is decided
