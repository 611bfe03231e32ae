"""What descriptions of CAD exports and purchase lists name in five languages, and what they don't.

The words are common practice of the trade, no source; threads by ISO 261 and round connectors by
IEC 61076-2-101 and -104 (from memory).
"""

import csv
from collections.abc import Callable
from pathlib import Path

import pytest

from areafit.tables.descriptions import DescribedPart, described
from areafit.tables.load import rows
from areafit.verdict import Verdict

P, U = Verdict.PASS, Verdict.UNPROVEN
Say = Callable[..., Verdict]
PART = "kind: mechanical, electrical_content: none, description: '{}'"
Z1 = "area: 'Zone 1, IIB, T3'"
with (Path(__file__).parent / "described_parts.csv").open(encoding="utf-8") as lines:
    CASES = list(csv.DictReader(lines))
ELECTRICAL = [case["description"] for case in CASES if case["electrical"] == "yes"]
MECHANICAL = [case["description"] for case in CASES if case["electrical"] == "no"]


@pytest.mark.parametrize("text", ELECTRICAL)
def test_what_names_something_electrical_is_asked_about(say: Say, text: str) -> None:
    part = PART.format(text.replace("'", "''"))
    assert say("kind", part, Z1) is U, described(text)
    assert say("kind", part.replace("mechanical, electrical_content: none", "electrical"), Z1) is P


@pytest.mark.parametrize("text", MECHANICAL)
def test_what_is_named_after_something_electrical_is_not(say: Say, text: str) -> None:
    assert say("kind", PART.format(text.replace("'", "''")), Z1) is P, described(text)


def test_every_language_has_its_hundreds() -> None:
    found = rows("described_parts", DescribedPart)
    for language in ("en", "de", "fr", "it", "es"):
        assert sum(language in row.languages for row in found) > 300
        cases = [case for case in CASES if case["language"] == language]
        assert {case["electrical"] for case in cases} == {"yes", "no"}


@pytest.mark.parametrize("text", [*ELECTRICAL, *MECHANICAL])
def test_capitals_change_nothing(text: str) -> None:
    assert described(text.upper()) == described(text)
