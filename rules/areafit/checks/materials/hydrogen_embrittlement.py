"""High-strength steel near what evolves hydrogen on it."""

from collections.abc import Iterator
from decimal import Decimal

from areafit.checks.materials.several import called, most_severe
from areafit.checks.materials.strain import is_fastener, is_spring
from areafit.demands import Demands
from areafit.demands.exposure import Met
from areafit.demands.meeting import meetings
from areafit.facts.part import LIQUID, WET, Exposure, MaterialUse
from areafit.pattern import pattern
from areafit.rule import Ask, Example, Family, Judgement, Rule, Subject, flagged, passed, unproven
from areafit.tables.chemicals import Hydrogen
from areafit.tables.families import BARE_STEEL, COATED_STEEL
from areafit.tables.materials import Material
from areafit.values import Frozen
from areafit.verdict import Reason, Role, Verdict

_STEELS = BARE_STEEL | COATED_STEEL
_HARDENABLE = frozenset({"martensitic stainless steel", "precipitation-hardening stainless steel"})
_HYDROGEN = "hydrogen"
_CHARGING = frozenset({_HYDROGEN, "hydrogen-sulfide"})
_STRONG_CLASS = Decimal("10.9")
# Tensile strength above about 1000 MPa; ISO 18265 conversions from memory.
_HARD = {"HV": Decimal(320), "HB": Decimal(304), "HRC": Decimal(32)}
_CLASS = pattern(r"\s*(\d{1,2}\.\d)\s*")
_HARDNESS = pattern(
    r"\s*(\d+(?:\.\d+)?)\s*(?:\.\.|-|to)?\s*(\d+(?:\.\d+)?)?\s*(HV|HB|HBW|HRC)\d*\s*"
)


class Case(Frozen):
    """A steel and whether it is of high strength; None where the list does not say.

    `traces` says that only the air of the room brings the chemical.
    """

    material: str
    strong: bool | None
    chemical: str
    traces: bool


class Question(Frozen):
    """Every material and chemical that the names may mean."""

    cases: tuple[Case, ...]


def _ask(use: MaterialUse, demands: Demands) -> Iterator[Ask[Question]]:
    candidates = [
        material
        for material in demands.tables.materials(use.material)
        if _may_be_strong(use, material)
    ]
    if not candidates:
        return
    for meeting in meetings(use, demands):
        cases = tuple(
            Case(
                called(use.material, material, demands.tables),
                _strong(use, material),
                met.name,
                met.exposure is Exposure.ROOM,
            )
            for met in meeting.mets
            for material in candidates
            if _charges(met)
        )
        if cases:
            yield Ask(Question(cases), "", use.component)


def _may_be_strong(use: MaterialUse, material: Material) -> bool:
    """Steels of high strength, and fasteners of any steel, since their class decides."""
    if material.high_strength:
        return True
    if material.family not in _STEELS | _HARDENABLE:
        return False
    stated = use.property_class is not None or use.hardness is not None
    unnamed = use.component is None and "fastener" in material.uses
    return stated or is_fastener(use) or is_spring(use, material) or unnamed


def _strong(use: MaterialUse, material: Material) -> bool | None:
    """By class or hardness, the harder of both; by the grade where neither is stated."""
    read = [_by_class(use.property_class), _by_hardness(use.hardness)]
    if True in read or material.high_strength:
        return True
    return False if False in read else None


def _by_class(text: str | None) -> bool | None:
    found = _CLASS.fullmatch(text) if text is not None else None
    return None if found is None else Decimal(found[1]) >= _STRONG_CLASS


def _by_hardness(text: str | None) -> bool | None:
    found = _HARDNESS.fullmatch(text) if text is not None else None
    if found is None:
        return None
    limit = _HARD["HB" if found[3] == "HBW" else found[3]]
    return Decimal(found[2] or found[1]) >= limit


def _charges(met: Met) -> bool:
    """Whether hydrogen gets into steel: acids that evolve it, sour gas, hydrogen that fills it.

    Hydrogen in the air, at ambient pressure and dry, is left to `chemical-resistance`.
    """
    if met.exposure not in WET and not (met.exposure is Exposure.ROOM and met.rises):
        return False
    if met.exposure is Exposure.FUME and not (met.rises or met.mist):
        return met.chemical.hydrogen is Hydrogen.ACTIVE
    if met.chemical.id == _HYDROGEN and met.exposure not in LIQUID:
        return False
    return met.chemical.hydrogen is Hydrogen.ACTIVE or met.chemical.id in _CHARGING


def _judge(question: Question) -> Judgement:
    return most_severe(_judge_case(case) for case in question.cases)


def _judge_case(case: Case) -> Judgement:
    required = "steel below class 10.9, below about 320 HV, or no acid near"
    if case.strong is None:
        return unproven(
            Reason.FACT_MISSING,
            f"{case.chemical} embrittles high-strength steel; the class or hardness of "
            f"{case.material} is not stated.",
            required=required,
            found="not stated",
            remedy="State `property_class` or `hardness`; class 8.8 and A4-80 serve near baths.",
            answer_by=Role.SUPPLIER,
        )
    if not case.strong:
        return passed(
            f"{case.material} is not strong enough to be embrittled by {case.chemical}.",
            required=required,
            found="below the limit",
        )
    if case.traces:
        return unproven(
            Reason.CONDITION_TO_ACCEPT,
            f"{case.material} is of high strength and stands in a room with {case.chemical}.",
            required=required,
            found="high strength, traces in the air",
        )
    return flagged(
        f"{case.chemical} charges {case.material}, a high-strength steel, with hydrogen; it breaks "
        "under load later, without warning.",
        required=required,
        found="high strength",
    )


def _screw(more: str) -> str:
    return (
        "kind: structural, materials: [{material: carbon steel, component: screw, "
        f"exposure: fume{more}}}]"
    )


_ACID = "{chemicals: [{name: hydrochloric acid, concentration: 10 %, temperature: 25 °C}]}"

HYDROGEN_EMBRITTLEMENT = Rule[Question](
    id="hydrogen-embrittlement",
    title="High-strength steel keeps away from acids",
    family=Family.MATERIALS,
    subject=Subject.MATERIAL,
    clause="ISO 4042:2022 and ASTM F1941-16 (plated fasteners), from memory; ISO 898-1:2013",
    why="Hydrogen from the acid goes into the hard steel, and a sound screw breaks days later.",
    remedy="Use class 8.8 or A4-80 near baths; hard steel is not pickled or plated unbaked.",
    answer_by=Role.DESIGNER,
    ask=_ask,
    judge=_judge,
    examples=(
        Example(
            "A class 8.8 screw above acid", Verdict.PASS, _screw(", property_class: '8.8'"), _ACID
        ),
        Example(
            "A class 12.9 screw above acid", Verdict.FLAG, _screw(", property_class: '12.9'"), _ACID
        ),
        Example("A steel screw of no stated class", Verdict.UNPROVEN, _screw(""), _ACID),
    ),
)
