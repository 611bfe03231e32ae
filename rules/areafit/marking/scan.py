"""The one pass over a plate: the first reader that understands the words at hand takes them."""

from collections.abc import Callable

from areafit.marking.elements import Element, Found, Separator, Unread
from areafit.marking.gases import read_gas
from areafit.marking.phrases import read_phrase
from areafit.marking.readers_ambient import read_ambient
from areafit.marking.readers_category import read_category
from areafit.marking.readers_ex import read_box, read_ex, read_level, read_zone_group
from areafit.marking.readers_na import (
    read_agency_form,
    read_class,
    read_division,
    read_letters,
    read_zone,
)
from areafit.marking.readers_plate import (
    read_certificate,
    read_drawing,
    read_enclosure,
    read_ingress,
    read_mark,
    read_separator,
    read_suffix,
)
from areafit.marking.readers_temperature import (
    read_class_mark,
    read_figure,
    read_unlabelled_span,
)
from areafit.marking.text import Tokens

Reader = Callable[[Tokens, int], Found | None]
# Order matters where one phrase begins another: a certificate before a lone X, a category before
# the group II, an ambient range before a surface temperature.
READERS: tuple[Reader, ...] = (
    read_certificate,
    read_agency_form,
    read_phrase,
    read_class,
    read_division,
    read_zone,
    read_category,
    read_ex,
    read_box,
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


def scan(tokens: Tokens, readers: tuple[Reader, ...] = READERS) -> tuple[Element, ...]:
    """Everything on the plate in order; words next to each other that nobody reads are one."""
    found: list[Element] = []
    index, unread = 0, None
    while index < len(tokens):
        taken = next((got for reader in readers if (got := reader(tokens, index))), None)
        if taken is None:
            unread = index if unread is None else unread
            index += 1
            continue
        if unread is not None:
            found.append(Unread(tokens.between(unread, index)))
            unread = None
        if tokens.at(index).line:
            found.append(Separator(strong=True))
        found.extend(taken[0])
        index = taken[1]
    if unread is not None:
        found.append(Unread(tokens.between(unread, len(tokens))))
    return tuple(found)
