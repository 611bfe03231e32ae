"""What the chemicals of a place do to each other, and the hydrogen that they evolve on parts."""

from collections.abc import Iterator
from itertools import combinations

from areafit.demands import CorrodingChemical, Demands
from areafit.demands.demand import Evolution, Evolved, Lack
from areafit.demands.evolution import wanting
from areafit.demands.exposure import mass_percent
from areafit.demands.hydrogen import evolved_on
from areafit.demands.meeting import mixture_of
from areafit.demands.solvents import known_chemicals
from areafit.facts.groups import Cover, Group, covers
from areafit.facts.place import AreaReading, AreaSystem, Ventilation
from areafit.facts.protection import Hazard
from areafit.facts.quantity import Dimension, number, show
from areafit.rule import Answer, Ask, Example, Family, Judgement, Row, Rule, Subject
from areafit.subjects import PlaceCase
from areafit.tables.chemicals import Chemical, Incompatible, Medium, Meets, PairKind, Separation
from areafit.tables.limits import Figure, figure_if_any
from areafit.values import Frozen, replace
from areafit.verdict import Basis, Reason, Role, Verdict
from areafit.wording import nearest_known, use_known_name


class ChemicalPair(Frozen):
    """Two chemicals of a place: the rows against them, and what keeps them from being judged.

    `unknown` are names without a row, `nearest` known ones near them, `ungrouped` known ones of
    no reactivity group. `mixture` is what both are on purpose, where they share a bath and the
    mixture has a row.
    """

    names: tuple[str, str]
    rows: tuple[Incompatible, ...]
    unknown: tuple[str, ...]
    ungrouped: tuple[str, ...]
    groups: tuple[str, str]
    mixture: str | None
    nearest: tuple[str, ...] = ()
    silent: bool = False
    dilute: tuple[Figure, ...] = ()


def _ask_together(case: PlaceCase, demands: Demands) -> Iterator[Ask[ChemicalPair]]:
    del case
    listed = tuple(enumerate(demands.chemicals or ()))
    for (_, first), (i, second) in combinations(listed, 2):
        question = _pair(first, second, demands)
        if question is not None:
            yield Ask(question, "substances" if second.fume_only else f"chemicals/{i}")


def _pair(
    first: CorrodingChemical, second: CorrodingChemical, demands: Demands
) -> ChemicalPair | None:
    """The question of a pair; None where both are the same chemical."""
    names = (first.stated.name, second.stated.name)
    left, right = (known_chemicals(name, demands.tables) for name in names)
    pairs = [(a, b) for a in left for b in right if a.id != b.id]
    if left and right and not pairs:
        return None
    met = [
        demands.tables.encounter(_at_strength(a, first), _at_strength(b, second)) for a, b in pairs
    ]
    rows = (row for each in met for row in each.rows)
    unknown = tuple(n for n, found in zip(names, (left, right), strict=True) if not found)
    near = tuple(one for n in unknown for one in demands.tables.nearest("chemicals", n))
    ungrouped = tuple(dict.fromkeys(c.name for c in (*left, *right) if not c.epa_groups))
    gaseous = any(c.medium is Medium.GAS for c in (*left, *right))
    weak = [_threshold(c, own) for found, own in ((left, first), (right, second)) for c in found]
    return ChemicalPair(
        names,
        tuple(dict.fromkeys(rows)),
        unknown,
        () if gaseous else ungrouped,
        (_reactivity(left), _reactivity(right)),
        _on_purpose(first, second, left, right, demands),
        tuple(dict.fromkeys(near)),
        any(each.silent for each in met),
        tuple(dict.fromkeys(row for row in weak if row is not None)),
    )


_REACTS = "strength from which it reacts with others"
_FREES = "strength from which it frees a toxic gas"


def _at_strength(chemical: Chemical, listed: CorrodingChemical) -> Meets:
    """The chemical as it meets others; a strength that is not stated counts in full."""
    frees = figure_if_any(_FREES, chemical.id)
    return Meets(
        chemical,
        dilute=_threshold(chemical, listed) is not None,
        harmless=frees is not None and _below(frees, listed),
    )


def _threshold(chemical: Chemical, listed: CorrodingChemical) -> Figure | None:
    """The strength from which it counts, where it is stated to be weaker."""
    reacts = figure_if_any(_REACTS, chemical.id)
    return reacts if reacts is not None and _below(reacts, listed) else None


def _below(limit: Figure, listed: CorrodingChemical) -> bool:
    stated = listed.stated.concentration
    if stated is None or listed.fume_only:
        return False
    return mass_percent(stated).span.high < limit.amount(Dimension.FRACTION)


def _reactivity(rows: tuple[Chemical, ...]) -> str:
    return ", ".join(dict.fromkeys(group for row in rows for group in row.epa_groups)) or "none"


def _on_purpose(
    first: CorrodingChemical,
    second: CorrodingChemical,
    left: tuple[Chemical, ...],
    right: tuple[Chemical, ...],
    demands: Demands,
) -> str | None:
    bath = first.stated.bath
    if bath is None or bath != second.stated.bath or len(left) != 1 or len(right) != 1:
        return None
    return mixture_of(frozenset({left[0].id, right[0].id}), demands)


def _judge_together(question: ChemicalPair) -> Judgement:
    both = " and ".join(question.names)
    worst = min(question.rows, key=_severity, default=None)
    weak = tuple(map(Row.of_figure, question.dilute))
    answer = Answer("chemicals that may meet without harm")
    if worst is not None and worst.separation is Separation.MUST_NOT:
        return _kept_apart(question, both, worst, answer)
    if question.unknown:
        return replace(answer, found="name unknown").unproven(
            Reason.NAME_UNKNOWN,
            f"Whether {both} may meet is not known: {', '.join(question.unknown)} is in no table "
            f"of reactivity.{nearest_known(question.nearest)}",
            remedy=use_known_name(question.nearest, "have a chemist say whether the two may meet"),
        )
    if question.silent:
        return replace(answer, found="no row for the gas").unproven(
            Reason.NO_DATA,
            f"Whether {both} may meet is not known: one is a gas, for which the chart of liquid "
            "wastes does not speak, and no row names the two.",
            remedy="Have a chemist say whether the two may meet, or keep their air apart.",
        )
    if question.ungrouped and worst is None:
        return replace(answer, found="no reactivity group").unproven(
            Reason.NO_DATA,
            f"Whether {both} may meet is not known: {', '.join(question.ungrouped)} belongs to no "
            "reactivity group.",
            remedy="Have a chemist say whether the two may meet, or keep them apart: bunds, drains "
            "and ventilation of their own.",
        )
    if worst is not None:
        rows = (*map(_row, question.rows), *weak)
        return replace(answer, found=worst.separation.value, rows=rows).passed(
            f"{both}: {worst.separation.value}, {_harm(worst)}{_care(worst)}.{_as_water(question)}"
        )
    rows = (_blank(question), *weak)
    return replace(answer, found="no incompatibility listed", rows=rows).passed(
        f"No incompatibility listed for {both}; a blank in the chart is not the word safe."
        f"{_as_water(question)}"
    )


def _care(row: Incompatible) -> str:
    """What to heed where liquids call for caution; gases have no bunds."""
    liquids = row.kind is not PairKind.GASES
    cautious = row.separation is Separation.CAUTION and liquids
    return "; keep bunds apart and add strong to weak" if cautious else ""


def _as_water(question: ChemicalPair) -> str:
    """What is so weak that it counts as water, and from where it would count."""
    return "".join(
        f" Below {row.value} {row.applies_to.replace('-', ' ')} counts as water."
        for row in question.dilute
    )


def _kept_apart(
    question: ChemicalPair, both: str, worst: Incompatible, answer: Answer
) -> Judgement:
    if question.mixture is None:
        return replace(answer, found=worst.consequence, rows=(_row(worst),)).flagged(
            f"{both} must not share a bund, a drain or the air above them: {_harm(worst)}."
        )
    rows = tuple(map(_row, question.rows))
    return replace(answer, found=f"mixed as {question.mixture}", rows=rows).passed(
        f"{both} are mixed on purpose, as {question.mixture}; spills of the parts alone "
        f"give {worst.consequence}."
    )


def _severity(row: Incompatible) -> tuple[int, int]:
    """Worst first; a pair by name tells more than a pair of groups."""
    return list(Separation).index(row.separation), row.kind is not PairKind.CHEMICALS


def _harm(row: Incompatible) -> str:
    note = f" ({row.note})" if row.note else ""
    return f"{row.consequence}{note}"


def _row(row: Incompatible) -> Row:
    key = f"{row.a} with {row.b}"
    value = f"{'|'.join(row.codes)}, {row.separation.value}"
    return Row.of("incompatible", key, row, value)


def _blank(question: ChemicalPair) -> Row:
    key = f"groups {' and '.join(sorted(question.groups))}"
    return Row("incompatible", key, "epa-600-2-80-076", "cells blank", Basis.SEEN, "blank")


def _example_pair(first: str, second: str) -> str:
    return f"{{chemicals: [{first}, {second}]}}"


CHEMICALS_TOGETHER = Rule[ChemicalPair](
    id="chemicals-together",
    title="Chemicals of one place may meet",
    family=Family.PLACES,
    subject=Subject.PLACE,
    clause="EPA-600/2-80-076 (April 1980), reactivity groups and chart; 40 CFR 264.177, from "
    "memory",
    why="Two spills meet in the bund and two vapours in the air, whether or not a process mixes "
    "them: bleach with acid gives chlorine, an oxidising acid with alcohol gives fire.",
    remedy="Give the chemicals bunds, drains and ventilation of their own, or separate places.",
    answer_by=Role.PROCESS_OWNER,
    note="A blank in the chart is no proof of safety; hypochlorite with ammonia is blank there "
    "and listed here by name.",
    ask=_ask_together,
    judge=_judge_together,
    examples=(
        Example(
            "Acid with rinse water", Verdict.PASS, place=_example_pair("nitric acid", "DI water")
        ),
        Example(
            "Bleach and acid", Verdict.FLAG, place=_example_pair("bleach", "hydrochloric acid")
        ),
        Example(
            "A solvent in the air beside an oxidising acid",
            Verdict.FLAG,
            place="{chemicals: [nitric acid], substances: [ethanol]}",
        ),
        Example(
            "A trade name",
            Verdict.UNPROVEN,
            place=_example_pair("nitric acid", "cleaner nobody lists"),
        ),
    ),
)


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
        return answer.passed(f"The area is declared for hydrogen ({causes}).")
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
            return answer.flagged(f"There is {causes}; {told}. The stated {stated} are too little.")
        if air.rate >= amount.flow:
            return _enough(amount, air, answer, f"There is {causes}; {told}")
    if milder and question.evolved[0].certain:
        return answer.flagged(
            f"There is {causes}; the area is declared for {milder}, milder than hydrogen; {told}.",
            remedy=_OR_AIR,
        )
    area = question.area
    declared = area is not None and (
        not any(one.classified for one in area.areas) or any(one.groups for one in area.areas)
    )
    return answer.unproven(
        Reason.CONDITION_TO_ACCEPT if declared else Reason.FACT_MISSING,
        f"There is {causes}; the declared area does not account for it; {told}.",
        remedy=_OR_AIR,
    )


def _enough(amount: Evolution, air: Ventilation, answer: Answer, said: str) -> Judgement:
    """The stated air would do: whether all that a pass rests on is stated and published."""
    wants = wanting(air)
    if wants:
        return answer.unproven(
            Reason.FACT_MISSING,
            f"{said}. The stated air would do, but of the ventilation {_listed(wants)} "
            f"{'is' if len(wants) == 1 else 'are'} not shown as a pass needs.",
            remedy="State `ventilation` with a `document`, `availability: good`, `dead_spaces: "
            "none` and `other_hydrogen: none`, if that is so.",
        )
    if not amount.published:
        return answer.unproven(
            Reason.NO_DATA,
            f"{said}. The stated air would do, but the corrosion rate is recalled, not read.",
            remedy="Measure how fast the metal goes in this bath, or have the area declared for "
            "hydrogen.",
        )
    return answer.passed(f"{said}. The stated air keeps it thin.")


_OR_AIR = (
    "Have the area classification reviewed for hydrogen, take the metal away from the chemical, or "
    "state how much air passes: `ventilation` with `rate`, `document`, `availability`, "
    "`dead_spaces` and `other_hydrogen`. Of each metal that dissolves state `surface_area`, of its "
    "line `quantity`."
)
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
        return "how much is not known"
    every = {item for one in on for item in one.items}
    if amount.litres is None or amount.flow is None:
        lacks: dict[Lack, list[str]] = {}
        for item, lack in amount.lacking:
            lacks.setdefault(lack, []).append(item)
        what = (
            f"{_WORDS[lack]}{_where(tuple(of)) if set(of) != every else ''}"
            for lack, of in lacks.items()
        )
        return f"not known: {', '.join(what)}"
    flow = show(amount.flow, Dimension.VOLUME_FLOW)
    return f"it is at most {number(amount.litres)} L/h, for which {flow} of air are needed"


def _listed(words: tuple[str, ...]) -> str:
    return " and ".join(filter(None, (", ".join(words[:-1]), words[-1])))


def _causes(question: HydrogenHere) -> str:
    """`hydrogen from caustic soda on EN AW-6060 (item 4) and aluminium (items 1, 7)`."""
    metals: dict[str, list[str]] = {}
    for one in question.items:
        metals.setdefault(one.chemical, []).append(f"{one.material}{_where(one.items)}")
    return "; ".join(
        f"hydrogen from {chemical} on {' and '.join(dict.fromkeys(on))}"
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
    remedy="Have the area classification reviewed for hydrogen, take the metal away from the "
    "chemical, and vent the highest point.",
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
