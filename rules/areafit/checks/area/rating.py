"""Enclosure ratings read from text: IP codes, each digit by itself, and Types of NEMA 250."""

import re

from areafit.pattern import pattern
from areafit.tables.area import enclosure_types
from areafit.values import Frozen

_IP = pattern(r"IP\s?-?([0-6X])([0-9X])([A-DHKMSWF]{0,3})(?![0-9A-Z])", re.IGNORECASE)
_MORE = pattern(r"\s*/\s*(?:IP\s?)?(?:([0-6X])?)([0-9X])([K]?)(?![0-9A-Z])", re.IGNORECASE)
_TYPE = pattern(
    r"(?:NEMA|UL|CSA)?\s*(?:enclosure\s+)?(?:Type|NEMA)s?\s*((?:\d{1,2}(?:R|S|X|RX|SX|P|K)?)"
    r"(?:\s*(?:,|/|&|and)\s*\d{1,2}(?:R|S|X|RX|SX|P|K)?)*)(?![0-9A-Z])",
    re.IGNORECASE,
)
_ONE_TYPE = pattern(r"\d{1,2}[A-Z]{0,2}", re.IGNORECASE)
_FILLER = pattern(r"(?:[\s,;/&+()]|\band\b|\bor\b)*", re.IGNORECASE)
_JETS = 6  # digits 7 and up are tested apart and do not include jets


class Ip(Frozen):
    """One IP code; a digit is None where an X is printed."""

    first: int | None
    second: int | None

    @property
    def text(self) -> str:
        """As printed."""
        return "IP" + "".join("X" if d is None else str(d) for d in (self.first, self.second))


class Rating(Frozen):
    """All that one text says; `unread` holds what is neither an IP code nor a Type."""

    ips: tuple[Ip, ...] = ()
    types: tuple[str, ...] = ()
    unread: str = ""

    @property
    def text(self) -> str:
        """In one spelling."""
        words = [ip.text for ip in self.ips] + [f"Type {name}" for name in self.types]
        return ", ".join(words) or "no rating"


def read_rating(text: str) -> Rating:
    """Read `IP66`, `IP66/IP67`, `IP66/67`, `Type 4X`, `NEMA 3R`, and lists of them."""
    ips: list[Ip] = []
    types: list[str] = []
    rest = text
    while (found := _IP.search(rest)) is not None:
        first, second = _digit(found.group(1)), _digit(found.group(2))
        ips.append(Ip(first, second))
        end = found.end()
        while (more := _MORE.match(rest, end)) is not None:
            shared = _digit(more.group(1)) if more.group(1) else first
            ips.append(Ip(shared, _digit(more.group(2))))
            end = more.end()
        rest = rest[: found.start()] + " " + rest[end:]
    while (found := _TYPE.search(rest)) is not None:
        types += [name.upper() for name in _ONE_TYPE.findall(found.group(1))]
        rest = rest[: found.start()] + " " + rest[found.end() :]
    unread = "" if _FILLER.fullmatch(rest) else rest.strip()
    unknown = [name for name in types if name not in enclosure_types()]
    return Rating(
        tuple(dict.fromkeys(ips)),
        tuple(dict.fromkeys(name for name in types if name in enclosure_types())),
        unread or (f"Type {unknown[0]}" if unknown else ""),
    )


def _digit(text: str) -> int | None:
    return None if text.upper() == "X" else int(text)


def ips_shown(rating: Rating) -> tuple[Ip, ...]:
    """Its own IP codes and those that its Types show at least (one way only)."""
    table = enclosure_types()
    shown = (Ip(table[name].ip_first, table[name].ip_second) for name in rating.types)
    return (*rating.ips, *shown)


def solids(ips: tuple[Ip, ...], needed: int | None) -> bool:
    """Whether the first digit asked for is reached (IEC 60529, 5)."""
    return needed is None or any(ip.first is not None and ip.first >= needed for ip in ips)


def water(ips: tuple[Ip, ...], needed: int | None) -> bool:
    """Whether the second digit asked for is reached (IEC 60529, 6).

    Up to 6 a digit includes all lower ones. 7 and 8 (immersion) and 9 (hot jets) include neither
    the jets of 5 and 6 nor each other, except that 8 includes 7; all include drops and spray.
    """
    return needed is None or any(_includes(ip.second, needed) for ip in ips)


def _includes(digit: int | None, needed: int) -> bool:
    if digit is None:
        return False
    if digit <= _JETS or needed <= 4:
        return digit >= needed
    return digit == needed or (digit, needed) == (8, 7)


def type_covers(offered: tuple[str, ...], needed: str) -> bool:
    """Whether one of the Types is the one asked for or includes it."""
    table = enclosure_types()
    return any(name == needed or needed in table[name].covers for name in offered)
