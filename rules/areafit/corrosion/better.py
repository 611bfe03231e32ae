"""Materials that would stand a chemical better: a pure search over the tables, nearest first."""

from collections.abc import Callable, Iterable, Iterator

from areafit.corrosion.rating import Outcome, decide, rate
from areafit.corrosion.relief import PieceFacts, piece_of
from areafit.demands import Demands
from areafit.demands.demand import asked_level
from areafit.demands.exposure import Met
from areafit.demands.meeting import Meeting, meetings
from areafit.facts.part import MaterialUse
from areafit.tables import Tables
from areafit.tables.limits import LightMetalLimit, light_metal_limit
from areafit.tables.materials import COATING, Material, SurfaceClass, is_elastomer
from areafit.values import Frozen, replace
from areafit.verdict import Basis, Verdict

_COUNT = 3
_FAR = 1000  # of two resistance numbers, where one has none
_STATIC_RISK = frozenset({SurfaceClass.INSULATING, SurfaceClass.DEPENDS})

_ANY = PieceFacts()


class Better(Frozen):
    """Names of materials that would pass; `everywhere`: in every chemical of the place.

    `kin`: they are rubber for rubber, and no rubber for what is none.
    """

    names: tuple[str, ...] = ()
    everywhere: bool = True
    kin: bool = True


NONE = Better()


def better_than(
    use: MaterialUse,
    material: Material,
    meeting: Meeting,
    demands: Demands,
    beside: Callable[[MaterialUse], Verdict],
) -> Better:
    """Materials that stand all that the use meets, else such as stand this chemical.

    `beside`: the worst of what the other rules say of a material in this use. None is named that
    one of them flags, and none that leaves one of them open while others do not. Where the
    atmosphere may explode none is named that holds more light metal than the level allows, and one
    at least is no insulator if the tables hold such.
    """
    strain = piece_of(use, material)
    met = meetings(use, demands)
    if meeting not in met:
        met = (*met, meeting)
    together = tuple(one for each in met for one in (*each.mets, *each.if_mist))
    alone = (*meeting.mets, *meeting.if_mist)

    def search(mets: tuple[Met, ...], *, kin: bool) -> tuple[str, ...]:
        fit = _fit(demands)
        alike = _alike(material, mets, demands.tables, kin=kin)
        standing = (one for one in alike if fit(one) and suits(one, mets, demands.tables, strain))
        return _search(standing, use, demands, beside)

    for kin in (True, False):
        if all(each.mets for each in met):
            names = search(together, kin=kin)
            if names:
                return Better(names, kin=kin)
        names = search(alone, kin=kin)
        if names:
            return Better(names, everywhere=False, kin=kin)
    return NONE


def _search(
    standing: Iterator[Material],
    use: MaterialUse,
    demands: Demands,
    beside: Callable[[MaterialUse], Verdict],
) -> tuple[str, ...]:
    """The first few, nearest first: the same family, then related ones.

    Those on which the other rules leave nothing open, or where there is none, those that they do
    not flag. The chemical cure often brings the static problem: one is named that cures both.
    """
    passing: list[Material] = []
    left_open: list[Material] = []
    for one in standing:
        if len(passing) >= _COUNT and not _only_insulators(passing, demands):
            break
        if len(passing) >= _COUNT and _keeps_charge(one):
            continue
        verdict = beside(replace(use, material=one.id, composition=None))
        if verdict is not Verdict.FLAG:
            (passing if verdict.passes else left_open).append(one)
    found = passing or left_open
    first = found[:_COUNT]
    if _only_insulators(first, demands):
        first += [one for one in found[_COUNT:] if not _keeps_charge(one)][:1]
    return tuple(_named(one, demands) for one in first)


def _only_insulators(found: Iterable[Material], demands: Demands) -> bool:
    """Whether all that was found may keep a charge where that may ignite."""
    return demands.classified and all(map(_keeps_charge, found))


def _fit(demands: Demands) -> Callable[[Material], bool]:
    """Whether a material may be named at a place: not one that brings light metal there."""
    limits = [light_metal_limit(asked_level(demands, each).value) for each in demands.hazards]
    return lambda material: all(within(material, limit) for limit in limits)


def within(material: Material, limit: LightMetalLimit) -> bool:
    """Whether a grade holds no more light metal than a level allows, of aluminium where it does."""
    total = limit.al_mg_ti_zr_pct
    rest = (material.mg_ti_zr_pct_max or 0) <= limit.mg_ti_zr_pct
    return rest and (total is None or (material.light_metal_pct_max or 0) <= total)


def _named(material: Material, demands: Demands) -> str:
    charged = demands.classified and _keeps_charge(material)
    return f"{material.name} (may keep a charge)" if charged else material.name


def _keeps_charge(material: Material) -> bool:
    """Whether its surface insulates, or may, as the filler decides."""
    return material.surface in _STATIC_RISK


def _alike(
    material: Material, mets: Iterable[Met], tables: Tables, *, kin: bool
) -> tuple[Material, ...]:
    """Every other material of a use of this one that has rows for all chemicals, nearest first."""
    chemicals = frozenset(met.chemical.id for met in mets)
    key = ("alike", material.id, chemicals, kin)
    return tables.remembered(key, lambda: _nearest_first(material, chemicals, tables, kin=kin))


def _nearest_first(
    material: Material, chemicals: frozenset[str], tables: Tables, *, kin: bool
) -> tuple[Material, ...]:
    rated = frozenset.intersection(*(tables.rated_in(each) for each in chemicals))
    others = (tables.row("materials", one) for one in rated if one != material.id)
    own, rubber = set(material.uses), is_elastomer(material)
    fit = (x for x in others if own.intersection(x.uses) and (is_elastomer(x) is rubber) is kin)
    return tuple(sorted(fit, key=lambda other: _distance(material, other)))


def suits(
    material: Material, mets: Iterable[Met], tables: Tables, piece: PieceFacts = _ANY
) -> bool:
    """Whether rows of its own leave the material suitable in all that is met, none of them a guess.

    A pass that rests on a guess is unproven, so that it would answer nothing.
    """
    if material.family == COATING:
        return False
    for met in mets:
        decided = decide(rate(material, met, tables, piece))
        if decided.outcome is not Outcome.SUITABLE or decided.judged:
            return False
        rows = (row for point in decided.rated.points for row in point.rows)
        if any(row.basis is Basis.JUDGEMENT for row in rows):
            return False
    return True


def _distance(material: Material, other: Material) -> tuple[bool, bool, int, str]:
    """Same family, then the same last word of it (`stainless steel`), then the nearest PREN."""
    own, theirs = material.family, other.family
    pren = _FAR
    if material.pren is not None and other.pren is not None:
        pren = int(abs(material.pren - other.pren))
    return own != theirs, own.split()[-1] != theirs.split()[-1], pren, other.id
