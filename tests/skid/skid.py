"""The invented solvent skid: as the export has it, as it truly is, and a person who knows that.

The true state is `released.yaml` with `parts.yaml`: the skid of the samples with its mistakes put
right. The export holds no more than a CAD system knows.
"""

import re
from collections.abc import Sequence
from pathlib import Path
from typing import Any

import openpyxl

from areafit.answers.interview import Turn
from areafit.answers.questions import TABLES, Question, label_of
from areafit.answers.workbook import heading
from areafit.verdict import Role
from areafit_cli.commands.ask import _Asking
from areafit_cli.desk import Desk

HERE = Path(__file__).parent
VENDORS = {"SR-020": "V-31", "SR-030": "V-44", "SR-140": "V-31"}
_NOT_TYPED = {"item", "part_number", "description", "quantity", "location", "vendor", "confirmed"}
_SHORT = {"surface_temperature": "value", "materials_complete": "complete"}


def _loaded(path: Path) -> Any:
    from areafit.answers.taking import _plain, root_of

    return _plain(root_of(path.read_bytes(), path.name))


def true_lines() -> dict[str, dict[str, Any]]:
    """Every line with all that is true of it, what its entry says included, by part number."""
    shelf = _loaded(HERE / "parts.yaml")["parts"]
    lines = {}
    for line in _loaded(HERE / "released.yaml")["parts"]:
        entry = shelf.get(line["part_number"], {})
        lines[line["part_number"]] = {**entry, **line}
    return lines


def places() -> str:
    """The shared file of places, as the area owner wrote it."""
    text = (HERE / "released.yaml").read_text(encoding="utf-8")
    inner = text.partition("locations:\n")[2].partition("parts:\n")[0]
    return f"areafit-areas: 1\ncode: NEC\nlocations:\n{inner}"


def export(*, renumbered: bool = False, changed: str = "") -> str:
    """What the CAD system writes; a later revision renumbers, changes one part and adds one."""
    rows = ["Pos;Part number;Description;Qty;Vendor;Location"]
    for number, (name, line) in enumerate(true_lines().items(), 1):
        item = f"{number * 10}" if renumbered else line["item"]
        text, count = line["description"], line["quantity"]
        part = f"{name}-B" if name == changed else name
        rows.append(f"{item};{part};{text};{count};{VENDORS.get(name, '')};{line['location']}")
    return "\n".join(rows) + "\n"


def missing() -> int:
    """How many facts the released list states that the export does not: each value once."""

    def leaves(value: Any) -> int:
        if isinstance(value, dict):
            return sum(map(leaves, value.values()))
        return sum(map(leaves, value)) if isinstance(value, list) else 1

    return sum(
        leaves(value)
        for line in true_lines().values()
        for key, value in line.items()
        if key not in _NOT_TYPED
    )


def truth(line: dict[str, Any], key: str, about: str) -> Any:
    """The true value of a key of a part, None where nobody stated it."""
    node: Any = line
    steps = key.partition(".")[2].split(".")
    for place, step in enumerate(steps):
        if isinstance(node, list):
            named = [each for each in node if label_of(steps[place - 1], each) == about]
            node = named[0] if len(named) == 1 else None
        if isinstance(node, str) and place and _SHORT.get(steps[place - 1]) == step:
            return node
        node = node.get(step) if isinstance(node, dict) else None
    if node is None and key == "part.materials.exposure":
        return line.get("exposure")
    return node


def told(value: Any) -> str:
    """A value as a person types it."""
    if isinstance(value, list):
        return "; ".join(map(told, value))
    return {"true": "yes", "false": "no"}.get(str(value), str(value))


class Person(Desk):
    """Somebody at the desk who knows all of the machine, and answers what is on the screen."""

    def __init__(self) -> None:
        super().__init__()
        self.rows: dict[int, str] = {}
        self.said: list[str] = []
        self.twice: list[tuple[str, str, tuple[str, ...]]] = []
        self.cells: list[str] = []
        self.turn: Turn | None = None
        self.asked: list[tuple[str, str, tuple[str, ...]]] = []
        self.typed_in = 0
        self.unknown: list[Question] = []
        released = _loaded(HERE / "released.yaml")
        self.lines = {"the list": released, **released["locations"], **true_lines()}
        self.note = "ES-40 rev C"

    def say(self, text: str, indent: int = 0) -> None:
        """What is said is kept, the last first."""
        del indent
        self.said.insert(0, text)

    def heading(self, text: str) -> None:
        """A new screen."""
        del text
        self.rows = {}

    def row(self, number: int, text: str) -> None:
        """A row of it."""
        self.rows[number] = text
        if text.endswith(", confirmed"):
            del self.rows[number]

    def choices(self, offered: Sequence[str], meanings: Sequence[str] = ()) -> None:
        """The words of a question."""

    def one_of(self, prompt: str, offered: Sequence[str], empty: str) -> str:
        """The role that answers, or whether a list is complete."""
        del prompt, empty
        self.typed_in += 1
        return "designer" if "designer" in offered else "yes"

    def typed(self, prompt: str) -> str:  # noqa: PLR0911 - a line for each prompt
        """What the person types."""
        self.typed_in += 1
        if prompt.startswith("enter: go on; `2 PLACE`"):
            return ""
        if "`2` confirms row 2" in prompt:
            return self._kind()
        if "the document that" in prompt:
            return "DS-330 rev B"
        if prompt.startswith("one note instead"):
            return self.note
        if "; empty: " in prompt:
            return self.cells.pop(0)
        if prompt.startswith("nothing more to ask"):
            return ""
        assert self.turn is not None
        return self._answer(self.turn)

    def _kind(self) -> str:
        for number, row in self.rows.items():
            name = re.match(r"\S+", row)
            assert name is not None
            kinds = self.lines[name[0]]["kind"]
            said = ", ".join(kinds) if isinstance(kinds, list) else kinds
            return f"{number} {said}"
        return ""

    def _answer(self, turn: Turn) -> str:
        values = {told(truth(self.lines[one.line], one.key, one.about)) for one in turn.questions}
        first = turn.first
        if len(values) > 1:
            return "e"
        value = truth(self.lines[first.line], first.key, first.about)
        if value is None:
            self.unknown.append(first)
            return "s"
        again = (first.key, first.about, turn.items)
        if again in self.asked:  # there is no more to say of it
            self.twice.append(again)
            return "s"
        self.asked.append(again)
        if not first.table:
            return told(value)
        if value == "none":
            return "none"
        self._fill(first, value)
        return "row"

    def _fill(self, question: Question, value: Any) -> None:
        columns = TABLES[question.key]
        self.cells = [
            told(entry.get(column, "")) for entry in _entries(value) for column in columns
        ]
        self.cells.append("")


def _entries(value: Any) -> list[dict[str, Any]]:
    return [
        each if isinstance(each, dict) else {"material": each}
        for each in (value if isinstance(value, list) else [value])
    ]


def fill(book: Path, lines: dict[str, dict[str, Any]]) -> int:
    """Fill a workbook as its party would who knows its parts; how many questions it answered."""
    made = openpyxl.load_workbook(book)
    done = 0
    for sheet in made.worksheets:
        heads = {str(cell.value): cell.column for cell in sheet[1]}
        rows = [
            {name: sheet.cell(row, at) for name, at in heads.items()}
            for row in range(2, sheet.max_row + 1)
        ]
        if sheet.sheet_state != "hidden":
            done += (_fill_answers if "answer" in heads else _fill_tables)(rows, lines)
    made.save(book)
    return done


def _fill_answers(rows: list[dict[str, Any]], lines: dict[str, dict[str, Any]]) -> int:
    done = 0
    for row in rows:
        key, line, of = (str(row[name].value or "") for name in ("key", "line", "of"))
        value = truth(lines.get(line, {}), key, of)
        if value is not None and (key not in TABLES or value == "none"):
            row["answer"].value, row["document"].value = told(value), "DS-330 rev B"
            done += 1
    return done


def _fill_tables(rows: list[dict[str, Any]], lines: dict[str, dict[str, Any]]) -> int:
    done = 0
    for line, key in dict.fromkeys((row["line"].value, row["key"].value) for row in rows):
        own = [row for row in rows if (row["line"].value, row["key"].value) == (line, key)]
        value = truth(lines.get(str(line), {}), str(key), "")
        if value is None or value == "none":
            continue
        done += 1
        for row, entry in zip(own, _entries(value), strict=False):
            for column in TABLES[str(key)]:
                row[heading(column)].value = told(entry.get(column, "")) or None
            row["document"].value = "DS-330 rev B"
            if "this list is complete" in row:
                row["this list is complete"].value = "yes"
    return done


class Watched(_Asking):
    """An interview that tells the person which question is on the screen."""

    def __init__(self, path: Path, role: Role | None, person: Person) -> None:
        super().__init__(path, role, None, person)
        self._person = person

    def _turn(self, turn: Turn, left: int) -> None:
        self._person.turn = turn
        super()._turn(turn, left)


def interview(path: Path, person: Person, role: Role | None = None) -> Person:
    """Hold it until nothing is asked any more."""
    Watched(path, role, person).hold()
    return person
