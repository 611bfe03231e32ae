"""Is the air at the place the air that the standards' values were found in."""

from collections.abc import Iterator
from decimal import Decimal

from areafit.cases import PlaceCase
from areafit.demands import Demands
from areafit.facts.protection import Hazard, Law
from areafit.facts.quantity import Dimension, Range, show_range
from areafit.frozen import frozen
from areafit.rule import Ask, Example, Family, Judgement, Row, Rule, Subject, passed, unproven
from areafit.tables import Tables
from areafit.tables.chemicals import Medium, Presence
from areafit.tables.names import key
from areafit.tables.oxidisers import OxidisingGas
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


@frozen
class Hot:
    """A substance that is handled hotter than the air may be, in °C."""

    name: str
    handled: Range


@frozen
class Hybrid:
    """Gas or vapour and dust in one place, by their names or by what the area declares."""

    gases: tuple[str, ...]
    dusts: tuple[str, ...]


Question = Air | Oxidiser | OwnHazard | Hot | Hybrid

_DUSTS = (Hazard.DUST, Hazard.FIBRES)
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
    gases, dusts = _present(demands, Hazard.GAS), _present(demands, *_DUSTS)
    if gases and dusts:
        yield Ask(Hybrid(gases, dusts), "substances" if demands.substances else "area")
    for substance in demands.substances:
        handled = substance.stated.temperature
        if handled is not None and handled.high > _HIGHEST:
            yield Ask(Hot(substance.name, handled), substance.path)
        cautions = substance.gas.cautions if substance.gas is not None else frozenset()
        for caution in (Caution.PYROPHORIC, Caution.DECOMPOSES):
            if caution in cautions:
                yield Ask(OwnHazard(substance.name, caution, place.pressure), substance.path)


def _present(demands: Demands, *hazards: Hazard) -> tuple[str, ...]:
    """What forms one of the hazards: listed substances of that kind only, or the declared area.

    A chemical that burns and has no gas hazard declared is for `declared-area` and `flash-point`.
    """
    listed = [
        one.name
        for one in demands.substances
        if not one.from_chemical and one.hazards <= frozenset(hazards)
    ]
    declared = [hazard.value for hazard in hazards if demands.hazard(hazard) is not None]
    return tuple(dict.fromkeys(listed or declared))


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
    by_name = tables.remembered(("oxidising gases by name",), lambda: _by_name(tables))
    listed = by_name.get(_bare(name))
    if listed is None:
        return None
    shipped = Tables.shipped().rows("oxidising_gases", OxidisingGas)
    if listed in shipped and tables.chemicals(name):
        return None
    return Row("oxidising_gases", listed.name, listed.source_id, listed.locator, listed.basis)


def _by_name(tables: Tables) -> dict[str, OxidisingGas]:
    """Every gas of the table, a company's own included: those are meant by whatever name."""
    return {_bare(row.name): row for row in tables.rows("oxidising_gases", OxidisingGas)}


def _bare(name: str) -> str:
    """The name as look-ups fold it, without the word that says only that it is a gas."""
    plain = name.strip().casefold()
    for word in (" gas", " vapour", " vapor"):
        plain = plain.removesuffix(word)
    return key(plain)


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
        f"ignition temperatures and types of protection were found at {_HIGHEST} °C at most, and "
        "what touches it is warmer than the air.",
        required=f"at most {_HIGHEST} °C",
        found=f"{question.name}: {found}",
        clause="IEC 60079-0:2017 1, 5.1.2; IEC 60079-14:2013 1",
        remedy="Have a specialist say how far the hot mixture reaches and what the parts in it "
        "must withstand, and accept this finding with that document.",
    )


def _judge_hybrid(question: Hybrid) -> Judgement:
    found = f"{', '.join(question.gases)} with {', '.join(question.dusts)}"
    return unproven(
        Reason.NOT_JUDGED,
        f"Gas or vapour and dust may be here at once ({found}). A hybrid mixture may ignite below "
        "the limits, with less energy and at a lower temperature than either alone; parts are "
        "judged for each by itself only.",
        required="an assessment of hybrid mixtures, or that both never occur together",
        found=found,
        clause="IEC 60079-10-2:2015 (hybrid mixtures); IEC 60079-14:2013 5; EN 1127-1:2019 4.3",
        remedy="Have a specialist say whether both can occur together and what then holds, and "
        "accept this finding with that document.",
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
    "-25 °C without a marked range. Pressure and oxygen that are not stated are those of free air, "
    "and the temperature of a substance that is not stated is that of the air. Hybrid mixtures "
    "of gas and dust are not judged.",
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
        Example(
            "A solvent above its boiling point",
            Verdict.UNPROVEN,
            place="{area: 'Zone 1, IIA, T3', substances: [{name: toluene, temperature: 180 °C}], "
            "ambient: 5..40 °C}",
        ),
        Example(
            "Flour beside a solvent",
            Verdict.UNPROVEN,
            place="{area: ['Zone 1, IIB, T3', 'Zone 21, IIIB'], substances: [ethanol, wheat "
            "flour], layer: 5 mm, ambient: 5..40 °C}",
        ),
    ),
)
