"""The nameplate itself: whether it agrees with itself, and with the day that the part is of."""

from collections.abc import Iterator
from datetime import date

from areafit.demands import Demands
from areafit.facts.marking import Marking
from areafit.facts.part import Equipment
from areafit.facts.protection import Law
from areafit.marking.level import is_old_mechanical
from areafit.rule import Answer, Ask, Example, Family, Judgement, Row, Rule, Subject
from areafit.tables.area import SupersededForm, superseded_form
from areafit.values import Frozen, replace
from areafit.verdict import Reason, Role, Verdict


class Nameplate(Frozen):
    """One nameplate, as decoded."""

    marking: Marking


def _ask_consistency(equipment: Equipment, demands: Demands) -> Iterator[Ask[Nameplate]]:
    """Every stated marking, wherever the part stands: a false nameplate is false anywhere."""
    del demands
    markings = equipment.markings or ()
    for i, marking in enumerate(markings):
        yield Ask(Nameplate(marking), f"marking/{i}" if len(markings) > 1 else "marking")


def _judge_consistency(plate: Nameplate) -> Judgement:
    problems = plate.marking.problems
    answer = Answer(
        required="a marking without contradictions, every word of it read",
        found=plate.marking.text,
    )
    wrong = next((p for p in problems if not p.unread), None)
    if wrong is not None:
        return replace(answer, clause=wrong.clause).flagged(wrong.message)
    for unread in problems:
        return replace(answer, clause=unread.clause).unproven(Reason.NOT_JUDGED, unread.message)
    # A marking without any code has a problem that says so.
    return answer.passed("The marking agrees with itself.")


MARKING_CONSISTENCY = Rule[Nameplate](
    id="marking-consistency",
    title="Marking agrees with itself",
    family=Family.PROOF,
    subject=Subject.EQUIPMENT,
    clause="IEC 60079-0:2017 29; 2014/34/EU Annex II 1.0.5; NFPA 70-2023 500.8(C), 505.9(C)",
    why="A nameplate that contradicts itself was copied wrongly or is not what it claims; the "
    "lower claim is used meanwhile.",
    remedy="Compare `marking` with the nameplate and the certificate, and correct it; if it stands "
    "so on the part, ask the maker.",
    answer_by=Role.SUPPLIER,
    ask=_ask_consistency,
    judge=_judge_consistency,
    examples=(
        Example("Flameproof level c", Verdict.PASS, "{kind: electrical, marking: Ex dc IIC T4 Gc}"),
        Example(
            "Category 2G beside Gc",
            Verdict.FLAG,
            "{kind: electrical, marking: II 2G Ex ec IIC T4 Gc}",
            law="ATEX",
        ),
        Example(
            "A word that is no part of any marking",
            Verdict.UNPROVEN,
            "{kind: electrical, marking: Ex db IIC T4 Gb quasi}",
        ),
    ),
)


class OldForm(Frozen):
    """The first form to go out of use on a plate, and since when the part is in use."""

    form: SupersededForm
    placed: date | None
    in_service: bool


def _ask_superseded(equipment: Equipment, demands: Demands) -> Iterator[Ask[OldForm]]:
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
            yield Ask(OldForm(first, equipment.placed_on_market, in_service), path)


def _judge_superseded(question: OldForm) -> Judgement:
    form, placed = question.form, question.placed
    key, value = f"{form.form} ({form.standard})", f"harmonised until {form.last_year}"
    answer = Answer(
        required=f"for the form {form.form}: placed on the market by {form.last_year}",
        found="date not stated" if placed is None else placed.isoformat(),
        rows=(Row.of("superseded_forms", key, form, value),),
    )
    if placed is not None and placed.year <= form.last_year:
        return answer.passed("Placed on the market while its standard was harmonised.")
    if placed is None and question.in_service:
        return replace(answer, found="in service").passed(
            "Taken over, not newly bought: what was in use may stay."
        )
    return answer.unproven(
        Reason.FACT_MISSING if placed is None else Reason.CONDITION_TO_ACCEPT,
        f"{form.form} is the form of {form.standard}, which {form.successor} replaced. It gives no "
        "presumption of conformity to a part placed on the market since, unless the maker shows "
        "that his certificate still holds.",
    )


SUPERSEDED_MARKING = Rule[OldForm](
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
    ask=_ask_superseded,
    judge=_judge_superseded,
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
