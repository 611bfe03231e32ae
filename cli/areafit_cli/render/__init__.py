"""The formats of a report. A new one is a module with a `FORMAT`, and one line here.

Renderers are pure: they turn frozen results into text, and know no file, terminal or clock. A
report is made in three pieces, so that lists can be judged in several processes and none has to be
kept: a head that knows how all lists fared, one body a list, and a tail.
"""

from importlib import import_module
from types import MappingProxyType
from typing import TYPE_CHECKING, cast

from areafit.values import Frozen

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

    from areafit.findings.report import BomReport
    from areafit_cli.render.look import Look
    from areafit_cli.render.run import Run

_HOMES = MappingProxyType(
    {
        "text": "areafit_cli.render.as_text",
        "json": "areafit_cli.render.as_json",
        "sarif": "areafit_cli.render.as_sarif",
        "junit": "areafit_cli.render.as_junit",
        "github": "areafit_cli.render.as_github",
        "gitlab": "areafit_cli.render.as_gitlab",
        "markdown": "areafit_cli.render.as_markdown",
        "csv": "areafit_cli.render.as_csv",
        "html": "areafit_cli.render.as_html",
    }
)
NAMES = tuple(_HOMES)


class Format(Frozen):
    """One format: text for a whole run, around the text for each list."""

    head: "Callable[[Run, Look], Iterable[str]]"
    body: "Callable[[BomReport, Look], Iterable[str]]"
    tail: "Callable[[Run, Look], Iterable[str]]"
    between: str = ""


def find(name: str) -> Format:
    """The format of a name of `NAMES`, imported when first used."""
    return cast("Format", import_module(_HOMES[name]).FORMAT)
