"""Ignition sources of parts that are not electrical, and static charge."""

from areafit.rule import Subject

LISTED: tuple[tuple[str, str, Subject], ...] = (
    ("ignition-hazard", "assessment", Subject.BODY),
    ("hot-surface", "hot_surface", Subject.BODY),
    ("rubbing-speed", "sparks", Subject.BODY),
    ("impact", "sparks", Subject.BODY),
    ("hand-tools", "tools", Subject.BODY),
    ("light-metal", "light_metal", Subject.BODY),
    ("static-surface", "static_surface", Subject.BODY),
    ("belt-and-hose", "belts_hoses", Subject.BODY),
    ("bonding", "static", Subject.BODY),
    ("loose-parts", "tools", Subject.BODY),
    ("tool-release", "tools", Subject.BODY),
    ("air-supply", "supply", Subject.BODY),
    ("working-liquid", "liquids", Subject.BODY),
    ("brake-energy", "transmissions", Subject.BODY),
    ("clutch-slip", "transmissions", Subject.BODY),
    ("battery-service", "batteries", Subject.EQUIPMENT),
    ("simple-apparatus", "simple_apparatus", Subject.EQUIPMENT),
)
"""Each rule, its module and its subject, in the order that reports list them."""
