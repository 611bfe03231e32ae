"""Two judged lists side by side: what changed in verdict, in facts, in demands and in cost.

Lines are compared with what they were by part, wherever they stand (`facts.identity`).
"""

from collections import Counter
from collections.abc import Hashable, Iterator, Mapping, Sequence
from decimal import Decimal
from typing import Any

from areafit.answers.stated import FactChange, changes, plain_changes
from areafit.facts.bom import Assembly, LibraryUse
from areafit.facts.evidence import EvidenceType
from areafit.facts.identity import Line, Unclear, match
from areafit.facts.part import Item, Kind, Part
from areafit.facts.protection import Law
from areafit.findings.report import BomReport, Finding, PartReport, PlaceReport, SubjectReport
from areafit.values import Frozen, replace
from areafit.verdict import Verdict


class FindingChange(Frozen):
    """A requirement whose verdict differs; None where one list was not asked.

    `required` and `found` hold what each list gave: where they differ, that made the change.
    """

    rule: str
    location: str | None
    component: str | None
    old: Verdict | None
    new: Verdict | None
    message: str
    required: FactChange
    found: FactChange


class SubjectChange(Frozen):
    """A part, location or loop that differs; a verdict is None where the subject is not there.

    `requirements` are what a location asks of its parts, as far as that differs.
    """

    kind: str
    name: str
    words: str
    old: Verdict | None
    new: Verdict | None
    facts: tuple[FactChange, ...]
    findings: tuple[FindingChange, ...]
    requirements: tuple[FactChange, ...] = ()


class Totals(Frozen):
    """What a list adds up to. `cost` is by kind; `unpriced` lines state no cost or quantity."""

    parts: int
    certified: int
    cost: Mapping[str, Decimal]
    unpriced: int


class Renumbered(Frozen):
    """A line that kept its part and changed its item."""

    old: str
    new: str


class Comparison(Frozen):
    """The change from one list to the other.

    `unclear` are lines of one part number that cannot be told apart: they stand among the subjects
    as gone and as new.
    """

    old_gate: str
    new_gate: str
    subjects: tuple[SubjectChange, ...]
    old: Totals
    new: Totals
    renumbered: tuple[Renumbered, ...] = ()
    unclear: tuple[Unclear, ...] = ()


class _Head(Frozen):
    """What a list says of itself."""

    assembly: Assembly
    code: Law
    edition: str | None


def compare(old: BomReport, new: BomReport) -> Comparison:
    """What differs from `old` to `new`: subjects in the new order, those that are gone last."""
    matched = match(old.bom.parts, new.bom.parts, _told)
    items = matched.renumbered
    own = replace(old.own, name=new.own.name)  # one list, whatever its number
    pairs: list[tuple[str, Sequence[SubjectReport], Sequence[SubjectReport]]] = [
        ("list", [own], [new.own]),
        ("location", old.places, new.places),
        ("item", old.parts, new.parts),
        ("loop", old.loops, new.loops),
    ]
    found = tuple(
        change
        for kind, before, after in pairs
        for was, now in _paired(before, after, matched.pairs if kind == "item" else None)
        for change in _change(kind, (was, now), (old, new), items)
    )
    renumbered = tuple(Renumbered(*each) for each in items.items())
    totals = _totals(old), _totals(new)
    return Comparison(old.gate, new.gate, found, *totals, renumbered, matched.unclear)


def _told(line: Line) -> Hashable:
    """All that a line states, but for the items in it."""
    return _renamed(line, {}, _NAMELESS) if isinstance(line, Part) else None


_NAMELESS = Item("")


def _renamed(value: Any, items: Mapping[str, str], other: Item | None = None) -> Any:  # noqa: ANN401 - any fact
    """A fact with the new items of the lines that it names, or with `other` in place of them.

    What only repeats where a line stands is left out of it.
    """
    if isinstance(value, Item):
        return other if other is not None else Item(items.get(value, value))
    if isinstance(value, Part):
        value = replace(value, index=0, disagreements=(), contacts_note=None)
    if isinstance(value, Frozen):
        fields = {name: getattr(value, name) for name in value.__struct_fields__}
        made = {name: _renamed(each, items, other) for name, each in fields.items()}
        changed = {name: each for name, each in made.items() if each is not fields[name]}
        return replace(value, **changed) if changed else value
    if isinstance(value, tuple):
        renamed = tuple(_renamed(each, items, other) for each in value)
        return renamed if any(a is not b for a, b in zip(renamed, value, strict=True)) else value
    return value


_Pair = tuple[SubjectReport | None, SubjectReport | None]


def _paired(
    before: Sequence[SubjectReport],
    after: Sequence[SubjectReport],
    pairs: Mapping[str, str] | None,
) -> Iterator[_Pair]:
    """Each subject of the new list with what it was, then those that are gone; by name if need be.

    >>> list(_paired((), (), None))
    []
    """
    old_by = {(s.name if pairs is None else pairs.get(s.name, "")): s for s in before}
    old_by.pop("", None)
    left = dict.fromkeys(before)
    for now in after:
        was = old_by.get(now.name)
        left.pop(was, None)  # type: ignore[arg-type]  # None is no key
        yield was, now
    yield from ((was, None) for was in left)


def _change(
    kind: str, pair: _Pair, reports: tuple[BomReport, BomReport], items: Mapping[str, str]
) -> Iterator[SubjectChange]:
    old, new = pair
    subject = new or old
    if subject is None:
        return
    was, now = _of(kind, old, reports[0]), _of(kind, new, reports[1])
    facts = changes(_renamed(was, items) if items else was, now)
    if kind == "list":
        facts += _library(reports[0].bom.library, reports[1].bom.library)
    findings = tuple(_findings(old, new))
    asked = plain_changes(_requirements(old), _requirements(new))
    verdicts = (old.verdict if old else None, new.verdict if new else None)
    if verdicts[0] is not verdicts[1] or facts or findings or asked:
        words = _words(subject)
        yield SubjectChange(kind, subject.name, words, *verdicts, facts, findings, asked)


def _library(old: LibraryUse, new: LibraryUse) -> tuple[FactChange, ...]:
    """Files of bought parts that differ, by name and the first digits of their SHA-256.

    A list that came to a library, or left it, tells by its facts what that changed.
    """
    if not old.files or not new.files:
        return ()
    before, after = ({file.sha256: file.name for file in each.files} for each in (old, new))
    sides = [
        ", ".join(f"{name} {digest[:12]}" for digest, name in here.items() if digest not in there)
        for here, there in ((before, after), (after, before))
    ]
    return (FactChange("library", *(each or None for each in sides)),) if any(sides) else ()


def _words(subject: SubjectReport) -> str:
    if not isinstance(subject, PartReport):
        return ""
    return ", ".join(w for w in (subject.part.part_number, subject.part.description) if w)


def _requirements(subject: SubjectReport | None) -> object:
    """What a place asks for; nothing for everything else."""
    return subject.requires if isinstance(subject, PlaceReport) else None


def _of(kind: str, subject: SubjectReport | None, report: BomReport) -> object:
    """The facts behind a subject's verdict; for a part, its places' demands come with places."""
    if subject is None:
        return None
    if isinstance(subject, PartReport):
        return subject.part
    if kind == "list":
        return _Head(report.bom.assembly, report.bom.law, report.bom.edition)
    if kind == "location":
        return report.bom.places.get(subject.name)
    return next((loop for loop in report.bom.loops if loop.name == subject.name), None)


_Key = tuple[str, str | None, str | None, int]


def _findings(old: SubjectReport | None, new: SubjectReport | None) -> Iterator[FindingChange]:
    before, after = _keyed(old), _keyed(new)
    if old is None or new is None:
        return
    for key in dict.fromkeys((*after, *before)):
        was, now = before.get(key), after.get(key)
        verdicts = (was.verdict if was else None, now.verdict if now else None)
        told = now or was
        if verdicts[0] is not verdicts[1] and told is not None:
            yield FindingChange(
                *key[:3],
                *verdicts,
                told.message,
                _pair("required", was, now),
                _pair("found", was, now),
            )


def _pair(text: str, old: Finding | None, new: Finding | None) -> FactChange:
    """What each finding says it required or found; None where there is none."""
    return FactChange(text, _said(old, text), _said(new, text))


def _said(finding: Finding | None, text: str) -> str | None:
    if finding is None:
        return None
    return (finding.required if text == "required" else finding.found) or None


def _keyed(subject: SubjectReport | None) -> dict[_Key, Finding]:
    """Findings by rule, location and component, counted where several share those."""
    seen: Counter[tuple[str, str | None, str | None]] = Counter()
    keyed: dict[_Key, Finding] = {}
    for finding in subject.findings() if subject is not None else ():
        same = (finding.rule.id, finding.location, finding.component)
        keyed[*same, seen[same]] = finding
        seen[same] += 1
    return keyed


def _totals(report: BomReport) -> Totals:
    cost: dict[str, Decimal] = {}
    certified = unpriced = 0
    for each in report.parts:
        part = each.part
        certified += _certified(part)
        if part.unit_cost is None or part.quantity is None:
            unpriced += 1
            continue
        kind = _kind(part.equipment.kinds)
        cost[kind] = cost.get(kind, Decimal(0)) + part.unit_cost * part.quantity
    return Totals(len(report.parts), certified, cost, unpriced)


def _certified(part: Part) -> bool:
    serves = {EvidenceType.CERTIFICATE, EvidenceType.LISTING}
    return any(document.type in serves for document in part.equipment.evidence or ())


def _kind(kinds: frozenset[Kind]) -> str:
    return ", ".join(sorted(kind.value for kind in kinds))
