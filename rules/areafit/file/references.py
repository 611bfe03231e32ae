"""What one line takes from another: names that must lead somewhere, and where a part stands.

Names are looked up in the list as written, so that a line with other errors is checked too.
"""

from collections.abc import Collection, Iterator, Mapping, Sequence
from typing import Any, TypeVar, cast

from areafit.errors import InputError, brief, suggestion
from areafit.facts.bom import Statement
from areafit.facts.part import Exposure
from areafit.file.notes import Notes
from areafit.file.part_model import PartModel
from areafit.file.positions import Items, Map
from areafit.file.source import Path, SourceFile
from areafit.values import Frozen, replace

T = TypeVar("T")


class Standing(Frozen):
    """The locations and the exposure of a part.

    Its own word comes first, then that of its parents, then that of the nearest note; what a note
    says of a parent holds for its parts if nothing nearer does. `stated_…` is what lines say,
    `said` who says the rest.
    """

    locations: tuple[str, ...]
    exposure: Exposure | None
    stated_locations: tuple[str, ...] = ()
    stated_exposure: Exposure | None = None
    said: tuple[Statement, ...] = ()


_UNSTATED = Standing((), None)
_UNKNOWN = Standing(("?",), None, ("?",))  # errors further up, noted already, decide it


def number_items(bom: SourceFile) -> dict[str, int]:
    """The index of each item; repeated ones are noted."""
    items: dict[str, int] = {}
    for i, line in _mappings(bom.document.root.get("parts")):
        item = _text(line.get("item"))
        if item is not None and items.setdefault(item, i) != i:
            first = bom.document.at(("parts", items[item], "item")).line
            message = f"the item `{brief(item)}` is listed twice, first on line {first}"
            bom.note(("parts", i, "item"), message, "give each line an item of its own")
    return items


def check_references(bom: SourceFile, places: Collection[str], items: Collection[str]) -> None:
    """Note every name of a location or an item that leads nowhere, and repeated loop names."""
    root = bom.document.root
    for i, part in _mappings(root.get("parts")):
        path: Path = ("parts", i)
        _check_line(bom, part, path, places, items)
        _check_item(bom, part, "parent", path, items)
        _check_item(bom, part, "inside", path, items)
        _check_place(bom, part.get("process_side"), (*path, "process_side"), places)
        for j, alternate in _mappings(part.get("alternates")):
            _check_line(bom, alternate, (*path, "alternates", j), places, items)
    _check_enclosures(bom, items)
    names: set[str] = set()
    for i, loop in _mappings(root.get("loops")):
        _check_loop(bom, loop, ("loops", i), items)
        _check_places(bom, loop, ("loops", i), places)
        name = _text(loop.get("name"))
        if name is not None and name in names:
            message = f"two loops are named `{brief(name)}`"
            bom.note(("loops", i, "name"), message, "give each loop a name of its own")
        names.add(name or "")


def standings(
    bom: SourceFile,
    parts: Sequence[PartModel | None],
    items: Mapping[str, int],
    notes: Notes,
    unknown: Sequence[frozenset[str]],
) -> list[Standing]:
    """Where each line stands; parents in a circle and parts without a location are noted."""
    found: dict[int, Standing] = {}
    for i in range(len(parts)):
        chain, above = _upwards(bom, parts, items, i, found)
        for j in reversed(chain):
            above = found[j] = _joined(bom, parts[j], j, above, notes, unknown[j])
    return [found[i] for i in range(len(parts))]


def _check_line(
    bom: SourceFile, line: Map, path: Path, places: Collection[str], items: Collection[str]
) -> None:
    _check_places(bom, line, path, places)
    for k, contact in _mappings(line.get("contacts")):
        _check_item(bom, contact, "with", (*path, "contacts", k), items)


def _check_places(bom: SourceFile, holder: Map, path: Path, places: Collection[str]) -> None:
    written = holder.get("location")
    names = written if isinstance(written, Items) else (written,)
    for k, name in enumerate(names):
        _check_place(bom, name, (*path, "location", k), places)


def _check_place(bom: SourceFile, written: object, path: Path, places: Collection[str]) -> None:
    name = _text(written)
    if name is not None and places and name not in places:
        message = f"`{brief(name)}` is none of the `locations`"
        bom.note(path, message, suggestion(name, places))


def _check_loop(bom: SourceFile, loop: Map, path: Path, items: Collection[str]) -> None:
    if isinstance(source := loop.get("source"), Map):
        _check_item(bom, source, "item", (*path, "source"), items)
    for key in ("sources", "devices"):
        for k, end in _mappings(loop.get(key)):
            _check_item(bom, end, "item", (*path, key, k), items)


def _check_enclosures(bom: SourceFile, items: Collection[str]) -> None:
    """Note every part that stands, over the enclosures named, inside itself."""
    lines = [(i, p) for i, p in _mappings(bom.document.root.get("parts")) if "inside" in p]
    around = {_text(part.get("item")): _text(part.get("inside")) for _, part in lines}
    for i, part in lines:
        own = _text(part.get("item"))
        seen: set[str] = set()
        here = around.get(own)
        while here is not None and here in items and here not in seen:
            seen.add(here)
            here = around.get(here)
        if own in seen:
            message = "this part stands, over the enclosures named, inside itself"
            bom.note(("parts", i, "inside"), message, "correct one of the `inside` keys")


def _check_item(bom: SourceFile, holder: Map, key: str, path: Path, items: Collection[str]) -> None:
    item = _text(holder.get(key))
    if item is not None and item not in items:
        message = f"no part has the item `{brief(item)}`"
        bom.note((*path, key), message, suggestion(item, items))


def _mappings(value: Any) -> Iterator[tuple[int, Map]]:  # noqa: ANN401 - anything may be written
    """The mappings among the entries of a list; other entries are noted by the models."""
    if isinstance(value, Items):
        yield from ((i, entry) for i, entry in enumerate(value) if isinstance(entry, Map))


def _text(value: object) -> str | None:
    return value.strip() if isinstance(value, str) else None


def _upwards(
    bom: SourceFile,
    parts: Sequence[PartModel | None],
    items: Mapping[str, int],
    start: int,
    found: Mapping[int, Standing],
) -> tuple[list[int], Standing]:
    """The line and its parents up to one already known, and what that one says."""
    chain: dict[int, None] = {}
    here = start
    while here not in found:
        if here in chain:
            message = "this part is, over its parents, its own parent"
            bom.note(("parts", here, "parent"), message, "correct one of the `parent` keys")
            return list(chain), _UNKNOWN
        chain[here] = None
        part = parts[here]
        if part is None:
            return list(chain), _UNKNOWN
        if part.parent is None:
            return list(chain), _UNSTATED
        if part.parent not in items:
            return list(chain), _UNKNOWN
        here = items[part.parent]
    return list(chain), found[here]


def _joined(  # noqa: PLR0913, PLR0917 - a line, what is above it, and what may speak for it
    bom: SourceFile,
    part: PartModel | None,
    index: int,
    above: Standing,
    notes: Notes,
    unknown: frozenset[str],
) -> Standing:
    if part is None:
        return _UNKNOWN
    if "exposure" in unknown:  # nor do its parents say it then
        above = replace(above, exposure=None, stated_exposure=None)
    stated = part.locations or above.stated_locations
    said: list[Statement] = []

    def noted(name: str, key: str, locations: Sequence[str], inherited: T | None) -> T | None:
        found = notes.fact(name, part, locations) if notes and key not in unknown else None
        if found is None:
            said.extend(one for one in above.said if inherited and one.path == key)
            return inherited
        said.append(notes.stating(found[1], key))
        return cast("T", found[0])

    try:
        locations = stated or noted("locations", "location", (), above.locations) or ()
        exposure = part.exposure or above.stated_exposure
        exposure_here = exposure or noted("exposure", "exposure", locations, above.exposure)
    except InputError as error:
        bom.errors.add(error.position, error.message, error.remedy)
        return _UNKNOWN
    if locations:
        return Standing(locations, exposure_here, stated, exposure, tuple(said))
    remedy = "add `location:` with one of `locations`, or a `parent:` that has one"
    bom.note(("parts", index), "a part without `location`", remedy)
    return _UNKNOWN
