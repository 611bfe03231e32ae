"""Bytes and text: which encodings and characters are read, and how a text is written.

This much knows of a file without parsing it; `first_key` tells what sort of file it is.
"""

import codecs
import csv
import json
import os.path
import re
from collections.abc import Mapping
from functools import cache

from areafit.errors import Collector
from areafit.facts.bom import Position
from areafit.pattern import pattern

FILE_BYTES = 64 * 1024 * 1024
"""The largest file: far above any real list, far below what harms the machine."""
# C0 (save tab and line ends), DEL, C1, line and paragraph separators, controls of direction, a
# byte-order mark inside the text, surrogates and non-characters. A class of what is allowed takes
# five times as long to compile.
_REFUSED = (
    "\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069"
    "\ud800-\udfff\ufeff\ufffe\uffff"
)
_CLEAN = pattern(f"[^{_REFUSED}]*")
_ANY_REFUSED = pattern(f"[{_REFUSED}]")
_REFUSED_OR_LINE_END = pattern(f"\r\n|\r|\n|[{_REFUSED}]")
_REFUSED_IN_VALUE = pattern(f"[\r{_REFUSED}]")
_YES_NO = os.path.join(os.path.dirname(__file__), "yes_no.csv")  # noqa: PTH118, PTH120 - quicker
_STAND_IN = "\ufffd"
_UTF_32 = (codecs.BOM_UTF32_LE, codecs.BOM_UTF32_BE)
_UTF_16 = (codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)
_PEEK = 64 * 1024
_PASSED_OVER = pattern(r"(?:[#%].*|---|\{)?")
_KEY = pattern(r"""(["']?)([\w-]{1,64})\1[ \t]{0,64}:(?:\s|\Z)""")
_INNER_KEY = pattern(r"""[{,]\s*["']?([\w-]{1,64})["']?\s*:""")
# A word that no resolver takes for a number, a date, a truth value or nothing, and that holds no
# sign of YAML.
_PLAIN = pattern(r"[^\W\d_](?:[\w ./()+%°²³µΩ-]*[\w)%°²³Ω])?")
_TAKEN = {"y", "n", "yes", "no", "on", "off", "true", "false", "null", "none"}


def decode(data: bytes, name: str, errors: Collector) -> str:
    """The text of a file in UTF-8, or in UTF-16 with a byte-order mark.

    Refused characters are noted as errors and replaced one for one, so that positions stay.

    Raises:
        InputErrors: the file is too large, empty, or in another encoding.
    """
    start = Position(name, 1, 1)
    if len(data) > FILE_BYTES:
        limit = FILE_BYTES // 1024 // 1024
        errors.fatal(start, f"the file is larger than {limit} MiB", "split it into several lists")
    text = _text(data, name, errors)
    if not text.strip():
        errors.fatal(start, "the file is empty", "write a list that starts with `areafit: 1`")
    if _CLEAN.fullmatch(text):
        return text
    _note_refused(text, name, errors)
    return _ANY_REFUSED.sub(_STAND_IN, text)


def refused(text: str) -> str | None:
    """The first character that may not stand in a value, or None; only `LF` ends its lines."""
    found = _REFUSED_IN_VALUE.search(text)
    return found[0] if found else None


def shown(character: str) -> str:
    """A character as `U+202E`, safe to print."""
    return f"U+{ord(character):04X}"


def encoding_of(data: bytes) -> str:
    """The codec that the first bytes ask for."""
    if data.startswith(_UTF_16) and not data.startswith(_UTF_32):
        return "utf-16"
    return "utf-8-sig"


def first_key(data: bytes) -> str | None:
    """The first key of a YAML file, or None where there is none to be seen near its start.

    `areafit`, `areafit-areas`, `areafit-parts` and `areafit-waivers` say that a file is ours.
    """
    head = data[:_PEEK].decode(encoding_of(data), errors="replace")
    for line in map(str.strip, head.splitlines()):
        if not _PASSED_OVER.fullmatch(line):  # no comment, directive or start of the document
            found = _KEY.match(line.removeprefix("{").lstrip())
            return found[2] if found else None
    return None


def outermost_keys(data: bytes) -> frozenset[str]:
    """The outermost keys that can be seen near the start of a YAML file, without parsing it."""
    head = data[:_PEEK].decode(encoding_of(data), errors="replace")
    keys = {found[2] for line in head.splitlines() if (found := _KEY.match(line))}
    if head.lstrip().startswith("{"):
        keys.update(_INNER_KEY.findall(head))
    return frozenset(keys)


def scalar(text: str) -> str:
    """The text as it stands where that is safe, else in double quotes.

    `none` is quoted as any text is; who means the word of the format writes it himself.
    """
    if _PLAIN.fullmatch(text) and text.casefold() not in _TAKEN:
        return text
    return json.dumps(text, ensure_ascii=False)


def _text(data: bytes, name: str, errors: Collector) -> str:
    encoding = encoding_of(data)
    try:
        return data.decode(encoding)
    except UnicodeDecodeError as error:
        before = data[: error.start].decode(encoding, errors="replace") + "x"
        lines = re.split("\r\n|\r|\n", before)
        encoding_name = encoding.removesuffix("-sig").upper()
        errors.fatal(
            Position(name, len(lines), len(lines[-1])),
            f"the byte 0x{data[error.start]:02X} does not belong in {encoding_name} text",
            "save the file as UTF-8",
        )


def _note_refused(text: str, name: str, errors: Collector) -> None:
    line, line_start = 1, 0
    for found in _REFUSED_OR_LINE_END.finditer(text):
        if found[0] in ("\r\n", "\r", "\n"):
            line, line_start = line + 1, found.end()
        else:
            errors.add(
                Position(name, line, found.start() - line_start + 1),
                f"the character {shown(found[0])} is not allowed",
                "delete it; most editors do not show it",
            )


def yes_or_no(text: str) -> bool | None:
    """What a cell that a person filled answers, in any of five languages; None where neither.

    >>> yes_or_no("Ja"), yes_or_no("non"), yes_or_no("perhaps")
    (True, False, None)
    """
    return _answers().get(" ".join(text.casefold().replace(".", " ").split()))


@cache
def _answers() -> Mapping[str, bool]:
    with open(_YES_NO, encoding="utf-8", newline="") as file:  # noqa: PTH123 - quicker
        _, *found = csv.reader(file)
    return {word: says == "yes" for says, _, word in found}
