"""What an answer at the desk changes: list, note or entry of the library, and the register."""

from pathlib import Path
from typing import TYPE_CHECKING, Any

from areafit.verdict import Role
from areafit_cli import lists, paths, registers, words
from areafit_cli.desk import CHANGED, WAYS_OUT, Change, Desk, WrittenFiles, uninterrupted

if TYPE_CHECKING:
    from collections.abc import Sequence

    from areafit.answers.interview import Turn
    from areafit.answers.questions import Question
    from areafit.answers.replies import Reply
    from areafit.answers.taking import AnswerOutcome


class Answering:
    """The answers to the questions of one list, each written at once and taken back as one.

    `passed` are the questions, by identity, that are not asked again in this interview.
    """

    def __init__(self, path: Path, desk: Desk) -> None:
        self._path = path
        self._name = paths.shown(path)
        self._desk = desk
        self.files = WrittenFiles()
        self.passed: set[object] = set()

    def take(
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

        replies = [reply(one, found, document, complete) for one in turn.questions]
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
            if done and not self.files.put({self._path: (before, taken.data)}, answered):
                self._desk.say(CHANGED, 2)
                return False
            if last:
                self.passed.update(answered)
            if seen is not None:
                seen += [before, taken.data]
            if document and done and last:
                self.enter(turn.questions, outcomes=taken.outcomes, joined=taken.data != before)
        for word in dict.fromkeys(each.done.value for each in done):
            self._desk.say(word, 2)
        if taken.data != before and last:
            self._offer_note(turn, found, before, taken.data)
            self._offer_entry(turn, replies, before, taken.data)
        return bool(done)

    def told(self, question: "Question", reply: "Reply", seen: list[bytes]) -> None:
        """A whole table, once its rows are written: into the register, and into an entry."""
        from areafit.answers.taking import AnswerOutcome, Done  # noqa: PLC0415 - on demand

        if reply.document:
            self.enter([question], outcomes=[AnswerOutcome(reply, Done.WRITTEN)], joined=True)
        if all(made == before for made, before in zip(seen[::2], seen[1::2], strict=False)):
            self._offer_entry(alone(question), [reply], seen[0], seen[-1])

    def enter(
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
            self.files.put(files, frozenset(one.identity for one in asked), joined=joined)

    def undo(self) -> frozenset[object]:
        """Take back the last answer, in all files that it went into; what it was to."""
        if not self.files.any:
            self._desk.say("there is nothing to undo", 2)
            return frozenset()
        with uninterrupted():
            answered = self.files.undo()
        if answered is None:
            self._desk.say("a file has changed since; undo it there", 2)
            return frozenset()
        self.passed -= answered
        self._desk.say("undone", 2)
        return answered

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
        replies = [reply(one, found, "", None) for one in others]
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
            if noted is not None and self.files.put(files, frozenset(), joined=True):
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
            if self.files.put(files, frozenset(), joined=True):
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


def alone(question: "Question") -> "Turn":
    """A question that is asked by itself."""
    from areafit.answers.interview import Turn  # noqa: PLC0415 - loads on demand

    return Turn((question,))


def reply(
    question: "Question",
    found: Any,  # noqa: ANN401 - text, yes or no, or entries
    document: str,
    complete: bool | None,
) -> "Reply":
    """What was said at the desk; `complete` says whether a table holds all that there is."""
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
