"""`areafit compare`: two revisions of a list, or two variants of a design."""

from collections.abc import Iterator, Mapping, Sequence
from decimal import Decimal
from types import MappingProxyType
from typing import TYPE_CHECKING, Annotated

import typer

from areafit.answers.compare import Comparison, compare
from areafit.facts.quantity import number
from areafit.verdict import Basis, Verdict
from areafit_cli import lists, terminal
from areafit_cli.errors import CallError, Exit
from areafit_cli.options import (
    AcceptOption,
    AsOfOption,
    ConfigOption,
    ExitZeroOption,
    FullOption,
    LeastBasisOption,
    NoConfigOption,
    NoWaiversOption,
    PageFormat,
    TablesOption,
    WaiversOption,
)
from areafit_cli.render import wording
from areafit_cli.render.as_markdown import escape
from areafit_cli.render.json_text import fields

if TYPE_CHECKING:
    from areafit.answers.compare import FindingChange, SubjectChange
    from areafit.answers.stated import FactChange
    from areafit.findings.report import BomReport
    from areafit_cli.render.paper import Paper

Reports = tuple["BomReport", "BomReport"]
EXAMPLE = "areafit compare old.yaml new.yaml --format markdown"
_KEYS = MappingProxyType({"kinds": "kind", "markings": "marking", "surface": "surface_temperature"})
_SHOWN = 3
_NO_CHANGE = "Nothing changed in verdict, fact or requirement."


def command(
    old: Annotated[str, typer.Argument(metavar="OLD", help="The list as it was.")],
    new: Annotated[str, typer.Argument(metavar="NEW", help="The list as it is; it gates.")],
    *,
    format_: Annotated[PageFormat, typer.Option("--format")] = PageFormat.TEXT,
    full: FullOption = False,
    tables: TablesOption = None,
    as_of: AsOfOption = None,
    waivers: WaiversOption = None,
    no_waivers: NoWaiversOption = False,
    accept_unproven: AcceptOption = None,
    least_basis: LeastBasisOption = Basis.MEMORY,
    exit_zero: ExitZeroOption = False,
    no_config: NoConfigOption = False,
    config_: ConfigOption = None,
) -> None:
    """Tell in ten lines what matters: verdicts, certified items, cost, questions; or all of it."""
    del no_config, config_
    if old == new == "-":
        raise CallError("only one of the two lists can come from standard input")

    def judged(name: str) -> "BomReport":
        return lists.report(
            name,
            tables=tables,
            as_of=as_of,
            waivers=() if no_waivers else waivers or (),
            accept_unproven=accept_unproven or (),
            least_basis=least_basis,
        )

    before, after = reports = judged(old), judged(new)
    found = compare(before, after)
    match format_:
        case PageFormat.JSON:
            terminal.write_json(_data(found, reports))
        case PageFormat.MARKDOWN:
            terminal.write(_markdown(found, reports))
        case PageFormat.TEXT:
            text = _text if full else _in_short
            terminal.write(text(found, reports, terminal.paper()))
    raise typer.Exit(Exit.PASSED if exit_zero or after.passes else Exit.FAILED)


def _data(found: Comparison, reports: Reports) -> dict[str, object]:
    old, new = reports
    return {
        "old": _side(old) | fields(found.old),
        "new": _side(new) | fields(found.new),
        "renumbered": [fields(each) for each in found.renumbered],
        "unclear": [fields(each) for each in found.unclear],
        "subjects": [fields(change) for change in found.subjects],
    }


def _side(report: "BomReport") -> dict[str, object]:
    assembly = fields(report.bom.assembly)
    return {"path": report.bom.name, "assembly": assembly, "gate": report.gate}


# In words


def _name(report: "BomReport") -> str:
    """A list by number, revision and file."""
    return f"{wording.assembly_name(report.bom.assembly)} ({report.bom.name})"


def _totals(found: Comparison) -> Iterator[tuple[str, str, str]]:
    """What the lists add up to: label, old, new."""
    old, new = found.old, found.new
    yield "gate", found.old_gate, found.new_gate
    yield "parts", str(old.parts), str(new.parts)
    yield "certified items", str(old.certified), str(new.certified)
    if not old.cost and not new.cost:  # where no line states a cost there is nothing to add up
        return
    for kind in dict.fromkeys((*old.cost, *new.cost)):
        label = kind.replace(", ", " and ")
        yield f"cost, {label}", _money(old.cost, kind), _money(new.cost, kind)
    yield "cost, sum", _sum(old.cost), _sum(new.cost)
    yield "lines without cost", str(old.unpriced), str(new.unpriced)


def _money(cost: Mapping[str, Decimal], kind: str) -> str:
    """The cost of one kind of part, as the list writes it."""
    return number(cost.get(kind, Decimal(0)))


def _sum(cost: Mapping[str, Decimal]) -> str:
    return number(sum(cost.values(), Decimal(0)))


def _of_lines(found: Comparison) -> Iterator[str]:
    """What became of lines as a whole: one line for all that only changed their items."""
    if moved := found.renumbered:
        told = ", ".join(f"{each.old} → {each.new}" for each in moved[:_SHOWN])
        more = f" and {len(moved) - _SHOWN} more" if len(moved) > _SHOWN else ""
        yield f"{wording.counted(len(moved), 'line')} renumbered: {told}{more}."
    for each in found.unclear:
        old, new = ", ".join(each.old), ", ".join(each.new)
        yield (
            f"{each.part_number}: items {old} of the old list and {new} of the new one cannot be "
            "told apart; a `line_id` on each tells them."
        )


def _subject(change: "SubjectChange") -> str:
    """`item 10 · PN-1001, sensor`."""
    return wording.joined(f"{change.kind} {change.name}", change.words)


def _verdicts(old: "Verdict | None", new: "Verdict | None") -> str:
    """`flag → pass`; a subject or requirement that is not there is said so."""
    if old is new and new is not None:
        return new.value
    return f"{old.value if old else 'not there'} → {new.value if new else 'not there'}"


def _fact(change: "FactChange") -> str:
    """`marking[1]: Ex db IIB T4 Gb → Ex db IIC T4 Gb`, the fact by its key in the list."""
    key = change.fact.removesuffix("_c")  # the name of a plain value says its unit
    unit = " °C" if key != change.fact else ""
    old, new = (f"{one}{unit}" if one else "not stated" for one in (change.old, change.new))
    return f"{_key(key)}: {old} → {new}"


def _key(fact_: str) -> str:
    """The path of a fact with the keys of a list where its field has another name."""
    steps = [step.partition("[") for step in fact_.split(".")]
    return ".".join(_KEYS.get(name, name) + bracket + rest for name, bracket, rest in steps)


def _finding(change: "FindingChange") -> str:
    """Rule, where, verdicts, and what differs between required and found."""
    about = wording.joined(change.rule, change.component, change.location)
    differing = [_fact(each) for each in (change.required, change.found) if each.old != each.new]
    because = f" {'; '.join(differing)}." if differing and change.old and change.new else ""
    return f"{about}: {_verdicts(change.old, change.new)}. {change.message}{because}"


# In ten lines

_WORST_FIRST = (
    Verdict.FLAG,
    Verdict.UNPROVEN,
    Verdict.WAIVED,
    Verdict.NOT_APPLICABLE,
    Verdict.PASS,
)


def _in_short(found: Comparison, reports: Reports, paper: "Paper") -> Iterator[str]:
    """What matters, a line each: all that is behind it is told in full."""
    yield from paper.labelled("old", _name(reports[0]), 0, 12)
    yield from paper.labelled("new", _name(reports[1]), 0, 12)
    yield f"{'GATE':<12}{paper.paint(found.old_gate)} → {paper.paint(found.new_gate)}\n"
    room = max(paper.width, 60) - 12
    told = [
        ("turned", _turned(found, room)),
        ("lines", _lines(found, room)),
        ("certified", _both(str(found.old.certified), str(found.new.certified), "item")),
        ("cost", _cost(found)),
        ("questions", _asked_anew(reports, room)),
        ("items", _renumbered(found, room)),
    ]
    for label, text in told:
        if text:
            yield f"{label:<12}{text}\n"
    if not found.subjects:
        yield f"{_NO_CHANGE}\n"
    else:
        yield "--full tells each fact, requirement and finding behind it\n"


def _turned(found: Comparison, room: int) -> str:
    """Which subjects have another verdict, the worst first."""
    turned = [one for one in found.subjects if one.old and one.new and one.old is not one.new]
    if not turned:
        return "none" if found.subjects else ""
    groups = []
    for verdict in _WORST_FIRST:
        own = [one for one in turned if one.new is verdict]
        names = [one.name if one.kind == "item" else f"{one.kind} {one.name}" for one in own]
        if own:
            groups.append((f"{len(own)} to {verdict.value} (", names))
    each = (room - 3 * len(groups)) // len(groups)
    return "; ".join(f"{head}{_fitting(names, each - len(head))})" for head, names in groups)


def _lines(found: Comparison, room: int) -> str:
    """How many there are, which are new and which are gone."""
    items = [one for one in found.subjects if one.kind == "item"]
    said = [_both(str(found.old.parts), str(found.new.parts), "line")]
    for word, own in (
        ("new", [one.name for one in items if one.old is None]),
        ("gone", [one.name for one in items if one.new is None]),
    ):
        if own:
            said.append(f"{len(own)} {word} ({_fitting(own, (room - 12) // 2 - 10)})")
    return "; ".join(said)


def _renumbered(found: Comparison, room: int) -> str:
    """Lines that only changed their items, and those that cannot be told apart."""
    each = room // 2 if found.unclear else room
    moved = [f"{one.old} → {one.new}" for one in found.renumbered]
    count = f"{wording.counted(len(moved), 'line')} renumbered"
    said = [f"{count}: {_fitting(moved, each - len(count))}"] if moved else []
    if found.unclear:
        names = [one.part_number for one in found.unclear]
        said.append(f"cannot be told apart: {_fitting(names, each - 22)}")
    return "; ".join(said)


def _both(old: str, new: str, what: str) -> str:
    return f"{wording.counted(int(new), what)}, as before" if old == new else f"{old} → {new}"


def _cost(found: Comparison) -> str:
    """The sum of what is priced, and how many lines are not."""
    old, new = found.old, found.new
    if not old.cost and not new.cost:
        return ""
    before, after = _sum(old.cost), _sum(new.cost)
    said = f"{after}, as before" if before == after else f"{before} → {after}"
    return f"{said}, {wording.counted(new.unpriced, 'line')} without" if new.unpriced else said


def _asked_anew(reports: Reports, room: int) -> str:
    """How many questions are new, of whom, and how many are closed."""
    from areafit.answers.questions import questions  # noqa: PLC0415 - loads on demand

    before, after = (
        {(one.party.name, one.line, one.key, one.about): one for one in questions(report)}
        for report in reports
    )
    new = [one.party.name for identity, one in after.items() if identity not in before]
    closed = sum(identity not in after for identity in before)
    if not new and not closed:
        return f"{len(after)}, as before" if after else ""
    by_party = [f"{party} {new.count(party)}" for party in dict.fromkeys(new)]
    whom = f" ({_fitting(by_party, room - 26)})" if new else ""
    return f"{len(new)} new{whom}, {closed} closed"


def _fitting(texts: Sequence[str], room: int) -> str:
    """As many as a line holds, and how many more there are; always the first."""
    shown = list(texts)
    while len(shown) > 1 and len(_some(shown, len(texts))) > room:
        shown.pop()
    return _some(shown, len(texts)) if shown else ""


def _some(shown: Sequence[str], of: int) -> str:
    more = f" and {of - len(shown)} more" if of > len(shown) else ""
    return ", ".join(shown) + more


# As text


def _text(found: Comparison, reports: Reports, paper: "Paper") -> Iterator[str]:
    """Sums first, then every subject that differs."""
    yield from paper.labelled("old", _name(reports[0]), 0, 5)
    yield from paper.labelled("new", _name(reports[1]), 0, 5)
    yield f"\nGATE {paper.paint(found.old_gate)} → {paper.paint(found.new_gate)}\n"
    totals = [row for row in _totals(found) if row[0] != "gate"]
    column = 2 + max(len(label) for label, _, _ in totals)
    for label, old, new in totals:
        both = old if old == new else f"{old} → {new}"
        yield from paper.labelled(label, both, 2, column)
    yield paper.heading("Changes")
    for line in _of_lines(found):
        yield from paper.wrap(line)
    if not found.subjects:
        yield f"{_NO_CHANGE}\n"
    for change in found.subjects:
        yield from _change(change, paper)


def _change(change: "SubjectChange", paper: "Paper") -> Iterator[str]:
    yield "\n"
    title = f"{_subject(change)}: {_verdicts(change.old, change.new)}"
    yield from paper.wrap(title)
    if change.old is None or change.new is None:
        return
    for label, changes in (("fact", change.facts), ("requires", change.requirements)):
        for each in changes:
            yield from paper.labelled(label, _fact(each), 2, 10)
    for finding in change.findings:
        yield from paper.labelled("finding", _finding(finding), 2, 10)


# As Markdown


def _markdown(found: Comparison, reports: Reports) -> Iterator[str]:
    """A table of sums and one of subjects that differ."""
    old, new = map(_name, reports)
    yield f"## {escape(old)} → {escape(new)}\n\n"
    yield "| | old | new |\n| --- | --- | --- |\n"
    for row in _totals(found):
        yield f"| {' | '.join(map(escape, row))} |\n"
    for line in _of_lines(found):
        yield f"\n{escape(line)}\n"
    if not found.subjects:
        yield f"\n{_NO_CHANGE}\n"
        return
    yield "\n| subject | verdict | facts | requirements | findings |\n"
    yield "| --- | --- | --- | --- | --- |\n"
    for change in found.subjects:
        there = change.old is not None and change.new is not None
        cells = (
            _subject(change),
            _verdicts(change.old, change.new),
            "; ".join(map(_fact, change.facts)) if there else "",
            "; ".join(map(_fact, change.requirements)) if there else "",
            "; ".join(map(_finding, change.findings)),
        )
        yield f"| {' | '.join(map(escape, cells))} |\n"
