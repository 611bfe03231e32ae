"""What a description names: parts, by the words of five languages."""

import re
from collections.abc import Iterator
from functools import cache, lru_cache

from areafit.pattern import pattern
from areafit.tables.load import cells_of, columns, to_row
from areafit.tables.sources import Sourced
from areafit.values import Frozen, Term, replace


class Says(Term):
    """What a word says of the part that it names, what matters most first."""

    POWERED = "powered"  # electrical, whatever it is part of: a heating rod, an LED frame
    ELECTRICAL = "electrical"
    WORKED = "worked"  # makes the part beside it electrical: an electric cylinder
    FIGURE = "figure"  # a unit of electricity alone: so many volts
    MOVING = "moving"
    RATING = "rating"  # a unit of power, which air and hydraulics have too
    CARRIER = "carrier"  # fixed, and what it carries is another part: a motor bracket
    FIXED = "fixed"
    SEAL = "seal"
    MEDIUM = "medium"  # what heats without electricity
    NEUTRAL = "neutral"  # says nothing, though it looks like it: electropolished


class DescribedPart(Sourced):
    """A word or two that name a part or a component of it, in some languages.

    `devices` are the values of `device`, and `simple apparatus`, that it may rightly be called.
    `-schalter` ends German compounds and is a word by itself, `electro-` begins words.
    """

    word: str
    says: Says
    devices: tuple[str, ...]
    languages: tuple[str, ...]

    @property
    def electrical(self) -> bool:
        """Whether the word speaks of something electrical."""
        return self.says in _ELECTRICAL

    @property
    def fixed(self) -> bool:
        """Whether the word speaks of something that neither moves nor holds anything."""
        return self.says in _FIXED


_ELECTRICAL = frozenset({Says.POWERED, Says.ELECTRICAL, Says.WORKED, Says.FIGURE, Says.RATING})
_FIXED = frozenset({Says.CARRIER, Says.FIXED})
_OF_ALL = frozenset({Says.POWERED, Says.WORKED})
_UNSAID = frozenset({Says.MEDIUM, Says.NEUTRAL})
_ORDER = tuple(Says)
_ROMANCE = frozenset({"fr", "it", "es"})
_EARTH_CABLE = pattern(
    r"\b(earth(?:ing)?|ground(?:ing)?|bonding) (?:clamp|strap|lug|pin)s?,? with (?:a )?cable\b"
)
_BESIDE = pattern(
    r"(?<![\w-])(?:with|incl(?:uding|usive|uso|us)?\b\.?|inkl(?:usive)?\b\.?|c/w|w/|mit|samt|avec|con)"
    r"(?![\w-])"
)
_PAUSE = pattern(r"[,;:()\[\]]|(?<=\w\w)/(?=\w\w)|\s/\s")
_AND = pattern(r"(?<![\w/-])(?:and|und|et|e|y)(?![\w/-])|[&+]")
_WORD = pattern(r"[^\W_]+")
# What stands behind these is another part; `plug-in` and `built-on` say what the same one is like.
_OTHER = pattern(
    r"(?<![\w-])(?:of|for|on|in|at|to|under|over|above|below|from|by|between|without|no|o|beside|"
    r"fuer|zu[mr]?|am|an|auf|bei|ohne|de[smr]|vo[nm]|zwischen|unter|ueber|hinter|aus|"
    r"du?|des?|della?|dello|dei|delle|degli|dell|di|per|para|pour|dal?|sans|senza|sin|sur?|sobre|"
    r"en|sous)(?![^\W_])"
)
# Where the part runs or stands; no part is cut off by `walk behind` or `wrap around`.
_WHERE = pattern(r"(?<=\w) (?:along|past|near|behind|across|around) (?=\w)")
_TELLS_ROMANCE = pattern(
    r"(?<![\w-])(?:de|du|di|del|dell[aeo]?|dei|degli|para|pour|sans|senza|sin|avec|sobre|[dl](?='))"
    r"(?![\w-])"
)
_HAS = frozenset({"a", "ad", "au", "aux", "al"})  # `vanne à solénoïde`
_DIGIT = pattern(r"[0-9]")
_UNITS = frozenset({Says.FIGURE.value, Says.RATING.value})
_BY_MEDIUM = pattern(r"heat|heiz|chauff|riscald|scald|calef|calent")
_CONNECTOR = pattern(
    r"(?<![\w-])m(?:8|12)(?![\w.]|,\d|\s?[x×*]\s?\d)(?=.*?(?:{0}))|(?:{0}).*?"
    r"(?<![\w-])m(?:8|12)(?![\w.]|,\d|\s?[x×*]\s?\d)".replace(
        "{0}",
        r"connector|conector|connett|connecteur|cordset|plug|socket|steck|dose|fiche|"
        r"\d[ -]?(?:pins?|pol|poles?|polig|poli|polos|poles|broches)\b|\b(?:pole|pin)s?\b|"
        r"\bcoded\b|[ck]odiert|\bcode\b|codifica",
    )
)
_PLUGGED = frozenset({"pin", "plug", "pole", "-buchse"})  # which pipes and masts have as well
_BELT = pattern(r"belt|pulley|sheave|riemen|scheibe|courroie|poulie|cinghia|puleggia|correa|polea")
_PROFILE = pattern(r"[358] ?v")  # of narrow V-belts: RMA IP-22, from memory


class _Named(Frozen):
    """A known word of a text: its row, where it begins and ends, and how plainly it is said.

    `specific`: of several words, or a compound; `languages`: those that have the word.
    """

    row: DescribedPart
    start: int
    stop: int
    specific: bool
    languages: frozenset[str]


def described(text: str) -> DescribedPart | None:
    """The word that tells most of what a part is; None where the description has none.

    The head of a phrase is its last known word, the end of a German compound (a Kabelschelle is a
    clamp), the first known word in French, Italian and Spanish; what stands behind `for` or `of` is
    another part. What stands behind `with` belongs to it. A head that carries things, or seals
    them, is what it says: a motor bracket is a bracket; one that may hold a coil is not: a solenoid
    valve block. Nothing excuses heating, an LED and the like, or a figure in volts; what moves
    excuses a figure in watts.
    """
    return next(iter(all_described(text)), None)


@lru_cache(maxsize=4096)
def all_described(text: str) -> tuple[DescribedPart, ...]:
    """Every word that tells what a part is, or what it comes with; what matters most first."""
    small = folded(text)
    main, *beside = _BESIDE.split(_EARTH_CABLE.sub(r"\1 cable", small))
    rows_ = (*_side(main), *(row for side in beside for row in _side(side)), *_added(main))
    if connector := _round_connector(small):
        rows_ = (*rows_, connector)
    return tuple(sorted(rows_, key=lambda row: _ORDER.index(row.says)))


@lru_cache(maxsize=4096)
def both_sides(text: str) -> tuple[tuple[DescribedPart, ...], tuple[DescribedPart, ...]]:
    """The words that tell what a part is, and those of what it comes with."""
    main, *beside = _BESIDE.split(_EARTH_CABLE.sub(r"\1 cable", folded(text)))
    return tuple(_side(main)), tuple(row for side in beside for row in _side(side))


def folded(text: str) -> str:
    """Small letters without accents; German ones as they are written where they are not at hand."""
    plain = text.casefold()
    if plain.isascii():
        return plain
    for letter, written in (("ä", "ae"), ("ö", "oe"), ("ü", "ue")):
        plain = plain.replace(letter, written)
    import unicodedata  # noqa: PLC0415 - of a text with accents alone

    apart = unicodedata.normalize("NFKD", plain)
    return "".join(letter for letter in apart if not unicodedata.combining(letter))


def _side(text: str) -> list[DescribedPart]:
    """The heads of the first part of an enumeration that holds a known word."""
    medium = any(each.row.says is Says.MEDIUM for each in _named(text))
    return next(
        (found for each in _PAUSE.split(text) if (found := _heads(each, medium=medium))), []
    )


def _added(text: str) -> Iterator[DescribedPart]:
    """What later parts of an enumeration add to the heads: `Actuator, 24 V`.

    `Bracket, motor` is a bracket of a motor, so of what names another part only that counts which
    belongs to something that moves and is more than one bare noun: `Cylinder, reed switch`.
    """
    several = _PAUSE.split(text)
    if len(several) == 1:
        return
    phrases = iter(several)
    medium = any(each.row.says is Says.MEDIUM for each in _named(text))
    main = next((h for phrase in phrases if (h := _heads(phrase, medium=medium))), [])
    carries = any(row.says in (Says.CARRIER, Says.SEAL) for row in main)
    moves = any(row.says is Says.MOVING for row in main)
    for phrase in phrases:
        own = own_part(phrase)
        found = _said(own, medium=medium)
        nouns = [each for each in found if each.row.says is Says.ELECTRICAL]
        alone = len(found) == 1 and found[0].stop - found[0].start == len(_WORD.findall(own))
        driven = alone and bool(found[0].row.devices)  # `Door, motorised`
        for each in found:
            worked = each.row.says is Says.WORKED and (driven or not carries)
            if each.row.says is Says.POWERED or worked:
                yield each.row
        if moves:
            yield from (each.row for each in nouns if each.specific)
        figure = _figure(own)
        if figure is not None and figure.says is Says.FIGURE and not (carries and nouns):
            yield figure


@lru_cache(maxsize=256)  # asked twice of each
def _heads(phrase: str, *, medium: bool) -> list[DescribedPart]:
    own = own_part(phrase)
    if _is_romance(phrase):
        said = [(_said(name, medium=medium), name) for name in _AND.split(own)]
        return [head for each, name in said if (head := _first_head(each, name))]
    return [h for name in _AND.split(own) if (h := _head(_said(name, medium=medium), name))]


def own_part(phrase: str) -> str:
    """A phrase up to where another part begins: the bracket of `bracket for a 24 V lamp`."""
    where = _WHERE.search(phrase)
    if where is not None and _named(phrase[: where.start()]):
        phrase = phrase[: where.start()]
    if _OTHER.search(phrase) is None:
        return phrase
    inside = {index for each in _named(phrase) for index in range(each.start, each.stop)}
    for index, word in enumerate(_WORD.finditer(phrase)):
        if index not in inside and _OTHER.fullmatch(phrase, word.start(), word.end()):
            return phrase[: word.start()]
    return phrase


def phrases(text: str, *, beside: bool) -> Iterator[str]:
    """The phrases of a description; without `beside` none of what stands behind `with`."""
    sides = _BESIDE.split(folded(text))
    for side in sides if beside else sides[:1]:
        yield from _PAUSE.split(side)


def first_phrase(text: str) -> str:
    """The first phrase of a description, as far as it speaks of the part itself."""
    return own_part(_BESIDE.split(_PAUSE.split(folded(text))[0])[0])


def _said(name: str, *, medium: bool) -> list[_Named]:
    """The known words of a name that say something."""
    said = [each for each in _named(name) if each.row.says not in _UNSAID]
    if medium:
        said = [e for e in said if e.row.fixed or not _BY_MEDIUM.search(folded(e.row.word))]
    return said


def _head(said: list[_Named], name: str) -> DescribedPart | None:
    """The known word that tells what the name is, unless another one beside it tells more.

    A pump that states its power is a pump; a plate that states its voltage is no plate, and a fan
    that states it is no fan of air.
    """
    found = [each.row for each in said]
    head = found[-1] if found else None
    figure = _figure(name)
    if figure is None and _carries_in_german(said):
        head = found[0]
    if head is not None and head.says is Says.SEAL:
        return head
    if head is None or head.fixed:
        excused = head is not None and head.says is Says.CARRIER and figure is None
        wanted = frozenset({Says.POWERED}) if excused else _ELECTRICAL
        return _last(found, wanted) or figure or head
    if head.says is Says.MOVING:
        electric = figure is not None and figure.says is Says.FIGURE
        return _last(found, _OF_ALL) or (figure if electric else head)
    return _last(found, frozenset({Says.POWERED})) or head


def _carries_in_german(said: list[_Named]) -> bool:
    """Whether two nouns stand apart, the carrier first: a `Halter Sensor` would be a compound."""
    if len(said) != 2 or said[1].specific:
        return False
    return said[0].row.says is Says.CARRIER and said[0].languages == {"de"}


def _last(found: list[DescribedPart], wanted: frozenset[Says]) -> DescribedPart | None:
    return next((row for row in reversed(found) if row.says in wanted), None)


def _first_head(said: list[_Named], name: str) -> DescribedPart | None:
    """The same in French, Italian and Spanish.

    The head comes first and what tells of it behind: `vérin électrique`, `vanne à solénoïde`; in
    `staffa sensore` the sensor is another part.
    """
    if not said or said[0].row.says is Says.SEAL or said[0].row.says is Says.ELECTRICAL:
        return said[0].row if said else _figure(name)
    head, figure = said[0].row, _figure(name)
    words = _WORD.findall(name)
    inside = {index for each in said for index in range(each.start, each.stop)}
    has = next((i for i, w in enumerate(words) if w in _HAS and i not in inside), len(words))
    for each in said:
        if each.row.says in _OF_ALL or (each.row.says is Says.ELECTRICAL and each.start > has):
            return each.row
    electric = figure is not None and (head.fixed or figure.says is Says.FIGURE)
    return figure if electric else head


def _is_romance(phrase: str) -> bool:
    """Whether a phrase is French, Italian or Spanish, whose head comes first."""
    if _TELLS_ROMANCE.search(phrase):
        return True
    return any(each.languages <= _ROMANCE for each in _named(phrase))


def without_figures(text: str) -> str:
    """A description without its figures in volts, watts and the like."""
    return _units().sub(" ", folded(text))


def _figure(name: str) -> DescribedPart | None:
    """The unit of a figure in volts, watts or the like; of a belt 5V is the profile."""
    if _DIGIT.search(name) is None:
        return None
    belt = _BELT.search(name) is not None
    found = [
        each.groups()
        for each in _units().finditer(name)
        if not (belt and _PROFILE.fullmatch(each.group()))
    ]
    units = [_row(_lexicon().units[next(filter(None, groups))]) for groups in found]
    return min(units, key=lambda row: _ORDER.index(row.says), default=None)


def _round_connector(text: str) -> DescribedPart | None:
    """M8 and M12 are threads, and connectors where pins, poles, a plug or a code stand beside."""
    if "m8" not in text and "m12" not in text:
        return None
    if not any(_CONNECTOR.search(phrase) for phrase in (*_PAUSE.split(text), text)):
        return None
    words = (each.row for each in _named(text))
    threaded = any(row.fixed and row.word not in _PLUGGED for row in words)
    return None if threaded else next(iter(_lookup(("m12", "connector"))))


@lru_cache(maxsize=4096)
def _named(text: str) -> tuple[_Named, ...]:
    """The known words of a text from left to right, the longest first."""
    words = _WORD.findall(text)
    found: list[_Named] = []
    start = 0
    while start < len(words):
        for stop in range(min(len(words), start + _longest(words[start])), start, -1):
            meant = _lookup(tuple(words[start:stop]))
            if meant:
                languages = frozenset(each for one in meant for each in one.languages)
                found.append(_Named(meant[0], start, stop, stop - start > 1, languages))
                start = stop
                break
        else:
            found += (
                replace(each, start=start, stop=start + 1) for each in _compound(words[start])
            )
            start += 1
    return tuple(found)


@lru_cache(maxsize=4096)
def _longest(word: str) -> int:
    """Of how many words the longest entry is that may begin with this one; 0 without any."""
    first = _lexicon().first
    forms = [f"{language} {form}" for language in _LANGUAGES for form in _forms(word, language)]
    return max((first.get(form, 0) for form in forms), default=0)


@lru_cache(maxsize=4096)
def _lookup(words: tuple[str, ...]) -> tuple[DescribedPart, ...]:
    """The rows of these words, one a language; those written alike before those inflected."""
    entries = _lexicon().entries
    found: dict[int, bool] = {}
    for language in _LANGUAGES:
        inner = [_forms(word, language)[0] for word in words[:-1]]
        for nth, last in enumerate(_forms(words[-1], language)):
            number = entries.get(f"{language} {' '.join((*inner, last))}")
            if number is not None:
                found.setdefault(number, nth == 0)
                break
    rows_ = [(_row(number), exact) for number, exact in found.items()]
    written = " ".join(words)
    exact = tuple(row for row, as_is in rows_ if as_is and _plain(row.word) == written)
    return exact or tuple(row for row, _ in rows_)


def _plain(word: str) -> str:
    return " ".join(_WORD.findall(folded(word)))


@lru_cache(maxsize=4096)
def _compound(word: str) -> tuple[_Named, ...]:
    """What begins and ends a compound: `elektro` and `zylinder`."""
    if word.isdigit():
        return ()
    begins, ends = _lexicon().begins, _lexicon().ends
    starts = (word[:length] for length in range(len(word), 3, -1))
    first = next((begins[start] for start in starts if start in begins), None)
    if first is not None and _row(first).says is Says.NEUTRAL:
        return (_Named(_row(first), 0, 1, specific=True, languages=frozenset({"de"})),)
    forms = ((form, n) for form in _forms(word, "de") for n in range(2, len(form) - 2))
    last = next((ends[form[n:]] for form, n in forms if form[n:] in ends), None)
    return tuple(
        _Named(row, 0, 1, specific=True, languages=frozenset(row.languages))
        for row in (_row(number) for number in (first, last) if number is not None)
    )


_LANGUAGES = ("en", "de", "fr", "it", "es")
_ENDINGS = {"en": ("s", "es"), "de": ("en", "ern", "er", "es", "em", "n", "e", "s")}


@lru_cache(maxsize=16384)
def _forms(word: str, language: str) -> tuple[str, ...]:
    """The forms under which a word is looked up.

    In English and German as it is, then without each ending of the plural and of cases; else one
    form for singular and plural, and for both genders in Italian and Spanish.
    """
    if language in _ENDINGS:
        endings = (end for end in _ENDINGS[language] if word.endswith(end))
        return (word, *(word[: -len(end)] for end in endings if len(word) > len(end) + 2))
    if len(word) <= 3:
        return (word,)
    if language == "it":
        return (f"{word[:-1].removesuffix('h')}~" if word[-1] in "aeio" else word,)
    word = word.removesuffix("s") if language == "es" else word.rstrip("sx")
    if language == "es" and word[-1] in "aeo":
        return (word[:-1] if word[-1] == "e" else f"{word[:-1]}~",)
    return (word,)


class _Lexicon(Frozen, eq=False):
    """Numbers of rows by language and form, by first and last part of compounds, and of units.

    `first` says how many words the longest entry has that begins with a form.
    """

    entries: dict[str, int]
    first: dict[str, int]
    begins: dict[str, int]
    ends: dict[str, int]
    units: dict[str, int]


@cache
def _lexicon() -> _Lexicon:
    found = _Lexicon({}, {}, {}, {}, {})
    header = columns(DescribedPart)
    at = {name: header.index(name) for name in ("word", "says", "languages")}
    for number, cells in enumerate(cells_of("described_parts", DescribedPart)):
        small = folded(cells[at["word"]])
        if cells[at["says"]] in _UNITS:
            found.units[small] = number
            continue
        if small.endswith("-"):
            found.begins[small[:-1]] = number
            continue
        if small.startswith("-"):
            found.ends[small[1:]] = number
        words = _WORD.findall(small)
        for language in cells[at["languages"]].split("|"):
            same = language in _ENDINGS
            forms = words if same else [_forms(word, language)[0] for word in words]
            found.entries.setdefault(f"{language} {' '.join(forms)}", number)
            begin = f"{language} {forms[0]}"
            found.first[begin] = max(found.first.get(begin, 0), len(words))
    return found


@cache
def _row(number: int) -> DescribedPart:
    return to_row(DescribedPart, cells_of("described_parts", DescribedPart)[number])


@cache
def _units() -> re.Pattern[str]:
    """A figure, or a range of it, with one of the units; volts also as `AC 230 V`, `24 V DC`."""
    named = sorted(_lexicon().units, key=len, reverse=True)
    units = "|".join(map(re.escape, named))
    to = r"(?:\s?(?:-|–|\.{2,3}|/|to|bis|a)\s?[0-9][0-9.,]*)?"
    figure = rf"[0-9][0-9.,]*{to}[ \u00a0]?"
    return re.compile(
        rf"(?<![\w-]){figure}({units})(?![\w-])(?!\s?(?:ac|dc|=|~))"
        rf"|(?<![a-z0-9-]){figure}(v)\s?(?:ac|dc|=|~)"
        rf"|(?<![a-z0-9])(?:ac|dc)\s?{figure}(v)(?![\w-])"
    )
