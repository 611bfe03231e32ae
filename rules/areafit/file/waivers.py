"""Waiver files: their entries read, or one report of all their errors; and one entry written.

An entry is written behind those of a file by the one editor, every other byte kept.
"""

from collections.abc import Collection, Iterable, Mapping
from datetime import date
from typing import Annotated, Any

from pydantic import AfterValidator, Field

from areafit.errors import NOWHERE, Collector, InputError, InputErrors, brief, suggestion
from areafit.facts.waiver import WaivedSubject, Waiver
from areafit.file.editor import Put, Value, edit, rendered
from areafit.file.fields import Date, Reference, Schema, Text, Version
from areafit.file.mappings import ManyOrNone, Model
from areafit.file.positions import Items, Map
from areafit.file.source import SourceFile, open_source
from areafit.pattern import pattern
from areafit.values import replace

_FINGERPRINT = pattern("(?:2:)?[0-9a-f]{24}")  # without a scheme: from before 0.2, void
_SUBJECTS = tuple(subject.value for subject in WaivedSubject)
_ONE_SUBJECT = "name exactly one of item, loop and place"
_START = "areafit-waivers: 1\nwaivers:\n"


def _said(text: str | None) -> str:
    """A text that must say something: `n/a` and the like are no reason and no role."""
    if text is None:
        raise InputError("this says nothing", "write what holds, in words that can be checked")
    return text


def _role(text: str) -> str:
    if "@" in text:
        message = "this looks like the address of a person"
        raise InputError(message, "write the role that answers for it, such as area owner")
    return text


def _fingerprint(text: str) -> str:
    if not _FINGERPRINT.fullmatch(text):
        raise InputError(
            "this is no fingerprint of a finding",
            "copy it from the JSON report, or let `areafit waiver add` write the entry",
        )
    return text


Said = Annotated[Reference, AfterValidator(_said)]


def _or_revision(schema: Schema) -> None:
    """The last day, or the revision for which it holds."""
    day = {key: schema.pop(key) for key in ("type", "format", "examples") if key in schema}
    revision = {"type": "string"}
    held = {"type": "object", "properties": {"revision": revision}, "required": ["revision"]}
    schema["anyOf"] = [day, {**held, "additionalProperties": False}]


class UntilModel(Model):
    """A revision of the assembly, instead of a last day."""

    called = "`until`"

    revision: Annotated[Text, Field(description="the revision of the list that it holds for")]


class WaiverModel(Model):
    """An accepted deviation; it names exactly one item, loop or place."""

    called = "a waiver"

    item: Annotated[Text | None, Field(description="the item it is for")] = None
    loop: Annotated[Text | None, Field(description="or the loop")] = None
    place: Annotated[Text | None, Field(description="or the place")] = None
    assembly: Annotated[
        Text | None, Field(description="number of the list it is for, if the file serves several")
    ] = None
    rule: Annotated[Text, Field(description="the rule whose finding is waived")]
    component: Annotated[Text | None, Field(description="the piece of the item it is for")] = None
    fingerprint: Annotated[
        Text,
        AfterValidator(_fingerprint),
        Field(description="of the finding; a changed fact changes it and voids the waiver"),
    ]
    reason: Annotated[Said, Field(description="why it is acceptable")]
    approved_by: Annotated[
        Said, AfterValidator(_role), Field(description="the role that answers for it")
    ]
    until: Annotated[
        Date,
        Field(
            description="the last day on which it holds, or `{revision: E}`",
            json_schema_extra=_or_revision,
        ),
    ]
    document: Annotated[
        Reference | None,
        Field(description="needed for a flag of an area, documents, ignition or loop rule"),
    ] = None


class WaiversHeaderModel(Model):
    """A waiver file whose entries are still as written."""

    called = "a waiver file"

    waivers_version: Annotated[
        Version, Field(validation_alias="areafit-waivers", description="version of this format")
    ]
    waivers: Any = None


class WaiversModel(WaiversHeaderModel):
    """Accepted deviations, each with a reason, a role and a last day."""

    waivers: Annotated[ManyOrNone[WaiverModel], Field(description="the waivers, or none")]


def waivers_schema() -> Schema:
    """A waiver file as JSON Schema (draft 2020-12)."""
    return WaiversModel.schema_for_editors()


def read_waivers(data: bytes, name: str, rules: Collection[str] = ()) -> tuple[Waiver, ...]:
    """Read a waiver file.

    Args:
        data: the file, in UTF-8 or in UTF-16 with a byte-order mark.
        name: what positions call it.
        rules: the ids that a waiver may name; any where none are given.

    Raises:
        InputErrors: the file cannot be used; all errors that could be found are in it.
    """
    errors = Collector()
    source = open_source(data, name, errors)
    root = source.document.root
    if not isinstance(root, Map):
        position = source.document.at(())
        errors.fatal(position, "this is no waiver file", "start it with `areafit-waivers: 1`")
    source.check(WaiversHeaderModel, root)
    found = [
        waiver
        for index, entry in enumerate(_entries(source, root))
        if (waiver := _waiver(source, index, entry, rules)) is not None
    ]
    _note_repeated(source, found)
    if errors:
        raise errors.all()
    return tuple(found)


def _entries(source: SourceFile, root: Map) -> Iterable[Any]:
    written = root.get("waivers")
    if written == "none":
        return ()
    if isinstance(written, Items) and written:
        return written
    source.note(
        ("waivers",), "no `waivers`", "write each below `waivers:` with `- item:`, or write none"
    )
    return ()


def _waiver(
    source: SourceFile,
    index: int,
    entry: Any,  # noqa: ANN401 - anything may be written
    rules: Collection[str],
) -> Waiver | None:
    path = ("waivers", index)
    subjects = _named(entry)
    if isinstance(entry, Map) and len(subjects) != 1:
        said = " and ".join(key for key, _ in subjects) or "no subject"
        source.note(path, f"a waiver for {said}", _ONE_SUBJECT)
    rule = entry.get("rule") if isinstance(entry, Map) else None
    if rules and isinstance(rule, str) and rule.strip() not in rules:
        source.note((*path, "rule"), f"no rule is called `{brief(rule)}`", suggestion(rule, rules))
    revision: UntilModel | None = None
    if isinstance(entry, Map) and isinstance(until := entry.get("until"), Map):
        revision = source.check(UntilModel, until, *path, "until")
        entry = {**entry, "until": date.max.isoformat()}
    model = source.check(WaiverModel, entry, *path)
    if model is None or len(subjects) != 1:
        return None
    subject, name = subjects[0]
    return Waiver(
        subject=WaivedSubject(subject),
        name=name,
        rule=model.rule,
        fingerprint=model.fingerprint,
        reason=model.reason or "",
        approved_by=model.approved_by or "",
        until=model.until,
        position=source.document.at(path),
        component=model.component,
        document=model.document,
        assembly=model.assembly,
        revision=None if revision is None else revision.revision,
    )


def _named(entry: object) -> list[tuple[str, str]]:
    """The subjects that an entry names, by their keys."""
    if not isinstance(entry, Map):
        return []
    stated = ((key, entry.get(key)) for key in _SUBJECTS)
    return [(key, name.strip()) for key, name in stated if isinstance(name, str)]


def _note_repeated(source: SourceFile, found: Iterable[Waiver]) -> None:
    first: dict[tuple[object, ...], Waiver] = {}
    for waiver in found:
        key = (waiver.subject, waiver.name, waiver.assembly, waiver.fingerprint, waiver.held)
        known = first.setdefault(key, waiver)
        if known is not waiver:
            message = f"the same finding is waived on line {known.position.line} already"
            source.errors.add(waiver.position, message, "keep one of the two")


def entry(waiver: Waiver, indent: str = "  ") -> str:
    """The waiver as an entry of `waivers:`, one key a line."""
    lines = [f"{key}: {rendered(value)}" for key, value in _stated(waiver).items()]
    return f"{indent}- " + f"\n{indent}  ".join(lines) + "\n"


def _stated(waiver: Waiver) -> Mapping[str, Value]:
    """The keys of an entry that say something, in their order."""
    held: Value = waiver.until.isoformat()
    if waiver.revision is not None:
        held = {"revision": waiver.revision}
    keys = {
        waiver.subject.value: waiver.name,
        "assembly": waiver.assembly,
        "rule": waiver.rule,
        "component": waiver.component,
        "fingerprint": waiver.fingerprint,
        "reason": waiver.reason,
        "approved_by": waiver.approved_by,
        "until": held,
        "document": waiver.document,
    }
    return {key: value for key, value in keys.items() if value is not None}


def append(data: bytes, waiver: Waiver) -> bytes:
    """The file with the waiver behind those that it holds; a new one where `data` is empty.

    Raises:
        InputErrors: the file is no waiver file.
        ValueError: an entry cannot follow, or would not be read as it should.
    """
    if not data:
        made = (_START + entry(waiver)).encode()
        before: tuple[Waiver, ...] = ()
    else:
        before = read_waivers(data, "")
        made = edit(data, "", Put(("waivers", len(before)), _stated(waiver)))
    return _as_expected(made, (*before, waiver))


def renewed(data: bytes, waiver: Waiver, fingerprint: str) -> bytes:
    """The file with another fingerprint in one entry, every other byte kept.

    Raises:
        ValueError: the entry could not be found or would not be read as it should.
    """
    before = read_waivers(data, waiver.position.file)
    if waiver not in before:
        raise ValueError("the entry is not there any more")
    at = before.index(waiver)
    made = edit(data, "", Put(("waivers", at, "fingerprint"), fingerprint))
    after = replace(waiver, fingerprint=fingerprint)
    return _as_expected(made, (*before[:at], after, *before[at + 1 :]))


def _as_expected(made: bytes, waivers: tuple[Waiver, ...]) -> bytes:
    try:
        after = read_waivers(made, "")
    except InputErrors as errors:
        raise ValueError(errors.errors[0].message) from None
    if _bare(after) != _bare(waivers):
        raise ValueError("an entry would not be read as it is meant")
    return made


def _bare(waivers: tuple[Waiver, ...]) -> list[Waiver]:
    """The waivers without where they stand."""
    return [replace(waiver, position=NOWHERE) for waiver in waivers]
