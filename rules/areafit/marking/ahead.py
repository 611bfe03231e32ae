"""Categories printed ahead of two codes: `II 2 GD Ex db … Gb Ex tb … Db`, `II 2G / II 2D …`."""

from areafit.marking.build_ex import hazards_of
from areafit.marking.parts import Parts


def distribute(blocks: list[Parts]) -> list[Parts]:
    """The blocks with each category at the code of its hazard.

    Only where it can be told: two categories, one for gas and one for dust, in front of exactly
    two codes without a category, one for gas and one for dust. Anything else stays as it is.
    """
    done: list[Parts] = []
    index = 0
    while index < len(blocks):
        run = _run(blocks, index)
        done.extend(_assigned(run) or run)
        index += len(run)
    return done


def _run(blocks: list[Parts], index: int) -> list[Parts]:
    """A block with a category, the bare categories behind it, and the codes without one."""
    run = [blocks[index]]
    for parts in blocks[index + 1 :]:
        headed = bool(run[-1].types)
        if not run[0].categories or not (bool(parts.categories) ^ headed) or _other(parts):
            break
        run.append(parts)
    return run


def _other(parts: Parts) -> bool:
    """Whether a block is more than categories or an `Ex` code."""
    return bool(parts.classes or parts.zones or parts.divisions or parts.circuits)


def _assigned(run: list[Parts]) -> list[Parts] | None:
    items = [item for parts in run for item in parts.categories]
    codes = [parts for parts in run if parts.types]
    silent = [parts for parts in run if not parts.types and parts.outputs]
    if len(items) != 2 or len(codes) != 2 or silent or _other(run[0]):
        return None
    by_hazard = {item.hazard: item for item in items}
    hazards = [hazards_of(parts, categories=False) for parts in codes]
    if len(by_hazard) != 2 or any(len(found) != 1 for found in hazards) or hazards[0] == hazards[1]:
        return None
    group = run[0].equipment_group
    for parts in run:
        if not parts.types:
            codes[0].problems[:0] = parts.problems
            codes[0].suffixes.extend(parts.suffixes)
    for parts, found in zip(codes, hazards, strict=True):
        parts.categories = [by_hazard[found[0]]]
        parts.equipment_group = group
    return codes
