"""Markings by standards that gave way to others, on parts that may be newer than that."""

from collections.abc import Iterator
from datetime import date

from areafit.demands import Demands
from areafit.facts.part import Equipment
from areafit.facts.protection import Law
from areafit.marking.level import is_old_mechanical
from areafit.rule import Ask, Example, Family, Judgement, Row, Rule, Subject, passed, unproven
from areafit.tables.area import SupersededForm, superseded_form
from areafit.values import Frozen
from areafit.verdict import Reason, Role, Verdict


class Question(Frozen):
    """The first form to go out of use on a plate, and since when the part is in use."""

    form: SupersededForm
    placed: date | None
    in_service: bool


def _ask(equipment: Equipment, demands: Demands) -> Iterator[Ask[Question]]:
    """Under European law, which binds the presumption of conformity to a list of standards."""
    if demands.law is not Law.ATEX or not demands.classified:
        return
    for i, marking in enumerate(equipment.markings or ()):
        forms = [
            row
            for code in marking.codes
            for letter in code.protection
            if (row := superseded_form(letter, non_electrical=is_old_mechanical(code)))
        ]
        old = superseded_form("EEx")
        if old is not None and "eex" in marking.text.casefold():
            forms.append(old)
        if forms:
            first = min(forms, key=lambda row: (row.last_year, row.form))
            path = "marking" if len(equipment.markings or ()) == 1 else f"marking/{i}"
            in_service = equipment.in_service is True
            yield Ask(Question(first, equipment.placed_on_market, in_service), path)


def _judge(question: Question) -> Judgement:
    form, placed = question.form, question.placed
    required = f"for the form {form.form}: placed on the market by {form.last_year}"
    key = f"{form.form} ({form.standard})"
    value = f"harmonised until {form.last_year}"
    row = Row.of("superseded_forms", key, form, value)
    if placed is not None and placed.year <= form.last_year:
        return passed(
            "Placed on the market while its standard was harmonised.",
            required=required,
            found=placed.isoformat(),
            rows=(row,),
        )
    if placed is None and question.in_service:
        return passed(
            "Taken over, not newly bought: what was in use may stay.",
            required=required,
            found="in service",
            rows=(row,),
        )
    found = "date not stated" if placed is None else placed.isoformat()
    return unproven(
        Reason.FACT_MISSING if placed is None else Reason.CONDITION_TO_ACCEPT,
        f"{form.form} is the form of {form.standard}, which {form.successor} replaced: it gives no "
        "presumption of conformity to a part placed on the market since, unless the maker shows "
        "that his certificate still holds.",
        required=required,
        found=found,
        rows=(row,),
    )


SUPERSEDED_MARKING = Rule[Question](
    id="superseded-marking",
    title="Old forms of marking stand on old parts",
    family=Family.PROOF,
    subject=Subject.EQUIPMENT,
    clause="2014/34/EU Art. 12, Annex II 1.0.1",
    why="A maker who still marks by a withdrawn standard has to show that the part meets the "
    "present state of the art; the nameplate no longer does.",
    remedy="State `placed_on_market` or, for a part that was taken over, `in_service: true`; "
    "otherwise ask the maker for the declaration that names the present standards.",
    answer_by=Role.SUPPLIER,
    note="A certificate of before stays valid, so an old form is never a fault in itself. The "
    "letters d, e and m without a level are not held against a part.",
    ask=_ask,
    judge=_judge,
    examples=(
        Example(
            "Non-sparking type nA of 2016",
            Verdict.PASS,
            "{kind: electrical, marking: II 3G Ex nA IIC T4 Gc, placed_on_market: 2016-05-01}",
            "{area: 'Zone 2, IIB, T3'}",
            "ATEX",
        ),
        Example(
            "The same, and not said since when",
            Verdict.UNPROVEN,
            "{kind: electrical, marking: II 3G Ex nA IIC T4 Gc}",
            "{area: 'Zone 2, IIB, T3'}",
            "ATEX",
        ),
    ),
)
