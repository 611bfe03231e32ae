"""A nameplate text to facts: `decode` is the only door."""

import re
from collections.abc import Iterator, Sequence
from functools import lru_cache

from areafit.facts.marking import Code, Marking, Output, Problem
from areafit.facts.protection import Hazard, MarkingSystem, Suffix
from areafit.marking import clash_division, clash_enclosure, clash_ex, clash_zone, clauses
from areafit.marking.ahead import distribute
from areafit.marking.blocks import gather, plate_wide
from areafit.marking.build_division import circuits_of, division_codes
from areafit.marking.build_ex import ex_codes
from areafit.marking.level import output_letter
from areafit.marking.parts import Parts, sort
from areafit.marking.plate import share
from areafit.marking.scan import scan
from areafit.marking.text import LONGEST, tokenise, too_long
from areafit.pattern import pattern
from areafit.values import replace


def decode(text: str) -> Marking:
    """What a nameplate text promises, and what is wrong with it; it never raises.

    Every word is either understood or named in a problem with `unread` set; contradictions are
    problems with the clause they break. Nothing is guessed: where two readings are possible the
    weaker one is taken. Markings are those of IEC 60079-0, ISO 80079-36, 2014/34/EU and NFPA 70.

    >>> marking = decode("Ex db IIC T4 Gb")
    >>> [(code.protection, code.level.value) for code in marking.codes]
    [(('db',), 'Gb')]
    >>> [problem.message for problem in decode("Ex db IIC T7 Gb").problems]
    ['There is no temperature class T7.']
    """
    return _decode(text)


@lru_cache(maxsize=4096)
def _decode(text: str) -> Marking:
    if too_long(text):
        message = f"The marking is longer than {LONGEST} characters and was not read."
        return Marking(text, (), (Problem(message, clauses.NOT_READ, unread=True),))
    dual = _DUAL.search(text)
    if dual is not None:
        return _both(text, dual)
    elements = scan(tokenise(text))
    blocks = distribute([sort(block) for block in gather(elements)])
    codes: list[Code] = []
    problems: list[Problem] = []
    for parts in blocks:
        found = _codes(parts)
        codes = _with_circuits(codes, parts) if parts.circuits else [*codes, *found]
        problems += [*parts.problems, *_of_block(parts, found)]
    shared = share(codes, plate_wide(elements))
    problems += [problem for code in shared for problem in _of_code(code)]
    if not shared:
        problems = [each for each in problems if not each.message.startswith(repr(text.strip()))]
        problems.append(_unread(_no_code(blocks)))
    return Marking(text, shared, tuple(dict.fromkeys(problems)))


_DUAL = pattern(
    r"(?:(?:Class\s+I,?\s+)?Zone\s+[0-9]+,?\s+)?(?<!\w)(AEx\s?/\s?Ex|Ex\s?/\s?AEx)(?!\w)"
)


def _both(text: str, dual: re.Match[str]) -> Marking:
    """`Class I, Zone 0, AEx/Ex ia IIC T4 Ga`: the code of two systems, the zone for AEx only."""
    before, behind = text[: dual.start()], text[dual.end() :]
    zone = text[dual.start() : dual.start(1)]
    halves = [decode(f"{before}{own}{behind}") for own in (f"{zone}AEx", "Ex")]
    codes = tuple(dict.fromkeys(code for half in halves for code in half.codes))
    problems = tuple(dict.fromkeys(each for half in halves for each in half.problems))
    return Marking(text, codes, problems)


def _no_code(blocks: Sequence[Parts]) -> str:
    ratings = " ".join(text for parts in blocks for text in parts.ingress)
    only = f" {ratings} is an enclosure rating; state it as `ingress`." if ratings else ""
    return (
        "No complete code was found: a class and division, a zone, or Ex with a type, such as "
        f"II 2G Ex db IIC T4 Gb.{only}"
    )


def _codes(parts: Parts) -> list[Code]:
    """The codes of one block; none where nothing in it starts a code."""
    zoned = bool(parts.zones or parts.types or parts.outputs or parts.equipment_group)
    if parts.divisions or (parts.classes and not zoned):
        return division_codes(parts)
    if zoned:
        return ex_codes(parts)
    return division_codes(parts) if parts.purges or parts.associated else []


def _with_circuits(codes: Sequence[Code], parts: Parts) -> list[Code]:
    """The codes with circuits that leave the equipment; without a housing it is associated only."""
    output = circuits_of(parts)
    if not codes:
        return [
            Code(MarkingSystem.NEC_DIVISION, Hazard.GAS, outputs=(output,), associated=True),
        ]
    return [replace(code, outputs=(*code.outputs, output)) for code in codes]


def _of_block(parts: Parts, codes: Sequence[Code]) -> Iterator[Problem]:
    """What is wrong between the words of a block, or missing from it."""
    if parts.circuits:
        return
    if parts.safe_place and not parts.associated:
        yield _unread("A non-hazardous place is no marking, except of associated apparatus.")
    if set(parts.suffixes) == {Suffix.X, Suffix.U}:
        yield Problem("X and U exclude each other.", clauses.COMPONENT)
    if parts.divisions and not parts.classes:
        yield _unread("A division is printed without its class (I, II or III).")
    if parts.divisions and (parts.zones or len(set(parts.divisions)) > 1):
        yield Problem("More than one kind of place stands in one code.", clauses.CLASSES)
    for code in codes:
        if code.system is not MarkingSystem.NEC_DIVISION:
            yield from clash_zone.clashes(parts, code)
            yield from _missing(parts, code)
    yield from _outlets(parts)


def _missing(parts: Parts, code: Code) -> Iterator[Problem]:
    """A code that names no type of protection for its hazard."""
    if code.protection or code.associated or (code.legacy and code.hazard is Hazard.DUST):
        return
    if parts.types and parts.types[0].types:
        clause = clauses.DUST_MARK if code.hazard is Hazard.DUST else clauses.GAS_MARK
        yield Problem(f"No type of protection for {code.hazard.value}.", clause)
    elif parts.marks or code.system is not MarkingSystem.NEC_ZONE or not code.groups:
        yield _unread("The code prints no type of protection.")


def _outlets(parts: Parts) -> Iterator[Problem]:
    """A category in round brackets needs a protected circuit of that level."""
    for item in parts.categories:
        if item.output is None:
            continue
        wanted = " abc"[item.output]
        if not any(_reaches(output, wanted) for output in parts.outputs):
            text = f"Category ({item.output}) needs a bracketed circuit of level {wanted}."
            yield Problem(text, clauses.CATEGORY)


def _reaches(output: Output, wanted: str) -> bool:
    letter = output_letter(output)
    return letter is not None and letter <= wanted


def _of_code(code: Code) -> Iterator[Problem]:
    if code.system is MarkingSystem.NEC_DIVISION:
        yield from clash_division.clashes(code)
    else:
        yield from clash_ex.clashes(code)
        yield from clash_enclosure.clashes(code)


def _unread(text: str) -> Problem:
    return Problem(text, clauses.NOT_READ, unread=True)
