"""The declared text itself: readable, of a system the law knows, from a document, not mixed."""

from areafit.demands import Demands
from areafit.facts.groups import Group
from areafit.facts.place import Area, AreaReading, AreaSystem
from areafit.facts.protection import Hazard, Law
from areafit.rule import Judgement, flagged, passed, unproven
from areafit.tables.placeholders import is_placeholder
from areafit.values import Frozen
from areafit.verdict import Reason, Role

_REQUIRED = "an area that the governing rules know, taken from a named document"


class Reading(Frozen):
    """The declared text as decoded, the law that governs, and the document it was taken from.

    `unexplained` are hazards that the area declares while the place says what is present and
    names nothing that forms them.
    """

    area: AreaReading
    law: Law
    document: str | None
    unexplained: tuple[Hazard, ...] = ()


def unexplained(demands: Demands) -> tuple[Hazard, ...]:
    """Declared hazards that nothing listed forms; fibres are dust to the tables."""
    if demands.place.substances is None:
        return ()
    present = {hazard for one in demands.substances for hazard in one.hazards}
    if demands.evolved:
        present.add(Hazard.GAS)
    if Hazard.DUST in present:
        present.add(Hazard.FIBRES)
    return tuple(one.hazard for one in demands.hazards if one.hazard not in present)


def judge_reading(question: Reading) -> Judgement:
    """What is wrong with the declaration comes first, then what is missing."""
    reading = question.area
    if reading.problems:
        return _unread(reading)
    if question.law is not Law.NEC and any(_is_division(area) for area in reading.areas):
        return flagged(
            f"{question.law.value} knows no Divisions; the area is declared as one.",
            required=_REQUIRED,
            found=reading.text,
        )
    mixed = _mixed(reading.areas)
    if mixed is not None:
        return flagged(
            f"The place is declared as Division and as Zone for the same {mixed.value} hazard; one "
            "installation uses one of the two systems.",
            required="one system for one place",
            found=reading.text,
            clause="29 CFR 1910.307(a)(4); NFPA 70-2023 505.7(B), (C)",
        )
    if question.unexplained:
        return _contradiction(question)
    if question.document is None or is_placeholder(question.document):
        return unproven(
            Reason.FACT_MISSING,
            "The area classification that this was taken from is not named.",
            required=_REQUIRED,
            found=reading.text,
            remedy="State the `document` and its revision; an unclassified place needs one too.",
        )
    return passed(
        f"The area is taken from a named document.{_notes(question)}",
        required=_REQUIRED,
        found=f"{reading.text} ({question.document})",
    )


def _unread(reading: AreaReading) -> Judgement:
    message = " ".join(reading.problems)
    if reading.contradictory:
        return flagged(message, required=_REQUIRED, found=reading.text)
    return unproven(
        Reason.NOT_JUDGED,
        message,
        required=_REQUIRED,
        found=reading.text,
        remedy="Write the area as in `Zone 1, IIB, T3`, `Class I, Division 2, Group D`, or "
        "`unclassified`; where the document itself does not say so, ask its owner.",
        answer_by=Role.DESIGNER,
    )


def _contradiction(question: Reading) -> Judgement:
    hazards = " and ".join(hazard.value for hazard in question.unexplained)
    return unproven(
        Reason.FACT_MISSING,
        f"The area is declared for a {hazards} hazard, and nothing that is listed as present forms "
        "one: either the list of substances is not complete or the declaration is out of date. "
        "What the hazard asks for beyond the declared group and temperature is not known.",
        required="every substance that the area is classified for, from its neighbours too",
        found=f"{question.area.text}; no {hazards} listed",
        clause="IEC 60079-10-1:2020; IEC 60079-14:2013 4.2; NFPA 70-2023 500.4, 505.4, 506.4",
        remedy="List the substances that the area classification names, or have the classification "
        "withdrawn by its owner.",
    )


def _is_division(area: Area) -> bool:
    return area.system is AreaSystem.DIVISION


def _mixed(areas: tuple[Area, ...]) -> Hazard | None:
    """The hazard that is declared in both systems; fibres are the dust of the other system."""
    for hazard in (Hazard.GAS, Hazard.DUST):
        kinds = (hazard, Hazard.FIBRES) if hazard is Hazard.DUST else (hazard,)
        systems = {area.system for area in areas if area.hazard in kinds}
        if len(systems) > 1:
            return hazard
    return None


def _notes(question: Reading) -> str:
    areas = question.area.areas
    hazards = {area.hazard for area in areas if area.classified}
    notes = ""
    if Hazard.GAS in hazards and len(hazards) > 1:
        notes += (
            " Gas and dust together may form a hybrid mixture, which the limits of either alone "
            "do not cover; ask a specialist if both occur at once."
        )
    zones = any(area.system is AreaSystem.ZONE for area in areas)
    if question.law is Law.NEC and zones:
        notes += (
            " Zone classification in the United States is done under a qualified registered "
            "professional engineer (29 CFR 1910.307(g), NFPA 70-2023 505.7(A))."
        )
        if any(Group.IIIC in area.groups for area in areas):
            notes += " NFPA guidance handles metal dust as Class II, Group E instead."
    return notes
