"""What sort of file this is, told by its first key without parsing it."""

import re

from areafit.file.encoding import encoding_of

_PEEK = 64 * 1024
_FIRST_KEY = re.compile(
    r"""(?:[ \t]*(?:\#[^\n]*|---[ \t]*|%[^\n]*)?\n)*  # blank lines, comments, the document's start
        [ \t]*\{?[ \t\n]*(["']?)([\w-]{1,64})\1[ \t]*:(?:\s|\Z)""",
    re.VERBOSE,
)


def first_key(data: bytes) -> str | None:
    """The first key of a YAML file, or None where there is none to be seen near its start.

    `areafit`, `areafit-areas` and `areafit-waivers` say that a file is one of ours.
    """
    head = data[:_PEEK]
    text = head.decode(encoding_of(head), errors="replace").replace("\r\n", "\n")
    found = _FIRST_KEY.match(text.replace("\r", "\n"))
    return found[2] if found else None
