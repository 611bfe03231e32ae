"""Group of the circuit: the reactances it was designed by, and the nameplates at its ends."""

from collections.abc import Iterator

from areafit.cases import LoopCase, LoopEnd
from areafit.checks.loops.circuit import stated_system
from areafit.checks.loops.examples import CIRCUIT, PLACE, changed, example
from areafit.checks.loops.needs import Needs, System, needs_of, reach, waits
from areafit.checks.loops.permitted import permitted, swapped
from areafit.checks.loops.plates import groups_of
from areafit.checks.loops.words import both
from areafit.demands import Gap, GroupNeed
from areafit.facts.groups import Cover, Group, covers
from areafit.facts.loop import ByGroup
from areafit.facts.part import Kind
from areafit.rule import Ask, Family, Judgement, Row, Rule, Subject, flagged, passed, unproven
from areafit.values import Frozen, replace
from areafit.verdict import Reason, Role, Verdict


class Values(Frozen):
    """Are the stated Co and Lo for the most onerous group that the circuit enters?"""

    group: Group | None
    figures: tuple[ByGroup | None, ...]
    needs: Needs


class Shown(Frozen):
    """The groups that a nameplate shows in one system, and what the places ask for in it."""

    groups: frozenset[Group]
    needs: Needs


class Plate(Frozen):
    """Does the nameplate at one end cover every place that the circuit enters?"""

    item: str
    shown: tuple[Shown, ...]


Question = Values | Plate
_MILDEST_LAST = tuple(Verdict)  # one complete code that serves is enough


def _ask(case: LoopCase, _demands: None) -> Iterator[Ask[Question]]:
    loop = case.loop
    figures = tuple(f for s in loop.sources for f in (s.capacitance, s.inductance))
    yield Ask(Values(loop.group, figures, needs_of(case, stated_system(case))), "group")
    for i, end in enumerate(case.sources):
        path = "source" if len(case.sources) == 1 else f"sources/{i}"
        yield from _plates(case, end, path, source=True)
    for i, end in enumerate(case.devices):
        kinds = end.equipment.kinds if end.equipment is not None else frozenset()
        if kinds != {Kind.SIMPLE_APPARATUS}:
            yield from _plates(case, end, f"devices/{i}", source=False)


def _plates(case: LoopCase, end: LoopEnd, path: str, *, source: bool) -> Iterator[Ask[Question]]:
    plate = _plate(case, end, source=source)
    gaps = tuple(gap for shown in plate.shown for gap in shown.needs.gaps)

    def judged(open_: tuple[Gap, ...]) -> Verdict:
        shown = (replace(s, needs=replace(s.needs, gaps=open_)) for s in plate.shown)
        return _nameplate(replace(plate, shown=tuple(shown))).verdict

    if not waits(case, gaps, judged):
        yield Ask(plate, path)


def _plate(case: LoopCase, end: LoopEnd, *, source: bool) -> Plate:
    if end.equipment is None:
        return Plate(end.item, ())
    found = ((groups_of(end.equipment, s, source=source), s) for s in System)
    return Plate(end.item, tuple(Shown(g, needs_of(case, s)) for g, s in found if g))


def _judge(question: Question) -> Judgement:
    return _values(question) if isinstance(question, Values) else _nameplate(question)


def _values(question: Values) -> Judgement:
    group, needs = question.group, question.needs
    texts = {"required": _required(needs), "found": _stated(question)}
    rows = _rows(needs)
    for figures in question.figures:
        pair = swapped(figures, group)
        if pair is not None:
            return flagged(
                f"The value stated for {pair[0].value} is less than that for {pair[1].value}, "
                "which is the more onerous group: they may be interchanged.",
                **texts,
                rows=rows,
            )
    open_need = None
    for need in needs.groups:
        cover = _cover(group, need, needs.groups)
        if cover is Cover.NO:
            return flagged(
                f"Co and Lo are taken for {group.value if group else '?'}, while the loop enters "
                f"{need.group.value} ({need.cause}).",
                **texts,
                rows=rows,
            )
        if cover is Cover.UNPROVEN:
            open_need = open_need or need
    return _by_figures(question, open_need, texts, rows)


def _cover(group: Group | None, need: GroupNeed, needs: tuple[GroupNeed, ...]) -> Cover | None:
    """Whether the loop's own group does for the need; None where it states none."""
    return None if group is None else reach(group, need, needs)


def _by_figures(
    question: Values, open_need: GroupNeed | None, texts: dict[str, str], rows: tuple[Row, ...]
) -> Judgement:
    """Nothing fails; now every need must be met by figures, and every place be known."""
    needs = question.needs
    if open_need is not None:
        message = f"Whether Co and Lo hold for {open_need.group.value} ({open_need.cause}) is not "
        return unproven(Reason.FACT_MISSING, f"{message}shown.", **texts, rows=rows)
    if question.group is None and needs.groups:
        return _without_group(question, texts, rows)
    if needs.gaps:
        gap = needs.gaps[0]
        return unproven(
            gap.reason,
            gap.sentence,
            **texts,
            rows=rows,
            remedy=gap.remedy,
            answer_by=Role.AREA_OWNER,
        )
    if not needs.groups:
        return passed("No place that the circuit enters asks for a group.", **texts, rows=rows)
    return passed(
        "Co and Lo are taken for a group that covers every place that the loop enters.",
        **texts,
        rows=rows,
    )


def _without_group(question: Values, texts: dict[str, str], rows: tuple[Row, ...]) -> Judgement:
    """A group stated wrongly would be a flag, so a group left out cannot pass."""
    for figures in question.figures:
        allowed = permitted(figures, None, question.needs.groups)
        if allowed.bound is not None and allowed.missing is not None:
            message = f"No value is stated for {allowed.missing.value}, which the loop enters, "
            return flagged(f"{message}only for a milder group.", **texts, rows=rows)
    message = "For which group the circuit and its Co and Lo are meant is not stated."
    return unproven(Reason.FACT_MISSING, message, **texts, rows=rows)


def _nameplate(question: Plate) -> Judgement:
    if not question.shown:
        message = f"No group is shown for item {question.item}: no marking of it could be read."
        required = "a marking that shows a group"
        return unproven(Reason.FACT_MISSING, message, required=required, found="no group")
    answers = [_judge_shown(question.item, shown) for shown in question.shown]
    return max(answers, key=lambda answer: _MILDEST_LAST.index(answer.verdict))


def _judge_shown(item: str, shown: Shown) -> Judgement:
    found = f"item {item}: {both(sorted(group.value for group in shown.groups))}"
    required, rows = _required(shown.needs), _rows(shown.needs)
    needs = shown.needs.groups
    answers = [(need, _covers(shown.groups, need, needs)) for need in needs]
    for need, cover in answers:
        if cover is Cover.NO:
            return flagged(
                f"Item {item} is certified for a group that does not cover {need.group.value} "
                f"({need.cause}); a circuit has the mildest group of its ends.",
                required=required,
                found=found,
                rows=rows,
            )
    for need, cover in answers:
        if cover is Cover.UNPROVEN:
            message = f"Whether item {item} is certified for {need.group.value} ({need.cause}) is "
            message += "not shown."
            return unproven(Reason.FACT_MISSING, message, required=required, found=found, rows=rows)
    if shown.needs.gaps:
        gap = shown.needs.gaps[0]
        return unproven(gap.reason, gap.sentence, required=required, found=found, rows=rows)
    message = f"Item {item} is certified for a group that covers every place of the loop."
    return passed(message, required=required, found=found, rows=rows)


def _covers(groups: frozenset[Group], need: GroupNeed, needs: tuple[GroupNeed, ...]) -> Cover:
    own = {group for group in groups if group.scheme is need.group.scheme}
    if not own or own & {Group.II, Group.III}:
        return Cover.UNPROVEN
    if need.group is Group.III:
        return Cover.YES if Group.IIIC in own else Cover.UNPROVEN
    if Group.IIB_H2 in own and need.group in (Group.IIC, Group.IIB_H2):
        answers = {reach(group, need, needs) for group in own}
        return next(cover for cover in (Cover.YES, Cover.UNPROVEN, Cover.NO) if cover in answers)
    return covers(frozenset(own), need.group)


def _required(needs: Needs) -> str:
    own = "; ".join(dict.fromkeys(f"{n.group.value} ({n.cause})" for n in needs.groups))
    return own or "a group that covers every place of the loop"


def _stated(question: Values) -> str:
    own = "no group" if question.group is None else question.group.value
    others = dict.fromkeys(g.value for f in question.figures if f for g, _ in f.groups)
    return f"loop for {own}" + (f"; values for {both(others)}" if others else "")


def _rows(needs: Needs) -> tuple[Row, ...]:
    return tuple(dict.fromkeys(row for need in needs.groups for row in need.rows))


LOOP_GROUP = Rule[Question](
    id="loop-group",
    title="Co and Lo are for the most onerous group the loop enters",
    family=Family.LOOPS,
    subject=Subject.LOOP,
    clause="IEC 60079-14:2013 16.2.4; IEC 60079-25:2010 5; NFPA 70-2023 504.10",
    why="A certificate gives a larger Co and Lo for milder gases; taken where a more onerous one "
    "may be, they permit sparks that ignite it.",
    remedy="Take Co and Lo for the most onerous group of all places that the circuit enters, and "
    "choose source and devices that are certified for it.",
    answer_by=Role.DESIGNER,
    note="Values for a more onerous group hold for a milder one, Division letters included; on a "
    "nameplate a Division letter must be printed. For dust the values of Group IIB hold "
    "(IEC 60079-11:2011, 5.5), in the Division system those of Group C.",
    ask=_ask,
    judge=_judge,
    examples=(
        example("Values for IIC where hydrogen is", Verdict.PASS, CIRCUIT),
        example(
            "Values for IIB where hydrogen is",
            Verdict.FLAG,
            changed("group: IIC", "group: IIB"),
        ),
        example(
            "A place whose group is not known",
            Verdict.UNPROVEN,
            CIRCUIT,
            place=PLACE.replace("Zone 1, IIC, T4", "Zone 1, T4").replace("hydrogen", "blend 9"),
        ),
    ),
)
