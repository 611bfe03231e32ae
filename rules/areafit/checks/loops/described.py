"""Is a circuit described: its parts in a loop or on a drawing, and its ends on the list."""

from collections.abc import Iterator
from datetime import date

from areafit.checks.loops.circuit import BARRIER, CIRCUIT, PLACE, SENSOR, example, with_paths
from areafit.demands import Demands
from areafit.facts.evidence import Evidence, EvidenceType
from areafit.facts.fittings import IntrinsicSafety
from areafit.facts.marking import Code
from areafit.facts.part import Equipment, Kind
from areafit.pattern import pattern
from areafit.rule import Answer, Ask, Example, Family, Judgement, Rule, Subject
from areafit.subjects import LoopCase
from areafit.tables.words import is_placeholder
from areafit.values import Frozen, Term, replace
from areafit.verdict import Reason, Role, Verdict
from areafit.wording import capital


class Tie(Term):
    """Why a part belongs to a circuit."""

    ALONE = "a code of its nameplate has no type of protection but intrinsic safety"
    AMONG_OTHERS = "intrinsic safety is one of its types of protection"
    OUTPUT = "intrinsically safe circuits leave it"
    SIMPLE = "it is simple apparatus, which only an intrinsically safe circuit may hold"


class CircuitShown(Frozen):
    """Why the part belongs to a circuit, and what shows which.

    `drawings` are the documents that describe its circuit, `late` those past their date at the
    day of the report.
    """

    tie: Tie
    in_loop: bool
    drawings: tuple[str, ...]
    late: tuple[str, ...]
    said: IntrinsicSafety | None


_TYPE = pattern(r"i[abc]?D?")
_SAFE = "intrinsically safe"


def _ask_missing(equipment: Equipment, demands: Demands) -> Iterator[Ask[CircuitShown]]:
    """Of devices where an area is classified, of what feeds them anywhere."""
    tie = tie_of(equipment, classified=demands.classified)
    if tie is None:
        return
    drawings = tuple(filter(_describes, equipment.evidence or ()))
    yield Ask(
        CircuitShown(
            tie,
            equipment.in_loop,
            tuple(d.number or "" for d in drawings if not _late(d, demands.as_of)),
            tuple(d.number or "" for d in drawings if _late(d, demands.as_of)),
            equipment.intrinsic_safety,
        ),
        "evidence",
    )


def tie_of(equipment: Equipment, *, classified: bool) -> Tie | None:
    """Why a part belongs to a circuit, in an area or outside of every one; None if it does not."""
    if any(map(_feeds, equipment.codes)):
        return Tie.OUTPUT
    if not classified:
        return None
    housings = [code for code in equipment.codes if code.speaks_of_housing]
    alone = [code for code in housings if _safe(code.protection, code.words)]
    if any(map(_nothing_else, alone)):
        return Tie.ALONE
    if alone:
        return Tie.AMONG_OTHERS
    return Tie.SIMPLE if Kind.SIMPLE_APPARATUS in equipment.kinds else None


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


def _judge_missing(question: CircuitShown) -> Judgement:
    said, late = question.said, ""
    if question.in_loop:
        found = "in a loop" if said is None else f"in a loop, and `{said.value}`"
    elif question.drawings:
        found = f"drawing {', '.join(question.drawings)}"
    elif said is not None:
        found = said.value
    else:
        late = f"; drawing {', '.join(question.late)} is past its date" if question.late else ""
        found = f"no loop{late or ', no drawing'}"
    answer = Answer(
        required="a loop of the list, or the number of the drawing that describes the circuit",
        found=found,
    )
    if question.in_loop and said is not None:
        return answer.flagged(
            f"The part is said to be intrinsically safe by its {said.value}, and a loop "
            "joins it to others.",
            remedy="Delete `intrinsic_safety`, or take the part out of the loop.",
        )
    if question.in_loop:
        return answer.passed("A loop of the list names it.")
    if question.drawings:
        return answer.passed(
            "Its circuit is described by a drawing; whether the values fit is for that to show."
        )
    if said is not None:
        return _by_itself(said, question.tie, answer)
    return answer.unproven(
        Reason.FACT_MISSING,
        f"The part stands in no loop of the list. {capital(question.tie.value)}{late}. What it is "
        "connected to, and whether that can deliver more than it withstands, is not shown.",
    )


def _by_itself(said: IntrinsicSafety, tie: Tie, answer: Answer) -> Judgement:
    """Neither loop nor drawing: only a part that is its own circuit may do without."""
    if said is IntrinsicSafety.OWN_CELL and tie in (Tie.ALONE, Tie.AMONG_OTHERS):
        return answer.passed(
            "Fed by its own cell, with nothing connected: it is a circuit by itself."
        )
    if said is IntrinsicSafety.INSIDE_ONLY and tie is Tie.AMONG_OTHERS:
        return answer.passed(
            "Intrinsically safe inside only; what is connected has another protection."
        )
    return answer.flagged(f"`{said.value}` does not fit the part: {tie.value}.")


LOOP_MISSING = Rule[CircuitShown](
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
    ask=_ask_missing,
    judge=_judge_missing,
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


class EndListed(Frozen):
    """An end of the circuit: whether it is on the list, and how many alternates its line has."""

    item: str
    listed: bool
    alternates: int


def _ask_items(case: LoopCase, _demands: None) -> Iterator[Ask[EndListed]]:
    devices = ((f"devices/{i}", end) for i, end in enumerate(case.devices))
    for path, end in (*with_paths(case.sources), *devices):
        yield Ask(EndListed(end.item, end.equipment is not None, end.alternates), path)


def _judge_items(question: EndListed) -> Judgement:
    item = f"item {question.item}"
    answer = Answer(required="a line of the list that stands for one part", found=item)
    if not question.listed:
        return replace(answer, found=f"{item} not listed").unproven(
            Reason.FACT_MISSING,
            f"Item {question.item} is not on the list: neither its place nor its marking is known.",
            remedy=f"List item {question.item} with its place and marking.",
        )
    if question.alternates:
        found = f"{item} with alternates: {question.alternates}"
        return replace(answer, found=found).unproven(
            Reason.FACT_MISSING,
            f"Item {question.item} has alternates; the loop states the values of the line itself "
            "only.",
            remedy="Give each of its `alternates` a line and a loop of its own instead.",
        )
    return answer.passed(f"Item {question.item} is on the list.")


LOOP_ITEMS = Rule[EndListed](
    id="loop-items",
    title="The items of the circuit are on the list",
    family=Family.LOOPS,
    subject=Subject.LOOP,
    clause="IEC 60079-25:2010 4; NFPA 70-2023 504.10(A)",
    why="Values belong to one type of part; without its line neither place nor marking is known.",
    remedy="List the item with its place and marking.",
    answer_by=Role.DESIGNER,
    ask=_ask_items,
    judge=_judge_items,
    examples=(
        example("Barrier and sensor are listed", Verdict.PASS),
        example(
            "A sensor with an alternate",
            Verdict.UNPROVEN,
            sensor=SENSOR.replace("Ga}", "Ga, alternates: [{part_number: PN-1B}]}"),
        ),
    ),
)
