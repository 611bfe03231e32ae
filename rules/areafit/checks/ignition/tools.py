"""What comes off a part: pins, springs and balls, and guards that only a tool may release."""

from collections.abc import Iterator

from areafit.checks.ignition.assessment import Motion, covered, motion
from areafit.demands import Demands
from areafit.facts.mechanics import LooseParts, Release
from areafit.facts.part import Body
from areafit.rule import Answer, Ask, Example, Family, Judgement, Rule, Subject
from areafit.values import Frozen
from areafit.verdict import Reason, Role, Verdict

_NAMES = frozenset({"spring", "springs", "pin", "pins", "ball", "balls", "clip", "lanyard"})


class LooseMetal(Frozen):
    """What becomes of loose metal; None where it is not stated."""

    loose_parts: LooseParts | None


def _ask_loose(body: Body, demands: Demands) -> Iterator[Ask[LooseMetal]]:
    """Loose items, parts that state it, and unassessed parts with a component of such a name."""
    if not demands.classified:
        return
    stated = body.loose_parts is not None
    named = any(
        _NAMES & set((use.component or "").casefold().split()) for use in body.materials or ()
    )
    unseen = named and not body.equipment.electrical and not covered(body, demands)
    if stated or motion(body) is Motion.LOOSE or unseen:
        yield Ask(LooseMetal(body.loose_parts), "loose_parts")


def _judge_loose(metal: LooseMetal) -> Judgement:
    held = metal.loose_parts
    answer = Answer(
        required="no pin, spring or ball that can fall into an opening or onto moving parts",
        found="not stated" if held is None else held.value,
    )
    if held is None:
        return answer.unproven(
            Reason.FACT_MISSING,
            "What becomes of pins, springs and balls when the part is released is not stated.",
        )
    if held is LooseParts.FREE:
        return answer.flagged(
            "Loose metal can fall into an opening, where it strikes, jams and heats up."
        )
    return answer.passed("Nothing comes loose.")


LOOSE_PARTS = Rule[LooseMetal](
    id="loose-parts",
    title="Springs and pins stay with their part",
    family=Family.IGNITION,
    subject=Subject.BODY,
    clause="EN 1127-1:2019 (friction and impact); ISO 80079-36:2016 6.4; common practice",
    why="A pin or spring that drops into a machine is struck or dragged along by moving parts; "
    "foreign metal is a frequent cause of mechanical sparks.",
    remedy="Hold them by a lanyard or inside a closed housing, and state `loose_parts: captive` "
    "or `contained`.",
    answer_by=Role.DESIGNER,
    ask=_ask_loose,
    judge=_judge_loose,
    examples=(
        Example(
            "A pull pin on a lanyard",
            Verdict.PASS,
            "{kind: loose item, loose_parts: captive}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
        Example(
            "A pull pin over the hopper",
            Verdict.FLAG,
            "{kind: loose item, loose_parts: free}",
            "{area: 'Zone 21, IIIB, T120 °C'}",
        ),
        Example(
            "A spring of which nothing is said",
            Verdict.UNPROVEN,
            "{kind: mechanical, materials: [{component: return spring, material: '302'}]}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
    ),
)


class Removal(Frozen):
    """Whether any protection depends on the part, and what it takes to remove it."""

    protects: bool | None
    release: Release | None


def _ask_removal(body: Body, demands: Demands) -> Iterator[Ask[Removal]]:
    """Loose items, and every part that states one of the two."""
    stated = body.protects is not None or body.release is not None
    if demands.classified and (stated or motion(body) is Motion.LOOSE):
        key = "release" if body.release is not None else "protects"
        yield Ask(Removal(body.protects, body.release), key)


def _judge_removal(removal: Removal) -> Judgement:
    protects = {True: "protects", False: "protects nothing", None: "whether it protects not stated"}
    release = removal.release
    how = "release not stated" if release is None else f"released by {release.value}"
    answer = Answer(
        required="a tool, where any protection depends on the part",
        found=f"{protects[removal.protects]}, {how}",
    )
    if release is Release.TOOL:
        return answer.passed("It takes a tool to remove it.")
    if removal.protects is False:
        return answer.passed("No protection depends on it.")
    if removal.protects and release is Release.HAND:
        return answer.flagged("Protection depends on this part, and a hand can take it off.")
    return answer.unproven(
        Reason.FACT_MISSING,
        "Whether protection depends on the part, or what it takes to remove it, is not stated.",
    )


TOOL_RELEASE = Rule[Removal](
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
    ask=_ask_removal,
    judge=_judge_removal,
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
