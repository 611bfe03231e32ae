"""Gas and dust groups of both systems, and which marked group covers which needed one.

Groups are never compared across systems: a substance has its own row in each (see `demands`).
"""

from areafit.facts.protection import Hazard
from areafit.values import Term


class Group(Term):
    """A group letter as places and nameplates print it."""

    I = "I"  # noqa: E741 - the standards' own name for mines
    II = "II"
    IIA = "IIA"
    IIB = "IIB"
    IIB_H2 = "IIB+H2"
    IIC = "IIC"
    III = "III"
    IIIA = "IIIA"
    IIIB = "IIIB"
    IIIC = "IIIC"
    A = "A"
    B = "B"
    C = "C"
    D = "D"
    E = "E"
    F = "F"
    G = "G"

    @property
    def scheme(self) -> "GroupScheme":
        """The system that this letter belongs to."""
        return _SCHEME[self]

    @property
    def hazard(self) -> Hazard:
        """Dust for III, E, F and G; gas for all others, mines included."""
        dust = {GroupScheme.ZONE_DUST, GroupScheme.DIVISION_DUST}
        return Hazard.DUST if self.scheme in dust else Hazard.GAS


class GroupScheme(Term):
    """A family of groups within which cover is defined."""

    MINES = "mines"
    ZONE_GAS = "zone gas"
    ZONE_DUST = "zone dust"
    DIVISION_GAS = "division gas"
    DIVISION_DUST = "division dust"


def scheme_of(hazard: Hazard, *, division: bool) -> GroupScheme:
    """The scheme in which groups of a hazard are written; fibres are grouped as dust."""
    if hazard is Hazard.GAS:
        return GroupScheme.DIVISION_GAS if division else GroupScheme.ZONE_GAS
    return GroupScheme.DIVISION_DUST if division else GroupScheme.ZONE_DUST


class Cover(Term):
    """Whether a marked group covers a needed one."""

    YES = "yes"
    NO = "no"
    UNPROVEN = "unproven"


_G = Group
_SCHEME = {
    _G.I: GroupScheme.MINES,
    **dict.fromkeys((_G.II, _G.IIA, _G.IIB, _G.IIB_H2, _G.IIC), GroupScheme.ZONE_GAS),
    **dict.fromkeys((_G.III, _G.IIIA, _G.IIIB, _G.IIIC), GroupScheme.ZONE_DUST),
    **dict.fromkeys((_G.A, _G.B, _G.C, _G.D), GroupScheme.DIVISION_GAS),
    **dict.fromkeys((_G.E, _G.F, _G.G), GroupScheme.DIVISION_DUST),
}
_SEVERITY = {
    GroupScheme.MINES: (_G.I,),
    GroupScheme.ZONE_GAS: (_G.IIA, _G.IIB, _G.IIC),
    GroupScheme.ZONE_DUST: (_G.IIIA, _G.IIIB, _G.IIIC),
    GroupScheme.DIVISION_GAS: (_G.D, _G.C, _G.B, _G.A),
}
_LADDERS = {
    _G.IIA: (_G.IIA,),
    _G.IIB: (_G.IIA, _G.IIB),
    _G.IIB_H2: (_G.IIA, _G.IIB),
    _G.IIC: (_G.IIA, _G.IIB, _G.IIB_H2, _G.IIC),
    _G.IIIA: (_G.IIIA,),
    _G.IIIB: (_G.IIIA, _G.IIIB),
    _G.IIIC: (_G.IIIA, _G.IIIB, _G.IIIC),
}


def severity(group: Group) -> int | None:
    """The rank of a group within its scheme, 0 the mildest; None where there is no ladder.

    Division dust letters have none: E, F and G are different hazards (NFPA 70-2023, 500.6(B)).
    """
    ladder = _SEVERITY.get(group.scheme, ())
    if group is Group.IIB_H2:
        return ladder.index(Group.IIC)
    return ladder.index(group) if group in ladder else None


def covers(marked: frozenset[Group], needed: Group) -> Cover:
    """Whether equipment marked with these groups covers a place or substance of `needed`.

    IIC covers IIB and IIA, IIIC covers IIIB and IIIA (IEC 60079-0:2017, 4.3 and 4.4). A Division
    letter covers itself; a milder gas letter that is not printed is unproven, since A > B > C > D
    is practice but no printed rule; letters of dust never stand in for each other (NFPA 70-2023,
    500.6 and 500.8(B)). `II` and `III` without a letter say nothing here: whether they serve
    depends on the type of protection, which `gas-group` judges.
    """
    own = {group for group in marked if group.scheme is needed.scheme}
    if needed in own or any(needed in _LADDERS.get(group, ()) for group in own):
        return Cover.YES
    if needed.scheme is GroupScheme.DIVISION_GAS and own:
        most = max(severity(group) or 0 for group in own)
        return Cover.UNPROVEN if most > (severity(needed) or 0) else Cover.NO
    return Cover.NO
