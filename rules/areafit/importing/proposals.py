"""What a description proposes of a line that an export says nothing of; a person confirms it.

A kind is proposed by the word that names the article, `electrical_content: none` only where a row
of `passive_articles.csv` names it as one in which nothing is electrical; what the description says
that comes with it is proposed by its word. A nameplate tells more than a name.
"""

from typing import Any

from areafit.facts.part import Kind
from areafit.marking import decode
from areafit.tables.descriptions import Says, both_sides, described, without_figures
from areafit.tables.part_names import is_passive

_WIRED = frozenset({Says.POWERED, Says.ELECTRICAL, Says.FIGURE})
_STILL = frozenset({Says.CARRIER, Says.FIXED, Says.SEAL})
_UNKNOWN = {"kind": Kind.UNKNOWN.value}


def proposed(
    description: str, *, assembly: bool, moves_below: bool = True, marking: str = ""
) -> dict[str, Any]:
    """What is proposed of a line, by keys of a list; `kind: unknown` where no word tells it.

    An assembly that is nothing electrical itself is what holds its lines together: those say what
    moves, is wired, and which materials there are. Where none of them does (not `moves_below`) and
    its own name does, it is that article with some of its pieces listed.

    >>> proposed("Deep groove ball bearing", assembly=False)
    {'kind': 'mechanical', 'electrical_content': 'none'}
    >>> proposed("Cylinder with reed switch", assembly=False)
    {'kind': 'mechanical', 'electrical_content': 'reed switch'}
    >>> proposed("Pump 400 V", assembly=False)
    {'kind': ['electrical', 'mechanical']}
    >>> proposed("Conveyor assembly", assembly=True)
    {'kind': 'structural', 'materials': 'none'}
    >>> proposed("Pneumatic cylinder", assembly=True, moves_below=False)
    {'kind': 'mechanical'}
    >>> proposed("Elektro", assembly=True)
    {'kind': 'structural', 'materials': 'none'}
    >>> proposed("Door switch, door", assembly=False, marking="II 3G Ex ec IIC T5 Gc")
    {'kind': 'electrical'}
    """
    named = () if _is_heading(description) else _kinds(description)
    kinds = _with_plate(named, marking)
    article = not moves_below and Kind.MECHANICAL in kinds
    if assembly and Kind.ELECTRICAL not in kinds and not article:
        return {"kind": Kind.STRUCTURAL.value, "materials": "none"}
    if not kinds:
        return dict(_UNKNOWN)
    names = [kind.value for kind in kinds]
    told: dict[str, Any] = {"kind": names[0] if len(names) == 1 else names}
    if kinds == (Kind.MECHANICAL,) and not assembly:
        if is_passive(description):
            told["electrical_content"] = "none"
        elif (with_it := described(description)) is not None and with_it.electrical:
            told["electrical_content"] = with_it.word.strip("-")
    return told


def tells_kind(description: str) -> bool:
    """Whether a description names something that moves or is wired."""
    kinds = () if _is_heading(description) else _kinds(description)
    return not {Kind.MECHANICAL, Kind.ELECTRICAL}.isdisjoint(kinds)


def _is_heading(description: str) -> bool:
    """Whether it is a word that says how something is worked, and no article: `Elektro`."""
    told = described(description)
    own = description.strip().casefold()
    return told is not None and told.says is Says.WORKED and own == told.word.rstrip("-").casefold()


def _with_plate(kinds: tuple[Kind, ...], marking: str) -> tuple[Kind, ...]:
    """The kinds that a description and a nameplate say: what the plate shows is there too."""
    codes = decode(marking).codes if marking else ()
    shown = {Kind.MECHANICAL if code.non_electrical else Kind.ELECTRICAL for code in codes}
    if not shown or kinds == (Kind.ELECTRICAL, Kind.MECHANICAL):
        return kinds
    return tuple(kind for kind in (Kind.ELECTRICAL, Kind.MECHANICAL) if kind in {*shown, *kinds})


def _kinds(description: str) -> tuple[Kind, ...]:
    """What a description says that a part is; nothing where its words disagree or tell nothing."""
    told = described(description)
    if told is not None and told.says is Says.WORKED:
        worked, words = told.word.casefold(), description.split()
        rest = " ".join(word for word in words if word.casefold() != worked)
        bare = described(rest)
        if bare is not None and bare.says in (Says.ELECTRICAL, Says.POWERED):
            told, description = bare, rest  # a switch that is inductive has nothing to move
    main, _ = both_sides(description)
    says = {row.says for row in main}
    if told is None:
        return ()
    if told.says is Says.FIGURE:  # a pump at 400 V moves all the same
        says |= {row.says for row in both_sides(without_figures(description))[0]} & {Says.MOVING}
    moves = Says.MOVING in says or Says.WORKED in says
    if told.says is Says.WORKED or (moves and told.says in (Says.POWERED, Says.FIGURE)):
        return (Kind.ELECTRICAL, Kind.MECHANICAL)
    if says & _WIRED:
        return (Kind.ELECTRICAL, Kind.MECHANICAL) if moves else (Kind.ELECTRICAL,)
    if moves:
        return (Kind.MECHANICAL,)
    if says and says <= _STILL and told.says in _STILL:
        return (Kind.STRUCTURAL,)
    return (Kind.ELECTRICAL,) if told.says in _WIRED and not says else ()
