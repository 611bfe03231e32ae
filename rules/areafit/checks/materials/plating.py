"""Platings and anodic films against the pH, and chromium and nickel against chloride."""

from collections.abc import Iterator

from areafit.checks.materials.ambiguous import EveryMeaning, ask_each, called, worst_of
from areafit.demands import Demands
from areafit.demands.exposure import Met
from areafit.facts.part import WET, Exposure, MaterialUse
from areafit.facts.quantity import Range, number
from areafit.rule import Answer, Ask, Example, Family, Judgement, Row, Rule, Subject
from areafit.tables import Tables
from areafit.tables.chemicals import Reaction, SolutionPh
from areafit.tables.materials import ZINC, Material, PlatingWindow
from areafit.values import Frozen
from areafit.verdict import Reason, Role, Verdict
from areafit.wording import capital

_ACIDS = (Reaction.STRONG_ACID, Reaction.WEAK_ACID)
_HYDROCHLORIC = frozenset({"hydrochloric-acid", "hydrogen-chloride"})


class Plated(Frozen):
    """A coated surface in a solution of some pH.

    `surely` says that the pair is known to fail whatever the pH says: zinc in the vapour of an
    acid and in strong alkali, chromium in hydrochloric acid. `chloride` that chloride may be.
    `rows` are those beside the window: of the usual pH, and of what made it rise.
    """

    material: str
    chemical: str
    ph: Range
    stated: bool
    surely: str
    chloride: bool
    window: PlatingWindow
    rows: tuple[Row, ...]


def _ask(use: MaterialUse, demands: Demands) -> Iterator[Ask[EveryMeaning[Plated]]]:
    tables = demands.tables
    windows = {row.family: row for row in tables.rows("plating_windows", PlatingWindow)}
    plated = [each for each in tables.materials(use.material) if each.family in windows]
    if not plated:
        return

    def cases(mets: tuple[Met, ...]) -> Iterator[Plated]:
        return (
            _plated(use, each, met, windows[each.family], tables)
            for met in mets
            for each in plated
            if _reached(each, met)
        )

    yield from ask_each(use, demands, cases)


def _reached(material: Material, met: Met) -> bool:
    """Wetted, in its vapour, or zinc in a room whose air carries an acid."""
    if met.chemical.reaction is Reaction.NOT_AQUEOUS:
        return False
    if met.exposure is Exposure.FUME:
        return met.rises or met.mist
    if met.exposure is Exposure.ROOM:
        return met.rises and material.family in ZINC and met.chemical.reaction in _ACIDS
    return met.exposure in WET


def _plated(
    use: MaterialUse, material: Material, met: Met, window: PlatingWindow, tables: Tables
) -> Plated:
    ph, rows = met.stated.ph, met.rises_by
    if ph is None:
        usual = _usual(met.chemical.reaction, tables)
        ph = Range(usual.ph_min, usual.ph_max)
        rows += (Row.of("solution_ph", usual.reaction.value, usual, _span(ph)),)
    return Plated(
        called(use.material, material, tables),
        met.name,
        ph,
        met.stated.ph is not None,
        _surely(material, met),
        met.brings_chloride,
        window,
        rows,
    )


def _usual(reaction: Reaction, tables: Tables) -> SolutionPh:
    rows = tables.rows("solution_ph", SolutionPh)
    return next(row for row in rows if row.reaction is reaction)


def _span(ph: Range) -> str:
    return f"pH {number(ph.low)}-{number(ph.high)}"


def _surely(material: Material, met: Met) -> str:
    chemical = met.chemical
    if material.family in ZINC and chemical.reaction in _ACIDS and met.rises:
        return "acid vapour whitens and strips zinc, traces included"
    if material.family in ZINC and chemical.reaction is Reaction.STRONG_ALKALI:
        return "strong alkali dissolves zinc with hydrogen"
    if material.family == "chromium-coated steel" and chemical.id in _HYDROCHLORIC:
        return "chromium dissolves in hydrochloric acid"
    return ""


def _judge(case: Plated) -> Judgement:
    window = case.window
    low, high = window.ph_min, window.ph_max
    key = f"{window.surface} on {window.family}"
    answer = Answer(
        f"pH {number(low)} to {number(high)} at the {window.surface}",
        f"pH {number(case.ph.low)} to {number(case.ph.high)}, {case.chemical}",
        (Row.of("plating_windows", key, window, _span(Range(low, high))), *case.rows),
    )
    outside = case.ph.high < low or case.ph.low > high
    partly = case.ph.low < low or case.ph.high > high
    if (case.surely and not case.stated) or outside or (case.stated and partly):
        why = case.surely or f"it lasts between pH {number(low)} and {number(high)} only"
        return answer.flagged(
            f"The {window.surface} of {case.material} does not last in {case.chemical}. "
            f"{capital(why)}."
        )
    if partly:
        return answer.unproven(
            Reason.FACT_MISSING,
            f"Whether the {window.surface} of {case.material} lasts depends on the pH of "
            f"{case.chemical}, which is not stated.",
            remedy="State `ph` as measured, or use a solid material.",
            answer_by=Role.PROCESS_OWNER,
        )
    if case.chloride and window.chloride_rusts:
        required = f"no chloride at the {window.surface}"
        return Answer(required, answer.found, answer.rows).unproven(
            Reason.CONDITION_TO_ACCEPT,
            f"Chloride rusts the steel of {case.material} through cracks and pores of the "
            f"{window.surface}.",
            remedy="Use 316 or a plastic as `material`, or have the rust accepted in a waiver.",
        )
    return answer.passed(f"The {window.surface} of {case.material} lasts at this pH.")


def _part(material: str, exposure: str = "splash") -> str:
    return f"kind: structural, materials: [{{material: {material}, exposure: {exposure}}}]"


PLATING = Rule[EveryMeaning[Plated]](
    id="plating",
    title="Platings and anodic films last in the pH they meet",
    family=Family.MATERIALS,
    subject=Subject.MATERIAL,
    clause="Galvanizers' association design manual (zinc, pH 6 to 12.5); water-treatment handbook "
    "(aluminium oxide, pH 4 to 8.5); other windows from memory",
    why="A plating of a few micrometres near a bath lasts weeks, and what was protected rusts.",
    remedy="Use 316 or a plastic as `material` near the bath, or a plating whose window holds the "
    "pH.",
    answer_by=Role.DESIGNER,
    note="Hard anodising adds wear and not acid resistance. Zinc also suffers in the air of a "
    "room with a volatile acid.",
    ask=_ask,
    judge=worst_of(_judge),
    examples=(
        Example(
            "Zinc plate in town water",
            Verdict.PASS,
            _part("zinc-plated steel"),
            "{chemicals: [{name: tap water, temperature: 20 °C}]}",
        ),
        Example(
            "Zinc plate above an acid bath",
            Verdict.FLAG,
            _part("zinc-plated steel", "fume"),
            "{chemicals: [{name: hydrochloric acid, concentration: 10 %, temperature: 25 °C}]}",
        ),
        Example(
            "Anodised aluminium in a mild acid of unknown pH",
            Verdict.UNPROVEN,
            _part("hard anodised aluminium"),
            "{chemicals: [{name: citric acid, concentration: 1 %, temperature: 25 °C}]}",
        ),
    ),
)
