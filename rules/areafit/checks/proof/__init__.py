"""What is on file for a marking: evidence, conditions, contradictions."""

from areafit.rule import Subject

LISTED: tuple[tuple[str, str, Subject], ...] = (
    ("marking-consistency", "marking_consistency", Subject.EQUIPMENT),
    ("evidence", "evidence", Subject.EQUIPMENT),
    ("document-number", "document_number", Subject.EQUIPMENT),
    ("superseded-marking", "superseded_marking", Subject.EQUIPMENT),
    ("special-conditions", "special_conditions", Subject.EQUIPMENT),
    ("ex-component", "ex_component", Subject.EQUIPMENT),
)
"""Each rule, its module and its subject, in the order that reports list them."""
