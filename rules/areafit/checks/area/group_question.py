"""The question of the group rules: what is marked, and what the place asks for in that scheme."""

from areafit.checks.area.bid import Bid
from areafit.checks.area.general_use import general_use
from areafit.checks.area.missing import Missing
from areafit.checks.area.offer import is_intrinsically_safe
from areafit.checks.area.rating import read_rating
from areafit.demands import Demands, GroupDemand
from areafit.facts.fittings import ConduitSeals
from areafit.facts.groups import Group, scheme_of
from areafit.facts.marking import Code
from areafit.facts.protection import MarkingSystem
from areafit.values import Frozen


class GroupQuestion(Frozen):
    """Do these marked groups, or gases, cover what the place asks for in their own scheme?

    `dust_tight`: an old dust code of practice A with IP6X, whose form knew no groups.
    """

    groups: frozenset[Group]
    gases: tuple[str, ...]
    protection: tuple[str, ...]
    marked: bool
    missing: Missing | None
    demand: GroupDemand | None
    extra_gases: tuple[str, ...] = ()
    purged: bool = False
    general: bool = False
    explosionproof: bool = False
    seals: ConduitSeals | None = None
    dust_tight: bool = False

    @classmethod
    def of(cls, bid: Bid) -> "GroupQuestion":
        """The facts of a part with the demands of its place."""
        equipment, demands, hazard, code, missing = (
            bid.equipment,
            bid.demands,
            bid.hazard,
            bid.code,
            bid.missing,
        )
        if code is None:
            return cls(
                frozenset(),
                (),
                (),
                marked=False,
                missing=missing,
                demand=hazard.group_demand(hazard.home),
                general=general_use(equipment, demands, missing) is not None,
            )
        division = code.system is MarkingSystem.NEC_DIVISION
        return cls(
            code.groups,
            tuple(_gas_id(demands, name) for name in code.gases),
            code.protection,
            marked=True,
            missing=None,
            demand=hazard.group_demand(scheme_of(hazard.hazard, division=division)),
            extra_gases=tuple(_gas_id(demands, name) for name in code.extra_gases),
            purged=code.purge is not None,
            explosionproof=division and not is_intrinsically_safe(code),
            seals=equipment.conduit_seals if division else None,
            dust_tight=_dust_tight(code),
        )


def _dust_tight(code: Code) -> bool:
    """Practice A with IP6X on the plate kept out every dust of Zone 21 (IEC 61241-1:2004)."""
    practice_a = code.practice is not None and code.practice.startswith("A")
    if not (practice_a and "tD" in code.protection and code.ingress):
        return False
    rating = read_rating(code.ingress)
    return bool(rating.ips) and all(ip.first == 6 for ip in rating.ips) and not rating.unread


def _gas_id(demands: Demands, name: str) -> str:
    known = demands.tables.substance(name)
    return known.id if known is not None else name
