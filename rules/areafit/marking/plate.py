"""A nameplate text to facts: the codes of a plate, and what it says of several of them."""

import re
from collections.abc import Sequence
from functools import lru_cache

from areafit.facts.marking import Code, Marking, Problem
from areafit.facts.protection import Hazard, MarkingSystem
from areafit.facts.quantity import Range
from areafit.marking import clashes, clauses
from areafit.marking.blocks import SILENT, Block, gather, problem_of
from areafit.marking.codes import circuits_of, codes_of, hazards_of, worse_suffix
from areafit.marking.iec_atex import (
    read_bracket,
    read_category,
    read_ex,
    read_gas,
    read_level,
    read_zone_group,
)
from areafit.marking.north_america import (
    read_agency_form,
    read_class,
    read_division,
    read_letters,
    read_phrase,
    read_zone,
)
from areafit.marking.temperature import (
    default_ambient,
    limits_of,
    read_ambient,
    read_class_mark,
    read_figure,
    read_unlabelled_span,
)
from areafit.marking.tokens import LONGEST, tokenise, too_long
from areafit.marking.words import (
    Ambient,
    Ingress,
    Reader,
    Separator,
    SuffixMark,
    Temperature,
    Word,
    read_certificate,
    read_drawing,
    read_enclosure,
    read_ingress,
    read_mark,
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
    read_agency_form,
    read_phrase,
    read_class,
    read_division,
    read_zone,
    read_category,
    read_ex,
    read_bracket,
    read_zone_group,
    read_letters,
    read_gas,
    read_ambient,
    read_class_mark,
    read_unlabelled_span,
    read_figure,
    read_level,
    read_ingress,
    read_enclosure,
    read_mark,
    read_drawing,
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
    words = read_words(tokenise(text), _READERS)
    blocks = assign_categories(gather(words))
    codes: list[Code] = []
    problems: list[Problem] = []
    for block in blocks:
        found = codes_of(block)
        codes = _with_circuits(codes, block) if block.circuits else [*codes, *found]
        problems += [*map(problem_of, block.unread), *block.problems]
        problems += clashes.of_block(block, found)
    shared = share(codes, standing_alone(words))
    problems += [problem for code in shared for problem in clashes.of_code(code)]
    if not shared:
        problems = [each for each in problems if not each.message.startswith(repr(text.strip()))]
        problems.append(_no_code(blocks))
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


def _with_circuits(codes: Sequence[Code], block: Block) -> list[Code]:
    """The codes with circuits that leave the equipment; without a housing it is associated only."""
    output = circuits_of(block)
    if not codes:
        return [Code(MarkingSystem.NEC_DIVISION, Hazard.GAS, outputs=(output,), associated=True)]
    return [replace(code, outputs=(*code.outputs, output)) for code in codes]


def _no_code(blocks: Sequence[Block]) -> Problem:
    ratings = " ".join(text for block in blocks for text in block.ingress)
    only = f" {ratings} is an enclosure rating; state it as `ingress`." if ratings else ""
    message = (
        "No complete code was found: a class and division, a zone, or Ex with a type, such as "
        f"II 2G Ex db IIC T4 Gb.{only}"
    )
    return Problem(message, clauses.NOT_READ, unread=True)


def assign_categories(blocks: list[Block]) -> list[Block]:
    """The blocks with each category at the code of its hazard: `II 2G / II 2D Ex db … Ex tb …`.

    Only where it can be told: two categories, one for gas and one for dust, in front of exactly
    two codes without a category, one for gas and one for dust. Anything else stays as it is.
    """
    done: list[Block] = []
    index = 0
    while index < len(blocks):
        run = _run(blocks, index)
        done.extend(_assigned(run) or run)
        index += len(run)
    return done


def _run(blocks: list[Block], index: int) -> list[Block]:
    """A block with a category, the bare categories behind it, and the codes without one."""
    run = [blocks[index]]
    for block in blocks[index + 1 :]:
        headed = bool(run[-1].types)
        if not run[0].categories or not (bool(block.categories) ^ headed) or _is_other(block):
            break
        run.append(block)
    return run


def _is_other(block: Block) -> bool:
    """Whether a block is more than categories or an `Ex` code."""
    return bool(block.classes or block.zones or block.divisions or block.circuits)


def _assigned(run: list[Block]) -> list[Block] | None:
    items = [item for block in run for item in block.categories]
    codes = [block for block in run if block.types]
    silent = [block for block in run if not block.types and block.brackets]
    if len(items) != 2 or len(codes) != 2 or silent or _is_other(run[0]):
        return None
    by_hazard = {item.hazard: item for item in items}
    hazards = [hazards_of(block, categories=False) for block in codes]
    if len(by_hazard) != 2 or any(len(found) != 1 for found in hazards) or hazards[0] == hazards[1]:
        return None
    group = run[0].equipment_group
    for block in run:
        if not block.types:
            codes[0].unread[:0] = block.unread
            codes[0].suffixes.extend(block.suffixes)
    for block, found in zip(codes, hazards, strict=True):
        block.categories = [by_hazard[found[0]]]
        block.equipment_group = group
    return codes


def standing_alone(words: Sequence[Word]) -> tuple[Word, ...]:
    """Ambient, ingress and suffix that stand alone between semicolons or line breaks.

    A temperature counts only at the very end, `…; Class III; T4`, where it closes the list.
    """
    segments: list[list[Word]] = [[]]
    for word in words:
        if word == Separator(strong=True):
            segments.append([])
        elif not isinstance(word, SILENT):
            segments[-1].append(word)
    if len(segments) == 1:
        return ()
    wide = (Temperature, Ambient, Ingress, SuffixMark)
    alone = [all(isinstance(word, wide) for word in segment) for segment in segments]
    end = max((n for n, is_alone in enumerate(alone) if not is_alone), default=len(segments))
    return tuple(
        word
        for number, segment in enumerate(segments)
        for word in segment
        if alone[number] and (number > end or not isinstance(word, Temperature))
    )


def share(codes: Sequence[Code], alone: Sequence[Word]) -> tuple[Code, ...]:
    """The codes with what the plate says of all of them.

    `X` and `U` count for every code wherever they stand. Words that stand alone between
    semicolons or lines fill what a code does not say itself. An ambient range narrower than the
    standard's narrows every code that prints none; a wider one widens its own code only.
    """
    suffixes = [code.suffix for code in codes]
    suffixes += [word.suffix for word in alone if isinstance(word, SuffixMark)]
    suffix = worse_suffix(suffixes)
    marked = [code if code.suffix is suffix else replace(code, suffix=suffix) for code in codes]
    shared = [_filled(code, alone) for code in marked] if alone else marked
    spans = [code.ambient for code in shared if code.ambient is not None]
    return tuple(_narrowed(code, spans) for code in shared)


def _filled(code: Code, alone: Sequence[Word]) -> Code:
    printed = [word.text for word in alone if isinstance(word, Ingress)]
    if code.ingress is None and printed:
        code = replace(code, ingress=", ".join(dict.fromkeys(printed)))
    ambients = [word for word in alone if isinstance(word, Ambient)]
    if code.ambient is None and not any(mark.ambient for mark in code.temperatures):
        code = replace(code, ambient=limits_of(ambients, code.system).ambient)
    closing = [word for word in alone if isinstance(word, Temperature)]
    if code.system is MarkingSystem.NEC_DIVISION and not code.temperatures:
        code = replace(code, temperatures=limits_of(closing, code.system).temperatures)
    return code


def _narrowed(code: Code, spans: Sequence[Range]) -> Code:
    if code.ambient is not None or not spans:
        return code
    default = narrowed = default_ambient(code.system)
    for span in spans:
        narrowed = narrowed.common(span) or Range(default.high, default.high)
    return code if narrowed == default else replace(code, ambient=narrowed)
