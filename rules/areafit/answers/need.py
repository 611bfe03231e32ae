"""What to write into the purchase specification of a place.

Built from the demands and the tables alone, so that it can never promise what the rules then
refuse; what is not known stands among the open points.
"""

from collections.abc import Iterable, Iterator

from areafit import registry
from areafit.answers.marking_options import MarkingOption, marking_options
from areafit.checks.materials.rust import BARE_STEEL_IN_AIR, in_air
from areafit.corrosion.better import within
from areafit.corrosion.rating import Decided, Outcome, Rated, condition, rate, rows_of, worst
from areafit.corrosion.relief import piece_of
from areafit.demands import Demands, HazardDemand
from areafit.demands.demand import asked_level
from areafit.demands.meeting import Meeting, meetings
from areafit.engine import judge
from areafit.facts.bom import Bom
from areafit.facts.groups import Group
from areafit.facts.part import Exposure, MaterialUse
from areafit.facts.place import PresentSubstance
from areafit.facts.protection import Hazard
from areafit.facts.quantity import Dimension, Range, limit, show_range
from areafit.file.reader import read
from areafit.findings.requires import describe
from areafit.options import Options
from areafit.rule import Judgement, Subject
from areafit.tables import Tables
from areafit.tables.area import minimum_ingress
from areafit.tables.limits import light_metal_limit
from areafit.tables.materials import COATING, Material
from areafit.values import Frozen, Term, replace
from areafit.verdict import Basis, Verdict, weakest

_RESISTANCE = "chemical-resistance"


class Fitness(Term):
    """How a material fits, best first."""

    SUITS = "suits"
    LIMITED = "limited"
    AVOID = "avoid"
    NO_DATA = "no data"


class Suit(Frozen):
    """One material; `conditions` says what must be accepted or stated, or why to avoid it."""

    material: str
    family: str
    fitness: Fitness
    conditions: tuple[str, ...] = ()


class ExposureNeed(Frozen):
    """The materials for one exposure, by family; `unknown` names chemicals without data."""

    exposure: str
    suits: tuple[Suit, ...]
    limited: tuple[Suit, ...]
    avoid: tuple[Suit, ...]
    no_data: int
    unknown: tuple[str, ...]


def exposure_need(demands: Demands, exposure: Exposure) -> ExposureNeed:
    """Every material of the tables in this exposure to all chemicals of the place, usual first."""
    tables = demands.tables
    known = (tables.row("materials", name) for name in tables.ids("materials"))
    usual = tables.ids("usual_materials")
    rank = {name: tables.row("usual_materials", name).rank for name in usual}
    bodies = sorted(
        (one for one in known if one.family != COATING),
        key=lambda one: (rank.get(one.id, len(rank) + 1), one.family, one.name),
    )
    unknown = _unknown(demands, exposure)
    met = bool(demands.chemicals) and not unknown
    found = [_suit(one, exposure, demands) for one in bodies] if met else []
    by_fitness = {fitness: [s for s in found if s.fitness is fitness] for fitness in Fitness}
    return ExposureNeed(
        exposure.value,
        tuple(by_fitness[Fitness.SUITS]),
        tuple(by_fitness[Fitness.LIMITED]),
        tuple(by_fitness[Fitness.AVOID]),
        len(by_fitness[Fitness.NO_DATA]),
        unknown,
    )


def _unknown(demands: Demands, exposure: Exposure) -> tuple[str, ...]:
    """Chemicals and mixtures that no table answers to: they keep every material unproven."""
    any_use = MaterialUse("any", exposure=exposure)
    return tuple(each.name for each in meetings(any_use, demands) if not each.mets)


def _suit(material: Material, exposure: Exposure, demands: Demands) -> Suit:
    use, called = MaterialUse(material.id, exposure=exposure), _called(material, demands.tables)
    every = [_rated(material, meeting, use, demands) for meeting in meetings(use, demands)]
    rated = [worst(each) for each in every]
    against = [words for decided in rated for words in _against(decided)]
    others = list(_others(use, demands))
    against += [judged.message for judged in others if judged.verdict is Verdict.FLAG]
    against += _too_light(material, demands)
    if against:
        return _told(called, material, Fitness.AVOID, against)
    outcomes = {decided.outcome for decided in rated}
    if outcomes & {Outcome.NO_DATA, Outcome.OPEN}:
        return _told(called, material, Fitness.NO_DATA, [])
    pairs = zip(rated, every, strict=True)
    conditions = _gathered(pair for worst_, each in pairs for pair in _conditions(worst_, each))
    conditions += [judged.message for judged in others if not judged.verdict.passes]
    return _told(called, material, Fitness.LIMITED if conditions else Fitness.SUITS, conditions)


def _called(material: Material, tables: Tables) -> str:
    """Its name, or another one where that may mean a second material too."""
    names = (material.name, material.id, *material.names)
    return next((name for name in names if tables.materials(name) == (material,)), material.name)


def _told(called: str, material: Material, fitness: Fitness, words: list[str]) -> Suit:
    return Suit(called, material.family, fitness, tuple(dict.fromkeys(words)))


def _too_light(material: Material, demands: Demands) -> Iterator[str]:
    """The levels of the place whose limit for light metal a material is beyond."""
    levels = dict.fromkeys(asked_level(demands, each).value for each in demands.hazards)
    for level in levels:
        if not within(material, light_metal_limit(level)):
            yield f"holds more light metal than EPL {level} allows"


def _rated(
    material: Material, meeting: Meeting, use: MaterialUse, demands: Demands
) -> tuple[Rated, ...]:
    """All that the chemical's name may mean, thrown as a mist or not."""
    strain = piece_of(use, material)
    return tuple(
        rate(material, met, demands.tables, strain) for met in (*meeting.mets, *meeting.if_mist)
    )


def _against(decided: Decided) -> Iterator[str]:
    if decided.outcome is Outcome.UNSUITABLE:
        mechanism = decided.point.mechanism
        by = f" ({mechanism.value})" if mechanism is not None else ""
        yield f"{decided.rated.chemical}{by}"


def _conditions(decided: Decided, every: tuple[Rated, ...]) -> Iterator[tuple[str, str]]:
    """What must be accepted, and the chemical that asks for it; a pass rests on all of `every`."""
    mechanism, chemical = decided.point.mechanism, decided.rated.chemical
    if decided.outcome is Outcome.LIMITED:
        yield condition(mechanism) if mechanism is not None else _LIMITED, chemical
    if weakest(row.basis for row in rows_of(every)) is Basis.JUDGEMENT:
        yield _JUDGED, chemical


_LIMITED = "the limited resistance must be accepted"
_JUDGED = "rests on judgement only, to be confirmed by a test or a published source"


def _gathered(conditions: Iterable[tuple[str, str]]) -> list[str]:
    chemicals: dict[str, list[str]] = {}
    for words, chemical in conditions:
        chemicals.setdefault(words, []).append(chemical)
    return [f"{', '.join(names)}: {words}" for words, names in chemicals.items()]


def _others(use: MaterialUse, demands: Demands) -> Iterator[Judgement]:
    for rule in registry.on(Subject.MATERIAL):
        if rule.id != _RESISTANCE:
            for ask in rule.ask(use, demands):
                yield rule.judge(ask.question)
    bare = in_air(use, demands)
    if bare is not None:
        yield BARE_STEEL_IN_AIR.judge(bare)


CHEMICALS_OPEN = "The chemicals of the place are not stated, so no material can be named."


class HazardNeed(Frozen):
    """What one hazard of the place asks for. `open` lists what is not known and why.

    `ingress` names the least rating that types of protection rest on, whatever the place asks.
    """

    hazard: str
    area: tuple[str, ...]
    options: tuple[MarkingOption, ...]
    surface: str | None
    open: tuple[str, ...]
    ingress: tuple[str, ...] = ()


class PartNeed(Frozen):
    """What the rules ask of a sort of part at a place, a sentence each."""

    sort: str
    asks: tuple[str, ...]


class LiquidNeed(Frozen):
    """A mixture of liquids at a place: its computed flash point against how warm it is, in words.

    `computed_by` names method and version; None where it is not computed.
    """

    liquid: str
    answer: str
    computed_by: str | None


class Need(Frozen):
    """The purchase specification of one place: explosion protection, enclosure, materials.

    `open` lists what the place does not state; `exposures` only what was asked for.
    """

    place: str
    title: str | None
    hazards: tuple[HazardNeed, ...]
    ambient: str | None
    ingress: str | None
    document: str | None
    law: str = ""
    edition: str | None = None
    area: str | None = None
    substances: tuple[str, ...] = ()
    chemicals: tuple[str, ...] = ()
    open: tuple[str, ...] = ()
    exposures: tuple[ExposureNeed, ...] = ()
    parts: tuple[PartNeed, ...] = ()
    liquids: tuple[LiquidNeed, ...] = ()


def need(
    demands: Demands, exposures: Iterable[Exposure] = (), parts: tuple[PartNeed, ...] = ()
) -> Need:
    """The specification for one place, with materials for the exposures asked for."""
    place = demands.place
    ambient = demands.ambient
    return Need(
        place.name,
        place.title,
        tuple(_hazard(demands, hazard) for hazard in demands.hazards),
        show_range(ambient, Dimension.TEMPERATURE) if ambient is not None else None,
        place.ingress,
        place.document,
        law=demands.law.value,
        edition=place.edition,
        area=place.area.text if place.area is not None else None,
        substances=tuple(dict.fromkeys(one.name for one in demands.substances)),
        chemicals=tuple(one.stated.name for one in demands.chemicals or ()),
        open=tuple(_open(demands)),
        exposures=tuple(exposure_need(demands, each) for each in exposures),
        parts=parts,
        liquids=tuple(_liquids(demands)),
    )


def _liquids(demands: Demands) -> Iterator[LiquidNeed]:
    """Each stated mixture against the warmest of how it is handled and of the air."""
    for liquid in mixtures_of(demands):
        from areafit.demands.mixtures import Computed, weigh  # noqa: PLC0415 - of a mixture

        if liquid.mixture is None:
            continue
        weighed = weigh(liquid.mixture, warmth_of(liquid, demands), demands.tables)
        by = weighed.found.rows[0] if isinstance(weighed.found, Computed) else None
        method = f"{by.source_id}; {by.locator}" if by is not None else None
        yield LiquidNeed(liquid.name, weighed.answer, method)


def warmth_of(liquid: PresentSubstance, demands: Demands) -> Range | None:
    """The temperatures in °C that a liquid may have: as it is handled, and those of the air."""
    stated = [span for span in (liquid.temperature, demands.ambient) if span is not None]
    if not stated:
        return None
    return Range(min(span.low for span in stated), max(span.high for span in stated))


def mixtures_of(demands: Demands) -> tuple[PresentSubstance, ...]:
    """The mixtures of liquids that a place states, each once."""
    stated = (one.mixture for one in demands.substances if one.mixture is not None)
    return tuple(dict.fromkeys(stated))


def _open(demands: Demands) -> Iterator[str]:
    """What the place does not state; `none` is a statement."""
    place = demands.place
    if place.area is None:
        yield "The area classification is not stated."
    else:
        for problem in place.area.problems:
            yield f"The declared area cannot be relied on: {problem}."
    if place.document is None:
        yield "The document that the area was taken from is not stated."
    if demands.classified and place.substances is None:
        yield "The gases, vapours and dusts present are not stated."
    if place.ambient is None:
        yield "The air temperature of the place is not stated."
    if demands.hazard(Hazard.DUST) is not None and place.layer is None:
        yield "The dust layer to be expected is not stated."
    if place.chemicals is None:
        yield CHEMICALS_OPEN


def _hazard(demands: Demands, hazard: HazardDemand) -> HazardNeed:
    least = min(hazard.limits, key=lambda each: each.maximum, default=None)
    surface = f"{limit(least.maximum)} °C ({least.cause})" if least is not None else None
    options = marking_options(demands, hazard)
    open_points = [gap.message for gap in hazard.temperature_gaps]
    demand = hazard.group_demand(hazard.home)
    open_points += [gap.message for gap in demand.gaps] if demand is not None else []
    if not options:
        open_points.append("No marking can be named before these points are answered.")
    return HazardNeed(
        hazard.hazard.value,
        tuple(describe(area) for area in hazard.areas),
        options,
        surface,
        tuple(dict.fromkeys(open_points)),
        tuple(_least_ingress(options)),
    )


_TYPES = ("eb", "ec", "pxb", "pyb", "pzc", "ta", "tb", "tc")
_ZONE_SYSTEMS = frozenset({"NEC zone", "IEC or European"})


def _least_ingress(options: Iterable[MarkingOption]) -> Iterator[str]:
    """The rating that each type of protection rests on, for the groups asked for."""
    groups = {g for option in options if option.system in _ZONE_SYSTEMS for g in option.groups}
    dusty = any(group.startswith("III") for group in groups)
    for name in _TYPES if groups else ():
        if name.startswith("t") != dusty:
            continue
        for group in sorted(groups) if dusty else ("any",):
            row = minimum_ingress()[name, Group(group).value if dusty else group]
            yield f"{name}: {row.degree} ({row.clause})"


# What is bought beside equipment with a nameplate: the rules themselves say what they ask of a line
# that states nothing.

_SORTS = """\
areafit: 1
assembly: {number: PROBE}
code: IEC
locations: {probe: {}}
parts:
  - item: mechanical parts
    location: probe
    kind: mechanical
    electrical_content: none
    materials: [{component: cover, material: PTFE}, {component: body, material: "316"}]
  - item: fasteners
    location: probe
    kind: structural
    materials: [{component: screw, material: "316"}]
  - item: hoses
    location: probe
    kind: structural
    materials: [{component: hose, material: EPDM, form: hose}]
  - {item: hand tools, location: probe, kind: loose item}
"""
_ASKED = {
    "mechanical parts": {
        "ignition-hazard": "ignition sources",
        "hot-surface": "surfaces",
        "rubbing-speed": "rubbing",
        "impact": "blows",
        "air-supply": "compressed air",
        "static-surface": "plastics",
        "light-metal": "light metals",
    },
    "fasteners": {"bonding": "earth", "loose-parts": "when released", "tool-release": "release"},
    "hoses": {"belt-and-hose": "resistance", "static-surface": "surface"},
    "hand tools": {"hand-tools": "sparks", "loose-parts": "loose parts"},
}


def part_needs(bom: Bom, tables: Tables, options: Options) -> dict[str, tuple[PartNeed, ...]]:
    """What each place of a list asks of mechanical parts, fasteners, hoses and hand tools.

    They are judged as further lines of the list, since what its parts give off counts for them.
    """
    probe = read(_SORTS.encode(), "need")
    names, lines = tuple(bom.places), len(bom.parts)
    sorts = tuple(replace(part, locations=names, index=lines + part.index) for part in probe.parts)
    found: dict[str, dict[str, dict[str, None]]] = {name: {} for name in names}
    report = judge(replace(bom, parts=(*bom.parts, *sorts)), tables, options)
    for part in report.parts[lines:]:
        for finding in part.findings():
            label = _ASKED[part.name].get(finding.rule.id)
            told = finding.verdict is not Verdict.NOT_APPLICABLE and finding.required
            if label and told and finding.location in found:
                sort = found[finding.location].setdefault(part.name, {})
                sort[f"{label}: {finding.required}"] = None
    return {
        name: tuple(PartNeed(sort, tuple(asks)) for sort, asks in each.items())
        for name, each in found.items()
    }
