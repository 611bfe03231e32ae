"""Types of protection that the hazard and the area accept."""

from areafit.checks.area.ask import per_hazard
from areafit.checks.area.candidates import Chosen
from areafit.checks.area.question import TypeQuestion
from areafit.checks.area.technique import judge_type
from areafit.rule import Example, Family, Rule, Subject
from areafit.verdict import Role, Verdict


def _pick(choice: Chosen) -> TypeQuestion | None:
    """Nothing to ask of a part without a code for the hazard: `protection-level` says so."""
    return choice.technique if choice.code is not None else None


PROTECTION_TYPE = Rule[TypeQuestion](
    id="protection-type",
    title="Type of protection suits hazard, area and equipment",
    family=Family.AREA,
    subject=Subject.EQUIPMENT,
    clause="NFPA 70-2023 500.7, 505.8, 506.8; IEC 60079-14:2013 5.4; IEC 60079-0:2017 29",
    why="How a part is protected decides what else it needs: a purge needs suitable contents and "
    "an action on loss, and letters for gas say nothing of dust.",
    remedy="Choose a part with a type of protection for this place, or state what its type asks.",
    answer_by=Role.SUPPLIER,
    note="Type Y and py take Division 1 or Zone 1 to Division 2 or Zone 2 only, so what stands "
    "inside must suit that; a public page that says unclassified is wrong.",
    ask=per_hazard(_pick),
    judge=judge_type,
    examples=(
        Example(
            "Type X purge with power cut off on loss",
            Verdict.PASS,
            "{kind: electrical, marking: 'Class I, Division 1, Type X pressurization', "
            "pressurization: {contents: general purpose, on_loss: power cut}}",
            "{area: 'Class I, Division 1, Group D'}",
            "NEC",
        ),
        Example(
            "Type Y purge around general-purpose contents",
            Verdict.FLAG,
            "{kind: electrical, marking: 'Type Y pressurization, contents general purpose'}",
            "{area: 'Class I, Division 1, Group D'}",
            "NEC",
        ),
        Example(
            "A constructional-safety code on a motor",
            Verdict.FLAG,
            "{kind: electrical, marking: II 2G Ex h IIB T4 Gb}",
            "{area: 'Zone 1, IIB, T3'}",
            "ATEX",
        ),
        Example(
            "Pressurized, and nothing said of contents or loss",
            Verdict.UNPROVEN,
            "{kind: electrical, marking: Ex pxb IIC T4 Gb}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
    ),
)
