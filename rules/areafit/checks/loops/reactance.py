"""Is a reactance of a circuit within what its source permits: shared by both reactance rules."""

from typing import TypedDict

from areafit.checks.loops import telling
from areafit.checks.loops.budget import Budget
from areafit.checks.loops.circuit import Circuit
from areafit.checks.loops.figures import margin
from areafit.checks.loops.lumped import Halving
from areafit.checks.loops.words import CHECK_UNIT, NO_CURVES, both, names
from areafit.facts.quantity import show
from areafit.rule import Judgement, Row, flagged, passed, unproven
from areafit.sentence import capital
from areafit.tables.figures import figure
from areafit.verdict import Reason, Role

_STATE = "State what is missing as the certificate or the control drawing does."
_CABLE = "State length, capacitance and inductance of the cable, from its data sheet."


class Texts(TypedDict):
    """What every judgement on one budget shows."""

    required: str
    found: str
    rows: tuple[Row, ...]


def judge_budget(circuit: Circuit, budget: Budget) -> Judgement:
    """The stated sum against the permitted reactance, halved where the devices lump both.

    A sum that is too much as far as it is stated is flagged, whatever is missing.
    """
    texts = texts_of(circuit, budget)
    limit = budget.certain
    if limit is None:
        return _without_limit(circuit, budget, texts)
    if budget.known > limit:
        return flagged(_told(circuit, budget, f"is more than {_shown(budget)}"), **texts)
    gap = _gap(circuit, budget, texts)
    if gap is not None:
        return gap
    if budget.strict is not None and budget.known > budget.strict:
        return _at_the_edge(circuit, budget, texts)
    strange = _strange(circuit, budget, texts)
    if strange is not None:
        return strange
    return passed(f"{_told(circuit, budget, f'is within {_shown(budget)}')} {NO_CURVES}", **texts)


def _strange(circuit: Circuit, budget: Budget, texts: Texts) -> Judgement | None:
    """A permitted reactance so great that its unit may be wrong."""
    word = telling.WORDS[budget.dimension]
    most = figure(f"greatest usual permitted {word}")
    if budget.full is None or budget.full <= most.amount(budget.dimension):
        return None
    told: Texts = {**texts, "rows": (*texts["rows"], Row.of_figure(most))}
    shown = f"{names(word, circuit.law).output} {show(budget.full, budget.dimension)}"
    return unproven(
        Reason.CONDITION_TO_ACCEPT,
        f"{shown} is far above what certificates of sources state: check the unit.",
        **told,
        remedy=CHECK_UNIT,
    )


def texts_of(circuit: Circuit, budget: Budget) -> Texts:
    """Required, found and table rows."""
    rows = []
    if budget.halving is not Halving.NO or any(lump.devices.known for lump in budget.lumps):
        rows.append(Row.of_figure(figure("lumped share")))
    if budget.halving is Halving.YES and budget.cap is not None:
        rows.append(Row.of_figure(budget.cap))
    if budget.run.defaulted and budget.run.default is not None:
        rows.append(Row.of_figure(budget.run.default))
    return Texts(
        required=telling.required(circuit, budget),
        found=telling.found(circuit, budget),
        rows=tuple(rows),
    )


def _shown(budget: Budget) -> str:
    return "" if budget.certain is None else show(budget.certain, budget.dimension)


def _told(circuit: Circuit, budget: Budget, verdict: str) -> str:
    """Sum, margin, halving and longest cable as sentences."""
    room = "" if budget.certain is None else margin(budget.known, budget.certain)
    sentences = (
        f"{telling.total(budget)} {verdict}: {room}.",
        telling.halved(circuit, budget),
        telling.longest(circuit, budget),
    )
    return " ".join(filter(None, sentences))


def _without_limit(circuit: Circuit, budget: Budget, texts: Texts) -> Judgement:
    output = names(telling.WORDS[budget.dimension], circuit.law).output
    allowed, bound = budget.allowed, budget.allowed.bound
    if bound is not None and budget.known > bound:
        message = f"{telling.total(budget)} is more than the {output} of "
        message += f"{show(bound, budget.dimension)} stated for a milder group; the group of the "
        return flagged(f"{message}place permits no more than that.", **texts)
    if allowed.missing is None:
        message = f"No {output} of the source is stated."
    elif circuit.group is None and bound is None:
        message = f"For which group {output} holds is not said; {allowed.missing.value} is needed."
    else:
        message = f"No {output} is stated for {allowed.missing.value}, which the loop enters."
    return unproven(Reason.FACT_MISSING, message, **texts, remedy=_STATE)


def _gap(circuit: Circuit, budget: Budget, texts: Texts) -> Judgement | None:
    """The first reason for which the sum, or the limit, is not known to the end."""
    if budget.devices.missing:
        input_ = names(telling.WORDS[budget.dimension], circuit.law).input
        message = f"{input_} of item {both(budget.devices.missing)} is not stated; a zero counts "
        message += "only where it is stated."
        return unproven(Reason.FACT_MISSING, message, **texts, remedy=_STATE)
    if budget.run.total is None:
        message = _no_cable(circuit, budget)
        return unproven(
            Reason.FACT_MISSING, message, **texts, remedy=_CABLE, answer_by=Role.INSTALLER
        )
    if len(circuit.sources) > 1:
        message = "What may be connected to several sources together is for a specialist."
        return unproven(Reason.NOT_JUDGED, message, **texts)
    if circuit.needs.gaps:
        gap = circuit.needs.gaps[0]
        message = f"The group to judge for is open: {gap.message}."
        return unproven(gap.reason, message, **texts, remedy=gap.remedy, answer_by=Role.AREA_OWNER)
    return None


def _no_cable(circuit: Circuit, budget: Budget) -> str:
    run = budget.run
    sentences = [f"{capital(run.missing)}."]
    if run.default is not None and not run.defaulted:
        sentences.append(
            f"Where no data can be had, `values: default` beside the length takes "
            f"{run.default.value} ({run.default.source_id}, {run.default.locator})."
        )
    sentences.append(telling.longest(circuit, budget))
    return " ".join(filter(None, sentences))


def _at_the_edge(circuit: Circuit, budget: Budget, texts: Texts) -> Judgement:
    """Within the full limit, not within the halved one, and it is open which of them holds."""
    message = f"{telling.total(budget)} keeps the full limit, not half of it. "
    if budget.halving is Halving.AT_THE_EDGE:
        return unproven(Reason.NO_MARGIN, message + telling.halved(circuit, budget), **texts)
    other = next(word for each, word in telling.WORDS.items() if each is not budget.dimension)
    pair = names(other, circuit.law)
    message += f"Whether it is halved is not known without {pair.input} of every device and "
    return unproven(Reason.FACT_MISSING, f"{message}{pair.output} of the source.", **texts)
