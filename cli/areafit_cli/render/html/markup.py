"""HTML from text: everything foreign is made safe here, and nowhere is markup glued by hand."""

import html
from collections.abc import Iterable, Sequence

from areafit.verdict import Verdict
from areafit_cli.safe_text import clean

_MARKS = {
    Verdict.FLAG: ("✕", "flag", "flag"),
    Verdict.UNPROVEN: ("?", "unproven", "unproven"),
    Verdict.WAIVED: ("w", "waived", "waived"),
    Verdict.PASS: ("✓", "pass", "pass"),
    Verdict.NOT_APPLICABLE: ("–", "none", "not applicable"),
}


def text(foreign: str | None) -> str:
    """A foreign text as it is shown: escaped, control characters visible."""
    return html.escape(clean(foreign or ""), quote=True)


def isolated(foreign: str | None) -> str:
    """A foreign text whose writing direction cannot spill over its neighbours."""
    return f"<bdi>{text(foreign)}</bdi>"


def mark(verdict: Verdict) -> str:
    """The sign of a verdict for a narrow cell, with its word for those who do not see it."""
    sign, kind, word = _MARKS[verdict]
    return (
        f'<span class="{kind}"><span aria-hidden="true">{sign}</span>'
        f'<span class="away">{word}</span></span>'
    )


def word(verdict: Verdict) -> str:
    """Sign and word of a verdict."""
    sign, kind, said = _MARKS[verdict]
    return f'<span class="word {kind}"><span aria-hidden="true">{sign}</span> {said}</span>'


def legend() -> str:
    """The signs and what they mean."""
    return ", ".join(f"{sign} {said}" for sign, _, said in _MARKS.values())


def facts(pairs: Iterable[tuple[str, str]]) -> str:
    """A list of names and texts; empty texts are left out. The texts are ready markup."""
    rows = "".join(f"<dt>{text(name)}</dt><dd>{shown}</dd>" for name, shown in pairs if shown)
    return f'<dl class="facts">{rows}</dl>\n' if rows else ""


def table(caption: str, head: Sequence[str], rows: Iterable[Sequence[str]], kind: str = "") -> str:
    """A table of ready markup; the first cell of a row names it."""
    body = "".join(
        f'<tr><th scope="row">{row[0]}</th>{"".join(f"<td>{cell}</td>" for cell in row[1:])}</tr>\n'
        for row in rows
    )
    top = "".join(f'<th scope="col">{text(name)}</th>' for name in head)
    shown = f' class="{kind}"' if kind else ""
    return (
        f'<div class="scroll" tabindex="0" role="region" aria-label="{text(caption)}">'
        f"<table{shown}><caption>{text(caption)}</caption><thead><tr>{top}</tr></thead>\n"
        f"<tbody>{body}</tbody></table></div>\n"
    )
