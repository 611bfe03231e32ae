"""Materials that would stand a chemical better: a pure search over the tables, nearest first."""

from collections.abc import Iterable, Iterator

from areafit.corrosion.outcome import Outcome, decide
from areafit.corrosion.rating import rate
from areafit.demands.exposure import Met
from areafit.tables import Tables
from areafit.tables.families import COATING
from areafit.tables.materials import Material, SurfaceClass

_FAR = 1000
_STATIC_RISK = frozenset({SurfaceClass.INSULATING, SurfaceClass.DEPENDS})


def better(
    material: Material,
    mets: Iterable[Met],
    tables: Tables,
    *,
    dissipative: bool = False,
    strained: bool | None = None,
) -> Iterator[Material]:
    """Materials of the same use that every one of `mets` leaves suitable, found as asked for.

    Nearest first: the same family, then related ones. Ratings by relief or analogy do not count.
    With `dissipative`, insulating surfaces and those where the filler decides are left out.
    """
    wanted = tuple(mets)
    for other in alike(material, wanted, tables):
        if dissipative and keeps_charge(other):
            continue
        if suits(other, wanted, tables, strained=strained):
            yield other


def keeps_charge(material: Material) -> bool:
    """Whether its surface insulates, or may, as the filler decides."""
    return material.surface in _STATIC_RISK


def alike(material: Material, mets: Iterable[Met], tables: Tables) -> Iterator[Material]:
    """Every other material of a use of this one that has rows for all chemicals, nearest first."""
    chemicals = frozenset(met.chemical.id for met in mets)
    key = ("alike", material.id, chemicals)
    yield from tables.remembered(key, lambda: _nearest_first(material, chemicals, tables))


def _nearest_first(
    material: Material, chemicals: frozenset[str], tables: Tables
) -> tuple[Material, ...]:
    rated = tables.remembered(("rated in", chemicals), lambda: _rated_in(chemicals, tables))
    own = set(material.uses)
    fit = (other for other in rated if other.id != material.id and own.intersection(other.uses))
    return tuple(sorted(fit, key=lambda other: _distance(material, other)))


def _rated_in(chemicals: frozenset[str], tables: Tables) -> tuple[Material, ...]:
    return tuple(
        tables.materials(one)[0]
        for one in tables.ids("materials")
        if all(tables.resistance(one, each) for each in chemicals)
    )


def suits(
    material: Material, mets: Iterable[Met], tables: Tables, *, strained: bool | None = None
) -> bool:
    """Whether rows of its own leave the material suitable in all that is met."""
    if material.family == COATING:
        return False
    for met in mets:
        decided = decide(rate(material, met, tables, strained=strained))
        if decided.outcome is not Outcome.SUITABLE or decided.judged:
            return False
    return True


def _distance(material: Material, other: Material) -> tuple[bool, bool, int, str]:
    """Same family, then the same last word of it (`stainless steel`), then the nearest PREN."""
    own, theirs = material.family, other.family
    pren = _FAR
    if material.pren is not None and other.pren is not None:
        pren = int(abs(material.pren - other.pren))
    return own != theirs, own.split()[-1] != theirs.split()[-1], pren, other.id
