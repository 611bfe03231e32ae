"""What a part is, and whether a mechanical part holds anything electrical."""

from collections.abc import Iterator

from areafit.demands import Demands
from areafit.facts.part import Equipment, Kind
from areafit.frozen import frozen
from areafit.rule import Ask, Example, Family, Judgement, Rule, Subject, flagged, passed, unproven
from areafit.verdict import Reason, Role, Verdict


@frozen
class Question:
    """The kinds stated, what the part holds that is electrical, and the codes it bears."""

    kinds: frozenset[Kind]
    electrical_content: str | None
    electrical_codes: bool
    marked: bool


def _ask(equipment: Equipment, demands: Demands) -> Iterator[Ask[Question]]:
    if not demands.classified:
        return
    codes = [code for marking in equipment.markings or () for code in marking.codes]
    electrical = any(not code.non_electrical for code in codes)
    yield Ask(
        Question(equipment.kinds, equipment.electrical_content, electrical, bool(codes)), "kind"
    )


def _judge(question: Question) -> Judgement:  # noqa: PLR0911 - one return for each answer
    found = " and ".join(sorted(kind.value for kind in question.kinds))
    required = "a kind that agrees with the nameplate, and a word on electrical content"
    if Kind.ELECTRICAL in question.kinds:
        if question.marked and not question.electrical_codes and len(question.kinds) == 1:
            return flagged(
                "The part is said to be electrical; its nameplate is for non-electrical equipment.",
                required=required,
                found=found,
            )
        return passed("Electrical: held to the electrical rules.", required=required, found=found)
    content = question.electrical_content
    if Kind.SIMPLE_APPARATUS in question.kinds:
        return passed("Simple apparatus: held to its own limits.", required=required, found=found)
    if question.electrical_codes:
        return flagged(
            "The nameplate is for electrical equipment; the part is not said to be electrical.",
            required=required,
            found=found,
            remedy="State `kind: electrical`; a cable gland, plug or adapter states its `device` "
            "as well.",
        )
    if content == "none" or question.kinds == {Kind.STRUCTURAL}:
        return passed("Nothing electrical inside.", required=required, found=found)
    if content is not None:
        return passed(
            f"Holds {content}: held to the electrical rules as well.",
            required=required,
            found=f"{found}, with {content}",
        )
    return unproven(
        Reason.FACT_MISSING,
        "Whether a coil, switch or sensor is inside or attached is not stated.",
        required=required,
        found=found,
    )


RULE = Rule[Question](
    id="kind",
    title="Electrical content is stated",
    family=Family.AREA,
    subject=Subject.EQUIPMENT,
    clause="NFPA 70-2023 500.1; ISO 80079-36:2016 1",
    why="A valve or cylinder is judged as non-electrical only if no coil, switch or sensor comes "
    "with it; the electrical parts of mechanical items are what lists forget.",
    remedy="State `electrical_content: none`, or name what is inside and give its marking.",
    answer_by=Role.DESIGNER,
    reads=("kinds", "markings", "electrical_content"),
    ask=_ask,
    judge=_judge,
    examples=(
        Example(
            "A cylinder without sensors",
            Verdict.PASS,
            "{kind: mechanical, electrical_content: none}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
        Example(
            "An electrical nameplate on a part called mechanical",
            Verdict.FLAG,
            "{kind: mechanical, marking: Ex mb IIC T4 Gb}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
        Example(
            "A valve, solenoid or not",
            Verdict.UNPROVEN,
            "{kind: mechanical}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
    ),
)
