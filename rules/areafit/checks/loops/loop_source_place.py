"""The source stands outside the hazardous area, or in a housing that is protected itself."""

from collections.abc import Iterator
from functools import partial

from areafit.cases import LoopCase, LoopEnd
from areafit.checks.loops.examples import BARRIER, CIRCUIT, example
from areafit.checks.loops.needs import waits
from areafit.checks.loops.plates import codes_of
from areafit.checks.loops.words import both
from areafit.demands import Gap
from areafit.facts.marking import Code
from areafit.rule import Ask, Family, Judgement, Rule, Subject, flagged, passed, unproven
from areafit.values import Frozen, replace
from areafit.verdict import Reason, Role, Verdict


class Question(Frozen):
    """Where a source stands: the places that are classified, and those that are not known.

    `housing` says whether a code on its nameplate protects the box itself, None without a code.
    """

    item: str
    listed: bool
    classified: tuple[str, ...]
    unknown: tuple[str, ...]
    housing: bool | None


def _ask(case: LoopCase, _demands: None) -> Iterator[Ask[Question]]:
    for i, end in enumerate(case.sources):
        path = "source" if len(case.sources) == 1 else f"sources/{i}"
        question = _question(end)
        if not waits(case, (), partial(_over, question)):
            yield Ask(question, path)


def _over(question: Question, _gaps: tuple[Gap, ...]) -> Verdict:
    return _judge(replace(question, unknown=())).verdict


def _question(end: LoopEnd) -> Question:
    codes = codes_of(end.equipment) if end.equipment is not None else ()
    areas = [(d.place.name, d.place.area, d.classified) for d in end.demands]
    unread = [name for name, area, _ in areas if area is None or area.problems or not area.areas]
    return Question(
        end.item,
        end.equipment is not None and bool(end.demands),
        tuple(name for name, _, classified in areas if classified),
        tuple(unread),
        any(map(_protects_the_box, codes)) if codes else None,
    )


def _protects_the_box(code: Code) -> bool:
    return code.speaks_of_housing


def _judge(question: Question) -> Judgement:
    required = "a place outside the hazardous area, or a housing with protection of its own"
    item = question.item
    if not question.listed:
        message = f"Item {item} is not on the list, so where it stands is not known."
        return unproven(Reason.FACT_MISSING, message, required=required)
    found = f"item {item}"
    if question.classified:
        places = both(question.classified)
        found = f"item {item} in {places}"
        if question.housing is False:
            message = f"Item {item} stands in {places}, and all of its marking is in brackets: it "
            message += "protects the outgoing circuits only, not the box."
            return flagged(message, required=required, found=found)
        if question.housing is None:
            message = f"Item {item} stands in {places} without a marking that could be read."
            return unproven(Reason.FACT_MISSING, message, required=required, found=found)
    if question.unknown:
        message = f"The classification of {both(question.unknown)} is not known."
        return unproven(
            Reason.FACT_MISSING,
            message,
            required=required,
            found=found,
            answer_by=Role.AREA_OWNER,
        )
    if question.classified:
        message = f"The housing of item {item} has a marking of its own; the rules for parts judge "
        return passed(f"{message}it where it stands.", required=required, found=found)
    message = f"Item {item} stands outside the hazardous area."
    return passed(message, required=required, found=found)


LOOP_SOURCE_PLACE = Rule[Question](
    id="loop-source-place",
    title="The source stands in a safe place or is protected",
    family=Family.LOOPS,
    subject=Subject.LOOP,
    clause="IEC 60079-14:2013 16.2.1; IEC 60079-0:2017 29.4; NFPA 70-2023 504.10",
    why="Associated apparatus limits what leaves it; inside it the mains may spark.",
    remedy="Put the source outside the area, or into an enclosure whose protection suits it.",
    answer_by=Role.DESIGNER,
    ask=_ask,
    judge=_judge,
    examples=(
        example("A barrier in a cabinet outside", Verdict.PASS, CIRCUIT),
        example(
            "A barrier in the zone",
            Verdict.FLAG,
            CIRCUIT,
            barrier=BARRIER.replace("location: safe", "location: case"),
        ),
    ),
)
