"""Ambient range of the certificate and the catalogue against that of the place."""

from collections.abc import Iterator

from areafit.checks.area.ambient import judge_ambient
from areafit.checks.area.candidates import READS, Need, choices, need
from areafit.checks.area.question import AmbientQuestion
from areafit.demands import Demands
from areafit.facts.part import Equipment
from areafit.rule import Ask, Example, Family, Rule, Subject
from areafit.verdict import Role, Verdict


def _ask(equipment: Equipment, demands: Demands) -> Iterator[Ask[AmbientQuestion]]:
    """Once per hazard for marked and electrical parts; the catalogue range counts anywhere.

    A place without a stated ambient has its own finding, so parts are not asked.
    """
    if demands.ambient is None:
        return
    if need(equipment) is not Need.NONE and demands.classified:
        for hazard in demands.hazards:
            for choice in choices(equipment, demands, hazard):
                stated = choice.ambient.system is not None or choice.ambient.evidence
                yield Ask(choice.ambient, choice.path if stated else "ambient")
    elif equipment.ambient is not None:
        yield Ask(AmbientQuestion(demands.ambient, (), (), equipment.ambient, None), "ambient")


RULE = Rule[AmbientQuestion](
    id="ambient-range",
    title="Ambient range holds the place's",
    family=Family.AREA,
    subject=Subject.EQUIPMENT,
    clause="IEC 60079-0:2017 5.1.1; NFPA 70-2023 500.8(C)(5), 505.9(C)",
    why="Protection and temperature class hold only inside the certified range; outside it both "
    "are unknown, even where the temperature class would leave room.",
    remedy="Choose a part certified for the place's range, or have the range of the place "
    "(the air at the part, sun and neighbours included) confirmed.",
    answer_by=Role.SUPPLIER,
    note="Where no Ta is printed, -20..40 °C holds under IEC, ATEX and NFPA 70 zones, and "
    "-25..40 °C for Division equipment. A catalogue range never widens the certified one.",
    reads=READS,
    ask=_ask,
    judge=judge_ambient,
    examples=(
        Example(
            "Marked Ta holds the place",
            Verdict.PASS,
            "{kind: electrical, marking: Ex db IIB T4 Gb -40 °C ≤ Ta ≤ +60 °C}",
            "{area: 'Zone 1, IIB, T3', ambient: -30..55 °C}",
        ),
        Example(
            "A hot place and no Ta printed",
            Verdict.FLAG,
            "{kind: electrical, marking: Ex db IIB T4 Gb}",
            "{area: 'Zone 1, IIB, T3', ambient: 5..50 °C}",
        ),
        Example(
            "An unmarked part without a catalogue range",
            Verdict.UNPROVEN,
            "{kind: electrical}",
            "{area: 'Zone 1, IIB, T3', ambient: 5..40 °C}",
        ),
    ),
)
