"""Springs, balls and pull pins: what becomes of them when a part is released or breaks."""

from collections.abc import Iterator

from areafit.checks.ignition.role import Motion, motion
from areafit.checks.ignition.shown import covered
from areafit.demands import Demands
from areafit.facts.mechanics import LooseParts
from areafit.facts.part import Body
from areafit.rule import Ask, Example, Family, Judgement, Rule, Subject, flagged, passed, unproven
from areafit.values import Frozen
from areafit.verdict import Reason, Role, Verdict

_NAMES = frozenset({"spring", "springs", "pin", "pins", "ball", "balls", "clip", "lanyard"})


class Question(Frozen):
    """What becomes of loose metal; None where it is not stated."""

    loose_parts: LooseParts | None


def _ask(body: Body, demands: Demands) -> Iterator[Ask[Question]]:
    """Loose items, parts that state it, and unassessed parts with a component of such a name."""
    if not demands.classified:
        return
    stated = body.loose_parts is not None
    named = any(
        _NAMES & set((use.component or "").casefold().split()) for use in body.materials or ()
    )
    unseen = named and not body.equipment.electrical and not covered(body, demands)
    if stated or motion(body) is Motion.LOOSE or unseen:
        yield Ask(Question(body.loose_parts), "loose_parts")


def _judge(question: Question) -> Judgement:
    required = "no pin, spring or ball that can fall into an opening or onto moving parts"
    match question.loose_parts:
        case None:
            return unproven(
                Reason.FACT_MISSING,
                "What becomes of pins, springs and balls when the part is released is not stated.",
                required=required,
                found="not stated",
            )
        case LooseParts.FREE:
            return flagged(
                "Loose metal can fall into an opening, where it strikes, jams and heats up.",
                required=required,
                found="free",
            )
        case held:
            return passed("Nothing comes loose.", required=required, found=held.value)


LOOSE_PARTS = Rule[Question](
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
    ask=_ask,
    judge=_judge,
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
