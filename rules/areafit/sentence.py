"""How words that stand within a message begin a sentence of their own."""


def capital(text: str) -> str:
    """The text with its first letter as a capital; the rest as it is, unlike `str.capitalize`."""
    return text[:1].upper() + text[1:]
