"""What the nameplates at the ends of a circuit say of it: level and groups, hazard by hazard."""

from collections.abc import Iterable, Iterator

from areafit.checks.loops.needs import System, system_of
from areafit.facts.evidence import EvidenceType
from areafit.facts.groups import Group
from areafit.facts.marking import Code, Output
from areafit.facts.part import Equipment
from areafit.facts.protection import Hazard, MarkingSystem
from areafit.pattern import pattern

_TYPE = pattern(r"i([abc])")
_SAFE, _NONINCENDIVE = "intrinsically safe", "nonincendive"


def codes_of(equipment: Equipment) -> tuple[Code, ...]:
    """Every complete code of the nameplate."""
    return tuple(code for marking in equipment.markings or () for code in marking.codes)


def source_letter(equipment: Equipment, hazard: Hazard) -> str | None:
    """The weakest level `a`, `b` or `c` that the outgoing circuits are marked with.

    Which of several outputs the loop is connected to is not known, so the weakest counts.
    """
    return max(_known(_leaving(equipment, hazard)), default=None)


def device_letter(equipment: Equipment, hazard: Hazard) -> str | None:
    """The best level that the device is marked with: a device for `ia` may hang on less."""
    return min(_known(_inside(equipment, hazard)), default=None)


def _known(letters: Iterable[str | None]) -> Iterator[str]:
    return (letter for letter in letters if letter is not None)


def _leaving(equipment: Equipment, hazard: Hazard) -> Iterator[str | None]:
    codes = [code for code in codes_of(equipment) if code.hazard is hazard]
    for code in codes:
        for output in code.outputs:
            yield _output(output, code)
        if code.associated and not code.outputs:
            yield _division(code)
        elif not code.associated and not code.outputs:
            yield _housing(code, equipment)


def _inside(equipment: Equipment, hazard: Hazard) -> Iterator[str | None]:
    for code in codes_of(equipment):
        if code.hazard is hazard and not code.associated:
            yield _housing(code, equipment)


def _output(output: Output, code: Code) -> str | None:
    if _SAFE in output.protection:
        return _division(code)
    letters = _types(output.protection)
    if letters and output.level is not None:
        letters.append("abc"[output.level.rank])
    return max(letters, default=None)


def _housing(code: Code, equipment: Equipment) -> str | None:
    """The level of the circuits inside; a Division code must say that they are safe.

    Where the nameplate does not, a control drawing does: only intrinsically safe and
    nonincendive equipment has one (NFPA 70-2023, 504.10).
    """
    if code.system is not MarkingSystem.NEC_DIVISION:
        return max(_types(code.protection), default=None)
    drawn = any(e.type is EvidenceType.CONTROL_DRAWING for e in equipment.evidence or ())
    if _NONINCENDIVE in code.words:
        return "c"
    return _division(code) if drawn or _SAFE in code.words else None


def _types(protection: Iterable[str]) -> list[str]:
    return [found[1] for found in map(_TYPE.fullmatch, protection) if found]


def _division(code: Code) -> str | None:
    """Division 1 intrinsic safety bears two faults, as `ia` does; Division 2 is held to be `ic`."""
    if not code.divisions:
        return None
    return "a" if min(code.divisions) == 1 else "c"


def groups_of(equipment: Equipment, system: System, *, source: bool) -> frozenset[Group]:
    """The groups that the nameplate shows in one system: of the outputs where there are any."""
    found: set[Group] = set()
    for code in codes_of(equipment):
        outputs = [output.groups for output in code.outputs if output.groups]
        if source and outputs:
            found.update(*outputs)
        elif source or not code.associated:
            found |= code.groups
    return frozenset(group for group in found if system_of(group) is system)
