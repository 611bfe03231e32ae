"""Which of the stated reactances holds for all places that a circuit enters."""

from collections.abc import Iterable, Iterator
from decimal import Decimal

from areafit.checks.loops.needs import reach
from areafit.demands import GroupNeed
from areafit.facts.groups import Cover, Group, severity
from areafit.facts.loop import ByGroup
from areafit.values import Frozen


class Permitted(Frozen):
    """A permitted capacitance or inductance in SI units.

    `value` holds for every needed group and was stated for `group`. Where none does, `value` is
    None, `missing` is the group that no figure is stated for, and `bound` a figure that was
    stated for a milder group and so cannot be less than the right one.
    """

    value: Decimal | None = None
    group: Group | None = None
    missing: Group | None = None
    bound: Decimal | None = None


class _Entry(Frozen):
    group: Group | None
    value: Decimal


def stated_groups(figures: ByGroup | None, own: Group | None) -> tuple[Group, ...]:
    """The groups that figures are stated for; a figure without one is for the loop's own."""
    return tuple(dict.fromkeys(e.group for e in _entries(figures, own) if e.group is not None))


def permitted(
    figures: ByGroup | None, own: Group | None, needs: tuple[GroupNeed, ...]
) -> Permitted:
    """The figure that holds for all needs: the least of those that hold for each of them.

    Where no place asks for a group, the largest figure stated: less would be asked of a loop
    outside every hazard than of one within. Without any figure all is None.
    """
    entries = tuple(_entries(figures, own))
    if not entries:
        return Permitted()
    if not needs:
        most = max(entries, key=lambda entry: entry.value)
        return Permitted(most.value, most.group)
    picked = [(need, _pick(entries, need, needs)) for need in needs]
    missing = next((need.group for need, entry in picked if entry is None), None)
    if missing is not None:
        return Permitted(missing=missing, bound=_bound(entries, needs))
    least = min((entry for _, entry in picked if entry is not None), key=lambda entry: entry.value)
    return Permitted(least.value, least.group)


def _entries(figures: ByGroup | None, own: Group | None) -> Iterator[_Entry]:
    if figures is None:
        return
    if figures.any is not None:
        yield _Entry(own, figures.any)
    for group, value in figures.groups:
        yield _Entry(group, value)


def _pick(
    entries: Iterable[_Entry], need: GroupNeed, needs: tuple[GroupNeed, ...]
) -> _Entry | None:
    """The figure of the mildest stated group that holds for the need."""
    holding = [entry for entry in entries if _reach(entry, need, needs) is Cover.YES]
    return min(holding, key=lambda entry: _order(entry, need), default=None)


def _order(entry: _Entry, need: GroupNeed) -> tuple[bool, int, Decimal]:
    rank = severity(entry.group) if entry.group is not None else None
    return entry.group is not need.group, rank or 0, entry.value


def _bound(entries: Iterable[_Entry], needs: tuple[GroupNeed, ...]) -> Decimal | None:
    milder = (e.value for e in entries for n in needs if _reach(e, n, needs) is Cover.NO)
    return min(milder, default=None)


def _reach(entry: _Entry, need: GroupNeed, needs: tuple[GroupNeed, ...]) -> Cover:
    return Cover.UNPROVEN if entry.group is None else reach(entry.group, need, needs)


def swapped(figures: ByGroup | None, own: Group | None) -> tuple[Group, Group] | None:
    """A milder and a more onerous group whose figures stand the wrong way round, if any do."""
    known = [(e.group, e.value) for e in _entries(figures, own) if e.group is not None]
    for milder, permits in known:
        for harder, permits_there in known:
            if _milder(milder, harder) and permits < permits_there:
                return milder, harder
    return None


def _milder(one: Group, other: Group) -> bool:
    ranks = severity(one), severity(other)
    if one.scheme is not other.scheme or ranks[0] is None or ranks[1] is None:
        return False
    return ranks[0] < ranks[1]
