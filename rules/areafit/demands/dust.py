"""Surface temperature that a dust or fibre allows, as cloud and as layer."""

from collections.abc import Iterator
from decimal import Decimal

from areafit.demands.demand import Gap, Limit, unknown_substance
from areafit.demands.substances import LayerIgnition, ResolvedSubstance
from areafit.demands.temperature import declared_limits
from areafit.facts.place import Area
from areafit.facts.protection import Hazard, Law
from areafit.facts.quantity import Dimension, number
from areafit.rule import Row
from areafit.tables.limits import figure
from areafit.values import replace
from areafit.verdict import Basis, Reason, weakest

_NEC_CLAUSE = "NFPA 70-2023 500.8(D)(2), 506.9(D)"


def dust_limits(
    law: Law,
    areas: tuple[Area, ...],
    substances: tuple[ResolvedSubstance, ...],
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


def _iec(
    dust: ResolvedSubstance, layer: Decimal | None, limits: list[Limit], gaps: list[Gap]
) -> None:
    """A share of the cloud's ignition temperature; that of the tested layer less a margin."""
    cloud, ignition = dust.cloud(), dust.layer()
    if cloud is None:
        gaps.append(_no_data("no cloud ignition temperature is known for", dust))
    else:
        share = figure("share of the ignition temperature of a dust cloud")
        cause = (
            f"{share.value} of the {number(cloud.value)} °C at which a cloud of {dust.name} ignites"
        )
        rows = (*cloud.rows, Row.of_figure(share))
        limits.append(
            Limit(share.fraction_of(cloud.value), cause, share.clause, inclusive=True, rows=rows)
        )
    if layer == 0:
        return
    margin = figure("margin below the ignition temperature of a dust layer")
    tested = figure("thickness of the tested dust layer")
    if layer is not None and layer > tested.amount(Dimension.LENGTH):
        thickness = number(layer * 1000)
        gaps.append(
            Gap(
                Reason.NO_DATA,
                f"a layer of {thickness} mm of {dust.name} is thicker than the {tested.value} that "
                f"the {margin.value} rule covers; a test at that thickness is needed",
                about=(dust.name, f"{thickness} mm"),
                remedy_told=f"Keep the layer at {tested.value} or less, or have the surface tested "
                f"under {thickness} mm and accept the finding with the report.",
            )
        )
    if ignition is None or ignition.value is None:
        gaps.append(_no_layer(dust, ignition))
        return
    limits += _of_layer(dust, ignition, layer)


def _of_layer(
    dust: ResolvedSubstance, ignition: LayerIgnition, layer: Decimal | None
) -> Iterator[Limit]:
    """By the layer that the rule is for; by a thicker one what is not known of that.

    A thick layer ignites at a lower temperature than a thin one: what stays below it is safe, and
    what does not is not refused by it.
    """
    tested = figure("thickness of the tested dust layer")
    most = tested.amount(Dimension.LENGTH)
    thin = dust.thin_layer(most * 1000)
    known = thin if thin is not None and thin.value is not None else None
    if layer is not None and layer > most:
        yield _less_the_margin(dust, ignition)
        return
    if known is not None:
        yield _less_the_margin(dust, known)
    own = dust.stated.layer_ignition
    founded = known is not None and weakest(r.basis for r in known.rows) is not Basis.JUDGEMENT
    if founded and (own is None or own == ignition.value):
        return
    limit = _less_the_margin(dust, ignition)
    yield replace(
        limit,
        cause=f"{limit.cause}; the layer tested was thicker than the {tested.value} of the rule",
        uncertain=True,
        cure=f"State `layer_ignition` of {dust.name} from a test at {tested.value}, with its "
        "source and the document on file.",
    )


def _less_the_margin(dust: ResolvedSubstance, ignition: LayerIgnition) -> Limit:
    margin = figure("margin below the ignition temperature of a dust layer")
    tested = figure("thickness of the tested dust layer")
    value = ignition.value or Decimal(0)
    return Limit(
        value - margin.kelvin,
        f"{number(value)} °C at which a layer of {dust.name} ignites, less {margin.value}",
        margin.clause,
        inclusive=True,
        rows=(*ignition.rows, *map(Row.of_figure, (margin, tested))),
    )


def _nec(
    dust: ResolvedSubstance, layer: Decimal | None, limits: list[Limit], gaps: list[Gap]
) -> None:
    """Below the lower of cloud and layer; capped where the dust may carbonise."""
    cloud, ignition = dust.cloud(), dust.layer()
    temperatures = [(cloud.value, "a cloud", cloud.rows)] if cloud is not None else []
    if layer != 0 and ignition is not None and ignition.value is not None:
        temperatures.append((ignition.value, "a layer", ignition.rows))
    if not temperatures:
        gaps.append(_no_data("no ignition temperature is known for", dust))
    elif layer != 0 and (ignition is None or ignition.value is None):
        gaps.append(_no_layer(dust, ignition))
    for value, what, rows in temperatures:
        cause = f"{number(value)} °C at which {what} of {dust.name} ignites"
        limits.append(
            Limit(value, cause, _NEC_CLAUSE, no_margin_at_limit=True, ignition=True, rows=rows)
        )
    if dust.carbonises is not False:
        sure = dust.carbonises is True
        cause = f"{dust.name} {'may' if sure else 'is not shown not to'} dehydrate or carbonise"
        cap = figure("highest surface temperature on dust that may carbonise", "NEC")
        limits.append(
            Limit(
                cap.amount(Dimension.TEMPERATURE),
                cause,
                cap.clause,
                inclusive=True,
                uncertain=not sure,
                rows=(Row.of_figure(cap),),
            )
        )


def _no_layer(dust: ResolvedSubstance, ignition: LayerIgnition | None) -> Gap:
    if ignition is not None and ignition.melts:
        return Gap(
            Reason.NO_DATA,
            f"a layer of {dust.name} melts before it ignites, so no layer temperature decides",
            about=(dust.name,),
        )
    return _no_data("no layer ignition temperature is known for", dust)


def _no_data(what: str, dust: ResolvedSubstance) -> Gap:
    return Gap(Reason.NO_DATA, f"{what} {dust.name}", about=(dust.name,))
