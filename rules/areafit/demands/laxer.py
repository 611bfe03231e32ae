"""Own values of a substance that are laxer than the table and have no document behind them."""

from collections.abc import Iterator
from decimal import Decimal

from areafit.demands.present import Present, as_severe
from areafit.facts.groups import Group
from areafit.facts.quantity import number
from areafit.tables.sources import Cited


def laxer(substance: Present) -> tuple[str, ...]:
    """Each laxer own value in words; such values do not govern until a document is named."""
    if substance.milder_allowed:
        return ()
    return (*_temperatures(substance), *_group(substance), *_carbonises(substance))


def _temperatures(substance: Present) -> Iterator[str]:
    own, gas, dust = substance.stated, substance.gas, substance.dust
    layer = dust.lowest_layer() if dust is not None else None
    pairs: tuple[tuple[str, Decimal | None, Decimal | None], ...] = (
        ("autoignition", own.autoignition, _value(gas.lowest_autoignition() if gas else None)),
        ("flash point", own.flash_point, _value(gas.lowest_flash_point() if gas else None)),
        ("cloud ignition", own.cloud_ignition, _value(dust.lowest_cloud() if dust else None)),
        ("layer ignition", own.layer_ignition, layer.value if layer is not None else None),
    )
    for word, value, table in pairs:
        if value is not None and table is not None and value > table:
            yield f"{word} {number(value)} °C (the table has {number(table)} °C)"


def _value(cited: Cited[Decimal] | None) -> Decimal | None:
    return cited.value if cited is not None else None


def _group(substance: Present) -> Iterator[str]:
    own = substance.stated.group
    table = substance.table_group(own.scheme) if own is not None else None
    if own is not None and table is not None and not as_severe(own, Group(table.value)):
        yield f"group {own.value} (the table has {table.value})"


def _carbonises(substance: Present) -> Iterator[str]:
    dust = substance.dust
    if substance.stated.carbonises is False and dust is not None and dust.carbonises:
        yield "does not carbonise (the table says that it may)"
