"""Has a part ignition sources of its own, and if so what stands for them."""

from collections.abc import Iterator

from areafit.checks.ignition.role import Motion, by_hand, is_slow, motion
from areafit.checks.ignition.shown import (
    Assessed,
    Shown,
    certified,
    is_best_zone,
    shown,
)
from areafit.demands import Demands
from areafit.demands.levels import place_names
from areafit.facts.part import Body
from areafit.facts.protection import Law
from areafit.rule import Ask, Example, Family, Judgement, Rule, Subject, flagged, passed, unproven
from areafit.values import Frozen
from areafit.verdict import Reason, Role, Verdict


class Question(Frozen):
    """How the part moves, whether only by hand and slowly, and what stands for it here.

    `category_1`: European law asks a notified body about every source of ignition here, and no
    certificate is stated.
    """

    motion: Motion
    slow_by_hand: bool
    place: str
    shown: Shown
    category_1: bool = False


def _ask(body: Body, demands: Demands) -> Iterator[Ask[Question]]:
    """Every part that is not electrical only, for each hazard of a classified place."""
    moves = motion(body)
    if moves is None:
        return
    slow = by_hand(body) and (moves is Motion.LOOSE or is_slow(body))
    path = "marking" if body.equipment.markings else "evidence"
    for hazard in demands.hazards:
        question = Question(
            moves,
            slow,
            place_names(hazard),
            shown(body, demands, hazard),
            demands.law is Law.ATEX and is_best_zone(hazard) and not certified(body, demands),
        )
        yield Ask(question, path if moves is not Motion.FIXED else "kind")


def _judge(question: Question) -> Judgement:
    facts, here = question.shown, question.place
    if question.motion is Motion.FIXED:
        return passed(
            "Fixed and without moving parts: no ignition source of its own.",
            required=f"no ignition source of its own, or a marking or assessment for {here}",
            found=question.motion.value,
            clause="ISO 80079-36:2016 1, 4; 2014/34/EU Art. 1",
        )
    required = f"marking for EPL {facts.asked.value} or better, or an ignition hazard assessment"
    found = f"{question.motion.value}; {facts.words}"
    if facts.by_marking:
        return passed("The marking reaches the level asked for.", required=required, found=found)
    if facts.assessed is Assessed.YES:
        return _by_assessment(question, required, found)
    # Before the marking: one for a lower level must not be worse than none; `protection-level`
    # flags the marking itself.
    if question.slow_by_hand and facts.asked.rank > 0:
        return passed(
            "Moved by hand only and slowly: no effective ignition source of its own. Light "
            "metals, impact and static are judged by their own rules.",
            required=required,
            found=f"{question.motion.value}, moved by hand",
            clause="ISO 80079-36:2016 4; EU guidelines on 2014/34/EU (own ignition source)",
        )
    if facts.marked is not None:
        return flagged(
            f"Marked for EPL {facts.marked.value}; {here} asks for {facts.asked.value}.",
            required=required,
            found=found,
        )
    return _not_shown(facts, required, found)


def _by_assessment(question: Question, required: str, found: str) -> Judgement:
    if question.category_1:
        return unproven(
            Reason.CONDITION_TO_ACCEPT,
            f"In {question.place} a part with a source of ignition of its own is of category 1 and "
            "needs an EU-type examination. The assessment reaches the level; that the part has no "
            "such source, it does not say here.",
            required="an EU-type examination, or the word of the assessor that the part has no "
            "source of ignition of its own",
            found=found,
            clause="2014/34/EU Art. 1, 13(1)(a)",
            remedy="State the certificate, or let the assessor accept it in a waiver that names "
            "the assessment.",
        )
    return passed(
        "An ignition hazard assessment is on file: without an effective source of its own the "
        "part needs no marking.",
        required=required,
        found=f"{question.motion.value}; {question.shown.assessed.value}",
    )


def _not_shown(facts: Shown, required: str, found: str) -> Judgement:
    if facts.assessed is Assessed.LOWER:
        return flagged(
            "The assessment was made for a lower level, or for another hazard, than this place "
            "has.",
            required=required,
            found=found,
        )
    message = _MESSAGES.get(facts.assessed, _NOTHING)
    return unproven(Reason.FACT_MISSING, message, required=required, found=found)


_NOTHING = (
    "Neither a marking for non-electrical equipment nor an assessment is stated, so nothing shows "
    "that ignition sources are absent."
)
_MESSAGES = {
    Assessed.LEVEL_OPEN: "Rare malfunctions count here; the assessment does not say that it "
    "reaches the level.",
    Assessed.EXPIRED: "The assessment is past its date.",
    Assessed.ELSEWHERE: "The assessment is said to cover other part numbers than this one.",
}


IGNITION_HAZARD = Rule[Question](
    id="ignition-hazard",
    title="Non-electrical ignition sources are assessed or marked",
    family=Family.IGNITION,
    subject=Subject.BODY,
    clause="ISO 80079-36:2016 4, 5.2; 2014/34/EU Art. 1, Annex II",
    why="Gearboxes, chains, hoists, brakes, bearings and cylinders make hot spots, sparks and "
    "static without any current; a nameplate or an assessment shows that somebody looked.",
    remedy="Obtain a part marked Ex h for the level, or state `evidence: [{type: assessment, "
    "number: …, level: …}]`; for slow parts moved by hand state `drive: manual` and "
    "`rubbing_speed`.",
    answer_by=Role.SUPPLIER,
    note="Category 1 needs an EU-type examination, category 2 the technical file lodged with a "
    "notified body, category 3 the maker's own control (2014/34/EU Art. 13). The letters c, b, k "
    "of EN 13463 count by their category. NFPA 70 does not speak of non-electrical parts: the "
    "assessment is asked for all the same, Division 1 as level a, Division 2 as c.",
    ask=_ask,
    judge=_judge,
    examples=(
        Example(
            "A fixed bracket",
            Verdict.PASS,
            "{kind: structural}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
        Example(
            "A gearbox marked for the zone",
            Verdict.PASS,
            "{kind: mechanical, marking: II 2G Ex h IIC T4 Gb}",
            "{area: 'Zone 1, IIB, T3'}",
            "ATEX",
        ),
        Example(
            "A gearbox marked for Zone 2 in Zone 1",
            Verdict.FLAG,
            "{kind: mechanical, marking: II 3G Ex h IIC T4 Gc}",
            "{area: 'Zone 1, IIB, T3'}",
            "ATEX",
        ),
        Example(
            "A cylinder with nothing on file",
            Verdict.UNPROVEN,
            "{kind: mechanical}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
        Example(
            "A powered valve: its electrical half alone is marked",
            Verdict.UNPROVEN,
            "{kind: [electrical, mechanical], marking: Ex mb IIC T4 Gb}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
        Example(
            "A cylinder in a Division, assessed",
            Verdict.PASS,
            "{kind: mechanical, evidence: [{type: assessment, number: IHA-1}]}",
            "{area: 'Class I, Division 1, Group D'}",
            "NEC",
        ),
    ),
)
