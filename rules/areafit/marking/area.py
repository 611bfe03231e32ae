"""Declared areas: `Class I, Division 1, Group D`, `Zone 21, IIIB, T135 °C`, `unclassified`."""

import re
from collections.abc import Iterable, Iterator, Sequence

from areafit.facts.groups import Group
from areafit.facts.marking import TemperatureMark
from areafit.facts.place import Area, AreaReading, AreaSystem
from areafit.facts.protection import Hazard
from areafit.marking.blocks import CodeBlock
from areafit.marking.codes import HAZARD_OF_CLASS, letters_of
from areafit.marking.iec_atex import read_level, read_zone_group
from areafit.marking.level import zone_hazard, zone_letter
from areafit.marking.north_america import (
    ZONES,
    read_class,
    read_division,
    read_letters,
    read_phrase,
    read_zone,
)
from areafit.marking.temperature import (
    read_figure,
    read_one_class,
    read_unlabelled_span,
    zone_classes,
)
from areafit.marking.tokens import LONGEST, Tokens, tokenise, too_long
from areafit.marking.words import (
    ClassWord,
    Fault,
    Filler,
    Found,
    Levels,
    SafePlace,
    Temperature,
    Word,
    ZoneGroup,
    ZoneWord,
    read_separator,
    read_words,
)
from areafit.pattern import pattern


def read_area(text: str) -> AreaReading:
    """The areas that one text declares, with what in it is wrong or was not understood.

    An area that contradicts itself is left out, so that nothing can be judged suitable for it.
    """
    if too_long(text):
        return AreaReading(text, (), (f"The area is longer than {LONGEST} characters.",))
    blocks = _gather(read_words(tokenise(text), _READERS))
    said = [word for block in blocks for word in block.unread]
    wrong = [word.message for word in said if isinstance(word, Fault)]
    problems = [
        word.why or f"{word.text!r} could not be read."
        for word in said
        if not isinstance(word, Fault)
    ]
    areas: list[Area] = []
    for block in blocks:
        if not (block.safe_place or _is_detailed(block)):
            continue
        missing = _missing(block)
        found = [] if missing else list(_faults(block))
        problems += [missing] if missing else []
        wrong += found if not wrong else [each for each in found if each is not _NO_SUCH_ZONE]
        if not (found or missing):
            problems += _other_level(block)
            areas += _areas(block)
    wrong += _mixture(areas)
    problems += wrong
    if not areas and not problems:
        problems.append("No class and division, zone or 'unclassified' was found.")
    return AreaReading(text, tuple(areas), tuple(dict.fromkeys(problems)), bool(wrong))


def read_areas(texts: Sequence[str]) -> AreaReading:
    """Several texts for one place (gas and dust), read as one."""
    readings = [read_area(text) for text in texts]
    areas = [area for reading in readings for area in reading.areas]
    problems = [problem for reading in readings for problem in reading.problems]
    mixture = list(_mixture(areas))
    problems += mixture
    if not readings:
        problems.append("No area is declared.")
    text = "; ".join(reading.text for reading in readings)
    wrong = bool(mixture) or any(reading.contradictory for reading in readings)
    return AreaReading(text, tuple(dict.fromkeys(areas)), tuple(dict.fromkeys(problems)), wrong)


def _read_unclassified(tokens: Tokens, index: int) -> Found | None:
    """`unclassified`, `non-hazardous` and fillers; every other phrase belongs to plates."""
    found = read_phrase(tokens, index)
    return found if found and isinstance(found[0][0], SafePlace | Filler) else None


_SAFE = pattern(
    r"safe(?: (?:areas?|locations?|places?))?\b"
    r"|(?:(?:non?|not|nicht)[ -]?(?:hazardous|classified|class[eé]e|classificat[ao]"
    r"|clasificad[ao]|explosionsgef[aä]hrdet(?:er)?)"
    r"(?: (?:areas?|locations?|places?|Bereich|zone?))?"
    r"|zon[ae] (?:non? (?:class[eé]e|classificata|clasificada)|s[iu]cura|segura|s[uû]re)"
    r"|hors zone(?: ATEX)?|sicherer Bereich|kein Ex-?Bereich|(?:Ex|ex)-freie[rs]? Bereich"
    r"|general[ -]purpose(?: (?:areas?|locations?))?)(?=\s*$)",
    re.IGNORECASE,
)


def _read_safe_area(tokens: Tokens, index: int) -> Found | None:
    """`safe area` and the like, as the trade calls a place that is not classified.

    Only where the text begins with it: behind other words it may say something else.
    """
    behind = tokens.phrase(index, _SAFE) if index == 0 else None
    return None if behind is None else ((SafePlace(),), behind)


# Words of a document that say no more than what stands beside them.
_LABEL = pattern(
    r"(?:(?:hazardous|classified|explosionsgef[aä]hrdeter) (?:areas?|locations?|Bereich)"
    r"|Ex-?Bereich|ATEX|IECEx|A?Ex(?=[ -](?:Zon|II))|(?:gas|dust|explosion) group"
    r"|(?:Explosions|Gas|Staub)?gruppe|groupe(?: de gaz)?|gruppo|grupo|T(?= ?=)"
    r"|Temperaturklasse|temp(?:erature|\.)? class|class[ei] (?:de|di) temp[eé]ratur[ea]"
    r"|clase de temperatura)(?!\w)(?: ?[=:])?",
    re.IGNORECASE,
)


_SAYS_HAZARD = {
    Hazard.GAS: pattern(r"gas(?:es?)?|gaz|vapou?rs?|dampf|vapeurs?", re.IGNORECASE),
    Hazard.DUST: pattern(r"dusts?|staub|poussières?|polver[ei]|polvo", re.IGNORECASE),
}


def _read_hazard(tokens: Tokens, index: int) -> Found | None:
    """`Zone 21 (dust)`: a word that says what the zones of the text say."""
    zones = [zone_hazard(int(each.text)) for each in tokens.padded if each.text in ZONES]
    said = [each for each, word in _SAYS_HAZARD.items() if word.fullmatch(tokens.at(index).text)]
    return ((Filler(),), index + 1) if zones and said and set(zones) == set(said) else None


def _read_label(tokens: Tokens, index: int) -> Found | None:
    behind = tokens.phrase(index, _LABEL)
    return None if behind is None else ((Filler(),), behind)


def _read_zones(tokens: Tokens, index: int) -> Found | None:
    """`Zone 1`, `Zone 1/21`."""
    found = read_zone(tokens, index)
    while found is not None and tokens.at(found[1]).text == "/":
        more = tokens.at(found[1] + 1).text
        if more not in ZONES:
            break
        found = (*found[0], ZoneWord(int(more))), found[1] + 2
    return found


_READERS = (
    _read_unclassified,
    _read_safe_area,
    read_class,
    read_division,
    _read_zones,
    _read_label,
    _read_hazard,
    read_zone_group,
    read_letters,
    read_level,
    read_one_class,
    read_unlabelled_span,
    read_figure,
    read_separator,
)


def _gather(words: Iterable[Word]) -> list[CodeBlock]:
    """One block for each class or zone that is named."""
    blocks = [CodeBlock()]
    for word in words:
        if _begins(blocks[-1], word):
            blocks.append(CodeBlock())
        block = blocks[-1]
        if len(blocks) > 1 and _is_of(blocks[-2], word) and not _is_of(block, word):
            block = blocks[-2]
        block.add(word)
    return blocks


def _is_of(block: CodeBlock, word: Word) -> bool:
    """Whether a zone still lacks what a word says of gas or of dust: `Zone 1/21, IIB T4, IIIC`."""
    zone = block.zones[0] if block.zones else None
    if zone is None:
        return False
    match word:
        case ZoneGroup(group):
            return group.hazard is zone_hazard(zone) and not block.groups
        case Temperature(mark):
            gas = mark.name in zone_classes()
            return gas is (zone_hazard(zone) is Hazard.GAS) and not block.temperatures
        case Levels(levels):
            return all(level.hazard is zone_hazard(zone) for level in levels) and not block.levels
        case _:
            return False


def _begins(block: CodeBlock, word: Word) -> bool:
    match word:
        case ClassWord() | SafePlace():
            return bool(block.classes or block.divisions or block.zones or block.safe_place)
        case ZoneWord():
            return bool(block.zones or block.divisions or block.safe_place)
        case _:
            return False


def _is_detailed(block: CodeBlock) -> bool:
    """Whether there are words that only a classified place has."""
    named = block.classes or block.divisions or block.zones
    return bool(named or block.letters or block.groups or block.temperatures or block.levels)


def _marks(block: CodeBlock) -> list[TemperatureMark]:
    return [word.mark for word in block.temperatures if isinstance(word, Temperature)]


def _missing(block: CodeBlock) -> str | None:
    """What is missing before the words name a place at all."""
    if block.safe_place or (block.zones and not block.divisions):
        return None
    if not block.divisions:
        return "An area needs a class and division, a zone, or the word unclassified."
    if not block.classes and not block.zones:
        return "A division is named without its class (I, II or III)."
    return None


_NO_SUCH_ZONE = "The zone does not exist."  # the reader of the words says it with the number


def _faults(block: CodeBlock) -> Iterator[str]:
    """What makes the words of one place no area that the codes know."""
    if block.safe_place:
        if _is_detailed(block):
            yield "An unclassified place has no group, no temperature class and no level."
        return
    marks = _marks(block)
    if block.divisions and block.zones:
        yield "A place is classified by division or by zone, not by both."
    if len(block.divisions) > 1 or len(marks) > 1:
        yield "An area is named twice, or has two temperature limits."
    if any(mark.maximum is None or mark.layer is not None for mark in marks):
        yield "The temperature limit of the area is none that exists."
    yield from _division_faults(block) if block.divisions else _zone_faults(block, marks)


def _division_faults(block: CodeBlock) -> Iterator[str]:
    if len(block.divisions[0]) != 1:
        yield "An area is Division 1 or Division 2, not both."
    letters = frozenset[Group]().union(*block.letters)
    fitting = frozenset[Group]().union(*(letters_of(name, letters) for name in block.classes))
    if letters - fitting:
        wrong = ", ".join(sorted(group.value for group in letters - fitting))
        yield f"Group {wrong} does not belong to Class {' or '.join(block.classes)}."
    if block.groups:
        yield f"Group {block.groups[0].group.value} belongs to zones, not to a division."
    if "II" in block.classes and block.divisions[0] == (2,) and Group.E in letters:
        yield "Class II, Division 2, Group E does not exist: metal dust is Division 1."


def _zone_faults(block: CodeBlock, marks: Sequence[TemperatureMark]) -> Iterator[str]:
    zone = block.zones[0]
    if zone is None:
        yield _NO_SUCH_ZONE
        return
    hazard = zone_hazard(zone)
    if block.classes and (block.classes != ["I"] or hazard is Hazard.DUST):
        yield f"Class {' or '.join(block.classes)} does not go with Zone {zone}."
    if block.letters:
        yield "Division group letters stand in a zone."
    for word in block.groups:
        group = word.group
        if group.hazard is not hazard or group in {Group.I, Group.II, Group.III}:
            yield f"Group {group.value} is no group of Zone {zone}."
        if word.extra:
            yield f"{word.extra[0]} is no group; list it under substances."
    if len({word.group for word in block.groups}) > 1:
        yield "A zone has one group, the worst that occurs in it."
    for mark in marks:
        if mark.name and (mark.name not in zone_classes() or hazard is Hazard.DUST):
            yield f"{mark.name} is no temperature class of Zone {zone}."


def _other_level(block: CodeBlock) -> Iterator[str]:
    """A level that is not the one that the zone asks for by itself: `Zone 2, Gb`."""
    zone = block.zones[0] if block.zones else None
    for level in (each for levels in block.levels for each in levels):
        own = zone is not None and (level.hazard, level.value[1:]) == (
            zone_hazard(zone),
            zone_letter(zone),
        )
        if not own:
            yield f"{level.value} is not what this area asks for by itself; state `required_epl`."


def _areas(block: CodeBlock) -> Iterator[Area]:
    mark = next(iter(_marks(block)), TemperatureMark(None))
    if block.safe_place:
        yield Area(AreaSystem.UNCLASSIFIED)
    elif block.divisions:
        letters = frozenset[Group]().union(*block.letters)
        for name in block.classes:
            yield Area(
                AreaSystem.DIVISION,
                hazard=HAZARD_OF_CLASS[name],
                hazard_class=name,
                division=block.divisions[0][0],
                groups=letters_of(name, letters),
                maximum=mark.maximum,
                temperature_class=mark.name,
            )
    else:
        zone = block.zones[0] or 0
        yield Area(
            AreaSystem.ZONE,
            hazard=zone_hazard(zone),
            hazard_class=block.classes[0] if block.classes else None,
            zone=zone,
            groups=frozenset(word.group for word in block.groups),
            maximum=mark.maximum,
            temperature_class=mark.name,
        )


def _mixture(areas: Sequence[Area]) -> Iterator[str]:
    if len({area.classified for area in areas}) > 1:
        yield "A place is unclassified or classified, not both."
