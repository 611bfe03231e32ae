"""Flammable gases, vapours and dusts: a row of identity, and a line per value."""

from collections.abc import Callable, Sequence
from decimal import Decimal
from typing import TypeVar

from areafit.tables.sources import Cited, Sourced
from areafit.values import Frozen, Term


class Property(Term):
    """What a line of substance_values.csv gives; temperatures in °C, limits in % by volume."""

    AUTOIGNITION = "autoignition_c"
    FLASH_POINT = "flash_point_c"
    GROUP = "group"
    GROUP_WITH_SEALS = "group_with_seals"
    LOWER_LIMIT = "lower_limit_pct"
    MESG = "mesg_mm"
    MIC_RATIO = "mic_ratio"
    UPPER_LIMIT = "upper_limit_pct"
    VAPOUR_DENSITY = "vapour_density"


class Caution(Term):
    """Why the table values alone must not decide about a substance."""

    DECOMPOSES = "decomposes"  # burns or explodes without air
    PYROPHORIC = "pyrophoric"  # ignites by itself in air
    COMPOSITION_VARIES = "composition varies"  # a product or mixture, not one substance
    NO_CLASS_FITS = "no class fits"  # ignites at or below the limit of T6
    FORMS_PEROXIDES = "forms peroxides"
    NEEDS_HEATING = "needs heating"  # no vapour hazard unless heated or sprayed


class SubstanceRow(Sourced):
    """Identity of a substance; molar mass in g/mol. `cautions` are values of `Caution`."""

    id: str
    name: str
    cas: str
    names: tuple[str, ...]
    formula: str
    molar_mass: Decimal | None
    cautions: tuple[str, ...]

    def with_values(self, lines: Sequence["SubstanceValue"]) -> "Substance":
        """The substance that this row and its lines of values describe."""

        def numbers(wanted: Property) -> tuple[Cited[Decimal], ...]:
            return tuple(_cited(line, Decimal) for line in lines if line.property is wanted)

        def group(wanted: Property, system: str) -> Cited[str] | None:
            own = (line for line in lines if (line.property, line.system) == (wanted, system))
            return max((_cited(line, str) for line in own), key=_severity, default=None)

        return Substance(
            id=self.id,
            name=self.name,
            cas=self.cas,
            names=self.names,
            formula=self.formula,
            molar_mass=self.molar_mass,
            cautions=frozenset(map(Caution, self.cautions)),
            note=self.note,
            autoignition=numbers(Property.AUTOIGNITION),
            flash_point=numbers(Property.FLASH_POINT),
            lower_limit=numbers(Property.LOWER_LIMIT),
            upper_limit=numbers(Property.UPPER_LIMIT),
            vapour_density=next(iter(numbers(Property.VAPOUR_DENSITY)), None),
            mesg=numbers(Property.MESG),
            mic_ratio=numbers(Property.MIC_RATIO),
            group_iec=group(Property.GROUP, "iec"),
            group_nec=group(Property.GROUP, "nec"),
            group_nec_with_seals=group(Property.GROUP_WITH_SEALS, "nec"),
            groups_disputed=_disputed(
                [_cited(line, str) for line in lines if line.property is Property.GROUP]
            ),
        )


class SubstanceValue(Sourced):
    """One published value of one substance in one list (`iec`, `nfpa`, `nec` or none)."""

    substance: str
    property: Property
    system: str
    value: str


class Substance(Frozen):
    """A flammable gas or vapour with all that the tables say of it.

    Temperatures in °C, limits in % by volume, `vapour_density` relative to air, `mesg` in mm.
    Where two lists give a value both are here, in the order iec, nfpa; none is an average. Of
    several lines for one group the most onerous is `group_iec` or `group_nec`; those that it
    overrules are `groups_disputed`.
    An empty tuple or None means that no source in the table gives the value.
    """

    id: str
    name: str
    cas: str
    names: tuple[str, ...]
    formula: str
    molar_mass: Decimal | None
    cautions: frozenset[Caution]
    note: str
    autoignition: tuple[Cited[Decimal], ...]
    flash_point: tuple[Cited[Decimal], ...]
    lower_limit: tuple[Cited[Decimal], ...]
    upper_limit: tuple[Cited[Decimal], ...]
    vapour_density: Cited[Decimal] | None
    mesg: tuple[Cited[Decimal], ...]
    mic_ratio: tuple[Cited[Decimal], ...]
    group_iec: Cited[str] | None
    group_nec: Cited[str] | None
    group_nec_with_seals: Cited[str] | None
    groups_disputed: tuple[Cited[str], ...] = ()

    def lowest_autoignition(self) -> Cited[Decimal] | None:
        """The autoignition temperature that governs: the lowest of the lists."""
        return min(self.autoignition, key=_value, default=None)

    def lowest_flash_point(self) -> Cited[Decimal] | None:
        """The flash point that governs: the lowest of the lists."""
        return min(self.flash_point, key=_value, default=None)


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


class DustRow(Sourced):
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

    def with_values(self, lines: Sequence["DustValue"]) -> "Dust":
        """The dust that this row and its lines of values describe."""

        def group(system: str) -> Cited[str] | None:
            own = (line for line in lines if line.property is DustProperty.GROUP)
            found = (_cited(line, str) for line in own if line.system == system)
            return max(found, key=_severity, default=None)

        return Dust(
            id=self.id,
            name=self.name,
            cas=self.cas,
            names=self.names,
            carbonises=self.carbonises,
            conductive=self.conductive,
            note=self.note,
            cloud=tuple(
                _cited(line, Decimal) for line in lines if line.property is DustProperty.CLOUD
            ),
            layers=tuple(_layer(line) for line in lines if line.property is DustProperty.LAYER),
            group_iec=group("iec"),
            group_nec=group("nec"),
            groups_disputed=_disputed(
                [_cited(line, str) for line in lines if line.property is DustProperty.GROUP]
            ),
        )


class DustValue(Sourced):
    """One published value of one dust. `thickness_mm` is that of the layer tested."""

    dust: str
    property: DustProperty
    system: str
    thickness_mm: Decimal | None
    state: LayerState
    value: str


class Layer(Sourced):
    """An ignition temperature of a layer in °C, with the thickness tested in mm.

    `value` is None where the layer melts, or the source gives none; `state` says which.
    """

    value: Decimal | None
    state: LayerState
    thickness_mm: Decimal | None


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
    groups_disputed: tuple[Cited[str], ...] = ()

    def lowest_cloud(self) -> Cited[Decimal] | None:
        """The ignition temperature of the cloud that governs: the lowest."""
        return min(self.cloud, key=_value, default=None)

    def lowest_layer(self) -> Layer | None:
        """The layer temperature that governs: the lowest stated; None if no source states one."""
        stated = [layer for layer in self.layers if layer.value is not None]
        return min(stated, key=lambda layer: layer.value or Decimal(0), default=None)


def _layer(line: DustValue) -> Layer:
    return Layer(
        Decimal(line.value) if line.value else None,
        line.state,
        line.thickness_mm,
        source_id=line.source_id,
        locator=line.locator,
        basis=line.basis,
        note=line.note,
    )


class OxidisingGas(Sourced):
    """One gas, by the name under which a chemical of a place is compared with it."""

    name: str


# Both worlds and both systems, mildest first; only groups of one system are ever compared.
_GROUPS = (
    "I",
    "IIA",
    "D",
    "IIB",
    "C",
    "IIB+H2",
    "B",
    "IIC",
    "A",
    "IIIA",
    "G",
    "IIIB",
    "F",
    "IIIC",
    "E",
)


def _severity(group: Cited[str]) -> int:
    return _GROUPS.index(group.value)


def _disputed(groups: Sequence[Cited[str]]) -> tuple[Cited[str], ...]:
    """The groups that a more onerous one of the same system overrules."""
    return tuple(
        group
        for group in groups
        if any(
            other.system == group.system and _severity(other) > _severity(group) for other in groups
        )
    )


def _value(cited: Cited[Decimal]) -> Decimal:
    return cited.value


V = TypeVar("V")


def _cited(line: SubstanceValue | DustValue, convert: Callable[[str], V]) -> Cited[V]:
    return Cited(
        convert(line.value),
        line.system,
        source_id=line.source_id,
        locator=line.locator,
        basis=line.basis,
        note=line.note,
    )
