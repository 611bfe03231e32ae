"""Lines of plain text at a width: wrapping, labels, colour where it is wanted, and plain values."""

import textwrap
from collections.abc import Iterable, Iterator, Mapping
from decimal import Decimal
from enum import Enum
from functools import lru_cache

from areafit.facts.quantity import limit, number
from areafit.pattern import pattern
from areafit.values import Frozen
from areafit_cli.safe_text import clean, obeyed

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
_UNITS = {
    "_c": " °C",
    "_g_cm3": " g/cm³",
    "_mm": " mm",
    "_mv": " mV",
    "_pct": " %",
    "_pct_max": " % at most",
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
        for line in (f"{first}{lines[0]}", *lines[1:]):
            yield f"{line}\n" if not obeyed(line) else f"· {line.lstrip()}\n"

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


def show(value: object) -> str:
    """A value in words; empty where nothing is stated."""
    match value:
        case bool():
            text = "yes" if value else "no"
        case Decimal():
            text = number(value)
        case Enum():
            text = str(value.value)
        case Mapping():
            pairs = ((_label(key), show(one)) for key, one in value.items())
            text = ", ".join(f"{key} {one}" for key, one in pairs if one)
        case list() | tuple():
            text = "; ".join(filter(None, map(show, value)))
        case set() | frozenset():
            text = "; ".join(sorted(filter(None, map(show, value))))
        case _:
            text = "" if value is None else str(value)
    return text


def block(
    data: Mapping[str, object], paper: Paper, *, indent: int = 2, skip: Iterable[str] = ()
) -> Iterator[str]:
    """One line a fact; a list of mappings becomes one indented block each.

    A key that ends in a unit, `_c` or `_pct`, is shown with the unit behind the value.
    """
    texts = {key: _text(key, value) for key, value in data.items() if key not in skip}
    column = 2 + max((len(_label(key)) for key, text in texts.items() if text), default=0)
    for key, text in texts.items():
        value = data[key]
        if isinstance(value, list) and any(isinstance(one, Mapping) for one in value):
            for one in value:
                yield f"{' ' * indent}{_label(key)}\n"
                yield from block(one, paper, indent=indent + 2)
        elif text:
            yield from paper.labelled(_label(key), text + _unit(key), indent, column)


def _text(key: object, value: object) -> str:
    """The value in words; two temperatures are the ends of a range."""
    if str(key).endswith("_c") and isinstance(value, list):
        return "..".join(map(show, value))
    if str(key).endswith("below_c") and isinstance(value, Decimal):
        return limit(value)
    return show(value)


def _label(key: object) -> str:
    return _bare(str(key)).replace("_", " ")


def _bare(key: str) -> str:
    for suffix in _UNITS:
        key = key.removesuffix(suffix)
    return key


def _unit(key: object) -> str:
    return next((unit for suffix, unit in _UNITS.items() if str(key).endswith(suffix)), "")
