"""Flammable gases and vapours: a row of identity, and a line per value, each with its source."""

from collections.abc import Callable, Iterable
from decimal import Decimal
from typing import TypeVar

from areafit.tables.cited import Cited
from areafit.values import Frozen, Term
from areafit.verdict import Basis

V = TypeVar("V")


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


class SubstanceRow(Frozen):
    """Identity of a substance; molar mass in g/mol. `cautions` are values of `Caution`."""

    id: str
    name: str
    cas: str
    names: tuple[str, ...]
    formula: str
    molar_mass: Decimal | None
    cautions: tuple[str, ...]
    source_id: str
    locator: str
    basis: Basis
    note: str


class SubstanceValue(Frozen):
    """One published value of one substance in one list (`iec`, `nfpa`, `nec` or none)."""

    substance: str
    property: Property
    system: str
    value: str
    source_id: str
    locator: str
    basis: Basis
    note: str


class Substance(Frozen):
    """A flammable gas or vapour with all that the tables say of it.

    Temperatures in °C, limits in % by volume, `vapour_density` relative to air, `mesg` in mm.
    Where two lists give a value both are here, in the order iec, nfpa; none is an average.
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

    def lowest_autoignition(self) -> Cited[Decimal] | None:
        """The autoignition temperature that governs: the lowest of the lists."""
        return min(self.autoignition, key=_value, default=None)

    def lowest_flash_point(self) -> Cited[Decimal] | None:
        """The flash point that governs: the lowest of the lists."""
        return min(self.flash_point, key=_value, default=None)


def _value(cited: Cited[Decimal]) -> Decimal:
    return cited.value


_SEVERITY = ("I", "IIA", "D", "IIB", "C", "IIB+H2", "B", "IIC", "A")


def group_severity(group: str) -> int:
    """Rank of a group within its own system, mildest first; an unknown word is most severe."""
    return _SEVERITY.index(group) if group in _SEVERITY else len(_SEVERITY)


def assemble(row: SubstanceRow, values: Iterable[SubstanceValue]) -> Substance:
    """A substance from its row and its lines of values."""
    lines = tuple(values)

    def numbers(wanted: Property) -> tuple[Cited[Decimal], ...]:
        return tuple(_cite(line, Decimal) for line in lines if line.property is wanted)

    def group(wanted: Property, system: str) -> Cited[str] | None:
        found = [
            _cite(line, str) for line in lines if (line.property, line.system) == (wanted, system)
        ]
        return max(found, key=lambda cited: group_severity(cited.value), default=None)

    return Substance(
        id=row.id,
        name=row.name,
        cas=row.cas,
        names=row.names,
        formula=row.formula,
        molar_mass=row.molar_mass,
        cautions=frozenset(Caution(word) for word in row.cautions),
        note=row.note,
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
    )


def _cite(line: SubstanceValue, convert: Callable[[str], V]) -> Cited[V]:
    return Cited(
        convert(line.value), line.source_id, line.locator, line.basis, line.note, line.system
    )
