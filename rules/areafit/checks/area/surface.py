"""Do the hottest surfaces stay within the limits of a hazard."""

from decimal import Decimal

from areafit.checks.area.heat_question import TemperatureQuestion
from areafit.checks.area.hottest import Hottest, hottest
from areafit.demands import Limit
from areafit.facts.quantity import number
from areafit.rule import Judgement, Row, flagged, passed, unproven
from areafit.values import replace
from areafit.verdict import Reason
from areafit.wording import capital


def judge_temperature(question: TemperatureQuestion) -> Judgement:
    """Compare the hottest stated surface with every limit, then name what is not known."""
    limits = _limits(question)
    required = _required(limits)
    rows = tuple(dict.fromkeys(row for limit in limits for row in limit.rows))
    surface = hottest(question)
    if surface.value is None:
        return unproven(
            Reason.FACT_MISSING,
            surface.problem,
            required=required,
            found=surface.words,
            rows=rows,
            remedy=surface.remedy,
            answer_by=surface.role,
        )
    return _compared(question, limits, surface, surface.value, required, rows)


def _compared(  # noqa: PLR0913, PLR0917 - one place to compare, all of it needed
    question: TemperatureQuestion,
    limits: tuple[Limit, ...],
    surface: Hottest,
    value: Decimal,
    required: str,
    rows: tuple[Row, ...],
) -> Judgement:
    found, open_limit = surface.words, None
    for limit in sorted(limits, key=lambda each: each.maximum):
        if value < limit.maximum or (value == limit.maximum and limit.inclusive):
            continue
        at_limit = value == limit.maximum and limit.no_margin_at_limit
        if at_limit or limit.uncertain:
            open_limit = open_limit or limit
            continue
        return flagged(
            f"{capital(found)} is not {_word(limit)} {number(limit.maximum)} °C: {limit.cause}.",
            required=required,
            found=found,
            clause=limit.clause,
            rows=rows,
        )
    if open_limit is not None:
        return _open(open_limit, value, required, found, rows)
    if surface.problem:
        return unproven(
            Reason.FACT_MISSING,
            surface.problem,
            required=required,
            found=found,
            rows=rows,
            remedy=surface.remedy,
        )
    if question.gaps:
        return question.gaps[0].judged(required=required, found=found, rows=rows)
    return passed(
        f"{capital(found)} stays within the limit.", required=required, found=found, rows=rows
    )


def _limits(question: TemperatureQuestion) -> tuple[Limit, ...]:
    """The limits as they hold for this part: a share of what ignites, and its own overload."""
    found = []
    for limit in question.limits:
        if limit.overload:
            if question.overloadable is False:
                continue
            limit = replace(limit, uncertain=question.overloadable is None)  # noqa: PLW2901
        if question.share is not None and limit.ignition:
            share = question.share.percent
            limit = replace(  # noqa: PLW2901
                limit,
                maximum=limit.maximum * share / 100,
                cause=f"{number(share)} % in °C, since {limit.cause}",
                clause=question.share.clause,
                inclusive=True,
                no_margin_at_limit=False,
            )
        found.append(limit)
    return tuple(found)


def _open(
    limit: Limit, value: Decimal, required: str, found: str, rows: tuple[Row, ...]
) -> Judgement:
    if value == limit.maximum and limit.no_margin_at_limit:
        return unproven(
            Reason.NO_MARGIN,
            f"{capital(found)} equals the limit ({limit.cause}): not above it, but without any "
            "margin.",
            required=required,
            found=found,
            clause=limit.clause,
            rows=rows,
        )
    remedy = "State `overloadable: false` with the maker's word for it." if limit.overload else ""
    return unproven(
        Reason.CONDITION_TO_ACCEPT,
        f"{capital(found)} is above {number(limit.maximum)} °C, which holds because {limit.cause}.",
        required=required,
        found=found,
        clause=limit.clause,
        rows=rows,
        remedy=remedy,
    )


def _required(limits: tuple[Limit, ...]) -> str:
    if not limits:
        return "not known"
    lowest = min(limits, key=lambda limit: limit.maximum)
    return f"{_word(lowest)} {number(lowest.maximum)} °C ({lowest.cause})"


def _word(limit: Limit) -> str:
    return "at most" if limit.inclusive else "below"
