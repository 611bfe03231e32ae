"""The dossier's one style sheet, and its hash for the content security policy.

Both colour schemes set every colour, contrast is at least 4.5 to 1, and no meaning rests on a
colour: each mark stands beside its word.
"""

import base64
import hashlib

CSS = """
:root { color-scheme: light dark; --ink: #1b1f24; --paper: #fff; --soft: #4b5563; --line: #b9c0c9;
  --band: #eef1f4; --bad: #9b1c1c; --open: #7a4b00; --good: #14532d; --held: #1e3a8a; }
@media (prefers-color-scheme: dark) { :root { --ink: #e7eaee; --paper: #14171b; --soft: #b3bcc7;
  --line: #4a525c; --band: #20252b; --bad: #ff9d9d; --open: #ffcf7a; --good: #8fe0ad;
  --held: #a9c1ff; } }
* { box-sizing: border-box; }
body { margin: 0 auto; max-width: 78rem; padding: 1rem; background: var(--paper);
  color: var(--ink); font: 1rem/1.45 "Liberation Sans", "DejaVu Sans", Arial, sans-serif; }
h1 { font-size: 1.5rem; margin: 0 0 .5rem; } h2 { font-size: 1.3rem; margin: 2rem 0 .5rem;
  border-top: 3px solid var(--ink); padding-top: .6rem; }
h3 { font-size: 1.1rem; margin: 1.6rem 0 .4rem; } h4 { font-size: 1rem; margin: 1rem 0 .2rem; }
p, ul, dl { margin: .3rem 0 .6rem; } a { color: inherit; }
.gate { display: inline-block; border: 2px solid currentColor; padding: .1rem .6rem;
  font-weight: 700; text-transform: uppercase; letter-spacing: .04em; }
.flag, .fail { color: var(--bad); } .unproven { color: var(--open); } .pass { color: var(--good); }
.waived { color: var(--held); } .none, .soft { color: var(--soft); }
.word { font-weight: 700; white-space: nowrap; }
table { border-collapse: collapse; width: 100%; font-size: .9rem; }
caption { text-align: left; font-weight: 700; padding: .3rem 0; }
th, td { border: 1px solid var(--line); padding: .25rem .45rem; text-align: left;
  vertical-align: top; overflow-wrap: anywhere; }
thead th { background: var(--band); }
.scroll { overflow-x: auto; position: relative; } .scroll:focus { outline: 3px solid var(--held); }
.matrix { width: auto; } .matrix td { text-align: center; font-weight: 700; padding: .2rem .3rem;
  min-width: 1.9rem; }
.matrix thead th { vertical-align: bottom; }
.matrix th.rule { writing-mode: vertical-rl; transform: rotate(180deg); white-space: nowrap;
  font-weight: 400; padding: .4rem .15rem; }
.matrix tbody th { font-weight: 400; min-width: 9rem; }
.matrix td:nth-child(2), .matrix th:nth-child(2) { white-space: nowrap; overflow-wrap: normal; }
.away { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%);
  white-space: nowrap; }
.finding { border-left: 4px solid var(--line); padding: .1rem .8rem; margin: .8rem 0;
  break-inside: avoid; }
.finding.flag { border-left: 4px double var(--bad); color: inherit; }
.finding.unproven { border-left: 4px dashed var(--open); color: inherit; }
dl.facts { display: grid; grid-template-columns: 8.5rem 1fr; gap: .1rem .8rem; margin: .3rem 0; }
dl.facts dt { color: var(--soft); } dl.facts dd { margin: 0; overflow-wrap: anywhere; }
.sign td { height: 3.2rem; }
@media (max-width: 34rem) { table:not(.matrix) { min-width: 34rem; } dl.facts { grid-template-columns: 1fr; } dl.facts dd { margin:
  0 0 .3rem .8rem; } body { padding: .6rem; } }
@media print { @page { size: A4 landscape; margin: 12mm; } body { max-width: none; padding: 0;
  font-size: 9.5pt; } .scroll { overflow: visible; } h2 ~ h2 { break-before: page; }
  table { min-width: 0; } h3, h4, caption { break-after: avoid; }
  tr, .finding { break-inside: avoid; } thead { display: table-header-group; } }
"""

HASH = base64.b64encode(hashlib.sha256(CSS.encode()).digest()).decode()
