"""The bytes of a waiver file to waivers, or one report of all its mistakes."""

from collections.abc import Collection, Iterable
from typing import Any

from areafit.facts.waiver import WaivedSubject, Waiver
from areafit.file.mistakes import Mistakes
from areafit.file.model.waiver import WaiverModel, WaiversHeaderModel
from areafit.file.positions import Items, Map
from areafit.file.source import Source, open_source
from areafit.file.wording import brief, suggestion

_SUBJECTS = tuple(subject.value for subject in WaivedSubject)
_ONE_SUBJECT = "name exactly one of item, loop and place"


def read_waivers(data: bytes, name: str, rules: Collection[str] = ()) -> tuple[Waiver, ...]:
    """Read a waiver file.

    Args:
        data: the file, in UTF-8 or in UTF-16 with a byte-order mark.
        name: what positions call it.
        rules: the ids that a waiver may name; any where none are given.

    Raises:
        InputErrors: the file cannot be used; all mistakes that could be found are in it.
    """
    mistakes = Mistakes()
    source = open_source(data, name, mistakes)
    root = source.document.root
    if not isinstance(root, Map):
        position = source.document.at(())
        mistakes.fatal(position, "this is no waiver file", "start it with `areafit-waivers: 1`")
    source.check(WaiversHeaderModel, root)
    found = [
        waiver
        for index, entry in enumerate(_entries(source, root))
        if (waiver := _waiver(source, index, entry, rules)) is not None
    ]
    _note_repeated(source, found)
    if mistakes:
        raise mistakes.all()
    return tuple(found)


def _entries(source: Source, root: Map) -> Iterable[Any]:
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
    source: Source,
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
    )


def _named(entry: object) -> list[tuple[str, str]]:
    """The subjects that an entry names, by their keys."""
    if not isinstance(entry, Map):
        return []
    stated = ((key, entry.get(key)) for key in _SUBJECTS)
    return [(key, name.strip()) for key, name in stated if isinstance(name, str)]


def _note_repeated(source: Source, found: Iterable[Waiver]) -> None:
    first: dict[tuple[object, ...], Waiver] = {}
    for waiver in found:
        key = (waiver.subject, waiver.name, waiver.assembly, waiver.fingerprint, waiver.until)
        known = first.setdefault(key, waiver)
        if known is not waiver:
            message = f"the same finding is waived on line {known.position.line} already"
            source.mistakes.add(waiver.position, message, "keep one of the two")
