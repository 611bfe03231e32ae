"""What is on file for a marking: evidence, conditions, contradictions."""

from areafit.rule import Subject

LISTED: tuple[tuple[str, Subject], ...] = (
    ("marking_consistency", Subject.EQUIPMENT),
    ("evidence", Subject.EQUIPMENT),
    ("document_number", Subject.EQUIPMENT),
    ("superseded_marking", Subject.EQUIPMENT),
    ("special_conditions", Subject.EQUIPMENT),
    ("ex_component", Subject.EQUIPMENT),
)
"""The module of each rule and what it reads, in the order that reports list them."""
