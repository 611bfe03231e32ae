"""`read`: the bytes of a bill of materials become facts, or one report of all its errors."""

import posixpath
from collections.abc import Callable
from functools import lru_cache

from areafit.errors import Collector, InputError, InputErrors, brief
from areafit.facts.bom import Bom
from areafit.facts.protection import Law
from areafit.file.build import Builder, build_loop, loop_items
from areafit.file.fields import word
from areafit.file.model import (
    HeaderModel,
    LocationModel,
    LoopModel,
    SiteHeaderModel,
    spellings,
)
from areafit.file.part_model import PartModel
from areafit.file.positions import Items, Locator, Map
from areafit.file.references import check_references, number_items, standings
from areafit.file.source import SourceFile, open_source

PARTS = 200_000
Fetch = Callable[[str], bytes]


def read(data: bytes, name: str, fetch: Fetch | None = None) -> Bom:
    """Read a bill of materials in the format of the README; quantities are kept in SI units and °C.

    Args:
        data: the file, in UTF-8 or in UTF-16 with a byte-order mark.
        name: what positions call it.
        fetch: gives the bytes of a file that `areas:` names, relative to this one, or raises
            OSError or ValueError; None where no other file may be read.

    Raises:
        InputErrors: the list cannot be used; all errors that could be found are in it.

    >>> read(b"areafit: 1", "list.yaml")
    Traceback (most recent call last):
    areafit.errors.InputErrors: list.yaml:1:1: a bill of materials without `assembly`; ...
    """
    errors = Collector()
    source = _open_list(data, name, errors)
    header = source.check(HeaderModel, source.document.root)
    site = _open_site(source, fetch)
    law = _law(source, site)
    locations = _locations(source, site)
    parts = _parts(source)
    loops = _loops(source)
    items = number_items(source)
    check_references(source, locations, items)
    standing = standings(source, parts, items)
    if errors or header is None or law is None:
        raise errors.all()
    shared = {
        key: site.document
        for key in ("code", "locations")
        if site is not None and key not in source.document.root
    }
    builder = Builder(law, header.edition, loop_items(loops))
    lines = tuple(
        builder.part(i, part, place)
        for i, (part, place) in enumerate(zip(parts, standing, strict=True))
        if part is not None
    )
    places_of = {line.item: line.locations for line in lines}
    return Bom(
        name=name,
        assembly=header.assembly,  # type: ignore[arg-type]  # `Becomes` has made the fact
        law=law,
        places={key: builder.place(key, model) for key, model in locations.items() if model},
        parts=lines,
        loops=tuple(build_loop(i, loop, places_of) for i, loop in enumerate(loops) if loop),
        edition=header.edition,
        jurisdiction=header.jurisdiction,
        locate=lru_cache(maxsize=256)(Locator(source.document, shared, spellings())),
    )


def _open_list(data: bytes, name: str, errors: Collector) -> SourceFile:
    """Parse a file and see that it is a bill of materials.

    Raises:
        InputErrors: it is none. Another format is noted by the model of the list, and the rest
            read as this one, so that its errors are told too.
    """
    bom = open_source(data, name, errors)
    root, position = bom.document.root, bom.document.at
    if not isinstance(root, Map):
        errors.fatal(position(()), "this is no bill of materials", "start with `areafit: 1`")
    if "areafit" not in root and "areafit-areas" in root:
        message = "this is a shared file of places, no bill of materials"
        errors.fatal(position(()), message, "check the list that names it in `areas:`")
    return bom


def _law(bom: SourceFile, site: SourceFile | None) -> Law | None:
    """The `code` of the list or of its shared file; None where there is none, which is noted."""
    source = bom if site is None or "code" in bom.document.root else site
    stated = source.document.root.get("code")
    if stated is None and not _awaits(bom, site):
        bom.note((), "a bill of materials without `code`", "add `code:` with NEC, IEC or ATEX")
    if not isinstance(stated, str):
        return None
    try:
        return word(Law, stated)
    except InputError:  # noted by the model, which reads it the same way
        return None


def _locations(bom: SourceFile, site: SourceFile | None) -> dict[str, LocationModel | None]:
    """The places by name, None for one that holds errors."""
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


def _parts(bom: SourceFile) -> list[PartModel | None]:
    """The lines, None for one that holds errors."""
    written = bom.document.root.get("parts")
    if not isinstance(written, Items) or not written:
        _nothing_in(bom, "parts", "a list, each line starting with `- item:`")
        return []
    if len(written) > PARTS:
        bom.note(("parts", PARTS), f"more than {PARTS} parts", "split the list into several files")
        return []
    return [bom.check(PartModel, value, "parts", i) for i, value in enumerate(written)]


def _loops(bom: SourceFile) -> list[LoopModel | None]:
    """The loops, None for one that holds errors."""
    written = bom.document.root.get("loops")
    if written is None or written == "none":
        return []
    if not isinstance(written, Items):
        bom.note(("loops",), "`loops` is no list", "write each loop below it, with `- name:`")
        return []
    return [bom.check(LoopModel, value, "loops", i) for i, value in enumerate(written)]


def _nothing_in(source: SourceFile, key: str, belongs: str) -> None:
    """Note that a key is not written, or that what belongs below it is not."""
    if key in source.document.root:
        source.note((key,), f"nothing can be read in `{key}`", f"write below it {belongs}")
    else:
        source.note((key,), f"no `{key}`", f"add `{key}:` and below it {belongs}")


def _awaits(bom: SourceFile, site: SourceFile | None) -> bool:
    """Whether a shared file is named that could not be used, which is noted already."""
    return site is None and bom.document.root.get("areas") is not None


def _open_site(bom: SourceFile, fetch: Fetch | None) -> SourceFile | None:
    """The shared file that a list names, or None where it cannot be used: that is noted."""
    relative = bom.document.root.get("areas")
    if not isinstance(relative, str):
        return None  # none named, or noted by the model of the list
    if fetch is None:
        bom.note(("areas",), "no other file can be read here", "write the locations into this list")
        return None
    try:
        data = fetch(relative)
    except (OSError, ValueError) as error:
        bom.note(
            ("areas",),
            f"the shared file '{brief(relative)}' cannot be used: {brief(str(error))}",
            "name a file below this list's folder or repository, with / between folders",
        )
        return None
    return _parsed(bom, relative, data)


def _parsed(bom: SourceFile, relative: str, data: bytes) -> SourceFile | None:
    name = posixpath.normpath(posixpath.join(posixpath.dirname(bom.document.name), relative))
    try:
        site = open_source(data, name, bom.errors)
    except InputErrors:
        return None  # noted; the list itself is still looked at
    if not isinstance(site.document.root, Map):
        site.note((), "this is no shared file of places", "start it with `areafit-areas: 1`")
        return None
    site.check(SiteHeaderModel, site.document.root)
    for key in ("code", "locations"):
        if key in site.document.root and key in bom.document.root:
            bom.note_key(
                (key,),
                f"`{key}` is stated here and in {name}",
                "keep one of the two; a list cannot override its shared file",
            )
    return site
