"""Small pieces of messages: shortened quotations, nearest known words, lists of choices."""

from collections.abc import Iterable
from difflib import get_close_matches

_LONGEST = 60


def brief(text: str) -> str:
    """The text on one line, cut where it is too long to quote."""
    line = " ".join(text.split())
    return line if len(line) <= _LONGEST else f"{line[: _LONGEST - 1]}…"


def nearest(word: str, known: Iterable[str]) -> str | None:
    """The known word that a person most likely meant, or None."""
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
