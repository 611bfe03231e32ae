"""Specific conditions of use that speak of a subject and are met by something on file."""

from areafit.facts.evidence import Condition, EvidenceType
from areafit.facts.part import Equipment
from areafit.tables.placeholders import is_placeholder

LIGHT_METAL = ("impact", "friction", "spark", "light metal", "aluminium", "aluminum", "titanium")
STATIC = ("static", "charge", "charging")


def met_condition(equipment: Equipment, words: tuple[str, ...]) -> Condition | None:
    """The first condition of a certificate about these words that is met, with a document."""
    for each in equipment.evidence or ():
        if each.type is not EvidenceType.CERTIFICATE:
            continue
        for condition in each.conditions or ():
            document = condition.document or ""
            met = condition.met is not False and condition.met_by and document
            if (
                met
                and not is_placeholder(document)
                and any(word in condition.text.casefold() for word in words)
            ):
                return condition
    return None
