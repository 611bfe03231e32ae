"""Welds of stainless steel that carbon has sensitised, in acids that find them."""

from collections.abc import Iterator
from decimal import Decimal

from areafit.checks.materials.several import called, most_severe
from areafit.checks.materials.strain import is_fastener
from areafit.demands import Demands
from areafit.demands.exposure import Met
from areafit.demands.meeting import meetings
from areafit.facts.part import WET, MaterialUse
from areafit.facts.quantity import number
from areafit.rule import Ask, Example, Family, Judgement, Row, Rule, Subject, passed, unproven
from areafit.tables.chemicals import Reaction
from areafit.tables.families import is_stainless
from areafit.tables.materials import Material
from areafit.values import Frozen
from areafit.verdict import Reason, Role, Verdict

_LOW_CARBON = Decimal("0.03")
_WELDABLE = ("austenitic stainless steel", "ferritic stainless steel")
_ORGANIC_ACIDS = "3"  # EPA reactivity group


class Case(Frozen):
    """A grade with the most carbon it may hold in mass %, and an acid."""

    material: str
    carbon: Decimal | None
    stabilised: bool
    chemical: str
    row: Row


class Question(Frozen):
    """Every material and acid that the names may mean, and whether the part is welded."""

    cases: tuple[Case, ...]
    welded: bool | None
    fastener: bool


def _ask(use: MaterialUse, demands: Demands) -> Iterator[Ask[Question]]:
    candidates = [
        material
        for material in demands.tables.materials(use.material)
        if is_stainless(material) and material.family in _WELDABLE
    ]
    if not candidates:
        return
    for meeting in meetings(use, demands):
        cases = tuple(
            _case(called(use.material, material, demands.tables), material, met)
            for met in meeting.mets
            for material in candidates
            if _finds_welds(met)
        )
        if cases:
            yield Ask(Question(cases, use.welded, is_fastener(use)), "welded", use.component)


def _finds_welds(met: Met) -> bool:
    """Wet with a mineral acid, or with an organic one that rises and condenses."""
    if met.exposure not in WET:
        return False
    chemical = met.chemical
    if chemical.reaction is Reaction.STRONG_ACID:
        return True
    acid = chemical.reaction is Reaction.WEAK_ACID and _ORGANIC_ACIDS in chemical.epa_groups
    return acid and met.rises


def _case(name: str, material: Material, met: Met) -> Case:
    carbon = material.carbon_max_pct
    row = Row.of(
        "materials",
        f"{material.id} carbon",
        material,
        "?" if carbon is None else f"at most {number(carbon)} %",
    )
    return Case(name, carbon, material.stabilised is True, met.name, row)


def _judge(question: Question) -> Judgement:
    return most_severe(_judge_case(case, question) for case in question.cases)


def _judge_case(case: Case, question: Question) -> Judgement:
    required = "an L or stabilised grade where it is welded"
    rows = (case.row,)
    found = "carbon not known" if case.carbon is None else f"up to {number(case.carbon)} % carbon"
    if case.stabilised or (case.carbon is not None and case.carbon <= _LOW_CARBON):
        kind = "stabilised" if case.stabilised else "low in carbon"
        return passed(
            f"{case.material} is {kind}; its welds resist.",
            required=required,
            found=found,
            rows=rows,
        )
    if question.welded is False or (question.welded is None and question.fastener):
        how = "a fastener" if question.fastener else "not welded"
        return passed(
            f"{case.material} is {how}, so nothing sensitised it.",
            required=required,
            found=how,
            rows=rows,
        )
    if question.welded:
        return unproven(
            Reason.CONDITION_TO_ACCEPT,
            f"{case.material} is welded; beyond about 3 mm {case.chemical} eats along the grains "
            "beside the weld.",
            required=required,
            found=f"{found}, welded",
            rows=rows,
        )
    return unproven(
        Reason.FACT_MISSING,
        f"{case.chemical} eats along the grains beside a weld of {case.material}; whether it is "
        "welded is not stated.",
        required=required,
        found=f"{found}, welding not stated",
        rows=rows,
        remedy="State `welded`, or use the L grade.",
    )


def _part(material: str, more: str) -> str:
    return f"kind: structural, materials: [{{material: '{material}', exposure: splash, {more}}}]"


_NITRIC = "{chemicals: [{name: nitric acid, concentration: 20 %, temperature: 25 °C}]}"

WELD_SENSITISATION = Rule[Question](
    id="weld-sensitisation",
    title="Welded stainless steel in acids is low in carbon",
    family=Family.MATERIALS,
    subject=Subject.MATERIAL,
    clause="EN 10088-1:2014 (carbon); ASTM A262-15 (intergranular attack), from memory",
    why="Welding heat takes the chromium from the grain edges of a plain grade; nitric acid and "
    "acid condensates then open the seam beside the weld.",
    remedy="Use 304L, 316L, 321 or 316Ti for welded parts, or keep them below 3 mm and accept it.",
    answer_by=Role.DESIGNER,
    note="Fasteners and unwelded bar do not need the L grade. 304 and 316 hold up to 0.08 % "
    "carbon.",
    ask=_ask,
    judge=_judge,
    examples=(
        Example("Welded 304L", Verdict.PASS, _part("304L", "welded: true"), _NITRIC),
        Example("304 that is not welded", Verdict.PASS, _part("304", "welded: false"), _NITRIC),
        Example("Welded 304", Verdict.UNPROVEN, _part("304", "welded: true"), _NITRIC),
        Example(
            "304, welding not stated", Verdict.UNPROVEN, _part("304", "crevice: false"), _NITRIC
        ),
    ),
)
