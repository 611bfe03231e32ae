"""Enclosure rating against what the place asks for and what the type of protection rests on.

IP codes are compared digit by digit. A Type of NEMA 250 shows an IP rating at least, and an IP code
no Type at all.
"""

import re
from collections.abc import Iterable, Iterator

from areafit.checks.area.nameplate import ChosenCodes, is_wiring
from areafit.demands import Demands, HazardDemand
from areafit.facts.fittings import EntryType, WiringMethod
from areafit.facts.groups import Group, GroupScheme, severity
from areafit.facts.marking import Code
from areafit.facts.part import Equipment
from areafit.facts.protection import Hazard
from areafit.pattern import pattern
from areafit.rule import Answer, Ask, Example, Family, Judgement, Row, Rule, Subject
from areafit.tables.area import enclosure_types, minimum_ingress
from areafit.values import Frozen, replace
from areafit.verdict import Reason, Role, Verdict

_IP = pattern(r"IP\s?-?([0-6X])([0-9X])([A-DHKMSWF]{0,3})(?![0-9A-Z])", re.IGNORECASE)
_MORE = pattern(r"\s*/\s*(?:IP\s?)?(?:([0-6X])?)([0-9X])([K]?)(?![0-9A-Z])", re.IGNORECASE)
_TYPE = pattern(
    r"(?:NEMA|UL|CSA)?\s*(?:enclosure\s+)?(?:Type|NEMA)s?\s*((?:\d{1,2}(?:R|S|X|RX|SX|P|K)?)"
    r"(?:\s*(?:,|/|&|and)\s*\d{1,2}(?:R|S|X|RX|SX|P|K)?)*)(?![0-9A-Z])",
    re.IGNORECASE,
)
_ONE_TYPE = pattern(r"\d{1,2}[A-Z]{0,2}", re.IGNORECASE)
_LISTED = frozenset({"7", "8", "9", "10"})  # explosion and dust, no ratings
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


class IngressRating(Frozen):
    """All that one text says; `unread` holds what is neither an IP code nor a Type."""

    ips: tuple[Ip, ...] = ()
    types: tuple[str, ...] = ()
    unread: str = ""

    @property
    def text(self) -> str:
        """In one spelling."""
        words = [ip.text for ip in self.ips] + [f"Type {name}" for name in self.types]
        return ", ".join(words) or "no rating"


def read_rating(text: str) -> IngressRating:
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
    known = tuple(dict.fromkeys(name for name in types if name in enclosure_types()))
    unknown = [name for name in types if name not in enclosure_types()]
    if known or ips:  # what is listed for explosions bears its weather rating beside
        unknown = [name for name in unknown if name not in _LISTED]
    return IngressRating(
        tuple(dict.fromkeys(ips)), known, unread or (f"Type {unknown[0]}" if unknown else "")
    )


def _digit(text: str) -> int | None:
    return None if text.upper() == "X" else int(text)


class Minimum(Frozen):
    """The most onerous minimum of the types of a code; digits None where none is asked for."""

    protection: str
    first: int
    second: int | None
    clause: str
    row: Row

    @property
    def text(self) -> str:
        """As an IP code."""
        return Ip(self.first, self.second).text


def minimum_of(code: Code | None, hazard: HazardDemand) -> Minimum | None:
    """The minimum for a code, None where its types rest on no rating of the enclosure.

    The group is the most onerous of the marked ones and of those that the place asks for.
    """
    if code is None or code.non_electrical:
        return None
    names = [
        f"{letter} {code.practice}" if letter == "tD" and code.practice else letter
        for letter in code.protection
    ]
    groups = _groups(code, hazard)
    rows = [
        row
        for name in names
        for group in ("any", *groups)
        if (row := minimum_ingress().get((name, group)))
    ]
    if not rows:
        return None
    worst = max(rows, key=lambda row: (row.ip_first, row.ip_second or 0))
    second = max((row.ip_second for row in rows if row.ip_second is not None), default=None)
    return Minimum(
        worst.protection,
        worst.ip_first,
        second,
        worst.clause,
        Row.of("minimum_ingress", f"{worst.protection}, group {worst.group}", worst),
    )


def _groups(code: Code, hazard: HazardDemand) -> tuple[str, ...]:
    """The dust groups that count; the worst one where nothing says which."""
    if hazard.hazard is not Hazard.DUST:
        return ()
    needed = hazard.group_demand(GroupScheme.ZONE_DUST)
    found = {need.group for need in needed.needs} if needed is not None else set()
    found |= {group for group in code.groups if group.scheme is GroupScheme.ZONE_DUST}
    ranked = [group for group in found if severity(group) is not None]
    if not ranked:
        return (Group.IIIC.value,)
    return (max(ranked, key=lambda group: severity(group) or 0).value,)


class IngressAtPlace(Frozen):
    """The rating that a place asks for, those on the nameplate and in the list, and open holes.

    `entries` are the ratings of what closes the openings, as far as they are stated. `lacks` says
    why an enclosure that the part stands in does not count.
    """

    needed: IngressRating
    stated: tuple[IngressRating, ...]
    open_holes: int = 0
    entries: tuple[IngressRating, ...] = ()
    lacks: str = ""


class IngressForType(Frozen):
    """The rating that a type of protection rests on, those stated, and open holes."""

    needed: Minimum
    stated: tuple[IngressRating, ...]
    open_holes: int = 0
    lacks: str = ""


def _ask(plate: ChosenCodes, demands: Demands) -> Iterator[Ask[IngressAtPlace | IngressForType]]:
    """Electrical parts: neither a bracket nor a cable has an enclosure to rate."""
    equipment = plate.equipment
    if not equipment.electrical or _is_unrated(equipment):
        return
    kept = equipment.housed is not None and equipment.housed.counts
    lacks = "" if equipment.housed is None else equipment.housed.lacks
    entries = () if kept else equipment.entries or ()
    holes = sum(entry.type is EntryType.OPEN_HOLE for entry in entries)
    awaited = bool(lacks and plate.chosen) and all(each.component for each in plate.chosen)
    if demands.place.ingress is not None and not awaited:
        needed = read_rating(demands.place.ingress)
        fittings = () if kept else _of_entries(equipment)
        ratings = _ratings(equipment, equipment.codes)
        yield Ask(IngressAtPlace(needed, ratings, holes, fittings, lacks), "ingress")
    for choice in plate.chosen:
        minimum = minimum_of(choice.code, choice.hazard)
        if choice.code is not None and minimum is not None:
            ratings = _ratings(equipment, [choice.code])
            if choice.component and (lacks or not ratings):
                continue  # a component has none; `ex-component` asks for what it stands in
            yield Ask(IngressForType(minimum, ratings, holes, lacks), "ingress")


def _is_unrated(equipment: Equipment) -> bool:
    """A cable, a cord or a conduit that states no rating: glands and plugs keep the place's.

    A wireway is a box, and what says that it has a rating is held to that.
    """
    boxed = equipment.wiring is not None and equipment.wiring.method is WiringMethod.WIREWAY
    rated = equipment.ingress is not None or bool(equipment.markings)
    return is_wiring(equipment) and not boxed and not rated


def _of_entries(equipment: Equipment) -> tuple[IngressRating, ...]:
    texts = (entry.ingress for entry in equipment.entries or ())
    return tuple(dict.fromkeys(read_rating(text) for text in texts if text is not None))


def _ratings(equipment: Equipment, codes: Iterable[Code]) -> tuple[IngressRating, ...]:
    """What the codes print and what the list states; where they differ, both must hold."""
    housed = equipment.housed
    if housed is not None and housed.counts and housed.ingress is not None:
        return (read_rating(housed.ingress),)  # what it stands in keeps out dust and water
    texts = [code.ingress for code in codes] + [equipment.ingress]
    read = dict.fromkeys(read_rating(text) for text in texts if text is not None)
    told = [each for each in read if each not in _BARE_LISTINGS]
    return tuple(told or read)


# `NEMA 7` on the plate and a rating in the list: the one says nothing of the other.
_BARE_LISTINGS = frozenset(IngressRating((), (), f"Type {name}") for name in _LISTED)


def _judge(question: IngressAtPlace | IngressForType) -> Judgement:
    """By the part's own rating, or that of the enclosure which it stands in and which counts."""
    own = _judge_own(question)
    if own.verdict is Verdict.PASS or not question.lacks:
        return own
    return replace(
        own,
        message=f"{own.message} The enclosure that it stands in does not count: {question.lacks}.",
    )


def _judge_own(question: IngressAtPlace | IngressForType) -> Judgement:
    if question.open_holes:
        stated = ", ".join(rating.text for rating in question.stated) or "no rating stated"
        answer = Answer(
            required=f"{question.needed.text} at least, every opening closed",
            found=f"{stated}, {question.open_holes} open",
        )
        return answer.flagged(
            "A hole that nothing closes lets in what the rating is to keep out.",
            remedy="Close the hole with a plug or a gland of the rating, and state it in "
            "`entries`.",
            answer_by=Role.INSTALLER,
        )
    if isinstance(question, IngressAtPlace):
        return _judge_place(question)
    # A printed IP code decides; a Type shows only what it reaches at least.
    decisive = tuple(rating for rating in question.stated if rating.ips) or question.stated
    answers = [_judge_type(question.needed, rating) for rating in decisive]
    if not answers:
        return _judge_type(question.needed, None)
    return min(answers, key=lambda answer: _ORDER.index(answer.verdict))


def _judge_place(question: IngressAtPlace) -> Judgement:
    """The enclosure, then the lowest rating of what closes its openings."""
    own = _judge_ratings(question.needed, question.stated)
    if own.verdict is not Verdict.PASS:
        return own
    answers = [(judge_rating(question.needed, each), each) for each in question.entries]
    open_ones = [pair for pair in answers if pair[0].verdict is not Verdict.PASS]
    if not open_ones:
        return own
    worst, entry = min(open_ones, key=lambda pair: _ORDER.index(pair[0].verdict))
    return replace(
        worst,
        message=f"What closes an opening: {worst.message}",
        remedy=worst.remedy
        if worst.reason is Reason.NOT_JUDGED
        else f"Fit one of `entries: [{{ingress: {question.needed.text}}}]` or better.",
        found=f"{own.found}; an entry {entry.text}",
    )


_ORDER = list(Verdict)


def _judge_ratings(needed: IngressRating, stated: tuple[IngressRating, ...]) -> Judgement:
    """All texts together must show what is needed, and none of them may say less.

    An IP code is compared with the IP codes asked for and a Type with the Types.
    """
    ips = tuple(ip for rating in stated for ip in rating.ips)
    types = tuple(name for rating in stated for name in rating.types)
    unread = "; ".join(rating.unread for rating in stated if rating.unread)
    answer = judge_rating(needed, IngressRating(ips, types, unread) if stated else None)
    if answer.verdict is not Verdict.PASS:
        return answer
    for rating in stated:
        own = IngressRating(
            needed.ips if rating.ips else (),
            needed.types if rating.types else (),
        )
        single = judge_rating(own, rating) if own.ips or own.types else answer
        if single.verdict is Verdict.FLAG:
            return single
    return answer


def judge_rating(needed: IngressRating, stated: IngressRating | None) -> Judgement:
    """Types must be covered, and each digit of each IP code reached."""
    answer = Answer(needed.text, stated.text if stated is not None else "not stated")
    if needed.unread or not (needed.ips or needed.types):
        return answer.unproven(
            Reason.NOT_JUDGED,
            f"What the place asks for could not be read: {needed.unread or needed.text!r}.",
            remedy="Write the place's `ingress` as IP65 or Type 4X.",
            answer_by=Role.AREA_OWNER,
        )
    if stated is None or not (stated.ips or stated.types):
        return answer.unproven(
            Reason.FACT_MISSING,
            "The place asks for an enclosure rating; none that could be read is stated.",
            remedy=_stated(needed.text),
        )
    if stated.unread:
        return answer.unproven(
            Reason.NOT_JUDGED,
            f"{stated.unread!r} beside {stated.text} could not be read; it may limit the rating. "
            "Types 7 and 9 are listings for explosion and dust, no ratings.",
        )
    answer = replace(answer, rows=tuple(_row(name) for name in (*needed.types, *stated.types)))
    short = _short_of_type(needed, stated) or _short_of_ip(needed, stated)
    if short is None:
        return answer.passed(
            f"{stated.text} holds what the place asks for; holes drilled and cables entered later "
            "must hold it too."
        )
    if short.fails:
        return answer.flagged(short.message, remedy=_another(needed.text))
    return answer.unproven(Reason.FACT_MISSING, short.message, remedy=_better(needed.text))


def _stated(needed: str) -> str:
    return f"State the rating of the enclosure: `ingress: {needed}` or better is asked for."


def _another(needed: str) -> str:
    return (
        f"Choose an enclosure of `ingress: {needed}` or better, by its `marking` too where that "
        "prints a rating."
    )


def _better(needed: str) -> str:
    return f"Choose an enclosure of `ingress: {needed}` or better, or have the maker state that."


class _Short(Frozen):
    """What the rating does not reach, and whether stated facts show that it fails."""

    message: str
    fails: bool


def _short_of_type(needed: IngressRating, stated: IngressRating) -> _Short | None:
    for name in needed.types:
        if _type_covers(stated.types, name):
            continue
        if stated.types:
            return _Short(f"{stated.text} is not Type {name} and does not include it.", fails=True)
        message = (
            f"An IP rating cannot show Type {name}, which also tests ice, corrosion, oil and the "
            "ageing of gaskets; only a Type converts to IP."
        )
        return _Short(message, fails=False)
    return None


def _short_of_ip(needed: IngressRating, stated: IngressRating) -> _Short | None:
    shown = _ips_shown(stated)
    for ip in needed.ips:
        if _solids(shown, ip.first) and _water(shown, ip.second):
            continue
        if stated.types:
            message = f"{stated.text} shows less than {ip.text}; a Type shows a rating at least."
            return _Short(message, fails=False)
        if any(None in (own.first, own.second) for own in stated.ips):
            return _Short(f"{stated.text} leaves a digit of {ip.text} open.", fails=False)
        return _Short(f"{stated.text} does not reach {ip.text}{_jets(stated)}.", fails=True)
    return None


def _jets(stated: IngressRating) -> str:
    if any(own.second is not None and own.second > 6 for own in stated.ips):
        return ": a second digit of 7 to 9 includes no jets, unless 5 or 6 is marked beside it"
    return ""


def _row(name: str) -> Row:
    entry = enclosure_types()[name]
    value = f"IP{entry.ip_first}{entry.ip_second} at least"
    key = f"Type {name}"
    return Row.of("enclosure_types", key, entry, value)


def _ips_shown(rating: IngressRating) -> tuple[Ip, ...]:
    """Its own IP codes and those that its Types show at least (one way only)."""
    table = enclosure_types()
    shown = (Ip(table[name].ip_first, table[name].ip_second) for name in rating.types)
    return (*rating.ips, *shown)


def _solids(ips: tuple[Ip, ...], needed: int | None) -> bool:
    """Whether the first digit asked for is reached (IEC 60529, 5)."""
    return needed is None or any(ip.first is not None and ip.first >= needed for ip in ips)


def _water(ips: tuple[Ip, ...], needed: int | None) -> bool:
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


def _type_covers(offered: tuple[str, ...], needed: str) -> bool:
    """Whether one of the Types is the one asked for or includes it."""
    table = enclosure_types()
    return any(name == needed or needed in table[name].covers for name in offered)


def _judge_type(needed: Minimum, stated: IngressRating | None) -> Judgement:
    answer = Answer(
        required=f"{needed.text} at least, for {needed.protection}",
        found=stated.text if stated is not None else "not stated",
        rows=(needed.row,),
        clause=needed.clause,
    )
    if stated is None or not (stated.ips or stated.types):
        return answer.unproven(
            Reason.FACT_MISSING,
            f"Type of protection {needed.protection} rests on the enclosure; its rating is not "
            "stated.",
            remedy=_stated(needed.text),
        )
    if stated.unread:
        return answer.unproven(
            Reason.NOT_JUDGED,
            f"{stated.unread!r} beside {stated.text} could not be read; it may limit the rating.",
        )
    shown = _ips_shown(stated)
    if _solids(shown, needed.first) and _water(shown, needed.second):
        return answer.passed(f"{stated.text} holds what {needed.protection} asks for.")
    if stated.types or any(None in (own.first, own.second) for own in stated.ips):
        return answer.unproven(
            Reason.FACT_MISSING,
            f"{stated.text} does not show the {needed.text} that {needed.protection} asks for.",
            remedy=_better(needed.text),
        )
    return answer.flagged(
        f"{stated.text} is less than the {needed.text} that {needed.protection} asks for.",
        remedy=_another(needed.text),
    )


INGRESS = Rule[IngressAtPlace | IngressForType](
    id="ingress",
    title="Enclosure keeps out what it must",
    family=Family.AREA,
    subject=Subject.NAMEPLATE,
    clause="IEC 60529:1989+A1:1999+A2:2013 5, 6; NEMA 250-2018; NFPA 70-2023 110.28",
    why="Dust and water that get in bridge, corrode and heat what is protected; for dust types of "
    "protection the closed enclosure is the protection itself.",
    remedy="Choose an enclosure with the rating asked for, or have the maker state it.",
    answer_by=Role.SUPPLIER,
    note="Digits are compared one by one. A Type stands in for an IP rating, never the reverse; "
    "correspondence tables differ by edition and the lower value is used, except that Types 4 and "
    "4X are taken as IP66, which older tables print as IP56. Types 7 and 9 are listings, not "
    "ratings. IP44 may do for type e without bare live parts, by its certificate.",
    ask=_ask,
    judge=_judge,
    examples=(
        Example(
            "IP66 where IP65 is asked for",
            Verdict.PASS,
            "{kind: electrical, ingress: IP66}",
            "{area: 'Zone 1, IIB, T3', ingress: IP65}",
        ),
        Example(
            "IP67 against jets",
            Verdict.FLAG,
            "{kind: electrical, ingress: IP67}",
            "{area: 'Zone 1, IIB, T3', ingress: IP65}",
        ),
        Example(
            "IP66 where Type 4X is asked for",
            Verdict.UNPROVEN,
            "{kind: electrical, ingress: IP66}",
            "{area: 'Class I, Division 2, Group D', ingress: Type 4X}",
            "NEC",
        ),
        Example(
            "Dust protection by enclosure with IP54 in conductive dust",
            Verdict.FLAG,
            "{kind: electrical, marking: Ex tb IIIC T85°C Db, ingress: IP54}",
            "{area: 'Zone 21, IIIC, T135 °C'}",
        ),
    ),
)
