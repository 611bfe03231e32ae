"""The one editor: an edit changes the value that it is for, and no other byte of other lines.

What an edit must keep is the project's own rule; that line ends and comments survive is common
practice, no source.
"""

import json
import random
from pathlib import Path
from typing import Any

import pytest

from areafit.errors import Collector, InputErrors
from areafit.file.editor import EditError, Put, Remove, edit, edit_at_once
from areafit.file.events import load
from areafit.file.positions import Items, Map
from areafit.file.text import decode

SAMPLES = sorted((Path(__file__).parents[2] / "sample_bom").glob("*.yaml"))
YES, NO = True, False
BLOCK = """\
areafit: 1   # the format
assembly:
  number: A-1

parts:
  # the frame
  - item: 10   # top
    kind: structural
    materials:   # of the drawing
      - '304'
      - material: PTFE
        component: seal
    note: |
      two
      lines

  - {item: 20, kind: mechanical, location: [a, b]}
  - item: 30
    description:
    kind: electrical
"""


def made(text: str, *changes: Put | Remove) -> str:
    return edit(text.encode(), "list.yaml", *changes).decode()


@pytest.mark.parametrize(
    ("change", "old", "new"),
    [
        (Put(("parts", 0, "kind"), "mechanical"), "kind: structural", "kind: mechanical"),
        (Put(("parts", 0, "item"), "11"), "item: 10   # top", 'item: "11"   # top'),
        (Put(("parts", 1, "bonded"), YES), "[a, b]}", "[a, b], bonded: true}"),
        (Put(("parts", 1, "location"), "c"), "[a, b]", "c"),
        (Put(("parts", 1, "location", 2), "c"), "[a, b]", "[a, b, c]"),
        (Put(("parts", 2, "description"), "a: b"), "description:", 'description: "a: b"'),
        (Put(("parts", 2, "bonded"), NO), "electrical\n", "electrical\n    bonded: false\n"),
        (Put(("assembly", "title"), "Bench"), "number: A-1\n", "number: A-1\n  title: Bench\n"),
        (Put(("code",), "IEC"), "kind: electrical\n", "kind: electrical\ncode: IEC\n"),
        (
            Put(("parts", 0, "materials", 2), "NBR"),
            "component: seal\n",
            "component: seal\n      - NBR\n",
        ),
        (
            Put(("parts", 0, "materials"), ["316L"]),
            (
                "materials:   # of the drawing\n      - '304'\n      - material: PTFE\n"
                "        component: seal\n"
            ),
            'materials: ["316L"]   # of the drawing\n',
        ),
        (
            Put(("parts", 0, "note"), "one"),
            "note: |\n      two\n      lines\n",
            "note: one\n",
        ),
        (
            Put(("parts", 3), {"item": "40", "kind": "structural", "contacts": "none"}),
            "kind: electrical\n",
            'kind: electrical\n  - item: "40"\n    kind: structural\n    contacts: none\n',
        ),
        (Remove(("parts", 0, "kind")), "    kind: structural\n", ""),
        (Remove(("parts", 0, "item")), "- item: 10   # top\n    kind", "- kind"),
        (Remove(("parts", 1, "kind")), "kind: mechanical, ", ""),
        (Remove(("parts", 1, "location")), ", location: [a, b]", ""),
        (Remove(("parts", 2, "description")), "    description:\n", ""),
        (Remove(("parts", 1)), "  - {item: 20, kind: mechanical, location: [a, b]}\n", ""),
        (Remove(("parts", 0, "materials", 0)), "      - '304'\n", ""),
    ],
)
def test_an_edit_touches_its_own_lines_only(change: Put | Remove, old: str, new: str) -> None:
    assert BLOCK.count(old) == 1
    assert made(BLOCK, change) == BLOCK.replace(old, new)


@pytest.mark.parametrize("ends", ["\r\n", "\r", "\n"])
@pytest.mark.parametrize("codec", ["utf-8", "utf-8-sig", "utf-16"])
def test_line_ends_and_encoding_stay(ends: str, codec: str) -> None:
    data = BLOCK.replace("\n", ends).encode(codec)
    after = edit(data, "list.yaml", Put(("parts", 2, "bonded"), YES))
    assert after[:2] == data[:2]
    assert after.decode(codec) == BLOCK.replace("\n", ends) + f"    bonded: true{ends}"


def test_a_last_line_without_an_end_gets_none() -> None:
    assert made("a: 1\nb: 2", Put(("c",), "3")) == 'a: 1\nb: 2\nc: "3"'
    assert made("{}", Put(("c",), "x")) == "{c: x}"


@pytest.mark.parametrize(
    ("text", "change"),
    [
        ("a: &x 1\nb: 2\n", Put(("b",), "3")),
        ("a: 1\nb: *x\n", Put(("a",), "3")),
        ("a: !!str 1\n", Put(("a",), "3")),
        ("a: [1\n", Put(("a",), "3")),
    ],
)
def test_what_our_files_may_not_use_is_not_edited(text: str, change: Put) -> None:
    with pytest.raises(InputErrors):
        made(text, change)


@pytest.mark.parametrize(
    "change",
    [
        Put((), "x"),
        Put(("parts", 9, "kind"), "x"),
        Put(("parts", 4), "x"),
        Put(("nothing", "below"), "x"),
        Put(("assembly", 0), "x"),
        Put(("assembly", "number", "more"), "x"),
        Remove(("parts", 3)),
        Remove(("assembly", "title")),
        Remove(("assembly", "number")),
    ],
)
def test_a_path_that_leads_nowhere_changes_nothing(change: Put | Remove) -> None:
    with pytest.raises(EditError):
        made(BLOCK, change)


@pytest.mark.parametrize("text", ["x: {a, b: 1}\n", '{"a": {"b" : ,1}}\n'])
def test_a_key_without_a_colon_hinders_no_other(text: str) -> None:
    """Found by fuzzing: the colon behind it is another key's, or there is none."""
    data = text.encode()
    assert edit(data, "x", Put(("new",), "1")).startswith(data.rstrip()[:-1])
    with pytest.raises(EditError):
        edit(b"x: {a, b: 1}\n", "x", Put(("x", "a"), "1"))


def test_a_comment_in_the_way_is_not_lost() -> None:
    with pytest.raises(EditError, match="comment"):
        made("parts:\n- item: 1\n  # why\n  kind: x\n", Remove(("parts", 0, "item")))


# Every single-fact edit of the samples, and of lists written in any style


def _paths(node: Any, above: tuple[str | int, ...] = ()) -> list[tuple[str | int, ...]]:
    found: list[tuple[str | int, ...]] = []
    pairs: Any = node.items() if isinstance(node, Map) else enumerate(node)
    for step, value in pairs:
        found.append((*above, step))
        if isinstance(value, Map | Items):
            found += _paths(value, (*above, step))
    return found


def _values(data: bytes) -> Any:
    errors = Collector()
    return load(decode(data, "x", errors), "x", errors).root


def _sound(data: bytes, change: Put | Remove) -> None:
    """The edit is refused, or leaves all lines but its own, and all values but one."""
    try:
        after = edit(data, "x", change)
    except EditError:
        return
    before_lines, after_lines = data.splitlines(keepends=True), after.splitlines(keepends=True)
    head = 0
    while head < min(len(before_lines), len(after_lines)) and (
        before_lines[head] == after_lines[head]
    ):
        head += 1
    tail = 0
    while tail < min(len(before_lines), len(after_lines)) - head and (
        before_lines[-1 - tail] == after_lines[-1 - tail]
    ):
        tail += 1
    gone = before_lines[head : len(before_lines) - tail]
    node: Any = _values(data)
    for step in change.path[:-1]:
        node = node[step]
    last = change.path[-1]
    held = isinstance(node, Items) or last in node
    old = node[last] if held else ""
    most = str(old).count("\n") + len(_paths(old) if isinstance(old, Map | Items) else ()) + 4
    assert len(gone) <= most + sum(line.lstrip().startswith(b"#") for line in gone)


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_every_single_fact_of_the_samples_can_be_edited(path: Path) -> None:
    data = path.read_bytes()
    paths = _paths(_values(data))
    rng = random.Random(path.stem)  # noqa: S311 - repeatable, nothing secret
    refused = 0
    for where in rng.sample(paths, min(len(paths), 25)):
        for change in (Put(where, "new text, with: signs"), Remove(where)):
            try:
                edit(data, "x", change)
            except EditError:
                refused += isinstance(change, Put)
            _sound(data, change)
    assert refused == 0


def _written(value: Any, rng: random.Random, indent: str, ends: str) -> str:
    """A value as somebody might write it behind its key or dash."""
    flow = rng.random() < 0.3
    step = rng.choice(("  ", "    ", " "))
    comment = rng.choice(("", "", "  # why", " # a: b"))
    if isinstance(value, dict) and value and not flow:
        inner = indent + step
        return (
            comment
            + ends
            + "".join(
                f"{inner}{key}:{_written(each, rng, inner, ends)}" for key, each in value.items()
            )
        )
    if isinstance(value, list) and value and not flow:
        inner = indent + rng.choice(("", step))
        entries = []
        for each in value:
            if isinstance(each, dict) and each and rng.random() < 0.7:
                (key, first), *rest = each.items()
                deeper = inner + "  "
                lines = f"{inner}- {key}:{_written(first, rng, deeper, ends)}"
                lines += "".join(f"{deeper}{k}:{_written(v, rng, deeper, ends)}" for k, v in rest)
                entries.append(lines)
            else:
                entries.append(f"{inner}- {json.dumps(each)}{comment}{ends}")
        blank = rng.choice(("", ends, f"{indent}# note{ends}"))
        return comment + ends + blank.join(entries)
    if isinstance(value, str) and value.isalnum() and rng.random() < 0.5:
        return f" {rng.choice((value, repr(value)))}{comment}{ends}"
    return f" {json.dumps(value)}{comment}{ends}"


def _random(rng: random.Random, depth: int = 0) -> Any:
    kind = rng.random()
    if depth and (depth > 3 or kind < 0.45):
        return rng.choice(("a1", "two words", "316L", "x: y", "#", "none", "ä", "7", "", "[b"))
    if kind < 0.75:
        return {f"k{i}": _random(rng, depth + 1) for i in range(rng.randint(1, 4))}
    return [_random(rng, depth + 1) for _ in range(rng.randint(1, 4))]


@pytest.mark.parametrize("seed", range(60))
def test_any_list_in_any_style_takes_an_edit_or_stays_as_it_was(seed: int) -> None:
    rng = random.Random(seed)  # noqa: S311 - repeatable, nothing secret
    ends = rng.choice(("\n", "\r\n"))
    value = {f"top{i}": _random(rng, 1) for i in range(rng.randint(2, 4))}
    text = "".join(f"{key}:{_written(each, rng, '', ends)}" for key, each in value.items())
    data = text.encode(rng.choice(("utf-8", "utf-8-sig")))
    made_of = [*_paths(_values(data))]
    for where in rng.sample(made_of, min(len(made_of), 12)):
        for new in ("plain", "with, signs: #", ["a", "b"], {"k": "v"}, YES):
            _sound(data, Put(where, new))
        _sound(data, Put((*where[:-1], "fresh" if isinstance(where[-1], str) else 99), "x"))
        _sound(data, Remove(where))


@pytest.mark.parametrize("breaks", ["\n", "\r\n"])
def test_changes_at_once_are_those_one_after_the_other(breaks: str) -> None:
    """Paths are those of the file as it is, so what is removed goes last and from the end."""
    data = BLOCK.replace("\n", breaks).encode()
    changes: list[Put | Remove] = [
        Remove(("parts", 0)),
        Put(("parts", 1, "item"), "21"),
        Put(("parts", 1, "bonded"), YES),
        Put(("parts", 1, "parent"), "30"),
        Put(("parts", 2, "bonded"), NO),
        Put(("parts", 2, "location"), "a"),
        Put(("parts", 3), {"item": "40", "kind": "structural"}),
        Put(("parts", 4), {"item": "50", "kind": "structural"}),
        Remove(("parts", 2, "description")),
        Put(("assembly", "number"), "A-2"),
    ]
    puts = [each for each in changes if isinstance(each, Put)]
    after = (Remove(("parts", 2, "description")), Remove(("parts", 0)))
    assert edit_at_once(data, "x", changes) == edit(data, "x", *puts, *after)
    assert edit_at_once(data, "x", []) == data


def test_changes_that_touch_one_another_are_made_in_turn() -> None:
    data = b"areafit: 1\nparts: [{item: 1, kind: a}, {item: 2}, {item: 3}]\n"
    changes: list[Put | Remove] = [Remove(("parts", 1)), Remove(("parts", 2))]
    changes.append(Put(("parts", 0, "item"), "7"))
    made = edit_at_once(data, "x", [*changes, Put(("parts", 0, "item"), "8")])
    assert made == b'areafit: 1\nparts: [{item: "8", kind: a}]\n'
    with pytest.raises(EditError):
        edit_at_once(data, "x", [Put((), "x")])
