"""Which temperatures and ambient ranges of a code go together, and which of several holds."""

from collections.abc import Sequence
from functools import cache

from areafit.facts.marking import Problem, TemperatureMark
from areafit.facts.protection import MarkingSystem
from areafit.facts.quantity import Dimension, Range, number
from areafit.marking import clauses
from areafit.marking.words import Ambient, Temperature
from areafit.tables.limits import figure
from areafit.values import Frozen, replace

_ENDS = ("lowest", "highest")


class Limits(Frozen):
    """What a code says of temperatures, and what is wrong with it."""

    temperatures: tuple[TemperatureMark, ...] = ()
    ambient: Range | None = None
    problems: tuple[Problem, ...] = ()


@cache
def default_ambient(system: MarkingSystem) -> Range:
    """The range in °C that holds where a code of this system prints none."""
    ends = (figure(f"{end} ambient where none is printed", system.value) for end in _ENDS)
    return Range(*(end.amount(Dimension.TEMPERATURE) for end in ends))


def limits_of(words: Sequence[Temperature | Ambient], system: MarkingSystem) -> Limits:
    """Classes with their ambient ranges, or the hottest where they cannot be told apart."""
    marks = [word.mark for word in words if isinstance(word, Temperature)]
    ambients = [word for word in words if isinstance(word, Ambient)]
    ranges = [span for mark in ambients if (span := _completed(mark, system)) is not None]
    if len(ranges) < len(ambients):
        text = "The ambient range has one end only, beyond the other end of the standard range."
        problem = Problem(text, clauses.AMBIENT, unread=True)
        return Limits(hottest(marks), None, (problem,))
    words, marks = _without_sum(words, marks)
    if len(marks) > 1 and _alternates(words):
        pairs = zip(marks, ranges, strict=True)
        return _by_ambient(tuple(replace(mark, ambient=span) for mark, span in pairs))
    ambient, problems = _one_range(ranges)
    return Limits(hottest(marks), ambient, (*_contradictions(marks), *problems))


def _completed(mark: Ambient, system: MarkingSystem) -> Range | None:
    """The range, an end that is not printed from the standard; None where they do not meet."""
    default = default_ambient(system)
    low = default.low if mark.low is None else mark.low
    high = default.high if mark.high is None else mark.high
    if low > high:
        return None
    return Range(low, high).common(default) if mark.unsure else Range(low, high)


def _without_sum(
    words: Sequence[Temperature | Ambient], marks: list[TemperatureMark]
) -> tuple[Sequence[Temperature | Ambient], list[TemperatureMark]]:
    """`T6...T5 Gb, T6: Ta <= 45 °C, T5: Ta <= 60 °C` without the range that the pairs repeat.

    A range counts as its hottest class, so no pair may be hotter, and one is that class.
    """
    rest = words[1:]
    if len(marks) < 3 or marks[0].name is None or not _alternates(rest):
        return words, marks
    same = marks[0] in marks[1:] and hottest(marks[1:]) == (marks[0],)
    return (rest, marks[1:]) if same else (words, marks)


def _alternates(words: Sequence[Temperature | Ambient]) -> bool:
    """Whether each class has exactly one range, always behind it or always in front of it."""
    kinds = [type(word) for word in words]
    return len(kinds) % 2 == 0 and kinds in (
        [Temperature, Ambient] * (len(kinds) // 2),
        [Ambient, Temperature] * (len(kinds) // 2),
    )


def _by_ambient(marks: tuple[TemperatureMark, ...]) -> Limits:
    """The certified range is all that the classes cover, if they leave no gap."""
    spans = sorted((mark.ambient for mark in marks if mark.ambient), key=lambda span: span.low)
    whole = spans[0]
    for span in spans[1:]:
        if span.low > whole.high:
            text = "The ambient ranges of the temperature classes leave a gap."
            return Limits(marks, None, (Problem(text, clauses.AMBIENT),))
        whole = Range(whole.low, max(whole.high, span.high))
    return Limits(marks, whole)


def _one_range(ranges: list[Range]) -> tuple[Range | None, tuple[Problem, ...]]:
    """One range; where several differ what they share holds, and the plate contradicts itself."""
    if not ranges:
        return None, ()
    shared: Range | None = ranges[0]
    for span in ranges[1:]:
        shared = shared.common(span) if shared else None
    if len(set(ranges)) == 1:
        return shared, ()
    text = "More than one ambient range, and no class of its own for each."
    return shared, (Problem(text, clauses.AMBIENT),)


def hottest(marks: Sequence[TemperatureMark]) -> tuple[TemperatureMark, ...]:
    """The worst mark alone: without its own ambient no cooler one may be relied on."""
    if not marks:
        return ()
    for mark in marks:
        if mark.maximum is None:
            return (mark,)
    return (max(marks, key=lambda mark: (mark.maximum or 0, mark.name or "")),)


def _contradictions(marks: list[TemperatureMark]) -> tuple[Problem, ...]:
    """Two classes, two figures for the same depth of dust, or a figure above its class."""
    named = sorted({mark.name for mark in marks if mark.name})
    found = {(mark.layer, mark.maximum) for mark in marks if not mark.name}
    figures = sorted({maximum for _, maximum in found if maximum is not None})
    told_apart = len({layer for layer, _ in found}) == len(found)
    if len(named) > 1 or (len(figures) > 1 and not told_apart):
        shown = [*named, *(f"{number(figure)} °C" for figure in figures)]
        text = f"{' and '.join(shown)} without ambient ranges that tell them apart."
        return (Problem(text, clauses.TEMPERATURE),)
    limit = next((mark.maximum for mark in marks if mark.name), None)
    if figures and limit is not None and figures[0] > limit:
        text = f"{number(figures[0])} °C is above the limit of {named[0]}, {number(limit)} °C."
        return (Problem(text, clauses.TEMPERATURE),)
    return ()
