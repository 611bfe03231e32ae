"""The clauses that a finding cites: of those of a rule, the ones that bind under the list's law."""

from functools import lru_cache

from areafit.facts.protection import Law
from areafit.pattern import pattern

_AMERICAN = ("NFPA 70", "NFPA 30-", "NFPA 497", "NFPA 499", "29 CFR", "NEMA 250")
_EUROPEAN = ("1999/92/EC", "2014/34/EU", "94/9/EC", "EU guidelines")
_ADOPTED = ("EN 60079-14",)  # the text of IEC 60079-14 for Europe
_INSTALLATION = ("IEC 60079-14", "IEC 60079-10")
_FOREIGN = {
    Law.NEC: (*_EUROPEAN, *_ADOPTED, *_INSTALLATION),
    Law.IEC: (*_AMERICAN, *_EUROPEAN, *_ADOPTED),
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
