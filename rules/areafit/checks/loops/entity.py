"""Entity values: what a source delivers, and what reaches it, against what is withstood."""

from collections.abc import Callable, Iterator
from decimal import Decimal

from areafit.checks.loops.circuit import (
    ASSESSED,
    CHECK_UNIT,
    amount,
    both,
    changed,
    example,
    margin,
    names,
    with_paths,
)
from areafit.checks.loops.needs import law_of
from areafit.facts.loop import LoopDevice, LoopSource
from areafit.facts.part import Generates, Kind
from areafit.facts.protection import Law
from areafit.facts.quantity import Dimension, show
from areafit.rule import Answer, Ask, Family, Judgement, Row, Rule, Subject
from areafit.subjects import LoopCase
from areafit.tables.limits import Figure, figure
from areafit.values import Frozen, replace
from areafit.verdict import Reason, Role, Verdict


class Delivered(Frozen):
    """What one source can deliver; None where it is not stated."""

    item: str
    value: Decimal | None


class EntityQuestion(Frozen):
    """Does a device withstand what the sources deliver? `device` is None where none is named.

    `limit` is infinite where the list says that the device has none; `simple` says that the part
    is simple apparatus and nothing else, `unloaded` that nothing in it is heated by its circuit.
    """

    dimension: Dimension
    law: Law | None
    sources: tuple[Delivered, ...]
    device: str | None
    limit: Decimal | None
    simple: bool
    unloaded: bool = False


def _asks(
    dimension: Dimension,
    delivered: Callable[[LoopSource], Decimal | None],
    withstood: Callable[[LoopDevice], Decimal | None],
) -> Callable[[LoopCase, None], Iterator[Ask[EntityQuestion]]]:
    """An `ask` that yields one question a device."""

    def ask(case: LoopCase, _demands: None) -> Iterator[Ask[EntityQuestion]]:
        law, loop = law_of(case), case.loop
        sources = tuple(Delivered(source.item, delivered(source)) for source in loop.sources)
        if not loop.devices:
            yield Ask(EntityQuestion(dimension, law, sources, None, None, simple=False), "devices")
        for i, (device, end) in enumerate(zip(loop.devices, case.devices, strict=True)):
            limit = withstood(device)
            part = end.equipment
            unloaded = dimension is Dimension.POWER and part is not None and part.dissipates_nothing
            question = EntityQuestion(
                dimension, law, sources, device.item, limit, end.simple, unloaded
            )
            yield Ask(question, f"devices/{i}")

    return ask


def _judge(question: EntityQuestion) -> Judgement:
    """Of several sources a single one that is too strong is flagged; their sum is not judged."""
    dimension, device, limit = question.dimension, question.device, question.limit
    if device is None:
        return Answer().unproven(
            Reason.FACT_MISSING,
            "The loop names no device.",
            remedy="List the `devices` of the loop.",
            answer_by=Role.DESIGNER,
        )
    pair = names(dimension, question.law)
    answer = Answer(
        required=f"{pair.output} at most {pair.input} of item {device}",
        found="; ".join(
            [
                f"{pair.output} {amount(s.value, dimension)} (item {s.item})"
                for s in question.sources
            ]
            + [f"{pair.input} {amount(limit, dimension)} (item {device})"]
        ),
    )
    stated = [(s.item, s.value) for s in question.sources if s.value is not None]
    for item, value in stated:
        if limit is not None and value > limit:
            return answer.flagged(
                f"{pair.output} {show(value, dimension)} of item {item} exceeds {pair.input} "
                f"{show(limit, dimension)} of item {device}: {margin(value, limit)}.",
                remedy=f"Choose a source of at most `{pair.key}: {show(limit, dimension)}`, or a "
                f"device of at least `{pair.input_key}: {show(value, dimension)}`.",
            )
    if limit is None or len(stated) < len(question.sources) or not stated:
        return _unstated(question, answer)
    return _within(question, answer, limit, stated)


def _unstated(question: EntityQuestion, answer: Answer) -> Judgement:
    pair = names(question.dimension, question.law)
    missing = [f"{pair.output} of item {s.item}" for s in question.sources if s.value is None]
    keys = [pair.key] if missing else []
    if not question.sources:
        missing.append("the source")
        keys.append("source")
    if question.limit is None:
        missing.append(f"{pair.input} of item {question.device}")
        keys.append(pair.input_key)
    message = f"Not stated: {', '.join(missing)}."
    if question.limit is None and question.simple and question.dimension is Dimension.POWER:
        message += f" {_power_of_simple()}"
    elif question.limit is None and question.simple:
        message += f" Write `{pair.input}: none` if the simple apparatus has no such limit."
    return answer.unproven(
        Reason.FACT_MISSING,
        message,
        remedy=f"State {both(f'`{key}`' for key in keys)} as the certificate or the control "
        "drawing does.",
    )


def _within(
    question: EntityQuestion, answer: Answer, limit: Decimal, stated: list[tuple[str, Decimal]]
) -> Judgement:
    """Every value is stated and none is too much for the device."""
    dimension, device = question.dimension, question.device
    pair = names(dimension, question.law)
    if limit.is_infinite() and not question.simple:
        return answer.unproven(
            Reason.CONDITION_TO_ACCEPT,
            f"Item {device} is said to have no {pair.input}. Only simple apparatus has none; of "
            "other devices somebody must confirm that the certificate names no such limit.",
            remedy=f"State `{pair.input_key}` from the certificate, or have it confirmed that it "
            "names none and accept the finding with that.",
        )
    if len(stated) > 1:
        return answer.unproven(
            Reason.NOT_JUDGED,
            f"Each source alone keeps {pair.input} of item {device}; what several sources deliver "
            "together is for a specialist.",
            remedy=ASSESSED,
        )
    item, value = stated[0]
    strange = _strange(question, limit, item, value)
    if strange is not None:
        message, row = strange
        return replace(answer, rows=(Row.of_figure(row),)).unproven(
            Reason.CONDITION_TO_ACCEPT, f"{message}: check the unit.", remedy=CHECK_UNIT
        )
    if limit.is_infinite():
        return answer.passed(
            f"Item {device} is simple apparatus without a limit of its own on {pair.word}."
        )
    return answer.passed(
        f"{pair.output} {show(value, dimension)} does not exceed {pair.input} "
        f"{show(limit, dimension)} of item {device}: {margin(value, limit)}."
    )


def _strange(
    question: EntityQuestion, limit: Decimal, item: str, value: Decimal
) -> tuple[str, Figure] | None:
    """A value so far from what certificates state that its unit may be wrong, and the row."""
    dimension = question.dimension
    pair = names(dimension, question.law)
    most = figure(f"greatest usual input {pair.word}")
    if limit.is_finite() and limit > most.amount(dimension):
        shown = f"{pair.input} {show(limit, dimension)} of item {question.device}"
        return f"{shown} is far above what certificates of such devices state", most
    least = figure(f"least usual output {pair.word}")
    if 0 < value < least.amount(dimension):
        shown = f"{pair.output} {show(value, dimension)} of item {item}"
        return f"{shown} is far below what certificates of sources state", least
    return None


def _judge_power(question: EntityQuestion) -> Judgement:
    """As the others, but that simple apparatus is heated by whatever power it takes."""
    if question.limit is None or not question.limit.is_infinite() or not question.simple:
        return _judge(question)
    if question.unloaded:
        hottest = figure("surface of a switch or terminal box", "40 °C")
        return Answer(
            required=f"Po at most Pi of item {question.device}",
            found=f"Pi none (item {question.device})",
            rows=(Row.of_figure(hottest),),
            clause="IEC 60079-11:2011 5.7",
        ).passed(f"Nothing in item {question.device} is heated by its circuit.")
    power, surface = (
        figure("small component power for T4", "40 °C"),
        figure("surface of a small component"),
    )
    return Answer(
        required=f"Po at most Pi of item {question.device}",
        found=f"Pi none (item {question.device})",
        rows=(Row.of_figure(power), Row.of_figure(surface)),
    ).unproven(
        Reason.CONDITION_TO_ACCEPT,
        f"Whatever power simple apparatus takes heats it, so Pi of item {question.device} cannot "
        "be `none`.",
        remedy=_power_of_simple(),
        answer_by=Role.DESIGNER,
    )


def _power_of_simple() -> str:
    """What to state as Pi of simple apparatus."""
    power, surface = (
        figure("small component power for T4", "40 °C"),
        figure("surface of a small component"),
    )
    return (
        "State as `Pi` the power at which its surfaces stay within the temperature class; for T4 "
        f"that is {power.value} at {power.applies_to} if they measure at least {surface.value}."
    )


_CLAUSE = (
    "IEC 60079-14:2013 16.2.4; IEC 60079-25:2010 Annex A; NFPA 70-2023 504.10; ISA-RP12.06.01-2003"
)
_NOTE = "Whether the source's values lie below the published ignition curves is not checked."

LOOP_VOLTAGE = Rule[EntityQuestion](
    id="loop-voltage",
    title="No device gets more voltage than it withstands",
    family=Family.LOOPS,
    subject=Subject.LOOP,
    clause=_CLAUSE,
    why="A device is safe with a source only while the source cannot exceed the voltage that the "
    "device was assessed with.",
    remedy="Choose a source with a lower Uo or a device with a higher Ui.",
    answer_by=Role.SUPPLIER,
    note=_NOTE,
    ask=_asks(Dimension.VOLTAGE, lambda source: source.voltage, lambda device: device.voltage),
    judge=_judge,
    examples=(
        example("28 V into a device for 30 V", Verdict.PASS),
        example("28 V into a device for 24 V", Verdict.FLAG, changed("Ui: 30 V", "Ui: 24 V")),
        example("A device whose Ui is not stated", Verdict.UNPROVEN, changed("Ui: 30 V, ", "")),
    ),
)

LOOP_CURRENT = Rule[EntityQuestion](
    id="loop-current",
    title="No device gets more current than it withstands",
    family=Family.LOOPS,
    subject=Subject.LOOP,
    clause=_CLAUSE,
    why="The device was assessed, its inner wires and components included, for a current that the "
    "source must not exceed even when shorted.",
    remedy="Choose a source with a lower Io or a device with a higher Ii.",
    answer_by=Role.SUPPLIER,
    note=_NOTE,
    ask=_asks(Dimension.CURRENT, lambda source: source.current, lambda device: device.current),
    judge=_judge,
    examples=(
        example("93 mA into a device for 300 mA", Verdict.PASS),
        example("93 mA into a device for 80 mA", Verdict.FLAG, changed("Ii: 300 mA", "Ii: 80 mA")),
        example("A device whose Ii is not stated", Verdict.UNPROVEN, changed("Ii: 300 mA, ", "")),
    ),
)

LOOP_POWER = Rule[EntityQuestion](
    id="loop-power",
    title="No device gets more power than it withstands",
    family=Family.LOOPS,
    subject=Subject.LOOP,
    clause=_CLAUSE,
    why="Matched power heats the smallest component of a device; voltage and current alone do not "
    "bound it.",
    remedy="Choose a source with a lower Po or a device with a higher Pi; of a linear source Po is "
    "Uo times Io over 4.",
    answer_by=Role.SUPPLIER,
    note="Simple apparatus needs a Pi too: the power that it bears within the temperature class of "
    "its place. " + _NOTE,
    ask=_asks(Dimension.POWER, lambda source: source.power, lambda device: device.power),
    judge=_judge_power,
    examples=(
        example("0.65 W into a device for 1 W", Verdict.PASS),
        example("0.65 W into a device for 0.5 W", Verdict.FLAG, changed("Pi: 1 W", "Pi: 0.5 W")),
        example("A device whose Pi is not stated", Verdict.UNPROVEN, changed("Pi: 1 W, ", "")),
    ),
)


class SupplyReach(Frozen):
    """Um of a source and the highest voltage that can reach its safe side, in V."""

    item: str
    maximum: Decimal | None
    supply: Decimal | None


def _ask_supply(case: LoopCase, _demands: None) -> Iterator[Ask[SupplyReach]]:
    for path, source in with_paths(case.loop.sources):
        yield Ask(SupplyReach(source.item, source.maximum_voltage, source.supply), path)


def _judge_supply(question: SupplyReach) -> Judgement:
    item, maximum, supply = question.item, question.maximum, question.supply
    answer = Answer(
        required=f"supply at most Um of item {item}",
        found=f"Um {amount(maximum, Dimension.VOLTAGE)}, "
        f"supply {amount(supply, Dimension.VOLTAGE)}",
    )
    if supply == 0:
        return answer.passed(f"Nothing can reach a safe side of item {item}.")
    if maximum is None or supply is None:
        um, reach = "Um", "the highest voltage that can reach its safe side"
        missing = [name for name, value in ((um, maximum), (reach, supply)) if value is None]
        verb = "are" if len(missing) > 1 else "is"
        return answer.unproven(
            Reason.FACT_MISSING, f"Of item {item} {' and '.join(missing)} {verb} not stated."
        )
    if supply > maximum:
        return answer.flagged(
            f"Up to {show(supply, Dimension.VOLTAGE)} can reach item {item}, more "
            f"than its Um: {margin(supply, maximum)}.",
            remedy="Feed it so that no more than its Um can reach it, "
            f"`supply: {show(maximum, Dimension.VOLTAGE)}` at most, or choose a source of at least "
            f"`Um: {show(supply, Dimension.VOLTAGE)}`.",
        )
    return answer.passed(f"No more than Um can reach item {item}: {margin(supply, maximum)}.")


LOOP_SUPPLY = Rule[SupplyReach](
    id="loop-supply",
    title="No more than Um can reach the source",
    family=Family.LOOPS,
    subject=Subject.LOOP,
    clause="IEC 60079-14:2013 16.2.1; IEC 60079-25:2010 Annex A; NFPA 70-2023 504.10",
    why="Above Um the safe side can break through to the circuit in the hazardous area.",
    remedy="State `Um` from the certificate of the source, and `supply`, the most that can reach "
    "its safe side: the mains voltage, where all that it hangs on is fed from that. A source "
    "without a safe side, such as a battery, states `supply: 0 V`.",
    answer_by=Role.DESIGNER,
    note="Um is often 250 V, but not always: some sources have 60 V or 30 V, for supply from "
    "extra-low voltage only, and the mains behind a power supply counts unless that is rated for "
    "it.",
    ask=_ask_supply,
    judge=_judge_supply,
    examples=(
        example("230 V on a barrier for 250 V", Verdict.PASS),
        example(
            "480 V on a barrier for 250 V",
            Verdict.FLAG,
            changed("supply: 230 V", "supply: 480 V"),
        ),
        example("Um without the supply", Verdict.UNPROVEN, changed("supply: 230 V, ", "")),
        example("Neither is stated", Verdict.UNPROVEN, changed("Um: 250 V, supply: 230 V, ", "")),
    ),
)


class Generated(Frozen):
    """A simple apparatus and what it can generate."""

    item: str
    generates: Generates | None


def _ask_simple(case: LoopCase, _demands: None) -> Iterator[Ask[Generated]]:
    for i, end in enumerate(case.devices):
        if end.equipment is not None and Kind.SIMPLE_APPARATUS in end.equipment.kinds:
            yield Ask(Generated(end.item, end.equipment.generates), f"devices/{i}")


def _judge_simple(question: Generated) -> Judgement:
    stated = question.generates or Generates()
    nothing = Decimal(0) if stated.output is False else None
    listed = [
        (word, dimension, nothing if value is None else value, figure(f"simple apparatus {word}"))
        for word, dimension, value in (
            ("voltage", Dimension.VOLTAGE, stated.voltage),
            ("current", Dimension.CURRENT, stated.current),
            ("power", Dimension.POWER, stated.power),
        )
    ]
    answer = Answer(
        required="at most " + ", ".join(row.value for *_, row in listed),
        found=", ".join(f"{word} {amount(value, each)}" for word, each, value, _ in listed),
        rows=tuple(Row.of_figure(row) for *_, row in listed),
    )
    for word, dimension, value, row in listed:
        limit = row.amount(dimension)
        if value is not None and value > limit:
            return answer.flagged(
                f"Item {question.item} generates {show(value, dimension)}; simple apparatus "
                f"generates a {word} of at most {row.value}: {margin(value, limit)}."
            )
    if any(value is None for _, _, value, _ in listed):
        return answer.unproven(
            Reason.FACT_MISSING,
            f"What item {question.item} generates is not stated in full; state zero of what "
            "is passive.",
        )
    return answer.passed(
        f"Item {question.item} keeps the limits of simple apparatus, so it counts as passive."
    )


_SWITCH = "{kind: simple apparatus, generates: {voltage: 0 V, current: 0 A, power: 0 W}}"

LOOP_SIMPLE_APPARATUS = Rule[Generated](
    id="loop-simple-apparatus",
    title="Simple apparatus adds next to no energy",
    family=Family.LOOPS,
    subject=Subject.LOOP,
    clause="IEC 60079-11:2011 5.7; IEC 60079-14:2013 16.4; NFPA 70-2023 504.10(D)",
    why="A part without a certificate may hang in the circuit only while it adds nothing that "
    "counts; otherwise it is a second source.",
    remedy="State `generates` of the part, or take a certified one.",
    answer_by=Role.DESIGNER,
    note="Its temperature is judged by the rules for parts, and the power that it bears by "
    "`loop-power`. Older North American texts have 1.2 V in place of 1.5 V.",
    ask=_ask_simple,
    judge=_judge_simple,
    examples=(
        example("A limit switch", Verdict.PASS, sensor=_SWITCH),
        example(
            "A cell of 3.6 V",
            Verdict.FLAG,
            sensor=_SWITCH.replace("voltage: 0 V", "voltage: 3.6 V"),
        ),
        example(
            "A switch of which nothing is stated",
            Verdict.UNPROVEN,
            sensor="{kind: simple apparatus}",
        ),
    ),
)
