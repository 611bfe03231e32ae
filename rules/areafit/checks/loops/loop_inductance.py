"""Inductance of devices and cable against what the source permits, or the cable's L/R."""

from collections.abc import Iterator

from areafit.cases import LoopCase
from areafit.checks.loops.budget import budget
from areafit.checks.loops.circuit import Circuit
from areafit.checks.loops.examples import CIRCUIT, changed, example
from areafit.checks.loops.figures import margin
from areafit.checks.loops.lumped import Halving, Lumped
from areafit.checks.loops.needs import waits
from areafit.checks.loops.ratio import DIMENSION, ratio
from areafit.checks.loops.reactance import judge_budget
from areafit.checks.loops.words import NO_CURVES
from areafit.facts.quantity import Dimension, show
from areafit.rule import Ask, Family, Judgement, Row, Rule, Subject, passed, unproven
from areafit.values import replace
from areafit.verdict import Reason, Role, Verdict


def _ask(case: LoopCase, _demands: None) -> Iterator[Ask[Circuit]]:
    circuit = Circuit.of(case)
    if not waits(case, circuit.needs.gaps, lambda gaps: _judge(circuit.over(gaps)).verdict):
        yield Ask(circuit)


def _judge(circuit: Circuit) -> Judgement:
    """Either route is enough.

    What keeps the second one shut is said with the first one's answer.
    """
    reckoned = budget(circuit, Dimension.INDUCTANCE)
    judgement = judge_budget(circuit, reckoned)
    if judgement.verdict is Verdict.PASS:
        return judgement
    route = ratio(circuit, reckoned)
    if route.cable is None or route.permitted is None:
        return judgement
    text = f"L/R {show(route.cable, DIMENSION)} against Lo/Ro {show(route.permitted, DIMENSION)}"
    told = f"{text}, {margin(route.cable, route.permitted)}"
    rows = (
        judgement.rows if route.default is None else (*judgement.rows, Row.of_figure(route.default))
    )
    judgement = replace(judgement, rows=rows, found=f"{judgement.found}; {told}")
    blocked = circuit.needs.gaps or not circuit.devices
    too_much = reckoned.full is not None and reckoned.devices.known > reckoned.full
    if route.exceeds or too_much or blocked:
        return judgement
    if route.serves:
        return passed(
            f"The cable's L/R does not exceed Lo/Ro: {told}. Its length may be left out of "
            f"account for inductance. {NO_CURVES}",
            required=f"{judgement.required}, or a cable of at most "
            f"{show(route.permitted, DIMENSION)}",
            found=judgement.found,
            rows=rows,
        )
    alone = reckoned.halving is Halving.NO and reckoned.lumped in (Lumped.AT, Lumped.ABOVE)
    if judgement.verdict is not Verdict.FLAG or not alone:
        return judgement
    return unproven(
        Reason.NOT_JUDGED,
        f"{judgement.message} The cable's L/R would do ({told}), but {route.open}: the permitted "
        "ratio has to be calculated for this circuit by a specialist.",
        required=judgement.required,
        found=judgement.found,
        rows=rows,
    )


LOOP_INDUCTANCE = Rule[Circuit](
    id="loop-inductance",
    title="Inductance of devices and cable is within Lo",
    family=Family.LOOPS,
    subject=Subject.LOOP,
    clause="IEC 60079-14:2013 16.2.4; IEC 60079-25:2010 9.3, Annex A; NFPA 70-2023 504.10; "
    "ISA-RP12.06.01-2003",
    why="An inductance whose current is broken gives its energy to a spark; the source's "
    "certificate says how much inductance its current may flow through.",
    remedy="Shorten the cable or take one of less inductance, choose a device with a lower Li or a "
    "source with a higher Lo, or state Lo/Ro and the cable's L/R.",
    answer_by=Role.SUPPLIER,
    note="Lo is taken for the most onerous group of all places that the loop enters, and halved "
    "with Co where the devices lump more than 1 % of both. A long cable may instead be judged by "
    "its L/R against Lo/Ro, where the devices lump less than 1 % of Lo. Whether the source's "
    "values lie below the published ignition curves is not checked.",
    ask=_ask,
    judge=_judge,
    examples=(
        example("200 m of default cable on a IIC barrier", Verdict.PASS, CIRCUIT),
        example("A cable of 5 km", Verdict.FLAG, changed("length: 200 m", "length: 5 km")),
        example(
            "The same with L/R below Lo/Ro",
            Verdict.PASS,
            changed("length: 200 m", "length: 5 km").replace("Lo: ", "Lo/Ro: 55 µH/Ω, Lo: "),
        ),
        example("A device whose Li is not stated", Verdict.UNPROVEN, changed(", Li: 10 µH", "")),
    ),
)
