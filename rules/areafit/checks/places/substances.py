"""What is known of a substance that is present, and its flash point against the place."""

from collections.abc import Iterator
from decimal import Decimal

from areafit.demands import Demands, ResolvedSubstance, chemical_meant
from areafit.demands.mixtures import NotComputed, Why, allowances
from areafit.demands.substances import laxer_values
from areafit.facts.protection import Hazard
from areafit.facts.quantity import number
from areafit.rule import Answer, Ask, Example, Family, Judgement, Row, Rule, Subject, of_a_pass
from areafit.subjects import PlaceCase
from areafit.tables.limits import figure
from areafit.values import Frozen, replace
from areafit.verdict import Reason, Role, Verdict
from areafit.wording import nearest_known, use_known_name


class SubstanceKnown(Frozen):
    """One substance: what is known of it, and own values that would relax the table."""

    name: str
    known: bool
    nearest: tuple[str, ...]
    laxer: tuple[str, ...]
    source: str | None
    rows: tuple[Row, ...]


def _ask_known(case: PlaceCase, demands: Demands) -> Iterator[Ask[SubstanceKnown]]:
    del case
    for substance in demands.substances:
        governing = (substance.autoignition(), substance.flash_point(), substance.cloud())
        question = SubstanceKnown(
            substance.name,
            substance.known,
            substance.nearest,
            laxer_values(substance),
            substance.stated.source,
            tuple(dict.fromkeys(row for each in governing if each for row in each.rows)),
        )
        yield Ask(question, substance.path)


_OWN = (
    "state group, autoignition and flash point (dust: cloud and layer ignition) with their source"
)


def _judge_known(question: SubstanceKnown) -> Judgement:
    required = "a table row, or own values with their source"
    if not question.known:
        return Answer(required, "name unknown").unproven(
            Reason.NAME_UNKNOWN,
            f"{question.name!r} is in no table and has no own values."
            f"{nearest_known(question.nearest)}",
            remedy=use_known_name(question.nearest, _OWN),
        )
    if question.laxer:
        found = "; ".join(question.laxer)
        required = "a `document` beside the source of laxer values"
        return Answer(required, found, question.rows).unproven(
            Reason.CONDITION_TO_ACCEPT,
            f"Own values are laxer than the table and have no document: {found}. The table's "
            "values govern meanwhile.",
            remedy="Delete them, or name the document beside their source: "
            "`substances: [{document: …}]`. The row decides on group and autoignition temperature "
            "either way.",
        )
    found = question.source or "table row"
    return Answer(required, found, of_a_pass(question.rows)).passed(f"{question.name} is known.")


SUBSTANCE_KNOWN = Rule[SubstanceKnown](
    id="substance-known",
    title="Every substance has data",
    family=Family.PLACES,
    subject=Subject.PLACE,
    clause="IEC 60079-14:2013 4.2; NFPA 70-2023 500.4; ISO/IEC 80079-20-1:2017",
    why="Group and temperature limit come from the substance; one unknown name leaves both open "
    "for everything in the room.",
    remedy="Use a known name or CAS number, or state group, autoignition and flash point (dust: "
    "cloud and layer ignition) with their source.",
    answer_by=Role.PROCESS_OWNER,
    ask=_ask_known,
    judge=_judge_known,
    examples=(
        Example("A name in the table", Verdict.PASS, place="{substances: [acetone]}"),
        Example(
            "A trade name without values",
            Verdict.UNPROVEN,
            place="{substances: [blend nobody lists]}",
        ),
        Example(
            "A blend with its own tested values",
            Verdict.PASS,
            place="{substances: [{name: blend nobody lists, group: IIB, autoignition: 285 °C, "
            "flash_point: 12 °C, source: test report TR-1}]}",
        ),
    ),
)


class FlashPoint(Frozen):
    """A flash point and the highest temperatures in °C, handled and of the air.

    `declared` says that the area declares a gas hazard, `sprayed` that mist is formed.
    """

    substance: str
    flash_point: Decimal
    rows: tuple[Row, ...]
    handled: Decimal | None
    ambient: Decimal | None
    declared: bool
    sprayed: bool


class MixtureFlash(Frozen):
    """A computed flash point in °C, or why there is none, and temperatures as of `FlashPoint`.

    `beyond` says that the liquid has none up to there, `pure` that it has one component alone,
    `aqueous` that it is one liquid that burns in water, `beside` what else becomes of it as it is
    handled.
    """

    substance: str
    flash_point: Decimal | None
    beyond: bool
    pure: bool
    rows: tuple[Row, ...]
    handled: Decimal | None
    ambient: Decimal | None
    declared: bool
    sprayed: bool
    refused: NotComputed | None
    beside: str = ""
    aqueous: bool = False


FlashQuestion = FlashPoint | MixtureFlash


def _ask_flash(case: PlaceCase, demands: Demands) -> Iterator[Ask[FlashQuestion]]:
    del case
    area = demands.place.area
    if area is None or not area.areas:
        return
    yield from _of_mixtures(demands)
    for substance in demands.substances:
        flash = substance.flash_point() if substance.mixture is None else None
        if flash is None or Hazard.GAS not in substance.hazards:
            continue
        handled = substance.stated.temperature
        question = FlashPoint(
            substance.name,
            flash.value,
            flash.rows,
            handled.high if handled is not None else None,
            demands.ambient.high if demands.ambient is not None else None,
            demands.hazard(Hazard.GAS) is not None,
            sprayed(substance, demands),
        )
        yield Ask(question, substance.path)


def _of_mixtures(demands: Demands) -> Iterator[Ask[FlashQuestion]]:
    """Each mixture that may burn and has no tested flash point with a document."""
    mixed = {one.path: one for one in demands.substances if one.mixture is not None}
    for path, component in mixed.items():
        stated = component.mixture
        if stated is None or stated.mixture is None:
            continue
        if stated.flash_point is not None and stated.document is not None:
            continue
        from areafit.demands.mixtures import Computed, flash_point  # noqa: PLC0415 - of a mixture

        declared = demands.hazard(Hazard.GAS) is not None
        found = flash_point(stated.mixture, stated.temperature, demands.tables)
        computed = found if isinstance(found, Computed) else None
        question = MixtureFlash(
            stated.name,
            computed.celsius if computed is not None else None,
            computed is not None and computed.beyond,
            len(stated.mixture.components) == 1,
            computed.rows if computed is not None else (),
            stated.temperature.high if stated.temperature is not None else None,
            demands.ambient.high if demands.ambient is not None else None,
            declared,
            any(
                one.path == path and one.mixture is not None and sprayed(one, demands)
                for one in demands.substances
            ),
            None if isinstance(found, Computed) else found,
            computed.beside(stated.temperature) if computed is not None else "",
            computed is not None and computed.aqueous,
        )
        yield Ask(question, path)


def sprayed(substance: ResolvedSubstance, demands: Demands) -> bool:
    """Whether the place lists it as a chemical that is sprayed or atomised."""
    meant = chemical_meant(substance.name, demands.tables)
    return any(
        chemical.mist is True and chemical_meant(chemical.name, demands.tables) == meant
        for chemical in demands.place.chemicals or ()
    )


def _judge_flash(question: FlashQuestion) -> Judgement:
    if isinstance(question, MixtureFlash):
        return _judge_mixture(question)
    return _judge_known_flash(question)


def _judge_mixture(question: MixtureFlash) -> Judgement:
    """A computed flash point objects, and is never a ground to pass."""
    name, flash, refused = question.substance, question.flash_point, question.refused
    known = [value for value in (question.handled, question.ambient) if value is not None]
    hottest = max(known, default=None)
    here = f"up to {number(hottest)} °C here" if hottest is not None else "temperature not stated"
    told = "flash point not computed" if flash is None else _computed(question)
    answer = Answer(
        required=f"a gas hazard declared where {name} may reach its flash point or is sprayed",
        found=f"{name}: {told}, {here}",
        rows=question.rows,
    )
    if question.declared:
        return answer.not_applicable(
            f"The area is classified for vapour, with {name} at any temperature ({told})."
        )
    if question.sprayed:
        return answer.unproven(
            Reason.NOT_JUDGED,
            f"{name} is sprayed: mist burns below the flash point too, which is no measure of it.",
        )
    if refused is not None and refused.why is not Why.BURNS_NOT:
        return answer.unproven(
            refused.reason,
            f"The flash point of {name} is not computed: {refused.message}.",
            remedy=refused.remedy,
            answer_by=Role.PROCESS_OWNER,
        )
    if flash is None:
        return answer.not_applicable(f"{name} holds nothing that burns.")
    return _judge_computed(question, flash, hottest, answer)


def _computed(question: MixtureFlash) -> str:
    value = number(question.flash_point or Decimal(0))
    return (
        f"no computed flash point up to {value} °C"
        if question.beyond
        else f"a computed flash point of {value} °C"
    )


def _judge_computed(
    question: MixtureFlash, flash: Decimal, hottest: Decimal | None, answer: Answer
) -> Judgement:
    name, told = question.substance, _computed(question)
    error, margin = allowances(pure=question.pure, aqueous=question.aqueous)
    answer = replace(answer, rows=(*answer.rows, Row.of_figure(error), Row.of_figure(margin)))
    lowered = flash - error.kelvin - margin.kelvin
    beside = f" {question.beside}" if question.beside else ""
    less = f"less {error.value} of tested error and {margin.value} of margin {number(lowered)} °C"
    if hottest is not None and hottest >= lowered:
        return answer.flagged(
            f"{name} has {told}, {less}, and is at up to {number(hottest)} °C here: "
            "vapour that burns may be there; the area declares no gas hazard."
            f"{beside}"
        )
    if question.handled is None or question.ambient is None or hottest is None:
        return answer.unproven(
            Reason.FACT_MISSING,
            f"At what temperature {name} is handled, or that of the air, is not stated; it has "
            f"{told}, {less}.",
            remedy="State `temperature` of the substance, and `ambient` of the place.",
        )
    return answer.not_applicable(
        f"{name} has {told}, {less}, and stays at {number(hottest)} °C here. A computed "
        f"figure never shows that the place is safe.{beside}"
    )


def _judge_known_flash(question: FlashPoint) -> Judgement:
    name, flash = question.substance, question.flash_point
    known = [value for value in (question.handled, question.ambient) if value is not None]
    hottest = max(known, default=None)
    here = f"up to {number(hottest)} °C here" if hottest is not None else "temperature not stated"
    answer = Answer(
        required=f"a gas hazard declared where {name} reaches its flash point or is sprayed",
        found=f"{name}: flash point {number(flash)} °C, {here}",
        rows=question.rows,
    )
    if question.declared:
        return answer.passed(f"The area is classified for vapour, with {name} at any temperature.")
    if question.sprayed:
        return answer.flagged(f"{name} is sprayed: its mist burns below the flash point too.")
    if hottest is not None and hottest >= flash:
        return answer.flagged(
            f"{name} reaches its flash point of {number(flash)} °C here, so vapour that burns is "
            "there; the area declares no gas hazard."
        )
    if question.handled is None or question.ambient is None or hottest is None:
        return answer.unproven(
            Reason.FACT_MISSING,
            f"At what temperature {name} is handled, or that of the air, is not stated.",
            remedy="State `temperature` of the substance or chemical, and `ambient` of the place.",
        )
    return _judge_margin(name, flash - hottest, answer)


def _judge_margin(name: str, below: Decimal, answer: Answer) -> Judgement:
    margin = figure("margin below the flash point")
    answer = replace(answer, rows=(*answer.rows, Row.of_figure(margin)))
    if below < margin.kelvin:
        return answer.unproven(
            Reason.NO_MARGIN,
            f"{name} comes within {margin.value} of its flash point: a warm day, a hot "
            "surface or impurities make vapour.",
        )
    return answer.passed(
        f"{name} stays {number(below)} K below its flash point; spray, mist or hot "
        "surfaces would change that."
    )


FLASH_POINT = Rule[FlashQuestion](
    id="flash-point",
    title="No flash point is reached where no vapour is declared",
    family=Family.PLACES,
    subject=Subject.PLACE,
    clause="NFPA 30-2024 7.4; NFPA 497-2021 5.3; IEC 60079-10-1:2020 5; EN 1127-1:2019 6.3",
    why="Above its flash point a liquid gives off vapour that burns, whatever the declaration of "
    "the area says; a hot climate or a heated bath does the same.",
    remedy="Have the area classification account for the liquid at its highest temperature, and "
    "copy the `area` anew.",
    answer_by=Role.AREA_OWNER,
    note="Margins differ: EN 1127-1 has 5 K for pure liquids and 15 K for mixtures, NFPA 497 looks "
    "at liquids heated above their flash point; 15 K is used here. A high flash point never "
    "removes a declared hazard. That of a mixture is computed, by UNIFAC and the rule of Le "
    "Chatelier, and lowered by the worst tested error and the margin: it may object, and is no "
    "ground to pass.",
    ask=_ask_flash,
    judge=_judge_flash,
    examples=(
        Example(
            "Acetone in a classified cell",
            Verdict.PASS,
            place="{area: 'Class I, Division 1, Group D', ambient: 5..40 °C, "
            "substances: [acetone]}",
            law="NEC",
        ),
        Example(
            "A warm solvent in an unclassified room",
            Verdict.FLAG,
            place="{area: unclassified, ambient: 5..40 °C, substances: [{name: ethanol, "
            "temperature: 30 °C}]}",
        ),
        Example(
            "A warm rinse with some alcohol in an unclassified room",
            Verdict.FLAG,
            place="{area: unclassified, ambient: 5..35 °C, substances: [{mixture: {isopropanol: "
            "15 %, water: rest}, temperature: 40 °C}]}",
        ),
        Example(
            "Cold acetic acid, temperature not stated",
            Verdict.UNPROVEN,
            place="{area: unclassified, ambient: 5..25 °C, chemicals: [{name: acetic acid, "
            "concentration: 80 %}]}",
        ),
    ),
)
