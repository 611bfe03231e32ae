"""Lines of plain text at a width: wrapping, indents, labels, and colour where it is wanted."""

import textwrap
from collections.abc import Iterator
from functools import lru_cache

from areafit.pattern import pattern
from areafit.values import Frozen
from areafit_cli.safe_text import clean

_ESCAPES = pattern("\x1b\\[[0-9;]*m")
_LEAD = "\x00"  # stands in for the lead, whose colour must not count as width
_COLOURS = {
    "flag": "31;1",
    "fail": "31;1",
    "unproven": "33",
    "waived": "36",
    "pass": "32",
    "title": "1",
}


class Paper(Frozen):
    """Where lines are laid out. Every text handed in is made safe here; colour is an extra."""

    width: int = 100
    colour: bool = False

    def paint(self, word: str, kind: str = "") -> str:
        """The word, coloured as its kind where colours are wanted; says the same without."""
        code = _COLOURS.get(kind or word.split(" ", maxsplit=1)[0])
        return f"\x1b[{code}m{clean(word)}\x1b[0m" if self.colour and code else clean(word)

    def heading(self, text: str) -> str:
        """The title of a section, in capitals, after an empty line."""
        return f"\n{self.paint(text.upper(), 'title')}\n"

    def wrap(self, text: str, first: str = "", rest: str = "") -> Iterator[str]:
        """Lines of at most the width, the first and the others led in; a longer word runs over."""
        shown = len(_ESCAPES.sub("", first)) if self.colour else len(first)
        lines = _wrapped(text, max(self.width, len(rest) + 20), shown, rest)
        yield f"{first}{lines[0]}\n"
        for line in lines[1:]:
            yield f"{line}\n"

    def labelled(self, label: str, text: str, indent: int, column: int) -> Iterator[str]:
        """`label  text`, the text wrapped in its own column, or below where that gets narrow."""
        start = indent + max(column, len(label) + 1)
        if start + 20 > self.width:
            yield f"{' ' * indent}{label}\n"
            yield from self.wrap(text, " " * (indent + 2), " " * (indent + 2))
            return
        yield from self.wrap(text, f"{' ' * indent}{label:<{start - indent}}", " " * start)


@lru_cache(maxsize=4096)  # findings of one rule share most of their texts
def _wrapped(text: str, width: int, lead: int, rest: str) -> tuple[str, ...]:
    """The lines, the first without its lead, which takes so many columns."""
    said = clean(text)
    if lead + len(said) <= width and said == said.strip():
        return (said,)
    lines = textwrap.wrap(
        said,
        width,
        initial_indent=_LEAD * lead,
        subsequent_indent=rest,
        break_long_words=False,
        break_on_hyphens=False,
    )
    return (lines[0].lstrip(_LEAD), *lines[1:]) if lines else ("",)
