"""Reader of ATEX categories, with the letters of the old non-electrical standards behind them."""

from areafit.facts.protection import Hazard
from areafit.marking import clauses
from areafit.marking.elements import CategoryItem, CategoryMark, Element, Fault, Found, Types
from areafit.marking.letters import find_type, split_types
from areafit.marking.text import Tokens

_HAZARDS = {
    "G": (Hazard.GAS,),
    "D": (Hazard.DUST,),
    "GD": (Hazard.GAS, Hazard.DUST),
    "DG": (Hazard.GAS, Hazard.DUST),
}
_MINES = {"M1": 1, "M2": 2}


def read_category(tokens: Tokens, index: int) -> Found | None:
    """`II 2 G`, `II 1/2 G`, `II 2 (1) GD`, `I M2`, with `c b k` where no `Ex` follows."""
    if tokens.at(index).text == "I":
        return _mines(tokens, index + 1)
    if tokens.at(index).text != "II":
        return None
    items: list[CategoryItem] = []
    at = index + 1
    while (found := _item(tokens, at)) is not None:
        items.extend(found[0])
        at = found[1]
        more = at + 1 if tokens.at(at).text in {",", "/"} else at
        if _item(tokens, more) is not None:
            at = more
    if not items:
        return _no_such(tokens, index)
    return _with_letters(tokens, CategoryMark("II", tuple(items)), at)


def _no_such(tokens: Tokens, index: int) -> Found | None:
    """`II 4 G` and the like."""
    number, letter = tokens.at(index + 1), tokens.at(index + 2)
    if not number.is_number or letter.text not in _HAZARDS:
        return None
    return (
        Fault(f"There is no category {number.text}{letter.text}.", clauses.CATEGORY),
    ), index + 3


def _item(tokens: Tokens, index: int) -> tuple[list[CategoryItem], int] | None:
    """`2 G`, `1/2 G`, `2 (1) G`, `(1) GD`, `2 G (1)`."""
    numbers, at = _numbers(tokens, index)
    output, at = _bracketed(tokens, at)
    if not numbers and output is None:
        return None
    hazards, at = _hazards(tokens, at)
    if not hazards:
        return None
    if output is None:
        later, behind = _bracketed(tokens, at)
        other, beyond = _hazards(tokens, behind)
        if later is not None and other in {(), hazards}:  # `2 G (1) D` starts another item
            output, at = later, beyond
    number = max(numbers, default=None)
    inner = min(numbers) if len(numbers) == 2 and numbers[0] <= numbers[1] else None
    return [CategoryItem(hazard, number, inner, output) for hazard in hazards], at


def _numbers(tokens: Tokens, index: int) -> tuple[list[int], int]:
    """The category, or the two of a pair; `-/2` has one side outside any explosive atmosphere."""
    first, slash, second = (tokens.at(index + step).text for step in range(3))
    valid = {"1", "2", "3"}
    if slash == "/" and second in valid and first in valid | {"-"}:
        return [int(number) for number in (first, second) if number != "-"], index + 3
    return ([int(first)], index + 1) if first in valid else ([], index)


def _bracketed(tokens: Tokens, index: int) -> tuple[int | None, int]:
    """`(1)`, `(1G)`: the category of what the equipment feeds."""
    number = tokens.at(index + 1).text
    if tokens.at(index).text != "(" or number not in {"1", "2", "3"}:
        return None, index
    at = index + 2
    if tokens.at(at).text == ")":
        return int(number), at + 1
    return None, index


def _hazards(tokens: Tokens, index: int) -> tuple[tuple[Hazard, ...], int]:
    """`G`, `D`, `GD`, `G D`, `G/D`."""
    text = tokens.at(index).text
    if text not in _HAZARDS:
        return (), index
    behind = index + 2 if tokens.at(index + 1).text == "/" else index + 1
    if text == "G" and tokens.at(behind).text == "D":
        return _HAZARDS["GD"], behind + 1
    return _HAZARDS[text], index + 1


def _mines(tokens: Tokens, index: int) -> Found | None:
    first = tokens.at(index).text
    if first in _MINES:
        number = _MINES[first]
        output, at = (1, index + 4) if _feeds_m1(tokens, index + 1) else (None, index + 1)
        item = CategoryItem(Hazard.GAS, number, None, output)
        return _with_letters(tokens, CategoryMark("I", (item,)), at)
    if _feeds_m1(tokens, index):
        return (CategoryMark("I", (CategoryItem(Hazard.GAS, output=1),)),), index + 3
    return None


def _feeds_m1(tokens: Tokens, index: int) -> bool:
    return [tokens.at(index + step).text for step in range(3)] == ["(", "M1", ")"]


def _with_letters(tokens: Tokens, mark: CategoryMark, index: int) -> Found:
    """The category, and the non-electrical letters that follow it."""
    letters: list[str] = []
    at = index
    while (found := _letters(tokens, at)) is not None:
        letters.extend(found)
        at += 1
        if tokens.at(at).text in {",", "/", "+"} and _letters(tokens, at + 1) is not None:
            at += 1
    own: tuple[Element, ...] = (Types("", tuple(letters)),) if letters else ()
    return (mark, *own), at


def _letters(tokens: Tokens, index: int) -> tuple[str, ...] | None:
    """Old non-electrical letters; `db` without `Ex` is no pair of them but an error."""
    text = tokens.at(index).text
    if not text.islower() or (len(text) > 1 and find_type(text) is not None):
        return None
    return split_types(text, non_electrical=True)
