"""The one place that asks for the date: the rules are handed it."""

from datetime import date, datetime

from areafit_cli.faults import CallError


def today() -> date:
    """The date of this computer, in its own time zone."""
    return datetime.now().astimezone().date()


def parse(text: str) -> date:
    """A date written as YYYY-MM-DD.

    Raises:
        CallError: it is none.
    """
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise CallError(f"{text!r} is no date; write it as year-month-day, 2026-03-31") from None
