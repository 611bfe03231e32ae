"""The chemicals of a place that one material meets, each name with all it may mean."""

from collections.abc import Iterator
from decimal import Decimal
from functools import lru_cache

from areafit.demands.demand import CorrodingChemical, Demands
from areafit.demands.derive import chemical_meant
from areafit.demands.exposure import Met, mass_percent, may_mist, meet, warmed
from areafit.demands.solvents import known_chemicals
from areafit.facts.part import Exposure, MaterialUse
from areafit.facts.place import Concentration, ConcentrationUnit, PresentChemical
from areafit.facts.protection import Hazard, Level
from areafit.facts.quantity import Dimension, Range
from areafit.rule import Row
from areafit.tables.chemicals import Chemical, NamedMixture
from areafit.tables.limits import Figure, figure
from areafit.tables.materials import COATING, Material, is_polymer
from areafit.tables.names import key
from areafit.values import Frozen, Term, replace

_HARMLESS = frozenset({"deionised-water"})
_CHLORINATED = "chlorinated-alkaline-wash"
_HYPOCHLORITE = "sodium-hypochlorite"
_INDOORS = frozenset({Exposure.ROOM, Exposure.ENCLOSED})
_SEVERITY = {exposure: rank for rank, exposure in enumerate(Exposure)}


class Meeting(Frozen):
    """A chemical at a surface.

    `mets` holds one for each chemical that the name may mean; none where the name is unknown or
    a mixture has no row of its own (`mixture`). `if_mist` is what also holds if it is thrown as
    a mist, where the list does not say whether it is.
    """

    name: str
    mets: tuple[Met, ...]
    if_mist: tuple[Met, ...] = ()
    mixture: bool = False

    def __hash__(self) -> int:
        """As that of `Met`."""
        return hash((self.name, self.mets))


class Pores(Term):
    """Whether a layer of plastic or rubber lets a liquid through to what is below it."""

    NONE = "none"
    SOME = "some"
    OPEN = "the thickness is not stated"


def pores_of(use: MaterialUse, layer: Material) -> Pores:
    """A film has pinholes and thin edges, however thick a paint; a lining of sheet has none."""
    if layer.family == COATING or not is_polymer(layer):
        return Pores.SOME
    if use.layer_thickness is None:
        return Pores.OPEN
    return Pores.NONE if use.layer_thickness >= lining().amount(Dimension.LENGTH) else Pores.SOME


def lining() -> Figure:
    """From which thickness a layer of plastic or rubber is a lining, and no film."""
    return figure("thickness of a lining of plastic or rubber")


def exposure_to(use: MaterialUse, corroding: CorrodingChemical) -> Exposure | None:
    """How a use meets a chemical: vapours reach everything, so `fume` is the least for them.

    None where it does not: a neutral solvent that is listed as flammable leaves nothing on what
    merely stands in its room.
    """
    if not corroding.fume_only:
        return use.exposure
    if corroding.solvent and use.exposure in _INDOORS:
        return None
    if use.exposure is None:
        return Exposure.FUME
    return min(use.exposure, Exposure.FUME, key=_SEVERITY.__getitem__)


def chosen(use: MaterialUse, demands: Demands) -> tuple[CorrodingChemical, ...]:
    """The chemicals of the place that `to` leaves."""
    listed = demands.chemicals or ()
    if use.to is None:
        return listed
    wanted = {one for name in use.to for one in _identities(name, demands)}
    return tuple(c for c in listed if wanted & _identities(c.stated.name, demands))


def strangers(use: MaterialUse, demands: Demands) -> tuple[str, ...]:
    """Names in `to` that no chemical of the place answers to."""
    if not use.to:
        return ()
    present = {one for c in demands.chemicals or () for one in _identities(c.stated.name, demands)}
    return tuple(name for name in use.to if not present & _identities(name, demands))


def touching(use: MaterialUse, demands: Demands) -> Iterator[tuple[str, Range]]:
    """The stated temperatures of what the surface meets; all of the place's if `to` is unclear."""
    met = {one for c in chosen(use, demands) for one in _identities(c.stated.name, demands)}
    every = demands.chemicals is None or bool(strangers(use, demands))
    place = demands.place
    stated = [(one.name, one.temperature) for one in place.chemicals or ()]
    stated += [(one.name, one.temperature) for one in place.substances_named]
    for name, heat in stated:
        if heat is not None and (every or met & _identities(name, demands)):
            yield name, heat


def meetings(use: MaterialUse, demands: Demands) -> tuple[Meeting, ...]:
    """Everything that a use meets at a place; chemicals without an exposure are left out."""
    return _meetings(use.exposure, use.to, use.temperature, demands, breathes=use.breathes)


@lru_cache(maxsize=1024)  # several rules ask, and of every material of a place
def _meetings(
    exposure: Exposure | None,
    to: tuple[str, ...] | None,
    surface: Range | None,
    demands: Demands,
    *,
    breathes: bool | None,
) -> tuple[Meeting, ...]:
    use = MaterialUse("", exposure=exposure, to=to, breathes=breathes, temperature=surface)
    return tuple(_met(use, demands))


def _met(use: MaterialUse, demands: Demands) -> Iterator[Meeting]:
    listed = chosen(use, demands)
    for corroding in listed:
        exposure = exposure_to(use, corroding)
        if exposure is not None:
            yield meeting_of(use, corroding, exposure, demands)
            yield from _chlorine(use, corroding, exposure, demands)
    if use.exposure is not None:
        yield from _mixtures(use, listed, use.exposure, demands)


def _identities(name: str, demands: Demands) -> frozenset[str]:
    return chemical_meant(name, demands.tables) | {key(name)}


def meeting_of(
    use: MaterialUse, corroding: CorrodingChemical, exposure: Exposure, demands: Demands
) -> Meeting:
    """One chemical at a surface of this exposure, with all that its name may mean."""
    mets, if_mist = [], []
    leaked = corroding.fume_only and use.exposure in _INDOORS and _thin(demands)
    for named in known_chemicals(corroding.stated.name, demands.tables):
        chemical = _base(named, demands)
        mist = may_mist(chemical, corroding)
        one = meet(chemical, corroding, exposure, demands.ambient, mist=mist is True)
        one = replace(one, breathes=use.breathes, leaked=leaked)
        mets.append(warmed(one, use.temperature))
        if mist is None and exposure is Exposure.FUME:
            thrown = meet(chemical, corroding, exposure, demands.ambient, mist=True)
            if_mist.append(warmed(thrown, use.temperature))
    return Meeting(corroding.stated.name, tuple(mets), tuple(if_mist))


def _base(chemical: Chemical, demands: Demands) -> Chemical:
    """The cleaner without its chlorine, which is met beside it; any other chemical as it is."""
    if chemical.id != _CHLORINATED:
        return chemical
    base: Chemical = demands.tables.row("chemicals", chemical.behaves_as)
    return base


def _thin(demands: Demands) -> bool:
    """Whether the area is stated, and none in which vapour may be present for long."""
    stated = demands.place.area
    if stated is None or stated.problems or not stated.areas:
        return False
    if demands.place.level_asked(Hazard.GAS) is Level.GA:
        return False
    return not any(area.zone == 0 for area in stated.areas)


def _chlorine(
    use: MaterialUse, corroding: CorrodingChemical, exposure: Exposure, demands: Demands
) -> Iterator[Meeting]:
    """A chlorinated cleaner counts as dilute hypochlorite too."""
    stated = corroding.stated
    if any(c.id == _CHLORINATED for c in demands.tables.chemicals(stated.name)):
        free = figure("free chlorine of a chlorinated cleaner")
        share = Concentration(free.span(Dimension.FRACTION), ConcentrationUnit.MASS)
        weak = replace(stated, name=_HYPOCHLORITE, concentration=share)
        found = meeting_of(use, CorrodingChemical(weak), exposure, demands)
        yield called(found, f"{stated.name} (free chlorine)", free)


def _mixtures(
    use: MaterialUse,
    listed: tuple[CorrodingChemical, ...],
    exposure: Exposure,
    demands: Demands,
) -> Iterator[Meeting]:
    baths: dict[str, list[CorrodingChemical]] = {}
    for corroding in listed:
        if corroding.stated.bath is not None:
            baths.setdefault(corroding.stated.bath, []).append(corroding)
    for bath, members in baths.items():
        shares = _members(members, demands)
        if len(shares) < 2:
            continue
        name = f"{' + '.join(c.stated.name for c in members)} (bath {bath})"
        mixture = mixture_of(shares, demands)
        if mixture is None:
            yield Meeting(name, (), mixture=True)
            continue
        whole = PresentChemical(mixture, None, _heat_of(members), bath, rinsed=_rinsed(members))
        yield called(meeting_of(use, CorrodingChemical(whole), exposure, demands), name)


def called(meeting: Meeting, name: str, *figures: Figure, rows: tuple[Row, ...] = ()) -> Meeting:
    """The meeting under the name that the list gives to what is met.

    `figures` set its strength, `rows` say what it is.
    """

    def named(mets: tuple[Met, ...]) -> tuple[Met, ...]:
        return tuple(
            replace(
                met,
                stated=replace(met.stated, name=name),
                strengths=tuple(
                    replace(one, figures=one.figures + figures, rows=one.rows + rows)
                    for one in met.strengths
                ),
            )
            for met in mets
        )

    return replace(meeting, name=name, mets=named(meeting.mets), if_mist=named(meeting.if_mist))


def mixture_of(shares: dict[str, Decimal | None], demands: Demands) -> str | None:
    """The chemical that these, mixed, are by their mass %; None where no row says.

    One that is stronger than the named bath holds it is no such bath.
    """
    rows = demands.tables.rows("mixtures", NamedMixture)
    return next((row.mixture for row in rows if row.is_of(shares)), None)


def _members(members: list[CorrodingChemical], demands: Demands) -> dict[str, Decimal | None]:
    """What is in a bath: ids, or the name itself where it is unknown, with the strongest stated."""
    found: dict[str, Decimal | None] = {}
    for corroding in members:
        known = demands.tables.chemical(corroding.stated.name)
        name = known.id if known is not None else corroding.stated.name
        share = strongest(corroding)
        found[name] = max(
            (one for one in (found.get(name), share) if one is not None), default=None
        )
    return {name: share for name, share in found.items() if name not in _HARMLESS}


def strongest(corroding: CorrodingChemical) -> Decimal | None:
    """The most of it in mass %, as far as it is stated."""
    stated = corroding.stated.concentration
    return None if stated is None else mass_percent(stated).span.high


def _heat_of(members: list[CorrodingChemical]) -> Range | None:
    """The range that holds the temperature of every member; None if one does not state it."""
    spans = [c.stated.temperature for c in members if c.stated.temperature is not None]
    if len(spans) < len(members):
        return None
    return Range(min(span.low for span in spans), max(span.high for span in spans))


def _rinsed(members: list[CorrodingChemical]) -> bool:
    return all(c.stated.rinsed is True for c in members)
