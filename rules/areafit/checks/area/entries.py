"""Glands, plugs, adapters and conduit seals: each opening is part of the protection."""

from collections.abc import Iterator
from decimal import Decimal

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
from areafit.checks.area.temperature import called_fitting, is_fitting, is_no_fitting
from areafit.demands import Demands
from areafit.documents import is_shown
from areafit.facts.fittings import (
    Compartment,
    ConduitSeals,
    ContactProtection,
    Device,
    Entry,
    EntryType,
)
from areafit.facts.marking import Code
from areafit.facts.part import Equipment, Kind
from areafit.facts.protection import Hazard, Law, MarkingSystem, Suffix
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
    PRESSURIZED = "pressurized"  # a purge for Division 1: what leads in is sealed
    CLOSED = "closed"  # the enclosure must stay closed


class EntriesNotStated(Frozen):
    """Nothing is said of the openings of an enclosure that rests on them, or that it has none.

    `seals`: what is said of its conduit seals in one word, where its conduits ask for them.
    `no_fitting`: it is itself no gland, plug, adapter or seal; `called`: which one its name says.
    """

    needs: Needs
    none: bool
    seals: ConduitSeals | None = None
    no_fitting: bool = False
    called: Device | None = None


class EntryQuestion(Frozen):
    """One entry, with the best code of its marking judged at the place; None where it has none.

    `ambient` is set where the range of the fitting does not hold the place's, `unfilled` where it
    is an adapter and the list has fewer glands, plugs and seals than adapters. `both`: the
    enclosure has a compartment of type d and one of type e. `quiet`: nothing in it arcs or is hot
    enough to ignite, so that a conduit asks for a seal by its size only. `sealed_e`: a conduit
    without a seal enters an enclosure of type e under rules that ask for one. `sealed`: the plate
    says that it asks for no seal. `gas_seal`: it is a seal for gas in an enclosure that keeps dust
    out.
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
    both: bool = False
    quiet: bool = False
    sealed_e: bool = False
    sealed: bool = False
    gas_seal: bool = False


def rests_on_enclosure(code: Code) -> bool:
    """Whether the protection by a code rests on an enclosure; in Division 2 on any that is listed.

    Intrinsic safety and encapsulation do not.
    """
    if code.system is MarkingSystem.NEC_DIVISION:
        return not is_intrinsically_safe(code)
    return _needs(code) is not None


_FLAMEPROOF = frozenset({"d", "da", "db", "dc"})
_INCREASED_SAFETY = frozenset({"e", "eb", "ec"})
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
        if kept_closed and needs in {Needs.CLOSED, Needs.PRESSURIZED}:
            continue  # the enclosure that it stands in keeps it closed, or under pressure
        if not entries:
            quiet = _is_quiet(needs, choice)
            seals = None if quiet or needs not in _SEALED else equipment.conduit_seals
            stated = equipment.device is not None
            other = equipment.entries is None and (stated or is_no_fitting(equipment, choice.code))
            called = called_fitting(equipment, choice.code) if equipment.entries is None else None
            silence = EntriesNotStated(needs, equipment.entries is not None, seals, other, called)
            yield Ask(silence, "entries" if called is None else "device")
        for i, entry in enumerate(entries):
            question = _question(entry, needs, choice, demands)
            alone = unfilled and entry.type is EntryType.ADAPTER
            yield Ask(replace(question, unfilled=alone), f"entries/{i}")


def _unfilled(entries: tuple[Entry, ...]) -> bool:
    """Whether an adapter has nothing in it: it leaves an opening as large as the one it fills."""
    adapters = sum(entry.type is EntryType.ADAPTER for entry in entries)
    return adapters > sum(entry.type in _CLOSERS for entry in entries)


_CLOSERS = frozenset(
    {EntryType.CABLE_GLAND, EntryType.CONDUIT_SEAL, EntryType.CONDUIT, EntryType.PLUG}
)
_SEALED = frozenset({Needs.EXPLOSIONPROOF, Needs.PRESSURIZED})


def _needs(code: Code | None) -> Needs | None:
    if code is None or code.non_electrical:
        return None
    if code.system is MarkingSystem.NEC_DIVISION:
        # A plate without a division is one for Division 1 (500.8(C)(2)).
        if code.divisions == (2,) or is_intrinsically_safe(code):
            return None
        # Dust-ignitionproof enclosures have no flame path; 502.15 knows no distance of a seal.
        if code.hazard is not Hazard.GAS:
            return Needs.CLOSED
        return Needs.EXPLOSIONPROOF if code.purge is None else Needs.PRESSURIZED
    if _FLAMEPROOF & set(code.protection):
        return Needs.FLAMEPROOF
    closed = any(letter[0] in _CLOSED and letter[:2] != "op" for letter in code.protection)
    return Needs.CLOSED if closed else None


def _question(entry: Entry, needs: Needs, choice: Candidate, demands: Demands) -> EntryQuestion:
    # A milder group serves a box that is sealed (500.6(A)); the seal itself is for the place.
    fitting = Equipment(
        kinds=frozenset({Kind.ELECTRICAL}),
        markings=entry.markings,
        conduit_seals=ConduitSeals(within=Decimal(0), all_runs=False),
    )
    best = choices(fitting, demands, choice.hazard)[0]
    asked = demands.place.ingress
    ambient = AmbientQuestion.of(fitting, demands, best.code)
    known = best.code is not None and demands.ambient is not None
    narrow = known and judge_ambient(ambient).verdict is not Verdict.PASS
    level = LevelQuestion.of(best)
    return EntryQuestion(
        entry,
        needs,
        best.code,
        replace(level, listed=True) if _omits_division(best.code) else level,
        GroupQuestion.of(best),
        read_rating(asked) if asked is not None else None,
        minimum_of(choice.code, choice.hazard),
        ambient if narrow else None,
        both=choice.code is not None
        and bool(_INCREASED_SAFETY & set(choice.code.protection))
        and bool(_FLAMEPROOF & set(choice.code.protection)),
        quiet=_is_quiet(needs, choice),
        sealed_e=entry.type is EntryType.CONDUIT
        and demands.law is Law.NEC
        and choice.code is not None
        and bool(_INCREASED_SAFETY & set(choice.code.protection)),
        sealed=_is_factory_sealed(choice.code),
        gas_seal=_is_gas_seal(entry, choice),
    )


def _omits_division(code: Code | None) -> bool:
    """Whether a fitting bears class and group and no division: so do most seals and plugs.

    What suits Division 1 need not print it (NFPA 70-2023 500.8(C)(2), from memory). An entry has no
    papers of its own that could show more; a line that is a fitting states its listing.
    """
    return code is not None and code.hazard_class is not None and bool(code.groups)


def _is_gas_seal(entry: Entry, choice: Candidate) -> bool:
    """Whether a conduit seal is explosionproof, where a Division code asks only for no dust.

    A seal holds an explosion back in Class I; dust is kept out by the threaded joint as of any
    conduit, and by what fills the seal (NFPA 70-2023 502.15, as a forum's engineer explains it).
    """
    code = choice.code
    if entry.type is not EntryType.CONDUIT_SEAL or code is None or code.hazard is Hazard.GAS:
        return False
    fitting = Equipment(kinds=frozenset({Kind.ELECTRICAL}), markings=entry.markings)
    return code.system is MarkingSystem.NEC_DIVISION and any(
        each.hazard_class == "I" and each.divisions != (2,) for each in fitting.codes
    )


def _is_quiet(needs: Needs, choice: Candidate) -> bool:
    contacts = _arcs(choice.equipment) and not _is_factory_sealed(choice.code)
    return needs is Needs.EXPLOSIONPROOF and not contacts and _is_cool(choice)


def _is_factory_sealed(code: Code | None) -> bool:
    """Whether the plate says that its contacts are sealed off, or that it asks for no seal.

    NFPA 70 501.15(A)(1), exception, as a trade journal prints it of 2020.
    """
    return code is not None and "factory sealed" in code.words


_SAFE_CONTACTS = frozenset(
    {ContactProtection.HERMETIC, ContactProtection.OIL, ContactProtection.NONINCENDIVE}
)


def _arcs(equipment: Equipment) -> bool:
    """Whether contacts in it may ignite, as far as it is not said that none do.

    A box for terminals has none unless it says so; contacts that are sealed, under oil or in a
    nonincendive circuit ignite nothing (NFPA 70-2023 501.15(A)(1), exception).
    """
    if equipment.arcing is None:
        return equipment.device is not Device.JUNCTION_BOX
    return equipment.arcing and equipment.contact_protection not in _SAFE_CONTACTS


def _is_cool(choice: Candidate) -> bool:
    """Whether nothing in it is hotter than the share of what ignites there."""
    equipment, code, hazard = choice.equipment, choice.code, choice.hazard
    if equipment.heat_producing is False or (
        equipment.heat_producing is None and equipment.device is Device.JUNCTION_BOX
    ):
        return True
    ignites = [limit.maximum for limit in hazard.limits if limit.ignition]
    marks = [mark.maximum for mark in code.temperatures] if code is not None else []
    if not ignites or not marks or None in marks or hazard.temperature_gaps:
        return False
    share = _hot().amount(Dimension.FRACTION) / 100
    return max(mark for mark in marks if mark) <= share * min(ignites)


def _hot() -> Figure:
    return figure("share of the ignition temperature that asks for a conduit seal")


def _large() -> Figure:
    return figure("trade size from which a box with splices asks for a conduit seal")


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
    """What is wrong with an entry, and what cures it; `fails` where a stated fact does."""

    message: str
    remedy: str
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
            return told.flagged(defect.message, remedy=defect.remedy)
        return told.unproven(Reason.FACT_MISSING, defect.message, remedy=defect.remedy)
    return answer.passed(f"The {found} keeps what the enclosure promises.")


_ARTICLE = {
    Needs.FLAMEPROOF: "a flameproof",
    Needs.EXPLOSIONPROOF: "an explosionproof",
    Needs.PRESSURIZED: "a pressurized",
    Needs.CLOSED: "a closed",
}


_ITSELF = (
    " A gland or plug that is a line of its own states `device: cable gland`, `stopping plug`, "
    "`thread adapter` or `conduit seal` instead."
)


def _judge_silence(question: EntriesNotStated) -> Judgement:
    if question.seals is not None:  # a conduit that has a seal is an entry
        return _judge_seals(question.needs, question.seals)
    if question.none:
        return Answer(_REQUIRED, "no entries").passed("The enclosure has no opening for a cable.")
    if question.called is not None:
        return Answer(_REQUIRED, "not stated").unproven(
            Reason.FACT_MISSING,
            f"The part is called a {question.called.value}; that it is one is not stated.",
            remedy=f"State `device: {question.called.value}`; if it is something else, say so in "
            "the description.",
            answer_by=Role.DESIGNER,
        )
    itself = "" if question.no_fitting else _ITSELF
    return Answer(_REQUIRED, "not stated").unproven(
        Reason.FACT_MISSING,
        f"The protection rests on {_ARTICLE[question.needs]} enclosure; what closes its openings "
        "is not stated.",
        remedy="List `entries` with type, marking, thread, hole and ingress, or write `none` where "
        f"a cable is moulded in.{itself}",
        answer_by=Role.DESIGNER,
    )


def _judge_seals(needs: Needs, seals: ConduitSeals) -> Judgement:
    """What one word says of all conduits of a box that asks for seals: it can object at least."""
    most = _distance(needs)
    answer = Answer(_REQUIRED, "conduit seals", (Row.of_figure(most),), clause=most.clause)
    if seals.within is not None and seals.within > most.amount(Dimension.LENGTH):
        return answer.flagged(
            f"Conduit seals stand up to {show(seals.within, Dimension.LENGTH)} from the enclosure; "
            f"{both_units(most)} is the most.",
            remedy=f"Seal each conduit within {both_units(most)} of the enclosure, and state "
            "`conduit_seals: {within: …, all_runs: true}`.",
        )
    if seals.all_runs is False:
        return answer.flagged(
            f"{capital(_ARTICLE[needs])} enclosure asks for a seal in every conduit; not all have "
            "one.",
            remedy="Seal every conduit near the enclosure, and state `all_runs: true`.",
        )
    return answer.unproven(
        Reason.FACT_MISSING,
        "For which class and group the conduit seals are marked, and what closes other openings, "
        "is not stated.",
        remedy="List `entries`: each conduit seal with marking, thread, hole and `within`, and the "
        "plugs of openings that are not used.",
    )


def _rows(question: EntryQuestion) -> tuple[Row, ...]:
    """The figures that an entry is held to."""
    threads = (question.entry.thread, question.entry.hole)
    used = (
        [_pitch()] if any(thread and thread.upper().startswith("M") for thread in threads) else []
    )
    sized = question.entry.type in _CONDUITS and question.quiet
    used += [_large(), _hot()] if sized else []
    if question.entry.type is EntryType.CONDUIT and question.needs is not Needs.CLOSED:
        used.append(_distance(question.needs))
    return tuple(Row.of_figure(each) for each in (*used, *_distances(question)))


def _defects(question: EntryQuestion) -> Iterator[_Defect]:
    if question.entry.type is EntryType.OPEN_HOLE:
        yield _Defect(
            "An open hole voids the protection of the whole enclosure.",
            "Close the hole with a stopping plug or a cable gland that is marked for the place, "
            "and state its `type`, `marking`, `thread`, `hole` and `ingress`.",
            fails=True,
            clause="IEC 60079-14:2013 10.3; NFPA 70-2023 501.15(A)",
        )
        return
    if question.entry.type is EntryType.CONDUIT or question.gas_seal:  # bears no marking for it
        yield from _unsealed(question)
        yield from _thread(question)
        yield from _rating(question)
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
            "List the gland, plug or seal that stands in the adapter among the `entries`.",
            clause="IEC 60079-14:2013 10.2",
        )


_OTHER = "Fit one that is marked for the place and the type of protection, and state its `marking`."


def _marking(question: EntryQuestion) -> Iterator[_Defect]:
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
        yield _Defect(
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
            yield _Defect(f"{capital(what)}: {answer.message}", remedy, fails, answer.clause)
    if question.needs is Needs.FLAMEPROOF and not _is_flameproof(code):
        yield from _not_flameproof(question, code)
    if code.suffix is Suffix.U:
        yield _Defect(
            f"The {what} is a component (U): the certificate of the enclosure must name it.",
            "Fit one that is certified as equipment and state its `marking`, which then ends "
            "without U.",
            clause="IEC 60079-0:2017 13",
        )


def _not_flameproof(question: EntryQuestion, code: Code) -> Iterator[_Defect]:
    """A gland of type e serves the compartment of type e, where the enclosure has one."""
    what, into = question.entry.type.value, question.entry.into
    increased = question.both and bool(_INCREASED_SAFETY & set(code.protection))
    if increased and into is Compartment.INCREASED_SAFETY:
        return
    if increased and into is None:
        yield _Defect(
            f"The {what} is of type e and the enclosure has compartments of types d and e; which "
            "one it opens into is not stated.",
            f"State `into: e` where the {what} enters the terminal compartment of type e; into "
            "that of type d fit one of type d.",
            clause="IEC 60079-14:2013 10.6; IEC 60079-1:2014 13",
        )
        return
    yield _Defect(
        f"A flameproof enclosure needs a flameproof {what} (type d); this one is not.",
        f"Fit a {what} of type d that is marked for the group, and state its `marking`.",
        fails=True,
        clause="IEC 60079-14:2013 10.6; IEC 60079-1:2014 13",
    )


def _range(question: EntryQuestion) -> Iterator[_Defect]:
    """A printed range decides; where none is, a certificate may state a wider one."""
    if question.ambient is None:
        return
    answer = judge_ambient(question.ambient)
    printed = bool(question.ambient.marked)
    message = answer.message if printed else f"no Ta of it is stated. {answer.message}"
    yield _Defect(
        f"{capital(question.entry.type.value)}: {message}",
        f"Fit one whose `marking` gives a Ta of {answer.required} or wider."
        if printed
        else "State the Ta of the fitting as it is printed, or as its certificate gives it, within "
        "its `marking`.",
        printed,
        answer.clause,
    )


def _conditions(question: EntryQuestion) -> Iterator[_Defect]:
    if question.code is None or question.code.suffix is not Suffix.X:
        return
    conditions = question.entry.conditions
    what = f"The X of the {question.entry.type.value}"
    if not conditions:
        remedy = "List the `conditions` of the fitting's certificate, each with how it is met."
        yield _Defect(f"{what}: its conditions are not listed.", remedy, clause=_CLAUSE_OF_X)
    for each in conditions or ():
        if each.met is False:
            message = f"{what}: the condition '{each.text}' is said not to be met."
            remedy = f"Meet the condition and state it in {_MET}, or fit one without it."
            yield _Defect(message, remedy, fails=True, clause=_CLAUSE_OF_X)
        elif not is_shown(each):
            message = f"{what}: how '{each.text}' is met, and the document for it, is not stated."
            yield _Defect(message, f"State {_MET}.", clause=_CLAUSE_OF_X)


_MET = "`conditions: [{text: …, met_by: …, document: …}]`"
_CLAUSE_OF_X = "IEC 60079-0:2017 29.3 e)"


_CONDUITS = frozenset({EntryType.CONDUIT_SEAL, EntryType.CONDUIT})


def _thread(question: EntryQuestion) -> Iterator[_Defect]:
    """Conduit of a trade size is NPT, as are openings for it unless marked as metric (500.8(E))."""
    entry = question.entry
    by_size = entry.type in _CONDUITS and entry.trade_size is not None
    if by_size and question.needs in _SEALED and entry.thread is None and entry.hole is None:
        return
    if entry.thread is None or entry.hole is None:
        yield _Defect(
            f"Thread of the {entry.type.value}, or of the hole it goes into, is not stated.",
            "State `thread` of the fitting and `hole` of the enclosure, such as M20x1.5.",
            clause="IEC 60079-1:2014 C.2.2; IEC 60079-14:2013 10.2",
        )
    elif _plain(entry.thread) != _plain(entry.hole):
        yield _Defect(
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
            fails = answer.verdict is Verdict.FLAG
            remedy = answer.remedy or (
                f"Fit one of `ingress: {needed.text}` or better."
                if fails
                else f"State its `ingress`; {needed.text} or better is asked for."
            )
            yield _Defect(message, remedy, fails, "IEC 60079-14:2013 10.2")


def _distances(question: EntryQuestion) -> tuple[Figure, ...]:
    """Within what of the enclosure a conduit seal must be, and should be at type d."""
    entry = question.entry
    if question.needs is Needs.CLOSED or entry.type is not EntryType.CONDUIT_SEAL:
        return ()
    if question.both and entry.into is Compartment.INCREASED_SAFETY:
        return ()
    if question.sealed and question.needs is Needs.FLAMEPROOF:
        return ()  # 505.16(B)(1), exception
    if question.quiet and entry.trade_size is not None and not _asks_by_size(entry.trade_size):
        return ()
    nearer = (_distance(Needs.FLAMEPROOF),) if question.needs is Needs.FLAMEPROOF else ()
    most = Needs.EXPLOSIONPROOF if nearer else question.needs
    return (_distance(most), *nearer)


def _distance(needs: Needs) -> Figure:
    uses = {Needs.FLAMEPROOF: "type d", Needs.PRESSURIZED: "pressurized"}
    return figure("distance of a conduit seal", uses.get(needs, "Division 1"))


_SEAL_IT = (
    "Seal the conduit near the enclosure, and state `type: conduit seal` with its `within` and its "
    "`marking`."
)


def _unsealed(question: EntryQuestion) -> Iterator[_Defect]:
    """A conduit without a seal: what asks for one, and what does not."""
    needs, entry = question.needs, question.entry
    if needs is Needs.FLAMEPROOF and question.sealed:
        return
    if needs is Needs.CLOSED and not question.sealed_e:
        return  # dust and fibres enter no threaded joint; 502.15 seals what leads elsewhere
    if question.sealed_e and (needs is Needs.CLOSED or entry.into is not Compartment.FLAMEPROOF):
        yield _Defect(
            "A conduit into an enclosure of type e asks for a seal; whether only NPT joints lead "
            "to one, or to another enclosure of type e, is not stated.",
            _SEAL_IT,
            clause="NFPA 70-2023 505.16(B)(1)",
        )
        return
    most = _distance(needs)
    clause = most.clause
    if needs is Needs.PRESSURIZED:
        yield _Defect(
            "A conduit into a pressurized enclosure asks for a seal unless the same pressure is "
            "in it, which is not stated.",
            _SEAL_IT,
            clause=clause,
        )
    elif not question.quiet:
        yield _Defect(
            f"{capital(_ARTICLE[needs])} enclosure asks for a seal within {both_units(most)} in "
            "every conduit; this one has none.",
            _SEAL_IT,
            fails=True,
            clause=clause,
        )
    elif entry.trade_size is None:
        yield _Defect(
            f"From trade size 2 on a conduit asks for a seal within {both_units(most)}; its size "
            "is not stated.",
            "State `trade_size`: below 2 no seal is asked for.",
            clause=clause,
        )
    elif _asks_by_size(entry.trade_size):
        yield _Defect(
            f"From trade size 2 on a conduit asks for a seal within {both_units(most)}; this one "
            "has none.",
            _SEAL_IT,
            fails=True,
            clause=clause,
        )


def _asks_by_size(inches: Decimal) -> bool:
    """Whether a conduit is so large that even a box with splices only asks for a seal near it."""
    return inches * _METRES_AN_INCH >= _large().amount(Dimension.LENGTH)


_METRES_AN_INCH = Decimal("0.0254")
_BY_SIZE = ", or `trade_size`: below 2 the distance is free"


def _nearer(most: Figure) -> str:
    return f"Seal the conduit within {both_units(most)} of the enclosure, and state `within`."


def _seal(question: EntryQuestion) -> Iterator[_Defect]:
    distances = _distances(question)
    if not distances:
        return
    within, clause = question.entry.within, distances[-1].clause
    by_size = question.quiet and question.entry.trade_size is None
    if within is None:
        size = ", nor the trade size of the conduit" if by_size else ""
        yield _Defect(
            f"How far the conduit seal is from the enclosure is not stated{size}.",
            f"State `within`{_BY_SIZE if by_size else ''}.",
            clause=clause,
        )
        return
    stands = f"The conduit seal stands {show(within, Dimension.LENGTH)} from the enclosure; "
    most, *nearer = distances
    if within > most.amount(Dimension.LENGTH):
        if by_size:
            yield _Defect(
                f"{stands}{both_units(most)} is the most from trade size 2 on, which is not "
                "stated.",
                "State `trade_size`: below 2 the distance is free.",
                clause=clause,
            )
            return
        yield _Defect(
            f"{stands}{both_units(most)} is the most.", _nearer(most), fails=True, clause=clause
        )
    elif any(within > each.amount(Dimension.LENGTH) for each in nearer):
        yield _Defect(
            f"{stands}type d asks for {both_units(nearer[0])} unless its own marking says "
            "otherwise.",
            _nearer(nearer[0]),
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
