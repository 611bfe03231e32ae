"""The clauses that a finding cites: of those of a rule, the ones that bind under the list's law."""

from functools import lru_cache

from areafit.facts.protection import Law
from areafit.pattern import pattern

_AMERICAN = ("NFPA 70", "29 CFR")
_EUROPEAN = ("1999/92/EC", "2014/34/EU", "94/9/EC", "EU guidelines")
_INSTALLATION = ("IEC 60079-14",)
_FOREIGN = {
    Law.NEC: (*_EUROPEAN, *_INSTALLATION),
    Law.IEC: (*_AMERICAN, *_EUROPEAN),
    Law.ATEX: _AMERICAN,
}
"""The documents that bind under another law only; standards for equipment are for all."""
_NEXT = pattern(r"; (?![^()]*\))")  # none inside round brackets


@lru_cache(maxsize=4096)
def clause_of(clauses: str, law: Law) -> str:
    """The clauses without those of laws that do not govern; all where none would be left."""
    parts = _NEXT.split(clauses)
    own = [part for part in parts if not part.startswith(_FOREIGN[law])]
    return "; ".join(own or parts)
