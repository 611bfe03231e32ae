"""The options that `check` and `part` share, turned into the options of a run."""

from collections.abc import Iterable
from typing import TYPE_CHECKING

import areafit
from areafit_cli import clock
from areafit_cli.faults import unknown

if TYPE_CHECKING:
    from areafit import Options
    from areafit.verdict import Basis


def options(
    *,
    only: Iterable[str],
    skip: Iterable[str],
    accept_unproven: Iterable[str],
    least_basis: "Basis",
    as_of: str | None,
    partial: bool = False,
) -> "Options":
    """The options of a run.

    Raises:
        CallError: a rule id or the date does not serve.
    """
    now = clock.today()
    day = clock.parse(as_of) if as_of else now
    return areafit.Options(
        as_of=day,
        as_of_chosen=day != now,
        only=rules(only),
        skip=rules(skip),
        accept_unproven=rules(accept_unproven),
        least_basis=least_basis,
        partial=partial,
    )


def rules(asked: Iterable[str]) -> frozenset[str]:
    """The rule ids, each checked against the rules there are; commas separate too."""
    names = [word.strip().casefold() for text in asked for word in text.split(",")]
    known = [rule.id for rule in areafit.RULES] if names else []
    for name in names:
        if name not in known:
            raise unknown("rule", name, known)
    return frozenset(names)
