"""What is wrong with the call or with a file: one value to print and to put into reports."""

from collections.abc import Iterable
from typing import TYPE_CHECKING

from areafit.values import Frozen

if TYPE_CHECKING:
    from areafit.errors import InputErrors

_SHOWN = 16
_LIKE = 0.65  # `help` is not like `loop`, `chek` not like `schema`
_LISTED = ("rule", "table")  # a command of the same name lists them


class CallError(Exception):
    """The command was called with something that does not serve; the message says what does.

    Each of its arguments is a line.
    """


class Fault(Frozen):
    """One mistake of an input file. Line and column count from 1; 0 where there is no line."""

    path: str
    line: int
    column: int
    message: str
    remedy: str = ""

    def __str__(self) -> str:
        """The line for standard error: where, what, and what to do."""
        where = f"{self.path}:{self.line}:{self.column}" if self.line else self.path
        return f"{where}: {self.message}" + (f"; {self.remedy}" if self.remedy else "")


def from_errors(errors: "InputErrors") -> tuple[Fault, ...]:
    """The faults of a file that could not be read as a bill of materials."""
    return tuple(
        Fault(e.position.file, e.position.line, e.position.column, e.message, e.remedy)
        for e in errors.errors
    )


def unknown(what: str, name: str, known: Iterable[str]) -> CallError:
    """The error for a name that is not in a closed list, with the known names most like it."""
    import difflib  # noqa: PLC0415 - only for this message

    names = list(known)
    by_fold = {each.casefold(): each for each in reversed(names)}
    near = difflib.get_close_matches(name.casefold(), by_fold, n=3, cutoff=_LIKE)
    if near:
        return CallError(
            f"there is no {what} {name!r}; near to it: {', '.join(by_fold[each] for each in near)}"
        )
    if len(names) > _SHOWN and what in _LISTED:
        return CallError(f"there is no {what} {name!r}; `areafit {what}` lists them")
    more = f" and {len(names) - _SHOWN} more" if len(names) > _SHOWN else ""
    return CallError(f"there is no {what} {name!r}; known: {', '.join(names[:_SHOWN])}{more}")
