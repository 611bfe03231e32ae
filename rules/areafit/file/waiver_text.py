"""A waiver written behind those of a file, everything before it kept byte for byte."""

import codecs
import re

from areafit.errors import InputErrors
from areafit.facts.bom import Position
from areafit.facts.waiver import Waiver
from areafit.file.encoding import encoding_of
from areafit.file.scalar import scalar
from areafit.file.waivers import read_waivers
from areafit.pattern import pattern
from areafit.values import replace

_START = "areafit-waivers: 1\nwaivers:\n"
_FIRST_ENTRY = pattern(r"^waivers[ \t]*:[^\n]*\n(?:[ \t]*(?:#[^\n]*)?\n)*([ ]*)-", re.MULTILINE)
_NOWHERE = Position("", 0, 0)


def entry(waiver: Waiver, indent: str = "  ") -> str:
    """The waiver as an entry of `waivers:`, one key a line."""
    stated = {
        waiver.subject.value: waiver.name,
        "assembly": waiver.assembly,
        "rule": waiver.rule,
        "component": waiver.component,
        "fingerprint": waiver.fingerprint,
        "reason": waiver.reason,
        "approved_by": waiver.approved_by,
        "until": waiver.until.isoformat(),
        "document": waiver.document,
    }
    lines = [f"{key}: {scalar(value)}" for key, value in stated.items() if value is not None]
    return f"{indent}- " + f"\n{indent}  ".join(lines) + "\n"


def append(data: bytes, waiver: Waiver) -> bytes:
    """The file with the waiver behind those that it holds; a new one where `data` is empty.

    Raises:
        InputErrors: the file is no waiver file.
        ValueError: an entry cannot follow its last line, such as in a list in brackets.
    """
    if not data:
        made = (_START + entry(waiver)).encode()
        before: tuple[Waiver, ...] = ()
    else:
        before = read_waivers(data, "")
        made = data + _tail(data, waiver)
    try:
        after = read_waivers(made, "")
    except InputErrors as errors:
        raise ValueError(errors.errors[0].message) from None
    if _bare(after) != _bare((*before, waiver)):
        raise ValueError("an entry behind the last line would not be read as one")
    return made


def _tail(data: bytes, waiver: Waiver) -> bytes:
    text = data.decode(encoding_of(data))
    plain = text.replace("\r\n", "\n").replace("\r", "\n")
    first = _FIRST_ENTRY.search(plain)
    lines = entry(waiver, first[1] if first else "  ")
    if not plain.endswith("\n"):
        lines = "\n" + lines
    if "\r\n" in text:
        lines = lines.replace("\n", "\r\n")
    return lines.encode(_codec(data))


def _codec(data: bytes) -> str:
    if encoding_of(data) != "utf-16":
        return "utf-8"
    return "utf-16-le" if data.startswith(codecs.BOM_UTF16_LE) else "utf-16-be"


def _bare(waivers: tuple[Waiver, ...]) -> list[Waiver]:
    """The waivers without where they stand."""
    return [replace(waiver, position=_NOWHERE) for waiver in waivers]
