"""What findings say: short, one fact in the first sentence, in plain English; over many lists.

How short a sentence must be is the project's own choice: a designer reads it once.
"""

import importlib.util
import re
from collections.abc import Iterator
from datetime import date
from pathlib import Path

import pytest

import areafit

DIGESTS = Path(__file__).parents[1] / "digests" / "digests.py"
_LONG = 210  # letters of a first sentence, names included
_STANDS = re.compile(r"\bstands (?!in\b|inside\b|at\b|beside\b|outside\b|on\b|\d)")  # for resists
_WORDS = ("suffers", "is not at most", "papers", " is is ", "(no data)")


@pytest.fixture(scope="module")
def findings() -> list[areafit.Finding]:
    return list(_findings())


def _findings() -> Iterator[areafit.Finding]:
    """Every open finding of some 700 lists: the case sets, examples and generated lists."""
    spec = importlib.util.spec_from_file_location("digests_for_sentences", DIGESTS)
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    options = areafit.Options(as_of=date(2026, 1, 1))
    for _, data in module.lists(small=True):
        report = areafit.judge(areafit.read(data, "x.yaml"), areafit.Tables.shipped(), options)
        for subject in report.subjects():
            yield from subject.open_findings()


def test_first_sentences_are_short(findings: list[areafit.Finding]) -> None:
    assert len({finding.rule.id for finding in findings}) > 50
    for said in {finding.message.partition(". ")[0] for finding in findings}:
        assert len(said) <= _LONG, said


@pytest.mark.parametrize("word", _WORDS)
def test_words_that_puzzle_are_gone(findings: list[areafit.Finding], word: str) -> None:
    """`316L stands sulfuric acid (no data)` says two things, the second takes back the first."""
    for said in {finding.message for finding in findings}:
        assert word not in said, said
        assert _STANDS.search(said) is None, said


def test_every_sentence_ends_and_no_value_is_left_open(findings: list[areafit.Finding]) -> None:
    for finding in findings:
        assert finding.message.rstrip().endswith((".", "?")), finding.message
        for broken in ("None", "..  ", " ,", "{", "  "):
            assert broken not in finding.message, finding.message
