"""`areafit import`: the export of another system as a list to complete."""

import os
from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from areafit.facts.protection import Law
from areafit_cli import paths, terminal, words
from areafit_cli.errors import CallError
from areafit_cli.options import flag, value
from areafit_cli.render.wording import counted

if TYPE_CHECKING:
    import areafit
    from areafit.importing.columns import Columns
    from areafit.importing.lines import ExportLine
    from areafit.importing.sheets import Grid

EXAMPLE = "areafit import bom.csv --code ATEX --output bom.yaml"
_FILE, _LIST, _INTO = "The export", "The list", "A new revision"
_PLACE = "place-1"
_TEXT = (".csv", ".tsv", ".txt")
_BOOK = (".xlsx", ".xlsm")
_LARGEST = 64 * 1024 * 1024
_SHOWN = 40
_DECIMAL_COMMA = "--decimal-comma"


def command(
    file: Annotated[str, typer.Argument(metavar="FILE", help="CSV, TSV or XLSX.")],
    *,
    map_: Annotated[
        str | None,
        value(
            "YAML: our key, then the name of its column, such as `part_number: Article`.",
            _FILE,
            "FILE",
            name="--map",
        ),
    ] = None,
    encoding: Annotated[str, value("Of a text file, such as cp1252.", _FILE)] = "",
    delimiter: Annotated[str, value("Between cells; `tab` for a tab.", _FILE)] = "",
    decimal_comma: Annotated[
        bool,
        flag(
            "--decimal-comma",
            "1,5 is one and a half.",
            _FILE,
        ),
    ] = False,
    header_row: Annotated[
        int, typer.Option(min=0, metavar="N", help="With the names.", rich_help_panel=_FILE)
    ] = 0,
    sheet: Annotated[str, value("Of a workbook; the first one without.", _FILE)] = "",
    code: Annotated[str, value("NEC, IEC or ATEX; required unless --areas is given.", _LIST)] = "",
    number: Annotated[str, value("Of the assembly; the file's name without.", _LIST)] = "",
    title: Annotated[str, value("Of the assembly.", _LIST)] = "",
    revision: Annotated[str, value("Of the assembly.", _LIST)] = "",
    location: Annotated[str, value(f"Of top lines without one; {_PLACE} without.", _LIST)] = "",
    areas: Annotated[
        str, value("Shared file of places that states the code, instead of --code.", _LIST, "FILE")
    ] = "",
    into: Annotated[
        str,
        value("A completed list: take over what the new export changed.", _INTO, "LIST"),
    ] = "",
    remove_gone: Annotated[
        bool, flag("--remove-gone", "Take out the lines that the export has no longer.", _INTO)
    ] = False,
    output_: Annotated[
        str, value("A new file; standard output without.", metavar="FILE", name="--output")
    ] = paths.STDOUT,
) -> None:
    """Turn an export into a list, or lay its next revision over a list that was completed.

    Cells are copied; what they do not state stays unproven, what was completed stays.
    """
    from areafit.errors import InputError  # noqa: PLC0415 - the reader loads on demand
    from areafit.importing import columns, lines, listing  # noqa: PLC0415 - as above

    _see_file(file)
    if into and (code or areas or number or title or output_ != paths.STDOUT):
        raise CallError("--into keeps what the list says of itself: leave out its options")
    if not into:
        _see_head(code, areas, remove_gone=remove_gone)
    target = Path(output_)
    if output_ != paths.STDOUT and target.exists():
        raise CallError(f"{output_} exists, and may hold what was completed; choose a new name")
    law = words.word(Law, code, "code").value if code else ""
    asked = columns.read_map(_bytes(map_), paths.shown(Path(map_))) if map_ else {}
    notes: list[str] = []
    try:
        rows = _rows(file, encoding, delimiter, sheet)
        rows = rows.from_row(header_row or columns.first_row(rows, asked))
        found = columns.match(rows, asked)
        taken = lines.lines_of(
            rows, found, place=location or _PLACE, decimal_comma=decimal_comma, notes=notes
        )
        if into:
            told = _revise(into, taken, location, notes, revision=revision, remove=remove_gone)
            _tell(file, (*rows.notes, *notes), found, len(taken))
            terminal.write(f"{each}\n" for each in told)
            return
        head = listing.Head(number or Path(file).stem, title, revision, law, areas)
        beside = target if output_ != paths.STDOUT else Path("list.yaml")
        text = listing.bom_text(
            head, taken, paths.shared_reader(beside), notes, paths.shared_folder(beside)
        )
    except InputError as error:
        raise CallError(f"{file}: {error}") from None
    if output_ == paths.STDOUT:
        terminal.write([text])
    else:
        paths.replace(target, [text])
    _tell(file, (*rows.notes, *notes), found, len(taken))
    if output_ != paths.STDOUT:
        places = "" if areas else "state what each of its `locations` is, "
        terminal.note(
            f"areafit: wrote {output_}; {places}confirm or correct each `kind`, then run "
            f"`areafit check {output_}`, and `areafit actions {output_}` for the questions"
        )


def _see_head(code: str, areas: str, *, remove_gone: bool) -> None:
    """Whether a new list can say which rules govern.

    Raises:
        CallError: it cannot, or says so twice.
    """
    if remove_gone:
        raise CallError("--remove-gone belongs to --into")
    if not code and not areas:
        raise CallError("state --code NEC, IEC or ATEX, or --areas with a file that states it")
    if code and areas:
        raise CallError("state either --code or --areas, whose file states the code")


def _revise(
    into: str,
    taken: "list[ExportLine]",
    place: str,
    notes: list[str],
    *,
    revision: str,
    remove: bool,
) -> tuple[str, ...]:
    """Lay an export over a list, write it, and tell what changed."""
    import areafit  # noqa: PLC0415 - the reader loads on demand
    from areafit.file.editor import Put, edit  # noqa: PLC0415 - as above
    from areafit.importing.revision import revise  # noqa: PLC0415 - as above

    path = Path(into)
    before, name = paths.read_or_refuse(path, into), paths.shown(path)

    def read(data: bytes) -> "areafit.Bom":
        return areafit.read(data, name, paths.shared_reader(path), paths.shared_folder(path))

    found = revise(before, name, taken, read, place=place, remove_gone=remove, notes=notes)
    after, told = found.data, found.told
    if revision:
        after = edit(after, name, Put(("assembly", "revision"), revision))
        read(after)
    if after == before:
        return (*told, f"{into}: nothing changed")
    paths.replace_unchanged(path, before, [after])
    return (*told, f"{into}: written; `git diff` shows each line, `areafit compare` each verdict")


def _see_file(file: str) -> None:
    """Whether there is something to import at all: told before what else is missing.

    Raises:
        CallError: there is no such file, or none of a kind that can be imported.
    """
    if file == paths.STDIN:
        return
    suffix = Path(file).suffix.lower()
    if os.path.isdir(file):  # noqa: PTH112 - unlike pathlib, it bears names of any length
        raise CallError(f"{file} is a folder; name one file to import")
    if not os.path.exists(file):  # noqa: PTH110 - as above
        raise CallError(f"{file} cannot be read: there is no such file; check the path")
    if suffix not in (*_TEXT, *_BOOK):
        known = ", ".join((*_TEXT, *_BOOK))
        raise CallError(f"{file}: only {known} can be imported; save or export it as one of them")


def _bytes(name: str) -> bytes:
    data = paths.read_or_refuse(Path(name), name)
    if len(data) > _LARGEST:
        raise CallError(f"{name} is larger than 64 MiB; split it")
    return data


def _rows(file: str, encoding: str, delimiter: str, sheet: str) -> "Grid":
    suffix = Path(file).suffix.lower()
    if suffix in _BOOK:
        from areafit.importing.sheets import read_workbook  # noqa: PLC0415 - on demand

        return read_workbook(_bytes(file), sheet)
    from areafit.importing.sheets import read_text_table  # noqa: PLC0415 - on demand

    chosen = "\t" if delimiter == "tab" or (suffix == ".tsv" and not delimiter) else delimiter
    return read_text_table(_bytes(file), encoding=encoding, delimiter=chosen)


def _tell(file: str, notes: Iterable[str], found: "Columns", count: int) -> None:
    told = list(dict.fromkeys(notes))
    for note in (each for each in told if _DECIMAL_COMMA in each):  # it may concern every row
        terminal.note(f"{file}: {note}")
    taken = ", ".join(f"{key} from {found.names[place]!r}" for key, place in found.places.items())
    terminal.note(f"{file}: {counted(count, 'line')}; {taken}")
    if found.left:
        left = ", ".join(map(repr, found.left))
        terminal.note(f"{file}: not taken over: {left}; a --map file says what a column holds")
    if "kind" not in found.places:
        terminal.note(
            f"{file}: no column says what kind a part is; where its description tells, `kind` is "
            "proposed, and `proposed` names what somebody has still to confirm"
        )
    told = [each for each in told if _DECIMAL_COMMA not in each]
    for note in told[:_SHOWN]:
        terminal.note(f"{file}: {note}")
    if len(told) > _SHOWN:
        terminal.note(f"{file}: {len(told) - _SHOWN} more notes of this sort")
