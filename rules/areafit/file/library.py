"""A library of bought parts: what is true of a part number wherever it is mounted.

Only the numbers of all entries are looked at in every run; an entry is held against its model when
a line bears its number, and `areafit library check` looks at all.
"""

import hashlib
import posixpath
import re
import unicodedata
from collections.abc import Callable, Iterator, Mapping, Sequence
from datetime import date
from functools import lru_cache
from typing import Any, Self

from pydantic import Field, GetJsonSchemaHandler, model_validator
from pydantic_core import core_schema

from areafit.errors import Collector, InputError, InputErrors, brief
from areafit.facts.bom import LibraryFile, LibraryUse, UsedEntry
from areafit.facts.evidence import EvidenceType
from areafit.facts.part import Exposure, Kind
from areafit.file.facts import facts
from areafit.file.fields import Date, OneWord, Reference, Schema, Text, Version
from areafit.file.mappings import Many, Model, written
from areafit.file.part_model import AnsweredModel, LineModel
from areafit.file.positions import Items, Map
from areafit.file.source import Path, SourceFile, open_source
from areafit.file.text import first_key
from areafit.pattern import pattern
from areafit.values import Frozen, replace

_FIRST = "areafit-parts"
_OTHERS = ("areafit", "areafit-areas", "areafit-waivers")
_QUOTES = ("'", '"')
_NUMBER = pattern(
    r"[-+]?(?:0[xob][0-9a-f_]+|(?:[0-9][0-9_]*(?::[0-5]?[0-9])*(?:\.[0-9_]*)?|\.[0-9_]+)"
    r"(?:e[-+]?[0-9]+)?|\.(?:inf|nan))",
    re.IGNORECASE,
)
# Letters of other scripts that look like a Latin one, and dashes.
_ALIKE = str.maketrans(
    "АВЕКМНОРСТУХІЅЈΑΒΕΖΗΙΚΜΝΟΡΤΥΧаеорсухіѕјονχ‐‑‒–—−",
    "ABEKMHOPCTYXISJABEZHIKMNOPTYXaeopcyxisjovx------",
)


class ConfirmedModel(Model):
    """Who read the entry against which document, and when."""

    called = "`confirmed`"
    under = "library.confirmed."

    on: Date
    document: Reference
    role: Reference

    @model_validator(mode="after")
    def _says_who(self) -> Self:
        if self.document is None or self.role is None:
            raise InputError("nobody confirmed this", "name the data sheet and the role")
        return self


class LibraryEntryModel(LineModel):
    """A bought part, as its maker delivers it; the table of facts says which keys it may hold."""

    called = "an entry of the library"
    beside = "library."

    also: Many[Text] | None = None
    kinds: Many[OneWord[Kind]] | None = written("kind")
    answered: Many[AnsweredModel] | None = None
    confirmed: ConfirmedModel

    @classmethod
    def offered(cls) -> list[str]:
        """Those that an entry may hold."""
        return [key for key in super().offered() if not barred(f"part.{key}")]

    @classmethod
    def __get_pydantic_json_schema__(
        cls, schema: core_schema.CoreSchema, handler: GetJsonSchemaHandler
    ) -> Schema:
        """Called by pydantic."""
        described = super().__get_pydantic_json_schema__(schema, handler)
        properties = handler.resolve_ref_schema(described)["properties"]
        for key in [key for key in properties if barred(f"part.{key}")]:
            del properties[key]
        return described


class LibraryModel(Model):
    """A file of the library."""

    called = "a library file"
    under = "library."

    version: Version = Field(validation_alias=_FIRST)
    parts: dict[str, LibraryEntryModel]


class LibraryEntry(Frozen, eq=False):
    """An entry as read: what it states by the names of the fields, and who confirmed it.

    `answers` came in for facts that it states otherwise.
    """

    number: str
    values: Mapping[str, Any]
    confirmed_on: date
    document: str
    role: str
    source: SourceFile
    path: Path
    numbers: tuple[str, ...] = ()
    answers: tuple[AnsweredModel, ...] = ()

    @property
    def stated(self) -> frozenset[str]:
        """The keys that it states, as they are written."""
        return frozenset(self.source.document.root["parts"][self.number] or ())


class _Index(Frozen, eq=False):
    """One file: where each number leads, and what is wrong with its numbers."""

    source: SourceFile
    sha256: str
    numbers: Mapping[str, str]
    errors: tuple[InputError, ...]
    entries: int


class Library:
    """All files that a list names, and the entries that its lines asked for."""

    def __init__(self, files: Sequence[_Index], errors: Collector) -> None:
        self.indices = files
        self.errors = errors
        self._numbers: dict[str, tuple[_Index, str]] = {}
        self._read: dict[tuple[str, str], LibraryEntry | None] = {}
        for file in files:
            for error in file.errors:
                errors.add(error.position, error.message, error.remedy)
            for number, key in file.numbers.items():
                first = self._numbers.setdefault(number, (file, key))
                if first[0] is not file:
                    where = first[0].source.document.key_at(("parts", first[1]))
                    position = file.source.document.key_at(("parts", key))
                    message = f"the part number `{brief(number)}` has an entry at {where} already"
                    errors.add(position, message, "keep one of the two")

    def __bool__(self) -> bool:
        return bool(self.indices)

    @property
    def use(self) -> LibraryUse:
        """The files, and the entries that lines asked for."""
        return LibraryUse(
            tuple(
                LibraryFile(each.source.document.name, each.sha256, each.entries)
                for each in self.indices
            ),
            tuple(
                UsedEntry(
                    entry.number,
                    entry.confirmed_on,
                    entry.document,
                    entry.role,
                    entry.source.document.key_at(entry.path),
                    entry.numbers,
                )
                for entry in self.read
            ),
        )

    @property
    def read(self) -> tuple[LibraryEntry, ...]:
        """The entries that lines asked for and that hold no errors."""
        return tuple(entry for entry in self._read.values() if entry is not None)

    def holds(self, number: str) -> bool:
        """Whether there is an entry of a part number, be it with errors."""
        return same_number(number) in self._numbers

    def find(self, number: str) -> LibraryEntry | None:
        """The entry of a part number, checked now; None where there is none or it holds errors."""
        found = self._numbers.get(same_number(number))
        if found is None:
            return None
        file, key = found
        seen = (file.source.document.name, key)
        if seen not in self._read:
            entry, errors = _checked(file, key)
            for error in errors:
                self.errors.add(error.position, error.message, error.remedy)
            self._read[seen] = entry
        return self._read[seen]

    def having(self, entry: LibraryEntry) -> "Library":
        """The same library with an entry as somebody else states it."""
        other = Library((), Collector())
        other.indices, other._numbers = self.indices, self._numbers  # of all entries: not anew
        other._read = {**self._read, (entry.source.document.name, entry.number): entry}
        return other

    def all(self) -> Iterator[LibraryEntry]:
        """Every entry, checked."""
        for file in self.indices:
            for key in dict.fromkeys(file.numbers.values()):
                entry = self.find(key)
                if entry is not None:
                    yield entry

    def alike(self, number: str) -> str:
        """A number that has an entry and differs in case, dashes or look-alike letters only."""
        if not self.indices:
            return ""
        wanted = _skeleton(number)
        found = (_skeletons(file).get(wanted, "") for file in self.indices)
        return next(filter(None, found), "")


def open_library(  # noqa: PLR0913, PLR0917 - what to read, how, and where faults go
    known: Library,
    named: Sequence[str],
    base: str,
    home: str,
    fetch: Callable[[str], bytes],
    folder: Callable[[str], Sequence[str] | None] | None,
    refuse: Callable[[int, str], None],
) -> Library:
    """A library with the files that another `library:` names.

    They are relative to the folder `base`, which is relative to that of the list, called `home`.
    `refuse` notes that the file at a place among them cannot be used, and why.
    """
    found = {file.source.document.name: file for file in known.indices}
    errors = known.errors
    for number, relative in enumerate(named):
        path = posixpath.normpath(posixpath.join(base, relative))
        try:
            inside = _inside_of(path, folder)
            if inside is not None and not inside:
                refuse(number, "the folder holds no YAML file")
            for name in [path] if inside is None else inside:
                shown = posixpath.normpath(posixpath.join(home, name))
                if shown in found:
                    continue
                data = fetch(name)
                # Beside the library, a folder may hold lists, places and waivers.
                if inside is None or first_key(data) not in _OTHERS:
                    found[shown] = _opened(shown, data)
        except InputErrors as refused:
            for error in refused.errors:
                errors.add(error.position, error.message, error.remedy)
        except (OSError, ValueError) as error:
            refuse(number, brief(str(error)))
    return Library(tuple(found.values()), errors)


def read_library(files: Sequence[tuple[str, bytes]]) -> Library:
    """The library of these files by themselves, its entries not looked at yet.

    Raises:
        InputErrors: one of them is no library file, or a number stands in two entries.
    """
    errors = Collector()
    found = Library(tuple(_opened(name, data) for name, data in files), errors)
    if errors:
        raise errors.all()
    return found


def _inside_of(
    path: str, folder: Callable[[str], Sequence[str] | None] | None
) -> Sequence[str] | None:
    """Every YAML file of a folder by name; None where it is no folder."""
    inside = folder(path) if folder is not None else None
    return None if inside is None else [posixpath.join(path, name) for name in inside]


@lru_cache(maxsize=64)  # the lists of one run share their library
def _opened(name: str, data: bytes) -> _Index:
    """A file by its numbers.

    Raises:
        InputErrors: it is no library file.
    """
    errors = Collector()
    source = open_source(data, name, errors)
    root, position = source.document.root, source.document.at
    if not isinstance(root, Map) or _FIRST not in root:
        errors.fatal(position(()), "this is no library file", f"start it with `{_FIRST}: 1`")
    source.check(_Header, {key: value for key, value in root.items() if key != "parts"})
    parts = root.get("parts")
    if not isinstance(parts, Map):
        message = "a library file without `parts`"
        errors.fatal(
            position(("parts",)), message, "write below `parts:` each number and its facts"
        )
    if errors:
        raise errors.all()
    numbers = _numbered(source, parts)
    found = errors.all().errors if errors else ()
    return _Index(source, hashlib.sha256(data).hexdigest(), numbers, found, len(parts))


class _Header(Model):
    called = "a library file"
    under = "library."

    version: Version = Field(validation_alias=_FIRST)


def _numbered(source: SourceFile, parts: Map) -> dict[str, str]:
    """Each number of a file with the key of its entry; repeated and unquoted ones are noted."""
    numbers: dict[str, str] = {}
    for key, entry in parts.items():
        own = source.document.key_at(("parts", key))
        _claim(source, numbers, key, key, ("parts", key), own.line, own.column)
        also = entry.get("also") if isinstance(entry, Map) else None
        for i, number in enumerate(also if isinstance(also, Items) else [also]):
            if isinstance(number, str):
                where: Path = ("parts", key, "also", *([i] if isinstance(also, Items) else []))
                spot = source.document.at(where)
                _claim(source, numbers, number, key, where, spot.line, spot.column)
    return numbers


def _claim(  # noqa: PLR0913, PLR0917 - a number, and where it stands
    source: SourceFile,
    numbers: dict[str, str],
    number: str,
    key: str,
    path: Path,
    line: int,
    column: int,
) -> None:
    known = numbers.setdefault(same_number(number), key)
    note = source.note_key if path == ("parts", number) else source.note
    if known != key or (path != ("parts", key) and same_number(number) == same_number(key)):
        message = f"the part number `{brief(number)}` has an entry already"
        note(path, message, "keep one of the two")
    if reads_as_number(number) and source.text_at(line, column)[:1] not in _QUOTES:
        message = f"the part number {brief(number)} reads as a number"
        note(path, message, f'quote it: "{number}"')


def reads_as_number(text: str) -> bool:
    """Whether other programs read a text without quotes as a number, and may write it otherwise."""
    return _NUMBER.fullmatch(text) is not None


def same_number(number: str) -> str:
    """A part number as it is compared."""
    return unicodedata.normalize("NFC", number).strip()


@lru_cache(maxsize=64)
def _skeletons(file: _Index) -> Mapping[str, str]:
    return {_skeleton(number): number for number in file.numbers}


def _skeleton(number: str) -> str:
    plain = unicodedata.normalize("NFKC", number).translate(_ALIKE)
    return "".join(plain.casefold().split())


@lru_cache(maxsize=1 << 14)  # as the files themselves
def _checked(file: _Index, key: str) -> tuple[LibraryEntry | None, tuple[InputError, ...]]:
    """One entry held against its model and against what a library may say; what is wrong in it."""
    errors = Collector()
    source = replace(file.source, errors=errors)
    stated = source.document.root["parts"][key]
    entry = entry_of(source, key, Map() if stated is None else stated)
    return entry, errors.all().errors if errors else ()


def entry_of(own: SourceFile, key: str, stated: object) -> LibraryEntry | None:
    """An entry of what is written of it; None where that cannot be read, which is noted."""
    path: Path = ("parts", key)
    refused = _refuse_barred(own, stated, "part", path)
    if isinstance(stated, Map):
        stated = {key: value for key, value in stated.items() if not barred(f"part.{key}")}
    model = own.check(LibraryEntryModel, stated, *path)
    if model is None or refused:
        return None
    values = {
        name: value
        for name in LineModel.model_fields
        if (value := getattr(model, name)) is not None
    }
    if model.kinds is not None:
        values["kinds"] = model.kinds
    confirmed = model.confirmed
    return LibraryEntry(
        key,
        values,
        confirmed.on,
        str(confirmed.document),
        str(confirmed.role),
        own,
        path,
        (same_number(key), *map(same_number, model.also or ())),
        tuple(model.answered or ()),
    )


def barred(fact: str) -> bool:
    """Whether the table of facts says that no entry may state it: `part.bonded`."""
    row = facts().get(fact)
    return row is not None and not row.library


def _refuse_barred(source: SourceFile, stated: object, fact: str, path: Path) -> bool:
    """Note what depends on where a part is mounted, or on a single piece; whether there is any."""
    if isinstance(stated, Items):
        inner = [_refuse_barred(source, each, fact, (*path, i)) for i, each in enumerate(stated)]
        return any(inner)  # all of them are told
    if not isinstance(stated, Map):
        return False
    refused = False
    for key, value in stated.items():
        where = (*path, key)
        if barred(f"{fact}.{key}"):
            message = f"`{brief(key)}` is not for the entry of a bought part"
            source.note_key(where, message, _ON_THE_LINE)
        elif f"{fact}.{key}" == "part.materials.exposure" and not _inside(stated):
            message = "how a material meets chemicals depends on where the part stands"
            remedy = "state it on the line; an entry takes `enclosed` of an inner `component` only"
            source.note(where, message, remedy)
        elif f"{fact}.{key}" == "part.evidence.type" and value == EvidenceType.REPAIR_RECORD.value:
            source.note(where, "a repair record is that of one piece", _ON_THE_LINE)
        else:
            refused |= _refuse_barred(source, value, f"{fact}.{key}", where)
            continue
        refused = True
    return refused


_ON_THE_LINE = "state it on the line"


def _inside(material: Map) -> bool:
    """Whether a material of an entry is that of an inner component, which nothing reaches."""
    return material["exposure"] == Exposure.ENCLOSED.value and material.get("component") is not None
