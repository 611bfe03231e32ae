"""What is on file for a marking: evidence, conditions, contradictions."""

from areafit.rule import Subject

LISTED: tuple[tuple[str, str, Subject], ...] = (
    ("kind-known", "origin", Subject.LINE),
    ("proposed", "origin", Subject.LINE),
    ("library-agreement", "origin", Subject.LINE),
    ("answer-agreement", "origin", Subject.LINE),
    ("marking-consistency", "nameplate", Subject.EQUIPMENT),
    ("evidence", "evidence", Subject.EQUIPMENT),
    ("document-number", "evidence", Subject.EQUIPMENT),
    ("superseded-marking", "nameplate", Subject.EQUIPMENT),
    ("special-conditions", "conditions", Subject.EQUIPMENT),
    ("ex-component", "conditions", Subject.EQUIPMENT),
)
"""Each rule, its module and its subject, in the order that reports list them."""
