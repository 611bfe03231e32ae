"""What an interview is held with: words shown and typed, files written and taken back."""

import contextlib
import signal
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path

from areafit_cli import paths, terminal

CHANGED = "The list has changed meanwhile; nothing was written, and it is asked again."
WAYS_OUT = "u undo, q stop"
_NO_DOCUMENT = frozenset({"no", "none", "nil", "na", "n/a", "not", "yes"})


class StopError(Exception):
    """The person has had enough."""


class UndoError(Exception):
    """The last answer is to be taken back."""


class Desk:
    """The terminal of an interview. Every text is wrapped to its width and made safe."""

    def __init__(self) -> None:
        from rich.console import Console  # noqa: PLC0415 - slow to import

        self._sheet = terminal.paper()
        self._console: Console = Console(
            width=self._sheet.width, no_color=not self._sheet.colour, highlight=False
        )

    def say(self, text: str, indent: int = 0) -> None:
        """A sentence or two, each line of the text led in."""
        for line in text.split("\n"):
            lead = " " * indent
            terminal.write(self._sheet.wrap(line, lead, lead) if line else ["\n"])

    def heading(self, text: str) -> None:
        """The title of a screen."""
        terminal.write([self._sheet.heading(text)])

    def row(self, number: int, text: str) -> None:
        """A row that is meant by its number."""
        terminal.write(self._sheet.wrap(text, f"  {number:>2} ", " " * 5))

    def choices(self, offered: Sequence[str], meanings: Sequence[str] = ()) -> None:
        """The words that may be chosen, in the order of their list, none before the others."""
        for number, word in enumerate(offered, 1):
            meaning = meanings[number - 1] if meanings else ""
            self.row(number, f"{word}: {meaning}" if meaning else word)

    def typed(self, prompt: str) -> str:
        """What a person types; empty where they only pressed the key.

        Raises:
            UndoError: they typed `u`, at whatever prompt.
            StopError: they typed `q`.
            KeyboardInterrupt: they interrupt.
            EOFError: they end the input.
        """
        from rich.prompt import Prompt  # noqa: PLC0415 - slow to import
        from rich.text import Text  # noqa: PLC0415 - as above

        shown = Text(f"({prompt})", style="dim" if self._sheet.colour else "")
        said = Prompt.ask(shown, console=self._console, default="", show_default=False).strip()
        if said.casefold() == "u":
            raise UndoError
        if said.casefold() == "q":
            raise StopError
        return said

    def one_of(self, prompt: str, offered: Sequence[str], empty: str) -> str:
        """One of the words, asked until one is named; or nothing, which means `empty`."""
        self.choices(offered)
        while said := self.typed(f"{prompt} empty: {empty}; {WAYS_OUT}"):
            found = chosen(said, offered)
            if found is not None:
                return found
            self.say("None of these; type its number or the word.", 2)
        return ""

    def document(self, prompt: str, empty: str, ways_out: str = WAYS_OUT) -> str:
        """The name of a document, or nothing, which means `empty`.

        A single letter or sign, `no` and the like are typed by those who have none.
        """
        while said := self.typed(f"{prompt}; empty: {empty}; {ways_out}"):
            signs = sum(sign.isalnum() for sign in said)
            if signs > 1 and said.casefold().rstrip(".") not in _NO_DOCUMENT:
                return said
            self.say(f"{said} names no document. An empty line: {empty}.", 2)
        return ""


def chosen(said: str, offered: Sequence[str]) -> str | None:
    """A choice by its number, its word, or a beginning that only one of them has."""
    if said.isdecimal() and 0 < int(said) <= len(offered):
        return offered[int(said) - 1]
    low = said.casefold()
    exact = [each for each in offered if each.casefold() == low]
    begun = exact or [each for each in offered if low and each.casefold().startswith(low)]
    return begun[0] if len(begun) == 1 else None


Change = Mapping[Path, tuple[bytes | None, bytes]]
"""Files as they were read and as they are to be; None where there was none."""


class WrittenFiles:
    """What an interview wrote, answer by answer, so that the last can be taken back."""

    def __init__(self) -> None:
        self._done: list[tuple[dict[Path, tuple[bytes | None, bytes]], frozenset[object]]] = []

    def put(self, files: Change, answered: frozenset[object], *, joined: bool = False) -> bool:
        """Replace files whole; False, and nothing written, where one has changed meanwhile.

        `answered` is what the answer was to; `joined`: it is taken back with the one before it.
        """
        if any(_now(path) != before for path, (before, _) in files.items()):
            return False
        changed = {path: each for path, each in files.items() if each[0] != each[1]}
        for path, (before, made) in changed.items():
            paths.replace_unchanged(path, before, [made])
        if joined and self._done:
            first, known = self._done.pop()
            answered |= known
            for path, (before, made) in first.items():
                changed[path] = (before, changed[path][1] if path in changed else made)
        if changed:
            self._done.append((changed, answered))
        return True

    def undo(self) -> frozenset[object] | None:
        """Take back the last answer in all files that it went into; what it was to.

        None where there is none, or a file has changed since.
        """
        if not self._done or not self.unchanged:
            return None
        last, answered = self._done.pop()
        for path, (before, made) in last.items():
            if before is None:
                path.unlink(missing_ok=True)
            else:
                paths.replace_unchanged(path, made, [before])
        return answered

    @property
    def any(self) -> bool:
        """Whether there is an answer to take back."""
        return bool(self._done)

    @property
    def unchanged(self) -> bool:
        """Whether the files of the last answer are as it left them."""
        return all(_now(path) == made for path, (_, made) in self._done[-1][0].items())


def _now(path: Path) -> bytes | None:
    return paths.read(path) if path.exists() else None


@contextlib.contextmanager
def uninterrupted() -> Iterator[None]:
    """Let an interrupt wait until what is being written is written."""
    caught: list[object] = []
    try:
        old = signal.signal(signal.SIGINT, lambda *_: caught.append(None))
    except ValueError:  # not the main thread
        yield
        return
    try:
        yield
    finally:
        signal.signal(signal.SIGINT, old)
    if caught:
        raise KeyboardInterrupt
