"""Stainless steel that runs in stainless steel: threads, pins and slides that seize."""

import re
from collections.abc import Iterator
from functools import cache

from areafit.checks.materials.hydrogen import hardness
from areafit.demands import Demands
from areafit.facts.part import Body, MaterialUse
from areafit.rule import Answer, Ask, Example, Family, Judgement, Row, Rule, Subject
from areafit.subjects import ContactCase
from areafit.tables import Tables
from areafit.tables.limits import figure
from areafit.tables.materials import RubbingComponent, RubbingSide, Running, is_stainless
from areafit.values import Frozen
from areafit.verdict import Reason, Role, Verdict


class Galling(Frozen):
    """Two stainless steels that run in each other; hardness as stated, None where it is not."""

    material: str
    pair: Running
    other: str
    row: Row
    hardness: str | None = None
    other_hardness: str | None = None


def _ask(body: Body, demands: Demands) -> Iterator[Ask[Galling]]:
    """What states a counterface, and what runs in another component of the part."""
    uses = body.materials or ()
    for i, use in enumerate(uses):
        row = _running(use, demands.tables)
        if row is None or not _stainless(use.material, demands.tables):
            continue
        for other in _partners(use, row, uses, demands.tables):
            yield Ask(_asked(use, row, other), f"materials/{i}", use.component)


def _partners(
    use: MaterialUse, row: RubbingComponent, uses: tuple[MaterialUse, ...], tables: Tables
) -> Iterator[MaterialUse]:
    """The stainless surfaces that it runs on: as stated, else the other halves of the part."""
    if use.counterface is not None:
        if _stainless(use.counterface, tables):
            yield MaterialUse(use.counterface)
        return
    for other in uses:
        if _mates(row, _running(other, tables)) and _stainless(other.material, tables):
            yield other


def _mates(row: RubbingComponent, other: RubbingComponent | None) -> bool:
    """One question a pair: the outer half is asked of the inner one."""
    if other is None or other.pair is not row.pair:
        return False
    return row.side is RubbingSide.OUTER and other.side is RubbingSide.INNER


def _ask_contact(case: ContactCase, demands: Demands) -> Iterator[Ask[Galling]]:
    """A stated contact with another line, one half of it the component that runs in the other."""
    own, other = case.own, case.other
    if not case.stated or case.inside or own is None or other is None:
        return
    tables = demands.tables
    rows = [row for row in (_running(own, tables), _running(other, tables)) if row is not None]
    if not rows or not all(_stainless(one.material, tables) for one in (own, other)):
        return
    if len({row.pair for row in rows}) > 1:
        return
    yield Ask(_asked(own, rows[0], other), "", own.component)


def _asked(use: MaterialUse, row: RubbingComponent, other: MaterialUse) -> Galling:
    cited = Row.of("rubbing_components", row.component, row, row.pair.value)
    return Galling(use.material, row.pair, other.material, cited, use.hardness, other.hardness)


def _stainless(name: str, tables: Tables) -> bool:
    """Whether the name may mean a stainless steel."""
    return any(is_stainless(one) for one in tables.materials(name))


def _running(use: MaterialUse, tables: Tables) -> RubbingComponent | None:
    """What the component is by its name, if it runs in another."""
    if use.component is None:
        return None
    said = use.component.casefold()
    return tables.remembered(("running component", said), lambda: _runs(said, tables))


def _runs(said: str, tables: Tables) -> RubbingComponent | None:
    rows = tables.rows("rubbing_components", RubbingComponent)
    named = [(found, row) for row in rows if (found := _word(row.component).search(said))]
    # Of `hinge pin` the last word says what it is, of `threaded bush` the longer name.
    last = max(named, key=lambda one: (one[0].end(), len(one[1].component)), default=None)
    return None if last is None else last[1]


@cache
def _word(component: str) -> re.Pattern[str]:
    return re.compile(rf"\b{re.escape(component)}(?:s|es)?\b")


def _judge(case: Galling) -> Judgement:
    required = "one of the two harder by far, coated, or of a metal that does not gall"
    apart = _apart(case)
    if apart is not None:
        return Answer(
            required, f"{case.hardness} in {case.other_hardness}", (case.row, apart)
        ).passed(f"{case.material} and {case.other} are far enough apart in hardness.")
    return Answer(required, f"{case.material} in {case.other}", (case.row,)).unproven(
        Reason.CONDITION_TO_ACCEPT,
        f"{case.material} runs in {case.other}: stainless steel in stainless steel seizes in "
        f"{_WHERE[case.pair]}.",
    )


_WHERE = {
    Running.THREAD: "threads that are tightened",
    Running.PIN: "pins that turn under load",
    Running.SLIDE: "slides under load",
}


def _apart(case: Galling) -> Row | None:
    """The row by which the two are far enough apart in hardness, both stated in one scale."""
    own, other = hardness(case.hardness), hardness(case.other_hardness)
    if own is None or other is None or own[2] != other[2] or own[2] == "HRC":
        return None
    soft, hard = sorted((own, other))
    least = figure("hardness against galling", own[2])
    return Row.of_figure(least) if hard[0] - soft[1] >= least.number else None


_WAYS_OUT = (
    "Take a nut, pin or guide that is at least 50 HB harder, coated, of bronze or of a grade that "
    "does not gall, or a paste that stands the chemicals; then have it accepted in a waiver."
)
_WHY = (
    "Stainless steels of like hardness weld to each other where they rub under load; a screw or a "
    "pin that has seized is cut, and what it holds is not opened when it must be."
)
_CLAUSE = "Common practice with stainless fasteners, from memory"
_PAIR = (
    "kind: structural, contacts: none, materials: [{{component: screw, material: '304'{}}}, "
    "{{component: nut, material: {}}}]"
)

GALLING = Rule[Galling](
    id="galling",
    title="Stainless threads, pins and slides do not seize",
    family=Family.MATERIALS,
    subject=Subject.BODY,
    clause=_CLAUSE,
    why=_WHY,
    remedy=_WAYS_OUT,
    answer_by=Role.DESIGNER,
    note="Asked where the list names both halves, by component or by `counterface`; the paste or "
    "coating of a bought part is for its maker.",
    ask=_ask,
    judge=_judge,
    examples=(
        Example("A screw in its nut", Verdict.UNPROVEN, _PAIR.format("", "'316'")),
        Example(
            "A hard nut",
            Verdict.PASS,
            _PAIR.format(", hardness: 180 HB", "'420', hardness: 300 HB"),
        ),
    ),
)

_LINES = (
    "  - {item: '2', location: case, kind: structural, contacts: none, "
    "materials: [{material: %s, component: %s}]}\n"
)
_SCREW = (
    "kind: structural, materials: [{material: '304', component: screw, hardness: 180 HB}], "
    "contacts: [{with: '2'}]"
)

GALLING_OF_LINES = Rule[Galling](
    id="galling-of-lines",
    title="Stainless lines that touch do not seize",
    family=Family.MATERIALS,
    subject=Subject.CONTACT,
    clause=_CLAUSE,
    why=_WHY,
    remedy=_WAYS_OUT,
    answer_by=Role.DESIGNER,
    note="Of a stated contact, where one half is called a thread, a pin or a slide.",
    ask=_ask_contact,
    judge=_judge,
    examples=(
        Example("Its nut", Verdict.UNPROVEN, _SCREW, more=_LINES % ("'316'", "nut")),
        Example(
            "A hard nut",
            Verdict.PASS,
            _SCREW,
            more=_LINES % ("'420', hardness: 300 HB", "nut"),
        ),
    ),
)
