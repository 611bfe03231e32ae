"""The list as a whole: the edition of the rules that it names, and the machine as one assembly."""

from collections.abc import Iterator

from areafit.facts.bom import Bom
from areafit.facts.place import Place
from areafit.facts.protection import Law
from areafit.pattern import pattern
from areafit.rule import Answer, Ask, Example, Family, Judgement, Row, Rule, Subject
from areafit.tables.area import Edition, EditionStanding, editions
from areafit.tables.words import is_placeholder
from areafit.values import Frozen
from areafit.verdict import Reason, Role, Verdict


class StatedEdition(Frozen):
    """The edition as written, the row that its year leads to, and what the rules follow."""

    law: Law
    stated: str
    known: Edition | None
    applied: tuple[str, ...]


_YEAR = pattern(r"(?<!\d)(?:19|20)\d\d(?!\d)")


def _ask_edition(bom: Bom, demands: object) -> Iterator[Ask[StatedEdition]]:
    """Where an edition is stated; the clauses of the findings name the editions that they cite."""
    del demands
    if bom.edition is None:
        return
    rows = editions(bom.law.value)
    years = _YEAR.findall(bom.edition)
    known = next((row for row in rows if years and row.year == years[-1]), None)
    applied = tuple(row.text for row in rows if row.standing is EditionStanding.APPLIED)
    yield Ask(StatedEdition(bom.law, bom.edition, known, applied), "edition")


def _judge_edition(question: StatedEdition) -> Judgement:
    known, applied = question.known, question.applied
    found = f"{question.law.value} {question.stated}"
    required = f"an edition that is applied here: {', '.join(applied)}"
    if known is None:
        # All that are applied are named: the edition of the installation may be any of them.
        these = f"{' and '.join(applied)} {'are' if len(applied) > 1 else 'is'} applied"
        return Answer(required=required, found=found).unproven(
            Reason.NAME_UNKNOWN, f"{found!r} is no edition that is known here; {these}."
        )
    row = Row.of("editions", f"{known.law} {known.year}", known, known.standing.value)
    answer = Answer(required=required, found=found, rows=(row,))
    match known.standing:
        case EditionStanding.APPLIED:
            return answer.passed(f"{known.text} is what the rules here follow.")
        case EditionStanding.ALIKE:
            return answer.passed(f"{known.text} asks the same where the rules here judge.")
        case _:
            return answer.unproven(
                Reason.NOT_JUDGED,
                f"{known.text} is not what is applied here: {known.note}.",
            )


EDITION = Rule[StatedEdition](
    id="edition",
    title="The stated edition is one that is applied here",
    family=Family.ASSEMBLY,
    subject=Subject.BOM,
    clause="NFPA 70-2023; IEC 60079-14:2013; EN 60079-14:2014; 2014/34/EU; 1999/92/EC",
    why="A list that names one edition and is judged by another may pass for the wrong reasons: "
    "markings and exceptions came and went between editions.",
    remedy="State the edition whose clauses the findings cite, if it may be used; else have "
    "somebody compare it with the edition that governs, and accept this with that document.",
    answer_by=Role.DESIGNER,
    note="The last year of the text counts: `NFPA 70-2023`, `60079-14:2013`. Where no edition is "
    "stated the report says so, and the editions that the clauses cite are applied.",
    ask=_ask_edition,
    judge=_judge_edition,
    examples=(
        Example("The edition that is applied", Verdict.PASS, law="NEC", more="edition: 2023\n"),
        Example("None stated", Verdict.NOT_APPLICABLE, law="NEC"),
        Example("Before zones came into it", Verdict.UNPROVEN, law="NEC", more="edition: 1984\n"),
        Example("Known, and not worked through", Verdict.UNPROVEN, more="edition: 2024\n"),
    ),
)


class MachineAssessment(Frozen):
    """The document that assesses the assembly; None where none is named."""

    assessment: str | None


def _ask_assessment(bom: Bom, demands: object) -> Iterator[Ask[MachineAssessment]]:
    """Lists with a classified place; an area that is not stated or not read may be one."""
    del demands
    if any(_may_be_classified(place) for place in bom.places.values()):
        yield Ask(MachineAssessment(bom.assembly.assessment), "assembly/assessment")


def _may_be_classified(place: Place) -> bool:
    reading = place.area
    if reading is None or reading.problems or not reading.areas:
        return True
    return any(area.classified for area in reading.areas)


def _judge_assessment(question: MachineAssessment) -> Judgement:
    named = question.assessment
    answer = Answer(
        required="the ignition hazard assessment of the assembly, by name",
        found=named or "not stated",
    )
    if named is None or is_placeholder(named):
        return answer.unproven(
            Reason.FACT_MISSING,
            "Conforming parts are not a conforming machine: no assessment of the assembly is "
            "named.",
        )
    return answer.passed("The assembly has an assessment of its own.")


ASSEMBLY_ASSESSMENT = Rule[MachineAssessment](
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
    ask=_ask_assessment,
    judge=_judge_assessment,
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
