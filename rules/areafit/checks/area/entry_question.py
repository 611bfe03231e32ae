"""The question of `cable-entry`: one opening, what closes it, and what the enclosure needs."""

from collections.abc import Iterator

from areafit.checks.area.ambient import judge_ambient
from areafit.checks.area.candidates import Chosen, choices
from areafit.checks.area.fitting import is_fitting
from areafit.checks.area.group_question import GroupQuestion
from areafit.checks.area.minimum import Minimum, minimum_of
from areafit.checks.area.offer import is_intrinsically_safe
from areafit.checks.area.question import AmbientQuestion, LevelQuestion
from areafit.checks.area.rating import Rating, read_rating
from areafit.demands import Demands, HazardDemand
from areafit.facts.fittings import Entry, EntryType
from areafit.facts.marking import Code
from areafit.facts.part import Equipment, Kind
from areafit.facts.protection import MarkingSystem
from areafit.rule import Ask
from areafit.values import Frozen, Term, replace
from areafit.verdict import Verdict


class Needs(Term):
    """How far an enclosure's protection rests on what closes its openings."""

    FLAMEPROOF = "flameproof"  # threads and glands are part of the flame path
    EXPLOSIONPROOF = "explosionproof"  # the same in Division terms, with conduit seals
    CLOSED = "closed"  # the enclosure must stay closed


class NotStated(Frozen):
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
    place: Rating | None
    minimum: Minimum | None
    ambient: AmbientQuestion | None = None
    unfilled: bool = False


Question = NotStated | EntryQuestion

_FLAMEPROOF = frozenset({"d", "da", "db", "dc"})
_CLOSED = frozenset({"e", "p", "n", "t", "o", "q", "v"})


def ask_entries(equipment: Equipment, demands: Demands) -> Iterator[Ask[Question]]:
    """Every opening of an enclosure whose marking rests on it, once per hazard."""
    if not equipment.electrical:
        return
    for hazard in demands.hazards:
        for choice in choices(equipment, demands, hazard):
            needs = _needs(choice.code)
            if needs is None or is_fitting(equipment, choice.code):
                continue  # a fitting closes the openings of something else
            if not equipment.entries:
                yield Ask(NotStated(needs, equipment.entries is not None), "entries")
            entries = equipment.entries or ()
            unfilled = _unfilled(entries)
            for i, entry in enumerate(entries):
                question = _question(entry, needs, choice, demands, hazard)
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


def _question(
    entry: Entry, needs: Needs, choice: Chosen, demands: Demands, hazard: HazardDemand
) -> EntryQuestion:
    fitting = Equipment(kinds=frozenset({Kind.ELECTRICAL}), markings=entry.markings)
    best = choices(fitting, demands, hazard)[0]
    asked = demands.place.ingress
    return EntryQuestion(
        entry,
        needs,
        best.code,
        best.level,
        best.group,
        read_rating(asked) if asked is not None else None,
        minimum_of(choice.code, hazard),
        best.ambient if _too_narrow(best, demands) else None,
    )


def _too_narrow(best: Chosen, demands: Demands) -> bool:
    known = best.code is not None and demands.ambient is not None
    return known and judge_ambient(best.ambient).verdict is not Verdict.PASS


def is_flameproof(code: Code) -> bool:
    """Whether a fitting's code is of type d, or explosionproof for Class I, Division 1.

    NFPA 70-2023 505.16(B) asks for conduit seals at type d enclosures as at explosionproof ones,
    and 505.20(B) lets what is identified for Division 1 serve Zone 1.
    """
    division = code.hazard_class == "I" and 1 in code.divisions
    explosionproof = division and not is_intrinsically_safe(code)
    return explosionproof or bool(_FLAMEPROOF & set(code.protection))
