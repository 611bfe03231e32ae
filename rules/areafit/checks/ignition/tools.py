"""Hand tools, and what comes off a part: pins, springs, and guards that only a tool releases."""

from collections.abc import Iterator

from areafit.checks.ignition.assessment import (
    Assessed,
    Motion,
    by_hand,
    cover_of,
    covered,
    examined_as_carried,
    motion,
)
from areafit.checks.ignition.static import static_limits
from areafit.demands import Demands, HazardDemand
from areafit.demands.demand import Gap, place_names
from areafit.documents import permission
from areafit.facts.evidence import Condition, EvidenceType
from areafit.facts.groups import Group
from areafit.facts.mechanics import LooseParts, Release, Sparks
from areafit.facts.part import Body, Kind
from areafit.facts.protection import Hazard, Level
from areafit.pattern import pattern
from areafit.rule import Answer, Ask, Example, Family, Judgement, Row, Rule, Subject
from areafit.tables import Tables
from areafit.tables.limits import (
    Allowed,
    HandToolRow,
    counterface,
    hand_tool,
    steel_tool_gas,
)
from areafit.tables.part_names import Piece, pieces, tool_named
from areafit.values import Frozen, Term, replace
from areafit.verdict import Reason, Role, Verdict


class Tool(Term):
    """What a tool is made of, as far as its sparks go; the worst of its materials counts."""

    STEEL = "steel"
    UNKNOWN = "of unknown material"
    METAL = "metal other than steel"
    SOFT = "nothing that sparks"


class HandTool(Frozen):
    """A tool at one place: its material and sparks, and what bars or permits its use.

    `sparks` are the worst of those stated and those of the tool that it is called (`named`).
    `gases` bar steel at level b; `open_gases` that the group is not known. `cleared` is the
    condition of an assessment that nothing explosive is present while it is used; `marked` and
    `assessed` reach the level asked for. `by_hand`: nothing else drives it.
    """

    material: Tool
    sparks: Sparks | None
    named: str
    level: Level
    place: str
    gases: tuple[str, ...] = ()
    gas_rows: tuple[Row, ...] = ()
    open_gases: bool = False
    gap: Gap | None = None
    cleared: Condition | None = None
    marked: bool = False
    assessed: bool = False
    by_hand: bool = False


_CLEARED = {
    Hazard.GAS: ("gas-free", "gas free", "free of gas", "free from gas", "no explosive atmosphere"),
    Hazard.DUST: ("dust-free", "dust free", "free of dust", "dust removed", "kept wet", "shielded"),
}
_ASSESSMENTS = frozenset({EvidenceType.ASSESSMENT})


def _ask_tool(body: Body, demands: Demands) -> Iterator[Ask[HandTool]]:
    """Loose items, what a hand moves and is called a tool, and whatever states its sparks.

    What is electrical counts only where it is called a tool: a test lamp strikes nothing.
    """
    equipment = body.equipment
    loose = Kind.LOOSE_ITEM in equipment.kinds
    if body.sparks is None and not loose and not by_hand(body):  # as of most parts
        return
    named = tool_named(equipment.description or "")
    plain = loose and not equipment.electrical and motion(body) is not None
    is_tool = (loose or by_hand(body)) if named is not None else plain
    if body.sparks is None and not is_tool:
        return
    stated = () if body.sparks is None else (body.sparks,)
    said = (*stated, named.sparks) if named is not None else stated
    for hazard in demands.hazards:
        cover = cover_of(body, demands, hazard)
        gases, rows = _barring(demands, hazard)
        limits = static_limits(demands, hazard)
        words = _CLEARED[Hazard.GAS if hazard.hazard is Hazard.GAS else Hazard.DUST]
        question = HandTool(
            _made_of(body, demands.tables),
            max(said, key=list(Sparks).index, default=None),
            "" if named is None else named.word,
            cover.asked,
            place_names(hazard),
            gases,
            rows,
            hazard.hazard is Hazard.GAS and limits.governing.group == Group.IIC.value,
            limits.gap,
            permission(equipment.evidence or (), _ASSESSMENTS, words),
            cover.by_marking,
            cover.assessed is Assessed.YES,
            by_hand(body),
        )
        yield Ask(question, "sparks")


def _made_of(body: Body, tables: Tables) -> Tool:
    """The worst of its materials; what calls itself steel is steel, known to the tables or not."""
    if body.materials is None:
        return Tool.STEEL if _calls_it_steel(body.equipment.description or "") else Tool.UNKNOWN
    found = [_tool(use.material, tables) for use in body.materials]
    found += [_tool(use.substrate, tables) for use in body.materials if use.substrate]
    return min(found, key=list(Tool).index, default=Tool.SOFT)


def _tool(name: str, tables: Tables) -> Tool:
    faces = [counterface(grade.family) for grade in tables.materials(name)]
    known = [face for face in faces if face is not None]
    if not known or len(known) < len(faces):
        return Tool.STEEL if _calls_it_steel(name) else Tool.UNKNOWN
    if any(face.steel for face in known):
        return Tool.STEEL
    return Tool.METAL if any(face.hard for face in known) else Tool.SOFT


_STEEL = pattern(r"\bsteel\b|stahl\b|\bacier\b|\bacciaio\b|\bacero\b|\bnon[- ]steel\b")


def _calls_it_steel(text: str) -> bool:
    return any(not found.group().startswith("non") for found in _STEEL.finditer(text.casefold()))


def _barring(demands: Demands, hazard: HazardDemand) -> tuple[tuple[str, ...], tuple[Row, ...]]:
    """The gases at the place with which no steel tool is used, and the rows that say so."""
    if hazard.hazard is not Hazard.GAS:
        return (), ()
    found: dict[str, Row] = {}
    for substance in demands.substances:
        row = steel_tool_gas(substance.gas.id) if substance.gas is not None else None
        if row is not None:
            found[substance.name] = Row.of("steel_tool_gases", row.substance, row, row.substance)
    if not found and static_limits(demands, hazard).mildest.group == Group.IIC.value:
        return ("gases of IIC",), ()
    return tuple(found), tuple(found.values())


def _judge_tool(tool: HandTool) -> Judgement:
    what = "sparks not stated" if tool.sparks is None else f"sparks: {tool.sparks.value}"
    called = f"{tool.named}, " if tool.named else ""
    answer = Answer(
        required=f"no sparks that light the atmosphere of {tool.place}",
        found=f"{called}{tool.material.value}, {what}",
    )
    match tool.sparks:
        case Sparks.NONE:
            return answer.passed("It strikes and cuts nothing.")
        case Sparks.SHOWER:
            return _of_steel(tool, Sparks.SHOWER, answer)
        case _ if tool.material is Tool.SOFT and (tool.sparks or tool.by_hand):
            return answer.passed("Nothing of it gives off sparks.")
        case Sparks.SINGLE:
            return _single(tool, answer)
    rows = tuple(_row(hand_tool(tool.level.value, s)) for s in (Sparks.SINGLE, Sparks.SHOWER))
    return replace(answer, rows=rows).unproven(Reason.FACT_MISSING, _WHICH, remedy=_STATE)


def _single(tool: HandTool, answer: Answer) -> Judgement:
    """One that slips and strikes: what steel may do, any other metal may."""
    if tool.marked:
        return answer.passed("Its marking reaches the level asked for.")
    if tool.material is Tool.STEEL:
        return _of_steel(tool, Sparks.SINGLE, answer)
    row = hand_tool(tool.level.value, Sparks.SINGLE)
    answer = replace(answer, rows=(_row(row),))
    if row.allowed is Allowed.YES and not (_is_barred(tool) or _may_be_barred(tool)):
        return answer.passed("Even a tool of steel may be used here, if its sparks are single.")
    if tool.material is Tool.UNKNOWN:
        return answer.unproven(
            Reason.FACT_MISSING,
            "Whether the tool is of steel is not known; here no tool of steel may be used.",
            remedy="State `materials` with grades that the tables know.",
            answer_by=Role.SUPPLIER,
        )
    if tool.assessed:
        return answer.passed("It is not of steel, and an assessment reaches the level asked for.")
    return answer.unproven(
        Reason.FACT_MISSING,
        "A tool that is not of steel lessens sparks and does not exclude them; here an assessment "
        "has to say that it will do.",
        remedy=f"State {_ASSESSED}.",
    )


_ASSESSED = "`evidence: [{type: assessment, number: …, level: …}]`"
_WHICH = "Which sparks the tool gives off in use is not stated."
_STATE = (
    "State `sparks`: single as of spanners, shower as of saws and grinders, or none where it "
    "strikes and cuts nothing."
)


def _is_barred(tool: HandTool) -> bool:
    return bool(tool.gases) and tool.level is Level.GB


def _may_be_barred(tool: HandTool) -> bool:
    return tool.open_gases and tool.level is Level.GB


def _of_steel(tool: HandTool, sparks: Sparks, answer: Answer) -> Judgement:
    row = hand_tool(tool.level.value, sparks)
    answer = replace(answer, clause=row.clause, rows=(_row(row), *tool.gas_rows))
    kind = "a shower of sparks" if sparks is Sparks.SHOWER else "single sparks"
    if row.allowed is Allowed.NO:
        return answer.flagged(
            f"It gives off {kind}; none are allowed in {tool.place}.",
            remedy="Take a tool that gives off none and is not of steel: state `sparks: none`, its "
            f"`materials` and {_ASSESSED}; or do the work at another `location`.",
        )
    if row.allowed is Allowed.YES and not _is_barred(tool):
        if _may_be_barred(tool):
            return _group_open(tool, answer)
        return replace(answer, rows=(_row(row),)).passed("Single sparks of steel are allowed here.")
    if tool.cleared is not None:
        return answer.passed(
            f"It is used only while nothing explosive is present: {tool.cleared.text} "
            f"({tool.cleared.met_by}, {tool.cleared.document})."
        )
    if row.allowed is Allowed.YES:
        return answer.flagged(
            f"No tool of steel may be used here with {' and '.join(tool.gases)}, unless the place "
            "is free of gas.",
            remedy=f"Take a tool whose `materials` are not of steel and have it assessed, or "
            f"{_CLEAR}.",
        )
    return answer.flagged(
        f"It gives off {kind}, which are allowed only while nothing explosive is present.",
        remedy=f"Do the work at another `location`, or {_CLEAR}.",
    )


_CLEAR = (
    "state that the place is cleared while it is used (gas-free; of dust: shielded, free of dust "
    "and kept wet) as a condition of an assessment: `evidence: [{type: assessment, number: …, "
    "conditions: [{text: …, met_by: …, document: …}]}]`"
)


def _group_open(tool: HandTool, answer: Answer) -> Judgement:
    message = (
        "No tool of steel may be used with gases of IIC, and the group is not known"
        f"{': ' + tool.gap.message if tool.gap is not None else ''}."
    )
    return answer.unproven(
        tool.gap.reason if tool.gap is not None else Reason.NO_DATA,
        message,
        remedy=tool.gap.remedy if tool.gap is not None else "List the substances of the place.",
        answer_by=Role.AREA_OWNER,
    )


def _row(row: HandToolRow) -> Row:
    return Row.of("hand_tools", f"{row.level}, {row.sparks.value}", row, row.allowed.value)


HAND_TOOLS = Rule[HandTool](
    id="hand-tools",
    title="Hand tools make no spark that lights the place",
    family=Family.IGNITION,
    subject=Subject.BODY,
    clause="EN 1127-1:2019 Annex A (tools)",
    why="A spanner that slips or falls makes a spark, a grinder a shower of them; hydrogen and "
    "its like are lit by the single one.",
    remedy="Choose a tool that is allowed here, or state an assessment with the condition that "
    "the place is gas-free (of dust: shielded, free of dust and kept wet) while it is used: "
    "`conditions: [{text: …, met_by: …, document: …}]`.",
    answer_by=Role.DESIGNER,
    note="By the level: no sparks at a; single sparks of steel at b and c, at b not with "
    "acetylene, carbon disulfide, carbon monoxide, ethylene oxide, hydrogen, hydrogen sulfide or "
    "others of IIC; showers only where nothing explosive is present. A permit to work belongs to "
    "all of it. What bronze and the like do not exclude, an assessment has to answer for; copper "
    "with acetylene is judged by `copper-alloy`.",
    ask=_ask_tool,
    judge=_judge_tool,
    examples=(
        Example(
            "A steel spanner in Zone 1 with ethanol",
            Verdict.PASS,
            "{kind: loose item, description: Spanner, materials: [{material: carbon steel}]}",
            "{area: 'Zone 1, IIB, T3', substances: [ethanol]}",
        ),
        Example(
            "The same with hydrogen, whatever assessment is on file",
            Verdict.FLAG,
            "{kind: loose item, description: Spanner, materials: [{material: carbon steel}], "
            "evidence: [{type: assessment, number: IHA-1, level: Gb}]}",
            "{area: 'Zone 1, IIC, T1', substances: [hydrogen]}",
        ),
        Example(
            "The same while the place is gas-free",
            Verdict.PASS,
            "{kind: loose item, description: Spanner, materials: [{material: carbon steel}], "
            "evidence: [{type: assessment, number: IHA-1, conditions: [{text: use only while the "
            "cell is measured gas-free, met_by: permit to work, document: PW-3}]}]}",
            "{area: 'Zone 1, IIC, T1', substances: [hydrogen]}",
        ),
        Example(
            "An angle grinder in Zone 2",
            Verdict.FLAG,
            "{kind: loose item, description: Angle grinder, drive: pneumatic}",
            "{area: 'Zone 2, IIA, T3'}",
        ),
        Example(
            "A steel tool that nothing names",
            Verdict.UNPROVEN,
            "{kind: loose item, materials: [{material: carbon steel}]}",
            "{area: 'Zone 2, IIA, T3'}",
        ),
    ),
)

_NAMES = frozenset({"spring", "springs", "pin", "pins", "ball", "balls", "clip", "lanyard"})


class LooseMetal(Frozen):
    """What becomes of loose metal; None where it is not stated."""

    loose_parts: LooseParts | None


def _ask_loose(body: Body, demands: Demands) -> Iterator[Ask[LooseMetal]]:
    """Loose items, parts that state it, and unassessed parts that are or hold such a thing."""
    if not demands.classified:
        return
    stated = body.loose_parts is not None
    named = Piece.LOOSE in pieces(body.equipment.description or "") or any(
        _NAMES & set((use.component or "").casefold().split()) for use in body.materials or ()
    )
    unseen = named and not body.equipment.electrical and not covered(body, demands)
    carried = motion(body) is Motion.LOOSE and not examined_as_carried(body, demands)
    if stated or carried or unseen:
        yield Ask(LooseMetal(body.loose_parts), "loose_parts")


def _judge_loose(metal: LooseMetal) -> Judgement:
    held = metal.loose_parts
    answer = Answer(
        required="no pin, spring or ball that can fall into an opening or onto moving parts",
        found="not stated" if held is None else held.value,
    )
    if held is None:
        return answer.unproven(
            Reason.FACT_MISSING,
            "What becomes of pins, springs and balls when the part is released is not stated.",
        )
    if held is LooseParts.FREE:
        return answer.flagged(
            "Loose metal can fall into an opening, where it strikes, jams and heats up."
        )
    return answer.passed("Nothing comes loose.")


LOOSE_PARTS = Rule[LooseMetal](
    id="loose-parts",
    title="Springs and pins stay with their part",
    family=Family.IGNITION,
    subject=Subject.BODY,
    clause="EN 1127-1:2019 (friction and impact); ISO 80079-36:2016 6.4; common practice",
    why="A pin or spring that drops into a machine is struck or dragged along by moving parts; "
    "foreign metal is a frequent cause of mechanical sparks.",
    remedy="State `loose_parts: none` where it has none; else hold them by a lanyard or inside a "
    "closed housing, and state `captive` or `contained`.",
    answer_by=Role.DESIGNER,
    ask=_ask_loose,
    judge=_judge_loose,
    examples=(
        Example(
            "A pull pin on a lanyard",
            Verdict.PASS,
            "{kind: loose item, loose_parts: captive}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
        Example(
            "A pull pin over the hopper",
            Verdict.FLAG,
            "{kind: loose item, loose_parts: free}",
            "{area: 'Zone 21, IIIB, T120 °C'}",
        ),
        Example(
            "A spring of which nothing is said",
            Verdict.UNPROVEN,
            "{kind: mechanical, materials: [{component: return spring, material: '302'}]}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
    ),
)


class Removal(Frozen):
    """Whether any protection depends on the part, and what it takes to remove it."""

    protects: bool | None
    release: Release | None


def _ask_removal(body: Body, demands: Demands) -> Iterator[Ask[Removal]]:
    """Loose items, every part that states one of the two, and what is called a guard or cover.

    What states the sparks that it gives off in use is a tool, on which no protection depends.
    """
    stated = body.protects is not None or body.release is not None
    called = pieces(body.equipment.description or "")
    guard = motion(body) is Motion.FIXED and Piece.GUARD in called
    carried = motion(body) is Motion.LOOSE and not examined_as_carried(body, demands)
    if demands.classified and (stated or guard or (carried and body.sparks is None)):
        key = "release" if body.release is not None else "protects"
        yield Ask(Removal(body.protects, body.release), key)


def _judge_removal(removal: Removal) -> Judgement:
    protects = {True: "protects", False: "protects nothing", None: "whether it protects not stated"}
    release = removal.release
    how = "release not stated" if release is None else f"released by {release.value}"
    answer = Answer(
        required="a tool, where any protection depends on the part",
        found=f"{protects[removal.protects]}, {how}",
    )
    if release is Release.TOOL:
        return answer.passed("It takes a tool to remove it.")
    if removal.protects is False:
        return answer.passed("No protection depends on it.")
    if removal.protects and release is Release.HAND:
        return answer.flagged("Protection depends on this part, and a hand can take it off.")
    return answer.unproven(
        Reason.FACT_MISSING,
        "Whether protection depends on the part, or what it takes to remove it, is not stated.",
    )


TOOL_RELEASE = Rule[Removal](
    id="tool-release",
    title="Protecting parts come off with a tool only",
    family=Family.IGNITION,
    subject=Subject.BODY,
    clause="IEC 60079-0:2017 9.1; ISO 80079-36:2016 (removable parts)",
    why="A guard or cover that can be lifted off by hand is missing sooner or later, and the "
    "protection with it.",
    remedy="Fasten it so that a tool is needed and state `release: tool`, or state "
    "`protects: false` if nothing depends on it.",
    answer_by=Role.DESIGNER,
    ask=_ask_removal,
    judge=_judge_removal,
    examples=(
        Example(
            "A screwed guard",
            Verdict.PASS,
            "{kind: structural, protects: true, release: tool}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
        Example(
            "A guard on a pull pin",
            Verdict.FLAG,
            "{kind: structural, protects: true, release: hand}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
        Example(
            "A loose item of which nothing is said",
            Verdict.UNPROVEN,
            "{kind: loose item}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
        Example(
            "A cover of which nothing is said",
            Verdict.UNPROVEN,
            "{kind: structural, description: Cover of the shaft}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
    ),
)
