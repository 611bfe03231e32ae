"""What feeds a circuit, and where that stands."""

from collections.abc import Iterator
from functools import partial

from areafit.checks.loops.budget import Circuit, Halving, budget
from areafit.checks.loops.circuit import (
    ASSESSED,
    BARRIER,
    NO_CURVES,
    both,
    changed,
    example,
    with_paths,
)
from areafit.checks.loops.described import Tie, tie_of
from areafit.checks.loops.needs import waits
from areafit.demands import Gap
from areafit.facts.loop import LoopSource
from areafit.facts.part import Equipment
from areafit.facts.quantity import Dimension
from areafit.rule import Answer, Ask, Family, Judgement, Row, Rule, Subject
from areafit.subjects import LoopCase, LoopEnd
from areafit.tables.limits import Figure, figure
from areafit.tables.part_names import Topic, topics
from areafit.values import Frozen, replace
from areafit.verdict import Reason, Role, Verdict


class Feeding(Frozen):
    """The sources of a circuit, and the devices that bring energy of their own.

    `non_linear` are sources said to have another than a straight output line, `bent` those of
    which nobody says it and whose power is more than a straight line gives. `reduced` says that
    the permitted reactances are halved. `active` are devices said to be sources as well, `supplied`
    those of which nobody says it and whose plate or battery lets them be one.
    """

    sources: tuple[str, ...]
    non_linear: tuple[str, ...]
    active: tuple[str, ...]
    bent: tuple[str, ...] = ()
    reduced: bool = False
    supplied: tuple[str, ...] = ()


def _ask_source(case: LoopCase, _demands: None) -> Iterator[Ask[Feeding]]:
    loop = case.loop
    sources = tuple(source.item for source in loop.sources)
    fed_back = {device.item for device in loop.devices} & set(sources)
    ends = zip(loop.devices, case.devices, strict=True)
    halving = budget(Circuit.of(case), Dimension.CAPACITANCE).halving
    yield Ask(
        Feeding(
            sources,
            tuple(source.item for source in loop.sources if source.linear is False),
            tuple(d.item for d in loop.devices if d.active or d.item in fed_back),
            bent=tuple(s.item for s in loop.sources if s.linear is None and _bent(s)),
            reduced=halving in (Halving.YES, Halving.AT_THE_EDGE),
            supplied=tuple(
                d.item for d, end in ends if d.active is None and _may_supply(end.equipment)
            ),
        ),
        "sources" if len(sources) > 1 else "source",
    )


def _bent(source: LoopSource) -> bool:
    """Whether it gives more power than a straight line from Uo to Io, a quarter of their product.

    Certificates round each value, so that a power a little above is still that of a straight line.
    """
    voltage, current, power = source.voltage, source.current, source.power
    if voltage is None or current is None or power is None:
        return False
    return power * 100 > voltage * current / 4 * _straight_line().amount(Dimension.FRACTION)


def _straight_line() -> Figure:
    """How much of a straight line's power a stated one may be and still be rounded from it."""
    return figure("power of a straight output line")


def _may_supply(equipment: Equipment | None) -> bool:
    """Whether something tells of energy that it does not draw from its intrinsically safe circuit.

    What is intrinsically safe and nothing else has none, unless a battery is in it.
    """
    if equipment is None:
        return False
    battery, name = equipment.battery, equipment.description or ""
    if battery is not None and battery.present is not False:
        return True
    called = battery is None and Topic.BATTERY in topics(name)
    return called or tie_of(equipment, classified=True) in (Tie.OUTPUT, Tie.AMONG_OTHERS)


def _judge_source(question: Feeding) -> Judgement:
    sources, non_linear, active = question.sources, question.non_linear, question.active
    found = f"source: {both(sources) or 'none'}"
    found += f"; non-linear: {both(non_linear)}" if non_linear else ""
    found += f"; active: {both(active)}" if active and sources else ""
    answer = Answer("one source of known output and no further source of energy", found)
    if not sources:
        return answer.unproven(
            Reason.FACT_MISSING,
            "The loop names no source.",
            remedy="State the `source` of the loop.",
        )
    if len(sources) > 1:
        message = f"Items {both(sources)} feed one circuit. What they deliver together "
        message += "depends on how they are connected and has to be assessed by a specialist."
        return answer.unproven(Reason.NOT_JUDGED, message)
    if active:
        message = f"Item {both(active)} is a source of energy itself. The circuit has to "
        message += "be assessed by a specialist."
        return answer.unproven(Reason.NOT_JUDGED, message)
    if non_linear and question.reduced:
        message = f"Item {both(non_linear)} is no linear source, and the devices lump both "
        message += "capacitance and inductance: that half of Co and Lo is enough holds for a "
        message += "linear one. The circuit has to be assessed by a specialist."
        return answer.unproven(Reason.NOT_JUDGED, message)
    return _unsaid(question, answer) or answer.passed(_told(question))


def _unsaid(question: Feeding, answer: Answer) -> Judgement | None:
    """What nobody says of the source or of a device and what decides here."""
    if question.supplied:
        items = both(question.supplied)
        return answer.unproven(
            Reason.FACT_MISSING,
            f"By its nameplate, name or battery item {items} may bring energy of its own into the "
            "circuit; whether it does is not stated.",
            remedy=f"State `active` of item {items} as its certificate does: no where the circuit "
            "alone feeds these terminals.",
            answer_by=Role.SUPPLIER,
        )
    if question.bent and question.reduced:
        items = both(question.bent)
        return replace(answer, rows=(Row.of_figure(_straight_line()),)).unproven(
            Reason.FACT_MISSING,
            f"Po of item {items} is more than a quarter of Uo times Io, the most that a linear "
            "source gives. That half of Co and Lo is enough where devices lump both holds for a "
            "linear one.",
            remedy=f"State `linear` of item {items} as its certificate or control drawing does.",
            answer_by=Role.SUPPLIER,
        )
    return None


def _told(question: Feeding) -> str:
    curve = ""
    if question.non_linear:
        curve = " The values of its certificate hold for its own output line, while it is alone."
    return f"A single source, and no device is said to be one as well.{curve} {NO_CURVES}"


LOOP_SOURCE = Rule[Feeding](
    id="loop-source",
    title="One source feeds the circuit",
    family=Family.LOOPS,
    subject=Subject.LOOP,
    clause="IEC 60079-14:2013 16.2.4; IEC 60079-25:2010 Annex B, Annex C; NFPA 70-2023 504.10",
    why="Voltages or currents of several sources add up, and rules of thumb for permitted "
    "reactances are made for a straight output line.",
    remedy=ASSESSED,
    answer_by=Role.DESIGNER,
    note="A source with another output line is judged by the values of its certificate like any "
    "other while it is alone; where the devices lump both reactances it is left to a specialist. "
    "Whether a device is a source too is asked where a battery, its name or a further type of "
    "protection on its nameplate lets it be one. Whether the source's values lie below the "
    "published ignition curves is not checked, and combinations are not reckoned.",
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
            "A device with a battery, of which nobody says whether it feeds the circuit",
            Verdict.UNPROVEN,
            sensor="{kind: electrical, marking: Ex ia IIC T4 Ga, "
            "battery: {charged: outside the area, replaced: outside the area}}",
        ),
        example(
            "A source with electronic current limitation",
            Verdict.PASS,
            changed("{item: '9', ", "{item: '9', linear: false, "),
        ),
        example(
            "The same where the devices lump both reactances",
            Verdict.UNPROVEN,
            changed("{item: '9', ", "{item: '9', linear: false, ").replace("10 µH", "100 µH"),
        ),
        example(
            "A power that no straight output line gives, and both reactances lumped",
            Verdict.UNPROVEN,
            changed("Po: 0.65 W", "Po: 0.9 W").replace("10 µH", "100 µH"),
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
