"""The hottest surface that a part states, over the ambient of its place."""

from decimal import Decimal

from areafit.checks.area.heat_question import TemperatureQuestion
from areafit.facts.marking import TemperatureMark
from areafit.facts.part import SurfaceCase, SurfaceTemperature
from areafit.facts.quantity import Range, number
from areafit.frozen import frozen


@frozen
class Hottest:
    """A temperature in °C, how it is stated, and what keeps it from being proven."""

    value: Decimal | None
    words: str
    problem: str = ""


def hottest(question: TemperatureQuestion) -> Hottest:
    """The class that holds at the site, or the stated surface where that is hotter.

    Equipment that makes no heat is as hot as its place (NFPA 70-2023 500.8(C)(4) exception 1);
    a cable gland or plug heats nothing either and bears no class.
    """
    marked = _mark(question.temperatures, question.ambient_default, question.site)
    surface = question.surface
    if surface is not None and (marked.value is None or surface.value > marked.value):
        problem = marked.problem if question.temperatures else _surface_problem(question, surface)
        return Hottest(surface.value, f"surface {number(surface.value)} °C", problem)
    if marked.value is None and question.heat_free and not question.temperatures:
        if question.site is None:
            problem = "The part makes no heat, so it is as hot as its place; that is not stated."
            return Hottest(None, "no heat of its own", problem)
        return Hottest(question.site.high, f"no heat of its own, {number(question.site.high)} °C")
    return marked


def _mark(marks: tuple[TemperatureMark, ...], default: Range | None, site: Range | None) -> Hottest:
    """The coolest class whose ambient holds the whole site range; else the hottest, unproven."""
    known = [(mark, mark.maximum) for mark in marks if mark.maximum is not None]
    if not known:
        problem = (
            "The marked class does not exist."
            if marks
            else "Neither a temperature class nor a hottest surface is stated, so there is "
            "nothing to compare."
        )
        return Hottest(None, "no temperature class", problem)
    valid = [pair for pair in known if _holds(pair[0].ambient or default, site)]
    if all(mark.ambient is None for mark, _ in known) or not valid:
        mark, value = max(known, key=lambda pair: pair[1])
        unbound = mark.ambient is None
        problem = "" if unbound else "No class on the nameplate is valid over the site's ambient."
        return Hottest(value, _name(mark, value), problem)
    mark, value = min(valid, key=lambda pair: pair[1])
    return Hottest(value, _name(mark, value))


def _holds(ambient: Range | None, site: Range | None) -> bool:
    return ambient is None or (site is not None and site.within(ambient))


def _name(mark: TemperatureMark, value: Decimal) -> str:
    figure = f"{number(value)} °C"
    return f"{mark.name} ({figure})" if mark.name else f"T{figure}"


_WORSE = tuple(SurfaceCase)


def _surface_problem(question: TemperatureQuestion, surface: SurfaceTemperature) -> str:
    """What the surface was not found at: the site's ambient, or the state that counts there."""
    site, case = question.site, question.needed_case
    if surface.at_ambient is not None and site is not None and surface.at_ambient < site.high:
        return (
            f"The surface was found at {number(surface.at_ambient)} °C ambient; the place reaches "
            f"{number(site.high)} °C."
        )
    if surface.case is None or case is None or _WORSE.index(surface.case) >= _WORSE.index(case):
        return ""
    return (
        f"The surface was found in the state `{surface.case.value}`; here the state "
        f"`{case.value}` counts (EN 1127-1:2019 6.4.2)."
    )
