"""Ignition sources of parts that are not electrical, and static charge."""

from areafit.rule import Subject

LISTED: tuple[tuple[str, Subject], ...] = (
    ("ignition_hazard", Subject.BODY),
    ("hot_surface", Subject.BODY),
    ("rubbing_speed", Subject.BODY),
    ("impact", Subject.BODY),
    ("light_metal", Subject.BODY),
    ("static_surface", Subject.BODY),
    ("belt_and_hose", Subject.BODY),
    ("bonding", Subject.BODY),
    ("loose_parts", Subject.BODY),
    ("tool_release", Subject.BODY),
    ("air_supply", Subject.BODY),
    ("simple_apparatus", Subject.EQUIPMENT),
)
"""The module of each rule and what it reads, in the order that reports list them."""
