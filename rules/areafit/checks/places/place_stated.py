"""What a place must say of itself before anything in it can be judged."""

from collections.abc import Iterator

from areafit.cases import PlaceCase
from areafit.demands import Demands
from areafit.facts.protection import Hazard
from areafit.rule import Ask, Example, Family, Judgement, Rule, Subject, passed, unproven
from areafit.values import Frozen
from areafit.verdict import Reason, Role, Verdict


class Question(Frozen):
    """One fact of the place, and whether it is stated; `unread`: what is stated says nothing."""

    fact: str
    stated: bool
    unread: bool = False


_REMEDY = {
    "area": "Copy it word for word from the area classification document, or write `unclassified` "
    "if that says so.",
    "substances": "List the gases, vapours and dusts of the area classification document, or write "
    "`none`.",
    "chemicals": "List what corrodes here from the process description, or write `none`; "
    "substances of the place count by themselves.",
    "ambient": "State the air temperature of the place, such as 5..40 °C.",
    "layer": "State the depth of dust to be expected, such as 5 mm, or write `none`.",
}
_WHY = {
    "area": "what must be proven of every part",
    "substances": "group and temperature limit",
    "chemicals": "what corrodes",
    "ambient": "the temperature range that every part must be certified for",
    "layer": "the surface temperature that dust allows",
}
_ANSWER_BY = {"chemicals": Role.PROCESS_OWNER, "unread": Role.DESIGNER}


def _ask(case: PlaceCase, demands: Demands) -> Iterator[Ask[Question]]:
    place = demands.place
    read = place.area is not None and bool(place.area.areas)
    yield Ask(Question("area", read, unread=place.area is not None and not read), "area")
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
    lacks = "could not be read (see declared-area)" if question.unread else "is not stated"
    return unproven(
        Reason.FACT_MISSING,
        f"`{fact}` {lacks}: {_WHY[fact]} is not known.",
        required=required,
        found="not read" if question.unread else "not stated",
        remedy=_REMEDY[fact],
        answer_by=_ANSWER_BY.get("unread" if question.unread else fact),
    )


PLACE_STATED = Rule[Question](
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
