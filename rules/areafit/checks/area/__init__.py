"""What the area classification asks of a part: level, group, temperature, ambient, ingress."""

from areafit.rule import Subject

LISTED: tuple[tuple[str, str, Subject], ...] = (
    ("kind", "kind", Subject.NAMEPLATE),
    ("protection-level", "level", Subject.NAMEPLATE),
    ("protection-type", "protection_type", Subject.NAMEPLATE),
    ("gas-group", "group", Subject.NAMEPLATE),
    ("dust-group", "group", Subject.NAMEPLATE),
    ("temperature-class", "temperature", Subject.NAMEPLATE),
    ("ambient-range", "ambient", Subject.NAMEPLATE),
    ("inverter-duty", "motors", Subject.NAMEPLATE),
    ("te-time", "motors", Subject.NAMEPLATE),
    ("wiring-method", "wiring", Subject.NAMEPLATE),
    ("flexible-cord", "wiring", Subject.NAMEPLATE),
    ("optical-radiation", "radiation", Subject.NAMEPLATE),
    ("radio-power", "radiation", Subject.NAMEPLATE),
    ("ultrasound", "radiation", Subject.NAMEPLATE),
    ("process-temperature", "ambient", Subject.BODY),
    ("ingress", "ingress", Subject.NAMEPLATE),
    ("cable-entry", "entries", Subject.NAMEPLATE),
)
"""Each rule, its module and its subject, in the order that reports list them."""
