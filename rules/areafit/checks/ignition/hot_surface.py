"""Hot surfaces of parts that bear no temperature class, in the states that count for the level."""

from collections.abc import Iterator
from decimal import Decimal

from areafit.checks.ignition.assessment import (
    Assessed,
    HandFact,
    Motion,
    by_hand,
    cover_of,
    hand_fact,
    is_slow,
    motion,
)
from areafit.demands import Demands, HazardDemand, Limit
from areafit.demands.demand import Gap, asked_level, unaccepted
from areafit.demands.meeting import touching
from areafit.facts.part import Body, Exposure, Kind, MaterialUse, SurfaceCase, SurfaceTemperature
from areafit.facts.protection import Hazard, Level
from areafit.facts.quantity import Dimension, number, parse
from areafit.rule import Answer, Ask, Example, Family, Judgement, Row, Rule, Subject, of_a_pass
from areafit.tables.limits import figure
from areafit.values import Frozen, Term, replace
from areafit.verdict import Reason, Role, Verdict
from areafit.wording import capital

_STATES = {
    None: 2,
    SurfaceCase.NORMAL: 2,
    SurfaceCase.EXPECTED_MALFUNCTION: 1,
    SurfaceCase.RARE_MALFUNCTION: 0,
}
_WORDS = ("in rare malfunction", "in expected malfunction", "in normal operation")


class ClassOnPlate(Term):
    """Why a temperature class on the plate is none of this surface here."""

    ELECTRICAL = "of the electrical half"
    HAZARD = "for another hazard"
    LEVEL = "for a lower level"


class HotSurface(Frozen):
    """The stated surface, the hottest air of the place in °C, level and limits.

    `states` says whether the states of EN 1127-1 count: they do for what moves, not for simple
    apparatus, whose heat comes from its circuit. `assessed`: an ignition hazard assessment for the
    level is stated. `heatless`: a hand moves it slowly, so that a figure can only speak against it.
    `heated` names the material, or what it is immersed in, whose stated temperature the surface is.
    `owed` is the one fact that would make it slow by hand. `unloaded`: it is a box for terminals or
    a switch in an intrinsically safe circuit.
    """

    surface: SurfaceTemperature | None
    air: Decimal | None
    level: Level
    states: bool
    limits: tuple[Limit, ...]
    gaps: tuple[Gap, ...]
    assessed: bool = False
    heatless: bool = False
    heated: str = ""
    plate: ClassOnPlate | None = None
    owed: HandFact | None = None
    unloaded: bool = False


def _ask(body: Body, demands: Demands) -> Iterator[Ask[HotSurface]]:
    """What moves or is simple apparatus, unless a marking gives its class; others if stated.

    What a hand moves slowly makes no heat that counts, but at level a (ISO 80079-36:2016 4).
    Of every part a stated material, or what it is immersed in, that is hotter than the limit.
    """
    yield from _asked_of_heat(body, demands)
    equipment, moves = body.equipment, motion(body)
    simple = Kind.SIMPLE_APPARATUS in equipment.kinds
    stated = equipment.surface is not None and not equipment.electrical
    if not (moves is Motion.MOVING or simple or stated):
        return
    slow = by_hand(body) and is_slow(body) and not simple
    marked = any(code.names_moving_parts for code in equipment.codes)
    replaced = marked and equipment.surface is None
    air = demands.ambient.high if demands.ambient is not None else None
    for hazard in demands.hazards:
        cover = cover_of(body, demands, hazard)
        if cover.by_marking and _classed(body, hazard):
            continue
        heatless = slow and cover.asked.rank > 0
        if replaced and hazard.hazard in body.refused:
            continue  # the part goes; the one that comes brings its own class
        if heatless and equipment.surface is None:
            continue  # `ignition-hazard` says that a hand makes no heat that counts
        unknown = equipment.surface is None and moves is Motion.MOVING and not simple
        question = HotSurface(
            equipment.surface,
            air,
            cover.asked,
            not simple,
            hazard.limits,
            hazard.temperature_gaps,
            cover.assessed is Assessed.YES and moves is Motion.MOVING,
            heatless,
            plate=None if equipment.surface is not None else _class_on_plate(body, hazard),
            owed=hand_fact(body, cover.asked) if unknown else None,
            unloaded=equipment.surface is None and equipment.dissipates_nothing,
        )
        yield Ask(question, "surface_temperature")


def _asked_of_heat(body: Body, demands: Demands) -> Iterator[Ask[HotSurface]]:
    """The hottest temperature stated of the materials, where it is not within the limit."""
    if not demands.classified:
        return
    found = [pair for use in body.materials or () for pair in _heats(use, body, demands)]
    hottest = max(found, key=lambda pair: pair[1], default=None)
    if hottest is None:
        return
    name, heat = hottest
    equipment = body.equipment
    states = not (equipment.electrical or Kind.SIMPLE_APPARATUS in equipment.kinds)
    for hazard in demands.hazards:
        question = HotSurface(
            SurfaceTemperature(heat),
            None,
            asked_level(demands, hazard),
            states,
            hazard.limits,
            hazard.temperature_gaps,
            heated=name,
        )
        if not all(limit.keeps(heat) for limit in _limits(question)[0]):
            yield Ask(question, "materials")


def _heats(use: MaterialUse, body: Body, demands: Demands) -> Iterator[tuple[str, Decimal]]:
    """What is stated of a surface that the atmosphere meets; a plate covers what lies behind it."""
    behind = use.exposure is Exposure.ENCLOSED and body.equipment.markings
    if use.temperature is not None and not behind:
        yield use.component or use.material, use.temperature.high
    if use.exposure is Exposure.IMMERSED:
        for name, span in touching(use, demands):
            yield f"{use.component or use.material}, immersed in {name}", span.high


def _class_on_plate(body: Body, hazard: HazardDemand) -> ClassOnPlate | None:
    """What a class on the plate is of, where it does not answer for what moves here."""
    classed = [code for code in body.equipment.codes if code.temperatures]
    own = [code for code in classed if code.of_moving_parts]
    if any(code.hazard is hazard.hazard for code in own):
        return ClassOnPlate.LEVEL
    if own:
        return ClassOnPlate.HAZARD
    return ClassOnPlate.ELECTRICAL if classed else None


def _classed(body: Body, hazard: HazardDemand) -> bool:
    return any(
        code.of_moving_parts and code.temperatures and code.hazard is hazard.hazard
        for code in body.equipment.codes
    )


def _judge(question: HotSurface) -> Judgement:  # noqa: PLR0911 - one return for each answer
    limits, rows = _limits(question)
    surface = question.surface
    answer = Answer(required=_required(question, limits), found=_found(question), rows=rows)
    if surface is None and question.unloaded:
        return _judge_unloaded(question, limits, answer)
    if surface is None and question.assessed:
        return answer.unproven(
            Reason.FACT_MISSING,
            "The ignition hazard assessment covers hot surfaces; the figure that it found is not "
            "stated, so it cannot be compared with what ignites here.",
            remedy="Copy the hottest surface from the assessment: `surface_temperature: {value: "
            "…, at_ambient: …, case: …, source: …}`.",
            answer_by=Role.DESIGNER,
        )
    if surface is None and question.owed is not None:
        return answer.unproven(
            Reason.FACT_MISSING,
            f"{_NO_CLASS[question.plate]} Nor is it stated {question.owed.value}.",
            remedy=f"{question.owed.remedy} {_OR_ELSE}",
            answer_by=Role.DESIGNER,
        )
    if surface is None:
        remedy = "" if question.states or question.plate is not None else _SIMPLE
        return answer.unproven(Reason.FACT_MISSING, _NO_CLASS[question.plate], remedy=remedy)
    failing = [limit for limit in limits if not limit.keeps(surface.value)]
    over = min(failing, key=lambda limit: limit.uncertain, default=None)
    if over is not None:
        return _over(question, surface, over, answer)
    if question.heatless:
        slow = Row.of_figure(figure("rubbing speed"))
        return replace(answer, clause="ISO 80079-36:2016 4", rows=(*rows, slow)).passed(
            "A hand moves it slowly, which makes no heat that counts; the figure stated is within "
            "the limit."
        )
    message = _open(question, surface)
    if message:
        return answer.unproven(Reason.FACT_MISSING, message)
    if question.gaps:
        return question.gaps[0].leaves(answer)
    answer = replace(answer, rows=of_a_pass(rows))
    return answer.passed("The hottest surface stays within the limit.")


def _judge_unloaded(question: HotSurface, limits: tuple[Limit, ...], answer: Answer) -> Judgement:
    """A switch or a box for terminals has T6 in air of 40 °C, without any test."""
    hottest = figure("surface of a switch or terminal box", "40 °C")
    value = hottest.amount(Dimension.TEMPERATURE)
    air, warmest = question.air, parse(hottest.applies_to, Dimension.TEMPERATURE)
    if air is None or air > warmest or not all(limit.keeps(value) for limit in limits):
        return answer.unproven(Reason.FACT_MISSING, _NO_CLASS[None])
    if question.gaps:
        return question.gaps[0].leaves(answer)
    rows = (*of_a_pass(answer.rows), Row.of_figure(hottest))
    return replace(answer, rows=rows, clause="IEC 60079-11:2011 5.7").passed(
        f"Nothing in a switch or a terminal box is heated by an intrinsically safe circuit: it "
        f"stays below {hottest.value} in air of {hottest.applies_to}."
    )


_SIMPLE = (
    "State `surface_temperature: {value: …, at_ambient: …, case: …, source: …}` at the circuit's "
    "highest power. A switch or a terminal box says by its device that it is one: nothing heats it."
)
_OR_ELSE = (
    "Otherwise state `surface_temperature: {value: …, at_ambient: …, case: …, source: …}`, or "
    "choose a part with a temperature class."
)
_NO_CLASS = {
    None: "No temperature class is marked and no hottest surface is stated.",
    ClassOnPlate.ELECTRICAL: "The class on the plate is of the electrical half; the hottest "
    "surface of what moves is not stated.",
    ClassOnPlate.HAZARD: "The class on the plate is for another hazard; the hottest surface is not "
    "stated.",
    ClassOnPlate.LEVEL: "The class on the plate is for a level that is not shown to reach what "
    "this place asks for; the hottest surface is not stated.",
}


def _limits(question: HotSurface) -> tuple[tuple[Limit, ...], tuple[Row, ...]]:
    """The limits of the place, lowest first; a share of those of gas where level a is asked."""
    limits = question.limits
    rows = [row for limit in limits for row in limit.rows]
    if question.states and question.level.rank == 0 and question.level.hazard is Hazard.GAS:
        share = figure("share of the ignition temperature for level a")
        factor = share.amount(Dimension.FRACTION) / 100
        limits = tuple(
            replace(
                limit,
                maximum=limit.maximum * factor,
                inclusive=True,
                no_margin_at_limit=False,
                cause=f"{share.value} of {number(limit.maximum)} °C, as {limit.cause}",
            )
            for limit in limits
        )
        rows.append(Row.of_figure(share))
    ordered = tuple(sorted(limits, key=lambda limit: limit.maximum))
    return ordered, tuple(dict.fromkeys(rows))


def _required(question: HotSurface, limits: tuple[Limit, ...]) -> str:
    if not limits:
        return "not known"
    lowest = limits[0]
    state = _WORDS[question.level.rank] if question.states else "at the circuit's highest power"
    return f"{lowest.words} {state} ({lowest.cause})"


def _found(question: HotSurface) -> str:
    surface = question.surface
    if surface is None:
        return "assessed, figure not stated" if question.assessed else "not stated"
    state = surface.case.value if surface.case is not None else "no state named"
    return f"{number(surface.value)} °C, {question.heated or state}"


def _over(
    question: HotSurface, surface: SurfaceTemperature, limit: Limit, answer: Answer
) -> Judgement:
    """A surface over a limit fails, unless it was found in a state that does not count here."""
    value = surface.value
    if value == limit.maximum and limit.no_margin_at_limit:
        return answer.unproven(
            Reason.NO_MARGIN, "The surface equals the limit: there is no margin."
        )
    if limit.milder is not None:
        stated, row = limit.milder
        return unaccepted("the surface", f"{number(stated)} °C", row, limit.cause, answer)
    if limit.uncertain:
        return answer.unproven(
            Reason.CONDITION_TO_ACCEPT,
            f"The surface is above {number(limit.maximum)} °C: {limit.cause}.",
        )
    if question.states and _STATES[surface.case] < question.level.rank:
        return answer.unproven(
            Reason.FACT_MISSING,
            "The figure was found in a malfunction that does not count at this level; the one "
            f"{_WORDS[question.level.rank]} is not stated.",
        )
    what = f"{capital(question.heated)}" if question.heated else "The surface"
    over = "above" if value > limit.maximum else "not below"
    return replace(answer, rows=limit.rows or answer.rows).flagged(
        f"{what} reaches {number(value)} °C, {over} {number(limit.maximum)} °C: {limit.cause}.",
        remedy=f"Choose a part that stays {limit.words}, and state "
        "`surface_temperature: {value: …, at_ambient: …, case: …, source: …}`.",
    )


def _open(question: HotSurface, surface: SurfaceTemperature) -> str:
    """What keeps a low enough figure from being a proof."""
    if question.states and _STATES[surface.case] > question.level.rank:
        return f"The hottest surface {_WORDS[question.level.rank]} is not stated."
    if surface.at_ambient is None or question.air is None:
        return "The ambient that the figure holds at, or that of the place, is not stated."
    if surface.at_ambient < question.air:
        return (
            f"The figure was found in air of {number(surface.at_ambient)} °C; the place reaches "
            f"{number(question.air)} °C."
        )
    return ""


HOT_SURFACE = Rule[HotSurface](
    id="hot-surface",
    title="Surfaces of unmarked parts stay cool in the states that count",
    family=Family.IGNITION,
    subject=Subject.BODY,
    clause="EN 1127-1:2019 (hot surfaces); ISO 80079-36:2016 6.2",
    why="Friction, compression and brakes heat a part; in Zone 0 and 20 even rare malfunctions "
    "count, in Zone 1 and 21 expected ones, in Zone 2 and 22 normal operation.",
    remedy="State `surface_temperature: {value: …, at_ambient: …, case: …, source: …}` in the "
    "state asked for, or choose a part with a temperature class.",
    answer_by=Role.SUPPLIER,
    note="A Division 1 is read as Zone 1 or 21 unless the place states level a, a Division 2 as "
    "Zone 2 or 22. The 80 % is of the figure in °C and applies to gas at level a. An assessment "
    "covers hot surfaces (ISO 80079-36:2016 6.2 asks it for the maximum surface temperature), but "
    "against the limit that its maker had in mind: without the figure nothing would notice that "
    "the part came into a place with a lower limit, and a figure that fails could be left out. So "
    "the figure is asked for, and the designer finds it in the assessment. What a list states of a "
    "material, or of a bath that it is immersed in, only ever speaks against the part, whatever "
    "its kind and marking. Simple apparatus that is a junction box, a switch or a push button by "
    "its `device` is taken as T6 in air of 40 °C at most.",
    ask=_ask,
    judge=_judge,
    examples=(
        Example(
            "A slow slide in Zone 1, worst expected state",
            Verdict.PASS,
            "{kind: mechanical, surface_temperature: "
            "{value: 70 °C, at_ambient: 40 °C, case: expected malfunction}}",
            "{area: 'Zone 1, IIB, T3', ambient: 0..40 °C}",
        ),
        Example(
            "170 °C in Zone 0, where 80 % of 200 °C is 160 °C",
            Verdict.FLAG,
            "{kind: mechanical, surface_temperature: "
            "{value: 170 °C, at_ambient: 40 °C, case: rare malfunction}}",
            "{area: 'Zone 0, IIB, T3', ambient: 0..40 °C}",
        ),
        Example(
            "A tank wall in a hot bath",
            Verdict.FLAG,
            "{kind: structural, materials: [{component: wall, material: '316', exposure: "
            "immersed}]}",
            "{area: 'Zone 1, IIC, T6', ambient: 0..40 °C, chemicals: [{name: sodium hydroxide, "
            "concentration: 10 %, temperature: 90 °C}]}",
        ),
        Example(
            "Normal operation only, in Zone 1",
            Verdict.UNPROVEN,
            "{kind: mechanical, surface_temperature: {value: 70 °C, case: normal}}",
            "{area: 'Zone 1, IIB, T3', ambient: 0..40 °C}",
        ),
        Example(
            "Assessed, and the figure that was found not stated",
            Verdict.UNPROVEN,
            "{kind: mechanical, evidence: [{type: assessment, number: IHA-1}]}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
        Example(
            "A gearbox without class or figure",
            Verdict.UNPROVEN,
            "{kind: mechanical}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
    ),
)
