"""Regular expressions that are compiled when they are first used.

Most runs use few of them, and compiling all takes longer than judging a part.
"""

import re
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
