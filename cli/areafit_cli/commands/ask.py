"""`areafit ask`: an interview in the terminal, each answer written at once."""

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from areafit.verdict import Role
from areafit_cli import lists, paths, words
from areafit_cli.errors import CallError, unknown
from areafit_cli.options import value
from areafit_cli.safe_text import clean

if TYPE_CHECKING:
    from rich.console import Console

    from areafit.answers.questions import Question
    from areafit.findings.report import BomReport

EXAMPLE = "areafit ask bom.yaml --role designer"
_HELP = "answer, ? why, d don't know, s skip, u undo the last, q stop"
_DONE, _SKIP, _STOP, _UNDO = "done", "skip", "stop", "undo"


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
    from rich.console import Console  # noqa: PLC0415 - slow to import

    _Interview(Path(bom), roles.get(role or ""), item, Console(highlight=False)).hold()


class _Interview:
    """One list, asked until nothing is left that this person can answer."""

    def __init__(self, path: Path, role: Role | None, item: str | None, console: "Console") -> None:
        self._path = path
        self._role = role
        self._item = item
        self._console = console
        self._passed: set[object] = set()
        self._last: tuple[bytes, bytes, object] | None = None

    def hold(self) -> None:
        """The places, the kinds, then all else."""
        report = self._report()
        self._places(report)
        try:
            self._kinds()
            self._rest()
        except (KeyboardInterrupt, EOFError):
            self._say("\nStopped. All answers given so far are written.")
            raise KeyboardInterrupt from None
        except _StopError:
            self._say("Stopped. All answers given so far are written.")
        left = sum(not part.verdict.passes for part in self._report().parts)
        self._say(f"{left} lines are still open; `areafit check {paths.shown(self._path)}` tells.")

    def _report(self) -> "BomReport":
        return lists.report(str(self._path))

    def _say(self, text: str) -> None:
        for line in text.split("\n"):
            self._console.print(clean(line), markup=False)

    # The first screens

    def _places(self, report: "BomReport") -> None:
        """Sub-assemblies against places, to be looked at; a wrong one is put right in the list."""
        if self._item is not None:
            return
        self._say("Where the sub-assemblies stand:")
        parents = {part.parent for part in report.bom.parts if part.parent is not None}
        for part in report.bom.parts:
            if part.parent is None or part.item in parents:
                inner = sum(each.parent == part.item for each in report.bom.parts)
                more = f", {inner} lines in it" if inner else ""
                name = part.description or part.part_number or ""
                self._say(f"  {part.item} {name}: {', '.join(part.locations)}{more}")

    def _kinds(self) -> None:
        """Kinds that are unknown or only proposed, a row for each part number or description."""
        from areafit.facts.part import Kind  # noqa: PLC0415 - loads on demand

        while True:
            rows: dict[str, list[Any]] = {}
            for part in self._report().bom.parts:
                unsure = "kind" in (part.proposed or ()) or Kind.UNKNOWN in part.equipment.kinds
                asked = self._role in {None, Role.DESIGNER} and self._item in {None, part.item}
                name = part.part_number or part.description or f"item {part.item}"
                if unsure and asked and ("kind", name) not in self._passed:
                    rows.setdefault(name, []).append(part)
            if not rows:
                return
            name, parts = next(iter(rows.items()))
            self._kind(name, parts)

    def _kind(self, name: str, parts: list[Any]) -> None:
        from areafit.facts.part import Kind  # noqa: PLC0415 - loads on demand

        first = parts[0]
        kinds = [kind.value for kind in Kind if kind is not Kind.UNKNOWN]
        said = [kind.value for kind in Kind if kind in first.equipment.kinds]
        proposed = Kind.UNKNOWN not in first.equipment.kinds
        items = ", ".join(part.item for part in parts)
        self._say(f"\n{name}: {first.description or 'no description'} (item {items})")
        if proposed:
            self._say(f"  proposed: {', '.join(said)}; `confirm` takes it")
        choices = [*(["confirm"] if proposed else []), *kinds]
        found = self._choose("What sort of part is it?", choices, why=_WHY_KIND, who="designer")
        if found == _UNDO:
            self._undo()
        elif found in {_SKIP, None}:
            self._passed.add(("kind", name))
        else:
            self._write_kind([part.index for part in parts], None if found == "confirm" else found)

    def _write_kind(self, indices: list[int], kind: str | None) -> None:
        from areafit.answers.taking import root_of  # noqa: PLC0415 - as above
        from areafit.file.editor import Put, Remove, edit  # noqa: PLC0415 - loads on demand

        before = paths.read(self._path)
        made = before
        name = paths.shown(self._path)
        for index in indices:
            if kind is not None:
                made = edit(made, name, Put(("parts", index, "kind"), kind))
            left = root_of(made, name)["parts"][index].get("proposed")
            if left is None:
                continue
            keys = left if isinstance(left, list) else [left]
            rest = [key for key in keys if key != "kind"]
            where = ("parts", index, "proposed")
            made = edit(made, name, Put(where, rest) if rest else Remove(where))
        self._put(before, made, ("kind", *indices))

    # All else

    def _rest(self) -> None:
        while (question := self._next()) is not None:
            self._one(question)

    def _next(self) -> "Question | None":
        """The question that settles most, by findings and lines; listed words before values."""
        from areafit.answers.questions import BARRED, questions  # noqa: PLC0415 - on demand
        from areafit.answers.workbook import words_of  # noqa: PLC0415 - as above

        found = [
            one
            for one in questions(self._report())
            if (self._role in {None, one.party.role})
            and (self._item is None or self._item in one.items)
            and one.identity not in self._passed
            and one.key not in BARRED
            and one.row is not None
        ]
        return min(
            found,
            key=lambda one: (
                not words_of(one.row),
                -one.findings,
                -len(one.items),
                found.index(one),
            ),
            default=None,
        )

    def _one(self, question: "Question") -> None:
        from areafit.answers.questions import TABLES  # noqa: PLC0415 - on demand
        from areafit.answers.workbook import unit_of, words_of  # noqa: PLC0415 - as above

        about = f", {question.about}" if question.about else ""
        name = question.part_number or question.line
        items = ", ".join(question.items)
        self._say(f"\n{name} {question.description}{about} ({items})")
        if question.demand:
            self._say(f"  the place asks: {question.demand}")
        if question.key in TABLES:
            found = self._table(question)
        else:
            unit = unit_of(question.row)
            text = f"{question.text} [{unit}]" if unit else question.text
            choices = list(words_of(question.row))
            only = bool(choices) and not (unit or choices == ["none"])
            found = self._choose(
                text, choices, why=question.why, who=question.party.name, free=not only
            )
        if found == _UNDO:
            self._undo()
        elif found in {_SKIP, None}:
            self._passed.add(question.identity)
        else:
            self._take(question, found)

    def _choose(  # noqa: C901 - what may be said
        self, text: str, choices: list[str], *, why: str, who: str, free: bool = False
    ) -> str | None:
        """An answer, by number or word; None where this person does not know."""
        self._say(f"  {text}")
        for number, each in enumerate(choices, 1):
            self._say(f"    {number} {each}")
        while True:
            said = self._input(_HELP)
            low = said.casefold()
            if low == "?":
                self._say(f"  {why}")
            elif low == "d":
                self._say(f"  left open; {who} would know")
                return None
            elif low in {"s", ""}:
                return _SKIP
            elif low == "u":
                return _UNDO
            elif low == "q":
                raise _StopError
            elif said.isdecimal() and choices and 0 < int(said) <= len(choices):
                return choices[int(said) - 1]
            elif low in {each.casefold() for each in choices}:
                return next(each for each in choices if each.casefold() == low)
            elif free:
                return said
            else:
                self._say(f"  {said!r} is none of these; type its number or the word")

    def _input(self, help_: str) -> str:
        from rich.prompt import Prompt  # noqa: PLC0415 - slow to import
        from rich.text import Text  # noqa: PLC0415 - as above

        asked = Prompt.ask(
            Text(f"  ({help_})"), console=self._console, default="", show_default=False
        )
        return asked.strip()

    def _table(self, question: "Question") -> Any:  # noqa: ANN401 - a text or entries
        """A small table, row by row; an empty first cell ends it."""
        from areafit.answers.questions import TABLES  # noqa: PLC0415 - on demand
        from areafit.answers.workbook import heading  # noqa: PLC0415 - as above

        columns = TABLES[question.key]
        first = self._choose(
            f"{question.text} (`row` to begin, `none` if there is none)",
            ["row", "none"],
            why=question.why,
            who=question.party.name,
        )
        if first != "row":
            return first
        entries: list[dict[str, Any]] = []
        while True:
            entry: dict[str, Any] = {}
            for column in columns:
                said = self._cell(f"{question.key}.{column}", heading(column))
                if said is None and not entry:
                    break
                if said is not None:
                    entry[column] = said
            if not entry:
                return entries or _SKIP
            entries.append(entry)

    def _cell(self, key: str, name: str) -> Any:  # noqa: ANN401 - any value
        from areafit.answers.replies import CellError, value_of  # noqa: PLC0415 - on demand

        while True:
            said = self._input(f"{name}; empty: none, or the end")
            if not said:
                return None
            try:
                return value_of(key, said)
            except CellError as error:
                self._say(f"  {error}")

    def _take(self, question: "Question", found: Any) -> None:  # noqa: ANN401 - text or entries
        """Write the answer into the list as it is now, and tell what became of it."""
        from areafit.answers.replies import (  # noqa: PLC0415 - on demand
            AnswerCell,
            CellError,
            Reply,
            value_of,
        )
        from areafit.answers.taking import Done, needs_document, take  # noqa: PLC0415 - as above

        try:
            said = found if isinstance(found, list) else value_of(question.key, found)
        except CellError as error:
            self._say(f"  {error}")
            return
        document = ""
        if needs_document(question.key) and said != "none":
            document = self._input("the document that shows it; empty: leave it open")
            if not document:
                self._passed.add(question.identity)
                return
        party, (_, assembly, line, key, about) = question.party, question.identity
        reply = Reply(
            AnswerCell("ask", "", ""),
            "",
            party,
            assembly,
            line,
            key,
            about,
            said,
            str(found),
            document,
        )
        before = paths.read(self._path)
        name = paths.shown(self._path)
        read = lists.reader(self._path)
        taken = take(before, name, [reply], read, words.today())
        (outcome,) = taken.outcomes
        if outcome.done is Done.REFUSED:
            self._say(f"  not taken: {outcome.why}")
            return
        self._passed.add(question.identity)
        self._put(before, taken.data, question.identity)
        self._say(f"  {outcome.done.value}{': ' + outcome.why if outcome.why else ''}")

    def _put(self, before: bytes, made: bytes, what: object) -> None:
        """Replace the list whole, unless somebody changed it meanwhile."""
        if paths.read(self._path) != before:
            self._say(
                "  the list has changed meanwhile; nothing was written, and it is asked again"
            )
            return
        if made != before:
            paths.replace(self._path, [made])
            self._last = (before, made, what)

    def _undo(self) -> None:
        if self._last is None:
            self._say("  there is nothing to undo")
            return
        before, made, what = self._last
        if paths.read(self._path) != made:
            self._say("  the list has changed since; undo it there")
            return
        paths.replace(self._path, [before])
        self._passed.discard(what)
        self._last = None
        self._say("  undone")


class _StopError(Exception):
    """The person has had enough."""


_WHY_KIND = "The kind decides what is asked of a part, so it is asked first."
