"""What `galvanic-couple` asks of two materials that touch."""

from collections.abc import Iterator

from areafit.cases import ContactCase
from areafit.checks.materials.several import called
from areafit.checks.materials.strain import is_fastener
from areafit.demands import Demands
from areafit.facts.part import LIQUID, Exposure, MaterialUse
from areafit.rule import Ask, Row
from areafit.tables.chemicals import Reaction
from areafit.tables.classes import Atmosphere, GalvanicLimit
from areafit.tables.families import (
    ALUMINIUM,
    BARE_STEEL,
    COPPER,
    ZINC,
    is_stainless,
    metallic,
)
from areafit.tables.materials import Material, SurfaceClass
from areafit.values import Frozen

_ANODES = ALUMINIUM | BARE_STEEL | ZINC


class Half(Frozen):
    """One side: anodic index in mV, None for what does not conduct."""

    material: str
    index_mv: int | None
    zinc: bool
    steel: bool
    stainless: bool
    base: bool  # aluminium, bare steel or zinc
    small_noble: bool  # copper, nickel or titanium: a small couple with stainless steel
    film: bool
    fastener: bool
    row: Row | None


class Couple(Frozen):
    """Two sides and the air: `limits` holds every atmosphere that may be meant.

    `first_larger` is 1 where the first is at least ten times the larger surface, -1 where the
    second is, 0 where they are alike or not stated. `hot` says that zinc may turn noble.
    """

    first: Half
    second: Half
    limits: tuple[GalvanicLimit, ...]
    stated: bool
    first_larger: int
    hot: bool


class Open(Frozen):
    """A contact of which something is not stated or not known."""

    what: str
    name: str
    nearest: tuple[str, ...] = ()


class Dry(Frozen):
    """A contact without an electrolyte, and why."""

    why: str


class Question(Frozen):
    """Every pair that the names may mean."""

    couples: tuple[Couple, ...]


class Doubtful(Frozen):
    """Pairs wetted on both sides: said to be kept dry, or not said to touch (`inside`)."""

    couples: tuple[Couple, ...]
    inside: bool = False


Asked = Question | Open | Dry | Doubtful


def ask(case: ContactCase, demands: Demands) -> Iterator[Ask[Asked]]:
    """One question a contact; none where no electrolyte can be, or nothing metallic is there."""
    if not _electrolyte(demands):
        return
    if not case.stated:
        if case.exposed and _any_metal(case.materials, demands):
            yield Ask(Open("contacts", "the part"))
        return
    if case.inside and not aqueous(demands):
        return
    component = case.own.component if case.own is not None else None
    yield Ask(_asked(case, demands), "", component)


def _electrolyte(demands: Demands) -> bool:
    """Whether anything but solvents wets the place, or its air is classed."""
    return demands.place.atmosphere is not None or bool(aqueous(demands))


def aqueous(demands: Demands) -> bool:
    """Whether anything but solvents and vapours is listed that wets the place."""
    for chemical in demands.chemicals or ():
        known = demands.tables.chemicals(chemical.stated.name)
        solvent = known and all(one.reaction is Reaction.NOT_AQUEOUS for one in known)
        if not chemical.fume_only and not solvent:
            return True
    return False


def _any_metal(uses: tuple[MaterialUse, ...] | None, demands: Demands) -> bool:
    """Whether any listed material can be half of a couple; what is unknown may be."""
    if uses is None:
        return True
    found = (demands.tables.materials(use.material) for use in uses)
    return any(not rows or any(metallic(row) for row in rows) for rows in found)


def _asked(  # noqa: PLR0911 - one return for each answer
    case: ContactCase, demands: Demands
) -> Asked:
    if case.own is None:
        return Open("own component", case.other_item or "")
    if case.other is None:
        return Open("other component", case.other_item or "")
    sides = []
    for use in (case.own, case.other):
        rows = demands.tables.materials(use.material)
        if not rows:
            near = demands.tables.nearest("materials", use.material)
            return Open("material", use.material, near)
        sides.append(
            tuple(_half(use, called(use.material, row, demands.tables), row) for row in rows)
        )
    washed = aqueous(demands) and case.own.exposure in LIQUID and case.other.exposure in LIQUID
    if case.wet is False and not washed:
        return Dry("kept dry")
    if case.own.exposure is case.other.exposure is Exposure.ENCLOSED and not case.wet:
        return Dry("enclosed and dry")
    limits, stated = _limits(case, demands)
    larger = _larger(case.own, case.other)
    hot = _hot(demands)
    couples = tuple(
        Couple(first, second, limits, stated, larger, hot)
        for first in sides[0]
        for second in sides[1]
    )
    if case.inside or case.wet is False:
        return Doubtful(couples, inside=case.inside)
    return Question(couples)


def _half(use: MaterialUse, name: str, material: Material) -> Half:
    row = None
    if material.anodic_index_mv is not None:
        row = Row(
            "materials",
            f"{material.id} anodic index",
            material.anodic_source_id,
            material.anodic_note or material.family,
            material.anodic_basis,
            f"{material.anodic_index_mv} mV",
        )
    family = material.family
    noble = family in COPPER or family in ("nickel alloy", "titanium", "nickel-coated steel")
    return Half(
        name,
        material.anodic_index_mv,
        family in ZINC or family == "cadmium-coated steel",
        family in BARE_STEEL,
        is_stainless(material) and family != "martensitic stainless steel",
        family in _ANODES,
        noble,
        material.surface is SurfaceClass.INSULATING_FILM,
        is_fastener(use),
        row,
    )


def _limits(case: ContactCase, demands: Demands) -> tuple[tuple[GalvanicLimit, ...], bool]:
    """The limits that may hold, and whether the air is known: one where it is, else all."""
    rows = demands.tables.rows("galvanic_limits", GalvanicLimit)
    by_air = {row.atmosphere: row for row in rows}
    wet = case.exposed or case.wet is True
    if aqueous(demands) and wet:
        return (by_air[Atmosphere.SEVERE],), True
    if demands.place.atmosphere is not None:
        return (by_air[Atmosphere(demands.place.atmosphere.value)],), True
    return tuple(by_air[air] for air in Atmosphere), False


def _larger(own: MaterialUse, other: MaterialUse) -> int:
    """1 where the own surface is ten times the other, -1 the other way round, else 0."""
    if own.surface_area is None or other.surface_area is None:
        return 0
    if own.surface_area >= 10 * other.surface_area:
        return 1
    return -1 if other.surface_area >= 10 * own.surface_area else 0


def _hot(demands: Demands) -> bool:
    """Whether water above 60 °C is about, in which zinc may become the nobler side of steel."""
    spans = (c.stated.temperature for c in demands.chemicals or ())
    return any(span is not None and span.high > 60 for span in spans)
