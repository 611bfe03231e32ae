"""A nameplate text to facts: the codes of a plate, and what it says of several of them."""

import re
from collections.abc import Sequence
from functools import lru_cache

from areafit.facts.groups import Group
from areafit.facts.marking import Code, Marking, Problem
from areafit.facts.protection import Hazard, MarkingSystem
from areafit.marking import clashes, clauses, north_america
from areafit.marking.blocks import CodeBlock, gather, problem_of
from areafit.marking.codes import circuits_of, codes_of, worse_suffix
from areafit.marking.gases import read_gas
from areafit.marking.iec_atex import (
    read_bracket,
    read_category,
    read_dip,
    read_ex,
    read_level,
    read_lost_category,
    read_zone_group,
)
from areafit.marking.north_america import (
    read_agency_form,
    read_class,
    read_division,
    read_letters,
    read_phrase,
    read_zones_of_sides,
)
from areafit.marking.papers import (
    read_agency,
    read_certificate,
    read_drawing,
    read_mark,
    read_rating,
    read_warning,
)
from areafit.marking.several import arranged, settled, share, standing_alone
from areafit.marking.temperature import (
    read_ambient,
    read_bare_span,
    read_class_mark,
    read_figure,
)
from areafit.marking.tokens import LONGEST, tokenise, too_long
from areafit.marking.words import (
    Ingress,
    Reader,
    Word,
    read_enclosure,
    read_ingress,
    read_separator,
    read_suffix,
    read_words,
)
from areafit.pattern import pattern
from areafit.values import replace

# Order matters where one phrase begins another: a certificate before a lone X, a category before
# the group II, an ambient range before a surface temperature.
_READERS: tuple[Reader, ...] = (
    read_certificate,
    read_mark,
    read_warning,
    read_dip,
    read_agency_form,
    read_phrase,
    read_agency,
    read_class,
    read_division,
    read_zones_of_sides,
    read_category,
    read_lost_category,
    read_ex,
    read_bracket,
    read_zone_group,
    read_letters,
    read_gas,
    read_ambient,
    read_class_mark,
    read_bare_span,
    read_figure,
    read_level,
    read_ingress,
    read_enclosure,
    read_drawing,
    read_rating,
    read_suffix,
    read_separator,
)


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
    words = settled(read_words(tokenise(text), _READERS))
    blocks = arranged(gather(words))
    codes: list[Code] = []
    problems: list[Problem] = []
    for block in blocks:
        found = codes_of(block)
        codes = _with_circuits(codes, block) if block.circuits else [*codes, *found]
        problems += [*map(problem_of, block.unread), *block.problems]
        problems += clashes.of_block(block, found)
    shared = _narrowed(share(_each_to_its_class(codes), standing_alone(words)), words)
    problems += [problem for code in shared for problem in clashes.of_code(code)]
    if not shared:
        problems = [each for each in problems if not each.message.startswith(repr(text.strip()))]
        problems.append(_no_code(blocks))
    return Marking(text, shared, tuple(dict.fromkeys(problems)))


def _each_to_its_class(codes: Sequence[Code]) -> tuple[Code, ...]:
    """`XP/DIP Class I …; Class II …` names the types of both classes in front: each has its own."""
    both = {north_america.EXPLOSIONPROOF, north_america.DUST_IGNITIONPROOF}
    hazards = {code.hazard for code in codes if code.system is MarkingSystem.NEC_DIVISION}
    joined = any(both <= set(code.words) for code in codes)
    if not joined or not {Hazard.GAS, Hazard.DUST} <= hazards:
        return tuple(codes)

    def own(code: Code) -> Code:
        gas = code.hazard is Hazard.GAS
        other = north_america.DUST_IGNITIONPROOF if gas else north_america.EXPLOSIONPROOF
        return replace(code, words=tuple(word for word in code.words if word != other))

    return tuple(map(own, codes))


def _narrowed(codes: tuple[Code, ...], words: Sequence[Word]) -> tuple[Code, ...]:
    """Without the groups that the type of the enclosure leaves out: `Groups A-D; NEMA 7CD`."""
    stated = frozenset[Group]().union(*(w.groups for w in words if isinstance(w, Ingress)))
    if not stated:
        return codes

    def own(code: Code) -> Code:
        listed = {group for group in stated if group.hazard is code.hazard}
        narrow = code.system is MarkingSystem.NEC_DIVISION and listed
        return replace(code, groups=code.groups & listed) if narrow else code

    return tuple(map(own, codes))


_DUAL = pattern(
    r"(?:(?:Class\s+I,?\s+)?Zone\s+[0-9]+(?:/[0-9]+)?,?\s+)?(?<!\w)(AEx\s?/\s?Ex|Ex\s?/\s?AEx)(?!\w)"
)


def _both(text: str, dual: re.Match[str]) -> Marking:
    """`Class I, Zone 0, AEx/Ex ia IIC T4 Ga`: the code of two systems, the zone for AEx only."""
    before, behind = text[: dual.start()], text[dual.end() :]
    zone = text[dual.start() : dual.start(1)]
    halves = [decode(f"{before}{own}{behind}") for own in (f"{zone}AEx", "Ex")]
    codes = tuple(dict.fromkeys(code for half in halves for code in half.codes))
    problems = tuple(dict.fromkeys(each for half in halves for each in half.problems))
    return Marking(text, codes, problems)


def _with_circuits(codes: Sequence[Code], block: CodeBlock) -> list[Code]:
    """The codes with circuits that leave the equipment; without a housing it is associated only."""
    output, suffix = circuits_of(block), worse_suffix(block.suffixes)
    if not codes:
        codes = [Code(MarkingSystem.NEC_DIVISION, Hazard.GAS, associated=True)]
    return [
        replace(
            code,
            outputs=(*code.outputs, output),
            suffix=worse_suffix((code.suffix, suffix)),
        )
        for code in codes
    ]


def _no_code(blocks: Sequence[CodeBlock]) -> Problem:
    ratings = " ".join(text for block in blocks for text in block.ingress)
    only = f" {ratings} is an enclosure rating; state it as `ingress`." if ratings else ""
    message = (
        "No complete code was found: a class and division, a zone, or Ex with a type, such as "
        f"II 2G Ex db IIC T4 Gb.{only}"
    )
    return Problem(message, clauses.NOT_READ, unread=True)
