"""The whole way of 43 bare lines: asked, filled from what is true, read back.

Own design, no source.
"""

import sys
from pathlib import Path
from typing import Any

import pytest

from areafit.verdict import Verdict

sys.path.insert(0, str(Path(__file__).parent))
import whole_proof as proof

LISTS = Path(__file__).parents[1] / "lists43"


@pytest.fixture(scope="module")
def truth() -> dict[str, Any]:
    return proof.true_state((LISTS / "filled.yaml").read_bytes())


def test_answers_bring_back_every_verdict_of_the_true_state(truth: dict[str, Any]) -> None:
    start = proof.written(proof.bare(truth))
    assert len(truth["parts"]) == 43
    data, refused = proof.rounds(start, truth)
    assert not refused
    true, found = (proof.verdicts(proof.judged(each)) for each in (proof.written(truth), data))
    # What nobody needs to know of a documented unclassified place is not asked.
    differ = {
        key: (true.get(key), found.get(key))
        for key in {*true, *found}
        if found.get(key) is not true.get(key)
        and not (true.get(key) is Verdict.PASS and key not in found)
    }
    assert not differ
    again, _ = proof.rounds(data, truth, at_most=1)
    assert again == data


@pytest.mark.parametrize(
    "seed", [0, *(pytest.param(seed, marks=pytest.mark.long) for seed in range(1, 8))]
)
def test_wrong_answers_let_nothing_pass(truth: dict[str, Any], seed: int) -> None:
    """One answer in ten is of a wrong kind: what is not known stays open, nothing turns out better.

    A flag may become unproven, where the fact that it rests on did not come: the gate stays shut.
    """
    start = proof.written(proof.bare(truth))
    data, refused = proof.rounds(start, truth, proof.spoiler(seed, 0.1), at_most=4)
    assert refused
    right, wrong = proof.judged(proof.written(truth)), proof.judged(data)
    true, found = proof.verdicts(right), proof.verdicts(wrong)
    turned = [
        k for k, each in found.items() if each is Verdict.PASS and not true.get(k, each).passes
    ]
    assert not turned
    fits = {part.name for part in right.parts if part.verdict.passes}
    assert {part.name for part in wrong.parts if part.verdict.passes} <= fits
