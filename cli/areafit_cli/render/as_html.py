"""The HTML dossier: what a design review reads, prints and signs."""

from collections.abc import Callable, Iterable, Iterator
from typing import TYPE_CHECKING

from areafit.findings.cautions import CAUTIONS
from areafit_cli.render import Format, wording
from areafit_cli.render.html import (
    CSS,
    CSS_HASH,
    anchor,
    bullets,
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

_SECTIONS: "tuple[tuple[str, Callable[[BomReport], Iterable[str]]], ...]" = (
    ("Parts against requirements", found.matrix),
    ("Findings by location", found.findings),
    ("Open points by who answers", record.open_points),
    ("Purchase requirements by location", record.purchases),
    ("Intrinsically safe loops", record.loops),
    ("Waivers", record.waivers),
    ("Sources used", record.sources),
    (wording.NOT_JUDGED, record.not_judged),
    ("Signatures", record.signatures),
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
    yield f"<title>{text(f'Dossier{subject}: {run.gate}')}</title>\n<style>{CSS}</style>\n"
    yield "</head>\n<body>\n<header>\n<h1>Suitability dossier</h1>\n"
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
    yield f'<div class="cautions"><p>Cautions</p>\n{bullets(map(text, CAUTIONS))}</div>\n'


def body(report: "BomReport", _style: "Style") -> Iterator[str]:
    """One list, from its title block to the signatures."""
    yield '<section class="list">\n'
    yield from found.title(report)
    made = [(name, "".join(section(report))) for name, section in _SECTIONS]
    shown = [(name, anchor(report.bom.name, name), inside) for name, inside in made if inside]
    links = "".join(f'<li><a href="#{mark}">{text(name)}</a></li>' for name, mark, _ in shown)
    label = isolated(report.bom.assembly.number)
    yield f'<nav aria-label="Contents of {text(report.bom.name)}"><p>Contents of {label}</p>'
    yield f"<ul>{links}</ul></nav>\n"
    for name, mark, inside in shown:
        yield f'<section class="part">\n<h3 id="{mark}">{text(name)}</h3>\n{inside}</section>\n'
    yield "</section>\n"


def tail(run: "Run", _style: "Style") -> Iterator[str]:
    """What made the page."""
    made = f"areafit {run.version}, tables {run.tables[:12]}"
    yield f'</main>\n<footer><p class="soft">{text(made)}</p></footer>\n</body>\n</html>\n'


FORMAT = Format(head=head, body=body, tail=tail)
