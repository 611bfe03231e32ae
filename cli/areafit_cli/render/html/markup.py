"""HTML from text: everything foreign is made safe here, and nowhere is markup glued by hand."""

import hashlib
import html
from collections.abc import Iterable, Sequence

from areafit.findings.report import Gate
from areafit.verdict import Verdict
from areafit_cli.safe_text import clean

_MARKS = {
    Verdict.FLAG: ("✕", "flag", "flag"),
    Verdict.UNPROVEN: ("?", "unproven", "unproven"),
    Verdict.WAIVED: ("w", "waived", "waived"),
    Verdict.PASS: ("✓", "pass", "pass"),
    Verdict.NOT_APPLICABLE: ("–", "none", "not applicable"),
}

_SHORT = 4  # rows of a table that print keeps together


def text(foreign: str | None) -> str:
    """A foreign text as it is shown: escaped, control characters visible."""
    return html.escape(clean(foreign or ""), quote=True)


def isolated(foreign: str | None) -> str:
    """A foreign text whose writing direction cannot spill over its neighbours."""
    return f"<bdi>{text(foreign)}</bdi>" if foreign else ""


def anchor(*names: str) -> str:
    """An identifier for a heading that does not depend on what else stands on the page."""
    known = chr(0).join(names).encode("utf-8", "surrogatepass")  # a path may hold any byte
    return f"a{hashlib.sha256(known).hexdigest()[:10]}"


def mark(verdict: Verdict) -> str:
    """The sign of a verdict for a narrow cell, with its word for those who do not see it."""
    sign, kind, word = _MARKS[verdict]
    return (
        f'<span class="mark {kind}"><span aria-hidden="true">{sign}</span>'
        f'<span class="away">{word}</span></span>'
    )


def word(verdict: Verdict) -> str:
    """Sign and word of a verdict."""
    sign, kind, said = _MARKS[verdict]
    return f'<span class="word {kind}"><span aria-hidden="true">{sign}</span> {said}</span>'


def gate(said: str) -> str:
    """The gate in a frame; its word says all, the frame only draws the eye."""
    kind = "fail" if said == Gate.FAIL else "pass"
    return f'<strong class="gate {kind}">{text(said)}</strong>'


def legend() -> str:
    """The signs and what they mean."""
    return ", ".join(f"{sign} {said}" for sign, _, said in _MARKS.values())


def facts(pairs: Iterable[tuple[str, str]]) -> str:
    """A list of names and texts; empty texts are left out. The texts are ready markup."""
    rows = "".join(f"<dt>{text(name)}</dt><dd>{shown}</dd>" for name, shown in pairs if shown)
    return f'<dl class="facts">{rows}</dl>\n' if rows else ""


def bullets(items: Iterable[str]) -> str:
    """A list of ready markup; nothing where there is none."""
    rows = "".join(f"<li>{item}</li>" for item in items)
    return f"<ul>{rows}</ul>\n" if rows else ""


def table(caption: str, head: Sequence[str], rows: Iterable[Sequence[str]], kind: str = "") -> str:
    """A table of ready markup; the first cell of a row names it."""
    lines = [
        f'<tr><th scope="row">{row[0]}</th>{"".join(f"<td>{cell}</td>" for cell in row[1:])}</tr>\n'
        for row in rows
    ]
    top = "".join(f'<th scope="col">{text(name)}</th>' for name in head)
    inside = f"<thead><tr>{top}</tr></thead>\n<tbody>{''.join(lines)}</tbody>"
    return framed(caption, inside, kind, short=len(lines) <= _SHORT)


def framed(caption: str, inside: str, kind: str = "", *, short: bool = False) -> str:
    """A table that scrolls sideways in a frame of its own, by keyboard too.

    A short one stays on one page in print.
    """
    shown = f' class="{kind}"' if kind else ""
    frame = "scroll short" if short else "scroll"
    return (
        f'<div class="{frame}" tabindex="0" role="group" aria-label="{text(caption)}">'
        f"<table{shown}><caption>{text(caption)}</caption>{inside}</table></div>\n"
    )
