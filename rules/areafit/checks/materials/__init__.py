"""Materials against chemicals, and against each other."""

from areafit.rule import Subject

LISTED: tuple[tuple[str, Subject], ...] = (
    ("materials_listed", Subject.WETTING),
    ("chemical_resistance", Subject.MATERIAL),
    ("stress_corrosion", Subject.MATERIAL),
    ("pitting", Subject.MATERIAL),
    ("salt_air", Subject.MATERIAL),
    ("galvanic_couple", Subject.CONTACT),
    ("wet_contact", Subject.CONTACT),
    ("copper_alloy", Subject.MATERIAL),
    ("plating", Subject.MATERIAL),
    ("material_temperature", Subject.MATERIAL),
    ("hydrogen_embrittlement", Subject.MATERIAL),
    ("weld_sensitisation", Subject.MATERIAL),
)
"""The module of each rule and what it reads, in the order that reports list them."""
