"""Answers into a list: what each one does to it, and the list with those that can be taken.

A fact that is not stated is written; one that is stated otherwise stays, and the answer is written
beside it, for rule `answer-agreement`. What cannot be taken is told with its reason. A fact of a
bought part goes into its entry only together with a new `confirmed`, else onto the lines.
"""

from collections.abc import Callable, Iterable, Mapping, Sequence
from datetime import date
from typing import Any

from areafit.answers.questions import (
    BARRED,
    LIBRARY,
    SHORT,
    TABLES,
    Steps,
    entry_of,
    label_of,
    lines_of,
    steps_below,
    targets,
)
from areafit.answers.register import Register, RegisterLine, told_again, told_back
from areafit.answers.replies import Reply
from areafit.errors import InputErrors
from areafit.facts.bom import Bom
from areafit.file.editor import EditError, Put, edit
from areafit.file.events import load
from areafit.file.facts import facts
from areafit.file.text import decode
from areafit.values import Frozen, Term, replace

Read = Callable[[bytes], Bom]


class Done(Term):
    """What became of an answer."""

    WRITTEN = "written"
    BESIDE = "written beside"
    SAME = "stated already"
    KEPT = "kept"
    REFUSED = "refused"


class AnswerOutcome(Frozen, eq=False):
    """What became of an answer in one list, and why."""

    reply: Reply
    done: Done
    why: str = ""
    keys: tuple[str, ...] = ()


class Shelf(Frozen, eq=False):
    """The library files of a list by the names that its positions bear, and what reads both."""

    files: Mapping[str, bytes]
    read: Callable[[bytes, Mapping[str, bytes]], Bom]


class Taken(Frozen, eq=False):
    """A list with the answers in it, as bytes, and what became of each.

    `library` are the files of the library that changed.
    """

    data: bytes
    outcomes: tuple[AnswerOutcome, ...]
    library: Mapping[str, bytes] = {}


PROVED = frozenset({"marking", "material", "materials", "evidence", "number", "entries"})
"""Keys that a document must show: a nameplate, a grade, the number of a document."""
_NEVER = "stated in the list itself; no answer writes it"


def checked(replies: Iterable[Reply], register: Register) -> tuple[tuple[Reply, ...], ...]:
    """The answers to questions that were asked of their party, and all others, refused.

    A row that kept its number and lost its hidden cells is found again by the number; one whose
    number and cells do not agree is refused, but for bought parts: their number is that of the
    first of several registers.
    """
    known = register.by_identity()
    taken: list[Reply] = []
    refused: list[Reply] = []
    for one in replies:
        reply = one
        entry = register.find(one.number) if one.number else None
        if entry is not None and not (one.line and one.key):
            reply = replace(
                one,
                assembly=one.assembly or entry.assembly,
                line=one.line or entry.line,
                key=one.key or entry.key,
                about=one.about or entry.about,
            )
        asked = known.get(reply.identity)
        if asked is None:
            why = "no such question was asked of this party"
            if entry is not None and entry.party != reply.party.name:
                why = f"{entry.number} was asked of {entry.party}, and this book is another's"
            elif entry is not None:
                why = f"{entry.number} is another question than this row says"
            refused.append(replace(reply, refused=reply.refused or why))
        elif entry is not None and entry.number != asked.number and asked.assembly != LIBRARY:
            why = f"the row bears {entry.number}, and its cells are those of {asked.number}"
            refused.append(replace(reply, refused=why))
        elif reply.key in TABLES and isinstance(reply.value, str) and reply.value != "none":
            why = "its answer is a table; fill the sheet of its name"
            refused.append(replace(reply, refused=reply.refused or why))
        else:
            reply = replace(reply, number=asked.number)
            (refused if reply.refused else taken).append(reply)
    return tuple(taken), tuple(refused)


def take(  # noqa: PLR0913, PLR0917 - a list, answers, and how they are read
    data: bytes,
    name: str,
    replies: Sequence[Reply],
    read: Read,
    today: date,
    shelf: Shelf | None = None,
) -> Taken:
    """Write the answers of one machine into its list.

    Args:
        data: the list.
        name: what positions call it.
        replies: those that `checked` let pass, of this machine.
        read: reads bytes as the list at its place, with its shared files.
        today: the day noted with an answer that bears none.
        shelf: the library of the list; without it no entry is written.

    Raises:
        InputErrors: the list cannot be read as it is.
    """
    files = dict(shelf.files) if shelf is not None else {}
    whole: Read = read if shelf is None else lambda each: shelf.read(each, files)
    run = _Taking(data, name, whole, today, shelf, files)
    outcomes = [run.one(reply) for reply in replies]
    again = [place for place, each in enumerate(outcomes) if each.done is Done.REFUSED]
    for place in again:  # what needed another answer of the same book may be readable now
        if outcomes[place].why.startswith(_UNREAD):
            outcomes[place] = _waiting(run.one(outcomes[place].reply))
    changed = {each: now for each, now in files.items() if shelf and now != shelf.files[each]}
    told = tuple(each for each in outcomes if not _untouched(each))
    return Taken(run.data, told, changed)


def _untouched(outcome: AnswerOutcome) -> bool:
    """Whether a small table came back with nothing but what it was sent with."""
    reply = outcome.reply
    bare = not reply.document and reply.complete is None and reply.value != "none"
    return outcome.done is Done.SAME and reply.key in TABLES and bare


def _waiting(outcome: AnswerOutcome) -> AnswerOutcome:
    """The outcome, told by the answer without which it says nothing, where that is missing."""
    holder, _, last = outcome.reply.key.rpartition(".")
    main = facts().get(f"{holder}.value")
    if last == "value" or main is None or "without `value`" not in outcome.why:
        return outcome
    return replace(outcome, why=f"it says nothing without the answer to: {main.question}")


_UNREAD = "it cannot be read: "


class _Taking:
    def __init__(  # noqa: PLR0913, PLR0917 - as `take`
        self,
        data: bytes,
        name: str,
        read: Read,
        today: date,
        shelf: Shelf | None,
        files: dict[str, bytes],
    ) -> None:
        self._shelf = shelf
        self._files = files
        self.data = data
        self._name = name
        self._read = read
        self._today = today
        self._see()

    def _see(self) -> None:
        self._bom = self._read(self.data)
        self._root = root_of(self.data, self._name)

    def one(self, reply: Reply) -> AnswerOutcome:
        """What becomes of an answer."""
        if reply.instead:
            return AnswerOutcome(reply, Done.KEPT, reply.instead)
        if reply.key.startswith("rule.") or reply.key == "offer":
            return AnswerOutcome(reply, Done.KEPT, "kept for a person to judge; no list states it")
        if reply.key in BARRED:
            return AnswerOutcome(reply, Done.REFUSED, _NEVER)
        if reply.assembly != LIBRARY:
            return self._on_lines(reply)
        before = self.data
        outcome = self._of_entry(reply) or self._on_lines(reply)
        if self.data != before and outcome.done not in {Done.WRITTEN, Done.BESIDE}:
            self.data = before
            self._see()
        return outcome

    def _on_lines(self, reply: Reply) -> AnswerOutcome:
        found = targets(self._bom, self._root, reply)
        if not found:
            what = f"{reply.line}, {reply.about}" if reply.about else reply.line
            why = (
                f"the list holds no line {what} of this party any more; it is kept in the register"
            )
            return AnswerOutcome(reply, Done.REFUSED, why)
        return self._everywhere(reply, found)

    def _everywhere(self, reply: Reply, found: Sequence[Steps]) -> AnswerOutcome:
        """The answer at all paths that it is for, and what became of it, the worst first."""
        before = self.data
        parts = [self._at(reply, steps) for steps in found]
        if before != self.data and not _proved(reply):
            self.data = before
            self._see()
            if reply.key in TABLES and any(each.done is Done.SAME for each in parts):
                return AnswerOutcome(reply, Done.SAME)  # as it was sent, with what one line states
            why = "without the document that shows it; name it in the column `document`"
            return AnswerOutcome(reply, Done.REFUSED, why)
        for done in (Done.REFUSED, Done.BESIDE, Done.WRITTEN, Done.SAME):
            for each in parts:
                if each.done is done:
                    return each
        return parts[0]

    def _of_entry(self, reply: Reply) -> AnswerOutcome | None:
        """An answer about a bought part: into its entry where it is confirmed anew.

        None where it belongs onto the lines: nobody confirms it, or the entry states it otherwise.
        """
        bearing = lines_of(self._bom, reply)
        entry = entry_of(self._bom, bearing[0]) if bearing else None
        if entry is None or self._shelf is None:
            return None
        file = entry.position.file
        written = root_of(self._files[file], file)["parts"][entry.number]
        confirmed = _confirmed(reply, entry.document)
        if confirmed is not None:
            shelf, files = self._shelf, self._files
            run = _EntryTaking(
                files[file],
                file,
                lambda each: shelf.read(self.data, {**files, file: each}),
                self._today,
                shelf,
                files,
            )
            outcome = run.into(entry.number, written, reply, confirmed)
            if outcome is not None and outcome.done not in {Done.BESIDE, Done.REFUSED}:
                files[file] = run.data
                self._see()
                return outcome
        for part in bearing:
            self._completed(part.index, written, reply)
        return None

    def _completed(self, index: int, entry: Any, reply: Reply) -> None:  # noqa: ANN401 - as written
        """Put onto a line what its entry says of the key that the answer is only a piece of."""
        holder, _, inner = reply.key.partition(".")[2].partition(".")
        stated = _at(self._root, ("parts", index, holder))
        piece = bool(inner) or reply.key in TABLES
        if not piece or stated is not None or holder not in entry:
            return
        made = self._tried([Put(("parts", index, holder), _plain(entry[holder]))])
        if made is not None:
            self.data = made
            self._see()

    def _at(self, reply: Reply, steps: Steps) -> AnswerOutcome:
        """The answer at one path of the list."""
        if reply.key in TABLES:
            return self._table(reply, steps)
        return self._put(reply, steps, self._said(reply))

    def _said(self, reply: Reply) -> Any:  # noqa: ANN401 - any value
        """The value with the document that bears it, where the list has a place for it."""
        last = reply.key.rpartition(".")[2]
        if last == "materials_complete" and reply.value is True and reply.document:
            return {"complete": True, "document": reply.document}
        return reply.value

    def _table(self, reply: Reply, steps: Steps) -> AnswerOutcome:
        """A small table: what is new is added, what is stated otherwise is written beside."""
        stated = _at(self._root, steps)
        listed = () if reply.value == "none" else reply.value or ()
        entries: list[Any] = [dict(each) for each in listed]
        outcome = AnswerOutcome(reply, Done.SAME)
        if reply.value == "none":
            outcome = self._put(reply, steps, "none")
        elif stated is None and entries:
            outcome = self._put(reply, steps, entries)
        elif entries:
            outcome = self._joined(reply, steps, stated, entries)
        if outcome.done is not Done.REFUSED and reply.complete is not None and len(steps) == 3:
            value: Any = reply.complete
            if reply.complete and reply.document:
                value = {"complete": True, "document": reply.document}
            more = self._put(reply, (*steps[:2], "materials_complete"), value)
            if outcome.done is Done.SAME or more.done is Done.REFUSED:
                return more
        return outcome

    def _joined(
        self,
        reply: Reply,
        steps: Steps,
        stated: Any,  # noqa: ANN401 - as written
        entries: list[Any],
    ) -> AnswerOutcome:
        holder = str(steps[-1])
        listed = stated if isinstance(stated, list) else [stated]
        labels = [label_of(holder, each) for each in listed]
        whole: list[Any] = [_plain(each) for each in listed]
        new, differs = [], stated == "none"
        if differs:
            whole = []
        for entry in entries:
            label = label_of(holder, entry)
            if label not in labels or stated == "none":
                new.append(entry)
                whole.append(entry)
                continue
            at = labels.index(label)
            old = whole[at] if isinstance(whole[at], dict) else {_MAIN.get(holder, ""): whole[at]}
            if any(
                key in old and _words(old[key]) != _words(value) for key, value in entry.items()
            ):
                differs = True
            joined = {**old, **entry}
            short = not isinstance(whole[at], dict) and _words(joined) == _words(old)
            whole[at] = whole[at] if short else joined
        if not differs and isinstance(stated, list):
            put = [Put((*steps, len(listed) + i), entry) for i, entry in enumerate(new)]
            for at, each in enumerate(listed):
                more = (
                    {k: v for k, v in whole[at].items() if k not in each}
                    if isinstance(each, dict)
                    else {}
                )
                put += [Put((*steps, at, key), value) for key, value in more.items()]
            if not put:
                return AnswerOutcome(reply, Done.SAME)
            return self._written(reply, steps, put)
        same = _words(whole) == _words(listed)
        return AnswerOutcome(reply, Done.SAME) if same else self._beside(reply, steps, whole)

    def _put(  # noqa: PLR0911 - a line for each way out
        self,
        reply: Reply,
        steps: Steps,
        value: Any,  # noqa: ANN401 - any value
    ) -> AnswerOutcome:
        stated = _at(self._root, steps)
        part = steps[0] == "parts"
        elsewhere = part and bool(self._bom.stated_by("/".join(map(str, steps))))
        if stated in (None, "unknown") and not elsewhere:
            change = self._change(steps, value)
            if change is None:
                why = "what it belongs to is not in this list; state it where the place is stated"
                return AnswerOutcome(reply, Done.REFUSED, why)
            return self._written(reply, steps, [change])
        if stated is not None and _same(stated, value):
            return AnswerOutcome(reply, Done.SAME)
        made = None if stated is None else self._tried([Put(steps, value)])
        if made is not None and self._alike(made):
            return AnswerOutcome(reply, Done.SAME)
        if elsewhere and stated is None and self._adds_nothing(steps, value):
            return AnswerOutcome(reply, Done.SAME)
        if not part:
            shown = "" if isinstance(stated, dict | list) else f" as {stated}"
            why = f"it is stated{shown} already and stays so; change it by hand if that is wrong"
            return AnswerOutcome(reply, Done.REFUSED, why)
        return self._beside(reply, steps, value)

    def _alike(self, made: bytes) -> bool:
        """Whether a list says the same facts, be it in other words."""
        try:
            return bool(_facts(self._read(made)) == _facts(self._bom))
        except InputErrors:
            return False

    def _adds_nothing(self, steps: Steps, value: Any) -> bool:  # noqa: ANN401 - any value
        """Whether a note or the library says the same of the line already."""
        change = self._change(steps, value)
        made = None if change is None else self._tried([change])
        return made is not None and self._alike(made)

    def _change(self, steps: Steps, value: Any) -> Put | None:  # noqa: ANN401 - any value
        """What puts a value, with the mappings around it that are not written yet."""
        for depth in range(len(steps) - 1, 0, -1):
            above = _at(self._root, steps[:depth])
            if above is None:
                if not isinstance(steps[depth], str) or depth == 1:
                    return None
                value = {steps[depth]: value}
                continue
            if isinstance(above, dict):
                return Put(steps[: depth + 1], value)
            short = SHORT.get(str(steps[depth - 1])) or _MAIN.get(str(steps[depth - 2]))
            if short is None or isinstance(above, list):
                return None
            return Put(steps[:depth], {short: above, str(steps[depth]): value})
        return None

    def _tried(self, changes: Sequence[Put]) -> bytes | None:
        try:
            return edit(self.data, self._name, *changes)
        except EditError:
            return None

    def _written(self, reply: Reply, steps: Steps, changes: Sequence[Put]) -> AnswerOutcome:
        try:
            made = edit(self.data, self._name, *changes)
            self._read(made)
        except EditError as error:
            return AnswerOutcome(reply, Done.REFUSED, f"{_UNREAD}{error}")
        except InputErrors as errors:
            first = errors.errors[0]
            why = (
                f"{_UNREAD}{first.message}; {first.remedy}"
                if first.remedy
                else (f"{_UNREAD}{first.message}")
            )
            return AnswerOutcome(reply, Done.REFUSED, why)
        self.data = made
        self._see()
        return AnswerOutcome(reply, Done.WRITTEN, keys=("/".join(map(str, steps)),))

    def _beside(self, reply: Reply, steps: Steps, value: Any) -> AnswerOutcome:  # noqa: ANN401 - any
        """The answer on the line beside what it states, once."""
        key = "/".join(map(str, steps[2:]))
        said: dict[str, Any] = {"key": key, "value": value}
        if reply.document:
            said["document"] = reply.document
        said["role"] = reply.party.role.value
        there = self._root["parts"][steps[1]].get("answered")
        listed = there if isinstance(there, list) else [] if there is None else [there]
        for each in listed:
            old = {k: _plain(v) for k, v in each.items() if k != "on"}
            if {k: _words(v) for k, v in old.items()} == {k: _words(v) for k, v in said.items()}:
                return AnswerOutcome(reply, Done.SAME, "the same answer stands beside it already")
        said["on"] = reply.on or self._today.isoformat()
        base: Steps = (*steps[:2], "answered")
        if isinstance(there, list):
            changes = [Put((*base, len(listed)), said)]
        else:
            changes = [Put(base, [*map(_plain, listed), said])]
        outcome = self._written(reply, steps, changes)
        if outcome.done is Done.WRITTEN:
            why = "the line states it otherwise; both are judged"
            return AnswerOutcome(reply, Done.BESIDE, why, outcome.keys)
        return outcome


class _EntryTaking(_Taking):
    """The entry of one bought part, in the file of the library that holds it."""

    _confirmed: Mapping[str, str] = {}

    def into(
        self,
        number: str,
        written: Any,  # noqa: ANN401 - as written
        reply: Reply,
        confirmed: Mapping[str, str],
    ) -> AnswerOutcome | None:
        """What becomes of an answer there; None where it belongs to no entry of a list of it."""
        below = steps_below(written, reply.key, reply.about)
        if below is None:
            return None
        self._confirmed = confirmed
        return self._everywhere(reply, [("parts", number, *below)])

    def _written(self, reply: Reply, steps: Steps, changes: Sequence[Put]) -> AnswerOutcome:
        confirming = Put((*steps[:2], "confirmed"), dict(self._confirmed))
        outcome = super()._written(reply, steps, [*changes, confirming])
        why = f"into the entry of {steps[1]}, confirmed by {self._confirmed['document']}"
        return replace(outcome, why=why) if outcome.done is Done.WRITTEN else outcome

    def _beside(self, reply: Reply, steps: Steps, value: Any) -> AnswerOutcome:  # noqa: ANN401 - any
        del steps, value
        return AnswerOutcome(reply, Done.BESIDE)


def _confirmed(reply: Reply, document: str) -> Mapping[str, str] | None:
    """Who confirms an entry anew: whom a person named, or the sender of a dated document.

    What the entry was confirmed by stays named beside the new document: that shows one fact only.
    """
    if reply.confirmed is not None:
        return reply.confirmed
    if not (reply.document and reply.on):
        return None
    both = dict.fromkeys((*document.split("; "), reply.document))
    return {"on": reply.on, "document": "; ".join(both), "role": reply.party.role.value}


def _proved(reply: Reply) -> bool:
    """Whether a document bears an answer that is nothing without one."""
    if (
        reply.document
        or not reply.key.startswith("part.")
        or reply.value is None
        or reply.value == "none"
    ):
        return True
    return not needs_document(reply.key)


_MAIN = {"materials": "material", "substances": "name", "chemicals": "name"}


def needs_document(key: str) -> bool:
    """Whether an answer for a key is nothing without the document that shows it."""
    return key.startswith("part.") and key.rpartition(".")[2] in PROVED


def root_of(data: bytes, name: str) -> Any:  # noqa: ANN401 - as written
    """The values of a file as it writes them."""
    from areafit.errors import Collector  # noqa: PLC0415 - here only

    errors = Collector()
    return load(decode(data, name, errors), name, errors).root


def _at(node: Any, steps: Sequence[str | int]) -> Any:  # noqa: ANN401 - as written
    """What is written at a path; a value written short, `surface_temperature: 60 °C`, is there."""
    holder = ""
    for step in steps:
        short = isinstance(node, str) and step in {SHORT.get(holder), _MAIN.get(holder)}
        if not short:
            try:
                node = node[step]
            except (KeyError, IndexError, TypeError):
                return None
        holder = step if isinstance(step, str) else holder
    return node


def _plain(value: Any) -> Any:  # noqa: ANN401 - as written
    if isinstance(value, Mapping):
        return {str(key): _plain(each) for key, each in value.items()}
    if isinstance(value, list | tuple):
        return [_plain(each) for each in value]
    return value


def _words(value: Any) -> Any:  # noqa: ANN401 - as written
    """A value as its text, so that what was read and what is to be written compare."""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, Mapping):
        return {str(key): _words(each) for key, each in value.items()}
    if isinstance(value, list | tuple):
        return [_words(each) for each in value]
    return str(value)


def _same(stated: Any, value: Any) -> bool:  # noqa: ANN401 - as written
    if isinstance(stated, str) and isinstance(value, bool):
        return stated.casefold() == ("true" if value else "false")
    if isinstance(value, Mapping) and not isinstance(stated, Mapping) and "complete" in value:
        return False
    return bool(_words(stated) == _words(value))


def _facts(bom: Bom) -> Any:  # noqa: ANN401 - facts
    """All that the list states, without positions."""
    return (bom.assembly, bom.law, dict(bom.places), bom.parts, bom.loops)


def noted(
    register: Register, outcomes: Iterable[AnswerOutcome], refused: Iterable[Reply], today: date
) -> Register:
    """The register with what came back; the same answers again leave it as it is."""
    known = register.by_identity()
    told = [(each.reply, each.why, each.done) for each in outcomes]
    told += [(one, one.refused, Done.REFUSED) for one in refused]
    for reply, why, done in told:
        entry = known.get(reply.identity)
        if entry is None:
            continue
        entry = register.find(entry.number) or entry
        register = register.with_entry(_entered(entry, reply, why, done, today.isoformat()))
    return register


def _untaken(entry: RegisterLine) -> RegisterLine:
    """The line as it was before its answer was taken."""
    return replace(entry, answered="", refused="")


def _entered(entry: RegisterLine, reply: Reply, why: str, done: Done, today: str) -> RegisterLine:
    """A line of the register with one answer."""
    ours = (told_again(entry), told_back(entry.refused, entry.why), told_again(_untaken(entry)))
    own = reply.remark.removeprefix("'") in {text.removeprefix("'") for text in ours}
    theirs = "" if own else reply.remark
    made = replace(entry, answer=reply.text, document=reply.document, remark=theirs or entry.remark)
    if done is Done.REFUSED:
        if entry.answered and entry.answer == reply.text:
            return replace(entry, remark=made.remark)
        return replace(made, refused=reply.text or "(nothing)", why=why)
    if done is Done.KEPT and reply.instead:
        return replace(made, refused=reply.text, why="said instead of an answer")
    if done is Done.KEPT:
        answered = entry.answered or reply.on or today
        return replace(made, refused="", why="kept, never judged", answered=answered)
    same = entry.answered and entry.answer == reply.text
    made = replace(made, answered=entry.answered if same else reply.on or today, refused="")
    if done is Done.SAME and same:
        return made
    beside = "stated otherwise, written beside"
    return replace(made, why=beside if done is Done.BESIDE else "")
