"""The finding on a subject of which no requirement could be judged, which is no pass."""

from collections.abc import Iterable
from typing import TYPE_CHECKING

from areafit.findings.report import Block, Finding, Judged, PartReport
from areafit.rule import Ask, Family, Judgement, Rule, Subject, unproven
from areafit.verdict import Reason, Role

if TYPE_CHECKING:
    from areafit.findings.report import SubjectReport

MESSAGE = (
    "No requirement could be judged. That is no pass unless every place of the part is a "
    "documented `unclassified` one with `chemicals: none`."
)


def _ask(_facts: object, _demands: object) -> Iterable[Ask[None]]:
    return (Ask(None),)


def _judge(_question: None) -> Judgement:
    return unproven(
        Reason.NOT_JUDGED,
        MESSAGE,
        required="at least one requirement judged",
        found="none that applies",
    )


# Not in the registry: no part can be asked this, it is what is left when nothing else was.
RULE: "Rule[None]" = Rule(
    id="nothing-judged",
    title="Something was judged of every part",
    family=Family.ASSEMBLY,
    subject=Subject.BODY,
    clause="the project's own rule: pass is earned",
    why="A part to which no requirement applies has not been shown to fit its place.",
    remedy="Check kind, location and materials of the part, and which rules were left out.",
    answer_by=Role.DESIGNER,
    ask=_ask,
    judge=_judge,
    examples=(),
)


_JUDGED = Judged(RULE, Ask(None), _judge(None))


def finding(report: "SubjectReport") -> Finding:
    """That nothing was judged of this subject, at its first place."""
    from areafit.findings.finding import expand  # noqa: PLC0415 - digests load on demand

    return expand(_JUDGED, unjudged_block(report), report.bom, report.name)


def unjudged_block(report: "SubjectReport") -> Block:
    """That nothing was judged, as a block of the subject's own where it stands first."""
    first = report.blocks[0] if report.blocks else None
    if first is not None:
        prefix = first.prefix
    else:
        prefix = report.part.prefix if isinstance(report, PartReport) else ""
    verdict = _JUDGED.judgement.verdict
    return Block((_JUDGED,), verdict, first.place if first else None, prefix)
