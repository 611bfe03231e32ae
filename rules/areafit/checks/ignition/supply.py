"""Compressed air: drawn where it is clean, let out where it does no harm, safe when it fails."""

from collections.abc import Iterator

from areafit.demands import Demands
from areafit.facts.mechanics import AirSupply, Drive, LossOfAir, Side
from areafit.facts.part import Body, Kind
from areafit.facts.protection import Hazard
from areafit.rule import Answer, Ask, Example, Family, Judgement, Rule, Subject
from areafit.values import Frozen
from areafit.verdict import Reason, Role, Verdict


class DrivenBy(Frozen):
    """What drives the part, its air supply, and whether dust or fibres lie in the place."""

    drive: Drive | None
    supply: AirSupply | None
    dusty: bool


def _ask(body: Body, demands: Demands) -> Iterator[Ask[DrivenBy]]:
    """Every mechanical part, since an unnamed drive may be air; others that speak of air."""
    mechanical = Kind.MECHANICAL in body.equipment.kinds
    speaks = body.drive is Drive.PNEUMATIC or body.air_supply is not None
    if demands.classified and (mechanical or speaks):
        dusty = any(hazard.hazard is not Hazard.GAS for hazard in demands.hazards)
        key = "air_supply" if body.air_supply is not None else "drive"
        yield Ask(DrivenBy(body.drive, body.air_supply, dusty), key)


def _judge(question: DrivenBy) -> Judgement:
    supply = question.supply
    if supply is None and question.drive is Drive.PNEUMATIC:
        supply = AirSupply()
    answer = Answer(
        required="air drawn outside the area, let out harmlessly, a safe state when it fails",
        found=_found(question.drive, supply),
    )
    if supply is not None:
        return _of_air(supply, answer, dusty=question.dusty)
    if question.drive is None:
        return answer.unproven(
            Reason.FACT_MISSING, "What drives the part is not stated; it may be compressed air."
        )
    return answer.passed("No compressed air.")


def _found(drive: Drive | None, supply: AirSupply | None) -> str:
    if supply is None:
        return "drive not stated" if drive is None else f"drive: {drive.value}"
    stated = (("source", supply.source), ("exhaust", supply.exhaust), ("on loss", supply.on_loss))
    return ", ".join(f"{word}: {value.value if value else 'not stated'}" for word, value in stated)


def _of_air(supply: AirSupply, answer: Answer, *, dusty: bool) -> Judgement:
    if supply.source is Side.INSIDE:
        return answer.flagged(
            "Air drawn inside the area may carry the vapour or dust into the part.",
            remedy="Draw it outside, and state `air_supply: {source: outside the area}`.",
        )
    if supply.on_loss is LossOfAir.UNSAFE:
        return answer.flagged(
            "The part becomes unsafe when its air fails.",
            remedy="Have it fail safe, and state `air_supply: {on_loss: safe}`.",
        )
    if None in (supply.source, supply.exhaust, supply.on_loss):
        return answer.unproven(
            Reason.FACT_MISSING,
            "Source, exhaust and what happens on loss of air are not all stated.",
        )
    if dusty and supply.exhaust is Side.INSIDE:
        return answer.unproven(
            Reason.CONDITION_TO_ACCEPT,
            "Exhaust air that leaves where dust lies raises it into a cloud.",
            remedy="Pipe the exhaust out of the area, or have its place accepted.",
        )
    return answer.passed("The air comes from outside and its loss is safe.")


AIR_SUPPLY = Rule[DrivenBy](
    id="air-supply",
    title="Compressed air comes from outside and fails safe",
    family=Family.IGNITION,
    subject=Subject.BODY,
    clause="EN 1127-1:2019 (compression, gas streams); ISO 4414:2010 5 (loss of supply); common "
    "practice for the intake",
    why="A compressor that breathes the vapour of the area brings it into every cylinder; exhaust "
    "air raises dust; a load that drops when the air fails strikes.",
    remedy="State `drive`, and for compressed air `air_supply: {source: outside the area, "
    "exhaust: …, on_loss: safe}`.",
    answer_by=Role.DESIGNER,
    ask=_ask,
    judge=_judge,
    examples=(
        Example(
            "A cylinder fed from the compressor room",
            Verdict.PASS,
            "{kind: mechanical, drive: pneumatic, air_supply: {source: outside the area, "
            "exhaust: inside the area, on_loss: safe}}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
        Example(
            "Air drawn inside the area",
            Verdict.FLAG,
            "{kind: mechanical, drive: pneumatic, air_supply: {source: inside the area}}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
        Example(
            "A part whose drive is not named",
            Verdict.UNPROVEN,
            "{kind: mechanical}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
        Example(
            "A gearbox driven by a motor",
            Verdict.PASS,
            "{kind: mechanical, drive: electric}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
    ),
)
