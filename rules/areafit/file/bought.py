"""What a line takes of the library's entry of its part number, and where the two differ.

A line takes what it does not state; lists whole or not at all, but that it may say which material
it ordered otherwise and how the conditions of a document are met.
"""

from collections.abc import Callable, Iterable, Mapping
from functools import cache
from typing import Any

from areafit.errors import brief
from areafit.facts.bom import StatedAt, Statement
from areafit.facts.evidence import Condition, Evidence, EvidenceType
from areafit.facts.part import Complete, Disagreement, Kind, MaterialUse
from areafit.file.facts import facts
from areafit.file.library import Library, LibraryEntry, LibraryEntryModel, barred, reads_as_number
from areafit.file.part_model import AlternateModel, LineModel, PartModel
from areafit.file.source import Path, SourceFile
from areafit.values import Frozen, replace

DESCRIPTIVE = frozenset({"description", "unit_cost", "maker", "maker_number", "vendor", "note"})
"""Keys that decide nothing: a line may state them otherwise than its entry."""
_KEYS = {name: keys[0] for name, keys in LibraryEntryModel.keys().items()}


class Lent(Frozen, eq=False):
    """A line with what it takes of its entry, who says so, and where the two differ.

    `refused`: its entry holds errors, which are told; what it would state is not known.
    `untaken`: why an entry that was perhaps meant gives the line nothing.
    """

    line: PartModel
    statements: tuple[Statement, ...] = ()
    of_alternates: tuple[tuple[Statement, ...], ...] = ()
    disagreements: tuple[Disagreement, ...] = ()
    remarks: tuple[str, ...] = ()
    refused: bool = False
    untaken: str = ""


def lent(
    bom: SourceFile, library: Library, line: PartModel, index: int, unknown: frozenset[str]
) -> Lent:
    """What a line and its alternates take of the entries of their part numbers.

    `unknown` are the keys that the line says are not known: no entry fills those.
    """
    path = ("parts", index)
    own = _lent(bom, library, line, path, unknown)
    alternates = [
        _lent(bom, library, alternate, (*path, "alternates", number), frozenset())
        for number, alternate in enumerate(line.alternates or ())
    ]
    whole = own.line
    if any(one.statements for one in alternates):
        whole = whole.model_copy(update={"alternates": tuple(one.line for one in alternates)})
    every = (own, *alternates)
    return Lent(
        whole,
        own.statements,
        tuple(one.statements for one in alternates),
        tuple(each for one in every for each in one.disagreements),
        tuple(each for one in every for each in one.remarks),
        own.refused,
        own.untaken,
    )


class _BoughtFacts(Frozen, eq=False, kw_only=True):
    line: Any
    statements: tuple[Statement, ...] = ()
    disagreements: tuple[Disagreement, ...] = ()
    remarks: tuple[str, ...] = ()
    refused: bool = False
    untaken: str = ""


def _lent(
    bom: SourceFile, library: Library, line: LineModel, path: Path, unknown: frozenset[str]
) -> _BoughtFacts:
    number = line.part_number
    if number is None:
        return _without(bom, line, path)
    remarks = []
    if reads_as_number(number):
        spot = bom.document.at((*path, "part_number"))
        if bom.text_at(spot.line, spot.column)[:1] not in ("'", '"'):
            remarks.append(
                f"{spot}: the part number {brief(number)} is read as written; quote it, since "
                "other programs read it as a number"
            )
    entry = library.find(number)
    if entry is None and library.holds(number):
        return _BoughtFacts(line=line, refused=True)
    if entry is None:
        why, alike = "", library.alike(number)
        if alike:
            why = (
                f"{brief(number)} has no entry in the library; {brief(alike)} differs in case, "
                "dashes or look-alike letters only"
            )
        return _untaken(bom, line, path, remarks, why)
    maker = entry.values.get("maker")
    if None not in (line.maker, maker) and line.maker != maker:
        why = (
            f"nothing is taken of the library, whose {brief(number)} is made by "
            f"{brief(str(maker))} and not by {brief(str(line.maker))}"
        )
        return _untaken(bom, line, path, remarks, why)
    return replace(_joined(bom, line, entry, path, unknown), remarks=tuple(remarks))


def _untaken(
    bom: SourceFile, line: LineModel, path: Path, remarks: Iterable[str], why: str
) -> _BoughtFacts:
    """A line that takes nothing, and why where another would expect it to."""
    told = list(remarks)
    if why:
        told.append(f"{bom.document.at((*path, 'part_number'))}: {why}")
    return replace(_without(bom, line, path), remarks=tuple(told), untaken=why)


def _without(bom: SourceFile, line: LineModel, path: Path) -> _BoughtFacts:
    """A line without an entry: nothing there could be replaced."""
    for i, use in enumerate(line.materials or ()):
        if use.instead is not None:
            message = "`instead` of a component, and the library has no entry for this part"
            remedy = "list every material of the part, or add its entry to the library"
            bom.note((*path, "materials", i, "instead"), message, remedy)
    return _BoughtFacts(line=line)


def _joined(
    bom: SourceFile, line: LineModel, entry: LibraryEntry, path: Path, unknown: frozenset[str]
) -> _BoughtFacts:
    taken: dict[str, Any] = {}
    said: list[str] = []
    differ: list[Disagreement] = []
    for name, value in _spoken(entry, line).items():
        key = _KEYS[name]
        own = getattr(line, name)
        if own is None or own == (Kind.UNKNOWN,):
            left_empty = isinstance(line, AlternateModel) and name in line.model_fields_set
            if not left_empty and key not in unknown:
                taken[name] = value
                said.append(key)
            continue
        whole = _COMPLETED.get(name, _as_stated)(bom, own, value, (*path, key))
        if whole is not own:
            taken[name] = whole
        elif name not in DESCRIPTIVE and _contradicts(own, value):
            differ.append(
                Disagreement(
                    "/".join(map(str, path)),
                    key,
                    _shown(bom, (*path, key)),
                    _shown(entry.source, (*entry.path, key)),
                )
            )
    position = entry.source.document.key_at(entry.path)
    paths = list(said)
    for name in ("materials", "evidence"):
        if name in taken:
            stated = getattr(line, name) or ()
            paths += [
                f"{name}/{i}"
                for i in range(len(taken[name]))
                if name == "evidence" or i >= len(stated)
            ]
    statements = tuple(
        Statement(one, StatedAt.LIBRARY, entry.document, entry.role, position) for one in paths
    )
    joined = line.model_copy(update=taken) if taken else line
    return _BoughtFacts(line=joined, statements=statements, disagreements=tuple(differ))


def _spoken(entry: LibraryEntry, line: LineModel) -> dict[str, Any]:
    """What an entry says of a line; it was confirmed that its own list of materials is all."""
    values = dict(entry.values)
    said = values.get("materials_complete")
    if said is None:
        return values
    delivered, own = values.get("materials"), line.materials
    if own is None or any(use.instead is not None for use in own):
        if delivered is not None:
            document = said.document or entry.document
            values["materials_complete"] = replace(said, document=document)
    elif delivered is not None and _contradicts(own, delivered):
        del values["materials_complete"]
    return values


def _with_ground(bom: SourceFile, own: Complete, value: Complete, path: Path) -> Complete:
    """A claim of the line, on the ground that the entry has for the same claim."""
    del bom, path
    if own.complete != value.complete or own.document is not None or value.document is None:
        return own
    return replace(own, document=value.document)


def _as_stated(bom: SourceFile, own: Any, value: Any, path: Path) -> Any:  # noqa: ANN401
    del bom, value, path
    return own


def _with_replaced(
    bom: SourceFile,
    own: tuple[MaterialUse, ...],
    delivered: tuple[MaterialUse, ...],
    path: Path,
) -> tuple[MaterialUse, ...]:
    """The materials as delivered, but for those that the line says were ordered otherwise.

    Those of the line come first, so that their places are those that are written.
    """
    if not any(use.instead is not None for use in own):
        return own
    ordered = []
    for i, use in enumerate(own):
        component = use.component or use.instead
        if use.instead is None or use.document is None:
            message = "some materials replace those of the library, and others do not say which"
            remedy = "state `instead` and `document` of each, or list them all"
            bom.note((*path, i), message, remedy)
        elif all(each.component != use.instead for each in delivered):
            message = f"the library knows no component `{brief(use.instead)}` of this part"
            names = dict.fromkeys(each.component for each in delivered if each.component)
            known = f"name one of: {', '.join(map(brief, names))}" if names else ""
            bom.note((*path, i, "instead"), message, known or "list every material of the part")
        else:
            ordered.append(replace(use, component=component, instead=None, document=None))
    gone = {use.instead for use in own}
    return (*ordered, *(each for each in delivered if each.component not in gone))


def _with_conditions(
    bom: SourceFile, own: tuple[Evidence, ...], delivered: tuple[Evidence, ...], path: Path
) -> tuple[Evidence, ...]:
    """The documents of the library with what the line says of how their conditions are met.

    A line that names no other document and says nothing else of them completes them; those that it
    names come first, so that their places are those that are written.
    """
    del bom, path
    left = list(delivered)
    completed = []
    for document in own:
        alike = [each for each in left if _name(each) == _name(document)]
        bare = replace(document, conditions=None) == Evidence(document.type, document.number)
        if len(alike) != 1 or not bare:
            return own
        left.remove(alike[0])
        conditions = _met(document.conditions, alike[0].conditions)
        completed.append(replace(alike[0], conditions=conditions))
    return (*completed, *left) if own else own


def _name(document: Evidence) -> tuple[object, str | None]:
    return document.type, document.number


def _met(
    own: tuple[Condition, ...] | None, texts: tuple[Condition, ...] | None
) -> tuple[Condition, ...] | None:
    if own is None or texts is None:
        return texts if own is None else own
    said = {condition.text: condition for condition in own}
    known = tuple(said.pop(each.text, each) for each in texts)
    return (*known, *said.values())


_COMPLETED: Mapping[str, Callable[[SourceFile, Any, Any, Path], Any]] = {
    "materials": _with_replaced,
    "evidence": _with_conditions,
    "materials_complete": _with_ground,
}


def _contradicts(own: Any, value: Any) -> bool:  # noqa: ANN401 - any fact
    """Whether a line says otherwise than its entry, or less in a list that it states itself.

    What only the line says (how a material meets the chemicals) is no dispute.
    """
    if isinstance(own, tuple) and isinstance(value, tuple):
        if not (own and value and isinstance(value[0], MaterialUse | Evidence)):
            return set(own) != set(value)
        if len(own) != len(value):
            return True
        theirs = sorted(value, key=_identity)
        return any(map(_contradicts, sorted(own, key=_identity), theirs))
    if isinstance(own, Evidence) and isinstance(value, Evidence):
        own, value = _unmet(own), _unmet(value)
    if isinstance(own, Complete) and isinstance(value, Complete):
        return own.complete != value.complete
    if isinstance(own, Frozen) and type(own) is type(value):
        pairs = ((getattr(own, n), getattr(value, n)) for n in own.__struct_fields__)
        return any(_differ(mine, theirs) for mine, theirs in pairs if theirs is not None)
    return bool(own != value)


def _differ(mine: object, theirs: object) -> bool:
    """Whether two values of a fact differ; lists by what is in them, in any order."""
    if isinstance(mine, tuple) and isinstance(theirs, tuple):
        return set(mine) != set(theirs)
    return mine != theirs


def _unmet(document: Evidence) -> Evidence:
    """The document with the texts of its conditions alone: how they are met is the line's."""
    conditions = document.conditions
    bare = None if conditions is None else tuple(Condition(each.text) for each in conditions)
    return replace(document, conditions=bare)


def _identity(value: MaterialUse | Evidence) -> tuple[str, ...]:
    """By what an entry of a list is compared with that of another."""
    if isinstance(value, MaterialUse):
        return (value.component or "", value.material)
    return (value.type.value, value.number or "")


def _shown(source: SourceFile, path: Path) -> str:
    """What is written at a path, in one line."""
    value: Any = source.document.root
    for step in path:
        value = value[step]
    return brief(_flat(value))


def _flat(value: object) -> str:
    if isinstance(value, dict):
        return "{" + ", ".join(f"{key}: {_flat(each)}" for key, each in value.items()) + "}"
    if isinstance(value, list):
        return "; ".join(map(_flat, value))
    return "none" if value is None else str(value)


def lifted(stated: Any, fact: str = "part") -> Any:  # noqa: ANN401 - as written
    """What the entry of a bought part may hold of a line as written, or of a value of it.

    None where that is nothing: how a material meets the chemicals, how a condition is met.
    """
    if isinstance(stated, list):
        inner = (lifted(each, fact) for each in stated)
        return [each for each in inner if each is not None] or None
    if not isinstance(stated, dict):
        return stated
    if stated.get("type") == EvidenceType.REPAIR_RECORD.value:
        return None
    found = {}
    for key, value in stated.items():
        own = _row_of(f"{fact}.{key}")
        if own is None or barred(own):
            continue
        if own == "part.materials.exposure" and (value != "enclosed" or "component" not in stated):
            continue
        kept = value if own == "part.materials.composition" else lifted(value, own)
        if kept is not None:
            found[key] = kept
    return found or None


@cache
def _row_of(fact: str) -> str | None:
    """The row of a key in the table of facts, by whichever name it is written."""
    if fact in facts():
        return fact
    prefix, _, key = fact.rpartition(".")
    rows = (row for row in facts() if row.rpartition(".")[0] == prefix)
    return next((row for row in rows if key in facts()[row].also), None)
