"""Which code of a nameplate answers a hazard.

Each complete code is judged whole. Where a part bears several, the one that meets level, group,
temperature and ambient best is taken for all four requirements, so that no two codes can pass
for each other's halves.
"""

from dataclasses import dataclass
from enum import Enum

from areafit.checks.area.ambient import judge_ambient
from areafit.checks.area.group import judge_group
from areafit.checks.area.level import judge_level
from areafit.checks.area.question import (
    AmbientQuestion,
    GroupQuestion,
    LevelQuestion,
    Missing,
    TemperatureQuestion,
    TypeQuestion,
)
from areafit.checks.area.surface import judge_temperature
from areafit.checks.area.technique import judge_type
from areafit.demands import Demands, HazardDemand
from areafit.facts.marking import Code
from areafit.facts.part import Equipment, Kind
from areafit.verdict import Verdict, worst


class Need(Enum):
    """Whether the area rules ask for a marking at all."""

    MARKING = "marking"
    ONLY_IF_MARKED = "only if marked"
    NONE = "none"


@dataclass(frozen=True, slots=True)
class Chosen:
    """The code taken for a hazard with the questions about it; `missing` says why there is none."""

    path: str
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


def chosen(equipment: Equipment, demands: Demands, hazard: HazardDemand) -> Chosen:
    """The best code for one hazard, or the questions without one."""
    candidates = [
        _questions(equipment, demands, hazard, code, path, None)
        for code, path in _codes(equipment)
        if code.hazard is hazard.hazard and not code.associated
    ]
    if not candidates:
        return _questions(equipment, demands, hazard, None, "marking", _missing(equipment))
    return min(candidates, key=_badness)


def _codes(equipment: Equipment) -> list[tuple[Code, str]]:
    markings = equipment.markings or ()
    return [
        (code, f"marking/{i}" if len(markings) > 1 else "marking")
        for i, marking in enumerate(markings)
        for code in marking.codes
    ]


def _missing(equipment: Equipment) -> Missing:
    if not equipment.markings:
        return Missing.NO_MARKING
    if any(problem.unread for marking in equipment.markings for problem in marking.problems):
        return Missing.UNREAD
    codes = [code for code, _ in _codes(equipment)]
    if codes and all(code.associated for code in codes):
        return Missing.ASSOCIATED
    return Missing.OTHER_HAZARD if codes else Missing.UNREAD


_ORDER = list(Verdict)


def _badness(candidate: Chosen) -> tuple[int, ...]:
    verdicts = [
        judge_level(candidate.level).verdict,
        judge_group(candidate.group).verdict,
        judge_temperature(candidate.temperature).verdict,
        judge_ambient(candidate.ambient).verdict,
        judge_type(candidate.technique).verdict,
    ]
    return (_ORDER.index(worst(verdicts)), *sorted(_ORDER.index(v) for v in verdicts))


def _questions(
    equipment: Equipment,
    demands: Demands,
    hazard: HazardDemand,
    code: Code | None,
    path: str,
    missing: Missing | None,
) -> Chosen:
    electrical = equipment.electrical
    return Chosen(
        path,
        missing,
        LevelQuestion.of(demands, hazard, code, missing, electrical=electrical),
        GroupQuestion.of(demands, hazard, code, missing),
        TemperatureQuestion.of(equipment, demands, hazard, code),
        AmbientQuestion.of(equipment, demands, code),
        TypeQuestion.of(demands, hazard, code, electrical=electrical),
    )
