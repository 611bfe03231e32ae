"""Glands, plugs, adapters and conduit seals: each opening is part of the protection."""

from collections.abc import Iterator
from decimal import Decimal

from areafit.checks.area.ambient import judge_ambient
from areafit.checks.area.enclosure import judge_rating
from areafit.checks.area.entry_question import (
    EntryQuestion,
    Needs,
    NotStated,
    Question,
    ask_entries,
    is_flameproof,
)
from areafit.checks.area.group import judge_group
from areafit.checks.area.level import judge_level
from areafit.checks.area.rating import Ip, Rating, read_rating
from areafit.documents import is_shown
from areafit.facts.fittings import EntryType
from areafit.facts.protection import Suffix
from areafit.facts.quantity import Dimension, show
from areafit.rule import Example, Family, Judgement, Rule, Subject, flagged, passed, unproven
from areafit.values import Frozen
from areafit.verdict import Reason, Role, Verdict
from areafit.wording import capital

_SEAL_DISTANCE = Decimal("0.4572")  # m, 18 in
_SEAL_DISTANCE_D = Decimal("0.0508")  # m, 2 in; NFPA 70-2023 505.16(B)(1), from memory
_REQUIRED = "every opening closed by a fitting with its own marking, thread and rating"


class _Point(Frozen):
    """What is wrong with an entry; `fails` where a stated fact does."""

    message: str
    fails: bool = False
    clause: str = ""


def _judge(question: Question) -> Judgement:
    if isinstance(question, NotStated):
        return _judge_silence(question)
    found = question.entry.type.value
    points = sorted(_points(question), key=lambda point: not point.fails)
    for point in points:
        if point.fails:
            return flagged(point.message, required=_REQUIRED, found=found, clause=point.clause)
        return unproven(
            Reason.FACT_MISSING,
            point.message,
            required=_REQUIRED,
            found=found,
            clause=point.clause,
        )
    return passed(
        f"The {found} keeps what the enclosure promises.", required=_REQUIRED, found=found
    )


def _judge_silence(question: NotStated) -> Judgement:
    if question.none:
        return passed(
            "The enclosure has no opening for a cable.", required=_REQUIRED, found="no entries"
        )
    return unproven(
        Reason.FACT_MISSING,
        f"The protection rests on a {question.needs.value} enclosure; what closes its openings is "
        "not stated.",
        required=_REQUIRED,
        found="not stated",
        remedy="List `entries` with type, marking, thread, hole and ingress, or write `none` where "
        "a cable is moulded in. A gland or plug that is a line of its own states `device: cable "
        "gland`, `stopping plug`, `thread adapter` or `conduit seal` instead.",
        answer_by=Role.DESIGNER,
    )


def _points(question: EntryQuestion) -> Iterator[_Point]:
    if question.entry.type is EntryType.OPEN_HOLE:
        yield _Point(
            "An open hole voids the protection of the whole enclosure.",
            fails=True,
            clause="IEC 60079-14:2013 10.3; NFPA 70-2023 501.15(A)",
        )
        return
    yield from _marking(question)
    yield from _thread(question)
    yield from _rating(question)
    yield from _seal(question)
    yield from _range(question)
    yield from _conditions(question)
    if question.unfilled:
        yield _Point(
            "An adapter closes nothing: the gland, plug or seal in it is not stated.",
            clause="IEC 60079-14:2013 10.2",
        )


def _marking(question: EntryQuestion) -> Iterator[_Point]:
    what = question.entry.type.value
    code = question.code
    if code is None:
        answer = judge_level(question.level)
        yield _Point(
            f"No marking of the {what} suits this hazard ({answer.found}); one unmarked fitting "
            "voids the protection of the enclosure.",
            answer.verdict is Verdict.FLAG or question.entry.markings == (),
        )
        return
    level, group = judge_level(question.level), judge_group(question.group)
    for answer in (level, group):
        if answer.verdict is not Verdict.PASS:
            fails = answer.verdict is Verdict.FLAG
            yield _Point(f"{capital(what)}: {answer.message}", fails, answer.clause)
    if question.needs is Needs.FLAMEPROOF and not is_flameproof(code):
        yield _Point(
            f"A flameproof enclosure needs a flameproof {what} (type d); this one is not.",
            fails=True,
            clause="IEC 60079-14:2013 10.6; IEC 60079-1:2014 13",
        )
    if code.suffix is Suffix.U:
        yield _Point(
            f"The {what} is a component (U): the certificate of the enclosure must name it.",
            clause="IEC 60079-0:2017 13",
        )


def _range(question: EntryQuestion) -> Iterator[_Point]:
    """A printed range decides; where none is, a certificate may state a wider one."""
    if question.ambient is None:
        return
    answer = judge_ambient(question.ambient)
    printed = bool(question.ambient.marked)
    message = answer.message if printed else f"no Ta of it is stated. {answer.message}"
    yield _Point(f"{capital(question.entry.type.value)}: {message}", printed, answer.clause)


def _conditions(question: EntryQuestion) -> Iterator[_Point]:
    if question.code is None or question.code.suffix is not Suffix.X:
        return
    conditions = question.entry.conditions
    what = f"The X of the {question.entry.type.value}"
    if not conditions:
        yield _Point(f"{what}: its conditions are not listed.", clause=_CLAUSE_OF_X)
    for each in conditions or ():
        if each.met is False:
            message = f"{what}: the condition '{each.text}' is said not to be met."
            yield _Point(message, fails=True, clause=_CLAUSE_OF_X)
        elif not is_shown(each):
            message = f"{what}: how '{each.text}' is met, and the document for it, is not stated."
            yield _Point(message, clause=_CLAUSE_OF_X)


_CLAUSE_OF_X = "IEC 60079-0:2017 29.3 e)"


def _thread(question: EntryQuestion) -> Iterator[_Point]:
    entry = question.entry
    if entry.thread is None or entry.hole is None:
        yield _Point(
            f"Thread of the {entry.type.value}, or of the hole it goes into, is not stated.",
            clause="IEC 60079-1:2014 C.2.2; IEC 60079-14:2013 10.2",
        )
    elif _plain(entry.thread) != _plain(entry.hole):
        yield _Point(
            f"Thread {entry.thread} does not fit the hole {entry.hole}; a marked adapter is "
            "needed between them.",
            fails=True,
            clause="IEC 60079-14:2013 10.2",
        )


_INCH = frozenset({"IN", "IN.", "INCH"})


def _plain(thread: str) -> tuple[str, ...]:
    """A thread in one spelling; metric entries have a pitch of 1.5 mm where none is written."""
    words = thread.upper().replace("×", "X").replace("-", " ").replace('"', " ").split()
    words = [word for word in words if word not in _INCH]
    text = "".join(words)
    if text.startswith("M") and text.endswith("X1.5"):
        return (text.removesuffix("X1.5"),)
    return (text,) if text.startswith("M") else tuple(sorted(words))


def _rating(question: EntryQuestion) -> Iterator[_Point]:
    entry, minimum = question.entry, question.minimum
    stated = read_rating(entry.ingress) if entry.ingress is not None else None
    wanted = [question.place] if question.place is not None else []
    if minimum is not None:
        wanted.append(Rating((Ip(minimum.first, minimum.second),)))
    for needed in wanted:
        answer = judge_rating(needed, stated)
        if answer.verdict is not Verdict.PASS:
            message = f"{capital(entry.type.value)}: {answer.message}"
            yield _Point(message, answer.verdict is Verdict.FLAG, "IEC 60079-14:2013 10.2")


def _seal(question: EntryQuestion) -> Iterator[_Point]:
    entry = question.entry
    if question.needs is Needs.CLOSED or entry.type is not EntryType.CONDUIT_SEAL:
        return
    flameproof = question.needs is Needs.FLAMEPROOF
    clause = f"NFPA 70-2023 {'505.16(B)(1)' if flameproof else '501.15(A)(1)'}"
    if entry.within is None:
        yield _Point("How far the conduit seal is from the enclosure is not stated.", clause=clause)
    elif entry.within > _SEAL_DISTANCE:
        yield _Point(
            f"The conduit seal stands {show(entry.within, Dimension.LENGTH)} from the enclosure; "
            "450 mm (18 in) is the most.",
            fails=True,
            clause=clause,
        )
    elif flameproof and entry.within > _SEAL_DISTANCE_D:
        yield _Point(
            f"The conduit seal stands {show(entry.within, Dimension.LENGTH)} from the enclosure; "
            "type d asks for 50 mm (2 in) unless its own marking says otherwise.",
            clause=clause,
        )


CABLE_ENTRY = Rule[Question](
    id="cable-entry",
    title="Openings are closed by fittings that keep the protection",
    family=Family.AREA,
    subject=Subject.EQUIPMENT,
    clause="IEC 60079-14:2013 10; IEC 60079-1:2014 13; NFPA 70-2023 501.15, 505.16",
    why="A gland, plug or seal is part of the enclosure: one ordinary gland on a flameproof box "
    "lets the flame out, whatever the nameplate says.",
    remedy="Fit glands, plugs, adapters or seals that are marked for the place and the type of "
    "protection, and state them.",
    answer_by=Role.INSTALLER,
    note="Asked of enclosures whose type rests on being closed (d, e, n, o, p, q, t, Division 1); "
    "not of intrinsically safe or encapsulated parts, nor of a gland, plug, adapter or seal that "
    "is a line of its own and says so in `device`. NFPA 70 asks for conduit seals within "
    "450 mm (18 in) of explosionproof enclosures and 50 mm (2 in) of type d, which a seal for "
    "Class I, Division 1 serves; IEC 60079-14 for glands chosen by type and group. "
    "The Ta of a fitting is written as it is printed, within its `marking`; the conditions of its "
    "X are its own.",
    ask=ask_entries,
    judge=_judge,
    examples=(
        Example(
            "A flameproof gland in a flameproof box",
            Verdict.PASS,
            "{kind: electrical, marking: Ex db IIB T4 Gb, entries: [{type: cable gland, "
            "marking: Ex db IIC Gb, thread: M20x1.5, hole: M20, ingress: IP66}]}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
        Example(
            "An increased-safety gland in a flameproof box",
            Verdict.FLAG,
            "{kind: electrical, marking: Ex db IIB T4 Gb, entries: [{type: cable gland, "
            "marking: Ex eb IIC Gb, thread: M20x1.5, hole: M20, ingress: IP66}]}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
        Example(
            "A conduit seal a metre away",
            Verdict.FLAG,
            "{kind: electrical, marking: 'Class I, Division 1, Groups C, D T4', entries: [{type: "
            "conduit seal, marking: 'Class I, Division 1, Groups C, D', thread: NPT 1/2, hole: "
            "1/2 NPT, within: 1 m}]}",
            "{area: 'Class I, Division 1, Group D'}",
            "NEC",
        ),
        Example(
            "Nothing said of the openings",
            Verdict.UNPROVEN,
            "{kind: electrical, marking: Ex db IIB T4 Gb}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
    ),
)
