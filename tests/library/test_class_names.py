"""A class is found by its name: no two of the library and the command share one."""

import ast
from collections import defaultdict
from pathlib import Path

ROOT = Path(__file__).parents[2]


def test_no_two_classes_of_the_same_name() -> None:
    found: dict[str, list[str]] = defaultdict(list)
    for folder in ("rules", "cli"):
        for path in sorted((ROOT / folder).rglob("*.py")):
            for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
                if isinstance(node, ast.ClassDef):
                    found[node.name].append(path.relative_to(ROOT).as_posix())
    assert len(found) > 300
    assert {name: paths for name, paths in found.items() if len(paths) > 1} == {}
