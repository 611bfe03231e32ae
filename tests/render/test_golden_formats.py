"""Every format over a rich list, a plain one, and a run in which nothing could be read.

`AREAFIT_REGOLD=1 pytest tests/render/test_golden_formats.py` writes the golden files anew; read the
difference before committing it. The lists are invented, the engine and its tables are the real
ones, so that a golden file changes when a rule changes its words.
"""

import re
from collections.abc import Callable
from typing import Any

import pytest

from areafit_cli import render

Golden = Callable[[str, str], None]


@pytest.fixture
def bytes_of(golden: Golden) -> Golden:
    """As `golden`, without what is tested elsewhere."""

    def run(name: str, text: str) -> None:
        text = re.sub(r"\b(?:2:)?[0-9a-f]{24}\b", "f" * 24, text)  # fingerprints
        if name.endswith(".sarif"):  # the help of all rules
            lines = text.splitlines(keepends=True)
            text = "".join(line for line in lines if not line.startswith('"tool"'))
            text = re.sub(r'(?<="ruleIndex": )[0-9]+', "0", text)  # each new rule moves it
        if name.endswith(".html"):  # what suits a place: each row of a material moves it
            fitness = r"(<th scope=\"col\">Fitness</th>.*?<tbody>).*?(</tbody>)"
            text = re.sub(fitness, r"\1\2", text, flags=re.DOTALL)
        golden(name, text)

    return run


@pytest.mark.parametrize("kind", render.NAMES)
def test_a_rich_list(made: Any, bytes_of: Golden, kind: str) -> None:
    whole = made.run(made.rich, as_of=made.day)
    bytes_of(f"rich.{kind}", made.rendered(kind, whole, made.rich))


@pytest.mark.parametrize("kind", render.NAMES)
def test_a_list_of_which_nothing_is_open(made: Any, bytes_of: Golden, kind: str) -> None:
    bytes_of(f"plain.{kind}", made.rendered(kind, made.run(made.plain), made.plain))


@pytest.mark.parametrize("kind", render.NAMES)
def test_a_run_in_which_nothing_could_be_read(made: Any, bytes_of: Golden, kind: str) -> None:
    bytes_of(f"unread.{kind}", made.rendered(kind, made.run(errors=[made.error])))
