"""Every material against every chemical that it meets, at the exposure of its use.

How a pair is looked up and condensed stands in `corrosion.rating`; here is what is asked, and what
is said of the worst of all that names, mist and substrate leave possible.
"""

from collections.abc import Iterator
from functools import lru_cache, partial
from typing import Any

from areafit.checks.materials.copper import COPPER_ALLOY
from areafit.checks.materials.cracking import STRESS_CORROSION
from areafit.checks.materials.hydrogen import HYDROGEN_EMBRITTLEMENT
from areafit.checks.materials.limits import MATERIAL_TEMPERATURE
from areafit.checks.materials.plating import PLATING
from areafit.checks.materials.rust import BARE_STEEL_IN_AIR, in_air
from areafit.checks.materials.stainless import PITTING, SALT_AIR, WELD_SENSITISATION
from areafit.corrosion.better import NONE, Better, better_than
from areafit.corrosion.rating import (
    Decided,
    Outcome,
    Rated,
    RatedStrength,
    condition,
    condition_rows,
    decide,
    deciding,
    rate,
    rows_of,
    worst,
)
from areafit.corrosion.relief import called_spring, piece_of
from areafit.demands import Demands
from areafit.demands.exposure import Met, SolutionState
from areafit.demands.meeting import Meeting, Pores, lining, meetings, pores_of, strangers
from areafit.demands.working import at_room_heat, liquid_met, reached
from areafit.facts.part import Exposure, MaterialUse
from areafit.facts.quantity import Range, number
from areafit.rule import Answer, Ask, Example, Family, Judgement, Row, Rule, Subject
from areafit.tables.materials import COATING, Material, is_natural, is_polymer
from areafit.tables.names import nearest
from areafit.tables.resistance import Mechanism, MissingData
from areafit.values import Frozen, replace
from areafit.verdict import Reason, Role, Verdict
from areafit.verdict import worst as worst_verdict
from areafit.wording import capital, nearest_known

# What is asked


class Unknown(Frozen):
    """A name that no table answers to: of the material, of a chemical, or one in `to`.

    `remedy_told` is what to do where `what` alone does not say.
    """

    what: str
    name: str
    nearest: tuple[str, ...]
    remedy_told: str = ""


class NoExposure(Frozen):
    """The part does not say how it meets the chemicals of its place."""

    material: str


class NoMixture(Frozen):
    """Chemicals mixed in one bath, and no row for what they become."""

    material: str
    mixture: str


class NoVapour(Frozen):
    """A flammable substance that is known as such, and not by what it does to materials."""

    material: str
    substance: str


class NoLiquid(Frozen):
    """A piece that the working liquid of its part reaches, and no row for what that liquid is.

    `kind` is the one stated, None where none is; `heat`: a kind that the material resists at room
    temperature, and how hot it becomes is not stated.
    """

    material: str
    kind: str | None
    heat: bool = False


class Resistance(Frozen):
    """One material in one chemical.

    `rated` holds every material and chemical that the names may mean, `if_mist` the same where
    mist is not ruled out, `below` the substrate of a coating (None: not stated), `filled` what
    the material's name says to be in it. `better` names materials that would pass. `read_as` is
    what a name is taken for that holds more than a known one, `grades` the ones of several that
    it may mean and that resist; `trade`: a maker's name of several grades. `pores` of a plastic
    or rubber over a stated substrate: whether the liquid gets through; None where it is no layer.
    `natural`: wood, hide or fibre, or may be it. `anyhow`: it fails at the mildest exposure too,
    and none is stated.
    """

    material: str
    rated: tuple[Rated, ...]
    if_mist: tuple[Rated, ...] = ()
    below: tuple[Rated, ...] | None = ()
    better: Better = NONE
    filled: tuple[Rated, ...] = ()
    read_as: str = ""
    grades: tuple[str, ...] = ()
    trade: bool = False
    pores: Pores | None = None
    natural: bool = False
    anyhow: bool = False

    @property
    def suits(self) -> bool:
        """Whether the material stands the chemical, whatever the names mean."""
        every = (*self.rated, *self.filled)
        return all(decide(one).outcome is Outcome.SUITABLE for one in every)


Asked = Unknown | NoExposure | NoMixture | NoVapour | NoLiquid | Resistance


def _ask(use: MaterialUse, demands: Demands) -> Iterator[Ask[Asked]]:
    """One question for each chemical that the material meets, and one for each thing unknown."""
    candidates = demands.tables.materials(use.material)
    filled = reached(use, candidates[0] if candidates else None)
    if not demands.chemicals and not filled:
        return
    if not candidates:
        near = demands.tables.nearest("materials", use.material)
        yield Ask(Unknown("material", use.material, near), "material", use.component)
        return
    if demands.chemicals:
        yield from _of_place(use, demands)
    if filled:
        yield Ask(_of_liquid(_read_of(use), demands), "", use.component)


def _of_place(use: MaterialUse, demands: Demands) -> Iterator[Ask[Asked]]:
    for name in strangers(use, demands):
        near = nearest(name, (c.stated.name for c in demands.chemicals or ()))
        yield Ask(Unknown("chemical of this place", name, near), "to", use.component)
    unsaid = use.exposure is None
    listed = demands.chemicals or ()
    asks = unsaid and any(not c.fume_only for c in listed)
    solvents = frozenset(c.stated.name for c in listed if unsaid and c.solvent)
    for question in _questions(_read_of(use), demands):
        if _fails_in(question, solvents):
            asks = True  # in the air of a room it would not be judged at all
        else:
            yield Ask(question, "", use.component)
    if asks:
        failing = _anyhow(_read_of(use), demands)
        for question in failing:
            yield Ask(question, "", use.component)
        if not failing:
            yield Ask(NoExposure(use.material), "exposure", use.component)


def _read_of(use: MaterialUse) -> MaterialUse:
    """What bears on resistance, so that many components are one question."""
    return MaterialUse(
        use.material,
        exposure=use.exposure,
        to=use.to,
        substrate=use.substrate,
        stressed=True if called_spring(use) else use.stressed,
        welded=use.welded,
        breathes=use.breathes,
        crevice=use.crevice,
        temperature=use.temperature,
        layer_thickness=use.layer_thickness if use.substrate is not None else None,
        works_in=use.works_in,
    )


@lru_cache(maxsize=1024)
def _of_liquid(use: MaterialUse, demands: Demands) -> Asked:
    """The working liquid of the part, which counts whatever the place lists.

    Of its heat nobody is asked who names a material that fails cold, or holds as hot as such a
    liquid is used.
    """
    liquid = use.works_in
    kind = None if liquid is None or liquid.kind is None else liquid.kind.value
    meeting = liquid_met(use, demands)
    if liquid is None or meeting is None:
        return NoLiquid(use.material, kind)
    question = _of_meeting(use, meeting, demands)
    if liquid.hottest is not None or not isinstance(question, Resistance) or question.suits:
        return question
    cold = _of_meeting(use, at_room_heat(meeting), demands)
    holds = isinstance(cold, Resistance) and cold.suits
    return NoLiquid(use.material, kind, heat=True) if holds else question


def _anyhow(use: MaterialUse, demands: Demands) -> tuple[Resistance, ...]:
    """What a material fails in at every exposure, as at the mildest: none of them would save it."""
    failing: tuple[Resistance, ...] = ()
    for exposure in Exposure:
        each = replace(use, exposure=exposure)
        failing = tuple(
            question
            for question in _questions(each, demands)
            if isinstance(question, Resistance) and _judge(question).verdict is Verdict.FLAG
        )
        if not failing:
            return ()
    return tuple(replace(question, anyhow=True) for question in failing)


def _fails_in(question: "Asked", names: frozenset[str]) -> bool:
    """Whether the material does not stand one of these chemicals."""
    if not isinstance(question, Resistance) or question.suits:
        return False
    return any(rated.chemical in names for rated in question.rated)


@lru_cache(maxsize=4096)  # many components are of one material and exposure
def _questions(use: MaterialUse, demands: Demands) -> tuple[Asked, ...]:
    return tuple(_asked_of(use, demands))


def _asked_of(use: MaterialUse, demands: Demands) -> Iterator[Asked]:
    return (_of_meeting(use, meeting, demands) for meeting in meetings(use, demands))


def _of_meeting(use: MaterialUse, meeting: Meeting, demands: Demands) -> Asked:
    tables = demands.tables
    candidates = tables.materials(use.material)
    below = () if use.substrate is None else tables.materials(use.substrate)
    strain = tuple(piece_of(use, one) for one in (*candidates, *below))
    key = ("resistance", use.material, use.substrate, use.layer_thickness, strain, meeting)
    question = tables.remembered(key, partial(_asked, use, candidates, meeting, demands))
    if isinstance(question, Resistance) and not question.suits:
        beside = partial(_beside, demands=demands)
        cures = better_than(use, candidates[0], meeting, demands, beside)
        question = replace(question, better=cures)
    return question


_BESIDE: tuple[Rule[Any], ...] = (
    STRESS_CORROSION,
    PITTING,
    SALT_AIR,
    COPPER_ALLOY,
    PLATING,
    MATERIAL_TEMPERATURE,
    HYDROGEN_EMBRITTLEMENT,
    WELD_SENSITISATION,
)


def _beside(use: MaterialUse, demands: Demands) -> Verdict:
    """The worst that the other rules on materials say of one in this use."""
    found = [rule.judge(ask.question) for rule in _BESIDE for ask in rule.ask(use, demands)]
    bare = in_air(use, demands)
    if bare is not None:
        found.append(BARE_STEEL_IN_AIR.judge(bare))
    return worst_verdict(judged.verdict for judged in found)


def _asked(
    use: MaterialUse, candidates: tuple[Material, ...], meeting: Meeting, demands: Demands
) -> Asked:
    if not meeting.mets:
        if meeting.mixture:
            return NoMixture(use.material, meeting.name)
        if demands.tables.substances(meeting.name):
            return NoVapour(use.material, meeting.name)
        near = demands.tables.nearest("chemicals", meeting.name)
        vapour = any(c.fume_only and c.stated.name == meeting.name for c in demands.chemicals or ())
        return Unknown("chemical", meeting.name, near, _LISTED_AS_SUBSTANCE if vapour else "")
    pores = _pores(use, candidates, meeting.mets)
    coating = any(one.family == COATING for one in candidates) or pores in (Pores.SOME, Pores.OPEN)
    read = demands.tables.reading("materials", use.material)
    fillers = demands.tables.fillers(use.material)
    rated = _rated(use, candidates, meeting.mets, demands)
    poor = {one.material for one in rated if decide(one).outcome is not Outcome.SUITABLE}
    fit = tuple(one.name for one in candidates if one.id not in poor)
    return Resistance(
        use.material,
        rated,
        _rated(use, (*candidates, *fillers), meeting.if_mist, demands),
        _below(use, meeting.mets, demands) if coating else (),
        filled=_rated(use, fillers, meeting.mets, demands),
        read_as="" if read.plain or len(candidates) > 1 else candidates[0].name,
        trade=read.trade,
        grades=fit if len(candidates) > 1 else (),
        pores=pores,
        natural=any(map(is_natural, candidates)),
    )


def _rated(
    use: MaterialUse, candidates: tuple[Material, ...], mets: tuple[Met, ...], demands: Demands
) -> tuple[Rated, ...]:
    return tuple(
        rate(material, met, demands.tables, piece_of(use, material))
        for material in candidates
        for met in mets
    )


def _pores(
    use: MaterialUse, candidates: tuple[Material, ...], mets: tuple[Met, ...]
) -> Pores | None:
    """Of a plastic or rubber that lies immersed over a substrate; a paint is known to have some."""
    if use.substrate is None or mets[0].exposure is not Exposure.IMMERSED:
        return None
    if not all(is_polymer(one) and one.family != COATING for one in candidates):
        return None
    return pores_of(use, candidates[0])


def _below(use: MaterialUse, mets: tuple[Met, ...], demands: Demands) -> tuple[Rated, ...] | None:
    """The substrate, which pinholes and edges expose once a coating is immersed."""
    if mets[0].exposure is not Exposure.IMMERSED:
        return ()
    if use.substrate is None:
        return None
    return _rated(use, demands.tables.materials(use.substrate), mets, demands) or None


# What is said of it


_LISTED_AS_SUBSTANCE = (
    "Use a CAS number or a common name in `substances` of the place; of a product, list what its "
    "safety data sheet names."
)
_KNOWN_AS = {
    "material": "Use a grade, an EN or UNS number or a common name as `material`.",
    "chemical of this place": "Write in `to` a chemical as the place writes it.",
    "chemical": "Use a CAS number or a common name in `chemicals` of the place; of a product, list "
    "what its safety data sheet names.",
}


def _judge(asked: Asked) -> Judgement:
    """The answer; only rows and stated facts make a pass."""
    match asked:
        case Unknown():
            return Answer(f"a known {asked.what}", asked.name).unproven(
                Reason.NAME_UNKNOWN,
                f"{asked.name!r} is no known {asked.what}.{nearest_known(asked.nearest)}",
                remedy=asked.remedy_told or _KNOWN_AS[asked.what],
                answer_by=Role.PROCESS_OWNER if asked.what == "chemical" else None,
            )
        case NoExposure():
            return Answer("an exposure", "not stated").unproven(
                Reason.FACT_MISSING,
                f"How {asked.material} meets the chemicals of the place is not stated.",
                remedy="State the exposure: immersed, splash, fume, washdown, room or enclosed.",
            )
        case NoMixture():
            required = f"data for {asked.material} in the mixture"
            return Answer(required, "no row for the mixture").unproven(
                Reason.NO_DATA,
                f"{asked.mixture} are mixed, and there is no data for what they become.",
                remedy="Ask for a test in the mixture and accept the finding with it; data of its "
                "parts do not add up.",
            )
        case NoLiquid():
            return _no_liquid(asked)
        case NoVapour():
            required = f"data for {asked.material} in {asked.substance}"
            return Answer(required, "no row for the substance").unproven(
                Reason.NO_DATA,
                f"There is no {required}.",
                remedy="Ask the maker of the part for data or a test, and add it as a table row.",
            )
        case _:
            return _resistance(asked)


def _no_liquid(asked: NoLiquid) -> Judgement:
    if asked.heat:
        return Answer(f"how hot the {asked.kind} becomes", "not stated").unproven(
            Reason.FACT_MISSING,
            f"{asked.material} resists the working liquid ({asked.kind}) cold, and not at every "
            "heat at which such a liquid is used.",
            remedy="State `liquid: {hottest: …}`.",
        )
    if asked.kind is None:
        return Answer("the kind of the working liquid", "not stated").unproven(
            Reason.FACT_MISSING,
            f"Which kind of liquid the part works with is not stated, and {asked.material} may be "
            "wetted by it.",
            remedy="State `liquid: {kind: …}`.",
        )
    return Answer(f"data for {asked.material} in the working liquid", asked.kind).unproven(
        Reason.NO_DATA,
        f"There is no data for {asked.material} in a working liquid of another kind.",
        remedy="State `liquid: {kind: …}` where it is a listed one; else ask the maker of the part "
        "whether it suits the liquid, and accept the finding with that.",
        answer_by=Role.SUPPLIER,
    )


def _resistance(asked: Resistance) -> Judgement:
    decided = worst((*asked.rated, *asked.filled))
    if decided.outcome is Outcome.UNSUITABLE:
        return _said(asked, decided)
    if asked.below:
        under = worst(asked.below)
        if asked.pores is Pores.OPEN and _rank(under) < _rank(decided):
            return _no_thickness(asked, under)
        decided = min(decided, under, key=_rank)
    misted = worst(asked.if_mist) if asked.if_mist else decided
    if decided.outcome is not Outcome.UNSUITABLE and _rank(misted) < _rank(decided):
        return _mist(asked, decided, misted)
    if decided.outcome is not Outcome.UNSUITABLE and asked.below is None:
        return _no_substrate(asked, decided)
    return _said(asked, decided)


def _rank(decided: Decided) -> int:
    return list(Outcome).index(decided.outcome)


def _said(asked: Resistance, decided: Decided) -> Judgement:
    """The judgement of one outcome."""
    point = decided.point
    named, where = _named(asked, decided), _where(decided)
    by = "however it is exposed" if asked.anyhow else f"({_exposed(decided)})"
    own = rows_of((decided.rated,))
    match decided.outcome:
        case Outcome.UNSUITABLE:
            attack = point.mechanism or Mechanism.NONE
            how = _ATTACK.get(attack, "is attacked")
            what = "unsuitable" if attack is Mechanism.NONE else f"unsuitable ({attack.value})"
            return Answer(f"suitable in {where}", what, deciding(decided)).flagged(
                f"{named} {how} in {where} {by}.{_worse(decided)}{_more(point)}",
                remedy=_remedy(asked, _rinse(decided), another="`material`"),
            )
        case Outcome.LIMITED:
            required = f"suitable in {where}, or the condition accepted"
            suffers = point.mechanism
            accept = condition(suffers) if suffers else ""
            rows = (*own, *condition_rows(suffers)) if suffers else own
            return Answer(required, "limited", rows).unproven(
                Reason.CONDITION_TO_ACCEPT,
                f"{named} is of limited use in {where} {by}. {capital(accept)}."
                f"{_worse(decided)}{_more(point)}",
                remedy=_remedy(
                    asked, "Accept the condition in a waiver by role", another="`material`"
                ),
            )
        case Outcome.NO_DATA:
            missing = (
                *point.pending,
                *(gap.value for gap in point.gaps),
                MissingData.NO_ROWS.value,
            )[0]
            return Answer("data at this strength and temperature", missing, own).unproven(
                Reason.NO_DATA,
                f"{named} in {where}: {missing} {by}.{_soaks(asked)}",
                remedy=_remedy(asked, "Ask the maker of the part for data or a test"),
            )
        case Outcome.OPEN:
            return _open(asked, decided, own)
        case Outcome.SUITABLE:
            every = (*asked.rated, *asked.filled, *(asked.below or ()), *asked.if_mist)
            rows = rows_of(every)
            if asked.pores is Pores.NONE:
                rows = (*rows, Row.of_figure(lining()))
            return Answer(f"suitable in {where}", "suitable", rows).passed(
                f"{_read(asked)} resists {decided.rated.chemical} {by}.{_more(point)}"
            )


def _soaks(asked: Resistance) -> str:
    """Why no table rates it, where it is wood, hide or fibre."""
    return _NATURAL if asked.natural else ""


_NATURAL = " It is a natural material: it takes up what wets it, and burns; no table rates it."


def _open(asked: Resistance, decided: Decided, rows: tuple[Row, ...]) -> Judgement:
    point, rated = decided.point, decided.rated
    missing = "temperature" if not rated.heat_certain else "concentration in mass percent"
    best = point.best.value if point.best else "unknown"
    worse = point.worst.value if point.worst and not point.gaps else "no data"
    return Answer(f"the {missing} of {rated.chemical}", "not stated", rows).unproven(
        Reason.FACT_MISSING,
        f"{_named(asked, decided)} in {rated.chemical} is anything from {best} to {worse}, "
        f"by the {missing}, which is not stated ({_exposed(decided)}).",
        remedy=_remedy(asked, _STATED[rated.heat_certain]),
        answer_by=Role.PROCESS_OWNER,
    )


_STATED = {
    False: "State the temperature in `chemicals: [{temperature: …}]` of the place; of a vapour in "
    "the air `ambient` of the place",
    True: "State the concentration in `chemicals: [{concentration: …}]` of the place, in mass "
    "percent",
}


def _mist(asked: Resistance, decided: Decided, misted: Decided) -> Judgement:
    rows = rows_of((decided.rated, misted.rated))
    return Answer("whether the bath throws a mist", "not stated", rows).unproven(
        Reason.FACT_MISSING,
        f"{_named(asked, decided)} is {decided.outcome.value} in the fume of "
        f"{decided.rated.chemical}, and {misted.outcome.value} if spray or gas bubbles throw it "
        "about, which is not ruled out.",
        remedy=_remedy(asked, "State `mist: false` where nothing sprays, bubbles or gasses"),
        answer_by=Role.PROCESS_OWNER,
    )


def _no_substrate(asked: Resistance, decided: Decided) -> Judgement:
    rows = rows_of((decided.rated,))
    return Answer("the substrate below the coating", "not stated", rows).unproven(
        Reason.FACT_MISSING,
        f"{asked.material} is immersed in {decided.rated.chemical}; at edges and pinholes the "
        "material below it decides, and that is not stated or not known.",
        remedy="State `substrate`, or use a solid material.",
        answer_by=Role.SUPPLIER,
    )


def _no_thickness(asked: Resistance, under: Decided) -> Judgement:
    rows = (*rows_of((under.rated,)), Row.of_figure(lining()))
    return Answer(f"a lining of {lining().value} or more", "not stated", rows).unproven(
        Reason.FACT_MISSING,
        f"{asked.material} resists {under.rated.chemical}; a film of it has pinholes, and "
        f"{under.rated.material} below is {under.outcome.value} there. Its thickness is not "
        "stated.",
        remedy="State `layer_thickness`, or use a solid material.",
        answer_by=Role.SUPPLIER,
    )


def _named(asked: Resistance, decided: Decided) -> str:
    """The list's own word; with the grade that decided where it may be several."""
    grade = decided.rated.material
    if any(one is decided.rated for one in asked.below or ()):
        return f"{grade}, below {asked.material},"
    if any(one is decided.rated for one in asked.filled):
        return f"{grade}, the filler of {asked.material},"
    several = len({one.material for one in asked.rated}) > 1
    return f"{asked.material} (which may be {grade})" if several else _read(asked)


def _read(asked: Resistance) -> str:
    """The list's own word, with what it is taken for where it holds more than a known name."""
    return f"{asked.material} (read as {asked.read_as})" if asked.read_as else asked.material


def _where(decided: Decided) -> str:
    """`hydrochloric acid, 20 % as the drop dries, 25 °C, splash`."""
    rated, point = decided.rated, decided.point
    words = [rated.chemical]
    whole = point.span.low == point.span.high == _WHOLE  # a gas, a solvent: nothing is thinned
    if (point.certain or point.span.low == point.span.high) and not whole:
        dried = "" if point.form is SolutionState.BATH else f" {point.form.value}"
        words.append(f"{_span(point.span)} %{dried}")
    if rated.heat_certain:
        own = " by the heat of the part itself" if rated.warmed else ""
        words.append(f"{_span(rated.heat)} °C{own}")
    return ", ".join(words)


def _exposed(decided: Decided) -> str:
    """How it is exposed, and what that makes of the rating where it makes something of it."""
    return decided.rated.rule.removesuffix(": the rating as it stands")


_WHOLE = 100  # percent


def _span(span: Range) -> str:
    low, high = number(span.low), number(span.high)
    return low if low == high else f"{low}..{high}"


_ATTACK: dict[Mechanism, str] = {
    Mechanism.ATTACK_ON_POLYMER: "softens, swells or turns brittle",
    Mechanism.CATALYTIC_DECOMPOSITION: "sets off decomposition",
    Mechanism.CREVICE: "corrodes in crevices",
    Mechanism.DEHYDROFLUORINATION: "hardens and cracks",
    Mechanism.DEPOSITION: "corrodes where nobler metal plates out",
    Mechanism.DEZINCIFICATION: "loses its zinc",
    Mechanism.DISBONDING: "loses its coat",
    Mechanism.DISSOLUTION: "dissolves",
    Mechanism.EMBRITTLEMENT: "turns brittle",
    Mechanism.ENVIRONMENTAL_STRESS_CRACKING: "cracks under stress",
    Mechanism.ETCHING: "is etched",
    Mechanism.ACETYLIDE: "forms explosive acetylide",
    Mechanism.HYDROLYSIS: "breaks down by hydrolysis",
    Mechanism.IGNITION: "ignites or reacts violently",
    Mechanism.LAYER_CONSUMED: "loses its layer",
    Mechanism.INTERGRANULAR: "corrodes along its grains",
    Mechanism.OXIDATION: "breaks down by oxidation",
    Mechanism.OZONE_CRACKING: "cracks",
    Mechanism.PERMEATION: "is permeated",
    Mechanism.PITTING: "pits",
    Mechanism.PLASTICISER_LOSS: "loses its plasticiser and hardens",
    Mechanism.STRESS_CORROSION: "cracks by stress corrosion",
    Mechanism.SULFIDE: "tarnishes",
    Mechanism.SWELLING: "swells",
    Mechanism.UNIFORM: "corrodes",
    Mechanism.UNIFORM_WITH_HYDROGEN: "corrodes and gives off hydrogen",
}
"""What the material does, by the mechanism of the row that decides."""
_MADE_WORSE = {
    SolutionState.DRIED: "In the bath of {bath} % it is {best}; the drop that dries to {now} % "
    "attacks.",
    SolutionState.CONDENSATE: "In the bath of {bath} % it is {best}; what condenses, of {now} %, "
    "attacks.",
    SolutionState.WATER: "Dry it is {best}; the water in it attacks.",
}


def _worse(decided: Decided) -> str:
    """What made it worse than the bath, where the bath alone would do less."""
    point, points = decided.point, decided.rated.points
    bath = next((one for one in points if one.form is SolutionState.BATH), None)
    if bath is None or bath.worst is None or point.worst is None or point.form not in _MADE_WORSE:
        return ""
    if bath.worst.rank >= point.worst.rank:
        return ""
    said = _MADE_WORSE[point.form]
    return " " + said.format(bath=_span(bath.span), best=bath.worst.value, now=_span(point.span))


def _rinse(decided: Decided) -> str:
    """Rinsing before the drop dries, where that is what made it worse and rinsing is a cure."""
    return decided.point.remedy_told if _worse(decided) else ""


def _more(point: RatedStrength) -> str:
    """What a reader must know beside the rows: relief, stand-ins and sources that disagree."""
    disputed = "published sources disagree, and the stricter governs" if point.disputed else ""
    said = [text for text in (point.by_fact, point.why, point.stands_in, disputed) if text]
    return "".join(f" {capital(text)}." for text in said)


def _remedy(asked: Resistance, first: str = "", another: str = "material") -> str:
    """What to do: the step given, then materials of the same use that would pass.

    `another` is how a material is spoken of: by its key where the list is to be changed.
    """
    steps = [first] if first else []
    if asked.anyhow:
        steps.append("state `exposure: enclosed` with `breathes: false` if it is sealed in")
    if asked.grades:
        steps.append(f"name the grade, if it is {' or '.join(asked.grades)}, which resists this")
    if asked.trade and not asked.grades:
        steps.append("name the grade and have its maker confirm it")
    if asked.filled and all(decide(one).outcome is Outcome.SUITABLE for one in asked.rated):
        steps.append("use it without this filler")
    if asked.below and asked.suits:
        lined = f" or a lining of {lining().value} or more" if asked.pores is Pores.SOME else ""
        steps.append(f"use a solid {another}{lined} in place of the layer")
    better = asked.better
    if better.names:
        what = "all chemicals here" if better.everywhere else "this chemical, though not all here"
        sort = "" if better.kin else " of another sort"
        steps.append(f"choose a {another}{sort} that resists {what}: {'; '.join(better.names)}")
    elif not steps:
        steps.append(
            "move the part to another `location`, shield it, or have a material tested: the tables "
            "hold none for this use that is shown to resist it"
        )
    return f"{capital('; or '.join(steps))}."


_NITRIC = "{chemicals: [{name: nitric acid, concentration: 20 %, temperature: 25 °C}]}"
_HCL = "{chemicals: [{name: hydrochloric acid, concentration: 10 %, temperature: 25 °C}]}"
_CAUSTIC = "{chemicals: [{name: sodium hydroxide, concentration: 5 %, temperature: 25 °C}]}"
_SULFURIC = "{chemicals: [{name: sulfuric acid, concentration: 2 %, temperature: 25 °C}]}"


def _part(material: str, exposure: str, more: str = "") -> str:
    return (
        f"kind: structural, materials: [{{material: {material}, exposure: {exposure}{more}}}], "
        "materials_complete: true, contacts: none"
    )


CHEMICAL_RESISTANCE = Rule[Asked](
    id="chemical-resistance",
    title="Materials resist the chemicals they meet",
    family=Family.MATERIALS,
    subject=Subject.MATERIAL,
    clause="Resistance table by concentration and temperature; exposure by reasoned rules (no "
    "published standard covers splash, fume and room exposure)",
    why="What survives immersion may fail in the corner where a drop dries, and the other way "
    "round in the air of the room; a name and a chemical alone decide nothing.",
    remedy="Choose a material that resists the chemical, or move or shield the part.",
    answer_by=Role.DESIGNER,
    note="Concentrations are mass percent. Hotter or stronger than the data is `no data`, never "
    "the last good rating. Relief by exposure and ratings by analogy have basis judgement. A "
    "flammable substance that is a neutral solvent is judged where liquid or condensing vapour "
    "reaches, and everywhere in Zone 0 and where level Ga is asked. The working liquid of a part "
    "(`liquid`) counts for all its pieces but those named as outside of it (`areafit table "
    "liquid_reach`).",
    ask=_ask,
    judge=_judge,
    examples=(
        Example("304 in nitric acid", Verdict.PASS, _part("'304'", "immersed"), _NITRIC),
        Example("316L in hydrochloric acid", Verdict.FLAG, _part("316L", "fume"), _HCL),
        Example("Aluminium in lye", Verdict.FLAG, _part("AlMg3", "splash"), _CAUSTIC),
        Example(
            "Dilute sulfuric acid that may dry in a corner",
            Verdict.FLAG,
            _part("'316'", "splash"),
            _SULFURIC,
        ),
        Example(
            "The same acid, and the part stays under it",
            Verdict.PASS,
            _part("'316'", "immersed"),
            _SULFURIC,
        ),
        Example(
            "No exposure", Verdict.UNPROVEN, "kind: structural, materials: [{material: PP}]", _HCL
        ),
        Example(
            "A chemical of no known name",
            Verdict.UNPROVEN,
            _part("PTFE", "immersed"),
            "{chemicals: [{name: cleaner nobody lists, temperature: 25 °C}]}",
        ),
        Example(
            "Nitrile rubber in a phosphate ester",
            Verdict.FLAG,
            "liquid: {kind: HFDR}, " + _part("NBR", "room", ", component: seal"),
            "{chemicals: none}",
        ),
    ),
)
