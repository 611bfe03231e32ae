"""Two judged lists side by side: what changed in verdict, in facts, in demands and in cost."""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from decimal import Decimal

from areafit.answers.stated import FactChange, changes, plain_changes
from areafit.facts.bom import Assembly
from areafit.facts.evidence import EvidenceType
from areafit.facts.part import Kind, Part
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


class Comparison(Frozen):
    """The change from one list to the other."""

    old_gate: str
    new_gate: str
    subjects: tuple[SubjectChange, ...]
    old: Totals
    new: Totals


class _Head(Frozen):
    """What a list says of itself."""

    assembly: Assembly
    code: Law
    edition: str | None


def compare(old: BomReport, new: BomReport) -> Comparison:
    """What differs from `old` to `new`: subjects in the new order, those that are gone last."""
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
        for change in _subjects(kind, before, after, (old, new))
    )
    return Comparison(old.gate, new.gate, found, _totals(old), _totals(new))


def _subjects(
    kind: str,
    before: Sequence[SubjectReport],
    after: Sequence[SubjectReport],
    reports: tuple[BomReport, BomReport],
) -> Iterator[SubjectChange]:
    old_by, new_by = {s.name: s for s in before}, {s.name: s for s in after}
    for name in dict.fromkeys((*new_by, *old_by)):
        old, new = old_by.get(name), new_by.get(name)
        facts = changes(_of(kind, name, old, reports[0]), _of(kind, name, new, reports[1]))
        findings = tuple(_findings(old, new))
        asked = plain_changes(_requirements(old), _requirements(new))
        verdicts = (old.verdict if old else None, new.verdict if new else None)
        if verdicts[0] is not verdicts[1] or facts or findings or asked:
            words = _words(new or old)
            yield SubjectChange(kind, name, words, *verdicts, facts, findings, asked)


def _words(subject: SubjectReport | None) -> str:
    if not isinstance(subject, PartReport):
        return ""
    return ", ".join(w for w in (subject.part.part_number, subject.part.description) if w)


def _requirements(subject: SubjectReport | None) -> object:
    """What a place asks for; nothing for everything else."""
    return subject.requires if isinstance(subject, PlaceReport) else None


def _of(kind: str, name: str, subject: SubjectReport | None, report: BomReport) -> object:
    """The facts behind a subject's verdict; for a part, its places' demands come with places."""
    if subject is None:
        return None
    if isinstance(subject, PartReport):
        return subject.part
    if kind == "list":
        return _Head(report.bom.assembly, report.bom.law, report.bom.edition)
    if kind == "location":
        return report.bom.places.get(name)
    return next((loop for loop in report.bom.loops if loop.name == name), None)


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
