"""The machine as a whole: conforming parts are not yet a conforming assembly."""

from areafit.rule import Subject

LISTED: tuple[tuple[str, str, Subject], ...] = (
    ("edition", "machine", Subject.BOM),
    ("assembly-assessment", "machine", Subject.BOM),
)
"""Each rule, its module and its subject, in the order that reports list them."""
