"""Which materials of the tables suit an exposure at a place, which with a condition, which not.

A material is said to suit only if every rule about a single material would let it pass as far as
the place decides; what the part must still state is named as its condition.
"""

from collections.abc import Iterable, Iterator

from areafit import registry
from areafit.corrosion.rating import Decided, Outcome, condition, rate, rows_of, worst
from areafit.corrosion.relief import strained
from areafit.demands import Demands
from areafit.demands.meeting import Meeting, meetings
from areafit.facts.part import Exposure, MaterialUse
from areafit.rule import Judgement, Subject
from areafit.tables.families import COATING
from areafit.tables.materials import Material
from areafit.values import Frozen, Term
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
    """Every material of the tables in this exposure to all chemicals of the place."""
    tables = demands.tables
    known = (tables.materials(name)[0] for name in tables.ids("materials"))
    bodies = sorted(
        (one for one in known if one.family != COATING), key=lambda one: (one.family, one.name)
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
    use = MaterialUse(material.id, exposure=exposure)
    rated = [_rated(material, meeting, use, demands) for meeting in meetings(use, demands)]
    against = [words for decided in rated for words in _against(decided)]
    others = list(_others(use, demands))
    against += [judged.message for judged in others if judged.verdict is Verdict.FLAG]
    if against:
        return _told(material, Fitness.AVOID, against)
    outcomes = {decided.outcome for decided in rated}
    if outcomes & {Outcome.NO_DATA, Outcome.OPEN}:
        return _told(material, Fitness.NO_DATA, [])
    conditions = _gathered(pair for decided in rated for pair in _conditions(decided))
    conditions += [judged.message for judged in others if not judged.verdict.passes]
    return _told(material, Fitness.LIMITED if conditions else Fitness.SUITS, conditions)


def _told(material: Material, fitness: Fitness, words: list[str]) -> Suit:
    return Suit(material.name, material.family, fitness, tuple(dict.fromkeys(words)))


def _rated(material: Material, meeting: Meeting, use: MaterialUse, demands: Demands) -> Decided:
    """The worst of all that the chemical's name may mean, thrown as a mist or not."""
    strain = strained(use, material)
    return worst(
        rate(material, met, demands.tables, strained=strain)
        for met in (*meeting.mets, *meeting.if_mist)
    )


def _against(decided: Decided) -> Iterator[str]:
    if decided.outcome is Outcome.UNSUITABLE:
        row = decided.point.decisive
        by = f" ({row.mechanism.value})" if row is not None else ""
        yield f"{decided.rated.chemical}{by}"


def _conditions(decided: Decided) -> Iterator[tuple[str, str]]:
    """What must be accepted, and the chemical that asks for it."""
    row, chemical = decided.point.decisive, decided.rated.chemical
    if decided.outcome is Outcome.LIMITED:
        yield condition(row.mechanism) if row is not None else _LIMITED, chemical
    if weakest(row.basis for row in rows_of((decided.rated,))) is Basis.JUDGEMENT:
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
