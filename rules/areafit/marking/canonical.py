"""A decoded code back to text, in the one spelling that `decode` reads as the same code."""

from collections.abc import Iterator
from decimal import Decimal

from areafit.facts.groups import Group
from areafit.facts.marking import Code, Output, PartSide, TemperatureMark
from areafit.facts.protection import Hazard, MarkingSystem
from areafit.facts.quantity import Range, number
from areafit.marking.level import find_type, is_old_mechanical, output_letter
from areafit.marking.north_america import INTRINSICALLY_SAFE
from areafit.tables.area import TypeStatus

_CONTENTS = {
    "general purpose": "contents general purpose",
    "general purpose, open contacts": "contents general purpose with open contacts",
    "Division 2": "contents fit for Division 2",
}
_ACTIONS = {"power cut": "automatic power cut on loss", "alarm": "alarm on loss"}


def canonical(code: Code) -> str:
    """The code as text: `decode` of it gives this code again, if the code is free of problems."""
    division = code.system is MarkingSystem.NEC_DIVISION
    head, tail = _head(code), _plate(code)
    if division:
        text = ", ".join([*head, *_division(code), *tail])
    else:
        text = " ".join([*(f"{word}," for word in head), *_ex(code), *tail])
    circuits = [o for o in code.outputs if o.protection == (INTRINSICALLY_SAFE,)]
    return text + "".join(f"; provides intrinsically safe circuits to{_to(o)}" for o in circuits)


def _head(code: Code) -> Iterator[str]:
    """Words without a letter, in front."""
    if code.associated and (code.system is MarkingSystem.NEC_DIVISION or not _brackets(code)):
        yield "Associated apparatus"
    yield from code.words
    if code.purge is not None:
        yield f"Type {code.purge.value} pressurization"


def _division(code: Code) -> Iterator[str]:
    if code.hazard_class is not None:
        yield f"Class {code.hazard_class}"
    if code.divisions:
        yield _divisions(code.divisions)
    if code.groups:
        yield "Groups " + ", ".join(_names(code.groups))
    yield from _brackets(code)
    yield from (f"({gas})" for gas in code.gases)
    yield from (_temperature(mark) for mark in code.temperatures)


def _divisions(numbers: tuple[int, ...]) -> str:
    return "Divisions 1 and 2" if len(numbers) > 1 else f"Division {numbers[0]}"


def _ex(code: Code) -> Iterator[str]:
    yield from _place(code)
    yield from _category(code)
    yield from _types(code)
    yield from _brackets(code)
    for group in _names(code.groups):
        yield "+".join([group, *code.extra_gases])
    yield from (f"({gas})" for gas in code.gases)
    yield from (_temperature(mark) for mark in code.temperatures)
    if code.level is not None:
        inner = f"{code.inner_level.value}/" if code.inner_level else ""
        bare = code.bare if code.category is None else None
        yield _paired(inner + code.level.value, bare)


def _place(code: Code) -> Iterator[str]:
    if code.hazard_class is not None:
        yield f"Class {code.hazard_class},"
    if code.zone is not None:
        inner = "" if code.inner_zone is None else f"{code.inner_zone}/"
        yield f"Zone {inner}{code.zone}"


def _category(code: Code) -> Iterator[str]:
    """The housing's category, or in brackets that of the circuits where there is no housing."""
    if code.equipment_group is None:
        return
    letter = "D" if code.hazard is Hazard.DUST else "G"
    if code.category is not None:
        inner = f"{code.inner_category[0]}/" if code.inner_category else ""
        yield f"{code.equipment_group} {_paired(inner + code.category, code.bare)}"
    elif code.equipment_group == "I":
        yield "I (M1)"
    else:
        best = min(filter(None, map(output_letter, code.outputs)), default="c")
        yield f"II ({'abc'.index(best) + 1}) {letter}"


def _paired(text: str, bare: PartSide | None) -> str:
    """With the dash for the side that has no protection."""
    if bare is None:
        return text
    return f"-/{text}" if bare is PartSide.PROCESS else f"{text}/-"


def _types(code: Code) -> Iterator[str]:
    mark = _mark(code)
    if mark:
        yield mark
    if code.protection:
        yield ("+" if code.joined else " ").join(code.protection)
    if code.practice is not None:
        yield code.practice


def _mark(code: Code) -> str:
    """`EEx` where only that makes the code a legacy one; none for letters of EN 13463."""
    if is_old_mechanical(code):
        return ""
    if not code.protection:
        return "EEx" if code.legacy and not code.temperatures and not code.ambient else ""
    if code.system is MarkingSystem.NEC_ZONE:
        return "AEx"
    rows = [find_type(letter) for letter in code.protection]
    bare = any(row is not None and row.status is TypeStatus.LEGACY for row in rows)
    shown = code.practice or (bare and code.level is None)
    return "EEx" if code.legacy and not shown else "Ex"


def _brackets(code: Code) -> list[str]:
    mark = "AEx " if code.system is MarkingSystem.NEC_ZONE else "Ex "
    bare = code.protection or code.system is MarkingSystem.NEC_DIVISION
    return [
        f"[{'' if bare else mark}{_inside(output)}]"
        for output in code.outputs
        if output.protection != (INTRINSICALLY_SAFE,)
    ]


def _inside(output: Output) -> str:
    level = [output.level.value] if output.level else []
    return " ".join([*output.protection, *_names(output.groups), *level])


def _to(output: Output) -> str:
    letters = [group for group in _names(output.groups) if len(group) == 1 and group != "I"]
    zones = [group for group in _names(output.groups) if group not in letters]
    lists = [f" Groups {', '.join(letters)}"] if letters else []
    place = [f" {_divisions(output.divisions)}"] if output.divisions else []
    return "".join([*place, *lists, *(f" Group {group}" for group in zones)])


def _names(groups: frozenset[Group]) -> list[str]:
    return sorted(group.value for group in groups)


def _temperature(mark: TemperatureMark) -> str:
    if mark.name is not None:
        text = mark.name
    elif mark.layer is not None:
        text = f"T{number(mark.layer * 1000)} {_degrees(mark.maximum)}"
    else:
        text = f"T{_degrees(mark.maximum)}"
    return text if mark.ambient is None else f"{text} ({_ambient(mark.ambient)})"


def _degrees(value: Decimal | None) -> str:
    return f"{value:f} °C"


def _ambient(span: Range) -> str:
    return f"{span.low:f} °C <= Ta <= {span.high:f} °C"


def _plate(code: Code) -> Iterator[str]:
    """What stands beside the code."""
    if code.ambient is not None and not any(mark.ambient for mark in code.temperatures):
        yield _ambient(code.ambient)
    if code.ingress is not None:
        yield code.ingress
    if code.purge_contents is not None:
        yield _CONTENTS[code.purge_contents]
    if code.purge_action is not None:
        yield _ACTIONS[code.purge_action]
    if code.suffix is not None:
        yield code.suffix.value
