"""What a place says of itself."""

from areafit.rule import Subject

LISTED: tuple[tuple[str, Subject], ...] = (
    ("place_stated", Subject.PLACE),
    ("declared_area", Subject.PLACE),
    ("standard_atmosphere", Subject.PLACE),
    ("substance_known", Subject.PLACE),
    ("flash_point", Subject.PLACE),
    ("chemicals_together", Subject.PLACE),
    ("hydrogen_evolution", Subject.PLACE),
)
"""The module of each rule and what it reads, in the order that reports list them."""
