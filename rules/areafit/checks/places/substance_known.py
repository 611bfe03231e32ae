"""Every substance present has data: a table row, or own values with a source."""

from collections.abc import Iterator

from areafit.cases import PlaceCase
from areafit.demands import Demands, Present
from areafit.demands.laxer import laxer
from areafit.naming import nearest_known, use_known_name
from areafit.rule import Ask, Example, Family, Judgement, Row, Rule, Subject, passed, unproven
from areafit.values import Frozen
from areafit.verdict import Reason, Role, Verdict


class Question(Frozen):
    """One substance: what is known of it, and own values that would relax the table."""

    name: str
    known: bool
    nearest: tuple[str, ...]
    laxer: tuple[str, ...]
    source: str | None
    rows: tuple[Row, ...]


def _ask(case: PlaceCase, demands: Demands) -> Iterator[Ask[Question]]:
    del case
    for substance in demands.substances:
        yield Ask(_question(substance), substance.path)


def _question(substance: Present) -> Question:
    figures = (substance.autoignition(), substance.flash_point(), substance.cloud())
    rows = tuple(dict.fromkeys(row for figure in figures if figure for row in figure.rows))
    return Question(
        substance.name,
        substance.known,
        substance.nearest,
        laxer(substance),
        substance.stated.source,
        rows,
    )


_OWN = (
    "state group, autoignition and flash point (dust: cloud and layer ignition) with their source"
)


def _judge(question: Question) -> Judgement:
    required = "a table row, or own values with their source"
    if not question.known:
        return unproven(
            Reason.NAME_UNKNOWN,
            f"{question.name!r} is in no table and has no own values."
            f"{nearest_known(question.nearest)}",
            required=required,
            found="name unknown",
            remedy=use_known_name(question.nearest, _OWN),
        )
    if question.laxer:
        return unproven(
            Reason.CONDITION_TO_ACCEPT,
            "Own values are laxer than the table and have no document: "
            f"{'; '.join(question.laxer)}. The table's values govern meanwhile.",
            required="a `document` beside the source of laxer values",
            found="; ".join(question.laxer),
            rows=question.rows,
        )
    found = question.source or "table row"
    return passed(f"{question.name} is known.", required=required, found=found, rows=question.rows)


SUBSTANCE_KNOWN = Rule[Question](
    id="substance-known",
    title="Every substance has data",
    family=Family.PLACES,
    subject=Subject.PLACE,
    clause="IEC 60079-14:2013 4.2; NFPA 70-2023 500.4; ISO/IEC 80079-20-1:2017",
    why="Group and temperature limit come from the substance; one unknown name leaves both open "
    "for everything in the room.",
    remedy="Use a known name or CAS number, or state group, autoignition and flash point (dust: "
    "cloud and layer ignition) with their source.",
    answer_by=Role.PROCESS_OWNER,
    ask=_ask,
    judge=_judge,
    examples=(
        Example("A name in the table", Verdict.PASS, place="{substances: [acetone]}"),
        Example(
            "A trade name without values",
            Verdict.UNPROVEN,
            place="{substances: [blend nobody lists]}",
        ),
        Example(
            "A blend with its own tested values",
            Verdict.PASS,
            place="{substances: [{name: blend nobody lists, group: IIB, autoignition: 285 °C, "
            "flash_point: 12 °C, source: test report TR-1}]}",
        ),
    ),
)
