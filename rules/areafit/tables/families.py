"""Families of materials that behave alike where an exposure is judged."""

from areafit.tables.materials import Material

BARE_STEEL = frozenset({"carbon steel", "cast iron", "high-strength steel"})
ZINC = frozenset({"zinc alloy", "zinc-coated steel"})
ALUMINIUM = frozenset({"aluminium alloy", "aluminium alloy, coated"})
MAGNESIUM = frozenset({"magnesium alloy"})
COPPER = frozenset({"copper alloy", "copper alloy, coated"})
COATED_STEEL = frozenset(
    {
        "cadmium-coated steel",
        "chromium-coated steel",
        "nickel-coated steel",
        "tin-coated steel",
        "zinc-coated steel",
    }
)
COATING = "coating"


def is_stainless(material: Material) -> bool:
    """Whether it is a stainless steel of any kind."""
    return material.family.endswith("stainless steel")


def is_elastomer(material: Material) -> bool:
    """Whether it is a rubber, thermoplastic rubber included."""
    return material.family.startswith("elastomer")


def metallic(material: Material) -> bool:
    """Whether it conducts as metals and graphite do, so that it can be half of a couple."""
    return material.anodic_index_mv is not None
