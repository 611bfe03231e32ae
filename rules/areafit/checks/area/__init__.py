"""What the area classification asks of a part: level, group, temperature, ambient, ingress."""

from areafit.rule import Subject

LISTED: tuple[tuple[str, str, Subject], ...] = (
    ("kind", "kind", Subject.EQUIPMENT),
    ("protection-level", "protection_level", Subject.EQUIPMENT),
    ("protection-type", "protection_type", Subject.EQUIPMENT),
    ("gas-group", "gas_group", Subject.EQUIPMENT),
    ("dust-group", "dust_group", Subject.EQUIPMENT),
    ("temperature-class", "temperature_class", Subject.EQUIPMENT),
    ("ambient-range", "ambient_range", Subject.EQUIPMENT),
    ("inverter-duty", "inverter_duty", Subject.EQUIPMENT),
    ("process-temperature", "process_temperature", Subject.BODY),
    ("ingress", "ingress", Subject.EQUIPMENT),
    ("cable-entry", "cable_entry", Subject.EQUIPMENT),
)
"""Each rule, its module and its subject, in the order that reports list them."""
