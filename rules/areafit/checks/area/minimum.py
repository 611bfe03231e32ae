"""The least IP rating that a type of protection rests on, by the dust group that it serves."""

from areafit.checks.area.rating import Ip
from areafit.demands import HazardDemand
from areafit.facts.groups import Group, GroupScheme, severity
from areafit.facts.marking import Code
from areafit.facts.protection import Hazard
from areafit.rule import Row
from areafit.tables.area import MinimumIngress, minimum_ingress
from areafit.values import Frozen


class Minimum(Frozen):
    """The most onerous minimum of the types of a code; digits None where none is asked for."""

    protection: str
    first: int
    second: int | None
    clause: str
    row: Row

    @property
    def text(self) -> str:
        """As an IP code."""
        return Ip(self.first, self.second).text


def minimum_of(code: Code | None, hazard: HazardDemand) -> Minimum | None:
    """The minimum for a code, None where its types rest on no rating of the enclosure.

    The group is the most onerous of the marked ones and of those that the place asks for.
    """
    if code is None or code.non_electrical:
        return None
    names = [
        f"{letter} {code.practice}" if letter == "tD" and code.practice else letter
        for letter in code.protection
    ]
    groups = _groups(code, hazard)
    rows = [row for name in names for group in ("any", *groups) if (row := _find(name, group))]
    if not rows:
        return None
    worst = max(rows, key=lambda row: (row.ip_first, row.ip_second or 0))
    second = max((row.ip_second for row in rows if row.ip_second is not None), default=None)
    return Minimum(
        worst.protection,
        worst.ip_first,
        second,
        worst.clause,
        Row.of("minimum_ingress", f"{worst.protection}, group {worst.group}", worst),
    )


def _find(protection: str, group: str) -> MinimumIngress | None:
    return minimum_ingress().get((protection, group))


def _groups(code: Code, hazard: HazardDemand) -> tuple[str, ...]:
    """The dust groups that count; the worst one where nothing says which."""
    if hazard.hazard is not Hazard.DUST:
        return ()
    needed = hazard.group_demand(GroupScheme.ZONE_DUST)
    found = {need.group for need in needed.needs} if needed is not None else set()
    found |= {group for group in code.groups if group.scheme is GroupScheme.ZONE_DUST}
    ranked = [group for group in found if severity(group) is not None]
    if not ranked:
        return (Group.IIIC.value,)
    return (max(ranked, key=lambda group: severity(group) or 0).value,)
