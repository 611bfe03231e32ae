"""Two metals that touch where it is wet: which suffers, and by how much they differ."""

from collections.abc import Iterator
from itertools import combinations

from areafit.checks.materials.ambiguous import called, most_severe
from areafit.corrosion.rating import reasoned
from areafit.corrosion.relief import is_fastener
from areafit.demands import Demands
from areafit.errors import choices
from areafit.facts import place
from areafit.facts.part import LIQUID, WET, Exposure, Item, MaterialUse
from areafit.facts.place import Atmosphere
from areafit.facts.quantity import Dimension
from areafit.rule import Answer, Ask, Example, Family, Judgement, Row, Rule, Subject
from areafit.subjects import ContactCase, PlaceCase, part_variants
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
    metallic,
)
from areafit.values import Frozen, replace
from areafit.verdict import Reason, Role, Verdict
from areafit.wording import nearest_known, use_known_name

_ANODES = ALUMINIUM | BARE_STEEL | ZINC
_STEEL = "carbon-steel"  # what is left when the zinc has gone


# What is asked of a contact


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


class Open(Frozen):
    """A contact of which something is not stated or not known."""

    what: str
    name: str
    nearest: tuple[str, ...] = ()


class Dry(Frozen):
    """A contact without an electrolyte, and why."""

    why: str


class Touching(Frozen):
    """Every pair that the names may mean."""

    couples: tuple[Couple, ...]


class Doubtful(Frozen):
    """Pairs wetted on both sides: said to be kept dry, or not said to touch (`inside`)."""

    couples: tuple[Couple, ...]
    inside: bool = False


Contact = Touching | Open | Dry | Doubtful


def _contacts(case: ContactCase, demands: Demands) -> Iterator[Ask[Contact]]:
    """One question a contact; none where no electrolyte can be, or nothing metallic is there.

    Air of which nothing is said may be any, so that a contact that is stated is asked about in it.
    """
    if not case.stated:
        if case.exposed and _electrolyte(demands) and _any_metal(case.materials, demands):
            yield Ask(Open("contacts", "the part"))
        return
    if case.inside and not _aqueous(demands):
        return
    component = case.own.component if case.own is not None else None
    yield Ask(_contact(case, demands), "", component)


def _electrolyte(demands: Demands) -> bool:
    """Whether anything but solvents wets the place, or its air is classed."""
    return demands.place.atmosphere is not None or bool(_aqueous(demands))


def _aqueous(demands: Demands) -> bool:
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


def _contact(  # noqa: PLR0911 - one return for each answer
    case: ContactCase, demands: Demands
) -> Contact:
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
            tuple((row, _half(use, called(use.material, row, demands.tables), row)) for row in rows)
        )
    washed = _aqueous(demands) and case.own.exposure in LIQUID and case.other.exposure in LIQUID
    if case.wet is False and not washed:
        return Dry("kept dry")
    if case.own.exposure is case.other.exposure is Exposure.ENCLOSED and not case.wet:
        return Dry("enclosed and dry")
    limits, stated = _limits(case, demands)
    larger = _larger(case.own, case.other)
    hot = _hot(demands)
    steel = _half(MaterialUse(_STEEL), _STEEL, demands.tables.materials(_STEEL)[0])
    exposure = _exposure(limits, demands, wetted=washed)
    couples = tuple(
        Couple(
            *(first, second, limits, stated, larger, hot, steel),
            standard=(pair := galvanic_pair(one.id, other.id)),
            exposure=None if pair is None else exposure,
        )
        for one, first in sides[0]
        for other, second in sides[1]
    )
    if case.inside or case.wet is False:
        return Doubtful(couples, inside=case.inside)
    return Touching(couples)


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
    if _aqueous(demands) and wet:
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


def _judge(contact: Contact) -> Judgement:
    """The worst of the pairs that the names may mean."""
    if isinstance(contact, Open):
        return _open(contact)
    if isinstance(contact, Dry):
        return Answer("no lasting wetness, or metals close to each other", contact.why).passed(
            f"No electrolyte, no couple: {contact.why}."
        )
    found = most_severe(_couple(couple) for couple in contact.couples)
    return _doubtful(contact, found) if isinstance(contact, Doubtful) else found


def _doubtful(contact: Doubtful, found: Judgement) -> Judgement:
    """A pair that only a dry contact would let pass, or that may not touch at all."""
    if found.verdict is Verdict.PASS:
        return found
    if contact.inside:
        return Answer(found.required, found.found, found.rows).unproven(
            Reason.FACT_MISSING,
            f"Two metals of this part are wetted alike; whether they touch is not stated. Do they, "
            f"then: {found.message}",
            remedy="Part or coat the nobler metal and list the coating, or choose like metals; "
            "where they do not touch, have that accepted in a waiver.",
        )
    return Answer(found.required, f"{found.found}, said to be dry", found.rows).unproven(
        Reason.FACT_MISSING,
        "The contact is said to be kept dry, and liquid wets the parts on both sides. Wet, it "
        f"would not pass: {found.message}",
        remedy="Say by the exposure of both sides that nothing wets them there, or seal the joint "
        "and have that accepted in a waiver.",
    )


def _open(contact: Open) -> Judgement:
    if contact.what == "material":
        return Answer("a known material on both sides", contact.name).unproven(
            Reason.NAME_UNKNOWN,
            f"{contact.name!r} is no known material.{nearest_known(contact.nearest)}",
            remedy=use_known_name(contact.nearest, "have a corrosion specialist judge the pair"),
        )
    if contact.what == "contacts":
        return Answer("`contacts`, or `contacts: none`", "not stated").unproven(
            Reason.FACT_MISSING,
            "What the part touches is not stated, and it gets wet.",
            remedy="List `contacts` with the items that the part touches, or state `none`.",
        )
    which = "this part" if contact.what == "own component" else f"item {contact.name}"
    return Answer("one material on each side", "none or several").unproven(
        Reason.FACT_MISSING,
        f"Which material of {which} makes the contact with item {contact.name} is not clear.",
        remedy="Name `component` and `with_component`, and list the materials of both items.",
    )


def _couple(couple: Couple) -> Judgement:
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
        f"{sides.anode.material} corrodes on {sides.cathode.material}: by the table of dissimilar "
        f"metals they may not touch in {airs}; {apart}."
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
            remedy="Isolate the joint, or show that the film stays whole.",
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
        f"{sides.anode.material} corrodes on {sides.cathode.material}: they differ by "
        f"{sides.delta} mV, {allowed} mV are allowed."
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


def _ask_couple(case: ContactCase, demands: Demands) -> Iterator[Ask[Contact]]:
    """Every stated contact; of two materials of one part only what would not pass."""
    for asked in _contacts(case, demands):
        unknown = isinstance(asked.question, Open)  # `chemical-resistance` reports the name
        if not case.inside or not (unknown or _judge(asked.question).verdict is Verdict.PASS):
            yield asked


def _pair(own: str, other: str, exposure: str = "splash", wet: str = "true") -> tuple[str, str]:
    """A part with the contact, and the other one as further lines of the list."""
    part = (
        f"kind: structural, materials: [{{material: '{own}', exposure: {exposure}}}], "
        f"contacts: [{{with: '2', wet: {wet}}}]"
    )
    more = (
        "  - {item: '2', location: case, kind: structural, contacts: none, "
        f"materials: [{{material: '{other}', exposure: {exposure}}}]}}\n"
    )
    return part, more


_WATER = "{chemicals: [{name: tap water, temperature: 20 °C}]}"
_SAME = _pair("304", "316")
_BAD = _pair("304", "6061")

GALVANIC_COUPLE = Rule[Contact](
    id="galvanic-couple",
    title="Metals in wet contact lie close in the galvanic series",
    family=Family.MATERIALS,
    subject=Subject.CONTACT,
    clause="Anodic index table of US military electronic-equipment practice; limits of 0.15, 0.25 "
    "and 0.50 V by atmosphere; MIL-STD-1250A 5.7 for the area ratio",
    why="The less noble of two metals in a common wet film corrodes for both, the faster the "
    "smaller it is.",
    remedy="Use like metals, part them with a sleeve and washers, or coat the nobler side or both.",
    answer_by=Role.DESIGNER,
    note="Table I of MIL-STD-889C decides for its groups in severe air and in brine: what it "
    "forbids there is flagged. Elsewhere the index decides, and beside it the areas. Where "
    "chemicals wet a part its air counts as severe. The limits read `not more than`. Area ratios "
    "count where both surfaces are stated or one side is a fastener. Painting only the anode makes "
    "it worse. Two metals of one part that liquid wets are asked about where they would not pass "
    "together.",
    ask=_ask_couple,
    judge=_judge,
    examples=(
        Example("304 on 316", Verdict.PASS, _SAME[0], _WATER, more=_SAME[1]),
        Example("304 on aluminium", Verdict.FLAG, _BAD[0], _WATER, more=_BAD[1]),
        Example(
            "A wet part that says nothing of what it touches",
            Verdict.UNPROVEN,
            "kind: structural, materials: [{material: '304', exposure: splash}]",
            _WATER,
        ),
    ),
)


# Wet in controlled air: one of the two is not so


class WetInControlledAir(Frozen):
    """Every pair that the names may mean, held to the limit of air that may be damp."""

    couples: tuple[Couple, ...]


def _ask_wet(case: ContactCase, demands: Demands) -> Iterator[Ask[WetInControlledAir]]:
    """Where nothing is listed that could wet the contact; chemicals are severe air anyway."""
    controlled = demands.place.atmosphere is place.Atmosphere.CONTROLLED
    if not (controlled and case.wet is True) or _aqueous(demands):
        return
    rows = demands.tables.rows("galvanic_limits", GalvanicLimit)
    damp = tuple(row for row in rows if row.atmosphere is Atmosphere.NORMAL)
    for asked in _contacts(case, demands):
        if isinstance(asked.question, Touching):
            couples = tuple(replace(one, limits=damp) for one in asked.question.couples)
            yield Ask(WetInControlledAir(couples), asked.path, asked.component)


def _judge_wet(contact: WetInControlledAir) -> Judgement:
    found = _judge(Touching(contact.couples))
    if found.verdict is Verdict.PASS:
        return Answer(found.required, found.found, found.rows).passed(
            "The metals lie close enough for air that is not controlled as well."
        )
    return Answer(found.required, f"{found.found}, wet", found.rows).unproven(
        Reason.FACT_MISSING,
        "The contact is said to be wet and the air of its place to be controlled; what wets it is "
        f"not listed. Wet, the pair would not pass in normal air: {found.message}",
    )


_ROOM = "{chemicals: none, atmosphere: controlled}"
_LIKE, _WET, _DRY = (
    _pair("304", other, "room", wet)
    for other, wet in (("316", "true"), ("6061", "true"), ("6061", "false"))
)

WET_CONTACT = Rule[WetInControlledAir](
    id="wet-contact",
    title="A wet contact stands in air that is called so",
    family=Family.MATERIALS,
    subject=Subject.CONTACT,
    clause="Limits of 0.15, 0.25 and 0.50 V by atmosphere, as in `galvanic-couple`",
    why="The widest limit of the galvanic series is for dry air of controlled humidity: a film of "
    "water on the contact takes it away.",
    remedy="List what wets the contact under `chemicals`, state `atmosphere: normal` or `severe`, "
    "or `wet: false` where it stays dry.",
    answer_by=Role.DESIGNER,
    note="`galvanic-couple` takes the air of the place at its word; this rule asks where the "
    "contact says otherwise.",
    ask=_ask_wet,
    judge=_judge_wet,
    examples=(
        Example("304 on 316", Verdict.PASS, _LIKE[0], _ROOM, more=_LIKE[1]),
        Example("304 on aluminium, wet", Verdict.UNPROVEN, _WET[0], _ROOM, more=_WET[1]),
        Example("304 on aluminium, dry", Verdict.NOT_APPLICABLE, _DRY[0], _ROOM, more=_DRY[1]),
    ),
)


# Lines of which a note says that they touch nothing


class NotedApart(Frozen):
    """Lines that touch nothing because notes say so, and metals of theirs that may not touch.

    `couples` are the pairs that would not pass, or all where each does; `items` the lines that they
    are of; `unknown` materials without a row.
    """

    notes: tuple[str, ...]
    items: tuple[Item, ...]
    couples: tuple[Couple, ...]
    unknown: tuple[str, ...]


def _ask_noted(case: PlaceCase, demands: Demands) -> Iterator[Ask[NotedApart]]:
    if not _electrolyte(demands):
        return
    notes: dict[str, None] = {}
    served: dict[MaterialUse, dict[Item, None]] = {}
    for part in case.parts:
        for variant in part_variants(part):
            for use in variant.materials or () if variant.contacts_note is not None else ():
                if use.exposure in WET:
                    notes[str(variant.contacts_note)] = None
                    served.setdefault(_plain(use), {})[part.item] = None
    pairs = [
        (_between(one, other, demands), {**served[one], **served[other]})
        for one, other in combinations(served, 2)
    ]
    met = [(contact, items) for contact, items in pairs if len(items) > 1]
    unfit = [(contact, items) for contact, items in met if not _fits(contact)]
    if met:
        yield Ask(
            NotedApart(
                tuple(notes),
                tuple(dict.fromkeys(item for _, items in unfit or met for item in items)),
                tuple(
                    couple
                    for contact, _ in unfit or met
                    if isinstance(contact, Touching)
                    for couple in contact.couples
                    if not unfit or _couple(couple).verdict is not Verdict.PASS
                ),
                tuple(dict.fromkeys(c.name for c, _ in unfit if isinstance(c, Open))),
            )
        )


def _plain(use: MaterialUse) -> MaterialUse:
    """What counts of a material wherever it may touch: how large it is there nobody knows."""
    component = use.component if is_fastener(use) else None
    return MaterialUse(use.material, component, use.exposure, substrate=use.substrate)


def _between(one: MaterialUse, other: MaterialUse, demands: Demands) -> Contact:
    return _contact(ContactCase(stated=True, own=one, other=other, exposed=True), demands)


def _fits(contact: Contact) -> bool:
    return _judge(contact).verdict is Verdict.PASS


def _judge_noted(apart: NotedApart) -> Judgement:
    found = [_couple(couple) for couple in apart.couples]
    rows = tuple(dict.fromkeys(row for each in found for row in each.rows))
    required, notes = "lines that may touch", choices(apart.notes, "and")
    worst = [each for each in found if each.verdict is not Verdict.PASS]
    if not worst and not apart.unknown:
        return Answer(required, "metals close to each other", rows).passed(
            f"Whichever of the lines that {notes} keeps apart touch, their metals lie close."
        )
    why = f" Touching, {worst[0].message}" if worst else ""
    names = f" Without a row: {', '.join(apart.unknown)}." if apart.unknown else ""
    more = f" {len(worst) - 1} more pairs differ too much." if len(worst) > 1 else ""
    return Answer(required, f"items {', '.join(apart.items)}", rows).unproven(
        Reason.FACT_MISSING,
        f"That nothing touches here is said by {notes} only, of lines whose metals may not touch "
        f"where they are wet.{why}{more}{names}",
    )


_PLATE = "kind: structural, description: Plate, materials: [{material: '304', exposure: splash}]"
_NOTED = (
    "{chemicals: [{name: tap water, temperature: 20 °C}], unless_stated: "
    "[{document: ES-12, role: designer, facts: {contacts: none}}]}"
)
_BESIDE = (
    "  - {item: '2', location: case, kind: structural, description: Bracket, "
    "materials: [{material: 'METAL', exposure: splash}]}\n"
)

NOTED_CONTACTS = Rule[NotedApart](
    id="noted-contacts",
    title="Lines that a note keeps apart may touch",
    family=Family.MATERIALS,
    subject=Subject.PLACE,
    clause="Limits of 0.15, 0.25 and 0.50 V by atmosphere, as in `galvanic-couple`",
    why="A note that nothing touches is written for a whole machine; nobody looked at each pair.",
    remedy="State `contacts` of the lines named: what they touch, or `none` on the line itself.",
    answer_by=Role.DESIGNER,
    note="Asked once for a place. `contacts: none` on a line is taken at its word.",
    ask=_ask_noted,
    judge=_judge_noted,
    examples=(
        Example(
            "316 beside 304", Verdict.PASS, _PLATE, _NOTED, more=_BESIDE.replace("METAL", "316")
        ),
        Example(
            "Aluminium beside 304",
            Verdict.UNPROVEN,
            _PLATE,
            _NOTED,
            more=_BESIDE.replace("METAL", "6061"),
        ),
    ),
)
