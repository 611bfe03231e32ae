"""Lines of the lists that pass whole, each a small list of its own: what is bought, not made up."""

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from properties_world import Tree  # made importable by conftest
from ruamel.yaml import YAML

_LISTS = Path(__file__).parents[1] / "cases" / "reviewed"


def read_yaml(path: Path) -> Tree:
    """A list as plain values."""
    yaml = YAML(typ="safe", pure=True)
    yaml.version = (1, 2)
    tree: Tree = json.loads(json.dumps(yaml.load(path.read_text(encoding="utf-8")), default=str))
    return tree


def _noted(line: dict[str, Any], notes: list[dict[str, Any]]) -> dict[str, Any]:
    """The line with what the notes of its list say of it, so that it can be left out."""
    said = [n for n in notes if n.get("where", {}).get("kind", line["kind"]) == line["kind"]]
    facts = {key: value for note in said for key, value in note["facts"].items()}
    of_use = {key: value for note in said for key, value in note.get("materials", {}).items()}
    uses = line["materials"]
    if isinstance(uses, list):
        uses = [{**of_use, **use} if use["material"] != "none" else use for use in uses]
    return {**facts, **line, "materials": uses}


def _alone(tree: Tree) -> Iterator[tuple[str, Tree]]:
    for line in tree["parts"]:
        places = line["location"] if isinstance(line["location"], list) else [line["location"]]
        said = _noted(line, tree["unless_stated"])
        yield (
            f"{tree['assembly']['number']}-{line['item']}",
            {
                **{key: tree[key] for key in ("areafit", "assembly", "code", "edition")},
                "locations": {"spot": tree["locations"][places[0]]},
                "parts": [{**said, "location": "spot"}],
            },
        )


FILLED: dict[str, Tree] = {
    name: world
    for path in sorted(_LISTS.glob("filled_*.yaml"))
    for name, world in _alone(read_yaml(path))
    # A sensor in a circuit passes with its loop only; so does what feeds it.
    if "ia" not in str(world["parts"][0].get("marking", ""))
}
