"""Text as a YAML value that every reader of YAML takes for the same text."""

import json

from areafit.pattern import pattern

# A word that no resolver takes for a number, a date, a truth value or nothing, and that holds no
# sign of YAML.
_PLAIN = pattern(r"[^\W\d_](?:[\w ./()+%°²³µΩ-]*[\w)%°²³Ω])?")
_TAKEN = {"y", "n", "yes", "no", "on", "off", "true", "false", "null", "none"}


def scalar(text: str) -> str:
    """The text as it stands where that is safe, else in double quotes.

    `none` is quoted as any text is; who means the word of the format writes it himself.
    """
    if _PLAIN.fullmatch(text) and text.casefold() not in _TAKEN:
        return text
    return json.dumps(text, ensure_ascii=False)
