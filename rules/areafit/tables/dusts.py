"""Combustible dusts: one row of identity, and one line per value, each with its source."""

from collections.abc import Iterable
from decimal import Decimal

from areafit.tables.cited import Cited
from areafit.values import Frozen, Term
from areafit.verdict import Basis


class DustProperty(Term):
    """What a line of dust_values.csv gives; temperatures in °C."""

    CLOUD = "cloud_ignition_c"
    GROUP = "group"
    LAYER = "layer_ignition_c"


class LayerState(Term):
    """What the source says of a layer beside, or instead of, a temperature."""

    EXACT = ""
    ABOVE = "above"  # did not ignite up to the value
    MELTS = "melts"  # melts before it ignites
    ABOVE_CLOUD = "above cloud"  # ignites at a higher temperature than the cloud
    NOT_AVAILABLE = "not available"


class DustRow(Frozen):
    """Identity of a dust.

    `carbonises` says that the dust may dehydrate or carbonise (the 165 °C cap of the NEC);
    `conductive` that its resistivity is at most 1000 ohm m. None: not known, or grade decides.
    """

    id: str
    name: str
    cas: str
    names: tuple[str, ...]
    carbonises: bool | None
    conductive: bool | None
    source_id: str
    locator: str
    basis: Basis
    note: str


class DustValue(Frozen):
    """One published value of one dust. `thickness_mm` is that of the layer tested."""

    dust: str
    property: DustProperty
    system: str
    thickness_mm: Decimal | None
    state: LayerState
    value: str
    source_id: str
    locator: str
    basis: Basis
    note: str


class Layer(Frozen):
    """An ignition temperature of a layer in °C, with the thickness tested in mm.

    `value` is None where the layer melts, or the source gives none; `state` says which.
    """

    value: Decimal | None
    state: LayerState
    thickness_mm: Decimal | None
    source_id: str
    locator: str
    basis: Basis
    note: str


class Dust(Frozen):
    """A combustible dust with all that the tables say of it; several sources stand side by side."""

    id: str
    name: str
    cas: str
    names: tuple[str, ...]
    carbonises: bool | None
    conductive: bool | None
    note: str
    cloud: tuple[Cited[Decimal], ...]
    layers: tuple[Layer, ...]
    group_iec: Cited[str] | None
    group_nec: Cited[str] | None

    def lowest_cloud(self) -> Cited[Decimal] | None:
        """The ignition temperature of the cloud that governs: the lowest."""
        return min(self.cloud, key=lambda cited: cited.value, default=None)

    def lowest_layer(self) -> Layer | None:
        """The layer temperature that governs: the lowest stated; None if no source states one."""
        stated = [layer for layer in self.layers if layer.value is not None]
        return min(stated, key=lambda layer: layer.value or Decimal(0), default=None)


_SEVERITY = ("IIIA", "G", "IIIB", "F", "IIIC", "E")


def assemble(row: DustRow, values: Iterable[DustValue]) -> Dust:
    """A dust from its row and its lines of values."""
    lines = tuple(values)

    def group(system: str) -> Cited[str] | None:
        found = [
            Cited(line.value, line.source_id, line.locator, line.basis, line.note, line.system)
            for line in lines
            if line.property is DustProperty.GROUP and line.system == system
        ]
        return max(found, key=lambda cited: _SEVERITY.index(cited.value), default=None)

    return Dust(
        id=row.id,
        name=row.name,
        cas=row.cas,
        names=row.names,
        carbonises=row.carbonises,
        conductive=row.conductive,
        note=row.note,
        cloud=tuple(
            Cited(Decimal(line.value), line.source_id, line.locator, line.basis, line.note)
            for line in lines
            if line.property is DustProperty.CLOUD
        ),
        layers=tuple(
            Layer(
                Decimal(line.value) if line.value else None,
                line.state,
                line.thickness_mm,
                line.source_id,
                line.locator,
                line.basis,
                line.note,
            )
            for line in lines
            if line.property is DustProperty.LAYER
        ),
        group_iec=group("iec"),
        group_nec=group("nec"),
    )
