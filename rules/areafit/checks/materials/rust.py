"""Bare steel in the air of its place, where no chemical is needed to rust it."""

from collections.abc import Iterator

from areafit.checks.materials.ambiguous import EveryMeaning, called, worst_of
from areafit.demands import Demands
from areafit.facts.part import Body, Exposure, Kind, MaterialUse
from areafit.facts.place import Atmosphere
from areafit.rule import Answer, Ask, Example, Family, Judgement, Row, Rule, Subject
from areafit.tables.limits import figure
from areafit.tables.materials import BARE_STEEL
from areafit.values import Frozen
from areafit.verdict import Reason, Role, Verdict

_LOSS = "loss of bare steel a year in the air"
_WET = frozenset({Exposure.SPLASH, Exposure.WASHDOWN})


class InAir(Frozen):
    """Bare steel, and how severe the air of its place is; None: not stated.

    `wetted`: it is splashed or washed, and nothing is listed that could do it, no solvent either.
    """

    material: str
    air: Atmosphere | None
    wetted: bool = False


def _ask(body: Body, demands: Demands) -> Iterator[Ask[EveryMeaning[InAir]]]:
    """Of bare steel that the air reaches; what a chemical does to it is asked beside.

    A loose item is taken away again and kept dry by whom it belongs to.
    """
    if body.equipment.kinds == {Kind.LOOSE_ITEM}:
        return
    for i, use in enumerate(body.materials or ()):
        question = in_air(use, demands)
        if question is not None:
            yield Ask(question, f"materials/{i}", use.component)


def in_air(use: MaterialUse, demands: Demands) -> EveryMeaning[InAir] | None:
    """Every bare steel that a material may be, in the air of a place; None where it is none."""
    if use.exposure in {Exposure.ENCLOSED, Exposure.IMMERSED}:
        return None
    tables, place = demands.tables, demands.place
    wetted = use.exposure in _WET and place.chemicals == () and not demands.chemicals
    cases = tuple(
        InAir(called(use.material, steel, tables), place.atmosphere, wetted)
        for steel in tables.materials(use.material)
        if steel.family in BARE_STEEL
    )
    return EveryMeaning(cases) if cases else None


def _judge(case: InAir) -> Judgement:
    severe, milder = figure(_LOSS, "severe"), figure(_LOSS, "normal")
    required = "air in which bare steel hardly rusts, or rust that is accepted"
    if case.air is Atmosphere.SEVERE:
        return Answer(required, "severe", (Row.of_figure(severe),)).unproven(
            Reason.CONDITION_TO_ACCEPT,
            f"{case.material} is bare in severe air, where it loses {severe.value} a year.",
        )
    if case.wetted:
        return Answer(required, "wetted, by nothing that is listed").unproven(
            Reason.FACT_MISSING,
            f"{case.material} is bare and wetted, by water at the least; `chemicals` says none.",
            remedy="List what wets it under `chemicals`, `tap water` for one; coat the steel and "
            "list the coating with its `substrate`; or state `exposure: room` where it stays dry.",
        )
    if case.air is None:
        rows = (Row.of_figure(severe), Row.of_figure(milder))
        return Answer(required, "air not stated", rows).unproven(
            Reason.FACT_MISSING,
            f"{case.material} is bare: outdoors or where water condenses it loses {severe.value} a "
            "year; how severe the air of the place is, is not stated.",
            remedy="State `atmosphere`: severe, normal or controlled; or coat the steel and list "
            "the coating with its `substrate`.",
            answer_by=Role.AREA_OWNER,
        )
    return Answer(required, case.air.value, (Row.of_figure(milder),)).passed(
        f"{case.material} loses {milder.value} a year in {case.air.value} air."
    )


def _part(material: str, more: str = "exposure: room") -> str:
    return (
        f"kind: structural, materials: [{{material: '{material}', {more}}}], "
        "materials_complete: true, contacts: none"
    )


def _in(air: str) -> str:
    return f"{{chemicals: none, atmosphere: {air}}}"


BARE_STEEL_IN_AIR = Rule[EveryMeaning[InAir]](
    id="bare-steel-in-air",
    title="Bare steel stays out of damp air",
    family=Family.MATERIALS,
    subject=Subject.BODY,
    clause="ISO 9223:2012 Table 2, losses of the first year, from memory",
    why="Steel needs no chemical to rust: outdoors, by the sea and where water condenses it loses "
    "in a year what it loses in ten in a dry hall.",
    remedy="Coat, galvanise or choose stainless steel, and list that; or accept the rust and what "
    "it sheds in a waiver by role.",
    answer_by=Role.DESIGNER,
    note="Categories C3 to C5 are severe air, C1 and C2 normal and controlled. Zinc, coatings and "
    "stainless steel are judged by the chemicals that are listed, `marine air` among them.",
    ask=_ask,
    judge=worst_of(_judge),
    examples=(
        Example("A bracket in a dry hall", Verdict.PASS, _part("S235JR"), _in("normal")),
        Example("The same outdoors", Verdict.UNPROVEN, _part("S235JR"), _in("severe")),
        Example(
            "Wetted, and by nothing that is listed",
            Verdict.UNPROVEN,
            _part("S235JR", "exposure: washdown"),
            _in("normal"),
        ),
        Example("Air that is not stated", Verdict.UNPROVEN, _part("S235JR"), "{chemicals: none}"),
        Example("316L outdoors", Verdict.NOT_APPLICABLE, _part("316L"), _in("severe")),
    ),
)
