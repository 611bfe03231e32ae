"""Two metals in a common film of water: which suffers, by how much they differ, what is allowed."""

from areafit.checks.materials.ambiguous import called
from areafit.corrosion.rating import reasoned
from areafit.corrosion.relief import is_fastener
from areafit.demands import Demands
from areafit.errors import choices
from areafit.facts.part import MaterialUse
from areafit.facts.place import Atmosphere
from areafit.facts.quantity import Dimension
from areafit.rule import Answer, Judgement, Row
from areafit.tables.chemicals import Reaction
from areafit.tables.limits import Figure, figure
from areafit.tables.materials import (
    ALUMINIUM,
    BARE_STEEL,
    COPPER,
    ZINC,
    ChlorideContent,
    GalvanicColumn,
    GalvanicExposure,
    GalvanicLimit,
    GalvanicPair,
    Material,
    SurfaceClass,
    galvanic_pair,
    is_stainless,
)
from areafit.values import Frozen
from areafit.verdict import Reason, Role

_ANODES = ALUMINIUM | BARE_STEEL | ZINC
_STEEL = "carbon-steel"  # what is left when the zinc has gone


# What is asked of a pair


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
    second is, 0 where they are alike or not stated. `hot` says that zinc may turn noble; `steel`
    is what is left when zinc has gone. `standard` is what the galvanic standard says of the two, in
    the air of `exposure`, the harshest that may be meant; None where a side is in no group of it.
    """

    first: Half
    second: Half
    limits: tuple[GalvanicLimit, ...]
    stated: bool
    first_larger: int
    hot: bool
    steel: Half
    standard: GalvanicPair | None = None
    exposure: GalvanicExposure | None = None


def couples(
    own: MaterialUse, other: MaterialUse, demands: Demands, *, wet: bool, washed: bool
) -> tuple[Couple, ...]:
    """Every pair that two names may mean, none where one is unknown.

    `wet`: something wets the contact; `washed`: liquid that is listed reaches both sides.
    """
    sides = [
        [(row, _half(use, called(use.material, row, demands.tables), row)) for row in rows]
        for use in (own, other)
        for rows in (demands.tables.materials(use.material),)
    ]
    limits, stated = _limits(demands, wet=wet)
    larger, hot = _larger(own, other), _hot(demands)
    steel = _half(MaterialUse(_STEEL), _STEEL, demands.tables.materials(_STEEL)[0])
    exposure = _exposure(limits, demands, wetted=washed)
    return tuple(
        Couple(
            *(first, second, limits, stated, larger, hot, steel),
            standard=(pair := galvanic_pair(one.id, another.id)),
            exposure=None if pair is None else exposure,
        )
        for one, first in sides[0]
        for another, second in sides[1]
    )


def aqueous(demands: Demands) -> bool:
    """Whether anything but solvents and vapours is listed that wets the place."""
    for chemical in demands.chemicals or ():
        known = demands.tables.chemicals(chemical.stated.name)
        solvent = known and all(one.reaction is Reaction.NOT_AQUEOUS for one in known)
        if not chemical.fume_only and not solvent:
            return True
    return False


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


def _limits(demands: Demands, *, wet: bool) -> tuple[tuple[GalvanicLimit, ...], bool]:
    """The limits that may hold, and whether the air is known: one where it is, else all."""
    rows = demands.tables.rows("galvanic_limits", GalvanicLimit)
    by_air = {row.atmosphere: row for row in rows}
    if aqueous(demands) and wet:
        return (by_air[Atmosphere.SEVERE],), True
    if demands.place.atmosphere is not None:
        return (by_air[Atmosphere(demands.place.atmosphere.value)],), True
    return tuple(by_air[air] for air in Atmosphere), False


def _exposure(
    limits: tuple[GalvanicLimit, ...], demands: Demands, *, wetted: bool
) -> GalvanicExposure:
    """The row of the harshest air that may be meant; `wetted`: liquid reaches both sides."""
    rows = {
        row.exposure: row for row in demands.tables.rows("galvanic_exposures", GalvanicExposure)
    }
    harshest = min(limits, key=lambda limit: limit.limit_mv).atmosphere
    return rows["sea water" if wetted and _brine(demands) else harshest.value]


def _brine(demands: Demands) -> bool:
    """Whether a water is listed whose salt makes it carry a current as sea water does."""
    salts = {row.chemical for row in demands.tables.rows("chloride_content", ChlorideContent)}
    known = (demands.tables.chemicals(one.stated.name) for one in demands.chemicals or ())
    return any(chemical.id in salts for found in known for chemical in found)


def _larger(own: MaterialUse, other: MaterialUse) -> int:
    """1 where the own surface is many times the other, -1 the other way round, else 0."""
    if own.surface_area is None or other.surface_area is None:
        return 0
    times = figure("area ratio that counts").amount(Dimension.FRACTION) / 100
    if own.surface_area >= times * other.surface_area:
        return 1
    return -1 if other.surface_area >= times * own.surface_area else 0


def _hot(demands: Demands) -> bool:
    """Whether hot water is about, in which zinc may become the nobler side of steel."""
    hot = figure("water in which zinc may turn noble").amount(Dimension.TEMPERATURE)
    spans = (c.stated.temperature for c in demands.chemicals or ())
    return any(span is not None and span.high > hot for span in spans)


# Whether it stays within the allowed difference, and where the index misleads


class Sides(Frozen):
    """The two halves by their index: the anode suffers. `delta` in mV."""

    anode: Half
    cathode: Half
    delta: int


def judged(couple: Couple) -> Judgement:
    """Whether the two stay within the allowed difference, by the standard or by the index."""
    first, second = couple.first.index_mv, couple.second.index_mv
    if first is None or second is None:
        plastic = couple.first if first is None else couple.second
        found = f"{couple.first.material} on {couple.second.material}"
        return Answer("metals close to each other", found).passed(
            f"{plastic.material} is no metal, so there is no couple."
        )
    sides = _sides(couple, first, second)
    limits = sorted(couple.limits, key=lambda limit: _allowed(couple, sides, limit))
    harshest, mildest = limits[0], limits[-1]
    by_standard = _by_standard(couple, sides, harshest)
    if by_standard is not None:
        return by_standard
    if sides.delta <= _allowed(couple, sides, harshest):
        return _within(couple, sides, harshest)
    known = _misleading(couple, sides, harshest)
    if known is not None:
        return known
    if not couple.stated and sides.delta <= _allowed(couple, sides, mildest):
        rows = _rows(couple, harshest)
        return Answer("the atmosphere of the place", "not stated", rows).unproven(
            Reason.FACT_MISSING,
            f"{_names(sides)} differ by {sides.delta} mV: allowed in {mildest.atmosphere.value} "
            f"air, too much in {harshest.atmosphere.value}; the air of the place is not stated.",
            remedy="State `atmosphere`: severe, normal or controlled.",
            answer_by=Role.PROCESS_OWNER,
        )
    return _exceeded(couple, sides, mildest)


def _by_standard(couple: Couple, sides: Sides, limit: GalvanicLimit) -> Judgement | None:
    """What the standard decides: what it forbids, and a passive couple that the index overstates.

    None where the anodic index decides: a side in no group, air milder than the standard speaks
    of, and couples that it allows though the index has them far apart, unless one is passive.
    """
    pair, exposure = couple.standard, couple.exposure
    if pair is None or exposure is None:
        return None
    rows = (_standard_row(pair), Row.of("galvanic_exposures", exposure.exposure, exposure))
    airs = _where(exposure)
    required = f"metals that the standard lets touch in {airs}"
    apart = f"{sides.delta} mV apart by the index"
    if pair.allowed(exposure.asked):
        passive = any(side.stainless for side in (sides.anode, sides.cathode))
        noble = any(side.small_noble for side in (sides.anode, sides.cathode))
        if not (passive and noble) or sides.delta <= _allowed(couple, sides, limit):
            return None
        return Answer(required, "compatible", rows).passed(
            f"{_names(sides)} may touch in {airs}, by the table of dissimilar metals; {apart}, "
            "they are a small couple with passive stainless steel."
        )
    mildest = max(_allowed(couple, sides, one) for one in couple.limits)
    too_far_in_any_air = not couple.stated and sides.delta > mildest
    if not exposure.forbids or too_far_in_any_air:
        return None
    if not couple.stated:
        return Answer("the atmosphere of the place", "not stated", rows).unproven(
            Reason.FACT_MISSING,
            f"{_names(sides)} may not touch in severe air, by the table of dissimilar metals; the "
            "air of the place is not stated.",
            remedy="State `atmosphere`: severe, normal or controlled.",
            answer_by=Role.PROCESS_OWNER,
        )
    small = " It is the smaller side too, which concentrates the attack."
    return Answer(required, "incompatible", rows).flagged(
        f"{sides.anode.material} corrodes where it touches {sides.cathode.material}. By the table "
        f"of dissimilar metals they may not touch in {airs}. They are {apart}."
        f"{small if _anode_larger(couple, sides) < 0 else ''}"
    )


def _where(exposure: GalvanicExposure) -> str:
    wet = ["sea water"] if GalvanicColumn.SEA_WATER in exposure.asked else []
    airs = [each.value for each in exposure.asked if each is not GalvanicColumn.SEA_WATER]
    return choices([*wet, f"{choices(airs, 'and')} air"], "and")


def _standard_row(pair: GalvanicPair) -> Row:
    words = (
        f"{column} {'compatible' if fit else 'incompatible'}"
        for column, fit in (
            ("marine air", pair.marine),
            ("sea water", pair.sea_water),
            ("industrial air", pair.industrial),
        )
    )
    return Row.of("galvanic_pairs", f"{pair.first} on {pair.second}", pair, ", ".join(words))


def _sides(couple: Couple, first: int, second: int) -> Sides:
    if first >= second:
        return Sides(couple.first, couple.second, first - second)
    return Sides(couple.second, couple.first, second - first)


def _anode_larger(couple: Couple, sides: Sides) -> int:
    """1 where the anode is much the larger surface, -1 where much the smaller, 0 if unknown."""
    if couple.first_larger:
        return couple.first_larger if sides.anode is couple.first else -couple.first_larger
    if sides.cathode.fastener and not sides.anode.fastener:
        return 1
    return -1 if sides.anode.fastener and not sides.cathode.fastener else 0


def _allowed(couple: Couple, sides: Sides, limit: GalvanicLimit) -> int:
    """The limit in mV, more for a small noble side in milder air, less for a small anode."""
    share = _share(couple, sides, limit)
    if share is None:
        return limit.limit_mv
    return int(limit.limit_mv * share.amount(Dimension.FRACTION) / 100)


def _share(couple: Couple, sides: Sides, limit: GalvanicLimit) -> Figure | None:
    """What share of the limit is allowed, where the surfaces are of very different size."""
    base = sides.cathode.stainless and sides.anode.base
    larger = _anode_larger(couple, sides) if base else 0
    if larger > 0 and limit.atmosphere is not Atmosphere.SEVERE:
        return figure("share of the galvanic limit", "small cathode")
    return figure("share of the galvanic limit", "small anode") if larger < 0 else None


def _within(couple: Couple, sides: Sides, limit: GalvanicLimit) -> Judgement:
    allowed, found = _allowed(couple, sides, limit), f"{sides.delta} mV"
    rows = _rows(couple, limit)
    return Answer(
        _required(limit, allowed), found, (*rows, *_by_area(couple, sides, limit))
    ).passed(f"{_names(sides)} differ by {sides.delta} mV, within {allowed} mV.")


def _misleading(couple: Couple, sides: Sides, limit: GalvanicLimit) -> Judgement | None:
    """Couples for which the index says more than happens; None where it is right."""
    pair = (sides.anode, sides.cathode)
    if any(side.stainless for side in pair) and any(side.small_noble for side in pair):
        return _by_reason(
            couple, sides, limit, "passive stainless steel is a small couple with it either way"
        )
    if any(side.film for side in pair):
        required = _required(limit, _allowed(couple, sides, limit))
        found = f"{sides.delta} mV below a film"
        return Answer(required, found, _rows(couple, limit)).unproven(
            Reason.CONDITION_TO_ACCEPT,
            f"{_names(sides)} differ by {sides.delta} mV; only the anodic film parts them, and at "
            "a scratch or a drilled hole it does not.",
            remedy="Isolate the joint, or show that the film stays whole, and have that accepted "
            "in a waiver.",
        )
    if sides.anode.zinc and (sides.cathode.steel or sides.cathode.base):
        return _sacrificial(couple, sides, limit)
    return None


def _sacrificial(couple: Couple, sides: Sides, limit: GalvanicLimit) -> Judgement:
    """Zinc on steel, or on a fastener in aluminium: it is there to be the anode."""
    if couple.hot:
        hot = figure("water in which zinc may turn noble")
        required = f"water below {hot.value} for zinc to protect"
        rows = (*_rows(couple, limit), Row.of_figure(hot))
        return Answer(required, "hotter", rows).unproven(
            Reason.CONDITION_TO_ACCEPT,
            f"Above {hot.value} zinc may become the nobler side of {sides.cathode.material}.",
        )
    left = abs((couple.steel.index_mv or 0) - (sides.cathode.index_mv or 0))
    why = f"the zinc protects until it is used up; the steel then differs by {left} mV"
    return _by_reason(couple, sides, limit, why, couple.steel)


def _by_reason(
    couple: Couple, sides: Sides, limit: GalvanicLimit, why: str, *more: Half
) -> Judgement:
    own = (half.row for half in more if half.row is not None)
    rows = (*_rows(couple, limit), *own, reasoned("where the index misleads", why))
    required = _required(limit, _allowed(couple, sides, limit))
    return Answer(required, f"{sides.delta} mV by the index", rows).passed(
        f"{_names(sides)} differ by {sides.delta} mV by the index, but {why}."
    )


def _exceeded(couple: Couple, sides: Sides, limit: GalvanicLimit) -> Judgement:
    allowed = _allowed(couple, sides, limit)
    rows = (*_rows(couple, limit), *_by_area(couple, sides, limit))
    small = " It is the smaller side too, which concentrates the attack."
    return Answer(_required(limit, allowed), f"{sides.delta} mV", rows).flagged(
        f"{sides.anode.material} corrodes where it touches {sides.cathode.material}. They are "
        f"{sides.delta} mV apart, {allowed} mV are allowed."
        f"{small if _anode_larger(couple, sides) < 0 else ''}"
    )


def _by_area(couple: Couple, sides: Sides, limit: GalvanicLimit) -> tuple[Row, ...]:
    """The figures behind a limit that the sizes of the surfaces changed."""
    share = _share(couple, sides, limit)
    if share is None:
        return ()
    ratio = (figure("area ratio that counts"),) if couple.first_larger else ()
    return tuple(map(Row.of_figure, (share, *ratio)))


def _names(sides: Sides) -> str:
    return f"{sides.anode.material} and {sides.cathode.material}"


def _required(limit: GalvanicLimit, allowed: int) -> str:
    return f"at most {allowed} mV ({limit.atmosphere.value} air)"


def _rows(couple: Couple, limit: GalvanicLimit) -> tuple[Row, ...]:
    row = Row.of("galvanic_limits", limit.atmosphere.value, limit, f"{limit.limit_mv} mV")
    own = (half.row for half in (couple.first, couple.second) if half.row is not None)
    return (*dict.fromkeys(own), row)
