"""Every table: its row type, its key, and in which direction a value is the stricter one.

A new table is a CSV file in data/, a row type, and one entry here.
"""

from collections.abc import Mapping
from functools import partial
from importlib import import_module
from types import MappingProxyType
from typing import Any

from areafit.values import Frozen, Term


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


class TableSpec(Frozen):
    """One table.

    `row` is `module:Class` below areafit.tables; `key` the number of leading key columns;
    `blank_is_strict` the columns in which a blank cell asks for more than any value would.
    `new_keys_relax`: without a row nothing passes, or that of a wider class decides, so that a row
    with a key of its own needs an approval. `ladder`: the key is a number, and a row decides up to
    the next one. `optional` are columns that a company's own file may leave out.
    """

    name: str
    title: str
    row: str
    key: int
    merge: Merge = Merge.FIELDS
    stricter: Mapping[str, Order] = MappingProxyType({})
    blank_is_strict: tuple[str, ...] = ()
    new_keys_relax: bool = False
    ladder: bool = False
    optional: tuple[str, ...] = ()

    @property
    def row_type(self) -> type[Any]:
        """The class of a row, imported when first asked for."""
        module, _, name = self.row.partition(":")
        found: type[Any] = getattr(import_module(f"areafit.tables.{module}"), name)
        return found


_fixed = partial(TableSpec, merge=Merge.FIXED)
_YES: Order = ("no", "yes")
_PRESENCE: Order = ("no", "depends", "yes")

_SPECS = (
    _fixed("acceptance", "Which marking is accepted in which place", "area:Acceptance", 3),
    _fixed(
        "added_parts",
        "Words that name what is added to equipment after its maker delivered it",
        "words:AddedPart",
        1,
    ),
    _fixed("belts", "Belts by their use, level of protection and group", "limits:BeltLimit", 3),
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
    _fixed("clauses", "Clauses that findings cite", "limits:Clause", 1),
    _fixed(
        "counterfaces",
        "What a light metal may rub or strike: rust and hardness",
        "limits:Counterface",
        1,
    ),
    TableSpec(
        "class_resistance",
        "Resistance of families of materials in classes of neutral solvents",
        "resistance:ClassResistance",
        5,
        Merge.FIXED,
        new_keys_relax=True,
    ),
    _fixed(
        "corrosion_rates",
        "How fast acids and caustics take metals away",
        "dissolution:CorrosionRate",
        4,
    ),
    _fixed(
        "dissolving_metals",
        "What a metal gives up where it dissolves",
        "dissolution:DissolvingMetal",
        1,
    ),
    _fixed(
        "neutralisation",
        "Acids and alkalis that heat each other",
        "chemicals:Neutralising",
        1,
    ),
    _fixed(
        "coverage",
        "What a review of a list touches, and the rule that judges it or who should",
        "coverage:CoverageRow",
        3,
    ),
    TableSpec(
        "chloride_content",
        "Chloride in common waters",
        "materials:ChlorideContent",
        1,
        new_keys_relax=True,
    ),
    TableSpec(
        "chloride_cracking",
        "Temperatures from which chlorides crack an alloy",
        "materials:CrackingLimit",
        2,
        stricter=dict.fromkeys(("drying_c", "guide_c", "limit_c"), Stricter.LOWER),
        new_keys_relax=True,
    ),
    TableSpec(
        "chloride_limits",
        "Chloride that stainless steel is printed to stand in water, by temperature",
        "materials:ChlorideLimit",
        2,
        stricter={
            "temp_max_c": Stricter.LOWER,
            "ph_min": Stricter.HIGHER,
            "ph_max": Stricter.LOWER,
        },
        new_keys_relax=True,
    ),
    _fixed(
        "denials", "Words by which a condition of use denies what it speaks of", "words:Denial", 1
    ),
    _fixed(
        "described_parts",
        "Words by which a description names a part",
        "descriptions:DescribedPart",
        1,
    ),
    TableSpec(
        "dust_values",
        "Ignition temperatures and groups of dusts, one value a line",
        "substances:DustValue",
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
        "substances:DustRow",
        1,
        stricter={"carbonises": _YES, "conductive": _YES},
    ),
    _fixed(
        "designations",
        "How names are built, and words beside them",
        "designations:Designation",
        3,
    ),
    _fixed("editions", "Editions of the installation rules", "area:Edition", 2),
    _fixed(
        "enclosure_types",
        "What an enclosure Type shows of an IP rating, one way only",
        "area:EnclosureType",
        1,
    ),
    _fixed("epa_groups", "Reactivity groups", "chemicals:EpaGroup", 1),
    _fixed(
        "equal_grades",
        "Materials that resist as another one or better",
        "resistance:EqualGrade",
        1,
    ),
    _fixed("figures", "Single figures that a standard or the trade sets", "limits:Figure", 2),
    _fixed(
        "galvanic_exposures",
        "Which air of the galvanic standard stands for a place",
        "materials:GalvanicExposure",
        1,
    ),
    _fixed(
        "galvanic_groups",
        "Materials by their group of the galvanic standard",
        "materials:GalvanicGroup",
        1,
    ),
    TableSpec(
        "galvanic_limits",
        "Largest difference of anodic index by atmosphere",
        "materials:GalvanicLimit",
        1,
        stricter={"limit_mv": Stricter.LOWER},
    ),
    _fixed(
        "galvanic_pairs",
        "Groups of metals that may touch in open air and in sea water",
        "materials:GalvanicPair",
        2,
    ),
    _fixed(
        "general_purpose",
        "Unmarked devices that NFPA 70 lets into a classified area",
        "area:GeneralPurpose",
        2,
    ),
    _fixed("hand_tools", "Steel tools by level of protection and sparks", "limits:HandToolRow", 2),
    TableSpec("hidden_items", "What bought parts usually hold", "materials:HiddenItem", 2),
    TableSpec(
        "incompatible",
        "Chemicals that must not meet",
        "chemicals:Incompatible",
        3,
        stricter={"separation": ("information", "caution", "must not share")},
    ),
    _fixed(
        "light_metal_limits",
        "Light metals allowed by level of protection",
        "limits:LightMetalLimit",
        1,
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
    _fixed("liquid_densities", "Densities of liquids at 20 °C", "vapours:LiquidDensity", 1),
    _fixed(
        "mixes_with_water",
        "Liquids that mix with water in all shares",
        "vapours:MixesWithWater",
        1,
    ),
    _fixed(
        "liquid_reach",
        "Words for pieces that the working liquid of a part reaches, and for such as stay dry",
        "words:LiquidReach",
        1,
    ),
    TableSpec("mixtures", "Mixtures that have a row of their own", "chemicals:NamedMixture", 1),
    TableSpec(
        "pitting_limits",
        "Chloride that stainless steel withstands without pitting",
        "materials:PittingLimit",
        1,
        stricter={
            **dict.fromkeys(("chloride_mg_l", "fails_mg_l", "temp_max_c"), Stricter.LOWER),
            "salt_air": ("holds", "open surfaces", "stains"),
        },
        new_keys_relax=True,
        ladder=True,
    ),
    _fixed(
        "no_certificates",
        "Documents that are taken for a certificate of the equipment and are none",
        "words:NoCertificate",
        1,
    ),
    _fixed(
        "own_word",
        "Components that no general note frees of tension or of crevices",
        "words:OwnWord",
        1,
    ),
    _fixed(
        "part_topics",
        "Words of a description that bring a part under a rule of its own",
        "part_names:TopicWord",
        1,
    ),
    _fixed(
        "passive_articles",
        "Words that name mechanical articles in which nothing is electrical",
        "part_names:PassiveArticle",
        1,
    ),
    _fixed(
        "piece_names", "Words that name belts, hoses, guards and pins", "part_names:PieceName", 1
    ),
    _fixed(
        "placeholders",
        "Words that stand where the number of a document is to come",
        "words:Placeholder",
        1,
    ),
    TableSpec(
        "plating_windows",
        "The pH in which platings and anodic films last",
        "materials:PlatingWindow",
        1,
        stricter={"ph_min": Stricter.HIGHER, "ph_max": Stricter.LOWER, "chloride_rusts": _YES},
        new_keys_relax=True,
    ),
    _fixed(
        "minimum_ingress",
        "Least IP rating by type of protection and dust group",
        "area:MinimumIngress",
        2,
    ),
    TableSpec("oxidising_gases", "Gases that burn other things", "substances:OxidisingGas", 1),
    _fixed("protection_types", "Types of protection", "area:ProtectionType", 2),
    _fixed("purges", "Purged enclosures: contents and loss of pressure", "area:PurgeType", 1),
    _fixed(
        "quiet_gases", "Gases whose leak does nothing to a listed device", "vapours:QuietGas", 1
    ),
    TableSpec(
        "resistance",
        "Resistance of materials by concentration and temperature",
        "resistance:ResistanceRow",
        6,
        Merge.POINTS,
        optional=("temp_min_c",),
    ),
    TableSpec("shared_names", "Names that several rows answer to", "names:SharedName", 2),
    _fixed(
        "rubbing_components",
        "Components that run in each other: threads, pins and slides",
        "materials:RubbingComponent",
        1,
    ),
    _fixed(
        "solution_condensates",
        "What condenses over a solvent in water, by strength",
        "vapours:SolutionCondensate",
        2,
    ),
    _fixed(
        "solution_vapours",
        "What rises from a solution, by strength and temperature",
        "vapours:SolutionVapour",
        3,
    ),
    TableSpec(
        "solvent_cracking",
        "Solvents that crack steel under tension, from a strength on",
        "vapours:SolventCracking",
        2,
        stricter={"conc_min_pct": Stricter.LOWER},
    ),
    _fixed("solvents", "Neutral organic solvents by class", "vapours:Solvent", 1),
    TableSpec("sources", "Where the rows come from", "sources:Source", 1),
    TableSpec(
        "substance_values",
        "Published values of gases and vapours, one a line",
        "substances:SubstanceValue",
        4,
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
    _fixed(
        "solution_ph",
        "The pH that the usual solutions of a class span",
        "chemicals:SolutionPh",
        1,
    ),
    _fixed(
        "static_limits",
        "Chargeable surfaces and unearthed metal by level and group",
        "limits:StaticLimit",
        2,
    ),
    _fixed("steel_tool_gases", "Gases that bar steel tools", "limits:SteelToolGas", 1),
    _fixed(
        "steel_toughness",
        "At which temperature a structural steel is impact tested, by its subgrade",
        "materials:SteelToughness",
        1,
    ),
    TableSpec("substances", "Flammable gases and vapours", "substances:SubstanceRow", 1),
    _fixed(
        "superseded_forms",
        "Forms of marking whose standards are no longer harmonised",
        "area:SupersededForm",
        2,
    ),
    _fixed("tool_names", "Words that name hand tools, and their sparks", "part_names:ToolName", 1),
    _fixed("temperature_classes", "Temperature classes", "area:TemperatureClass", 1),
    _fixed(
        "unifac_groups",
        "Groups of liquids, from which the activity in a mixture is worked out",
        "vapours:UnifacGroups",
        1,
    ),
    _fixed("usual_materials", "How usual a material is in machines", "materials:UsualMaterial", 1),
    _fixed(
        "vapour_pressures",
        "Antoine coefficients of pure liquids",
        "vapours:VapourPressure",
        1,
    ),
    _fixed("water_miscible", "Liquids that take up water", "vapours:WaterMiscible", 1),
    _fixed(
        "working_fluids",
        "Working liquids of hydraulic parts as chemicals, and how hot they are used",
        "chemicals:WorkingFluid",
        1,
    ),
    _fixed(
        "wiring_methods",
        "Cables and raceways that the installation rules name, by area",
        "area:WiringRow",
        3,
    ),
)

CATALOGUE: Mapping[str, TableSpec] = {spec.name: spec for spec in _SPECS}
