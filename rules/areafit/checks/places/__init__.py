"""What a place says of itself."""

from areafit.rule import Subject

LISTED: tuple[tuple[str, str, Subject], ...] = (
    ("place-stated", "place_stated", Subject.PLACE),
    ("declared-area", "declared_area", Subject.PLACE),
    ("standard-atmosphere", "standard_atmosphere", Subject.PLACE),
    ("substance-known", "substance_known", Subject.PLACE),
    ("flash-point", "flash_point", Subject.PLACE),
    ("chemicals-together", "chemicals_together", Subject.PLACE),
    ("hydrogen-evolution", "hydrogen_evolution", Subject.PLACE),
)
"""Each rule, its module and its subject, in the order that reports list them."""
