"""Batteries of portable parts: charged and replaced where nothing can be lit."""

from collections.abc import Iterator

from areafit.demands import Demands
from areafit.documents import permission
from areafit.facts.evidence import Condition, EvidenceType
from areafit.facts.fittings import Battery, BatteryCare, IntrinsicSafety
from areafit.facts.part import Equipment, Kind
from areafit.rule import Answer, Ask, Example, Family, Judgement, Rule, Subject
from areafit.tables.part_names import Topic, topics
from areafit.values import Frozen
from areafit.verdict import Reason, Role, Verdict

_SHOW = frozenset({EvidenceType.CERTIFICATE, EvidenceType.LISTING, EvidenceType.DECLARATION})
_CHARGE = ("charge", "charging", "charger")
_REPLACE = ("replace", "replacement", "change the battery", "battery change")


class BatteryService(Frozen):
    """Where a battery is charged and replaced, and the conditions of documents that allow it."""

    battery: Battery
    charging: Condition | None = None
    replacing: Condition | None = None


def _ask(equipment: Equipment, demands: Demands) -> Iterator[Ask[BatteryService]]:
    """Electrical parts that are portable, live on a cell of their own, or are called so."""
    text = equipment.description
    told = text is not None and not {Topic.BATTERY, Topic.HAND_LAMP}.isdisjoint(topics(text))
    own_cell = equipment.intrinsic_safety is IntrinsicSafety.OWN_CELL
    portable = Kind.LOOSE_ITEM in equipment.kinds
    stated = equipment.battery is not None
    if not demands.classified or not equipment.electrical:
        return
    if stated or told or own_cell or portable:
        documents = equipment.evidence or ()
        question = BatteryService(
            equipment.battery or Battery(),
            permission(documents, _SHOW, _CHARGE),
            permission(documents, _SHOW, _REPLACE),
        )
        yield Ask(question, "battery")


def _judge(service: BatteryService) -> Judgement:
    battery = service.battery
    words = (("charged", battery.charged), ("replaced", battery.replaced))
    found = ", ".join(f"{word} {where.value}" for word, where in words if where is not None)
    answer = Answer(
        required="charged and replaced outside the area, or as the certificate allows",
        found="no battery" if battery.present is False else found or "not stated",
    )
    if battery.present is False:
        return answer.passed("There is no battery.")
    steps = ((battery.charged, service.charging), (battery.replaced, service.replacing))
    if any(where is BatteryCare.INSIDE and allowed is None for where, allowed in steps):
        return answer.flagged(
            "Contacts of a battery or a charger spark as they part, and no document allows it here."
        )
    if None in (battery.charged, battery.replaced):
        return answer.unproven(
            Reason.FACT_MISSING, "Where the battery is charged and replaced is not both stated."
        )
    return answer.passed("The battery is handled where nothing can be lit, or as a document says.")


BATTERY_SERVICE = Rule[BatteryService](
    id="battery-service",
    title="Batteries are charged and replaced outside the area",
    family=Family.IGNITION,
    subject=Subject.EQUIPMENT,
    clause="IEC 60079-14:2013 5.10; IEC 60079-14:2013 5.14; NFPA 70-2023 503.160",
    why="A battery that is taken out sparks at its contacts, and one that is charged gives off "
    "hydrogen.",
    remedy="State `battery: {charged: …, replaced: …}`, outside the area, and see to it by "
    "instruction; or `battery: none`, or the condition of its certificate that allows more.",
    answer_by=Role.DESIGNER,
    note="From memory of the clauses. Asked of portable electrical parts, of parts with a cell of "
    "their own, and of chargers.",
    ask=_ask,
    judge=_judge,
    examples=(
        Example(
            "A torch that is charged in the office",
            Verdict.PASS,
            "{kind: [electrical, loose item], description: Torch, battery: {charged: outside the "
            "area, replaced: outside the area}}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
        Example(
            "A charger on the machine",
            Verdict.FLAG,
            "{kind: electrical, description: Charger, battery: {charged: inside the area}}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
        Example(
            "A radio key of which nothing is said",
            Verdict.UNPROVEN,
            "{kind: [electrical, loose item], description: Remote control}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
    ),
)
