"""Stainless steel: pitting by chloride, salt in the air, welds that carbon has sensitised.

The first two rest on the pitting resistance number of the grade and on `pitting_limits`; in warm
water the first rests on `chloride_limits`, as does stress corrosion.
"""

from collections.abc import Iterator
from decimal import Decimal
from itertools import groupby

from areafit.checks.materials.ambiguous import EveryMeaning, ask_each, called, worst_of
from areafit.corrosion.relief import is_fastener
from areafit.demands import Demands
from areafit.demands.exposure import Met, SolutionState, milligrams_per_litre
from areafit.facts.mechanics import Finish
from areafit.facts.part import LIQUID, WET, Exposure, MaterialUse
from areafit.facts.quantity import Dimension, Range, number
from areafit.rule import Answer, Ask, Example, Family, Judgement, Row, Rule, Subject
from areafit.tables import Tables
from areafit.tables.chemicals import Chemical, Medium, PropertyState, Reaction
from areafit.tables.limits import Figure, figure
from areafit.tables.materials import (
    ChlorideContent,
    ChlorideLimit,
    Material,
    PittingLimit,
    SaltAir,
    is_stainless,
)
from areafit.values import Frozen, Term, replace
from areafit.verdict import Reason, Role, Verdict

_NEAR_NEUTRAL = (Reaction.NEUTRAL, Reaction.WEAK_ACID, Reaction.WEAK_ALKALI)
_DRIES = frozenset({Exposure.SPLASH, Exposure.WASHDOWN})
# Sulphides, or chromium tied up by carbon: the number overstates these.
_OVERSTATED = frozenset({"303", "416", "440C"})
# What the resistance number ranks; hardened and ferritic grades suffer in crevices of any water.
_RANKED = frozenset(
    {
        "austenitic stainless steel",
        "duplex stainless steel",
        "super-austenitic stainless steel",
        "super-duplex stainless steel",
    }
)
_WELDABLE = ("austenitic stainless steel", "ferritic stainless steel")
_ORGANIC_ACIDS = "3"  # EPA reactivity group


def _steels(use: MaterialUse, tables: Tables) -> list[Material]:
    return [material for material in tables.materials(use.material) if is_stainless(material)]


def _classes(tables: Tables) -> tuple[PittingLimit, ...]:
    """The classes of steel, from the lowest resistance number on; own rows come in any order."""
    rows = tables.rows("pitting_limits", PittingLimit)
    return tuple(sorted(rows, key=lambda row: row.pren_min))


def _class_of(steel: Material, classes: tuple[PittingLimit, ...]) -> PittingLimit | None:
    """The highest class that the steel reaches; None below all, or without a number."""
    pren = steel.pren
    reached = (row for row in reversed(classes) if pren is not None and row.pren_min <= pren)
    return next(reached, None)


def _class_row(row: PittingLimit, value: str) -> Row:
    key = f"resistance number from {number(row.pren_min)}"
    return Row.of("pitting_limits", key, row, value)


# Printed limits of chloride by temperature


def printed_in_water(
    use: MaterialUse, steel: Material, met: Met, tables: Tables
) -> ChlorideLimit | None:
    """The printed limit that allows the chloride of the water; None where none does.

    A crevice takes it down, as does one that is not ruled out, and the heat tint of a weld.
    """
    chloride = _chloride_content(met, _content_row(met.chemical, tables))
    if chloride is None:
        return None
    bare = use.crevice is False and _tint(use) is Tint.NONE
    share = figure("share of the chloride limit", "crevice")
    factor = Decimal(1) if bare else _tightened(share)
    return _printed_for(chloride.high * factor, _printed_limits(steel, met, tables))


def _printed_limits(steel: Material, met: Met, tables: Tables) -> tuple[ChlorideLimit, ...]:
    """What is printed for a steel at the heat of the water that fills it or stands about it.

    Nothing where drops dry, where the water is acid, alkaline or oxidising, or where the surface is
    said to be hotter than the water: the limits are those of flowing water of a heat exchanger.
    """
    if met.exposure is not Exposure.IMMERSED or not _neutral(met) or not met.heat_certain:
        return ()
    if met.warmed or steel.family not in _RANKED or steel.id in _OVERSTATED or steel.pren is None:
        return ()
    return tuple(
        row
        for row in tables.rows("chloride_limits", ChlorideLimit)
        if row.pren_min <= steel.pren
        and met.heat.high <= row.temp_max_c
        and _within(met, row.ph_min, row.ph_max)
    )


def _within(met: Met, low: Decimal, high: Decimal) -> bool:
    """Whether the water has this pH; one that is not stated is that of a neutral chemical."""
    if met.stated.ph is None:
        return met.chemical.reaction is Reaction.NEUTRAL
    return low <= met.stated.ph.low and met.stated.ph.high <= high


def _printed_for(chloride: Decimal, limits: tuple[ChlorideLimit, ...]) -> ChlorideLimit | None:
    """The limit that allows this chloride in mg/L, the least of them; None where none does."""
    allowing = (row for row in limits if chloride <= row.chloride_mg_l)
    return min(allowing, key=lambda row: (row.chloride_mg_l, row.temp_max_c), default=None)


def printed_row(row: ChlorideLimit) -> Row:
    """A printed limit as a report cites it."""
    value = f"{number(row.chloride_mg_l)} mg/L to {number(row.temp_max_c)} °C"
    return Row.of("chloride_limits", f"resistance number from {number(row.pren_min)}", row, value)


# Caustic that keeps chloride from pitting

_CAUSTIC = "sodium-hydroxide"
_KEEPS = "caustic that keeps chloride from pitting"


def kept_by_caustic(use: MaterialUse, steel: Material, met: Met) -> tuple[Row, ...]:
    """The published figures by which the caustic about a steel keeps it from pitting.

    None where it was not tested so: weaker, hotter, with more chloride, in a crevice, or drying.
    """
    if met.chemical.id != _CAUSTIC or met.exposure is not Exposure.IMMERSED or met.mist:
        return ()
    if steel.family not in _RANKED or steel.id in _OVERSTATED or use.crevice is not False:
        return ()
    stated = None if met.stated.chloride is None else milligrams_per_litre(met.stated.chloride)
    strength, chloride, heat = (figure(_KEEPS, of) for of in ("strength", "chloride", "heat"))
    bath = [one for one in met.strengths if one.form is SolutionState.BATH]
    strong = all(
        one.certain and one.span.low >= strength.amount(Dimension.FRACTION) for one in bath
    )
    if stated is None or not strong or stated.high > chloride.number:
        return ()
    if not met.heat_certain or met.heat.high > heat.amount(Dimension.TEMPERATURE):
        return ()
    return tuple(map(Row.of_figure, (strength, chloride, heat)))


# Pitting


class Tint(Term):
    """Whether the seam keeps the colours of welding, below which the steel is poor in chromium."""

    NONE = "none"  # not welded, as far as is said, or cleaned by acid
    KEPT = "kept"
    OPEN = "not stated"


def _tint(use: MaterialUse) -> Tint:
    if use.finish is Finish.AS_WELDED:
        return Tint.KEPT
    return Tint.OPEN if use.welded is True and use.finish is None else Tint.NONE


class Pitting(Frozen):
    """A stainless steel in a water: chloride in mg/L, temperatures in °C.

    `deposit` says that drops dry on it; that they are said to be rinsed off before is no relief.
    `tinted`: whether heat tint is left along its welds. `printed` are limits of chloride that are
    printed for the steel and reach this heat. `kept`: by which figures caustic keeps it from pits.
    """

    material: str
    pren: Decimal
    overstated: bool
    chemical: str
    neutral: bool
    chloride: Range | None
    content: ChlorideContent | None
    heat: Range
    heat_certain: bool
    crevice: bool | None
    deposit: bool
    limit: PittingLimit | None
    tinted: Tint = Tint.NONE
    printed: tuple[ChlorideLimit, ...] = ()
    kept: tuple[Row, ...] = ()


def _ask_pitting(use: MaterialUse, demands: Demands) -> Iterator[Ask[EveryMeaning[Pitting]]]:
    steels, tables = _steels(use, demands.tables), demands.tables
    if not steels:
        return

    def cases(mets: tuple[Met, ...]) -> Iterator[Pitting]:
        wets = [met for met in mets if _pits(met)]
        return (_pitting(use, s, met, tables) for s in steels if s.pren is not None for met in wets)

    yield from ask_each(use, demands, cases)


def _pits(met: Met) -> bool:
    """Waters with chloride; acids, alkalis and oxidisers only where their chloride is stated."""
    if met.exposure not in LIQUID or not met.brings_chloride:
        return False
    liquid = met.chemical.medium in (Medium.LIQUID, Medium.SOLUTION)
    return liquid and (_neutral(met) or met.stated.chloride is not None)


def _neutral(met: Met) -> bool:
    chemical = met.chemical
    return chemical.reaction in _NEAR_NEUTRAL and chemical.oxidising is PropertyState.NO


def _pitting(use: MaterialUse, steel: Material, met: Met, tables: Tables) -> Pitting:
    overstated = steel.id in _OVERSTATED
    content = _content_row(met.chemical, tables)
    return Pitting(
        called(use.material, steel, tables),
        steel.pren or Decimal(0),
        overstated,
        met.name,
        _neutral(met),
        _chloride_content(met, content),
        content,
        met.heat,
        met.heat_certain,
        use.crevice,
        met.exposure in _DRIES,
        None if overstated else _class_of(steel, _classes(tables)),
        _tint(use),
        _printed_limits(steel, met, tables),
        kept_by_caustic(use, steel, met),
    )


def _content_row(chemical: Chemical, tables: Tables) -> ChlorideContent | None:
    """What the tables know of the chloride that a chemical brings."""
    rows = tables.rows("chloride_content", ChlorideContent)
    return next((row for row in rows if row.chemical == chemical.id), None)


def _chloride_content(met: Met, row: ChlorideContent | None) -> Range | None:
    """The chloride in mg/L of the water as it stands; None where it is not known.

    What a drop leaves as it dries is judged apart: the same for a salt by its strength and for a
    water whose chloride is stated.
    """
    if met.stated.chloride is not None:
        return milligrams_per_litre(met.stated.chloride)
    if row is None:
        return None
    if row.mg_l is not None:
        return Range.of(row.mg_l)
    bath = [one for one in met.strengths if one.form is SolutionState.BATH]
    if row.mg_l_per_pct is None or not all(one.certain for one in bath):
        return None
    low = min(one.span.low for one in bath)
    high = max(one.span.high for one in bath)
    return Range(low * row.mg_l_per_pct, high * row.mg_l_per_pct)


def _judge_pitting(case: Pitting) -> Judgement:
    chloride, limit = case.chloride, case.limit
    if chloride is None:
        found = "chloride not stated"
    else:
        found = f"{number(chloride.high)} mg/L chloride, resistance number {number(case.pren)}"
    rows: tuple[Row, ...] = ()
    if limit is not None:
        rows = (_class_row(limit, f"{number(limit.chloride_mg_l)} mg/L"),)
    if case.content is not None:
        rows += (Row.of("chloride_content", case.content.chemical, case.content),)
    answer = Answer("chloride below what the resistance number withstands", found, rows)
    if chloride is None:
        return answer.unproven(
            Reason.FACT_MISSING,
            f"Whether {case.chemical} pits {case.material} depends on its chloride, which is not "
            "stated.",
            remedy="State `chloride`, in mg/L.",
            answer_by=Role.PROCESS_OWNER,
        )
    if case.kept:
        return Answer("chloride that this caustic makes harmless", found, case.kept).passed(
            f"{case.chemical} of this strength keeps its chloride from pitting {case.material}."
        )
    if not case.neutral:
        return answer.unproven(
            Reason.NOT_JUDGED,
            f"A pitting resistance number says nothing of chloride in {case.chemical}.",
            remedy="Have a corrosion engineer judge it, and accept the finding with that.",
        )
    if limit is None:
        why = "its sulphides or carbides pit first" if case.overstated else "none is known"
        return answer.unproven(
            Reason.NO_DATA,
            f"No chloride limit holds for {case.material}: {why}.",
            remedy="Choose a grade with a higher resistance number, or have this one tested and "
            "accept the finding with the report.",
        )
    return _by_chloride(case, chloride.high, limit, answer)


def _where(case: Pitting) -> tuple[str, Figure]:
    """Where it stands less than on its open surface, in words, and by how much."""
    words, part = "", "crevice"
    if case.crevice:
        words = "in its crevices"
    elif case.deposit:
        words, part = "where drops dry on it", "where drops dry"
    elif case.tinted is Tint.KEPT:
        words, part = "along its welds, which keep their heat tint,", "heat tint"
    return words, figure("share of the chloride limit", part)


def _by_chloride(case: Pitting, chloride: Decimal, limit: PittingLimit, open_: Answer) -> Judgement:
    where, share = _where(case)
    crevice, tint = (
        figure("share of the chloride limit", part) for part in ("crevice", "heat tint")
    )
    factor = _tightened(share) if where else Decimal(1)
    reduced = replace(open_, rows=(*open_.rows, Row.of_figure(share))) if where else open_
    stands = number(limit.most_mg_l / factor)
    required = f"{'below' if limit.most_mg_l == limit.fails_mg_l else 'at most'} {stands} mg/L"
    only_dries = where and not case.crevice and limit.withstands(chloride)
    if limit.pits(chloride * factor) and not only_dries:
        return replace(reduced, required=required).flagged(
            f"{number(chloride)} mg/L chloride pits {case.material}{where and f' {where}'}."
        )
    if not limit.withstands(chloride * factor):
        return reduced.unproven(
            Reason.NO_MARGIN,
            f"{case.material} resists about {stands} mg/L chloride"
            f"{where and f' {where}'}; here are {number(chloride)}.",
            remedy="Choose a grade with a higher resistance number, or have it accepted.",
        )
    warm = not case.heat_certain or case.heat.high > limit.temp_max_c
    printed = _printed_for(chloride * factor, case.printed) if case.heat_certain else None
    if warm and printed is None:
        return _too_warm(case, limit, open_)
    open_ = _cited(open_, limit, printed)
    maybe = case.crevice is None and not case.deposit
    tight = replace(open_, rows=(*open_.rows, Row.of_figure(crevice)))
    if maybe and not _holds(case, limit, chloride * _tightened(crevice), warm=warm):
        return tight.unproven(
            Reason.FACT_MISSING,
            f"A crevice would let {number(chloride)} mg/L chloride pit {case.material}; whether "
            "there is one is not stated.",
            remedy="State `crevice`: gaskets, threads, washers and deposits make one.",
        )
    if case.tinted is Tint.OPEN and not _holds(case, limit, chloride * _tightened(tint), warm=warm):
        return replace(open_, rows=(*open_.rows, Row.of_figure(tint))).unproven(
            Reason.FACT_MISSING,
            f"Heat tint along its welds would let {number(chloride)} mg/L chloride pit "
            f"{case.material}; how they were left is not stated.",
            remedy="State `finish`: as welded, pickled or electropolished.",
        )
    # What a drying drop takes away is own reasoning: no pass rests on it, since less is allowed.
    return replace(tight if maybe or case.crevice else open_, required=required).passed(
        f"{case.material} (resistance number {number(case.pren)}) resists the chloride."
    )


def _holds(case: Pitting, limit: PittingLimit, chloride: Decimal, *, warm: bool) -> bool:
    """Whether it stands this chloride by its number and, where that ends, by what is printed."""
    return limit.withstands(chloride) and not (
        warm and _printed_for(chloride, case.printed) is None
    )


def _cited(answer: Answer, limit: PittingLimit, printed: ChlorideLimit | None) -> Answer:
    """What is printed for this chloride and heat, where it is, instead of the resistance number."""
    if printed is None:
        return answer
    by_number = _class_row(limit, f"{number(limit.chloride_mg_l)} mg/L")
    others = (row for row in answer.rows if row != by_number)
    return replace(answer, rows=(printed_row(printed), *others))


def _too_warm(case: Pitting, limit: PittingLimit, answer: Answer) -> Judgement:
    """Warmer than the limit of its class, and nothing is printed for this chloride."""
    most = max(case.printed, key=lambda row: row.chloride_mg_l, default=None)
    if most is None or not case.heat_certain:
        return answer.unproven(
            Reason.NO_DATA if case.heat_certain else Reason.FACT_MISSING,
            f"The chloride limit of {case.material} holds to {number(limit.temp_max_c)} °C only.",
            remedy="Have it judged for the warmth and accept the finding with that, or choose a "
            "grade with a higher resistance number."
            if case.heat_certain
            else "State the temperature in `chemicals: [{temperature: …}]` of the place.",
        )
    where, share = _where(case)
    stands = most.chloride_mg_l / (_tightened(share) if where else Decimal(1))
    return replace(answer, rows=(printed_row(most), *answer.rows)).unproven(
        Reason.NO_MARGIN,
        f"At {number(case.heat.high)} °C {case.material} is printed to resist {number(stands)} "
        f"mg/L chloride{where and f' {where}'}; here are more.",
        remedy="Choose a grade with a higher resistance number, or have it accepted.",
    )


def _tightened(share: Figure) -> Decimal:
    return 100 / share.amount(Dimension.FRACTION)


_PART = "kind: structural, materials: [{{material: '{}', exposure: immersed, crevice: {}}}]"
_WATER = "{{chemicals: [{{name: tap water, chloride: {} mg/L, temperature: 20 °C}}]}}"

PITTING = Rule[EveryMeaning[Pitting]](
    id="pitting",
    title="Stainless steel resists the chloride",
    family=Family.MATERIALS,
    subject=Subject.MATERIAL,
    clause="Resistance number Cr + 3.3 Mo + 16 N (stainless association); chloride limits by "
    "practice, from memory",
    why="Below a gasket or a deposit chloride eats through a wall that looks untouched.",
    remedy="Choose a `material` with a higher pitting resistance number, or lower the chloride.",
    answer_by=Role.DESIGNER,
    note="The number ranks neutral chloride only; acids are judged by `chemical-resistance`. What "
    "is printed for warm water holds for what is immersed in water of pH 6 to 9. Where "
    "drops dry a tenth of the chloride is allowed, as in a crevice (own reasoning), however the "
    "chloride is stated, and rinsing is no relief: one drop that stays is enough.",
    ask=_ask_pitting,
    judge=worst_of(_judge_pitting),
    examples=(
        Example("316 in town water", Verdict.PASS, _PART.format("316", "true"), _WATER.format(80)),
        Example(
            "304 in brackish water", Verdict.FLAG, _PART.format("304", "false"), _WATER.format(2000)
        ),
        Example(
            "Chloride not stated",
            Verdict.UNPROVEN,
            _PART.format("304", "false"),
            "{chemicals: [{name: tap water, temperature: 20 °C}]}",
        ),
    ),
)


# Salt in the air


class InSaltAir(Frozen):
    """A stainless steel in salt air; `limit` is None where its resistance number is too low."""

    material: str
    air: str
    crevice: bool | None
    limit: PittingLimit | None
    required: str
    tinted: Tint = Tint.NONE


def _ask_salt_air(use: MaterialUse, demands: Demands) -> Iterator[Ask[EveryMeaning[InSaltAir]]]:
    steels, tables = _steels(use, demands.tables), demands.tables
    if not steels or use.exposure is Exposure.ENCLOSED:
        return
    classes = _classes(tables)

    def cases(mets: tuple[Met, ...]) -> Iterator[InSaltAir]:
        for steel in steels:
            name, limit = called(use.material, steel, tables), _class_of(steel, classes)
            for met in filter(_salty, mets):
                required = _in_salt_air(classes)
                yield InSaltAir(name, met.name, use.crevice, limit, required, _tint(use))

    yield from ask_each(use, demands, cases)


def _salty(met: Met) -> bool:
    atmosphere = met.chemical.medium is Medium.ATMOSPHERE
    return atmosphere and met.chemical.chloride is PropertyState.YES


def _in_salt_air(classes: tuple[PittingLimit, ...]) -> str:
    """The resistance numbers that salt air asks for, as the rows give them."""
    open_surfaces = _numbers(classes, {SaltAir.OPEN_SURFACES, SaltAir.HOLDS})
    crevices = _numbers(classes, {SaltAir.HOLDS})
    return f"a resistance number {open_surfaces} on open surfaces, {crevices} with crevices"


def _numbers(classes: tuple[PittingLimit, ...], enough: set[SaltAir]) -> str:
    """`from 23`; `from 23 to below 33 and from 40` where an own row lets a class between fail."""
    spans: list[str] = []
    ends = (*(number(row.pren_min) for row in classes[1:]), None)
    for ok, rows in groupby(zip(classes, ends, strict=True), lambda at: at[0].salt_air in enough):
        if ok:
            listed = list(rows)
            low, end = number(listed[0][0].pren_min), listed[-1][1]
            spans.append(f"from {low}" if end is None else f"from {low} to below {end}")
    return " and ".join(spans) or "that no class has"


def _judge_salt_air(case: InSaltAir) -> Judgement:
    limit = case.limit
    crevice = {True: "crevices", False: "no crevice", None: "crevices not stated"}[case.crevice]
    reached = "no class known" if limit is None else f"from {number(limit.pren_min)}"
    answer = Answer(
        case.required,
        f"resistance number {reached}, {crevice}",
        () if limit is None else (_class_row(limit, f"salt air: {limit.salt_air.value}"),),
    )
    if limit is None or limit.salt_air is SaltAir.STAINS:
        return answer.unproven(
            Reason.CONDITION_TO_ACCEPT,
            f"{case.material} stains and pits in {case.air}, on open surfaces too.",
            remedy="Choose a grade of higher resistance number, coat it, or have stains accepted "
            "and washing planned.",
        )
    open_only = limit.salt_air is SaltAir.OPEN_SURFACES
    if open_only and case.crevice is None:
        return answer.unproven(
            Reason.FACT_MISSING,
            f"{case.material} holds in {case.air} on open surfaces only; whether there is a "
            "crevice is not stated.",
            remedy="State `crevice`: gaskets, threads, washers and deposits make one.",
        )
    if open_only and case.crevice:
        return answer.unproven(
            Reason.CONDITION_TO_ACCEPT,
            f"Salt from {case.air} stays in the crevices of {case.material}, where no rain washes "
            "it off, and pits it there.",
            remedy="Choose a duplex or higher grade, seal the crevice, or have washing planned and "
            "accept this.",
        )
    if case.tinted is not Tint.NONE:
        said = "keeps its heat tint" if case.tinted is Tint.KEPT else "may keep its heat tint"
        return answer.unproven(
            Reason.CONDITION_TO_ACCEPT if case.tinted is Tint.KEPT else Reason.FACT_MISSING,
            f"{case.material} is welded and {said}, which rusts first in {case.air}.",
            remedy="Pickle or electropolish the welds, and state `finish`.",
        )
    where = " on open surfaces" if open_only else ""
    return answer.passed(f"{case.material} holds in {case.air}{where}; brown stains do it no harm.")


_COAST = "{chemicals: [marine air], ambient: 0..35 °C}"

SALT_AIR = Rule[EveryMeaning[InSaltAir]](
    id="salt-air",
    title="Stainless steel resists salt-laden air",
    family=Family.MATERIALS,
    subject=Subject.MATERIAL,
    clause="Stainless association guidance on staining by the sea, from memory; resistance number "
    "Cr + 3.3 Mo + 16 N",
    why="Salt that settles in a gap is not washed off by rain: it draws water from the air and "
    "pits steel that stays bright beside it.",
    remedy="Choose a grade of higher resistance number, close the gaps, or plan washing.",
    answer_by=Role.DESIGNER,
    note="The film of salt is judged by the grade alone; how far the sea is, and how sheltered "
    "from rain the part stands, is not.",
    ask=_ask_salt_air,
    judge=worst_of(_judge_salt_air),
    examples=(
        Example("316 without gaps", Verdict.PASS, _PART.format("316", "false"), _COAST),
        Example("316 with gaps", Verdict.UNPROVEN, _PART.format("316", "true"), _COAST),
        Example("Duplex with gaps", Verdict.PASS, _PART.format("2205", "true"), _COAST),
        Example("304", Verdict.UNPROVEN, _PART.format("304", "false"), _COAST),
    ),
)


# Welds


class Weld(Frozen):
    """A grade with the most carbon it may hold in mass %, an acid, and whether it is welded."""

    material: str
    carbon: Decimal | None
    stabilised: bool
    chemical: str
    row: Row
    welded: bool | None
    fastener: bool


def _ask_weld(use: MaterialUse, demands: Demands) -> Iterator[Ask[EveryMeaning[Weld]]]:
    steels = [steel for steel in _steels(use, demands.tables) if steel.family in _WELDABLE]
    if not steels:
        return

    def cases(mets: tuple[Met, ...]) -> Iterator[Weld]:
        wets = [met for met in mets if _finds_welds(met)]
        return (_weld(use, steel, met, demands.tables) for met in wets for steel in steels)

    yield from ask_each(use, demands, cases, "welded")


def _finds_welds(met: Met) -> bool:
    """Wet with a mineral acid, or with an organic one that rises and condenses."""
    if met.exposure not in WET or met.calm:
        return False
    chemical = met.chemical
    if chemical.reaction is Reaction.STRONG_ACID:
        return True
    acid = chemical.reaction is Reaction.WEAK_ACID and _ORGANIC_ACIDS in chemical.epa_groups
    return acid and met.rises


def _weld(use: MaterialUse, steel: Material, met: Met, tables: Tables) -> Weld:
    carbon = steel.carbon_max_pct
    value = "?" if carbon is None else f"at most {number(carbon)} %"
    return Weld(
        called(use.material, steel, tables),
        carbon,
        steel.stabilised is True,
        met.name,
        Row.of("materials", f"{steel.id} carbon", steel, value),
        use.welded,
        is_fastener(use),
    )


def _judge_weld(case: Weld) -> Judgement:
    found = "carbon not known" if case.carbon is None else f"up to {number(case.carbon)} % carbon"

    def answer(found: str, *figures: Figure) -> Answer:
        rows = (case.row, *map(Row.of_figure, figures))
        return Answer("an L or stabilised grade where it is welded", found, rows)

    low = figure("carbon of a low-carbon stainless steel")
    if case.stabilised:
        return answer(found).passed(f"{case.material} is stabilised; its welds resist.")
    if case.carbon is not None and case.carbon <= low.amount(Dimension.FRACTION):
        return answer(found, low).passed(f"{case.material} is low in carbon; its welds resist.")
    if case.welded is False or (case.welded is None and case.fastener):
        how = "a fastener" if case.fastener else "not welded"
        return answer(how).passed(f"{case.material} is {how}, so nothing sensitised it.")
    if case.welded:
        thin = figure("weld that a plain grade stands")
        return answer(f"{found}, welded", low, thin).unproven(
            Reason.CONDITION_TO_ACCEPT,
            f"{case.material} is welded; beyond about {thin.value} {case.chemical} eats along the "
            "grains beside the weld.",
        )
    return answer(f"{found}, welding not stated", low).unproven(
        Reason.FACT_MISSING,
        f"{case.chemical} eats along the grains beside a weld of {case.material}; whether it is "
        "welded is not stated.",
        remedy="State `welded`, or use the L grade.",
    )


def _welded(material: str, more: str) -> str:
    return f"kind: structural, materials: [{{material: '{material}', exposure: splash, {more}}}]"


_NITRIC = "{chemicals: [{name: nitric acid, concentration: 20 %, temperature: 25 °C}]}"

WELD_SENSITISATION = Rule[EveryMeaning[Weld]](
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
    ask=_ask_weld,
    judge=worst_of(_judge_weld),
    examples=(
        Example("Welded 304L", Verdict.PASS, _welded("304L", "welded: true"), _NITRIC),
        Example("304 that is not welded", Verdict.PASS, _welded("304", "welded: false"), _NITRIC),
        Example("Welded 304", Verdict.UNPROVEN, _welded("304", "welded: true"), _NITRIC),
        Example(
            "304, welding not stated", Verdict.UNPROVEN, _welded("304", "crevice: false"), _NITRIC
        ),
    ),
)
