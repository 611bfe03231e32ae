"""Parts that the protection depends on come off with a tool only."""

from collections.abc import Iterator

from areafit.checks.ignition.role import Motion, motion
from areafit.demands import Demands
from areafit.facts.mechanics import Release
from areafit.facts.part import Body
from areafit.rule import Ask, Example, Family, Judgement, Rule, Subject, flagged, passed, unproven
from areafit.values import Frozen
from areafit.verdict import Reason, Role, Verdict


class Question(Frozen):
    """Whether any protection depends on the part, and what it takes to remove it."""

    protects: bool | None
    release: Release | None


def _ask(body: Body, demands: Demands) -> Iterator[Ask[Question]]:
    """Loose items, and every part that states one of the two."""
    stated = body.protects is not None or body.release is not None
    if demands.classified and (stated or motion(body) is Motion.LOOSE):
        key = "release" if body.release is not None else "protects"
        yield Ask(Question(body.protects, body.release), key)


def _judge(question: Question) -> Judgement:
    required = "a tool, where any protection depends on the part"
    protects = {True: "protects", False: "protects nothing", None: "whether it protects not stated"}
    release = question.release
    how = f"released by {release.value}" if release is not None else "release not stated"
    found = f"{protects[question.protects]}, {how}"
    if release is Release.TOOL:
        return passed("It takes a tool to remove it.", required=required, found=found)
    if question.protects is False:
        return passed("No protection depends on it.", required=required, found=found)
    if question.protects and release is Release.HAND:
        return flagged(
            "Protection depends on this part, and a hand can take it off.",
            required=required,
            found=found,
        )
    return unproven(
        Reason.FACT_MISSING,
        "Whether protection depends on the part, or what it takes to remove it, is not stated.",
        required=required,
        found=found,
    )


TOOL_RELEASE = Rule[Question](
    id="tool-release",
    title="Protecting parts come off with a tool only",
    family=Family.IGNITION,
    subject=Subject.BODY,
    clause="IEC 60079-0:2017 9.1; ISO 80079-36:2016 (removable parts)",
    why="A guard or cover that can be lifted off by hand is missing sooner or later, and the "
    "protection with it.",
    remedy="Fasten it so that a tool is needed and state `release: tool`, or state "
    "`protects: false` if nothing depends on it.",
    answer_by=Role.DESIGNER,
    ask=_ask,
    judge=_judge,
    examples=(
        Example(
            "A screwed guard",
            Verdict.PASS,
            "{kind: structural, protects: true, release: tool}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
        Example(
            "A guard on a pull pin",
            Verdict.FLAG,
            "{kind: structural, protects: true, release: hand}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
        Example(
            "A loose item of which nothing is said",
            Verdict.UNPROVEN,
            "{kind: loose item}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
    ),
)
