"""What a part is by its name, as the rules speak of it: topics, devices, hand tools, pieces."""

import re
from functools import cache, lru_cache

from areafit.facts.mechanics import Sparks
from areafit.pattern import AnyOf, Words, pattern
from areafit.tables.descriptions import (
    DescribedPart,
    Says,
    both_sides,
    described,
    first_phrase,
    folded,
    own_part,
    phrases,
)
from areafit.tables.load import rows
from areafit.tables.sources import Sourced
from areafit.values import Term


class Topic(Term):
    """What a part is, as far as a rule of its own speaks of it."""

    FOCUSED_LIGHT = "focused light"  # lasers, scanners and light in fibres
    RADIO = "radio"
    POWER_ULTRASOUND = "power ultrasound"  # what works by it; sensors do not
    WIRING = "wiring"  # cables, cords and raceways
    CABLE_END = "cable end"  # boxes, joints and hubs, which are no cable however they are called
    HAND_LAMP = "hand lamp"  # lamps that are carried about
    STAND = "on a stand"  # what is carried about on one
    SLIDING_CONTACT = "sliding contact"  # potentiometers, rheostats, slip rings
    BRAKE = "brake"
    CLUTCH = "clutch"  # and couplings that may slip
    HYDRAULICS = "hydraulics"
    BATTERY = "battery"  # what holds or charges one
    POWER_DRIVEN = "power-driven"  # what no hand moves: compressors, fans, pneumatic cylinders
    NO_INSTRUMENT = "no instrument"  # drives, tools, cabinets: more than electronics
    BY_HAND = "moved by hand"  # castors, whose brakes stop no drive
    NOTHING = "nothing"  # a longer name in which such a word means something else


class TopicWord(Sourced):
    """A word or two of a description, and what they bring the part under.

    Ends of German compounds, `-kabel`, are those of `described_parts`.
    """

    word: str
    topic: Topic


@lru_cache(maxsize=4096)
def topics(text: str, *, beside: bool = True) -> frozenset[Topic]:
    """What the words of a description bring a part under; what stands behind `for` is another part.

    Without `beside` what stands behind `with`, and belongs to it, does not count either.

    >>> Topic.RADIO in topics("Bracket for a radio")
    False
    """
    words = _topic_words_in(text, beside=beside)
    main, others = both_sides(text)
    heads = (
        topic_of(row) for row in (*main, *(others if beside else ())) if row.word.startswith("-")
    )
    told = {*(_topics()[word].topic for word in words), *heads}
    return frozenset(topic for topic in told if topic is not None) - {Topic.NOTHING}


def words_of(topic: Topic, text: str) -> tuple[str, ...]:
    """The words of a description, without what it comes with, that bring a part under one topic.

    >>> words_of(Topic.NO_INSTRUMENT, "Toaster with brush")
    ('toaster',)
    """
    words = _topic_words_in(text, beside=False)
    return tuple(_topics()[word].word for word in words if _topics()[word].topic is topic)


def _topic_words_in(text: str, *, beside: bool) -> list[str]:
    return [
        word.group(1)
        for phrase in phrases(text, beside=beside)
        for word in _topic_words().within(phrase).finditer(phrase)
        if word.start() <= len(own_part(phrase))  # `on a tripod` begins where that ends
    ]


def names_wiring(text: str) -> bool:
    """Whether a description calls the part a cable, a cord or a raceway, and nothing else electric.

    >>> names_wiring("EMT, 3/4"), names_wiring("Motor with cable"), names_wiring("Cable box")
    (True, False, False)
    >>> names_wiring("MI cable with terminations"), names_wiring("Cable with termination box")
    (True, False)
    """
    if Topic.WIRING not in topics(text):
        return False  # the usual case, which other rules have looked up too
    if Topic.CABLE_END in topics(_TERMINATED.sub("", text.casefold())):
        return False
    named = (row for side in both_sides(text) for row in side)
    return Topic.WIRING in topics(text, beside=False) and not any(
        (row.electrical or row.says is Says.MOVING)
        and row.says is not Says.FIGURE
        and topic_of(row) is not Topic.WIRING
        for row in named
    )


# The fittings that its listing asks of a cable (NFPA 70-2023 501.10(A)(1)); what they enter is
# another part.
_TERMINATED = pattern(r"(?<!\w)with (?:listed )?terminat(?:ion fitting|ion|or)s?(?=\s*(?:[,;)]|$))")


def power_driven(text: str) -> str | None:
    """The word by which a part is called something that no hand drives; None where it is not.

    >>> power_driven("Screw compressor"), power_driven("Fan guard"), power_driven("Hand pump")
    ('compressor', None, None)
    """
    if _HAND.search(folded(text)) is not None:
        return None
    main = both_sides(text)[0]
    return next((row.word for row in main if topic_of(row) is Topic.POWER_DRIVEN), None)


_HAND = pattern(r"(?<!\w)(?:hand|manual|manuel|manuale|mano|main)|(?:kurbel|crank)")


def topic_of(named: DescribedPart) -> Topic | None:
    """What a part that is so called comes under."""
    row = _topics().get(folded(named.word))
    return None if row is None else row.topic


@cache
def _topics() -> dict[str, TopicWord]:
    return {folded(row.word): row for row in rows("part_topics", TopicWord)}


@cache
def _topic_words() -> AnyOf:
    """Any of the words, the longest first, in the singular or the plural."""
    words = sorted((word for word in _topics() if word[0] != "-"), key=len, reverse=True)
    return AnyOf(r"(?<![\w-])", words, r"(?:e?s)?(?![\w-])")


def is_called(line: DescribedPart, told: DescribedPart) -> bool:
    """Whether a line that bears one word is what the other one speaks of.

    By the same word, else by what both may rightly be called: a gear motor is a motor. A motor is
    no brake motor, and a terminal box no cable, though both are connections.

    >>> motor, switch = described("Motor"), described("Limit switch")
    >>> is_called(described("Getriebemotor"), motor), is_called(switch, motor)
    (True, False)
    """
    if line.word == told.word:
        return True
    topic = topic_of(told)
    if topic not in {None, topic_of(line)}:
        return False
    if _own_devices(told):
        return bool(_own_devices(told) & _own_devices(line))
    if told.devices:
        return told.devices == line.devices == _SENSORS
    if topic is not None:
        return topic is not Topic.NOTHING
    return told.says in _WITHOUT_NAME and line.electrical and _runs(line.devices)


def may_be(device: str, told: DescribedPart) -> bool:
    """Whether what a line states as its `device` is what a word speaks of."""
    if topic_of(told) is not None:
        return False
    if told.devices:
        return device in _own_devices(told)
    return told.says in _WITHOUT_NAME and device not in _TAKES_NONE | {"instrument"}


def _own_devices(row: DescribedPart) -> frozenset[str]:
    """What a part so called is, without what it may also be called: a beacon is no instrument."""
    return frozenset(row.devices) - _ALSO_CALLED


def _runs(devices: tuple[str, ...]) -> bool:
    """Whether what may so be called takes power: no contact, sensor or connection."""
    return not _TAKES_NONE & frozenset(devices)


_ALSO_CALLED = frozenset({"instrument", "simple apparatus", "motor space heater"})
_SENSORS = ("instrument", "simple apparatus")
_WITHOUT_NAME = frozenset({Says.WORKED, Says.FIGURE, Says.RATING})  # of whatever takes the power
_TAKES_NONE = frozenset(
    {
        *("simple apparatus", "switch", "push button", "receptacle", "junction box"),
        *("cable gland", "stopping plug", "thread adapter", "conduit seal"),
    }
)


class ToolName(Sourced):
    """A word that names a hand tool, and the sparks that it gives off if it is of steel."""

    word: str
    sparks: Sparks


@lru_cache(maxsize=1024)
def tool_named(text: str) -> ToolName | None:
    """The tool that a description names, the one with most sparks; None where it names none."""
    found = [_tools()[each.group(1)] for each in _tool_words().finditer(first_phrase(text))]
    return max(found, key=lambda row: row.sparks is Sparks.SHOWER, default=None)


@cache
def _tools() -> dict[str, ToolName]:
    return {folded(row.word): row for row in rows("tool_names", ToolName)}


@cache
def _tool_words() -> re.Pattern[str]:
    """Any of them, the longest first, in the singular or the plural."""
    longest = sorted(map(re.escape, _tools()), key=len, reverse=True)
    return re.compile(rf"(?<!\w)({'|'.join(longest)})(?:e?s)?(?!\w)")


class Piece(Term):
    """What a piece is to the rules on static charge, on what comes off a part, and on screws."""

    BELT = "belt"
    DRIVE_BELT = "drive belt"
    HOSE = "hose"
    GUARD = "guard"
    LOOSE = "loose"
    FAN = "fan"
    SCREW = "screw"
    UNTENSIONED = "screw without tension"


class PieceName(Sourced):
    """A word, or the end of a compound, that names such a piece."""

    word: str
    piece: Piece


@lru_cache(maxsize=4096)
def pieces(text: str) -> frozenset[Piece]:
    """What a piece is, by the head of its name: the pulley of a belt is none.

    A hose that carries cables is a conduit, and what is flexible by an adjective a cord: the French
    and Spanish noun is a hose.

    >>> pieces("Flexible cord"), [piece.value for piece in pieces("Flexible hydraulique")]
    (frozenset(), ['hose'])
    """
    if not text:
        return frozenset()
    main = both_sides(text)[0]
    heads = [folded(row.word) for row in main]
    open_heads = [folded(row.word) for row in main if row.says is not Says.CARRIER]
    own = first_phrase(text)
    found = {piece for piece, words in _named_pieces().items() if words.search(own)}
    for piece, endings in _ended_pieces().items():
        ends = open_heads if piece is Piece.HOSE else heads
        if piece is Piece.HOSE and names_wiring(text):
            ends = [head for head in ends if head != "flexible"]
        if any(head.endswith(endings) for head in ends):
            found.add(piece)
    return frozenset(found)


@lru_cache(maxsize=4096)
def is_screw(text: str) -> bool:
    """Whether a piece is a bolt, a screw or a stud that is tightened: no set screw, no eye bolt.

    >>> is_screw("Cap screw, ISO 4762 M8x25"), is_screw("Set screw M5"), is_screw("Screw conveyor")
    (True, False, False)
    """
    if not _screw_words().within(text.casefold()):  # most lines are none
        return False
    found = pieces(text)
    return Piece.SCREW in found and Piece.UNTENSIONED not in found


@cache
def _screw_words() -> Words:
    return Words(_piece_words()[Piece.SCREW])


_BY_NAME = frozenset({Piece.DRIVE_BELT, Piece.LOOSE, Piece.FAN, Piece.UNTENSIONED})


@cache
def _named_pieces() -> dict[Piece, re.Pattern[str]]:
    """Those that are known by a word anywhere in their name."""
    return {
        piece: re.compile(rf"(?<!\w)(?:{'|'.join(map(re.escape, words))})(?!\w)")
        for piece, words in _piece_words().items()
        if piece in _BY_NAME
    }


@cache
def _ended_pieces() -> dict[Piece, tuple[str, ...]]:
    """Those that are known by how the head of their name ends."""
    return {piece: words for piece, words in _piece_words().items() if piece not in _BY_NAME}


def _piece_words() -> dict[Piece, tuple[str, ...]]:
    table = rows("piece_names", PieceName)
    return {piece: tuple(row.word for row in table if row.piece is piece) for piece in Piece}


class PassiveArticle(Sourced):
    """A word of `described_parts` for a mechanical article in which nothing is electrical."""

    word: str


@lru_cache(maxsize=1024)
def is_passive(text: str) -> bool:
    """Whether all that a description names are articles in which nothing is electrical.

    >>> is_passive("Deep groove ball bearing"), is_passive("Ball bearing with sensor")
    (True, False)
    """
    told = described(text)
    main, beside = both_sides(text)
    named = (*main, *beside)
    if told is None or told.electrical or not named:
        return False
    return all(row.word in _passive() for row in named)


@cache
def _passive() -> frozenset[str]:
    return frozenset(row.word for row in rows("passive_articles", PassiveArticle))
