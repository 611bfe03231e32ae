"""Materials against chemicals, and against each other."""

from areafit.rule import Subject

LISTED: tuple[tuple[str, str, Subject], ...] = (
    ("materials-listed", "limits", Subject.WETTING),
    ("chemical-resistance", "resistance", Subject.MATERIAL),
    ("stress-corrosion", "cracking", Subject.MATERIAL),
    ("pitting", "stainless", Subject.MATERIAL),
    ("salt-air", "stainless", Subject.MATERIAL),
    ("bare-steel-in-air", "rust", Subject.BODY),
    ("galvanic-couple", "galvanic", Subject.CONTACT),
    ("wet-contact", "galvanic", Subject.CONTACT),
    ("noted-contacts", "galvanic", Subject.PLACE),
    ("copper-alloy", "copper", Subject.MATERIAL),
    ("plating", "plating", Subject.MATERIAL),
    ("material-temperature", "limits", Subject.MATERIAL),
    ("hydrogen-embrittlement", "hydrogen", Subject.MATERIAL),
    ("weld-sensitisation", "stainless", Subject.MATERIAL),
    ("galling", "galling", Subject.BODY),
    ("galling-of-lines", "galling", Subject.CONTACT),
)
"""Each rule, its module and its subject, in the order that reports list them."""
