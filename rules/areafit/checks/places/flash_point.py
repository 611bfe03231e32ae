"""Flash points against the temperatures at a place; may object to a declaration, never relax it."""

from collections.abc import Iterator
from decimal import Decimal

from areafit.cases import PlaceCase
from areafit.demands import Demands, Present
from areafit.facts.protection import Hazard
from areafit.facts.quantity import number
from areafit.rule import (
    Ask,
    Example,
    Family,
    Judgement,
    Row,
    Rule,
    Subject,
    flagged,
    passed,
    unproven,
)
from areafit.values import Frozen
from areafit.verdict import Reason, Role, Verdict

# K below the flash point within which a liquid is not taken as safe: 5 K is the smallest margin
# in use (EN 1127-1:2019 6.3, pure substances); for mixtures 15 K.
_MARGIN = Decimal(15)


class Question(Frozen):
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


def _ask(case: PlaceCase, demands: Demands) -> Iterator[Ask[Question]]:
    del case
    area = demands.place.area
    if area is None or not area.areas:
        return
    for substance in demands.substances:
        figure = substance.flash_point()
        if figure is None or Hazard.GAS not in substance.hazards:
            continue
        handled = substance.stated.temperature
        question = Question(
            substance.name,
            figure.value,
            figure.rows,
            handled.high if handled is not None else None,
            demands.ambient.high if demands.ambient is not None else None,
            demands.hazard(Hazard.GAS) is not None,
            _sprayed(substance, demands),
        )
        yield Ask(question, substance.path)


def _sprayed(substance: Present, demands: Demands) -> bool:
    names = {substance.name.casefold()}
    return any(
        chemical.mist is True and chemical.name.casefold() in names
        for chemical in demands.place.chemicals or ()
    )


def _judge(question: Question) -> Judgement:
    name, flash = question.substance, question.flash_point
    known = [value for value in (question.handled, question.ambient) if value is not None]
    hottest = max(known, default=None)
    found = f"{name}: flash point {number(flash)} °C, " + (
        f"up to {number(hottest)} °C here" if hottest is not None else "temperature not stated"
    )
    required = f"a gas hazard declared where {name} reaches its flash point or is sprayed"
    rows = question.rows
    if question.declared:
        return passed(
            f"The area is classified for vapour, with {name} at any temperature.",
            required=required,
            found=found,
            rows=rows,
        )
    if question.sprayed:
        return flagged(
            f"{name} is sprayed: its mist burns below the flash point too.",
            required=required,
            found=found,
            rows=rows,
        )
    if hottest is not None and hottest >= flash:
        return flagged(
            f"{name} reaches its flash point of {number(flash)} °C here, so vapour that burns is "
            "there; the area declares no gas hazard.",
            required=required,
            found=found,
            rows=rows,
        )
    if question.handled is None or question.ambient is None or hottest is None:
        return unproven(
            Reason.FACT_MISSING,
            f"At what temperature {name} is handled, or that of the air, is not stated.",
            required=required,
            found=found,
            rows=rows,
            remedy="State `temperature` of the substance or chemical, and `ambient` of the place.",
        )
    if hottest > flash - _MARGIN:
        return unproven(
            Reason.NO_MARGIN,
            f"{name} comes within {number(_MARGIN)} K of its flash point: a warm day, a hot "
            "surface or impurities make vapour.",
            required=required,
            found=found,
            rows=rows,
        )
    return passed(
        f"{name} stays {number(flash - hottest)} K below its flash point; spray, mist or hot "
        "surfaces would change that.",
        required=required,
        found=found,
        rows=rows,
    )


FLASH_POINT = Rule[Question](
    id="flash-point",
    title="No flash point is reached where no vapour is declared",
    family=Family.PLACES,
    subject=Subject.PLACE,
    clause="NFPA 30-2024 7.4; NFPA 497-2021 5.3; IEC 60079-10-1:2020 5; EN 1127-1:2019 6.3",
    why="Above its flash point a liquid gives off vapour that burns, whatever the declaration of "
    "the area says; a hot climate or a heated bath does the same.",
    remedy="Have the area classification account for the liquid at its highest temperature.",
    answer_by=Role.AREA_OWNER,
    note="Margins differ: EN 1127-1 has 5 K for pure liquids and 15 K for mixtures, NFPA 497 looks "
    "at liquids heated above their flash point; 15 K is used here. A high flash point never "
    "removes a declared hazard.",
    ask=_ask,
    judge=_judge,
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
            "Cold acetic acid, temperature not stated",
            Verdict.UNPROVEN,
            place="{area: unclassified, ambient: 5..25 °C, chemicals: [{name: acetic acid, "
            "concentration: 80 %}]}",
        ),
    ),
)
