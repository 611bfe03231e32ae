"""A group that marked equipment may cover and is not shown to: what settles it, and who can."""

from areafit.checks.area.group_question import GroupQuestion
from areafit.demands import GroupNeed
from areafit.facts.groups import Cover, Group, covers
from areafit.values import Frozen
from areafit.verdict import Role


class OpenPoint(Frozen):
    """What is open; the rule's own remedy and role stand where none is named."""

    message: str
    remedy: str = ""
    role: Role | None = None


def open_point(question: GroupQuestion, need: GroupNeed, found: str) -> OpenPoint:
    """The words for one need; `found` is what is marked."""
    group = need.group.value
    if need.uncertain and question.groups:
        return OpenPoint(
            f"{found} may fall short: {need.cause} asks for {group} if it gathers, and the area "
            "owner has to say whether it does.",
            "Have the area classification say whether hydrogen gathers, or choose equipment for "
            "it.",
            Role.AREA_OWNER,
        )
    if not question.groups and not question.gases:
        return OpenPoint(f"No group is marked, so cover for {group} is not shown.")
    if Group.IIB_H2 in question.groups and need.group is Group.IIC and not question.gases:
        return OpenPoint(
            f"{found} covers the hydrogen listed here. The area is declared {group}, and nothing "
            "says that hydrogen is the only reason for that.",
            "Have the area owner confirm that hydrogen is the only reason for IIC and declare the "
            "area IIB+H2, or choose equipment for IIC.",
            Role.AREA_OWNER,
        )
    if (substance := _sealable(question, need)) is not None:
        return OpenPoint(
            f"{substance.cause} is Group {substance.group.value}; the marked equipment serves only "
            "if every conduit run is sealed within 450 mm (18 in) of it, which `conduit_seals` "
            "does not state.",
            "State `conduit_seals: {within: …, all_runs: …}`, or choose equipment for the group.",
            Role.INSTALLER,
        )
    if question.groups & {Group.II, Group.III}:
        return OpenPoint(
            f"{found} without a letter covers all groups only for types of protection that need "
            "no subdivision; this marking shows none of those."
        )
    return OpenPoint(
        f"{group} ({need.cause}) is not printed. {found} may well cover it, but no clause says so.",
        "Ask the maker for the listing, which names every group that it holds for.",
    )


def _sealable(question: GroupQuestion, need: GroupNeed) -> GroupNeed | None:
    """The substance whose seal exception would answer the need."""
    needs = question.demand.needs if question.demand is not None else ()
    return next(
        (
            each
            for each in needs
            if each.group is need.group
            and each.with_seals is not None
            and covers(question.groups, each.with_seals) is Cover.YES
        ),
        None,
    )
