"""Materials that would stand a chemical better: a pure search over the tables, nearest first."""

from collections.abc import Callable, Iterable, Iterator

from areafit.corrosion.outcome import Outcome, decide
from areafit.corrosion.rating import rate
from areafit.demands.exposure import Met
from areafit.tables import Tables
from areafit.tables.families import COATING, is_elastomer
from areafit.tables.materials import Material, SurfaceClass

_FAR = 1000
_STATIC_RISK = frozenset({SurfaceClass.INSULATING, SurfaceClass.DEPENDS})


def better(
    material: Material,
    mets: Iterable[Met],
    tables: Tables,
    fit: Callable[[Material], bool],
    *,
    strained: bool | None = None,
) -> Iterator[Material]:
    """Fit materials of the same use that all of `mets` leave suitable, found as asked for.

    Nearest first: the same family, then related ones; rubber is replaced by rubber. Ratings by
    relief or analogy do not count.
    """
    wanted = tuple(mets)
    for other in _alike(material, wanted, tables):
        if fit(other) and suits(other, wanted, tables, strained=strained):
            yield other


def keeps_charge(material: Material) -> bool:
    """Whether its surface insulates, or may, as the filler decides."""
    return material.surface in _STATIC_RISK


def _alike(material: Material, mets: Iterable[Met], tables: Tables) -> tuple[Material, ...]:
    """Every other material of a use of this one that has rows for all chemicals, nearest first."""
    chemicals = frozenset(met.chemical.id for met in mets)
    key = ("alike", material.id, chemicals)
    return tables.remembered(key, lambda: _nearest_first(material, chemicals, tables))


def _nearest_first(
    material: Material, chemicals: frozenset[str], tables: Tables
) -> tuple[Material, ...]:
    rated = frozenset.intersection(*(tables.rated_in(each) for each in chemicals))
    others = (tables.materials(one)[0] for one in rated if one != material.id)
    own, rubber = set(material.uses), is_elastomer(material)
    fit = (x for x in others if own.intersection(x.uses) and is_elastomer(x) is rubber)
    return tuple(sorted(fit, key=lambda other: _distance(material, other)))


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
