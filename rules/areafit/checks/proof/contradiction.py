"""Documents that contradict the marking, the calendar or each other; repairs without a record."""

from collections.abc import Iterable, Iterator
from datetime import date

from areafit.checks.proof.sufficiency import Claim
from areafit.documents import Scheme, identified, read_number
from areafit.facts.evidence import Evidence, EvidenceType
from areafit.facts.protection import Law, Level
from areafit.values import Frozen

ATEX_BINDS = date(2003, 7, 1)
_ATEX_BEGAN = 1995  # 94/9/EC was of 1994; its first certificates came later
_IECEX_BEGAN = 2002
_UK_BEGAN = 2020  # in force from 2021; bodies were approved shortly before, from memory
_BEGAN = {Scheme.ATEX: _ATEX_BEGAN, Scheme.UK: _UK_BEGAN}


class Point(Frozen):
    """What is wrong with the documents; `fails` where stated facts contradict each other."""

    message: str
    required: str
    fails: bool
    clause: str = ""


def contradictions(  # noqa: PLR0913, PLR0917 - each is a fact of the part
    law: Law,
    claims: tuple[Claim, ...],
    levels: tuple[Level, ...],
    documents: tuple[Evidence, ...],
    placed: date | None,
    as_of: date,
) -> Iterator[Point]:
    """Every contradiction, in the order of the documents; facts that fail before missing ones."""
    yield from _numbers(documents, as_of)
    yield from _levels(levels, documents)
    if law is Law.ATEX and placed is not None and placed >= ATEX_BINDS:
        yield from _pre_atex(claims)
    yield from _repairs(documents)


def _numbers(documents: Iterable[Evidence], as_of: date) -> Iterator[Point]:
    for document in documents:
        number = read_number(document)
        if document.type is EvidenceType.LISTING and number.scheme is not Scheme.OTHER:
            whose = f"{_A[number.scheme]} {number.scheme.value}"
            yield Point(
                f"{document.number} is no listing: it is the number of {whose}.",
                "a listing number of the laboratory",
                fails=True,
                clause="29 CFR 1910.7; 29 CFR 1910.307(c)",
            )
        began = _BEGAN.get(number.scheme, _IECEX_BEGAN)
        if number.year is not None and not began <= number.year <= as_of.year:
            yield Point(
                f"The number {document.number} shows the year {number.year}, in which no such "
                "certificate can have been issued.",
                f"a number with a year from {began} to {as_of.year}",
                fails=True,
            )


_A = {Scheme.ATEX: "an", Scheme.IECEX: "an", Scheme.UK: "a"}


def _levels(levels: tuple[Level, ...], documents: Iterable[Evidence]) -> Iterator[Point]:
    """A document that shows a weaker level than the nameplate prints for the same hazard."""
    for document in documents:
        shown = document.level
        if shown is None:
            continue
        if any(own.value[0] == shown.value[0] and own.rank < shown.rank for own in levels):
            yield Point(
                f"The {document.type.value} shows {shown.value}; the nameplate prints a better "
                "level.",
                "a document that agrees with the marking",
                fails=True,
            )


def _pre_atex(claims: tuple[Claim, ...]) -> Iterator[Point]:
    if any(claim.pre_atex for claim in claims):
        yield Point(
            "The marking is older than the equipment categories, and the part was placed on the "
            "market when they were binding.",
            "a marking with category, and the EU declaration of conformity",
            fails=True,
            clause="2014/34/EU Art. 6, 13; 94/9/EC Art. 15 (transition to 30 June 2003)",
        )


def _repairs(documents: Iterable[Evidence]) -> Iterator[Point]:
    for document in documents:
        if document.type is EvidenceType.REPAIR_RECORD and not (
            identified(document) and document.standard
        ):
            yield Point(
                "A repair is named without its record or the standard that it followed, so "
                "whether the protection still holds is not shown.",
                "the number of the repair record and its standard, such as IEC 60079-19",
                fails=False,
                clause="IEC 60079-19:2019 4; NFPA 70-2023 500.8(A)",
            )
