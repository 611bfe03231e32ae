"""Glands, plugs, adapters and conduit seals: each opening is part of the protection."""

from collections.abc import Iterator

from areafit.checks.area.ambient import AmbientQuestion, judge_ambient
from areafit.checks.area.group import GroupQuestion, both_units, judge_group
from areafit.checks.area.ingress import (
    IngressRating,
    Ip,
    Minimum,
    judge_rating,
    minimum_of,
    read_rating,
)
from areafit.checks.area.level import LevelQuestion, judge_level
from areafit.checks.area.nameplate import Candidate, ChosenCodes, is_intrinsically_safe
from areafit.checks.area.selection import choices
from areafit.checks.area.temperature import is_fitting
from areafit.demands import Demands
from areafit.documents import is_shown
from areafit.facts.fittings import Entry, EntryType
from areafit.facts.marking import Code
from areafit.facts.part import Equipment, Kind
from areafit.facts.protection import MarkingSystem, Suffix
from areafit.facts.quantity import Dimension, number, show
from areafit.rule import Answer, Ask, Example, Family, Judgement, Row, Rule, Subject
from areafit.tables.limits import Figure, figure
from areafit.values import Frozen, Term, replace
from areafit.verdict import Reason, Role, Verdict
from areafit.wording import capital


class Needs(Term):
    """How far an enclosure's protection rests on what closes its openings."""

    FLAMEPROOF = "flameproof"  # threads and glands are part of the flame path
    EXPLOSIONPROOF = "explosionproof"  # the same in Division terms, with conduit seals
    CLOSED = "closed"  # the enclosure must stay closed


class EntriesNotStated(Frozen):
    """Nothing is said of the openings of an enclosure that rests on them, or that it has none."""

    needs: Needs
    none: bool


class EntryQuestion(Frozen):
    """One entry, with the best code of its marking judged at the place; None where it has none.

    `ambient` is set where the range of the fitting does not hold the place's, `unfilled` where it
    is an adapter and the list has fewer glands, plugs and seals than adapters.
    """

    entry: Entry
    needs: Needs
    code: Code | None
    level: LevelQuestion
    group: GroupQuestion
    place: IngressRating | None
    minimum: Minimum | None
    ambient: AmbientQuestion | None = None
    unfilled: bool = False


def rests_on_enclosure(code: Code) -> bool:
    """Whether the protection by a code rests on an enclosure; in Division 2 on any that is listed.

    Intrinsic safety and encapsulation do not.
    """
    if code.system is MarkingSystem.NEC_DIVISION:
        return not is_intrinsically_safe(code)
    return _needs(code) is not None


_FLAMEPROOF = frozenset({"d", "da", "db", "dc"})
_CLOSED = frozenset({"e", "p", "n", "t", "o", "q", "v"})


def _ask(plate: ChosenCodes, demands: Demands) -> Iterator[Ask[EntriesNotStated | EntryQuestion]]:
    """Every opening of an enclosure whose marking rests on it, once per hazard."""
    equipment, housed = plate.equipment, plate.equipment.housed
    if not equipment.electrical or equipment.faces_process:
        return  # cables enter the half that stands in the air
    kept_closed = housed is not None and housed.counts
    entries = equipment.entries or ()
    unfilled = _unfilled(entries)
    for choice in plate.chosen:
        needs = _needs(choice.code)
        if needs is None or is_fitting(equipment, choice.code):
            continue  # a fitting closes the openings of something else
        if kept_closed and needs is Needs.CLOSED:
            continue  # the enclosure that it stands in keeps it closed
        if not entries:
            yield Ask(EntriesNotStated(needs, equipment.entries is not None), "entries")
        for i, entry in enumerate(entries):
            question = _question(entry, needs, choice, demands)
            alone = unfilled and entry.type is EntryType.ADAPTER
            yield Ask(replace(question, unfilled=alone), f"entries/{i}")


def _unfilled(entries: tuple[Entry, ...]) -> bool:
    """Whether an adapter has nothing in it: it leaves an opening as large as the one it fills."""
    adapters = sum(entry.type is EntryType.ADAPTER for entry in entries)
    return adapters > sum(entry.type in _CLOSERS for entry in entries)


_CLOSERS = frozenset({EntryType.CABLE_GLAND, EntryType.CONDUIT_SEAL, EntryType.PLUG})


def _needs(code: Code | None) -> Needs | None:
    if code is None or code.non_electrical:
        return None
    if code.system is MarkingSystem.NEC_DIVISION:
        first = 1 in code.divisions and not is_intrinsically_safe(code)
        return Needs.EXPLOSIONPROOF if first else None
    if _FLAMEPROOF & set(code.protection):
        return Needs.FLAMEPROOF
    closed = any(letter[0] in _CLOSED and letter[:2] != "op" for letter in code.protection)
    return Needs.CLOSED if closed else None


def _question(entry: Entry, needs: Needs, choice: Candidate, demands: Demands) -> EntryQuestion:
    fitting = Equipment(kinds=frozenset({Kind.ELECTRICAL}), markings=entry.markings)
    best = choices(fitting, demands, choice.hazard)[0]
    asked = demands.place.ingress
    ambient = AmbientQuestion.of(fitting, demands, best.code)
    known = best.code is not None and demands.ambient is not None
    narrow = known and judge_ambient(ambient).verdict is not Verdict.PASS
    return EntryQuestion(
        entry,
        needs,
        best.code,
        LevelQuestion.of(best),
        GroupQuestion.of(best),
        read_rating(asked) if asked is not None else None,
        minimum_of(choice.code, choice.hazard),
        ambient if narrow else None,
    )


def _is_flameproof(code: Code) -> bool:
    """Whether a fitting's code is of type d, or explosionproof for Class I, Division 1.

    NFPA 70-2023 505.16(B) asks for conduit seals at type d enclosures as at explosionproof ones,
    and 505.20(B) lets what is identified for Division 1 serve Zone 1.
    """
    division = code.hazard_class == "I" and 1 in code.divisions
    explosionproof = division and not is_intrinsically_safe(code)
    return explosionproof or bool(_FLAMEPROOF & set(code.protection))


_REQUIRED = "every opening closed by a fitting with its own marking, thread and rating"


class _Defect(Frozen):
    """What is wrong with an entry; `fails` where a stated fact does."""

    message: str
    fails: bool = False
    clause: str = ""


def _judge(question: EntriesNotStated | EntryQuestion) -> Judgement:
    if isinstance(question, EntriesNotStated):
        return _judge_silence(question)
    found = question.entry.type.value
    answer = Answer(_REQUIRED, found, _rows(question))
    for defect in sorted(_defects(question), key=lambda each: not each.fails):
        told = replace(answer, clause=defect.clause)
        if defect.fails:
            return told.flagged(defect.message)
        return told.unproven(Reason.FACT_MISSING, defect.message)
    return answer.passed(f"The {found} keeps what the enclosure promises.")


def _judge_silence(question: EntriesNotStated) -> Judgement:
    if question.none:
        return Answer(_REQUIRED, "no entries").passed("The enclosure has no opening for a cable.")
    return Answer(_REQUIRED, "not stated").unproven(
        Reason.FACT_MISSING,
        f"The protection rests on a {question.needs.value} enclosure; what closes its openings is "
        "not stated.",
        remedy="List `entries` with type, marking, thread, hole and ingress, or write `none` where "
        "a cable is moulded in. A gland or plug that is a line of its own states `device: cable "
        "gland`, `stopping plug`, `thread adapter` or `conduit seal` instead.",
        answer_by=Role.DESIGNER,
    )


def _rows(question: EntryQuestion) -> tuple[Row, ...]:
    """The figures that an entry is held to."""
    threads = (question.entry.thread, question.entry.hole)
    used = (
        [_pitch()] if any(thread and thread.upper().startswith("M") for thread in threads) else []
    )
    return tuple(Row.of_figure(each) for each in (*used, *_distances(question)))


def _defects(question: EntryQuestion) -> Iterator[_Defect]:
    if question.entry.type is EntryType.OPEN_HOLE:
        yield _Defect(
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
        yield _Defect(
            "An adapter closes nothing: the gland, plug or seal in it is not stated.",
            clause="IEC 60079-14:2013 10.2",
        )


def _marking(question: EntryQuestion) -> Iterator[_Defect]:
    what = question.entry.type.value
    code = question.code
    if code is None:
        answer = judge_level(question.level)
        yield _Defect(
            f"No marking of the {what} suits this hazard ({answer.found}); one unmarked fitting "
            "voids the protection of the enclosure.",
            answer.verdict is Verdict.FLAG or question.entry.markings == (),
        )
        return
    level, group = judge_level(question.level), judge_group(question.group)
    for answer in (level, group):
        if answer.verdict is not Verdict.PASS:
            fails = answer.verdict is Verdict.FLAG
            yield _Defect(f"{capital(what)}: {answer.message}", fails, answer.clause)
    if question.needs is Needs.FLAMEPROOF and not _is_flameproof(code):
        yield _Defect(
            f"A flameproof enclosure needs a flameproof {what} (type d); this one is not.",
            fails=True,
            clause="IEC 60079-14:2013 10.6; IEC 60079-1:2014 13",
        )
    if code.suffix is Suffix.U:
        yield _Defect(
            f"The {what} is a component (U): the certificate of the enclosure must name it.",
            clause="IEC 60079-0:2017 13",
        )


def _range(question: EntryQuestion) -> Iterator[_Defect]:
    """A printed range decides; where none is, a certificate may state a wider one."""
    if question.ambient is None:
        return
    answer = judge_ambient(question.ambient)
    printed = bool(question.ambient.marked)
    message = answer.message if printed else f"no Ta of it is stated. {answer.message}"
    yield _Defect(f"{capital(question.entry.type.value)}: {message}", printed, answer.clause)


def _conditions(question: EntryQuestion) -> Iterator[_Defect]:
    if question.code is None or question.code.suffix is not Suffix.X:
        return
    conditions = question.entry.conditions
    what = f"The X of the {question.entry.type.value}"
    if not conditions:
        yield _Defect(f"{what}: its conditions are not listed.", clause=_CLAUSE_OF_X)
    for each in conditions or ():
        if each.met is False:
            message = f"{what}: the condition '{each.text}' is said not to be met."
            yield _Defect(message, fails=True, clause=_CLAUSE_OF_X)
        elif not is_shown(each):
            message = f"{what}: how '{each.text}' is met, and the document for it, is not stated."
            yield _Defect(message, clause=_CLAUSE_OF_X)


_CLAUSE_OF_X = "IEC 60079-0:2017 29.3 e)"


def _thread(question: EntryQuestion) -> Iterator[_Defect]:
    entry = question.entry
    if entry.thread is None or entry.hole is None:
        yield _Defect(
            f"Thread of the {entry.type.value}, or of the hole it goes into, is not stated.",
            clause="IEC 60079-1:2014 C.2.2; IEC 60079-14:2013 10.2",
        )
    elif _plain(entry.thread) != _plain(entry.hole):
        yield _Defect(
            f"Thread {entry.thread} does not fit the hole {entry.hole}; a marked adapter is "
            "needed between them.",
            fails=True,
            clause="IEC 60079-14:2013 10.2",
        )


_INCH = frozenset({"IN", "IN.", "INCH"})


def _pitch() -> Figure:
    return figure("pitch of a metric entry thread")


def _plain(thread: str) -> tuple[str, ...]:
    """A thread in one spelling; metric entries have the usual pitch where none is written."""
    words = thread.upper().replace("×", "X").replace("-", " ").replace('"', " ").split()
    words = [word for word in words if word not in _INCH]
    text = "".join(words)
    if text.startswith("M"):
        return (text.removesuffix(f"X{number(_pitch().amount(Dimension.LENGTH) * 1000)}"),)
    return tuple(sorted(words))


def _rating(question: EntryQuestion) -> Iterator[_Defect]:
    entry, minimum = question.entry, question.minimum
    stated = read_rating(entry.ingress) if entry.ingress is not None else None
    wanted = [question.place] if question.place is not None else []
    if minimum is not None:
        wanted.append(IngressRating((Ip(minimum.first, minimum.second),)))
    for needed in wanted:
        answer = judge_rating(needed, stated)
        if answer.verdict is not Verdict.PASS:
            message = f"{capital(entry.type.value)}: {answer.message}"
            yield _Defect(message, answer.verdict is Verdict.FLAG, "IEC 60079-14:2013 10.2")


def _distances(question: EntryQuestion) -> tuple[Figure, ...]:
    """Within what of the enclosure a conduit seal must be, and should be at type d."""
    if question.needs is Needs.CLOSED or question.entry.type is not EntryType.CONDUIT_SEAL:
        return ()
    name = "distance of a conduit seal"
    nearer = (figure(name, "type d"),) if question.needs is Needs.FLAMEPROOF else ()
    return (figure(name, "Division 1"), *nearer)


def _seal(question: EntryQuestion) -> Iterator[_Defect]:
    distances = _distances(question)
    if not distances:
        return
    within, clause = question.entry.within, distances[-1].clause
    if within is None:
        yield _Defect(
            "How far the conduit seal is from the enclosure is not stated.", clause=clause
        )
        return
    stands = f"The conduit seal stands {show(within, Dimension.LENGTH)} from the enclosure; "
    most, *nearer = distances
    if within > most.amount(Dimension.LENGTH):
        yield _Defect(f"{stands}{both_units(most)} is the most.", fails=True, clause=clause)
    elif any(within > each.amount(Dimension.LENGTH) for each in nearer):
        yield _Defect(
            f"{stands}type d asks for {both_units(nearer[0])} unless its own marking says "
            "otherwise.",
            clause=clause,
        )


CABLE_ENTRY = Rule[EntriesNotStated | EntryQuestion](
    id="cable-entry",
    title="Openings are closed by fittings that keep the protection",
    family=Family.AREA,
    subject=Subject.NAMEPLATE,
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
    ask=_ask,
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
