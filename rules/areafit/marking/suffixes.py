"""The letters X and U: the worse one counts."""

from collections.abc import Iterable

from areafit.facts.protection import Suffix


def worse_suffix(found: Iterable[Suffix | None]) -> Suffix | None:
    """U (a component, no equipment yet) before X (special conditions) before none."""
    present = set(found)
    return next((suffix for suffix in (Suffix.U, Suffix.X) if suffix in present), None)
