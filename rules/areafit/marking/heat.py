"""Temperature classes and ambient ranges of one code: which belongs to which."""

from collections.abc import Sequence
from decimal import Decimal

from areafit.facts.marking import Problem, TemperatureMark
from areafit.facts.protection import MarkingSystem
from areafit.facts.quantity import Range, number
from areafit.marking import clauses
from areafit.marking.elements import AmbientMark, Temperature
from areafit.values import Frozen, replace

# The range that stands for an end which is not printed (IEC 60079-0:2017, 5.1.1; NFPA 70-2023,
# 500.8(C)(5), from memory).
_ZONE_DEFAULT = Range(Decimal(-20), Decimal(40))
_DIVISION_DEFAULT = Range(Decimal(-25), Decimal(40))


class Heat(Frozen):
    """What a code says of temperatures, and what is wrong with it."""

    temperatures: tuple[TemperatureMark, ...] = ()
    ambient: Range | None = None
    problems: tuple[Problem, ...] = ()


def default_ambient(system: MarkingSystem) -> Range:
    """The range in °C that holds where a code of this system prints none."""
    return _DIVISION_DEFAULT if system is MarkingSystem.NEC_DIVISION else _ZONE_DEFAULT


def settle(heat: Sequence[Temperature | AmbientMark], system: MarkingSystem) -> Heat:
    """Classes with their ambient ranges, or the hottest where they cannot be told apart."""
    marks = [element.mark for element in heat if isinstance(element, Temperature)]
    ambients = [element for element in heat if isinstance(element, AmbientMark)]
    ranges = [span for mark in ambients if (span := complete(mark, system)) is not None]
    if len(ranges) < len(ambients):
        return Heat(_hottest(marks), None, (_open_end(),))
    if len(marks) > 1 and _alternates(heat):
        pairs = zip(marks, ranges, strict=True)
        return _by_ambient(tuple(replace(mark, ambient=span) for mark, span in pairs))
    ambient, problems = _one_range(ranges)
    return Heat(_hottest(marks), ambient, (*_quarrel(marks), *problems))


def complete(mark: AmbientMark, system: MarkingSystem) -> Range | None:
    """The range, an end that is not printed from the standard; None where they do not meet."""
    default = default_ambient(system)
    low = default.low if mark.low is None else mark.low
    high = default.high if mark.high is None else mark.high
    return Range(low, high) if low <= high else None


def _open_end() -> Problem:
    text = "The ambient range has one end only, beyond the other end of the standard range."
    return Problem(text, clauses.AMBIENT, unread=True)


def _alternates(heat: Sequence[Temperature | AmbientMark]) -> bool:
    """Whether each class has exactly one range, always behind it or always in front of it."""
    kinds = [type(element) for element in heat]
    return len(kinds) % 2 == 0 and kinds in (
        [Temperature, AmbientMark] * (len(kinds) // 2),
        [AmbientMark, Temperature] * (len(kinds) // 2),
    )


def _by_ambient(marks: tuple[TemperatureMark, ...]) -> Heat:
    """The certified range is all that the classes cover, if they leave no gap."""
    spans = sorted((mark.ambient for mark in marks if mark.ambient), key=lambda span: span.low)
    whole = spans[0]
    for span in spans[1:]:
        if span.low > whole.high:
            text = "The ambient ranges of the temperature classes leave a gap."
            return Heat(marks, None, (Problem(text, clauses.AMBIENT),))
        whole = Range(whole.low, max(whole.high, span.high))
    return Heat(marks, whole)


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


def _hottest(marks: list[TemperatureMark]) -> tuple[TemperatureMark, ...]:
    """The worst mark alone: without its own ambient no cooler one may be relied on."""
    if not marks:
        return ()
    for mark in marks:
        if mark.maximum is None:
            return (mark,)
    return (max(marks, key=lambda mark: (mark.maximum or 0, mark.name or "")),)


def _quarrel(marks: list[TemperatureMark]) -> tuple[Problem, ...]:
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
