"""Small lists that pass, to be made worse one fact at a time."""

import copy
import json
from datetime import date
from typing import Any

import areafit
from areafit.engine import judge
from areafit.findings.report import BomReport
from areafit.options import Options
from areafit.tables import Tables

Tree = dict[str, Any]
DAY = date(2026, 1, 1)


def run(tree: Tree, **options: Any) -> BomReport:
    """Read and judge a list given as plain data; JSON is YAML."""
    bom = areafit.read(json.dumps(tree, ensure_ascii=False).encode(), "world.yaml")
    return judge(bom, Tables.shipped(), Options(as_of=DAY, **options))


def opens(tree: Tree) -> bool:
    """Whether the gate opens; a list that is no longer valid does not pass."""
    try:
        return run(tree).passes
    except areafit.InputErrors:
        return False


def leaves(node: Any, path: tuple[Any, ...] = ()) -> list[tuple[Any, ...]]:
    """The path of every key below a node, containers included."""
    found: list[tuple[Any, ...]] = []
    if isinstance(node, dict):
        for key, value in node.items():
            found.append((*path, key))
            found += leaves(value, (*path, key))
    elif isinstance(node, list):
        for i, value in enumerate(node):
            found += leaves(value, (*path, i))
    return found


def at(tree: Tree, path: tuple[Any, ...]) -> Any:
    """The node at a path."""
    node: Any = tree
    for step in path:
        node = node[step]
    return node


def without(tree: Tree, path: tuple[Any, ...]) -> Tree:
    """A copy without the key at a path."""
    changed = copy.deepcopy(tree)
    del at(changed, path[:-1])[path[-1]]
    return changed


def replaced(tree: Tree, path: tuple[Any, ...], value: Any) -> Tree:
    """A copy with another value at a path."""
    changed = copy.deepcopy(tree)
    at(changed, path[:-1])[path[-1]] = value
    return changed
