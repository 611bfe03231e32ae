"""What rules are handed: a part cut into aspects; contacts, places and loops with their parts."""

from collections.abc import Collection, Iterable, Iterator, Mapping
from itertools import combinations

from areafit.demands import Demands
from areafit.facts.loop import Loop
from areafit.facts.mechanics import Liquid
from areafit.facts.part import (
    LIQUID,
    WET,
    Answered,
    Disagreement,
    Equipment,
    Exposure,
    Item,
    Kind,
    MaterialUse,
    Mounted,
    MountedLine,
    Part,
    Wetting,
)
from areafit.tables.part_names import is_screw
from areafit.tables.words import Reach, reach_of
from areafit.values import Frozen, replace


class ContactCase(Frozen):
    """Two materials in contact, or what of them is not stated.

    `stated` is False where the part says nothing of contacts, and `materials` is then all that it
    could touch with; `own` and `other` are None where the component named could not be found or
    is not unique; where none was named, `any_own` and `any_other` are all that it may be. `inside`:
    both are of one part, which says nothing of whether they meet. `washed`: a hose washes the part.
    """

    stated: bool
    own: MaterialUse | None = None
    other: MaterialUse | None = None
    other_item: Item | None = None
    wet: bool | None = None
    exposed: bool = False
    materials: tuple[MaterialUse, ...] | None = None
    inside: bool = False
    any_own: tuple[MaterialUse, ...] = ()
    any_other: tuple[MaterialUse, ...] = ()
    washed: bool = False


class LineOrigin(Frozen):
    """What a line says of its own facts: its kind unknown, keys that were only proposed.

    `disagreements` are facts that it states otherwise than the library's entry, `answers` came in
    for facts that it states.
    """

    kind_unknown: bool
    proposed: tuple[str, ...] = ()
    disagreements: tuple[Disagreement, ...] = ()
    answers: tuple[Answered, ...] = ()


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


def part_variants(part: Part) -> tuple[Part, ...]:
    """The line and each of its alternates: every one is judged, the worst governs."""
    return (part, *part.alternates)


def parts_by_place(parts: Iterable[Part]) -> Mapping[str, Collection[Part]]:
    """The parts of which the line or an alternate stands at each place, in the file's order."""
    found: dict[str, dict[Item, Part]] = {}
    for part in parts:
        for variant in part_variants(part):
            for name in variant.locations:
                found.setdefault(name, {})[part.item] = part
    return {name: tuple(standing.values()) for name, standing in found.items()}


def mounted_in(parts: Iterable[Part]) -> Mapping[Item, Mounted]:
    """The lines that are mounted in each item, in others of it too."""
    by_item = {part.item: part for part in parts}
    kinds: dict[Item, set[Kind]] = {}
    electrical: dict[Item, set[MountedLine]] = {}
    for part in by_item.values():
        above, own = part.parent, part.equipment
        content = own.electrical_content if own.electrical else None
        line = MountedLine(own.description, own.device, content) if own.electrical else None
        while above is not None and above in by_item:
            kinds.setdefault(above, set()).update(own.kinds)
            if line is not None:
                kinds[above].add(Kind.ELECTRICAL)
                electrical.setdefault(above, set()).add(line)
            above = by_item[above].parent
    return {
        item: Mounted(frozenset(found), frozenset(electrical.get(item, ())))
        for item, found in kinds.items()
    }


def origin_of(part: Part) -> LineOrigin:
    """What the line says of its own facts."""
    return LineOrigin(
        Kind.UNKNOWN in part.equipment.kinds, part.proposed or (), part.disagreements, part.answered
    )


def wetting_of(part: Part, *, assembled: bool = False) -> Wetting:
    """What the part says of its wetted materials; the worst exposure of any of them counts.

    One that other lines are mounted in may say that it has no materials but theirs (`assembled`).
    """
    worst = _worst_exposure(part)
    listed, complete = part.materials is not None, part.materials_complete
    if assembled and part.materials == ():
        return Wetting(listed, complete is not False, worst, assembled=True)
    if listed and complete and part.materials_document is not None:
        return Wetting(listed, complete, worst, None, _bare(part), assembled)
    equipment = part.equipment
    plated = bool(equipment.codes) or equipment.wiring is not None
    if not listed and equipment.kinds == {Kind.ELECTRICAL} and plated:
        return Wetting(listed, complete, worst, part.description, assembled=assembled, plated=True)
    named = [use.component for use in part.materials or () if use.component is not None]
    components = tuple(dict.fromkeys((*named, *part.without))) if complete else ()
    return Wetting(listed, complete, worst, part.description, _bare(part), assembled, components)


def uses_of(part: Part, by_item: Mapping[Item, Part]) -> Iterator[MaterialUse]:
    """The materials of a part, with what the part says of them: its liquid, and that it is a screw.

    Of a line with several materials the latter holds for those which no component is named of.
    """
    listed, liquid = part.materials or (), _liquid_of(part, by_item)
    named = part.description is not None and is_screw(part.description)
    for use in listed:
        screw = part.description if named and (len(listed) == 1 or not use.component) else None
        plain = liquid is None and screw is None
        yield use if plain else replace(use, works_in=liquid, screw=screw)


def _liquid_of(part: Part, by_item: Mapping[Item, Part]) -> Liquid | None:
    """The liquid that it works with; a seal that is a line of its own has that of its assembly."""
    if part.body.liquid is not None or part.parent is None or part.description is None:
        return part.body.liquid
    around = by_item.get(part.parent)
    while around is not None and around.body.liquid is None and around.parent is not None:
        around = by_item.get(around.parent)
    if around is None or around.body.liquid is None:
        return None
    return around.body.liquid if reach_of(part.description) is Reach.WET else None


_SEVERITY = tuple(Exposure)


def _worst_exposure(part: Part) -> Exposure | None:
    """That of the part is its materials' by default: unless all are listed, each with its own."""
    uses = part.materials or ()
    stated = {use.exposure for use in uses}
    each = bool(uses) and part.materials_complete is True and None not in stated
    if not each:
        stated.add(part.exposure)
    return next((one for one in _SEVERITY if one in stated), None)


def _bare(part: Part) -> bool:
    """Whether the part says that it has no materials, and must have one or may be wetted."""
    if part.materials != ():
        return False
    solid = part.equipment.kinds & {Kind.STRUCTURAL, Kind.MECHANICAL}
    return bool(solid) or part.exposure is None or part.exposure in WET


def contacts_of(part: Part, by_item: Mapping[Item, Part]) -> Iterator[tuple[str, ContactCase]]:
    """The contacts that the part states, each with the two materials that meet.

    A part that says nothing of contacts yields one case that says so, if chemicals wet it; not a
    loose item, which stays on nothing. Two materials of one part that liquid wets yield one more,
    unless the part states their contact.
    """
    yield from _inside(part)
    exposed = _worst_exposure(part) in WET
    if part.contacts is None:
        if exposed and part.equipment.kinds != {Kind.LOOSE_ITEM}:
            washed = Exposure.WASHDOWN in (
                part.exposure,
                *(u.exposure for u in part.materials or ()),
            )
            yield (
                "contacts",
                ContactCase(stated=False, exposed=True, materials=part.materials, washed=washed),
            )
        return
    for i, ref in enumerate(part.contacts):
        other = by_item.get(ref.item)
        yield (
            f"contacts/{i}",
            ContactCase(
                stated=True,
                own=_component(part, ref.component),
                other=_component(other, ref.with_component) if other is not None else None,
                other_item=ref.item,
                wet=ref.wet,
                exposed=exposed,
                any_own=_candidates(part, ref.component),
                any_other=_candidates(other, ref.with_component),
            ),
        )


def _inside(part: Part) -> Iterator[tuple[str, ContactCase]]:
    """Pairs of different materials of a part, both wetted by liquid, of which it says nothing."""
    wetted = {use.material: use for use in part.materials or () if use.exposure in LIQUID}
    if len(wetted) < 2:
        return
    refs = [ref for ref in part.contacts or () if ref.item == part.item]
    said = {frozenset({ref.component, ref.with_component}) for ref in refs}
    for own, other in combinations(wetted.values(), 2):
        if frozenset({own.component, other.component}) not in said:
            yield (
                "materials",
                ContactCase(stated=True, own=own, other=other, exposed=True, inside=True),
            )


def _component(part: Part, component: str | None) -> MaterialUse | None:
    """The material that a contact names; the only one where none is named, else None."""
    uses = part.materials or ()
    if component is not None:
        uses = tuple(use for use in uses if use.component == component)
    return uses[0] if len(uses) == 1 else None


def _candidates(part: Part | None, component: str | None) -> tuple[MaterialUse, ...]:
    """What a contact may mean: the one named, or all where none is and all are listed."""
    if part is None:
        return ()
    one = _component(part, component)
    if one is not None:
        return (one,)
    whole = component is None and part.materials_complete
    return (part.materials or ()) if whole else ()


def loop_case(loop: Loop, by_item: Mapping[Item, Part], demands: Mapping[str, Demands]) -> LoopCase:
    """The loop with the parts it joins and the demands of every place that it enters."""

    def end(item: Item) -> LoopEnd:
        part = by_item.get(item)
        if part is None:
            return LoopEnd(item, None, ())
        places = tuple(demands[name] for name in part.locations)
        return LoopEnd(item, part.equipment, places, len(part.alternates))

    return LoopCase(
        loop,
        tuple(end(source.item) for source in loop.sources),
        tuple(end(device.item) for device in loop.devices),
        tuple(demands[name] for name in loop.locations),
    )
