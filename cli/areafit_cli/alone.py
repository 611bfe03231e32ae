"""What a question about a single part cannot be about: the machine that it goes into."""

from areafit.findings.report import Answers, BomReport, Judged, SubjectReport
from areafit.values import replace
from areafit.verdict import Verdict, worst

_ASSEMBLY = "assembly-assessment"
_ELSEWHERE = (
    "A single part was asked about, so the assembly was not judged: `areafit check` judges it in "
    "a list."
)


def alone(report: BomReport) -> BomReport:
    """The report of one part, what holds for the assembly said to be not applicable.

    The finding stays in the report with its requirement, so that nobody takes it for met. The
    edition of the rules counts for a single part too.
    """
    own = report.own
    blocks = tuple(replace(block, judged=Answers(map(_left, block.judged))) for block in own.blocks)
    found = SubjectReport(own.name, worst(block.verdict for block in blocks), blocks, own.bom)
    return replace(report, own=found)


def _left(judged: Judged) -> Judged:
    if judged.rule.id != _ASSEMBLY:
        return judged
    judgement = replace(
        judged.judgement,
        verdict=Verdict.NOT_APPLICABLE,
        message=_ELSEWHERE,
        found="one part",
        reason=None,
    )
    return Judged(judged.rule, judged.ask, judgement)
