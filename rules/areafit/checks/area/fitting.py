"""Cable glands, stopping plugs, thread adapters and conduit seals as lines of their own.

They close the openings of other enclosures, make no heat and bear no temperature class; group,
level, type, ingress and service temperature count for them as for any other part.
"""

from areafit.checks.area.offer import is_intrinsically_safe
from areafit.facts.fittings import Device
from areafit.facts.marking import Code
from areafit.facts.part import Equipment, Kind
from areafit.facts.protection import MarkingSystem

FITTINGS = frozenset(
    {Device.CABLE_GLAND, Device.STOPPING_PLUG, Device.THREAD_ADAPTER, Device.CONDUIT_SEAL}
)
# The types of enclosure that such a fitting keeps closed; a fitting of any other type is none.
_TYPES = frozenset({"d", "da", "db", "dc", "e", "eb", "ec", "nR", "t", "ta", "tb", "tc", "tD"})
_WORDS = frozenset({"explosionproof", "dust-ignitionproof"})


def is_fitting(equipment: Equipment, code: Code | None) -> bool:
    """Whether the part states that it is such a fitting and nothing that it states denies it."""
    return code is not None and _stated(equipment) and _may_be(code)


def is_unmarked_fitting(equipment: Equipment) -> bool:
    """The same of one that is said to bear no marking at all."""
    return equipment.markings == () and _stated(equipment)


def _stated(equipment: Equipment) -> bool:
    return (
        equipment.device in FITTINGS
        and equipment.kinds == {Kind.ELECTRICAL}
        and equipment.electrical_content in (None, "none")
        and equipment.arcing is not True
        and equipment.heat_producing is not True
        and not equipment.entries
    )


def _may_be(code: Code) -> bool:
    """Whether a nameplate like this may stand on a fitting."""
    if code.non_electrical or code.outputs or code.associated or code.purge is not None:
        return False
    if code.system is MarkingSystem.NEC_DIVISION:
        return not is_intrinsically_safe(code) and set(code.words) <= _WORDS
    return bool(code.protection) and set(code.protection) <= _TYPES
