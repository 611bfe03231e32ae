"""What the area classification asks of a part: level, group, temperature, ambient, ingress."""

from areafit.rule import Subject

LISTED: tuple[tuple[str, Subject], ...] = (
    ("kind", Subject.EQUIPMENT),
    ("protection_level", Subject.EQUIPMENT),
    ("protection_type", Subject.EQUIPMENT),
    ("gas_group", Subject.EQUIPMENT),
    ("dust_group", Subject.EQUIPMENT),
    ("temperature_class", Subject.EQUIPMENT),
    ("ambient_range", Subject.EQUIPMENT),
    ("inverter_duty", Subject.EQUIPMENT),
    ("process_temperature", Subject.BODY),
    ("ingress", Subject.EQUIPMENT),
    ("cable_entry", Subject.EQUIPMENT),
)
"""The module of each rule and what it reads, in the order that reports list them."""
