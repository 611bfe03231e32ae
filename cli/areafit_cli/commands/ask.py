"""`areafit ask`: an interview in the terminal, each answer written at once."""

import sys
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from areafit.verdict import Role
from areafit_cli import lists, paths, words
from areafit_cli.answering import Answering, alone, reply
from areafit_cli.desk import WAYS_OUT, Desk, StopError, UndoError, chosen
from areafit_cli.errors import CallError, unknown
from areafit_cli.options import value

if TYPE_CHECKING:
    from areafit.answers.interview import Turn
    from areafit.answers.questions import Question
    from areafit.file.facts import FactRow
    from areafit.findings.report import BomReport

EXAMPLE = "areafit ask bom.yaml --role designer"
_END = "nothing more to ask; u undo, enter: end"
_COMMANDS = f"? why, d don't know, s skip, {WAYS_OUT}"
_BACK = "u back, q stop"


def command(
    bom: Annotated[str, typer.Argument(metavar="BOM", help="The list to complete.")],
    *,
    role: Annotated[
        str | None, value("Only what this role answers, such as designer.", metavar="ROLE")
    ] = None,
    item: Annotated[str | None, value("Only this item.", metavar="ITEM")] = None,
) -> None:
    """Ask what is open, one question at a time; each answer is written into the list at once."""
    roles = {each.value: each for each in Role}
    if role is not None and role not in roles:
        raise unknown("role", role, roles)
    if bom == paths.STDIN:
        raise CallError("answers are written into a list; name its file")
    if not all(stream is not None and stream.isatty() for stream in (sys.stdin, sys.stdout)):
        raise CallError(
            "`ask` is an interview and needs a terminal; `areafit actions` lists the questions"
        )
    known = {str(part.item) for part in lists.read(bom).parts}
    if item is not None and item not in known:
        raise unknown("item", item, known)
    _Asking(Path(bom), roles.get(role or ""), item).hold()


class _SkipError(Exception):
    """Left open; `known` says that this person does not know it."""

    def __init__(self, *, known: bool = True) -> None:
        super().__init__()
        self.known = known


class _BackError(Exception):
    """The question itself is to be asked again; nothing of its answer is written yet."""


class _Asking:
    """One list, asked until nothing is left that this person can answer."""

    def __init__(
        self, path: Path, role: Role | None, item: str | None, desk: Desk | None = None
    ) -> None:
        from areafit.answers.interview import Interview  # noqa: PLC0415 - loads on demand

        self._path = path
        self._name = paths.shown(path)
        self._role = role
        self._item = item
        self._desk = desk or Desk()
        self._answers = Answering(path, self._desk)
        self._apart: set[object] = set()
        self._turns = Interview(self._judged)

    def hold(self) -> None:
        """Where the parts stand, what they are, then all else by what an answer settles."""
        try:
            self._screens()
            self._rest()
        except KeyboardInterrupt:
            self._desk.say("\nStopped. All answers given so far are written.")
            raise
        except (EOFError, StopError):
            self._desk.say("\nStopped. All answers given so far are written.")
        left = sum(not part.verdict.passes for part in self._report().parts)
        lines = "line is" if left == 1 else "lines are"
        self._desk.say(f"{left} {lines} still open; `areafit check {self._name}` tells.")

    # The list as it is now

    def _report(self) -> "BomReport":
        return lists.report(str(self._path))

    def _judged(self, data: bytes) -> "BomReport":
        import areafit  # noqa: PLC0415 - on demand

        options = words.options(accept_unproven=(), as_of=None)
        tables = lists.known_tables({}, options.as_of)
        return areafit.judge(lists.reader(self._path)(data), tables, options)

    def _root(self, data: bytes) -> Any:  # noqa: ANN401 - as written
        from areafit.answers.taking import root_of  # noqa: PLC0415 - loads on demand

        return root_of(data, self._name)

    def _screens(self) -> None:
        """What a designer confirms first, row by row."""
        from areafit_cli.screens import KindsScreen, PlacesScreen  # noqa: PLC0415 - on demand

        if self._role not in {None, Role.DESIGNER}:
            return
        shared = (self._path, self._desk, self._answers.files, self._undo)
        if self._item is None:
            PlacesScreen(*shared).hold()
        KindsScreen(*shared, item=self._item).hold()

    # All else

    def _rest(self) -> None:
        from areafit.answers.interview import Turn  # noqa: PLC0415 - on demand

        passed = self._answers.passed
        while True:
            data = paths.read(self._path)
            found = self._turns.turns(
                self._report(), self._root(data), role=self._role, item=self._item
            )
            left = [
                Turn(own, turn.settles)
                for turn in found
                if (own := tuple(one for one in turn.questions if one.identity not in passed))
            ]
            try:
                if not left:
                    if self._answers.files.any:
                        self._desk.typed(_END)
                    return
                turn = left[0]
                if self._apart.intersection(one.identity for one in turn.questions):
                    turn = Turn(turn.questions[:1], turn.settles)
                self._asked(turn, len(left))
            except UndoError:
                self._undo()

    def _undo(self) -> None:
        self._apart -= self._answers.undo()

    def _asked(self, turn: "Turn", left: int) -> None:
        """A turn that may be left open, or begun again."""
        try:
            try:
                self._turn(turn, left)
            except _SkipError as skipped:
                if not skipped.known:
                    self._note_who(turn)
                self._answers.passed.update(one.identity for one in turn.questions)
        except _BackError:
            return

    def _turn(self, turn: "Turn", left: int) -> None:
        """One question, of one line or of all that one word settles alike."""
        first = turn.first
        self._desk.heading(f"{left} to ask" if left > 1 else "the last one")
        for one in turn.questions:
            about = f", {one.about}" if one.about else ""
            name = one.part_number or (one.line if one.line not in one.items else "")
            shown = " ".join(filter(None, (name, one.description))) or one.line
            self._desk.say(f"{shown}{about} ({', '.join(one.items)})")
        demands = "; ".join(dict.fromkeys(one.demand for one in turn.questions if one.demand))
        if demands:
            self._desk.say(f"the place asks: {demands}", 2)
        if first.table:
            self._table(first)
            return
        found = self._answer(turn)
        if found is None:
            self._apart.update(one.identity for one in turn.questions)
            return
        document = self._document(first, found)
        self._answers.take(turn, found, document)

    def _answer(self, turn: "Turn") -> Any:  # noqa: ANN401 - a text or a yes or no
        """What is said, as the list takes it; None where each line is to be asked by itself."""
        from areafit.answers.replies import CellError, value_of  # noqa: PLC0415 - on demand
        from areafit.answers.workbook import unit_of, words_of  # noqa: PLC0415 - as above

        first = turn.first
        row, unit = _row(first.key), unit_of(first.row)
        offered = words_of(first.row)
        self._desk.say(f"{first.text} [{unit}]" if unit else first.text, 2)
        self._desk.choices(offered, [row.meaning_of(word) for word in offered])
        several = len(turn.questions) > 1
        prompt = f"e each by itself, {_COMMANDS}" if several else _COMMANDS
        while True:
            said = self._said(prompt, first)
            if several and said == "e":
                return None
            try:
                return value_of(first.key, chosen(said, offered) or said)
            except CellError as error:
                self._desk.say(f"{error}; type its number, the word or the value", 2)

    def _said(self, prompt: str, question: "Question") -> str:
        """What is typed, once it is no command."""
        while True:
            said = self._desk.typed(prompt)
            match said.casefold():
                case "?":
                    self._desk.say(question.why, 4)
                    if question.clause:
                        self._desk.say(f"clause: {question.clause}", 4)
                case "d":
                    raise _SkipError(known=False)
                case "s" | "":
                    raise _SkipError
                case _:
                    return said

    def _document(self, question: "Question", found: object) -> str:
        """The document that shows a nameplate, a grade or a number: nothing holds without one."""
        from areafit.answers.taking import needs_document  # noqa: PLC0415 - on demand

        if not needs_document(question.key) or found == "none":
            return ""
        text = "" if question.table else str(found)
        try:
            document = self._desk.document("the document that shows it", "it stays open", _BACK)
        except UndoError:
            raise _BackError from None
        except (KeyboardInterrupt, EOFError, StopError):
            self._keep(question, text)
            raise
        if not document:
            self._keep(question, text)
            raise _SkipError
        return document

    def _keep(self, question: "Question", text: str) -> None:
        """Note in the register what was said and cannot be written without a document."""
        if not text:
            return
        why = "without the document that shows it"
        self._answers.enter([question], refused=text, answer=text, why=why)
        self._desk.say(f"not written, {why}; kept in questions.csv", 2)

    def _note_who(self, turn: "Turn") -> None:
        """Who would know, noted with the question."""
        row = turn.first.row
        likely = row.who if row is not None else turn.first.party.role
        self._desk.say(f"Left open. It was asked of: {turn.first.party.name}.", 2)
        roles = [role.value for role in Role]
        self._desk.choices(roles)
        try:
            said = self._desk.typed(f"who would know? enter: nobody named; {_BACK}")
        except UndoError:
            raise _BackError from None
        who = chosen(said, roles) or said or likely.value
        day = words.today().isoformat()
        asked = f" by the {self._role.value}" if self._role is not None else ""
        self._answers.enter(turn.questions, remark=f"not known{asked} on {day}; {who} would know")

    # Small tables

    def _table(self, question: "Question") -> None:
        """Row by row, each written as soon as it is typed; an empty first cell ends it."""
        said, document = self._begun(question)
        if said == "none":
            self._answers.take(alone(question), "none", "")
            return
        for component in self._expected(question):
            self._desk.say(f"such parts usually hold: {component}", 2)
        entries: list[dict[str, Any]] = []
        seen = [paths.read(self._path)]
        while said == "row" and (entry := self._typed_row(question.key)):
            if self._answers.take(alone(question), [entry], document, last=False, seen=seen):
                entries.append(entry)
        complete = None
        if question.key == "part.materials" and (entries or said == "all"):
            said = self._desk.one_of("Is that list complete?", ["yes", "no"], "not said")
            complete = said == "yes" if said else None
            if complete is not None:
                self._answers.take(
                    alone(question), None, document, complete=complete, last=False, seen=seen
                )
        self._answers.passed.add(question.identity)
        if entries or complete is not None:
            self._answers.told(question, reply(question, entries or None, document, complete), seen)

    def _typed_row(self, key: str) -> dict[str, Any]:
        """One row, cell by cell; empty where the first cell is."""
        from areafit.answers.questions import TABLES  # noqa: PLC0415 - on demand
        from areafit.answers.workbook import heading  # noqa: PLC0415 - as above

        entry: dict[str, Any] = {}
        for column in TABLES[key]:
            try:
                cell = self._cell(f"{key}.{column}", heading(column), first=not entry)
            except UndoError:
                if not entry:
                    raise
                self._desk.say("this row is begun again", 2)
                return self._typed_row(key)
            if cell is None and not entry:
                break
            if cell is not None:
                entry[column] = cell
        return entry

    def _begun(self, question: "Question") -> tuple[str, str]:
        """Whether rows are typed, none are, or what is listed is all; and by what document."""
        self._desk.say(question.text, 2)
        listed = self._listed(question)
        for each in listed:
            self._desk.say(f"listed: {each}", 2)
        first = "row: type one that is not listed yet" if listed else "row: type the first one"
        last = "all: there is no more" if listed else "none: there is none"
        self._desk.choices([first, last])
        offered = [one.partition(":")[0] for one in (first, last)]
        while (said := chosen(self._said(_COMMANDS, question), offered)) is None:
            self._desk.say("Type 1 or 2.", 2)
        if said == "row":
            return said, self._document(question, "rows")
        if said == "none":
            return said, ""
        try:
            return said, self._desk.document("the document that says so", "none", _BACK)
        except UndoError:
            raise _BackError from None

    def _listed(self, question: "Question") -> list[str]:
        """What the line states of the table so far."""
        from areafit.answers.questions import entry_labels  # noqa: PLC0415 - loads on demand

        bom = lists.reader(self._path)(paths.read(self._path))
        part = next((one for one in bom.parts if str(one.item) in question.items), None)
        holder = question.key.partition(".")[2]
        return entry_labels(bom, part, holder) if part is not None else []

    def _expected(self, question: "Question") -> Iterator[str]:
        if question.key == "part.materials":
            import areafit  # noqa: PLC0415 - on demand
            from areafit.tables.materials import HiddenItem, hidden_in  # noqa: PLC0415 - as above

            every = areafit.Tables.shipped().rows("hidden_items", HiddenItem)
            yield from dict.fromkeys(
                one.component for one in hidden_in(question.description or None, every)
            )

    def _cell(self, key: str, name: str, *, first: bool) -> Any:  # noqa: ANN401 - any value
        from areafit.answers.replies import CellError, value_of  # noqa: PLC0415 - on demand
        from areafit.answers.workbook import words_of  # noqa: PLC0415 - as above

        row = _row(key)
        offered = words_of(row)
        self._desk.choices(offered, [row.meaning_of(word) for word in offered])
        empty = "no more rows" if first else "not stated"
        while True:
            said = self._desk.typed(f"{name}; empty: {empty}; {WAYS_OUT if first else _BACK}")
            if not said:
                return None
            try:
                return value_of(key, chosen(said, offered) or said)
            except CellError as error:
                self._desk.say(str(error), 2)


def _row(key: str) -> "FactRow":
    from areafit.file.facts import facts  # noqa: PLC0415 - loads on demand

    return facts()[key]
