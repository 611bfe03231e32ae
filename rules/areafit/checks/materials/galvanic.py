"""Metals that touch where it is wet: what a list says of the contact, and what that makes of it."""

from collections.abc import Iterator
from itertools import combinations

from areafit.checks.materials.ambiguous import most_severe
from areafit.checks.materials.couple import Couple, aqueous, couples, judged
from areafit.corrosion.relief import is_fastener
from areafit.demands import Demands
from areafit.errors import choices
from areafit.facts import place
from areafit.facts.part import LIQUID, WET, Exposure, Item, MaterialUse
from areafit.facts.place import Atmosphere
from areafit.rule import Answer, Ask, Example, Family, Judgement, Rule, Subject
from areafit.subjects import ContactCase, PlaceCase, part_variants
from areafit.tables.materials import GalvanicLimit, metallic
from areafit.values import Frozen, replace
from areafit.verdict import Reason, Role, Verdict
from areafit.wording import nearest_known, use_known_name

# What is asked of a contact


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
        if case.exposed and _may_conduct(case, demands) and _any_metal(case.materials, demands):
            yield Ask(Open("contacts", "the part"))
        return
    if case.inside and not aqueous(demands):
        return
    component = case.own.component if case.own is not None else None
    yield Ask(_contact(case, demands), "", component)


def _may_conduct(case: ContactCase, demands: Demands) -> bool:
    """Whether what wets the part may be an electrolyte: water, or anything but neutral solvents.

    A list of chemicals speaks of more than vapour, so that those of it count whatever they are.
    """
    listed = demands.chemicals
    return case.washed or not listed or not all(each.solvent for each in listed)


def _any_metal(uses: tuple[MaterialUse, ...] | None, demands: Demands) -> bool:
    """Whether any listed material can be half of a couple; what is unknown may be."""
    if uses is None:
        return True
    found = (demands.tables.materials(use.material) for use in uses)
    return any(not rows or any(metallic(row) for row in rows) for rows in found)


def _any_piece(case: ContactCase, demands: Demands) -> Contact | None:
    """The worst of the pairs that may be meant, where all of them pass or none does.

    Which piece it is then decides nothing. None where it does.
    """
    pairs = [
        _contact(replace(case, own=own, other=other), demands)
        for own in case.any_own
        for other in case.any_other
    ]
    found = [(_judge(pair), pair) for pair in pairs]
    verdicts = {judgement.verdict for judgement, _ in found}
    if len(verdicts) != 1 or verdicts == {Verdict.UNPROVEN}:
        return None
    worst = most_severe(judgement for judgement, _ in found)
    return next(pair for judgement, pair in found if judgement is worst)


def _contact(  # noqa: PLR0911 - one return for each answer
    case: ContactCase, demands: Demands
) -> Contact:
    if case.own is None or case.other is None:
        alike = _any_piece(case, demands)
        if alike is not None:
            return alike
    if case.own is None:
        return Open("own component", case.other_item or "")
    if case.other is None:
        return Open("other component", case.other_item or "")
    for use in (case.own, case.other):
        if not demands.tables.materials(use.material):
            near = demands.tables.nearest("materials", use.material)
            return Open("material", use.material, near)
    washed = aqueous(demands) and case.own.exposure in LIQUID and case.other.exposure in LIQUID
    if case.wet is False and not washed:
        return Dry("kept dry")
    if case.own.exposure is case.other.exposure is Exposure.ENCLOSED and not case.wet:
        return Dry("enclosed and dry")
    wet = case.exposed or case.wet is True
    pairs = couples(case.own, case.other, demands, wet=wet, washed=washed)
    if case.inside or case.wet is False:
        return Doubtful(pairs, inside=case.inside)
    return Touching(pairs)


def _judge(contact: Contact) -> Judgement:
    """The worst of the pairs that the names may mean."""
    if isinstance(contact, Open):
        return _open(contact)
    if isinstance(contact, Dry):
        return Answer("no lasting wetness, or metals close to each other", contact.why).passed(
            f"No electrolyte, no couple: {contact.why}."
        )
    found = most_severe(judged(couple) for couple in contact.couples)
    return _doubtful(contact, found) if isinstance(contact, Doubtful) else found


def _doubtful(contact: Doubtful, found: Judgement) -> Judgement:
    """A pair that only a dry contact would let pass, or that may not touch at all."""
    if found.verdict is Verdict.PASS:
        return found
    if contact.inside:
        return Answer(found.required, found.found, found.rows).unproven(
            Reason.CONDITION_TO_ACCEPT,
            "Two metals of this part are wetted alike; whether they touch is not stated. If they "
            f"do: {found.message}",
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
    remedy="Use like metals as `material`, or part them with a sleeve and washers and take the "
    "touch off `contacts`; or coat the nobler side or both.",
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
    if not (controlled and case.wet is True) or aqueous(demands):
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
                    if not unfit or judged(couple).verdict is not Verdict.PASS
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
    found = [judged(couple) for couple in apart.couples]
    rows = tuple(dict.fromkeys(row for each in found for row in each.rows))
    required, notes = "lines that may touch", choices(apart.notes, "and")
    worst = [each for each in found if each.verdict is not Verdict.PASS]
    if not worst and not apart.unknown:
        return Answer(required, "metals close to each other", rows).passed(
            f"The metals of the lines that {notes} keeps apart lie close, whichever touch."
        )
    why = f" Touching, {worst[0].message}" if worst else ""
    names = f" Without a row: {', '.join(apart.unknown)}." if apart.unknown else ""
    more = f" {len(worst) - 1} more pairs differ too much." if len(worst) > 1 else ""
    return Answer(required, f"items {', '.join(apart.items)}", rows).unproven(
        Reason.FACT_MISSING,
        f"Lines that {notes} keeps apart have metals that may not touch where they are wet; which "
        f"of them touch is not stated.{why}{more}{names}",
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
