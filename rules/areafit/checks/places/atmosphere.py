"""Is the air at the place the air that the standards' values were found in."""

from collections.abc import Iterator
from decimal import Decimal

from areafit.checks.places.substances import sprayed
from areafit.demands import Demands, chemical_meant
from areafit.demands.substances import ResolvedSubstance
from areafit.documents import certifies, expired
from areafit.facts.groups import Cover, covers, scheme_of
from areafit.facts.part import Equipment
from areafit.facts.protection import Hazard, Law, MarkingSystem
from areafit.facts.quantity import Dimension, Range, number, show_range
from areafit.rule import Answer, Ask, Example, Family, Judgement, Row, Rule, Subject
from areafit.subjects import PlaceCase
from areafit.tables import Tables
from areafit.tables.chemicals import Medium, PropertyState
from areafit.tables.limits import Figure, figure
from areafit.tables.names import key
from areafit.tables.substances import Caution, OxidisingGas
from areafit.values import Frozen, Term, replace
from areafit.verdict import Reason, Role, Verdict


class AirFact(Term):
    """What of the air is compared."""

    AMBIENT = "ambient"
    PRESSURE = "pressure"
    OXYGEN = "oxygen"


_DIMENSION = {
    AirFact.AMBIENT: Dimension.TEMPERATURE,
    AirFact.PRESSURE: Dimension.PRESSURE,
    AirFact.OXYGEN: Dimension.FRACTION,
}


class Air(Frozen):
    """One fact of the air and what the standards have of it: °C, Pa, % by volume.

    `least` and `most` are the rows that bound it, None where it has no least. `certified_for`:
    every electrical or marked part at the place is certified for this cold.
    """

    fact: AirFact
    stated: Range
    least: Figure | None
    most: Figure
    certified_for: bool = False

    @property
    def span(self) -> Range:
        """The range of the standards."""
        dimension = _DIMENSION[self.fact]
        low = self.least.amount(dimension) if self.least is not None else Decimal(0)
        return Range(low, self.most.amount(dimension))


class Oxidiser(Frozen):
    """A gas that makes other things burn, present beside what is flammable."""

    name: str
    row: Row


class OwnHazard(Frozen):
    """A substance that ignites by itself, or burns without air; `pressure` as stated, in Pa.

    `certified_for`: every electrical or marked part at the place is certified for its group.
    """

    name: str
    caution: Caution
    pressure: Range | None
    certified_for: bool = False


class Hot(Frozen):
    """A substance that is handled hotter than the air may be, in °C."""

    name: str
    handled: Range


class Heavy(Frozen):
    """A liquid whose flash point in °C lies above the warmest standard air, and nothing lighter.

    At what temperature it is handled is not stated.
    """

    name: str
    flash_point: Decimal
    rows: tuple[Row, ...]


class Hybrid(Frozen):
    """Gas or vapour and dust in one place, by their names or by what the area declares.

    `excluded`: it is stated that they form no mixture with each other, by a named document.
    """

    gases: tuple[str, ...]
    dusts: tuple[str, ...]
    excluded: str | None


AirQuestion = Air | Oxidiser | OwnHazard | Hot | Heavy | Hybrid


_DUSTS = (Hazard.DUST, Hazard.FIBRES)


def _ask(case: PlaceCase, demands: Demands) -> Iterator[Ask[AirQuestion]]:
    """Where something flammable is declared or listed; elsewhere the air does not matter here."""
    place = demands.place
    if not (demands.classified or demands.substances):
        return
    for fact, stated in (
        (AirFact.AMBIENT, place.ambient),
        (AirFact.PRESSURE, place.pressure),
        (AirFact.OXYGEN, place.oxygen),
    ):
        if stated is not None:
            air = Air(fact, stated, *_bounds(fact, place.law))
            cold = fact is AirFact.AMBIENT and stated.low < air.span.low
            if cold and _all_certified(case, stated, demands):
                air = replace(air, certified_for=True)
            yield Ask(air, fact.value)
    yield from _oxidisers(demands)
    gases, dusts = _present(demands, Hazard.GAS), _present(demands, *_DUSTS)
    if gases and dusts:
        excluded = place.document if place.hybrid_mixtures is False else None
        yield Ask(Hybrid(gases, dusts, excluded), "substances" if demands.substances else "area")
    warmest = figure(_WARMEST).amount(Dimension.TEMPERATURE)
    yield from _heavy(demands, warmest)
    for substance in demands.substances:
        handled = substance.stated.temperature
        if handled is not None and handled.high > warmest:
            yield Ask(Hot(substance.name, handled), substance.path)
        cautions = substance.gas.cautions if substance.gas is not None else frozenset()
        for caution in (Caution.PYROPHORIC, Caution.DECOMPOSES):
            if caution in cautions:
                shown = caution is Caution.DECOMPOSES and _all_for(case, substance, demands)
                hazard = OwnHazard(substance.name, caution, place.pressure, certified_for=shown)
                yield Ask(hazard, substance.path)


def _heavy(demands: Demands, warmest: Decimal) -> Iterator[Ask[AirQuestion]]:
    """Liquids that make the place one for vapour only where they are hot, and are not said to be.

    Asked where nothing else that is listed explains the area: no gas, no lighter liquid, no mist.
    """
    burning = [each for each in demands.substances if Hazard.GAS in each.hazards]
    if demands.hazard(Hazard.GAS) is None or demands.evolved or not burning:
        return
    asked = []
    for substance in burning:
        flash = substance.flash_point() if substance.mixture is None else None
        if flash is None or flash.value <= warmest or sprayed(substance, demands):
            return
        if not _heat_told(substance, demands):
            heavy = Heavy(substance.name, flash.value, flash.rows)
            asked.append(Ask[AirQuestion](heavy, substance.path))
    yield from asked


def _heat_told(substance: ResolvedSubstance, demands: Demands) -> bool:
    """Whether its temperature is stated, here or where it is listed as a chemical."""
    meant = chemical_meant(substance.name, demands.tables)
    return substance.stated.temperature is not None or any(
        each.temperature is not None and chemical_meant(each.name, demands.tables) == meant
        for each in demands.place.chemicals or ()
    )


def _bounds(fact: AirFact, law: Law) -> tuple[Figure | None, Figure]:
    if fact is AirFact.AMBIENT:
        return figure("lowest temperature of standard air", law.value), figure(_WARMEST)
    if fact is AirFact.PRESSURE:
        return figure(_THINNEST), figure(_DENSEST)
    return None, figure("most oxygen in standard air")


_WARMEST = "highest temperature of standard air"
_THINNEST, _DENSEST = "lowest pressure of standard air", "highest pressure of standard air"


def _all_certified(case: PlaceCase, site: Range, demands: Demands) -> bool:
    """Whether every part that is electrical or marked bears a range that holds the site's."""
    lines = [each.equipment for part in case.parts for each in (part, *part.alternates)]
    asked = [each for each in lines if each.electrical or each.codes]
    return bool(asked) and all(_certified(equipment, site, demands) for equipment in asked)


def _all_for(case: PlaceCase, substance: ResolvedSubstance, demands: Demands) -> bool:
    """Whether every part that is electrical or marked is certified for the group of the gas.

    The gases that a group is tested with are its own: acetylene among those of IIC.
    """
    lines = [each.equipment for part in case.parts for each in (part, *part.alternates)]
    asked = [each for each in lines if each.electrical or each.codes]
    return bool(asked) and all(_for_gas(equipment, substance, demands) for equipment in asked)


def _for_gas(equipment: Equipment, substance: ResolvedSubstance, demands: Demands) -> bool:
    for code in equipment.codes:
        division = code.system is MarkingSystem.NEC_DIVISION
        found = substance.group(scheme_of(Hazard.GAS, division=division))
        named = substance.gas is not None and any(
            (known := demands.tables.substance(gas)) is not None and known.id == substance.gas.id
            for gas in code.gases
        )
        holds = named or (found is not None and covers(code.groups, found[0]) is Cover.YES)
        if holds and any(
            certifies(each, demands.law, code, electrical=equipment.electrical)
            and not expired(each, equipment.placed_on_market, demands.as_of)
            for each in equipment.evidence or ()
        ):
            return True
    return False


def _certified(equipment: Equipment, site: Range, demands: Demands) -> bool:
    """A printed or certified range; a default never reaches below the standard range.

    The range of any other document counts against the part only.
    """
    printed = [
        span
        for code in equipment.codes
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
            for code in (equipment.codes or (None,))
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


def _oxidisers(demands: Demands) -> Iterator[Ask[AirQuestion]]:
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
        if chemical.medium is Medium.GAS and chemical.oxidising is not PropertyState.NO:
            return Row.of(
                "chemicals", chemical.id, chemical, f"oxidising: {chemical.oxidising.value}"
            )
    by_name = tables.remembered(("oxidising gases by name",), lambda: _by_name(tables))
    listed = by_name.get(_bare(name))
    if listed is None:
        return None
    shipped = Tables.shipped().rows("oxidising_gases", OxidisingGas)
    known = tables.reading("chemicals", name)
    if listed in shipped and known.ids and not known.said:  # a solution, not said to be vapour
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


def _judge(question: AirQuestion) -> Judgement:
    """What the standards do not cover is never a pass."""
    match question:
        case Air():
            return _judge_air(question)
        case Oxidiser():
            return Answer("air as the only oxidiser", question.name, (question.row,)).unproven(
                Reason.NOT_JUDGED,
                f"{question.name} makes things burn without air or faster than in air; groups, "
                "ignition temperatures and types of protection hold for air only.",
            )
        case Hot():
            return _judge_hot(question)
        case Heavy():
            return _judge_heavy(question)
        case Hybrid():
            return _judge_hybrid(question)
        case _:
            return _judge_own(question)


def _judge_air(question: Air) -> Judgement:
    fact, stated, span = question.fact, question.stated, question.span
    dimension = _DIMENSION[fact]
    required = show_range(span, dimension)
    if question.least is None:
        required = f"at most {question.most.value} {fact.value}"
    bounds = (question.least, question.most)
    rows = tuple(Row.of_figure(each) for each in bounds if each is not None)
    answer = Answer(required, show_range(stated, dimension), rows)
    if stated.within(span):
        return answer.passed(f"The {fact.value} is within what the standards cover.")
    if question.certified_for and stated.high <= span.high:
        return replace(
            answer,
            required=f"{required}, or parts certified for the cold",
            clause="IEC 60079-0:2017 5.1.1, 5.1.2",
        ).passed(
            "The air is colder than the standards take for granted, which makes no mixture easier "
            "to ignite; every part is certified for that cold."
        )
    if fact is AirFact.AMBIENT and stated.high <= span.high:
        return answer.unproven(
            Reason.NOT_JUDGED,
            f"The air is colder here than {number(span.low)} °C, and not every electrical or "
            "marked part is shown to be certified for that cold.",
            remedy="Choose parts that are certified for it and state their range, in the marking "
            "or as `ambient` of the certificate; or have a specialist assess the place, and accept "
            "this finding with that document.",
        )
    return answer.unproven(
        Reason.NOT_JUDGED,
        f"The {fact.value} of {answer.found} lies outside the conditions in which groups, "
        "ignition temperatures and types of protection were tested.",
    )


def _judge_hot(question: Hot) -> Judgement:
    found = show_range(question.handled, Dimension.TEMPERATURE)
    most = figure(_WARMEST)
    return Answer(
        required=f"at most {most.value}",
        found=f"{question.name}: {found}",
        rows=(Row.of_figure(most),),
        clause="IEC 60079-0:2017 1, 5.1.2; IEC 60079-14:2013 1",
    ).unproven(
        Reason.NOT_JUDGED,
        f"{question.name} is handled at {found}. Where it escapes the mixture is that hot: groups, "
        f"ignition temperatures and types of protection were found at {most.value} at most, and "
        "what touches it is warmer than the air.",
        remedy="Have a specialist say how far the hot mixture reaches and what the parts in it "
        "must withstand, and accept this finding with that document.",
    )


def _judge_heavy(question: Heavy) -> Judgement:
    name, flash, most = question.name, number(question.flash_point), figure(_WARMEST)
    return Answer(
        required=f"at most {most.value}",
        found=f"{name}: flash point {flash} °C, temperature not stated",
        rows=(Row.of_figure(most), *question.rows),
        clause="IEC 60079-0:2017 1, 5.1.2; IEC 60079-14:2013 1",
    ).unproven(
        Reason.FACT_MISSING,
        f"{name} gives off vapour that burns from {flash} °C on. The area is classified for vapour "
        "and nothing lighter is listed, so it is handled hot or sprayed; how hot is not stated.",
        remedy="State `temperature` of the substance; list what else the area is classified for.",
        answer_by=Role.PROCESS_OWNER,
    )


def _judge_hybrid(question: Hybrid) -> Judgement:
    answer = Answer(
        required="that both never occur together, or an assessment of hybrid mixtures",
        found=f"{', '.join(question.gases)} with {', '.join(question.dusts)}",
        clause="IEC 60079-10-2:2015 (hybrid mixtures); IEC 60079-14:2013 5; EN 1127-1:2019 4.3",
    )
    if question.excluded is not None:
        return answer.passed(f"Stated to form no mixture with each other, by {question.excluded}.")
    return answer.unproven(
        Reason.NOT_JUDGED,
        f"Gas or vapour and dust may be here at once ({answer.found}). A hybrid mixture may ignite "
        "below the limits, with less energy and at a lower temperature than either alone; parts "
        "are judged for each by itself only.",
        remedy="State `hybrid_mixtures: false` where the area classification document, by its "
        "number, rules them out; else have a specialist say what then holds, and accept this "
        "finding with that document.",
    )


def _judge_own(question: OwnHazard) -> Judgement:
    name, pressure = question.name, question.pressure
    if question.caution is Caution.PYROPHORIC:
        return Answer("a substance that needs an ignition source", name).unproven(
            Reason.NOT_JUDGED,
            f"{name} ignites by itself in air: avoiding ignition sources does not help.",
        )
    least, most = figure(_THINNEST), figure(_DENSEST)
    span = Range(least.amount(Dimension.PRESSURE), most.amount(Dimension.PRESSURE))
    answer = Answer(
        required=f"{name} at {least.value.partition(' ')[0]} to {most.value}, stated as `pressure`",
        rows=(Row.of_figure(least), Row.of_figure(most)),
    )
    if pressure is not None and pressure.within(span):
        return replace(answer, found=show_range(pressure, Dimension.PRESSURE)).passed(
            f"{name} is at atmospheric pressure, so its mixture with air counts; it may "
            "also decompose without air, which is for its own safety data to say."
        )
    if pressure is None and question.certified_for:
        found = "pressure not stated; every part certified for its group"
        return Answer(
            required=f"{answer.required}, or parts certified for its group",
            found=found,
            rows=answer.rows,
            clause="IEC 60079-0:2017 1",
        ).passed(
            f"Every part is certified for the group of {name}, whose tests are made with it or its "
            "like at the pressure of the atmosphere; it may also decompose without air, which is "
            "for its own safety data to say."
        )
    found = "pressure not stated" if pressure is None else "outside that range"
    return replace(answer, found=found).unproven(
        Reason.NOT_JUDGED,
        f"{name} can burn or explode without air, under pressure above all; protection "
        "against mixtures with air does not cover that.",
    )


STANDARD_ATMOSPHERE = Rule[AirQuestion](
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
    "air, and the temperature of a substance that is not stated is that of the air; of one whose "
    "flash point lies above 60 °C it is asked for, where nothing else explains a gas hazard. "
    "Hybrid mixtures of gas and dust are not judged; a document may rule them out.",
    ask=_ask,
    judge=_judge,
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
            "A heavy liquid, and not how hot",
            Verdict.UNPROVEN,
            place="{area: 'Zone 1, IIA, T3', substances: [aniline], ambient: 5..40 °C}",
        ),
        Example(
            "Flour beside a solvent",
            Verdict.UNPROVEN,
            place="{area: ['Zone 1, IIB, T3', 'Zone 21, IIIB'], substances: [ethanol, wheat "
            "flour], layer: 5 mm, ambient: 5..40 °C}",
        ),
    ),
)
