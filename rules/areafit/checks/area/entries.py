"""Glands, plugs, adapters and conduit seals: each opening is part of the protection."""

from collections.abc import Iterator

from areafit.checks.area.ambient import judge_ambient
from areafit.checks.area.conduit_seals import judge_seals, seal_figures, too_far, unsealed
from areafit.checks.area.entry_questions import (
    ARTICLE,
    CONDUITS,
    FLAMEPROOF,
    INCREASED_SAFETY,
    REQUIRED,
    SEALED,
    Defect,
    EntriesNotStated,
    EntryQuestion,
    Needs,
    ask,
)
from areafit.checks.area.group import GroupQuestion, judge_group
from areafit.checks.area.ingress import (
    IngressRating,
    Ip,
    judge_rating,
    read_rating,
)
from areafit.checks.area.level import LevelQuestion, judge_level
from areafit.checks.area.nameplate import Candidate, ChosenCodes, is_intrinsically_safe
from areafit.demands import Demands
from areafit.documents import is_shown
from areafit.facts.fittings import (
    Compartment,
    EntryType,
)
from areafit.facts.marking import Code
from areafit.facts.protection import Suffix
from areafit.facts.quantity import Dimension, number
from areafit.rule import Answer, Ask, Example, Family, Judgement, Row, Rule, Subject
from areafit.tables.limits import Figure, figure
from areafit.values import replace
from areafit.verdict import Reason, Role, Verdict
from areafit.wording import capital


def _ask(plate: ChosenCodes, demands: Demands) -> Iterator[Ask[EntriesNotStated | EntryQuestion]]:
    """What is asked of the openings, but no open question of a part that its plate flags here.

    That part goes for its level or group; what closes the openings of the one that comes is another
    question.
    """
    for choice in plate.chosen:
        for asked in ask(plate.equipment, choice, demands):
            waits = _judge(asked.question).verdict is Verdict.UNPROVEN and _goes(choice)
            if not waits:
                yield asked


def _goes(choice: Candidate) -> bool:
    """Whether the plate is flagged by its level or group, and no waiver keeps the part."""
    if choice.equipment.kept:
        return False
    level, group = judge_level(LevelQuestion.of(choice)), judge_group(GroupQuestion.of(choice))
    return Verdict.FLAG in (level.verdict, group.verdict)


def _judge(question: EntriesNotStated | EntryQuestion) -> Judgement:
    if isinstance(question, EntriesNotStated):
        return _judge_silence(question)
    found = question.entry.type.value
    answer = Answer(REQUIRED, found, _rows(question))
    for defect in sorted(_defects(question), key=lambda each: not each.fails):
        told = replace(answer, clause=defect.clause)
        if defect.fails:
            return told.flagged(defect.message, remedy=defect.remedy)
        return told.unproven(Reason.FACT_MISSING, defect.message, remedy=defect.remedy)
    return answer.passed(f"The {found} keeps what the enclosure promises.")


_ITSELF = (
    " A gland or plug that is a line of its own states `device: cable gland`, `stopping plug`, "
    "`thread adapter` or `conduit seal` instead."
)


def _judge_silence(question: EntriesNotStated) -> Judgement:
    if question.seals is not None:  # a conduit that has a seal is an entry
        return judge_seals(question.needs, question.seals)
    if question.none:
        return Answer(REQUIRED, "no entries").passed("The enclosure has no opening for a cable.")
    if question.called is not None:
        return Answer(REQUIRED, "not stated").unproven(
            Reason.FACT_MISSING,
            f"The part is called a {question.called.value}; that it is one is not stated.",
            remedy=f"State `device: {question.called.value}`; if it is something else, say so in "
            "the description.",
            answer_by=Role.DESIGNER,
        )
    itself = "" if question.no_fitting else _ITSELF
    return Answer(REQUIRED, "not stated").unproven(
        Reason.FACT_MISSING,
        f"The protection rests on {ARTICLE[question.needs]} enclosure; what closes its openings "
        "is not stated.",
        remedy="List `entries` with type, marking, thread, hole and ingress, or write `none` where "
        f"a cable is moulded in.{itself}",
        answer_by=Role.DESIGNER,
    )


def _rows(question: EntryQuestion) -> tuple[Row, ...]:
    """The figures that an entry is held to."""
    threads = (question.entry.thread, question.entry.hole)
    used = (
        [_pitch()] if any(thread and thread.upper().startswith("M") for thread in threads) else []
    )
    return tuple(Row.of_figure(each) for each in (*used, *seal_figures(question)))


def _defects(question: EntryQuestion) -> Iterator[Defect]:
    if question.entry.type is EntryType.OPEN_HOLE:
        yield Defect(
            "An open hole voids the protection of the whole enclosure.",
            "Close the hole with a stopping plug or a cable gland that is marked for the place, "
            "and state its `type`, `marking`, `thread`, `hole` and `ingress`.",
            fails=True,
            clause="IEC 60079-14:2013 10.3; NFPA 70-2023 501.15(A)",
        )
        return
    if question.entry.type is EntryType.CONDUIT or question.gas_seal:  # bears no marking for it
        yield from unsealed(question)
        yield from _thread(question)
        yield from _rating(question)
        return
    yield from _marking(question)
    yield from _thread(question)
    yield from _rating(question)
    yield from too_far(question)
    yield from _range(question)
    yield from _conditions(question)
    if question.unfilled:
        yield Defect(
            "An adapter closes nothing: the gland, plug or seal in it is not stated.",
            "List the gland, plug or seal that stands in the adapter among the `entries`.",
            clause="IEC 60079-14:2013 10.2",
        )


_OTHER = "Fit one that is marked for the place and the type of protection, and state its `marking`."


def _marking(question: EntryQuestion) -> Iterator[Defect]:
    what = question.entry.type.value
    code = question.code
    if code is None:
        answer = judge_level(question.level)
        told = question.entry.markings is None
        lacks = (
            f"No marking of the {what} is stated"
            if told
            else f"No marking of the {what} suits this hazard ({answer.found})"
        )
        yield Defect(
            f"{lacks}; one unmarked fitting voids the protection of the enclosure.",
            f"Copy the marking of the {what} into its `marking`." if told else _OTHER,
            answer.verdict is Verdict.FLAG or question.entry.markings == (),
        )
        return
    level, group = judge_level(question.level), judge_group(question.group)
    for answer in (level, group):
        if answer.verdict is not Verdict.PASS:
            fails = answer.verdict is Verdict.FLAG
            remedy = _OTHER if fails else answer.remedy or _OTHER
            yield Defect(f"{capital(what)}: {answer.message}", remedy, fails, answer.clause)
    if question.needs is Needs.FLAMEPROOF and not _is_flameproof(code):
        yield from _not_flameproof(question, code)
    if code.suffix is Suffix.U:
        yield Defect(
            f"The {what} is a component (U): the certificate of the enclosure must name it.",
            "Fit one that is certified as equipment and state its `marking`, which then ends "
            "without U.",
            clause="IEC 60079-0:2017 13",
        )


def _not_flameproof(question: EntryQuestion, code: Code) -> Iterator[Defect]:
    """A gland of type e serves the compartment of type e, where the enclosure has one."""
    what, into = question.entry.type.value, question.entry.into
    increased = question.both and bool(INCREASED_SAFETY & set(code.protection))
    if increased and into is Compartment.INCREASED_SAFETY:
        return
    if increased and into is None:
        yield Defect(
            f"The {what} is of type e and the enclosure has compartments of types d and e; which "
            "one it opens into is not stated.",
            f"State `into: e` where the {what} enters the terminal compartment of type e; into "
            "that of type d fit one of type d.",
            clause="IEC 60079-14:2013 10.6; IEC 60079-1:2014 13",
        )
        return
    yield Defect(
        f"A flameproof enclosure needs a flameproof {what} (type d); this one is not.",
        f"Fit a {what} of type d that is marked for the group, and state its `marking`.",
        fails=True,
        clause="IEC 60079-14:2013 10.6; IEC 60079-1:2014 13",
    )


def _range(question: EntryQuestion) -> Iterator[Defect]:
    """A printed range decides; where none is, a certificate may state a wider one."""
    if question.ambient is None:
        return
    answer = judge_ambient(question.ambient)
    printed = bool(question.ambient.marked)
    message = answer.message if printed else f"no Ta of it is stated. {answer.message}"
    yield Defect(
        f"{capital(question.entry.type.value)}: {message}",
        f"Fit one whose `marking` gives a Ta of {answer.required} or wider."
        if printed
        else "State the Ta of the fitting as it is printed, or as its certificate gives it, within "
        "its `marking`.",
        printed,
        answer.clause,
    )


def _conditions(question: EntryQuestion) -> Iterator[Defect]:
    if question.code is None or question.code.suffix is not Suffix.X:
        return
    conditions = question.entry.conditions
    what = f"The X of the {question.entry.type.value}"
    if not conditions:
        remedy = "List the `conditions` of the fitting's certificate, each with how it is met."
        yield Defect(f"{what}: its conditions are not listed.", remedy, clause=_CLAUSE_OF_X)
    for each in conditions or ():
        if each.met is False:
            message = f"{what}: the condition '{each.text}' is said not to be met."
            remedy = f"Meet the condition and state it in {_MET}, or fit one without it."
            yield Defect(message, remedy, fails=True, clause=_CLAUSE_OF_X)
        elif not is_shown(each):
            message = f"{what}: how '{each.text}' is met, and the document for it, is not stated."
            yield Defect(message, f"State {_MET}.", clause=_CLAUSE_OF_X)


_MET = "`conditions: [{text: …, met_by: …, document: …}]`"
_CLAUSE_OF_X = "IEC 60079-0:2017 29.3 e)"


def _thread(question: EntryQuestion) -> Iterator[Defect]:
    """Conduit of a trade size is NPT, as are openings for it unless marked as metric (500.8(E))."""
    entry = question.entry
    by_size = entry.type in CONDUITS and entry.trade_size is not None
    if by_size and question.needs in SEALED and entry.thread is None and entry.hole is None:
        return
    if entry.thread is None or entry.hole is None:
        yield Defect(
            f"Thread of the {entry.type.value}, or of the hole it goes into, is not stated.",
            "State `thread` of the fitting and `hole` of the enclosure, such as M20x1.5.",
            clause="IEC 60079-1:2014 C.2.2; IEC 60079-14:2013 10.2",
        )
    elif _plain(entry.thread) != _plain(entry.hole):
        yield Defect(
            f"Thread {entry.thread} does not fit the hole {entry.hole}; a marked adapter is "
            "needed between them.",
            f"Fit one with the thread of the hole, `thread: {entry.hole}`; or list the marked "
            "adapter between them, whose inner thread is then the `hole` here.",
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


def _rating(question: EntryQuestion) -> Iterator[Defect]:
    entry, minimum = question.entry, question.minimum
    stated = read_rating(entry.ingress) if entry.ingress is not None else None
    wanted = [question.place] if question.place is not None else []
    if minimum is not None:
        wanted.append(IngressRating((Ip(minimum.first, minimum.second),)))
    for needed in wanted:
        answer = judge_rating(needed, stated)
        if answer.verdict is not Verdict.PASS:
            message = f"{capital(entry.type.value)}: {answer.message}"
            fails = answer.verdict is Verdict.FLAG
            remedy = answer.remedy or (
                f"Fit one of `ingress: {needed.text}` or better."
                if fails
                else f"State its `ingress`; {needed.text} or better is asked for."
            )
            yield Defect(message, remedy, fails, "IEC 60079-14:2013 10.2")


def _is_flameproof(code: Code) -> bool:
    """Whether a fitting's code is of type d, or explosionproof for Class I, Division 1.

    NFPA 70-2023 505.16(B) asks for conduit seals at type d enclosures as at explosionproof ones,
    and 505.20(B) lets what is identified for Division 1 serve Zone 1.
    """
    division = code.hazard_class == "I" and 1 in code.divisions
    explosionproof = division and not is_intrinsically_safe(code)
    return explosionproof or bool(FLAMEPROOF & set(code.protection))


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
    "450 mm (18 in) of explosionproof enclosures that may ignite, of others from trade size 2, of "
    "pressurized ones for Division 1, and 50 mm (2 in) of type d, which a seal for Class I, "
    "Division 1 serves; Class II knows no such distance (502.15). IEC 60079-14 asks for glands "
    "chosen by type and group; one of type e enters the compartment of type e (`into: e`). "
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
