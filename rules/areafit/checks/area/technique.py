"""Is the type of protection one that this equipment may use in this area."""

from areafit.checks.area.question import TypeQuestion
from areafit.facts.protection import Hazard, MarkingSystem, Purge
from areafit.marking.letters import find_type
from areafit.rule import Judgement, flagged, passed, unproven
from areafit.tables.protection_types import Gives
from areafit.verdict import Reason


def judge_type(question: TypeQuestion) -> Judgement:
    """Letters must be known, for the hazard and for the equipment; purges suit their division."""
    code = question.code
    if code is None:
        return unproven(Reason.FACT_MISSING, "No type of protection is shown.")
    required = "a type of protection for this hazard and this kind of equipment"
    found = ", ".join((*code.protection, *code.words)) or "no type printed"
    division_one = any(area.division == 1 for area in question.areas)
    if division_one and "nonincendive" in code.words:
        return flagged(
            "Nonincendive equipment is for Division 2.",
            required=required,
            found=found,
            clause="NFPA 70-2023 500.7(F), (G), (H)",
        )
    if division_one and code.purge is Purge.Z:
        return flagged(
            "Type Z pressurization takes Division 2 to unclassified, never Division 1.",
            required=required,
            found="Type Z",
            clause="NFPA 496; NFPA 70-2023 500.7(D)",
        )
    if question.electrical and code.non_electrical:
        return flagged(
            "The marking is for non-electrical equipment; the part is electrical.",
            required=required,
            found=found,
            clause="ISO 80079-36:2016 1",
        )
    if code.system is MarkingSystem.NEC_DIVISION:
        return passed("The Division marking names no unsuitable type.", required=required, found=found)
    for letter in code.protection:
        kind = find_type(letter, non_electrical=code.non_electrical)
        if kind is None:
            return unproven(
                Reason.NO_DATA, f"Type {letter} is not in the table.", required=required, found=found
            )
        gives = kind.dust if code.hazard is Hazard.DUST else kind.gas
        if gives is Gives.NONE:
            return flagged(
                f"Type {letter} is not for {code.hazard.value}.", required=required, found=found
            )
    if not code.protection:
        return unproven(
            Reason.FACT_MISSING, "No type of protection is printed.", required=required, found=found
        )
    return passed("The types serve this hazard.", required=required, found=found)
