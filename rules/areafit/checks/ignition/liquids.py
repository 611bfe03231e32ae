"""Liquids that parts work with: hydraulic oil, the filling of couplings, protective liquids."""

from collections.abc import Iterator
from decimal import Decimal

from areafit.demands import Demands
from areafit.facts.mechanics import Drive, Fluid, Liquid
from areafit.facts.part import Body, Kind
from areafit.facts.quantity import Dimension, show
from areafit.rule import Answer, Ask, Example, Family, Judgement, Row, Rule, Subject
from areafit.tables.limits import Figure, figure
from areafit.tables.part_names import Topic, topics
from areafit.values import Frozen
from areafit.verdict import Reason, Role, Verdict

_BURNS_NOT = frozenset({Fluid.WATER, Fluid.HFA, Fluid.HFB, Fluid.HFC, Fluid.HFDR})
_LIQUIDS = frozenset({Topic.HYDRAULICS})


class WorkingLiquid(Frozen):
    """The liquid of a part, as far as it is stated."""

    liquid: Liquid


def _ask(body: Body, demands: Demands) -> Iterator[Ask[WorkingLiquid]]:
    """Hydraulic parts, parts immersed in a liquid (type k), and parts that state one."""
    own = body.equipment
    named = own.description is not None and not _LIQUIDS.isdisjoint(topics(own.description))
    hydraulic = Kind.MECHANICAL in own.kinds and (body.drive is Drive.HYDRAULIC or named)
    immersed = any(code.non_electrical and "k" in code.protection for code in own.codes)
    if demands.classified and (body.liquid is not None or hydraulic or immersed):
        yield Ask(WorkingLiquid(body.liquid or Liquid()), "liquid")


def _judge(working: WorkingLiquid) -> Judgement:
    liquid = working.liquid
    flash = figure("margin below the flash point of a working liquid")
    ignition = figure("margin below the ignition of a working liquid")
    answer = Answer(
        required=f"a fire-resistant liquid, or one whose flash point lies {flash.value} and whose "
        f"ignition temperature {ignition.value} above the hottest that it meets",
        found=_found(liquid),
        rows=(Row.of_figure(flash), Row.of_figure(ignition)),
    )
    if liquid.kind in _BURNS_NOT:
        return Answer(answer.required, answer.found, clause="ISO 12922:2020").passed(
            "A liquid of this kind resists fire; a leak of it feeds no flame."
        )
    hottest = liquid.hottest
    if hottest is None or liquid.flash_point is None:
        return answer.unproven(
            Reason.FACT_MISSING,
            "Which liquid the part works with, or its flash point and how hot it becomes, is not "
            "stated.",
        )
    if liquid.flash_point < hottest + flash.kelvin:
        return answer.flagged(
            "The liquid gives off vapour that burns where it leaks.",
            remedy=f"Cool it to `liquid: {{hottest: {_cooled(liquid.flash_point, flash)}}}` at "
            "most, or choose a fire-resistant one such as `liquid: {kind: HFC}`.",
        )
    burns = liquid.autoignition
    if burns is not None and burns < hottest + ignition.kelvin:
        return answer.flagged(
            "The liquid ignites by itself on the hottest surface that it meets.",
            remedy=f"Cool that to `liquid: {{hottest: {_cooled(burns, ignition)}}}` at most, or "
            "choose a fire-resistant liquid such as `liquid: {kind: HFC}`.",
        )
    if burns is None and liquid.flash_point < hottest + ignition.kelvin:
        return answer.unproven(
            Reason.FACT_MISSING,
            "At which temperature the liquid ignites by itself is not stated.",
            remedy="State `liquid: {autoignition: …}` from its safety data sheet.",
        )
    return answer.passed("The liquid stays far below its flash point and its ignition.")


def _cooled(limit: Decimal, margin: Figure) -> str:
    return show(limit - margin.kelvin, Dimension.TEMPERATURE)


def _found(liquid: Liquid) -> str:
    def at(word: str, value: Decimal | None) -> str:
        return "" if value is None else f"{word} {show(value, Dimension.TEMPERATURE)}"

    said = (
        liquid.kind.value if liquid.kind else "",
        at("flash point", liquid.flash_point),
        at("ignites at", liquid.autoignition),
        at("hottest", liquid.hottest),
    )
    return ", ".join(filter(None, said)) or "not stated"


WORKING_LIQUID = Rule[WorkingLiquid](
    id="working-liquid",
    title="Hydraulic and protective liquids do not burn where they leak",
    family=Family.IGNITION,
    subject=Subject.BODY,
    clause="ISO 80079-37:2016 5.4; ISO 80079-37:2016 5.8.5; ISO 80079-37:2016 7; "
    "EN 1127-1:2019 6.3",
    why="A burst hose sprays oil over whatever is hot; its mist and vapour burn as the gas of the "
    "place does.",
    remedy="State `liquid: {kind: …, flash_point: …, hottest: …}`; choose HFC or another "
    "fire-resistant liquid where the surfaces are hot.",
    answer_by=Role.DESIGNER,
    note="The margin of 50 K is from memory. ISO 12922 calls HFA, HFB, HFC and HFDR "
    "fire-resistant; HFDU is judged as oil. A spray burns below the flash point too: cool surfaces "
    "keep it from being lit.",
    ask=_ask,
    judge=_judge,
    examples=(
        Example(
            "Water glycol",
            Verdict.PASS,
            "{kind: mechanical, drive: hydraulic, liquid: {kind: HFC}}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
        Example(
            "Cool mineral oil",
            Verdict.PASS,
            "{kind: mechanical, drive: hydraulic, liquid: {kind: mineral oil, flash_point: 210 °C, "
            "hottest: 60 °C}}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
        Example(
            "Thin oil on a hot pump",
            Verdict.FLAG,
            "{kind: mechanical, drive: hydraulic, liquid: {flash_point: 95 °C, hottest: 90 °C}}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
        Example(
            "A power pack of which nothing is said",
            Verdict.UNPROVEN,
            "{kind: mechanical, description: Hydraulic power pack}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
    ),
)
