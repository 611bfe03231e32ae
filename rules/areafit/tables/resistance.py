"""How a material stands up to a chemical: rows by concentration and temperature, and their look-up.

The rule of the look-up: of the rows of one source whose band holds the concentration and whose
`temp_max_c` is at or above the temperature, the one with the lowest `temp_max_c`; on a tie the
worse. Beyond the rows there is no answer: a good row is never carried upward. Of several sources
the more onerous governs, and of those that say the same the one whose basis is best.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from decimal import Decimal
from functools import cache, cached_property
from typing import TYPE_CHECKING, TypeVar

from areafit.facts.quantity import Dimension, Range
from areafit.tables import load
from areafit.tables.chemicals import Chemical, PropertyState, Reaction
from areafit.tables.limits import figure
from areafit.tables.materials import Material
from areafit.tables.sources import LaxerValue, Sourced
from areafit.values import Frozen, Term
from areafit.verdict import trust

if TYPE_CHECKING:
    from areafit.tables.overlay import OwnRow


class Rating(Term):
    """Ordered from best to worst.

    Metals: suitable below 0.1 mm/year without local attack, limited to 1 mm/year or a local risk
    that can be managed; a plating that loses as much as a limited metal is gone within the year,
    and unsuitable. Elastomers: about 20 % and 40 % swelling. Plastics: the three classes of
    ISO/TR 10358, unstressed: they soften, swell, craze or embrittle and lose nothing by the year.
    """

    SUITABLE = "suitable"
    LIMITED = "limited"
    UNSUITABLE = "unsuitable"

    @property
    def rank(self) -> int:
        """0 for the best."""
        return _RANK[self]


_RANK = {rating: rank for rank, rating in enumerate(Rating)}


class Mechanism(Term):
    """By what a material suffers."""

    NONE = "none"
    ATTACK_ON_POLYMER = "softening, swelling or embrittlement"  # of plastics and rubbers
    CATALYTIC_DECOMPOSITION = "catalytic decomposition of the chemical"
    CREVICE = "crevice corrosion"
    DEHYDROFLUORINATION = "dehydrofluorination and stress cracking"
    DEPOSITION = "deposition corrosion (noble-metal plating-out)"
    DEZINCIFICATION = "dezincification"
    DISBONDING = "disbonding/under-film attack"
    DISSOLUTION = "dissolution"
    EMBRITTLEMENT = "embrittlement"
    ENVIRONMENTAL_STRESS_CRACKING = "environmental stress cracking"
    ETCHING = "etching of silica"
    ACETYLIDE = "explosive acetylide formation"
    HYDROLYSIS = "hydrolysis"
    IGNITION = "ignition / violent reaction"
    LAYER_CONSUMED = "consumption of the layer"  # micrometres a year
    INTERGRANULAR = "intergranular corrosion"
    OXIDATION = "oxidative degradation"
    OZONE_CRACKING = "ozone cracking"
    PERMEATION = "permeation"
    PITTING = "pitting"
    PLASTICISER_LOSS = "plasticiser extraction and hardening"
    STRESS_CORROSION = "stress corrosion cracking"
    SULFIDE = "sulphide tarnish/attack"
    SWELLING = "swelling"
    UNIFORM = "uniform corrosion"
    UNIFORM_WITH_HYDROGEN = "uniform corrosion with hydrogen evolution"


class ResistanceRow(Sourced):
    """Holds for concentrations in (min, max], 0 included, and temperatures up to `temp_max_c`.

    Mass %; °C. No `temp_max_c` means at any temperature. `temp_min_c` is stated where a row says
    nothing of what is colder, since its source speaks of the heat alone.
    """

    material: str
    chemical: str
    conc_min_pct: Decimal
    conc_max_pct: Decimal
    temp_min_c: Decimal | None
    temp_max_c: Decimal | None
    rating: Rating
    mechanism: Mechanism
    figure: str


class ClassResistance(ResistanceRow):
    """A family or one material, by id, in a class of neutral solvents, dry where a band says so.

    `but_not` names chemicals of the class, by id, for which the row doesn't hold.
    """

    but_not: tuple[str, ...]


class MissingData(Term):
    """Why part of the range asked for has no row."""

    NO_ROWS = "no data for this pair"
    CONCENTRATION = "no data at this concentration"
    TEMPERATURE = "hotter than the data"
    COLDER = "colder than the data, which are bad"
    BETWEEN = "it holds in colder data and fails in hotter, with none between"


class Lookup(Frozen):
    """Every row that governs somewhere in the range asked for, worst first, and what is missing.

    `rating` is the worst of the rows and None only if there is none. If `gaps` is not empty, part
    of the range has no data: the rows can show that a part fails, never that it passes. `disputed`
    holds rows of other sources that rate a point better than the row which governs there.
    """

    rows: tuple[ResistanceRow, ...]
    gaps: tuple[MissingData, ...]
    pending: tuple[LaxerValue, ...] = ()
    disputed: tuple[ResistanceRow, ...] = ()

    @property
    def rating(self) -> Rating | None:
        """The worst rating found."""
        return self.rows[0].rating if self.rows else None

    @property
    def complete(self) -> bool:
        """Whether the whole range has data."""
        return not self.gaps


class OwnResistance(Frozen):
    """A company's own row, and whether a role approved it as laxer than ours."""

    row: ResistanceRow
    approved: bool
    where: str


def lookup(
    rows: Iterable[ResistanceRow],
    conc: Range,
    temp: Range,
    own: Sequence[OwnResistance] = (),
) -> Lookup:
    """The rows of one pair that govern over a range of concentration and of temperature.

    At every point a stricter row of `own` governs, and so does one where `rows` has nothing; a
    laxer one governs only if approved and is otherwise reported in `pending`.
    """
    known = tuple(rows)
    theirs = {entry.row: entry for entry in own}
    everything = (*known, *theirs)
    if not everything:
        return Lookup((), (MissingData.NO_ROWS,))
    governing: dict[ResistanceRow, None] = {}
    gaps: dict[MissingData, None] = {}
    pending: dict[LaxerValue, None] = {}
    disputed: dict[ResistanceRow, None] = {}
    for strength in _strengths(everything, conc):
        band = [row for row in known if _holds(row, strength)]
        own_band = [row for row in theirs if _holds(row, strength)]
        if not band and not own_band:
            gaps[MissingData.CONCENTRATION] = None
            continue
        for heat in _temperatures([*band, *own_band], temp):
            said = _said(band, heat)
            shipped = _governing(said)
            company = _governing(_said(own_band, heat)) if own_band else None
            if company is not None:
                entry = theirs[company]
                if shipped is None or entry.approved or not _laxer(company, shipped):
                    shipped = company
                else:
                    pending[_waits(entry, shipped)] = None
            if _between(band, heat) and (company is None or not theirs[company].approved):
                gaps[MissingData.BETWEEN] = None
            elif shipped is None:
                gaps[_missing(band, heat)] = None
            if shipped is not None:
                governing[shipped] = None
                disputed.update((row, None) for row in said if _rates_better(row, shipped))
    return Lookup(
        tuple(sorted(governing, key=_worst_first)), tuple(gaps), tuple(pending), tuple(disputed)
    )


def _between(band: Sequence[ResistanceRow], heat: Decimal) -> bool:
    """Whether a source has good data colder and bad data hotter, and none where it turns.

    Then no row from elsewhere makes a pass: somewhere between the two the material fails. Not so
    near room temperature, which many tables print as their only cold point.
    """
    if heat <= _room():
        return False
    by_source: dict[str, list[ResistanceRow]] = {}
    for row in band:
        by_source.setdefault(row.source_id, []).append(row)
    return any(
        any(
            row.rating is Rating.UNSUITABLE
            and row.temp_min_c is not None
            and heat <= row.temp_min_c
            for row in rows
        )
        and all(_silent_at(row, heat) for row in rows)
        and any(row.temp_max_c is not None and row.temp_max_c < heat for row in rows)
        for rows in by_source.values()
    )


@cache
def _room() -> Decimal:
    """The warmest that a table may mean by room temperature, in °C."""
    name = "warmest that a table of resistance may mean by room temperature"
    return figure(name).amount(Dimension.TEMPERATURE)


def _silent_at(row: ResistanceRow, heat: Decimal) -> bool:
    """Whether a row says nothing of a temperature."""
    colder = row.temp_min_c is not None and heat <= row.temp_min_c
    return colder or (row.temp_max_c is not None and row.temp_max_c < heat)


def _missing(band: Sequence[ResistanceRow], heat: Decimal) -> MissingData:
    """Why no row of a strength speaks at a temperature."""
    if not band:
        return MissingData.CONCENTRATION
    if any(row.temp_min_c is not None and heat <= row.temp_min_c for row in band):
        return MissingData.COLDER
    return MissingData.TEMPERATURE


def _laxer(company: ResistanceRow, shipped: ResistanceRow) -> bool:
    return company.rating.rank < shipped.rating.rank


def _waits(entry: OwnResistance, shipped: ResistanceRow) -> LaxerValue:
    rating = entry.row.rating.value
    return LaxerValue(
        key=f"{shipped.material}|{shipped.chemical}",
        column="rating",
        value=rating,
        shipped=shipped.rating.value,
        where=entry.where,
        reason=(
            f"{entry.where} rates the pair {rating}, laxer than our {shipped.rating.value}; "
            "it needs approved_by (a role) and approved_on (a date that has come) in the row"
        ),
    )


def _governing(said: Sequence[ResistanceRow]) -> ResistanceRow | None:
    """Of what the sources say of a point the most onerous; of those that agree the best known."""
    return min(said, key=_onerous_then_trusted, default=None)


def _said(band: Sequence[ResistanceRow], heat: Decimal) -> list[ResistanceRow]:
    """What each source says at a temperature: of its rows that reach it the one that ends first.

    All rows of `band` hold the concentration.
    """
    by_source: dict[str, ResistanceRow] = {}
    for row in band:
        if row.temp_min_c is not None and heat <= row.temp_min_c:
            continue
        if row.temp_max_c is None or heat <= row.temp_max_c:
            other = by_source.setdefault(row.source_id, row)
            if other is not row and _lowest_then_worst(row) < _lowest_then_worst(other):
                by_source[row.source_id] = row
    return list(by_source.values())


def _onerous_then_trusted(row: ResistanceRow) -> tuple[int, int, bool, Decimal, int]:
    return -row.rating.rank, trust(row.basis), *_lowest_then_worst(row)


def _rates_better(row: ResistanceRow, governing: ResistanceRow) -> bool:
    """Whether another source rates a point better than the row that governs there."""
    return row.source_id != governing.source_id and row.rating.rank < governing.rating.rank


def _holds(row: ResistanceRow, strength: Decimal) -> bool:
    above = strength > row.conc_min_pct or strength == row.conc_min_pct == 0
    return above and strength <= row.conc_max_pct


def _lowest_then_worst(row: ResistanceRow) -> tuple[bool, Decimal, int]:
    unlimited = row.temp_max_c is None
    return unlimited, row.temp_max_c or Decimal(0), -row.rating.rank


def _worst_first(row: ResistanceRow) -> tuple[int, Decimal, bool, Decimal]:
    limit = row.temp_max_c
    return -row.rating.rank, row.conc_min_pct, limit is None, limit or Decimal(0)


def _strengths(rows: Sequence[ResistanceRow], conc: Range) -> tuple[Decimal, ...]:
    """One concentration for each stretch of the range in which no band begins or ends.

    A band excludes its lower and includes its upper end, so every edge within the range stands
    for the stretch that ends there, and the upper end of the range for the last one. The lower
    end stands for itself.
    """
    edges = {edge for row in rows for edge in (row.conc_min_pct, row.conc_max_pct)}
    inside = {edge for edge in edges if conc.low < edge < conc.high}
    return tuple(sorted(inside | {conc.low, conc.high}))


def _temperatures(band: Sequence[ResistanceRow], temp: Range) -> tuple[Decimal, ...]:
    ends = (end for row in band for end in (row.temp_min_c, row.temp_max_c))
    limits = {end for end in ends if end is not None}
    inside = {limit for limit in limits if temp.low < limit < temp.high}
    return tuple(sorted(inside | {temp.low, temp.high}))


class Pairs:
    """Finds the rows of exactly one pair of ids; `own` are a company's rows of this table."""

    def __init__(self, own: "Sequence[OwnRow]") -> None:
        self._own = own

    def rows(self, material: str, chemical: str) -> tuple[ResistanceRow, ...]:
        """The rows of a pair, a company's own last; empty if there are none."""
        own = (entry.row for entry in self._owned(material, chemical))
        return (*_shipped(material, chemical), *own)

    def at(self, material: str, chemical: str, conc: Range, temp: Range) -> Lookup:
        """What the rows of a pair say over a range of mass % and °C."""
        return lookup(_shipped(material, chemical), conc, temp, self._owned(material, chemical))

    def rated_in(self, chemical: str) -> frozenset[str]:
        """The ids of all materials that have a row in a chemical."""
        own = {row.cells[0] for row in self._own if row.cells[1] == chemical}
        return _rated().get(chemical, frozenset()) | own

    def _owned(self, material: str, chemical: str) -> tuple[OwnResistance, ...]:
        return self._by_pair.get((material, chemical), ())

    @cached_property
    def _by_pair(self) -> Mapping[tuple[str, str], tuple[OwnResistance, ...]]:
        found: dict[tuple[str, str], tuple[OwnResistance, ...]] = {}
        for row in self._own:
            pair = (row.cells[0], row.cells[1])
            made = load.to_row(ResistanceRow, row.cells)
            found[pair] = (
                *found.get(pair, ()),
                OwnResistance(made, bool(row.approved), row.where),
            )
        return found


@cache
def _shipped(material: str, chemical: str) -> tuple[ResistanceRow, ...]:
    found = load.lines_of("resistance", (material, chemical))
    return tuple(load.to_row(ResistanceRow, line) for line in found)


def class_rows(material: Material, solvent_class: str, chemical: str) -> tuple[ResistanceRow, ...]:
    """What holds for a material by its family in one chemical of a class of solvents."""
    return tuple(
        row
        for row in load.rows("class_resistance", ClassResistance)
        if row.chemical == solvent_class
        and row.material in (material.id, material.family)
        and chemical not in row.but_not
    )


@cache
def _rated() -> Mapping[str, frozenset[str]]:
    """The ids of the materials with a row in each chemical."""
    found: dict[str, set[str]] = {}
    for material, chemical in load.pairs("resistance"):
        found.setdefault(chemical, set()).add(material)
    return {chemical: frozenset(ids) for chemical, ids in found.items()}


Alike = TypeVar("Alike", Material, Chemical)

_ACIDS = (Reaction.STRONG_ACID, Reaction.WEAK_ACID)
_ALKALIS = (Reaction.STRONG_ALKALI, Reaction.WEAK_ALKALI)
_WATER = "106"  # EPA group: water and mixtures containing water


def _material_covers(material: Material, chemical: Chemical) -> bool:
    """Whether the material behaves as its `behaves_as` does in this chemical."""
    classes = {
        chemical.id: True,
        "acids": chemical.reaction in _ACIDS,
        "alkalis": chemical.reaction in _ALKALIS,
        "chlorides": chemical.chloride is not PropertyState.NO,
        "oxidisers": chemical.oxidising is not PropertyState.NO,
        "water": _WATER in chemical.epa_groups or chemical.reaction is not Reaction.NOT_AQUEOUS,
    }
    return bool(material.behaves_as) and not any(
        classes.get(word, False) for word in material.behaves_not
    )


def _chemical_covers(chemical: Chemical, material: Material) -> bool:
    """Whether the chemical acts on the material as its `behaves_as` does."""
    excluded = (material.id, material.family)
    return bool(chemical.behaves_as) and not any(word in excluded for word in chemical.behaves_not)


class EqualGrade(Sourced):
    """A material, by id, that resists as another one or better, but for the chemicals `excepted`.

    Unlike an analogy it is known: what sets the two apart has no part in the attack.
    """

    material: str
    alike: str
    excepted: tuple[str, ...]


def analogues(
    material: Material,
    chemical: Chemical,
    materials: Callable[[str], Material],
    chemicals: Callable[[str], Chemical],
) -> Iterator[tuple[str, str]]:
    """Pairs of ids whose rows may serve, nearest first, the pair itself left out.

    An answer by analogy is never better than `judgement`.
    """
    alike_materials = list(_chain(material, materials, lambda row: _material_covers(row, chemical)))
    alike_chemicals = list(_chain(chemical, chemicals, lambda row: _chemical_covers(row, material)))
    yield from ((row.id, chemical.id) for row in alike_materials)
    yield from ((material.id, row.id) for row in alike_chemicals)
    yield from ((left.id, right.id) for left in alike_materials for right in alike_chemicals)


def _chain(
    start: Alike, get: Callable[[str], Alike], covers: Callable[[Alike], bool]
) -> Iterator[Alike]:
    seen = {start.id}
    row = start
    while covers(row) and row.behaves_as not in seen:
        row = get(row.behaves_as)
        seen.add(row.id)
        yield row
