"""Does the certified ambient range hold the site's."""

from decimal import Decimal

from areafit.checks.area.question import AmbientQuestion
from areafit.facts.protection import MarkingSystem
from areafit.facts.quantity import Dimension, Range, show_range
from areafit.rule import Judgement, flagged, passed, unproven
from areafit.verdict import Reason

_ZONE_DEFAULT = Range(Decimal(-20), Decimal(40))
_DIVISION_DEFAULT = Range(Decimal(-25), Decimal(40))
_CLAUSES = {
    MarkingSystem.NEC_DIVISION: "NFPA 70-2023 500.8(C)(5)",
    MarkingSystem.NEC_ZONE: "NFPA 70-2023 505.9(C)",
    MarkingSystem.IEC: "IEC 60079-0:2017 5.1.1",
    MarkingSystem.ATEX: "EN IEC 60079-0:2018 5.1.1",
}


def default_ambient(system: MarkingSystem) -> Range:
    """The range in °C that holds where none is printed."""
    return _DIVISION_DEFAULT if system is MarkingSystem.NEC_DIVISION else _ZONE_DEFAULT


def judge_ambient(question: AmbientQuestion) -> Judgement:
    """The narrower of the certified range and the catalogue's must hold the whole site range."""
    if question.site is None:
        return unproven(Reason.FACT_MISSING, "The place does not state its ambient.")
    site = question.site
    required = show_range(site, Dimension.TEMPERATURE)
    certified, source = _certified(question)
    clause = _CLAUSES[question.system] if question.system is not None else ""
    if certified is None and question.catalogue is None and _hold(question.others, site):
        return unproven(
            Reason.FACT_MISSING,
            "Neither a certified nor a catalogue ambient range is stated.",
            required=required,
            found="not stated",
        )
    stated = [(certified, source), (question.catalogue, "catalogue range")]
    stated += [(span, "range of a document that certifies nothing") for span in question.others]
    for span, name in stated:
        if span is not None and not site.within(span):
            shown = show_range(span, Dimension.TEMPERATURE)
            return flagged(
                f"The place reaches {required}; the {name} is {shown}.",
                required=required,
                found=f"{shown} ({name})",
                clause=clause,
            )
    span = certified or question.catalogue or site
    found = f"{show_range(span, Dimension.TEMPERATURE)} ({source})"
    return passed("The range holds the place's.", required=required, found=found, clause=clause)


def _certified(question: AmbientQuestion) -> tuple[Range | None, str]:
    """The certified range that holds most of the site; documents narrow what the plate says."""
    if question.system is None and not question.evidence:
        return None, "catalogue range"
    span, source = None, ""
    if question.marked:
        holding = [each for each in question.marked if _holds(each, question.site)]
        span, source = (holding or list(question.marked))[0], "marked Ta"
    for own in question.evidence:
        common = own if span is None else own.common(span)
        if common is None:
            return own, "document's Ta, which contradicts the marked one"
        span, source = common, "Ta of the document" if not question.marked else "marked Ta"
    if span is None and question.system is not None:
        span, source = default_ambient(question.system), "default where no Ta is printed"
    return span, source


def _hold(spans: tuple[Range, ...], site: Range) -> bool:
    return all(site.within(span) for span in spans)


def _holds(span: Range, site: Range | None) -> bool:
    return site is not None and site.within(span)
