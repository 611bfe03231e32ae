"""Bytes to text: the encodings that are accepted and the characters that are refused."""

import codecs
import re

from areafit.facts.bom import Position
from areafit.file.limits import FILE_BYTES
from areafit.file.mistakes import Mistakes
from areafit.pattern import pattern

# Everything but C0 (save tab and line ends), DEL, C1, line and paragraph separators, controls of
# writing direction, a byte-order mark inside the text, surrogates and non-characters.
_ALLOWED = (
    "\t\n\r\x20-\x7e\xa0-\u061b\u061d-\u200d\u2010-\u2027\u202f-\u2065\u206a-\ud7ff"
    "\ue000-\ufefe\uff00-\ufffd\U00010000-\U0010ffff"
)
_CLEAN = pattern(f"[{_ALLOWED}]*")
_REFUSED = pattern(f"[^{_ALLOWED}]")
_REFUSED_OR_LINE_END = pattern(f"\r\n|\r|\n|[^{_ALLOWED}]")
_REFUSED_IN_VALUE = pattern(f"\r|[^{_ALLOWED}]")
_STAND_IN = "\ufffd"
_UTF_32 = (codecs.BOM_UTF32_LE, codecs.BOM_UTF32_BE)
_UTF_16 = (codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)


def decode(data: bytes, name: str, mistakes: Mistakes) -> str:
    """The text of a file in UTF-8, or in UTF-16 with a byte-order mark.

    Refused characters are noted as mistakes and replaced one for one, so that positions stay.

    Raises:
        InputErrors: the file is too large, empty, or in another encoding.
    """
    start = Position(name, 1, 1)
    if len(data) > FILE_BYTES:
        limit = FILE_BYTES // 1024 // 1024
        mistakes.fatal(start, f"the file is larger than {limit} MiB", "split it into several lists")
    text = _text(data, name, mistakes)
    if not text.strip():
        mistakes.fatal(start, "the file is empty", "write a list that starts with `areafit: 1`")
    if _CLEAN.fullmatch(text):
        return text
    _note_refused(text, name, mistakes)
    return _REFUSED.sub(_STAND_IN, text)


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


def _text(data: bytes, name: str, mistakes: Mistakes) -> str:
    encoding = encoding_of(data)
    try:
        return data.decode(encoding)
    except UnicodeDecodeError as error:
        before = data[: error.start].decode(encoding, errors="replace") + "x"
        lines = re.split("\r\n|\r|\n", before)
        encoding_name = encoding.removesuffix("-sig").upper()
        mistakes.fatal(
            Position(name, len(lines), len(lines[-1])),
            f"the byte 0x{data[error.start]:02X} does not belong in {encoding_name} text",
            "save the file as UTF-8",
        )


def _note_refused(text: str, name: str, mistakes: Mistakes) -> None:
    line, line_start = 1, 0
    for found in _REFUSED_OR_LINE_END.finditer(text):
        if found[0] in ("\r\n", "\r", "\n"):
            line, line_start = line + 1, found.end()
        else:
            mistakes.add(
                Position(name, line, found.start() - line_start + 1),
                f"the character {shown(found[0])} is not allowed",
                "delete it; most editors do not show it",
            )
