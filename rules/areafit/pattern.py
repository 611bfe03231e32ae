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


class Words:
    """Many words, and which of them stand in a text.

    Most begin with letters that the text does not hold side by side, so they need no look.
    """

    def __init__(self, words: Iterable[str]) -> None:
        self._place = {word: place for place, word in enumerate(words)}
        self._size = min((_LETTERS, *map(len, self._place)))
        self._begun: dict[str, list[str]] = {}
        for word in self._place:
            self._begun.setdefault(word[: self._size], []).append(word)

    def within(self, text: str) -> tuple[str, ...]:
        """Those that stand in the text, in their order."""
        size = self._size
        begins = self._begun.keys() & {text[i : i + size] for i in range(len(text) - size + 1)}
        held = [word for begin in begins for word in self._begun[begin] if word in text]
        return tuple(sorted(held, key=self._place.__getitem__))


_LETTERS = 4


class AnyOf:
    """Any of many words, between the same two expressions; of several that fit, the first.

    A text holds two or three of some hundred words: only those are compiled, once for the texts
    that hold the same.
    """

    def __init__(self, before: str, words: Iterable[str], behind: str) -> None:
        self._before, self._words, self._behind = before, Words(words), behind

    def within(self, text: str) -> re.Pattern[str]:
        """What finds them in this text; the word itself is its only group."""
        return _framed(self._before, self._words.within(text), self._behind)


@lru_cache(maxsize=1024)
def _framed(before: str, words: tuple[str, ...], behind: str) -> re.Pattern[str]:
    either = "|".join(map(re.escape, words)) or "(?!)"
    return re.compile(f"{before}({either}){behind}")
