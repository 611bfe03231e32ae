"""A list stripped of what others know, workbooks filled from the list as it truly is, read back.

The true state is that of `tests/lists43/filled.yaml`, an invented machine, without the inner facts
of materials that notes state otherwise: nobody is asked for those.
"""

import io
import random
from collections.abc import Callable, Iterator
from datetime import date, datetime
from typing import Any

import openpyxl

import areafit
from areafit.answers.questions import BARRED, TABLES, Party, questions
from areafit.answers.register import Register, enrolled
from areafit.answers.replies import Reply, read_replies
from areafit.answers.taking import checked, take
from areafit.answers.workbook import QuestionRow, book, heading
from areafit.file.facts import facts
from areafit.findings.report import BomReport
from areafit.options import Options
from areafit.tables import Tables
from areafit.verdict import Role, Verdict, worst

DAY = date(2026, 11, 30)
_INNER = {"exposure", "crevice", "stressed", "welded", "to"}
_ASKED = {Role.SUPPLIER, Role.INSTALLER, Role.PROCESS_OWNER}
_LETTERS = {"Ui", "Ii", "Pi", "Ci", "Li", "Uo", "Io", "Po", "Co", "Lo"}
_KEPT = {"exposure", "bonded", "contacts"}
Spoil = Callable[[Any, str, object], object]


def loaded(data: bytes) -> Any:
    """A list as plain values, all scalars texts as our own reader has them."""
    from areafit.answers.taking import _plain
    from areafit.errors import Collector
    from areafit.file.events import load
    from areafit.file.text import decode

    errors = Collector()
    return _plain(load(decode(data, "list.yaml", errors), "list.yaml", errors).root)


def written(values: object) -> bytes:
    """Plain values as a list."""
    import json

    return json.dumps(values, ensure_ascii=False).encode()  # YAML holds JSON


def true_state(data: bytes) -> dict[str, Any]:
    """The list as it truly is."""
    values: dict[str, Any] = loaded(data)
    for part in values["parts"]:
        uses = part.get("materials")
        for use in uses if isinstance(uses, list) else []:
            if isinstance(use, dict):
                for key in _INNER:
                    use.pop(key, None)
        for document in part.get("evidence") or []:
            if isinstance(document, dict) and document.get("conditions") not in (None, "none"):
                document.pop("conditions")
    return values


def bare(values: dict[str, Any]) -> dict[str, Any]:
    """The list without what suppliers, installers and process owners know of its parts."""
    import copy

    left = copy.deepcopy(values)
    for part in left["parts"]:
        for key in [*part]:
            row = facts().get(f"part.{key}")
            asked = row is not None and row.who in _ASKED and f"part.{key}" not in BARRED
            if asked and key not in _KEPT:
                del part[key]
    for loop in left.get("loops") or []:
        for end in (loop.get("source"), *(loop.get("devices") or [])):
            for letter in _LETTERS:
                if isinstance(end, dict):
                    end.pop(letter, None)
    return left


def judged(data: bytes) -> BomReport:
    """The report on a list."""
    bom = areafit.read(data, "list.yaml")
    return areafit.judge(bom, Tables.shipped(), Options(as_of=DAY))


def verdicts(report: BomReport) -> dict[tuple[str, str, str], Verdict]:
    """The worst verdict of every rule on every subject at every place."""
    found: dict[tuple[str, str, str], Verdict] = {}
    for subject in report.subjects():
        for one in subject.findings():
            key = (subject.name, one.rule.id, one.location or "")
            found[key] = worst((found.get(key, Verdict.NOT_APPLICABLE), one.verdict))
    return found


def rounds(
    start: bytes, truth: dict[str, Any], spoil: Spoil | None = None, at_most: int = 6
) -> tuple[bytes, list[Reply]]:
    """Ask, fill, read back, until nothing new is taken; what was refused."""
    data, register = start, Register()
    refused: list[Reply] = []
    for _ in range(at_most):
        report = judged(data)
        found = questions(report)
        register, mine = enrolled(register, found, DAY)
        replies: list[Reply] = []
        for party in dict.fromkeys(one.party for one in found):
            rows = [
                QuestionRow(mine[one.identity].number, one) for one in found if one.party == party
            ]
            filled = _filled(book(party, rows, DAY.isoformat()), truth, party, spoil)
            replies += read_replies(filled, f"{party.name}.xlsx")
        good, bad = checked(replies, register)
        taken = take(data, "list.yaml", good, lambda each: areafit.read(each, "list.yaml"), DAY)
        refused += [*bad, *(one.reply for one in taken.outcomes if one.done.value == "refused")]
        if taken.data == data:
            break
        data = taken.data
    return data, refused


def _filled(data: bytes, truth: dict[str, Any], party: Party, spoil: Spoil | None) -> bytes:
    """A workbook with every answer that the true state holds."""
    del party
    made = openpyxl.load_workbook(io.BytesIO(data))
    for sheet in made.worksheets:
        if sheet.sheet_state == "hidden":
            continue
        heads = {str(cell.value): cell.column for cell in sheet[1]}
        if "answer" in heads:
            for row in range(2, sheet.max_row + 1):
                said = {name: str(sheet.cell(row, at).value or "") for name, at in heads.items()}
                value = _true(truth, said["key"], said["line"], said["of"])
                if said["key"].endswith((".Co", ".Lo")) and isinstance(value, dict):
                    value = ", ".join(f"{group}: {each}" for group, each in value.items())
                table = said["key"] in TABLES and value != "none"
                if value is None or table or isinstance(value, dict | list):
                    continue
                if value in {"true", "false"}:
                    value = "yes" if value == "true" else "no"
                if spoil is not None:
                    value = spoil(sheet.cell(row, heads["answer"]), said["key"], value)
                sheet.cell(row, heads["answer"]).value = value
                sheet.cell(row, heads["document"]).value = "DS-1"
        else:
            _fill_table(sheet, heads, truth, spoil)
    stream = io.BytesIO()
    made.save(stream)
    return stream.getvalue()


def _fill_table(
    sheet: Any, heads: dict[str, int], truth: dict[str, Any], spoil: Spoil | None
) -> None:
    by_line: dict[tuple[str, str], list[int]] = {}
    for row in range(2, sheet.max_row + 1):
        known = tuple(str(sheet.cell(row, heads[name]).value) for name in ("line", "key"))
        by_line.setdefault((known[0], known[1]), []).append(row)
    for (line, key), rows in by_line.items():
        value = _true(truth, key, line, "")
        if value is None or value == "none":
            continue
        main = {"part.materials": "material", "part.entries": "type"}.get(key, "type")
        entries = value if isinstance(value, list) else [value]
        while len(rows) < len(entries):
            extra = sheet.max_row + 1
            for name in ("number", "assembly", "line", "key", "of"):
                sheet.cell(extra, heads[name]).value = sheet.cell(rows[0], heads[name]).value
            rows.append(extra)
        for row, entry in zip(rows, entries, strict=False):
            plain = entry if isinstance(entry, dict) else {main: entry}
            for name, each in plain.items():
                at = heads.get(heading(name))
                if at is None or not isinstance(each, str):
                    continue
                said: object = {"true": "yes", "false": "no"}.get(each, each)
                if spoil is not None:
                    said = spoil(sheet.cell(row, at), f"{key}.{name}", said)
                sheet.cell(row, at).value = said
            sheet.cell(row, heads["document"]).value = "DS-1"


def _true(  # noqa: C901, PLR0911 - as the list is nested
    truth: dict[str, Any], key: str, line: str, about: str
) -> Any:
    """The true value of a key of a line, as the true list writes it."""
    subject, _, inner = key.partition(".")
    steps = inner.split(".")
    if subject == "place":
        return truth["locations"].get(line, {}).get(steps[0])
    if subject == "loop":
        for end in _ends(truth, steps[0]):
            if _line(truth, end.get("item")) == line and steps[1] in end:
                return end[steps[1]]
        return None
    for part in truth["parts"]:
        names = {part.get("part_number"), f"item {part['item']}"}
        if line not in names and not line.startswith(f"{part.get('part_number')} in "):
            continue
        node: Any = part
        for depth, step in enumerate(steps):
            node = node.get(step) if isinstance(node, dict) else None
            if isinstance(node, list) and depth + 1 < len(steps):
                node = next(
                    (
                        each
                        for each in node
                        if isinstance(each, dict)
                        and about
                        in {each.get("component"), each.get("material"), each.get("number")}
                    ),
                    None,
                )
            if isinstance(node, str) and depth + 1 < len(steps):
                return node if steps[depth + 1] in {"value", "complete", "output"} else None
        if isinstance(node, dict) and key == "part.materials_complete":
            return "yes"
        if node is not None:
            return node
    return None


def _ends(truth: dict[str, Any], holder: str) -> Iterator[dict[str, Any]]:
    for loop in truth.get("loops") or []:
        value = loop.get(holder)
        yield from value if isinstance(value, list) else [value] if value else []


def _line(truth: dict[str, Any], item: str | None) -> str:
    part = next(each for each in truth["parts"] if each["item"] == item)
    return str(part.get("part_number") or f"item {item}")


def spoiler(seed: int, share: float) -> Spoil:
    """Answers of every wrong kind in place of a share of them."""
    chance = random.Random(seed)  # noqa: S311 - repeatable, nothing secret

    def spoil(cell: Any, key: str, value: object) -> object:
        del cell, key
        if chance.random() >= share:
            return value
        wrong: tuple[object, ...] = (
            10.9,
            True,
            datetime(2026, 11, 12),  # noqa: DTZ001 - as a spreadsheet has it
            "=1+1",
            "as discussed",
            "ok",
            "CE",
            "-",
            "not known",
            "follows on 2026-12-24",
            "we offer instead X-1",
            "",
            "316L and others",
            "5",
            "<b>",
            "yes",
        )
        return chance.choice(wrong)

    return spoil
