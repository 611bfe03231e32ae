"""What a place must say of itself before anything in it can be judged."""

from collections.abc import Iterator

from areafit.cases import PlaceCase
from areafit.demands import Demands
from areafit.facts.protection import Hazard
from areafit.frozen import frozen
from areafit.rule import Ask, Example, Family, Judgement, Rule, Subject, passed, unproven
from areafit.verdict import Reason, Role, Verdict


@frozen
class Question:
    """One fact of the place, and whether it is stated."""

    fact: str
    stated: bool


_WHY = {
    "area": "what must be proven of every part",
    "substances": "group and temperature limit",
    "chemicals": "what corrodes",
    "ambient": "the temperature range that every part must be certified for",
    "layer": "the surface temperature that dust allows",
}


def _ask(case: PlaceCase, demands: Demands) -> Iterator[Ask[Question]]:
    place = demands.place
    read = place.area is not None and bool(place.area.areas)
    yield Ask(Question("area", read), "area")
    if demands.classified:
        yield Ask(Question("substances", place.substances is not None), "substances")
    yield Ask(Question("chemicals", place.chemicals is not None), "chemicals")
    yield Ask(Question("ambient", place.ambient is not None), "ambient")
    if demands.hazard(Hazard.DUST) is not None:
        yield Ask(Question("layer", place.layer is not None), "layer")
    del case


def _judge(question: Question) -> Judgement:
    fact = question.fact
    required = f"`{fact}` stated, or `none`" if fact not in ("area", "ambient") else f"`{fact}`"
    if question.stated:
        return passed(f"`{fact}` is stated.", required=required, found="stated")
    return unproven(
        Reason.FACT_MISSING,
        f"`{fact}` is not stated, or could not be read: {_WHY[fact]} is not known.",
        required=required,
        found="not stated",
    )


RULE = Rule[Question](
    id="place-stated",
    title="Place states what is present",
    family=Family.PLACES,
    subject=Subject.PLACE,
    clause="NFPA 70-2023 500.4, 505.4, 506.4; 29 CFR 1910.307(b); IEC 60079-14:2013 4.2",
    why="What is not stated is not absent: a list that says nothing of dust layers or chemicals "
    "has not said that there are none.",
    remedy="State it from the area classification document or the process description; write "
    "`none` only where that is known.",
    answer_by=Role.AREA_OWNER,
    ask=_ask,
    judge=_judge,
    examples=(
        Example(
            "Everything stated",
            Verdict.PASS,
            place="{area: 'Zone 2, IIA, T3', substances: [acetone], chemicals: none, "
            "ambient: 5..40 °C}",
        ),
        Example(
            "Silence about the substances",
            Verdict.UNPROVEN,
            place="{area: 'Zone 2, IIA, T3', chemicals: none, ambient: 5..40 °C}",
        ),
    ),
)
