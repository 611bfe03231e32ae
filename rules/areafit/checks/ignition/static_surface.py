"""Insulating outer surfaces: how large, wide or thick they may be before they store a spark."""

from collections.abc import Iterator

from areafit.checks.ignition.cite import limit_row, static_row
from areafit.checks.ignition.conditions import STATIC, met_condition
from areafit.checks.ignition.earth import READS
from areafit.checks.ignition.static_groups import StaticLimits, static_limits
from areafit.checks.ignition.surface_limits import fails, way_out
from areafit.checks.ignition.surface_question import Surface, SurfaceQuestion, surface_question
from areafit.demands import Demands
from areafit.facts.part import Body
from areafit.facts.quantity import Dimension, number, show
from areafit.frozen import frozen
from areafit.rule import Ask, Example, Family, Judgement, Rule, Subject, flagged, passed, unproven
from areafit.tables.ignition import ignition_limit
from areafit.verdict import Reason, Role, Verdict


@frozen
class NotListed:
    """A part that does not state its materials, so that nothing is known of its surfaces."""

    limits: StaticLimits


Question = SurfaceQuestion | NotListed


def _ask(body: Body, demands: Demands) -> Iterator[Ask[Question]]:
    condition = met_condition(body.equipment, STATIC)
    for hazard in demands.hazards:
        limits = static_limits(demands, hazard)
        if body.materials is None and not _told_as_metal(body):
            yield Ask(NotListed(limits), "materials")
        for i, use in enumerate(body.materials or ()):
            question = surface_question(use, body, demands.tables, limits, condition)
            key = "surface_area" if use.surface_area is not None else "material"
            yield Ask(question, f"materials/{i}/{key}", use.component)


def _told_as_metal(body: Body) -> bool:
    """Whether the part is described by its path to earth, which only metal has.

    Then nothing is asked here; that no materials are listed is said by `light-metal`.
    """
    facts = (body.bonded, body.resistance_to_earth, body.capacitance)
    return any(fact is not None for fact in facts)


def _judge(question: Question) -> Judgement:
    limits = question.limits
    required = _required(limits)
    if isinstance(question, NotListed):
        return unproven(
            Reason.FACT_MISSING,
            "No materials are stated, so whether a surface can be charged is not known.",
            required=required,
            found="not stated",
        )
    rows = (static_row(limits.governing, required), *question.rows)
    found = _found(question)
    if question.enclosed:
        return passed(
            "No outer surface: it lies inside a closed housing.",
            required=required,
            found=found,
            clause="IEC 60079-0:2017 7.4.1",
        )
    if question.surface in (Surface.CARRIES, Surface.FILM):
        resistance = limit_row(ignition_limit("surface resistance"))
        return passed(
            f"The surface does not keep a charge: {question.surface.value}.",
            required=required,
            found=found,
            clause="IEC 60079-0:2017 7.4.2 a)",
            rows=(resistance, *question.rows),
        )
    free = way_out(question, limits.governing)
    if free:
        return passed(f"Insulating, but {free}.", required=required, found=found, rows=rows)
    if question.condition is not None:
        condition = question.condition
        return passed(
            f"A specific condition of use covers it and is met: {condition.text} "
            f"({condition.met_by}, {condition.document}).",
            required=required,
            found=found,
            rows=rows,
        )
    return _not_free(question, required, found)


def _not_free(question: SurfaceQuestion, required: str, found: str) -> Judgement:
    limits = question.limits
    rows = (static_row(limits.mildest, required), *question.rows)
    sure = question.surface is Surface.INSULATES
    if sure and fails(question, limits.mildest) and not way_out(question, limits.mildest):
        return flagged(
            f"An insulating surface is over the limit for EPL {limits.mildest.level}, group "
            f"{limits.mildest.group}.",
            required=required,
            found=found,
            rows=rows,
        )
    if question.surface is Surface.UNKNOWN:
        reason, message = Reason.NAME_UNKNOWN, f"{question.name} is in no table."
    elif limits.gap is not None and fails(question, limits.governing):
        gap = limits.gap
        reason = gap.reason
        message = f"Too much for IIC, and the group is not known: {gap.message}."
    elif fails(question, limits.governing):
        reason = Reason.FACT_MISSING
        message = f"Over the limit if it insulates: {question.surface.value}."
    else:
        reason = Reason.FACT_MISSING
        message = f"{question.surface.value.capitalize()}, and how large it is, is not stated."
    return unproven(reason, message, required=required, found=found, rows=rows)


def _required(limits: StaticLimits) -> str:
    limit = limits.governing
    words = [f"at most {number(limit.area_cm2)} cm²"]
    if limit.width_mm is not None:
        words.append(f"{number(limit.width_mm)} mm wide")
    if limit.layer_mm is not None:
        words.append(f"{number(limit.layer_mm)} mm on earthed metal")
    words.append(f"{number(limit.charge_nc)} nC in a test")
    return f"{' or '.join(words)} (EPL {limit.level}, {limit.group}); free at 1 GΩ and less"


def _found(question: SurfaceQuestion) -> str:
    figures = (
        (question.resistance, Dimension.RESISTANCE, ""),
        (question.area, Dimension.AREA, ", framed" if question.framed else ""),
        (question.width, Dimension.LENGTH, " wide"),
        (question.thickness, Dimension.LENGTH, " thick" + _backing(question)),
        (question.charge, Dimension.CHARGE, ""),
        (question.breakdown, Dimension.VOLTAGE, " breakdown"),
    )
    stated = [show(value, unit) + more for value, unit, more in figures if value is not None]
    return ", ".join([f"{question.name} ({question.surface.value})", *stated])


def _backing(question: SurfaceQuestion) -> str:
    return " on earthed metal" if question.metal else ""


RULE = Rule[Question](
    id="static-surface",
    title="Insulating surfaces are too small to light the atmosphere",
    family=Family.IGNITION,
    subject=Subject.BODY,
    clause="IEC 60079-0:2017 7.4.2, 7.4.3; ISO 80079-36:2016 6.7",
    why="Plastic that is rubbed, wiped or flowed past keeps its charge and gives it off in a "
    "brush discharge; the larger the surface and the more onerous the group, the sooner it lights.",
    remedy="State `surface_area` or `surface_resistance`, choose a dissipative grade, or divide "
    "the surface by an earthed metal frame and state `framed: true`.",
    answer_by=Role.SUPPLIER,
    note="Area is the largest projection. The 2017 edition asks that a layer on metal breaks down "
    "at 4 kV or less for gas too; earlier ones for dust only. Area limits for dust are of newer "
    "editions. A Division 1 is read as level a, a Division 2 as level c, and a Division letter as "
    "the more onerous IEC group that its gases have. IEC 60079-14 exempts cables; they are judged "
    "here all the same.",
    reads=READS,
    ask=_ask,
    judge=_judge,
    examples=(
        Example(
            "A PTFE cover of 80 cm² in IIB",
            Verdict.PASS,
            "{kind: structural, materials: "
            "[{component: cover, material: PTFE, surface_area: 80 cm²}]}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
        Example(
            "The same in IIC",
            Verdict.FLAG,
            "{kind: structural, materials: "
            "[{component: cover, material: PTFE, surface_area: 80 cm²}]}",
            "{area: 'Zone 1, IIC, T3'}",
        ),
        Example(
            "Framed by earthed metal",
            Verdict.PASS,
            "{kind: structural, materials: "
            "[{component: window, material: PC, surface_area: 80 cm², framed: true}]}",
            "{area: 'Zone 1, IIC, T3'}",
        ),
        Example(
            "A powder coat on earthed metal in IIC",
            Verdict.PASS,
            "{kind: structural, materials: [{component: coating, material: epoxy paint, "
            "layer_thickness: 0.1 mm, backing: earthed metal}]}",
            "{area: 'Zone 1, IIC, T3'}",
        ),
        Example(
            "A plastic cover of unknown size",
            Verdict.UNPROVEN,
            "{kind: structural, materials: [{component: cover, material: PTFE}]}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
    ),
)
