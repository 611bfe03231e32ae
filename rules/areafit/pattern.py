"""Regular expressions that are compiled when they are first used.

Most runs use few of them, and compiling all takes longer than judging a part.
"""

import re
from collections.abc import Iterable
from functools import lru_cache
from typing import Any, cast


def pattern(text: str, flags: re.RegexFlag = re.NOFLAG) -> re.Pattern[str]:
    """What `re.compile` gives, as far as its methods go; a mistake in it shows at the first use."""
    return cast("re.Pattern[str]", _Pattern(text, flags))


class _Pattern:
    def __init__(self, text: str, flags: re.RegexFlag) -> None:
        self._stated = (text, flags)

    def __getattr__(self, name: str) -> Any:  # noqa: ANN401 - any method of a pattern
        found = getattr(re.compile(*self._stated), name)
        setattr(self, name, found)  # from now on it is found without coming here
        return found


class AnyOf:
    """Any of many words, between the same two expressions; of several that fit, the first.

    A text holds two or three of some hundred words: only those are compiled, once for the texts
    that hold the same.
    """

    def __init__(self, before: str, words: Iterable[str], behind: str) -> None:
        self._before, self._words, self._behind = before, tuple(words), behind

    def within(self, text: str) -> re.Pattern[str]:
        """What finds them in this text; the word itself is its only group."""
        held = tuple(word for word in self._words if word in text)
        return _framed(self._before, held, self._behind)


@lru_cache(maxsize=1024)
def _framed(before: str, words: tuple[str, ...], behind: str) -> re.Pattern[str]:
    either = "|".join(map(re.escape, words)) or "(?!)"
    return re.compile(f"{before}({either}){behind}")
