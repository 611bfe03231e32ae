"""Level of protection of the circuit: the lowest in it, against every place that it enters."""

from collections.abc import Iterable, Iterator
from functools import partial

from areafit.checks.loops.circuit import BARRIER, PLACE, both, example
from areafit.checks.loops.needs import place_gaps, waits
from areafit.demands import Demands, Gap
from areafit.facts.evidence import EvidenceType
from areafit.facts.marking import Code, Output
from areafit.facts.part import Equipment
from areafit.facts.place import Area, AreaSystem
from areafit.facts.protection import Hazard, MarkingSystem
from areafit.pattern import pattern
from areafit.rule import Answer, Ask, Family, Judgement, Rule, Subject
from areafit.subjects import LoopCase
from areafit.values import Frozen, replace
from areafit.verdict import Reason, Role, Verdict
from areafit.wording import capital


class EndLevel(Frozen):
    """The level `a`, `b` or `c` of one end of the circuit for one hazard, None if not shown."""

    item: str
    letter: str | None


class CircuitLevel(Frozen):
    """Is the lowest level in the circuit enough for one hazard?

    `needed` is the level that the most onerous place asks for, `cause` says which; both are empty
    where no place that the circuit enters is classified. Simple apparatus has no level and is no
    end here.
    """

    hazard: Hazard | None
    needed: str
    cause: str
    ends: tuple[EndLevel, ...]
    gaps: tuple[Gap, ...]


def _ask(case: LoopCase, _demands: None) -> Iterator[Ask[CircuitLevel]]:
    gaps = place_gaps(case)
    for question in _questions(case, gaps):
        if not waits(case, gaps, partial(_over, question)):
            yield Ask(question)


def _over(question: CircuitLevel, gaps: tuple[Gap, ...]) -> Verdict:
    return _judge(replace(question, gaps=gaps)).verdict


def _questions(case: LoopCase, gaps: tuple[Gap, ...]) -> Iterator[CircuitLevel]:
    asked = False
    for hazard in Hazard:
        causes = [each for demands in case.demands for each in _needed(demands, hazard)]
        if not causes:
            continue
        asked = True
        letter, cause = min(causes)
        yield CircuitLevel(hazard, letter, cause, tuple(_ends(case, hazard)), gaps)
    if not asked:
        yield CircuitLevel(None, "", "", (), gaps)


def _needed(demands: Demands, hazard: Hazard) -> Iterator[tuple[str, str]]:
    demand = demands.hazard(hazard)
    if demand is None:
        return
    name = demands.place.name
    for area in demand.areas:
        yield _asked_by(area), f"{area.name}, {name}"
    level = demands.place.level_asked(hazard)
    if level is not None:
        yield "abc"[level.rank], f"EPL {level.value} asked for by the site, {name}"


def _asked_by(area: Area) -> str:
    """Zone 0 and 20 ask for ia, 1 and 21 for ib, 2 and 22 for ic; Division 1 for ia, 2 for ic."""
    if area.system is AreaSystem.ZONE and area.zone is not None:
        return "abc"[area.zone % 10]
    return "c" if area.division == 2 else "a"


def _ends(case: LoopCase, hazard: Hazard) -> Iterator[EndLevel]:
    devices = [end for end in case.devices if not end.simple]
    for ends, letter in ((case.sources, source_letter), (devices, device_letter)):
        for end in ends:
            part = end.equipment
            yield EndLevel(end.item, None if part is None else letter(part, hazard))


def source_letter(equipment: Equipment, hazard: Hazard) -> str | None:
    """The weakest level `a`, `b` or `c` that the outgoing circuits are marked with.

    Which of several outputs the loop is connected to is not known, so the weakest counts.
    """
    return max(_known(_leaving(equipment, hazard)), default=None)


def device_letter(equipment: Equipment, hazard: Hazard) -> str | None:
    """The best level that the device is marked with: a device for `ia` may hang on less."""
    return min(_known(_inside(equipment, hazard)), default=None)


def _known(letters: Iterable[str | None]) -> Iterator[str]:
    return (letter for letter in letters if letter is not None)


def _leaving(equipment: Equipment, hazard: Hazard) -> Iterator[str | None]:
    codes = [code for code in equipment.codes if code.hazard is hazard]
    told = any(code.associated or code.outputs for code in codes)
    for code in equipment.codes:
        for output in code.outputs:
            if hazard in _served(output, code):
                yield _of_output(output, code)
    for code in codes:
        if code.associated and not code.outputs:
            yield _of_divisions(code.divisions)
        elif not code.associated and not code.outputs:
            # Where a code of the plate speaks of circuits, a drawing says nothing of this one.
            yield _of_housing(code, equipment, drawn=not told)


def _served(output: Output, code: Code) -> frozenset[Hazard]:
    """What the circuits are for: Division letters tell, whatever the housing may stand in."""
    told = frozenset(group.hazard for group in output.groups)
    return told if told and _SAFE in output.protection else frozenset({code.hazard})


def _inside(equipment: Equipment, hazard: Hazard) -> Iterator[str | None]:
    for code in equipment.codes:
        if code.hazard is hazard and not code.associated:
            yield _of_housing(code, equipment)


_TYPE = pattern(r"i([abc])")
_SAFE, _NONINCENDIVE = "intrinsically safe", "nonincendive"


def _of_output(output: Output, code: Code) -> str | None:
    if _SAFE in output.protection:
        return _of_divisions(output.divisions or code.divisions)
    letters = _types(output.protection)
    if letters and output.level is not None:
        letters.append("abc"[output.level.rank])
    return max(letters, default=None)


def _of_housing(code: Code, equipment: Equipment, *, drawn: bool = True) -> str | None:
    """The level of the circuits inside; a Division code must say that they are safe.

    Where the nameplate does not, a control drawing does: only intrinsically safe and
    nonincendive equipment has one (NFPA 70-2023, 504.10).
    """
    if code.system is not MarkingSystem.NEC_DIVISION:
        return max(_types(code.protection), default=None)
    if _NONINCENDIVE in code.words:
        return "c"
    drawings = [e for e in equipment.evidence or () if e.type is EvidenceType.CONTROL_DRAWING]
    safe = _SAFE in code.words or (drawn and bool(drawings))
    return _of_divisions(code.divisions) if safe else None


def _types(protection: Iterable[str]) -> list[str]:
    return [found[1] for found in map(_TYPE.fullmatch, protection) if found]


def _of_divisions(numbers: tuple[int, ...]) -> str | None:
    """Division 1 intrinsic safety bears two faults, as `ia` does; Division 2 is held to be `ic`."""
    if not numbers:
        return None
    return "a" if min(numbers) == 1 else "c"


def _judge(question: CircuitLevel) -> Judgement:
    needed, cause, gaps = question.needed, question.cause, question.gaps
    if question.hazard is None:
        if gaps:
            return _open(Answer(required="the level that the places ask for"), gaps[0])
        return Answer().passed(
            "No place that the circuit enters is classified, so no level is asked for."
        )
    answer = Answer(
        required=f"i{needed} or better ({cause})",
        found="; ".join(
            f"item {end.item}: {'not shown' if end.letter is None else f'i{end.letter}'}"
            for end in question.ends
        ),
    )
    lowest = max((end.letter for end in question.ends if end.letter is not None), default="a")
    if lowest > needed:
        weak = both(end.item for end in question.ends if end.letter == lowest)
        return answer.flagged(
            f"Item {weak} makes this an i{lowest} circuit; {cause} asks for i{needed} throughout.",
            remedy=f"Choose for item {weak} one whose `marking` shows i{needed}.",
        )
    unknown = [end.item for end in question.ends if end.letter is None]
    if unknown:
        return answer.unproven(
            Reason.FACT_MISSING,
            f"The marking of item {both(unknown)} does not show the level of an intrinsically "
            f"safe circuit for {question.hazard.value}.",
            remedy=f"State the `marking` of item {both(unknown)} that shows the level: ia, ib or "
            "ic, or the Division that the circuits may enter.",
        )
    if gaps:
        return _open(answer, gaps[0])
    return answer.passed(f"The lowest level in the circuit is i{lowest}, which serves {cause}.")


def _open(answer: Answer, gap: Gap) -> Judgement:
    return answer.unproven(gap.reason, f"{capital(gap.message)}, so what it asks for is open.")


LOOP_LEVEL = Rule[CircuitLevel](
    id="loop-level",
    title="The lowest level in the circuit serves every place",
    family=Family.LOOPS,
    subject=Subject.LOOP,
    clause="IEC 60079-14:2013 16.2.1; IEC 60079-25:2010 6; NFPA 70-2023 504.10, 505.9",
    why="A circuit is as safe as its weakest end: an ib source may fail in a way that an ia device "
    "does not expect.",
    remedy="Choose source and devices of the level that the most onerous place asks for.",
    answer_by=Role.SUPPLIER,
    note="Division 1 asks for ia, whatever level the place states; Division 2 is held to ask for "
    "ic at least. North American markings for Division 1 with intrinsically safe circuits count "
    "as ia.",
    ask=_ask,
    judge=_judge,
    examples=(
        example("ia throughout in Zone 1", Verdict.PASS),
        example(
            "An ib barrier that feeds Zone 0",
            Verdict.FLAG,
            place=PLACE.replace("Zone 1", "Zone 0"),
            barrier=BARRIER.replace("ia Ga", "ib Gb"),
        ),
        example("A sensor without a marking", Verdict.UNPROVEN, sensor="{kind: electrical}"),
    ),
)
