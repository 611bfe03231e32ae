"""`areafit actions`: what is open, by who can answer it; as a workbook for each, where asked."""

import csv
import io
from collections.abc import Iterable, Iterator
from enum import Enum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from areafit.answers.actions import Action, actions
from areafit.values import replace
from areafit.verdict import Role
from areafit_cli import lists, paths, terminal
from areafit_cli.errors import CallError
from areafit_cli.options import (
    AsOfOption,
    ConfigOption,
    NoConfigOption,
    NoWaiversOption,
    TablesOption,
    WaiversOption,
    flag,
    value,
)
from areafit_cli.render import wording
from areafit_cli.render.as_csv import inert
from areafit_cli.render.as_markdown import escape
from areafit_cli.render.json_text import asked, fields

if TYPE_CHECKING:
    from areafit.findings.report import BomReport


EXAMPLE = "areafit actions bom.yaml --format csv"


class ActionsFormat(Enum):
    """The formats of a list of open points."""

    TEXT = "text"
    JSON = "json"
    MARKDOWN = "markdown"
    CSV = "csv"
    XLSX = "xlsx"


def command(
    bom: Annotated[
        list[str], typer.Argument(metavar="PATH...", help="A list, or - for input; several.")
    ],
    *,
    format_: Annotated[ActionsFormat, typer.Option("--format")] = ActionsFormat.TEXT,
    output: Annotated[
        str | None, value("Folder for a file a vendor and a role (xlsx, csv).", metavar="DIR")
    ] = None,
    reminder: Annotated[bool, flag("--reminder", "Only what was asked and not answered.")] = False,
    offers: Annotated[
        bool, flag("--offers", "Ask vendors for an alternative to what does not fit.")
    ] = False,
    tables: TablesOption = None,
    waivers: WaiversOption = None,
    no_waivers: NoWaiversOption = False,
    as_of: AsOfOption = None,
    no_config: NoConfigOption = False,
    config_: ConfigOption = None,
) -> None:
    """List open points by role: one question to each, with all items that it is asked for."""
    del no_config, config_
    stated = () if no_waivers else waivers or ()
    if output is not None or format_ is ActionsFormat.XLSX or reminder or offers:
        from areafit_cli import books  # noqa: PLC0415 - loads on demand

        if output is None or format_ not in {ActionsFormat.XLSX, ActionsFormat.CSV}:
            raise CallError(
                "workbooks are written by --format xlsx (or csv) and --output DIR, one for each "
                "that is asked"
            )
        files = paths.find(bom)
        for error in files.errors:
            raise CallError(str(error))
        judged = {
            path: lists.report(str(path), tables=tables, as_of=as_of, waivers=stated)
            for path in files.files
        }
        asked = books.BookOrder(judged, reminder=reminder, offers=offers)
        terminal.write(books.write(asked, Path(output), as_csv=format_ is ActionsFormat.CSV))
        return
    if len(bom) != 1:
        raise CallError("name one list, or a folder for workbooks by --format xlsx --output DIR")
    report = lists.report(bom[0], tables=tables, as_of=as_of, waivers=stated)
    found = actions(report)
    match format_:
        case ActionsFormat.JSON:
            terminal.write_json(_data(report, found))
        case ActionsFormat.CSV:
            terminal.write(_rows(found))
        case ActionsFormat.MARKDOWN:
            terminal.write(_markdown(report, found))
        case ActionsFormat.TEXT:
            terminal.write(_text(report, found))


def _data(report: "BomReport", found: Iterable[Action]) -> dict[str, object]:
    return {
        "path": report.bom.name,
        "assembly": report.bom.assembly.number,
        "gate": report.gate,
        "actions": [
            {**fields(replace(action, asks=())), "asks": [asked(one) for one in action.asks]}
            for action in found
        ],
    }


def _by_role(found: Iterable[Action]) -> Iterator[tuple[Role, list[Action]]]:
    every = list(found)
    for role in Role:
        own = [action for action in every if action.role is role]
        if own:
            yield role, own


def _title(report: "BomReport") -> str:
    return f"{wording.assembly_name(report.bom.assembly)}, gate {report.gate}"


def _text(report: "BomReport", found: tuple[Action, ...]) -> Iterator[str]:
    paper = terminal.paper()
    yield from paper.wrap(f"Open points of {_title(report)}")
    if not found:
        yield "\nNo open points.\n"
    for role, own in _by_role(found):
        yield paper.heading(f"{role.value} ({len(own)})")
        for action in own:
            yield "\n"
            word = paper.paint(action.kind.value, action.verdict.value)
            yield from paper.wrap(action.question, f"{word}  ", "  ")
            rows = (
                ("vendor", action.vendor),
                ("for", "; ".join(action.subjects)),
                ("required", action.required),
                ("to pass", action.remedy),
            )
            for label, text in rows:
                if text:
                    yield from paper.labelled(label, text, 2, 10)


def _markdown(report: "BomReport", found: tuple[Action, ...]) -> Iterator[str]:
    yield f"## Open points of {escape(_title(report))}\n"
    if not found:
        yield "\nNo open points.\n"
    for role, own in _by_role(found):
        yield f"\n### {escape(role.value.capitalize())}\n\n"
        for action in own:
            yield f"- [ ] **{escape(action.kind.value)}** {escape(action.question)}\n"
            if action.vendor:
                yield f"  - vendor: {escape(action.vendor)}\n"
            yield f"  - for: {escape('; '.join(action.subjects))}\n"
            if action.required:
                yield f"  - required: {escape(action.required)}\n"
            yield f"  - to pass: {escape(action.remedy)}\n"


def _rows(found: Iterable[Action]) -> Iterator[str]:
    head = (
        *("role", "verdict", "rule", "subject", "question", "required", "to_pass", "where"),
        *("kind", "vendor", "keys"),
    )
    yield _row(head)
    for action in found:
        for subject, where in zip(action.subjects, action.where, strict=False):
            texts = (action.question, action.required, action.remedy)
            keys = " ".join(dict.fromkeys(one.key for one in action.asks))
            lead = (action.role.value, action.verdict.value, action.rule, subject)
            more = (where, action.kind.value, action.vendor or "", keys)
            yield _row((*lead, *texts, *more))


def _row(cells: Iterable[str]) -> str:
    stream = io.StringIO()
    csv.writer(stream, lineterminator="\n").writerow(map(inert, cells))
    return stream.getvalue()
