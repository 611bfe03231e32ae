"""The hottest surface that a part states, over the ambient of its place."""

from decimal import Decimal

from areafit.checks.area.heat_question import TemperatureQuestion
from areafit.facts.marking import TemperatureMark
from areafit.facts.part import SurfaceCase, SurfaceTemperature
from areafit.facts.quantity import Range, number
from areafit.values import Frozen
from areafit.verdict import Role


class Hottest(Frozen):
    """A temperature in °C, how it is stated, what keeps it from being proven, and what cures it."""

    value: Decimal | None
    words: str
    problem: str = ""
    remedy: str = ""
    role: Role | None = None


def hottest(question: TemperatureQuestion) -> Hottest:
    """The class that holds at the site, or the stated surface where that is hotter.

    Equipment that makes no heat is as hot as its place (NFPA 70-2023 500.8(C)(4) exception 1);
    a cable gland or plug heats nothing either and bears no class.
    """
    marked = _marked(question)
    surface = question.surface
    if surface is not None and (marked.value is None or surface.value > marked.value):
        words = f"surface {number(surface.value)} °C"
        if question.temperatures:
            return Hottest(surface.value, words, marked.problem, marked.remedy)
        return Hottest(surface.value, words, *_surface_problem(question, surface))
    if marked.value is None and question.heat_free and not question.temperatures:
        if question.site is None:
            problem = "The part makes no heat, so it is as hot as its place; that is not stated."
            return Hottest(None, "no heat of its own", problem, _AMBIENT, Role.AREA_OWNER)
        return Hottest(question.site.high, f"no heat of its own, {number(question.site.high)} °C")
    return marked


_AMBIENT = "State the `ambient` of the place, such as 5..40 °C."
_NO_SUCH_CLASS = (
    "The marked class does not exist.",
    "Copy the class from the nameplate; the classes are T1 to T6.",
)
_NOTHING = (
    "Neither a temperature class nor a hottest surface is stated, so there is nothing to compare.",
    "State the class as marked, or `surface_temperature` with at_ambient, case and source",
)
_COLD = ", or `heat_producing: false` where nothing inside makes heat"
_FITTING = " A cable gland or plug, which bears no class, states its `device`."
_OUT_OF_RANGE = (
    "No class on the nameplate is valid over the site's ambient.",
    "State the place's `ambient` if it is not, or choose a part whose class holds over it.",
)


def _marked(question: TemperatureQuestion) -> Hottest:
    """The class as marked; where there is none, what of it and its like would do."""
    if question.temperatures:
        return _mark(question.temperatures, question.ambient_default, question.site)
    problem, remedy = _NOTHING
    cold = _COLD if question.cold_would_do else ""
    fitting = "" if question.device_stated else _FITTING
    return Hottest(None, "no temperature class", problem, f"{remedy}{cold}.{fitting}")


def _mark(marks: tuple[TemperatureMark, ...], default: Range | None, site: Range | None) -> Hottest:
    """The coolest class whose ambient holds the whole site range; else the hottest, unproven."""
    known = [(mark, mark.maximum) for mark in marks if mark.maximum is not None]
    if not known:
        return Hottest(None, "no temperature class", *_NO_SUCH_CLASS)
    valid = [pair for pair in known if _holds(pair[0].ambient or default, site)]
    if all(mark.ambient is None for mark, _ in known) or not valid:
        mark, value = max(known, key=lambda pair: pair[1])
        unbound = mark.ambient is None
        return Hottest(value, _name(mark, value), *(("", "") if unbound else _OUT_OF_RANGE))
    mark, value = min(valid, key=lambda pair: pair[1])
    return Hottest(value, _name(mark, value))


def _holds(ambient: Range | None, site: Range | None) -> bool:
    return ambient is None or (site is not None and site.within(ambient))


def _name(mark: TemperatureMark, value: Decimal) -> str:
    figure = f"{number(value)} °C"
    return f"{mark.name} ({figure})" if mark.name else f"T{figure}"


_WORSE = tuple(SurfaceCase)


def _surface_problem(question: TemperatureQuestion, surface: SurfaceTemperature) -> tuple[str, str]:
    """What the surface was not found at, and what to state instead.

    That is the site's ambient, or the state that counts there.
    """
    site, case = question.site, question.needed_case
    if surface.at_ambient is not None and site is not None and surface.at_ambient < site.high:
        found, reached = number(surface.at_ambient), number(site.high)
        return (
            f"The surface was found at {found} °C ambient; the place reaches {reached} °C.",
            f"State the surface as found at {reached} °C ambient.",
        )
    if surface.case is None or case is None or _WORSE.index(surface.case) >= _WORSE.index(case):
        return "", ""
    problem = (
        f"The surface was found in the state `{surface.case.value}`; here the state "
        f"`{case.value}` counts (EN 1127-1:2019 6.4.2)."
    )
    return problem, f"State the surface as found in the state `{case.value}`."
