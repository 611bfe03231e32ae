"""A nameplate marking, decoded: what it promises, and which of its words could not be read."""

from decimal import Decimal

from areafit.facts.groups import Group
from areafit.facts.protection import Hazard, Level, MarkingSystem, Purge, Suffix
from areafit.facts.quantity import Range
from areafit.values import Frozen, Term, replace


class PartSide(Term):
    """The two sides of a part in a wall or with a process inside, as a pair on its plate has them.

    The first half is that of the process (IEC 60079-26:2014; EN 14986:2017 of fans; from memory).
    """

    PROCESS = "process"
    OUTER = "outside"


class TemperatureMark(Frozen):
    """A temperature class or a maximum surface temperature, with the ambient it is valid in.

    `name` is the class as printed (`T4`, `T3C`) or None where only a figure is printed;
    `maximum` is in °C, None for a class that does not exist (`T7`). `layer` is the dust layer in
    metres that the figure was found under (`T500 120 °C`: 0.5), None where none is printed.
    """

    maximum: Decimal | None
    name: str | None = None
    ambient: Range | None = None
    layer: Decimal | None = None


class Output(Frozen):
    """A protected circuit that leaves the equipment: the square-bracketed part of a code.

    It never says anything of the housing (IEC 60079-0:2017, 29.4 and 29.6). `divisions` are those
    that North American words send the circuits to (`provides IS circuits to Class I, Division 1`).
    """

    protection: tuple[str, ...]
    groups: frozenset[Group] = frozenset()
    level: Level | None = None
    divisions: tuple[int, ...] = ()


class Code(Frozen):
    """One complete code of a nameplate: judged whole, never mixed with its neighbours.

    `protection` holds the types outside square brackets as printed (`db`, `ia`, `op is`, `tD`);
    `joined` says that they are printed with `+`, two independent types for one level
    (IEC 60079-26). `level` is the printed EPL, `inner_level` the better half of a pair such as
    Ga/Gb, which counts towards the process only. `categories` are ATEX categories of the
    housing as printed (`2G`, `1/2G` gives `2G` with inner `1G`); `divisions` and `hazard_class`
    are the North American ones, `inner_zone` the first of `Zone 0/1`. `gases` names the only gases
    the equipment serves. `words` are trade words that say a type without a letter: `intrinsically
    safe`, `nonincendive`, `explosionproof`, `dust-ignitionproof`, `hermetically sealed`. `legacy`
    marks forms before EPLs (EEx, Ex tD A21, EN 13463 letters), whose level an empty `protection`
    leaves to the category. `practice` is the zone behind `tD` (`A21`), `extra_gases` names gases
    served beside the group (`IIB+CS2`). `purge_contents` and `purge_action` are what a plate says
    of a purged enclosure (`general purpose`, `Division 2`; `power cut`, `alarm`). `ingress` lists
    what is printed, `IP66, Type 4X`. `faces_process` is set on the half of a pair that faces the
    process. `bare` is the side that a dash leaves without any protection: `-/2G` the process,
    `2G/-` the outside.
    """

    system: MarkingSystem
    hazard: Hazard
    protection: tuple[str, ...] = ()
    joined: bool = False
    outputs: tuple[Output, ...] = ()
    associated: bool = False
    groups: frozenset[Group] = frozenset()
    gases: tuple[str, ...] = ()
    temperatures: tuple[TemperatureMark, ...] = ()
    level: Level | None = None
    inner_level: Level | None = None
    hazard_class: str | None = None
    divisions: tuple[int, ...] = ()
    zone: int | None = None
    inner_zone: int | None = None
    equipment_group: str | None = None
    category: str | None = None
    inner_category: str | None = None
    ambient: Range | None = None
    ingress: str | None = None
    suffix: Suffix | None = None
    purge: Purge | None = None
    words: tuple[str, ...] = ()
    non_electrical: bool = False
    legacy: bool = False
    practice: str | None = None
    extra_gases: tuple[str, ...] = ()
    purge_contents: str | None = None
    purge_action: str | None = None
    faces_process: bool = False
    bare: PartSide | None = None

    @property
    def names_moving_parts(self) -> bool:
        """Whether it is for non-electrical sources, alone or with those of the electrics.

        An h among electrical types is one marking for both halves, of one class and level (ISO
        80079-36:2016 11, from memory).
        """
        return self.non_electrical or "h" in self.protection

    @property
    def of_moving_parts(self) -> bool:
        """Whether it answers for non-electrical sources on this side of the part."""
        return self.names_moving_parts and not self.on_bare_side

    @property
    def on_bare_side(self) -> bool:
        """Whether a dash on the plate says that this side has no protection."""
        return self.bare is (PartSide.PROCESS if self.faces_process else PartSide.OUTER)

    @property
    def speaks_of_housing(self) -> bool:
        """Whether the code says where the equipment itself may stand.

        Associated apparatus may name Division 2 for itself; a Division 1 on its plate is that of
        the circuits.
        """
        return (not self.associated or self.divisions == (2,)) and not self.on_bare_side


def process_half(code: Code) -> Code:
    """The half of a pair that faces the process, `Ga` of `Ga/Gb`; the code where it has no pair."""
    if code.bare is not None:
        return replace(code, faces_process=True)
    if code.inner_level is None and code.inner_category is None:
        return code
    return replace(
        code,
        level=code.inner_level,
        category=code.inner_category,
        zone=code.zone if code.inner_zone is None else code.inner_zone,
        inner_level=None,
        inner_category=None,
        inner_zone=None,
        faces_process=True,
    )


class Problem(Frozen):
    """Something in a marking that contradicts itself, is malformed or could not be read.

    `unread` is true where words were not understood (the marking is then `unproven`), false
    where they contradict the marking rules (a `flag`).
    """

    message: str
    clause: str
    unread: bool = False


class Marking(Frozen):
    """All that one nameplate text says."""

    text: str
    codes: tuple[Code, ...]
    problems: tuple[Problem, ...] = ()


def facing(markings: tuple[Marking, ...]) -> tuple[Marking, ...]:
    """Nameplates as they count on the process side of a part, pairs by their better half."""
    return tuple(replace(each, codes=tuple(map(process_half, each.codes))) for each in markings)


def facing_outward(markings: tuple[Marking, ...], *, process_here: bool) -> tuple[Marking, ...]:
    """Nameplates as they count outside a part whose process side is known.

    A dash for the process side is then no matter of this place, unless the process is here too.
    """
    return tuple(
        replace(each, codes=tuple(_outward(code, process_here) for code in each.codes))
        for each in markings
    )


def _outward(code: Code, process_here: bool) -> Code:  # noqa: FBT001 - as its caller names it
    if code.bare is not PartSide.PROCESS:
        return code
    return replace(code, bare=PartSide.OUTER if process_here else None)
