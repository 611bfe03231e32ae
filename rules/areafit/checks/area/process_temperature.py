"""What a marked part is immersed in, against the range of temperatures that it is certified for."""

from collections.abc import Iterator

from areafit.checks.area.ambient import default_ambient
from areafit.checks.area.question import binding
from areafit.demands import Demands
from areafit.demands.meeting import touching
from areafit.facts.evidence import Evidence
from areafit.facts.marking import Code
from areafit.facts.part import Body, Equipment, Exposure
from areafit.facts.quantity import Dimension, Range, show_range
from areafit.rule import Ask, Example, Family, Judgement, Rule, Subject, flagged, passed, unproven
from areafit.values import Frozen
from areafit.verdict import Reason, Role, Verdict


class Question(Frozen):
    """Ranges in °C: of what the part is immersed in, of its Ta, and of documents that allow more.

    `certified` is None where nameplate and documents contradict each other. `others` are ranges of
    documents that do not certify the part: they count against it only.
    """

    names: tuple[str, ...]
    process: Range
    certified: Range | None
    allowed: tuple[Range, ...]
    others: tuple[Range, ...] = ()


def _ask(body: Body, demands: Demands) -> Iterator[Ask[Question]]:
    codes = tuple(_codes(body.equipment))
    if not demands.classified or not codes:
        return
    found = [
        pair
        for use in body.materials or ()
        if use.exposure is Exposure.IMMERSED
        for pair in touching(use, demands)
    ]
    if not found:
        return
    documents = body.equipment.evidence or ()
    counting = [d for d in documents if _binding(d, body.equipment, demands, codes)]
    stated = [d.process_temperature for d in documents if d not in counting]
    allowed = [d.process_temperature for d in counting]
    yield Ask(
        Question(
            tuple(dict.fromkeys(name for name, _ in found)),
            Range(min(span.low for _, span in found), max(span.high for _, span in found)),
            _certified(codes, tuple(d.ambient for d in documents if d.ambient is not None)),
            tuple(span for span in allowed if span is not None),
            tuple(span for span in stated if span is not None),
        ),
        "evidence",
    )


def _binding(
    document: Evidence, equipment: Equipment, demands: Demands, codes: tuple[Code, ...]
) -> bool:
    """Whether the document certifies the part by every code."""
    return all(binding(document, equipment, demands, code) for code in codes)


def _codes(equipment: Equipment) -> Iterator[Code]:
    for marking in equipment.markings or ():
        yield from (code for code in marking.codes if code.speaks_of_housing)


def _certified(codes: tuple[Code, ...], documents: tuple[Range, ...]) -> Range | None:
    """What every code and document holds for; None where they have nothing in common."""
    first, *others = (*documents, *map(_marked, codes))
    span: Range | None = first
    for other in others:
        span = span.common(other) if span is not None else None
    return span


def _marked(code: Code) -> Range:
    """The Ta of a code, from the lowest to the highest of its classes, or the default."""
    if code.ambient is not None:
        return code.ambient
    spans = [mark.ambient for mark in code.temperatures if mark.ambient is not None]
    if not spans:
        return default_ambient(code.system)
    return Range(min(span.low for span in spans), max(span.high for span in spans))


def _judge(question: Question) -> Judgement:
    process = show_range(question.process, Dimension.TEMPERATURE)
    what = ", ".join(question.names)
    certified = question.certified
    ta = "contradictory" if certified is None else show_range(certified, Dimension.TEMPERATURE)
    required = f"certified for {process} of what it is immersed in"
    if certified is not None and question.process.within(certified):
        message = f"{what} stays within the certified ambient range."
        return passed(message, required=required, found=f"Ta {ta}")
    others = [span for span in question.others if not question.process.within(span)]
    if not question.allowed and not others:
        return unproven(
            Reason.FACT_MISSING,
            f"The part is immersed in {what} of {process}, and its certified ambient range is "
            f"{ta}: whether the certificate allows that process temperature is not stated.",
            required=required,
            found=f"Ta {ta}, process temperature not stated",
        )
    stated = (*question.allowed, *others)
    spans = ", ".join(show_range(span, Dimension.TEMPERATURE) for span in stated)
    found = f"Ta {ta}, process temperature {spans}"
    if all(question.process.within(span) for span in stated):
        message = f"The document allows {what} of {process}."
        return passed(message, required=required, found=found)
    return flagged(
        f"The part is immersed in {what} of {process}; its document allows {spans}.",
        required=required,
        found=found,
    )


_MARKED = (
    "{{kind: electrical, marking: Ex ia IIC T4 Ga, evidence: [{{type: certificate, number: "
    "IECEx ABC 21.0001{}}}], materials: [{{component: probe, material: '316', "
    "exposure: immersed}}]}}"
)
_PLACE = (
    "{{area: 'Zone 1, IIA, T3', substances: [{{name: toluene, temperature: {}}}], "
    "ambient: 5..40 °C, chemicals: none}}"
)

PROCESS_TEMPERATURE = Rule[Question](
    id="process-temperature",
    title="The certificate allows what the part is immersed in",
    family=Family.AREA,
    subject=Subject.BODY,
    clause="IEC 60079-0:2017 5.1.2; ISO 80079-36:2016 6.2; NFPA 70-2023 110.3(B)",
    why="A probe or pump in a hot process is heated by it: neither its temperature class nor its "
    "protection holds beyond the process temperature that its certificate names.",
    remedy="State `process_temperature` from the certificate or its table of classes, in the "
    "evidence entry, and see that the class there is the one that the place asks for.",
    answer_by=Role.SUPPLIER,
    note="Asked of marked parts with an immersed material, where the temperature of what they are "
    "immersed in is stated; the ambient range serves for it as far as "
    "it goes, and what a numbered, valid certificate or listing of the part allows.",
    ask=_ask,
    judge=_judge,
    examples=(
        Example(
            "A solvent at room temperature",
            Verdict.PASS,
            _MARKED.format(""),
            _PLACE.format("20 °C"),
        ),
        Example(
            "A warm solvent, and the certificate allows it",
            Verdict.PASS,
            _MARKED.format(", process_temperature: -40..80 °C"),
            _PLACE.format("55 °C"),
        ),
        Example(
            "A warm solvent beyond what the certificate allows",
            Verdict.FLAG,
            _MARKED.format(", process_temperature: -40..50 °C"),
            _PLACE.format("55 °C"),
        ),
        Example(
            "A warm solvent, and the certificate is silent",
            Verdict.UNPROVEN,
            _MARKED.format(""),
            _PLACE.format("55 °C"),
        ),
    ),
)
