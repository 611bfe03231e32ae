"""Which code of a nameplate answers a hazard: chosen once, before the rules of the area ask.

Each complete code is judged whole. Where a part bears several, the one that meets level, group,
temperature, ambient and type best is taken for all of these requirements, so that no two codes can
pass for each other's halves. A part that is electrical and mechanical at once, with a code for
each, must pass by both. A component, or what bears no marking, inside an enclosure that counts and
whose document names it, is answered for by the enclosure's. Inside a purge it is answered for so
whatever it bears; but one that leaves a lesser area inside (type Y) it must suit by itself.
"""

from areafit.checks.area.ambient import AmbientQuestion, judge_ambient, own_range
from areafit.checks.area.group import GroupQuestion, judge_group
from areafit.checks.area.level import judged_level, question_of
from areafit.checks.area.nameplate import Candidate, ChosenCodes, Missing
from areafit.checks.area.protection_type import TypeQuestion, judge_type, purge_of
from areafit.checks.area.temperature import TemperatureQuestion, judge_temperature
from areafit.demands import Demands, HazardDemand
from areafit.facts.marking import Code
from areafit.facts.part import Equipment, Kind
from areafit.facts.place import Area
from areafit.facts.protection import Hazard, MarkingSystem, Suffix
from areafit.values import replace
from areafit.verdict import Verdict, worst


def choose(equipment: Equipment, demands: Demands) -> ChosenCodes:
    """The nameplate of a part at a place, with the code that answers each hazard there."""
    found = (choices(equipment, demands, hazard) for hazard in demands.hazards)
    return ChosenCodes(equipment, tuple(choice for each in found for choice in each))


def choices(equipment: Equipment, demands: Demands, hazard: HazardDemand) -> tuple[Candidate, ...]:
    """The best code for one hazard, or two where a part has electrical and mechanical codes."""
    held = _named_inside(equipment)
    around = [
        code
        for code in (held.codes if held is not None else ())
        if _answers(code, hazard.hazard) and code.speaks_of_housing
    ]
    if any(map(_leaves_lesser_area, around)):
        hazard, around = replace(hazard, areas=tuple(map(_lesser, hazard.areas))), []

    def candidate(code: Code, path: str, *, both: bool = False) -> Candidate:
        electrical = equipment.electrical and not (both and code.non_electrical)
        return Candidate(equipment, demands, hazard, code, None, path, electrical)

    usable = [
        (code, path)
        for code, path in _codes(equipment)
        if _answers(code, hazard.hazard) and code.speaks_of_housing
    ]
    if around and all(c.suffix is Suffix.U for c, _ in usable):
        usable = [(code, "inside") for code in around]
    elif any(purge_of(code) is not None for code in around):
        usable += [(code, "inside") for code in around]
    if not usable:
        missing = _missing(equipment, hazard.hazard)
        bare = Candidate(equipment, demands, hazard, None, missing, "marking", equipment.electrical)
        return (bare,)
    electrical = [pair for pair in usable if not pair[0].non_electrical]
    mechanical = [pair for pair in usable if pair[0].non_electrical]
    both = bool(equipment.electrical and electrical and mechanical)
    sets = [electrical, mechanical] if both else [usable]
    return tuple(_best([candidate(*pair, both=both) for pair in pairs]) for pairs in sets)


def _named_inside(equipment: Equipment) -> Equipment | None:
    """The marking of the enclosure that a part stands in, where its document names the part.

    It answers for a component, or for what bears no marking of its own.
    """
    housed = equipment.housed
    if housed is None or not (housed.counts and housed.named):
        return None
    return Equipment(frozenset({Kind.ELECTRICAL}), housed.markings)


_LESSER = ("Division 2", "Zone 2")


def _leaves_lesser_area(code: Code) -> bool:
    """Whether a purge keeps no more than the worse area out: its contents must suit the lesser."""
    purge = purge_of(code)
    return purge is not None and set(purge.contents) <= set(_LESSER)


def _lesser(area: Area) -> Area:
    """NFPA 496, IEC 60079-2: type Y takes Division 1 to Division 2, pyb Zone 1 to Zone 2."""
    if area.division == 1:
        return replace(area, division=2)
    return replace(area, zone=2) if area.zone == 1 else area


def _best(candidates: list[Candidate]) -> Candidate:
    """The candidate that fails least; the first of equals."""
    return candidates[0] if len(candidates) == 1 else max(candidates, key=_goodness)


_ORDER = list(Verdict)  # most severe first


def _goodness(candidate: Candidate) -> tuple[int, ...]:
    """Its worst verdict first, then all of them: higher is better."""
    code = candidate.code if candidate.path != "inside" else own_range(candidate.equipment)
    ambient = AmbientQuestion.of(candidate.equipment, candidate.demands, code)
    verdicts = [
        judged_level(question_of(candidate)).verdict,
        judge_group(GroupQuestion.of(candidate)).verdict,
        judge_temperature(TemperatureQuestion.of(candidate)).verdict,
        judge_ambient(ambient).verdict,
        judge_type(TypeQuestion.of(candidate)).verdict,
    ]
    return (_ORDER.index(worst(verdicts)), *sorted(_ORDER.index(v) for v in verdicts))


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


def _missing(equipment: Equipment, hazard: Hazard) -> Missing:
    if equipment.markings is None:
        return Missing.NO_MARKING
    if not equipment.markings:
        return Missing.UNMARKED
    if any(problem.unread for marking in equipment.markings for problem in marking.problems):
        return Missing.UNREAD
    codes = [code for code, _ in _codes(equipment)]
    if any(code.on_bare_side and _answers(code, hazard) for code in codes):
        return Missing.OTHER_SIDE
    if codes and all(code.associated for code in codes):
        return Missing.ASSOCIATED
    return Missing.OTHER_HAZARD if codes else Missing.UNREAD
