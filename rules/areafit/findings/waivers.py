"""Waivers laid over a report: a waived finding shows as such; one that no longer holds says so."""

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from datetime import date
from typing import TypeAlias, TypeVar

from areafit.facts.waiver import WaivedSubject, Waiver
from areafit.findings.counts import count
from areafit.findings.fingerprint import SCHEME, fingerprint
from areafit.findings.report import (
    Answers,
    Block,
    BomReport,
    Finding,
    Judged,
    SubjectReport,
    WaiverCounts,
)
from areafit.options import WAITED_FOR
from areafit.rule import Family
from areafit.values import Frozen, Term, replace
from areafit.verdict import Verdict, worst

Subject = TypeVar("Subject", bound=SubjectReport)
Lines: TypeAlias = Mapping[tuple[str, str], tuple[str, ...]]
_OLD_SCHEME = (
    "its fingerprint is from before 0.2 and says nothing any more; `areafit waiver renew` shows "
    "what it could be renewed for"
)
_NEED_DOCUMENT = frozenset({Family.AREA, Family.PROOF, Family.IGNITION, Family.LOOPS})


class WaiverState(Term):
    """What became of a waiver in one run."""

    USED = "used"
    EXPIRED = "expired"
    STALE = "stale"
    UNMATCHED = "unmatched"
    INCOMPLETE = "incomplete"


class WaiverOutcome(Frozen):
    """A waiver and what became of it, with a word on why it does not hold."""

    waiver: Waiver
    state: WaiverState
    message: str


def apply(report: BomReport, waivers: Sequence[Waiver], as_of: date) -> BomReport:
    """The report with every waiver that holds; the others are listed with the reason.

    A waiver holds for findings of its subject, rule and component whose fingerprint is its own,
    up to and including its date. For a flag of an area, documents, ignition or loop rule, and for
    what meets nothing but a milder value of a listed substance, it needs a document. Of several
    lines that agree in all that a fingerprint digests, the one with the waiver's item is meant; a
    line that was renumbered is found by its fingerprint. Waivers for another list, by the number of
    its assembly, are left out. Nothing is asked of a flagged part that the one which comes instead
    would answer; one for whose plate or papers a waiver answers stays, and is asked all of it.

    Args:
        report: as `areafit.judge` gives it.
        waivers: as `areafit.read_waivers` gives them.
        as_of: the date that decides whether a waiver has run out.
    """
    own = [w for w in waivers if w.assembly in (None, report.bom.assembly.number)]
    if not own:
        return report
    laid = _over(report, own, as_of)
    kept = _kept(laid)
    if kept and report.again is not None:
        return _over(report.again(kept), own, as_of)
    return laid


def _over(report: BomReport, waivers: Sequence[Waiver], as_of: date) -> BomReport:
    laid = _Laid(report, waivers, as_of)
    parts = tuple(laid.over(WaivedSubject.ITEM, part) for part in report.parts)
    places = tuple(laid.over(WaivedSubject.PLACE, place) for place in report.places)
    loops = tuple(laid.over(WaivedSubject.LOOP, loop) for loop in report.loops)
    outcomes = tuple(laid.outcomes())
    tally = {state: sum(o.state is state for o in outcomes) for state in WaiverState}
    return replace(
        report,
        parts=parts,
        places=places,
        loops=loops,
        counts=count(report.own, parts, places, loops),
        waivers=WaiverCounts(
            used=tally[WaiverState.USED],
            expired=tally[WaiverState.EXPIRED],
            stale=tally[WaiverState.STALE] + tally[WaiverState.INCOMPLETE],
            unmatched=tally[WaiverState.UNMATCHED],
        ),
        waiver_outcomes=outcomes,
        decided_by_date=True,
    )


def _kept(report: BomReport) -> frozenset[str]:
    """The items of parts for whose plate or papers a waiver of the report answers."""
    return frozenset(
        part.name
        for part in report.parts
        if part.verdict is not Verdict.PASS
        and any(
            judged.waiver is not None and judged.rule.id in WAITED_FOR
            for block in part.blocks
            for judged in block.judged
        )
    )


def beside(report: BomReport, waiver: Waiver) -> tuple[Finding, ...]:
    """The open findings that a waiver which no longer holds could be renewed for, each once."""
    subjects: Mapping[WaivedSubject, Sequence[SubjectReport]] = {
        WaivedSubject.ITEM: report.parts,
        WaivedSubject.LOOP: report.loops,
        WaivedSubject.PLACE: report.places,
    }
    found = (
        finding
        for subject in subjects[waiver.subject]
        if subject.name == waiver.name
        for finding in subject.open_findings()
        if finding.rule.id == waiver.rule and waiver.component in (None, finding.component)
    )
    return tuple({finding.fingerprint: finding for finding in found}.values())


def _lines(report: BomReport, rules: Collection[str]) -> Lines:
    """The items that each finding of the rules stands at, by rule and fingerprint."""
    lines: dict[tuple[str, str], dict[str, None]] = {}
    for part in report.parts:
        if part.verdict.passes:
            continue
        for block in part.blocks:
            for judged in block.judged:
                if judged.rule.id in rules:
                    own = fingerprint(judged, block.place, part.name, report.bom)
                    lines.setdefault((judged.rule.id, own), {})[part.name] = None
    return {key: tuple(names) for key, names in lines.items()}


def _needs_document(judged: Judged) -> bool:
    flagged = judged.judgement.verdict is Verdict.FLAG and judged.rule.family in _NEED_DOCUMENT
    return flagged or judged.judgement.document_to_waive


class _Laid:
    """The waivers of one run by subject, and what became of each."""

    def __init__(self, report: BomReport, waivers: Sequence[Waiver], as_of: date) -> None:
        self._as_of = as_of
        self._bom = report.bom
        self._outcomes: dict[Waiver, WaiverOutcome] = {
            waiver: WaiverOutcome(
                waiver,
                WaiverState.UNMATCHED,
                f"no open finding of {waiver.rule} on {waiver.subject.value} {waiver.name}",
            )
            for waiver in waivers
        }
        self._by_subject: dict[tuple[WaivedSubject, str], list[Waiver]] = {}
        lines = _lines(report, {waiver.rule for waiver in waivers})
        for waiver in waivers:
            for name in self._meant(waiver, lines):
                self._by_subject.setdefault((waiver.subject, name), []).append(waiver)

    def _meant(self, waiver: Waiver, lines: Lines) -> Iterator[str]:
        """The subject that a waiver names, or the one line that was its before a renumbering."""
        if waiver.subject is not WaivedSubject.ITEM:
            yield waiver.name
            return
        bound = lines.get((waiver.rule, waiver.fingerprint), ())
        if waiver.name in bound or not bound:
            yield waiver.name
        elif len(bound) == 1:
            yield bound[0]
        else:
            self._outcomes[waiver] = WaiverOutcome(
                waiver,
                WaiverState.UNMATCHED,
                f"no item {waiver.name} has the finding, and items {', '.join(bound)} have it "
                "alike: name one",
            )

    def outcomes(self) -> Iterator[WaiverOutcome]:
        yield from self._outcomes.values()

    def over(self, kind: WaivedSubject, subject: Subject) -> Subject:
        waivers = self._by_subject.get((kind, subject.name))
        if waivers is None:
            return subject
        blocks = tuple(self._block(block, subject.name, waivers) for block in subject.blocks)
        return replace(subject, blocks=blocks, verdict=worst(block.verdict for block in blocks))

    def _block(self, block: Block, name: str, waivers: Iterable[Waiver]) -> Block:
        judged = (self._judged(each, block, name, waivers) for each in block.judged)
        return replace(block, judged=Answers(judged))

    def _judged(self, judged: Judged, block: Block, name: str, waivers: Iterable[Waiver]) -> Judged:
        if judged.judgement.verdict not in (Verdict.FLAG, Verdict.UNPROVEN):
            return judged
        holding: list[Waiver] = []
        for waiver in waivers:
            if waiver.rule != judged.rule.id:
                continue
            if waiver.component is not None and waiver.component != judged.ask.component:
                continue
            state, message = self._state(waiver, judged, block, name)
            self._note(waiver, state, message)
            if state is WaiverState.USED:
                holding.append(waiver)
        if not holding:
            return judged
        waived = replace(judged.judgement, verdict=Verdict.WAIVED)
        longest = max(holding, key=lambda waiver: waiver.until)
        return Judged(judged.rule, judged.ask, waived, longest)

    def _state(  # noqa: PLR0911 - a line for each way out
        self, waiver: Waiver, judged: Judged, block: Block, name: str
    ) -> tuple[WaiverState, str]:
        if judged.rule.always:
            return (
                WaiverState.UNMATCHED,
                f"no waiver reaches {judged.rule.id}: the list itself settles it",
            )
        if not waiver.fingerprint.startswith(SCHEME):
            return WaiverState.STALE, _OLD_SCHEME
        if fingerprint(judged, block.place, name, self._bom) != waiver.fingerprint:
            return WaiverState.STALE, "the facts have changed since it was granted"
        if waiver.revision is not None and waiver.revision != self._bom.assembly.revision:
            now = self._bom.assembly.revision or "none stated"
            return WaiverState.EXPIRED, f"it held for revision {waiver.revision}; this is {now}"
        if waiver.until < self._as_of:
            return WaiverState.EXPIRED, f"it held until {waiver.held}"
        if waiver.document is None and _needs_document(judged):
            what = "a flag" if judged.judgement.verdict is Verdict.FLAG else "this unproven"
            return (
                WaiverState.INCOMPLETE,
                f"{what} of {judged.rule.id} is waived only with a document",
            )
        return WaiverState.USED, ""

    def _note(self, waiver: Waiver, state: WaiverState, message: str) -> None:
        """Keep the best that became of a waiver: used once is used."""
        known = self._outcomes[waiver].state
        order = (
            WaiverState.UNMATCHED,
            WaiverState.STALE,
            WaiverState.INCOMPLETE,
            WaiverState.EXPIRED,
            WaiverState.USED,
        )
        if order.index(state) >= order.index(known):
            self._outcomes[waiver] = WaiverOutcome(waiver, state, message)
