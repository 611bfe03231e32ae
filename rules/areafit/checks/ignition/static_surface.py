"""Insulating outer surfaces: how large, wide or thick they may be before they store a spark."""

from collections.abc import Iterator

from areafit.checks.ignition.cite import static_row
from areafit.checks.ignition.conditions import STATIC, met_condition
from areafit.checks.ignition.static_groups import StaticLimits, static_limits
from areafit.checks.ignition.surface_limits import fails, layer_open, way_out
from areafit.checks.ignition.surface_question import (
    Surface,
    SurfaceQuestion,
    is_own,
    surface_question,
)
from areafit.demands import Demands
from areafit.facts.part import Body
from areafit.facts.quantity import Dimension, number, show
from areafit.naming import nearest_known, use_known_name
from areafit.rule import (
    Ask,
    Example,
    Family,
    Judgement,
    Row,
    Rule,
    Subject,
    flagged,
    passed,
    unproven,
)
from areafit.tables.figures import figure
from areafit.values import Frozen
from areafit.verdict import Reason, Role, Verdict


class NotListed(Frozen):
    """A part that does not state its materials, so that nothing is known of its surfaces."""

    limits: StaticLimits
    own: bool = False


Question = SurfaceQuestion | NotListed


def _ask(body: Body, demands: Demands) -> Iterator[Ask[Question]]:
    condition = met_condition(body.equipment, STATIC)
    limits = [static_limits(demands, hazard) for hazard in demands.hazards]
    if body.materials is None and not _told_as_metal(body):
        for each in limits:
            yield Ask(NotListed(each, is_own(body)), "materials")
    for i, use in enumerate(body.materials or ()):
        key = "surface_area" if use.surface_area is not None else "material"
        for each in limits:
            question = surface_question(use, body, demands.tables, each, condition)
            yield Ask(question, f"materials/{i}/{key}", use.component)


def _told_as_metal(body: Body) -> bool:
    """Whether the part is described by its path to earth, which only metal has.

    Then nothing is asked here; that no materials are listed is said by `light-metal`.
    """
    facts = (body.bonded, body.resistance_to_earth, body.capacitance)
    return any(fact is not None for fact in facts)


def _judge(question: Question) -> Judgement:
    required = _required(question.limits)
    if isinstance(question, NotListed):
        return unproven(
            Reason.FACT_MISSING,
            "No materials are stated, so whether a surface can be charged is not known.",
            required=required,
            found="not stated",
            remedy="State `materials`; of what is not metal its `surface_area` too.",
            answer_by=_role(own=question.own),
        )
    return _of_surface(question, required, _found(question))


def _of_surface(question: SurfaceQuestion, required: str, found: str) -> Judgement:
    limits = question.limits
    rows = (static_row(limits.governing, required), *question.rows)
    if question.surface is Surface.UNKNOWN:
        return _unknown(question, required, found)
    if question.enclosed:
        return passed(
            "No outer surface: it lies inside a closed housing or between the faces that it seals.",
            required=required,
            found=found,
            clause="IEC 60079-0:2017 7.4.1",
        )
    if question.surface in (Surface.CARRIES, Surface.FILM):
        resistance = Row.of_figure(figure("surface resistance"))
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


def _unknown(question: SurfaceQuestion, required: str, found: str) -> Judgement:
    """A name in no table is never a pass, however small the surface: it may be of metal."""
    return unproven(
        Reason.NAME_UNKNOWN,
        f"{question.name!r} is in no table, so whether it insulates is not known."
        f"{nearest_known(question.nearest)}",
        required=required,
        found=found,
        rows=(static_row(question.limits.mildest, required), *question.rows),
        remedy=use_known_name(question.nearest, "state `surface_resistance`"),
        answer_by=_role(own=question.own),
    )


def _not_free(question: SurfaceQuestion, required: str, found: str) -> Judgement:
    limits = question.limits
    rows = (static_row(limits.mildest, required), *question.rows)
    if layer_open(question, limits.governing):
        volts = figure("breakdown voltage of a layer on metal")
        paint = figure("layer on metal without a breakdown test")
        return unproven(
            Reason.FACT_MISSING,
            f"{question.name} on earthed metal is thin enough; the voltage that it stands is not "
            f"stated. Above {volts.value} it feeds a propagating brush discharge, however thin.",
            required=required,
            found=found,
            clause=volts.clause,
            rows=(*rows, Row.of_figure(volts), Row.of_figure(paint)),
            remedy=f"State `breakdown_voltage` from a test of the layer, or choose one of at most "
            f"{paint.value}.",
        )
    sure = question.surface is Surface.INSULATES
    if sure and fails(question, limits.mildest) and not way_out(question, limits.mildest):
        return flagged(
            f"{question.name} insulates, and is over the limit{_even(limits)}.",
            required=required,
            found=found,
            rows=rows,
            remedy=_SMALLER,
            answer_by=_role(own=question.own),
        )
    insulates = f"{question.name} {_INSULATES[sure]}"
    if limits.gap is not None and fails(question, limits.governing):
        return unproven(
            limits.gap.reason,
            f"Too much for IIC, and the group is not known: {limits.gap.message}.",
            required=required,
            found=found,
            rows=rows,
            remedy=limits.gap.remedy,
            answer_by=Role.AREA_OWNER,
        )
    if fails(question, limits.governing):
        message = f"{insulates}, and is over the limit {_IF[sure]}."
    else:
        missing = "the size of its surface is not" if sure else _NEITHER
        message = f"{insulates}, and {missing} stated."
    return unproven(
        Reason.FACT_MISSING,
        message,
        required=required,
        found=found,
        rows=rows,
        answer_by=_role(own=question.own),
    )


def _role(*, own: bool) -> Role:
    """Who knows the surface: of a structural part the one who designs it."""
    return Role.DESIGNER if own else Role.SUPPLIER


def _even(limits: StaticLimits) -> str:
    """Where the place may be of two groups with limits of their own: that both are passed."""
    if limits.mildest.area_cm2 == limits.governing.area_cm2:
        return ""
    return f", even over that of {limits.mildest.group}, the milder group that the place may have"


_SMALLER = (
    "Make the surface smaller than the limit, choose a dissipative grade and state "
    "`surface_resistance`, or divide it by an earthed metal frame and state `framed: true`."
)


_INSULATES = {True: "insulates", False: "may insulate, by filler or moisture"}
_IF = {True: "of the more onerous group that the place may have", False: "if it does"}
_NEITHER = "neither `surface_resistance` nor `surface_area` is"


def _required(limits: StaticLimits) -> str:
    limit = limits.governing
    words = [f"at most {number(limit.area_cm2)} cm²"]
    if limit.width_mm is not None:
        words.append(f"{number(limit.width_mm)} mm wide")
    if limit.layer_mm is not None:
        words.append(f"{number(limit.layer_mm)} mm on earthed metal")
    words.append(f"{number(limit.charge_nc)} nC in a test")
    return f"{' or '.join(words)} ({limits.whose}); free at 1 GΩ and less"


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


STATIC_SURFACE = Rule[Question](
    id="static-surface",
    title="Insulating surfaces are too small to light the atmosphere",
    family=Family.IGNITION,
    subject=Subject.BODY,
    clause="IEC 60079-0:2017 7.4.2, 7.4.3; IEC 60079-14:2013 6.5; ISO 80079-36:2016 6.7",
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
