"""What a place says of itself."""

from areafit.rule import Subject

LISTED: tuple[tuple[str, str, Subject], ...] = (
    ("place-stated", "area", Subject.PLACE),
    ("declared-area", "area", Subject.PLACE),
    ("standard-atmosphere", "atmosphere", Subject.PLACE),
    ("substance-known", "substances", Subject.PLACE),
    ("flash-point", "substances", Subject.PLACE),
    ("chemicals-together", "chemicals", Subject.PLACE),
    ("hydrogen-evolution", "hydrogen", Subject.PLACE),
)
"""Each rule, its module and its subject, in the order that reports list them."""
