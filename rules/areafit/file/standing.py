"""Where a part stands and how it is exposed, of its own or by the part it is mounted in."""

from collections.abc import Mapping, Sequence

from areafit.facts.part import Exposure
from areafit.file.model.part import PartModel
from areafit.file.source import Source
from areafit.values import Frozen


class Standing(Frozen):
    """The locations and the exposure of a part, its parents' where it states none."""

    locations: tuple[str, ...]
    exposure: Exposure | None


_UNSTATED = Standing((), None)
_UNKNOWN = Standing(("?",), None)  # mistakes further up, noted already, decide it


def standings(
    bom: Source, parts: Sequence[PartModel | None], items: Mapping[str, int]
) -> list[Standing]:
    """Where each line stands; parents in a circle and parts without a location are noted."""
    found: dict[int, Standing] = {}
    for i in range(len(parts)):
        chain, above = _upwards(bom, parts, items, i, found)
        for j in reversed(chain):
            above = found[j] = _joined(bom, parts[j], j, above)
    return [found[i] for i in range(len(parts))]


def _upwards(
    bom: Source,
    parts: Sequence[PartModel | None],
    items: Mapping[str, int],
    start: int,
    found: Mapping[int, Standing],
) -> tuple[list[int], Standing]:
    """The line and its parents up to one already known, and what that one says."""
    chain: dict[int, None] = {}
    here = start
    while here not in found:
        if here in chain:
            message = "this part is, over its parents, its own parent"
            bom.note(("parts", here, "parent"), message, "correct one of the `parent` keys")
            return list(chain), _UNKNOWN
        chain[here] = None
        part = parts[here]
        if part is None:
            return list(chain), _UNKNOWN
        if part.parent is None:
            return list(chain), _UNSTATED
        if part.parent not in items:
            return list(chain), _UNKNOWN
        here = items[part.parent]
    return list(chain), found[here]


def _joined(bom: Source, part: PartModel | None, index: int, above: Standing) -> Standing:
    if part is None:
        return _UNKNOWN
    locations = part.locations or above.locations
    if locations:
        return Standing(locations, part.exposure or above.exposure)
    remedy = "add `location:` with one of `locations`, or a `parent:` that has one"
    bom.note(("parts", index), "a part without `location`", remedy)
    return _UNKNOWN
