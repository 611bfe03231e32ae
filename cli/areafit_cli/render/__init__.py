"""The formats of a report. A new one is a module with a `FORMAT`, and one line here.

Renderers are pure: they turn frozen results into text, and know no file, terminal or clock. A
report is made in three pieces, so that lists can be judged in several processes and none has to be
kept: a head that knows how all lists fared, one body a list, and a tail.
"""

from datetime import date
from importlib import import_module
from types import MappingProxyType
from typing import TYPE_CHECKING, cast

from areafit.findings.report import Gate
from areafit.values import Frozen
from areafit.verdict import Verdict
from areafit_cli.render.wording import void_waivers

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

    from areafit.errors import InputError
    from areafit.facts.bom import LibraryUse
    from areafit.findings.report import BomReport, Counts
    from areafit.findings.waivers import WaiverOutcome
    from areafit.tables import LaxerValue

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

    head: "Callable[[Run, Style], Iterable[str]]"
    body: "Callable[[BomReport, Style], Iterable[str]]"
    tail: "Callable[[Run, Style], Iterable[str]]"
    between: str = ""


def find(name: str) -> Format:
    """The format of a name of `NAMES`, imported when first used."""
    return cast("Format", import_module(_HOMES[name]).FORMAT)


class Style(Frozen):
    """All that a renderer may know of where its text goes, and how much of it is wanted.

    `quiet` asks for open points only, `full` for every finding with its sources, `several` says
    that many lists are reported, each in short; `brief` is for the answer to a question: its
    cautions stand in one paragraph. `asked` are the questions of the register by what they are
    known by: number, day on which they were asked, and what came back and was refused; `on` is the
    day of the run. `since` is the report on the list as it was, where that is compared.
    """

    width: int = 100
    colour: bool = False
    quiet: bool = False
    brief: bool = False
    full: bool = False
    several: bool = False
    asked: tuple[tuple[tuple[str, ...], tuple[str, str, str]], ...] = ()
    on: date | None = None
    since: "BomReport | None" = None


# The order in which every report counts verdicts.
COUNTED = (
    Verdict.PASS,
    Verdict.FLAG,
    Verdict.UNPROVEN,
    Verdict.WAIVED,
    Verdict.NOT_APPLICABLE,
)


class Summary(Frozen):
    """One judged list in few words; small, so that it may travel between processes.

    `own` is the verdict of what holds for the list as a whole, `void` the waivers that do not hold,
    `narrowed` the options that make the scope less than full, `remarks` what reading it found.
    """

    path: str
    number: str
    gate: str
    passes: bool
    scope: str
    counts: "Counts"
    decided_by_date: bool
    own: Verdict
    void: "tuple[WaiverOutcome, ...]" = ()
    narrowed: tuple[str, ...] = ()
    remarks: tuple[str, ...] = ()
    library: "LibraryUse | None" = None


class Overlay(Frozen):
    """A table file of the company, laid over the shipped tables."""

    name: str
    sha256: str


class Age(Frozen):
    """How old an entry of a library may be, in words, and the first day that is not too old."""

    words: str
    since: date


class Run(Frozen):
    """All that was judged in one call. `as_of` is None unless a date decided something.

    `stale` is how long the entries of a library are good for, if that was said.
    `unchanged` counts lists that were left out since neither they nor what they rest on changed,
    `laxer` holds the company's values that ask for less than the shipped ones, `opened` says what
    lets a failed gate pass.
    """

    version: str
    tables: str
    boms: tuple[Summary, ...]
    errors: "tuple[InputError, ...]" = ()
    overlays: tuple[Overlay, ...] = ()
    as_of: date | None = None
    unchanged: int = 0
    laxer: "tuple[LaxerValue, ...]" = ()
    stale: "Age | None" = None
    opened: tuple[str, ...] = ()

    @property
    def passes(self) -> bool:
        """Whether every list passes and could be read.

        Where every list was left out as unchanged there was nothing to hold the gate.
        """
        judged = bool(self.boms or self.unchanged)
        return judged and not self.errors and all(bom.passes for bom in self.boms)

    @property
    def gate(self) -> str:
        """`fail`, or the most guarded of the words with which the lists pass."""
        if not self.passes or not self.boms:
            return Gate.word(passes=self.passes, scope="partial")
        words = {bom.gate for bom in self.boms}
        marks = ("waivers", "relaxed", "partial")
        return min(words, key=lambda word: [mark not in word for mark in marks])


def summarise(report: "BomReport") -> Summary:
    """The summary of a judged list."""
    return Summary(
        path=report.bom.name,
        number=report.bom.assembly.number,
        gate=report.gate,
        passes=report.passes,
        scope=report.scope,
        counts=report.counts,
        decided_by_date=report.decided_by_date,
        own=report.own.verdict,
        void=void_waivers(report),
        narrowed=report.narrowed,
        remarks=report.bom.remarks,
        library=report.bom.library if report.bom.library.files else None,
    )
