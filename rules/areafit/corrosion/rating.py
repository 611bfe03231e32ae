"""How one material stands one chemical as it is met: the rows, relieved, at every strength."""

from collections.abc import Iterable
from decimal import Decimal

from areafit.corrosion.relief import Relieved, relieved
from areafit.demands.exposure import Form, Met, Strength
from areafit.facts.part import Exposure
from areafit.tables import Tables
from areafit.tables.lookup import Gap, Lookup, Range
from areafit.tables.materials import Material
from areafit.tables.resistance import Rating, ResistanceRow
from areafit.values import Frozen, replace

_COLD = Decimal(-273)


class Point(Frozen):
    """What is known at one strength.

    `worst` and `best` are the ratings over what the list leaves open, after relief; both None
    where there is no row. `decisive` is the row behind `worst` and `why` what changed its rating.
    `stands_in` names the pair or the strength whose rows serve instead of missing ones.
    """

    form: Form
    span: Range
    certain: bool
    worst: Rating | None
    best: Rating | None
    decisive: ResistanceRow | None
    why: str
    rows: tuple[ResistanceRow, ...]
    gaps: tuple[Gap, ...]
    pending: tuple[str, ...]
    stands_in: str

    @property
    def judged(self) -> bool:
        """Whether anything but a row of the pair itself has a part in the rating."""
        return bool(self.why or self.stands_in)


class Rated(Frozen):
    """A material, by id, in a chemical as a list names it; temperatures in °C."""

    material: str
    chemical: str
    exposure: Exposure
    rule: str
    heat: Range
    heat_certain: bool
    points: tuple[Point, ...]


def rate(material: Material, met: Met, tables: Tables, *, strained: bool | None) -> Rated:
    """Rate a material for one chemical as it is met."""
    use = _Use(material, met, strained)
    return tables.remembered(("rated", material.id, met, strained), lambda: _rated(use, tables))


def _rated(use: "_Use", tables: Tables) -> Rated:
    met = use.met
    points = tuple(_point(use, strength, tables) for strength in met.strengths)
    return Rated(
        use.material.id, met.name, met.exposure, met.rule, met.heat, met.heat_certain, points
    )


class _Use(Frozen):
    material: Material
    met: Met
    strained: bool | None


def _point(use: _Use, strength: Strength, tables: Tables) -> Point:
    pair, stands_in = _pair(use.material, use.met, tables)
    # From the coldest on: no row may be forgotten because a hotter one suffers more slowly.
    heat = Range(_COLD, use.met.heat.high)
    found = tables.resistance_at(*pair, strength.span, heat)
    span = strength.span
    if strength.form is Form.DRIED and (Gap.CONCENTRATION in found.gaps or strength.open_ended):
        span = _strongest_known(pair, tables, span)
        found = tables.resistance_at(*pair, span, heat)
        residue = "its residue is taken as the strongest solution that has data"
        stands_in = f"{stands_in}; {residue}" if stands_in else residue
    return _weigh(use, replace(strength, span=span), found, stands_in)


def _pair(material: Material, met: Met, tables: Tables) -> tuple[tuple[str, str], str]:
    """The pair of ids whose rows serve, and in words what stands in for what."""
    own = (material.id, met.chemical.id)
    if tables.resistance(*own):
        return own, ""
    for pair in tables.analogues(*own):
        if tables.resistance(*pair):
            return pair, f"taken as {pair[0]} in {pair[1]}, for want of rows of its own"
    return own, ""


def _strongest_known(pair: tuple[str, str], tables: Tables, span: Range) -> Range:
    most = max((row.conc_max_pct for row in tables.resistance(*pair)), default=span.low)
    return Range.of(min(most, span.high))


def _weigh(use: _Use, strength: Strength, found: Lookup, stands_in: str) -> Point:
    weighed = [
        (row, relieved(row, use.material, use.met, strained=use.strained)) for row in found.rows
    ]
    weighed.sort(key=_worst_first)
    decisive, worst = weighed[0] if weighed else (None, None)
    cited = _reaching(found.rows, use.met.heat.low)
    return Point(
        strength.form,
        strength.span,
        strength.certain and use.met.heat_certain,
        worst.rating if worst else None,
        weighed[-1][1].rating if weighed else None,
        decisive,
        worst.why if worst else "",
        cited or found.rows,
        found.gaps,
        tuple(entry.reason for entry in found.pending),
        stands_in,
    )


def _worst_first(weighed: tuple[ResistanceRow, Relieved]) -> int:
    """A rating by its row alone comes before an equal one that rests on relief."""
    return -2 * weighed[1].rating.rank + bool(weighed[1].why)


def _reaching(rows: Iterable[ResistanceRow], heat: Decimal) -> tuple[ResistanceRow, ...]:
    """The rows that reach the temperature: colder ones only kept hotter ones from improving."""
    return tuple(row for row in rows if row.temp_max_c is None or row.temp_max_c >= heat)
