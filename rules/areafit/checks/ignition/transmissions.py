"""Brakes and clutches: what a stop or a slip turns into heat, and what ends it."""

from collections.abc import Iterator

from areafit.checks.ignition.assessment import by_hand
from areafit.demands import Demands
from areafit.facts.mechanics import Brake, BrakeUse, Slip
from areafit.facts.part import Body, Kind
from areafit.facts.quantity import Dimension, show
from areafit.rule import Answer, Ask, Example, Family, Judgement, Rule, Subject
from areafit.tables.part_names import Topic, topics
from areafit.values import Frozen
from areafit.verdict import Reason, Role, Verdict

_TURNS = frozenset({Kind.MECHANICAL, Kind.ELECTRICAL})


def _called(body: Body, topic: Topic) -> bool:
    """Whether a part that moves is called so; a hand turns nothing hot."""
    own = body.equipment
    told = topics(own.description) if own.description is not None else frozenset()
    turns = bool(own.kinds & _TURNS) and not by_hand(body) and Topic.BY_HAND not in told
    return topic in told and turns


class BrakeStops(Frozen):
    """A brake in a classified place, as far as it is stated."""

    brake: Brake


def _ask_brake(body: Body, demands: Demands) -> Iterator[Ask[BrakeStops]]:
    """Parts that state a brake, and those that the description calls one or that come with one."""
    if demands.classified and (body.brake is not None or _called(body, Topic.BRAKE)):
        yield Ask(BrakeStops(body.brake or Brake()), "brake")


def _judge_brake(stops: BrakeStops) -> Judgement:
    brake = stops.brake
    said = (
        brake.use.value if brake.use else "use not stated",
        "" if brake.energy is None else f"{show(brake.energy, Dimension.ENERGY)} a stop",
        ""
        if brake.rated_energy is None
        else f"rated for {show(brake.rated_energy, Dimension.ENERGY)}",
        {True: "interlocked", False: "not interlocked", None: ""}[brake.interlocked],
    )
    answer = Answer(
        required="a stop within the energy that the brake is rated for; a drive that cannot start "
        "under a parking brake",
        found=", ".join(filter(None, said)),
    )
    energy, rated = brake.energy, brake.rated_energy
    if energy is not None and rated is not None and energy > rated:
        return answer.flagged(
            "One stop makes the brake hotter than it was assessed for.",
            remedy="Choose a larger brake, "
            f"`brake: {{rated_energy: {show(energy, Dimension.ENERGY)}}}` at least, or stop from a "
            f"lower speed, `brake: {{energy: {show(rated, Dimension.ENERGY)}}}` at most.",
        )
    if brake.use is None:
        return answer.unproven(
            Reason.FACT_MISSING,
            "What the brake is used for is not stated.",
            remedy="State `brake: {use: …}`.",
        )
    if brake.use is BrakeUse.PARKING:
        return _parking(brake, answer)
    if energy is None or rated is None:
        return answer.unproven(
            Reason.FACT_MISSING,
            "How much energy a stop puts into the brake, and how much it may take, is not both "
            "stated.",
            remedy="State `brake: {energy: …, rated_energy: …}`, of the hardest stop and from its "
            "Ex documents.",
        )
    return answer.passed("A stop stays within what the brake was assessed for.")


def _parking(brake: Brake, answer: Answer) -> Judgement:
    if brake.interlocked is None:
        return answer.unproven(
            Reason.FACT_MISSING,
            "Whether the drive can start under the brake is not stated.",
            remedy="State `brake: {interlocked: …}`.",
        )
    if not brake.interlocked:
        return answer.flagged(
            "A drive that starts under the brake drags it until it glows.",
            remedy="Interlock the drive with the brake, and state `brake: {interlocked: true}`.",
        )
    return answer.passed("The brake holds what stands, and the drive cannot start under it.")


BRAKE_ENERGY = Rule[BrakeStops](
    id="brake-energy",
    title="Brakes stay within the energy that they were assessed for",
    family=Family.IGNITION,
    subject=Subject.BODY,
    clause="ISO 80079-37:2016 5.11",
    why="A brake turns motion into heat; one stop too hard, or a drive that starts against it, "
    "makes it glow and spark.",
    remedy="State `brake: {use: …}`; of a parking brake whether the drive is interlocked, of "
    "others the energy of a stop and the energy that it is rated for.",
    answer_by=Role.DESIGNER,
    note="From memory of the clause. Marking or assessment of the brake itself is judged by "
    "`ignition-hazard`; the use on the machine is what no maker knows.",
    ask=_ask_brake,
    judge=_judge_brake,
    examples=(
        Example(
            "A service brake within its rating",
            Verdict.PASS,
            "{kind: mechanical, description: Disc brake, brake: {use: service, energy: 2 kJ, "
            "rated_energy: 5 kJ}}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
        Example(
            "A stop that is too hard",
            Verdict.FLAG,
            "{kind: mechanical, description: Disc brake, brake: {use: emergency stop, energy: 8 kJ,"
            " rated_energy: 5 kJ}}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
        Example(
            "A brake motor of which nothing is said",
            Verdict.UNPROVEN,
            "{kind: [electrical, mechanical], description: Brake motor}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
    ),
)


class ClutchSlip(Frozen):
    """What becomes of slip; None where it is not stated."""

    slip: Slip | None


def _ask_clutch(body: Body, demands: Demands) -> Iterator[Ask[ClutchSlip]]:
    """Clutches and couplings that may slip, and parts that state it."""
    if demands.classified and (body.slip is not None or _called(body, Topic.CLUTCH)):
        yield Ask(ClutchSlip(body.slip), "slip")


def _judge_clutch(clutch: ClutchSlip) -> Judgement:
    slip = clutch.slip
    answer = Answer(
        required="no slip, or one that stops the drive before the surface is too hot",
        found="not stated" if slip is None else f"slip {slip.value}",
    )
    if slip is None:
        return answer.unproven(
            Reason.FACT_MISSING, "What stops the drive when the coupling slips is not stated."
        )
    if slip is Slip.POSSIBLE:
        return answer.flagged("It slips until somebody sees it, and rubs itself hot.")
    return answer.passed(f"Slip is {slip.value}.")


CLUTCH_SLIP = Rule[ClutchSlip](
    id="clutch-slip",
    title="Clutches do not slip unseen",
    family=Family.IGNITION,
    subject=Subject.BODY,
    clause="ISO 80079-37:2016 5.9",
    why="A clutch, torque limiter or fluid coupling that slips turns the whole power of the drive "
    "into heat.",
    remedy="Monitor speed or temperature, fit a fusible plug, or choose a coupling that lets go at "
    "once; state `slip`.",
    answer_by=Role.DESIGNER,
    note="From memory of the clause. Marking or assessment of the clutch itself is judged by "
    "`ignition-hazard`.",
    ask=_ask_clutch,
    judge=_judge_clutch,
    examples=(
        Example(
            "A torque limiter whose switch stops the drive",
            Verdict.PASS,
            "{kind: mechanical, description: Torque limiter, slip: monitored}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
        Example(
            "A slip clutch that nobody watches",
            Verdict.FLAG,
            "{kind: mechanical, description: Slip clutch, slip: possible}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
        Example(
            "A fluid coupling of which nothing is said",
            Verdict.UNPROVEN,
            "{kind: mechanical, description: Fluid coupling}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
    ),
)
