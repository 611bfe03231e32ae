"""The hydrogen that the chemicals of a place evolve on the metals of its parts."""

from collections.abc import Iterator

from areafit.demands import Demands
from areafit.demands.demand import Evolution, Evolved, Lack
from areafit.demands.evolution import wanting
from areafit.demands.hydrogen import evolved_on
from areafit.facts.groups import Cover, Group, covers
from areafit.facts.place import AreaReading, AreaSystem, Ventilation
from areafit.facts.protection import Hazard
from areafit.facts.quantity import Dimension, number, show
from areafit.rule import Answer, Ask, Example, Family, Judgement, Rule, Subject
from areafit.subjects import PlaceCase
from areafit.values import Frozen, replace
from areafit.verdict import Reason, Role, Verdict
from areafit.wording import capital


class OnItems(Frozen):
    """The items that hold a metal which a chemical dissolves, in the list's order."""

    chemical: str
    material: str
    items: tuple[str, ...]


class HydrogenHere(Frozen):
    """What evolves hydrogen here, surest first, the area as declared, and the items for each.

    `amount` is how much there is of it, `ventilation` the air that the place states.
    """

    evolved: tuple[Evolved, ...]
    area: AreaReading | None
    items: tuple[OnItems, ...]
    amount: Evolution | None = None
    ventilation: Ventilation | None = None


def _ask_hydrogen(case: PlaceCase, demands: Demands) -> Iterator[Ask[HydrogenHere]]:
    if demands.evolved:
        place = demands.place
        question = HydrogenHere(
            demands.evolved,
            place.area,
            _items(case, demands),
            demands.evolution,
            place.ventilation,
        )
        yield Ask(question, "area")


def _items(case: PlaceCase, demands: Demands) -> tuple[OnItems, ...]:
    """For each pair of chemical and metal the items that hold the metal, in the list's order."""
    uses = [
        (part.item, use)
        for part in case.parts
        for line in (part, *part.alternates)
        for use in line.materials or ()
    ]
    pairs = {
        use: {(e.chemical, e.material) for e in evolved_on((use,), demands)}
        for use in dict.fromkeys(use for _, use in uses)
    }
    found: dict[tuple[str, str], dict[str, None]] = {}
    for item, use in uses:
        for pair in pairs[use]:
            found.setdefault(pair, {})[item] = None
    return tuple(
        OnItems(e.chemical, e.material, tuple(found.get((e.chemical, e.material), ())))
        for e in demands.evolved
    )


_NEEDED = {AreaSystem.ZONE: Group.IIC, AreaSystem.DIVISION: Group.B}


def _judge_hydrogen(question: HydrogenHere) -> Judgement:
    causes, area = _causes(question), question.area
    answer = Answer(
        required="an area declared for hydrogen (IIC, IIB+H2, Group B), or air that keeps it thin",
        rows=tuple(dict.fromkeys(row for one in question.evolved for row in one.rows)),
    )
    listed = area.areas if area is not None else ()
    gas = [each for each in listed if each.hazard is Hazard.GAS and each.classified]
    covered = [_covers(each.groups, _NEEDED[each.system]) for each in gas]
    groups = ", ".join(sorted({group.value for each in gas for group in each.groups}))
    found = groups or ("no group declared" if gas else area.text if area is not None else "")
    answer = replace(answer, found=found or "not stated")
    if gas and set(covered) == {Cover.YES}:
        return answer.passed(f"The area is declared for hydrogen: {causes}.")
    return _by_air(question, answer, causes, groups if Cover.NO in covered else None)


def _by_air(question: HydrogenHere, answer: Answer, causes: str, milder: str | None) -> Judgement:
    """The area does not account for the hydrogen: whether the stated air keeps it thin.

    `milder` is the declared group that falls short of it.
    """
    amount, air = question.amount, question.ventilation
    told = _told(amount, question.items)
    if amount is not None and amount.litres is not None:
        answer = replace(answer, rows=(*answer.rows, *amount.rates, *amount.factors))
    if amount is not None and amount.flow is not None and air is not None and air.rate is not None:
        stated = show(air.rate, Dimension.VOLUME_FLOW)
        answer = replace(answer, found=f"{answer.found}; {stated} of air")
        if air.rate < amount.flow and question.evolved[0].certain:
            return answer.flagged(
                f"{capital(causes)}. {capital(told)}. The stated {stated} are too little.",
                remedy=_or_air(amount),
            )
        if air.rate >= amount.flow:
            return _enough(amount, air, answer, f"{capital(causes)}. {capital(told)}")
    if milder and question.evolved[0].certain:
        return answer.flagged(
            f"{capital(causes)}, and the area is declared for {milder}, milder than hydrogen. "
            f"{capital(told)}.",
            remedy=_or_air(amount),
        )
    area = question.area
    declared = area is not None and (
        not any(one.classified for one in area.areas) or any(one.groups for one in area.areas)
    )
    return answer.unproven(
        Reason.CONDITION_TO_ACCEPT if declared else Reason.FACT_MISSING,
        f"{capital(causes)}, and the declared area does not account for it. {capital(told)}.",
        remedy=_or_air(amount, declared=declared),
    )


def _enough(amount: Evolution, air: Ventilation, answer: Answer, said: str) -> Judgement:
    """The stated air would do: whether all that a pass rests on is stated and published."""
    wants = wanting(air)
    if wants:
        return answer.unproven(
            Reason.FACT_MISSING,
            f"{said}. The stated air would do, but of the ventilation {_listed(wants)} "
            f"{'is' if len(wants) == 1 else 'are'} not shown as a pass needs.",
            remedy=f"State `ventilation: {{{_SHOWN_SO}}}`, if that is so.",
        )
    if not amount.published:
        return answer.unproven(
            Reason.NO_DATA,
            f"{said}. The stated air would do, but the corrosion rate is recalled, not read.",
            remedy="Measure how fast the metal goes in this bath and accept this finding with "
            "that, or have the `area` declared for hydrogen.",
        )
    return answer.passed(f"{said}. The stated air keeps it thin.")


_SHOWN_SO = "document: …, availability: good, dead_spaces: none, other_hydrogen: none"
_OF_EACH = "Of each metal that dissolves state `surface_area`, of its line `quantity`."


def _or_air(amount: Evolution | None, *, declared: bool = True) -> str:
    """What to do, and what to state where the hydrogen is not known."""
    flow = amount.flow if amount is not None and amount.litres is not None else None
    rate = "…" if flow is None else show(flow, Dimension.VOLUME_FLOW)
    anew = " and copy the `area` anew" if declared else ""
    told = (
        f"Have the area classification reviewed for hydrogen{anew}, take the metal away from the "
        "chemical, or state that enough air passes: "
        f"`ventilation: {{rate: {rate}, {_SHOWN_SO}}}`."
    )
    return told if flow is not None else f"{told} {_OF_EACH}"


_WORDS = {
    Lack.AREA: "wetted area",
    Lack.QUANTITY: "quantity",
    Lack.STRENGTH: "strength of the bath",
    Lack.HEAT: "heat of the bath",
    Lack.RATE: "corrosion rate",
}


def _told(amount: Evolution | None, on: tuple[OnItems, ...]) -> str:
    """How much hydrogen and air, or what is not known of it, and of which items if not of all."""
    if amount is None:
        return "how much it is, is not known"
    every = {item for one in on for item in one.items}
    if amount.litres is None or amount.flow is None:
        lacks: dict[Lack, list[str]] = {}
        for item, lack in amount.lacking:
            lacks.setdefault(lack, []).append(item)
        what = (
            f"{_WORDS[lack]}{_where(tuple(of)) if set(of) != every else ''}"
            for lack, of in lacks.items()
        )
        return f"not stated: {', '.join(what)}"
    flow = show(amount.flow, Dimension.VOLUME_FLOW)
    return f"it is at most {number(amount.litres)} L/h, for which {flow} of air are needed"


def _listed(words: tuple[str, ...]) -> str:
    return " and ".join(filter(None, (", ".join(words[:-1]), words[-1])))


def _causes(question: HydrogenHere) -> str:
    """`caustic soda makes hydrogen on EN AW-6060 (item 4) and aluminium (items 1, 7)`."""
    metals: dict[str, list[str]] = {}
    for one in question.items:
        metals.setdefault(one.chemical, []).append(f"{one.material}{_where(one.items)}")
    return "; ".join(
        f"{chemical} makes hydrogen on {' and '.join(dict.fromkeys(on))}"
        for chemical, on in metals.items()
    )


_SHOWN = 5


def _where(items: tuple[str, ...]) -> str:
    if not items:
        return ""
    more = f" and {len(items) - _SHOWN} more" if len(items) > _SHOWN else ""
    return f" (item{'s' if len(items) > 1 else ''} {', '.join(items[:_SHOWN])}{more})"


def _covers(groups: frozenset[Group], needed: Group) -> Cover:
    if not groups:
        return Cover.UNPROVEN
    return Cover.YES if Group.IIB_H2 in groups else covers(groups, needed)


_DIP = (
    "kind: structural, materials: [{material: zinc-plated steel, exposure: immersed}], "
    "contacts: none"
)


def _place(area: str) -> str:
    return (
        f"{{area: '{area}', substances: [toluene], document: AC-1, chemicals: "
        "[{name: hydrochloric acid, concentration: 10 %, temperature: 25 °C}]}"
    )


HYDROGEN_EVOLUTION = Rule[HydrogenHere](
    id="hydrogen-evolution",
    title="Hydrogen from acid or caustic on the parts' metals",
    family=Family.PLACES,
    subject=Subject.PLACE,
    clause="EPA-600/2-80-076 cells 1-23 and 2-23; IEC 60079-10-1:2020; "
    "ISO/IEC 80079-20-1:2017 (hydrogen, IIC); NFPA 70-2023 500.6(A)(2)",
    why="An area put down as IIA or D for its solvents must be reconsidered where active metal "
    "meets acid, or aluminium or zinc meets caustic: hydrogen ignites far more easily.",
    remedy="Have the area classification reviewed for hydrogen and copy the `area` anew, take the "
    "metal away from the chemical, and vent the highest point.",
    answer_by=Role.AREA_OWNER,
    note="The chart leaves caustic with sheet metal (10-23) blank; aluminium and zinc in caustic "
    "are added here. Nitric acid gives nitrogen oxides and very little hydrogen. How much there is "
    "follows from wetted area and corrosion rate at the strongest and hottest stated; the air "
    "keeps it under a tenth of its lower limit, five times over for uneven mixing.",
    ask=_ask_hydrogen,
    judge=_judge_hydrogen,
    examples=(
        Example(
            "Zinc dipped in acid, declared for IIC", Verdict.PASS, _DIP, _place("Zone 1, IIC, T1")
        ),
        Example("The same, declared for IIA", Verdict.FLAG, _DIP, _place("Zone 1, IIA, T1")),
        Example(
            "Steel in weak acid, and air that is shown to keep it thin",
            Verdict.PASS,
            "{kind: structural, quantity: 2, contacts: none, materials: [{material: carbon steel, "
            "exposure: immersed, surface_area: 0.5 m²}]}",
            "{area: unclassified, substances: none, document: AC-1, chemicals: [{name: "
            "hydrochloric acid, concentration: 3 %, temperature: 25 °C}], ventilation: {rate: "
            "600 m³/h, document: VE-1, availability: good, dead_spaces: none, "
            "other_hydrogen: none}}",
        ),
        Example(
            "Zinc plate above the bath",
            Verdict.UNPROVEN,
            "kind: structural, materials: [{material: zinc-plated steel, exposure: fume}]",
            _place("Zone 2, IIA, T1"),
        ),
    ),
)
