"""A name may mean several materials or chemicals: all are judged and the worst governs."""

from collections.abc import Iterable

from areafit.rule import Judgement
from areafit.verdict import Verdict, worst


def most_severe(found: Iterable[Judgement]) -> Judgement:
    """The first judgement of the worst verdict; there must be one at least."""
    listed = tuple(found)
    decisive: Verdict = worst(one.verdict for one in listed)
    return next(one for one in listed if one.verdict is decisive)
