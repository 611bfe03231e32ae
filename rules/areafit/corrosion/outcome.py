"""What a rating comes to: fails, open for one reason or another, or stands."""

from collections.abc import Iterable

from areafit.corrosion.rating import Point, Rated
from areafit.tables.resistance import Rating
from areafit.values import Frozen, Term


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
    point: Point

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


def _of(point: Point) -> Outcome:
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


def _hopeless(point: Point) -> bool:
    """Whether it fails whatever is left open: everywhere, or from the weakest strength on."""
    everywhere = not point.gaps or any(row.conc_min_pct == 0 for row in point.rows)
    return point.best is Rating.UNSUITABLE and everywhere
