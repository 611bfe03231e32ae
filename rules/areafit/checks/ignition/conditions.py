"""Specific conditions of use that speak of a subject and are met by something on file."""

from areafit.documents import permission
from areafit.facts.evidence import Condition, EvidenceType
from areafit.facts.part import Equipment

SPARKING = ("impact", "friction", "spark", "light metal", "aluminium", "aluminum", "titanium")
STATIC = ("static", "charge", "charging")
_CERTIFICATES = frozenset({EvidenceType.CERTIFICATE})


def met_condition(equipment: Equipment, words: tuple[str, ...]) -> Condition | None:
    """The first condition of a certificate about these words that is met, with a document."""
    return permission(equipment.evidence or (), _CERTIFICATES, words)
