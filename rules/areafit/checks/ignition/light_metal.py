"""Aluminium, magnesium, titanium and zirconium: how much of them, and what they strike."""

from collections.abc import Iterator

from areafit.checks.ignition.cite import light_metal_row
from areafit.checks.ignition.conditions import SPARKING, met_condition
from areafit.checks.ignition.content import Content, content_of
from areafit.checks.ignition.friction_pair import (
    Light,
    PairQuestion,
    face_of,
    judge_pair,
    light,
    other_face,
)
from areafit.checks.ignition.role import Motion, motion
from areafit.checks.ignition.shown import covered
from areafit.demands import Demands, HazardDemand
from areafit.demands.levels import asked_level
from areafit.facts.evidence import Condition
from areafit.facts.part import Body, MaterialUse
from areafit.facts.place import AreaSystem
from areafit.facts.protection import Level
from areafit.facts.quantity import number
from areafit.naming import nearest_known, use_known_name
from areafit.rule import (
    Ask,
    Example,
    Family,
    Judgement,
    Row,
    Rule,
    Subject,
    flagged,
    passed,
    unproven,
)
from areafit.tables.families import metallic
from areafit.tables.ignition import LightMetalLimit, light_metal_limit
from areafit.values import Frozen
from areafit.verdict import Reason, Role, Verdict

_FANS = ("fan", "impeller", "hood", "cowl", "screen", "blower", "rotor blade")


class ContentQuestion(Frozen):
    """What a material holds against the limit of a level.

    `fan` says whether it is a fan, hood or vent screen; None where no component is named.
    `content` is None where the part states no materials.
    """

    name: str
    content: Content | None
    limit: LightMetalLimit
    fan: bool | None
    condition: Condition | None


Question = ContentQuestion | PairQuestion


def _ask(body: Body, demands: Demands) -> Iterator[Ask[Question]]:
    if not demands.classified:
        return
    limits = [light_metal_limit(_level(demands, h).value) for h in demands.hazards]
    if body.materials is None:
        for limit in limits:
            yield Ask(ContentQuestion("not stated", None, limit, None, None), "materials")
        return
    condition = met_condition(body.equipment, SPARKING)
    for i, use in enumerate(body.materials):
        path = f"materials/{i}"
        for name in dict.fromkeys(filter(None, (use.material, use.substrate))):
            content = content_of(use, name, demands.tables)
            if _has_none(name, content, demands):
                continue
            fan = _fan(use, body)
            for limit in limits:
                if limit.fans_only and fan is False:
                    continue  # a limit for fans, hoods and vent screens is not for others
                question = ContentQuestion(name, content, limit, fan, condition)
                yield Ask(question, f"{path}/material", use.component)
        pair = _pair(use, body, demands)
        if pair is not None:
            yield Ask(pair, f"{path}/counterface", use.component)


def _has_none(name: str, content: Content, demands: Demands) -> bool:
    """Whether a material is no metal and holds no light metal: the limits are not for it."""
    grades = demands.tables.materials(name)
    return (
        content.known
        and content.total.most == 0
        and bool(grades)
        and not any(metallic(grade) for grade in grades)
    )


def _level(demands: Demands, hazard: HazardDemand) -> Level:
    """The level asked for, but Division 1 read as level b.

    A Division 1 takes in what zones call 0 and 1; NFPA 70 limits no light metal in it, and
    aluminium is what listed explosionproof housings are made of.
    """
    asked, own = asked_level(demands, hazard), demands.place.required_level
    by_zone = any(area.system is AreaSystem.ZONE for area in hazard.areas)
    if asked.rank > 0 or by_zone or (own is not None and own.value[0] == asked.value[0]):
        return asked
    return Level(f"{asked.value[0]}b")


def _fan(use: MaterialUse, body: Body) -> bool | None:
    """Whether device or component is a fan, hood or vent screen; None where neither is named."""
    device = body.equipment.device
    named = [device.value] if device is not None else []
    if use.component is not None:
        named.append(use.component.casefold())
    if any(word in name for name in named for word in _FANS):
        return True
    return None if use.component is None else False


def _pair(use: MaterialUse, body: Body, demands: Demands) -> PairQuestion | None:
    """The friction pair: asked where it is stated, and of light metals that move unassessed."""
    tables = demands.tables
    if use.counterface is not None:
        own = face_of(use, tables)
        if use.counterface == "none":
            return PairQuestion(own, None, touches_nothing=True)
        return PairQuestion(own, other_face(use.counterface, tables))
    moves = motion(body) in (Motion.MOVING, Motion.LOOSE)
    if not moves or light(content_of(use, use.material, tables)) is Light.NO:
        return None
    return None if covered(body, demands) else PairQuestion(face_of(use, tables), None)


def _judge(question: Question) -> Judgement:
    if isinstance(question, PairQuestion):
        return judge_pair(question)
    limit, content = question.limit, question.content
    required = _required(limit)
    rows = (light_metal_row(limit), *(content.rows if content is not None else ()))
    if content is None:
        return unproven(
            Reason.FACT_MISSING,
            "No materials are stated, so their light metals are not known.",
            required=required,
            found="not stated",
            rows=rows,
            remedy="State `materials` with their grades.",
        )
    found = _found(question.name, content)
    if _over(content, limit, most=True) is False:
        return passed("Within the limit.", required=required, found=found, rows=rows)
    if question.condition is not None:
        return passed(
            f"Over the limit under a specific condition of use that is met: "
            f"{question.condition.text} ({question.condition.met_by}, "
            f"{question.condition.document}).",
            required=required,
            found=found,
            rows=rows,
        )
    return _not_within(question, content, required, found, rows)


def _not_within(
    question: ContentQuestion, content: Content, required: str, found: str, rows: tuple[Row, ...]
) -> Judgement:
    limit = question.limit
    if not content.known:
        return unproven(
            Reason.NAME_UNKNOWN,
            f"{question.name!r} is in no table and no composition is stated."
            f"{nearest_known(content.nearest)}",
            required=required,
            found=found,
            rows=rows,
            remedy=use_known_name(content.nearest, "state `composition` with Al, Mg, Ti and Zr"),
        )
    if limit.fans_only and question.fan is None:
        return unproven(
            Reason.FACT_MISSING,
            "Over the limit for fans, hoods and vent screens; which component this is, is not "
            "stated.",
            required=required,
            found=found,
            rows=rows,
            remedy="State `component`.",
        )
    if _over(content, limit, most=False) is False:
        return unproven(
            Reason.FACT_MISSING,
            "The name or the composition leaves open more light metal than the limit allows.",
            required=required,
            found=found,
            rows=rows,
            remedy="Name the grade, or state Al, Mg, Ti and Zr each, zero where there is none.",
        )
    return flagged(
        "More light metal than the level allows, and no specific condition of use that covers it.",
        required=required,
        found=found,
        rows=rows,
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


def _found(name: str, content: Content) -> str:
    if not content.known:
        return f"{name}: not known"
    total, rest = content.total.most, content.without_aluminium.most
    return f"{name}: Al+Mg+Ti+Zr up to {number(total)} %, Mg+Ti+Zr up to {number(rest)} %"


LIGHT_METAL = Rule[Question](
    id="light-metal",
    title="Light metals stay within the limits, and away from rust",
    family=Family.IGNITION,
    subject=Subject.BODY,
    clause="IEC 60079-0:2017 8.3, 8.4; IEC 60079-14:2013 5.10; ISO 80079-36:2016 6.4; "
    "EN 1127-1:2019 (friction and impact)",
    why="A light metal struck by rusty steel burns like thermite: one blow lights gas and dust.",
    remedy="Choose an alloy within the limit, steel or bronze, or a part whose certificate has a "
    "specific condition of use for it, and meet the condition.",
    answer_by=Role.DESIGNER,
    note="A grade counts with its maximum, a stated composition if it is more onerous. NFPA 70 "
    "limits no light metal: a Division 1 is read as level b, since cast aluminium is the ordinary "
    "housing of listed equipment there, a Division 2 as level c; rust counts everywhere.",
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
