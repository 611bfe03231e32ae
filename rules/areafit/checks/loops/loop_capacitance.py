"""Capacitance of devices and cable against what the source permits."""

from collections.abc import Iterator

from areafit.cases import LoopCase
from areafit.checks.loops.budget import budget
from areafit.checks.loops.circuit import Circuit
from areafit.checks.loops.examples import CIRCUIT, changed, example
from areafit.checks.loops.needs import waits
from areafit.checks.loops.reactance import judge_budget
from areafit.facts.quantity import Dimension
from areafit.rule import Ask, Family, Judgement, Rule, Subject
from areafit.verdict import Role, Verdict


def _ask(case: LoopCase, _demands: None) -> Iterator[Ask[Circuit]]:
    circuit = Circuit.of(case)
    if not waits(case, circuit.needs.gaps, lambda gaps: _judge(circuit.over(gaps)).verdict):
        yield Ask(circuit)


def _judge(circuit: Circuit) -> Judgement:
    return judge_budget(circuit, budget(circuit, Dimension.CAPACITANCE))


LOOP_CAPACITANCE = Rule[Circuit](
    id="loop-capacitance",
    title="Capacitance of devices and cable is within Co",
    family=Family.LOOPS,
    subject=Subject.LOOP,
    clause="IEC 60079-14:2013 16.2.4; IEC 60079-25:2010 9.3, Annex A; NFPA 70-2023 504.10; "
    "ISA-RP12.06.01-2003",
    why="A capacitor that is shorted gives its charge to a spark; the source's certificate says "
    "how much capacitance its voltage may charge.",
    remedy="Shorten the cable or take one of less capacitance, or choose a device with a "
    "lower Ci or a source with a higher Co.",
    answer_by=Role.SUPPLIER,
    note="Co is taken for the most onerous group of all places that the loop enters. Where the "
    "devices lump more than 1 % of Co and of Lo, cable left out, both are halved and Co is capped "
    "at 1 µF, in IIC and Division groups A and B at 600 nF. Default cable values count only where "
    "`values: default` is written. Whether the source's values lie below the published ignition "
    "curves is not checked.",
    ask=_ask,
    judge=_judge,
    examples=(
        example("200 m of default cable on a IIC barrier", Verdict.PASS, CIRCUIT),
        example(
            "Devices that lump both: Co is halved",
            Verdict.FLAG,
            changed("Li: 10 µH", "Li: 100 µH"),
        ),
        example(
            "No cable data",
            Verdict.UNPROVEN,
            changed(", values: default", ""),
        ),
    ),
)
