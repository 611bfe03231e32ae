"""Is the air at the place the air that the standards' values were found in."""

from collections.abc import Iterator

from areafit.cases import PlaceCase
from areafit.checks.places.atmosphere import (
    HIGHEST,
    LOWEST,
    OXYGEN,
    PRESSURE,
    Air,
    Fact,
    Hot,
    Hybrid,
    OwnHazard,
    Oxidiser,
    Question,
    judge,
)
from areafit.demands import Demands
from areafit.documents import certifies, expired
from areafit.facts.marking import Code
from areafit.facts.part import Equipment, Part
from areafit.facts.protection import Hazard
from areafit.facts.quantity import Range
from areafit.rule import Ask, Example, Family, Row, Rule, Subject
from areafit.tables import Tables
from areafit.tables.chemicals import Medium, Presence
from areafit.tables.names import key
from areafit.tables.oxidisers import OxidisingGas
from areafit.tables.substances import Caution
from areafit.verdict import Role, Verdict

_DUSTS = (Hazard.DUST, Hazard.FIBRES)


def _ask(case: PlaceCase, demands: Demands) -> Iterator[Ask[Question]]:
    """Where something flammable is declared or listed; elsewhere the air does not matter here."""
    place = demands.place
    if not (demands.classified or demands.substances):
        return
    normal = Range(LOWEST[place.law], HIGHEST)
    for fact, stated, span in (
        (Fact.AMBIENT, place.ambient, normal),
        (Fact.PRESSURE, place.pressure, PRESSURE),
        (Fact.OXYGEN, place.oxygen, OXYGEN),
    ):
        if stated is not None:
            cold = fact is Fact.AMBIENT and stated.low < span.low
            held = cold and _all_certified(case, stated, demands)
            yield Ask(Air(fact, stated, span, held), fact.value)
    yield from _oxidisers(demands)
    gases, dusts = _present(demands, Hazard.GAS), _present(demands, *_DUSTS)
    if gases and dusts:
        excluded = place.document if place.hybrid_mixtures is False else None
        yield Ask(Hybrid(gases, dusts, excluded), "substances" if demands.substances else "area")
    for substance in demands.substances:
        handled = substance.stated.temperature
        if handled is not None and handled.high > HIGHEST:
            yield Ask(Hot(substance.name, handled), substance.path)
        cautions = substance.gas.cautions if substance.gas is not None else frozenset()
        for caution in (Caution.PYROPHORIC, Caution.DECOMPOSES):
            if caution in cautions:
                yield Ask(OwnHazard(substance.name, caution, place.pressure), substance.path)


def _all_certified(case: PlaceCase, site: Range, demands: Demands) -> bool:
    """Whether every part that is electrical or marked bears a range that holds the site's."""
    variants = [each for part in case.parts for each in (part, *part.alternates)]
    asked = [each.equipment for each in variants if each.equipment.electrical or _codes(each)]
    return bool(asked) and all(_certified(equipment, site, demands) for equipment in asked)


def _codes(part: Part) -> list[Code]:
    return [code for marking in part.equipment.markings or () for code in marking.codes]


def _certified(equipment: Equipment, site: Range, demands: Demands) -> bool:
    """A printed or certified range; a default never reaches below the standard range.

    The range of any other document counts against the part only.
    """
    codes = [code for marking in equipment.markings or () for code in marking.codes]
    printed = [
        span
        for code in codes
        for span in (code.ambient, *(mark.ambient for mark in code.temperatures))
        if span is not None
    ]
    documents = [each for each in equipment.evidence or () if each.ambient is not None]
    binding = [
        each.ambient
        for each in documents
        if not expired(each, equipment.placed_on_market, demands.as_of)
        and any(
            certifies(each, demands.law, code, electrical=equipment.electrical)
            for code in (codes or (None,))
        )
    ]
    against = (each.ambient for each in documents)
    return all(site.within(span) for span in against if span is not None) and any(
        site.within(span) for span in (*printed, *binding) if span is not None
    )


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
            return Row.of(
                "chemicals", chemical.id, chemical, f"oxidising: {chemical.oxidising.value}"
            )
    by_name = tables.remembered(("oxidising gases by name",), lambda: _by_name(tables))
    listed = by_name.get(_bare(name))
    if listed is None:
        return None
    shipped = Tables.shipped().rows("oxidising_gases", OxidisingGas)
    if listed in shipped and tables.chemicals(name):
        return None
    return Row.of("oxidising_gases", listed.name, listed)


def _by_name(tables: Tables) -> dict[str, OxidisingGas]:
    """Every gas of the table, a company's own included: those are meant by whatever name."""
    return {_bare(row.name): row for row in tables.rows("oxidising_gases", OxidisingGas)}


def _bare(name: str) -> str:
    """The name as look-ups fold it, without the word that says only that it is a gas."""
    plain = name.strip().casefold()
    for word in (" gas", " vapour", " vapor"):
        plain = plain.removesuffix(word)
    return key(plain)


STANDARD_ATMOSPHERE = Rule[Question](
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
    "-25 °C without a marked range. Cold air makes no mixture easier to ignite, so parts that are "
    "certified for it may stand in it. Pressure and oxygen that are not stated are those of free "
    "air, and the temperature of a substance that is not stated is that of the air. Hybrid "
    "mixtures of gas and dust are not judged; a document may rule them out.",
    ask=_ask,
    judge=judge,
    examples=(
        Example(
            "A room at normal temperature",
            Verdict.PASS,
            place="{area: 'Zone 1, IIB, T3', substances: [ethanol], ambient: 5..40 °C}",
        ),
        Example(
            "Outdoors in the cold, with a part certified for it",
            Verdict.PASS,
            "{kind: electrical, marking: Ex db IIC T4 Gb -40 °C ≤ Ta ≤ +60 °C}",
            "{area: 'Zone 1, IIB, T3', substances: [ethanol], ambient: -30..40 °C}",
        ),
        Example(
            "The same, and no range on its nameplate",
            Verdict.UNPROVEN,
            "{kind: electrical, marking: Ex db IIC T4 Gb}",
            "{area: 'Zone 1, IIB, T3', substances: [ethanol], ambient: -30..40 °C}",
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
