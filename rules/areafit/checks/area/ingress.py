"""Enclosure rating against what the place asks for and what the type of protection rests on."""

from collections.abc import Iterable, Iterator

from areafit.checks.area.candidates import choices
from areafit.checks.area.enclosure import judge_rating, judge_ratings
from areafit.checks.area.minimum import Minimum, minimum_of
from areafit.checks.area.rating import Rating, ips_shown, read_rating, solids, water
from areafit.demands import Demands
from areafit.facts.fittings import EntryType
from areafit.facts.marking import Code
from areafit.facts.part import Equipment
from areafit.rule import Ask, Example, Family, Judgement, Rule, Subject, flagged, passed, unproven
from areafit.values import Frozen, replace
from areafit.verdict import Reason, Role, Verdict


class AtPlace(Frozen):
    """The rating that a place asks for, those on the nameplate and in the list, and open holes.

    `entries` are the ratings of what closes the openings, as far as they are stated.
    """

    needed: Rating
    stated: tuple[Rating, ...]
    open_holes: int = 0
    entries: tuple[Rating, ...] = ()


class ForType(Frozen):
    """The rating that a type of protection rests on, those stated, and open holes."""

    needed: Minimum
    stated: tuple[Rating, ...]
    open_holes: int = 0


Question = AtPlace | ForType


def _ask(equipment: Equipment, demands: Demands) -> Iterator[Ask[Question]]:
    """Electrical parts: a bracket has no enclosure to rate."""
    if not equipment.electrical:
        return
    holes = sum(entry.type is EntryType.OPEN_HOLE for entry in equipment.entries or ())
    if demands.place.ingress is not None:
        codes = [code for marking in equipment.markings or () for code in marking.codes]
        needed = read_rating(demands.place.ingress)
        fittings = _of_entries(equipment)
        yield Ask(AtPlace(needed, _ratings(equipment, codes), holes, fittings), "ingress")
    for hazard in demands.hazards:
        for choice in choices(equipment, demands, hazard):
            minimum = minimum_of(choice.code, hazard)
            if choice.code is not None and minimum is not None:
                ratings = _ratings(equipment, [choice.code])
                yield Ask(ForType(minimum, ratings, holes), "ingress")


def _of_entries(equipment: Equipment) -> tuple[Rating, ...]:
    texts = (entry.ingress for entry in equipment.entries or ())
    return tuple(dict.fromkeys(read_rating(text) for text in texts if text is not None))


def _ratings(equipment: Equipment, codes: Iterable[Code]) -> tuple[Rating, ...]:
    """What the codes print and what the list states; where they differ, both must hold."""
    texts = [code.ingress for code in codes] + [equipment.ingress]
    return tuple(dict.fromkeys(read_rating(text) for text in texts if text is not None))


def _judge(question: Question) -> Judgement:
    if question.open_holes:
        stated = ", ".join(rating.text for rating in question.stated) or "no rating stated"
        return flagged(
            "A hole that nothing closes lets in what the rating is to keep out.",
            required=f"{question.needed.text} at least, every opening closed",
            found=f"{stated}, {question.open_holes} open",
            remedy="Close the hole with a plug or a gland of the rating, and state it in "
            "`entries`.",
            answer_by=Role.INSTALLER,
        )
    if isinstance(question, AtPlace):
        return _judge_place(question)
    # A printed IP code decides; a Type shows only what it reaches at least.
    decisive = tuple(rating for rating in question.stated if rating.ips) or question.stated
    answers = [_judge_type(question.needed, rating) for rating in decisive]
    if not answers:
        return _judge_type(question.needed, None)
    return min(answers, key=lambda answer: _ORDER.index(answer.verdict))


def _judge_place(question: AtPlace) -> Judgement:
    """The enclosure, then the lowest rating of what closes its openings."""
    own = judge_ratings(question.needed, question.stated)
    if own.verdict is not Verdict.PASS:
        return own
    answers = [(judge_rating(question.needed, each), each) for each in question.entries]
    open_ones = [pair for pair in answers if pair[0].verdict is not Verdict.PASS]
    if not open_ones:
        return own
    worst, entry = min(open_ones, key=lambda pair: _ORDER.index(pair[0].verdict))
    return replace(
        worst,
        message=f"What closes an opening: {worst.message}",
        found=f"{own.found}; an entry {entry.text}",
    )


_ORDER = list(Verdict)


def _judge_type(needed: Minimum, stated: Rating | None) -> Judgement:
    required = f"{needed.text} at least, for {needed.protection}"
    found = stated.text if stated is not None else "not stated"
    row = (needed.row,)
    if stated is None or not (stated.ips or stated.types):
        return unproven(
            Reason.FACT_MISSING,
            f"Type of protection {needed.protection} rests on the enclosure; its rating is not "
            "stated.",
            required=required,
            found=found,
            clause=needed.clause,
            rows=row,
        )
    if stated.unread:
        return unproven(
            Reason.NOT_JUDGED,
            f"{stated.unread!r} beside {stated.text} could not be read; it may limit the rating.",
            required=required,
            found=found,
            clause=needed.clause,
            rows=row,
        )
    shown = ips_shown(stated)
    if solids(shown, needed.first) and water(shown, needed.second):
        return passed(
            f"{stated.text} holds what {needed.protection} asks for.",
            required=required,
            found=found,
            clause=needed.clause,
            rows=row,
        )
    if stated.types or any(None in (own.first, own.second) for own in stated.ips):
        return unproven(
            Reason.FACT_MISSING,
            f"{stated.text} does not show the {needed.text} that {needed.protection} asks for.",
            required=required,
            found=found,
            clause=needed.clause,
            rows=row,
        )
    return flagged(
        f"{stated.text} is less than the {needed.text} that {needed.protection} asks for.",
        required=required,
        found=found,
        clause=needed.clause,
        rows=row,
    )


INGRESS = Rule[Question](
    id="ingress",
    title="Enclosure keeps out what it must",
    family=Family.AREA,
    subject=Subject.EQUIPMENT,
    clause="IEC 60529:1989+A1:1999+A2:2013 5, 6; NEMA 250-2018; NFPA 70-2023 110.28",
    why="Dust and water that get in bridge, corrode and heat what is protected; for dust types of "
    "protection the closed enclosure is the protection itself.",
    remedy="Choose an enclosure with the rating asked for, or have the maker state it.",
    answer_by=Role.SUPPLIER,
    note="Digits are compared one by one. A Type stands in for an IP rating, never the reverse; "
    "correspondence tables differ by edition and the lower value is used, except that Types 4 and "
    "4X are taken as IP66, which older tables print as IP56. Types 7 and 9 are listings, not "
    "ratings. IP44 may do for type e without bare live parts, by its certificate.",
    ask=_ask,
    judge=_judge,
    examples=(
        Example(
            "IP66 where IP65 is asked for",
            Verdict.PASS,
            "{kind: electrical, ingress: IP66}",
            "{area: 'Zone 1, IIB, T3', ingress: IP65}",
        ),
        Example(
            "IP67 against jets",
            Verdict.FLAG,
            "{kind: electrical, ingress: IP67}",
            "{area: 'Zone 1, IIB, T3', ingress: IP65}",
        ),
        Example(
            "IP66 where Type 4X is asked for",
            Verdict.UNPROVEN,
            "{kind: electrical, ingress: IP66}",
            "{area: 'Class I, Division 2, Group D', ingress: Type 4X}",
            "NEC",
        ),
        Example(
            "Dust protection by enclosure with IP54 in conductive dust",
            Verdict.FLAG,
            "{kind: electrical, marking: Ex tb IIIC T85°C Db, ingress: IP54}",
            "{area: 'Zone 21, IIIC, T135 °C'}",
        ),
    ),
)
