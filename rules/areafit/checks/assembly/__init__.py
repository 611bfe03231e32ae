"""The machine as a whole: conforming parts are not yet a conforming assembly."""

from areafit.rule import Subject

LISTED: tuple[tuple[str, Subject], ...] = (
    ("edition", Subject.BOM),
    ("assembly_assessment", Subject.BOM),
)
"""The module of each rule and what it reads, in the order that reports list them."""
