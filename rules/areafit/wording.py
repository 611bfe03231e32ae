"""Words that many share: sentences of names that no table knows, texts that say nothing."""

NOT_STATED = frozenset(
    {"none", "n/a", "na", "-", "–", "?", "tbd", "tba", "tbc", "unknown", "pending", "nil"}
)
"""Texts that only say that nothing is stated."""


def capital(text: str) -> str:
    """The text with its first letter as a capital; the rest as it is, unlike `str.capitalize`."""
    return text[:1].upper() + text[1:]


def nearest_known(names: tuple[str, ...]) -> str:
    """A sentence with the nearest known names, to stand behind another; empty without any."""
    return f" Nearest known: {_listed(names)}." if names else ""


def use_known_name(names: tuple[str, ...], otherwise: str) -> str:
    """The remedy for an unknown name; `otherwise` is what would do instead of a known one."""
    such = f", such as {_listed(names)}" if names else ""
    return f"Use a known name{such}; or {otherwise}."


def _listed(names: tuple[str, ...]) -> str:
    """Separated by commas, or by semicolons where names hold commas of their own."""
    return ("; " if any("," in name for name in names) else ", ").join(names)
