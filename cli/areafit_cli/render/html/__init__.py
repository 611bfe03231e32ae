"""The dossier for a design review, one self-contained page without scripts: how it is made up.

Everything foreign is made safe here, and nowhere is markup glued by hand. There is one style sheet,
with its hash for the content security policy; both colour schemes set every colour, contrast is at
least 4.5 to 1, and no meaning rests on a colour: each mark stands beside its word.
"""

import base64
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


# The style sheet

_COLOURS = """
:root { color-scheme: light dark; --ink: #1b1f24; --paper: #fff; --soft: #4b5563; --line: #9aa3ae;
  --band: #eef1f4; --bad: #9b1c1c; --open: #7a4b00; --good: #14532d; --held: #1e3a8a; }
@media (prefers-color-scheme: dark) { :root { --ink: #e7eaee; --paper: #14171b; --soft: #b3bcc7;
  --line: #5c6672; --band: #20252b; --bad: #ff9d9d; --open: #ffcf7a; --good: #8fe0ad;
  --held: #a9c1ff; } }
.flag, .fail { color: var(--bad); } .unproven { color: var(--open); } .pass { color: var(--good); }
.waived { color: var(--held); } .none, .soft { color: var(--soft); }
"""

_TEXT = """
* { box-sizing: border-box; }
body { margin: 0 auto; max-width: 80rem; padding: 1rem; background: var(--paper);
  color: var(--ink); font: 1rem/1.45 "Liberation Sans", "DejaVu Sans", Arial, sans-serif; }
h1 { font-size: 1.5rem; margin: 0 0 .5rem; }
h2 { font-size: 1.35rem; margin: 2.5rem 0 .5rem; border-top: 3px solid var(--ink);
  padding-top: .6rem; }
h3 { font-size: 1.15rem; margin: 2rem 0 .4rem; border-bottom: 1px solid var(--ink); }
h4 { font-size: 1.02rem; margin: 1.2rem 0 .2rem; }
h5 { font-size: .95rem; margin: .9rem 0 .2rem; }
h2, h3, h4, h5, p, li { overflow-wrap: anywhere; }
p, ul, dl { margin: .3rem 0 .6rem; } ul { padding-left: 1.3rem; } a { color: inherit; }
code { font-size: .95em; }
.gate { display: inline-block; border: 2px solid currentColor; padding: .1rem .6rem; }
.word { font-weight: 700; white-space: nowrap; }
.away, .box caption { position: absolute; width: 1px; height: 1px; overflow: hidden;
  clip-path: inset(50%); white-space: nowrap; }
.cautions { font-size: .9rem; border: 1px solid var(--line); padding: .2rem .8rem;
  margin: 1rem 0; } .cautions p { font-weight: 700; }
nav ul { list-style: none; padding: 0; display: flex; flex-wrap: wrap; gap: .2rem 1.2rem; }
nav p { margin-bottom: 0; font-weight: 700; }
dl.facts { display: grid; grid-template-columns: 8.5rem minmax(0, 1fr); gap: .1rem .8rem;
  margin: .3rem 0 .6rem; }
dl.facts dt { color: var(--soft); } dl.facts dd { margin: 0; overflow-wrap: anywhere; }
.findings { display: grid; align-items: start; gap: .9rem 1.2rem;
  grid-template-columns: repeat(auto-fill, minmax(min(100%, 29rem), 1fr)); }
.finding { border-left: 5px solid var(--held); padding: 0 .7rem; font-size: .92rem; min-width: 0; }
.finding dl.facts { grid-template-columns: 6rem minmax(0, 1fr); margin-bottom: 0; }
.finding, .finding.waived { color: inherit; }
.finding.flag { border-left-style: double; border-color: var(--bad); color: inherit; }
.finding.unproven { border-left-style: dashed; border-color: var(--open); color: inherit; }
"""

_TABLES = """
table { border-collapse: collapse; width: 100%; font-size: .88rem; margin-bottom: .8rem; }
caption { text-align: left; font-weight: 700; padding: .5rem 0 .3rem; }
th, td { border: 1px solid var(--line); padding: .25rem .45rem; text-align: left;
  vertical-align: top; overflow-wrap: break-word; }
thead th { background: var(--band); } tbody th { font-weight: 400; }
td ul { margin: 0; }
.scroll { overflow-x: auto; position: relative; }
.scroll:focus-visible { outline: 3px solid var(--held); }
.asks th[scope="row"] { min-width: 6.5rem; } .asks td { min-width: 6.5rem; }
.asks td .word { white-space: nowrap; }
.narrow, .matrix { width: auto; }
.matrix td { text-align: center; font-weight: 700; padding: .15rem .2rem; min-width: 1.9rem; }
.matrix td:nth-child(2) { text-align: left; padding: .25rem .45rem; }
.matrix thead th { vertical-align: bottom; }
.matrix .rule { padding: .4rem .15rem; font-weight: 400; }
.matrix .rule span { writing-mode: vertical-rl; transform: rotate(180deg); white-space: nowrap; }
.matrix th[scope="row"] { min-width: 8rem; max-width: 26rem; overflow-wrap: anywhere;
  position: sticky; left: 0; background: var(--paper); }
.mark { display: block; border-radius: 2px; } .mark.flag { background: var(--bad);
  color: var(--paper); }
.mark.unproven { outline: 2px dotted var(--open); outline-offset: -2px; }
.mark.pass, .mark.none { font-weight: 400; }
.sign td { height: 3.2rem; min-width: 8rem; }
@media (max-width: 40rem) { body { padding: .6rem; } dl.facts { grid-template-columns: 1fr; }
  dl.facts dd { margin: 0 0 .3rem .8rem; } .asks td { min-width: 10rem; }
  .matrix th[scope="row"] { max-width: 9.5rem; } }
"""

_FRONT = """
.front h2 { margin-top: 1rem; } .held { font-weight: 700; }
.boxes { columns: 2 30rem; column-gap: .8rem; }
.box { break-inside: avoid; margin-bottom: .5rem; border: 1px solid var(--line);
  padding: .2rem .6rem; min-width: 0; }
.boxes + .box { margin-top: .5rem; } .box .named { font-weight: 700; margin: .1rem 0; }
.box table { margin-bottom: .2rem; }
.blanks td:last-child { min-width: 5rem; } .decided td, .decided th { min-width: 6rem; }
.decided tbody th { min-width: 14rem; }
.bars td { white-space: nowrap; } .asked td:last-child { white-space: normal; }
svg.bar { max-width: none; }
.foot { border-top: 1px solid var(--line); }
.causes th[scope="row"] { min-width: 16rem; width: 28%; } .causes td { min-width: 4rem; }
.causes td:nth-child(3), .causes td:nth-child(4), .causes td:nth-child(5) { min-width: 10rem;
  width: 21%; } .causes td:nth-child(4) { width: 24%; }
.causes td:nth-child(2) { width: 6%; }
.passes th[scope="row"] { width: 16%; } .passes td:nth-child(3) { width: 32%; }
svg { vertical-align: middle; max-width: 100%; } svg text { fill: var(--ink); font-size: 11px; }
svg .pass { fill: none; stroke: var(--good); stroke-width: 1.5; }
svg .flag { fill: var(--bad); stroke: var(--bad); }
svg .unproven { fill: var(--band); stroke: var(--open); stroke-width: 1.5; stroke-dasharray: 3 2; }
svg .waived { fill: var(--band); stroke: var(--held); }
svg polyline { fill: none; } svg .lowered { stroke: var(--ink); stroke-dasharray: 1 3; }
svg .axis { stroke: var(--line); stroke-width: 1; } svg .span { fill: var(--soft); }
svg .limit { stroke: var(--bad); stroke-width: 1.5; stroke-dasharray: 7 4; }
svg .sum { stroke: var(--ink); stroke-width: 2; } svg .dot { fill: var(--ink); }
svg .stated { stroke: var(--ink); stroke-width: 1; stroke-dasharray: 2 3; }
.curves { display: flex; flex-wrap: wrap; gap: 1rem; }
.curves svg { height: auto; }
"""

_PRINT = """
@media print { @page { size: A4 landscape; margin: 9mm 9mm 11mm; @bottom-right {
    content: "page " counter(page) " of " counter(pages); font: 7.5pt sans-serif; } }
  :root { color-scheme: light; --ink: #000; --paper: #fff; --soft: #3d4550; --line: #8a939e;
    --band: #eef1f4; --bad: #9b1c1c; --open: #6b4200; --good: #14532d; --held: #1e3a8a; }
  html { font-size: 7.6pt; } body { max-width: none; padding: 0; line-height: 1.3; }
  nav { display: none; } td, th { padding: .15rem .35rem; } .sign td { height: 2.2rem; }
  .findings { grid-template-columns: minmax(0, 1fr) minmax(0, 1fr); gap: .8rem 1.2rem; }
  p, ul, dl { margin: .15rem 0 .3rem; } .short { break-inside: avoid; }
  .scroll { overflow: visible; } .list ~ .list { break-before: page; }
  .matrix th[scope="row"] { position: static; }
  .mark.flag { print-color-adjust: exact; -webkit-print-color-adjust: exact; }
  .box { margin-bottom: .3rem; } .boxes + .box { margin-top: .3rem; } footer p { margin: 0; }
  .cautions { margin: .4rem 0 0; }
  .matrix { font-size: 6.2pt; line-height: 1.15; } .matrix .word { font-weight: 400; }
  .matrix td, .matrix td:nth-child(2), .matrix tbody th { padding: 0 .2rem; }
  .scroll:has(> .sources) { columns: 2; } .sources { font-size: 6.7pt; line-height: 1.2; }
  .clauses { font-size: 6pt; columns: 2; } .causes, .asks { font-size: 6.7pt; line-height: 1.2; }
  .passes { font-size: 6.2pt; line-height: 1.15; } .passes td { padding: .05rem .25rem; }
  header h1 { font-size: 1.2rem; margin: 0; } .front h2 { margin: 0; padding-top: .1rem; }
  .front { break-after: page; } .box .scroll { break-inside: avoid; } h3 { margin: .8rem 0 .2rem; }
  table { margin-bottom: .4rem; } .causes th[scope="row"], .causes td { min-width: 0; }
  .decided tbody th { height: 2.2rem; } .curves { break-inside: avoid; }
  h2, h3, h4, h5, caption, .finding > p { break-after: avoid; }
  tr, .finding, .cautions, .sign { break-inside: avoid; } thead { display: table-header-group; } }
"""

CSS = _COLOURS + _TEXT + _TABLES + _FRONT + _PRINT
CSS_HASH = base64.b64encode(hashlib.sha256(CSS.encode()).digest()).decode()
