"""The service temperatures of a material against air, chemicals and the part's own heat."""

from collections.abc import Iterator
from decimal import Decimal

from areafit.checks.materials.several import called, most_severe
from areafit.demands import Demands
from areafit.demands.meeting import chosen
from areafit.facts.part import LIQUID, WET, MaterialUse
from areafit.facts.quantity import Range, number
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
from areafit.tables.materials import Material
from areafit.values import Frozen
from areafit.verdict import Reason, Role, Verdict


class Case(Frozen):
    """One material with its service temperatures in °C; empty where none is known."""

    material: str
    lowest: Decimal | None
    highest: Decimal | None
    row: Row


class Question(Frozen):
    """All that a name may mean, and what it must stand, each range with its cause.

    `cases` is empty where the name is unknown, `nearest` then holds known ones.
    """

    material: str
    cases: tuple[Case, ...]
    spans: tuple[tuple[str, Range], ...]
    nearest: tuple[str, ...] = ()


def _ask(use: MaterialUse, demands: Demands) -> Iterator[Ask[Question]]:
    spans = tuple(_spans(use, demands))
    if not spans:
        return
    candidates = demands.tables.materials(use.material)
    if not candidates:
        if not demands.chemicals:  # else `chemical-resistance` reports the name
            near = demands.tables.nearest("materials", use.material)
            yield Ask(Question(use.material, (), spans, near), "material", use.component)
        return
    cases = tuple(
        _case(called(use.material, material, demands.tables), material) for material in candidates
    )
    yield Ask(Question(use.material, cases, spans), "", use.component)


def _spans(use: MaterialUse, demands: Demands) -> Iterator[tuple[str, Range]]:
    if demands.ambient is not None:
        yield "the air", demands.ambient
    if use.temperature is not None:
        yield "the part itself", use.temperature
    if use.exposure is None or use.exposure in WET:
        for corroding in chosen(use, demands):
            if corroding.stated.temperature is not None:
                yield corroding.stated.name, corroding.stated.temperature
            liquid = use.exposure is None or use.exposure in LIQUID
            if liquid and corroding.liquid is not None:
                yield corroding.stated.name, corroding.liquid


def _case(name: str, material: Material) -> Case:
    limits = " to ".join(
        "?" if limit is None else f"{number(limit)} °C"
        for limit in (material.tmin_c, material.tmax_c)
    )
    row = Row.of("materials", f"{material.id} service temperature", material, limits)
    return Case(name, material.tmin_c, material.tmax_c, row)


def _judge(question: Question) -> Judgement:
    if not question.cases:
        return unproven(
            Reason.NAME_UNKNOWN,
            f"{question.material!r} is no known material.{nearest_known(question.nearest)}",
            required="a material of known service temperature",
            found=question.material,
            remedy=use_known_name(question.nearest, "have the maker state where it serves"),
        )
    return most_severe(_judge_case(case, question.spans) for case in question.cases)


def _judge_case(case: Case, spans: tuple[tuple[str, Range], ...]) -> Judgement:
    hot_cause, hot = max(spans, key=lambda span: span[1].high)
    cold_cause, cold = min(spans, key=lambda span: span[1].low)
    required = f"from {_degrees(case.lowest)} to {_degrees(case.highest)}"
    found = f"{number(cold.low)}..{number(hot.high)} °C"
    rows = (case.row,)
    if case.highest is not None and hot.high > case.highest:
        return flagged(
            f"{case.material} serves to {number(case.highest)} °C; {hot_cause} reaches "
            f"{number(hot.high)} °C.",
            required=required,
            found=found,
            rows=rows,
        )
    if case.lowest is not None and cold.low < case.lowest:
        return flagged(
            f"{case.material} serves down to {number(case.lowest)} °C; {cold_cause} falls to "
            f"{number(cold.low)} °C.",
            required=required,
            found=found,
            rows=rows,
        )
    if case.highest is None or (case.lowest is None and cold.low < 0):
        return unproven(
            Reason.NO_DATA,
            f"No service temperature is known for {case.material} on that side.",
            required=required,
            found=found,
            rows=rows,
            remedy="Ask the supplier for the service temperatures.",
        )
    return passed(
        f"{case.material} serves at the temperatures it meets.",
        required=required,
        found=found,
        rows=rows,
    )


def _degrees(limit: Decimal | None) -> str:
    return "?" if limit is None else f"{number(limit)} °C"


MATERIAL_TEMPERATURE = Rule[Question](
    id="material-temperature",
    title="Materials serve at the temperatures they meet",
    family=Family.MATERIALS,
    subject=Subject.MATERIAL,
    clause="Service temperatures of the grade, dry service, from memory of textbook ranges",
    why="A rubber that hardens in the cold leaks, a plastic that softens lets go.",
    remedy="Choose a material that serves at the temperature, or keep the heat from it.",
    answer_by=Role.DESIGNER,
    note="Limits are for dry service; in chemicals and water they are often lower.",
    ask=_ask,
    judge=_judge,
    examples=(
        Example(
            "PTFE in a warm room",
            Verdict.PASS,
            "kind: structural, materials: [{material: PTFE, exposure: room}]",
            "{ambient: 5..40 °C}",
        ),
        Example(
            "Rigid PVC in a hot bath",
            Verdict.FLAG,
            "kind: structural, materials: [{material: PVC-U, exposure: immersed}]",
            "{ambient: 5..40 °C, chemicals: [{name: nitric acid, concentration: 10 %, "
            "temperature: 70 °C}]}",
        ),
        Example(
            "A name nobody lists",
            Verdict.UNPROVEN,
            "kind: structural, materials: [{material: wonder resin 7}]",
            "{ambient: 5..40 °C, chemicals: none}",
        ),
    ),
)
