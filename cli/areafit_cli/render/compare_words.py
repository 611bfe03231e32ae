"""A comparison of two lists in words, for every format of it."""

from collections.abc import Iterator, Mapping
from decimal import Decimal
from types import MappingProxyType
from typing import TYPE_CHECKING

from areafit.facts.quantity import number

if TYPE_CHECKING:
    from areafit.answers.compare import Comparison, FindingChange, SubjectChange
    from areafit.answers.stated import FactChange
    from areafit.findings.report import BomReport
    from areafit.verdict import Verdict

_KEYS = MappingProxyType({"kinds": "kind", "markings": "marking", "surface": "surface_temperature"})
NO_CHANGE = "Nothing changed in verdict, fact or requirement."


def name(report: "BomReport") -> str:
    """A list by number, revision and file."""
    assembly = report.bom.assembly
    revision = f" revision {assembly.revision}" if assembly.revision else ""
    return f"{assembly.number}{revision} ({report.bom.name})"


def totals(found: "Comparison") -> Iterator[tuple[str, str, str]]:
    """What the lists add up to: label, old, new."""
    old, new = found.old, found.new
    yield "gate", found.old_gate, found.new_gate
    yield "parts", str(old.parts), str(new.parts)
    yield "certified items", str(old.certified), str(new.certified)
    if not old.cost and not new.cost:  # where no line states a cost there is nothing to add up
        return
    for kind in dict.fromkeys((*old.cost, *new.cost)):
        label = kind.replace(", ", " and ")
        yield f"cost, {label}", money(old.cost, kind), money(new.cost, kind)
    yield "cost, sum", _sum(old.cost), _sum(new.cost)
    yield "lines without cost", str(old.unpriced), str(new.unpriced)


def money(cost: Mapping[str, Decimal], kind: str) -> str:
    """The cost of one kind of part, as the list writes it."""
    return number(cost.get(kind, Decimal(0)))


def _sum(cost: Mapping[str, Decimal]) -> str:
    return number(sum(cost.values(), Decimal(0)))


def subject(change: "SubjectChange") -> str:
    """`item 10 · PN-1001, sensor`."""
    return " · ".join(filter(None, (f"{change.kind} {change.name}", change.words)))


def verdicts(old: "Verdict | None", new: "Verdict | None") -> str:
    """`flag → pass`; a subject or requirement that is not there is said so."""
    if old is new and new is not None:
        return new.value
    return f"{old.value if old else 'not there'} → {new.value if new else 'not there'}"


def fact(change: "FactChange") -> str:
    """`marking[1]: Ex db IIB T4 Gb → Ex db IIC T4 Gb`, the fact by its key in the list."""
    key = change.fact.removesuffix("_c")  # the name of a plain value says its unit
    unit = " °C" if key != change.fact else ""
    old, new = (f"{one}{unit}" if one else "not stated" for one in (change.old, change.new))
    return f"{_key(key)}: {old} → {new}"


def _key(fact_: str) -> str:
    """The path of a fact with the keys of a list where its field has another name."""
    steps = [step.partition("[") for step in fact_.split(".")]
    return ".".join(_KEYS.get(name, name) + bracket + rest for name, bracket, rest in steps)


def finding(change: "FindingChange") -> str:
    """Rule, where, verdicts, and what differs between required and found."""
    about = " · ".join(filter(None, (change.rule, change.component, change.location)))
    differing = [fact(each) for each in (change.required, change.found) if each.old != each.new]
    because = f" {'; '.join(differing)}." if differing and change.old and change.new else ""
    return f"{about}: {verdicts(change.old, change.new)}. {change.message}{because}"
