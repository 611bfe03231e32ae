"""Every format over a rich list, a plain one, and a run in which nothing could be read.

`AREAFIT_REGOLD=1 pytest tests/render/test_golden_formats.py` writes the golden files anew; read the
difference before committing it. The lists are invented, the engine and its tables are the real
ones, so that a golden file changes when a rule changes its words.
"""

import os
import re
from pathlib import Path
from typing import Any

import pytest

from areafit_cli import render

GOLDEN = Path(__file__).parent / "golden"


def golden(name: str, text: str) -> None:
    path = GOLDEN / name
    text = re.sub(
        r"\b(?:2:)?[0-9a-f]{24}\b", "f" * 24, text
    )  # what they digest is tested elsewhere
    if path.suffix == ".sarif":  # the help of all rules is tested elsewhere
        lines = text.splitlines(keepends=True)
        text = "".join(line for line in lines if not line.startswith('"tool"'))
    if os.environ.get("AREAFIT_REGOLD"):
        path.write_text(text, encoding="utf-8", newline="")
    with path.open(encoding="utf-8", newline="") as stream:  # csv has line ends of its own
        assert text == stream.read()


@pytest.mark.parametrize("kind", render.NAMES)
def test_a_rich_list(made: Any, kind: str) -> None:
    whole = made.run(made.rich, as_of=made.day)
    golden(f"rich.{kind}", made.rendered(kind, whole, made.rich))


@pytest.mark.parametrize("kind", render.NAMES)
def test_a_list_of_which_nothing_is_open(made: Any, kind: str) -> None:
    golden(f"plain.{kind}", made.rendered(kind, made.run(made.plain), made.plain))


@pytest.mark.parametrize("kind", render.NAMES)
def test_a_run_in_which_nothing_could_be_read(made: Any, kind: str) -> None:
    golden(f"unread.{kind}", made.rendered(kind, made.run(errors=[made.error])))
