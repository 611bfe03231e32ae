"""Hydrogen that breaks high-strength steel: from acids nearby, and from the bath that plated it."""

import re
from collections.abc import Iterator
from decimal import Decimal

from areafit.checks.materials.ambiguous import EveryMeaning, ask_each, called, worst_of
from areafit.corrosion.relief import is_fastener, is_spring
from areafit.demands import Demands
from areafit.demands.exposure import Met
from areafit.facts.part import LIQUID, WET, Exposure, MaterialUse
from areafit.pattern import pattern
from areafit.rule import Answer, Ask, Example, Family, Judgement, Row, Rule, Subject
from areafit.tables.chemicals import Hydrogen
from areafit.tables.limits import Figure, figure
from areafit.tables.materials import BARE_STEEL, COATED_STEEL, Material
from areafit.tables.part_names import is_screw
from areafit.values import Frozen, Term
from areafit.verdict import Reason, Role, Verdict

_STEELS = BARE_STEEL | COATED_STEEL
_HARDENABLE = frozenset({"martensitic stainless steel", "precipitation-hardening stainless steel"})
_HYDROGEN = "hydrogen"
_CHARGING = frozenset({_HYDROGEN, "hydrogen-sulfide"})
_DIPPED = "steel-hdg"
_ELECTROPLATED = COATED_STEEL - {"tin-coated steel"}
# Flakes are dipped and baked, or the zinc is hammered on: nothing that makes hydrogen goes before.
_NO_BATH = pattern(
    r"flake|lamell|dacromet|geomet|delta|mechanically (?:plated|galvani[sz]ed)|sherardi[sz]ed",
    re.IGNORECASE,
)
_CLASS = pattern(r"\s*(\d{1,2}\.\d)\s*")
# Those of ISO 898-1, as a name or a designation (ISO 8991) prints them; `M8x1.25` is a pitch.
_NAMED_CLASS = pattern(r"(?<![\d.,x×])([456]\.[68]|[89]\.8|10\.9|12\.9)(?![\d.,]*\d)")
_FASTENERS = pattern(r"\bfasteners?\b", re.IGNORECASE)
_HARDNESS = pattern(
    r"\s*(\d+(?:\.\d+)?)\s*(?:\.\.|-|to)?\s*(\d+(?:\.\d+)?)?\s*(HV|HB|HBW|HRC)\d*\s*"
)


class HydrogenCharging(Frozen):
    """A steel near what evolves hydrogen, and whether it is of high strength; None: not stated.

    `traces` says that only the air of the room brings the chemical, `rises_by` whether it rises.
    """

    material: str
    strong: bool | None
    chemical: str
    traces: bool
    rises_by: tuple[Row, ...]


class Coating(Term):
    """How zinc or another metal came onto the steel."""

    PLATED = "plated"
    DIPPED = "hot-dip galvanised"


class HardPlated(Frozen):
    """A steel that is coated in a bath and harder than such a bath allows.

    `stated` is None of a screw of which nobody says its class.
    """

    material: str
    coating: Coating
    stated: str | None


Charged = HydrogenCharging | HardPlated


def _ask_hydrogen(use: MaterialUse, demands: Demands) -> Iterator[Ask[EveryMeaning[Charged]]]:
    near = tuple(_ask_acid(use, demands))
    yield from near
    if not (near and _unclassed(use)):  # the acid asks for the class as well
        yield from _ask_plating(use, demands)


def _ask_plating(use: MaterialUse, demands: Demands) -> Iterator[Ask[EveryMeaning[Charged]]]:
    """Of steel that is said to be hard, and of a screw of which nobody says its class.

    Sheet, profiles and turned parts are soft unless somebody says otherwise.
    """
    stated = _too_hard_to_plate(use)
    if (stated is None and not _unclassed(use)) or _NO_BATH.search(use.material):
        return
    # ISO 4042:2018, 4.4 exempts what stands under no tension.
    found = [
        HardPlated(called(use.material, each, demands.tables), coating, stated)
        for each in demands.tables.materials(use.material)
        for coating in (Coating.DIPPED if each.id == _DIPPED else Coating.PLATED,)
        if each.family in _ELECTROPLATED
        and not (use.stressed is False and (stated is None or coating is Coating.PLATED))
    ]
    if found:
        key = "hardness" if use.hardness and not use.property_class else "property_class"
        yield Ask(EveryMeaning(tuple(found)), key, use.component)


def _too_hard_to_plate(use: MaterialUse) -> str | None:
    """The class or hardness, as it is stated, from which plating embrittles."""
    classes = _classes(use)
    if classes and max(classes) >= _plated_from("property class").number:
        return f"class {max(classes)}"
    read = hardness(use.hardness)
    if read and read[1] > _plated_from(read[2]).number:
        return use.hardness
    return None


def _classes(use: MaterialUse) -> list[Decimal]:
    """The property classes that are stated, or that names of material, piece and line print."""
    stated = _CLASS.fullmatch(use.property_class or "")
    texts = (use.material, use.component or "", use.screw or "")
    printed = (_NAMED_CLASS.search(text) for text in texts)
    return [Decimal(found[1]) for found in (stated, *printed) if found]


def _unclassed(use: MaterialUse) -> bool:
    """Whether it is a screw by its name, and nothing says how hard it is."""
    return _is_screw(use) and not _classes(use) and hardness(use.hardness) is None


def _is_screw(use: MaterialUse) -> bool:
    named = use.component or ""
    return use.screw is not None or is_screw(named) or _FASTENERS.search(named) is not None


def _plated_from(scale: str) -> Figure:
    return figure("steel that plating embrittles", scale)


def _ask_acid(use: MaterialUse, demands: Demands) -> Iterator[Ask[EveryMeaning[Charged]]]:
    tables = demands.tables
    steels = [each for each in tables.materials(use.material) if _may_be_strong(use, each)]
    if not steels:
        return

    def cases(mets: tuple[Met, ...]) -> Iterator[Charged]:
        for met in filter(_charges, mets):
            traces = met.exposure is Exposure.ROOM
            for steel in steels:
                name = called(use.material, steel, tables)
                yield HydrogenCharging(name, _strong(use, steel), met.name, traces, met.rises_by)

    yield from ask_each(use, demands, cases)


def _may_be_strong(use: MaterialUse, material: Material) -> bool:
    """Steels of high strength, and fasteners of any steel, since their class decides."""
    if material.high_strength:
        return True
    if material.family not in _STEELS | _HARDENABLE:
        return False
    stated = use.property_class is not None or use.hardness is not None or use.screw is not None
    unnamed = use.component is None and "fastener" in material.uses
    return stated or is_fastener(use) or is_spring(use, material) or unnamed


def _strong(use: MaterialUse, material: Material) -> bool | None:
    """By class or hardness, the harder of both; by the grade where neither is stated."""
    read = [*map(_by_class, _classes(use)), _by_hardness(use.hardness)]
    if True in read or material.high_strength:
        return True
    return False if False in read else None


def _by_class(stated: Decimal) -> bool:
    return stated >= _strong_from("property class").number


def _by_hardness(text: str | None) -> bool | None:
    found = hardness(text)
    return None if found is None else found[1] >= _strong_from(found[2]).number


def hardness(text: str | None) -> tuple[Decimal, Decimal, str] | None:
    """The least, the most and the scale (`HV`, `HB`, `HRC`) of a stated hardness, if it is one."""
    found = _HARDNESS.fullmatch(text) if text is not None else None
    if found is None:
        return None
    scale = "HB" if found[3] == "HBW" else found[3]
    return Decimal(found[1]), Decimal(found[2] or found[1]), scale


def _strong_from(scale: str) -> Figure:
    return figure("high-strength steel", scale)


def _charges(met: Met) -> bool:
    """Whether hydrogen gets into steel: acids that evolve it, sour gas, hydrogen that fills it.

    Hydrogen in the air, at ambient pressure and dry, is left to `chemical-resistance`.
    """
    if met.exposure not in WET and not (met.exposure is Exposure.ROOM and met.rises):
        return False
    if met.calm:
        return False
    if met.exposure is Exposure.FUME and not (met.rises or met.mist):
        return met.chemical.hydrogen is Hydrogen.ACTIVE
    if met.chemical.id == _HYDROGEN and met.exposure not in LIQUID:
        return False
    return met.chemical.hydrogen is Hydrogen.ACTIVE or met.chemical.id in _CHARGING


def _judge_hydrogen(case: Charged) -> Judgement:
    return _judge_plated(case) if isinstance(case, HardPlated) else _judge_acid(case)


def _judge_plated(case: HardPlated) -> Judgement:
    most = tuple(_plated_from(scale) for scale in ("property class", "HV"))
    rows = tuple(map(Row.of_figure, most))
    required = f"coated steel below class {most[0].value}, to {most[1].value}; or baked after it"
    if case.stated is None:
        return Answer(required, "not stated", rows).unproven(
            Reason.FACT_MISSING,
            f"The bath that coated {case.material} embrittles hard screws; which class they are of "
            "is not stated.",
            remedy="State `property_class`, as the head or the order prints it: up to 10.9 nothing "
            "more is asked.",
            answer_by=Role.SUPPLIER,
        )
    if case.coating is Coating.DIPPED:
        return Answer(required, case.stated, rows).flagged(
            f"{case.material} is of {case.stated}: the acid before the zinc bath embrittles it.",
            remedy="Use class 10.9 or softer as `material`, or zinc flakes, which no acid goes "
            "before.",
        )
    return Answer(required, case.stated, rows).unproven(
        Reason.CONDITION_TO_ACCEPT,
        f"{case.material} is of {case.stated}: the plating bath embrittles it, unless it is baked "
        "at once.",
        remedy="Have the plater certify the baking (ISO 4042, ISO 9588) and accept the finding "
        "with that, or use zinc flakes, class 10.9 or A4-80.",
        answer_by=Role.SUPPLIER,
    )


def _judge_acid(case: HydrogenCharging) -> Judgement:
    limits = tuple(_strong_from(scale) for scale in ("property class", "HV"))
    strength, hardness = limits
    required = f"steel below class {strength.value}, below about {hardness.value}, or no acid near"
    rows = (*map(Row.of_figure, limits), *case.rises_by)
    if case.strong is None:
        return Answer(required, "not stated", rows).unproven(
            Reason.FACT_MISSING,
            f"{case.chemical} embrittles high-strength steel; the class or hardness of "
            f"{case.material} is not stated.",
            remedy="State `property_class` or `hardness`; class 8.8 and A4-80 serve near baths.",
            answer_by=Role.SUPPLIER,
        )
    if not case.strong:
        return Answer(required, "below the limit", rows).passed(
            f"{case.material} is not strong enough to be embrittled by {case.chemical}."
        )
    if case.traces:
        return Answer(required, "high strength, traces in the air", rows).unproven(
            Reason.CONDITION_TO_ACCEPT,
            f"{case.material} is of high strength and stands in a room with {case.chemical}.",
            remedy="Use class 8.8 or A4-80 as `material`, or have it accepted in a waiver.",
        )
    return Answer(required, "high strength", rows).flagged(
        f"{case.chemical} charges {case.material}, a high-strength steel, with hydrogen; it breaks "
        "under load later, without warning."
    )


def _screw(more: str) -> str:
    return (
        "kind: structural, materials: [{material: carbon steel, component: screw, "
        f"exposure: fume{more}}}]"
    )


_ACID = "{chemicals: [{name: hydrochloric acid, concentration: 10 %, temperature: 25 °C}]}"

HYDROGEN_EMBRITTLEMENT = Rule[EveryMeaning[Charged]](
    id="hydrogen-embrittlement",
    title="High-strength steel keeps away from acids and plating baths",
    family=Family.MATERIALS,
    subject=Subject.MATERIAL,
    clause="ISO 4042:2022 and ASTM F1941-16 (plated fasteners), from memory; ISO 898-1:2013",
    why="Hydrogen from the acid goes into the hard steel, and a sound screw breaks days later.",
    remedy="Use class 8.8 or A4-80 as `material` near baths; hard steel is not pickled or plated "
    "unbaked.",
    answer_by=Role.DESIGNER,
    ask=_ask_hydrogen,
    judge=worst_of(_judge_hydrogen),
    examples=(
        Example(
            "A class 8.8 screw above acid", Verdict.PASS, _screw(", property_class: '8.8'"), _ACID
        ),
        Example(
            "A class 12.9 screw above acid", Verdict.FLAG, _screw(", property_class: '12.9'"), _ACID
        ),
        Example("A steel screw of no stated class", Verdict.UNPROVEN, _screw(""), _ACID),
        Example(
            "A hot-dip galvanised screw of class 12.9",
            Verdict.FLAG,
            "kind: structural, materials: [{material: hot-dip galvanised steel, component: screw, "
            "property_class: '12.9', exposure: room}]",
            "{chemicals: none}",
        ),
    ),
)
