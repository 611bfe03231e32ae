"""Voltage, current and power: what the source can deliver against what a device withstands."""

from collections.abc import Callable, Iterator
from decimal import Decimal
from typing import TypedDict

from areafit.cases import LoopCase
from areafit.checks.loops.figures import amount, margin
from areafit.checks.loops.needs import law_of
from areafit.checks.loops.words import CHECK_UNIT, names
from areafit.facts.loop import LoopDevice, LoopSource
from areafit.facts.part import Kind
from areafit.facts.protection import Law
from areafit.facts.quantity import Dimension, show
from areafit.rule import Ask, Judgement, Row, flagged, passed, unproven
from areafit.tables.figures import Figure, figure
from areafit.values import Frozen
from areafit.verdict import Reason, Role

CLAUSE = (
    "IEC 60079-14:2013 16.2.4; IEC 60079-25:2010 Annex A; NFPA 70-2023 504.10; ISA-RP12.06.01-2003"
)
NO_CURVES = "Whether the source's values lie below the published ignition curves is not checked."


class Delivered(Frozen):
    """What one source can deliver; None where it is not stated."""

    item: str
    value: Decimal | None


class EntityQuestion(Frozen):
    """Does a device withstand what the sources deliver? `device` is None where none is named.

    `limit` is infinite where the list says that the device has none; `simple` says that the part
    is simple apparatus and nothing else.
    """

    law: Law | None
    sources: tuple[Delivered, ...]
    device: str | None
    limit: Decimal | None
    simple: bool


def entity_asks(
    delivered: Callable[[LoopSource], Decimal | None],
    withstood: Callable[[LoopDevice], Decimal | None],
) -> Callable[[LoopCase, None], Iterator[Ask[EntityQuestion]]]:
    """An `ask` that yields one question a device."""

    def ask(case: LoopCase, _demands: None) -> Iterator[Ask[EntityQuestion]]:
        law, loop = law_of(case), case.loop
        sources = tuple(Delivered(source.item, delivered(source)) for source in loop.sources)
        if not loop.devices:
            yield Ask(EntityQuestion(law, sources, None, None, simple=False), "devices")
        for i, (device, end) in enumerate(zip(loop.devices, case.devices, strict=True)):
            kinds = end.equipment.kinds if end.equipment is not None else frozenset()
            simple = kinds == {Kind.SIMPLE_APPARATUS}
            question = EntityQuestion(law, sources, device.item, withstood(device), simple)
            yield Ask(question, f"devices/{i}")

    return ask


class Texts(TypedDict):
    """What every judgement on one quantity shows."""

    required: str
    found: str


def judge_entity(question: EntityQuestion, quantity: str, dimension: Dimension) -> Judgement:
    """Compare one quantity; `quantity` is `voltage`, `current` or `power`.

    With several sources a single one that is too strong is flagged; what they deliver together is
    left to a specialist.
    """
    pair = names(quantity, question.law)
    device, limit = question.device, question.limit
    if device is None:
        return unproven(Reason.FACT_MISSING, "The loop names no device.", answer_by=Role.DESIGNER)
    stated = [(s.item, s.value) for s in question.sources if s.value is not None]
    required = f"{pair.output} at most {pair.input} of item {device}"
    found = "; ".join(
        [f"{pair.output} {amount(s.value, dimension)} (item {s.item})" for s in question.sources]
        + [f"{pair.input} {amount(limit, dimension)} (item {device})"]
    )
    for item, value in stated:
        if limit is not None and value > limit:
            return flagged(
                f"{pair.output} {show(value, dimension)} of item {item} exceeds {pair.input} "
                f"{show(limit, dimension)} of item {device}: {margin(value, limit)}.",
                required=required,
                found=found,
                remedy=f"Choose a source with a lower {pair.output} or a device with a higher "
                f"{pair.input}.",
            )
    if limit is None or len(stated) < len(question.sources) or not stated:
        return _unstated(question, quantity, required, found)
    texts = Texts(required=required, found=found)
    return _withstood(question, quantity, dimension, limit, stated, texts)


def _withstood(  # noqa: PLR0913, PLR0917 - one place to weigh, all of it needed
    question: EntityQuestion,
    quantity: str,
    dimension: Dimension,
    limit: Decimal,
    stated: list[tuple[str, Decimal]],
    texts: Texts,
) -> Judgement:
    """Every value is stated and none is too much for the device."""
    pair, device = names(quantity, question.law), question.device
    if limit.is_infinite() and not question.simple:
        return unproven(
            Reason.CONDITION_TO_ACCEPT,
            f"Item {device} is said to have no {pair.input}. Only simple apparatus has none; of "
            "other devices somebody must confirm that the certificate names no such limit.",
            **texts,
        )
    if len(stated) > 1:
        return unproven(
            Reason.NOT_JUDGED,
            f"Each source alone keeps {pair.input} of item {device}; what several sources deliver "
            "together is for a specialist.",
            **texts,
        )
    item, value = stated[0]
    strange = _strange(question, quantity, dimension, (item, value))
    if strange is not None:
        message, row = strange
        return unproven(
            Reason.CONDITION_TO_ACCEPT,
            f"{message}: check the unit.",
            **texts,
            rows=(Row.of_figure(row),),
            remedy=CHECK_UNIT,
        )
    if limit.is_infinite():
        message = f"Item {device} is simple apparatus without a limit of its own on {quantity}."
    else:
        message = f"{pair.output} {show(value, dimension)} does not exceed {pair.input} "
        message += f"{show(limit, dimension)} of item {device}: {margin(value, limit)}."
    return passed(message, **texts)


def _strange(
    question: EntityQuestion, quantity: str, dimension: Dimension, source: tuple[str, Decimal]
) -> tuple[str, Figure] | None:
    """A value so far from what certificates state that its unit may be wrong, and the row."""
    pair, (item, value) = names(quantity, question.law), source
    most = figure(f"greatest usual input {quantity}")
    limit = question.limit
    if limit is not None and limit.is_finite() and limit > most.amount(dimension):
        shown = f"{pair.input} {show(limit, dimension)} of item {question.device}"
        return f"{shown} is far above what certificates of such devices state", most
    least = figure(f"least usual output {quantity}")
    if 0 < value < least.amount(dimension):
        shown = f"{pair.output} {show(value, dimension)} of item {item}"
        return f"{shown} is far below what certificates of sources state", least
    return None


def _unstated(question: EntityQuestion, quantity: str, required: str, found: str) -> Judgement:
    pair = names(quantity, question.law)
    missing = [f"{pair.output} of item {s.item}" for s in question.sources if s.value is None]
    if not question.sources:
        missing.append("the source")
    if question.limit is None:
        missing.append(f"{pair.input} of item {question.device}")
    message = f"Not stated: {', '.join(missing)}."
    if question.limit is None and question.simple:
        message += f" Write `{pair.input}: none` if the simple apparatus has no such limit."
    return unproven(
        Reason.FACT_MISSING,
        message,
        required=required,
        found=found,
        remedy="State it as the certificate or the control drawing does.",
    )
