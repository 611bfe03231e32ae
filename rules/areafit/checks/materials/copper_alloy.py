"""Copper with acetylene (an explosive salt) and with ammonia, amines and their kin (cracking)."""

from collections.abc import Iterator
from decimal import Decimal

from areafit.checks.materials.several import called, most_severe
from areafit.demands import Demands
from areafit.demands.exposure import Met
from areafit.demands.meeting import meetings
from areafit.facts.part import WET, Exposure, MaterialUse
from areafit.facts.quantity import number
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
from areafit.tables.chemicals import Presence
from areafit.tables.families import COPPER
from areafit.tables.materials import Material
from areafit.values import Frozen, Term
from areafit.verdict import Basis, Reason, Role, Verdict

_LIMIT = Decimal(65)  # % copper, from which acetylide forms
_TRACE = Decimal(5)  # % copper, below which no rule speaks of copper
_FORMS_ACETYLIDE = frozenset({"silver"})
_AMINES = "7"  # EPA reactivity group
_CRACKS_TOO = frozenset({"sulfur-dioxide"})


class Harm(Term):
    """What the chemical does to copper."""

    ACETYLIDE = "explosive acetylide"
    CRACKING = "season cracking"


class Case(Frozen):
    """A material, the most copper it may hold in mass %, and the chemical.

    `sheltered` says that the part is enclosed; `breathes` whether its enclosure takes in air.
    """

    material: str
    copper: Decimal
    silver: bool
    chemical: str
    harm: Harm
    sheltered: bool
    breathes: bool | None
    row: Row


class Question(Frozen):
    """Every material and chemical that the names may mean."""

    cases: tuple[Case, ...]


def _ask(use: MaterialUse, demands: Demands) -> Iterator[Ask[Question]]:
    candidates = demands.tables.materials(use.material)
    if not any(_holds_copper(use, material) for material in candidates):
        return
    for meeting in meetings(use, demands):
        cases = tuple(
            _case(use, material, met, harm, demands)
            for met in meeting.mets
            for material in candidates
            for harm in _harms(use, material, met)
        )
        if cases:
            yield Ask(Question(cases), "", use.component)


def _copper(use: MaterialUse, material: Material) -> Decimal:
    """The most copper: of the grade, or what the list states if that is more."""
    stated = [share for element, share in use.composition or () if element == "Cu"]
    return max([material.cu_pct_max or Decimal(0), *stated])


def _holds_copper(use: MaterialUse, material: Material) -> bool:
    return _copper(use, material) > _TRACE or material.id in _FORMS_ACETYLIDE


def _harms(use: MaterialUse, material: Material, met: Met) -> Iterator[Harm]:
    if not _holds_copper(use, material):
        return
    if met.chemical.id == "acetylene":
        yield Harm.ACETYLIDE
    elif material.family in COPPER and _cracks(met) and (met.exposure in WET or met.rises):
        yield Harm.CRACKING


def _cracks(met: Met) -> bool:
    chemical = met.chemical
    complexing = chemical.copper_complexing is Presence.YES
    return complexing or _AMINES in chemical.epa_groups or chemical.id in _CRACKS_TOO


def _case(use: MaterialUse, material: Material, met: Met, harm: Harm, demands: Demands) -> Case:
    copper = _copper(use, material)
    key = f"{material.id} copper"
    value = f"{number(copper)} %"
    basis = material.basis
    return Case(
        called(use.material, material, demands.tables),
        copper,
        material.id in _FORMS_ACETYLIDE,
        met.name,
        harm,
        met.exposure is Exposure.ENCLOSED,
        use.breathes,
        Row("materials", key, material.source_id, material.locator, basis, value),
    )


def _judge(question: Question) -> Judgement:
    return most_severe(_judge_case(case) for case in question.cases)


def _judge_case(case: Case) -> Judgement:
    if case.harm is Harm.ACETYLIDE:
        return _acetylide(case)
    required = "no copper alloy in ammonia, amines, sulfides, cyanides or sulfur dioxide"
    if case.sheltered and case.breathes is not True:
        return _sheltered(case, required)
    return flagged(
        f"{case.chemical} cracks or eats {case.material}; traces in the air are enough.",
        required=required,
        found=f"{case.material} meets {case.chemical}",
        rows=(case.row, _PRACTICE),
    )


_PRACTICE = Row(
    "copper alloys",
    "season cracking",
    "copper-scc-pages",
    "ammonia, amines, 0.05-0.5 % sulfur dioxide",
    Basis.SEEN,
)
_LAW = Row(
    "copper alloys",
    "acetylene",
    "cfr-46-56-50-103",
    "below 65 % copper",
    Basis.SEEN,
    "65 %",
)


def _sheltered(case: Case, required: str) -> Judgement:
    if case.breathes is False:
        return passed(
            f"{case.material} is sealed off from {case.chemical}.",
            required=required,
            found="an enclosure that does not breathe",
            rows=(case.row,),
        )
    return unproven(
        Reason.FACT_MISSING,
        f"Whether the enclosure of {case.material} takes in {case.chemical} as it cools is not "
        "stated.",
        required=required,
        found="enclosed, breathing not stated",
        rows=(case.row,),
        remedy="State `breathes`, or use stainless steel.",
    )


def _acetylide(case: Case) -> Judgement:
    required = "below 65 % copper, and no silver"
    found = f"{number(case.copper)} % copper"
    if case.silver:
        return flagged(
            f"{case.material} forms an explosive salt with acetylene, as copper does.",
            required=required,
            found=case.material,
            rows=(case.row, _LAW),
        )
    if case.copper >= _LIMIT:
        return flagged(
            f"{case.material} may hold {number(case.copper)} % copper and forms explosive "
            "acetylide.",
            required=required,
            found=found,
            rows=(case.row, _LAW),
        )
    return passed(
        f"{case.material} stays below 65 % copper.",
        required=required,
        found=found,
        rows=(case.row, _LAW),
    )


def _part(material: str, exposure: str) -> str:
    return f"kind: structural, materials: [{{material: {material}, exposure: {exposure}}}]"


_ACETYLENE = "{chemicals: [{name: acetylene, temperature: 25 °C}]}"

COPPER_ALLOY = Rule[Question](
    id="copper-alloy",
    title="Copper keeps away from acetylene, ammonia and amines",
    family=Family.MATERIALS,
    subject=Subject.MATERIAL,
    clause="46 CFR 56.50-103 (acetylene, below 65 % copper); season cracking by practice",
    why="Copper acetylide explodes when touched; brass under stress cracks in traces of ammonia.",
    remedy="Use stainless steel, or for acetylene an alloy below 65 % copper.",
    answer_by=Role.DESIGNER,
    note="Some codes say 70 % copper; the lower figure holds. Silver solder that bears copper "
    "counts, and the grade's maximum counts.",
    ask=_ask,
    judge=_judge,
    examples=(
        Example(
            "Turning brass in acetylene", Verdict.PASS, _part("CW614N", "immersed"), _ACETYLENE
        ),
        Example("Copper in acetylene", Verdict.FLAG, _part("copper", "room"), _ACETYLENE),
        Example(
            "Brass in a room with ammonia",
            Verdict.FLAG,
            _part("CW614N", "room"),
            "{chemicals: [{name: ammonia gas, temperature: 25 °C}]}",
        ),
        Example(
            "Brass in a cabinet that may breathe",
            Verdict.UNPROVEN,
            _part("CW614N", "enclosed"),
            "{chemicals: [{name: ammonia gas, temperature: 25 °C}]}",
        ),
    ),
)
