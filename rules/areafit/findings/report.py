"""The report: one immutable result that every format renders.

Judged answers are shared between parts that agree in an aspect; a `Finding` that names part, place
and position is made only when somebody reads it, so that a long list costs little memory.
"""

from collections.abc import Iterable, Iterator, Mapping
from typing import TYPE_CHECKING, Any

from areafit.demands import Demands
from areafit.facts.bom import Bom, Position, Statement
from areafit.facts.part import Part
from areafit.facts.waiver import Waiver
from areafit.rule import Ask, Judgement, Row, Rule
from areafit.values import Frozen
from areafit.verdict import Basis, Reason, Role, Verdict, worst

if TYPE_CHECKING:
    from areafit.findings.waivers import WaiverOutcome


class Judged(Frozen, eq=False):
    """One answered question of a rule, not yet tied to a line of the list."""

    rule: Rule[Any]
    ask: Ask[Any]
    judgement: Judgement
    waiver: Waiver | None = None


class Answers:
    """What was answered of one aspect at one place, in the order of rules; subjects share it."""

    __slots__ = ("by_basis", "judged", "verdict")

    def __init__(self, judged: Iterable[Judged]) -> None:
        self.judged = tuple(judged)
        self.verdict = worst([each.judgement.verdict for each in self.judged])
        self.by_basis: dict[Basis, int] = {}
        for each in self.judged:
            basis = each.judgement.basis
            if basis is not None and each.judgement.verdict is Verdict.PASS:
                self.by_basis[basis] = self.by_basis.get(basis, 0) + 1

    def __iter__(self) -> Iterator[Judged]:
        return iter(self.judged)


class Block(Frozen, eq=False):
    """Answers that hold for one subject at one place; `prefix` is the subject's path."""

    judged: Answers
    place: str | None
    prefix: str

    @property
    def verdict(self) -> Verdict:
        """The worst of the answers."""
        return self.judged.verdict


class Finding(Frozen):
    """One judged requirement, as reports print it.

    `stated_by` names the notes and entries behind its fact; `proposed` the keys that a flag rests
    on as proposals, which somebody has still to confirm.
    """

    rule: Rule[Any]
    verdict: Verdict
    message: str
    required: str
    found: str
    clause: str
    sources: tuple[str, ...]
    rows: tuple[Row, ...]
    basis: Basis | None
    reason: Reason | None
    remedy: str
    answer_by: Role
    location: str | None
    component: str | None
    path: str
    position: Position
    fingerprint: str
    waiver: Waiver | None = None
    stated_by: tuple[Statement, ...] = ()
    proposed: tuple[str, ...] = ()


class SubjectReport(Frozen, eq=False):
    """What was judged of one part, place, loop, or of the list itself."""

    name: str
    verdict: Verdict
    blocks: tuple[Block, ...]
    bom: Bom

    def findings(self) -> Iterator[Finding]:
        """Every requirement judged, passes too, in the order of the rules."""
        from areafit.findings.finding import expand  # noqa: PLC0415 - digests load on demand

        for block in self.blocks:
            for judged in block.judged:
                yield expand(judged, block, self.bom, self.name)

    def open_findings(self) -> Iterator[Finding]:
        """The findings that hold the gate: flagged or unproven, and not waived."""
        if not self.verdict.passes:  # most pass, and theirs need not be made
            yield from (each for each in self.findings() if not each.verdict.passes)


class PartReport(SubjectReport, eq=False):
    """What was judged of one part at all its places; `alternates` were judged too."""

    part: Part


class PlaceReport(SubjectReport, eq=False):
    """What was judged of one place, and what it asks of every part that stands in it.

    `requires` says it in plain values, `demands` with every cause and table row.
    """

    requires: Mapping[str, object]
    demands: Demands | None = None


class Counts(Frozen):
    """Verdicts counted by subject, and passing findings by the basis that they rest on."""

    parts: Mapping[Verdict, int]
    places: Mapping[Verdict, int]
    loops: Mapping[Verdict, int]
    by_basis: Mapping[Basis, int]

    @property
    def total(self) -> int:
        """The number of parts judged."""
        return sum(self.parts.values())


class Gate:
    """The words of the gate, to which the scope of a run is added where it is not full."""

    PASS = "pass"  # noqa: S105 - a verdict, no secret
    WITH_WAIVERS = "pass with waivers"
    FAIL = "fail"

    @staticmethod
    def word(*, passes: bool, waived: bool = False, scope: str = "full") -> str:
        """`pass`, `pass with waivers` or `fail`, and the scope in brackets if it is not full."""
        if not passes:
            return Gate.FAIL
        word = Gate.WITH_WAIVERS if waived else Gate.PASS
        return word if scope == "full" else f"{word} ({scope})"


class WaiverCounts(Frozen):
    """How many waivers were used, and how many no longer hold or match nothing."""

    used: int = 0
    expired: int = 0
    stale: int = 0
    unmatched: int = 0


class BomReport(Frozen, eq=False):
    """The judged list.

    `own` holds what was judged of the list as a whole. `gate` is the word that a CI job reads;
    `scope` is `full`, `partial` (rules or files left out) or `relaxed` (something unproven
    accepted, another date), and `narrowed` the options that made it so.
    """

    bom: Bom
    own: SubjectReport
    parts: tuple[PartReport, ...]
    places: tuple[PlaceReport, ...]
    loops: tuple[SubjectReport, ...]
    counts: Counts
    scope: str = "full"
    waivers: WaiverCounts = WaiverCounts()
    waiver_outcomes: tuple["WaiverOutcome", ...] = ()
    decided_by_date: bool = False
    narrowed: tuple[str, ...] = ()

    def subjects(self) -> tuple[SubjectReport, ...]:
        """All that was judged: the list itself, places, parts in the file's order, loops."""
        return (self.own, *self.places, *self.parts, *self.loops)

    @property
    def passes(self) -> bool:
        """Whether the gate is open: something was judged and nothing is flagged or unproven."""
        return bool(self.parts) and worst(s.verdict for s in self.subjects()).passes

    @property
    def gate(self) -> str:
        """`pass`, `pass with waivers` or `fail`, and the scope in brackets if it is not full."""
        return Gate.word(passes=self.passes, waived=bool(self.waivers.used), scope=self.scope)
