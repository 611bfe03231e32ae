"""Level of protection against the class and division, or zone, of the place.

The acceptance table says which marking serves where; unmarked parts are for `general_purpose`.
"""

from collections.abc import Iterator
from datetime import date
from functools import lru_cache

from areafit.checks.area.general_purpose import GeneralUse, general_use, judge_general
from areafit.checks.area.nameplate import Candidate, ChosenCodes, Missing, is_intrinsically_safe
from areafit.demands import Demands
from areafit.demands.demand import required_level
from areafit.facts.evidence import EvidenceType
from areafit.facts.marking import Code, PartSide, process_half
from areafit.facts.part import Equipment, Item
from areafit.facts.place import Area, AreaSystem
from areafit.facts.protection import Hazard, Law, Level, MarkingSystem
from areafit.marking.level import effective_level
from areafit.rule import Answer, Ask, Example, Family, Judgement, Row, Rule, Subject
from areafit.tables.area import Acceptance, Accepted, acceptance
from areafit.tables.limits import figure
from areafit.values import Frozen, replace
from areafit.verdict import Reason, Role, Verdict, worst
from areafit.wording import capital


class LevelQuestion(Frozen):
    """Is this code accepted in these areas?

    `required_level` is the site's own demand; `general` is set where the part bears no marking
    and the governing rules know allowances for that; `in_use_before_2003` where it is stated that
    the part was in service before the European directive bound it, and `since_unknown` where
    nothing says since when it is; `listed` where a listing is. `inside` names the enclosure whose
    code this is; `uncounted` the one that an unmarked part stands in, with why it does not count.
    """

    law: Law
    areas: tuple[Area, ...]
    required_level: Level | None
    code: Code | None
    missing: Missing | None
    electrical: bool
    general: GeneralUse | None = None
    in_use_before_2003: bool = False
    listed: bool = False
    since_unknown: bool = False
    inside: Item | None = None
    uncounted: str = ""

    @classmethod
    def of(cls, choice: Candidate) -> "LevelQuestion":
        """The facts of a part with the demands of its place."""
        equipment, demands, hazard = choice.equipment, choice.demands, choice.hazard
        housed, use = equipment.housed, general_use(equipment, demands, choice.missing)
        whole = demands.hazard(hazard.hazard)
        lesser = whole is not None and hazard.areas != whole.areas  # inside a purge of type Y
        own = None if lesser else demands.place.level_asked(hazard.hazard)
        return cls(
            demands.law,
            hazard.areas,
            own,
            choice.code,
            choice.missing,
            equipment.electrical,
            use,
            _in_use_before_2003(equipment),
            any(each.type is EvidenceType.LISTING for each in equipment.evidence or ()),
            inside=housed.item if housed is not None and choice.path == "inside" else None,
            uncounted=f"item {housed.item}, which does not count: {housed.lacks}"
            if housed is not None and housed.lacks and use is not None
            else "",
            since_unknown=_before_categories(demands.law, choice.code)
            and equipment.placed_on_market is None
            and equipment.in_service is None,
        )


class AssociatedOutside(Frozen):
    """Associated apparatus in an unclassified place: where its marking asks it to stand."""

    code: Code


class NotElectrical(Frozen):
    """A code for equipment that is not electrical, under rules that are for electrical only."""

    code: Code
    areas: tuple[Area, ...]
    required_level: Level | None


def _ask(
    plate: ChosenCodes, demands: Demands
) -> Iterator[Ask[LevelQuestion | AssociatedOutside | NotElectrical]]:
    for choice in plate.asked:
        yield Ask(question_of(choice), choice.path)
    area = demands.place.area
    if area is None or area.problems or demands.classified or not area.areas:
        return
    for code in plate.equipment.codes:
        if code.associated:
            yield Ask(AssociatedOutside(code), "marking")


@lru_cache(maxsize=64)  # what papers answer asks it of the same nameplate
def question_of(choice: Candidate) -> LevelQuestion | NotElectrical:
    """NFPA 70 is for electrical equipment; what is not is asked for no listing by it."""
    level, code = LevelQuestion.of(choice), choice.code
    own = code is not None and code.non_electrical and not choice.electrical
    if code is None or not own or level.law is not Law.NEC:
        return level
    return NotElectrical(code, level.areas, level.required_level)


def judged_level(question: LevelQuestion | AssociatedOutside | NotElectrical) -> Judgement:
    """Of a code, by the rules that govern what bears it."""
    if isinstance(question, LevelQuestion):
        return _other_side(question.code, judge_level(question))
    if isinstance(question, NotElectrical):
        return _other_side(question.code, _judge_not_electrical(question))
    answer = Answer(
        required="a place outside the classified area",
        found=f"unclassified place; {describe(question.code)}",
        clause="IEC 60079-14:2013 16",
    )
    return answer.passed(
        "Associated apparatus stands outside the classified area, as its marking asks."
    )


def _other_side(code: Code | None, judged: Judgement) -> Judgement:
    """A part whose process side has no protection serves only where that side is known."""
    bare = code is not None and code.bare is PartSide.PROCESS and not code.faces_process
    if not bare or judged.verdict is not Verdict.PASS:
        return judged
    return Answer(judged.required, judged.found, clause="1999/92/EC Annex II A, B").unproven(
        Reason.FACT_MISSING,
        "A dash stands on the nameplate for the process side, which has no protection; what that "
        "side faces is not stated.",
        remedy="State `process_side`, the place of what flows through the part or lies behind it.",
        answer_by=Role.DESIGNER,
    )


def judge_level(question: LevelQuestion) -> Judgement:
    """The worst answer over the areas of one hazard; each must accept the code."""
    answers = [_cited(question, area, _judge_area(question, area)) for area in question.areas]
    verdict = worst(answer.verdict for answer in answers)
    judged = next(answer for answer in answers if answer.verdict is verdict)
    return _awaiting_enclosure(question, judged) if question.uncounted else judged


def _awaiting_enclosure(question: LevelQuestion, judged: Judgement) -> Judgement:
    """Of an unmarked part that cannot stand here by itself: the enclosure around it decides.

    What stands in a purged enclosure is general purpose (NFPA 496), so that nothing fails yet.
    """
    if judged.verdict is Verdict.PASS:
        return judged
    return Answer(judged.required, judged.found, clause=judged.clause).unproven(
        Reason.FACT_MISSING,
        f"It bears no marking and stands inside {question.uncounted}.",
        remedy="Settle what that enclosure lacks, with a document that names the part; or choose "
        "a part marked for the area.",
        answer_by=Role.DESIGNER,
    )


_ZONE_IN_A_DIVISION = {"I": "501.5", "II": "502.6", "III": "503.6"}


def _cited(question: LevelQuestion, area: Area, judgement: Judgement) -> Judgement:
    """With the clause of the area's own system under NFPA 70, where none is cited."""
    if judgement.clause or question.law is not Law.NEC:
        return judgement
    clause = "505.9" if area.hazard is Hazard.GAS else "506.9"
    if area.system is AreaSystem.DIVISION:
        code = question.code
        division = code is None or code.system is MarkingSystem.NEC_DIVISION
        clause = "500.8" if division else _ZONE_IN_A_DIVISION.get(area.hazard_class or "", "500.8")
    return replace(judgement, clause=f"NFPA 70-2023 {clause}")


def _judge_area(question: LevelQuestion, area: Area) -> Judgement:
    code = question.code
    if code is None:
        if question.general is not None:
            return judge_general(area, question.general)
        return _without_code(question, area)
    whole = _division_left_out(question, code)
    offer, found = offered(whole or code), describe(code)
    if whole is not None:
        found = f"{found}, no Division printed: Division 1"
    answer = Answer(_required(question, area), found)
    if offer is None:
        return _no_level(code, answer)
    if question.law is Law.ATEX and code.category is None:
        return _no_category(question, code, answer)
    row = acceptance().get((question.law.value, area.key, offer))
    return _accepted(question, area, row, answer) if row else _refused(area, code, answer)


def _refused(area: Area, code: Code, answer: Answer) -> Judgement:
    refused = f"{answer.found} is not accepted in {area.name}."
    if process_half(code) is code:
        return answer.flagged(refused, remedy=_to_match(answer.required))
    return answer.flagged(
        f"{refused} The better half of the marking counts on the process side only.",
        remedy="State the place of the process as `process_side`, with the place of the other "
        "side in `location`; or choose a part with a `marking` for the whole area.",
        answer_by=Role.DESIGNER,
    )


_CATEGORY = {0: "1G", 1: "2G", 2: "3G", 20: "1D", 21: "2D", 22: "3D"}


def _required(question: LevelQuestion, area: Area) -> str:
    level = required_level(area)
    if area.system is AreaSystem.DIVISION or area.zone is None or level is None:
        return f"identified for {area.name}"
    if question.law is Law.ATEX:
        return f"category {_CATEGORY[area.zone]} or better for {area.name}"
    prefix = "AEx, listed, " if question.law is Law.NEC else ""
    return f"{prefix}EPL {level.value} or better for {area.name}"


def _without_code(question: LevelQuestion, area: Area) -> Judgement:
    missing = question.missing or Missing.NO_MARKING
    answer = Answer(_required(question, area), missing.value)
    match missing:
        case Missing.NO_MARKING:
            return answer.unproven(
                Reason.FACT_MISSING,
                f"No marking is stated, so fitness for {area.name} is not shown.",
                remedy=missing.remedy,
            )
        case Missing.UNMARKED:
            return answer.flagged(
                f"The part bears no marking; {area.name} asks for one.",
                remedy=_to_match(answer.required),
            )
        case Missing.UNREAD:
            return answer.unproven(
                Reason.FACT_MISSING,
                f"No complete code for {area.name} could be read from the marking.",
                remedy=missing.remedy,
            )
        case Missing.ASSOCIATED:
            clause = "IEC 60079-0:2017 29.4; IEC 60079-14:2013 16"
            return replace(answer, clause=clause).flagged(
                "The nameplate speaks of circuits alone, in square brackets or as associated "
                "apparatus: the box itself has no protection and belongs outside the area, or "
                "inside a protected enclosure.",
                remedy="Put it outside the area and state that `location`, or into an enclosure "
                "that is certified with it and state `inside`.",
                answer_by=Role.DESIGNER,
            )
        case Missing.OTHER_SIDE:
            return replace(answer, clause="1999/92/EC Annex II A, B").flagged(
                "A dash stands on the nameplate for this side of the part: it has no category "
                f"here, in {area.name}.",
                remedy="Choose a part whose `marking` has a category for both sides; or, if the "
                "sides were taken for each other, correct `location` and `process_side`.",
            )
        case _:
            return answer.flagged(
                f"Nothing on the nameplate is for {area.hazard.value if area.hazard else 'this'}"
                f"; fitness for one hazard says nothing of the other.",
                remedy=_to_match(answer.required),
            )


def _to_match(required: str) -> str:
    return capital(_matching(required))


def _matching(required: str) -> str:
    return (
        f"choose a part whose `marking` suits the place ({required}), or move it to a `location` "
        "that its marking allows."
    )


def _division_left_out(question: LevelQuestion, code: Code) -> Code | None:
    """Listed equipment for Division 1 may leave its division out (500.8(C)(2)): with it, else None.

    Without a listing the plate may as well have been copied in part.
    """
    whole = code.divisions or code.zone is not None or code.hazard_class is None
    if whole or not question.listed or question.law is not Law.NEC or code.associated:
        return None
    return replace(code, divisions=(1,))


def _no_level(code: Code, answer: Answer) -> Judgement:
    """Division 1 equipment may omit its division; a plate that was copied in part looks alike."""
    if code.hazard_class is not None:
        return replace(answer, clause="NFPA 70-2023 500.8(C)(2)").unproven(
            Reason.FACT_MISSING,
            "The marking prints no one Division. Equipment for Division 1 may omit it, but so "
            "does a plate that was copied in part.",
            remedy="Compare with the nameplate, write the Division into `marking`, and state the "
            "listing in `evidence`.",
        )
    return answer.unproven(
        Reason.FACT_MISSING,
        "The marking does not show what level of protection it gives.",
        remedy="Write the whole `marking` as it stands on the nameplate; if it has no more, ask "
        "the maker for the level (EPL) that the certificate gives.",
    )


_LAST_DAY = "last day of use without an equipment category"


def _before_categories(law: Law, code: Code | None) -> bool:
    """Whether a code is of a form that bore no category, where one is asked for."""
    return law is Law.ATEX and code is not None and code.legacy and code.category is None


def _in_use_before_2003(equipment: Equipment) -> bool:
    placed = equipment.placed_on_market
    if placed is not None:
        return placed <= date.fromisoformat(figure(_LAST_DAY).value)
    return equipment.in_service is True


def _no_category(question: LevelQuestion, code: Code, answer: Answer) -> Judgement:
    """No category is a fault, unless the part was in use when the directive came to bind it."""
    answer = replace(answer, clause="2014/34/EU Annex II 1.0.5; 1999/92/EC Annex II A, B")
    if question.in_use_before_2003 and code.legacy:
        row = figure(_LAST_DAY)
        return replace(answer, rows=(Row.of_figure(row),)).unproven(
            Reason.CONDITION_TO_ACCEPT,
            "The marking is older than the equipment categories. Equipment that was in use by "
            f"{date.fromisoformat(row.value):%d %B %Y} may stay if the explosion protection "
            "document says so.",
            remedy="Name the assessment in the explosion protection document that covers it, and "
            "accept the finding with that.",
            answer_by=Role.AREA_OWNER,
        )
    if question.since_unknown:
        row = figure(_LAST_DAY)
        return replace(answer, rows=(Row.of_figure(row),)).unproven(
            Reason.FACT_MISSING,
            "The marking is older than the equipment categories that EU law asks for. Only what "
            f"was in use by {date.fromisoformat(row.value):%d %B %Y} may stay without one, and "
            "since when this part is in use is not stated.",
            remedy="State `placed_on_market` or, for a part that was taken over, `in_service: "
            "true`; what is newer than that day must bear a category.",
            answer_by=Role.DESIGNER,
        )
    return answer.flagged(
        "EU law asks for an equipment category; the marking gives none.",
        remedy="Copy the category from the nameplate into `marking` too, such as II 2G; where it "
        f"bears none, {_matching(answer.required)}",
    )


def _accepted(question: LevelQuestion, area: Area, row: Acceptance, answer: Answer) -> Judgement:
    key = f"{row.law}, {row.area}: {row.offer}"
    cited = (Row.of("acceptance", key, row, row.answer.value),)
    answer = replace(answer, rows=cited, clause=row.clause)
    if row.answer is Accepted.UNPROVEN:
        return answer.unproven(Reason.NOT_JUDGED, f"Not decided here: {row.note}.")
    # What a Division 1 states of its level tells how long the atmosphere is there; electrical
    # equipment follows Articles 501 to 503, which take in the whole of it.
    divided = area.system is AreaSystem.DIVISION and area.division == 1
    asked, code = None if divided else question.required_level, question.code
    level = effective_level(code) if code is not None else None
    if asked is not None and (level is None or level.rank > asked.rank):
        message = f"The site asks for {asked.value}; the marking gives {answer.found}."
        required = f"EPL {asked.value} (stated for the place)"
        own = replace(answer, required=required, clause="IEC 60079-14:2013 5.3")
        # A Division code has no such level, so nothing shows that it fails or holds.
        if level is None:
            return own.unproven(Reason.FACT_MISSING, message)
        return own.flagged(message, remedy=_to_match(required))
    note = f" {capital(row.note)}." if row.note else ""
    if question.inside is not None:
        return answer.passed(
            f"It stands inside item {question.inside}, whose document names it: {answer.found} is "
            f"accepted here.{note}"
        )
    return answer.passed(f"{answer.found} is accepted here.{note}")


def offered(code: Code) -> str | None:
    """The key under which the acceptance table knows what a code offers; None if it is unclear."""
    if code.system is MarkingSystem.NEC_DIVISION:
        if code.hazard_class == "III" and not code.divisions and code.purge is None:
            return "III/1"  # one kind of equipment serves both divisions (NFPA 70-2023 500.8(C)(2))
        if code.hazard_class is None or not code.divisions:
            return f"purge {code.purge.value}" if code.purge is not None else None
        safe = " is" if is_intrinsically_safe(code) else ""
        return f"{code.hazard_class}/{min(code.divisions)}{safe}"
    level = effective_level(code)
    if level is None:
        return None
    prefix = "AEx" if code.system is MarkingSystem.NEC_ZONE else "Ex"
    return f"{prefix} {level.value}"


def describe(code: Code) -> str:
    """What a code offers, in a few words."""
    if code.system is MarkingSystem.NEC_DIVISION:
        if code.purge is not None and not code.divisions:
            return f"Type {code.purge.value} pressurization"
        divisions = " and ".join(str(d) for d in code.divisions) or "not stated"
        safe = ", intrinsically safe" if is_intrinsically_safe(code) else ""
        return f"Class {code.hazard_class}, Division {divisions}{safe}"
    level = effective_level(code)
    words = f"{code.system.value} marking, EPL {level.value if level else 'not shown'}"
    return words + (f", category {code.category}" if code.category else "")


def _judge_not_electrical(question: NotElectrical) -> Judgement:
    """The level printed must reach that of the area; a Division 1 is read as level b."""
    asked = [level for area in question.areas if (level := required_level(area)) is not None]
    if question.required_level is not None:
        asked.append(question.required_level)
    most = min(asked, key=lambda level: level.rank)  # what is classified asks for one
    level = effective_level(question.code)
    answer = Answer(
        required=f"EPL {most.value} or better, of equipment that is not electrical",
        found=describe(question.code),
        clause="NFPA 70-2023 90.2(A), 500.1; ISO 80079-36:2016",
    )
    if level is None:
        return answer.unproven(
            Reason.FACT_MISSING, "The marking does not show what level of protection it gives."
        )
    if level.rank > most.rank:
        return answer.flagged(
            f"The area asks for {most.value}; the marking gives {level.value}.",
            remedy=_to_match(answer.required),
        )
    return answer.passed(
        "NFPA 70 asks for no listing of what is not electrical; the level printed reaches the "
        "area's."
    )


PROTECTION_LEVEL = Rule[LevelQuestion | AssociatedOutside | NotElectrical](
    id="protection-level",
    title="Level of protection suits the area",
    family=Family.AREA,
    subject=Subject.NAMEPLATE,
    clause="NFPA 70-2023 500.8, 505.9; IEC 60079-14:2013 5.3; 1999/92/EC Annex II B",
    why="The level says in which states of the equipment, normal or faulty, it will not ignite "
    "the atmosphere; an area where the atmosphere is more often present asks for more.",
    remedy="Choose a part with a `marking` for the area, or move it to a `location` that its "
    "marking allows.",
    answer_by=Role.SUPPLIER,
    note="29 CFR 1910.307(g)(5) asks Division equipment in a Zone to bear the zone marking too; "
    "recent editions of NFPA 70 only permit that. Whether Class II, Division 1 equipment serves "
    "Zone 20 depends on the edition and is left unproven. NFPA 70 asks for "
    "no listing of what is not electrical: its level is held to the zone's, a Division 1 read as "
    "level b, and `ignition-hazard` asks for more.",
    ask=_ask,
    judge=judged_level,
    examples=(
        Example(
            "Zone 0 equipment in Division 1, same gas",
            Verdict.PASS,
            "{kind: electrical, marking: 'Class I, Zone 0, AEx ia IIC T4 Ga'}",
            "{area: 'Class I, Division 1, Group D'}",
            "NEC",
        ),
        Example(
            "Zone 1 equipment in Division 1",
            Verdict.FLAG,
            "{kind: electrical, marking: 'Class I, Zone 1, AEx db IIB T4 Gb'}",
            "{area: 'Class I, Division 1, Group D'}",
            "NEC",
        ),
        Example(
            "A sensor with nothing on its nameplate",
            Verdict.UNPROVEN,
            "{kind: electrical}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
        Example(
            "A barrier outside the area",
            Verdict.PASS,
            "{kind: electrical, marking: '[Ex ia Ga] IIC'}",
            "{area: unclassified}",
        ),
    ),
)
