"""Names that lead from one place of a list to another: to locations and to items."""

from collections.abc import Collection, Sequence

from areafit.file.complaints import Path
from areafit.file.model.loop import LoopModel
from areafit.file.model.part import AlternateModel, PartModel
from areafit.file.positions import Map
from areafit.file.source import Source
from areafit.file.wording import brief, suggestion


def number_items(bom: Source, count: int) -> dict[str, int]:
    """The index of each item, those of lines with mistakes too; repeated ones are noted."""
    items: dict[str, int] = {}
    for i in range(count):
        line = bom.document.root["parts"][i]
        written = line.get("item") if isinstance(line, Map) else None
        if isinstance(written, str) and items.setdefault(written.strip(), i) != i:
            item = written.strip()
            first = bom.document.at(("parts", items[item], "item")).line
            message = f"the item `{brief(item)}` is listed twice, first on line {first}"
            bom.note(("parts", i, "item"), message, "give each line an item of its own")
    return items


def check_references(
    bom: Source,
    parts: Sequence[PartModel | None],
    loops: Sequence[LoopModel | None],
    places: Collection[str],
    items: Collection[str],
) -> None:
    """Note every name of a location or item that leads nowhere."""
    check = _Check(bom, places, items)
    for i, part in enumerate(parts):
        if part is not None:
            check.part(part, ("parts", i))
    for i, loop in enumerate(loops):
        if loop is not None:
            check.loop(loop, ("loops", i))


class _Check:
    def __init__(self, bom: Source, places: Collection[str], items: Collection[str]) -> None:
        self._bom = bom
        self._places = places
        self._items = items
        self._loops: set[str] = set()

    def part(self, part: PartModel, path: Path) -> None:
        self._line(part, path)
        for j, alternate in enumerate(part.alternates or ()):
            self._line(alternate, (*path, "alternates", j))
        if part.parent is not None:
            self._item(part.parent, (*path, "parent"))

    def loop(self, loop: LoopModel, path: Path) -> None:
        if loop.name in self._loops:
            message = f"two loops are named `{brief(loop.name)}`"
            self._bom.note((*path, "name"), message, "give each loop a name of its own")
        self._loops.add(loop.name)
        if loop.source is not None:
            self._item(loop.source.item, (*path, "source", "item"))
        for k, source in enumerate(loop.sources or ()):
            self._item(source.item, (*path, "sources", k, "item"))
        for k, device in enumerate(loop.devices):
            self._item(device.item, (*path, "devices", k, "item"))

    def _line(self, line: PartModel | AlternateModel, path: Path) -> None:
        for k, name in enumerate(line.locations or ()):
            if self._places and name not in self._places:
                message = f"`{brief(name)}` is none of the `locations`"
                remedy = suggestion(name, self._places)
                self._bom.note((*path, "location", k), message, remedy)
        for k, contact in enumerate(line.contacts or ()):
            self._item(contact.item, (*path, "contacts", k, "with"))

    def _item(self, item: str, path: Path) -> None:
        if item not in self._items:
            message = f"no part has the item `{brief(item)}`"
            self._bom.note(path, message, suggestion(item, self._items))
