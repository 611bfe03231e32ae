"""What a line takes of the library's entry of its part number, and where the two differ.

A line takes what it does not state; lists whole or not at all, but that it may say which material
it ordered otherwise and how the conditions of a document are met.
"""

from collections.abc import Callable, Mapping
from typing import Any

from areafit.errors import brief
from areafit.facts.bom import StatedAt, Statement
from areafit.facts.evidence import Condition, Evidence
from areafit.facts.part import Disagreement, Kind, MaterialUse
from areafit.file.library import Entry, EntryModel, Library, reads_as_number
from areafit.file.part_model import AlternateModel, LineModel, PartModel
from areafit.file.source import Path, SourceFile
from areafit.values import Frozen, replace

DESCRIPTIVE = frozenset({"description", "unit_cost", "maker", "maker_number", "vendor", "note"})
"""Keys that decide nothing: a line may state them otherwise than its entry."""
_KEYS = {name: keys[0] for name, keys in EntryModel.keys().items()}


class Lent(Frozen, eq=False):
    """A line with what it takes of its entry, who says so, and where the two differ."""

    line: PartModel
    statements: tuple[Statement, ...] = ()
    disagreements: tuple[Disagreement, ...] = ()
    remarks: tuple[str, ...] = ()


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
        tuple(said for one in every for said in one.statements),
        tuple(each for one in every for each in one.disagreements),
        tuple(each for one in every for each in one.remarks),
    )


class _Taken(Frozen, eq=False, kw_only=True):
    line: Any
    statements: tuple[Statement, ...] = ()
    disagreements: tuple[Disagreement, ...] = ()
    remarks: tuple[str, ...] = ()


def _lent(
    bom: SourceFile, library: Library, line: LineModel, path: Path, unknown: frozenset[str]
) -> _Taken:
    number = line.part_number
    if number is None:
        return _without(bom, line, path)
    remarks = []
    spot = bom.document.at((*path, "part_number"))
    if reads_as_number(number) and bom.text_at(spot.line, spot.column)[:1] not in ("'", '"'):
        remarks.append(
            f"{spot}: the part number {brief(number)} is read as written; quote it, since other "
            "programs read it as a number"
        )
    entry = library.find(number)
    if entry is None:
        alike = library.alike(number)
        if alike:
            remarks.append(
                f"{spot}: {brief(number)} has no entry in the library; {brief(alike)} differs in "
                "case, dashes or look-alike letters only"
            )
        return replace(_without(bom, line, path), remarks=tuple(remarks))
    maker = entry.values.get("maker")
    if None not in (line.maker, maker) and line.maker != maker:
        remarks.append(
            f"{spot}: nothing is taken of the library, whose {brief(number)} is made by "
            f"{brief(str(maker))} and not by {brief(str(line.maker))}"
        )
        return replace(_without(bom, line, path), remarks=tuple(remarks))
    return replace(_joined(bom, line, entry, path, unknown), remarks=tuple(remarks))


def _without(bom: SourceFile, line: LineModel, path: Path) -> _Taken:
    """A line without an entry: nothing there could be replaced."""
    for i, use in enumerate(line.materials or ()):
        if use.instead is not None:
            message = "`instead` of a component, and the library has no entry for this part"
            remedy = "list every material of the part, or add its entry to the library"
            bom.note((*path, "materials", i, "instead"), message, remedy)
    return _Taken(line=line)


def _joined(
    bom: SourceFile, line: LineModel, entry: Entry, path: Path, unknown: frozenset[str]
) -> _Taken:
    taken: dict[str, Any] = {}
    said: list[str] = []
    differ: list[Disagreement] = []
    for name, value in entry.values.items():
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
            said.append(key)
        elif name not in DESCRIPTIVE and _contradicts(own, value):
            differ.append(
                Disagreement(
                    "/".join(map(str, path)),
                    key,
                    _shown(bom, (*path, key)),
                    _shown(entry.source, (*entry.path, key)),
                )
            )
    prefix = "/".join(map(str, path))
    position = entry.source.document.key_at(entry.path)
    paths = [f"{prefix}/{key}" for key in said]
    for name in ("materials", "evidence"):
        if name in taken:
            paths += [f"{prefix}/{name}/{i}" for i in range(len(taken[name]))]
    statements = tuple(
        Statement(one, StatedAt.LIBRARY, entry.document, entry.role, position) for one in paths
    )
    joined = line.model_copy(update=taken) if taken else line
    return _Taken(line=joined, statements=statements, disagreements=tuple(differ))


def _as_stated(bom: SourceFile, own: Any, value: Any, path: Path) -> Any:  # noqa: ANN401
    del bom, value, path
    return own


def _with_replaced(
    bom: SourceFile,
    own: tuple[MaterialUse, ...],
    delivered: tuple[MaterialUse, ...],
    path: Path,
) -> tuple[MaterialUse, ...]:
    """The materials as delivered, those replaced that the line says were ordered otherwise."""
    if not any(use.instead is not None for use in own):
        return own
    found = list(delivered)
    for i, use in enumerate(own):
        places = [k for k, each in enumerate(delivered) if each.component == use.instead]
        if use.instead is None or use.document is None:
            message = "some materials replace those of the library, and others do not say which"
            bom.note(
                (*path, i), message, "state `instead` and `document` of each, or list them all"
            )
        elif not places:
            known = ", ".join(brief(each.component) for each in delivered if each.component)
            message = f"the library knows no component `{brief(use.instead)}` of this part"
            bom.note((*path, i, "instead"), message, f"name one of: {known}")
        else:
            component = use.component or use.instead
            found[places[0]] = replace(use, component=component, instead=None, document=None)
            for more in places[1:]:
                found[more] = found[places[0]]
    return tuple(dict.fromkeys(found))


def _with_conditions(
    bom: SourceFile, own: tuple[Evidence, ...], delivered: tuple[Evidence, ...], path: Path
) -> tuple[Evidence, ...]:
    """The documents of the library with what the line says of how their conditions are met.

    A line that names no other document and says nothing else of them completes them.
    """
    del bom, path
    by_name = {(each.type, each.number): each for each in delivered}
    for document in own:
        known = by_name.get((document.type, document.number))
        bare = replace(document, conditions=None)
        if known is None or bare != Evidence(document.type, document.number):
            return own
        by_name[document.type, document.number] = replace(
            known, conditions=_met(document.conditions, known.conditions)
        )
    return tuple(by_name.values())


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
}


def _contradicts(own: Any, value: Any) -> bool:  # noqa: ANN401 - any fact
    """Whether a line says otherwise than its entry; what only one of them says is no dispute."""
    if isinstance(own, tuple) and isinstance(value, tuple) and own and value:
        if not isinstance(own[0], MaterialUse | Evidence):
            return set(own) != set(value)
        left, right = _by_identity(own), _by_identity(value)
        return left.keys() != right.keys() or any(
            _contradicts(left[key], right[key]) for key in left
        )
    if isinstance(own, Evidence) and isinstance(value, Evidence):
        own, value = replace(own, conditions=None), replace(value, conditions=None)
    if isinstance(own, Frozen) and type(own) is type(value):
        pairs = ((getattr(own, n), getattr(value, n)) for n in own.__struct_fields__)
        return any(a != b for a, b in pairs if a is not None and b is not None)
    return bool(own != value)


def _by_identity(found: tuple[Any, ...]) -> Mapping[object, Any]:
    if isinstance(found[0], MaterialUse):
        return {(each.material, each.component): each for each in found}
    return {(each.type, each.number): each for each in found}


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
