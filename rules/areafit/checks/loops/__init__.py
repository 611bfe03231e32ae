"""Intrinsically safe circuits, by their entity values."""

from areafit.rule import Subject

LISTED: tuple[tuple[str, Subject], ...] = (
    ("loop_missing", Subject.EQUIPMENT),
    ("loop_items", Subject.LOOP),
    ("loop_source", Subject.LOOP),
    ("loop_source_place", Subject.LOOP),
    ("loop_supply", Subject.LOOP),
    ("loop_voltage", Subject.LOOP),
    ("loop_current", Subject.LOOP),
    ("loop_power", Subject.LOOP),
    ("loop_capacitance", Subject.LOOP),
    ("loop_inductance", Subject.LOOP),
    ("loop_group", Subject.LOOP),
    ("loop_level", Subject.LOOP),
    ("loop_simple_apparatus", Subject.LOOP),
)
"""The module of each rule and what it reads, in the order that reports list them."""
