"""What cracks under tension without visible loss: in chloride, in alcohol, in ammonia."""

from collections.abc import Iterator

from areafit.checks.materials.ambiguous import EveryMeaning, ask_each, called, worst_of
from areafit.checks.materials.stainless import kept_by_caustic, printed_in_water, printed_row
from areafit.corrosion.rating import reasoned
from areafit.corrosion.relief import is_spring
from areafit.demands import Demands
from areafit.demands.exposure import Met
from areafit.facts.mechanics import Finish
from areafit.facts.part import LIQUID, WET, Exposure, MaterialUse
from areafit.facts.quantity import Range, number
from areafit.pattern import pattern
from areafit.rule import Answer, Ask, Example, Family, Judgement, Row, Rule, Subject
from areafit.tables import Tables
from areafit.tables.chemicals import (
    Chemical,
    Drying,
    Medium,
    PropertyState,
    Reaction,
)
from areafit.tables.materials import (
    BARE_STEEL,
    COATED_STEEL,
    ChlorideLimit,
    CrackingLimit,
    Material,
)
from areafit.tables.vapours import SolventCracking
from areafit.values import Frozen, replace
from areafit.verdict import Reason, Role, Verdict

_DRIES = frozenset({Exposure.SPLASH, Exposure.WASHDOWN, Exposure.FUME})
_ACIDS = (Reaction.STRONG_ACID, Reaction.WEAK_ACID)
# Those whose vapour holds free chlorine: the air of pools, from hypochlorite and its kin.
_FREE_CHLORINE = frozenset({"chlorine-dioxide", "chlorine-wet", "sodium-hypochlorite"})
# The heat exchangers whose makers print how much chloride they stand, and when.
_PRINTED = frozenset({"austenitic stainless steel", "super-austenitic stainless steel"})
_STEELS = BARE_STEEL | COATED_STEEL
_HARDENABLE = frozenset({"martensitic stainless steel", "precipitation-hardening stainless steel"})
_HYDROGEN = "hydrogen"
_CHARGING = frozenset({_HYDROGEN, "hydrogen-sulfide"})
_CLASS = pattern(r"\s*(\d{1,2}\.\d)\s*")
_HARDNESS = pattern(
    r"\s*(\d+(?:\.\d+)?)\s*(?:\.\.|-|to)?\s*(\d+(?:\.\d+)?)?\s*(HV|HB|HBW|HRC)\d*\s*"
)


# Chloride stress corrosion


class StressCorrosion(Frozen):
    """An alloy in a chloride: temperatures in °C, `sharp` where it concentrates or is acid.

    `chloride` says whether the content is certain; `stressed` and `welded` are as stated.
    `printed` is a limit that allows the chloride at this heat, `printed_bare` one that would if
    what is not stated of crevices and of welds were favourable. `kept`: caustic keeps it from the
    pits at which cracks begin.
    """

    material: str
    chemical: str
    heat: Range
    heat_certain: bool
    chloride: bool
    sharp: bool
    spring: bool
    stressed: bool | None
    welded: bool | None
    limit: CrackingLimit
    printed: ChlorideLimit | None = None
    printed_bare: ChlorideLimit | None = None
    kept: bool = False


class InAlcohol(Frozen):
    """A steel in an alcohol or ammonia of little water; `stressed` and `welded` are as stated."""

    material: str
    chemical: str
    spring: bool
    stressed: bool | None
    welded: bool | None
    row: Row


Cracking = StressCorrosion | InAlcohol


def _ask_stress_corrosion(
    use: MaterialUse, demands: Demands
) -> Iterator[Ask[EveryMeaning[Cracking]]]:
    yield from _ask_chloride(use, demands)
    yield from _ask_alcohol(use, demands)


def _ask_alcohol(use: MaterialUse, demands: Demands) -> Iterator[Ask[EveryMeaning[Cracking]]]:
    tables = demands.tables
    families = {each.family for each in tables.materials(use.material)}
    rows = [
        row for row in tables.rows("solvent_cracking", SolventCracking) if row.family in families
    ]
    if not rows:
        return
    # What the air brings of a gas is no liquid that fills the part.
    leaks = {one.stated.name for one in demands.chemicals or () if one.fume_only}

    def cases(mets: tuple[Met, ...]) -> Iterator[Cracking]:
        filling = [one for one in mets if one.name not in leaks or not _is_gas(one.chemical)]
        for met in filling:
            for alloy in tables.materials(use.material):
                for row in rows:
                    if row.family == alloy.family and _with_little_water(met, row):
                        yield _in_alcohol(use, alloy, met, row, tables)

    yield from ask_each(use, demands, cases)


def _is_gas(chemical: Chemical) -> bool:
    return chemical.medium is Medium.GAS


def _with_little_water(met: Met, row: SolventCracking) -> bool:
    """A liquid film of it, not its vapour, which takes up water from the air as it condenses."""
    strongest = max(one.span.high for one in met.strengths)
    strong = strongest > row.conc_min_pct
    wetted = LIQUID - {Exposure.SPLASH, Exposure.WASHDOWN} if _is_gas(met.chemical) else LIQUID
    return met.chemical.id == row.chemical and met.exposure in wetted and strong


def _in_alcohol(
    use: MaterialUse, alloy: Material, met: Met, row: SolventCracking, tables: Tables
) -> InAlcohol:
    key = f"{row.family} in {row.chemical}"
    return InAlcohol(
        called(use.material, alloy, tables),
        met.name,
        is_spring(use, alloy),
        use.stressed,
        use.welded,
        Row.of("solvent_cracking", key, row, f"above {number(row.conc_min_pct)} %"),
    )


def _ask_chloride(use: MaterialUse, demands: Demands) -> Iterator[Ask[EveryMeaning[Cracking]]]:
    tables = demands.tables
    limits = [(alloy, _limit_of(alloy, tables)) for alloy in tables.materials(use.material)]
    known = [(alloy, limit) for alloy, limit in limits if limit is not None]
    if not known:
        return

    def cases(mets: tuple[Met, ...]) -> Iterator[Cracking]:
        wets = [met for met in mets if _salts(met)]
        return (
            _stress_corrosion(use, alloy, met, limit, tables)
            for alloy, limit in known
            for met in wets
        )

    yield from ask_each(use, demands, cases)


def _limit_of(alloy: Material, tables: Tables) -> CrackingLimit | None:
    """The limits of the alloy itself, else those of its family; None where none are known."""
    rows = tables.rows("chloride_cracking", CrackingLimit)
    own = [row for row in rows if row.material == alloy.id]
    family = [row for row in rows if row.family == alloy.family and not row.material]
    return next(iter((*own, *family)), None)


def _salts(met: Met) -> bool:
    """Wet with chloride, or in a room whose air carries free chlorine."""
    airborne = met.exposure is Exposure.ROOM and _frees_chlorine(met.chemical)
    if met.calm:
        return False
    return met.brings_chloride and (met.exposure in WET or airborne)


def _frees_chlorine(chemical: Chemical) -> bool:
    return chemical.id in _FREE_CHLORINE


def _stress_corrosion(
    use: MaterialUse, alloy: Material, met: Met, limit: CrackingLimit, tables: Tables
) -> StressCorrosion:
    stays = met.chemical.drying is Drying.NEVER_DRIES and met.exposure in _DRIES
    acid = met.chemical.reaction in _ACIDS
    # What is printed relieves the guide, never a limit of the company's own.
    ours = limit in Tables.shipped().rows("chloride_cracking", CrackingLimit)
    printed = ours and alloy.family in _PRINTED
    return StressCorrosion(
        called(use.material, alloy, tables),
        met.name,
        met.heat,
        met.heat_certain,
        met.stated.chloride is not None or met.chemical.chloride is PropertyState.YES,
        stays or acid or _frees_chlorine(met.chemical),
        is_spring(use, alloy),
        use.stressed,
        use.welded,
        limit,
        printed_in_water(use, alloy, met, tables) if printed else None,
        printed_in_water(_at_best(use), alloy, met, tables) if printed else None,
        kept=bool(kept_by_caustic(use, alloy, met)),
    )


def _at_best(use: MaterialUse) -> MaterialUse:
    """The use without a crevice or heat tint that nobody stated."""
    crevice = False if use.crevice is None else use.crevice
    finish = Finish.PICKLED if use.finish is None else use.finish
    return replace(use, crevice=crevice, finish=finish)


def _judge_cracking(case: Cracking) -> Judgement:
    return _judge_alcohol(case) if isinstance(case, InAlcohol) else _judge_stress_corrosion(case)


def _judge_alcohol(case: InAlcohol) -> Judgement:
    required = f"no lasting tension in {case.chemical} of little water"
    if case.stressed is False and case.welded is False and not case.spring:
        return Answer(required, "neither loaded nor welded", (case.row,)).passed(
            f"{case.material} is neither loaded nor welded, so {case.chemical} does not crack it."
        )
    if case.stressed or case.welded or case.spring:
        what = "welded" if case.welded else "loaded"
        return Answer(required, what, (case.row,)).unproven(
            Reason.CONDITION_TO_ACCEPT,
            f"{case.material} is {what}; {case.chemical} with little water may crack it.",
            remedy="Relieve the stress by heat after welding, coat or inhibit it, and have that "
            "accepted in a waiver; or choose stainless steel as `material`.",
        )
    return Answer("`stressed` and `welded`", "not stated", (case.row,)).unproven(
        Reason.FACT_MISSING,
        f"{case.chemical} with little water may crack {case.material} if it is loaded or welded, "
        "which is not stated.",
        remedy="State `stressed` and `welded`.",
    )


def _judge_stress_corrosion(case: StressCorrosion) -> Judgement:
    limit, high = case.limit, case.heat.high
    rows = (_limit_row(limit),)
    found = f"{number(high)} °C, {case.chemical}" if case.heat_certain else case.chemical
    start = limit.lowest(sharp=case.sharp)
    if start is None:
        return Answer("an alloy that chlorides do not crack", found, rows).passed(
            f"{case.material} is very resistant to chloride stress corrosion."
        )
    answer = Answer(f"below {number(start)} °C in this chloride, or no lasting stress", found, rows)
    if high < start:
        return answer.passed(
            f"{case.material} stays below the temperatures at which this chloride cracks it."
        )
    if not case.heat_certain or not case.chloride:
        missing = "chloride content" if case.heat_certain else "temperature"
        return Answer(f"the {missing} of {case.chemical}", "not stated", rows).unproven(
            Reason.FACT_MISSING,
            f"Whether {case.chemical} may crack {case.material} depends on its {missing}, "
            "which is not stated.",
            remedy=f"State the {missing} in "
            f"`chemicals: [{{{missing.removesuffix(' content')}: …}}]` of the place.",
            answer_by=Role.PROCESS_OWNER,
        )
    relieved = case.printed is not None or case.kept
    beyond = limit.limit_c is not None and high >= limit.limit_c and not relieved
    if beyond and case.printed_bare is not None and not case.spring:
        return answer.unproven(
            Reason.FACT_MISSING,
            f"{case.chemical} cracks {case.material} at {number(high)} °C where a crevice or the "
            "heat tint of a weld holds it; neither is ruled out.",
            remedy="State `crevice`, and of a weld `finish`.",
        )
    if beyond or case.spring:
        return answer.flagged(
            f"{case.chemical} cracks {case.material} at {number(high)} °C"
            f"{', a spring above all' if case.spring else ''}.",
            remedy=f"Choose {_resisting(case.limit)} as `material`, or keep it cooler.",
        )
    return _by_stress(case, answer)


def _by_stress(case: StressCorrosion, answer: Answer) -> Judgement:
    required, found, rows = answer.required, answer.found, answer.rows
    if case.stressed is False and case.welded is False:
        why = "neither loaded nor welded"
        if case.printed is not None:
            rows = (*rows, printed_row(case.printed))
            return Answer(required, f"{found}, {why}", rows).passed(
                f"{case.material} is {why}, and this chloride is within what is printed for it "
                f"to {number(case.printed.temp_max_c)} °C."
            )
        rows = (*rows, reasoned("stress corrosion needs lasting tension", why))
        return Answer(required, f"{found}, {why}", rows).passed(
            f"{case.material} is warm enough for {case.chemical} to crack it, but {why}."
        )
    if case.stressed or case.welded:
        what = "loaded" if case.stressed else "welded"
        return Answer(required, f"{found}, {what}", rows).unproven(
            Reason.CONDITION_TO_ACCEPT,
            f"{case.material} is {what} and meets {case.chemical} in the range where it may crack.",
            remedy=f"Choose {_resisting(case.limit)} as `material`, or relieve the stress or keep "
            "it cooler and have that accepted in a waiver.",
        )
    return Answer("`stressed` and `welded`", f"{found}; stress not stated", rows).unproven(
        Reason.FACT_MISSING,
        f"{case.material} may crack in {case.chemical} if it is loaded or welded, which is not "
        "stated.",
        remedy="State `stressed` and `welded`; hangers and springs are stressed.",
    )


def _resisting(limit: CrackingLimit) -> str:
    """What stands more chloride and warmth than an alloy of this limit."""
    return _RESISTING.get(limit.family, "a ferritic, duplex or higher alloy")


_RESISTING = {
    "aluminium alloy": "an alloy of the 5000 or 6000 series",
    "duplex stainless steel": "a super-austenitic or nickel alloy",
    "super-duplex stainless steel": "a super-austenitic or nickel alloy",
    "super-austenitic stainless steel": "a nickel alloy or titanium",
}


def _limit_row(limit: CrackingLimit) -> Row:
    marks = (("guide", limit.guide_c), ("fails", limit.limit_c), ("sharp", limit.drying_c))
    value = ", ".join(f"{word} {number(c)} °C" for word, c in marks if c is not None)
    key = limit.material or limit.family
    return Row.of("chloride_cracking", key, limit, value or "resistant")


_IMMERSED = "kind: structural, materials: [{material: '304', exposure: immersed}]"
_BRINE = "{chemicals: [{name: sodium chloride, concentration: 0.01 %%, temperature: %s}]}"

STRESS_CORROSION = Rule[EveryMeaning[Cracking]](
    id="stress-corrosion",
    title="Neither chlorides nor alcohols nor ammonia crack the alloy",
    family=Family.MATERIALS,
    subject=Subject.MATERIAL,
    clause="Stainless association page on chloride stress corrosion (50-60 °C is a guide); "
    "MSFC-STD-3029A for hardened grades, from memory; API TR 939-D (alcohols), from memory",
    why="A loaded stainless part breaks without warning and without visible loss where warm "
    "chloride concentrates on it.",
    remedy="Choose a ferritic, duplex or higher alloy as `material`, keep it cooler, or take the "
    "stress away.",
    answer_by=Role.DESIGNER,
    note="Chloride within what is printed for the grade at this heat is no flag where the part is "
    "immersed in neutral water. Chloride that never dries, is acid or frees chlorine cracks lower "
    "down: loaded 304 and 316 break at 25-35 °C in pool-type air.",
    ask=_ask_stress_corrosion,
    judge=worst_of(_judge_cracking),
    examples=(
        Example("304 in cool brine", Verdict.PASS, _IMMERSED, _BRINE % "20 °C"),
        Example("304 in hot brine", Verdict.FLAG, _IMMERSED, _BRINE % "70 °C"),
        Example(
            "A welded steel tank of ethanol",
            Verdict.UNPROVEN,
            "kind: structural, materials: [{material: carbon steel, exposure: immersed, "
            "welded: true}]",
            "{chemicals: [{name: ethanol, concentration: 99 %, temperature: 20 °C}]}",
        ),
        Example(
            "A hanger over bleach, its load not stated",
            Verdict.UNPROVEN,
            "kind: structural, materials: [{material: '316', exposure: room}]",
            "{chemicals: [{name: sodium hypochlorite, concentration: 5 %, temperature: 30 °C}]}",
        ),
    ),
)
