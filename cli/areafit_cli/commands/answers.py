"""`areafit answers`: what came back, taken into the lists."""

import shutil
import subprocess
import tempfile
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from areafit_cli import lists, paths, registers, terminal, words
from areafit_cli.errors import CallError
from areafit_cli.options import flag, value

if TYPE_CHECKING:
    from areafit.answers.register import Register, RegisterLine
    from areafit.answers.replies import Reply
    from areafit.answers.taking import AnswerOutcome, Taken
    from areafit.facts.bom import Bom
    from areafit.findings.report import BomReport

LIBRARY = "the library"  # as `questions.LIBRARY`, which loads on demand
EXAMPLE = "areafit answers books/supplier.xlsx --into bom.yaml --dry-run"
_SHOWN = 60


def command(
    files: Annotated[
        list[str],
        typer.Argument(metavar="FILE...", help="Filled books; with --number the answer itself."),
    ],
    *,
    into: Annotated[
        list[str], typer.Option("--into", metavar="PATH", help="Lists that asked. Repeatable.")
    ],
    number: Annotated[
        str | None, value("A question answered by telephone, V104-03.", metavar="NUMBER")
    ] = None,
    document: Annotated[
        str | None, value("With --number: the document that says so.", metavar="TEXT")
    ] = None,
    date: Annotated[
        str | None,
        value("With --document: its day; it then confirms the entry of a bought part anew."),
    ] = None,
    dry_run: Annotated[
        bool, flag("--dry-run", "Write nothing; tell what each answer closes and flags.")
    ] = False,
    return_: Annotated[
        str | None,
        value("Folder for a book of what was refused.", metavar="DIR", name="--return"),
    ] = None,
) -> None:
    """Take answers into the lists that asked. What is stated already is never overwritten."""
    from areafit.answers.replies import NoBookError, read_replies  # noqa: PLC0415 - on demand

    found = paths.find(into)
    for error in found.errors:
        raise CallError(str(error))
    if any(str(path) == paths.STDIN for path in found.files):
        raise CallError("answers are written into a list; name its file")
    if number is not None:
        if len(files) != 1:
            raise CallError("with --number give one answer: --number V104-03 'FKM'")
        day = words.day(date).isoformat() if date is not None else ""
        replies = [_by_telephone(found.files, number, files[0], document, day)]
    else:
        if document is not None or date is not None:
            raise CallError(
                "--document and --date go with --number; a book names its documents itself"
            )
        replies = []
        for name in files:
            try:
                data = _data(Path(name))
                replies += read_replies(data, paths.shown(Path(name)))
            except NoBookError as error:
                raise CallError(str(error)) from None
    run = _Intake(found.files, replies, dry=dry_run)
    terminal.write(run.told())
    if return_ is not None and not dry_run:
        terminal.write(run.back(Path(return_)))


def _data(path: Path) -> bytes:
    data = paths.read_or_refuse(path, paths.shown(path))
    if not (data.startswith(b"PK") and b"opendocument.spreadsheet" in data[:200]):
        return data
    office = shutil.which("soffice") or shutil.which("libreoffice")
    if office is None:
        raise CallError(f"{paths.shown(path)} is an .ods; save it as .xlsx, or install LibreOffice")
    with tempfile.TemporaryDirectory() as folder:
        copy = Path(folder, "book.ods")
        copy.write_bytes(data)
        call = [office, f"-env:UserInstallation={Path(folder, 'profile').as_uri()}", "--headless"]
        call += ["--convert-to", "xlsx", "--outdir", folder, str(copy)]
        subprocess.run(call, check=False, capture_output=True, timeout=180)  # noqa: S603 - theirs
        made = copy.with_suffix(".xlsx")
        if not made.exists():
            raise CallError(f"LibreOffice could not convert {paths.shown(path)}; save it as .xlsx")
        return made.read_bytes()


def _by_telephone(
    files: Sequence[Path], number: str, text: str, document: str | None, day: str
) -> "Reply":
    """One answer by the number of its question."""
    from areafit.answers.questions import TABLES, Party  # noqa: PLC0415 - on demand
    from areafit.answers.replies import AnswerCell, CellError, Reply, value_of  # noqa: PLC0415
    from areafit.verdict import Role  # noqa: PLC0415

    entries = [registers.read(registers.path_of(path)).find(number) for path in files]
    known = list(dict.fromkeys(entry for entry in entries if entry is not None))
    if len(known) != 1:
        what = "several registers bear" if known else "no register beside these lists bears"
        raise CallError(f"{what} the number {number}; `areafit actions` gives them")
    entry = known[0]
    role = next(role for role in Role if entry.party.startswith(role.value))
    party = Party(role, entry.party.removeprefix(role.value).strip() or None)
    refused, said = "", None
    instead = text if text.casefold().startswith(_INSTEAD) else ""
    if not instead:
        if entry.key in TABLES and text.casefold() != "none":
            raise CallError(f"{entry.number} asks for a table; write it into the workbook")
        try:
            said = value_of(entry.key, text)
        except CellError as error:
            refused = str(error)
    return Reply(
        AnswerCell("--number", "", entry.number),
        entry.number,
        party,
        entry.assembly,
        entry.line,
        entry.key,
        entry.about,
        said,
        text,
        document or "",
        day,
        instead=instead,
        refused=refused,
    )


_INSTEAD = ("not known", "not available", "follows on ", "we offer instead ")


class _Intake:
    """Answers taken into all lists that they are for."""

    def __init__(self, files: Sequence[Path], replies: "Sequence[Reply]", *, dry: bool) -> None:
        self._files = files
        self._replies = replies
        self._dry = dry
        self._refused: list[tuple[Path, Reply]] = []
        self._entries: dict[tuple[Path, str], RegisterLine] = {}

    def told(self) -> Iterator[str]:
        """Take them, and tell what became of each."""
        boms = {path: lists.read(str(path)) for path in self._files}
        known = {path: registers.read(registers.path_of(path)) for path in self._files}
        left = dict.fromkeys(range(len(self._replies)))
        for path, bom in boms.items():
            own = [n for n, one in enumerate(self._replies) if _is_of(one, bom, known[path])]
            own += [n for n in left if n not in own and self._orphaned(n, boms, known, path)]
            others = [n for n in own if _named(self._replies[n], known[path])[0] != LIBRARY]
            same = [each for each in boms if boms[each].assembly.number == bom.assembly.number]
            if others and len(same) > 1:
                names = ", ".join(paths.shown(each) for each in same)
                machine = bom.assembly.number
                raise CallError(f"several lists are of machine {machine}: {names}; name one")
            if own:
                yield from self._one_list(path, [self._replies[n] for n in own])
            left = {n: None for n in left if n not in own}
        for one in (self._replies[n] for n in left):
            why = one.refused or f"no list named by --into is of machine {one.assembly or '?'}"
            if one.assembly == LIBRARY:
                why = one.refused or f"no list named by --into takes facts of the entry {one.line}"
            yield f"refused  {_shown(one)}: {why}\n"
        if not self._replies:
            yield "No answers in it.\n"

    def _orphaned(
        self, number: int, boms: "dict[Path, Bom]", known: "dict[Path, Register]", path: Path
    ) -> bool:
        """Whether an answer is of a bought part that no list uses any more, asked beside this one.

        It is told and kept by the register that asked.
        """
        one = self._replies[number]
        if one.assembly != LIBRARY or one.identity not in known[path].by_identity():
            return False
        return not any(_is_of(one, bom, known[each]) for each, bom in boms.items())

    def _one_list(self, path: Path, replies: "list[Reply]") -> Iterator[str]:
        from areafit.answers.taking import checked, noted, take  # noqa: PLC0415 - on demand

        register = registers.path_of(path)
        with registers.held(register):
            known = registers.read(register)
            good, bad = checked(replies, known)
            data = paths.read_or_refuse(path, paths.shown(path))
            shelf, reader = lists.shelf(path), lists.reader(path)
            taken = take(data, paths.shown(path), good, reader, words.today(), shelf)
            yield f"{paths.shown(path)}\n"
            before = lists.report(str(path))
            if self._dry:
                yield from self._each(path, data, taken, before)
            else:
                yield from (f"{_line(outcome)}\n" for outcome in taken.outcomes)
            for one in bad:
                yield f"refused  {_shown(one)}: {one.refused}\n"
            self._note_refused(path, known, taken, bad)
            if self._dry:
                return
            lists.write_taken(path, data, shelf, taken)
            registers.write(register, noted(known, taken.outcomes, bad, words.today()))
        yield from _effect(before, lists.report(str(path)))

    def _each(self, path: Path, data: bytes, taken: "Taken", before: "BomReport") -> Iterator[str]:
        """What every answer alone would close and flag."""
        from areafit.answers.taking import take  # noqa: PLC0415 - on demand

        for outcome in taken.outcomes:
            yield f"{_line(outcome)}\n"
            if outcome.done.value.startswith("written"):
                shelf, today = lists.shelf(path), words.today()
                read = lists.reader(path)
                alone = take(data, paths.shown(path), [outcome.reply], read, today, shelf)
                after = _judged(path, alone)
                yield from (f"         {each}" for each in _effect(before, after))

    def _note_refused(
        self, path: Path, known: "Register", taken: "Taken", bad: "Sequence[Reply]"
    ) -> None:
        from areafit.answers.taking import Done  # noqa: PLC0415 - on demand
        from areafit.values import replace  # noqa: PLC0415

        lost = [
            replace(each.reply, refused=each.why)
            for each in taken.outcomes
            if each.done is Done.REFUSED
        ]
        for one in (*bad, *lost):
            entry = known.by_identity().get(one.identity)
            if entry is not None:
                self._refused.append((path, replace(one, number=entry.number)))
                self._entries[path, entry.number] = entry

    def back(self, folder: Path) -> Iterator[str]:
        """A book for each party with what was refused, and why."""
        from areafit.answers.questions import Party, questions  # noqa: PLC0415 - on demand
        from areafit.answers.register import told_back  # noqa: PLC0415
        from areafit.answers.workbook import QuestionRow  # noqa: PLC0415
        from areafit_cli import books  # noqa: PLC0415

        rows: dict[Party, dict[str, QuestionRow]] = {}
        for path, one in self._refused:
            report = lists.report(str(path))
            question = {each.identity: each for each in questions(report, offers=True)}.get(
                one.identity
            )
            if question is None:
                continue
            said = told_back(one.text, one.refused)
            rows.setdefault(one.party, {})[one.number] = QuestionRow(one.number, question, (), said)
        if rows:
            folder.mkdir(parents=True, exist_ok=True)
        for party, own in rows.items():
            target = folder / f"{books.stem_of(party)}-again.xlsx"
            if target.exists():
                raise CallError(f"{paths.shown(target)} is there; choose another folder")
            day = words.today().isoformat()
            paths.replace(target, [books.returned(party, list(own.values()), day)])
            yield f"wrote {paths.shown(target)}\n"


def _judged(path: Path, taken: "Taken") -> "BomReport":
    import areafit  # noqa: PLC0415 - on demand

    options = words.options(accept_unproven=(), as_of=None)
    bom = lists.changed_reader(path)(taken.data, taken.library)
    return areafit.judge(bom, lists.known_tables({}, options.as_of), options)


def _named(one: "Reply", register: "Register") -> tuple[str, str]:
    """Machine and line of an answer; by its number where the row has lost them."""
    entry = register.find(one.number) if one.number and not one.assembly else None
    return (one.assembly, one.line) if entry is None else (entry.assembly, entry.line)


def _is_of(one: "Reply", bom: "Bom", register: "Register") -> bool:
    """Whether an answer is for a list: of its machine, or of a bought part that its party sells."""
    from areafit.answers.questions import lines_of  # noqa: PLC0415 - on demand
    from areafit.values import replace  # noqa: PLC0415

    assembly, line = _named(one, register)
    if assembly != LIBRARY:
        return assembly == bom.assembly.number
    if all(known.line != line for known in register.entries if known.assembly == LIBRARY):
        return False
    return bool(lines_of(bom, replace(one, assembly=assembly, line=line)))


def _shown(one: "Reply") -> str:
    what = one.text if len(one.text) <= _SHOWN else f"{one.text[:_SHOWN]}…"
    return f"{one.number or '?'} {one.line} {what!r} ({one.source})"


def _line(outcome: "AnswerOutcome") -> str:
    why = f": {outcome.why}" if outcome.why else ""
    return f"{outcome.done.value}  {_shown(outcome.reply)}{why}"


def _effect(before: "BomReport", after: "BomReport") -> Iterator[str]:
    """What was closed, and what turned into a flag."""
    old, new = _open(before), _open(after)
    flags = [key for key, verdict in new.items() if verdict == "flag" and old.get(key) != "flag"]
    yield f"closes {sum(key not in new for key in old)} findings, {len(new)} stay open\n"
    for subject, rule in dict.fromkeys((key[0], key[1]) for key in flags):
        yield f"flag: {subject}, {rule}\n"


def _open(report: "BomReport") -> dict[tuple[str, str, str, str], str]:
    return {
        (subject.name, one.rule.id, one.path, one.location or ""): one.verdict.value
        for subject in report.subjects()
        for one in subject.open_findings()
    }
