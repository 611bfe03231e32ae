"""Group of the circuit: the reactances it was designed by, and the nameplates at its ends."""

from collections.abc import Iterator

from areafit.checks.loops.circuit import PLACE, both, changed, example, with_paths
from areafit.checks.loops.needs import (
    GroupNeeds,
    System,
    needs_of,
    permitted,
    reach,
    stated_system,
    stated_values,
    system_of,
    waits,
)
from areafit.demands import Gap, GroupNeed
from areafit.facts.groups import Cover, Group, covers, severity
from areafit.facts.loop import ByGroup
from areafit.facts.part import Equipment
from areafit.rule import Answer, Ask, Family, Judgement, Row, Rule, Subject
from areafit.subjects import LoopCase, LoopEnd
from areafit.values import Frozen, replace
from areafit.verdict import Reason, Role, Verdict


class ValuesForGroup(Frozen):
    """Are the stated Co and Lo for the most onerous group that the circuit enters?"""

    group: Group | None
    figures: tuple[ByGroup | None, ...]
    needs: GroupNeeds


class ShownGroups(Frozen):
    """The groups that a nameplate shows in one system, and what the places ask for in it."""

    groups: frozenset[Group]
    needs: GroupNeeds


class EndGroups(Frozen):
    """Does the nameplate at one end cover every place that the circuit enters?"""

    item: str
    shown: tuple[ShownGroups, ...]


GroupQuestion = ValuesForGroup | EndGroups


def _ask(case: LoopCase, _demands: None) -> Iterator[Ask[GroupQuestion]]:
    loop = case.loop
    figures = tuple(f for s in loop.sources for f in (s.capacitance, s.inductance))
    yield Ask(ValuesForGroup(loop.group, figures, needs_of(case, stated_system(case))), "group")
    for path, end in with_paths(case.sources):
        yield from _ask_end(case, end, path, source=True)
    for i, end in enumerate(case.devices):
        if not end.simple:
            yield from _ask_end(case, end, f"devices/{i}", source=False)


def _ask_end(
    case: LoopCase, end: LoopEnd, path: str, *, source: bool
) -> Iterator[Ask[GroupQuestion]]:
    question = EndGroups(end.item, tuple(_shown(case, end, source=source)))
    gaps = tuple(gap for shown in question.shown for gap in shown.needs.gaps)

    def judged(open_: tuple[Gap, ...]) -> Verdict:
        shown = (replace(s, needs=replace(s.needs, gaps=open_)) for s in question.shown)
        return _judge_end(replace(question, shown=tuple(shown))).verdict

    if not waits(case, gaps, judged):
        yield Ask(question, path)


def _shown(case: LoopCase, end: LoopEnd, *, source: bool) -> Iterator[ShownGroups]:
    if end.equipment is None:
        return
    for system in System:
        groups = groups_of(end.equipment, system, source=source)
        if groups:
            yield ShownGroups(groups, needs_of(case, system))


def groups_of(equipment: Equipment, system: System, *, source: bool) -> frozenset[Group]:
    """The groups that the nameplate shows in one system: of the outputs where there are any."""
    found: set[Group] = set()
    for code in equipment.codes:
        outputs = [output.groups for output in code.outputs if output.groups]
        if source and outputs:
            found.update(*outputs)
        elif source or not code.associated:
            found |= code.groups
    return frozenset(group for group in found if system_of(group) is system)


def _judge(question: GroupQuestion) -> Judgement:
    if isinstance(question, ValuesForGroup):
        return _judge_values(question)
    return _judge_end(question)


def _judge_values(question: ValuesForGroup) -> Judgement:
    group, needs = question.group, question.needs
    answer = Answer(_required(needs), _stated(question), _rows(needs))
    for figures in question.figures:
        pair = swapped(figures, group)
        if pair is not None:
            return answer.flagged(
                f"The value stated for {pair[0].value} is less than that for {pair[1].value}, "
                "which is the more onerous group: they may be interchanged.",
                remedy="Compare `Co` and `Lo` of each group with the certificate and correct them.",
            )
    if group is None and needs.groups:
        return _without_group(question, answer)
    fault = None if group is None else _not_held(group, needs, answer)
    if fault is not None:
        return fault
    if needs.gaps:
        return needs.gaps[0].leaves(answer)
    if not needs.groups:
        return answer.passed("No place that the circuit enters asks for a group.")
    return answer.passed(
        "Co and Lo are taken for a group that covers every place that the loop enters."
    )


def _not_held(group: Group, needs: GroupNeeds, answer: Answer) -> Judgement | None:
    reached = [(need, reach(group, need, needs.groups)) for need in needs.groups]
    for need, cover in reached:
        if cover is Cover.NO:
            return answer.flagged(
                f"Co and Lo are taken for {group.value}, while the loop enters "
                f"{need.group.value} ({need.cause}).",
                remedy=_take(needs),
            )
    for need, cover in reached:
        if cover is Cover.UNPROVEN:
            return answer.unproven(
                Reason.FACT_MISSING,
                f"Whether Co and Lo hold for {need.group.value} ({need.cause}) is not shown.",
                remedy=_take(needs),
            )
    return None


def _take(needs: GroupNeeds) -> str:
    """For which group the values are to be taken: the most onerous that the loop enters."""
    most = max((need.group for need in needs.groups), key=lambda group: severity(group) or 0)
    return f"State `group: {most.value}`, with `Co` and `Lo` as the certificate has them for it."


def _stated(question: ValuesForGroup) -> str:
    own = "no group" if question.group is None else question.group.value
    others = dict.fromkeys(g.value for f in question.figures if f for g, _ in f.groups)
    return f"loop for {own}" + (f"; values for {both(others)}" if others else "")


def _without_group(question: ValuesForGroup, answer: Answer) -> Judgement:
    """A group stated wrongly would be a flag, so a group left out cannot pass."""
    for figures in question.figures:
        allowed = permitted(figures, None, question.needs.groups)
        if allowed.bound is not None and allowed.missing is not None:
            message = f"No value is stated for {allowed.missing.value}, which the loop enters, "
            remedy = _take(question.needs)
            return answer.flagged(f"{message}only for a milder group.", remedy=remedy)
    return answer.unproven(
        Reason.FACT_MISSING,
        "For which group the circuit and its Co and Lo are meant is not stated.",
        remedy=_take(question.needs),
    )


def swapped(figures: ByGroup | None, own: Group | None) -> tuple[Group, Group] | None:
    """A milder and a more onerous group whose figures stand the wrong way round, if any do."""
    known = [(e.group, e.value) for e in stated_values(figures, own) if e.group is not None]
    for milder, permits in known:
        for harder, permits_there in known:
            if _milder(milder, harder) and permits < permits_there:
                return milder, harder
    return None


def _milder(one: Group, other: Group) -> bool:
    ranks = severity(one), severity(other)
    if one.scheme is not other.scheme or ranks[0] is None or ranks[1] is None:
        return False
    return ranks[0] < ranks[1]


def _judge_end(question: EndGroups) -> Judgement:
    """One complete code that serves is enough."""
    if not question.shown:
        message = f"No group is shown for item {question.item}: no marking of it could be read."
        answer = Answer(required="a marking that shows a group", found="no group")
        remedy = f"State the `marking` of item {question.item}, with its group."
        return answer.unproven(Reason.FACT_MISSING, message, remedy=remedy)
    answers = [_judge_shown(question.item, shown) for shown in question.shown]
    return max(answers, key=lambda answer: _WORST_FIRST.index(answer.verdict))


_WORST_FIRST = tuple(Verdict)


def _judge_shown(item: str, shown: ShownGroups) -> Judgement:
    needs = shown.needs
    answer = Answer(
        required=_required(needs),
        found=f"item {item}: {both(sorted(group.value for group in shown.groups))}",
        rows=_rows(needs),
    )
    covered = [(need, _covers(shown.groups, need, needs.groups)) for need in needs.groups]
    for need, cover in covered:
        if cover is Cover.NO:
            return answer.flagged(
                f"Item {item} is certified for a group that does not cover {need.group.value} "
                f"({need.cause}); a circuit has the mildest group of its ends.",
                remedy=f"Choose for item {item} one whose `marking` covers {need.group.value}.",
            )
    for need, cover in covered:
        if cover is Cover.UNPROVEN:
            message = f"Whether item {item} is certified for {need.group.value} ({need.cause}) is "
            remedy = f"State the `marking` of item {item} with a group that covers it."
            return answer.unproven(Reason.FACT_MISSING, f"{message}not shown.", remedy=remedy)
    if needs.gaps:
        return answer.unproven(needs.gaps[0].reason, needs.gaps[0].sentence)
    return answer.passed(
        f"Item {item} is certified for a group that covers every place of the loop."
    )


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


def _required(needs: GroupNeeds) -> str:
    own = "; ".join(dict.fromkeys(f"{n.group.value} ({n.cause})" for n in needs.groups))
    return own or "a group that covers every place of the loop"


def _rows(needs: GroupNeeds) -> tuple[Row, ...]:
    return tuple(dict.fromkeys(row for need in needs.groups for row in need.rows))


LOOP_GROUP = Rule[GroupQuestion](
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
        example("Values for IIC where hydrogen is", Verdict.PASS),
        example(
            "Values for IIB where hydrogen is",
            Verdict.FLAG,
            changed("group: IIC", "group: IIB"),
        ),
        example(
            "A place whose group is not known",
            Verdict.UNPROVEN,
            place=PLACE.replace("Zone 1, IIC, T4", "Zone 1, T4").replace("hydrogen", "blend 9"),
        ),
    ),
)
