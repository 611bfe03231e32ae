"""Surface temperature that the area itself, a gas or vapour, or fibres allow."""

from collections.abc import Iterator

from areafit.demands.demand import Gap, Limit, unknown_substance, whence
from areafit.demands.substances import GoverningTemperature, ResolvedSubstance
from areafit.facts.place import Area
from areafit.facts.protection import Hazard, Law
from areafit.facts.quantity import Dimension, number
from areafit.rule import Row
from areafit.tables.limits import figure
from areafit.values import replace
from areafit.verdict import Reason

AUTOIGNITION_CLAUSE = {
    Law.IEC: "IEC 60079-14:2013 5.6.2",
    Law.ATEX: "EN 60079-14:2014 5.6.2",
    Law.NEC: "NFPA 70-2023 500.8(D)(1), 505.9(D)(1)",
}


def declared_limits(hazard: Hazard, areas: tuple[Area, ...]) -> list[Limit]:
    """The temperature classes or maxima that the area classification itself declares."""
    return [
        Limit(
            area.maximum,
            f"declared {area.temperature_class or f'maximum {number(area.maximum)} °C'}",
            "IEC 60079-0:2017 Table 2; NFPA 70-2023 Table 500.8(C)(4)",
            inclusive=True,
            declared=True,
        )
        for area in areas
        if area.hazard is hazard and area.maximum is not None
    ]


def gas_limits(
    law: Law, areas: tuple[Area, ...], substances: tuple[ResolvedSubstance, ...]
) -> tuple[tuple[Limit, ...], tuple[Gap, ...]]:
    """Declared classes and the autoignition temperature of every gas or vapour present.

    A class limit equal to the autoignition temperature fails under IEC and ATEX, whose class
    table asks for more; NFPA 70 says `not exceed`, so equality there leaves no margin.
    """
    limits = declared_limits(Hazard.GAS, areas)
    gaps = []
    for substance in substances:
        if Hazard.GAS not in substance.hazards:
            continue
        figure = substance.autoignition()
        if figure is None:
            gaps.append(_unknown(substance))
            continue
        limits += _ignites(law, substance.name, figure)
    if not limits and not gaps:
        gaps.append(
            Gap(
                Reason.FACT_MISSING,
                "the place declares no temperature class and lists no substance",
            )
        )
    return tuple(limits), tuple(gaps)


def _ignites(law: Law, name: str, figure: GoverningTemperature) -> Iterator[Limit]:
    """The limit by the table, and one by what somebody stated instead: above both is refused."""
    limit = Limit(
        figure.value,
        f"{name} ignites at {number(figure.value)} °C",
        AUTOIGNITION_CLAUSE[law],
        no_margin_at_limit=law is Law.NEC,
        ignition=True,
        rows=figure.rows,
    )
    if figure.milder is None:
        yield limit
        return
    stated, row = figure.milder
    yield replace(limit, uncertain=True, milder=figure.milder)
    # the sentence must be true where it holds and where it does not
    own = f"by its row, and at {number(stated)} °C by that {whence(row)}"
    yield replace(limit, maximum=stated, cause=f"{limit.cause} {own}")


def _unknown(substance: ResolvedSubstance) -> Gap:
    if not substance.known:
        return unknown_substance(substance)
    message = f"no autoignition temperature is known for {substance.name}"
    return Gap(Reason.NO_DATA, message, about=(substance.name,))


def fibre_limits() -> tuple[Limit, ...]:
    """The limit beside easily ignited fibres and flyings, and the lower one under overload.

    Above the lower one it must be shown that the equipment cannot be overloaded, so it is
    uncertain here and `temperature-class` settles it with the part's own statement.
    """
    highest = figure("highest surface temperature beside fibres", "NEC")
    overloaded = figure("highest surface temperature beside fibres under overload", "NEC")
    return (
        Limit(
            highest.amount(Dimension.TEMPERATURE),
            "Class III, not subject to overload",
            highest.clause,
            inclusive=True,
            rows=(Row.of_figure(highest),),
        ),
        Limit(
            overloaded.amount(Dimension.TEMPERATURE),
            "Class III, where it may be overloaded",
            overloaded.clause,
            inclusive=True,
            uncertain=True,
            overload=True,
            rows=(Row.of_figure(overloaded),),
        ),
    )
