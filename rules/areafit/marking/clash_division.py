"""What contradicts itself within one Division code."""

from collections.abc import Iterator

from areafit.facts.groups import Group
from areafit.facts.marking import Code, Problem
from areafit.facts.protection import Hazard, Purge
from areafit.marking import clauses, phrases


def clashes(code: Code) -> Iterator[Problem]:
    """Every contradiction of the code, each with its clause."""
    if code.hazard is Hazard.DUST and code.divisions == (2,) and Group.E in code.groups:
        text = "Class II, Division 2, Group E does not exist: metal dust is Division 1."
        yield Problem(text, clauses.CLASSES)
    for word in code.words:
        yield from _word(code, word)
    if code.purge is Purge.Z and 1 in code.divisions:
        yield Problem("Type Z pressurization serves Division 2 only.", clauses.PURGING)


def _word(code: Code, word: str) -> Iterator[Problem]:
    if word == phrases.NONINCENDIVE and 1 in code.divisions:
        yield Problem("Nonincendive equipment serves Division 2 only.", clauses.DIVISION_TYPES)
    if word == phrases.EXPLOSIONPROOF and code.hazard is not Hazard.GAS:
        text = f"Explosionproof is a type of Class I, not of Class {code.hazard_class}."
        yield Problem(text, clauses.DIVISION_TYPES)
    if word == phrases.DUST_IGNITIONPROOF and code.hazard_class == "I":
        text = "Dust-ignitionproof is a type of Class II, not of Class I."
        yield Problem(text, clauses.DIVISION_TYPES)
