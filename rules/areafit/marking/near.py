"""What a word that could not be read was most likely meant to be: other case, or look-alikes."""

from areafit.facts.groups import Group
from areafit.facts.protection import Level

_GROUPS = frozenset(group.value for group in Group if len(group.value) > 1)
_CLASSES = frozenset({"T1", "T2", "T3", "T4", "T5", "T6"})
_TYPES = frozenset(
    letter + level for letter in "demiostq" for level in "abc" if letter + level not in ("ea", "ta")
) | {"px", "py", "pz", "pxb", "pyb", "pzc", "nA", "nC", "nR"}
# `Ta` is the ambient temperature, and there is no type ea.
_WORDS = (_GROUPS, frozenset(level.value for level in Level), _CLASSES, _TYPES)
# `l`, `1` and `|` are what copying makes of the capital I of a group.
_LOOKALIKES = str.maketrans({"l": "I", "1": "I", "|": "I", "i": "I"})


def meant(text: str) -> tuple[str, ...]:
    """The words of a marking that a text looks like; none where it is such a word itself."""
    if any(text in words for words in _WORDS):
        return ()
    found = [word for words in _WORDS for word in words if word.casefold() == text.casefold()]
    group = text.translate(_LOOKALIKES).upper()
    if group in _GROUPS:
        found.append(group)
    return tuple(dict.fromkeys(sorted(found)))
