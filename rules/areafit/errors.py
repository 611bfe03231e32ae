"""What is wrong with an input, said for the person who wrote it."""

from collections.abc import Iterable
from typing import NoReturn

from areafit.facts.bom import Position

MOST = 500
"""Errors reported in one go; an input with more has one cause that repeats."""
NOWHERE = Position("", 0, 0)
_LONGEST = 60


class InputError(ValueError):
    """One error in an input: what is wrong, what to do about it, and where it stands, if known.

    >>> print(InputError("no `kind`", "write one", Position("list.yaml", 7, 5)))
    list.yaml:7:5: no `kind`; write one
    >>> print(InputError("there is no sheet 'B'"))
    there is no sheet 'B'
    """

    def __init__(self, message: str, remedy: str = "", position: Position = NOWHERE) -> None:
        super().__init__(message, remedy, position)
        self.message = message
        self.remedy = remedy
        self.position = position

    def __str__(self) -> str:
        where = f"{self.position}: " if self.position.file else ""
        return f"{where}{self.message}" + (f"; {self.remedy}" if self.remedy else "")


class InputErrors(Exception):  # noqa: N818 - it holds errors, each of them named so
    """All errors found in an input, in the order in which they stand in the file.

    Raises:
        ValueError: there are none. A list that is refused without a word would count as no list.
    """

    def __init__(self, errors: Iterable[InputError]) -> None:
        super().__init__()
        self.errors = tuple(sorted(errors, key=_place))
        if not self.errors:
            raise ValueError("an input was refused and nothing says why")

    def __str__(self) -> str:
        return "\n".join(map(str, self.errors))


class Collector:
    """Collects the errors of one reading, each once, so that all are reported in one go.

    Where the parser refused something, nothing more is said: what follows is a consequence.
    """

    def __init__(self) -> None:
        self._found: dict[tuple[Position, str, str], None] = {}
        self._refused: set[Position] = set()

    def __bool__(self) -> bool:
        return bool(self._found)

    def __len__(self) -> int:
        return len(self._found)

    def add(self, position: Position, message: str, remedy: str) -> None:
        """Note an error.

        Raises:
            InputErrors: so many were found that more of them would tell nothing new.
        """
        if position in self._refused:
            return
        self._found[position, message, remedy] = None
        if len(self._found) >= MOST:
            raise self.all()

    def refuse(self, position: Position, message: str, remedy: str) -> None:
        """Note something that the parser does not take.

        Raises:
            InputErrors: as for `add`.
        """
        self.add(position, message, remedy)
        self._refused.add(position)

    def fatal(self, position: Position, message: str, remedy: str) -> NoReturn:
        """Note an error after which nothing more can be read, and raise all of them.

        Raises:
            InputErrors: always.
        """
        self._found[position, message, remedy] = None
        raise self.all()

    def all(self) -> InputErrors:
        """Everything noted so far, to be raised."""
        found = self._found
        return InputErrors(InputError(message, remedy, at) for at, message, remedy in found)


def brief(text: str) -> str:
    """The text on one line, cut where it is too long to quote."""
    line = " ".join(text.split())
    return line if len(line) <= _LONGEST else f"{line[: _LONGEST - 1]}…"


def nearest(word: str, known: Iterable[str]) -> str | None:
    """The known word that a person most likely meant, or None."""
    from difflib import get_close_matches  # noqa: PLC0415 - only for messages

    spelled = {name.lower(): name for name in known}
    found = get_close_matches(brief(word).lower(), spelled, 1)
    return spelled[found[0]] if found else None


def choices(words: Iterable[str], last: str = "or") -> str:
    """`a, b or c`."""
    *first, final = words
    return f"{', '.join(first)} {last} {final}" if first else final


def suggestion(word: str, known: Iterable[str]) -> str:
    """What to do about an unknown name: the nearest known one, or all where they are few."""
    names = list(known)
    near = nearest(word, names)
    if near is not None:
        return f"did you mean `{near}`?"
    few = [f"`{brief(name)}`" for name in names[:12]]
    more = " …" if len(names) > len(few) else ""
    return f"write one of {', '.join(few)}{more}"


def _place(error: InputError) -> tuple[str, int, int]:
    return error.position.file, error.position.line, error.position.column
