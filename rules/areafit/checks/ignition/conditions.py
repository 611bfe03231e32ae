"""Specific conditions of use that speak of a subject and are met by something on file."""

from areafit.facts.evidence import Condition, EvidenceType
from areafit.facts.part import Equipment

LIGHT_METAL = ("impact", "friction", "spark", "light metal", "aluminium", "aluminum", "titanium")
STATIC = ("static", "charge", "charging")


def met_condition(equipment: Equipment, words: tuple[str, ...]) -> Condition | None:
    """The first condition of a certificate about these words that is met, with a document."""
    for document in equipment.evidence or ():
        if document.type is not EvidenceType.CERTIFICATE:
            continue
        for condition in document.conditions or ():
            met = condition.met is not False and condition.met_by and condition.document
            if met and any(word in condition.text.casefold() for word in words):
                return condition
    return None
