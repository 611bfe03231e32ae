"""Capacitance and inductance of devices and cable against what the source permits.

For inductance there is a second route, by the cable's L/R.
"""

from collections.abc import Callable, Iterator
from decimal import ROUND_DOWN, Decimal

from areafit.checks.loops.budget import (
    PER_LENGTH,
    Budget,
    Circuit,
    Halving,
    Lump,
    Lumped,
    budget,
    halved_share,
    lumped_share,
)
from areafit.checks.loops.circuit import (
    ASSESSED,
    CHECK_UNIT,
    NO_CURVES,
    amount,
    both,
    changed,
    example,
    margin,
    names,
)
from areafit.checks.loops.needs import permitted, waits
from areafit.facts.loop import ByGroup
from areafit.facts.protection import Law
from areafit.facts.quantity import Dimension, parse, show
from areafit.rule import Answer, Ask, Family, Judgement, Row, Rule, Subject
from areafit.subjects import LoopCase
from areafit.tables.limits import Figure, figure, figure_if_any
from areafit.values import Frozen, replace
from areafit.verdict import Reason, Role, Verdict
from areafit.wording import capital

_CABLE = (
    "State `cable: {length: …, capacitance: …, inductance: …}`, from its route and its data sheet."
)


def _state(*keys: str) -> str:
    return f"State {both(f'`{key}`' for key in keys)} as the certificate or control drawing does."


def _asks(
    judge: Callable[[Circuit], Judgement],
) -> Callable[[LoopCase, None], Iterator[Ask[Circuit]]]:
    def ask(case: LoopCase, _demands: None) -> Iterator[Ask[Circuit]]:
        circuit = Circuit.of(case)
        if not waits(case, circuit.needs.gaps, lambda gaps: judge(circuit.over(gaps)).verdict):
            yield Ask(circuit)

    return ask


def _judge_capacitance(circuit: Circuit) -> Judgement:
    reckoned = budget(circuit, Dimension.CAPACITANCE)
    return _judge(circuit, reckoned, _answer(circuit, reckoned))


def _judge(circuit: Circuit, budget: Budget, answer: Answer) -> Judgement:
    """The stated sum against the permitted reactance, halved where the devices lump both.

    A sum that is too much as far as it is stated is flagged, whatever is missing.
    """
    limit = budget.certain
    if limit is None:
        return _without_limit(circuit, budget, answer)
    shown = show(limit, budget.dimension)
    if budget.known > limit:
        told = _told(circuit, budget, f"is more than {shown}", limit)
        return answer.flagged(told, remedy=_less(circuit, budget))
    gap = _gap(circuit, budget, answer)
    if gap is not None:
        return gap
    if budget.strict is not None and budget.known > budget.strict:
        return _at_the_edge(circuit, budget, answer)
    strange = _strange(circuit, budget, answer)
    if strange is not None:
        return strange
    return answer.passed(f"{_told(circuit, budget, f'is within {shown}', limit)} {NO_CURVES}")


def _without_limit(circuit: Circuit, budget: Budget, answer: Answer) -> Judgement:
    output = names(budget.dimension, circuit.law).output
    allowed = budget.own.allowed
    if allowed.bound is not None and budget.known > allowed.bound:
        return answer.flagged(
            f"{_total(budget)} is more than the {output} of "
            f"{show(allowed.bound, budget.dimension)} stated for a milder group; the group of the "
            "place permits no more than that.",
            remedy=_less(circuit, budget),
        )
    key = names(budget.dimension, circuit.law).key
    if allowed.missing is None:
        message = f"No {output} of the source is stated."
    elif circuit.group is None and allowed.bound is None:
        message = f"For which group {output} holds is not said; {allowed.missing.value} is needed."
    else:
        message = f"No {output} is stated for {allowed.missing.value}, which the loop enters."
    needed = key if allowed.missing is None else f"{key}: {{{allowed.missing.value}: …}}"
    return answer.unproven(Reason.FACT_MISSING, message, remedy=_state(needed))


def _less(circuit: Circuit, budget: Budget) -> str:
    """What brings the sum within the limit: a cable of which length, or other ends."""
    pair = names(budget.dimension, circuit.law)
    ends = (
        f"choose a device with a lower `{pair.input_key}` or a source with a higher `{pair.key}`."
    )
    if budget.halving is Halving.YES and budget.full is not None and budget.known <= budget.full:
        ends += " Where the certificate gives Co and Lo as a pair that may be connected together, "
        ends += "state `together: yes` of the source."
    if not budget.longest:
        return capital(ends)
    length = show(_down(budget.longest), Dimension.LENGTH)
    return f"Shorten the cable to `length: {length}`, take one of less {pair.word}, or {ends}"


def _gap(circuit: Circuit, budget: Budget, answer: Answer) -> Judgement | None:
    """The first reason for which the sum, or the limit, is not known to the end."""
    if budget.own.devices.missing:
        message = f"{names(budget.dimension, circuit.law).input} of item "
        message += f"{both(budget.own.devices.missing)} is not stated; a zero counts only where it "
        remedy = _state(names(budget.dimension, circuit.law).input_key)
        return answer.unproven(Reason.FACT_MISSING, f"{message}is stated.", remedy=remedy)
    if budget.cable.total is None:
        message = _no_cable(circuit, budget)
        return answer.unproven(
            Reason.FACT_MISSING, message, remedy=_CABLE, answer_by=Role.INSTALLER
        )
    if len(circuit.sources) > 1:
        message = "What may be connected to several sources together is for a specialist."
        return answer.unproven(Reason.NOT_JUDGED, message, remedy=ASSESSED)
    if circuit.needs.gaps:
        gap = circuit.needs.gaps[0]
        message = f"The group to judge for is open: {gap.message}."
        return answer.unproven(gap.reason, message, remedy=gap.remedy, answer_by=Role.AREA_OWNER)
    return None


def _no_cable(circuit: Circuit, budget: Budget) -> str:
    cable = budget.cable
    sentences = [f"{capital(cable.missing)}."]
    if cable.default is not None and not cable.defaulted:
        sentences.append(
            f"Where no data can be had, `values: default` beside the length takes "
            f"{cable.default.value} ({cable.default.source_id}, {cable.default.locator})."
        )
    sentences.append(_longest(circuit, budget))
    return " ".join(filter(None, sentences))


def _at_the_edge(circuit: Circuit, budget: Budget, answer: Answer) -> Judgement:
    """Within the full limit, not within the halved one, and it is open which of them holds."""
    message = f"{_total(budget)} keeps the full limit, not half of it. "
    if budget.halving is Halving.AT_THE_EDGE:
        return answer.unproven(Reason.NO_MARGIN, message + _halved(circuit, budget))
    other = next(each for each in PER_LENGTH if each is not budget.dimension)
    pair = names(other, circuit.law)
    message += f"Whether it is halved is not known without {pair.input} of every device and "
    message += f"{pair.output} of the source."
    remedy = _state(pair.input_key, pair.key)
    return answer.unproven(Reason.FACT_MISSING, message, remedy=remedy)


def _strange(circuit: Circuit, budget: Budget, answer: Answer) -> Judgement | None:
    """A permitted reactance so great that its unit may be wrong."""
    pair = names(budget.dimension, circuit.law)
    most = figure(f"greatest usual permitted {pair.word}")
    if budget.full is None or budget.full <= most.amount(budget.dimension):
        return None
    shown = f"{pair.output} {show(budget.full, budget.dimension)}"
    return replace(answer, rows=(*answer.rows, Row.of_figure(most))).unproven(
        Reason.CONDITION_TO_ACCEPT,
        f"{shown} is far above what certificates of sources state: check the unit.",
        remedy=CHECK_UNIT,
    )


# The arithmetic in words: what is required, what was found, and why.


def _answer(circuit: Circuit, budget: Budget) -> Answer:
    rows = []
    if budget.halving is not Halving.NO or any(lump.devices.known for lump in budget.lumps):
        rows.append(lumped_share())
    if budget.halving is not Halving.NO and budget.full is not None:
        rows.append(halved_share())
    if budget.halving is Halving.YES and budget.cap is not None:
        rows.append(budget.cap)
    if budget.cable.defaulted and budget.cable.default is not None:
        rows.append(budget.cable.default)
    return Answer(
        required=_required(circuit, budget),
        found=_found(circuit, budget),
        rows=tuple(map(Row.of_figure, rows)),
    )


def _required(circuit: Circuit, budget: Budget) -> str:
    """The limit, the group that it is for, and whether it is halved."""
    output = names(budget.dimension, circuit.law).output
    if budget.full is None or budget.certain is None:
        needed = dict.fromkeys(need.group.value for need in circuit.needs.groups)
        return f"a stated {output} for {both(needed) or 'the group of the place'}"
    stated = budget.own.allowed.group
    group = f" for {stated.value}" if stated is not None else ""
    full = f"{output} {show(budget.full, budget.dimension)}{group}"
    if budget.halving is not Halving.YES:
        return f"at most {full}"
    capped = ", capped" if budget.capped else ""
    return f"at most {show(budget.certain, budget.dimension)}: half of {full}{capped}"


def _found(circuit: Circuit, budget: Budget) -> str:
    """Every share of the sum: the devices' and the cable's."""
    dimension = budget.dimension
    parts = [f"{amount(d.of(dimension), dimension)} (item {d.item})" for d in circuit.devices]
    parts.append(f"{amount(budget.cable.total, dimension)} ({_cable(budget)})")
    return " + ".join(parts)


def _cable(budget: Budget) -> str:
    cable = budget.cable
    if cable.length is None or cable.each is None:
        return "cable"
    each = show(cable.each, PER_LENGTH[budget.dimension])
    text = f"cable, {show(cable.length, Dimension.LENGTH)} of {each}"
    if not cable.defaulted or cable.default is None:
        return text
    return f"{text}, the default of {cable.default.value} ({cable.default.source_id})"


def _told(circuit: Circuit, budget: Budget, verdict: str, limit: Decimal) -> str:
    """Sum, margin, halving and longest cable as sentences."""
    sentences = (
        f"{_total(budget)} {verdict}: {margin(budget.known, limit)}.",
        _halved(circuit, budget),
        _longest(circuit, budget),
    )
    return " ".join(filter(None, sentences))


def _total(budget: Budget) -> str:
    """`Capacitance 45 nF`."""
    word = names(budget.dimension, None).word
    return f"{capital(word)} {show(budget.known, budget.dimension)}"


def _halved(circuit: Circuit, budget: Budget) -> str:
    """Whether the permitted reactances are halved, with the shares that decide it."""
    if circuit.paired:
        return "Co and Lo are stated as a pair that holds for both at once, so nothing is halved."
    edge = lumped_share().value
    so = {
        Halving.YES: f": both above {edge}, so both limits are halved.",
        Halving.NO: f": not both above {edge}, so nothing is halved.",
        Halving.AT_THE_EDGE: f". Some texts halve above {edge}, others from {edge} on; exactly "
        f"{edge} leaves no margin.",
        Halving.OPEN: "; the limit kept here is the halved one.",
    }
    shares = both(_share(lump, circuit.law) for lump in budget.lumps)
    return f"Cable left out, {shares}{so[budget.halving]}"


def _share(lump: Lump, law: Law | None) -> str:
    pair, known, limit = names(lump.dimension, law), lump.devices.known, lump.allowed.value
    if lump.devices.missing:
        return f"{pair.input} is not known"
    stated = f"{pair.input} {show(known, lump.dimension)}"
    if limit is None:
        return f"{stated} is of an unknown share"
    return f"{stated} is {share(known, limit)} of {pair.output}"


def share(value: Decimal, limit: Decimal) -> str:
    """The value in percent of the limit."""
    if limit == 0:
        return "of a limit of zero"
    return f"{(value * 100 / limit):.3g} %"


def _longest(circuit: Circuit, budget: Budget) -> str:
    """How long the cable may be, as a sentence; empty where it cannot be told."""
    if budget.longest is None:
        return ""
    text = length_text(budget.longest, circuit.law)
    if budget.cable.each is None and budget.cable.default is not None:
        return f"With that default up to {text} of cable would keep this limit."
    return f"Up to {text} of this cable keeps this limit."


def length_text(metres: Decimal, law: Law | None) -> str:
    """A length rounded down, in feet as well where the NEC governs."""
    text = show(_down(metres), Dimension.LENGTH)
    feet = metres / parse("1 ft", Dimension.LENGTH)
    return f"{text} ({_down(feet)} ft)" if law is Law.NEC else text


def _down(value: Decimal) -> Decimal:
    step = Decimal(1) if value >= 10 else Decimal("0.1")
    return value.quantize(step, ROUND_DOWN)


_REACTANCE_CLAUSE = (
    "IEC 60079-14:2013 16.2.4; IEC 60079-25:2010 9.3, Annex A; NFPA 70-2023 504.10; "
    "ISA-RP12.06.01-2003"
)

LOOP_CAPACITANCE = Rule[Circuit](
    id="loop-capacitance",
    title="Capacitance of devices and cable is within Co",
    family=Family.LOOPS,
    subject=Subject.LOOP,
    clause=_REACTANCE_CLAUSE,
    why="A capacitor that is shorted gives its charge to a spark; the source's certificate says "
    "how much capacitance its voltage may charge.",
    remedy="Shorten the cable or take one of less capacitance, or choose a device with a "
    "lower `Ci` or a source with a higher `Co`.",
    answer_by=Role.SUPPLIER,
    note="Co is taken for the most onerous group of all places that the loop enters. Where the "
    "devices lump more than 1 % of Co and of Lo, cable left out, both are halved and Co is capped "
    "at 1 µF, in IIC and Division groups A and B at 600 nF; not where `together` says that the "
    "certificate gives them as a pair. Default cable values count only where "
    "`values: default` is written. Whether the source's values lie below the published ignition "
    "curves is not checked.",
    ask=_asks(_judge_capacitance),
    judge=_judge_capacitance,
    examples=(
        example("200 m of default cable on a IIC barrier", Verdict.PASS),
        example(
            "Devices that lump both: Co is halved",
            Verdict.FLAG,
            changed("Li: 10 µH", "Li: 100 µH"),
        ),
        example(
            "The same where the certificate gives Co and Lo as a pair",
            Verdict.PASS,
            changed("Li: 10 µH", "Li: 100 µH").replace(
                "{item: '9', ", "{item: '9', together: yes, "
            ),
        ),
        example("No cable data", Verdict.UNPROVEN, changed(", values: default", "")),
    ),
)


class RatioRoute(Frozen):
    """L/R of the cable and what the source permits of it, in H/Ω: the other route for inductance.

    `blocked` says why the route cannot be taken although both are known; `default` is the row
    that the cable's figure comes from, if it does.
    """

    cable: Decimal
    allowed: Decimal
    blocked: str
    default: Figure | None

    @property
    def told(self) -> str:
        """Both figures and the margin."""
        against = f"L/R {show(self.cable, _RATIO)} against Lo/Ro {show(self.allowed, _RATIO)}"
        return f"{against}, {margin(self.cable, self.allowed)}"


_RATIO = Dimension.INDUCTANCE_PER_RESISTANCE


def _ratio_route(circuit: Circuit, budget: Budget) -> RatioRoute | None:
    """Both figures, and whether this circuit may be judged by them; None where one is not known.

    The route is for circuits whose devices lump next to no inductance. With both reactances above
    the lumped share it does not exist; with the inductance alone above it the permitted L/R has
    to be calculated anew, which is for a specialist (IEC 60079-14:2013, 16.2.4;
    IEC 60079-25:2010).
    """
    cable, default = _cable_ratio(circuit)
    allowed = _permitted_ratio(circuit)
    if cable is None or allowed is None:
        return None
    blocked = ""
    if budget.own.stands is not Lumped.BELOW:
        blocked = f"the devices' own inductance is not below {lumped_share().value} of what the "
        blocked += "source permits"
    elif len(circuit.sources) != 1:
        blocked = "it is for a single source"
    return RatioRoute(cable, allowed, blocked, default)


def _permitted_ratio(circuit: Circuit) -> Decimal | None:
    """The figure is stated for the loop's own group, which must do for every place."""
    stated = [source.inductance_per_resistance for source in circuit.sources]
    figures = [ByGroup(any=each) for each in stated if each is not None]
    found = [permitted(each, circuit.group, circuit.needs.groups).value for each in figures]
    return min((value for value in found if value is not None), default=None)


def _cable_ratio(circuit: Circuit) -> tuple[Decimal | None, Figure | None]:
    """The cable's L/R; the default one only where asked for and the current allows it."""
    cable = circuit.cable
    if cable is None:
        return None, None
    stated = cable.inductance_per_resistance
    row = _default_ratio(circuit) if cable.default and stated is None else None
    return (stated, None) if row is None else (row.amount(_RATIO), row)


def _default_ratio(circuit: Circuit) -> Figure | None:
    if circuit.law is None:
        return None
    law = circuit.law.value
    row = figure_if_any("cable inductance per resistance", law)
    most = figure_if_any("highest current for the default inductance per resistance", law)
    if row is None or most is None:
        return None
    limit = most.amount(Dimension.CURRENT)
    fits = all(s.current is not None and s.current <= limit for s in circuit.sources)
    return row if fits else None


def _judge_inductance(circuit: Circuit) -> Judgement:
    """Either route is enough.

    What keeps the second one shut is said with the first one's answer.
    """
    reckoned = budget(circuit, Dimension.INDUCTANCE)
    answer = _answer(circuit, reckoned)
    judgement = _judge(circuit, reckoned, answer)
    route = _ratio_route(circuit, reckoned)
    if judgement.verdict is Verdict.PASS or route is None:
        return judgement
    default = () if route.default is None else (Row.of_figure(route.default),)
    found, rows = f"{judgement.found}; {route.told}", (*judgement.rows, *default)
    judgement = replace(judgement, found=found, rows=rows)
    answer = replace(answer, found=found, rows=rows)
    too_much = reckoned.full is not None and reckoned.own.devices.known > reckoned.full
    known = circuit.devices and not circuit.needs.gaps
    if route.cable > route.allowed or too_much or not known:
        return judgement
    if not route.blocked:
        other = f"or a cable of at most {show(route.allowed, _RATIO)}"
        return replace(answer, required=f"{answer.required}, {other}").passed(
            f"The cable's L/R does not exceed Lo/Ro: {route.told}. Its length may be left out of "
            f"account for inductance. {NO_CURVES}"
        )
    alone = reckoned.halving is Halving.NO and reckoned.own.stands in (Lumped.AT, Lumped.ABOVE)
    if judgement.verdict is not Verdict.FLAG or not alone:
        return judgement
    return answer.unproven(
        Reason.NOT_JUDGED,
        f"{judgement.message} The cable's L/R would do ({route.told}), but {route.blocked}: the "
        "permitted ratio has to be calculated for this circuit by a specialist.",
        remedy=f"{_less(circuit, reckoned)[:-1]}; or have the ratio calculated and accept the "
        "finding by a waiver that names the calculation.",
    )


LOOP_INDUCTANCE = Rule[Circuit](
    id="loop-inductance",
    title="Inductance of devices and cable is within Lo",
    family=Family.LOOPS,
    subject=Subject.LOOP,
    clause=_REACTANCE_CLAUSE,
    why="An inductance whose current is broken gives its energy to a spark; the source's "
    "certificate says how much inductance its current may flow through.",
    remedy="Shorten the cable or take one of less inductance, choose a device with a lower `Li` or "
    "a source with a higher `Lo`, or state `Lo/Ro` and `inductance_per_resistance` of the cable.",
    answer_by=Role.SUPPLIER,
    note="Lo is taken for the most onerous group of all places that the loop enters, and halved "
    "with Co where the devices lump more than 1 % of both. A long cable may instead be judged by "
    "its L/R against Lo/Ro, where the devices lump less than 1 % of Lo. Whether the source's "
    "values lie below the published ignition curves is not checked.",
    ask=_asks(_judge_inductance),
    judge=_judge_inductance,
    examples=(
        example("200 m of default cable on a IIC barrier", Verdict.PASS),
        example("A cable of 5 km", Verdict.FLAG, changed("length: 200 m", "length: 5 km")),
        example(
            "The same with L/R below Lo/Ro",
            Verdict.PASS,
            changed("length: 200 m", "length: 5 km").replace("Lo: ", "Lo/Ro: 55 µH/Ω, Lo: "),
        ),
        example("A device whose Li is not stated", Verdict.UNPROVEN, changed(", Li: 10 µH", "")),
    ),
)
