"""Foreign text made safe to show: nothing from a file may steer a terminal or fake a line."""

import re

from areafit.pattern import pattern

_HIDDEN = pattern(
    "["
    "\x00-\x1f\x7f-\x9f"  # C0 with every line end, DEL, C1
    "\xad\u061c\u180e\u200b-\u200f\u2060-\u206f\ufeff\ufff9-\ufffb"  # no width, direction marks
    "\u2028-\u202e"  # line and paragraph separator, embeddings and overrides
    "\ud800-\udfff"  # halves of pairs, from arguments that are not UTF-8
    "\U000e0000-\U000e007f"  # invisible tags
    "]"
)
_SHORT = {"\n": r"\n", "\r": r"\r", "\t": r"\t"}


# Build services obey lines of a log: one that starts with `::`, and `##[` wherever it stands
# (`ActionCommand.cs` of the runner of GitHub Actions, read; `##vso[` likewise, from memory).
_COMMAND = pattern(r"\s*(?:::|##(?:vso)?\[)", re.IGNORECASE)
_ANYWHERE = pattern(r"##(?=(?:vso)?\[)", re.IGNORECASE)


def obeyed(line: str) -> bool:
    """Whether a line of a log starts as one that a build service takes for a command."""
    return _COMMAND.match(line) is not None


def clean(text: str) -> str:
    """The text with every control, direction and zero-width character as a visible escape.

    So is the second sign of `##[`, which is a command wherever it stands in a line.
    """
    shown = _HIDDEN.sub(_visible, text)
    return _ANYWHERE.sub(r"#\\x23", shown) if "##" in shown else shown


def clean_json(text: str) -> str:
    """JSON text on one line with the same characters as JSON escapes; the data stay the same."""
    shown = _HIDDEN.sub(_json_escape, text)
    return _ANYWHERE.sub(r"#\\u0023", shown) if "##" in shown else shown


def _json_escape(found: re.Match[str]) -> str:
    units = found[0].encode("utf-16-be", "surrogatepass").hex()
    return "".join(f"\\u{units[i : i + 4]}" for i in range(0, len(units), 4))


def _visible(found: re.Match[str]) -> str:
    sign = found[0]
    if sign in _SHORT:
        return _SHORT[sign]
    code = ord(sign)
    if code < 0x100:
        return f"\\x{code:02x}"
    return f"\\u{code:04x}" if code < 0x10000 else f"\\U{code:08x}"
