"""`areafit library`: bought parts checked, lifted out of a list, and looked up in lists."""

import json
import os.path
from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

import areafit
from areafit.errors import Collector, InputErrors
from areafit.file.bought import lifted
from areafit.file.editor import EditError, Put, block_lines, edit
from areafit.file.events import load
from areafit.file.library import Library, LibraryEntry, barred, read_library, same_number
from areafit.file.text import decode
from areafit.subjects import part_variants
from areafit_cli import lists, paths, terminal, words
from areafit_cli.errors import CallError, Exit
from areafit_cli.options import value

if TYPE_CHECKING:
    from areafit.facts.bom import Bom
    from areafit.findings.report import PartReport

EXAMPLE = "areafit library used CY-32-100 machines/"
group = typer.Typer(add_completion=False, no_args_is_help=True)
_BY_LINE = ("item", "location")
_TRUTHS = {"true": True, "false": False, "yes": True, "no": False}


@group.callback()
def _top() -> None:
    """Bought parts that lists take facts of: check entries, add one, see where one is used."""


# check


@group.command("check", epilog="Example: areafit library check parts/ --list bom.yaml")
def check(
    path: Annotated[
        list[str], typer.Argument(metavar="PATH...", help="Files and folders of bought parts.")
    ],
    *,
    list_: Annotated[
        str | None, value("A list, whose places the entries are held against.", name="--list")
    ] = None,
) -> None:
    """Check every entry, and tell what a line would still have to say."""
    files = [
        (paths.shown(file), paths.read_or_refuse(file, str(file))) for file in _library_files(path)
    ]
    library = read_library(files)
    entries = list(library.all())
    if library.errors:
        raise library.errors.all()
    told = _Needs(list_, library, [Path(name) for name, _ in files]) if list_ else None
    terminal.write(line for entry in entries for line in _told(entry, told))


def _library_files(asked: Iterable[str]) -> Iterator[Path]:
    for name in asked:
        path = Path(name)
        if path.is_dir():
            inside = [path / each for each in paths.folder_of(path.resolve(), ".") or ()]
            found = [each for each in inside if paths.first_key(each) == "areafit-parts"]
            if not found:
                raise CallError(f"no library file in {name}; one starts with `areafit-parts: 1`")
            yield from found
        else:
            yield path


def _told(entry: LibraryEntry, needs: "_Needs | None") -> Iterator[str]:
    position = entry.source.document.key_at(entry.path)
    yield (
        f"{', '.join(entry.numbers)}  {position}  confirmed {entry.confirmed_on.isoformat()}, "
        f"{entry.document} ({entry.role})\n"
    )
    if needs is None:
        kind = () if "kinds" in entry.values else ("kind",)
        yield f"  a line says: {', '.join((*_BY_LINE, *kind, *_of_line(entry)))}\n"
        return
    yield from needs.of(entry)


def _of_line(entry: LibraryEntry) -> Iterator[str]:
    """What of its materials and documents only a line can say."""
    if any(use.exposure is None for use in entry.values.get("materials", ())):
        yield "exposure"
    if any(document.conditions for document in entry.values.get("evidence", ())):
        yield "how the conditions of `evidence` are met"


class _Needs:
    """What entries leave open at the places of a list: a line of each is judged there."""

    def __init__(self, name: str, library: Library, files: Iterable[Path]) -> None:
        own = lists.read(name)
        self._places = tuple(own.places)
        numbers = [entry.number for entry in library.all()]
        root = _written(Path(name))
        folder = Path(name).resolve().parent
        root["library"] = [_relative(file, folder) for file in files]
        root["parts"] = [
            {
                "item": f"{i}-{k}",
                "part_number": number,
                "location": place,
                **({} if "kinds" in entry.values else {"kind": "unknown"}),
            }
            for i, number in enumerate(numbers)
            if (entry := library.find(number)) is not None
            for k, place in enumerate(self._places)
        ]
        for key in ("loops", "unless_stated"):
            root.pop(key, None)
        read, inside = paths.shared_reader(Path(name)), paths.shared_folder(Path(name))
        text = json.dumps(root, ensure_ascii=False).encode()
        bom = areafit.read(text, paths.shown(Path(name)), read, inside)
        report = areafit.judge(bom, areafit.Tables.shipped(), words.options())
        self._by_number: dict[str, list[PartReport]] = {}
        for part in report.parts:
            self._by_number.setdefault(str(part.part.part_number), []).append(part)

    def of(self, entry: LibraryEntry) -> Iterator[str]:
        """A line or two for each place."""
        for part in self._by_number[entry.number]:
            open_ = list(part.open_findings())
            told = {key.partition(".")[0] for key in entry.stated}
            keys = [key for key in dict.fromkeys(_keys(open_)) if key.partition(".")[0] not in told]
            line = [key for key in keys if barred(f"part.{key}")]
            more = [key for key in keys if key not in line]
            yield f"  at {part.part.locations[0]}  a line says: {', '.join(line) or 'no more'}"
            yield f"; the entry could say: {', '.join(more)}\n" if more else "\n"
            for finding in open_:
                if finding.verdict.value == "flag":
                    yield f"    flag  {finding.rule.id}: {finding.message}\n"


def _keys(open_: Iterable[Any]) -> Iterator[str]:
    from areafit.answers.asks import asks_of  # noqa: PLC0415 - seldom asked

    for finding in open_:
        if finding.verdict.value == "unproven":
            for asked in asks_of(finding):
                if asked.row.subject == "part":
                    # Of all its materials at once: an entry holds none.
                    yield asked.row.key.replace("materials.exposure", "exposure")


def _relative(file: Path, folder: Path) -> str:
    return Path(os.path.relpath(file.resolve(), folder)).as_posix()


# add


@group.command(
    "add",
    epilog="Example: areafit library add bom.yaml --item 10 --to parts.yaml "
    '--document "data sheet 7" --role supplier',
)
def add(
    bom: Annotated[str, typer.Argument(metavar="LIST", help="The list with the line.")],
    *,
    item: Annotated[str, value("The item of the line. Required.")] = "",
    to: Annotated[str, value("The library file; made if new. Required.", metavar="FILE")] = "",
    document: Annotated[str, value("What it was read against. Required.")] = "",
    role: Annotated[str, value("Who confirms it. Required.")] = "",
    on: Annotated[str | None, value("When; today.", metavar="DATE")] = None,
) -> None:
    """Lift the facts of a line into an entry of a library; the list stays as it is."""
    named = {"--item": item, "--to": to, "--document": document, "--role": role}
    missing = [option for option, said in named.items() if not said.strip()]
    if missing:
        raise CallError(f"an entry needs {', '.join(missing)}: who confirms it, and by what")
    day = words.day(on) if on else words.today()
    read = lists.read(bom)
    line = _line(_written(Path(bom)), item)
    number = line.get("part_number")
    if number is None:
        raise CallError(f"item {item} has no part number; an entry is found by it")
    known = next((e for e in read.library.used if same_number(number) in e.numbers), None)
    if known is not None:
        raise CallError(f"{number} has an entry at {known.position}; change it there")
    held = lifted(line)
    entry = {
        **{key: _typed(value_) for key, value_ in (held or {}).items()},
        "confirmed": {"on": day, "document": document.strip(), "role": role.strip()},
    }
    _add(Path(to), str(number), entry)
    told = ", ".join(held or ()) or "nothing"
    terminal.write(
        [
            f"wrote {number} to {to}: {told}\n",
            *_next(read, Path(bom), Path(to)),
        ]
    )


def _written(path: Path) -> dict[str, Any]:
    """A list as it is written, for what no fact keeps: its texts."""
    errors = Collector()
    data = paths.read_or_refuse(path, str(path))
    text = decode(data, paths.shown(path), errors)
    root = load(text, paths.shown(path), errors).root
    if errors or not isinstance(root, dict):
        raise errors.all()
    return dict(root)


def _line(root: Mapping[str, Any], item: str) -> Mapping[str, Any]:
    lines = [each for each in root["parts"] if str(each["item"]).strip() == item.strip()]
    if len(lines) != 1:
        known = ", ".join(str(each["item"]) for each in root["parts"][:12])
        raise CallError(f"the list has no item {item!r}; it begins with {known}")
    found: Mapping[str, Any] = lines[0]
    return found


def _typed(written: Any) -> Any:  # noqa: ANN401 - any value of a file
    """Yes and no as the file would write them without quotes."""
    if isinstance(written, dict):
        return {key: _typed(each) for key, each in written.items()}
    if isinstance(written, list):
        return [_typed(each) for each in written]
    return _TRUTHS.get(written, written)


def _add(path: Path, number: str, entry: Mapping[str, Any]) -> None:
    """Write the entry behind those of a file, which is read again before it is replaced."""
    before = paths.read_or_refuse(path, str(path)) if path.exists() else None
    shown = paths.shown(path)
    if before is not None:
        library = read_library([(shown, before)])
        if library.holds(number):
            raise CallError(f"{number} has an entry in {shown} already; change it there")
    if before is None:
        lines = (
            "areafit-parts: 1",
            "parts:",
            *(f"  {line}" for line in block_lines(number, entry)),
        )
        made = "".join(f"{line}\n" for line in lines).encode()
    else:
        try:
            made = edit(before, shown, Put(("parts", number), entry, block=True))
        except EditError as error:
            raise CallError(f"{shown} is left as it was: {error}") from None
    library = read_library([(shown, made)])
    library.find(number)
    if library.errors:
        raise library.errors.all()
    paths.replace_unchanged(path, before, [made])


def _next(read: "Bom", bom: Path, to: Path) -> Iterator[str]:
    """What is left for the person to do."""
    if paths.shown(to) not in {file.name for file in read.library.files}:
        yield f"name it in the list: library: {_relative(to, bom.resolve().parent)}\n"
    yield "the line may leave out what the entry says; `areafit check` tells where they differ\n"


# used


@group.command("used", epilog=f"Example: {EXAMPLE}")
def used(
    number: Annotated[str, typer.Argument(metavar="NUMBER", help="A part number of the entry.")],
    path: Annotated[list[str], typer.Argument(metavar="PATH...", help="Lists and folders.")],
) -> None:
    """Tell which lines take facts of an entry, by each of its numbers."""
    found = paths.find(path)
    status = Exit.WRONG_INPUT if found.errors else Exit.PASSED
    for error in found.errors:
        terminal.note(str(error))
    told = 0
    for file in found.files:
        try:
            bom = lists.read(str(file))
        except InputErrors as errors:
            status = Exit.WRONG_INPUT
            for each in errors.errors:
                terminal.note(str(each))
            continue
        rows = list(_bearing(bom, same_number(number)))
        told += len(rows)
        terminal.write(rows)
    if not told:
        terminal.write([f"no line of {', '.join(path)} takes anything of {number}\n"])
    raise typer.Exit(status)


def _bearing(bom: "Bom", number: str) -> Iterator[str]:
    entry = next((each for each in bom.library.used if number in each.numbers), None)
    if entry is None:
        return
    for part in bom.parts:
        for variant in part_variants(part):
            own = variant.part_number
            takes = any(one.position == entry.position for one in bom.stated_by(variant.prefix))
            if own is not None and same_number(own) in entry.numbers and takes:
                by = "" if same_number(own) == entry.numbers[0] else f" as {own}"
                alternate = ", alternate" if variant.alternate else ""
                position = bom.locate(variant.prefix)
                told = part.description or own
                yield f"{position}  item {part.item}{alternate}{by}  {told}\n"
