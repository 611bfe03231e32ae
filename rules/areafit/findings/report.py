"""The report: one immutable result that every format renders.

Judged answers are shared between parts that agree in an aspect; a `Finding` that names part, place
and position is made only when somebody reads it, so that a long list costs little memory.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import TYPE_CHECKING, Any

from areafit.demands import Demands
from areafit.facts.bom import Bom, Position, Statement
from areafit.facts.part import Part
from areafit.facts.waiver import Waiver
from areafit.rule import Ask, Judgement, Row, Rule
from areafit.tables.limits import binding
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

    __slots__ = ("by_basis", "judged", "open", "verdict")

    def __init__(self, judged: Iterable[Judged]) -> None:
        self.judged = tuple(judged)
        self.by_basis: dict[Basis, int] = {}
        still_open = []
        verdicts = set()
        for each in self.judged:
            verdict, basis = each.judgement.verdict, each.judgement.basis
            verdicts.add(verdict)
            if verdict is Verdict.PASS:
                if basis is not None:
                    self.by_basis[basis] = self.by_basis.get(basis, 0) + 1
            elif not verdict.passes:
                still_open.append(each)
        self.open = tuple(still_open)
        self.verdict = worst(verdicts)

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
    """One judged requirement of one subject at one place, as reports print it.

    What differs from line to line (position, fingerprint, who stated it) is worked out when it is
    read, since most of it never is.
    """

    judged: Judged
    block: Block
    bom: Bom
    subject: str

    @property
    def rule(self) -> Rule[Any]:
        """The rule that asked."""
        return self.judged.rule

    @property
    def verdict(self) -> Verdict:
        """What was judged."""
        return self.judged.judgement.verdict

    @property
    def message(self) -> str:
        """The verdict in words."""
        return self.judged.judgement.message

    @property
    def required(self) -> str:
        """What the clause asks for."""
        return self.judged.judgement.required

    @property
    def found(self) -> str:
        """What the list states."""
        return self.judged.judgement.found

    @property
    def clause(self) -> str:
        """The clause that decides, as far as it binds under the law of the list."""
        clause = self.judged.judgement.clause or self.rule.clause
        return "; ".join(binding(clause, self.bom.law))

    @property
    def sources(self) -> tuple[str, ...]:
        """The table rows as a report cites them, each once."""
        return tuple(dict.fromkeys(map(cite, self.rows)))

    @property
    def rows(self) -> tuple[Row, ...]:
        """The table rows that it rests on or sets aside."""
        return self.judged.judgement.rows

    @property
    def basis(self) -> Basis | None:
        """The weakest basis of what it rests on."""
        return self.judged.judgement.basis

    @property
    def reason(self) -> Reason | None:
        """Why it is unproven."""
        return self.judged.judgement.reason

    @property
    def remedy(self) -> str:
        """What to do next."""
        return self.judged.judgement.remedy or self.rule.remedy

    @property
    def answer_by(self) -> Role:
        """Who can answer."""
        return self.judged.judgement.answer_by or self.rule.answer_by

    @property
    def location(self) -> str | None:
        """The place at which it was judged."""
        return self.block.place

    @property
    def component(self) -> str | None:
        """The component of the part that it is about."""
        return self.judged.ask.component

    @property
    def path(self) -> str:
        """The fact that it is about, as the file counts its entries."""
        return self.bom.path(self.block.prefix, self.judged.ask.path)

    @property
    def position(self) -> Position:
        """Where that fact stands in the file."""
        return self.bom.locate(self.path)

    @property
    def fingerprint(self) -> str:
        """What binds a waiver to it."""
        from areafit.findings.fingerprint import fingerprint  # noqa: PLC0415 - most need no digest

        if self.waiver is not None:
            return self.waiver.fingerprint
        return fingerprint(self.judged, self.location, self.subject, self.bom)

    @property
    def waiver(self) -> Waiver | None:
        """The waiver that reaches it."""
        return self.judged.waiver

    @property
    def stated_by(self) -> tuple[Statement, ...]:
        """The notes and entries behind its fact."""
        return self.bom.stated_by(self.path)

    @property
    def proposed(self) -> tuple[str, ...]:
        """The keys that a flag rests on as proposals, which somebody has still to confirm."""
        return self.bom.proposed_at(self.path) if self.verdict is Verdict.FLAG else ()


def cite(row: Row) -> str:
    """A table row as a report cites it: table, key, value, source and locator."""
    if row.table == "incompatible":  # the message names both in words; its codes stand in the table
        return f"{row.table}: what these give together ({row.source_id}; {row.basis.value})"
    value = f" = {row.value}" if row.value else ""
    aside = "" if row.governs else "; disputed, the stricter row governs"
    return (
        f"{row.table}: {row.key}{value} ({row.source_id}, {row.locator}; {row.basis.value}{aside})"
    )


class SubjectReport(Frozen, eq=False):
    """What was judged of one part, place, loop, or of the list itself."""

    name: str
    verdict: Verdict
    blocks: tuple[Block, ...]
    bom: Bom

    def findings(self) -> Iterator[Finding]:
        """Every requirement judged, passes too, in the order of the rules."""
        for block in self.blocks:
            for judged in block.judged:
                yield Finding(judged, block, self.bom, self.name)

    def open_findings(self) -> Iterator[Finding]:
        """The findings that hold the gate: flagged or unproven, and not waived."""
        if not self.verdict.passes:  # most pass, and theirs need not be made
            for block in self.blocks:
                for judged in block.judged.open:
                    yield Finding(judged, block, self.bom, self.name)


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
    accepted, another date), and `narrowed` the options that made it so. `again` judges the list
    anew, with all asked of these items that else waits for the part that comes instead.
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
    again: Callable[[frozenset[str]], "BomReport"] | None = None

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
