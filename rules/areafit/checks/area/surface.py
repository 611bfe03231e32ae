"""Do the hottest surfaces stay within the limits of a hazard."""

from decimal import Decimal

from areafit.checks.area.question import TemperatureQuestion
from areafit.demands import Limit
from areafit.facts.marking import TemperatureMark
from areafit.facts.quantity import Range, number
from areafit.rule import Judgement, Row, flagged, passed, unproven
from areafit.verdict import Reason


def judge_temperature(question: TemperatureQuestion) -> Judgement:
    """Compare the hottest stated surface with every limit, then name what is not known."""
    required = _required(question.limits)
    rows = tuple(dict.fromkeys(row for limit in question.limits for row in limit.rows))
    hottest, found, problem = _hottest(question)
    if hottest is None:
        return unproven(Reason.FACT_MISSING, problem, required=required, found=found, rows=rows)
    open_limit: Limit | None = None
    for limit in sorted(question.limits, key=lambda each: each.maximum):
        if hottest < limit.maximum or (hottest == limit.maximum and limit.inclusive):
            continue
        at_limit = hottest == limit.maximum and limit.no_margin_at_limit
        if at_limit or limit.uncertain:
            open_limit = open_limit or limit
            continue
        return flagged(
            f"{found} is not below the limit: {limit.cause}.",
            required=required,
            found=found,
            clause=limit.clause,
            rows=rows,
        )
    if open_limit is not None:
        return _open(open_limit, hottest, required, found, rows)
    if problem:
        return unproven(Reason.FACT_MISSING, problem, required=required, found=found, rows=rows)
    if question.gaps:
        gap = question.gaps[0]
        message = f"{gap.message[0].upper()}{gap.message[1:]}."
        return unproven(gap.reason, message, required=required, found=found, rows=rows)
    return passed(f"{found} stays within the limit.", required=required, found=found, rows=rows)


def _open(
    limit: Limit, hottest: Decimal, required: str, found: str, rows: tuple[Row, ...]
) -> Judgement:
    if hottest == limit.maximum and limit.no_margin_at_limit:
        return unproven(
            Reason.NO_MARGIN,
            f"{found} equals the limit ({limit.cause}): not above it, but without any margin.",
            required=required,
            found=found,
            clause=limit.clause,
            rows=rows,
        )
    return unproven(
        Reason.CONDITION_TO_ACCEPT,
        f"{found} is above {number(limit.maximum)} °C, which holds because {limit.cause}.",
        required=required,
        found=found,
        clause=limit.clause,
        rows=rows,
    )


def _hottest(question: TemperatureQuestion) -> tuple[Decimal | None, str, str]:
    """The hottest surface stated, in words too, and what keeps it from being proven.

    Of classes by ambient only those count whose range holds the whole site range; the coolest of
    them is the truth. A stated surface that is hotter than the class decides.
    """
    mark, problem = _mark(question.temperatures, question.ambient_default, question.site)
    value = mark.maximum if mark is not None else None
    found = _name(mark) if mark is not None else "no temperature class"
    surface = question.surface
    if surface is not None and (value is None or surface.value > value):
        value, found = surface.value, f"surface {number(surface.value)} °C"
        problem = _surface_problem(question) if mark is None else problem
    if value is None:
        problem = problem or (
            "Neither a temperature class nor a hottest surface is stated, so there is nothing to "
            "compare."
        )
    return value, found, problem


def _mark(
    marks: tuple[TemperatureMark, ...], default: Range | None, site: Range | None
) -> tuple[TemperatureMark | None, str]:
    """The class that holds at the site; with no valid one, the hottest and why it is not proven."""
    known = [mark for mark in marks if mark.maximum is not None]
    if not known:
        return None, "The marked class does not exist." if marks else ""
    valid = [m for m in known if _holds(m.ambient or default, site)]
    conditional = [m for m in known if m.ambient is not None]
    if not conditional:
        return max(known, key=_maximum), ""
    if valid:
        return min(valid, key=_maximum), ""
    return max(known, key=_maximum), "No class on the nameplate is valid over the site's ambient."


def _holds(ambient: Range | None, site: Range | None) -> bool:
    return ambient is None or (site is not None and site.within(ambient))


def _maximum(mark: TemperatureMark) -> Decimal:
    return mark.maximum if mark.maximum is not None else Decimal(9999)


def _name(mark: TemperatureMark) -> str:
    figure = f"{number(_maximum(mark))} °C"
    return f"{mark.name} ({figure})" if mark.name and mark.name.strip() else f"T{figure}"


def _surface_problem(question: TemperatureQuestion) -> str:
    surface, site = question.surface, question.site
    if surface is None or surface.at_ambient is None or site is None:
        return ""
    if surface.at_ambient >= site.high:
        return ""
    return (
        f"The surface was found at {number(surface.at_ambient)} °C ambient; the place reaches "
        f"{number(site.high)} °C."
    )


def _required(limits: tuple[Limit, ...]) -> str:
    if not limits:
        return "not known"
    lowest = min(limits, key=lambda limit: limit.maximum)
    word = "at most" if lowest.inclusive else "below"
    return f"{word} {number(lowest.maximum)} °C ({lowest.cause})"


def cited(rows: tuple[Row, ...]) -> str:
    """The rows' values in words, for a message that shows every list."""
    return "; ".join(f"{row.key} {row.value}" for row in rows)
