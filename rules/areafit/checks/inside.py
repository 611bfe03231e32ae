"""The enclosure that a part is said to stand in: whether it protects the part at its place.

It counts only by the key `inside`, and only where that line is an enclosure whose marking, document
and rating pass at the part's place and whose document names or allows the part. `parent` says where
a part is mounted, which protects nothing.
"""

import re
from collections.abc import Callable, Iterable, Iterator
from typing import Any

from areafit.checks.area.ambient import AMBIENT_RANGE
from areafit.checks.area.entry_questions import rests_on_enclosure
from areafit.checks.area.group import DUST_GROUP, GAS_GROUP
from areafit.checks.area.ingress import INGRESS, read_rating
from areafit.checks.area.level import PROTECTION_LEVEL
from areafit.checks.area.nameplate import ChosenCodes, serving
from areafit.checks.area.protection_type import PROTECTION_TYPE
from areafit.checks.area.temperature import TEMPERATURE_CLASS, is_fitting
from areafit.checks.proof.conditions import EX_COMPONENT, SPECIAL_CONDITIONS
from areafit.checks.proof.evidence import EVIDENCE
from areafit.checks.proof.nameplate import MARKING_CONSISTENCY
from areafit.demands import Demands
from areafit.documents import is_shown
from areafit.facts.evidence import Evidence
from areafit.facts.part import Equipment, Housed, Part
from areafit.facts.quantity import Range
from areafit.rule import Rule
from areafit.subjects import part_variants
from areafit.verdict import Verdict

_OF_PLATE: tuple[Rule[Any], ...] = (
    PROTECTION_LEVEL,
    PROTECTION_TYPE,
    GAS_GROUP,
    DUST_GROUP,
    TEMPERATURE_CLASS,
    AMBIENT_RANGE,
    INGRESS,
)
_OF_EQUIPMENT: tuple[Rule[Any], ...] = (
    MARKING_CONSISTENCY,
    EVIDENCE,
    SPECIAL_CONDITIONS,
    EX_COMPONENT,
)
_ALLOWS = ("inside", "built in", "built-in", "mounted", "installed", "component", "contents")


def housed_in(
    part: Part,
    around: Part,
    demands: Demands,
    plate_of: Callable[[Part], ChosenCodes],
) -> Housed:
    """What the enclosure `around` is to a part at a place; `plate_of` gives its codes there."""
    found = [_one(part, each, demands, plate_of(each)) for each in part_variants(around)]
    worst = next((each for each in found if not each.counts), found[0])
    named = all(each.named for each in found)
    return Housed(
        around.item,
        worst.lacks,
        named,
        _air(part.equipment, found),
        worst.markings,
        worst.ingress,
    )


def _air(own: Equipment, found: Iterable[Housed]) -> Range | None:
    """All that is stated of the air inside; the widest of it counts."""
    spans = [own.inside_ambient, *(each.inside_ambient for each in found)]
    stated = [span for span in spans if span is not None]
    if not stated:
        return None
    return Range(min(span.low for span in stated), max(span.high for span in stated))


def _one(part: Part, around: Part, demands: Demands, plate: ChosenCodes) -> Housed:
    equipment = plate.equipment
    documents = list(_serving(plate))
    named = any(_names(each, part) for each in _of_both(documents, part))
    allowed = named or any(map(_allows, documents))
    lacks = next(_lacks(around, demands, plate), "")
    if not lacks and demands.classified and not allowed:
        lacks = "none of its documents names the part or allows what stands inside"
    return Housed(
        around.item,
        lacks,
        named,
        equipment.inside_ambient,
        equipment.markings,
        _rating(equipment),
    )


def _rating(equipment: Equipment) -> str | None:
    texts = [code.ingress for code in equipment.codes] + [equipment.ingress]
    return ", ".join(dict.fromkeys(text for text in texts if text is not None)) or None


def _lacks(around: Part, demands: Demands, plate: ChosenCodes) -> Iterator[str]:
    """Why the line is no enclosure that protects what stands in it, most telling first."""
    equipment = plate.equipment
    if demands.place.name not in around.locations:
        yield "it does not stand at this place"
    if not demands.classified:
        return
    codes = [each.code for each in plate.chosen]
    rating = _rating(equipment)
    rated = rating is not None and bool(read_rating(rating).ips or read_rating(rating).types)
    if not equipment.electrical or not all(
        code is not None and rests_on_enclosure(code) and not is_fitting(equipment, code)
        for code in codes
    ):
        yield "it is no enclosure that is marked for the place"
    if not rated:
        yield "its enclosure rating is not stated"
    for rules, subject in ((_OF_PLATE, plate), (_OF_EQUIPMENT, equipment)):
        for rule in rules:
            asked = [rule.judge(each.question) for each in rule.ask(subject, demands)]
            if any(each.verdict is not Verdict.PASS for each in asked):
                yield f"“{rule.title}” is not met by it"


def _serving(plate: ChosenCodes) -> Iterator[Evidence]:
    for choice in plate.chosen:
        yield from serving(choice)


def _of_both(documents: list[Evidence], part: Part) -> Iterator[Evidence]:
    """The documents of the enclosure, on its line or on that of the part."""
    yield from documents
    numbers = {each.number for each in documents}
    for each in part.equipment.evidence or ():
        if each.number in numbers and not each.elsewhere and each.covers is not None:
            yield each


def _names(document: Evidence, part: Part) -> bool:
    """Whether a document names the part by its number, as covered or in a condition that is met."""
    if part.part_number is None:
        return False
    word = rf"(?<![^\W_]){re.escape(part.part_number)}(?![^\W_])"
    met = [each for each in document.conditions or () if is_shown(each)]
    texts = [document.covers, *(each.text for each in met)]
    return any(re.search(word, text, re.IGNORECASE) for text in texts if text)


def _allows(document: Evidence) -> bool:
    """Whether a condition that is met speaks of what may stand inside."""
    met = (each.text.casefold() for each in document.conditions or () if is_shown(each))
    return any(word in text for text in met for word in _ALLOWS)
