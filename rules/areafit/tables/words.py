"""Words by which components, conditions of use and numbers of documents are read."""

import re
from collections.abc import Iterable
from functools import cache, lru_cache

from areafit.pattern import AnyOf, pattern
from areafit.tables.load import rows
from areafit.tables.sources import Sourced
from areafit.values import Term

_SEVERAL = pattern(r"\s*(?:[,;/&+]|\band\b)\s*")


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
    whole = " ".join(component.casefold().split())
    rest = _added(Whose.OWN).within(whole).sub(" ", whole)
    return _added(Whose.ADDED).within(rest).search(rest) is not None


@cache
def _added(whose: Whose) -> AnyOf:
    return _any_of(row.word for row in rows("added_parts", AddedPart) if row.whose is whose)


def _any_of(words: Iterable[str]) -> AnyOf:
    """Any of them as a word by itself, the longest first, in the singular or the plural."""
    longest = sorted(words, key=len, reverse=True)
    return AnyOf(r"(?<![^\W_])", longest, r"(?:e?s)?(?![^\W_])")


class Reach(Term):
    """Whether the working liquid of a part reaches a piece of it."""

    WET = "wet"
    DRY = "dry"


class LiquidReach(Sourced):
    """A word or phrase that names a piece which the liquid reaches, or which stands outside."""

    word: str
    reach: Reach


@cache
def reach_of(component: str) -> Reach | None:
    """Whether the liquid reaches a piece of this name: no label, screw or handle; None: it may.

    A word for what it reaches is looked for first: the seal of a screw.

    >>> reach_of("tie rod screw"), reach_of("screw seal"), reach_of("body")
    (<Reach.DRY: 'dry'>, <Reach.WET: 'wet'>, None)
    """
    whole = " ".join(component.casefold().split())
    return next((each for each in Reach if _reach(each).within(whole).search(whole)), None)


@cache
def _reach(reach: Reach) -> AnyOf:
    return _any_of(row.word for row in rows("liquid_reach", LiquidReach) if row.reach is reach)


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


def needs_own_word(fact: str, *texts: str | None) -> bool:
    """Whether one of the texts names a component of which no note can say `fact: false`."""
    return any(_holds_own_word(fact, text) for text in texts if text)


@lru_cache(maxsize=4096)
def _holds_own_word(fact: str, text: str) -> bool:
    folded = text.casefold()
    return any(words.within(folded).search(folded) for words in _own_words(fact))


@cache
def _own_words(fact: str) -> tuple[AnyOf, AnyOf]:
    """The words, in the plural too: long ones also where they end a compound, then short ones."""
    words = [row.word.casefold() for row in rows("own_word", OwnWord) if getattr(row, fact)]
    plural = r"(?:e?s|e?n)?(?!\w)"
    return (
        AnyOf("", (word for word in words if len(word) > 4), plural),
        AnyOf(r"(?<!\w)", (word for word in words if len(word) <= 4), plural),
    )
