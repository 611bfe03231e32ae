"""Chemicals of one place, pair by pair, as if their drops and vapours met."""

from collections.abc import Iterator
from itertools import combinations

from areafit.cases import PlaceCase
from areafit.demands import CorrodingChemical, Demands
from areafit.demands.meeting import mixture_of
from areafit.naming import nearest_known, use_known_name
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
from areafit.tables.chemicals import Chemical
from areafit.tables.incompatible import Incompatible, Separation
from areafit.values import Frozen
from areafit.verdict import Basis, Reason, Role, Verdict


class Question(Frozen):
    """Two chemicals of a place: the rows against them, and what keeps them from being judged.

    `unknown` are names without a row, `nearest` known ones near them, `ungrouped` known ones of
    no reactivity group. `mixture` is what both are on purpose, where they share a bath and the
    mixture has a row.
    """

    first: str
    second: str
    rows: tuple[Incompatible, ...]
    unknown: tuple[str, ...]
    ungrouped: tuple[str, ...]
    groups: str
    mixture: str | None
    nearest: tuple[str, ...] = ()


def _ask(case: PlaceCase, demands: Demands) -> Iterator[Ask[Question]]:
    del case
    listed = tuple(enumerate(demands.chemicals or ()))
    for (_, first), (i, second) in combinations(listed, 2):
        question = _question(first, second, demands)
        if question is not None:
            yield Ask(question, "substances" if second.fume_only else f"chemicals/{i}")


def _question(
    first: CorrodingChemical, second: CorrodingChemical, demands: Demands
) -> Question | None:
    """The question of a pair; None where both are the same chemical."""
    names = (first.stated.name, second.stated.name)
    left, right = (demands.tables.chemicals(name) for name in names)
    pairs = [(a, b) for a in left for b in right if a.id != b.id]
    if left and right and not pairs:
        return None
    rows = (row for a, b in pairs for row in demands.tables.incompatible(a.id, b.id))
    unknown = tuple(n for n, found in zip(names, (left, right), strict=True) if not found)
    near = tuple(one for n in unknown for one in demands.tables.nearest("chemicals", n))
    ungrouped = tuple(dict.fromkeys(c.name for c in (*left, *right) if not c.epa_groups))
    return Question(
        *names,
        tuple(dict.fromkeys(rows)),
        unknown,
        ungrouped,
        f"{_groups(left)} and {_groups(right)}",
        _on_purpose(first, second, left, right, demands),
        tuple(dict.fromkeys(near)),
    )


def _groups(rows: tuple[Chemical, ...]) -> str:
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


def _judge(question: Question) -> Judgement:
    required = "chemicals that may meet without harm"
    both = f"{question.first} and {question.second}"
    worst = min(question.rows, key=_severity, default=None)
    rows = tuple(_row(row) for row in question.rows)
    if worst is not None and worst.separation is Separation.MUST_NOT:
        if question.mixture is not None:
            return passed(
                f"{both} are mixed on purpose, as {question.mixture}; spills of the parts alone "
                f"give {worst.consequence}.",
                required=required,
                found=f"mixed as {question.mixture}",
                rows=rows,
            )
        return flagged(
            f"{both} must not share a bund, a drain or the air above them: {_harm(worst)}.",
            required=required,
            found=worst.consequence,
            rows=(_row(worst),),
        )
    if question.unknown:
        return unproven(
            Reason.NAME_UNKNOWN,
            f"Whether {both} may meet is not known: {', '.join(question.unknown)} is in no table "
            f"of reactivity.{nearest_known(question.nearest)}",
            required=required,
            found="name unknown",
            remedy=use_known_name(question.nearest, "have a chemist say whether the two may meet"),
        )
    if question.ungrouped and worst is None:
        return unproven(
            Reason.NO_DATA,
            f"Whether {both} may meet is not known: {', '.join(question.ungrouped)} belongs to no "
            "reactivity group.",
            required=required,
            found="no reactivity group",
            remedy="Have a chemist say whether the two may meet, or keep them apart: bunds, drains "
            "and ventilation of their own.",
        )
    if worst is not None:
        return passed(
            f"{both}: {worst.separation.value}, {_harm(worst)}; keep bunds apart and add strong to "
            "weak.",
            required=required,
            found=worst.separation.value,
            rows=rows,
        )
    return passed(
        f"No incompatibility listed for {both}; a blank in the chart is not the word safe.",
        required=required,
        found="no incompatibility listed",
        rows=(_blank(question),),
    )


def _severity(row: Incompatible) -> tuple[int, int]:
    """Worst first; a pair by name tells more than a pair of groups."""
    return list(Separation).index(row.separation), row.a.isdigit()


def _harm(row: Incompatible) -> str:
    note = f" ({row.note})" if row.note else ""
    return f"{row.consequence}{note}"


def _row(row: Incompatible) -> Row:
    key = f"{row.a} with {row.b}"
    value = f"{'|'.join(row.codes)}, {row.separation.value}"
    return Row.of("incompatible", key, row, value)


def _blank(question: Question) -> Row:
    key = f"groups {question.groups}"
    return Row("incompatible", key, "epa-600-2-80-076", "cells blank", Basis.SEEN, "blank")


def _pair(first: str, second: str) -> str:
    return f"{{chemicals: [{first}, {second}]}}"


CHEMICALS_TOGETHER = Rule[Question](
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
    ask=_ask,
    judge=_judge,
    examples=(
        Example("Acid with rinse water", Verdict.PASS, place=_pair("nitric acid", "DI water")),
        Example("Bleach and acid", Verdict.FLAG, place=_pair("bleach", "hydrochloric acid")),
        Example(
            "A solvent in the air beside an oxidising acid",
            Verdict.FLAG,
            place="{chemicals: [nitric acid], substances: [ethanol]}",
        ),
        Example(
            "A trade name", Verdict.UNPROVEN, place=_pair("nitric acid", "cleaner nobody lists")
        ),
    ),
)
