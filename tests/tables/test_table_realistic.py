"""Of what designers ask, how much is answered at all and how much by rows that somebody read.

The questions and both shares are the project's own; the shares only ever become better.
"""

import runpy
from collections import Counter
from pathlib import Path

from areafit.verdict import Basis

REALISTIC = runpy.run_path(str(Path(__file__).parent / "realistic.py"))
NO_ANSWER_AT_MOST = 2  # per cent of the questions; the aim is 6
READ_AT_LEAST = 60  # per cent of the questions; the aim is 60


def test_usual_questions_are_answered_by_what_was_read(
    checked: Counter[tuple[str, str]],
) -> None:
    found = list(REALISTIC["questions"]())
    bases = Counter(each.basis for each in found)
    for basis, count in bases.items():
        word = "no answer" if basis is None else basis.value
        checked["resistance", f"usual questions: {word}"] = count
    assert len(found) == 40 * 24
    assert 100 * bases[None] <= NO_ANSWER_AT_MOST * len(found)
    assert 100 * (bases[Basis.SEEN] + bases[Basis.REPORTED]) >= READ_AT_LEAST * len(found)
