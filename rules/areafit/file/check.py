"""The outermost keys of a list, each held against its model; what is wrong is noted."""

from typing import cast

from areafit.facts.protection import Law
from areafit.file.limits import PARTS
from areafit.file.mistakes import Mistakes
from areafit.file.model.loop import LoopModel
from areafit.file.model.mistake import Mistake
from areafit.file.model.part import PartModel
from areafit.file.model.place import LocationModel
from areafit.file.model.words import read_law
from areafit.file.positions import Items, Map
from areafit.file.source import Source, open_source


def open_bom(data: bytes, name: str, mistakes: Mistakes) -> Source:
    """Parse a file and see that it is a bill of materials.

    Raises:
        InputErrors: it is none. Another format is noted by the model of the list, and the rest
            read as this one, so that its mistakes are told too.
    """
    bom = open_source(data, name, mistakes)
    root, position = bom.document.root, bom.document.at
    if not isinstance(root, Map):
        mistakes.fatal(position(()), "this is no bill of materials", "start with `areafit: 1`")
    if "areafit" not in root and "areafit-areas" in root:
        message = "this is a shared file of places, no bill of materials"
        mistakes.fatal(position(()), message, "check the list that names it in `areas:`")
    return bom


def law_of(bom: Source, site: Source | None) -> Law | None:
    """The `code` of the list or of its shared file; None where there is none, which is noted."""
    source = bom if site is None or "code" in bom.document.root else site
    stated = source.document.root.get("code")
    if stated is None and not _awaits(bom, site):
        bom.note((), "a bill of materials without `code`", "add `code:` with NEC, IEC or ATEX")
    if not isinstance(stated, str):
        return None
    try:
        return cast("Law", read_law(stated))
    except Mistake:  # noted by the model, which reads it the same way
        return None


def check_locations(bom: Source, site: Source | None) -> dict[str, LocationModel | None]:
    """The places by name, None for one that holds mistakes."""
    source = bom if site is None or "locations" in bom.document.root else site
    written = source.document.root.get("locations")
    if isinstance(written, Map) and written:
        return {
            name: source.check(LocationModel, {} if value is None else value, "locations", name)
            for name, value in written.items()
        }
    if not _awaits(bom, site):
        _nothing_in(
            source, "locations", "a name for each place where parts stand, its facts below that"
        )
    return {}


def check_parts(bom: Source) -> list[PartModel | None]:
    """The lines, None for one that holds mistakes."""
    written = bom.document.root.get("parts")
    if not isinstance(written, Items) or not written:
        _nothing_in(bom, "parts", "a list, each line starting with `- item:`")
        return []
    if len(written) > PARTS:
        bom.note(("parts", PARTS), f"more than {PARTS} parts", "split the list into several files")
        return []
    return [bom.check(PartModel, value, "parts", i) for i, value in enumerate(written)]


def check_loops(bom: Source) -> list[LoopModel | None]:
    """The loops, None for one that holds mistakes."""
    written = bom.document.root.get("loops")
    if written is None or written == "none":
        return []
    if not isinstance(written, Items):
        bom.note(("loops",), "`loops` is no list", "write each loop below it, with `- name:`")
        return []
    return [bom.check(LoopModel, value, "loops", i) for i, value in enumerate(written)]


def _nothing_in(source: Source, key: str, belongs: str) -> None:
    """Note that a key is not written, or that what belongs below it is not."""
    if key in source.document.root:
        source.note((key,), f"nothing can be read in `{key}`", f"write below it {belongs}")
    else:
        source.note((key,), f"no `{key}`", f"add `{key}:` and below it {belongs}")


def _awaits(bom: Source, site: Source | None) -> bool:
    """Whether a shared file is named that could not be used, which is noted already."""
    return site is None and bom.document.root.get("areas") is not None
