"""An intrinsically safe part stands in a circuit that the list, or a document, describes."""

from collections.abc import Iterator
from datetime import date

from areafit.checks.loops.examples import BARRIER, CIRCUIT, PLACE, SENSOR
from areafit.demands import Demands
from areafit.facts.evidence import Evidence, EvidenceType
from areafit.facts.fittings import IntrinsicSafety
from areafit.facts.marking import Code
from areafit.facts.part import Equipment, Kind
from areafit.pattern import pattern
from areafit.rule import Ask, Example, Family, Judgement, Rule, Subject, flagged, passed, unproven
from areafit.tables.placeholders import is_placeholder
from areafit.values import Frozen, Term
from areafit.verdict import Reason, Role, Verdict


class Need(Term):
    """Why a part belongs to a circuit."""

    ALONE = "a code of its nameplate has no type of protection but intrinsic safety"
    AMONG_OTHERS = "intrinsic safety is one of its types of protection"
    OUTPUT = "intrinsically safe circuits leave it"
    SIMPLE = "it is simple apparatus, which only an intrinsically safe circuit may hold"


class Question(Frozen):
    """Why the part belongs to a circuit, and what shows which.

    `drawings` are the documents that describe its circuit, `late` those past their date at the
    day of the report.
    """

    need: Need
    in_loop: bool
    drawings: tuple[str, ...]
    late: tuple[str, ...]
    said: IntrinsicSafety | None


_TYPE = pattern(r"i[abc]?D?")
_SAFE = "intrinsically safe"


def _ask(equipment: Equipment, demands: Demands) -> Iterator[Ask[Question]]:
    """Of devices where an area is classified, of what feeds them anywhere."""
    need = _need(equipment, classified=demands.classified)
    if need is None:
        return
    drawings = tuple(filter(_describes, equipment.evidence or ()))
    yield Ask(
        Question(
            need,
            equipment.in_loop,
            tuple(d.number or "" for d in drawings if not _late(d, demands.as_of)),
            tuple(d.number or "" for d in drawings if _late(d, demands.as_of)),
            equipment.intrinsic_safety,
        ),
        "evidence",
    )


def _need(equipment: Equipment, *, classified: bool) -> Need | None:
    codes = [code for marking in equipment.markings or () for code in marking.codes]
    if any(map(_feeds, codes)):
        return Need.OUTPUT
    if not classified:
        return None
    housings = [code for code in codes if code.speaks_of_housing]
    alone = [code for code in housings if _safe(code.protection, code.words)]
    if any(map(_nothing_else, alone)):
        return Need.ALONE
    if alone:
        return Need.AMONG_OTHERS
    return Need.SIMPLE if Kind.SIMPLE_APPARATUS in equipment.kinds else None


def _feeds(code: Code) -> bool:
    """Outputs that say what they are count; a bracket without a type is taken as one."""
    if code.associated and not code.outputs:
        return True
    return any(_safe(output.protection, output.protection) for output in code.outputs)


def _safe(letters: tuple[str, ...], words: tuple[str, ...]) -> bool:
    return _SAFE in words or any(_TYPE.fullmatch(letter) for letter in letters)


def _nothing_else(code: Code) -> bool:
    """Whether the code rests on intrinsic safety alone; of light it says nothing electrical."""
    return all(_TYPE.fullmatch(word) or word.startswith("op ") for word in code.protection)


def _describes(document: Evidence) -> bool:
    """Whether a document is a drawing of the part's circuit that can be found."""
    number = document.number
    drawing = document.type is EvidenceType.CONTROL_DRAWING and not document.elsewhere
    return drawing and number is not None and not is_placeholder(number)


def _late(document: Evidence, day: date) -> bool:
    return document.valid_until is not None and document.valid_until < day


def _judge(question: Question) -> Judgement:
    required = "a loop of the list, or the number of the drawing that describes the circuit"
    if question.in_loop and question.said is not None:
        return flagged(
            f"The part is said to be intrinsically safe by its {question.said.value}, and a loop "
            "joins it to others.",
            required=required,
            found=f"in a loop, and `{question.said.value}`",
        )
    if question.in_loop:
        return passed("A loop of the list names it.", required=required, found="in a loop")
    if question.drawings:
        found = f"drawing {', '.join(question.drawings)}"
        return passed(
            "Its circuit is described by a drawing; whether the values fit is for that to show.",
            required=required,
            found=found,
        )
    return _without(question, required)


def _without(question: Question, required: str) -> Judgement:
    """Neither loop nor drawing: only a part that is its own circuit may do without."""
    said = question.said
    if said is IntrinsicSafety.OWN_CELL and question.need in (Need.ALONE, Need.AMONG_OTHERS):
        message = "Fed by its own cell, with nothing connected: it is a circuit by itself."
        return passed(message, required=required, found=said.value)
    if said is IntrinsicSafety.INSIDE_ONLY and question.need is Need.AMONG_OTHERS:
        message = "Intrinsically safe inside only; what is connected has another protection."
        return passed(message, required=required, found=said.value)
    if said is not None:
        return flagged(
            f"`{said.value}` does not fit the part: {question.need.value}.",
            required=required,
            found=said.value,
        )
    late = f"; drawing {', '.join(question.late)} is past its date" if question.late else ""
    return unproven(
        Reason.FACT_MISSING,
        f"The part stands in no loop of the list, and {question.need.value}{late}: what it is "
        "connected to, and whether that can deliver more than it stands, is not shown.",
        required=required,
        found=f"no loop{late or ', no drawing'}",
    )


LOOP_MISSING = Rule[Question](
    id="loop-missing",
    title="An intrinsically safe part stands in a described circuit",
    family=Family.LOOPS,
    subject=Subject.EQUIPMENT,
    clause="IEC 60079-14:2013 4.2, 16.2.4; IEC 60079-25:2010 4; NFPA 70-2023 504.10(A)",
    why="Intrinsic safety belongs to the whole circuit: a certified sensor on a supply that is no "
    "intrinsically safe source is not protected at all.",
    remedy="State the loop with source, device and cable; or as a `control drawing` in the "
    "evidence the number of that drawing, or of the descriptive system document. A part with its "
    "own cell, or with such circuits inside only, states `intrinsic_safety`; of a nameplate with a "
    "choice of codes state the one that the part is used by.",
    answer_by=Role.DESIGNER,
    note="A drawing stands for the values, which are then not compared here.",
    ask=_ask,
    judge=_judge,
    examples=(
        Example(
            "A sensor in a loop with its barrier",
            Verdict.PASS,
            SENSOR,
            f"{PLACE}\n  safe: {{area: unclassified}}",
            more=f"  - {BARRIER}\n{CIRCUIT}",
        ),
        Example("A sensor in no loop", Verdict.UNPROVEN, SENSOR, PLACE),
        Example(
            "A sensor with its control drawing",
            Verdict.PASS,
            "{kind: electrical, marking: 'Class I, Zone 0, AEx ia IIC T4 Ga', "
            "evidence: [{type: control drawing, number: CD-77}]}",
            "{area: 'Class I, Zone 1, IIC, T4', substances: [hydrogen]}",
            "NEC",
        ),
        Example(
            "A gas detector with its own cell",
            Verdict.PASS,
            "{kind: electrical, marking: Ex ia IIC T4 Ga, intrinsic_safety: own cell}",
            PLACE,
        ),
        Example(
            "A sensor without other protection, said to be safe inside only",
            Verdict.FLAG,
            "{kind: electrical, marking: Ex ia IIC T4 Ga, intrinsic_safety: inside only}",
            PLACE,
        ),
    ),
)
