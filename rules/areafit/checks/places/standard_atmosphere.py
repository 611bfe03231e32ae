"""Is the air at the place the air that the standards' values were found in."""

from collections.abc import Iterator
from decimal import Decimal

from areafit.cases import PlaceCase
from areafit.demands import Demands
from areafit.facts.protection import Law
from areafit.facts.quantity import Dimension, Range, show_range
from areafit.frozen import frozen
from areafit.rule import Ask, Example, Family, Judgement, Row, Rule, Subject, passed, unproven
from areafit.tables import Tables
from areafit.tables.chemicals import Medium, Presence
from areafit.tables.oxidisers import oxidising_gases
from areafit.tables.substances import Caution
from areafit.term import Term
from areafit.verdict import Reason, Role, Verdict


class Fact(Term):
    """What of the air is compared."""

    AMBIENT = "ambient"
    PRESSURE = "pressure"
    OXYGEN = "oxygen"


@frozen
class Air:
    """One fact of the air and the range of the standards: °C, Pa, % by volume."""

    fact: Fact
    stated: Range
    normal: Range


@frozen
class Oxidiser:
    """A gas that makes other things burn, present beside what is flammable."""

    name: str
    row: Row


@frozen
class OwnHazard:
    """A substance that ignites by itself, or burns without air; `pressure` as stated, in Pa."""

    name: str
    caution: Caution
    pressure: Range | None


Question = Air | Oxidiser | OwnHazard

_HIGHEST = Decimal(60)
_LOWEST = {Law.NEC: Decimal(-25), Law.IEC: Decimal(-20), Law.ATEX: Decimal(-20)}
_PRESSURE = Range(Decimal(80000), Decimal(110000))
_OXYGEN = Range(Decimal(0), Decimal(21))
_DIMENSION = {
    Fact.AMBIENT: Dimension.TEMPERATURE,
    Fact.PRESSURE: Dimension.PRESSURE,
    Fact.OXYGEN: Dimension.FRACTION,
}


def _ask(case: PlaceCase, demands: Demands) -> Iterator[Ask[Question]]:
    """Where something flammable is declared or listed; elsewhere the air does not matter here."""
    del case
    place = demands.place
    if not (demands.classified or demands.substances):
        return
    normal = Range(_LOWEST[place.law], _HIGHEST)
    for fact, stated, span in (
        (Fact.AMBIENT, place.ambient, normal),
        (Fact.PRESSURE, place.pressure, _PRESSURE),
        (Fact.OXYGEN, place.oxygen, _OXYGEN),
    ):
        if stated is not None:
            yield Ask(Air(fact, stated, span), fact.value)
    yield from _oxidisers(demands)
    for substance in demands.substances:
        cautions = substance.gas.cautions if substance.gas is not None else frozenset()
        for caution in (Caution.PYROPHORIC, Caution.DECOMPOSES):
            if caution in cautions:
                yield Ask(OwnHazard(substance.name, caution, place.pressure), substance.path)


def _oxidisers(demands: Demands) -> Iterator[Ask[Question]]:
    place = demands.place
    names = [(one.name, f"chemicals/{i}") for i, one in enumerate(place.chemicals or ())]
    names += [(one.name, f"substances/{i}") for i, one in enumerate(place.substances or ())]
    for name, path in names:
        row = _oxidising(name, demands.tables)
        if row is not None:
            yield Ask(Oxidiser(name, row), path)


def _oxidising(name: str, tables: Tables) -> Row | None:
    """The row that makes the name an oxidising gas; solutions of it are none."""
    for chemical in tables.chemicals(name):
        if chemical.medium is Medium.GAS and chemical.oxidising is not Presence.NO:
            return Row(
                "chemicals",
                chemical.id,
                chemical.source_id,
                chemical.locator,
                chemical.basis,
                f"oxidising: {chemical.oxidising.value}",
            )
    plain = name.strip().casefold()
    for word in (" gas", " vapour", " vapor"):
        plain = plain.removesuffix(word)
    listed = oxidising_gases().get(plain)
    if listed is None or tables.chemicals(name):
        return None
    return Row("oxidising_gases", listed.name, listed.source_id, listed.locator, listed.basis)


def _judge(question: Question) -> Judgement:
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
    return unproven(
        Reason.NOT_JUDGED,
        f"The {question.fact.value} of {found} lies outside the conditions in which groups, "
        "ignition temperatures and types of protection were tested.",
        required=required,
        found=found,
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
    if question.pressure is not None and question.pressure.within(_PRESSURE):
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


RULE = Rule[Question](
    id="standard-atmosphere",
    title="Air is what the standards' values hold for",
    family=Family.PLACES,
    subject=Subject.PLACE,
    clause="IEC 60079-0:2017 1; IEC 60079-14:2013 1; ISO 80079-36:2016 1; NFPA 70-2023 500.8(B)",
    why="Groups, ignition temperatures and types of protection are found and tested in air near "
    "room conditions; oxygen, pressure and heat make mixtures ignite more easily and burn harder.",
    remedy="Have a specialist assess the place, and accept this finding with that document.",
    answer_by=Role.AREA_OWNER,
    note="-20..60 °C, 80 to 110 kPa and 21 % oxygen; NFPA 70 takes Division equipment down to "
    "-25 °C without a marked range. Pressure and oxygen that are not stated are those of free air.",
    ask=_ask,
    judge=_judge,
    examples=(
        Example(
            "A room at normal temperature",
            Verdict.PASS,
            place="{area: 'Zone 1, IIB, T3', substances: [ethanol], ambient: 5..40 °C}",
        ),
        Example(
            "Inside a vessel under pressure",
            Verdict.UNPROVEN,
            place="{area: 'Zone 0, IIB, T3', substances: [ethanol], ambient: 5..40 °C, "
            "pressure: 300 kPa}",
        ),
        Example(
            "Chlorine beside a solvent",
            Verdict.UNPROVEN,
            place="{area: 'Zone 1, IIB, T3', substances: [ethanol], chemicals: [chlorine gas], "
            "ambient: 5..40 °C}",
        ),
    ),
)
