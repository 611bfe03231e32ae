"""Ignition sources of parts that are not electrical, and static charge."""

from areafit.rule import Subject

LISTED: tuple[tuple[str, str, Subject], ...] = (
    ("ignition-hazard", "ignition_hazard", Subject.BODY),
    ("hot-surface", "hot_surface", Subject.BODY),
    ("rubbing-speed", "rubbing_speed", Subject.BODY),
    ("impact", "impact", Subject.BODY),
    ("light-metal", "light_metal", Subject.BODY),
    ("static-surface", "static_surface", Subject.BODY),
    ("belt-and-hose", "belt_and_hose", Subject.BODY),
    ("bonding", "bonding", Subject.BODY),
    ("loose-parts", "loose_parts", Subject.BODY),
    ("tool-release", "tool_release", Subject.BODY),
    ("air-supply", "air_supply", Subject.BODY),
    ("simple-apparatus", "simple_apparatus", Subject.EQUIPMENT),
)
"""Each rule, its module and its subject, in the order that reports list them."""
