"""The dossier: what a design review reads, prints and signs; its first page serves the meeting."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from areafit.answers.causes import causes
from areafit.findings.cautions import CAUTIONS
from areafit_cli.render import Format, wording
from areafit_cli.render.html import (
    CSS,
    CSS_HASH,
    anchor,
    bullets,
    figures,
    front,
    gate,
    isolated,
    record,
    table,
    text,
)
from areafit_cli.render.html import findings as found

if TYPE_CHECKING:
    from areafit.findings.report import BomReport
    from areafit_cli.render import Run, Style


_WORDS = "Notes and library entries that the verdicts rest on"
_MATRIX = "Parts against requirements"
_PASSES = "Why what passes does"
_FULL = (
    '<p class="soft">Why each line passes, and who stated it, is added by <code>areafit check LIST '
    "--full --format html</code>.</p>\n"
)


def head(run: "Run", _style: "Style") -> Iterator[str]:
    """The page down to the first list: policy, style, gate, errors, cautions first."""
    policy = (
        f"default-src 'none'; style-src 'sha256-{CSS_HASH}'; base-uri 'none'; form-action 'none'"
    )
    names = ", ".join(bom.number for bom in run.boms[:3]) + (" …" if len(run.boms) > 3 else "")
    subject = f" {names}" if names else ""
    yield '<!DOCTYPE html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n'
    yield f'<meta http-equiv="Content-Security-Policy" content="{policy}">\n'
    yield '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
    yield f"<title>{text(f'Suitability review{subject}: {run.gate}')}</title>\n"
    yield f"<style>{CSS}</style>\n"
    yield "</head>\n<body>\n<header>\n<h1>Suitability review</h1>\n"
    if len(run.boms) != 1 or run.errors:
        yield f"<p>Gate of this run: {gate(run.gate)}</p>\n"
    yield bullets(map(isolated, wording.notices(run)))
    yield "</header>\n<main>\n"
    if run.errors:
        rows = [
            (
                isolated(e.position.file),
                text(f"{e.position.line}:{e.position.column}"),
                isolated(e.message),
                isolated(e.remedy),
            )
            for e in run.errors
        ]
        yield table("Not read, so not judged", ("File", "Line", "Mistake", "Remedy"), rows, "asks")
    if len(run.boms) > 1:
        lists = [
            (
                f'<a href="#{anchor(bom.path)}">{isolated(bom.number)}</a>',
                text(bom.gate),
                text(bom.scope),
                str(bom.counts.total),
                isolated(bom.path),
            )
            for bom in run.boms
        ]
        yield table("Lists of this run", ("Assembly", "Gate", "Scope", "Parts", "File"), lists)


def body(report: "BomReport", style: "Style") -> Iterator[str]:
    """One list, from the page that a meeting works from to the signatures."""
    open_ = causes(report)
    numbers = found.Numbers()
    parts = (
        ("Findings by cause", "".join(found.by_cause(report, open_, numbers, style))),
        (_MATRIX, "".join(found.matrix(report)) + ("" if style.full else _FULL)),
        (_PASSES, "".join(found.passes(report, numbers)) if style.full else ""),
        ("Intrinsically safe loops", "".join(record.loops(report))),
        ("Places", figures.places(report) + "".join(figures.liquids(report))),
        (_WORDS, "".join(record.words_of_others(report))),
        ("Waivers", "".join(record.waivers(report))),
        ("Sources used", "".join(record.sources(report, numbers))),
        (wording.NOT_JUDGED, "".join(record.not_judged(report))),
        ("Signatures", "".join(record.signatures(report))),
    )
    yield '<section class="list">\n'
    yield from front.page(report, open_, style)
    shown = [(name, anchor(report.bom.name, name), inside) for name, inside in parts if inside]
    links = "".join(f'<li><a href="#{mark}">{text(name)}</a></li>' for name, mark, _ in shown)
    label = isolated(report.bom.assembly.number)
    yield f'<nav aria-label="Contents of {text(report.bom.name)}"><p>Contents of {label}</p>'
    yield f"<ul>{links}</ul></nav>\n"
    for name, mark, inside in shown:
        wide = " wide" if name == _MATRIX else ""
        yield f'<section class="part{wide}">\n<h3 id="{mark}">{text(name)}</h3>\n'
        yield f"{inside}</section>\n"
    yield "</section>\n"


def tail(run: "Run", _style: "Style") -> Iterator[str]:
    """The cautions in full, and what made the page."""
    yield f'<div class="cautions"><p>Cautions</p>\n{bullets(map(text, CAUTIONS))}</div>\n'
    made = f"areafit {run.version}, tables {run.tables[:12]}"
    yield f'</main>\n<footer><p class="soft">{text(made)}</p></footer>\n</body>\n</html>\n'


FORMAT = Format(head=head, body=body, tail=tail)
