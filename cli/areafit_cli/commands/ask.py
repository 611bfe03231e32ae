"""`areafit ask`: an interview in the terminal, each answer written at once."""

import sys
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from areafit.verdict import Role
from areafit_cli import lists, paths, registers, words
from areafit_cli.desk import (
    CHANGED,
    WAYS_OUT,
    Change,
    Desk,
    StopError,
    UndoError,
    WrittenFiles,
    chosen,
    uninterrupted,
)
from areafit_cli.errors import CallError, unknown
from areafit_cli.options import value

if TYPE_CHECKING:
    from areafit.answers.interview import Turn
    from areafit.answers.questions import Question
    from areafit.answers.replies import Reply
    from areafit.answers.taking import AnswerOutcome
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

    def __init__(self, path: Path, role: Role | None, item: str | None) -> None:
        from areafit.answers.interview import Interview  # noqa: PLC0415 - loads on demand

        self._path = path
        self._name = paths.shown(path)
        self._role = role
        self._item = item
        self._desk = Desk()
        self._files = WrittenFiles()
        self._passed: set[object] = set()
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
        shared = (self._path, self._desk, self._files, self._undo)
        if self._item is None:
            PlacesScreen(*shared).hold()
        KindsScreen(*shared, item=self._item).hold()

    # All else

    def _rest(self) -> None:
        from areafit.answers.interview import Turn  # noqa: PLC0415 - on demand

        while True:
            data = paths.read(self._path)
            found = self._turns.turns(
                self._report(), self._root(data), role=self._role, item=self._item
            )
            left = [
                Turn(own, turn.settles)
                for turn in found
                if (own := tuple(one for one in turn.questions if one.identity not in self._passed))
            ]
            try:
                if not left:
                    if self._files.any:
                        self._desk.typed(_END)
                    return
                turn = left[0]
                if self._apart.intersection(one.identity for one in turn.questions):
                    turn = Turn(turn.questions[:1], turn.settles)
                self._asked(turn, len(left))
            except UndoError:
                self._undo()

    def _asked(self, turn: "Turn", left: int) -> None:
        """A turn that may be left open, or begun again."""
        try:
            try:
                self._turn(turn, left)
            except _SkipError as skipped:
                if not skipped.known:
                    self._note_who(turn)
                self._passed.update(one.identity for one in turn.questions)
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
        self._take(turn, found, document)

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
        self._enter([question], refused=text, answer=text, why=why)
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
        self._enter(turn.questions, remark=f"not known{asked} on {day}; {who} would know")

    # Small tables

    def _table(self, question: "Question") -> None:
        """Row by row, each written as soon as it is typed; an empty first cell ends it."""
        said, document = self._begun(question)
        if said == "none":
            self._take(_alone(question), "none", "")
            return
        for component in self._expected(question):
            self._desk.say(f"such parts usually hold: {component}", 2)
        entries: list[dict[str, Any]] = []
        seen = [paths.read(self._path)]
        while said == "row" and (entry := self._typed_row(question.key)):
            if self._take(_alone(question), [entry], document, last=False, seen=seen):
                entries.append(entry)
        complete = None
        if question.key == "part.materials" and (entries or said == "all"):
            said = self._desk.one_of("Is that list complete?", ["yes", "no"], "not said")
            complete = said == "yes" if said else None
            if complete is not None:
                self._take(
                    _alone(question), None, document, complete=complete, last=False, seen=seen
                )
        self._passed.add(question.identity)
        if entries or complete is not None:
            self._told(question, _reply(question, entries or None, document, complete), seen)

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

    def _told(self, question: "Question", reply: "Reply", seen: list[bytes]) -> None:
        """A whole table, once its rows are written: into the register, and into an entry."""
        from areafit.answers.taking import AnswerOutcome, Done  # noqa: PLC0415 - on demand

        if reply.document:
            self._enter([question], outcomes=[AnswerOutcome(reply, Done.WRITTEN)], joined=True)
        if all(made == before for made, before in zip(seen[::2], seen[1::2], strict=False)):
            self._offer_entry(_alone(question), [reply], seen[0], seen[-1])

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

    # Writing

    def _take(
        self,
        turn: "Turn",
        found: Any,  # noqa: ANN401 - text, yes or no, or entries
        document: str,
        *,
        complete: bool | None = None,
        last: bool = True,
        seen: list[bytes] | None = None,
    ) -> bool:
        """Write the answer into the list as it is now, and tell what became of it."""
        from areafit.answers.taking import Done, take  # noqa: PLC0415 - on demand

        replies = [_reply(one, found, document, complete) for one in turn.questions]
        with uninterrupted():
            before = paths.read(self._path)
            shelf = lists.shelf(self._path)
            read = lists.reader(self._path)
            taken = take(before, self._name, replies, read, words.today(), shelf)
            done = [each for each in taken.outcomes if each.done is not Done.REFUSED]
            for each in taken.outcomes:
                if each.done is Done.REFUSED:
                    self._desk.say(f"not taken: {each.why}", 2)
            answered = frozenset(each.reply.identity for each in done)
            if done and not self._files.put({self._path: (before, taken.data)}, answered):
                self._desk.say(CHANGED, 2)
                return False
            if last:
                self._passed.update(answered)
            if seen is not None:
                seen += [before, taken.data]
            if document and done and last:
                self._enter(turn.questions, outcomes=taken.outcomes, joined=taken.data != before)
        for word in dict.fromkeys(each.done.value for each in done):
            self._desk.say(word, 2)
        if taken.data != before and last:
            self._offer_note(turn, found, before, taken.data)
            self._offer_entry(turn, replies, before, taken.data)
        return bool(done)

    def _offer_note(self, turn: "Turn", found: object, before: bytes, made: bytes) -> None:
        """One note for what was written onto several made lines, where a note may say that."""
        from areafit.answers.interview import Turn, as_note, is_made  # noqa: PLC0415 - on demand
        from areafit.answers.taking import take  # noqa: PLC0415 - as above

        read = lists.reader(self._path)
        bom = read(made)
        ours = {str(part.item) for part in bom.parts if is_made(bom, part)}
        own = [one for one in turn.questions if ours.issuperset(one.items)]
        others = [one for one in turn.questions if one not in own]
        if sum(len(one.items) for one in own) < 2:
            return
        replies = [_reply(one, found, "", None) for one in others]
        bare = take(before, self._name, replies, read, words.today()).data if others else before

        def noted_by(document: str, role: str) -> bytes | None:
            return as_note(
                *(bare, made, self._name, read),
                turn=Turn((*own,)),
                value=found,
                document=document,
                role=role,
            )

        if noted_by("drawing", Role.DESIGNER.value) is None:
            return
        made_here = ", ".join(item for one in own for item in one.items)
        self._desk.say(
            f"A title block or a standard may say it for what is made here: {made_here}.",
            2,
        )
        document = self._desk.document("one note instead: its document", "it stays on the lines")
        if not document:
            return
        roles = [each.value for each in Role]
        role = self._desk.one_of("who answers for the note?", roles, "no note")
        if not role:
            return
        noted = noted_by(document, role)
        with uninterrupted():
            files: Change = {self._path: (made, noted or made)}
            if noted is not None and self._files.put(files, frozenset(), joined=True):
                self._desk.say(f"one note by {document}", 2)
            else:
                self._desk.say("no note was written; it stays on the lines", 2)

    def _offer_entry(
        self, turn: "Turn", replies: "Sequence[Reply]", before: bytes, made: bytes
    ) -> None:
        """A bought part's fact into its entry instead, if somebody confirms that anew."""
        from areafit.answers.questions import LIBRARY, entry_of, lines_of  # noqa: PLC0415
        from areafit.answers.taking import Done, take  # noqa: PLC0415 - on demand
        from areafit.values import replace  # noqa: PLC0415 - as above

        if turn.first.assembly != LIBRARY:
            return
        bom = lists.reader(self._path)(before)
        entry = next((entry_of(bom, part) for part in lines_of(bom, turn.first)), None)
        if entry is None:
            return
        self._desk.say(
            f"The library has an entry of {entry.number}, confirmed {entry.confirmed_on} by "
            f"{entry.document}. There it would count for all lists.",
            2,
        )
        document = self._desk.document("document that now confirms the entry", "line only")
        if not document:
            return
        roles = [each.value for each in Role]
        role = self._desk.one_of("which role confirms it?", roles, "line only")
        if not role:
            return
        day = self._day()
        told = {"on": day, "document": document, "role": role}
        with uninterrupted():
            shelf = lists.shelf(self._path)
            read = lists.reader(self._path)
            own = [replace(each, confirmed=told) for each in replies]
            taken = take(before, self._name, own, read, words.today(), shelf)
            if not all(each.done is Done.WRITTEN for each in taken.outcomes):
                self._desk.say("the entry cannot take it; it stays on the line", 2)
                return
            files: dict[Path, tuple[bytes | None, bytes]] = {
                Path(name): (shelf.files[name], now) for name, now in taken.library.items()
            }
            files[self._path] = (made, taken.data)
            if self._files.put(files, frozenset(), joined=True):
                self._desk.say(taken.outcomes[0].why, 2)

    def _day(self) -> str:
        from areafit.answers.replies import CellError, value_of  # noqa: PLC0415 - on demand

        while True:
            said = self._desk.typed(f"on which day? enter: today; {WAYS_OUT}")
            try:
                day = value_of("library.confirmed.on", said or words.today().isoformat())
            except CellError as error:
                self._desk.say(str(error), 2)
            else:
                return str(day)

    def _enter(
        self,
        asked: "Sequence[Question]",
        *,
        outcomes: "Sequence[AnswerOutcome]" = (),
        joined: bool = False,
        **more: Any,  # noqa: ANN401 - fields of a line of the register
    ) -> None:
        """Keep in the register what the list has no place for."""
        from areafit.answers.register import enrolled, written_register  # noqa: PLC0415
        from areafit.answers.taking import noted  # noqa: PLC0415 - on demand
        from areafit.values import replace  # noqa: PLC0415 - as above

        file = registers.path_of(self._path)
        with registers.held(file):
            before = paths.read(file) if file.exists() else None
            register, mine = enrolled(registers.read(file), asked, None)
            register = noted(register, outcomes, (), words.today())
            for entry in mine.values() if more else ():
                register = register.with_entry(replace(entry, **more))
            files: Change = {file: (before, written_register(register))}
            self._files.put(files, frozenset(one.identity for one in asked), joined=joined)

    def _undo(self) -> None:
        """Take back the last answer, in all files that it went into."""
        if not self._files.any:
            self._desk.say("there is nothing to undo", 2)
            return
        with uninterrupted():
            answered = self._files.undo()
        if answered is None:
            self._desk.say("a file has changed since; undo it there", 2)
            return
        self._passed -= answered
        self._apart -= answered
        self._desk.say("undone", 2)


def _row(key: str) -> "FactRow":
    from areafit.file.facts import facts  # noqa: PLC0415 - loads on demand

    return facts()[key]


def _alone(question: "Question") -> "Turn":
    from areafit.answers.interview import Turn  # noqa: PLC0415 - loads on demand

    return Turn((question,))


def _reply(
    question: "Question",
    found: Any,  # noqa: ANN401 - text, yes or no, or entries
    document: str,
    complete: bool | None,
) -> "Reply":
    from areafit.answers.replies import AnswerCell, Reply  # noqa: PLC0415 - loads on demand

    return Reply(
        AnswerCell("ask", "", ""),
        "",
        question.party,
        question.assembly,
        question.line,
        question.key,
        question.about,
        found,
        _text(found),
        document,
        complete=complete,
    )


def _text(found: Any) -> str:  # noqa: ANN401 - text, yes or no, or entries
    if isinstance(found, list):
        return "; ".join(", ".join(str(cell) for cell in each.values()) for each in found)
    return {True: "yes", False: "no", None: "all is listed"}.get(found, str(found))
