"""What a part is, whether a mechanical part holds anything electrical, and what it is called."""

from collections.abc import Iterator

from areafit.demands import Demands
from areafit.facts.part import Equipment, Kind
from areafit.frozen import frozen
from areafit.rule import (
    Ask,
    Example,
    Family,
    Judgement,
    Row,
    Rule,
    Subject,
    flagged,
    passed,
    unproven,
)
from areafit.tables.described import DescribedPart, Says, described
from areafit.verdict import Reason, Role, Verdict


@frozen
class Question:
    """The kinds stated, what the part holds that is electrical, and the codes it bears.

    `told` is the word of the description that tells most of what the part is.
    """

    kinds: frozenset[Kind]
    electrical_content: str | None
    electrical_codes: bool
    marked: bool
    told: DescribedPart | None = None


def _ask(equipment: Equipment, demands: Demands) -> Iterator[Ask[Question]]:
    if not demands.classified:
        return
    codes = [code for marking in equipment.markings or () for code in marking.codes]
    electrical = any(not code.non_electrical for code in codes)
    told = described(equipment.description) if equipment.description else None
    yield Ask(
        Question(equipment.kinds, equipment.electrical_content, electrical, bool(codes), told),
        "kind",
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
    contradicted = _contradicted(question, required, found)
    if contradicted is not None:
        return contradicted
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


def _contradicted(question: Question, required: str, found: str) -> Judgement | None:
    """What the description says that the kind, or what is said of electrical content, does not."""
    told, content = question.told, question.electrical_content
    if told is None:
        return None
    electrical = told.says is Says.ELECTRICAL and content in {None, "none"}
    moving = told.says is Says.MOVING and question.kinds == {Kind.STRUCTURAL}
    if not (electrical or moving):
        return None
    what = "something electrical" if electrical else "something with moving parts"
    kinds = "`kind: electrical`" if electrical else "`kind: mechanical`"
    key = f"{told.word}: {told.says.value}"
    return unproven(
        Reason.FACT_MISSING,
        f"The description speaks of {what} ({told.word}); the kind stated does not.",
        required=required,
        found=f"{found}, described as {told.word}",
        remedy=f"State {kinds} with what that asks for; if the part is something else, say so in "
        "the description: a bracket for a motor, an air motor.",
        rows=(Row.of("described_parts", key, told),),
    )


RULE = Rule[Question](
    id="kind",
    title="Electrical content is stated, and kind and description agree",
    family=Family.AREA,
    subject=Subject.EQUIPMENT,
    clause="NFPA 70-2023 500.1; 2014/34/EU Art. 1; ISO 80079-36:2016 1",
    why="A valve or cylinder is judged as non-electrical only if no coil, switch or sensor comes "
    "with it; the electrical parts of mechanical items are what lists forget.",
    remedy="State `electrical_content: none`, or name what is inside and give its marking.",
    answer_by=Role.DESIGNER,
    note="`kind: structural` says by itself that nothing electrical and nothing that moves is "
    "there, so brackets and screws are not asked for `electrical_content`. A description that "
    "names a motor, a valve or a sensor takes that back; the words are common practice, no source.",
    reads=("kinds", "markings", "electrical_content", "description"),
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
            "A gear motor that is called structural",
            Verdict.UNPROVEN,
            "{kind: structural, description: Gear motor 0.37 kW}",
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
