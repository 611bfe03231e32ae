"""`read`: the bytes of a bill of materials become facts, or one report of all its errors."""

import posixpath
from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import lru_cache

from areafit.errors import Collector, InputError, InputErrors, brief
from areafit.facts.bom import Bom, StatedAt, Statement
from areafit.facts.part import Kind, Part
from areafit.facts.protection import Law
from areafit.file.answered import see_answers, see_entry_answers, with_answers
from areafit.file.bought import Lent, lent
from areafit.file.build import Builder, absent, build_loop, loop_items
from areafit.file.facts import facts
from areafit.file.fields import word
from areafit.file.library import Library, open_library
from areafit.file.model import (
    HeaderModel,
    LocationModel,
    LoopModel,
    SiteHeaderModel,
    spellings,
)
from areafit.file.notes import NOTHING, Note, NotedFacts, Notes, read_notes, taken, without_unknown
from areafit.file.part_model import AlternateModel, PartModel
from areafit.file.positions import Items, Locator, Map
from areafit.file.references import Standing, check_references, number_items, standings
from areafit.file.source import SourceFile, open_source
from areafit.values import replace

PARTS = 200_000
Fetch = Callable[[str], bytes]
Folder = Callable[[str], Sequence[str] | None]


def read(data: bytes, name: str, fetch: Fetch | None = None, folder: Folder | None = None) -> Bom:
    """Read a bill of materials in the format of the README; quantities are kept in SI units and °C.

    Args:
        data: the file, in UTF-8 or in UTF-16 with a byte-order mark.
        name: what positions call it.
        fetch: gives the bytes of a file that `areas:` names, relative to this one, or raises
            OSError or ValueError; None where no other file may be read.
        folder: gives the names of the YAML files in a folder that `library:` names, relative to
            this file, in order; None where it is no folder.

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
    lines, unknown = _parts(source)
    loops = _loops(source)
    items = number_items(source)
    check_references(source, locations, items)
    told = len(source.errors)
    library = _library(source, site, fetch, folder)
    whole = len(source.errors) == told
    borrowed = [
        lent(source, library, line, i, unknown[i]) if line is not None else None
        for i, line in enumerate(lines)
    ]
    written, lines = lines, [one.line if one is not None else None for one in borrowed]
    for i, line in enumerate(written):
        if line is not None:
            see_answers(source, line, i)
    see_entry_answers(library)
    _check_origins(source, lines, borrowed, whole=whole)
    notes = _notes(source, site, header, locations)
    standing = standings(source, lines, items, notes, unknown)
    noted = [
        _taken(source, notes, line, unknown[i], standing[i].locations)
        for i, line in enumerate(lines)
    ]
    if errors or header is None or law is None:
        raise errors.all()
    shared = {
        key: site.document
        for key in ("code", "locations")
        if site is not None and key not in source.document.root
    }
    builder = Builder(law, header.edition, loop_items(loops))

    def otherwise(
        aside: SourceFile, i: int, line: PartModel, open_: frozenset[str], having: Library
    ) -> Part | None:
        one = lent(aside, having, line, i, open_)
        more = _taken(aside, notes, one.line, open_, standing[i].locations)
        place = standing[i]
        if one.line.exposure is not None:
            place = replace(place, exposure=one.line.exposure)
        return builder.part(i, one.line, place, more, one.disagreements)

    parts = tuple(
        with_answers(
            source,
            builder.part(i, line, place, more, one.disagreements),
            written[i],
            i,
            library,
            otherwise,
        )
        for i, (line, place, more, one) in enumerate(
            zip(lines, standing, noted, borrowed, strict=True)
        )
        if line is not None and one is not None
    )
    places_of = {part.item: part.locations for part in parts}
    return Bom(
        name=name,
        assembly=header.assembly,  # type: ignore[arg-type]  # `Becomes` has made the fact
        law=law,
        places={key: builder.place(key, model) for key, model in locations.items() if model},
        parts=parts,
        loops=tuple(build_loop(i, loop, places_of) for i, loop in enumerate(loops) if loop),
        edition=header.edition,
        jurisdiction=header.jurisdiction,
        locate=lru_cache(maxsize=256)(Locator(source.document, shared, spellings())),
        statements=_statements(written, standing, noted, borrowed) if notes or library else {},
        remarks=(
            *(remark for one in borrowed if one is not None for remark in one.remarks),
            *(
                f"{one.position}: no line takes anything from the note {one.document}"
                for one in notes.unused()
            ),
        ),
        library=library.use,
        gaps=dict(_gaps(lines)),
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
    if "areafit" not in root and "areafit-parts" in root:
        message = "this is a library of bought parts, no bill of materials"
        errors.fatal(position(()), message, "check the list that names it in `library:`")
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


def _notes(
    bom: SourceFile,
    site: SourceFile | None,
    header: HeaderModel | None,
    locations: Mapping[str, LocationModel | None],
) -> Notes:
    """All notes of a list, of its shared file and of the places."""
    placed = bom if site is None or "locations" in bom.document.root else site
    own = None if header is None else header.unless_stated
    shared: tuple[Note, ...] = ()
    if site is not None and site.document.root.get("unless_stated") is not None:
        model = site.check(SiteHeaderModel, site.document.root)
        if model is not None:
            shared = read_notes(
                site, model.unless_stated, ("unless_stated",), StatedAt.SHARED, locations
            )
    return Notes(
        {
            name: read_notes(
                placed,
                model.unless_stated,
                ("locations", name, "unless_stated"),
                StatedAt.LOCATION,
                locations,
            )
            for name, model in locations.items()
            if model is not None and model.unless_stated
        },
        read_notes(bom, own, ("unless_stated",), StatedAt.LIST, locations),
        shared,
    )


def _library(
    bom: SourceFile,
    site: SourceFile | None,
    fetch: Fetch | None,
    folder: Folder | None,
) -> Library:
    """The bought parts that the list and its shared file name."""
    found = Library((), bom.errors)
    for source in (bom, site):
        stated = None if source is None else source.document.root.get("library")
        if source is None or stated is None:
            continue
        # As it is written: other errors of the header must not hide the entries.
        several = stated if isinstance(stated, list) else [stated]
        named = [name for name in several if isinstance(name, str)]
        if fetch is None:
            remedy = "state the facts of bought parts on their lines"
            source.note(("library",), "no other file can be read here", remedy)
            continue

        def refuse(number: int, why: str, source: SourceFile = source) -> None:
            message = f"the library cannot be used: {why}"
            remedy = "name a file or folder below this file's folder or repository, with /"
            source.note(("library", number), message, remedy)

        home = posixpath.dirname(bom.document.name)
        base = posixpath.relpath(posixpath.dirname(source.document.name) or ".", home or ".")
        found = open_library(
            found,
            [name for name in named if isinstance(name, str)],
            base,
            home,
            fetch,
            folder,
            refuse,
        )
    return found


def _taken(
    bom: SourceFile,
    notes: Notes,
    line: PartModel | None,
    unknown: frozenset[str],
    locations: Sequence[str],
) -> NotedFacts:
    """What a line takes from notes; two that differ are noted."""
    if line is None or not notes:
        return NOTHING
    try:
        return taken(notes, line, unknown, locations)
    except InputError as error:
        bom.errors.add(error.position, error.message, error.remedy)
        return NOTHING


def _gaps(lines: Sequence[PartModel | None]) -> Iterator[tuple[str, tuple[int, ...]]]:
    """Where the materials of lines and alternates say what a part has not."""
    for i, line in enumerate(lines):
        for number, one in enumerate((line, *(line.alternates or ())) if line else ()):
            gaps = absent(one.materials)  # type: ignore[arg-type]  # `Becomes` has made facts
            if gaps:
                yield f"parts/{i}/alternates/{number - 1}" if number else f"parts/{i}", gaps


def _statements(
    written: Sequence[PartModel | None],
    standing: Sequence[Standing],
    noted: Sequence[NotedFacts],
    borrowed: Sequence[Lent | None],
) -> dict[str, tuple[Statement, ...]]:
    """Who states what of each line, and of its alternates where they do not say otherwise."""
    found: dict[str, tuple[Statement, ...]] = {}
    for i, (line, place, more, one) in enumerate(
        zip(written, standing, noted, borrowed, strict=True)
    ):
        if line is None or one is None:
            continue
        own = (*one.statements, *place.said, *more.statements, *_of_materials(one.line, place))
        if own:
            found[f"parts/{i}"] = own
        alternates = zip(one.line.alternates or (), one.of_alternates, strict=True)
        for number, (alternate, said) in enumerate(alternates):
            known = {each.path for each in said}
            stated = alternate.model_fields_set
            lent_ = (
                each
                for each in own
                if _FIELDS.get(key := each.path.partition("/")[0], key) not in stated
            )
            every = (*said, *(each for each in lent_ if each.path not in known))
            if every:
                found[f"parts/{i}/alternates/{number}"] = every
    return found


_FIELDS = {key: name for name, keys in AlternateModel.keys().items() for key in keys if key != name}


def _of_materials(line: PartModel, place: Standing) -> Iterator[Statement]:
    """An exposure that is noted is that of each material which states none."""
    noted = [one for one in place.said if one.path == "exposure"]
    for number, use in enumerate(line.materials or ()):
        if use.exposure is None:
            for one in noted:
                yield replace(one, path=f"materials/{number}/exposure")


def _parts(bom: SourceFile) -> tuple[list[PartModel | None], list[frozenset[str]]]:
    """The lines, None for one that holds errors, and what each says is not known."""
    written = bom.document.root.get("parts")
    if not isinstance(written, Items) or not written:
        _nothing_in(bom, "parts", "a list, each line starting with `- item:`")
        return [], []
    if len(written) > PARTS:
        bom.note(("parts", PARTS), f"more than {PARTS} parts", "split the list into several files")
        return [], []
    lines, unknown = [], []
    for i, value in enumerate(written):
        stated, left_open = without_unknown(value)
        lines.append(bom.check(PartModel, stated, "parts", i))
        unknown.append(left_open)
    return lines, unknown


def _check_origins(
    bom: SourceFile,
    lines: Sequence[PartModel | None],
    borrowed: Sequence[Lent | None],
    *,
    whole: bool,
) -> None:
    """Note lines without a kind, and proposals of what the line does not state.

    Of a line whose entry holds errors, or may stand in a file that could not be read (not
    `whole`), nothing is said, since that may be all that it lacks.
    """
    for i, (line, one) in enumerate(zip(lines, borrowed, strict=True)):
        if line is None or one is None:
            continue
        if line.kinds is None and one.untaken:
            message = f"a part without `kind`: {one.untaken}"
            remedy = "put number and maker right, here or in the library, or state `kind`"
            bom.note(("parts", i), message, remedy)
        elif line.kinds is None and not one.refused and (whole or line.part_number is None):
            bom.missing(("parts", i), PartModel, "kind")
        elif line.kinds is not None and Kind.UNKNOWN in line.kinds and len(line.kinds) > 1:
            bom.note(("parts", i, "kind"), "`unknown` among other kinds", "keep those that it is")
        for k, key in enumerate(line.proposed or ()):
            if key not in bom.document.root["parts"][i] or f"part.{key}" not in facts():
                message = f"`{brief(key)}` is proposed and not stated on the line"
                remedy = "name keys of this line that a person has still to confirm"
                bom.note(("parts", i, "proposed", k), message, remedy)


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
