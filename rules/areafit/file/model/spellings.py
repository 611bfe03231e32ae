"""How a file spells the names of facts."""

from functools import cache

from areafit.file.model.base import Model, models_in
from areafit.file.model.bom import BomModel


@cache
def spellings() -> dict[str, tuple[str, ...]]:
    """For each fact that the file names differently, the keys it may stand under."""
    found: dict[str, tuple[str, ...]] = {}
    seen: set[type[Model]] = set()
    waiting: list[type[Model]] = [BomModel]
    while waiting:
        model = waiting.pop()
        seen.add(model)
        for name, keys in model.keys().items():
            if keys != (name,):
                found[name] = (
                    *found.get(name, ()),
                    *(k for k in keys if k not in found.get(name, ())),
                )
            annotation = model.model_fields[name].annotation
            waiting += (inner for inner in models_in(annotation) if inner not in seen)
    return found
