"""What the chemicals of a place do to each other where they meet."""

from collections.abc import Iterator
from itertools import combinations

from areafit.demands import CorrodingChemical, Demands
from areafit.demands.exposure import mass_percent
from areafit.demands.meeting import mixture_of, strongest
from areafit.demands.neutralising import MixingHeat, mixing_heat
from areafit.demands.solvents import known_chemicals
from areafit.facts.quantity import Dimension, number
from areafit.rule import Answer, Ask, Example, Family, Judgement, Row, Rule, Subject
from areafit.subjects import PlaceCase
from areafit.tables.chemicals import Chemical, Incompatible, Medium, Meets, PairKind, Separation
from areafit.tables.limits import Figure, figure, figure_if_any
from areafit.values import Frozen, replace
from areafit.verdict import Basis, Reason, Role, Verdict
from areafit.wording import nearest_known, use_known_name


class ChemicalPair(Frozen):
    """Two chemicals of a place: the rows against them, and what keeps them from being judged.

    `unknown` are names without a row, `nearest` known ones near them, `ungrouped` known ones of
    no reactivity group. `mixture` is what both are on purpose, where they share a bath and the
    mixture has a row. `heat` is what an acid and an alkali come to where that makes them boil.
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
    heat: MixingHeat | None = None


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
        _boiling(pairs, first, second, demands),
    )


def _boiling(
    pairs: list[tuple[Chemical, Chemical]],
    first: CorrodingChemical,
    second: CorrodingChemical,
    demands: Demands,
) -> MixingHeat | None:
    """The hottest mixture that the names may mean, if it boils."""
    heats = (mixing_heat((a, first), (b, second), demands.ambient) for a, b in pairs)
    boils = figure("boiling point of a mixture of acid and alkali").amount(Dimension.TEMPERATURE)
    hot = [one for one in heats if one is not None and (one.by_water or one.celsius >= boils)]
    return max(hot, key=lambda one: (one.celsius, one.by_water), default=None)


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
    shares = {left[0].id: strongest(first), right[0].id: strongest(second)}
    return mixture_of(shares, demands)


def _unknown(question: ChemicalPair) -> str:
    names = [repr(name) for name in question.unknown]
    return f"{' and '.join(names)} {'are' if len(names) > 1 else 'is'}"


def _judge_together(  # noqa: PLR0911 - one return for each answer
    question: ChemicalPair,
) -> Judgement:
    both = " and ".join(question.names)
    worst = min(question.rows, key=_severity, default=None)
    weak = tuple(map(Row.of_figure, question.dilute))
    answer = Answer("chemicals that may meet without harm")
    if worst is not None and worst.separation is Separation.MUST_NOT:
        return _kept_apart(question, both, worst, answer)
    if question.heat is not None:
        return _boils(question, both, question.heat)
    if question.unknown:
        return replace(answer, found="name unknown").unproven(
            Reason.NAME_UNKNOWN,
            f"{_unknown(question)} in no table of reactivity, so whether {both} may meet is not "
            f"known.{nearest_known(question.nearest)}",
            remedy=use_known_name(question.nearest, "have a chemist say whether the two may meet"),
        )
    if question.silent:
        return replace(answer, found="no row for the gas").unproven(
            Reason.NO_DATA,
            f"Whether {both} may meet is not known: one is a gas, for which the chart of liquid "
            "wastes does not speak, and no row names the two.",
            remedy="Have a chemist say whether the two may meet and accept this finding with that, "
            "or keep their air apart: list each in the `chemicals` of a place of its own.",
        )
    if question.ungrouped and worst is None:
        return replace(answer, found="no reactivity group").unproven(
            Reason.NO_DATA,
            f"Whether {both} may meet is not known: {', '.join(question.ungrouped)} belongs to no "
            "reactivity group.",
            remedy="Have a chemist say whether the two may meet and accept this finding with that, "
            "or keep them apart: list each in the `chemicals` of a place of its own.",
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


def _boils(question: ChemicalPair, both: str, heat: MixingHeat) -> Judgement:
    """A neutralisation so strong that the mixture boils and is thrown about."""
    boils = figure("boiling point of a mixture of acid and alkali")
    rows = (*map(_row, question.rows), *heat.rows, Row.of_figure(boils))
    by_acid = heat.celsius < boils.amount(Dimension.TEMPERATURE)
    told = f"{boils.value} and more" if by_acid else f"about {number(heat.celsius)} °C"
    answer = Answer(f"a mixture that stays below {boils.value}", told, rows)
    if question.mixture is not None:
        return answer.passed(f"{both} are mixed on purpose, as {question.mixture}.")
    return answer.flagged(
        f"{both} must not share a bund or a drain: acid and alkali of this strength come to {told} "
        "where they meet, boil and spatter."
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
    remedy="Give each chemical a bund, drain and ventilation of its own, and list it in the "
    "`chemicals` of a place of its own.",
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
            "Strong acid and strong caustic",
            Verdict.FLAG,
            place="{chemicals: [{name: sulfuric acid, concentration: 98 %}, "
            "{name: sodium hydroxide, concentration: 50 %}]}",
        ),
        Example(
            "A trade name",
            Verdict.UNPROVEN,
            place=_example_pair("nitric acid", "cleaner nobody lists"),
        ),
    ),
)
