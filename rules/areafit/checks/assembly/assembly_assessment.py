"""Somebody has assessed the parts together, as one machine."""

from collections.abc import Iterator

from areafit.facts.bom import Bom
from areafit.facts.place import Place
from areafit.rule import Ask, Example, Family, Judgement, Rule, Subject, passed, unproven
from areafit.tables.words import is_placeholder
from areafit.values import Frozen
from areafit.verdict import Reason, Role, Verdict


class Question(Frozen):
    """The document that assesses the assembly; None where none is named."""

    assessment: str | None


def _ask(bom: Bom, demands: object) -> Iterator[Ask[Question]]:
    """Lists with a classified place; an area that is not stated or not read may be one."""
    del demands
    if any(_may_be_classified(place) for place in bom.places.values()):
        yield Ask(Question(bom.assembly.assessment), "assembly/assessment")


def _may_be_classified(place: Place) -> bool:
    reading = place.area
    if reading is None or reading.problems or not reading.areas:
        return True
    return any(area.classified for area in reading.areas)


def _judge(question: Question) -> Judgement:
    required = "the ignition hazard assessment of the assembly, by name"
    if question.assessment is None or is_placeholder(question.assessment):
        return unproven(
            Reason.FACT_MISSING,
            "Conforming parts are not a conforming machine: no assessment of the assembly is "
            "named.",
            required=required,
            found=question.assessment or "not stated",
        )
    return passed(
        "The assembly has an assessment of its own.",
        required=required,
        found=question.assessment,
    )


ASSEMBLY_ASSESSMENT = Rule[Question](
    id="assembly-assessment",
    title="The assembly as a whole is assessed",
    family=Family.ASSEMBLY,
    subject=Subject.BOM,
    clause="ISO 80079-36:2016 5.2; ISO 80079-37:2016; IEC TS 60079-46:2017",
    why="Parts that are each fit can light the atmosphere together: one heats or strikes another, "
    "an isolated bracket charges, a cable or a seal undoes a type of protection.",
    remedy="Assess the ignition hazards of the assembly and name the document in "
    "`assembly: {assessment: …}`.",
    answer_by=Role.DESIGNER,
    note="Whether the assembly needs its own certificate, declaration or listing is for local "
    "law and the authority having jurisdiction.",
    ask=_ask,
    judge=_judge,
    examples=(
        Example(
            "A machine that was assessed as a whole",
            Verdict.PASS,
            "{kind: structural}",
            "{area: 'Zone 1, IIB, T3'}",
            assembly="{number: CASE-1, assessment: IHA-10 rev B}",
        ),
        Example(
            "No classified place",
            Verdict.NOT_APPLICABLE,
            "{kind: structural}",
            "{area: unclassified}",
        ),
        Example(
            "A machine in Zone 1 without an assessment of its own",
            Verdict.UNPROVEN,
            "{kind: structural}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
    ),
)
