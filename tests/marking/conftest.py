"""One line that says everything a decoded code holds, so that a table row can expect it."""

from collections.abc import Callable, Iterator

import pytest

from areafit.facts.groups import Group
from areafit.facts.marking import Code, Marking, Output, PartSide, TemperatureMark
from areafit.facts.quantity import Range, number
from areafit.marking import effective_level


def _span(span: Range) -> str:
    return f"{number(span.low)}..{number(span.high)}"


def _names(groups: frozenset[Group]) -> str:
    return " ".join(sorted(group.value for group in groups))


def _sides(text: str, code: Code) -> str:
    """With a dash for the side that has no protection."""
    if code.bare is None:
        return text
    return f"-/{text}" if code.bare is PartSide.PROCESS else f"{text}/-"


def _place(code: Code) -> Iterator[str]:
    if code.hazard_class:
        yield f"Class {code.hazard_class}"
    if code.divisions:
        yield "Division " + "+".join(map(str, code.divisions))
    if code.zone is not None:
        yield f"zone {code.zone}"
    if code.category or code.equipment_group:
        inner = f"{code.inner_category}/" if code.inner_category else ""
        yield f"{code.equipment_group} {_sides(inner + (code.category or '-'), code)}"


def _heat(mark: TemperatureMark) -> str:
    limit = "?" if mark.maximum is None else number(mark.maximum)
    layer = f" under {number(mark.layer)} m" if mark.layer is not None else ""
    ambient = f" at {_span(mark.ambient)}" if mark.ambient else ""
    return f"{mark.name or 'max'} {limit}{layer}{ambient}"


def _box(output: Output) -> str:
    words = [*output.protection, _names(output.groups), output.level.value if output.level else ""]
    return f"[{' '.join(filter(None, words))}]"


def _types(code: Code) -> Iterator[str]:
    if code.protection:
        yield ("+" if code.joined else " ").join(code.protection)
    if code.practice:
        yield code.practice
    yield from code.words
    yield from map(_box, code.outputs)
    if code.groups:
        yield _names(code.groups)
    yield from (f"only {gas}" for gas in code.gases)
    yield from (f"and {gas}" for gas in code.extra_gases)


def _rest(code: Code) -> Iterator[str]:
    yield from map(_heat, code.temperatures)
    if code.level:
        pair = (f"{code.inner_level.value}/" if code.inner_level else "") + code.level.value
        yield pair if code.category else _sides(pair, code)
    if code.ambient:
        yield f"Ta {_span(code.ambient)}"
    yield from filter(None, [code.ingress, code.suffix and code.suffix.value])
    if code.purge:
        yield f"purge {code.purge.value}"
    yield from filter(None, [code.purge_contents, code.purge_action])
    flags = {"associated": code.associated, "mechanical": code.non_electrical}
    flags["legacy"] = code.legacy
    yield from (name for name, is_set in flags.items() if is_set)


def summarise(code: Code) -> str:
    level = effective_level(code)
    words = [code.system.value, code.hazard.value, *_place(code), *_types(code), *_rest(code)]
    return "; ".join(words) + (f" => {level.value}" if level else "")


@pytest.fixture
def summary() -> Callable[[Marking], str]:
    return lambda marking: " || ".join(map(summarise, marking.codes))
