"""Is a code accepted where it stands: the acceptance table read for one question."""

from areafit.checks.area.question import LevelQuestion, Missing
from areafit.facts.marking import Code
from areafit.facts.place import Area, AreaSystem
from areafit.facts.protection import Hazard, Law, Level, MarkingSystem
from areafit.marking.level import effective_level
from areafit.rule import Judgement, Row, flagged, passed, unproven
from areafit.tables.acceptance import Acceptance, Answer, acceptance
from areafit.verdict import Reason, worst

_NEEDED = {0: "Ga", 1: "Gb", 2: "Gc", 20: "Da", 21: "Db", 22: "Dc"}
_CATEGORY = {0: "1G", 1: "2G", 2: "3G", 20: "1D", 21: "2D", 22: "3D"}


def judge_level(question: LevelQuestion) -> Judgement:
    """The worst answer over the areas of one hazard; each must accept the code."""
    answers = [_judge_area(question, area) for area in question.areas]
    verdict = worst(answer.verdict for answer in answers)
    return next(answer for answer in answers if answer.verdict is verdict)


def _judge_area(question: LevelQuestion, area: Area) -> Judgement:
    required = _required(question, area)
    code = question.code
    if code is None:
        return _without_code(question, area, required)
    offer = offered(code)
    found = describe(code)
    if offer is None:
        return unproven(
            Reason.FACT_MISSING,
            "The marking does not show what level of protection it gives.",
            required=required,
            found=found,
        )
    if question.law is Law.ATEX and code.category is None:
        return flagged(
            "EU law asks for an equipment category; the marking gives none.",
            required=required,
            found=found,
            clause="2014/34/EU Annex II 1.0.5; 1999/92/EC Annex II B",
        )
    row = acceptance().get((question.law.value, area_key(area), offer))
    if row is None:
        return flagged(
            f"{found} is not accepted in {place_name(area)}.", required=required, found=found
        )
    return _accepted(question, row, required, found)


def _accepted(question: LevelQuestion, row: Acceptance, required: str, found: str) -> Judgement:
    cited = (_row(row),)
    if row.answer is Answer.UNPROVEN:
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
        return flagged(
            f"The site asks for {asked.value}; the marking gives {found}.",
            required=f"EPL {asked.value} (stated for the place)",
            found=found,
            clause="IEC 60079-14:2013 4.4",
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
                f"No marking is stated, so fitness for {place_name(area)} is not shown.",
                required=required,
                found=found,
            )
        case Missing.UNREAD:
            return unproven(
                Reason.FACT_MISSING,
                f"No complete code for {place_name(area)} could be read from the marking.",
                required=required,
                found=found,
            )
        case Missing.ASSOCIATED:
            return flagged(
                "Everything on the nameplate stands in square brackets: the box itself has no "
                "protection and belongs outside the area, or inside a protected enclosure.",
                required=required,
                found=found,
                clause="IEC 60079-0:2017 29.4; IEC 60079-14:2013 16",
            )
        case Missing.OTHER_HAZARD:
            return flagged(
                f"Nothing on the nameplate is for {area.hazard.value if area.hazard else 'this'}"
                f"; fitness for one hazard says nothing of the other.",
                required=required,
                found=found,
            )


def offered(code: Code) -> str | None:
    """The key under which the acceptance table knows what a code offers; None if it is unclear."""
    if code.system is MarkingSystem.NEC_DIVISION:
        if code.hazard_class is None or not code.divisions:
            return None
        safe = " is" if is_intrinsically_safe(code) else ""
        return f"{code.hazard_class}/{min(code.divisions)}{safe}"
    level = effective_level(code)
    if level is None:
        return None
    prefix = "AEx" if code.system is MarkingSystem.NEC_ZONE else "Ex"
    return f"{prefix} {level.value}"


def is_intrinsically_safe(code: Code) -> bool:
    """Whether a Division code says that the equipment is intrinsically safe."""
    return "intrinsically safe" in code.words or any(p in ("ia", "i") for p in code.protection)


def area_key(area: Area) -> str:
    """The key under which the acceptance table knows an area."""
    if area.system is AreaSystem.ZONE:
        return f"zone {area.zone}"
    return f"{area.hazard_class}/{area.division}"


def place_name(area: Area) -> str:
    """The area in words."""
    if area.system is AreaSystem.ZONE:
        return f"Zone {area.zone}"
    return f"Class {area.hazard_class}, Division {area.division}"


def describe(code: Code) -> str:
    """What a code offers, in a few words."""
    if code.system is MarkingSystem.NEC_DIVISION:
        divisions = " and ".join(str(d) for d in code.divisions) or "not stated"
        safe = ", intrinsically safe" if is_intrinsically_safe(code) else ""
        return f"Class {code.hazard_class}, Division {divisions}{safe}"
    level = effective_level(code)
    words = f"{code.system.value} marking, EPL {level.value if level else 'not shown'}"
    return words + (f", category {code.category}" if code.category else "")


def _required(question: LevelQuestion, area: Area) -> str:
    if area.system is AreaSystem.DIVISION or area.zone is None:
        return f"identified for {place_name(area)}"
    if question.law is Law.ATEX:
        return f"category {_CATEGORY[area.zone]} or better for {place_name(area)}"
    prefix = "AEx, listed, " if question.law is Law.NEC else ""
    return f"{prefix}EPL {_NEEDED[area.zone]} or better for {place_name(area)}"


def required_level(area: Area) -> Level | None:
    """The protection level that an area asks for; a Division 1 counts as the best level.

    Used where a clause speaks of levels and the place is a Division (light metals, static):
    the more onerous reading is taken.
    """
    if not area.classified or area.hazard is None:
        return None
    if area.system is AreaSystem.ZONE and area.zone is not None:
        return Level(_NEEDED[area.zone])
    letter = "a" if area.division == 1 else "c"
    return Level(("G" if area.hazard is Hazard.GAS else "D") + letter)


def _row(row: Acceptance) -> Row:
    key = f"{row.law}, {row.area}: {row.offer}"
    return Row("acceptance", key, row.source_id, row.locator, row.basis, row.answer.value)
