"""Intrinsically safe circuits, by their entity values."""

from areafit.rule import Subject

LISTED: tuple[tuple[str, str, Subject], ...] = (
    ("loop-missing", "described", Subject.EQUIPMENT),
    ("loop-items", "described", Subject.LOOP),
    ("loop-source", "source", Subject.LOOP),
    ("loop-source-place", "source", Subject.LOOP),
    ("loop-supply", "entity", Subject.LOOP),
    ("loop-voltage", "entity", Subject.LOOP),
    ("loop-current", "entity", Subject.LOOP),
    ("loop-power", "entity", Subject.LOOP),
    ("loop-capacitance", "reactance", Subject.LOOP),
    ("loop-inductance", "reactance", Subject.LOOP),
    ("loop-group", "group", Subject.LOOP),
    ("loop-level", "level", Subject.LOOP),
    ("loop-simple-apparatus", "entity", Subject.LOOP),
)
"""Each rule, its module and its subject, in the order that reports list them."""
