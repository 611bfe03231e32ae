"""Metal that is not earthed stores a charge and gives it off in one spark."""

from collections.abc import Iterator
from decimal import Decimal

from areafit.checks.ignition.cite import static_row
from areafit.checks.ignition.earth import backed_by_metal, calls_it_earthed, earthed
from areafit.checks.ignition.static_groups import StaticLimits, static_limits
from areafit.demands import Demands
from areafit.facts.part import Body, MaterialUse
from areafit.facts.quantity import Dimension, show
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
from areafit.tables import Tables
from areafit.tables.figures import figure
from areafit.tables.ignition import StaticLimit
from areafit.tables.materials import SurfaceClass
from areafit.values import Frozen
from areafit.verdict import Reason, Role, Verdict

_PF = Decimal("1E-12")


class Question(Frozen):
    """What is said of the earth path: `earthed` None where nothing is, Ω and F."""

    earthed: bool | None
    resistance: Decimal | None
    capacitance: Decimal | None
    limits: StaticLimits


def _ask(body: Body, demands: Demands) -> Iterator[Ask[Question]]:
    """Every part that holds metal or may do so; not one whose materials all insulate.

    Metal that a layer lies on counts, unless it is called earthed and nothing says otherwise.
    """
    if body.capacitance is None and not _may_conduct(body, demands.tables):
        return
    path = next(
        (
            key
            for key in ("bonded", "resistance_to_earth", "capacitance")
            if getattr(body, key) is not None
        ),
        "bonded",
    )
    for hazard in demands.hazards:
        limits = static_limits(demands, hazard)
        question = Question(earthed(body), body.resistance_to_earth, body.capacitance, limits)
        yield Ask(question, path)


def _may_conduct(body: Body, tables: Tables) -> bool:
    if body.materials is None:
        return True
    isolated = earthed(body) is False
    return any(
        _material_may_conduct(use, tables)
        or (backed_by_metal(use, tables) and (isolated or not calls_it_earthed(use)))
        for use in body.materials
    )


def _material_may_conduct(use: MaterialUse, tables: Tables) -> bool:
    """Metal, or what may be metal; a stated surface resistance tells plastic from it."""
    lowest = figure("surface that is no metal").amount(Dimension.RESISTANCE)
    plastic = use.surface_resistance is not None and use.surface_resistance >= lowest
    names = (None if plastic else use.material, use.substrate)
    grades = [tables.materials(name) for name in names if name is not None]
    return any(
        not found or any(grade.surface is not SurfaceClass.INSULATING for grade in found)
        for found in grades
    )


def _judge(question: Question) -> Judgement:
    row = figure("earth resistance")
    governing, mildest = question.limits.governing, question.limits.mildest
    rows = (Row.of_figure(row), _capacitance_row(governing))
    required = (
        f"bonded, or at most {row.value} to earth; without earth at most "
        f"{governing.capacitance_pf} pF ({question.limits.whose})"
    )
    found = _found(question)
    if question.earthed:
        return passed(
            "Earthed, so no isolated conductor.", required=required, found=found, rows=rows
        )
    if question.capacitance is not None and _small(question.capacitance, governing):
        return passed(
            "Too small to store a dangerous charge, earthed or not.",
            required=required,
            found=found,
            clause="IEC 60079-0:2017 7.5; IEC TS 60079-32-1:2013",
            rows=rows,
        )
    if question.earthed is None:
        return unproven(
            Reason.FACT_MISSING,
            "Whether the metal of the part is bonded is not stated.",
            required=required,
            found=found,
            rows=rows,
        )
    if question.capacitance is not None and _small(question.capacitance, mildest):
        gap = question.limits.gap
        message = gap.message if gap is not None else "the Division letter covers several groups"
        return unproven(
            gap.reason if gap is not None else Reason.NO_DATA,
            f"Too large for the most onerous group, which is not known: {message}.",
            required=required,
            found=found,
            rows=rows,
        )
    return flagged(
        "Metal without a path to earth stores a charge and gives it off in a spark.",
        required=required,
        found=found,
        rows=rows,
    )


def _small(capacitance: Decimal, limit: StaticLimit) -> bool:
    return capacitance <= limit.capacitance_pf * _PF


def _capacitance_row(limit: StaticLimit) -> Row:
    return static_row(limit, f"{limit.capacitance_pf} pF without earth")


def _found(question: Question) -> str:
    words = {True: "earthed", False: "not earthed", None: "earth not stated"}
    stated = [words[question.earthed]]
    if question.resistance is not None:
        stated.append(f"{show(question.resistance, Dimension.RESISTANCE)} to earth")
    if question.capacitance is not None:
        stated.append(show(question.capacitance, Dimension.CAPACITANCE))
    return ", ".join(stated)


BONDING = Rule[Question](
    id="bonding",
    title="Metal parts are earthed",
    family=Family.IGNITION,
    subject=Subject.BODY,
    clause="IEC 60079-14:2013 6.4; IEC TS 60079-32-1:2013 13; NFPA 77-2019",
    why="An isolated metal part is charged by its surroundings and discharges in one spark, "
    "which lights gas and dust far more easily than plastic does.",
    remedy="Bond the part and state `bonded: true`, or `resistance_to_earth`; for a small metal "
    "part that cannot be earthed state its `capacitance`.",
    answer_by=Role.INSTALLER,
    note="1 MΩ is enough for static; fault currents ask for far less (NFPA 70 250, IEC 60364). "
    "The capacitance limits differ by edition: 3 pF at level a and in IIC, 10 pF elsewhere.",
    ask=_ask,
    judge=_judge,
    examples=(
        Example(
            "A bonded frame",
            Verdict.PASS,
            "{kind: structural, materials: [{component: frame, material: '304'}], bonded: true}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
        Example(
            "A frame on rubber feet",
            Verdict.FLAG,
            "{kind: structural, materials: [{component: frame, material: '304'}], bonded: false}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
        Example(
            "A frame of which nothing is said",
            Verdict.UNPROVEN,
            "{kind: structural, materials: [{component: frame, material: '304'}]}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
        Example(
            "A handwheel on a plastic shaft",
            Verdict.FLAG,
            "{kind: mechanical, capacitance: 80 pF, resistance_to_earth: 1e12 ohm}",
            "{area: 'Zone 1, IIC, T1'}",
        ),
    ),
)
