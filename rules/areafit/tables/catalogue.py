"""Every table: its row type, its key, and in which direction a value is the stricter one.

A new table is a CSV file in data/, a row type, and one entry here.
"""

from collections.abc import Mapping
from importlib import import_module
from types import MappingProxyType
from typing import Any

from areafit.frozen import frozen
from areafit.term import Term


class Merge(Term):
    """How a company's own rows are laid over the shipped ones."""

    FIELDS = "fields"  # column by column: the stricter value governs
    VALUES = "values"  # one value a line: lines stand side by side, the most onerous governs
    POINTS = "points"  # compared where they apply: at a concentration and a temperature
    FIXED = "fixed"  # set by a standard; cannot be overlaid


class Stricter(Term):
    """Which of two values of a column asks for more."""

    LOWER = "lower"
    HIGHER = "higher"


Order = Stricter | tuple[str, ...]  # a tuple lists the words of a column, mildest first
_YES: Order = ("no", "yes")
_PRESENCE: Order = ("no", "depends", "yes")


@frozen
class TableSpec:
    """One table.

    `row` is `module:Class` below areafit.tables; `key` the number of leading key columns;
    `blank_is_strict` the columns in which a blank cell asks for more than any value would.
    """

    name: str
    title: str
    row: str
    key: int
    merge: Merge = Merge.FIELDS
    stricter: Mapping[str, Order] = MappingProxyType({})
    blank_is_strict: tuple[str, ...] = ()

    @property
    def row_type(self) -> type[Any]:
        """The dataclass of a row, imported when first asked for."""
        module, _, name = self.row.partition(":")
        found: type[Any] = getattr(import_module(f"areafit.tables.{module}"), name)
        return found


_SPECS = (
    TableSpec(
        "acceptance",
        "Which marking is accepted in which place",
        "acceptance:Acceptance",
        3,
        Merge.FIXED,
    ),
    TableSpec(
        "chemicals",
        "Process chemicals and what they do to a part",
        "chemicals:Chemical",
        1,
        stricter={
            "oxidising": _PRESENCE,
            "chloride": _PRESENCE,
            "copper_complexing": _PRESENCE,
            "hydrogen": ("no", "little", "amphoteric metals", "active metals"),
            "volatile": ("no", "mist", "hot", "low", "yes"),
        },
        blank_is_strict=("assumed_pct", "behaves_as"),
    ),
    TableSpec(
        "counterfaces",
        "What a light metal may rub or strike: rust and hardness",
        "ignition:Counterface",
        1,
        Merge.FIXED,
    ),
    TableSpec("chloride_content", "Chloride in common waters", "chlorides:ChlorideContent", 1),
    TableSpec(
        "chloride_cracking",
        "Temperatures from which chlorides crack an alloy",
        "chlorides:CrackingLimit",
        2,
        stricter=dict.fromkeys(("drying_c", "guide_c", "limit_c"), Stricter.LOWER),
    ),
    TableSpec(
        "described_parts",
        "Words by which a description names a part",
        "described:DescribedPart",
        1,
        Merge.FIXED,
    ),
    TableSpec(
        "dust_values",
        "Ignition temperatures and groups of dusts, one value a line",
        "dusts:DustValue",
        9,
        Merge.VALUES,
        {
            "cloud_ignition_c": Stricter.LOWER,
            "layer_ignition_c": Stricter.LOWER,
            "group": ("IIIA", "G", "IIIB", "F", "IIIC", "E"),
        },
    ),
    TableSpec(
        "dusts",
        "Combustible dusts",
        "dusts:DustRow",
        1,
        stricter={"carbonises": _YES, "conductive": _YES},
    ),
    TableSpec(
        "editions",
        "Editions of the installation rules",
        "editions:Edition",
        2,
        Merge.FIXED,
    ),
    TableSpec(
        "enclosure_types",
        "What an enclosure Type shows of an IP rating, one way only",
        "enclosures:EnclosureType",
        1,
        Merge.FIXED,
    ),
    TableSpec("epa_groups", "Reactivity groups", "epa_groups:EpaGroup", 1, Merge.FIXED),
    TableSpec(
        "galvanic_limits",
        "Largest difference of anodic index by atmosphere",
        "classes:GalvanicLimit",
        1,
        stricter={"limit_mv": Stricter.LOWER},
    ),
    TableSpec(
        "general_purpose",
        "Unmarked devices that NFPA 70 lets into a classified area",
        "general_purpose:GeneralPurpose",
        2,
        Merge.FIXED,
    ),
    TableSpec("hidden_items", "What bought parts usually hold", "classes:HiddenItem", 2),
    TableSpec(
        "ignition_limits",
        "Limits for friction, hot surfaces, earthing and static charge",
        "ignition:IgnitionLimit",
        1,
        Merge.FIXED,
    ),
    TableSpec(
        "incompatible",
        "Chemicals that must not meet",
        "incompatible:Incompatible",
        3,
        stricter={"separation": ("information", "caution", "must not share")},
    ),
    TableSpec(
        "light_metal_limits",
        "Light metals allowed by level of protection",
        "ignition:LightMetalLimit",
        1,
        Merge.FIXED,
    ),
    TableSpec(
        "loop_limits",
        "Cable defaults and limits of intrinsically safe circuits",
        "loop_limits:LoopLimit",
        2,
        Merge.FIXED,
    ),
    TableSpec(
        "materials",
        "Engineering materials",
        "materials:Material",
        1,
        stricter={
            "tmin_c": Stricter.HIGHER,
            "tmax_c": Stricter.LOWER,
            "pren": Stricter.LOWER,
            "carbon_max_pct": Stricter.HIGHER,
            "stabilised": ("yes", "no"),
            "light_metal_pct_max": Stricter.HIGHER,
            "mg_ti_zr_pct_max": Stricter.HIGHER,
            "cu_pct_max": Stricter.HIGHER,
            "high_strength": _YES,
            "surface": ("conductive", "dissipative", "insulating film", "depends", "insulating"),
        },
        blank_is_strict=("behaves_as",),
    ),
    TableSpec("mixtures", "Mixtures that have a row of their own", "mixtures:Mixture", 1),
    TableSpec(
        "pitting_limits",
        "Chloride that stainless steel withstands without pitting",
        "chlorides:PittingLimit",
        1,
        stricter={
            **dict.fromkeys(("chloride_mg_l", "fails_mg_l", "temp_max_c"), Stricter.LOWER),
            "salt_air": ("holds", "open surfaces", "stains"),
        },
    ),
    TableSpec(
        "placeholders",
        "Words that stand where the number of a document is to come",
        "placeholders:Placeholder",
        1,
        Merge.FIXED,
    ),
    TableSpec(
        "plating_windows",
        "The pH in which platings and anodic films last",
        "platings:PlatingWindow",
        1,
        stricter={"ph_min": Stricter.HIGHER, "ph_max": Stricter.LOWER, "chloride_rusts": _YES},
    ),
    TableSpec(
        "minimum_ingress",
        "Least IP rating by type of protection and dust group",
        "enclosures:MinimumIngress",
        2,
        Merge.FIXED,
    ),
    TableSpec("oxidising_gases", "Gases that burn other things", "oxidisers:OxidisingGas", 1),
    TableSpec(
        "protection_types",
        "Types of protection",
        "protection_types:ProtectionType",
        2,
        Merge.FIXED,
    ),
    TableSpec(
        "purges",
        "Purged enclosures: contents and loss of pressure",
        "purges:PurgeType",
        1,
        Merge.FIXED,
    ),
    TableSpec(
        "resistance",
        "Resistance of materials by concentration and temperature",
        "resistance:ResistanceRow",
        5,
        Merge.POINTS,
    ),
    TableSpec("shared_names", "Names that several rows answer to", "classes:SharedName", 2),
    TableSpec("sources", "Where the rows come from", "sources:Source", 1),
    TableSpec(
        "substance_values",
        "Published values of gases and vapours, one a line",
        "substances:SubstanceValue",
        3,
        Merge.VALUES,
        {
            "autoignition_c": Stricter.LOWER,
            "flash_point_c": Stricter.LOWER,
            "lower_limit_pct": Stricter.LOWER,
            "upper_limit_pct": Stricter.HIGHER,
            "mesg_mm": Stricter.LOWER,
            "mic_ratio": Stricter.LOWER,
            "group": ("I", "IIA", "D", "IIB", "C", "IIB+H2", "B", "IIC", "A"),
            "group_with_seals": ("D", "C", "B", "A"),
        },
    ),
    TableSpec(
        "static_limits",
        "Chargeable surfaces and unearthed metal by level and group",
        "ignition:StaticLimit",
        2,
        Merge.FIXED,
    ),
    TableSpec("substances", "Flammable gases and vapours", "substances:SubstanceRow", 1),
    TableSpec(
        "superseded_forms",
        "Forms of marking whose standards are no longer harmonised",
        "superseded:SupersededForm",
        2,
        Merge.FIXED,
    ),
    TableSpec(
        "temperature_classes",
        "Temperature classes",
        "classes:TemperatureClass",
        1,
        Merge.FIXED,
    ),
)

CATALOGUE: Mapping[str, TableSpec] = {spec.name: spec for spec in _SPECS}


def more_onerous(order: Order | None, ours: str, theirs: str) -> bool | None:
    """Whether `theirs` asks for more than `ours`; None where the two cannot be compared."""
    from decimal import Decimal  # noqa: PLC0415 - only overlays compare

    if order is None:
        return None
    if isinstance(order, tuple):
        if ours not in order or theirs not in order:
            return None
        return order.index(theirs) > order.index(ours)
    lower = Decimal(theirs) < Decimal(ours)
    return lower if order is Stricter.LOWER else not lower
