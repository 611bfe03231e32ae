"""The register `questions.csv`: which question was asked of whom and when, and what came back.

A line is known by party, machine, line and key, its number stays as long as the file does. What a
spreadsheet did to the file (order of lines, separators, further columns) is read as it is.
"""

import csv
import io
from collections.abc import Iterable, Mapping, Sequence
from datetime import date

from areafit.answers.questions import Party, Question
from areafit.pattern import pattern
from areafit.values import Frozen, replace
from areafit.verdict import Role

COLUMNS = (
    "number",
    "party",
    "question",
    "asked",
    "reminded",
    "answered",
    "refused",
    "why",
    "answer",
    "document",
    "remark",
    "assembly",
    "line",
    "key",
    "about",
)
FILE = "questions.csv"
_CODES = {
    Role.SUPPLIER: "SU",
    Role.AREA_OWNER: "AO",
    Role.INSTALLER: "IN",
    Role.DESIGNER: "DE",
    Role.PROCESS_OWNER: "PO",
}
_NUMBER = pattern(r"([A-Z0-9]+)-([0-9]+)")
# What a spreadsheet would take for a formula: where a cell begins by comma, and where one begins if
# it parts cells by semicolons, tabs or lines; a number with its sign is none there.
_SIGN = r"[=@|%\uff1d\uff0b\uff0d\uff20]"
_AT_START = rf"\A{{}}(?='|[\s\"']*(?:{_SIGN}|[+\-]))"
_BEHIND = rf"(?<=[;\t\r\n]){{}}(?=[\s\"']*(?:{_SIGN}|[+\-](?!\d[^;\t\r\n|!(]*(?:[;\t\r\n]|\Z))))"
_TO_QUOTE = pattern(f"{_AT_START}|{_BEHIND}".format("", ""))
_QUOTED = pattern(f"{_AT_START}|{_BEHIND}".format("'", "'"))
_PLAIN = pattern(r"[^A-Z0-9]+")


class RegisterError(ValueError):
    """The file is no register, or two of its lines bear one number; the message says which."""


class RegisterLine(Frozen):
    """One line: a question, when it was asked, and what came back.

    Dates are texts as they stand, ISO where this program wrote them. `answered` is the day on which
    something came back that was taken; `refused` what was written instead, `why` the reason.
    """

    number: str
    party: str = ""
    question: str = ""
    asked: str = ""
    reminded: str = ""
    answered: str = ""
    refused: str = ""
    why: str = ""
    answer: str = ""
    document: str = ""
    remark: str = ""
    assembly: str = ""
    line: str = ""
    key: str = ""
    about: str = ""
    further: tuple[tuple[str, str], ...] = ()

    @property
    def identity(self) -> tuple[str, str, str, str, str]:
        """As that of the question."""
        return (self.party, self.assembly, self.line, self.key, self.about)

    @property
    def closed(self) -> bool:
        """Whether an answer was taken."""
        return bool(self.answered) and not self.refused


def told_again(entry: RegisterLine) -> str:
    """What a book says in its remarks of a question that was answered before."""
    if entry.refused:
        return f"came back as {entry.refused!r}: {entry.why}"
    return f"answered before: {entry.answer}" if entry.answer and not entry.answered else ""


def told_back(said: str, why: str) -> str:
    """What a book that goes back says of an answer that could not be taken."""
    return f"{said!r} was written: {why}"


class Register(Frozen, eq=False):
    """All lines of a register, in the order of the file."""

    entries: tuple[RegisterLine, ...] = ()

    def find(self, number: str) -> RegisterLine | None:
        """The line of a number, whatever its case."""
        wanted = number.strip().upper()
        return next((one for one in self.entries if one.number.upper() == wanted), None)

    def by_identity(self) -> Mapping[tuple[str, ...], RegisterLine]:
        """The lines by what their question is known by."""
        return {one.identity: one for one in self.entries}

    def with_entry(self, entry: RegisterLine) -> "Register":
        """The register with a line of the same number put in place of what it held."""
        return Register(tuple(entry if one.number == entry.number else one for one in self.entries))


def read_register(data: bytes, name: str) -> Register:
    """A register as it was saved, be it by a spreadsheet.

    Raises:
        RegisterError: it has no column of numbers, or a number stands twice.
    """
    text = _decoded(data)
    if not text.strip():
        return Register()
    first = text.splitlines()[0]
    parted = max(",;\t", key=first.count)
    try:
        rows = list(csv.reader(io.StringIO(text, newline=""), delimiter=parted))
    except csv.Error as error:
        raise RegisterError(f"{name} cannot be read as CSV: {error}") from None
    head = [bare(cell.strip()).strip().casefold() for cell in rows[0]]
    if "number" not in head or "key" not in head:
        raise RegisterError(f"{name} has no columns `number` and `key`; it is no register")
    own = tuple(dict.fromkeys(column for column in head if column and column not in COLUMNS))
    entries: list[RegisterLine] = []
    seen: set[str] = set()
    for line, cells in enumerate(rows[1:], 2):
        values = {
            column: bare(_with_lines(cell).strip()).strip()
            for column, cell in zip(head, cells, strict=False)
            if column
        }
        number = values.get("number", "").upper()
        if not any(values.values()):
            continue
        if not number or number in seen:
            what = f"the number {number} stands twice" if number else "a line without a number"
            raise RegisterError(f"{name}:{line}: {what}; put it right and run again")
        seen.add(number)
        known = {column: values.get(column, "") for column in COLUMNS}
        further = tuple((column, values.get(column, "")) for column in own)
        entries.append(RegisterLine(**{**known, "number": number}, further=further))
    return Register(tuple(entries))


def _decoded(data: bytes) -> str:
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        return data.decode("utf-16", "replace")
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError:  # as some spreadsheets save CSV
        return data.decode("cp1252", "replace")


def written_register(register: Register) -> bytes:
    """The register as a file in UTF-8; what a spreadsheet would take for a formula is text."""
    further = tuple(dict.fromkeys(k for one in register.entries for k, _ in one.further))
    stream = io.StringIO()
    writer = csv.writer(stream, lineterminator="\n")
    writer.writerow((*COLUMNS, *map(inert, further)))
    for one in register.entries:
        more = dict(one.further)
        cells = [getattr(one, column) for column in COLUMNS]
        every = (*cells, *(more.get(k, "") for k in further))
        writer.writerow([inert(_with_lines(cell)) for cell in every])
    return stream.getvalue().encode()


def _with_lines(cell: str) -> str:
    """A cell whose lines end alike; a bare return would end the row when it is read."""
    return cell.replace("\r\n", "\n").replace("\r", "\n")


def inert(cell: str) -> str:
    """A cell in which no spreadsheet finds a formula, by whatever delimiter it parts cells."""
    return _TO_QUOTE.sub("'", cell)


def bare(cell: str) -> str:
    """A cell as it was before `inert`."""
    return _QUOTED.sub("", cell)


def enrolled(
    register: Register, asked: Sequence[Question], day: date | None, *, remind: bool = False
) -> tuple[Register, Mapping[tuple[str, ...], RegisterLine]]:
    """The register with every question in it, and the line of each.

    A question that is known keeps its number; a new one gets the next of its party. With a day it
    is noted as asked then, or as reminded where it was asked before and nothing came back.
    """
    known = dict(register.by_identity())
    order = [one.number for one in register.entries]
    by_number = {one.number: one for one in register.entries}
    prefixes = _prefixes(register)
    last: dict[str, int] = {}
    for number in order:
        found = _NUMBER.fullmatch(number)
        if found is not None:
            last[found[1]] = max(last.get(found[1], 0), int(found[2]))
    mine: dict[tuple[str, ...], RegisterLine] = {}
    for one in asked:
        entry = known.get(one.identity)
        if entry is None:
            prefix = _prefix(one.party, prefixes)
            last[prefix] = last.get(prefix, 0) + 1
            party, assembly, line, key, about = one.identity
            entry = RegisterLine(
                f"{prefix}-{last[prefix]:02}",
                party,
                one.text,
                assembly=assembly,
                line=line,
                key=key,
                about=about,
            )
            order.append(entry.number)
        elif entry.closed and day is not None:  # it came back
            entry = replace(entry, answered="", why=entry.why)
        if day is not None:
            if not entry.asked:
                entry = replace(entry, asked=day.isoformat())
            elif remind and not entry.answered:
                entry = replace(entry, reminded=day.isoformat())
        by_number[entry.number] = mine[one.identity] = known[one.identity] = entry
    return Register(tuple(by_number[number] for number in order)), mine


def _prefixes(register: Register) -> dict[str, str]:
    """Which party each beginning of a number is of."""
    found: dict[str, str] = {}
    for one in register.entries:
        number = _NUMBER.fullmatch(one.number)
        if number is not None:
            found.setdefault(number[1], one.party)
    return found


def _prefix(party: Party, taken: dict[str, str]) -> str:
    """How the numbers of a party begin: of a vendor by its name, each party its own."""
    named = _PLAIN.sub("", party.vendor.upper())[:8] if party.vendor else ""
    base = named or _CODES[party.role]
    if named in _CODES.values():
        base = f"{named}V"
    prefix, number = base, 1
    while taken.get(prefix, party.name) != party.name:
        number += 1
        prefix = f"{base}X{number}"
    taken[prefix] = party.name
    return prefix


def unanswered(register: Register, numbers: Iterable[str]) -> frozenset[str]:
    """Those of the numbers to which nothing came back that was taken."""
    wanted = set(numbers)
    return frozenset(
        one.number for one in register.entries if one.number in wanted and not one.answered
    )
