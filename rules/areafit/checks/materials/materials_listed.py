"""Everything of a part that meets a chemical is listed, small and hidden things included."""

import re
from collections.abc import Iterator

from areafit.demands import Demands
from areafit.facts.part import WET, Wetting
from areafit.rule import Ask, Example, Family, Judgement, Rule, Subject, passed, unproven
from areafit.tables import Tables
from areafit.tables.classes import HiddenItem
from areafit.tables.described import described
from areafit.values import Frozen
from areafit.verdict import Reason, Role, Verdict

_OF_ONE = (
    "Is it all of one material, fasteners, coatings, seals and feet included? Then say so; else "
    "list the others."
)
_USUAL = "Which seals, springs, grease, fasteners and platings are inside, and of which grade?"
_OWN = "List every material of the drawing and state `materials_complete: true`."


class Question(Frozen):
    """What the list says of a part's materials, and what such a part usually hides.

    `fixed`: the description is that of a plate, a bracket or the like, which hides nothing.
    `bare`: the list says that a part has no material that must have one.
    """

    listed: bool
    complete: bool | None
    hidden: tuple[str, ...]
    chemicals: tuple[str, ...]
    fixed: bool = False
    bare: bool = False


def _ask(wetting: Wetting, demands: Demands) -> Iterator[Ask[Question]]:
    if not demands.chemicals:
        return
    vapour = any(chemical.fume_only for chemical in demands.chemicals)
    wet = vapour or wetting.exposure is None or wetting.exposure in WET
    if wet or not wetting.listed or wetting.bare:
        path = "materials_complete" if wetting.listed and not wetting.bare else "materials"
        hidden = _hidden(wetting, demands)
        names = tuple(chemical.stated.name for chemical in demands.chemicals)
        fixed = not hidden and _fixed(wetting.description)
        bare = wetting.bare
        yield Ask(Question(wetting.listed, wetting.complete, hidden, names, fixed, bare), path)


def _fixed(description: str | None) -> bool:
    told = described(description) if description else None
    return told is not None and told.fixed


def _hidden(wetting: Wetting, demands: Demands) -> tuple[str, ...]:
    """The questions about what a part of this description usually holds."""
    said = (wetting.description or "").casefold()
    if not said:
        return ()
    tables = demands.tables
    named = tables.remembered(("hidden items by name",), lambda: _by_name(tables))
    found = (question for question, name in named if name in said and _names(said, name))
    return tuple(dict.fromkeys(found))


def _by_name(tables: Tables) -> tuple[tuple[str, str], ...]:
    return tuple(
        (item.question, name.casefold())
        for item in tables.rows("hidden_items", HiddenItem)
        for name in (item.kind, *item.names)
    )


def _names(said: str, name: str) -> bool:
    """Whether the description names it, in the singular or with a plural s."""
    return re.search(rf"\b{re.escape(name)}s?\b", said) is not None


def _judge(question: Question) -> Judgement:
    required = "every material that meets the chemicals, and `materials_complete: true`"
    ask = " ".join(question.hidden or (_OF_ONE if question.fixed else _USUAL,))
    own = {"remedy": _OWN, "answer_by": Role.DESIGNER} if question.fixed else {}
    if not question.listed:
        return unproven(
            Reason.FACT_MISSING,
            f"No materials are stated, so nothing is known of what meets the chemicals "
            f"({', '.join(question.chemicals)}). {ask}",
            required=required,
            found="not stated",
            **own,
        )
    if question.bare:
        return unproven(
            Reason.FACT_MISSING,
            "`materials: none` is said of a part that has a material: whatever stands or moves is "
            "made of something, and so is what liquid or vapour may reach. Nothing of it is "
            f"judged. {ask}",
            required=required,
            found="none",
            **own,
        )
    if question.complete:
        return passed("All materials are listed.", required=required, found="complete")
    return unproven(
        Reason.FACT_MISSING,
        f"The list of materials is not said to be complete. {ask}",
        required=required,
        found="not said to be complete",
        **own,
    )


MATERIALS_LISTED = Rule[Question](
    id="materials-listed",
    title="All materials that meet chemicals are listed",
    family=Family.MATERIALS,
    subject=Subject.WETTING,
    clause="Common practice, no published source",
    why="A part sold as stainless is several materials; its spring, seal, grease or screw fails "
    "first, and the worst of them rules.",
    remedy="Ask the supplier, list the answers under `materials`, and state "
    "`materials_complete: true`.",
    answer_by=Role.SUPPLIER,
    ask=_ask,
    judge=_judge,
    examples=(
        Example(
            "All said",
            Verdict.PASS,
            "kind: structural, materials: [{material: '304', exposure: splash}], "
            "materials_complete: true",
            "{chemicals: [nitric acid]}",
        ),
        Example(
            "A pin whose spring and seal are not listed",
            Verdict.UNPROVEN,
            "kind: mechanical, description: Ball-lock pin, materials: "
            "[{material: '303', exposure: splash}]",
            "{chemicals: [nitric acid]}",
        ),
        Example(
            "No materials at all",
            Verdict.UNPROVEN,
            "kind: electrical",
            "{chemicals: [nitric acid]}",
        ),
    ),
)
