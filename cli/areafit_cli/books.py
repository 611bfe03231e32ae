"""Workbooks of questions as files: one for each party, over all lists, with the register kept."""

import contextlib
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

import areafit
from areafit.answers import workbook
from areafit.answers.questions import Party, Question, joined, questions
from areafit.answers.register import Register, RegisterLine, enrolled, told_again
from areafit.answers.replies import NoBookError, read_replies
from areafit.pattern import pattern
from areafit.tables.materials import HiddenItem, hidden_in
from areafit.values import Frozen, replace
from areafit.verdict import Role
from areafit_cli import paths, registers, words
from areafit_cli.errors import CallError
from areafit_cli.render.wording import counted

if TYPE_CHECKING:
    from areafit.findings.report import BomReport

_NAME = pattern(r"[^A-Za-z0-9._-]+")


class BookOrder(Frozen, eq=False):
    """What is to be asked: the judged lists by their paths."""

    judged: "Mapping[Path, BomReport]"
    reminder: bool = False
    offers: bool = False


def write(asked: BookOrder, folder: Path, *, as_csv: bool) -> Iterator[str]:
    """Write the books and note in the registers what was asked; yields what was written.

    Raises:
        CallError: a file cannot be written, or holds answers that were not taken yet.
    """
    if folder.exists() and not folder.is_dir():
        raise CallError(f"{folder} is no folder; a file a party is written into one")
    today = words.today()
    rows: dict[Party, list[workbook.QuestionRow]] = {}
    if any(str(path) == paths.STDIN for path in asked.judged):
        raise CallError("questions are kept beside a list; name its file")
    kept: dict[Path, Register] = {}
    with contextlib.ExitStack() as stack:
        for register in sorted({registers.path_of(path) for path in asked.judged}):
            stack.enter_context(registers.held(register))
            kept[register] = registers.read(register)
        for path, report in asked.judged.items():
            register = registers.path_of(path)
            found = _wanted(kept[register], asked, questions(report, offers=asked.offers))
            kept[register], mine = enrolled(kept[register], found, today, remind=asked.reminder)
            for one in found:
                _gather(rows.setdefault(one.party, []), _row(report, one, mine[one.identity]))
        files = _files(rows, folder, today.isoformat(), as_csv=as_csv)
        for target, data in files.items():
            _see_unfilled(target, data)
        folder.mkdir(parents=True, exist_ok=True)
        for target, data in files.items():
            paths.replace(target, [data])
        for register, now in kept.items():
            registers.write(register, now)
    if not files:
        yield "No open questions.\n"
    yield from (f"{party.name}: {counted(len(own), 'question')}\n" for party, own in rows.items())
    yield from _unnamed(rows)
    yield from (f"wrote {paths.shown(target)}\n" for target in files)


def _unnamed(rows: Mapping[Party, Sequence[workbook.QuestionRow]]) -> Iterator[str]:
    """Whose books name parts by our number alone; a description may name a customer."""
    told = []
    for party, own in rows.items():
        unknown = {one.question.line for one in own if not one.question.maker_number}
        if party.vendor is not None and unknown:
            told.append(f"{party.vendor} ({counted(len(unknown), 'part')})")
    if told:
        yield (
            f"by your part number only, which the vendor may not know: {', '.join(told)}; "
            "`maker_number` on the line tells them theirs\n"
        )


def _wanted(
    register: Register, asked: BookOrder, found: tuple[Question, ...]
) -> tuple[Question, ...]:
    """All questions, or of a reminder those that were asked and not answered."""
    if not asked.reminder:
        return found
    known = register.by_identity()
    return tuple(
        one
        for one in found
        if (entry := known.get(one.identity)) is not None and entry.asked and not entry.answered
    )


def _gather(rows: list[workbook.QuestionRow], row: workbook.QuestionRow) -> None:
    """Add a question to those of its party; one about a bought part stands once for all lists."""
    for place, known in enumerate(rows):
        if known.question.identity == row.question.identity:
            rows[place] = replace(known, question=joined(known.question, row.question))
            return
    rows.append(row)


def _row(report: "BomReport", one: Question, entry: RegisterLine) -> workbook.QuestionRow:
    before = told_again(entry)
    return workbook.QuestionRow(entry.number, one, tuple(_filled(report, one)), before)


def _filled(report: "BomReport", one: Question) -> Iterator[tuple[tuple[str, str], ...]]:
    """What a table of materials begins with: what is listed, and what such parts hold."""
    if one.key != "part.materials":
        return
    part = next((p for p in report.bom.parts if p.item in one.items), None)
    if part is None:
        return
    listed = {use.component for use in part.materials or ()} | set(part.without)
    for use in part.materials or ():
        yield tuple(
            (workbook.heading(name), text)
            for name, text in (
                ("component", use.component or ""),
                ("material", use.material),
                ("finish", use.finish.value if use.finish else ""),
                ("substrate", use.substrate or ""),
                ("property_class", use.property_class or ""),
            )
        )
    items = areafit.Tables.shipped().rows("hidden_items", HiddenItem)
    for item in hidden_in(part.description, items):
        if item.component not in listed:
            yield ((workbook.heading("component"), item.component),)


def _files(
    rows: Mapping[Party, list[workbook.QuestionRow]], folder: Path, asked: str, *, as_csv: bool
) -> dict[Path, bytes]:
    files: dict[Path, bytes] = {}
    for party, own in rows.items():
        stem = _stem(party, [path.stem.casefold() for path in files])
        if not as_csv:
            files[folder / f"{stem}.xlsx"] = workbook.book(party, own, asked)
            continue
        for ending, data in workbook.sheets_as_csv(party, own, asked):
            files[folder / f"{'-'.join(filter(None, (stem, ending)))}.csv"] = data
    return files


def _stem(party: Party, taken: list[str]) -> str:
    stem = _NAME.sub("-", party.vendor or party.role.value).strip("-.") or "vendor"
    if party.vendor and stem.casefold() in {_NAME.sub("-", role.value) for role in Role}:
        stem = f"vendor-{stem}"
    number, base = 1, stem
    while stem.casefold() in taken:
        number += 1
        stem = f"{base}-{number}"
    return stem


def _see_unfilled(path: Path, data: bytes) -> None:
    """A book that somebody has begun to fill is not written over."""
    if not path.exists():
        return
    old = paths.read(path)
    if old == data:
        return
    try:
        filled = [each for each in read_replies(old, path.name) if each.source.sheet != ""]
        filled = [each for each in filled if each.text and each.key not in workbook.SHEETS]
    except NoBookError:
        raise CallError(
            f"{paths.shown(path)} is there and was not written by areafit; choose another folder"
        ) from None
    if filled:
        raise CallError(
            f"{paths.shown(path)} holds answers; take them by `areafit answers`, or move it"
        )


def returned(party: Party, own: list[workbook.QuestionRow], day: str) -> bytes:
    """A workbook with the questions whose answers could not be taken."""
    return workbook.book(party, own, day)


def stem_of(party: Party) -> str:
    """What the file of a party is called."""
    return _stem(party, [])
