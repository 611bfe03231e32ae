"""Do the marked groups cover the needed ones: the judgement shared by gas and dust."""

from decimal import Decimal

from areafit.checks.area.group_open import open_point
from areafit.checks.area.group_question import GroupQuestion
from areafit.checks.area.missing import Missing
from areafit.demands import GroupNeed
from areafit.facts.groups import Cover, Group, GroupScheme, covers, severity
from areafit.marking.level import find_type
from areafit.rule import Judgement, Row, flagged, passed, unproven
from areafit.verdict import Reason

_HYDROGEN = "hydrogen"


def judge_group(question: GroupQuestion) -> Judgement:  # noqa: PLR0911 - one for each answer
    """Every need is answered; then the gaps of the place keep the rest unproven."""
    demand = question.demand
    if demand is None:
        return passed("This hazard knows no groups.")
    required = _required(demand.needs)
    found = marked(question)
    rows = tuple(dict.fromkeys(row for need in demand.needs for row in need.rows))
    if question.general:
        return passed(
            "The allowance for this unmarked device is not limited to groups.",
            required=required,
            found="no marking",
            rows=rows,
        )
    if question.purged and not question.groups:
        return passed(
            "Pressurization keeps every group out; its types are not divided by group.",
            required=required,
            found="pressurized",
            rows=rows,
            clause="NFPA 496-2021 3.3",
        )
    if not question.marked:
        return _unmarked(question, required, rows)
    open_need: GroupNeed | None = None
    for need in demand.needs:
        match _answer(question, need, demand.needs):
            case Cover.NO if not need.uncertain:
                return flagged(
                    f"{found} does not cover {need.group.value} ({need.cause}).",
                    required=required,
                    found=found,
                    rows=rows,
                )
            case Cover.NO | Cover.UNPROVEN:
                open_need = open_need or need
    if open_need is not None:
        return _open(question, open_need, required, found, rows)
    if demand.gaps:
        return demand.gaps[0].judged(required=required, found=found, rows=rows)
    return passed(f"{found} covers what is needed.", required=required, found=found, rows=rows)


def marked(question: GroupQuestion) -> str:
    """The marked groups and gases in words."""
    words = sorted(group.value for group in question.groups)
    words += [f"only {gas}" for gas in question.gases]
    words += [f"{gas} too" for gas in question.extra_gases]
    by_practice = "no group, but IP6X by practice A" if question.dust_tight else "no group"
    return ", ".join(words) or by_practice


def _required(needs: tuple[GroupNeed, ...]) -> str:
    return "; ".join(dict.fromkeys(f"{n.group.value} ({n.cause})" for n in needs)) or "not known"


def _unmarked(question: GroupQuestion, required: str, rows: tuple[Row, ...]) -> Judgement:
    missing = question.missing or Missing.NO_MARKING
    if missing in (Missing.OTHER_HAZARD, Missing.UNMARKED, Missing.ASSOCIATED):
        return flagged(
            f"No group for this hazard: {missing.value}.",
            required=required,
            found="none",
            rows=rows,
        )
    return unproven(
        Reason.FACT_MISSING,
        f"No group is shown: {missing.value}.",
        required=required,
        found="none",
        rows=rows,
        remedy=missing.remedy,
    )


def _answer(  # noqa: PLR0911 - one return for each answer
    question: GroupQuestion, need: GroupNeed, needs: tuple[GroupNeed, ...]
) -> Cover:
    if question.gases:
        return _named_gas(question, need, needs)
    if not question.groups:
        served = question.dust_tight and need.group in (Group.IIIA, Group.IIIB)
        return Cover.YES if served else Cover.UNPROVEN
    if need.substance is not None and need.substance in question.extra_gases:
        return Cover.YES
    if question.groups & {Group.II, Group.III} and need.group.scheme in _UNDIVIDED:
        return Cover.UNPROVEN if _needs_letter(question.protection) else Cover.YES
    answer = covers(question.groups, need.group)
    extended = Group.IIB_H2 in question.groups and need.group in (Group.IIC, Group.IIB_H2)
    if answer is Cover.NO and extended:
        return _hydrogen(need, needs)
    if answer is not Cover.YES and question.explosionproof:
        return _with_seals(question, need, needs, answer)
    return answer


def _needs_letter(protection: tuple[str, ...]) -> bool:
    """Whether `II` alone says nothing: for d, i, nC and nL, and for types that are not known."""
    found = [find_type(letter) for letter in protection]
    return not found or any(kind is None or kind.gas_group_letter for kind in found)


_UNDIVIDED = (GroupScheme.ZONE_GAS, GroupScheme.ZONE_DUST)


def _hydrogen(need: GroupNeed, needs: tuple[GroupNeed, ...]) -> Cover:
    """IIB+H2 adds hydrogen only. A declared IIC may be due to hydrogen alone, or may not."""
    if need.group is Group.IIB_H2 or need.substance == _HYDROGEN:
        return Cover.YES
    if need.substance is None and any(n.substance == _HYDROGEN for n in needs):
        return Cover.UNPROVEN
    return Cover.NO


_SEAL_DISTANCE = Decimal("0.4572")  # m, 18 in; NFPA 70 prints 450 mm beside it


def _with_seals(
    question: GroupQuestion, need: GroupNeed, needs: tuple[GroupNeed, ...], answer: Cover
) -> Cover:
    """A milder letter serves where all conduit runs are sealed near the explosionproof box.

    A declared group is met in the same way if only such substances account for it.
    """
    letter = need.with_seals
    if need.substance is None:
        same = [n for n in needs if n.substance is not None and n.group is need.group]
        letters = {n.with_seals for n in same}
        letter = next(iter(letters)) if len(letters) == 1 else None
    if letter is None or covers(question.groups, letter) is not Cover.YES:
        return answer
    seals = question.seals
    if seals is None or seals.within is None or seals.all_runs is None:
        return Cover.UNPROVEN
    return Cover.YES if seals.all_runs and seals.within <= _SEAL_DISTANCE else answer


def _named_gas(question: GroupQuestion, need: GroupNeed, needs: tuple[GroupNeed, ...]) -> Cover:
    """Equipment for a named gas serves that gas; a group printed beside it serves as well."""
    if question.groups and covers(question.groups, need.group) is Cover.YES:
        return Cover.YES
    if need.substance is not None:
        return Cover.YES if need.substance in question.gases else Cover.NO
    own = [n for n in needs if n.substance in question.gases]
    rank = severity(need.group)
    explained = any((severity(n.group) or 0) >= (rank or 0) for n in own)
    return Cover.YES if explained else Cover.UNPROVEN


def _open(
    question: GroupQuestion, need: GroupNeed, required: str, found: str, rows: tuple[Row, ...]
) -> Judgement:
    point = open_point(question, need, found)
    return unproven(
        Reason.FACT_MISSING,
        point.message,
        required=required,
        found=found,
        rows=rows,
        remedy=point.remedy,
        answer_by=point.role,
    )
