"""What is asked of the openings of an enclosure: what rests on them and on seals."""

from collections.abc import Iterator
from decimal import Decimal

from areafit.checks.area.ambient import AmbientQuestion, judge_ambient
from areafit.checks.area.group import GroupQuestion
from areafit.checks.area.ingress import (
    IngressRating,
    Minimum,
    minimum_of,
    read_rating,
)
from areafit.checks.area.level import LevelQuestion
from areafit.checks.area.nameplate import Candidate, is_intrinsically_safe
from areafit.checks.area.selection import choices
from areafit.checks.area.temperature import called_fitting, is_fitting, is_no_fitting
from areafit.demands import Demands
from areafit.facts.fittings import (
    ConduitSeals,
    ContactProtection,
    Device,
    Entry,
    EntryType,
)
from areafit.facts.marking import Code
from areafit.facts.part import Equipment, Kind
from areafit.facts.protection import Hazard, Law, MarkingSystem
from areafit.facts.quantity import Dimension
from areafit.rule import Ask
from areafit.tables.limits import Figure, figure
from areafit.values import Frozen, Term, replace
from areafit.verdict import Verdict


class Needs(Term):
    """How far an enclosure's protection rests on what closes its openings."""

    FLAMEPROOF = "flameproof"  # threads and glands are part of the flame path
    EXPLOSIONPROOF = "explosionproof"  # the same in Division terms, with conduit seals
    PRESSURIZED = "pressurized"  # a purge for Division 1: what leads in is sealed
    CLOSED = "closed"  # the enclosure must stay closed


ARTICLE = {
    Needs.FLAMEPROOF: "a flameproof",
    Needs.EXPLOSIONPROOF: "an explosionproof",
    Needs.PRESSURIZED: "a pressurized",
    Needs.CLOSED: "a closed",
}


CONDUITS = frozenset({EntryType.CONDUIT_SEAL, EntryType.CONDUIT})
REQUIRED = "every opening closed by a fitting with its own marking, thread and rating"


class Defect(Frozen):
    """What is wrong with an entry, and what cures it; `fails` where a stated fact does."""

    message: str
    remedy: str
    fails: bool = False
    clause: str = ""


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


FLAMEPROOF = frozenset({"d", "da", "db", "dc"})
INCREASED_SAFETY = frozenset({"e", "eb", "ec"})
_CLOSED = frozenset({"e", "p", "n", "t", "o", "q", "v"})


def ask(
    equipment: Equipment, choice: Candidate, demands: Demands
) -> Iterator[Ask[EntriesNotStated | EntryQuestion]]:
    """Every opening of an enclosure whose marking for a hazard rests on it."""
    housed = equipment.housed
    if not equipment.electrical or equipment.faces_process:
        return  # cables enter the half that stands in the air
    kept_closed = housed is not None and housed.counts
    entries = equipment.entries or ()
    unfilled = _unfilled(entries)
    needs = _needs(choice.code)
    if needs is None or is_fitting(equipment, choice.code):
        return  # a fitting closes the openings of something else
    if kept_closed and needs in {Needs.CLOSED, Needs.PRESSURIZED}:
        return  # the enclosure that it stands in keeps it closed, or under pressure
    if not entries:
        quiet = _is_quiet(needs, choice)
        seals = None if quiet or needs not in SEALED else equipment.conduit_seals
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
SEALED = frozenset({Needs.EXPLOSIONPROOF, Needs.PRESSURIZED})


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
    if FLAMEPROOF & set(code.protection):
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
        and bool(INCREASED_SAFETY & set(choice.code.protection))
        and bool(FLAMEPROOF & set(choice.code.protection)),
        quiet=_is_quiet(needs, choice),
        sealed_e=entry.type is EntryType.CONDUIT
        and demands.law is Law.NEC
        and choice.code is not None
        and bool(INCREASED_SAFETY & set(choice.code.protection)),
        sealed=_is_factory_sealed(choice.code),
        gas_seal=_is_gas_seal(entry, choice),
    )


def _omits_division(code: Code | None) -> bool:
    """Whether a fitting bears class and group and no division: so do most seals and plugs.

    What suits Division 1 need not print it (NFPA 70-2023 500.8(C)(2), from memory). An entry has no
    papers of its own that could show more; a line that is a fitting states its listing.
    """
    if code is None or code.divisions:
        return False
    return code.hazard_class is not None and bool(code.groups)


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
    share = hot_share().amount(Dimension.FRACTION) / 100
    return max(mark for mark in marks if mark) <= share * min(ignites)


def hot_share() -> Figure:
    """How near to the ignition temperature a hot part asks for a seal."""
    return figure("share of the ignition temperature that asks for a conduit seal")
