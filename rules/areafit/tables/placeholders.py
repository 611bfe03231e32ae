"""Words that people write where the number of a document is still to come."""

import re
from functools import cache

from areafit.tables.load import rows
from areafit.values import Frozen
from areafit.verdict import Basis


class Placeholder(Frozen):
    """One word or phrase; a number that holds it names no document."""

    word: str
    source_id: str
    locator: str
    basis: Basis
    note: str


@cache
def is_placeholder(text: str) -> bool:
    """Whether a text says that a document is to come, or that there is none."""
    return _words().search(" ".join(text.split())) is not None or not any(map(str.isalnum, text))


@cache
def _words() -> re.Pattern[str]:
    words = (re.escape(row.word) for row in rows("placeholders", Placeholder))
    return re.compile(rf"(?<!\w)(?:{'|'.join(words)})(?!\w)", re.IGNORECASE)
