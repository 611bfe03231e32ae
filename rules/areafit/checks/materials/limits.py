"""Whether all of a part is listed, and the temperatures at which what is listed serves."""

import re
from collections.abc import Iterator
from decimal import Decimal

from areafit.checks.materials.ambiguous import called, most_severe
from areafit.corrosion.relief import is_fastener
from areafit.demands import Demands
from areafit.demands.meeting import chosen
from areafit.errors import choices
from areafit.facts.part import LIQUID, WET, MaterialUse, Wetting
from areafit.facts.quantity import Dimension, Range, number
from areafit.pattern import pattern
from areafit.rule import Answer, Ask, Example, Family, Judgement, Row, Rule, Subject
from areafit.tables import Tables
from areafit.tables.descriptions import described
from areafit.tables.limits import figure
from areafit.tables.materials import (
    COATED_STEEL,
    HiddenItem,
    Material,
    SteelToughness,
    hidden_in,
)
from areafit.values import Frozen, Term, replace
from areafit.verdict import Reason, Role, Verdict
from areafit.wording import capital, nearest_known, use_known_name

_STEELS = COATED_STEEL | {"carbon steel", "high-strength steel"}
_CLASS = pattern(r"(?<![\d.])(?:3\.6|4\.[68]|5\.[68]|6\.8|8\.8|9\.8|10\.9|12\.9)(?![\d.])")
_SUBGRADE = pattern(r"\b[SP]\s?\d{3}\s?(JR|J0|J2|K2|QL1|QL|Q|ML|M|NL|N)\b", re.IGNORECASE)
_PRESSURE = pattern(
    r"\b(?:pressure|vessels?|flanges?|pipes?|piping|valves?|boilers?|receivers?|tanks?)\b",
    re.IGNORECASE,
)
_OF_ONE = (
    "Is it all of one material, fasteners, coatings, seals and feet included? Then say so; else "
    "list the others."
)
_USUAL = "Which seals, springs, grease, fasteners and platings are inside, and of which grade?"
_OWN = "List all `materials` of the drawing and state `materials_complete: true`."
_OF_OTHERS = (
    "State `materials: none` where it is made of nothing but the items mounted in it; else list "
    "its own and state `materials_complete: true`."
)


# What is listed


class ListedMaterials(Frozen):
    """What the list says of a part's materials, and what such a part usually hides.

    `fixed`: the description is that of a plate, a bracket or the like, which hides nothing.
    `bare`: the list says that a part has no material that must have one. `assembled`: other lines
    are mounted in it. `unlisted` is what such a part usually holds and a list that is said to be
    complete, by no document, does not name.
    """

    listed: bool
    complete: bool | None
    hidden: tuple[str, ...]
    chemicals: tuple[str, ...]
    fixed: bool = False
    bare: bool = False
    assembled: bool = False
    unlisted: tuple[str, ...] = ()


def _ask_listed(wetting: Wetting, demands: Demands) -> Iterator[Ask[ListedMaterials]]:
    indoors = wetting.exposure is not None and wetting.exposure not in WET
    quiet = indoors and wetting.plated
    met = [
        one
        for one in demands.chemicals or ()
        if not ((one.solvent and indoors) or (one.quiet and quiet))
    ]
    if not met:
        return
    wet = not indoors or any(one.fume_only for one in met)
    if wet or not wetting.listed or wetting.bare:
        path = "materials_complete" if wetting.listed and not wetting.bare else "materials"
        items = _hidden(wetting, demands)
        names = tuple(one.stated.name for one in met)
        claimed = bool(wetting.listed and wetting.complete)
        hidden = () if claimed else tuple(dict.fromkeys(item.question for item in items))
        yield Ask(
            ListedMaterials(
                wetting.listed,
                wetting.complete,
                hidden,
                names,
                not (items or claimed) and _fixed(wetting.description),
                wetting.bare,
                wetting.assembled,
                _unlisted(items, wetting.components) if claimed else (),
            ),
            path,
        )


def _unlisted(items: tuple[HiddenItem, ...], components: tuple[str, ...]) -> tuple[str, ...]:
    """What is usual in such a part and not named, be it as one that the part has not."""
    listed = [component.casefold() for component in components]
    return tuple(
        dict.fromkeys(
            item.component
            for item in items
            if not any(item.named.search(component) for component in listed)
        )
    )


def _fixed(description: str | None) -> bool:
    told = described(description) if description else None
    return told is not None and told.fixed


def _hidden(wetting: Wetting, demands: Demands) -> tuple[HiddenItem, ...]:
    """What a part of this description usually holds."""
    return hidden_in(wetting.description, demands.tables.rows("hidden_items", HiddenItem))


def _judge_listed(listed: ListedMaterials) -> Judgement:
    ask = " ".join(listed.hidden or (_OF_ONE if listed.fixed else _USUAL,))
    remedy, role = (_OWN, Role.DESIGNER) if listed.fixed else ("", None)
    if listed.assembled and not listed.listed:
        remedy, role = _OF_OTHERS, Role.DESIGNER

    def answer(found: str) -> Answer:
        return Answer(
            "every material that meets the chemicals, and `materials_complete: true`", found
        )

    if not listed.listed:
        return answer("not stated").unproven(
            Reason.FACT_MISSING,
            f"No materials are stated, so nothing is known of what meets the chemicals "
            f"({', '.join(listed.chemicals)}). {ask}",
            remedy=remedy,
            answer_by=role,
        )
    if listed.bare:
        return answer("none").unproven(
            Reason.FACT_MISSING,
            "`materials: none` is said of a part that has a material: whatever stands or moves is "
            "made of something, and so is what liquid or vapour may reach. Nothing of it is "
            f"judged. {ask}",
            remedy=remedy,
            answer_by=role,
        )
    if listed.unlisted:
        those = choices(listed.unlisted, "and")
        return answer(f"said to be complete, without {those}").unproven(
            Reason.FACT_MISSING,
            f"All materials are said to be listed; such a part usually holds {those} too.",
            remedy="List each with its material, or with `material: none` where the part has none; "
            "or name the document that says so: `materials_complete: {document: …}`.",
        )
    if listed.complete:
        return answer("complete").passed("All materials are listed.")
    return answer("not said to be complete").unproven(
        Reason.FACT_MISSING,
        f"The list of materials is not said to be complete. {ask}",
        remedy=remedy,
        answer_by=role,
    )


MATERIALS_LISTED = Rule[ListedMaterials](
    id="materials-listed",
    title="All materials that meet chemicals are listed",
    family=Family.MATERIALS,
    subject=Subject.WETTING,
    clause="Common practice, no published source",
    why="A part sold as stainless is several materials; its spring, seal, grease or screw fails "
    "first, and the worst of them rules.",
    remedy="Ask the supplier, list the answers under `materials`, and state "
    "`materials_complete: true`.",
    answer_by=Role.SUPPLIER,
    ask=_ask_listed,
    judge=_judge_listed,
    examples=(
        Example(
            "All said",
            Verdict.PASS,
            "kind: structural, materials: [{material: '304', exposure: splash}], "
            "materials_complete: true",
            "{chemicals: [nitric acid]}",
        ),
        Example(
            "A pin whose spring and seal are not listed",
            Verdict.UNPROVEN,
            "kind: mechanical, description: Ball-lock pin, materials: "
            "[{material: '303', exposure: splash}]",
            "{chemicals: [nitric acid]}",
        ),
        Example(
            "No materials at all",
            Verdict.UNPROVEN,
            "kind: electrical",
            "{chemicals: [nitric acid]}",
        ),
    ),
)


# Service temperatures


class Colder(Term):
    """What decides whether a steel serves below the temperature to which every steel does."""

    PROPERTY_CLASS = "the property class of the fastener"
    PRESSURE = "the design code of the pressure part"
    THICKNESS = "subgrade, thickness and load"


class ServiceLimits(Frozen):
    """One material with its service temperatures in °C; empty where none is known.

    `colder` says why it is open, and not refused, below the lowest: steel stays tough by its
    grade, thickness and load. `also` are rows beside that of the material.
    """

    material: str
    lowest: Decimal | None
    highest: Decimal | None
    row: Row
    also: tuple[Row, ...] = ()
    colder: Colder | None = None


class Warmth(Frozen):
    """All that a name may mean, and what it must stand, each range with its cause.

    `limits` is empty where the name is unknown, `nearest` then holds known ones.
    """

    material: str
    limits: tuple[ServiceLimits, ...]
    spans: tuple[tuple[str, Range], ...]
    nearest: tuple[str, ...] = ()


def _ask_warmth(use: MaterialUse, demands: Demands) -> Iterator[Ask[Warmth]]:
    spans = tuple(_spans(use, demands))
    if not spans:
        return
    candidates = demands.tables.materials(use.material)
    if not candidates:
        if not demands.chemicals:  # else `chemical-resistance` reports the name
            near = demands.tables.nearest("materials", use.material)
            yield Ask(Warmth(use.material, (), spans, near), "material", use.component)
        return
    limits = tuple(_limits(use, material, demands.tables) for material in candidates)
    yield Ask(Warmth(use.material, limits, spans), "", use.component)


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


def _limits(use: MaterialUse, material: Material, tables: Tables) -> ServiceLimits:
    name = called(use.material, material, tables)
    lowest, highest = material.tmin_c, material.tmax_c
    row = Row.of(
        "materials", f"{material.id} service temperature", material, _span(lowest, highest)
    )
    if lowest is None or material.family not in _STEELS:
        return ServiceLimits(name, lowest, highest, row)
    lowest, rows, colder = _coldest_of_steel(use, lowest, tables)
    return ServiceLimits(name, lowest, highest, row, rows, colder)


def _coldest_of_steel(
    use: MaterialUse, lowest: Decimal, tables: Tables
) -> tuple[Decimal, tuple[Row, ...], Colder | None]:
    """Down to which temperature a steel serves as it is used, by which rows, and what is open."""
    usual = figure("coldest of any structural steel").amount(Dimension.TEMPERATURE)
    if lowest > usual:  # a stricter row of the company's own
        return lowest, (), None
    if use.component is not None and _PRESSURE.search(use.component):
        return lowest, (), Colder.PRESSURE
    by_class = _CLASS.search(use.property_class or use.material)
    if by_class and (use.component is None or is_fastener(use)):
        coldest = figure("coldest of a fastener by its class")
        return coldest.amount(Dimension.TEMPERATURE), (Row.of_figure(coldest),), None
    if is_fastener(use):
        return lowest, (), Colder.PROPERTY_CLASS
    read = _SUBGRADE.search(use.material)
    for row in tables.rows("steel_toughness", SteelToughness):
        if read is not None and row.subgrade == read[1].upper() and row.tested_c < lowest:
            tested = Row.of("steel_toughness", row.subgrade, row, _degrees(row.tested_c))
            return row.tested_c, (tested,), Colder.THICKNESS
    return lowest, (), Colder.THICKNESS


def _span(lowest: Decimal | None, highest: Decimal | None) -> str:
    return " to ".join(_degrees(limit) for limit in (lowest, highest))


def _judge_warmth(warmth: Warmth) -> Judgement:
    if not warmth.limits:
        return Answer("a material of known service temperature", warmth.material).unproven(
            Reason.NAME_UNKNOWN,
            f"{warmth.material!r} is no known material.{nearest_known(warmth.nearest)}",
            remedy=use_known_name(warmth.nearest, "have the maker state where it serves"),
        )
    return most_severe(_within(limits, warmth.spans) for limits in warmth.limits)


def _within(limits: ServiceLimits, spans: tuple[tuple[str, Range], ...]) -> Judgement:
    hot_cause, hot = max(spans, key=lambda span: span[1].high)
    cold_cause, cold = min(spans, key=lambda span: span[1].low)
    lowest, highest, material = limits.lowest, limits.highest, limits.material
    answer = Answer(
        f"from {_degrees(lowest)} to {_degrees(highest)}",
        f"{number(cold.low)}..{number(hot.high)} °C",
        (limits.row, *limits.also),
    )
    if highest is not None and hot.high > highest:
        return answer.flagged(
            f"{material} serves to {_degrees(highest)}; {hot_cause} reaches {_degrees(hot.high)}.",
            remedy=f"Choose a `material` that serves at {_degrees(hot.high)}, or keep the heat "
            "from it.",
        )
    if lowest is not None and cold.low < lowest and limits.colder is not None:
        return answer.unproven(
            Reason.FACT_MISSING,
            f"{capital(cold_cause)} falls to {_degrees(cold.low)}; whether {material} stays tough "
            f"below {_degrees(lowest)} is for {limits.colder.value}.",
            remedy=_COLDER[limits.colder],
        )
    if lowest is not None and cold.low < lowest:
        return answer.flagged(
            f"{material} serves down to {_degrees(lowest)}; {cold_cause} falls to "
            f"{_degrees(cold.low)}.",
            remedy=f"Choose a `material` that serves at {_degrees(cold.low)}, or keep the cold "
            "from it.",
        )
    coldest = figure("coldest for a material of unknown limit")
    if lowest is None and cold.low < coldest.amount(Dimension.TEMPERATURE):
        answer = replace(answer, rows=(*answer.rows, Row.of_figure(coldest)))
        highest = None
    if highest is None:
        return answer.unproven(
            Reason.NO_DATA,
            f"No service temperature is known for {material} on that side.",
            remedy="Ask the supplier for the service temperatures, and accept the finding with "
            "them.",
        )
    return answer.passed(f"{material} serves at the temperatures it meets.")


_COLDER = {
    Colder.PROPERTY_CLASS: "State `property_class`, such as 8.8.",
    Colder.PRESSURE: "Have the pressure part's design code (EN 13445-2, ASME VIII) answer it, by a "
    "waiver with its document.",
    Colder.THICKNESS: "Have thickness and load held against EN 1993-1-10 for the subgrade, or use "
    "a steel tested that cold, such as S355NL, or stainless steel.",
}


def _degrees(limit: Decimal | None) -> str:
    return "?" if limit is None else f"{number(limit)} °C"


MATERIAL_TEMPERATURE = Rule[Warmth](
    id="material-temperature",
    title="Materials serve at the temperatures they meet",
    family=Family.MATERIALS,
    subject=Subject.MATERIAL,
    clause="Service temperatures of the grade, dry service, from memory of textbook ranges",
    why="A rubber that hardens in the cold leaks, a plastic that softens lets go.",
    remedy="Choose a `material` that serves at the temperature, or keep the heat from it.",
    answer_by=Role.DESIGNER,
    note="Limits are for dry service; in chemicals and water they are often lower.",
    ask=_ask_warmth,
    judge=_judge_warmth,
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
