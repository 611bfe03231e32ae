"""Aluminium, magnesium, titanium and zirconium: how much of them, and what they strike."""

from collections.abc import Iterable, Iterator
from decimal import Decimal
from functools import lru_cache

from areafit.checks.ignition.assessment import Motion, awaits_papers, awaits_plate, covered, motion
from areafit.demands import Demands
from areafit.demands.demand import asked_level
from areafit.facts.evidence import Examined
from areafit.facts.fittings import Device
from areafit.facts.part import Body, Equipment, Kind, MaterialUse
from areafit.facts.quantity import Dimension, number
from areafit.rule import Answer, Ask, Example, Family, Judgement, Row, Rule, Subject
from areafit.tables import Tables
from areafit.tables.limits import LightMetalLimit, Rust, counterface, figure, light_metal_limit
from areafit.tables.materials import Material, metallic
from areafit.tables.part_names import Piece, names_wiring, pieces
from areafit.tables.words import is_added
from areafit.values import Frozen, Term, replace
from areafit.verdict import Reason, Role, Verdict
from areafit.wording import nearest_known, use_known_name

_ELEMENTS = {
    "al": "Al", "aluminium": "Al", "aluminum": "Al",
    "mg": "Mg", "magnesium": "Mg",
    "ti": "Ti", "titanium": "Ti",
    "zr": "Zr", "zirconium": "Zr",
}  # fmt: skip
_ALL = frozenset(_ELEMENTS.values())
_HUNDRED = Decimal(100)

Composition = tuple[tuple[str, Decimal], ...]


class MassPercent(Frozen):
    """A content: what it is at least, and at most. Both are equal if it is known."""

    least: Decimal
    most: Decimal


class Content(Frozen):
    """Al+Mg+Ti+Zr and Mg+Ti+Zr of a material, and the titanium and zirconium in it.

    `known` is False where neither the grade nor a composition says anything: then a share is
    anything from nothing to all, and `nearest` holds known names if no table has this one.
    """

    total: MassPercent
    without_aluminium: MassPercent
    sparks: MassPercent
    known: bool
    rows: tuple[Row, ...] = ()
    nearest: tuple[str, ...] = ()


def content_of(use: MaterialUse, name: str, tables: Tables) -> Content:
    """The content of a material of a part; the more onerous of grade and stated composition.

    An element that a composition leaves out may be as much as the grade allows, or, where the
    grade is not known, as much as the composition leaves open.
    """
    composition = use.composition if name == use.material else None
    key = ("light metal content", name, composition)
    return tables.remembered(key, lambda: _of(name, composition, tables))


def _of(name: str, composition: Composition | None, tables: Tables) -> Content:
    grades = tables.materials(name)
    stated = None if composition is None else _stated(composition)
    by_grade = [_grade(grade) for grade in grades]
    contents = [content for content in by_grade if content is not None]
    if contents and len(contents) == len(by_grade):
        return _spread(contents, _content(stated or {}, Decimal(0)))
    if stated is not None:
        rest = max(Decimal(0), _HUNDRED - sum(dict(composition or ()).values()))
        return _content(stated, Decimal(0) if stated.keys() >= _ALL else rest)
    anything = MassPercent(Decimal(0), _HUNDRED)
    near = () if grades else tables.nearest("materials", name)
    return Content(anything, anything, anything, known=False, nearest=near)


def _stated(composition: Composition) -> dict[str, Decimal]:
    found = ((_ELEMENTS.get(name.strip().casefold()), share) for name, share in composition)
    return {element: share for element, share in found if element is not None}


def _content(stated: dict[str, Decimal], rest: Decimal) -> Content:
    """`rest` may be any of the elements that are not stated."""

    def share(elements: Iterable[str]) -> MassPercent:
        wanted = set(elements)
        least = sum((stated.get(element, Decimal(0)) for element in wanted), Decimal(0))
        return MassPercent(least, least if wanted <= stated.keys() else least + rest)

    return Content(share(_ALL), share(_ALL - {"Al"}), share(("Ti", "Zr")), known=True)


def _grade(grade: Material) -> Content | None:
    total, rest = grade.light_metal_pct_max, grade.mg_ti_zr_pct_max
    if total is None or rest is None:
        return None
    spark = rest if grade.family in ("titanium", "zirconium") else Decimal(0)
    value = f"Al+Mg+Ti+Zr at most {total} %, Mg+Ti+Zr at most {rest} %"
    row = Row.of("materials", f"{grade.id} light metals", grade, value)
    return Content(
        MassPercent(total, total),
        MassPercent(rest, rest),
        MassPercent(spark, spark),
        known=True,
        rows=(row,),
    )


def _spread(grades: list[Content], stated: Content) -> Content:
    """From the leanest to the richest grade that a name may mean, not below what is stated."""

    def share(shares: list[MassPercent], own: MassPercent) -> MassPercent:
        least, most = min(s.least for s in shares), max(s.most for s in shares)
        return MassPercent(max(least, own.least), max(most, own.least))

    return Content(
        share([c.total for c in grades], stated.total),
        share([c.without_aluminium for c in grades], stated.without_aluminium),
        share([c.sparks for c in grades], stated.sparks),
        known=True,
        rows=tuple(row for c in grades for row in c.rows),
    )


_SPARKING = ("impact", "friction", "spark", "light metal", "aluminium", "aluminum", "titanium")
_FANS = ("fan", "impeller", "hood", "cowl", "screen", "blower", "rotor blade")


class LightMetal(Frozen):
    """What a material holds against the limit of a level.

    `fan` says whether it is a fan, hood or vent screen; None where no component is named.
    `content` is None where the part states no materials. `papers` are what the part's documents
    say of its housing, `added` that this may be no part of it, None where it is not named.
    `one_side`: one side of the part faces the process here, and which the material is of is not
    known.
    """

    name: str
    content: Content | None
    limit: LightMetalLimit
    fan: bool | None
    papers: Examined | None = None
    added: bool | None = False
    one_side: bool = False


_AGAINST_RUST = "light metal against rust"


class Light(Term):
    """Whether a material is a light metal for this purpose."""

    YES = "light metal"
    SPARKS = "titanium or zirconium"
    NO = "no light metal"
    UNKNOWN = "not known"


class Face(Frozen):
    """One half of a pair; `rust` and `hard` are None where the material is not known.

    `alloyed`: it is no light metal, and holds more of one than an impurity.
    """

    name: str
    light: Light
    rust: Rust | None
    hard: bool | None
    rows: tuple[Row, ...]
    alloyed: bool = False


class FrictionPair(Frozen):
    """What a material rubs or may strike; `other` is None where it is not stated."""

    own: Face
    other: Face | None
    touches_nothing: bool = False


Question = LightMetal | FrictionPair


def _ask(body: Body, demands: Demands) -> Iterator[Ask[Question]]:
    if not demands.classified:
        return
    limits = [
        _Limited(
            light_metal_limit(asked_level(demands, each).value),
            body.papers(each.hazard),
            refused=each.hazard in body.refused,
        )
        for each in demands.hazards
    ]
    if body.materials is None:
        for each in limits:
            waits = each.refused or awaits_papers(body.equipment, each.papers)
            if not (waits or _is_out_of_question(body.equipment, each.limit)):
                yield Ask(
                    LightMetal("not stated", None, each.limit, None, each.papers), "materials"
                )
        return
    for i, use in enumerate(body.materials):
        for question in _contents(use, body, limits, demands):
            yield Ask(question, f"materials/{i}/material", use.component)
        pair = _pair(use, body, demands)
        if pair is not None:
            yield Ask(pair, f"materials/{i}/counterface", use.component)


class _Limited(Frozen):
    """The limit of one hazard, what the papers say against it, whether the plate is flagged."""

    limit: LightMetalLimit
    papers: Examined | None
    refused: bool


def _contents(
    use: MaterialUse, body: Body, limits: list[_Limited], demands: Demands
) -> Iterator[LightMetal]:
    """What a material and its substrate hold, against each limit that is for it."""
    fan = _fan(use, body)
    # A limit for fans, hoods and vent screens is not for others.
    own = [each for each in limits if fan is not False or not each.limit.fans_only]
    for name in dict.fromkeys(filter(None, (use.material, use.substrate))) if own else ():
        content = content_of(use, name, demands.tables)
        if _has_none(name, content, demands):
            continue
        added = None if use.component is None else is_added(use.component)
        for each in own:
            question = LightMetal(
                name,
                content,
                each.limit,
                fan,
                each.papers,
                added if each.papers is not None else False,
                body.equipment.faces_process,
            )
            # Of a part that is flagged already only what is over for sure is told.
            if not each.refused or _by_content(question, content).verdict is not Verdict.UNPROVEN:
                yield question


_WITHOUT_FAN = frozenset(
    {
        Device.JUNCTION_BOX,
        Device.RELAY,
        Device.CONTACTOR,
        Device.SWITCH,
        Device.PUSH_BUTTON,
        Device.CIRCUIT_BREAKER,
        Device.RECEPTACLE,
        Device.RESISTOR,
        Device.SOLENOID,
    }
)


def _is_out_of_question(equipment: Equipment, limit: LightMetalLimit) -> bool:
    """What has no fan where the limit is for fans; and a cable or raceway, which is no enclosure.

    NFPA 70-2023 501.10 names rigid conduit of aluminium beside that of steel; from memory.
    """
    if not equipment.electrical or equipment.kinds != {Kind.ELECTRICAL}:
        return False
    if equipment.device is not None:
        return limit.fans_only and equipment.device in _WITHOUT_FAN
    return equipment.description is not None and names_wiring(equipment.description)


def _has_none(name: str, content: Content, demands: Demands) -> bool:
    """Whether a material is no metal and holds no light metal: the limits are not for it."""
    grades = demands.tables.materials(name)
    return (
        content.known
        and content.total.most == 0
        and bool(grades)
        and not any(metallic(grade) for grade in grades)
    )


def _fan(use: MaterialUse, body: Body) -> bool | None:
    """Whether part or component is called a fan, hood or vent screen; None where it has no name.

    A wheel of a part that is called a fan is one, whatever else the wheel is called.
    """
    whole, component = body.equipment.description, use.component
    if whole is not None and Piece.FAN in pieces(whole):
        return True
    return None if component is None else _is_fan(component)


@lru_cache(maxsize=4096)  # many parts have a component of the same name
def _is_fan(component: str) -> bool:
    folded = component.casefold()
    return Piece.FAN in pieces(component) or any(word in folded for word in _FANS)


def _pair(use: MaterialUse, body: Body, demands: Demands) -> FrictionPair | None:
    """The friction pair: asked where it is stated, and of light metals that move unassessed."""
    tables = demands.tables
    if use.counterface is not None:
        own = _face_of(use, tables)
        if use.counterface == "none":
            return FrictionPair(own, None, touches_nothing=True)
        return FrictionPair(own, _other_face(use.counterface, tables))
    moves = motion(body) in (Motion.MOVING, Motion.LOOSE)
    if not moves or _light(content_of(use, use.material, tables)) is Light.NO:
        return None
    if covered(body, demands) or awaits_plate(body, demands):
        return None
    return FrictionPair(_face_of(use, tables), None)


def _face_of(use: MaterialUse, tables: Tables) -> Face:
    """A material of the part as one half of a pair."""
    return _face(use.material, content_of(use, use.material, tables), tables)


def _other_face(name: str, tables: Tables) -> Face:
    """The material that it meets, given by name; a word such as `rusty steel` tells as well."""
    content = content_of(MaterialUse(name), name, tables)
    face = _face(name, content, tables)
    if "rust" in name.casefold() and not tables.materials(name):
        return Face(name, Light.NO, Rust.YES, hard=True, rows=())
    return face


def _face(name: str, content: Content, tables: Tables) -> Face:
    key = ("face of a pair", name, content)
    return tables.remembered(key, lambda: _seen(name, content, tables))


def _seen(name: str, content: Content, tables: Tables) -> Face:
    found = [counterface(grade.family) for grade in tables.materials(name)]
    known = [each for each in found if each is not None]
    if not known or len(known) < len(found):
        return Face(name, _light(content), None, None, content.rows, alloyed=_alloyed(content))
    order = list(Rust)
    rust = min((each.rusts for each in known), key=order.index)
    families = dict.fromkeys(
        Row.of("counterfaces", each.family, each, f"rusts: {each.rusts.value}") for each in known
    )
    rows = (*content.rows, *families)
    hard = any(each.hard for each in known)
    return Face(name, _light(content), rust, hard, rows, alloyed=_alloyed(content))


def _alloyed(content: Content) -> bool:
    impurity = figure("light metal as an impurity").amount(Dimension.FRACTION)
    return _light(content) is Light.NO and content.total.most > impurity


def _light(content: Content) -> Light:
    """Whether the content makes a material a light metal; unknown where it may."""
    limit = figure(_AGAINST_RUST).amount(Dimension.FRACTION)
    if content.sparks.least > limit:
        return Light.SPARKS
    if content.total.least > limit:
        return Light.YES
    return Light.UNKNOWN if content.total.most > limit else Light.NO


def _judge(question: Question) -> Judgement:
    if isinstance(question, FrictionPair):
        return _judge_pair(question)
    return _judge_content(question, question.content)


def _judge_content(question: LightMetal, content: Content | None) -> Judgement:
    """By the content, or by what was examined with the equipment.

    What is over the limit for sure is certified under a condition only (IEC 60079-0:2017 8.3).
    """
    own, papers = _by_content(question, content), question.papers
    if own.verdict is Verdict.PASS or papers is None:
        return own
    over = own.verdict is Verdict.FLAG and not question.one_side
    if papers.paper is not None and question.added is False and (not over or _speaks_of(papers)):
        return Answer(own.required, own.found, own.rows, _CLAUSE).passed(
            f"Examined with the equipment that it is of: {papers.by}."
        )
    why, more = _why_not(question, papers)
    return replace(own, message=f"{own.message} {why}", remedy=f"{own.remedy or _REMEDY}{more}")


def _speaks_of(papers: Examined) -> bool:
    """Whether a condition that is met is one about sparks."""
    texts = (condition.text.casefold() for condition in papers.met)
    return any(word in text for text in texts for word in _SPARKING)


def _why_not(question: LightMetal, papers: Examined) -> tuple[str, str]:
    """Why the papers of the part do not answer, and what else would let them."""
    if papers.lacks:
        why = f"Its documents do not answer it: {papers.lacks}."
        return why, " Or settle what the documents lack."
    if question.added:
        return "Its documents do not answer for what is, or may be, added later.", ""
    if question.added is None and question.content is not None:
        return (
            (
                "Its documents answer for the maker's own housing. Which component this is, is not "
                "said."
            ),
            " Or name the `component` that it is of.",
        )
    return "No condition of an X for it is among its documents.", ""


def _by_content(question: LightMetal, content: Content | None) -> Judgement:
    limit = question.limit
    answer = Answer(
        required=_required(limit),
        found="not stated" if content is None else _found(question.name, content),
        rows=(_limit_row(limit), *(content.rows if content is not None else ())),
    )
    if content is None:
        return answer.unproven(
            Reason.FACT_MISSING,
            "No materials are stated, so their light metals are not known.",
            remedy="State `materials` with their grades.",
        )
    if not _over(content, limit, most=True):
        return answer.passed("Within the limit.")
    if not content.known:
        return answer.unproven(
            Reason.NAME_UNKNOWN,
            f"{question.name!r} is in no table and no composition is stated."
            f"{nearest_known(content.nearest)}",
            remedy=use_known_name(content.nearest, "state `composition` with Al, Mg, Ti and Zr"),
        )
    if limit.fans_only and question.fan is None:
        return answer.unproven(
            Reason.FACT_MISSING,
            "Over the limit for fans, hoods and vent screens; which component this is, is not "
            "stated.",
            remedy="State `component`.",
        )
    if not _over(content, limit, most=False):
        return answer.unproven(
            Reason.FACT_MISSING,
            f"{question.name} may hold more light metal than the limit allows.",
            remedy="Name the grade, or state Al, Mg, Ti and Zr each, zero where there is none.",
        )
    return answer.flagged(
        f"{question.name} holds more light metal than the level allows.",
        remedy="Choose an alloy within the limit, steel or bronze as `material`, or a part that is "
        "certified with it for the place, and meet the conditions of its X.",
    )


def _over(content: Content, limit: LightMetalLimit, *, most: bool) -> bool:
    total, rest = content.total, content.without_aluminium
    value, other = (rest.most, total.most) if most else (rest.least, total.least)
    whole = limit.al_mg_ti_zr_pct
    return value > limit.mg_ti_zr_pct or (whole is not None and other > whole)


def _required(limit: LightMetalLimit) -> str:
    whole = limit.al_mg_ti_zr_pct
    total = "" if whole is None else f"Al+Mg+Ti+Zr at most {number(whole)} %, "
    who = " for fans, hoods and vent screens" if limit.fans_only else ""
    return f"{total}Mg+Ti+Zr at most {number(limit.mg_ti_zr_pct)} % (EPL {limit.level}){who}"


def _limit_row(limit: LightMetalLimit) -> Row:
    whole = limit.al_mg_ti_zr_pct
    total = "" if whole is None else f"Al+Mg+Ti+Zr {whole} %, "
    value = f"{total}Mg+Ti+Zr {limit.mg_ti_zr_pct} %"
    return Row.of("light_metal_limits", limit.level, limit, value)


def _found(name: str, content: Content) -> str:
    if not content.known:
        return f"{name}: not known"
    total, rest = content.total.most, content.without_aluminium.most
    return f"{name}: Al+Mg+Ti+Zr up to {number(total)} %, Mg+Ti+Zr up to {number(rest)} %"


def _judge_pair(pair: FrictionPair) -> Judgement:
    """Either half may be the light one."""
    own, other = pair.own, pair.other
    required = "no light metal that rubs or strikes rust, no titanium on anything hard"
    if pair.touches_nothing:
        answer = Answer(required=required, found="counterface none")
        return answer.passed(f"{own.name} rubs and strikes nothing.")
    answer = Answer(
        required=required,
        found=f"{own.name} ({own.light.value}), counterface not stated",
        clause="EN 1127-1:2019 (friction and impact); ISO 80079-36:2016 6.4",
    )
    if other is None:
        return answer.unproven(
            Reason.FACT_MISSING,
            f"What {own.name} rubs or may strike is not stated.",
            remedy="State `counterface` with the material that it meets, or `none`.",
        )
    rows = tuple(dict.fromkeys((*own.rows, *other.rows)))
    found = f"{own.name} ({own.light.value}) against {other.name} ({other.light.value})"
    answer = replace(answer, found=found, rows=rows)
    lights = (_lights(own, other), _lights(other, own))
    if True in lights:
        share = Row.of_figure(figure(_AGAINST_RUST))
        return replace(answer, rows=(*rows, share)).flagged(
            "A light metal that rubs or strikes rust makes sparks that light at any energy; "
            "titanium and zirconium do so on any hard body.",
            remedy="Choose stainless steel or bronze for one of the two, as `material` or as "
            "`counterface`; or keep them apart and state `counterface: none`.",
        )
    if None in lights:
        return answer.unproven(
            Reason.NO_DATA,
            "Whether one of the two is a light metal and the other may rust is not known.",
            remedy="Name the grades of both by known names, or keep the two apart.",
        )
    shares = _shares(own, other) + _shares(other, own)
    return replace(answer, rows=tuple(dict.fromkeys((*rows, *shares)))).passed(
        "No light metal meets rust."
    )


def _shares(metal: Face, body: Face) -> tuple[Row, ...]:
    """The share that made no light metal of an alloy, where nothing else keeps it from lighting."""
    spared = body.hard is False or body.rust is Rust.NO
    return () if spared or not metal.alloyed else (Row.of_figure(figure(_AGAINST_RUST)),)


def _lights(metal: Face, body: Face) -> bool | None:
    """Whether `metal` on `body` lights; None where it cannot be told."""
    if metal.light is Light.NO or body.hard is False:
        return False
    if metal.light is Light.UNKNOWN or body.rust is None:
        return None
    if metal.light is Light.SPARKS or body.rust is Rust.YES:
        return True
    return None if body.rust is Rust.POSSIBLE else False


_CLAUSE = "IEC 60079-0:2017 8; ISO 80079-36:2016 6.4"
_REMEDY = (
    "Choose an alloy within the limit, steel or bronze, or a part that is certified with it for "
    "the place, and meet the conditions of its X."
)

LIGHT_METAL = Rule[Question](
    id="light-metal",
    title="Light metals stay within the limits, and away from rust",
    family=Family.IGNITION,
    subject=Subject.BODY,
    clause="IEC 60079-0:2017 8.3, 8.4; IEC 60079-14:2013 5.10; ISO 80079-36:2016 6.4; "
    "EN 1127-1:2019 (friction and impact)",
    why="A light metal struck by rusty steel burns like thermite: one blow lights gas and dust.",
    remedy=_REMEDY,
    answer_by=Role.DESIGNER,
    note="A marking answers it for the maker's own housing, with a document that serves for it, at "
    "the level, group and ambient of the place and with the conditions of its X met; not what was "
    "added, nor what rubs on rust. A grade counts with its maximum, a stated composition if it is "
    "more onerous. NFPA 70 limits no light metal: a Division 1 is read as level b unless the "
    "place states level a, a Division 2 as level c; rust counts everywhere.",
    ask=_ask,
    judge=_judge,
    examples=(
        Example(
            "Aluminium 6061 in Zone 1: aluminium itself is not limited",
            Verdict.PASS,
            "{kind: structural, materials: [{component: housing, material: aluminium 6061}]}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
        Example(
            "Aluminium 6061 in Zone 0",
            Verdict.FLAG,
            "{kind: structural, materials: [{component: carriage, material: aluminium 6061}]}",
            "{area: 'Zone 0, IIB, T3'}",
        ),
        Example(
            "A magnesium fan in Zone 2",
            Verdict.FLAG,
            "{kind: electrical, materials: [{component: fan, material: AZ91D}]}",
            "{area: 'Zone 2, IIA, T1'}",
        ),
        Example(
            "A light alloy of no known grade",
            Verdict.UNPROVEN,
            "{kind: structural, materials: [{component: lever, material: light alloy X}]}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
        Example(
            "An aluminium wheel on a rusty rail",
            Verdict.FLAG,
            "{kind: mechanical, materials: "
            "[{component: wheel, material: 6082, counterface: rusty steel}]}",
            "{area: 'Zone 1, IIA, T1'}",
        ),
    ),
)
