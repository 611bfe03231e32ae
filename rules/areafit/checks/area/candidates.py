"""Which code of a nameplate answers a hazard.

Each complete code is judged whole. Where a part bears several, the one that meets level, group,
temperature and ambient best is taken for all four requirements, so that no two codes can pass
for each other's halves. A part that is electrical and mechanical at once, with a code for each,
must pass by both.
"""

from functools import lru_cache

from areafit.checks.area.ambient import judge_ambient
from areafit.checks.area.bid import Bid
from areafit.checks.area.group import judge_group
from areafit.checks.area.group_question import GroupQuestion
from areafit.checks.area.heat_question import TemperatureQuestion
from areafit.checks.area.level import judge_level
from areafit.checks.area.missing import Missing
from areafit.checks.area.question import AmbientQuestion, LevelQuestion, TypeQuestion
from areafit.checks.area.surface import judge_temperature
from areafit.checks.area.technique import judge_type
from areafit.demands import Demands, HazardDemand
from areafit.facts.marking import Code
from areafit.facts.part import Equipment, Kind
from areafit.facts.protection import Hazard, MarkingSystem
from areafit.values import Frozen, Term
from areafit.verdict import Verdict, worst


class Need(Term):
    """Whether the area rules ask for a marking at all."""

    MARKING = "marking"
    ONLY_IF_MARKED = "only if marked"
    NONE = "none"


class Chosen(Frozen):
    """The code taken for a hazard with the questions about it; `missing` says why there is none."""

    path: str
    code: Code | None
    missing: Missing | None
    level: LevelQuestion
    group: GroupQuestion
    temperature: TemperatureQuestion
    ambient: AmbientQuestion
    technique: TypeQuestion


def need(equipment: Equipment) -> Need:
    """Electrical parts need a marking; others are held to one that they bear.

    Simple apparatus needs none (`simple-apparatus` judges it).
    """
    if equipment.electrical:
        return Need.MARKING
    if equipment.markings and Kind.SIMPLE_APPARATUS not in equipment.kinds:
        return Need.ONLY_IF_MARKED
    return Need.NONE


def choices(equipment: Equipment, demands: Demands, hazard: HazardDemand) -> tuple[Chosen, ...]:
    """The best code for one hazard, or two where a part has electrical and mechanical codes."""
    return _choices(equipment, demands, hazard.hazard)


@lru_cache(maxsize=16)  # the rules ask of one part and place in turn
def _choices(equipment: Equipment, demands: Demands, name: Hazard) -> tuple[Chosen, ...]:
    hazard = next(each for each in demands.hazards if each.hazard is name)
    usable = [
        (code, path)
        for code, path in _codes(equipment)
        if _answers(code, name) and code.speaks_of_housing
    ]
    if not usable:
        return (_questions(Bid(equipment, demands, hazard, None, _missing(equipment)), "marking"),)
    electrical = [pair for pair in usable if not pair[0].non_electrical]
    mechanical = [pair for pair in usable if pair[0].non_electrical]
    both = bool(equipment.electrical and electrical and mechanical)
    sets = [electrical, mechanical] if both else [usable]
    return tuple(
        _best(
            [
                _questions(Bid(equipment, demands, hazard, code, None), path, both=both)
                for code, path in pairs
            ]
        )
        for pairs in sets
    )


def _best(candidates: list[Chosen]) -> Chosen:
    """The candidate that fails least; the first of equals."""
    return candidates[0] if len(candidates) == 1 else max(candidates, key=_goodness)


def _answers(code: Code, hazard: Hazard) -> bool:
    """Whether a code is for the hazard; in Class III zone equipment for dust is (503.6)."""
    fibres = hazard is Hazard.FIBRES and code.system is MarkingSystem.NEC_ZONE
    return code.hazard is (Hazard.DUST if fibres else hazard)


def _codes(equipment: Equipment) -> list[tuple[Code, str]]:
    markings = equipment.markings or ()
    return [
        (code, f"marking/{i}" if len(markings) > 1 else "marking")
        for i, marking in enumerate(markings)
        for code in marking.codes
    ]


def _missing(equipment: Equipment) -> Missing:
    if equipment.markings is None:
        return Missing.NO_MARKING
    if not equipment.markings:
        return Missing.UNMARKED
    if any(problem.unread for marking in equipment.markings for problem in marking.problems):
        return Missing.UNREAD
    codes = [code for code, _ in _codes(equipment)]
    if codes and all(code.associated for code in codes):
        return Missing.ASSOCIATED
    return Missing.OTHER_HAZARD if codes else Missing.UNREAD


_ORDER = list(Verdict)  # most severe first


def _goodness(candidate: Chosen) -> tuple[int, ...]:
    """Its worst verdict first, then all of them: higher is better."""
    verdicts = [
        judge_level(candidate.level).verdict,
        judge_group(candidate.group).verdict,
        judge_temperature(candidate.temperature).verdict,
        judge_ambient(candidate.ambient).verdict,
        judge_type(candidate.technique).verdict,
    ]
    return (_ORDER.index(worst(verdicts)), *sorted(_ORDER.index(v) for v in verdicts))


def _questions(bid: Bid, path: str, *, both: bool = False) -> Chosen:
    """The questions about a code; with codes of both kinds each answers for its own half."""
    equipment, code = bid.equipment, bid.code
    electrical = equipment.electrical and not (both and code is not None and code.non_electrical)
    return Chosen(
        path,
        code,
        bid.missing,
        LevelQuestion.of(bid),
        GroupQuestion.of(bid),
        TemperatureQuestion.of(bid),
        AmbientQuestion.of(equipment, bid.demands, code),
        TypeQuestion.of(equipment, bid.demands, bid.hazard, code, electrical=electrical),
    )
