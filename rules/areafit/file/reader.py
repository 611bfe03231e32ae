"""`read`: the bytes of a bill of materials become facts, or one report of all its mistakes."""

from functools import lru_cache

from areafit.facts.bom import Bom
from areafit.file.build import Builder, build_loop, loop_items
from areafit.file.check import check_locations, check_loops, check_parts, law_of, open_bom
from areafit.file.mistakes import Mistakes
from areafit.file.model.bom import HeaderModel
from areafit.file.model.spellings import spellings
from areafit.file.positions import Locator
from areafit.file.references import check_references, number_items
from areafit.file.site import Fetch, open_site
from areafit.file.standing import standings


def read(data: bytes, name: str, fetch: Fetch | None = None) -> Bom:
    """Read a bill of materials in the format of the README; quantities are kept in SI units and °C.

    Args:
        data: the file, in UTF-8 or in UTF-16 with a byte-order mark.
        name: what positions call it.
        fetch: gives the bytes of a file that `areas:` names, relative to this one, or raises
            OSError or ValueError; None where no other file may be read.

    Raises:
        InputErrors: the list cannot be used; all mistakes that could be found are in it.

    >>> read(b"areafit: 1", "list.yaml")
    Traceback (most recent call last):
    areafit.errors.InputErrors: list.yaml:1:1: a bill of materials without `assembly`; ...
    """
    mistakes = Mistakes()
    source = open_bom(data, name, mistakes)
    header = source.check(HeaderModel, source.document.root)
    site = open_site(source, fetch)
    law = law_of(source, site)
    locations = check_locations(source, site)
    parts = check_parts(source)
    loops = check_loops(source)
    items = number_items(source)
    check_references(source, locations, items)
    standing = standings(source, parts, items)
    if mistakes or header is None or law is None:
        raise mistakes.all()
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
        assembly=header.assembly,  # type: ignore[arg-type]  # `Fact` has made the fact
        law=law,
        places={key: builder.place(key, model) for key, model in locations.items() if model},
        parts=lines,
        loops=tuple(build_loop(i, loop, places_of) for i, loop in enumerate(loops) if loop),
        edition=header.edition,
        jurisdiction=header.jurisdiction,
        locate=lru_cache(maxsize=256)(Locator(source.document, shared, spellings())),
    )
