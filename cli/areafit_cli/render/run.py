"""A run over one list or many, summed up: what the head and the tail of a report need."""

from datetime import date
from typing import TYPE_CHECKING

from areafit.findings.report import Gate
from areafit.values import Frozen
from areafit.verdict import Verdict
from areafit_cli.faults import Fault
from areafit_cli.render import remarks

if TYPE_CHECKING:
    from areafit.findings.report import BomReport, Counts
    from areafit.findings.waivers import WaiverOutcome
    from areafit.tables import Laxer

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
    `narrowed` the options that make the scope less than full.
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


class Overlay(Frozen):
    """A table file of the company, laid over the shipped tables."""

    name: str
    sha256: str


class Run(Frozen):
    """All that was judged in one call. `as_of` is None unless a date decided something.

    `unchanged` counts lists that were left out since neither they nor what they rest on changed,
    `laxer` holds the company's values that ask for less than the shipped ones.
    """

    version: str
    tables: str
    boms: tuple[Summary, ...]
    faults: tuple[Fault, ...] = ()
    overlays: tuple[Overlay, ...] = ()
    as_of: date | None = None
    unchanged: int = 0
    laxer: "tuple[Laxer, ...]" = ()

    @property
    def passes(self) -> bool:
        """Whether every list passes and could be read.

        Where every list was left out as unchanged there was nothing to hold the gate.
        """
        judged = bool(self.boms or self.unchanged)
        return judged and not self.faults and all(bom.passes for bom in self.boms)

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
        void=remarks.void_of(report),
        narrowed=report.narrowed,
    )
