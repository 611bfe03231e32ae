"""Names of the trade to ids: exact up to case, blanks, hyphens and spelling, never by likeness."""

from collections.abc import Iterable, Mapping

_IGNORED = dict.fromkeys(map(ord, " \t\u00a0-\u2010\u2011\u2012\u2013_"))
_SPELLINGS = (("sulph", "sulf"), ("aluminum", "aluminium"), ("vapor", "vapour"))


def key(name: str) -> str:
    """The form in which two spellings of one name are equal.

    Commas, dots, brackets and slashes stay: `1,1-` and `11-` are different substances.
    """
    folded = name.casefold().translate(_IGNORED)
    for other, ours in _SPELLINGS:
        folded = folded.replace(other, ours)
    return folded


def index(entries: Iterable[tuple[str, Iterable[str]]]) -> Mapping[str, tuple[str, ...]]:
    """From each known name to the ids that bear it; more than one where a name is shared."""
    found: dict[str, tuple[str, ...]] = {}
    for identity, names in entries:
        for name in names:
            folded = key(name)
            if folded:
                known = found.get(folded, ())
                if identity not in known:
                    found[folded] = (*known, identity)
    return found


def nearest(text: str, known: Iterable[str], count: int = 3) -> tuple[str, ...]:
    """The known names most like `text`, best first: for messages only, never for a look-up."""
    import difflib  # noqa: PLC0415 - needed only when a name is unknown

    by_key = {key(name): name for name in reversed(list(known))}
    close = difflib.get_close_matches(key(text), by_key, n=count, cutoff=0.6)
    return tuple(by_key[name] for name in close)
