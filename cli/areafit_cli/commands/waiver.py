"""`areafit waiver`: accepted deviations, written so that they are bound to the facts."""

import sys
from collections.abc import Callable, Iterable, Iterator
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

import areafit
from areafit.facts.bom import Position
from areafit.facts.waiver import WaivedSubject, Waiver
from areafit.rule import Family
from areafit.verdict import Role, Verdict
from areafit_cli import lists, paths, terminal, words
from areafit_cli.errors import CallError, unknown
from areafit_cli.options import ConfigOption, NoConfigOption, TablesOption, flag, value

if TYPE_CHECKING:
    from areafit.findings.report import BomReport, Finding, SubjectReport

EXAMPLE = (
    'areafit waiver add bom.yaml --item 10 --rule gas-group --reason "vented hood" '
    '--approved-by "area owner" --until 2030-06-30 --document "DN-12 rev A" '
    "--file waivers.yaml"
)
group = typer.Typer(add_completion=False, no_args_is_help=True)
_FINDING, _WAIVER = "The finding", "The waiver"
_NOWHERE = Position("", 0, 0)
_LONG = 5 * 366  # days


@group.callback()
def _top() -> None:
    """Write waivers: deviations that a role answers for, until a date."""


@group.command("add", epilog=f"Example: {EXAMPLE}")
def add(
    bom: Annotated[str, typer.Argument(metavar="BOM", help="The list with the finding.")],
    *,
    rule: Annotated[str, value("The rule that found it. Required.", _FINDING, "RULE")] = "",
    item: Annotated[
        list[str] | None, value("The item that it is about (repeatable),", _FINDING, "ITEM")
    ] = None,
    loop: Annotated[str | None, value("or the loop,", _FINDING, "NAME")] = None,
    place: Annotated[str | None, value("or the location.", _FINDING, "NAME")] = None,
    component: Annotated[
        str | None, value("The component, where several.", _FINDING, "TEXT")
    ] = None,
    at: Annotated[
        str | None, value("The location of the item, where several.", _FINDING, "NAME")
    ] = None,
    all_alike: Annotated[
        bool, flag("--all-alike", "Every finding of the same cause; its items are shown.", _FINDING)
    ] = False,
    yes: Annotated[bool, flag("--yes", "With --all-alike: do not ask.", _FINDING)] = False,
    fingerprint: Annotated[
        str, value("How its fingerprint starts, where nothing else tells.", _FINDING, "TEXT")
    ] = "",
    reason: Annotated[
        str,
        value("Why it is acceptable. Required.", _WAIVER, "TEXT"),
    ] = "",
    approved_by: Annotated[
        str,
        value("The role that answers. Required.", _WAIVER, "ROLE"),
    ] = "",
    until: Annotated[
        str,
        value("The last day it holds, or `revision E`. Required.", _WAIVER, "DATE"),
    ] = "",
    document: Annotated[
        str | None,
        value(
            "Where it is written; needed for a flag of an area, documents, ignition or loop rule.",
            _WAIVER,
        ),
    ] = None,
    file: Annotated[
        str, value("The waiver file; made if new. Required.", metavar="FILE", name="--file")
    ] = "",
    tables: TablesOption = None,
    no_config: NoConfigOption = False,
    config_: ConfigOption = None,
) -> None:
    """Write a waiver for one open finding, bound by fingerprint to the facts it rests on."""
    del no_config, config_
    _see_complete(
        {
            "--item, --loop or --place": (item or [""])[0] or loop or place or all_alike * "-",
            "--rule": rule,
            "--reason": reason,
            "--approved-by": approved_by,
            "--until": until,
            "--file": file,
        }
    )
    known = [each.id for each in areafit.RULES]
    rule = rule.casefold()
    if rule not in known:
        raise unknown("rule", rule, known)
    revision = until.partition(" ")[2].strip() if until.startswith("revision ") else None
    last = date.max if revision else words.day(until)
    if last < words.today():
        raise CallError(f"--until {until} is past; a waiver needs a day to come")
    path = Path(file)
    waivers = [file] if path.exists() else []
    report = lists.report(bom, tables=tables, waivers=waivers)

    def meant(finding: "Finding") -> bool:
        return (
            finding.rule.id == rule
            and component in (None, finding.component)
            and at in (None, finding.location)
            and (all_alike or finding.fingerprint.startswith(fingerprint))
        )

    if all_alike:
        covered = _alike(report, rule, item or (), meant, fingerprint)
        if not yes:
            _confirm(covered, rule)
    else:
        subjects = [_subject(one, loop, place) for one in dict.fromkeys(item or (None,))]
        covered = [_named(report, rule, *each, meant, path) for each in subjects]
    waivers_ = [
        Waiver(
            subject=subject,
            name=name,
            rule=rule,
            fingerprint=found.fingerprint,
            reason=reason.strip(),
            approved_by=approved_by.strip(),
            until=last,
            position=_NOWHERE,
            component=found.component,
            document=document.strip() if document else None,
            assembly=report.bom.assembly.number,
            revision=revision,
        )
        for subject, name, found in covered
    ]
    for waiver in waivers_:
        _refuse_void(report, waiver)
    _append(path, waivers_)
    for note in dict.fromkeys(note for waiver in waivers_ for note in _doubts(waiver)):
        terminal.note(f"areafit: {note}")
    for waiver, (_, _, found) in zip(waivers_, covered, strict=True):
        terminal.write(_told(waiver, found, path))


def _named(  # noqa: PLR0917 - a finding, and how it is named
    report: "BomReport",
    rule: str,
    subject: WaivedSubject,
    name: str,
    meant: "Callable[[Finding], bool]",
    path: Path,
) -> "_Covered":
    """The one open finding that is named.

    Raises:
        CallError: there is none, or more than one.
    """
    narrowed = [finding for finding in _on(report, subject, name) if meant(finding)]
    open_ = [finding for finding in narrowed if not finding.verdict.passes]
    about = f"{rule} on {subject.value} {name}"
    if not open_:
        raise _nothing_open(narrowed, about, path)
    return subject, name, _one(open_, about)


_Covered = tuple[WaivedSubject, str, "Finding"]


def _alike(
    report: "BomReport",
    rule: str,
    items: "Iterable[str]",
    meant: "Callable[[Finding], bool]",
    fingerprint: str,
) -> list[_Covered]:
    """Every finding of the one cause that is meant; how one's fingerprint starts may tell which.

    Raises:
        CallError: several causes are, or the rule asks for each finding to be named.
    """
    from areafit.answers.causes import causes  # noqa: PLC0415 - loads on demand

    wanted = set(items)
    found = []
    for cause in causes(report):
        own = [bearer for bearer in cause.bearers if meant(bearer.finding)]
        named = not wanted or wanted & {bearer.name for bearer in own}
        if named and any(bearer.finding.fingerprint.startswith(fingerprint) for bearer in own):
            found.append(own)
    if not found:
        raise CallError(f"no open finding of {rule} is like that; `areafit check` lists them")
    if len(found) > 1:
        for own in found:
            names = ", ".join(dict.fromkeys(bearer.name for bearer in own))
            shown = own[0].finding.fingerprint[:8]
            terminal.note(f"  --fingerprint {shown}  {own[0].finding.message} ({names})")
        raise CallError("more than one cause of this rule is open; add one of these")
    covered: dict[str, _Covered] = {}
    for bearer in found[0]:
        one = bearer.finding
        flagged = one.verdict is Verdict.FLAG and one.rule.family in {Family.AREA, Family.LOOPS}
        if flagged or rule in {"library-agreement", "answer-agreement"}:
            raise CallError(f"{rule} is waived one by one: name each finding by --item and --at")
        subject = WaivedSubject.ITEM
        if one.path.startswith("loops"):
            subject = WaivedSubject.LOOP
        elif one.path.startswith("locations"):
            subject = WaivedSubject.PLACE
        name = bearer.name.removeprefix("loop ")
        covered[one.fingerprint] = (subject, name, one)
    return list(covered.values())


def _confirm(covered: list[_Covered], rule: str) -> None:
    """Show what would be covered and ask.

    Raises:
        CallError: nobody can be asked, or the answer is no.
    """
    for subject, name, found in covered:
        terminal.write(terminal.paper().wrap(f"{subject.value} {name}: {found.message}"))
    if sys.stdin is None or not sys.stdin.isatty():
        raise CallError(f"nothing was written: look at these {len(covered)} and add --yes")
    if not typer.confirm(f"Waive these {len(covered)} findings of {rule}?", default=False):
        raise CallError("nothing was written")


@group.command("renew", epilog="Example: areafit waiver renew waivers.yaml bom.yaml")
def renew(
    file: Annotated[str, typer.Argument(metavar="FILE", help="The waiver file.")],
    bom: Annotated[str, typer.Argument(metavar="BOM", help="The list that it is for.")],
    *,
    confirm: Annotated[
        list[int] | None,
        typer.Option(
            "--confirm",
            metavar="N",
            help="Renew this one; where no terminal can ask. Repeatable.",
        ),
    ] = None,
    tables: TablesOption = None,
    no_config: NoConfigOption = False,
    config_: ConfigOption = None,
) -> None:
    """Bind waivers that the facts left behind to the findings of today, each as confirmed."""
    del no_config, config_
    path = Path(file)
    offers = _offers(lists.report(bom, tables=tables, waivers=[file]))
    if not offers:
        terminal.write(terminal.paper().wrap(f"Nothing to renew in {paths.shown(path)}."))
        return
    wrong = set(confirm or ()) - set(range(1, len(offers) + 1))
    if wrong:
        raise CallError(f"--confirm {min(wrong)}: there are {len(offers)} to renew")
    asking = confirm is None and sys.stdin is not None and sys.stdin.isatty()
    for number, (waiver, finding) in enumerate(offers, 1):
        terminal.write(_offered(number, waiver, finding))
        if number in (confirm or ()) or (asking and typer.confirm("Renew it?", default=False)):
            _rewrite(path, waiver, finding.fingerprint)
            terminal.write(terminal.paper().wrap(f"Renewed in {paths.shown(path)}."))
    if confirm is None and not asking:
        raise CallError("nothing was renewed: confirm each of these with `--confirm N`")


def _offers(report: "BomReport") -> "list[tuple[Waiver, Finding]]":
    """Each waiver that the facts left behind, with each finding that it could be renewed for."""
    from areafit.findings.waivers import WaiverState, beside  # noqa: PLC0415 - digests on demand

    return [
        (outcome.waiver, finding)
        for outcome in report.waiver_outcomes
        if outcome.state is WaiverState.STALE
        for finding in beside(report, outcome.waiver)
    ]


def _offered(number: int, waiver: Waiver, finding: "Finding") -> Iterator[str]:
    paper = terminal.paper()
    yield from paper.wrap(f"{number}. {waiver.subject.value} {waiver.name}, {waiver.rule}")
    rows = (
        ("granted", f"{waiver.reason} ({waiver.approved_by}, until {waiver.held})"),
        ("location", finding.location),
        ("component", finding.component),
        ("today", f"{finding.verdict.value}: {finding.message}"),
        ("required", finding.required),
        ("found", finding.found),
    )
    for label, text in rows:
        if text:
            yield from paper.labelled(label, text, 2, 11)


def _rewrite(path: Path, waiver: Waiver, fingerprint: str) -> None:
    """Put the new fingerprint into the entry as the file is now."""
    from areafit.file.waivers import read_waivers, renewed  # noqa: PLC0415 - loads on demand

    data = paths.read(path)
    if waiver not in read_waivers(data, waiver.position.file):
        raise CallError(f"{paths.shown(path)} has changed since it was read; nothing was written")
    try:
        made = renewed(data, waiver, fingerprint)
    except ValueError as error:
        raise CallError(f"{paths.shown(path)} is left as it was: {error}") from None
    paths.replace_unchanged(path, data, [made])


def _subject(item: str | None, loop: str | None, place: str | None) -> tuple[WaivedSubject, str]:
    stated = zip(WaivedSubject, (item, loop, place), strict=True)
    named = [(subject, name) for subject, name in stated if name is not None]
    if len(named) != 1:
        raise CallError("name the finding by exactly one of --item, --loop and --place")
    return named[0]


def _on(report: "BomReport", subject: WaivedSubject, name: str) -> "Iterator[Finding]":
    subjects: dict[WaivedSubject, Iterable[SubjectReport]] = {
        WaivedSubject.ITEM: report.parts,
        WaivedSubject.LOOP: report.loops,
        WaivedSubject.PLACE: report.places,
    }
    by_name = {each.name: each for each in subjects[subject]}
    if name not in by_name:
        raise unknown(subject.value, name, by_name)
    return by_name[name].findings()


def _see_complete(stated: dict[str, str]) -> None:
    """All that is missing in one go, with a call that is complete."""
    missing = [option for option, text in stated.items() if not text]
    if missing:
        example = EXAMPLE
        raise CallError(f"a waiver also needs {', '.join(missing)}, such as: {example}")


def _nothing_open(found: "list[Finding]", about: str, path: Path) -> CallError:
    """Why there is nothing to waive: it is waived already, it passes, or it was never judged."""
    waived = [finding.waiver for finding in found if finding.waiver is not None]
    if waived:
        last = max(waived, key=lambda waiver: waiver.until)
        return CallError(
            f"{about} is already waived in {paths.shown(path)} until {last.held}; to change "
            "it, edit the file"
        )
    if found:
        return CallError(f"{about} has no open finding: it passes, so nothing is to be waived")
    return CallError(f"there is no open finding of {about}; `areafit check` lists what is open")


def _one(found: "list[Finding]", about: str) -> "Finding":
    """The finding, where all that match are one by their facts."""
    by_print = {finding.fingerprint: finding for finding in found}
    if len(by_print) > 1:
        terminal.note(f"areafit: more than one open finding of {about}; narrow it by one of these:")
        for finding in by_print.values():
            terminal.note(f"  {_narrowing(finding)}  {finding.message}")
        raise CallError("name the finding so that only one is meant")
    return found[0]


def _narrowing(finding: "Finding") -> str:
    """The options that single a finding out."""
    options = (
        f"--at {finding.location}" if finding.location else "",
        f"--component {finding.component!r}" if finding.component else "",
        f"--fingerprint {finding.fingerprint[:8]}",
    )
    return " ".join(filter(None, options))


def _refuse_void(report: "BomReport", waiver: Waiver) -> None:
    """A waiver that would not hold must not be written as if it did."""
    from areafit.findings.waivers import WaiverState, apply  # noqa: PLC0415 - digests on demand

    day = min(waiver.until, words.today())
    for outcome in apply(report, [waiver], day).waiver_outcomes:
        if outcome.state is not WaiverState.USED:
            missing = outcome.state is WaiverState.INCOMPLETE
            remedy = "; give --document" if missing else ""
            raise CallError(f"the waiver would not hold: {outcome.message}{remedy}")


def _doubts(waiver: Waiver) -> Iterator[str]:
    """What a reader of the waiver will ask: it is written all the same."""
    roles = [role.value for role in Role]
    if waiver.approved_by.casefold() not in roles:
        yield (
            f"{waiver.approved_by!r} is none of the roles that reports name "
            f"({', '.join(roles)}); if it is a person, write the role, which outlasts persons"
        )
    if waiver.revision is None and (waiver.until - words.today()).days > _LONG:
        yield (
            f"it holds until {waiver.until.isoformat()}, more than five years; a nearer day has "
            "somebody look at it again"
        )


def _append(path: Path, waivers: "Iterable[Waiver]") -> None:
    from areafit.file.waivers import append, entry  # noqa: PLC0415 - the reader loads on demand

    before = paths.read(path) if path.exists() else None
    made = before or b""
    try:
        for waiver in waivers:
            made = append(made, waiver)
    except ValueError as error:
        for line in entry(waiver).splitlines():
            terminal.note(line)
        raise CallError(
            f"{paths.shown(path)} is left as it was: {error}; write the entry above by hand"
        ) from None
    paths.replace_unchanged(path, before, [made])


def _told(waiver: Waiver, finding: "Finding", path: Path) -> Iterator[str]:
    paper = terminal.paper()
    yield from paper.wrap(f"Written to {paths.shown(path)}:")
    rows = (
        (waiver.subject.value, waiver.name),
        ("location", finding.location),
        ("component", waiver.component),
        ("rule", waiver.rule),
        ("verdict", finding.verdict.value),
        ("finding", finding.message),
        ("required", finding.required),
        ("found", finding.found),
        ("until", waiver.held),
        ("bound by", waiver.fingerprint),
    )
    for label, text in rows:
        if text:
            yield from paper.labelled(label, text, 2, 11)
    yield from paper.wrap("Any change of these facts, of the place or of the rows used voids it.")
