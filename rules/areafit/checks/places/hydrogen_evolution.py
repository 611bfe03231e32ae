"""Acid or caustic on the parts' own metals evolves hydrogen: the area must be declared for it."""

from collections.abc import Iterator

from areafit.cases import PlaceCase
from areafit.demands import Demands
from areafit.demands.demand import Evolved
from areafit.demands.evolved_hydrogen import evolved_on
from areafit.facts.groups import Cover, Group, covers
from areafit.facts.place import AreaReading, AreaSystem
from areafit.facts.protection import Hazard
from areafit.rule import Ask, Example, Family, Judgement, Rule, Subject, flagged, passed, unproven
from areafit.values import Frozen
from areafit.verdict import Reason, Role, Verdict

_NEEDED = {AreaSystem.ZONE: Group.IIC, AreaSystem.DIVISION: Group.B}


class Question(Frozen):
    """What evolves hydrogen here, surest first, the area as declared, and the items for each."""

    evolved: tuple[Evolved, ...]
    area: AreaReading | None
    items: tuple[tuple[str, ...], ...]


def _ask(case: PlaceCase, demands: Demands) -> Iterator[Ask[Question]]:
    if demands.evolved:
        yield Ask(Question(demands.evolved, demands.place.area, _items(case, demands)), "area")


def _items(case: PlaceCase, demands: Demands) -> tuple[tuple[str, ...], ...]:
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
    return tuple(tuple(found.get((e.chemical, e.material), ())) for e in demands.evolved)


def _judge(question: Question) -> Judgement:
    certain = question.evolved[0].certain
    causes = _causes(question)
    rows = tuple(dict.fromkeys(row for one in question.evolved for row in one.rows))
    required = "an area declared for hydrogen: IIC or IIB+H2, Group B"
    gas = [
        area
        for area in (question.area.areas if question.area is not None else ())
        if area.hazard is Hazard.GAS and area.classified
    ]
    if not gas:
        return unproven(
            Reason.CONDITION_TO_ACCEPT if question.area is not None else Reason.FACT_MISSING,
            f"There is {causes}; the declared area accounts for no gas.",
            required=required,
            found=question.area.text if question.area is not None else "not stated",
            rows=rows,
        )
    answers = [_covers(area.groups, _NEEDED[area.system]) for area in gas]
    found = ", ".join(sorted({group.value for area in gas for group in area.groups}))
    if Cover.NO in answers and certain:
        return flagged(
            f"There is {causes}; the area is declared for {found}, which is milder than hydrogen.",
            required=required,
            found=found,
            rows=rows,
        )
    if Cover.YES not in answers or len(set(answers)) > 1:
        return unproven(
            Reason.CONDITION_TO_ACCEPT if found else Reason.FACT_MISSING,
            f"There is {causes}; whether the area must be declared for it has to be settled.",
            required=required,
            found=found or "no group declared",
            rows=rows,
        )
    return passed(
        f"The area is declared for hydrogen ({causes}).", required=required, found=found, rows=rows
    )


def _causes(question: Question) -> str:
    """`hydrogen from caustic soda on EN AW-6060 (item 4) and aluminium (items 1, 7)`."""
    metals: dict[str, list[str]] = {}
    for one, items in zip(question.evolved, question.items, strict=True):
        metals.setdefault(one.chemical, []).append(f"{one.material}{_where(items)}")
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


HYDROGEN_EVOLUTION = Rule[Question](
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
    "are added here. Nitric acid gives nitrogen oxides and very little hydrogen.",
    ask=_ask,
    judge=_judge,
    examples=(
        Example(
            "Zinc dipped in acid, declared for IIC", Verdict.PASS, _DIP, _place("Zone 1, IIC, T1")
        ),
        Example("The same, declared for IIA", Verdict.FLAG, _DIP, _place("Zone 1, IIA, T1")),
        Example(
            "Zinc plate above the bath",
            Verdict.UNPROVEN,
            "kind: structural, materials: [{material: zinc-plated steel, exposure: fume}]",
            _place("Zone 2, IIA, T1"),
        ),
    ),
)
