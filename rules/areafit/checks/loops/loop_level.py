"""Level of protection of the circuit: the lowest in it, against every place that it enters."""

from collections.abc import Iterator
from functools import partial

from areafit.cases import LoopCase, LoopEnd
from areafit.checks.loops.examples import BARRIER, CIRCUIT, PLACE, example
from areafit.checks.loops.needs import place_gaps, waits
from areafit.checks.loops.plates import device_letter, source_letter
from areafit.checks.loops.words import both
from areafit.demands import Demands, Gap
from areafit.facts.part import Kind
from areafit.facts.place import Area, AreaSystem
from areafit.facts.protection import Hazard
from areafit.rule import Ask, Family, Judgement, Rule, Subject, flagged, passed, unproven
from areafit.sentence import capital
from areafit.values import Frozen, replace
from areafit.verdict import Reason, Role, Verdict


class EndLevel(Frozen):
    """The level `a`, `b` or `c` of one end of the circuit for one hazard, None if not shown."""

    item: str
    letter: str | None


class LevelQuestion(Frozen):
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


def _ask(case: LoopCase, _demands: None) -> Iterator[Ask[LevelQuestion]]:
    gaps = place_gaps(case)
    for question in _questions(case, gaps):
        if not waits(case, gaps, partial(_over, question)):
            yield Ask(question)


def _over(question: LevelQuestion, gaps: tuple[Gap, ...]) -> Verdict:
    return _judge(replace(question, gaps=gaps)).verdict


def _questions(case: LoopCase, gaps: tuple[Gap, ...]) -> Iterator[LevelQuestion]:
    asked = False
    for hazard in Hazard:
        causes = [each for demands in case.demands for each in _needed(demands, hazard)]
        if not causes:
            continue
        asked = True
        letter, cause = min(causes)
        ends = tuple(_ends(case, hazard))
        yield LevelQuestion(hazard, letter, cause, ends, gaps)
    if not asked:
        yield LevelQuestion(None, "", "", (), gaps)


def _needed(demands: Demands, hazard: Hazard) -> Iterator[tuple[str, str]]:
    demand = demands.hazard(hazard)
    if demand is None:
        return
    name = demands.place.name
    for area in demand.areas:
        yield _letter(area), f"{area.name}, {name}"
    level = demands.place.required_level
    if level is not None and level.hazard is hazard:
        yield "abc"[level.rank], f"EPL {level.value} asked for by the site, {name}"


def _letter(area: Area) -> str:
    """Zone 0 and 20 ask for ia, 1 and 21 for ib, 2 and 22 for ic; Division 1 for ia, 2 for ic."""
    if area.system is AreaSystem.ZONE and area.zone is not None:
        return "abc"[area.zone % 10]
    return "c" if area.division == 2 else "a"


def _ends(case: LoopCase, hazard: Hazard) -> Iterator[EndLevel]:
    for end in case.sources:
        yield EndLevel(end.item, _of(end, hazard, source=True))
    for end in case.devices:
        if not _simple(end):
            yield EndLevel(end.item, _of(end, hazard, source=False))


def _of(end: LoopEnd, hazard: Hazard, *, source: bool) -> str | None:
    if end.equipment is None:
        return None
    return (source_letter if source else device_letter)(end.equipment, hazard)


def _simple(end: LoopEnd) -> bool:
    return end.equipment is not None and end.equipment.kinds == {Kind.SIMPLE_APPARATUS}


def _judge(question: LevelQuestion) -> Judgement:
    if question.hazard is None:
        return _unclassified(question)
    required = f"i{question.needed} or better ({question.cause})"
    found = "; ".join(
        f"item {end.item}: {'not shown' if end.letter is None else f'i{end.letter}'}"
        for end in question.ends
    )
    known = [end.letter for end in question.ends if end.letter is not None]
    lowest = max(known, default="a")
    if lowest > question.needed:
        weak = both(end.item for end in question.ends if end.letter == lowest)
        return flagged(
            f"Item {weak} makes this an i{lowest} circuit; {question.cause} asks for "
            f"i{question.needed} throughout.",
            required=required,
            found=found,
        )
    unknown = [end.item for end in question.ends if end.letter is None]
    if unknown:
        return unproven(
            Reason.FACT_MISSING,
            f"The marking of item {both(unknown)} does not show the level of an intrinsically "
            f"safe circuit for {question.hazard.value}.",
            required=required,
            found=found,
            remedy="State the marking that shows the level: ia, ib or ic.",
        )
    gap = _gap(question.gaps, required, found)
    if gap is not None:
        return gap
    return passed(
        f"The lowest level in the circuit is i{lowest}, which serves {question.cause}.",
        required=required,
        found=found,
    )


def _unclassified(question: LevelQuestion) -> Judgement:
    gap = _gap(question.gaps, "the level that the places ask for", "")
    if gap is not None:
        return gap
    return passed("No place that the circuit enters is classified, so no level is asked for.")


def _gap(gaps: tuple[Gap, ...], required: str, found: str) -> Judgement | None:
    if not gaps:
        return None
    message = f"{capital(gaps[0].message)}, so what it asks for is open."
    return unproven(gaps[0].reason, message, required=required, found=found)


LOOP_LEVEL = Rule[LevelQuestion](
    id="loop-level",
    title="The lowest level in the circuit serves every place",
    family=Family.LOOPS,
    subject=Subject.LOOP,
    clause="IEC 60079-14:2013 16.2.1; IEC 60079-25:2010 6; NFPA 70-2023 504.10, 505.9",
    why="A circuit is as safe as its weakest end: an ib source may fail in a way that an ia device "
    "does not expect.",
    remedy="Choose source and devices of the level that the most onerous place asks for.",
    answer_by=Role.SUPPLIER,
    note="Division 1 asks for ia; Division 2 is held to ask for ic at least. North American "
    "markings for Division 1 with intrinsically safe circuits count as ia.",
    ask=_ask,
    judge=_judge,
    examples=(
        example("ia throughout in Zone 1", Verdict.PASS, CIRCUIT),
        example(
            "An ib barrier that feeds Zone 0",
            Verdict.FLAG,
            CIRCUIT,
            place=PLACE.replace("Zone 1", "Zone 0"),
            barrier=BARRIER.replace("ia Ga", "ib Gb"),
        ),
        example(
            "A sensor without a marking",
            Verdict.UNPROVEN,
            CIRCUIT,
            sensor="{kind: electrical}",
        ),
    ),
)
