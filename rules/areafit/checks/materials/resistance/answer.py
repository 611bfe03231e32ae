"""From a question to an answer: the worst of all that names, mist and substrate leave possible."""

from collections.abc import Callable

from areafit.checks.materials.resistance.question import (
    NoExposure,
    NoMixture,
    NoVapour,
    Question,
    Resistance,
    Unknown,
)
from areafit.corrosion.cite import deciding, rows_of
from areafit.corrosion.outcome import Decided, Outcome, worst
from areafit.corrosion.rating import Point
from areafit.corrosion.words import condition
from areafit.facts.quantity import number
from areafit.naming import nearest_known
from areafit.rule import Judgement, flagged, passed, unproven
from areafit.sentence import capital
from areafit.tables.lookup import Gap, Range
from areafit.tables.resistance import Mechanism
from areafit.verdict import Reason, Role


def judge(question: Question) -> Judgement:
    """The answer; only rows and stated facts make a pass."""
    match question:
        case Unknown():
            return _unknown(question)
        case NoExposure():
            return unproven(
                Reason.FACT_MISSING,
                f"How {question.material} meets the chemicals of the place is not stated.",
                required="an exposure",
                found="not stated",
                remedy="State the exposure: immersed, splash, fume, washdown, room or enclosed.",
                answer_by=Role.DESIGNER,
            )
        case NoMixture():
            return unproven(
                Reason.NO_DATA,
                f"{question.mixture} are mixed, and there is no data for what they become.",
                required=f"data for {question.material} in the mixture",
                found="no row for the mixture",
                remedy="Ask for a test in the mixture; data of its parts do not add up.",
            )
        case NoVapour():
            return unproven(
                Reason.NO_DATA,
                f"There is no data for {question.material} in {question.substance}.",
                required=f"data for {question.material} in {question.substance}",
                found="no row for the substance",
                remedy="Ask the maker of the part for data or a test, and add it as a table row.",
            )
        case _:
            return _resistance(question)


def _unknown(question: Unknown) -> Judgement:
    return unproven(
        Reason.NAME_UNKNOWN,
        f"{question.name!r} is no known {question.what}.{nearest_known(question.nearest)}",
        required=f"a known {question.what}",
        found=question.name,
        remedy="Use a grade, an EN or UNS number, a CAS number or a common name.",
        answer_by=Role.DESIGNER,
    )


def _resistance(question: Resistance) -> Judgement:
    decided = worst(question.rated)
    if question.below and decided.outcome is not Outcome.UNSUITABLE:
        decided = min(decided, worst(question.below), key=_rank)
    misted = worst(question.if_mist) if question.if_mist else decided
    if decided.outcome is not Outcome.UNSUITABLE and _rank(misted) < _rank(decided):
        return _mist(question, decided, misted)
    if decided.outcome is not Outcome.UNSUITABLE and question.below is None:
        return _no_substrate(question, decided)
    return _BY_OUTCOME[decided.outcome](question, decided)


def _rank(decided: Decided) -> int:
    return list(Outcome).index(decided.outcome)


def _flag(question: Resistance, decided: Decided) -> Judgement:
    point = decided.point
    row = point.decisive
    by = f" by {row.mechanism.value}" if row and row.mechanism is not Mechanism.NONE else ""
    return flagged(
        f"{_named(question, decided)} suffers{by} in {_where(decided)} ({_rule(decided)})."
        f"{_more(point)}",
        required=f"suitable in {_where(decided)}",
        found="unsuitable",
        rows=deciding(decided),
        remedy=_remedy(question),
    )


def _limited(question: Resistance, decided: Decided) -> Judgement:
    point = decided.point
    row = point.decisive
    accept = condition(row.mechanism) if row else ""
    return unproven(
        Reason.CONDITION_TO_ACCEPT,
        f"{_named(question, decided)} is of limited use in {_where(decided)} ({_rule(decided)}): "
        f"{accept}.{_more(point)}",
        required=f"suitable in {_where(decided)}, or the condition accepted",
        found="limited",
        rows=rows_of((decided.rated,)),
        remedy=_remedy(question, "Accept the condition in a waiver by role"),
        answer_by=Role.DESIGNER,
    )


def _no_data(question: Resistance, decided: Decided) -> Judgement:
    point = decided.point
    if point.pending:
        found = point.pending[0]
    else:
        found = point.gaps[0].value if point.gaps else Gap.NO_ROWS.value
    return unproven(
        Reason.NO_DATA,
        f"{_named(question, decided)} in {_where(decided)}: {found} ({_rule(decided)}).",
        required="data at this strength and temperature",
        found=found,
        rows=rows_of((decided.rated,)),
        remedy=_remedy(question, "Ask the maker of the part for data or a test"),
    )


def _open(question: Resistance, decided: Decided) -> Judgement:
    point, rated = decided.point, decided.rated
    missing = "temperature" if not rated.heat_certain else "concentration in mass percent"
    best = point.best.value if point.best else "unknown"
    worse = point.worst.value if point.worst and not point.gaps else "no data"
    return unproven(
        Reason.FACT_MISSING,
        f"{_named(question, decided)} in {rated.chemical} is anything from {best} to {worse}, "
        f"by the {missing}, which is not stated ({_rule(decided)}).",
        required=f"the {missing} of {rated.chemical}",
        found="not stated",
        rows=rows_of((rated,)),
        remedy=_remedy(question, f"State the {missing}"),
        answer_by=Role.PROCESS_OWNER,
    )


def _mist(question: Resistance, decided: Decided, misted: Decided) -> Judgement:
    return unproven(
        Reason.FACT_MISSING,
        f"{_named(question, decided)} is {decided.outcome.value} in the fume of "
        f"{decided.rated.chemical}, and {misted.outcome.value} if spray or gas bubbles throw it "
        "about, which is not ruled out.",
        required="whether the bath throws a mist",
        found="not stated",
        rows=rows_of((decided.rated, misted.rated)),
        remedy=_remedy(question, "State `mist: false` where nothing sprays, bubbles or gasses"),
        answer_by=Role.PROCESS_OWNER,
    )


def _no_substrate(question: Resistance, decided: Decided) -> Judgement:
    return unproven(
        Reason.FACT_MISSING,
        f"{question.material} is immersed in {decided.rated.chemical}; at edges and pinholes the "
        "material below it decides, and that is not stated or not known.",
        required="the substrate below the coating",
        found="not stated",
        rows=rows_of((decided.rated,)),
        remedy="State `substrate`, or use a solid material.",
        answer_by=Role.SUPPLIER,
    )


def _pass(question: Resistance, decided: Decided) -> Judgement:
    rated = (*question.rated, *(question.below or ()))
    first = decided.rated
    return passed(
        f"{question.material} stands {first.chemical} ({_rule(decided)}).{_more(decided.point)}",
        required=f"suitable in {_where(decided)}",
        found="suitable",
        rows=rows_of((*rated, *question.if_mist)),
    )


_BY_OUTCOME: dict[Outcome, Callable[[Resistance, Decided], Judgement]] = {
    Outcome.UNSUITABLE: _flag,
    Outcome.NO_DATA: _no_data,
    Outcome.OPEN: _open,
    Outcome.LIMITED: _limited,
    Outcome.SUITABLE: _pass,
}


def _named(question: Resistance, decided: Decided) -> str:
    """The list's own word; with the grade that decided where it may be several."""
    grade = decided.rated.material
    if any(one is decided.rated for one in question.below or ()):
        return f"{grade}, below {question.material},"
    several = len({one.material for one in question.rated}) > 1
    return f"{question.material} (which may be {grade})" if several else question.material


def _rule(decided: Decided) -> str:
    return decided.rated.rule


def _where(decided: Decided) -> str:
    """`hydrochloric acid, 20 % as the drop dries, 25 °C, splash`."""
    rated, point = decided.rated, decided.point
    words = [rated.chemical]
    if point.certain or point.span.low == point.span.high:
        words.append(f"{_span(point.span)} % {point.form.value}")
    if rated.heat_certain:
        words.append(f"{_span(rated.heat)} °C")
    return ", ".join(words)


def _span(span: Range) -> str:
    low, high = number(span.low), number(span.high)
    return low if low == high else f"{low}..{high}"


def _more(point: Point) -> str:
    """What a reader must know beside the rows: relief and stand-ins."""
    said = [text for text in (point.why, point.stands_in) if text]
    return "".join(f" {capital(text)}." for text in said)


def _remedy(question: Resistance, first: str = "") -> str:
    """What to do: the step given, then materials of the same use that would pass."""
    steps = [first] if first else []
    better = question.better
    if better.names:
        what = "all chemicals here" if better.everywhere else "this chemical, though not all here"
        steps.append(f"choose a material that stands {what}: {'; '.join(better.names)}")
    elif not first:
        steps.append("move the part, shield it, or have a material tested; the tables hold none")
    return f"{capital('; or '.join(steps))}."
