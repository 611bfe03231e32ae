"""Surface temperature that a dust or fibre allows, as cloud and as layer."""

from decimal import Decimal

from areafit.demands.demand import Gap, Limit, unknown_substance
from areafit.demands.figures import LayerFigure
from areafit.demands.gas import declared_limits
from areafit.demands.present import Present
from areafit.facts.place import Area
from areafit.facts.protection import Hazard, Law
from areafit.facts.quantity import number
from areafit.verdict import Reason

_CLOUD_SHARE = (Decimal(2), Decimal(3))
_LAYER_MARGIN = Decimal(75)
_TESTED_LAYER = Decimal("0.005")
_ORGANIC_CAP = Decimal(165)
_IEC_CLAUSE = "IEC 60079-14:2013 5.6.3"
_NEC_CLAUSE = "NFPA 70-2023 500.8(D)(2), 506.9(D)"


def dust_limits(
    law: Law,
    areas: tuple[Area, ...],
    substances: tuple[Present, ...],
    layer: Decimal | None,
) -> tuple[tuple[Limit, ...], tuple[Gap, ...]]:
    """Declared maxima and the limits of every dust present; `layer` in metres, 0 for none."""
    limits = declared_limits(Hazard.DUST, areas)
    gaps: list[Gap] = []
    for dust in (s for s in substances if Hazard.DUST in s.hazards):
        if not dust.known:
            gaps.append(unknown_substance(dust))
        elif law is Law.NEC:
            _nec(dust, layer, limits, gaps)
        else:
            _iec(dust, layer, limits, gaps)
    if not limits and not gaps:
        gaps.append(
            Gap(Reason.FACT_MISSING, "the place declares no maximum temperature and lists no dust")
        )
    return tuple(limits), tuple(gaps)


def _iec(dust: Present, layer: Decimal | None, limits: list[Limit], gaps: list[Gap]) -> None:
    """Two thirds of the cloud's ignition temperature; the 5 mm layer's less 75 K."""
    cloud, figure = dust.cloud(), dust.layer()
    if cloud is None:
        gaps.append(Gap(Reason.NO_DATA, f"no cloud ignition temperature is known for {dust.name}"))
    else:
        share = cloud.value * _CLOUD_SHARE[0] / _CLOUD_SHARE[1]
        cause = f"2/3 of the {number(cloud.value)} °C at which a cloud of {dust.name} ignites"
        limits.append(Limit(share, cause, _IEC_CLAUSE, inclusive=True, rows=cloud.rows))
    if layer == 0:
        return
    if layer is not None and layer > _TESTED_LAYER:
        thickness = number(layer * 1000)
        gaps.append(
            Gap(
                Reason.NO_DATA,
                f"a layer of {thickness} mm of {dust.name} is thicker than the 5 mm that the "
                "75 K rule covers; a test at that thickness is needed",
            )
        )
    if figure is None or figure.value is None:
        gaps.append(_no_layer(dust, figure))
        return
    cause = f"{number(figure.value)} °C at which a layer of {dust.name} ignites, less 75 K"
    limit = figure.value - _LAYER_MARGIN
    limits.append(Limit(limit, cause, _IEC_CLAUSE, inclusive=True, rows=figure.rows))


def _nec(dust: Present, layer: Decimal | None, limits: list[Limit], gaps: list[Gap]) -> None:
    """Below the lower of cloud and layer; 165 °C at most where the dust may carbonise."""
    cloud, figure = dust.cloud(), dust.layer()
    temperatures = [(cloud.value, "a cloud", cloud.rows)] if cloud is not None else []
    if layer != 0 and figure is not None and figure.value is not None:
        temperatures.append((figure.value, "a layer", figure.rows))
    if not temperatures:
        gaps.append(Gap(Reason.NO_DATA, f"no ignition temperature is known for {dust.name}"))
    elif layer != 0 and (figure is None or figure.value is None):
        gaps.append(_no_layer(dust, figure))
    for value, what, rows in temperatures:
        cause = f"{number(value)} °C at which {what} of {dust.name} ignites"
        limits.append(
            Limit(value, cause, _NEC_CLAUSE, no_margin_at_limit=True, ignition=True, rows=rows)
        )
    if dust.carbonises is not False:
        sure = dust.carbonises is True
        cause = f"{dust.name} {'may' if sure else 'is not shown not to'} dehydrate or carbonise"
        limits.append(Limit(_ORGANIC_CAP, cause, _NEC_CLAUSE, inclusive=True, uncertain=not sure))


def _no_layer(dust: Present, figure: LayerFigure | None) -> Gap:
    if figure is not None and figure.melts:
        return Gap(
            Reason.NO_DATA,
            f"a layer of {dust.name} melts before it ignites, so no layer temperature decides",
        )
    return Gap(Reason.NO_DATA, f"no layer ignition temperature is known for {dust.name}")
