"""What stands for the ignition sources of a part itself: a marking, an assessment, or its nature.

Every other rule of mechanical parts asks here how a part moves and what covers it.
"""

from collections.abc import Iterator
from datetime import date

from areafit.demands import Demands, HazardDemand
from areafit.demands.demand import asked_level, place_names
from areafit.documents import (
    CertificateScheme,
    bears,
    expired,
    identified,
    no_proof,
    read_number,
)
from areafit.facts.evidence import Evidence, EvidenceType, Examined
from areafit.facts.marking import Code
from areafit.facts.mechanics import Drive
from areafit.facts.part import Body, Equipment, Kind
from areafit.facts.protection import Hazard, Law, Level, Suffix
from areafit.facts.quantity import Dimension
from areafit.marking.level import effective_level
from areafit.rule import Answer, Ask, Example, Family, Judgement, Row, Rule, Subject
from areafit.tables.limits import figure
from areafit.tables.part_names import power_driven
from areafit.values import Frozen, Term, replace
from areafit.verdict import Reason, Role, Verdict


class Motion(Term):
    """How a part moves; a part that is nothing but electrical has none that is asked about."""

    FIXED = "fixed, without moving parts"
    LOOSE = "loose item"
    MOVING = "moving parts"


_BY_HAND = frozenset({Drive.MANUAL, Drive.NONE})


def motion(body: Body) -> Motion | None:
    """The most onerous motion that kind, rubbing speed or drive speak of.

    A part called structural or loose that states a rubbing speed or a drive moves all the same.
    """
    kinds = body.equipment.kinds
    if Kind.MECHANICAL in kinds or body.rubbing_speed:
        return Motion.MOVING
    powered = body.drive is not None and body.drive not in _BY_HAND
    if powered and kinds & {Kind.STRUCTURAL, Kind.LOOSE_ITEM}:
        return Motion.MOVING
    if Kind.LOOSE_ITEM in kinds:
        return None if _is_electrical_by_plate(body) else Motion.LOOSE
    return Motion.FIXED if Kind.STRUCTURAL in kinds else None


def _is_electrical_by_plate(body: Body) -> bool:
    """Whether a part called a loose item alone bears electrical codes alone.

    Rule `kind` flags that. What a hand tool is asked waits until it is called electrical, and is
    then answered by its papers.
    """
    codes = body.equipment.codes
    only_loose = body.equipment.kinds == {Kind.LOOSE_ITEM} and not body.equipment.kept
    return only_loose and bool(codes) and not any(code.of_moving_parts for code in codes)


def examined_as_carried(body: Body, demands: Demands) -> bool:
    """Whether a part is a portable instrument for whose housing its papers answer, or will.

    The examination drops it, holds its fasteners and limits what its metal stores (IEC
    60079-0:2017 26.4.3, 9, 7.5, from memory): nobody bonds a lamp in the hand. Where plate or
    papers do not serve at the place, the rule of what they lack holds the part, and these questions
    wait for the ones that do.
    """
    if body.equipment.kinds != {Kind.ELECTRICAL, Kind.LOOSE_ITEM} or not demands.hazards:
        return False
    return all(_papers_answer(body, each.hazard) for each in demands.hazards)


def _papers_answer(body: Body, hazard: Hazard) -> bool:
    papers = body.papers(hazard)
    if papers is None:
        return hazard in body.refused
    return papers.paper is not None or not body.equipment.kept or hazard in body.refused


def by_hand(body: Body) -> bool:
    """Whether the list says that nothing but a hand moves the part."""
    return body.drive in _BY_HAND


def is_slow(body: Body) -> bool:
    """Whether a speed is stated at which rubbing makes no spark."""
    limit = figure("rubbing speed").amount(Dimension.SPEED)
    return body.rubbing_speed is not None and body.rubbing_speed <= limit


class HandFact(Term):
    """The one fact that a part still owes to count as moved slowly by hand."""

    SPEED = "how fast it rubs"
    DRIVE = "what moves it"

    @property
    def remedy(self) -> str:
        """How to state it, and what that settles."""
        limit = figure("rubbing speed").value
        if self is HandFact.SPEED:
            return f"State `rubbing_speed`: at {limit} and less a hand makes no source that counts."
        return f"State `drive`: by hand, what rubs at {limit} and less makes no source that counts."


def hand_fact(body: Body, asked: Level) -> HandFact | None:
    """What is missing where one of two facts, a hand's drive and a low speed, is stated.

    At level a a hand is no answer, so that neither is asked for.
    """
    if asked.rank == 0:
        return None
    if by_hand(body) and body.rubbing_speed is None:
        return HandFact.SPEED
    return HandFact.DRIVE if body.drive is None and is_slow(body) else None


class Assessed(Term):
    """What an ignition hazard assessment says for one hazard."""

    NO = "no ignition hazard assessment"
    YES = "ignition hazard assessment"
    EXPIRED = "ignition hazard assessment past its date"
    LOWER = "ignition hazard assessment for a lower level or another hazard"
    LEVEL_OPEN = "ignition hazard assessment that names no level"
    UNNUMBERED = "ignition hazard assessment without a number"
    ELSEWHERE = "ignition hazard assessment of other part numbers"


class HazardCover(Frozen):
    """The level asked for, the best that a non-electrical code gives, and the assessment.

    `unread` says that a nameplate could not be read whole.
    """

    asked: Level
    marked: Level | None
    assessed: Assessed
    unread: bool = False

    @property
    def by_marking(self) -> bool:
        """Whether a marking for non-electrical equipment reaches the level."""
        return self.marked is not None and self.marked.rank <= self.asked.rank

    @property
    def holds(self) -> bool:
        """Whether marking or assessment covers the part's own ignition sources."""
        return self.by_marking or self.assessed is Assessed.YES

    @property
    def words(self) -> str:
        """What is stated, in words."""
        if self.marked is not None:
            return f"marking for non-electrical equipment, EPL {self.marked.value}"
        return "a marking that could not be read" if self.unread else self.assessed.value


def cover_of(body: Body, demands: Demands, hazard: HazardDemand) -> HazardCover:
    """What stands for the part against one hazard of its place."""
    asked = asked_level(demands, hazard)
    markings = body.equipment.markings or ()
    levels = [_level(code, hazard.hazard) for code in body.equipment.codes]
    marked = min((x for x in levels if x is not None), key=lambda x: x.rank, default=None)
    unread = any(problem.unread for marking in markings for problem in marking.problems)
    answers = [_assessed(e, asked, demands.as_of) for e in body.equipment.evidence or ()]
    best = next((each for each in _BEST_FIRST if each in answers), Assessed.NO)
    return HazardCover(asked, marked, best, unread)


_BEST_FIRST = (
    Assessed.YES,
    Assessed.LEVEL_OPEN,
    Assessed.LOWER,
    Assessed.EXPIRED,
    Assessed.UNNUMBERED,
    Assessed.ELSEWHERE,
)


def covered(body: Body, demands: Demands) -> bool:
    """Whether marking or assessment covers the part for every hazard of its place."""
    return all(cover_of(body, demands, hazard).holds for hazard in demands.hazards)


def awaits_papers(equipment: Equipment, papers: Examined | None) -> bool:
    """Whether plate and papers would answer for a housing, and another rule asks what they lack.

    So it does where no plate was copied, or not one that could be read. What the housing is made of
    decides nothing until then; what is listed of it is judged all the same.
    """
    if equipment.kept:
        return False
    if papers is not None:
        return bool(papers.lacks)
    if equipment.markings is None:
        return equipment.kinds == {Kind.ELECTRICAL} and equipment.housed is None
    return any(problem.unread for each in equipment.markings for problem in each.problems)


def awaits_plate(body: Body, demands: Demands) -> bool:
    """Whether a part that nothing covers bears a plate for what moves, and that is flagged here.

    The part goes, and the one that comes brings its own cover. What moves behind an electrical
    plate alone is asked all the same.
    """
    if not any(code.names_moving_parts for code in body.equipment.codes):
        return False
    uncovered = [
        hazard.hazard for hazard in demands.hazards if not cover_of(body, demands, hazard).holds
    ]
    return bool(uncovered) and body.refused.issuperset(uncovered)


def _level(code: Code, hazard: Hazard) -> Level | None:
    """The level of a non-electrical code for a hazard; fibres are lit like dust."""
    serves = {hazard, Hazard.DUST} if hazard is Hazard.FIBRES else {hazard}
    if not code.of_moving_parts or code.associated or code.hazard not in serves:
        return None
    return effective_level(code)


def _assessed(document: Evidence, asked: Level, as_of: date) -> Assessed | None:
    """What one document says.

    At level a rare malfunctions count, so that it must say that it reaches the level; elsewhere
    an assessment that names no level is taken for the place.
    """
    if document.type is not EvidenceType.ASSESSMENT:
        return None
    if document.elsewhere:
        return Assessed.ELSEWHERE
    if not identified(document):
        return Assessed.UNNUMBERED
    if document.valid_until is not None and document.valid_until < as_of:
        return Assessed.EXPIRED
    if document.level is None:
        return Assessed.LEVEL_OPEN if asked.rank == 0 else Assessed.YES
    same = document.level.value[0] == asked.value[0]
    return Assessed.YES if same and document.level.rank <= asked.rank else Assessed.LOWER


class OwnSources(Frozen):
    """How the part moves, whether only by hand and slowly, and what covers it here.

    `category_1`: European law asks a notified body about every source of ignition here, and no
    EU-type examination is stated. `owed` is the one fact that would make it slow by hand; `driven`
    the word of the description by which no hand moves it.
    """

    motion: Motion
    slow_by_hand: bool
    place: str
    cover: HazardCover
    category_1: bool = False
    owed: HandFact | None = None
    driven: str = ""


def _ask(body: Body, demands: Demands) -> Iterator[Ask[OwnSources]]:
    """Every part that is not electrical only, for each hazard of a classified place."""
    moves = motion(body)
    if moves is None or (moves is Motion.LOOSE and examined_as_carried(body, demands)):
        return
    slow = by_hand(body) and (moves is Motion.LOOSE or is_slow(body))
    driven = power_driven(body.equipment.description or "") if slow else None
    path = "marking" if body.equipment.markings else "evidence"
    for hazard in demands.hazards:
        asked = asked_level(demands, hazard)
        question = OwnSources(
            moves,
            slow,
            place_names(hazard),
            cover_of(body, demands, hazard),
            demands.law is Law.ATEX
            and asked.rank == 0
            and not _examined_by_a_body(body, demands, asked),
            hand_fact(body, asked) if moves is Motion.MOVING else None,
            driven or "",
        )
        yield Ask(question, path if moves is not Motion.FIXED else "kind")


def _examined_by_a_body(body: Body, demands: Demands, asked: Level) -> bool:
    """Whether an EU-type examination is stated for the part: numbered, valid, of this level."""
    placed = body.equipment.placed_on_market

    def holds(document: Evidence) -> bool:
        level = document.level
        return (
            document.type is EvidenceType.CERTIFICATE
            and not document.elsewhere
            and identified(document)
            and no_proof(document) is None
            and read_number(document).scheme is CertificateScheme.ATEX
            and not bears(document, Suffix.U)
            and not expired(document, placed, demands.as_of)
            and (level is None or (level.value[0] == asked.value[0] and level.rank <= asked.rank))
        )

    return any(map(holds, body.equipment.evidence or ()))


def _judge(part: OwnSources) -> Judgement:  # noqa: PLR0911 - one return for each answer
    cover, here = part.cover, part.place
    if part.motion is Motion.FIXED:
        return Answer(
            required=f"no ignition source of its own, or a marking or assessment for {here}",
            found=part.motion.value,
            clause="ISO 80079-36:2016 1, 4; 2014/34/EU Art. 1",
        ).passed("Fixed and without moving parts: no ignition source of its own.")
    answer = Answer(
        required=f"marking for EPL {cover.asked.value} or better, or an ignition hazard assessment",
        found=f"{part.motion.value}; {cover.words}",
    )
    if cover.by_marking:
        return answer.passed("The marking reaches the level asked for.")
    if cover.assessed is Assessed.YES:
        return _by_assessment(part, answer)
    # Before the marking: one for a lower level must not be worse than none; `protection-level`
    # flags the marking itself.
    if part.slow_by_hand and cover.asked.rank > 0:
        return _by_hand(part, answer) if not part.driven else _no_hand(part, answer)
    if part.owed is not None and cover.marked is None and cover.assessed is not Assessed.LOWER:
        return answer.unproven(
            Reason.FACT_MISSING,
            f"{_MESSAGES.get(cover.assessed, _NOTHING)} Nor is it stated {part.owed.value}.",
            remedy=f"{part.owed.remedy} {_OR_ELSE}",
            answer_by=Role.DESIGNER,
        )
    if cover.marked is not None:
        return answer.flagged(
            f"Marked for EPL {cover.marked.value}; {here} asks for {cover.asked.value}.",
            # No assessment helps a plate that `protection-level` flags.
            remedy=f"{_marked_for(cover.asked)}, and state its own `evidence`.",
        )
    if cover.assessed is Assessed.LOWER:
        return answer.flagged(
            "The assessment was made for a lower level, or for another hazard, than this place "
            "has.",
            remedy=_reaching(cover.asked),
        )
    return answer.unproven(
        Reason.FACT_MISSING,
        _MESSAGES.get(cover.assessed, _NOTHING),
        remedy=_CURES.get(cover.assessed, ""),
    )


def _marked_for(level: Level) -> str:
    return f"Obtain a part whose `marking` shows Ex h for {level.value} or better"


def _reaching(level: Level) -> str:
    return (
        f"{_marked_for(level)}, or state "
        f"`evidence: [{{type: assessment, number: …, level: {level.value}}}]`."
    )


def _by_assessment(part: OwnSources, answer: Answer) -> Judgement:
    if part.category_1:
        return replace(
            answer,
            required="an EU-type examination, or the word of the assessor that the part has no "
            "source of ignition of its own",
            clause="2014/34/EU Art. 1, 13(1)(a)",
        ).unproven(
            Reason.CONDITION_TO_ACCEPT,
            f"In {part.place} a part with a source of ignition of its own is of category 1 and "
            "needs an EU-type examination. The assessment reaches the level; that the part has no "
            "such source, it does not say here.",
            remedy="State the certificate, or let the assessor accept it in a waiver that names "
            "the assessment.",
        )
    found = f"{part.motion.value}; {part.cover.assessed.value}"
    return replace(answer, found=found).passed(
        "An ignition hazard assessment is on file: without an effective source of its own the "
        "part needs no marking."
    )


def _no_hand(part: OwnSources, answer: Answer) -> Judgement:
    found = f"{answer.found}; said to be moved by hand, described as {part.driven}"
    return replace(answer, found=found).unproven(
        Reason.FACT_MISSING,
        f"The description speaks of what no hand drives ({part.driven}); `drive` says that a hand "
        "does, or nothing.",
        remedy="State `drive` as it is, with a marking or an assessment in `evidence`; if a hand "
        "does move it, say so in the description: hand compressor.",
        answer_by=Role.DESIGNER,
    )


def _by_hand(part: OwnSources, answer: Answer) -> Judgement:
    slow = Row.of_figure(figure("rubbing speed"))
    return replace(
        answer,
        found=f"{part.motion.value}, moved by hand",
        rows=(slow,) if part.motion is Motion.MOVING else (),
        clause="ISO 80079-36:2016 4; EU guidelines on 2014/34/EU (own ignition source)",
    ).passed(
        "Moved by hand only and slowly: no effective ignition source of its own. Light metals, "
        "impact and static are judged by their own rules."
    )


_NOTHING = (
    "Neither a marking for non-electrical equipment nor an assessment is stated, so nothing shows "
    "that ignition sources are absent."
)
_MESSAGES = {
    Assessed.LEVEL_OPEN: "Rare malfunctions count here; the assessment does not say that it "
    "reaches the level.",
    Assessed.EXPIRED: "The assessment is past its date.",
    Assessed.UNNUMBERED: "The assessment has no number that it could be found by, so it shows "
    "nothing.",
    Assessed.ELSEWHERE: "The assessment is said to cover other part numbers than this one.",
}


_OR_ELSE = (
    "Otherwise obtain a part marked Ex h for the level, or an assessment, named in `evidence`."
)
_CURES = {
    Assessed.LEVEL_OPEN: "State in its evidence entry the `level` that the assessment reaches.",
    Assessed.EXPIRED: "Have the assessment renewed and state the one that is valid.",
    Assessed.UNNUMBERED: "State the `number` under which the assessment is filed.",
    Assessed.ELSEWHERE: "Write the part number into `covers` if the assessment names it, or obtain "
    "one that does.",
}


IGNITION_HAZARD = Rule[OwnSources](
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
    "assessment is asked for all the same, Division 1 as level b unless the place states level a, "
    "Division 2 as c.",
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
