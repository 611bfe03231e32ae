"""Words by which descriptions, conditions of use and numbers of documents are read."""

import re
from functools import cache, lru_cache

from areafit.facts.mechanics import Sparks
from areafit.pattern import pattern
from areafit.tables.load import rows
from areafit.tables.sources import Sourced
from areafit.values import Term


class Says(Term):
    """What a word says of the part that it names, what matters most first."""

    POWERED = "powered"  # electrical, whatever it is part of: a heating rod, an LED frame
    ELECTRICAL = "electrical"
    FIGURE = "figure"  # a unit: so many volts or watts
    MOVING = "moving"
    CARRIER = "carrier"  # fixed, and what it carries is another part: a motor bracket
    FIXED = "fixed"
    SEAL = "seal"
    MEDIUM = "medium"  # what heats without electricity


class DescribedPart(Sourced):
    """A word or two that name a part or a component of it.

    `devices` are the values of `device`, and `simple apparatus`, that it may rightly be called.
    """

    word: str
    says: Says
    devices: tuple[str, ...]

    @property
    def electrical(self) -> bool:
        """Whether the word speaks of something electrical."""
        return self.says in _ELECTRICAL

    @property
    def fixed(self) -> bool:
        """Whether the word speaks of something that neither moves nor holds anything."""
        return self.says in _FIXED


_ELECTRICAL = frozenset({Says.POWERED, Says.ELECTRICAL, Says.FIGURE})
_FIXED = frozenset({Says.CARRIER, Says.FIXED})
_EARTH_CABLE = pattern(
    r"\b(earth(?:ing)?|ground(?:ing)?|bonding) (?:clamp|strap|lug|pin)s?,? with (?:a )?cable\b"
)
_BESIDE = pattern(r"\bwith\b|\bincl(?:uding|usive)?\b\.?")
_PAUSE = pattern(r"[,;:()\[\]]|(?<!\bi)/")  # not that of an I/O module
_OTHER = pattern(
    r"\b(?:of|for|on|in|at|to|under|over|above|below|from|by|between|without|no|w/o|beside)\b.*"
)
_AND = pattern(r"\band\b|[&+]")
_ORDER = tuple(Says)
_SEVERAL = pattern(r"\s*(?:[,;/&+]|\band\b)\s*")


@lru_cache(maxsize=4096)
def described(text: str) -> DescribedPart | None:
    """The word that tells most of what a part is; None where the description has none.

    The last known word of a phrase is its head, and what stands behind `for` or `of` is another
    part. What stands behind `with` belongs to it. A head that carries things, or seals them, is
    what it says: a motor bracket is a bracket; one that may hold a coil is not: a solenoid valve
    block. Nothing excuses heating, an LED and the like, or a figure in volts or watts.
    """
    main, beside = both_sides(text)
    return min((*main, *beside), key=lambda row: _ORDER.index(row.says), default=None)


@lru_cache(maxsize=4096)
def both_sides(text: str) -> tuple[tuple[DescribedPart, ...], tuple[DescribedPart, ...]]:
    """The words that tell what a part is, and those of what it comes with."""
    main, *beside = _BESIDE.split(_EARTH_CABLE.sub(r"\1 cable", text.casefold()))
    return tuple(_side(main)), tuple(row for side in beside for row in _side(side))


def _side(text: str) -> list[DescribedPart]:
    """The heads of the first part of an enumeration that holds a known word."""
    medium = any(
        _parts()[each.group(1)].says is Says.MEDIUM for each in _part_words().finditer(text)
    )
    for phrase in _PAUSE.split(text):
        names = _AND.split(_OTHER.sub("", phrase))
        heads = [head for name in names if (head := _head(name, heated_by_medium=medium))]
        if heads:
            return heads
    return []


def _head(name: str, *, heated_by_medium: bool) -> DescribedPart | None:
    """The known word that tells what the name is: the one that ends last, unless it excuses none.

    A pump that states its power is a pump; a plate that states its voltage is no plate.
    """
    found = [_parts()[each.group(1)] for each in _part_words().finditer(name)]
    found = [row for row in found if row.says is not Says.MEDIUM]
    if heated_by_medium:
        found = [row for row in found if "heat" not in row.word or row.fixed]
    head = found[-1] if found else None
    figure = _figure(name)
    if head is not None and head.says is Says.SEAL:
        return head
    if head is None or head.fixed:
        excused = head is not None and head.says is Says.CARRIER and figure is None
        wanted = {Says.POWERED} if excused else _ELECTRICAL
        told = next((row for row in reversed(found) if row.says in wanted), None)
        return told or figure or head
    return next((row for row in reversed(found) if row.says is Says.POWERED), head)


def _figure(name: str) -> DescribedPart | None:
    """The unit of a figure in volts, watts or the like."""
    found = _units().search(name)
    return _parts()[found.group(1)] if found else None


@cache
def _parts() -> dict[str, DescribedPart]:
    return {row.word.casefold(): row for row in rows("described_parts", DescribedPart)}


@cache
def _part_words() -> re.Pattern[str]:
    """Any known word, the longest first, in the singular or the plural."""
    named = (word for word, row in _parts().items() if row.says is not Says.FIGURE)
    words = sorted(named, key=len, reverse=True)
    return re.compile(rf"(?<![\w-])({'|'.join(map(re.escape, words))})(?:e?s)?(?![\w-])")


@cache
def _units() -> re.Pattern[str]:
    """A figure with one of the units."""
    units = [word for word, row in _parts().items() if row.says is Says.FIGURE]
    units.sort(key=len, reverse=True)
    return re.compile(rf"(?<![\w-])[0-9][0-9.,]*[ \u00a0]?({'|'.join(units)})(?![\w-])")


class Topic(Term):
    """What a part is, as far as a rule of its own speaks of it."""

    FOCUSED_LIGHT = "focused light"  # lasers, scanners and light in fibres
    RADIO = "radio"
    POWER_ULTRASOUND = "power ultrasound"  # what works by it; sensors do not
    WIRING = "wiring"  # cables, cords and raceways
    NOTHING = "nothing"  # a longer name in which such a word means something else


class TopicWord(Sourced):
    """A word or two of a description, and what they bring the part under."""

    word: str
    topic: Topic


@lru_cache(maxsize=4096)
def topics(text: str, *, beside: bool = True) -> frozenset[Topic]:
    """What the words of a description bring a part under; what stands behind `for` is another part.

    Without `beside` what stands behind `with`, and belongs to it, does not count either.

    >>> Topic.RADIO in topics("Bracket for a radio")
    False
    """
    sides = _BESIDE.split(text.casefold())
    phrases = (
        _OTHER.sub("", phrase)
        for side in (sides if beside else sides[:1])
        for phrase in _PAUSE.split(side)
    )
    words = (found.group(1) for phrase in phrases for found in _topic_words().finditer(phrase))
    return frozenset(_topics()[word].topic for word in words) - {Topic.NOTHING}


@cache
def _topics() -> dict[str, TopicWord]:
    return {row.word.casefold(): row for row in rows("part_topics", TopicWord)}


@cache
def _topic_words() -> re.Pattern[str]:
    """Any of the words, the longest first, in the singular or the plural."""
    words = sorted(_topics(), key=len, reverse=True)
    return re.compile(rf"(?<![\w-])({'|'.join(map(re.escape, words))})(?:e?s)?(?![\w-])")


class ToolName(Sourced):
    """A word that names a hand tool, and the sparks that it gives off if it is of steel."""

    word: str
    sparks: Sparks


@lru_cache(maxsize=1024)
def tool_named(text: str) -> ToolName | None:
    """The tool that a description names, the one with most sparks; None where it names none."""
    main = _OTHER.sub("", _BESIDE.split(_PAUSE.split(text.casefold())[0])[0])
    named = {row.word: row for row in rows("tool_names", ToolName)}
    longest = sorted(map(re.escape, named), key=len, reverse=True)
    words = re.compile(rf"(?<!\w)({'|'.join(longest)})(?:e?s)?(?!\w)")
    found = [named[each.group(1)] for each in words.finditer(main)]
    return max(found, key=lambda row: row.sparks is Sparks.SHOWER, default=None)


class Meaning(Term):
    """What a word does to a condition that holds it."""

    DENIES = "denies"
    PERMITS = "permits"


class Denial(Sourced):
    """One word or phrase; what permits is looked for first, since it may hold what denies."""

    word: str
    meaning: Meaning


@cache
def denies(text: str) -> bool:
    """Whether a condition denies, or may: words alone never say what a denial is about."""
    words = " ".join(text.replace("n't", " not").split())
    return _denials(Meaning.DENIES).search(_denials(Meaning.PERMITS).sub(" ", words)) is not None


@cache
def _denials(meaning: Meaning) -> re.Pattern[str]:
    words = (re.escape(row.word) for row in rows("denials", Denial) if row.meaning is meaning)
    longest = sorted(words, key=len, reverse=True)
    return re.compile(rf"(?<!\w)(?:{'|'.join(longest)})(?!\w)", re.IGNORECASE)


class Whose(Term):
    """Whether a component is of the equipment as certified, or may have been added to it."""

    OWN = "own"
    ADDED = "added"


class AddedPart(Sourced):
    """A word or phrase that names a component which is, or may be, added after delivery."""

    word: str
    whose: Whose


@cache
def is_added(component: str) -> bool:
    """Whether a component's name says, or leaves open, that it was added later: a label, a cover.

    A phrase that names a component of the equipment itself is looked for first: a lens cover.
    """
    rest = _added(Whose.OWN).sub(" ", " ".join(component.casefold().split()))
    return _added(Whose.ADDED).search(rest) is not None


@cache
def _added(whose: Whose) -> re.Pattern[str]:
    words = (re.escape(row.word) for row in rows("added_parts", AddedPart) if row.whose is whose)
    longest = sorted(words, key=len, reverse=True)
    return re.compile(rf"(?<![^\W_])(?:{'|'.join(longest)})(?:e?s)?(?![^\W_])")


class Placeholder(Sourced):
    """One word or phrase; a number that holds it names no document."""

    word: str


@cache
def is_placeholder(text: str) -> bool:
    """Whether a text says that a document is to come, or that there is none."""
    return _placeholders().search(" ".join(text.split())) is not None or not any(
        map(str.isalnum, text)
    )


@cache
def _placeholders() -> re.Pattern[str]:
    words = (re.escape(row.word) for row in rows("placeholders", Placeholder))
    return re.compile(rf"(?<!\w)(?:{'|'.join(words)})(?!\w)", re.IGNORECASE)


class DocumentField(Term):
    """Where a document shows what it is."""

    NUMBER = "number"
    STANDARD = "standard"


class NoCertificate(Sourced):
    """A word of a number, or a standard, parts of which share its digits.

    `alone`: it says nothing where the number of a certificate, or another standard, stands beside.
    """

    form: str
    field: DocumentField
    alone: bool
    what: str
    clause: str


@cache
def no_certificate(number: str) -> NoCertificate | None:
    """The row whose form stands in a number."""
    found = rows("no_certificates", NoCertificate)
    own = (row for row in found if row.field is DocumentField.NUMBER)
    return next((row for row in own if _word(row.form).search(number)), None)


@cache
def ordinary_standard(standards: str) -> NoCertificate | None:
    """The row of a standard for ordinary locations, if no other one is named."""
    found = rows("no_certificates", NoCertificate)
    own = [row for row in found if row.field is DocumentField.STANDARD]
    named = [text for text in _SEVERAL.split(standards) if any(map(str.isalnum, text))]
    each = [next((row for row in own if _word(row.form).match(text)), None) for text in named]
    return each[0] if each and all(each) else None


@cache
def _word(form: str) -> re.Pattern[str]:
    text = r"[\s-]*".join(map(re.escape, form.split()))
    end = r"(?![^\W_])" if form[-1].isdigit() else r"(?![^\W\d_])"  # digits may follow letters
    return re.compile(rf"(?<![^\W_]){text}{end}", re.IGNORECASE)


class OwnWord(Sourced):
    """What a component is called of which only its own line can say that it is free of tension.

    `stressed` and `crevice` say which of the two a general note cannot rule out.
    """

    word: str
    stressed: bool
    crevice: bool


@cache
def needs_own_word(fact: str, *texts: str | None) -> bool:
    """Whether one of the texts names a component of which no note can say `fact: false`."""
    named = _own_words(fact)
    return any(named.search(text) is not None for text in texts if text)


@cache
def _own_words(fact: str) -> re.Pattern[str]:
    """The words, in the plural too; long ones also where they end a compound."""
    words = [row.word for row in rows("own_word", OwnWord) if getattr(row, fact)]
    long = "|".join(re.escape(word) for word in words if len(word) > 4)
    short = "|".join(re.escape(word) for word in words if len(word) <= 4)
    plural = r"(?:e?s|e?n)?(?!\w)"
    return re.compile(rf"(?:(?:{long})|(?<!\w)(?:{short})){plural}", re.IGNORECASE)
