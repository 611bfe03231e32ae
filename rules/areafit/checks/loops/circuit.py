"""The facts that the two reactance rules rest on."""

from decimal import Decimal

from areafit.cases import LoopCase
from areafit.checks.loops.needs import Needs, System, home, law_of, needs_of, system_of
from areafit.checks.loops.permitted import stated_groups
from areafit.demands import Gap
from areafit.facts.groups import Group
from areafit.facts.loop import ByGroup, Cable
from areafit.facts.protection import Law
from areafit.values import Frozen, replace


class DeviceShare(Frozen):
    """A device's internal capacitance and inductance in F and H; None where not stated."""

    item: str
    capacitance: Decimal | None
    inductance: Decimal | None


class Supply(Frozen):
    """What a source permits outside of it, in F, H and H/Ω, and its current in A."""

    item: str
    capacitance: ByGroup | None
    inductance: ByGroup | None
    inductance_per_resistance: Decimal | None
    current: Decimal | None


class Circuit(Frozen):
    """All that the two reactance rules rest on."""

    law: Law | None
    group: Group | None
    sources: tuple[Supply, ...]
    devices: tuple[DeviceShare, ...]
    cable: Cable | None
    needs: Needs

    @classmethod
    def of(cls, case: LoopCase) -> "Circuit":
        """The reactances of a loop with the groups of the places that it enters."""
        loop = case.loop
        return cls(
            law_of(case),
            loop.group,
            tuple(
                Supply(s.item, s.capacitance, s.inductance, s.inductance_per_resistance, s.current)
                for s in loop.sources
            ),
            tuple(DeviceShare(d.item, d.capacitance, d.inductance) for d in loop.devices),
            loop.cable,
            needs_of(case, stated_system(case)),
        )

    def over(self, gaps: tuple[Gap, ...]) -> "Circuit":
        """The same, were these gaps all that is not known of its places."""
        return replace(self, needs=replace(self.needs, gaps=gaps))


def stated_system(case: LoopCase) -> System:
    """The system to judge in: that of the places if figures are stated in it, else the other."""
    loop, at_home = case.loop, home(case)
    groups = [loop.group] if loop.group is not None else []
    for source in loop.sources:
        for figures in (source.capacitance, source.inductance):
            groups += stated_groups(figures, loop.group)
    found = {system_of(group) for group in groups}
    return at_home if at_home in found or not found else found.pop()
