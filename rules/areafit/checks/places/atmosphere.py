"""What may be asked of the atmosphere of a place, and the answers: one judge for each question."""

from decimal import Decimal

from areafit.facts.protection import Law
from areafit.facts.quantity import Dimension, Range, show_range
from areafit.rule import Judgement, Row, passed, unproven
from areafit.tables.substances import Caution
from areafit.values import Frozen, Term
from areafit.verdict import Reason


class Fact(Term):
    """What of the air is compared."""

    AMBIENT = "ambient"
    PRESSURE = "pressure"
    OXYGEN = "oxygen"


class Air(Frozen):
    """One fact of the air and the range of the standards: °C, Pa, % by volume.

    `certified_for`: every electrical or marked part at the place is certified for this cold.
    """

    fact: Fact
    stated: Range
    normal: Range
    certified_for: bool = False


class Oxidiser(Frozen):
    """A gas that makes other things burn, present beside what is flammable."""

    name: str
    row: Row


class OwnHazard(Frozen):
    """A substance that ignites by itself, or burns without air; `pressure` as stated, in Pa."""

    name: str
    caution: Caution
    pressure: Range | None


class Hot(Frozen):
    """A substance that is handled hotter than the air may be, in °C."""

    name: str
    handled: Range


class Hybrid(Frozen):
    """Gas or vapour and dust in one place, by their names or by what the area declares.

    `excluded`: it is stated that they form no mixture with each other, by a named document.
    """

    gases: tuple[str, ...]
    dusts: tuple[str, ...]
    excluded: str | None


Question = Air | Oxidiser | OwnHazard | Hot | Hybrid

HIGHEST = Decimal(60)
LOWEST = {Law.NEC: Decimal(-25), Law.IEC: Decimal(-20), Law.ATEX: Decimal(-20)}
PRESSURE = Range(Decimal(80000), Decimal(110000))
OXYGEN = Range(Decimal(0), Decimal(21))
_DIMENSION = {
    Fact.AMBIENT: Dimension.TEMPERATURE,
    Fact.PRESSURE: Dimension.PRESSURE,
    Fact.OXYGEN: Dimension.FRACTION,
}


def judge(question: Question) -> Judgement:
    """What the question comes to; what the standards do not cover is never a pass."""
    match question:
        case Air():
            return _judge_air(question)
        case Oxidiser():
            return unproven(
                Reason.NOT_JUDGED,
                f"{question.name} makes things burn without air or faster than in air; groups, "
                "ignition temperatures and types of protection hold for air only.",
                required="air as the only oxidiser",
                found=question.name,
                rows=(question.row,),
            )
        case Hot():
            return _judge_hot(question)
        case Hybrid():
            return _judge_hybrid(question)
        case _:
            return _judge_own(question)


def _judge_air(question: Air) -> Judgement:
    dimension = _DIMENSION[question.fact]
    required = show_range(question.normal, dimension)
    if question.fact is Fact.OXYGEN:
        required = "at most 21 % oxygen"
    found = show_range(question.stated, dimension)
    if question.stated.within(question.normal):
        return passed(
            f"The {question.fact.value} is within what the standards cover.",
            required=required,
            found=found,
        )
    if question.certified_for and question.stated.high <= question.normal.high:
        return passed(
            "The air is colder than the standards take for granted, which makes no mixture easier "
            "to ignite; every part is certified for that cold.",
            required=f"{required}, or parts certified for the cold",
            found=found,
            clause="IEC 60079-0:2017 5.1.1, 5.1.2",
        )
    return unproven(
        Reason.NOT_JUDGED,
        f"The {question.fact.value} of {found} lies outside the conditions in which groups, "
        "ignition temperatures and types of protection were tested.",
        required=required,
        found=found,
    )


def _judge_hot(question: Hot) -> Judgement:
    found = show_range(question.handled, Dimension.TEMPERATURE)
    return unproven(
        Reason.NOT_JUDGED,
        f"{question.name} is handled at {found}. Where it escapes the mixture is that hot: groups, "
        f"ignition temperatures and types of protection were found at {HIGHEST} °C at most, and "
        "what touches it is warmer than the air.",
        required=f"at most {HIGHEST} °C",
        found=f"{question.name}: {found}",
        clause="IEC 60079-0:2017 1, 5.1.2; IEC 60079-14:2013 1",
        remedy="Have a specialist say how far the hot mixture reaches and what the parts in it "
        "must withstand, and accept this finding with that document.",
    )


def _judge_hybrid(question: Hybrid) -> Judgement:
    found = f"{', '.join(question.gases)} with {', '.join(question.dusts)}"
    required = "that both never occur together, or an assessment of hybrid mixtures"
    clause = "IEC 60079-10-2:2015 (hybrid mixtures); IEC 60079-14:2013 5; EN 1127-1:2019 4.3"
    if question.excluded is not None:
        return passed(
            f"Stated to form no mixture with each other, by {question.excluded}.",
            required=required,
            found=found,
            clause=clause,
        )
    return unproven(
        Reason.NOT_JUDGED,
        f"Gas or vapour and dust may be here at once ({found}). A hybrid mixture may ignite below "
        "the limits, with less energy and at a lower temperature than either alone; parts are "
        "judged for each by itself only.",
        required=required,
        found=found,
        clause=clause,
        remedy="State `hybrid_mixtures: false` where the area classification document, by its "
        "number, rules them out; else have a specialist say what then holds, and accept this "
        "finding with that document.",
    )


def _judge_own(question: OwnHazard) -> Judgement:
    if question.caution is Caution.PYROPHORIC:
        return unproven(
            Reason.NOT_JUDGED,
            f"{question.name} ignites by itself in air: avoiding ignition sources does not help.",
            required="a substance that needs an ignition source",
            found=question.name,
        )
    required = f"{question.name} at 80 to 110 kPa, stated as `pressure`"
    if question.pressure is not None and question.pressure.within(PRESSURE):
        return passed(
            f"{question.name} is at atmospheric pressure, so its mixture with air counts; it may "
            "also decompose without air, which is for its own safety data to say.",
            required=required,
            found=show_range(question.pressure, Dimension.PRESSURE),
        )
    return unproven(
        Reason.NOT_JUDGED,
        f"{question.name} can burn or explode without air, under pressure above all; protection "
        "against mixtures with air does not cover that.",
        required=required,
        found="pressure not stated" if question.pressure is None else "outside that range",
    )
