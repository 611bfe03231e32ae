"""Temperature class or hottest surface against the declared class and what may ignite."""

from collections.abc import Iterator

from areafit.checks.area.candidates import Need, choices, need
from areafit.checks.area.heat_question import TemperatureQuestion
from areafit.checks.area.missing import Missing
from areafit.checks.area.surface import judge_temperature
from areafit.demands import Demands
from areafit.facts.part import Equipment
from areafit.rule import Ask, Example, Family, Rule, Subject
from areafit.verdict import Role, Verdict


def _ask(equipment: Equipment, demands: Demands) -> Iterator[Ask[TemperatureQuestion]]:
    """Electrical and marked parts, and any part that states a hottest surface."""
    if need(equipment) is Need.NONE and equipment.surface is None:
        return
    for hazard in demands.hazards:
        for choice in choices(equipment, demands, hazard):
            if choice.missing is Missing.ASSOCIATED and equipment.surface is None:
                continue  # `protection-level` flags the box where it stands
            path = "surface_temperature" if equipment.surface is not None else choice.path
            yield Ask(choice.temperature, choice.path if choice.temperature.temperatures else path)


TEMPERATURE_CLASS = Rule[TemperatureQuestion](
    id="temperature-class",
    title="Hottest surface stays below what ignites",
    family=Family.AREA,
    subject=Subject.EQUIPMENT,
    clause="NFPA 70-2023 500.8(C)(4), 500.8(D); IEC 60079-14:2013 5.6; IEC 60079-0:2017 Table 2",
    why="A surface hotter than the autoignition temperature ignites without any spark; on dust "
    "a layer insulates the part and smoulders well below the cloud's temperature.",
    remedy="Choose a part with a lower temperature class, or state its hottest surface with the "
    "test report and the ambient it was found at.",
    answer_by=Role.SUPPLIER,
    note="Where two published lists differ, the lower figure decides and both are shown. A class "
    "equal to the autoignition temperature fails under IEC and ATEX; NFPA 70 says `not exceed`, "
    "so there it is unproven. The 165 °C cap on organic dust is NFPA's; two thirds of the cloud "
    "and the layer less 75 K are IEC's. A cable gland, plug, adapter or conduit seal bears no "
    "class and makes no heat: it counts as hot as its place.",
    ask=_ask,
    judge=judge_temperature,
    examples=(
        Example(
            "T2D below the 225 °C of hexane",
            Verdict.PASS,
            "{kind: electrical, marking: 'Class I, Division 1, Groups C, D T2D'}",
            "{area: 'Class I, Division 1, Group D', substances: [n-hexane]}",
            "NEC",
        ),
        Example(
            "T3 on flour that may carbonise",
            Verdict.FLAG,
            "{kind: electrical, marking: 'Class II, Division 1, Groups E, F, G T3'}",
            "{area: 'Class II, Division 1, Group G', substances: [wheat flour]}",
            "NEC",
        ),
        Example(
            "Neither class nor surface",
            Verdict.UNPROVEN,
            "{kind: electrical, marking: Ex db IIB Gb}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
        Example(
            "A cable gland, which bears no class",
            Verdict.PASS,
            "{kind: electrical, device: cable gland, marking: Ex eb IIC Gb}",
            "{area: 'Zone 1, IIB, T3', substances: [ethanol], ambient: 5..40 °C}",
        ),
        Example(
            "T1 where propane ignites at the class limit",
            Verdict.FLAG,
            "{kind: electrical, marking: Ex db IIA T1 Gb}",
            "{area: Zone 1, substances: [propane]}",
        ),
    ),
)
