"""What one plate says for all of its codes: ambient, ingress, suffix, a closing temperature."""

from collections.abc import Sequence

from areafit.facts.marking import Code
from areafit.facts.protection import MarkingSystem
from areafit.facts.quantity import Range
from areafit.marking.elements import AmbientMark, Element, Ingress, SuffixMark, Temperature
from areafit.marking.heat import default_ambient, settle
from areafit.marking.suffixes import worse_suffix
from areafit.values import replace


def share(codes: Sequence[Code], wide: Sequence[Element]) -> tuple[Code, ...]:
    """The codes with what the plate says of all of them.

    `X` and `U` count for every code wherever they stand. Words that stand alone between
    semicolons or lines fill what a code does not say itself. An ambient range narrower than the
    standard's narrows every code that prints none; a wider one widens its own code only.
    """
    suffixes = [code.suffix for code in codes]
    suffixes += [element.suffix for element in wide if isinstance(element, SuffixMark)]
    suffix = worse_suffix(suffixes)
    marked = [code if code.suffix is suffix else replace(code, suffix=suffix) for code in codes]
    shared = [_filled(code, wide) for code in marked] if wide else marked
    spans = [code.ambient for code in shared if code.ambient is not None]
    return tuple(_narrowed(code, spans) for code in shared)


def _filled(code: Code, wide: Sequence[Element]) -> Code:
    printed = [element.text for element in wide if isinstance(element, Ingress)]
    if code.ingress is None and printed:
        code = replace(code, ingress=", ".join(dict.fromkeys(printed)))
    ambients = [element for element in wide if isinstance(element, AmbientMark)]
    if code.ambient is None and not any(mark.ambient for mark in code.temperatures):
        code = replace(code, ambient=settle(ambients, code.system).ambient)
    closing = [element for element in wide if isinstance(element, Temperature)]
    if code.system is MarkingSystem.NEC_DIVISION and not code.temperatures:
        code = replace(code, temperatures=settle(closing, code.system).temperatures)
    return code


def _narrowed(code: Code, spans: Sequence[Range]) -> Code:
    if code.ambient is not None or not spans:
        return code
    default = narrowed = default_ambient(code.system)
    for span in spans:
        narrowed = narrowed.common(span) or Range(default.high, default.high)
    return code if narrowed == default else replace(code, ambient=narrowed)
