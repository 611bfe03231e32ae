"""Lines that are cables, cords or raceways: which the installation rules name for the area."""

from collections.abc import Iterator

from areafit.checks.area.nameplate import ChosenCodes, is_intrinsically_safe, is_wiring
from areafit.demands import Demands
from areafit.facts.fittings import CordServes, CordUsage, Enclosure, Wiring, WiringMethod
from areafit.facts.part import Equipment
from areafit.facts.place import Area
from areafit.facts.protection import Hazard, Law
from areafit.rule import Answer, Ask, Example, Family, Judgement, Row, Rule, Subject
from areafit.tables.area import WiringAllowed, WiringRow, wiring_rows
from areafit.values import Frozen, replace
from areafit.verdict import Reason, Role, Verdict

_CORD = WiringMethod.FLEXIBLE_CORD


class WiringRun(Frozen):
    """The method in an area, whether it moves, who has access, and of a wireway how tight it is."""

    method: WiringMethod | None
    moves: bool | None
    restricted_access: bool | None
    law: Law
    area: Area
    enclosure: Enclosure | None = None


def _areas(demands: Demands) -> Iterator[Area]:
    yield from (area for hazard in demands.hazards for area in hazard.areas)


def _ask_method(plate: ChosenCodes, demands: Demands) -> Iterator[Ask[WiringRun]]:
    """Electrical lines that state `wiring`, or that the description calls a cable or a raceway.

    Intrinsically safe circuits may be run as in ordinary places; flexible cords have a rule.
    """
    own = plate.equipment
    stated = own.wiring or Wiring()
    if stated.method is _CORD or not _is_wired(own):
        return
    access = demands.place.restricted_access
    tight = own.enclosure if stated.method is WiringMethod.WIREWAY else None
    for area in _areas(demands):
        question = WiringRun(stated.method, stated.moves, access, demands.law, area, tight)
        yield Ask(question, "" if _only_access_is_open(question) else "wiring")


def _is_wired(own: Equipment) -> bool:
    """Whether it is a cable or a raceway, or states by which its sparks could be fed."""
    wired = is_wiring(own) or (own.electrical and own.wiring is not None)
    return wired and not own.in_loop and not any(map(is_intrinsically_safe, own.codes))


def _only_access_is_open(run: WiringRun) -> bool:
    """Whether nothing is left to say of the line, but of its place."""
    row = wiring_rows(run.law.value, run.area.key).get(run.method.value) if run.method else None
    return (
        row is not None
        and row.allowed is WiringAllowed.RESTRICTED
        and run.restricted_access is not True
    )


def _judge_method(run: WiringRun) -> Judgement:
    named = wiring_rows(run.law.value, run.area.key)
    method = run.method
    answer = Answer(
        required=f"for {run.area.name}: {_named(named)}",
        found="not stated" if method is None else method.value,
    )
    if method is None:
        return answer.unproven(Reason.FACT_MISSING, "The kind of cable or raceway is not stated.")
    row = named.get(method.value)
    if row is None:
        return answer.flagged(
            f"The rules name no such cable or raceway for {run.area.name}.",
            remedy=""
            if named
            else "Run it at another `location`: only intrinsically safe circuits may enter.",
        )
    answer = Answer(answer.required, answer.found, (_cited(row),), row.clause)
    return _by_condition(run, row, answer)


def _by_condition(run: WiringRun, row: WiringRow, answer: Answer) -> Judgement:
    if row.allowed is WiringAllowed.MOVING and run.moves is not True:
        message = f"{row.method} is for what moves or vibrates"
        if run.moves is False:
            return answer.flagged(f"{message}, which this does not.")
        return answer.unproven(
            Reason.FACT_MISSING,
            f"{message}; whether this does is not stated.",
            remedy="State `wiring: {moves: …}`.",
            answer_by=Role.DESIGNER,
        )
    if row.allowed is WiringAllowed.RESTRICTED and run.restricted_access is not True:
        message = f"{row.method} is for places that the public is kept out of"
        if run.restricted_access is False:
            return answer.flagged(f"{message}; this is none.")
        return answer.unproven(
            Reason.FACT_MISSING,
            f"{message} and that qualified persons service; whether this is one is not stated.",
            remedy="State `restricted_access` of the place.",
            answer_by=Role.AREA_OWNER,
        )
    if row.allowed is WiringAllowed.TIGHT and run.enclosure is not Enclosure.DUSTTIGHT:
        return _not_tight(run, row, answer)
    note = f", {row.note}" if row.note else ""
    return answer.passed(f"The rules name it for {run.area.name}{note}.")


def _not_tight(run: WiringRun, row: WiringRow, answer: Answer) -> Judgement:
    message = f"A {row.method} must be {row.note} here"
    if run.enclosure in {Enclosure.OPEN, Enclosure.GENERAL_PURPOSE}:
        return answer.flagged(f"{message}; this one is {run.enclosure.value}.")
    return answer.unproven(
        Reason.FACT_MISSING,
        f"{message}; whether this one is, is not stated.",
        remedy="State `enclosure: dusttight` of one with gaskets.",
    )


def _named(named: dict[str, WiringRow]) -> str:
    if not named:
        return "intrinsically safe circuits only"
    shown = (
        row.method if row.allowed is WiringAllowed.YES else f"{row.method} ({row.allowed.value})"
        for row in named.values()
    )
    return ", ".join(shown)


def _cited(row: WiringRow) -> Row:
    return Row.of("wiring_methods", f"{row.law}, {row.area}, {row.method}", row, row.allowed.value)


WIRING_METHOD = Rule[WiringRun](
    id="wiring-method",
    title="Cables and raceways are of a kind that the rules name here",
    family=Family.AREA,
    subject=Subject.NAMEPLATE,
    clause="NFPA 70-2023 501.10, 502.10, 503.10; NFPA 70-2023 505.15, 506.15; "
    "IEC 60079-14:2013 9.3",
    why="A fault in a cable is a spark in the open, and a raceway leads gas to where it is lit.",
    remedy="State `wiring: {method: …}` by the cable's own marking, and choose a kind that the "
    "rules name for the area.",
    answer_by=Role.INSTALLER,
    note="Asked of lines that are cables, cords or raceways, and judged where another states "
    "`wiring`; else how equipment is wired is decided on site. Most rows are from memory of "
    "NFPA 70; fittings must be listed for the place.",
    ask=_ask_method,
    judge=_judge_method,
    examples=(
        Example(
            "Rigid conduit",
            Verdict.PASS,
            "{kind: electrical, description: Conduit, wiring: {method: threaded rigid conduit}}",
            "{area: 'Class I, Division 1, Group D'}",
            "NEC",
        ),
        Example(
            "A motor on plastic conduit",
            Verdict.FLAG,
            "{kind: electrical, marking: 'Class I, Division 1, Group D T3', wiring: {method: PVC "
            "conduit}}",
            "{area: 'Class I, Division 1, Group D'}",
            "NEC",
        ),
        Example(
            "Tray cable in Division 1",
            Verdict.FLAG,
            "{kind: electrical, description: 'Cable, 4 cores', wiring: {method: TC cable}}",
            "{area: 'Class I, Division 1, Group D'}",
            "NEC",
        ),
        Example(
            "A cable of which nothing is said",
            Verdict.UNPROVEN,
            "{kind: electrical, description: 'Cable, 4 cores'}",
            "{area: 'Class I, Division 2, Group D'}",
            "NEC",
        ),
    ),
)


class FlexibleCord(Frozen):
    """What a cord is built for and what it feeds.

    `moves` counts for fixed equipment, access for that and in gas for what moves.
    """

    usage: CordUsage | None
    serves: CordServes | None
    grounding_conductor: bool | None
    moves: bool | None
    restricted_access: bool | None
    law: Law
    gas: bool = False
    zone_0: bool = False


def _ask_cord(plate: ChosenCodes, demands: Demands) -> Iterator[Ask[FlexibleCord]]:
    """Electrical lines whose wiring is a flexible cord."""
    own = plate.equipment
    cord = own.wiring
    if demands.classified and cord is not None and cord.method is _CORD and _is_wired(own):
        access = demands.place.restricted_access
        gas = any(each.hazard is Hazard.GAS for each in demands.hazards)
        question = FlexibleCord(
            cord.usage,
            cord.serves,
            cord.grounding_conductor,
            cord.moves,
            access,
            demands.law,
            gas,
            any(area.zone == 0 for area in _areas(demands)),
        )
        yield Ask(question, "" if _only_qualified_is_open(question) else "wiring")


def _only_qualified_is_open(cord: FlexibleCord) -> bool:
    """Whether nothing is left to say of the cord, but who services the place."""
    told = None not in (cord.usage, cord.serves, cord.grounding_conductor)
    follows = cord.serves is CordServes.MOVING and cord.gas and cord.law is Law.NEC
    return told and follows and cord.restricted_access is not True


def _judge_cord(cord: FlexibleCord) -> Judgement:
    grounded = {True: "with a grounding conductor", False: "without a grounding conductor"}
    words = (
        "usage not stated" if cord.usage is None else f"{cord.usage.value} usage",
        "what it feeds not stated" if cord.serves is None else f"feeds {cord.serves.value}",
        "grounding conductor not stated"
        if cord.grounding_conductor is None
        else grounded[cord.grounding_conductor],
    )
    answer = Answer(
        required="extra-hard usage, a grounding conductor, and equipment that cannot be fed by "
        "fixed wiring",
        found=", ".join(words),
    )
    if cord.zone_0:
        return replace(answer, required="intrinsically safe circuits only").flagged(
            "Nothing but intrinsically safe circuits may be wired in Zone 0.",
            remedy="Feed what is there by an intrinsically safe circuit, and list that under "
            "`loops` in its place; or move it to another `location`.",
        )
    if cord.grounding_conductor is False:
        return answer.flagged("A cord needs a grounding conductor beside its other conductors.")
    if cord.usage is CordUsage.LIGHT or (cord.usage is CordUsage.HARD and cord.law is Law.NEC):
        return answer.flagged(f"A cord for {cord.usage.value} usage is too weak for this place.")
    return _cord_service(cord, answer)


def _cord_service(cord: FlexibleCord, answer: Answer) -> Judgement:
    if None in (cord.usage, cord.serves, cord.grounding_conductor):
        return answer.unproven(
            Reason.FACT_MISSING,
            "Usage, grounding conductor and what the cord feeds are not all stated.",
        )
    if cord.usage is CordUsage.HARD:
        return answer.unproven(
            Reason.CONDITION_TO_ACCEPT,
            "An ordinary rubber sheath serves small equipment of up to 250 V and 6 A that is "
            "handled gently; somebody must accept that it is.",
        )
    if cord.serves is CordServes.FIXED and cord.law is Law.NEC:
        return _fixed(cord, answer)
    if _only_qualified_is_open(cord):
        return _moving(cord, answer)
    return answer.passed("The cord suits what it feeds; its fittings must be listed for the place.")


def _fixed(cord: FlexibleCord, answer: Answer) -> Judgement:
    """Fixed equipment takes a cord only where wiring cannot follow its movement (501.140(A))."""
    if cord.moves is False or cord.restricted_access is False:
        return answer.flagged(
            "Fixed equipment takes a cord only where it moves, and only where qualified persons "
            "alone have access."
        )
    if cord.moves and cord.restricted_access:
        return answer.passed("Fixed wiring cannot follow the movement, and access is restricted.")
    return answer.unproven(
        Reason.FACT_MISSING,
        "Whether the equipment moves, and whether the public is kept out, is not both stated.",
        remedy="State `wiring: {moves: …}`, and `restricted_access` of the place; or wire it "
        "fixed.",
        answer_by=Role.DESIGNER,
    )


def _moving(cord: FlexibleCord, answer: Answer) -> Judgement:
    """What moves takes a cord only where qualified persons alone service it (501.140(A)(2))."""
    message = "In gas a cord may follow what moves only where qualified persons alone service it"
    answer = replace(answer, clause="NFPA 70-2023 501.140")
    if cord.restricted_access is False:
        return answer.flagged(f"{message}; the public has access here.")
    return answer.unproven(
        Reason.FACT_MISSING,
        f"{message}; whether the public is kept out is not stated.",
        remedy="State `restricted_access` of the place; or wire it with a listed flexible fitting.",
        answer_by=Role.AREA_OWNER,
    )


FLEXIBLE_CORD = Rule[FlexibleCord](
    id="flexible-cord",
    title="Flexible cords are strong, grounded, and where they are needed",
    family=Family.AREA,
    subject=Subject.NAMEPLATE,
    clause="NFPA 70-2023 501.140, 502.140, 503.140; NFPA 70-2023 505.17; IEC 60079-14:2013 9.3",
    why="A cord is dragged, trodden on and pulled; where its sheath fails it sparks in the open.",
    remedy="State `wiring: {usage: …, serves: …, grounding_conductor: …}`; choose extra-hard "
    "usage, or wire the equipment fixed.",
    answer_by=Role.DESIGNER,
    note="From memory. Length in one piece, support and seals of the cord are made on site.",
    ask=_ask_cord,
    judge=_judge_cord,
    examples=(
        Example(
            "A strong cord of a portable pump",
            Verdict.PASS,
            "{kind: electrical, description: Cord, wiring: {method: flexible cord, usage: "
            "extra-hard, serves: portable equipment, grounding_conductor: true}}",
            "{area: 'Class I, Division 2, Group D'}",
            "NEC",
        ),
        Example(
            "A light cord",
            Verdict.FLAG,
            "{kind: electrical, description: Cord, wiring: {method: flexible cord, usage: light}}",
            "{area: 'Class I, Division 2, Group D'}",
            "NEC",
        ),
        Example(
            "A cord of which only the kind is said",
            Verdict.UNPROVEN,
            "{kind: electrical, description: Cord, wiring: {method: flexible cord}}",
            "{area: 'Class I, Division 2, Group D'}",
            "NEC",
        ),
    ),
)
