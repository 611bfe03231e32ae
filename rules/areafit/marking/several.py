"""Several codes on one plate: which of them a category, a range or a closing word speaks of.

A word speaks of the code that it stands in. What closes the plate speaks of earlier codes too that
print none of its kind; of two readings the narrower holds and is told.
"""

import re
from collections.abc import Iterator, Sequence

from areafit.facts.groups import Group
from areafit.facts.marking import Code, Problem, TemperatureMark
from areafit.facts.protection import Hazard
from areafit.facts.quantity import Range
from areafit.marking import clauses
from areafit.marking.blocks import OF_PLATE, SILENT, CodeBlock
from areafit.marking.codes import hazards_of, worse_suffix
from areafit.marking.limits import default_ambient, hottest, limits_of
from areafit.marking.north_america import INTRINSICALLY_SAFE
from areafit.marking.papers import MARKS
from areafit.marking.temperature import zone_classes
from areafit.marking.words import (
    Ambient,
    BareSpan,
    Bracket,
    CategoryItem,
    CategoryMark,
    ClassWord,
    DivisionWord,
    Fault,
    Filler,
    Gas,
    GroupLetters,
    Ingress,
    Levels,
    ProvidesCircuits,
    Separator,
    SuffixMark,
    Temperature,
    TradeWord,
    Types,
    Unread,
    Word,
    ZoneGroup,
    ZoneWord,
)
from areafit.pattern import pattern
from areafit.values import replace

# Words beside words that nobody read, and ranges that nobody named

_CLOSES = (Levels, Temperature, Ingress, SuffixMark, GroupLetters, DivisionWord, ZoneGroup, Gas)
_BEGINS = (CategoryMark, ClassWord, DivisionWord, ZoneWord, Types, Bracket, Ingress, SuffixMark)
# What misprints leave of a mark, of a temperature class and of `provides … circuits to`.
_LIKE_MARK = pattern(r"(?<!\w)\w{0,2}[AE]?E\w{0,2}[xX]\w{0,2}(?!\w)")
_LIKE_CLASS = pattern(r"(?<!\w)[^\s\d]{0,2}T\S{0,2}?[0-9]+[^\s\d]{0,2}[0-9]*(?!\w)")
_RANGE_BEFORE = pattern(r"(?:\.\.|T\S* ?(?:-|to))\Z")
_RANGE_BEHIND = pattern(r"\.\.|(?:-|to) ?\w{0,2}T")
_LIKE_PLACE = pattern(
    r"(?<!\w)(?:\w?C\w?L\w?|\w{0,2}C\w{0,2}L\w{0,4}S\w{0,2})(?!\w)", re.IGNORECASE
)
_LIKE_CIRCUITS = pattern(r"circuit|connection|output|\bto\Z", re.IGNORECASE)
_LEADS = pattern(r"\b(?:for|in|into)\Z", re.IGNORECASE)  # of `IS circuits for Class I`


def settled(words: Sequence[Word]) -> list[Word]:
    """The words, each weighed by what stands around it.

    A bare `-50 °C to +55 °C` is the ambient or unread. Beside a word that nobody read nothing may
    be promised that the whole plate would not promise: it may have been a mark, a class, a `not`.
    """
    spoken = [word for word in words if not isinstance(word, (Filler, Separator, Fault))]
    labelled = any(isinstance(word, Ambient) for word in words)
    done: list[Word] = []
    index = -1
    for at, word in enumerate(words):
        index += not isinstance(word, (Filler, Separator, Fault))
        before = spoken[index - 1] if index > 0 else None
        after = spoken[index + 1] if index + 1 < len(spoken) else None
        misread = at > 0 and isinstance(words[at - 1], (Unread, Fault))
        beside = any(isinstance(each, Unread) for each in words[max(at - 1, 0) : at + 2])
        match word:
            case BareSpan(text, span):
                is_air = not labelled and _is_air(word, before, after, spoken)
                done.append(span if is_air else Unread(text))
            case Temperature(_, plain) if plain and misread:
                done.append(Unread(plain))
            case Temperature(mark) if beside and _ranges(words[max(at - 1, 0) : at + 2]):
                # The other end of `T6...Tx3` may be the hotter one.
                done.append(Temperature(replace(mark, maximum=None, name=f"{mark.name or 'T'}...")))
            case Ambient() if beside:
                done.append(replace(word, unsure=True))
            case Unread(text):
                done += [word, *_left_of(text, before, after)]
            case _:
                done.append(word)
    return done


def _ranges(around: Sequence[Word]) -> bool:
    """Whether unread text in front ends with a sign of a range, or text behind begins with one."""
    first, last = around[0], around[-1]
    before = isinstance(first, Unread) and _RANGE_BEFORE.search(first.text)
    return bool(before or (isinstance(last, Unread) and _RANGE_BEHIND.match(last.text)))


def _left_of(text: str, before: Word | None, after: Word | None) -> Iterator[Word]:
    """What unread text must count as, so that what stands behind it is nobody else's."""
    if any(each.lower() not in MARKS for each in _LIKE_MARK.findall(text)):
        yield Types("Ex", ())
    if _LIKE_PLACE.search(text):
        yield ClassWord(())
    name = _LIKE_CLASS.search(text)
    if name is not None:
        yield Temperature(TemperatureMark(None, name.group()))
    heads = isinstance(after, (ClassWord, ZoneWord, Types))
    safe = isinstance(before, TradeWord) and before.word == INTRINSICALLY_SAFE
    led = _LIKE_CIRCUITS.search(text) or (safe and _LEADS.search(text))
    if "provid" in text.lower() or (heads and led):
        yield ProvidesCircuits()


def _is_air(
    word: BareSpan, before: Word | None, after: Word | None, spoken: Sequence[Word]
) -> bool:
    """Behind a class, or where it closes a code; never as hot as the class: surfaces are hotter."""
    high = word.span.high
    if isinstance(before, Temperature):
        limits = [before.mark.maximum]
    elif (
        word.at or not isinstance(before, _CLOSES) or not isinstance(after, (*_BEGINS, type(None)))
    ):
        return False
    else:
        limits = [each.mark.maximum for each in spoken if isinstance(each, Temperature)]
    return high is not None and all(limit is None or high < limit for limit in limits)


# Codes and their categories


def arranged(blocks: list[CodeBlock]) -> list[CodeBlock]:
    """The blocks with mines apart from surface, categories at their codes, the tail at its own."""
    apart = [part for block in blocks for part in _mines_apart(block)]
    done = _head_behind(_categorised(apart))
    _share_tail(done)
    return done


def _mines_apart(block: CodeBlock) -> list[CodeBlock]:
    """`Ex db I/IIC T6 Mb/Gb` as two codes; the category stays in front, the class with IIC."""
    groups = [word for word in block.groups if word.group is Group.I]
    others = [word for word in block.groups if word.group is not Group.I]
    levels = [level for pair in block.levels for level in pair]
    of_mines = [level for level in levels if level.value[0] == "M"]
    rest = [level for level in levels if level not in of_mines]
    if not (groups and others) or bool(of_mines) is not bool(rest) or block.classes:
        return [block]
    from copy import copy  # noqa: PLC0415 - few plates are for mines too

    mines, surface = copy(block), copy(block)
    mines.groups, surface.groups = groups, others
    mines.levels = [tuple(of_mines)] if of_mines else []
    surface.levels = [tuple(rest)] if rest else []
    mines.temperatures = [word for word in block.temperatures if isinstance(word, Ambient)]
    parts = [mines, surface] if block.groups[0].group is Group.I else [surface, mines]
    parts[1].categories, parts[1].equipment_group = [], None
    parts[1].unread, parts[1].problems = [], []
    parts[1].suffixes, parts[1].temperatures = [*block.suffixes], [*parts[1].temperatures]
    return parts


def _categorised(blocks: list[CodeBlock]) -> list[CodeBlock]:
    """The blocks with each category at the code of its kind: `II 2G / II 2D Ex db … Ex tb …`.

    Only where it can be told: as many categories as codes behind them, each of another kind (gas,
    dust, mines). Anything else stays as it is.
    """
    done: list[CodeBlock] = []
    index = 0
    while index < len(blocks):
        run = _run(blocks, index)
        done.extend(_assigned(run) or run)
        index += len(run)
    return done


def _run(blocks: list[CodeBlock], index: int) -> list[CodeBlock]:
    """A block with a category, the bare categories behind it, and the codes without one."""
    run = [blocks[index]]
    for block in blocks[index + 1 :]:
        headed = _is_code(run[-1])
        if not run[0].categories or not (bool(block.categories) ^ headed) or _is_other(block):
            break
        run.append(block)
    return run


def _is_code(block: CodeBlock) -> bool:
    """Whether a block has types of its own, or is a bracket of associated apparatus."""
    return bool(block.types or block.brackets)


def _is_other(block: CodeBlock) -> bool:
    """Whether a block is more than categories or an `Ex` code."""
    return bool(block.classes or block.zones or block.divisions or block.circuits)


def _assigned(run: list[CodeBlock]) -> list[CodeBlock] | None:
    items = [item for block in run for item in _kinds_of_category(block)]
    codes = [block for block in run if _is_code(block)]
    if len(items) < 2 or len(codes) != len(items) or _is_other(run[0]):
        return None
    by_kind = {kind: (group, item) for kind, group, item in items}
    kinds = [_kind_of_code(block) for block in codes]
    if len(by_kind) != len(items) or set(kinds) != set(by_kind):
        return None
    given = [by_kind[kind][1] for kind in kinds]
    if any(
        (item.number is None) is bool(block.types) for item, block in zip(given, codes, strict=True)
    ):
        return None  # a category of the housing for a bracket, or the reverse
    for block in run:
        if not _is_code(block):
            codes[0].unread[:0] = block.unread
            codes[0].suffixes.extend(block.suffixes)
    for block, kind in zip(codes, kinds, strict=True):
        block.equipment_group, item = by_kind[kind]
        block.categories = [item]
    return codes


_MINES = "mines"


def _kinds_of_category(block: CodeBlock) -> Iterator[tuple[object, str | None, CategoryItem]]:
    for item in block.categories:
        is_mines = block.equipment_group == "I"
        yield _MINES if is_mines else item.hazard, block.equipment_group, item


def _kind_of_code(block: CodeBlock) -> object:
    """Gas, dust or mines; empty where the words are of several."""
    if any(word.group is Group.I for word in block.groups):
        return _MINES
    hazards = hazards_of(block, categories=False)
    return hazards[0] if len(hazards) == 1 else ""


def _head_behind(blocks: list[CodeBlock]) -> list[CodeBlock]:
    """`Ex db IIC T6 Gb II 2G`, `AEx db IIC T4 Gb, Zone 1`: the head behind its only code."""
    if len(blocks) != 2:
        return blocks
    code, head = blocks
    if not code.types or _is_other(code) or code.categories:
        return blocks
    if head.has(Types, Bracket, ZoneGroup, Levels, Temperature, DivisionWord, GroupLetters):
        return blocks
    if head.categories and not _is_other(head):
        if [item.hazard for item in head.categories] != list(hazards_of(code)):
            return blocks
        code.categories, code.equipment_group = head.categories, head.equipment_group
    elif len(head.zones) == 1 and not head.categories and code.marks == {"AEx"}:
        code.zones, code.classes = head.zones, head.classes
    else:
        return blocks
    code.temperatures.extend(head.temperatures)
    code.ingress.extend(head.ingress)
    code.suffixes.extend(head.suffixes)
    code.unread.extend(head.unread)
    return [code]


# The tail


def _share_tail(blocks: Sequence[CodeBlock]) -> None:
    """What closes the plate, for earlier codes: a temperature, an ambient, a word of the plate."""
    last = blocks[-1]
    if last.circuits or last.unread:
        return
    taken = False
    for index, block in enumerate(blocks[:-1]):
        if block.circuits or block.unread or (block.brackets and not block.types):
            continue  # a word that nobody read may have been its own
        block.trade_words += [word.word for word in OF_PLATE if word in last.tail]
        own = block.temperatures
        behind = blocks[index + 1 :]
        given: list[Temperature | Ambient] = []
        if not any(isinstance(word, Temperature) for word in own):
            given += _temperatures(block, behind)
        taken |= bool(given)
        if not any(isinstance(word, Ambient) for word in own):
            given += _ambients(block, behind)
        # In the order of the plate, which tells whose ambient each class has.
        closing = [w for w in last.tail if isinstance(w, (Temperature, Ambient)) and w in given]
        own.extend(closing if set(closing) == set(given) else given)
    if taken and not _is_division(last) and list(hazards_of(last)) == [Hazard.DUST]:
        # A class behind a dust code, for the gas code before it.
        last.temperatures = [
            word for word in last.temperatures if isinstance(word, Ambient) or not word.mark.name
        ]


def _is_division(block: CodeBlock) -> bool:
    zoned = block.zones or block.types or block.brackets or block.equipment_group
    return bool(block.divisions or (block.classes and not zoned))


def _temperatures(block: CodeBlock, behind: Sequence[CodeBlock]) -> list[Temperature]:
    """What closes the plate and can be the block's; of several that close codes, the hottest."""
    given = [[word for word in each.tail if _fits(word, block, each)] for each in behind]
    words = [word for found in given for word in found if isinstance(word, Temperature)]
    if not given[-1]:
        return []
    if len({tuple(found) for found in given if found}) == 1:
        return list(dict.fromkeys(words))
    text = "no temperature of its own, and the codes behind it end in several; the hottest counts."
    says = f"{_name(block)} prints {text}"
    block.problems.append(Problem(says, clauses.TEMPERATURE, unread=True))
    return [Temperature(mark) for mark in hottest([word.mark for word in words])]


def _fits(word: Word, block: CodeBlock, giver: CodeBlock) -> bool:
    """Whether a temperature can be the block's: a class that of gas or Division, a figure alike."""
    if not isinstance(word, Temperature):
        return False
    name = word.mark.name
    if _is_division(block):
        return name is not None or _is_division(giver)
    hazards = list(hazards_of(block))
    if name is not None:
        return hazards == [Hazard.GAS] and name in zone_classes() and _kind_of_code(block) != _MINES
    return not _is_division(giver) and hazards == list(hazards_of(giver))


def _ambients(block: CodeBlock, behind: Sequence[CodeBlock]) -> list[Ambient]:
    """The ambient that closes the plate; of several that close codes, what they share."""
    given = [[word for word in each.tail if isinstance(word, Ambient)] for each in behind]
    every = list(dict.fromkeys(word for found in given for word in found))
    if not given[-1] or len({tuple(found) for found in given if found}) == 1:
        return every if given[-1] else []
    text = "no ambient of its own, and the codes behind it end in several; what they share counts."
    says = f"{_name(block)} prints {text}"
    block.problems.append(Problem(says, clauses.AMBIENT, unread=True))
    lows = [word.low for word in every if word.low is not None]
    highs = [word.high for word in every if word.high is not None]
    one_sided = len(lows) < len(every) or len(highs) < len(every)  # the standard's end counts too
    return [Ambient(max(lows, default=None), min(highs, default=None), unsure=one_sided)]


def _name(block: CodeBlock) -> str:
    if block.classes:
        return f"Class {block.classes[0]}"
    return f"{block.protection.mark or 'The code'} {' '.join(block.protection.types)}".strip()


# What the plate says of all its codes


def standing_alone(words: Sequence[Word]) -> tuple[Word, ...]:
    """Ambient, ingress and suffix that stand alone between semicolons or line breaks."""
    segments: list[list[Word]] = [[]]
    for word in words:
        if word == Separator(strong=True):
            segments.append([])
        elif not isinstance(word, SILENT):
            segments[-1].append(word)
    if len(segments) == 1:
        return ()
    wide = (Temperature, Ambient, Ingress, SuffixMark)
    return tuple(
        word
        for segment in segments
        if all(isinstance(word, wide) for word in segment)
        for word in segment
        if not isinstance(word, Temperature)
    )


def share(codes: Sequence[Code], alone: Sequence[Word]) -> tuple[Code, ...]:
    """The codes with what the plate says of all of them.

    `X` and `U` count for every code wherever they stand. Words that stand alone between
    semicolons or lines fill what a code does not say itself. An ambient range narrower than the
    standard's narrows every code that prints none; a wider one widens its own code only, and
    earlier ones where it closes the plate.
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
    return code


def _narrowed(code: Code, spans: Sequence[Range]) -> Code:
    if code.ambient is not None or not spans:
        return code
    default = narrowed = default_ambient(code.system)
    for span in spans:
        narrowed = narrowed.common(span) or Range(default.high, default.high)
    return code if narrowed == default else replace(code, ambient=narrowed)
