"""The work of `areafit part`: one part at one place, judged by the engine that judges lists."""

from collections.abc import Iterator, Mapping, Sequence
from decimal import Decimal
from functools import cache
from types import MappingProxyType
from typing import TypeVar

import areafit
from areafit.answers.asks import asks_of
from areafit.facts.bom import Bom
from areafit.facts.quantity import Range
from areafit.file.facts import Option, facts
from areafit.findings.counts import count
from areafit.findings.report import Answers, BomReport, Finding, Judged, SubjectReport
from areafit.values import replace
from areafit.verdict import Basis, Verdict, worst
from areafit.version import __version__
from areafit_cli import one_part, render, terminal, words
from areafit_cli.errors import Exit
from areafit_cli.one_part import Stated
from areafit_cli.render import Run, Style, summarise, wording
from areafit_cli.render.paper import Paper

S = TypeVar("S", bound=SubjectReport)

# The options beside those of the table of facts
_MEMORY, _TEXT = Basis.MEMORY.value, "text"
OWN = (
    Option("--accept-unproven", "Let what this rule cannot prove pass.", "RULE", repeated=True),
    Option("--least-basis", "The weakest basis of a pass.", "NAME"),
    Option("--whole", "Judge all that a list would ask, and report it whole."),
    Option("--quiet", "Open points only."),
    Option("--exit-zero", "Status 0 for a failed gate too."),
    Option("--format", "", "NAME"),
)
_CLOSED = MappingProxyType(
    {"least_basis": tuple(basis.value for basis in Basis), "format": (_TEXT, "json")}
)


@cache
def options() -> Mapping[str, Option]:
    """The options of a call by their names; `MARKING` is its argument."""
    stated = (option for row in facts().values() for option in row.options())
    return {option.name: option for option in (*stated, *OWN)}


def read_call(arguments: Sequence[str]) -> Stated | None:
    """What a usual call states; None where typer must look at it.

    Importing typer takes longer than judging. What is not understood here, help and every mistake
    included, is left to it; tests hold that both read the same call alike.
    """
    stated: dict[str, tuple[str, ...]] = {}
    rest = iter(arguments)
    for argument in rest:
        name, equals, value = argument.partition("=")
        if not argument.startswith("-"):
            name, equals, value = "MARKING", "=", argument
        option = options().get(name)
        if option is None or (equals and option.flag):
            return None
        key = option.parameter
        if option.flag:
            stated[key] = ()
            continue
        text = value if equals else next(rest, None)
        if text is None or text not in _CLOSED.get(key, (text,)):
            return None
        stated[key] = (*stated.get(key, ()), text) if option.repeated else (text,)
    return stated


def answer(stated: Stated) -> Exit:
    """Judge the part, print the report and return the status of the gate.

    Without `--whole` only what was asked is judged: the nameplate against the place, materials
    against chemicals, and each further fact that is stated.

    Raises:
        CallError: something stated cannot be read.
    """
    bom = one_part.build(stated)
    (least,) = stated.get("least_basis", (_MEMORY,))
    (kind,) = stated.get("format", (_TEXT,))
    accepted = stated.get("accept_unproven", ())
    options = words.options(accept_unproven=accepted, least_basis=Basis(least))
    tables = areafit.Tables.shipped()
    asked: frozenset[str] = frozenset() if "whole" in stated else _asked(stated)
    judged = areafit.judge(_usual(bom) if asked else bom, tables, options)
    whole = _without_assembly(judged)
    report = _only(whole, asked) if asked else whole
    paper = terminal.paper()
    if asked and kind == _TEXT and "quiet" not in stated:
        terminal.write(_short(report, whole, stated, paper))
    else:
        run = Run(__version__, tables.digest, (summarise(report),))
        style = Style(paper.width, paper.colour, "quiet" in stated, brief=True)
        terminal.write(_report(report, run, kind, style))
    return Exit.PASSED if "exit_zero" in stated or report.passes else Exit.FAILED


def _report(report: BomReport, run: Run, kind: str, style: Style) -> Iterator[str]:
    shape = render.find(kind)
    yield from shape.head(run, style)
    yield from shape.body(report, style)
    yield from shape.tail(run, style)


# What was asked

_ALWAYS = frozenset({"declared-area", "substance-known"})
_NAMEPLATE = frozenset(
    {
        *("kind", "protection-level", "protection-type", "gas-group", "dust-group"),
        *("temperature-class", "ambient-range", "marking-consistency"),
        *("special-conditions", "ex-component"),
    }
)
_MATERIALS = frozenset(
    {
        *("chemical-resistance", "stress-corrosion", "pitting", "copper-alloy", "plating"),
        *("material-temperature", "hydrogen-embrittlement", "weld-sensitisation"),
    }
)
_DOCUMENTS = frozenset({"evidence", "document-number"})
_EDITION = "edition of the rules"
_QUESTIONS = (
    ("marking", "nameplate against place", _NAMEPLATE),
    ("material", "materials against chemicals", _MATERIALS),
    ("certificate", "documents", _DOCUMENTS),
    ("declaration", "documents", _DOCUMENTS),
    ("listing", "documents", _DOCUMENTS),
    ("assessment", "ignition hazards", frozenset({"ignition-hazard"})),
    ("ingress", "enclosure rating", frozenset({"ingress"})),
    ("entries", "openings", frozenset({"cable-entry"})),
    ("bonded", "bonding", frozenset({"bonding"})),
    ("surface_temperature", "surface temperature", frozenset({"temperature-class", "hot-surface"})),
    ("materials_complete", "list of materials", frozenset({"materials-listed"})),
    ("edition", _EDITION, frozenset({"edition"})),
    ("no_contacts", "contacts", frozenset({"galvanic-couple"})),
    ("electrical_content", "kind", frozenset({"kind"})),
    ("description", "description", frozenset({"kind"})),
    ("rubbing_speed", "rubbing", frozenset({"rubbing-speed"})),
    ("drop_height", "falls and blows", frozenset({"impact"})),
    ("end_stops", "falls and blows", frozenset({"impact"})),
    ("drive", "drive", frozenset({"air-supply", "rubbing-speed"})),
    ("air_drawn", "compressed air", frozenset({"air-supply"})),
    ("air_let_out", "compressed air", frozenset({"air-supply"})),
    ("on_loss_of_air", "compressed air", frozenset({"air-supply"})),
    ("protects", "removal", frozenset({"tool-release"})),
    ("release", "removal", frozenset({"tool-release"})),
    ("loose_parts", "loose parts", frozenset({"loose-parts"})),
    ("resistance_to_earth", "bonding", frozenset({"bonding"})),
    ("capacitance", "bonding", frozenset({"bonding"})),
    ("use", "belts and hoses", frozenset({"belt-and-hose"})),
    ("belt_speed", "belts and hoses", frozenset({"belt-and-hose"})),
    ("conveys", "belts and hoses", frozenset({"belt-and-hose"})),
    ("resistance", "belts and hoses", frozenset({"belt-and-hose"})),
    ("form", "belts and hoses", frozenset({"belt-and-hose"})),
    ("sparks", "hand tools", frozenset({"hand-tools"})),
    ("brake", "brake", frozenset({"brake-energy"})),
    ("brake_energy", "brake", frozenset({"brake-energy"})),
    ("brake_rated_energy", "brake", frozenset({"brake-energy"})),
    ("brake_interlocked", "brake", frozenset({"brake-energy"})),
    ("slip", "clutch", frozenset({"clutch-slip"})),
    ("liquid", "working liquid", frozenset({"working-liquid"})),
    ("surface_area", "static", frozenset({"static-surface"})),
    ("surface_resistance", "static", frozenset({"static-surface"})),
    ("width", "static", frozenset({"static-surface"})),
    ("framed", "static", frozenset({"static-surface"})),
    ("counterface", "sparks of light metal", frozenset({"light-metal"})),
)
"""Each option of a question, what is asked by it, and the rules that answer."""
_BARE = ("sort of part and what shows its safety", frozenset({"kind", "ignition-hazard"}))
_USUAL = Range(Decimal(-20), Decimal(40))  # where no other ambient is marked or asked for
_CAUTION = (
    "Stated facts against tables; nothing is certified. The adopted code, the authority having "
    "jurisdiction and a competent person decide. Confirm a pass on the delivered part."
)
_LINES = 15
_NAMED = 3  # options that would close a finding
_FEW = 3  # lines of what was shown that stay beside what is open
_NARROW = 60


def _asked(stated: Stated) -> frozenset[str]:
    """The rules that answer what is asked; what sort of part it is, where nothing else is."""
    rules = {option: rules for option, _, rules in _QUESTIONS if option in stated}
    bare = () if rules.keys() - {"edition"} else (_BARE[1],)
    return _ALWAYS.union(*rules.values(), *bare)


def _usual(bom: Bom) -> Bom:
    """The place with what a question about a part need not state: its document and its air."""
    places = {
        name: replace(place, document=place.document or "as asked", ambient=place.ambient or _USUAL)
        for name, place in bom.places.items()
    }
    return replace(bom, places=places)


def _only(report: BomReport, rules: frozenset[str]) -> BomReport:
    """The report as far as these rules go."""
    own = _narrowed(report.own, rules)
    parts = tuple(_narrowed(part, rules) for part in report.parts)
    places = tuple(_narrowed(place, rules) for place in report.places)
    counts = count(own, parts, places, report.loops)
    scope = "partial" if report.scope == "full" else report.scope
    return replace(report, own=own, parts=parts, places=places, counts=counts, scope=scope)


def _narrowed(subject: S, rules: frozenset[str]) -> S:
    blocks = tuple(
        replace(block, judged=Answers(each for each in block.judged if each.rule.id in rules))
        for block in subject.blocks
    )
    return replace(subject, blocks=blocks, verdict=worst(block.verdict for block in blocks))


def _short(report: BomReport, whole: BomReport, stated: Stated, paper: Paper) -> Iterator[str]:
    """The answer in the first line, then what holds it, at most fifteen lines."""
    topics = list(dict.fromkeys(text for option, text, _ in _QUESTIONS if option in stated))
    if set(topics) <= {_EDITION}:
        topics.insert(0, _BARE[0])
    found = [finding for subject in report.subjects() for finding in subject.findings()]
    open_ = [finding for finding in found if not finding.verdict.passes]
    flagged = any(finding.verdict is Verdict.FLAG for finding in open_)
    said = "does not fit" if flagged else "unproven" if open_ else "fits"
    first = list(_line(f"{said}: {_topics(topics, paper)}, not released", paper))
    rest = list(_beside(found, whole, stated, paper))
    room = _LINES - len(first) - len(rest)
    flags = sum(finding.verdict is Verdict.FLAG for finding in open_)
    spare = room - 2 * flags - (len(open_) > flags)  # no flag gives way to what was shown
    few = len(list(_shown(found, open_, min(_FEW, spare), paper)))
    held = list(_held(open_, room - few, stated, paper))
    yield from first
    yield from held
    yield from _shown(found, open_, room - len(held), paper)
    yield from rest


def _topics(topics: list[str], paper: Paper) -> str:
    """What was asked, as many of it as one line holds."""
    room = paper.width - len("does not fit: , not released")
    for kept in range(len(topics), 0, -1):
        more = len(topics) - kept
        said = ", ".join(topics[:kept]) + (f" and {more} more" if more else "")
        if len(said) <= room:
            return said
    return topics[0]


def _held(open_: Sequence[Finding], room: int, stated: Stated, paper: Paper) -> Iterator[str]:
    """What is open, flags first: in full where all of it finds room, else as many as do."""
    if not open_:
        return
    ordered = sorted(open_, key=lambda each: each.verdict is not Verdict.FLAG)
    told = [list(_told(finding, stated, paper)) for finding in ordered]
    if sum(map(len, told)) > room:
        told = [list(_told(finding, stated, paper, cut=True)) for finding in ordered]
    kept: list[str] = []
    for number, lines in enumerate(told):
        left = len(told) - number
        if len(kept) + len(lines) > room - (left > 1):
            kept += _line(f"and {left} more: --whole", paper, "  ")
            break
        kept += lines
    yield from kept


def _told(finding: Finding, stated: Stated, paper: Paper, *, cut: bool = False) -> Iterator[str]:
    """A finding, what closes it, and the options that would say it."""
    lead = f"  {finding.verdict.value}  "
    step = finding.remedy or finding.rule.remedy
    said = [
        option.name
        for asked in asks_of(finding)
        for option in asked.row.options()
        if option.parameter not in stated
    ]
    if said and finding.verdict is not Verdict.FLAG:
        step = f"{step.rstrip('.')} [{', '.join(said[:_NAMED])}]"
    if cut:
        yield from _line(wording.short(finding.message), paper, lead)
        yield from _line(step, paper, "    -> ")
    else:
        yield from paper.wrap(f"{wording.short(finding.message)}.", lead, "    ")
        yield from paper.wrap(step, "    -> ", "       ")


def _shown(
    found: Sequence[Finding], open_: Sequence[Finding], room: int, paper: Paper
) -> Iterator[str]:
    """The titles of what was shown, as many as find room."""
    held = {finding.rule.id for finding in open_} | _ALWAYS
    titles = list(
        dict.fromkeys(
            f.rule.title for f in found if f.verdict is Verdict.PASS and f.rule.id not in held
        )
    )
    for kept in range(len(titles), 0, -1):
        more = len(titles) - kept
        said = "; ".join(titles[:kept]) + (f"; and {more} more" if more else "")
        lines = list(paper.wrap(said, "shown: ", "  "))
        if len(lines) <= room:
            yield from lines
            return


def _beside(
    found: Sequence[Finding], whole: BomReport, stated: Stated, paper: Paper
) -> Iterator[str]:
    """What was taken for granted, what a list would ask beside, the caution."""
    if "ambient" not in stated:
        yield from _line("judged for -20..40 °C, since --ambient is not stated", paper)
    unsaid = [key for key in ("document", "ambient") if key not in stated]
    also = [*unsaid, *_also(whole, {finding.rule.id for finding in found})]
    if also:
        yield from paper.wrap(", ".join(also), "to release it in a list, also: ", "  ")
    yield from paper.wrap(_CAUTION)


def _also(whole: BomReport, answered: set[str]) -> list[str]:
    """What a list would ask beside: the keys that its open findings name."""
    keys = (
        asked.key
        for subject in whole.subjects()
        for finding in subject.open_findings()
        if finding.rule.id not in answered
        for asked in asks_of(finding)[:1]
    )
    return list(dict.fromkeys(key.replace("_", " ") for key in keys))


def _line(text: str, paper: Paper, lead: str = "") -> Iterator[str]:
    """One line, cut where it is full; a narrow window wraps."""
    room = paper.width - len(lead)
    short = text if len(text) <= room or paper.width < _NARROW else f"{text[: room - 1]}…"
    yield from paper.wrap(short, lead, " " * len(lead))


# What a question about a single part cannot be about: the machine that it goes into

_ASSEMBLY = "assembly-assessment"
_ELSEWHERE = (
    "A single part was asked about, so the assembly was not judged: `areafit check` judges it in "
    "a list."
)


def _without_assembly(report: BomReport) -> BomReport:
    """The report of one part, what holds for the assembly said to be not applicable.

    The finding stays in the report with its requirement, so that nobody takes it for met. The
    edition of the rules counts for a single part too.
    """
    own = report.own
    blocks = tuple(
        replace(block, judged=Answers(map(_not_asked, block.judged))) for block in own.blocks
    )
    found = SubjectReport(own.name, worst(block.verdict for block in blocks), blocks, own.bom)
    return replace(report, own=found)


def _not_asked(judged: Judged) -> Judged:
    if judged.rule.id != _ASSEMBLY:
        return judged
    judgement = replace(
        judged.judgement,
        verdict=Verdict.NOT_APPLICABLE,
        message=_ELSEWHERE,
        found="one part",
        reason=None,
    )
    return Judged(judged.rule, judged.ask, judgement)
