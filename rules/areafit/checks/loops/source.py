"""What feeds a circuit, and where that stands."""

from collections.abc import Iterator
from functools import partial

from areafit.checks.loops.circuit import (
    ASSESSED,
    BARRIER,
    NO_CURVES,
    both,
    changed,
    example,
    with_paths,
)
from areafit.checks.loops.needs import waits
from areafit.demands import Gap
from areafit.rule import Answer, Ask, Family, Judgement, Rule, Subject
from areafit.subjects import LoopCase, LoopEnd
from areafit.values import Frozen, replace
from areafit.verdict import Reason, Role, Verdict


class Feeding(Frozen):
    """The sources, those said to be non-linear, and the devices said to be sources as well."""

    sources: tuple[str, ...]
    non_linear: tuple[str, ...]
    active: tuple[str, ...]


def _ask_source(case: LoopCase, _demands: None) -> Iterator[Ask[Feeding]]:
    loop = case.loop
    sources = tuple(source.item for source in loop.sources)
    fed_back = {device.item for device in loop.devices} & set(sources)
    yield Ask(
        Feeding(
            sources,
            tuple(source.item for source in loop.sources if source.linear is False),
            tuple(d.item for d in loop.devices if d.active or d.item in fed_back),
        ),
        "sources" if len(sources) > 1 else "source",
    )


def _judge_source(question: Feeding) -> Judgement:
    sources, non_linear, active = question.sources, question.non_linear, question.active
    found = f"source: {both(sources) or 'none'}"
    found += f"; non-linear: {both(non_linear)}" if non_linear else ""
    found += f"; active: {both(active)}" if active and sources else ""
    answer = Answer("one linear source and no further source of energy in the circuit", found)
    if not sources:
        return answer.unproven(
            Reason.FACT_MISSING,
            "The loop names no source.",
            remedy="State the `source` of the loop.",
        )
    if len(sources) > 1:
        message = f"Items {both(sources)} feed one circuit. What they deliver together "
        message += "depends on how they are connected and has to be assessed by a specialist."
    elif non_linear:
        message = f"Item {both(non_linear)} is no linear source. What may be connected to "
        message += "it has to be assessed by a specialist."
    elif active:
        message = f"Item {both(active)} is a source of energy itself. The circuit has to "
        message += "be assessed by a specialist."
    else:
        return answer.passed(
            f"A single source, and no device is said to be one as well. {NO_CURVES}"
        )
    return answer.unproven(Reason.NOT_JUDGED, message)


LOOP_SOURCE = Rule[Feeding](
    id="loop-source",
    title="One linear source feeds the circuit",
    family=Family.LOOPS,
    subject=Subject.LOOP,
    clause="IEC 60079-14:2013 16.2.4; IEC 60079-25:2010 Annex B, Annex C; NFPA 70-2023 504.10",
    why="Voltages or currents of several sources add up, and a source with another than a straight "
    "output line permits less than its values suggest.",
    remedy=ASSESSED,
    answer_by=Role.DESIGNER,
    note="Whether the source's values lie below the published ignition curves is not checked, and "
    "combinations are not reckoned.",
    ask=_ask_source,
    judge=_judge_source,
    examples=(
        example("A single barrier", Verdict.PASS),
        example(
            "A device with a supply of its own",
            Verdict.UNPROVEN,
            changed("{item: '1', ", "{item: '1', active: true, "),
        ),
        example(
            "A source with electronic current limitation",
            Verdict.UNPROVEN,
            changed("{item: '9', ", "{item: '9', linear: false, "),
        ),
    ),
)


class SourceStands(Frozen):
    """Where a source stands: the places that are classified, and those that are not known.

    `housing` says whether a code on its nameplate protects the box itself, None without a code.
    """

    item: str
    listed: bool
    classified: tuple[str, ...]
    unknown: tuple[str, ...]
    housing: bool | None


def _ask_place(case: LoopCase, _demands: None) -> Iterator[Ask[SourceStands]]:
    for path, end in with_paths(case.sources):
        question = _stands(end)
        if not waits(case, (), partial(_over, question)):
            yield Ask(question, path)


def _over(question: SourceStands, _gaps: tuple[Gap, ...]) -> Verdict:
    return _judge_place(replace(question, unknown=())).verdict


def _stands(end: LoopEnd) -> SourceStands:
    codes = end.equipment.codes if end.equipment is not None else ()
    areas = [(d.place.name, d.place.area, d.classified) for d in end.demands]
    unread = [name for name, area, _ in areas if area is None or area.problems or not area.areas]
    return SourceStands(
        end.item,
        end.equipment is not None and bool(end.demands),
        tuple(name for name, _, classified in areas if classified),
        tuple(unread),
        any(code.speaks_of_housing for code in codes) if codes else None,
    )


def _judge_place(question: SourceStands) -> Judgement:
    item, places = question.item, both(question.classified)
    answer = Answer("a place outside the hazardous area, or a housing with protection of its own")
    if not question.listed:
        message = f"Item {item} is not on the list, so where it stands is not known."
        remedy = "List the item with its place and marking."
        return answer.unproven(Reason.FACT_MISSING, message, remedy=remedy)
    answer = replace(answer, found=f"item {item} in {places}" if places else f"item {item}")
    if places and question.housing is False:
        return answer.flagged(
            f"Item {item} stands in {places}, and all of its marking is in brackets: it "
            "protects the outgoing circuits only, not the box."
        )
    if places and question.housing is None:
        message = f"Item {item} stands in {places} without a marking that could be read."
        return answer.unproven(Reason.FACT_MISSING, message, remedy="State its `marking`.")
    if question.unknown:
        message = f"The classification of {both(question.unknown)} is not known."
        remedy = "State the `area` of each place that the circuit enters."
        return answer.unproven(
            Reason.FACT_MISSING, message, remedy=remedy, answer_by=Role.AREA_OWNER
        )
    if places:
        return answer.passed(
            f"The housing of item {item} has a marking of its own; the rules for parts judge it "
            "where it stands."
        )
    return answer.passed(f"Item {item} stands outside the hazardous area.")


LOOP_SOURCE_PLACE = Rule[SourceStands](
    id="loop-source-place",
    title="The source stands in a safe place or is protected",
    family=Family.LOOPS,
    subject=Subject.LOOP,
    clause="IEC 60079-14:2013 16.2.1; IEC 60079-0:2017 29.4; NFPA 70-2023 504.10",
    why="Associated apparatus limits what leaves it; inside it the mains may spark.",
    remedy="Put the source outside the area and state that `location`, or choose one whose "
    "`marking` protects its own box too.",
    answer_by=Role.DESIGNER,
    ask=_ask_place,
    judge=_judge_place,
    examples=(
        example("A barrier in a cabinet outside", Verdict.PASS),
        example(
            "A barrier in the zone",
            Verdict.FLAG,
            barrier=BARRIER.replace("location: safe", "location: case"),
        ),
    ),
)
