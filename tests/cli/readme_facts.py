"""Writes the table of facts into the README, between its two markers; run by hand.

python tests/cli/readme_facts.py
"""

from collections.abc import Iterator
from pathlib import Path

from areafit.file.facts import FactRow, facts

README = Path(__file__).parents[2] / "README.md"
START, END = "<!-- facts: made by tests/cli/readme_facts.py -->\n", "<!-- end of facts -->\n"
_ELSEWHERE = {
    "list.locations": "places by their names",
    "list.parts": "lines",
    "list.loops": "circuits",
    "part.alternates": "keys of a part",
    "part.entries.conditions": "keys as of `evidence.conditions`",
    "loop.sources": "keys as of `source`",
}
_SUBJECTS = {
    "list": "the list",
    "place": "a place",
    "part": "a part",
    "loop": "a loop",
    "library": "a file of bought parts",
}


def made(readme: str) -> str:
    """The README with the table as it is now."""
    before, _, rest = readme.partition(START)
    _, _, after = rest.partition(END)
    tables = "".join(_table(subject, named) for subject, named in _SUBJECTS.items())
    return f"{before}{START}{tables}{END}{after}"


def _table(subject: str, named: str) -> str:
    rows = "\n".join(_rows(subject))
    columns = [
        "key",
        "meaning",
        "takes",
        "who knows",
        *(["said once in"] if subject == "part" else []),
    ]
    head = f"| {' | '.join(columns)} |\n| {' | '.join('---' for _ in columns)} |"
    return f"<details>\n<summary>Keys of {named}</summary>\n\n{head}\n{rows}\n\n</details>\n"


def _rows(subject: str) -> Iterator[str]:
    for row in facts().values():
        if row.subject == subject:
            keys = " or ".join(f"`{key}`" for key in (row.key, *row.also))
            cells = [keys, row.meaning, _takes(row), row.who.value]
            if subject == "part":
                once = {"note": row.note, "library": row.library}
                cells.append(", ".join(place for place, may in once.items() if may))
            yield f"| {' | '.join(cells)} |"


def _takes(row: FactRow) -> str:
    words = ", ".join(f"`{word}`" for word in row.choices)
    path = f"{row.subject}.{row.key}"
    below = any(key.startswith(f"{path}.") for key in facts())
    other = row.unit or _ELSEWHERE.get(path, "keys" if below else "")
    return "; or ".join(filter(None, (other, words))) or "text"


if __name__ == "__main__":
    README.write_text(made(README.read_text(encoding="utf-8")), encoding="utf-8")
