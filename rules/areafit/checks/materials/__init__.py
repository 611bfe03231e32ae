"""Materials against chemicals, and against each other."""

from areafit.rule import Subject

LISTED: tuple[tuple[str, str, Subject], ...] = (
    ("materials-listed", "materials_listed", Subject.WETTING),
    ("chemical-resistance", "chemical_resistance", Subject.MATERIAL),
    ("stress-corrosion", "stress_corrosion", Subject.MATERIAL),
    ("pitting", "pitting", Subject.MATERIAL),
    ("salt-air", "salt_air", Subject.MATERIAL),
    ("galvanic-couple", "galvanic_couple", Subject.CONTACT),
    ("wet-contact", "wet_contact", Subject.CONTACT),
    ("copper-alloy", "copper_alloy", Subject.MATERIAL),
    ("plating", "plating", Subject.MATERIAL),
    ("material-temperature", "material_temperature", Subject.MATERIAL),
    ("hydrogen-embrittlement", "hydrogen_embrittlement", Subject.MATERIAL),
    ("weld-sensitisation", "weld_sensitisation", Subject.MATERIAL),
)
"""Each rule, its module and its subject, in the order that reports list them."""
