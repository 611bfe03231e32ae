"""Markdown as a forge shows it: hostile text makes no markup, and a comment stays short."""

import re
from typing import Any

import pytest

from areafit.answers.causes import causes
from areafit_cli.render import as_markdown
from areafit_cli.render.as_markdown import escape

markdown_it = pytest.importorskip("markdown_it")


def tokens(text: str) -> list[Any]:
    parser = markdown_it.MarkdownIt("gfm-like", {"linkify": False, "html": True})
    flat = []
    for token in parser.parse(text):
        flat.append(token)
        flat += token.children or ()
    return flat


def test_the_table_has_a_line_each_and_no_foreign_markup(made: Any) -> None:
    report = made.hostile_report()
    text = made.rendered("markdown", made.run(report), report)
    found = tokens(text)
    kinds = {token.type for token in found}
    assert not kinds & {"link_open", "image", "code_inline", "strong_open", "em_open", "s_open"}
    markup = {t.content.strip() for t in found if t.type in ("html_inline", "html_block")}
    assert markup <= {
        *("<span>", "</span>", "</details>", "<details><summary>Cautions</summary>"),
    }
    rows = [token for token in found if token.type == "tr_open"]
    cells = [token for token in found if token.type in ("td_open", "th_open")]
    assert len(cells) == 5 * len(rows) > 25


def shown(text: str) -> str:
    return "".join(token.content for token in tokens(escape(text)) if token.type == "text")


@pytest.mark.parametrize(
    "text",
    [
        "a|b `c` *d* _e_ [f](g) <b>h</b> &amp; #1 ~~x~~ $y$ \\",
        "![x](http://evil.invalid/p.png)",
        "5..40 °C, 2 %, IIB+H2 (a) {b}",
    ],
)
def test_text_is_shown_as_it_stands(text: str) -> None:
    assert shown(text) == text


@pytest.mark.parametrize(
    "text",
    ["@everyone", "#12", "!34", "http://evil.invalid", "www.evil.invalid", ":smile:", "GH-1", "~a"],
)
def test_nothing_is_left_that_a_forge_would_link(text: str) -> None:
    pieces = [token.content for token in tokens(escape(f"x {text} y")) if token.type == "text"]
    assert not any(re.search(re.escape(text), piece) for piece in pieces)
    assert "".join(pieces) == f"x {text} y"


def test_a_long_list_fits_a_comment_and_says_what_is_left_out(
    made: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(as_markdown, "_ROOM", 1000)
    found = made.rendered("markdown", made.run(made.rich), made.rich)
    assert re.search(r"\n\d+ more open points are left out here", found)
    (left,) = re.findall(r"\n(\d+) more open points", found)
    assert int(left) + found.count("rich.yaml:") == len(causes(made.rich))
