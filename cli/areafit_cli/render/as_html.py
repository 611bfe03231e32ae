"""The HTML dossier: what a design review reads, prints and signs."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from areafit.findings.cautions import CAUTIONS
from areafit_cli.render import Format
from areafit_cli.render.html import sections, style
from areafit_cli.render.html.findings import findings
from areafit_cli.render.html.markup import isolated, text
from areafit_cli.render.html.matrix import matrix

if TYPE_CHECKING:
    from areafit.findings.report import BomReport
    from areafit_cli.render.look import Look
    from areafit_cli.render.run import Run


def head(run: "Run", _look: "Look") -> Iterator[str]:
    """The page down to the first list: policy, style, gate, faults, cautions first."""
    policy = f"default-src 'none'; style-src 'sha256-{style.HASH}'; base-uri 'none'"
    kind = "fail" if run.gate == "fail" else "pass"
    yield '<!DOCTYPE html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n'
    yield f'<meta http-equiv="Content-Security-Policy" content="{policy}; form-action \'none\'">\n'
    yield '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
    yield f"<title>areafit dossier: {text(run.gate)}</title>\n<style>{style.CSS}</style>\n</head>\n"
    yield "<body>\n<main>\n<h1>Suitability dossier</h1>\n"
    yield f'<p>Gate of this run: <span class="gate {kind}">{text(run.gate)}</span></p>\n'
    for fault in run.faults:
        where = f"{fault.path}:{fault.line}:{fault.column}"
        yield f'<p class="flag">Not read: {isolated(f"{where}: {fault.message}; {fault.remedy}")}'
        yield "</p>\n"
    yield "<ul>\n"
    for caution in CAUTIONS:
        yield f"<li>{text(caution)}</li>\n"
    yield "</ul>\n"


def body(report: "BomReport", _look: "Look") -> Iterator[str]:
    """One list, from its title block to the signatures."""
    yield from sections.title_block(report)
    yield from matrix(report)
    yield from findings(report)
    yield from sections.open_points(report)
    yield from sections.purchase(report)
    yield from sections.loops(report)
    yield from sections.waivers(report)
    yield from sections.sources(report)
    yield sections.signatures()


def tail(run: "Run", _look: "Look") -> Iterator[str]:
    """What made the page."""
    dated = f"; judged as of {run.as_of.isoformat()}" if run.as_of else ""
    own = f"; own rows from {', '.join(o.name for o in run.overlays)}" if run.overlays else ""
    made = f"areafit {run.version}, tables {run.tables[:12]}{own}{dated}"
    yield f'</main>\n<footer><p class="soft">{text(made)}</p></footer>\n</body>\n</html>\n'


FORMAT = Format(head=head, body=body, tail=tail)
