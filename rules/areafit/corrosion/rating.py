"""How one material stands one chemical as it is met: looked up, relieved, condensed, cited.

`rate` looks the rows up and weighs them at every strength; `decide` and `worst` condense that to
one outcome; `rows_of` and `condition` say what it rests on and what somebody would have to accept.
"""

from collections.abc import Iterable, Iterator
from decimal import Decimal
from itertools import islice

from areafit.corrosion.relief import (
    PieceFacts,
    Relieved,
    clean_air,
    never_dries,
    relieved,
    suffers,
    washes_off,
)
from areafit.demands.exposure import Met, Rises, SolutionState, Strength
from areafit.demands.solvents import class_of
from areafit.facts.part import WET, Exposure
from areafit.facts.quantity import Dimension, Range, number
from areafit.rule import Row
from areafit.tables import Tables
from areafit.tables.limits import figure
from areafit.tables.materials import RUSTED_BY_WATER, Material
from areafit.tables.resistance import (
    ClassResistance,
    EqualGrade,
    Lookup,
    Mechanism,
    MissingData,
    Rating,
    ResistanceRow,
    class_rows,
    lookup,
)
from areafit.values import Frozen, Term, replace
from areafit.verdict import Basis

_COLD = Decimal(-273)
_WATER = "tap-water"
_NEAT = Strength(SolutionState.BATH, Range.of(Decimal(100)))


class RatedStrength(Frozen):
    """What is known at one strength.

    `worst` and `best` are the ratings over what the list leaves open, after relief; both None
    where there is no row. `decisive` is the row behind `worst` and `why` what changed its rating.
    `stands_in` names the pair or the strength whose rows serve instead of missing ones; `cited`
    set the strength or the relief, and `by_fact` says in words what they or a stated fact bring
    about, which is no judgement of ours. `mechanism` is by what it suffers, if a row decides.
    `disputed` are rows of other sources that rate it better; `remedy_told` is what would save it.
    """

    form: SolutionState
    span: Range
    certain: bool
    worst: Rating | None
    best: Rating | None
    decisive: ResistanceRow | None
    why: str
    rows: tuple[ResistanceRow, ...]
    gaps: tuple[MissingData, ...]
    pending: tuple[str, ...]
    stands_in: str
    cited: tuple[Row, ...] = ()
    by_fact: str = ""
    mechanism: Mechanism | None = None
    disputed: tuple[ResistanceRow, ...] = ()
    remedy_told: str = ""

    @property
    def judged(self) -> bool:
        """Whether anything but rows has a part in the rating."""
        return bool(self.why or self.stands_in)


class Rated(Frozen):
    """A material, by id, in a chemical as a list names it; temperatures in °C.

    `warmed`: the hottest is that of the part, not of the chemical.
    """

    material: str
    chemical: str
    exposure: Exposure
    rule: str
    heat: Range
    heat_certain: bool
    points: tuple[RatedStrength, ...]
    warmed: bool = False


def rate(material: Material, met: Met, tables: Tables, piece: PieceFacts) -> Rated:
    """Rate a material for one chemical as it is met."""
    use = _Use(material, met, piece, _equal(material, met, tables))
    return tables.remembered(("rated", material.id, met, piece), lambda: _rated(use, tables))


def _rated(use: "_Use", tables: Tables) -> Rated:
    met = use.met
    found = (_point(use, strength, tables) for strength in met.strengths)
    points = (*(one for one in found if one is not None), *_water_in(use, tables))
    return Rated(
        use.material.id,
        met.name,
        met.exposure,
        met.rule,
        met.heat,
        met.heat_certain,
        points,
        warmed=met.warmed,
    )


_UNCOVERED = frozenset({MissingData.CONCENTRATION, MissingData.COLDER})


class _Use(Frozen):
    material: Material
    met: Met
    piece: PieceFacts
    equal: EqualGrade | None


def _equal(material: Material, met: Met, tables: Tables) -> EqualGrade | None:
    """The row by which the rows of another material are this one's too, if it covers the case."""
    listed = tables.remembered(
        ("equal grades",),
        lambda: {row.material: row for row in tables.rows("equal_grades", EqualGrade)},
    )
    row = listed.get(material.id)
    return None if row is None or met.chemical.id in row.excepted else row


def _point(use: _Use, strength: Strength, tables: Tables) -> RatedStrength | None:
    """The rating at one strength; None where it is rinsed off before it gets there."""
    rinsed = never_dries(use.met)
    if strength.form is SolutionState.DRIED and rinsed is not None:
        return None
    point = _looked_up(use, strength, tables)
    if point is None:
        return None
    if rinsed is not None:
        point = replace(point, cited=(*point.cited, Row.of_figure(rinsed)))
    guessed = point.judged or any(row.basis is Basis.JUDGEMENT for row in point.rows)
    stands = point.worst is Rating.SUITABLE and not (point.gaps or point.pending or guessed)
    if clean_air(use.material, use.met) and not stands:
        return _untouched(use.met, strength)
    return point


def _looked_up(use: _Use, strength: Strength, tables: Tables) -> RatedStrength | None:
    pair, stands_in = _pair(use, tables)
    # From the coldest on: no row may be forgotten because a hotter one suffers more slowly.
    heat = Range(_COLD, use.met.heat.high)
    span = strength.span
    found = tables.resistance_at(*pair, span, heat)
    if not (found.rows or stands_in):
        for near, as_near in _elsewhere(use, tables):
            elsewhere = tables.resistance_at(*near, span, heat)
            if elsewhere.rows:
                pair, stands_in, found = near, as_near, elsewhere
                break
    if found.rating in (None, Rating.SUITABLE) and (stands_in or not found.rows):
        by_class = _by_class(use, span, heat, tables)
        if by_class.rows:
            return _weigh(use, strength, by_class, "")
    if strength.passing:
        return _in_passing(use, strength, found, stands_in)
    if strength.form is SolutionState.DRIED and (
        not found.rows or _UNCOVERED.intersection(found.gaps) or strength.open_ended
    ):
        span = _strongest_known(pair, tables, span, heat)
        found = tables.resistance_at(*pair, span, heat)
        residue = "its residue is taken as the strongest solution that has data"
        stands_in = f"{stands_in}; {residue}" if stands_in else residue
    if strength.form is SolutionState.DRIED and use.met.rinsed:
        left = _of_one_drop(use, found)
        return None if left is None else _weigh(use, replace(strength, span=span), left, stands_in)
    point = _weigh(use, replace(strength, span=span), found, stands_in)
    return _if_rinsed(use, replace(strength, span=span), found, point)


def _if_rinsed(use: _Use, strength: Strength, found: Lookup, point: RatedStrength) -> RatedStrength:
    """With the word that rinsing would save it, where that leaves nothing that attacks."""
    if strength.form is not SolutionState.DRIED or point.worst is not Rating.UNSUITABLE:
        return point
    left = _of_one_drop(use, found)
    saved = left is None or _weigh(use, strength, left, "").worst is not Rating.UNSUITABLE
    return replace(point, remedy_told=_RINSE) if saved else point


_RINSE = "rinse it off before it dries, and state `rinsed: true`"


def _of_one_drop(use: _Use, found: Lookup) -> Lookup | None:
    """What one drop is enough for: all that is left where it is rinsed off before it dries."""
    left = tuple(row for row in found.rows if not washes_off(row, use.met))
    disputed = tuple(row for row in found.disputed if not washes_off(row, use.met))
    return Lookup(left, (), found.pending, disputed) if left else None


def _in_passing(
    use: _Use, strength: Strength, found: Lookup, stands_in: str
) -> RatedStrength | None:
    """What a drop does at the strengths that it has for minutes only, on its way."""
    left = _of_one_drop(use, found)
    if left is None:
        return None
    rated = _weigh(use, strength, left, stands_in)
    row = rated.decisive
    if row is None:
        return None
    low, high = max(strength.span.low, row.conc_min_pct), min(strength.span.high, row.conc_max_pct)
    return replace(rated, span=Range(low, high))


def _water_in(use: _Use, tables: Tables) -> Iterator[RatedStrength]:
    """What the water in a solvent does to steel, by the weakest and the strongest that it may be.

    Below one figure it fares as in water; from another on the solvent is dry; between the two
    water attacks it here and there.
    """
    met = use.met
    if not met.watery or use.material.family not in RUSTED_BY_WATER or met.exposure not in WET:
        return
    bath = next(one for one in met.strengths if one.form is SolutionState.BATH)
    stated = met.stated.concentration is not None
    span = bath.span if stated else Range(Decimal(0), bath.span.high)
    wet, dry = (
        figure(name)
        for name in (
            "strength of a solvent below which steel fares as in water",
            "strength of a solvent from which it is dry",
        )
    )
    if span.low >= dry.amount(Dimension.FRACTION):
        return
    water = tables.chemical(_WATER)
    if water is None:
        return
    as_water = replace(met, chemical=water, strengths=(_NEAT,), watery=False, vapour=Rises.NOT)
    point = _looked_up(replace(use, met=as_water), _NEAT, tables)
    if point is None:
        return

    def rating(strength: Decimal, found: Rating | None) -> Rating | None:
        if strength < wet.amount(Dimension.FRACTION) or found is None:
            return found
        dry_enough = strength >= dry.amount(Dimension.FRACTION)
        return Rating.SUITABLE if dry_enough else min(found, Rating.LIMITED, key=_by_rank)

    wettest = span.low < wet.amount(Dimension.FRACTION)
    yield replace(
        point,
        form=SolutionState.WATER,
        span=span,
        certain=stated and bath.certain and point.certain,
        worst=rating(span.low, point.worst),
        best=rating(span.high, point.best),
        by_fact="" if wettest else "a few percent of water pit the steel here and there",
        mechanism=point.mechanism if wettest else Mechanism.PITTING,
        cited=(*point.cited, *map(Row.of_figure, (wet, dry))),
    )


def _by_rank(rating: Rating) -> int:
    return rating.rank


def _untouched(met: Met, strength: Strength) -> RatedStrength:
    """Nothing of it rises, and nothing is said to throw it about."""
    best = Rating.SUITABLE
    by_fact = "nothing but water rises from it at this strength and temperature"
    return RatedStrength(
        strength.form,
        strength.span,
        certain=True,
        worst=best,
        best=best,
        decisive=None,
        why="",
        rows=(),
        gaps=(),
        pending=(),
        stands_in="",
        cited=met.rises_by,
        by_fact=by_fact,
    )


def _by_class(use: _Use, span: Range, heat: Range, tables: Tables) -> Lookup:
    """What the class of a neutral solvent says of a family, where the pair has no rows."""
    own = tables.resistance(use.material.id, use.met.chemical.id)
    kind = None if own else class_of(use.met.chemical, tables)
    if kind is None:
        return Lookup((), (MissingData.NO_ROWS,))
    return lookup(class_rows(use.material, kind.value, use.met.chemical.id), span, heat)


def _pair(use: _Use, tables: Tables) -> tuple[tuple[str, str], str]:
    """The pair of ids whose rows serve, and in words what stands in for what."""
    own = (use.material.id, use.met.chemical.id)
    if tables.resistance(*own) or own[1] not in tables.ids("chemicals"):
        return own, ""
    if use.equal is not None and tables.resistance(use.equal.alike, own[1]):
        return (use.equal.alike, own[1]), ""
    return next(_alike(use, tables, "for want of rows of its own"), (own, ""))


def _elsewhere(use: _Use, tables: Tables) -> Iterator[tuple[tuple[str, str], str]]:
    """Where to look when its own rows, if it has any, say nothing of what is asked."""
    if use.met.chemical.id not in tables.ids("chemicals"):
        return
    if use.equal is not None:
        yield (use.equal.alike, use.met.chemical.id), ""
    yield from islice(_alike(use, tables, "where its own rows say nothing"), 1)


def _alike(use: _Use, tables: Tables, why: str) -> Iterator[tuple[tuple[str, str], str]]:
    for pair in tables.analogues(use.material.id, use.met.chemical.id):
        if tables.resistance(*pair):
            yield pair, f"taken as {pair[0]} in {pair[1]}, {why}"


def _strongest_known(pair: tuple[str, str], tables: Tables, span: Range, heat: Range) -> Range:
    """The strongest solution that has data, from the strongest that has them whatever the heat."""
    rows = tables.resistance(*pair)
    always = [row.conc_max_pct for row in rows if row.temp_min_c is None]
    hot = [row.conc_max_pct for row in rows if row.temp_min_c and row.temp_min_c < heat.high]
    low = max(always or hot, default=span.low)
    return Range(min(low, span.high), min(max(low, *hot) if hot else low, span.high))


def _weigh(use: _Use, strength: Strength, found: Lookup, stands_in: str) -> RatedStrength:
    weighed = [(row, relieved(row, use.material, use.met, use.piece)) for row in found.rows]
    cold = use.met.heat.low
    weighed.sort(key=lambda each: (_worst_first(each), not _reaches(each[0], cold)))
    decisive, worst = weighed[0] if weighed else (None, None)
    governing = (row for row in found.rows if row not in found.disputed and _reaches(row, cold))
    cited = tuple(dict.fromkeys((*filter(None, (decisive,)), *governing)))
    return RatedStrength(
        strength.form,
        strength.span,
        strength.certain and use.met.heat_certain,
        worst.rating if worst else None,
        weighed[-1][1].rating if weighed else None,
        decisive,
        worst.why if worst else "",
        cited,
        found.gaps,
        tuple(entry.reason for entry in found.pending),
        stands_in,
        (
            *map(Row.of_figure, strength.figures),
            *strength.rows,
            *(worst.rows if worst else ()),
            *_equal_rows(use, cited),
        ),
        mechanism=None if decisive is None else suffers(decisive, use.material),
        disputed=tuple(row for row in found.disputed if _reaches(row, cold)),
    )


def _equal_rows(use: _Use, cited: Iterable[ResistanceRow]) -> Iterator[Row]:
    """The row by which those of another material count."""
    equal = use.equal
    if equal is not None and any(row.material == equal.alike for row in cited):
        yield Row.of("equal_grades", equal.material, equal, f"as {equal.alike}")


def _worst_first(weighed: tuple[ResistanceRow, Relieved]) -> int:
    """A rating by its row alone comes before an equal one that rests on relief."""
    return -2 * weighed[1].rating.rank + bool(weighed[1].why)


def _reaches(row: ResistanceRow, heat: Decimal) -> bool:
    """Whether it speaks of the temperature: colder rows only keep hotter ones from improving."""
    return row.temp_max_c is None or row.temp_max_c >= heat


class Outcome(Term):
    """Worst first."""

    UNSUITABLE = "unsuitable"
    NO_DATA = "no data"
    OPEN = "open"  # what the list leaves open decides
    LIMITED = "limited"
    SUITABLE = "suitable"


_SEVERITY = {outcome: rank for rank, outcome in enumerate(Outcome)}


class Decided(Frozen):
    """The outcome, and the strength that decided it."""

    outcome: Outcome
    rated: Rated
    point: RatedStrength

    @property
    def judged(self) -> bool:
        """Whether relief, an analogy or a stand-in has a part in it."""
        return any(point.judged for point in self.rated.points)


def decide(rated: Rated) -> Decided:
    """The worst outcome over all strengths; on a tie the one that rests on rows alone."""
    found = [Decided(_of(point), rated, point) for point in rated.points]
    return min(found, key=lambda one: (_SEVERITY[one.outcome], one.point.judged))


def worst(rated: Iterable[Rated]) -> Decided:
    """The worst of several, such as every material that a name may mean."""
    return min((decide(one) for one in rated), key=lambda one: _SEVERITY[one.outcome])


def _of(point: RatedStrength) -> Outcome:
    if point.worst is None:
        return Outcome.NO_DATA
    if point.worst is Rating.UNSUITABLE and (point.certain or _hopeless(point)):
        return Outcome.UNSUITABLE
    if not point.certain and (point.gaps or point.worst is not point.best):
        return Outcome.OPEN
    if point.gaps or point.pending:
        return Outcome.NO_DATA
    return _STANDS[point.worst]


_STANDS = {
    Rating.SUITABLE: Outcome.SUITABLE,
    Rating.LIMITED: Outcome.LIMITED,
    Rating.UNSUITABLE: Outcome.UNSUITABLE,
}


def _hopeless(point: RatedStrength) -> bool:
    """Whether it fails whatever is left open: everywhere, or from the weakest strength on."""
    everywhere = not point.gaps or any(row.conc_min_pct == 0 for row in point.rows)
    return point.best is Rating.UNSUITABLE and everywhere


def resistance_row(row: ResistanceRow) -> Row:
    """A resistance row with its band, its rating and by what the material suffers."""
    above = "" if row.temp_min_c is None else f" above {number(row.temp_min_c)} °C"
    warm = above if row.temp_max_c is None else f"{above} to {number(row.temp_max_c)} °C"
    band = f"{number(row.conc_min_pct)}-{number(row.conc_max_pct)} %{warm}"
    by = "" if row.mechanism is Mechanism.NONE else f", {row.mechanism.value}"
    table = "class_resistance" if isinstance(row, ClassResistance) else "resistance"
    return Row.of(
        table, f"{row.material} in {row.chemical}, {band}", row, f"{row.rating.value}{by}"
    )


def reasoned(key: str, value: str) -> Row:
    """A step that was reasoned here: relief of an exposure, an analogy, a stand-in."""
    return Row("exposure rules", key, "judgement", "reasoned by exposure", Basis.JUDGEMENT, value)


def rows_of(rated: Iterable[Rated]) -> tuple[Row, ...]:
    """Everything that a rating rests on, reasoned steps included."""
    found: list[Row] = []
    for one in rated:
        for point in one.points:
            found += [resistance_row(row) for row in point.rows]
            found += [reasoned(one.rule, text) for text in (point.why, point.stands_in) if text]
            found += point.cited
            found += _overruled(point)
    return tuple(dict.fromkeys(found))


def deciding(decided: Decided) -> tuple[Row, ...]:
    """The one row behind an outcome, and what stands in or was reasoned beside it."""
    point = decided.point
    own = () if point.decisive is None else (resistance_row(point.decisive),)
    texts = (text for text in (point.why, point.stands_in) if text)
    reasons = (reasoned(decided.rated.rule, text) for text in texts)
    return (*own, *reasons, *point.cited, *_overruled(point))


def _overruled(point: RatedStrength) -> Iterator[Row]:
    """The rows of other sources that rate it better: shown, so that a person can settle it."""
    for row in point.disputed:
        yield replace(resistance_row(row), governs=False)


_M = Mechanism
_CONDITION = {
    _M.CREVICE: "no crevice, gasket or deposit may hold the liquid",
    _M.PITTING: "pits must be acceptable, looked for and cleaned off",
    _M.STRESS_CORROSION: "the part must carry no lasting tension at this temperature",
    _M.ENVIRONMENTAL_STRESS_CRACKING: "the part must be free of stress, from moulding too",
    _M.OZONE_CRACKING: "the rubber must not be stretched",
    _M.DEHYDROFLUORINATION: "the part must be unstressed and be replaced on a schedule",
    _M.SWELLING: "swelling of {} must be acceptable; not in moving seals",
    _M.HYDROLYSIS: "the part must be inspected and replaced on a schedule",
    _M.OXIDATION: "embrittlement must be looked for, and the part replaced on a schedule",
    _M.PLASTICISER_LOSS: "hardening must be acceptable; a flexing part will crack",
    _M.INTERGRANULAR: "the grade must be low in carbon or stabilised and free of sensitised welds",
    _M.DEZINCIFICATION: "the brass must be proof against dezincification",
    _M.PERMEATION: "what permeates must do no harm behind the part",
    _M.DEPOSITION: "metal that plates out on the part must be stripped on a schedule",
    _M.DISBONDING: "the coating must be inspected and repaired",
    _M.ATTACK_ON_POLYMER: "some softening, swelling or embrittlement must be acceptable, and the "
    "part be replaced on a schedule",
    _M.LAYER_CONSUMED: "the layer lasts some years only, and must be measured and renewed",
    _M.UNIFORM: "a loss of {} a year must be acceptable",
    _M.UNIFORM_WITH_HYDROGEN: "a loss of {} a year and the hydrogen must be acceptable",
    _M.DISSOLUTION: "some of it must be allowed to dissolve, and be replaced on a schedule",
    _M.ETCHING: "etched glass must be acceptable",
    _M.EMBRITTLEMENT: "strength and hardness must stay low",
    _M.ACETYLIDE: "copper must stay below {}",
    _M.SULFIDE: "tarnish must be acceptable, or the sulphur shown to stay low",
}
_FIGURES = {
    _M.ACETYLIDE: "copper against acetylene",
    _M.SWELLING: "swelling of a polymer of limited use",
    _M.UNIFORM: "loss of a metal of limited use",
    _M.UNIFORM_WITH_HYDROGEN: "loss of a metal of limited use",
}


def condition(mechanism: Mechanism) -> str:
    """What somebody must accept where a material is limited."""
    words = _CONDITION.get(mechanism, "somebody must accept the limited resistance")
    return words.format(*(row.value for row in condition_rows(mechanism)))


def condition_rows(mechanism: Mechanism) -> tuple[Row, ...]:
    """The figure that the condition names, if it names one."""
    return (Row.of_figure(figure(_FIGURES[mechanism])),) if mechanism in _FIGURES else ()
