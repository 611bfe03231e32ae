"""Verdicts counted, and the basis that passes rest on."""

from collections import Counter
from collections.abc import Sequence

from areafit.findings.report import Counts, SubjectReport
from areafit.verdict import Basis, Verdict


def count(
    own: SubjectReport,
    parts: Sequence[SubjectReport],
    places: Sequence[SubjectReport],
    loops: Sequence[SubjectReport],
) -> Counts:
    """Count subjects by verdict, and passing findings by the weakest row they rest on.

    A pass that rests on no table row counts by the basis of its clause.
    """
    basis: Counter[Basis] = Counter(dict.fromkeys(Basis, 0))
    shared = Counter(
        block.judged for subject in (own, *parts, *places, *loops) for block in subject.blocks
    )
    for answers, times in shared.items():
        for each, passes in answers.by_basis.items():
            basis[each] += passes * times
    return Counts(_by_verdict(parts), _by_verdict(places), _by_verdict(loops), dict(basis))


def _by_verdict(subjects: Sequence[SubjectReport]) -> dict[Verdict, int]:
    found = Counter(subject.verdict for subject in subjects)
    return {verdict: found[verdict] for verdict in Verdict}
