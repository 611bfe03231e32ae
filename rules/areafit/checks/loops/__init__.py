"""Intrinsically safe circuits, by their entity values."""

from areafit.rule import Subject

LISTED: tuple[tuple[str, str, Subject], ...] = (
    ("loop-missing", "loop_missing", Subject.EQUIPMENT),
    ("loop-items", "loop_items", Subject.LOOP),
    ("loop-source", "loop_source", Subject.LOOP),
    ("loop-source-place", "loop_source_place", Subject.LOOP),
    ("loop-supply", "loop_supply", Subject.LOOP),
    ("loop-voltage", "loop_voltage", Subject.LOOP),
    ("loop-current", "loop_current", Subject.LOOP),
    ("loop-power", "loop_power", Subject.LOOP),
    ("loop-capacitance", "loop_capacitance", Subject.LOOP),
    ("loop-inductance", "loop_inductance", Subject.LOOP),
    ("loop-group", "loop_group", Subject.LOOP),
    ("loop-level", "loop_level", Subject.LOOP),
    ("loop-simple-apparatus", "loop_simple_apparatus", Subject.LOOP),
)
"""Each rule, its module and its subject, in the order that reports list them."""
