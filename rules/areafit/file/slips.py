"""What people mistype where a text is no YAML any more, told by what was meant.

A parser tells where it stopped, which may be lines behind the slip, and in words of its grammar.
"""

from collections.abc import Iterator, Sequence
from itertools import chain

from areafit.errors import brief
from areafit.pattern import pattern
from areafit.values import Frozen


class Mistyped(Frozen):
    """A slip with its line and column, both counted from 0, and what to do about it."""

    row: int
    column: int
    message: str
    remedy: str


def slip(text: str, last: int, *, block: bool = True) -> Mistyped | None:
    r"""What people mistype before or on the line at which the text is no YAML any more.

    A quote that is not closed is told where it begins, for the parser sees it lines later. Within
    brackets (not `block`) the depth of a line means nothing.

    >>> slip("parts:\n  - item: 1\n    kind: x\n\tlocation: y", 3).message
    'a tab stands where the line is indented'
    >>> slip("parts:\n  - item: 1\n     kind: x", 2).remedy
    'begin it with 4 spaces, as line 2 does behind its dash'
    >>> slip("a: 1\nb: frame: left", 1).remedy
    "quote it: 'frame: left'"
    """
    lines = text.split("\n")
    near = [row for row in (last, last - 1) if 0 <= row < len(lines)]
    found = chain(
        (_odd_space(row, line) for row, line in enumerate(lines[: last + 1])),
        (_open_quote(row, line) for row, line in enumerate(lines[: last + 1])),
        (_open_bracket(row, lines) for row in near),
        (_of_line(row, lines[row]) for row in near),
        (_colon(row, lines[row]) for row in near if block),
        (_no_colon(row, lines[row]) for row in reversed(near) if block),
        (_depth(row, lines) for row in near[:1] if block),
    )
    return next(filter(None, found), None)


_ODD_SPACES = pattern("[\u00a0\u2000-\u200b\u202f\u3000\ufeff]")
_ODD_BEHIND_KEY = pattern("[A-Za-z_]:([\u00a0\u2000-\u200b\u202f\u3000\ufeff])")
_NO_SPACE = (
    "a space that is none for YAML, such as a non-breaking one, stands here",
    "replace it by a plain space",
)
_TAB = pattern(r"[ ]*(?:-[ ]*)?(\t)")
_GLUED = pattern(r"(?<![^\s{\[,])([A-Za-z_]+):([^\s:/\\,{}\[\]]+)")
_GLUED_BRACKET = pattern(r"(?:\s*|\s*- +)([A-Za-z_]\w*):([\[{])")
_IN_QUOTES = pattern(r"\"(?:[^\"\\]|\\.)*\"|'(?:[^']|'')*'|(?:^|\s)#.*$")
_NO_DASH = pattern(r"\s*(-)([A-Za-z_]\w*:)(?:\s|$)")
_NO_COLON = pattern(r"\s*(?:- +)?([A-Za-z_][\w ]*)\s*$")
_OPENS = pattern(r"(?:^|[:\-\[,{]\s*)([\"'])")
_COLON_IN_VALUE = pattern(r"\s*(?:- +)?[A-Za-z_][\w -]*: +([^\s\"'{\[|>&*!%@`#].*?:(?: .*|))\s*$")


def _odd_space(row: int, line: str) -> Mistyped | None:
    odd = _ODD_SPACES.search(line[: len(line) - len(line.lstrip())] + line.lstrip()[:2])
    return None if odd is None else Mistyped(row, odd.start(), *_NO_SPACE)


def _open_quote(row: int, line: str) -> Mistyped | None:
    opened = _OPENS.search(_without_quotes(line))
    if opened is None:
        return None
    return Mistyped(row, opened.start(1), "a quote begins here and is not closed", "close it")


def _open_bracket(row: int, lines: Sequence[str]) -> Mistyped | None:
    """A bracket that the line above opens, where this line begins something of its own."""
    if row == 0 or not lines[row].strip() or _indent(lines[row]) > _indent(lines[row - 1]):
        return None
    open_: list[int] = []
    for column, sign in enumerate(_without_quotes(lines[row - 1])):
        if sign in "[{":
            open_.append(column)
        elif sign in "]}" and open_:
            open_.pop()
    if not open_ or lines[row].lstrip()[0] in "]}":
        return None
    return Mistyped(row - 1, open_[-1], "a bracket begins here and is not closed", "close it")


def _of_line(row: int, line: str) -> Mistyped | None:
    """A tab in the indentation, or no space or an odd one behind the colon of a key."""
    tab = _TAB.match(line)
    if tab is not None:
        said = "a tab stands where the line is indented"
        return Mistyped(
            row, tab.start(1), said, "replace it by spaces, as the lines above have them"
        )
    dash = _NO_DASH.match(line)
    if dash is not None:
        said = f"a space is missing behind the dash of '-{brief(dash[2])}'"
        return Mistyped(row, dash.start(1), said, f"write `- {brief(dash[2])}`")
    odd = _ODD_BEHIND_KEY.search(line)
    if odd is not None:
        return Mistyped(row, odd.start(1), *_NO_SPACE)
    glued = _GLUED_BRACKET.match(line) or _GLUED.search(_without_quotes(line))
    if glued is None:
        return None
    key, value = glued.groups()
    return Mistyped(
        row,
        glued.start(1),
        f"a space is missing behind the colon of '{brief(glued[0])}'",
        f"write `{brief(key)}: {brief(value)}`",
    )


def _colon(row: int, line: str) -> Mistyped | None:
    """A text with a colon and a space, which begins a further key."""
    found = _COLON_IN_VALUE.match(line)
    if found is None:
        return None
    said, quote = found[1], '"' if "'" in found[1] else "'"
    message = f"a text with a colon stands without quotes: {brief(said)}"
    return Mistyped(row, found.start(1), message, f"quote it: {quote}{brief(said)}{quote}")


def _no_colon(row: int, line: str) -> Mistyped | None:
    """A word by itself where a key belongs."""
    found = _NO_COLON.match(line)
    if found is None:
        return None
    said = brief(found[1].strip())
    message = f"'{said}' stands by itself where a key and its value belong"
    return Mistyped(row, found.start(1), message, f"write `{said}: …`, or delete it")


class _Level(Frozen):
    """A depth at which keys or entries of a list stand, with the line that begins it."""

    spaces: int
    row: int
    entries: bool
    dash: bool = False


def _depth(row: int, lines: Sequence[str]) -> Mistyped | None:
    """A line that begins at no depth of the lines above, or as an entry where keys stand."""
    above = _levels(lines[:row])
    own = next(_begun(row, lines[row]), None)
    if own is None or not above:
        return None
    here = next((level for level in above if level.spaces == own.spaces), None)
    if here is None:
        meant = min(above, key=lambda at: (at.entries != own.entries, abs(at.spaces - own.spaces)))
        behind = " behind its dash" if meant.dash else ""
        return Mistyped(
            row,
            own.spaces,
            f"this line begins with {own.spaces} spaces, as nothing above it does",
            f"begin it with {meant.spaces} spaces, as line {meant.row + 1} does{behind}",
        )
    if own.entries and not here.entries:
        said = f"an entry of a list begins here with `- `, and line {here.row + 1} begins a key"
        return Mistyped(row, own.spaces, said, "begin both with `- `, or none of them")
    if here.entries and not own.entries:
        said = f"a key begins here, and line {here.row + 1} begins an entry of a list with `- `"
        return Mistyped(
            row, own.spaces, said, f"begin it with {own.spaces + 2} spaces, or with `- `"
        )
    return None


def _levels(lines: Sequence[str]) -> list[_Level]:
    """The depths that are open behind these lines, the outermost first."""
    open_: list[_Level] = []
    for row, line in enumerate(lines):
        for level in _begun(row, line):
            while open_ and open_[-1].spaces > level.spaces:
                open_.pop()
            if not open_ or open_[-1].spaces < level.spaces:
                open_.append(level)
    return open_


def _begun(row: int, line: str) -> Iterator[_Level]:
    """The depths at which a line begins something: its dashes, and its key behind them."""
    said, spaces, dash = line.lstrip(" "), len(line) - len(line.lstrip(" ")), False
    while said.startswith("- "):
        yield _Level(spaces, row, entries=True, dash=dash)
        inner = said[1:].lstrip(" ")
        spaces, said, dash = spaces + len(said) - len(inner), inner, True
    if said.strip() and not said.startswith(("#", "-")):
        yield _Level(spaces, row, entries=False, dash=dash)


def _indent(line: str) -> int:
    return len(line) - len(line.lstrip(" "))


def _without_quotes(line: str) -> str:
    return _IN_QUOTES.sub(lambda found: " " * len(found[0]), line)
