"""The shared file of places that several machines of a site name in `areas:`."""

import posixpath
from collections.abc import Callable

from areafit.errors import InputErrors
from areafit.file.model.bom import SiteHeaderModel
from areafit.file.positions import Map
from areafit.file.source import Source, open_source
from areafit.file.wording import brief

Fetch = Callable[[str], bytes]


def open_site(bom: Source, fetch: Fetch | None) -> Source | None:
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


def _parsed(bom: Source, relative: str, data: bytes) -> Source | None:
    name = posixpath.normpath(posixpath.join(posixpath.dirname(bom.document.name), relative))
    try:
        site = open_source(data, name, bom.mistakes)
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
