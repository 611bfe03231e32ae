"""Is a code accepted where it stands: the acceptance table read for one question."""

from functools import partial

from areafit.checks.area.general import judge_general
from areafit.checks.area.missing import Missing
from areafit.checks.area.offer import describe, offered
from areafit.checks.area.question import LevelQuestion
from areafit.demands.demand import required_level
from areafit.facts.marking import Code
from areafit.facts.place import Area, AreaSystem
from areafit.facts.protection import Hazard, Law
from areafit.marking.level import effective_level
from areafit.rule import Judgement, Row, flagged, passed, unproven
from areafit.tables.area import Acceptance, Accepted, acceptance
from areafit.values import replace
from areafit.verdict import Reason, Role, worst

_CATEGORY = {0: "1G", 1: "2G", 2: "3G", 20: "1D", 21: "2D", 22: "3D"}


def judge_level(question: LevelQuestion) -> Judgement:
    """The worst answer over the areas of one hazard; each must accept the code."""
    answers = [_cited(question, area, _judge_area(question, area)) for area in question.areas]
    verdict = worst(answer.verdict for answer in answers)
    return next(answer for answer in answers if answer.verdict is verdict)


def _judge_area(question: LevelQuestion, area: Area) -> Judgement:
    required = _required(question, area)
    code = question.code
    if code is None:
        if question.general is not None:
            return judge_general(area, question.general)
        return _without_code(question, area, required)
    whole = _division_left_out(question, code)
    offer = offered(whole or code)
    found = describe(code)
    if whole is not None:
        found = f"{found}, no Division printed: Division 1"
    if offer is None:
        return _no_level(code, required, found)
    if question.law is Law.ATEX and code.category is None:
        return _no_category(question, code, required, found)
    row = acceptance().get((question.law.value, area.key, offer))
    if row is None:
        return flagged(f"{found} is not accepted in {area.name}.", required=required, found=found)
    return _accepted(question, row, required, found)


def _cited(question: LevelQuestion, area: Area, answer: Judgement) -> Judgement:
    """With the clause of the area's own system under NFPA 70, where none is cited."""
    if answer.clause or question.law is not Law.NEC:
        return answer
    zone = "505.9" if area.hazard is Hazard.GAS else "506.9"
    clause = "500.8" if area.system is AreaSystem.DIVISION else zone
    return replace(answer, clause=f"NFPA 70-2023 {clause}")


def _division_left_out(question: LevelQuestion, code: Code) -> Code | None:
    """Listed equipment for Division 1 may leave its division out (500.8(C)(2)): with it, else None.

    Without a listing the plate may as well have been copied in part.
    """
    whole = code.divisions or code.zone is not None or code.hazard_class is None
    if whole or not question.listed or question.law is not Law.NEC or code.associated:
        return None
    return replace(code, divisions=(1,))


def _no_level(code: Code, required: str, found: str) -> Judgement:
    """Division 1 equipment may omit its division; a plate that was copied in part looks alike."""
    if code.hazard_class is not None:
        return unproven(
            Reason.FACT_MISSING,
            "The marking prints no one Division. Equipment for Division 1 may omit it, but so "
            "does a plate that was copied in part.",
            required=required,
            found=found,
            clause="NFPA 70-2023 500.8(C)(2)",
            remedy="Compare with the nameplate, write the Division, and state the listing.",
        )
    return unproven(
        Reason.FACT_MISSING,
        "The marking does not show what level of protection it gives.",
        required=required,
        found=found,
        remedy="Write the whole marking as it stands on the nameplate; if it has no more, ask the "
        "maker for the level (EPL) that the certificate gives.",
    )


def _no_category(question: LevelQuestion, code: Code, required: str, found: str) -> Judgement:
    """No category is a fault, unless the part was in use before the directive bound it."""
    clause = "2014/34/EU Annex II 1.0.5; 1999/92/EC Annex II A, B"
    if question.in_use_before_2003 and code.legacy:
        return unproven(
            Reason.CONDITION_TO_ACCEPT,
            "The marking is older than the equipment categories. Equipment that was in use before "
            "30 June 2003 may stay if the explosion protection document says so.",
            required=required,
            found=found,
            clause=clause,
            remedy="Name the assessment in the explosion protection document that covers it.",
            answer_by=Role.AREA_OWNER,
        )
    return flagged(
        "EU law asks for an equipment category; the marking gives none.",
        required=required,
        found=found,
        clause=clause,
    )


def _accepted(question: LevelQuestion, row: Acceptance, required: str, found: str) -> Judgement:
    cited = (_row(row),)
    if row.answer is Accepted.UNPROVEN:
        return unproven(
            Reason.NOT_JUDGED,
            f"Not decided here: {row.note}.",
            required=required,
            found=found,
            clause=row.clause,
            rows=cited,
        )
    asked, code = question.required_level, question.code
    level = effective_level(code) if code is not None else None
    if asked is not None and (level is None or level.rank > asked.rank):
        # A Division code has no such level, so nothing shows that it fails or holds.
        answer = flagged if level is not None else partial(unproven, Reason.FACT_MISSING)
        return answer(
            f"The site asks for {asked.value}; the marking gives {found}.",
            required=f"EPL {asked.value} (stated for the place)",
            found=found,
            clause="IEC 60079-14:2013 5.3",
            rows=cited,
        )
    note = f" {row.note[0].upper()}{row.note[1:]}." if row.note else ""
    return passed(
        f"{found} is accepted here.{note}",
        required=required,
        found=found,
        clause=row.clause,
        rows=cited,
    )


def _without_code(question: LevelQuestion, area: Area, required: str) -> Judgement:
    missing = question.missing or Missing.NO_MARKING
    found = missing.value
    match missing:
        case Missing.NO_MARKING:
            return unproven(
                Reason.FACT_MISSING,
                f"No marking is stated, so fitness for {area.name} is not shown.",
                required=required,
                found=found,
                remedy=missing.remedy,
            )
        case Missing.UNMARKED:
            return flagged(
                f"The part bears no marking; {area.name} asks for one.",
                required=required,
                found=found,
            )
        case Missing.UNREAD:
            return unproven(
                Reason.FACT_MISSING,
                f"No complete code for {area.name} could be read from the marking.",
                required=required,
                found=found,
                remedy=missing.remedy,
            )
        case Missing.ASSOCIATED:
            return flagged(
                "Everything on the nameplate stands in square brackets: the box itself has no "
                "protection and belongs outside the area, or inside a protected enclosure.",
                required=required,
                found=found,
                clause="IEC 60079-0:2017 29.4; IEC 60079-14:2013 16",
            )
        case _:
            return flagged(
                f"Nothing on the nameplate is for {area.hazard.value if area.hazard else 'this'}"
                f"; fitness for one hazard says nothing of the other.",
                required=required,
                found=found,
            )


def _required(question: LevelQuestion, area: Area) -> str:
    level = required_level(area)
    if area.system is AreaSystem.DIVISION or area.zone is None or level is None:
        return f"identified for {area.name}"
    if question.law is Law.ATEX:
        return f"category {_CATEGORY[area.zone]} or better for {area.name}"
    prefix = "AEx, listed, " if question.law is Law.NEC else ""
    return f"{prefix}EPL {level.value} or better for {area.name}"


def _row(row: Acceptance) -> Row:
    key = f"{row.law}, {row.area}: {row.offer}"
    return Row.of("acceptance", key, row, row.answer.value)
