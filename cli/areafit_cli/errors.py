"""What is wrong with a call, how a run ended, and what to write instead of a wrong name.

What is wrong with a file is an `InputError` of the library.
"""

from collections.abc import Iterable
from enum import IntEnum

_SHOWN = 16
_FEW, _LIKE_ONE_OF_FEW = 3, 0.7  # CEC is no NEC with a slip of the pen: all three are told
_LIKE = 0.65  # `help` is not like `loop`, `chek` not like `schema`
_LISTED = ("rule", "table")  # a command of the same name lists them


class Exit(IntEnum):
    """How a run ended, which a pipeline relies on; of several lists the highest wins."""

    PASSED = 0
    FAILED = 1
    WRONG_INPUT = 2
    BUG = 3
    INTERRUPTED = 130


class CallError(Exception):
    """The command was called with something that does not serve; the message says what does.

    Each of its arguments is a line.
    """


def unknown(what: str, name: str, known: Iterable[str]) -> CallError:
    """The error for a name that is not in a closed list, with the known names most like it."""
    import difflib  # noqa: PLC0415 - only for this message

    names = list(known)
    by_fold = {each.casefold(): each for each in reversed(names)}
    like = _LIKE_ONE_OF_FEW if len(names) <= _FEW else _LIKE
    near = difflib.get_close_matches(name.casefold(), by_fold, n=3, cutoff=like)
    if near:
        return CallError(
            f"there is no {what} {name!r}; near to it: {', '.join(by_fold[each] for each in near)}"
        )
    if len(names) > _SHOWN and what in _LISTED:
        return CallError(f"there is no {what} {name!r}; `areafit {what}` lists them")
    more = f" and {len(names) - _SHOWN} more" if len(names) > _SHOWN else ""
    return CallError(f"there is no {what} {name!r}; known: {', '.join(names[:_SHOWN])}{more}")


def is_chemical(name: str) -> CallError:
    """The error for the name of a chemical where a substance or a material is asked for."""
    return CallError(
        f"{name!r} is a chemical: judge a material against it by `areafit material NAME --chemical "
        f'"{name}, 2 %, 60 °C"`; `areafit table chemicals` lists what is known'
    )
