"""Two judged lists side by side: what changed in verdict, in facts, in demands and in cost."""

from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, fields, is_dataclass
from decimal import Decimal
from enum import Enum

from areafit.facts.evidence import EvidenceType
from areafit.facts.marking import Marking
from areafit.facts.part import Kind, Part
from areafit.facts.quantity import number
from areafit.findings.report import BomReport, Finding, PartReport, SubjectReport
from areafit.verdict import Verdict

_IDENTITY = frozenset({"index", "item", "alternate", "prefix", "body"})


@dataclass(frozen=True, slots=True)
class FactChange:
    """A fact of a part, location or loop that differs; None where one list does not state it."""

    fact: str
    old: str | None
    new: str | None


@dataclass(frozen=True, slots=True)
class FindingChange:
    """A requirement whose verdict differs; None where one list was not asked."""

    rule: str
    location: str | None
    component: str | None
    old: Verdict | None
    new: Verdict | None
    message: str


@dataclass(frozen=True, slots=True)
class SubjectChange:
    """A part, location or loop that differs; a verdict is None where the subject is not there."""

    kind: str
    name: str
    old: Verdict | None
    new: Verdict | None
    facts: tuple[FactChange, ...]
    findings: tuple[FindingChange, ...]


@dataclass(frozen=True, slots=True)
class Totals:
    """What a list adds up to. `cost` is by kind; `unpriced` lines state no cost or quantity."""

    parts: int
    certified: int
    cost: Mapping[str, Decimal]
    unpriced: int


@dataclass(frozen=True, slots=True)
class Comparison:
    """The change from one list to the other."""

    old_gate: str
    new_gate: str
    subjects: tuple[SubjectChange, ...]
    old: Totals
    new: Totals


def compare(old: BomReport, new: BomReport) -> Comparison:
    """What differs from `old` to `new`: subjects in the new order, those that are gone last."""
    pairs = [
        ("item", old.parts, new.parts),
        ("location", old.places, new.places),
        ("loop", old.loops, new.loops),
    ]
    changes = tuple(
        change
        for kind, before, after in pairs
        for change in _subjects(kind, before, after, (old, new))
    )
    return Comparison(old.gate, new.gate, changes, _totals(old), _totals(new))


def _subjects(
    kind: str,
    before: tuple[SubjectReport, ...],
    after: tuple[SubjectReport, ...],
    reports: tuple[BomReport, BomReport],
) -> Iterator[SubjectChange]:
    old_by, new_by = {s.name: s for s in before}, {s.name: s for s in after}
    for name in dict.fromkeys((*new_by, *old_by)):
        old, new = old_by.get(name), new_by.get(name)
        facts = tuple(_facts(_of(kind, name, old, reports[0]), _of(kind, name, new, reports[1])))
        findings = tuple(_findings(old, new))
        verdicts = (old.verdict if old else None, new.verdict if new else None)
        if verdicts[0] is not verdicts[1] or facts or findings:
            yield SubjectChange(kind, name, *verdicts, facts, findings)


def _of(kind: str, name: str, subject: SubjectReport | None, report: BomReport) -> object:
    """The facts behind a subject's verdict; for a part, its places' demands come with places."""
    if subject is None:
        return None
    if isinstance(subject, PartReport):
        return subject.part
    if kind == "location":
        return report.bom.places.get(name)
    return next((loop for loop in report.bom.loops if loop.name == name), None)


def _facts(old: object, new: object) -> Iterator[FactChange]:
    before, after = dict(_flat(old)), dict(_flat(new))
    for fact in dict.fromkeys((*before, *after)):
        if before.get(fact) != after.get(fact):
            yield FactChange(fact, before.get(fact), after.get(fact))


def _flat(value: object, path: str = "") -> Iterator[tuple[str, str]]:
    """Every stated fact as a path and a text; unstated ones yield nothing."""
    if value is None:
        return
    if isinstance(value, Marking):
        yield path, value.text
    elif is_dataclass(value) and not isinstance(value, type):
        for each in fields(value):
            if each.name in _IDENTITY:
                continue
            step = "" if each.name == "equipment" else each.name
            inner = ".".join(s for s in (path, step) if s)
            yield from _flat(getattr(value, each.name), inner)
    elif isinstance(value, tuple) and value and not isinstance(value[0], str):
        for i, each in enumerate(value):
            yield from _flat(each, f"{path}[{i + 1}]")
    else:
        yield path, _text(value)


def _text(value: object) -> str:
    match value:
        case bool():
            return "true" if value else "false"
        case Decimal():
            return number(value)
        case Enum():
            return str(value.value)
        case frozenset():
            return ", ".join(sorted(_text(each) for each in value))
        case tuple():
            return ", ".join(_text(each) for each in value) or "none"
        case _:
            return str(value)


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
            yield FindingChange(key[0], key[1], key[2], *verdicts, told.message)


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
