"""Belts by what they are for, hoses by what flows in them: do they carry their charge away?"""

from collections.abc import Iterator
from decimal import Decimal

from areafit.checks.ignition.static import StaticLimits, static_limits
from areafit.checks.ignition.static_surface import Surface, surface_of
from areafit.demands import Demands
from areafit.demands.demand import place_names
from areafit.facts.mechanics import BeltUse, Conveyed, Form
from areafit.facts.part import Body, MaterialUse
from areafit.facts.quantity import Dimension, number, show
from areafit.rule import Answer, Ask, Example, Family, Judgement, Row, Rule, Subject
from areafit.tables import Tables
from areafit.tables.limits import BeltLimit, Figure, belt_limit, figure
from areafit.tables.materials import metallic
from areafit.tables.part_names import Piece, pieces
from areafit.values import Frozen, replace
from areafit.verdict import Reason, Role, Verdict


class Belt(Frozen):
    """A belt and the limits of its place; Ω, m and m/s, None where not stated.

    `resistance` is taken from its running face to earth, `surface` along the face. `drives`: it is
    called a drive belt, which never speaks for it.
    """

    use: BeltUse | None
    limits: StaticLimits
    place: str
    resistance: Decimal | None = None
    surface: Decimal | None = None
    width: Decimal | None = None
    speed: Decimal | None = None
    drives: bool = False


class Hose(Frozen):
    """A hose: what flows in it, its resistance from end to end in Ω, and its wall."""

    conveys: Conveyed | None
    resistance: Decimal | None
    wall: Surface
    rows: tuple[Row, ...] = ()


Question = Belt | Hose


def _ask(body: Body, demands: Demands) -> Iterator[Ask[Question]]:
    """Every material that is said to be a belt or a hose, or is called one.

    A part that is called one is made of one: of what states a resistance, else of the first that
    is no metal, whatever its component is called. A part that says what its belts or hoses are
    for, or how fast they run, has one, listed or not.
    """
    forms = [_form(use, body) for use in body.materials or ()]
    for called in dict.fromkeys(_NAMED.values()):
        at = None if called in forms else _made_of(called, body, demands.tables)
        if at is not None and forms[at] is None:
            forms[at] = called
    for i, (use, form) in enumerate(zip(body.materials or (), forms, strict=True)):
        if form is not None:
            yield from _asked(form, use, body, demands, f"materials/{i}/{_KEYS[form]}")
    said = {
        Form.BELT: (("use", body.use), ("belt_speed", body.belt_speed)),
        Form.HOSE: (("conveys", body.conveys),),
    }
    for form, facts in said.items():
        path = next((key for key, fact in facts if fact is not None), None)
        if path is not None and form not in forms:
            yield from _asked(form, MaterialUse("not listed"), body, demands, path)


def _asked(
    form: Form, use: MaterialUse, body: Body, demands: Demands, path: str
) -> Iterator[Ask[Question]]:
    for hazard in demands.hazards:
        if form is Form.HOSE:
            wall, rows, _ = surface_of(use, demands.tables)
            hose = Hose(use.conveys or body.conveys, use.resistance, wall, rows)
            yield Ask(hose, path, use.component)
            continue
        belt = Belt(
            use.use or body.use,
            static_limits(demands, hazard),
            place_names(hazard),
            use.resistance,
            use.surface_resistance,
            use.width,
            use.speed if use.speed is not None else body.belt_speed,
            Piece.DRIVE_BELT in pieces(_name(use, body)) | pieces(body.equipment.description or ""),
        )
        yield Ask(belt, path, use.component)


_KEYS = {Form.BELT: "use", Form.HOSE: "resistance"}
_NAMED = {Piece.BELT: Form.BELT, Piece.DRIVE_BELT: Form.BELT, Piece.HOSE: Form.HOSE}


def _form(use: MaterialUse, body: Body) -> Form | None:
    """What it is said to be, or called; a piece without a name is what the part is called."""
    if use.form is not None:
        return use.form
    called = pieces(_name(use, body))
    return next((form for name, form in _NAMED.items() if name in called), None)


def _made_of(form: Form, body: Body, tables: Tables) -> int | None:
    """The material that a belt or hose is made of, where only the part's name says that it is."""
    called = pieces(body.equipment.description or "")
    uses = body.materials or ()
    if form not in {_NAMED[piece] for piece in called if piece in _NAMED}:
        return None
    stated = [i for i, use in enumerate(uses) if use.resistance is not None]
    soft = [i for i, use in enumerate(uses) if not _metal(use.material, tables)]
    return next(iter((*stated, *soft)), None)


def _metal(name: str, tables: Tables) -> bool:
    grades = tables.materials(name)
    return bool(grades) and all(map(metallic, grades))


def _name(use: MaterialUse, body: Body) -> str:
    return use.component or body.equipment.description or ""


def _judge(question: Question) -> Judgement:
    return _judge_hose(question) if isinstance(question, Hose) else _judge_belt(question)


class BeltReading(Frozen):
    """What the limits of one use and group make of a belt, and which facts it still needs."""

    limit: BeltLimit
    verdict: Verdict
    message: str = ""
    remedy: str = ""
    missing: tuple[str, ...] = ()


def _judge_belt(belt: Belt) -> Judgement:
    """By the use that is stated; where none is, by both, so that saying it never passes less.

    What is called a drive belt is not asked what it is for, and passes only where the limits of
    one that carries goods don't object: these differ in speed and surface.
    """
    limits = belt.limits
    groups = dict.fromkeys((limits.governing, limits.mildest))
    uses = (BeltUse.TRANSMISSION, BeltUse.CONVEYING) if belt.use is None else (belt.use,)
    by_use = [[_read(belt, belt_limit(use, g.level, g.group)) for g in groups] for use in uses]
    governing, mildest = by_use[0][0], by_use[0][-1]
    answer = Answer(
        required="; ".join(_required(readings[0].limit) for readings in by_use),
        found=_found(belt),
        rows=tuple(_row(readings[0].limit) for readings in by_use),
    )
    sure = by_use[:1] if belt.drives else by_use
    holds = all(readings[0].verdict is Verdict.PASS for readings in sure)
    if holds and not any(readings[0].verdict is Verdict.FLAG for readings in by_use):
        rows = tuple(_row(readings[0].limit) for readings in sure)
        return replace(answer, rows=rows).passed("The belt carries its charge away.")
    if all(reading.verdict is Verdict.FLAG for readings in sure for reading in readings):
        return answer.flagged(mildest.message, remedy=mildest.remedy)
    if belt.use is None:
        return answer.unproven(
            Reason.FACT_MISSING,
            "Whether the belt drives something or carries goods is not stated; the limits differ.",
            remedy="State `use: transmission` or `use: conveying`.",
            answer_by=Role.DESIGNER,
        )
    if governing.verdict is Verdict.FLAG and limits.gap is not None:
        return answer.unproven(
            limits.gap.reason,
            f"{governing.message} That holds for {limits.governing.group}; the group is not known: "
            f"{limits.gap.message}.",
            remedy=limits.gap.remedy,
            answer_by=Role.AREA_OWNER,
        )
    if governing.verdict is Verdict.FLAG:
        return answer.unproven(
            Reason.NO_DATA,
            f"{governing.message} That holds for {limits.governing.group}; the Division letter "
            "covers gases of a milder group too.",
            remedy="List the substances of the place, or choose another belt.",
            answer_by=Role.AREA_OWNER,
        )
    keys = " and ".join(f"`{key}`" for key in governing.missing)
    return answer.unproven(
        Reason.FACT_MISSING,
        f"Of the belt {keys} {'is' if len(governing.missing) == 1 else 'are'} not stated.",
        remedy=f"Choose a conductive grade and state {keys}.",
    )


def _read(belt: Belt, limit: BeltLimit) -> BeltReading:
    """What one row makes of the belt."""
    if not limit.allowed:
        where = f"{belt.place} with gases of {limit.group}" if limit.group == "IIC" else belt.place
        what = f"A drive belt charges itself as it runs; none is allowed in {where}."
        without = "Drive it without a belt, or move it to another `location`."
        return BeltReading(limit, Verdict.FLAG, what, without)
    if limit.use is BeltUse.TRANSMISSION:
        return _driven(belt, limit)
    if belt.surface is not None and belt.surface > limit.surface:
        least = show(limit.surface, Dimension.RESISTANCE)
        grade = f"Choose a grade of `surface_resistance: {least}` at most."
        message = "The surface of the belt keeps its charge."
        return BeltReading(limit, Verdict.FLAG, message, grade)
    if belt.speed is not None and belt.speed > limit.fastest:
        if not limit.faster_as_transmission:
            return _too_fast(limit)
        fast = _driven(belt, belt_limit(BeltUse.TRANSMISSION, limit.level, limit.group))
        if fast.verdict is not Verdict.PASS:
            return fast
    return _complete(limit, ("surface_resistance", belt.surface), ("belt_speed", belt.speed))


def _driven(belt: Belt, limit: BeltLimit) -> BeltReading:
    if (belt.resistance or 0) * (belt.width or 0) > limit.resistance_width:
        grade = (
            "Choose a narrower belt or a conductive grade, so that `resistance` times `width` is "
            f"at most {number(limit.resistance_width / 1000)} kΩ·m."
        )
        return BeltReading(limit, Verdict.FLAG, "The belt keeps its charge.", grade)
    if belt.speed is not None and belt.speed > limit.fastest:
        return _too_fast(limit)
    return _complete(
        limit,
        ("resistance", belt.resistance),
        ("width", belt.width),
        ("belt_speed", belt.speed),
    )


def _too_fast(limit: BeltLimit) -> BeltReading:
    slower = f"Run the belt at `speed: {show(limit.fastest, Dimension.SPEED)}` at most."
    return BeltReading(limit, Verdict.FLAG, "The belt runs too fast.", slower)


def _complete(limit: BeltLimit, *facts: tuple[str, Decimal | None]) -> BeltReading:
    missing = tuple(key for key, value in facts if value is None)
    return BeltReading(limit, Verdict.UNPROVEN if missing else Verdict.PASS, missing=missing)


def _row(limit: BeltLimit) -> Row:
    return Row.of(
        "belts", f"{limit.use.value}, {limit.level}, {limit.group}", limit, _required(limit)
    )


def _required(limit: BeltLimit) -> str:
    which = f"{limit.use.value} (EPL {limit.level}, {limit.group})"
    if not limit.allowed:
        return f"{which}: no belt"
    fastest = show(limit.fastest, Dimension.SPEED)
    if limit.use is BeltUse.TRANSMISSION:
        product = show(limit.resistance_width, Dimension.RESISTANCE)
        return f"{which}: resistance times width at most {product}·m, at most {fastest}"
    surface = show(limit.surface, Dimension.RESISTANCE)
    return f"{which}: surface at most {surface}, at most {fastest}"


def _found(belt: Belt) -> str:
    stated = (
        (belt.resistance, Dimension.RESISTANCE, " to earth"),
        (belt.surface, Dimension.RESISTANCE, " along its surface"),
        (belt.width, Dimension.LENGTH, " wide"),
        (belt.speed, Dimension.SPEED, ""),
    )
    told = [show(value, unit) + more for value, unit, more in stated if value is not None]
    use = "use not stated" if belt.use is None else belt.use.value
    return ", ".join([f"belt, {use}", *told])


_LIMIT, _OTHERS = (
    "end-to-end resistance of a hose",
    "end-to-end resistance of a hose for dust that other sources allow",
)


def _judge_hose(hose: Hose) -> Judgement:  # noqa: PLR0911 - one return for each answer
    limit, resistance = figure(_LIMIT), hose.resistance
    stated = "not stated" if resistance is None else show(resistance, Dimension.RESISTANCE)
    flow = "what flows in it not stated" if hose.conveys is None else f"for {hose.conveys.value}"
    answer = Answer(
        required=f"at most {limit.value} from end to end, of dust a wall that conducts; free for "
        "clean air",
        found=f"hose, {flow}, {stated}",
        rows=(Row.of_figure(limit),),
    )
    if hose.conveys is Conveyed.AIR:
        return replace(answer, rows=()).passed(
            "Clean air does not charge a hose; its outside is judged as a surface."
        )
    low = resistance is not None and resistance <= limit.amount(Dimension.RESISTANCE)
    walled = replace(answer, rows=(*answer.rows, *hose.rows))
    if low and hose.wall is Surface.CARRIES:
        return walled.passed("The hose carries its charge away, whatever flows in it.")
    if hose.conveys is None:
        return answer.unproven(
            Reason.FACT_MISSING,
            "What flows in the hose is not stated: clean air does not charge it, liquid and dust "
            "do.",
            remedy="State `conveys`: air, liquid or dust; for the latter two `resistance` too.",
            answer_by=Role.DESIGNER,
        )
    if resistance is None:
        return answer.unproven(
            Reason.FACT_MISSING, "The resistance of the hose from end to end is not stated."
        )
    if low and hose.conveys is Conveyed.LIQUID:
        return answer.passed("The hose carries the charge of the liquid away.")
    if low:
        return walled.unproven(
            Reason.FACT_MISSING,
            "A wire joins the ends of the hose; that its wall conducts is not shown. Dust charges "
            "an insulating wall until it discharges, wire or not.",
            remedy="State `surface_resistance` of the inner wall, or choose a conductive wall.",
        )
    return _over(hose, resistance, limit, answer)


def _over(hose: Hose, resistance: Decimal, limit: Figure, answer: Answer) -> Judgement:
    """Of dust some sources allow more; the more onerous figure governs."""
    others = figure(_OTHERS)
    if hose.conveys is Conveyed.DUST and resistance <= others.amount(Dimension.RESISTANCE):
        return replace(answer, rows=(*answer.rows, Row.of_figure(others))).unproven(
            Reason.NO_DATA,
            f"Sources disagree on hoses for dust: {limit.value} or {others.value} from end to end. "
            "This one lies between.",
            remedy=f"Choose a hose of at most {limit.value}, or have it accepted.",
        )
    return answer.flagged(
        "The hose does not carry away the charge of what flows in it.",
        remedy=f"Choose a hose of `resistance: {limit.value}` at most from end to end.",
    )


BELT_AND_HOSE = Rule[Question](
    id="belt-and-hose",
    title="Belts and hoses carry their charge away",
    family=Family.IGNITION,
    subject=Subject.BODY,
    clause="IEC TS 60079-32-1:2013 6 (belts), 7 (hoses); ISO 284:2012",
    why="A belt is charged by every turn, a hose by the liquid or powder in it; both reach a "
    "dangerous charge in seconds where they insulate.",
    remedy="Choose a conductive grade and state `resistance`, of a drive belt `width` and "
    "`belt_speed` too, of a conveyor belt `surface_resistance` and `belt_speed`.",
    answer_by=Role.SUPPLIER,
    note="Drive belts are held to resistance times width (for V-belts twice the flank width "
    "counts), and are not allowed at level a nor with gases of IIC. Conveyor and elevator belts "
    "are held to the resistance of their surface; those faster than 5 m/s with gases of IIA and "
    "IIB to the rule of drive belts too. A Division 1 is read as level b unless the place states "
    "level a. Pulleys and rollers are judged by `bonding`.",
    ask=_ask,
    judge=_judge,
    examples=(
        Example(
            "A conductive drive belt",
            Verdict.PASS,
            "{kind: mechanical, use: transmission, materials: [{component: drive belt, "
            "material: CR, resistance: 300 kohm, width: 30 mm, belt_speed: 12 m/s}]}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
        Example(
            "The same in Zone 0",
            Verdict.FLAG,
            "{kind: mechanical, use: transmission, materials: [{component: drive belt, "
            "material: CR, resistance: 300 kohm, width: 30 mm, belt_speed: 12 m/s}]}",
            "{area: 'Zone 0, IIB, T3'}",
        ),
        Example(
            "A slow conveyor belt in IIC",
            Verdict.PASS,
            "{kind: mechanical, use: conveying, belt_speed: 0.3 m/s, materials: "
            "[{component: belt, material: TPU-ether, surface_resistance: 100 Mohm}]}",
            "{area: 'Zone 1, IIC, T3'}",
        ),
        Example(
            "An elevator belt that insulates",
            Verdict.FLAG,
            "{kind: mechanical, use: conveying, belt_speed: 2 m/s, materials: "
            "[{component: elevator belt, material: NBR, surface_resistance: 2 Gohm}]}",
            "{area: 'Zone 21, IIIB, T120 °C'}",
        ),
        Example(
            "A belt that may carry or drive",
            Verdict.UNPROVEN,
            "{kind: mechanical, materials: [{form: belt, material: TPU-ether, "
            "surface_resistance: 100 Mohm, belt_speed: 0.3 m/s}]}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
        Example(
            "An air line",
            Verdict.PASS,
            "{kind: mechanical, materials: [{component: hose, material: TPU-ether, conveys: air}]}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
        Example(
            "A hose of unknown resistance",
            Verdict.UNPROVEN,
            "{kind: mechanical, materials: [{component: transfer hose, material: PTFE, "
            "conveys: liquid}]}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
    ),
)
