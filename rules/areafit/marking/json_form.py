"""A decoded marking as the values of a JSON document."""

from decimal import Decimal
from typing import Any

from areafit.facts.groups import Group
from areafit.facts.marking import Code, Marking, Output, TemperatureMark
from areafit.facts.quantity import Range
from areafit.marking.level import effective_level
from areafit.marking.missing import missing_elements


def as_json(marking: Marking) -> dict[str, Any]:
    """The document of `areafit marking --format json`; null where the plate says nothing."""
    systems = [code.system.value for code in marking.codes]
    return {
        "text": marking.text,
        "system": systems[0] if systems else None,
        "parts": [_code(code) for code in marking.codes],
        "problems": [
            {"message": problem.message, "clause": problem.clause, "unread": problem.unread}
            for problem in (*marking.problems, *missing_elements(marking))
        ],
    }


def _code(code: Code) -> dict[str, Any]:
    first = code.temperatures[0] if len(code.temperatures) == 1 else None
    level = effective_level(code)
    return {
        "system": code.system.value,
        "hazard": code.hazard.value,
        "class": code.hazard_class,
        "division": code.divisions[0] if code.divisions else None,
        "divisions": list(code.divisions),
        "zone": code.zone,
        "equipment_group": code.equipment_group,
        "category": code.category,
        "inner_category": code.inner_category,
        "protection": list(code.protection),
        "joined": code.joined,
        "groups": _names(code.groups),
        "gases": list(code.gases),
        "extra_gases": list(code.extra_gases),
        "temperature_class": first.name if first else None,
        "maximum_surface_temperature_c": _number(first.maximum) if first else None,
        "temperatures": [_temperature(mark) for mark in code.temperatures],
        "epl": code.level.value if code.level else None,
        "inner_epl": code.inner_level.value if code.inner_level else None,
        "effective_epl": level.value if level else None,
        "ambient_c": _range(code.ambient),
        "ingress": code.ingress,
        "associated": code.associated,
        "outputs": [_output(output) for output in code.outputs],
        "equipment": "non-electrical" if code.non_electrical else "electrical",
        "words": list(code.words),
        "purge": code.purge.value if code.purge else None,
        "suffix": code.suffix.value if code.suffix else None,
        "legacy": code.legacy,
    }


def _names(groups: frozenset[Group]) -> list[str]:
    return sorted(group.value for group in groups)


def _temperature(mark: TemperatureMark) -> dict[str, Any]:
    return {
        "class": mark.name,
        "maximum_c": _number(mark.maximum),
        "ambient_c": _range(mark.ambient),
        "layer_m": _number(mark.layer),
    }


def _output(output: Output) -> dict[str, Any]:
    return {
        "protection": list(output.protection),
        "groups": _names(output.groups),
        "epl": output.level.value if output.level else None,
    }


def _range(span: Range | None) -> list[int | float | None] | None:
    return None if span is None else [_number(span.low), _number(span.high)]


def _number(value: Decimal | None) -> int | float | None:
    """JSON knows no decimals: a whole number stays whole, others become the nearest double."""
    if value is None:
        return None
    return int(value) if value == value.to_integral_value() else float(value)
