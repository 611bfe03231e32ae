"""What the formats say alike of findings, waivers, lists and runs."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import TYPE_CHECKING

from areafit.facts.bom import StatedAt
from areafit.facts.quantity import Dimension, show_range
from areafit.findings.report import PartReport
from areafit.pattern import pattern
from areafit.verdict import Basis, Verdict

if TYPE_CHECKING:
    from datetime import date

    from areafit.answers.causes import Bearer, Cause
    from areafit.facts.bom import Assembly, Bom
    from areafit.facts.quantity import Range
    from areafit.facts.waiver import Waiver
    from areafit.findings.report import BomReport, Counts, Finding, SubjectReport
    from areafit.findings.waivers import WaiverOutcome
    from areafit.tables import LaxerValue
    from areafit_cli.render import Run, Summary
    from areafit_cli.render.subjects import NamedReport

_ASIDE = pattern(r" \([^()]{24,}\)")
_SPAN = pattern(r"(?:, [^,:;]*(?:%|°C)[^,:;]*)+$")


def joined(*words: str | None) -> str:
    """The words that there are, with dots between."""
    return " · ".join(word for word in words if word)


def counted(number: int, word: str) -> str:
    """A number of things: `1 part`, `2 parts`."""
    return f"{number} {word}" if number == 1 else f"{number} {word}s"


def tally(counts: Mapping[Verdict, int], order: Iterable[Verdict]) -> str:
    """How many of each verdict, as far as there are any."""
    return ", ".join(f"{counts[each]} {each.value}" for each in order if counts.get(each))


def span(degrees: "Range") -> str:
    """Temperatures from the lowest to the highest."""
    return show_range(degrees, Dimension.TEMPERATURE)


def items(names: Iterable[str]) -> str:
    """Lines by item, runs of whole numbers drawn together: `1, 4..7, loop A`."""
    runs: list[list[str]] = []
    for name in dict.fromkeys(names):
        last = runs[-1][-1] if runs else ""
        follows = name.isdecimal() and last.isdecimal() and int(name) == int(last) + 1
        if follows and len(name) >= len(last):
            runs[-1].append(name)
        else:
            runs.append([name])
    return ", ".join(f"{run[0]}..{run[-1]}" if len(run) > 2 else ", ".join(run) for run in runs)


def counted_causes(found: "Sequence[Cause]") -> list[str]:
    """How much must change, be answered and be accepted, as far as there is any."""
    of = {kind: [one for one in found if one.kind.value == kind] for kind in _KINDS}
    flags = sum(len(one.bearers) for one in of["to change"])
    parties = len({(one.who, one.vendor) for one in of["to answer"]})
    asked = f"{parties} {'party' if parties == 1 else 'parties'}"
    changed = counted(len(of["to change"]), "cause")
    said = (
        f"{counted(flags, 'flag')} of {changed} to change",
        f"{counted(len(of['to answer']), 'answer')} to get from {asked}",
        f"{counted(len(of['to accept']), 'condition')} to accept",
    )
    return [text for text, kind in zip(said, _KINDS, strict=True) if of[kind]]


_KINDS = ("to change", "to answer", "to accept")


def since(old: "BomReport", new: "BomReport") -> tuple[str, str]:
    """What became of the lines of a list, under the revision that it had; waivers that fell."""
    from areafit.answers.compare import compare  # noqa: PLC0415 - where it is asked for

    found = compare(old, new)
    lines = [one for one in found.subjects if one.kind == "item"]
    turned = sum(None not in (one.old, one.new) and one.old is not one.new for one in lines)
    told = [
        counted(sum(one.old is None for one in lines), "new line"),
        f"{sum(one.new is None for one in lines)} gone",
        f"{len(found.renumbered)} renumbered",
        f"{counted(turned, 'verdict')} turned",
    ]
    void = void_waivers(new)
    fallen = f"; {counted(len(void), 'waiver')} void" if void else ""
    return f"since {old.bom.assembly.revision or 'then'}", f"{', '.join(told)}{fallen}"


def first_step(found: "Sequence[Cause]") -> str:
    """What to do first: what decides most, then whose answers close most; empty if all passes."""
    kinds = [one for one in found if one.first_of_all]
    if kinds:
        lines = counted(len({name for one in kinds for name in one.names}), "line")
        proposed_ = all(one.first.rule.id == "proposed" for one in kinds)
        say = "confirm the proposed kinds" if proposed_ else "say what sort of part it is,"
        return f"{say} of {lines}: that decides what else is asked"
    said = []
    change = next((one for one in found if one.kind.value == _KINDS[0]), None)
    if change is not None:
        others = change.who.value != _READER
        said.append(f"change C1 ({subject(change)}){f' with the {change.who.value}' * others}")
    closing: dict[str, list[Bearer]] = {}
    for one in found:
        if one.kind.value == _KINDS[1] and one.who.value != _READER:
            party = f"{one.who.value} {one.vendor}" if one.vendor else one.who.value
            closing.setdefault(party, []).extend(one.bearers)
    if closing:
        party, settled = max(closing.items(), key=lambda one: len(one[1]))
        names = {bearer.name for bearer in settled}
        lines = items(sorted(names, key=lambda one: (not one.isdecimal(), len(one), one)))
        about = f" about {lines}" if len(lines) <= _FEW else ""
        said.append(f"ask the {party}{about}: {counted(len(settled), 'finding')}")
    elif any(one.kind.value == _KINDS[1] for one in found):
        said.append(f"answer what the {_READER} is asked")
    if not said:
        return "have the conditions accepted, each by the role that it names" if found else ""
    return "; then ".join(said)


_READER = "designer"  # who reads the report
_FEW = 24  # columns of lines that the first step names


def alike(found: "Iterable[tuple[str, Cause]]") -> "Iterable[tuple[str, str, list[Cause]]]":
    """Numbered causes that read alike, told once: `C4, 5`, and what they say.

    Those of one line that differ in the chemical alone are one sentence too.
    """
    groups: dict[str, list[tuple[str, Cause]]] = {}
    for label, cause in found:
        groups.setdefault(short(cause.what), []).append((label, cause))
    merged: dict[tuple[str, tuple[str, ...]], tuple[list[str], list[tuple[str, Cause]]]] = {}
    for said, group in groups.items():
        begin, _, chemical = said.rpartition(" in ") if ":" not in said else (said, "", "")
        key = (begin or said, names_of(cause for _, cause in group))
        chemicals, members = merged.setdefault(key, ([], []))
        chemicals += [chemical] if begin and chemical else []
        members += group
    for (begin, _), (chemicals, members) in merged.items():
        numbers = sorted((label[1:] for label, _ in members), key=int)
        said = f"{begin} in {', '.join(chemicals)}" if chemicals else begin
        yield f"{members[0][0][0]}{items(numbers)}", said, [cause for _, cause in members]


def names_of(found: "Iterable[Cause]") -> tuple[str, ...]:
    """The lines, places and loops of several causes, each once."""
    return tuple(dict.fromkeys(name for cause in found for name in cause.names))


def subject(cause: "Cause") -> str:
    """The lines of a cause, called items; a place or a loop by its name."""
    if cause.bearers[0].part is None:
        return items(cause.names)
    return f"item {items(cause.names)}" if len(cause.names) == 1 else f"items {items(cause.names)}"


def together(found: "Iterable[Cause]") -> "Iterable[list[Cause]]":
    """Causes that one step closes, so that it is told once and reports number them alike."""
    groups: dict[tuple[str, str], list[Cause]] = {}
    for cause in found:
        groups.setdefault((cause.first.rule.id, step(cause.closes)), []).append(cause)
    for group in groups.values():
        first = {short(cause.what): i for i, cause in reversed([*enumerate(group)])}
        group.sort(key=lambda cause: first[short(cause.what)])
    return groups.values()


def step(text: str) -> str:
    """What closes it, its first sentence."""
    return text.partition(". ")[0].rstrip(".")


def short(text: str) -> str:
    """The first sentence, without long asides, strength and temperature."""
    return _SPAN.sub("", _ASIDE.sub("", text).partition(". ")[0].rstrip("."))


def second(text: str) -> str:
    """The second sentence, where there is one."""
    return text.partition(". ")[2].partition(". ")[0].rstrip(".")


def subjects_of(cause: "Cause") -> str:
    """The lines, places and loops of a cause; of an alternate of a line, which one."""
    others = (alternate(bearer.subject, bearer.finding.path) for bearer in cause.bearers)
    return joined(items(cause.names), *dict.fromkeys(others))


# Findings


def alternate(subject: "SubjectReport", path: str) -> str:
    """Which alternative of a part a path is about, in words; empty for the part itself."""
    steps = path.split("/", 4)
    if not isinstance(subject, PartReport) or len(steps) < 4 or steps[2] != "alternates":
        return ""
    number = int(steps[3])
    known = subject.part.alternates[number : number + 1]
    name = known[0].part_number if known else None
    return f"alternate {name or number + 1}"


def described(subject: "NamedReport", finding: "Finding") -> str:
    """A finding in a few sentences: whom it is about, what is wrong, what would pass."""
    names = (alternate(subject.report, finding.path), finding.component)
    about = "".join(f", {name}" for name in names if name)
    place = at_place(subject, finding)
    said = f"{subject.kind.capitalize()} {subject.name}{about}{place}: {finding.message}"
    return " ".join((said, *explained(finding)))


def at_place(subject: "NamedReport", finding: "Finding") -> str:
    """The place that a finding holds for, where that is not the subject itself."""
    own = subject.kind == "location"
    return f" at {finding.location}" if finding.location and not own else ""


def explained(finding: "Finding") -> Iterator[str]:
    """Required, found and what would pass, a sentence each, where there is one."""
    rows = (
        ("Required", finding.required),
        ("Found", finding.found),
        ("Stated by", stated_by(finding)),
        ("Judged under a proposal", proposed(finding)),
        ("To pass", finding.remedy),
    )
    yield from (f"{label}: {text.rstrip('.')}." for label, text in rows if text)


def stated_by(finding: "Finding") -> str:
    """The notes and entries behind the fact, where the line itself does not state it."""
    said: dict[str, dict[str, None]] = {}
    for one in finding.stated_by:
        key = next(step for step in reversed(one.path.split("/")) if not step.isdecimal())
        said.setdefault(f"{one.document} ({one.role}, {one.level.value})", {})[key] = None
    return "; ".join(f"{', '.join(keys)}: {who}" for who, keys in said.items())


def proposed(finding: "Finding") -> str:
    """The keys that a flag rests on and that nobody has confirmed yet."""
    return ", ".join(finding.proposed) and f"{', '.join(finding.proposed)}, not confirmed yet"


def basis_words(basis: Basis | None) -> str:
    """How far the rows behind a finding were checked; empty where they were read."""
    match basis:
        case Basis.REPORTED:
            return "reported: read in a secondary source"
        case Basis.MEMORY:
            return "memory: recalled from the source, not read again"
        case Basis.JUDGEMENT:
            return "judgement: reasoned, or carried over from a similar case"
        case _:
            return ""


# Lists and runs


def assembly_name(assembly: "Assembly") -> str:
    """The machine by number and revision."""
    return (
        f"{assembly.number} revision {assembly.revision}" if assembly.revision else assembly.number
    )


def bases(counts: "Counts") -> str:
    """How many passes rest on each basis."""
    return ", ".join(f"{count} {basis.value}" for basis, count in counts.by_basis.items() if count)


def others_words(report: "BomReport") -> list[str]:
    """How many facts rest on notes and on the library."""
    notes: dict[str, int] = {}
    lent = 0
    for said in report.bom.statements.values():
        for one in said:
            if one.level is StatedAt.LIBRARY:
                lent += 1
            else:
                notes[one.document] = notes.get(one.document, 0) + 1
    library = report.bom.library
    told = []
    if notes:
        names = f"note {next(iter(notes))}" if len(notes) == 1 else counted(len(notes), "note")
        told.append(f"{counted(sum(notes.values()), 'fact')} by {names}")
    if lent:
        entries = "entry" if len(library.used) == 1 else "entries"
        told.append(f"{counted(lent, 'fact')} by library ({len(library.used)} {entries})")
    return told


_NO_EDITION = "edition not stated: those that the clauses cite are applied"


def code_words(bom: "Bom", unstated: str = _NO_EDITION) -> str:
    """The code and its edition, which may name it once more, or what is applied without one."""
    if not bom.edition:
        return f"{bom.law.value} {unstated}"
    named = bom.edition.casefold().startswith(bom.law.value.casefold())
    return bom.edition if named else f"{bom.law.value} {bom.edition}"


def scope(of: "BomReport | Summary") -> str:
    """What a narrowed or relaxed scope means, and which options made it; empty for a full one."""
    if of.scope == "full":
        return ""
    said = "; ".join(f"--{option}" for option in of.narrowed)
    return f"{of.scope}: {said or 'lists were left out of this run'}"


def notices(run: "Run") -> Iterator[str]:
    """What limits the run beside its findings, a sentence each; none where it was plain."""
    for text in dict.fromkeys(map(scope, run.boms)):
        if text:
            yield f"Scope {text}."
    if run.unchanged:
        yield f"Scope partial: {counted(run.unchanged, 'unchanged list')} left out."
    if run.as_of:
        yield f"Judged as of {run.as_of.isoformat()}."
    if run.overlays:
        names = ", ".join(overlay.name for overlay in run.overlays)
        yield f"Own rows were laid over the shipped tables: {names}."
    for option in run.opened:
        yield f"The gate is opened by {option}: the exit status may be 0 for a failed gate."
    yield from (f"{remark}." for bom in run.boms for remark in bom.remarks)
    yield from _of_library(run)
    for entry in run.laxer:
        yield f"An own row is {_use(entry)}: {entry.reason}."


def _of_library(run: "Run") -> Iterator[str]:
    """How much of the library the lists of a run use, and what of that is old."""
    libraries = [bom.library for bom in run.boms if bom.library is not None]
    files = {file for library in libraries for file in library.files}
    used = {entry for library in libraries for entry in library.used}
    entries = sum(file.entries for file in files)
    if entries > len(used):
        yield f"The library has {entries} entries, {len(used)} of them used here."
    for entry in sorted(used, key=lambda each: (each.position.file, each.position.line)):
        if run.stale is not None and entry.confirmed_on < run.stale.since:
            yield (
                f"Library entry {entry.number} ({entry.position}) was confirmed on "
                f"{entry.confirmed_on.isoformat()}, more than {run.stale.words} ago."
            )


def _use(entry: "LaxerValue") -> str:
    if not entry.approved:
        return "not used"
    return "used" if entry.governs else "told beside the shipped one"


NOT_JUDGED = "What no rule judges here"
_NAMED = 8


def not_judged(report: "BomReport") -> Iterator[tuple[str, str]]:
    """What the list touches and no rule judges: the clause, and what, why, whom to ask."""
    from areafit.answers.coverage import not_judged as found  # noqa: PLC0415 - reports only

    for each in found(report.bom):
        row, items = each.row, each.items
        more = f" and {len(items) - _NAMED} more" if len(items) > _NAMED else ""
        word = "item" if len(items) == 1 else "items"
        of = f" ({word} {', '.join(items[:_NAMED])}{more})" if items else ""
        said = f"{row.about}{of}: {row.reason}; ask the {row.who}"
        yield f"{row.document} {row.section}", said


# Waivers


def void_waivers(report: "BomReport") -> tuple["WaiverOutcome", ...]:
    """The waivers of one list that do not hold."""
    return tuple(each for each in report.waiver_outcomes if each.state.value != "used")


def waiver_words(outcome: "WaiverOutcome") -> str:
    """What became of a waiver, in one sentence."""
    waiver = outcome.waiver
    about = f"{waiver.subject.value} {waiver.name}, {waiver.rule}"
    return f"Waiver for {about} is {outcome.state.value}: {outcome.message}."


def granted(waiver: "Waiver") -> str:
    """Why, by whom and until when something was waived."""
    document = f", {waiver.document}" if waiver.document else ""
    return f"{waiver.reason}; {waiver.approved_by}{document}, until {waiver.held}"


_KnownBy = tuple[str, ...]


def asked(
    report: "BomReport",
    found: "Iterable[Cause]",
    known: Iterable[tuple[_KnownBy, tuple[str, str, str]]],
    on: "date | None",
) -> str:
    """The numbers of questions, when they were asked, and what came back and could not be taken."""
    register = dict(known)
    if not register:
        return ""
    from areafit.answers.questions import asked_by  # noqa: PLC0415 - where there is a register

    entries: dict[str, tuple[str, str, str]] = {}
    for cause in found:
        for bearer in cause.bearers:
            for one in asked_by(report, bearer, cause.who):
                if one in register:
                    entries[register[one][0]] = register[one]
    if not entries:
        return ""
    days = sorted({day for _, day, _ in entries.values() if day})
    refused = dict.fromkeys(back for _, _, back in entries.values() if back)
    said = [_numbers(sorted(entries)), f"asked {_since(days[0], on)}" if days else "never asked"]
    said += [f'came back: "{back}"' for back in refused]
    return ", ".join(said)


_MONTHS = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"]


def _since(day: str, on: "date | None") -> str:
    """A day and how long ago that was, `12 Nov, 18 d`; as it is written where it is no day."""
    from datetime import date  # noqa: PLC0415 - where there is a register

    try:
        then = date.fromisoformat(day)
    except ValueError:
        return day
    year = "" if on is not None and on.year == then.year else f" {then.year}"
    ago = "" if on is None or on < then else f", {(on - then).days} d"
    return f"{then.day} {_MONTHS[then.month - 1]}{year}{ago}"


def _numbers(numbers: list[str]) -> str:
    """Numbers of questions, runs drawn together: `V104-01..05, V104-07`."""
    runs: list[list[str]] = []
    for each in numbers:
        stem, _, count = each.rpartition("-")
        before, _, last = runs[-1][-1].rpartition("-") if runs else ("", "", "")
        if stem == before and count.isdecimal() and int(count) == int(last) + 1:
            runs[-1].append(each)
        else:
            runs.append([each])
    return ", ".join(
        run[0] if len(run) == 1 else f"{run[0]}..{run[-1].rpartition('-')[2]}" for run in runs
    )
