"""What rules about more than one line are handed: a contact, a place, a loop, with their parts."""

from areafit.demands import Demands
from areafit.facts.loop import Loop
from areafit.facts.part import Equipment, Item, Kind, MaterialUse, Part
from areafit.values import Frozen


class ContactCase(Frozen):
    """Two materials in contact, or what of them is not stated.

    `stated` is False where the part says nothing of contacts, and `materials` is then all that it
    could touch with; `own` and `other` are None where the component named could not be found or
    is not unique. `inside`: both are of one part, which says nothing of whether they meet.
    """

    stated: bool
    own: MaterialUse | None = None
    other: MaterialUse | None = None
    other_item: Item | None = None
    wet: bool | None = None
    exposed: bool = False
    materials: tuple[MaterialUse, ...] | None = None
    inside: bool = False


class PlaceCase(Frozen, eq=False):
    """A place and every part that stands in it."""

    demands: Demands
    parts: tuple[Part, ...]


class LoopEnd(Frozen):
    """A source or device of a loop: its equipment and the demands of each place it stands in.

    `equipment` is None where the list has no such item; `alternates` counts the alternatives of
    the line, for which the loop states no values.
    """

    item: Item
    equipment: Equipment | None
    demands: tuple[Demands, ...]
    alternates: int = 0

    @property
    def simple(self) -> bool:
        """Whether the part is simple apparatus and nothing else."""
        return self.equipment is not None and self.equipment.kinds == {Kind.SIMPLE_APPARATUS}


class LoopCase(Frozen, eq=False):
    """A loop with the parts that it joins; ends are in the order of `loop.sources`, `devices`.

    `crossed` are the demands of further places that the loop's cable enters.
    """

    loop: Loop
    sources: tuple[LoopEnd, ...]
    devices: tuple[LoopEnd, ...]
    crossed: tuple[Demands, ...] = ()

    @property
    def demands(self) -> tuple[Demands, ...]:
        """The demands of every place that the circuit enters."""
        ends = (d for end in (*self.sources, *self.devices) for d in end.demands)
        return (*ends, *self.crossed)
