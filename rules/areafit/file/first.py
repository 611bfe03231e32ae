"""What sort of file this is, told by its first key without parsing it."""

from areafit.file.encoding import encoding_of
from areafit.pattern import pattern

_PEEK = 64 * 1024
_PASSED_OVER = pattern(r"(?:[#%].*|---|\{)?")
_KEY = pattern(r"""(["']?)([\w-]{1,64})\1[ \t]{0,64}:(?:\s|\Z)""")


def first_key(data: bytes) -> str | None:
    """The first key of a YAML file, or None where there is none to be seen near its start.

    `areafit`, `areafit-areas` and `areafit-waivers` say that a file is one of ours.
    """
    head = data[:_PEEK].decode(encoding_of(data), errors="replace")
    for line in map(str.strip, head.splitlines()):
        if not _PASSED_OVER.fullmatch(line):  # no comment, directive or start of the document
            found = _KEY.match(line.removeprefix("{").lstrip())
            return found[2] if found else None
    return None
