"""Ambient range of certificate and catalogue against that of the place and of what wets a part."""

from collections.abc import Iterable, Iterator

from areafit.checks.area.nameplate import ChosenCodes
from areafit.demands import Demands
from areafit.demands.meeting import touching
from areafit.documents import certifies, expired
from areafit.facts.evidence import Evidence
from areafit.facts.marking import Code
from areafit.facts.part import Body, Equipment, Exposure, Item
from areafit.facts.protection import Hazard, MarkingSystem, Suffix
from areafit.facts.quantity import Dimension, Range, show_range
from areafit.marking.limits import default_ambient
from areafit.rule import Answer, Ask, Example, Family, Judgement, Row, Rule, Subject
from areafit.tables.limits import Figure, figure
from areafit.values import Frozen, replace
from areafit.verdict import Reason, Role, Verdict


class AmbientQuestion(Frozen):
    """Does the certified ambient range, narrowed by the catalogue's, hold the site's?

    `evidence` are the ranges of documents that certify the part, `others` those of documents that
    do not: they count against the part only. `inside` is the enclosure whose air is `site`;
    `process`: the part faces a process there, and the ranges are those of its temperature.
    `system` gives the range where none is printed; a component has none, but service temperatures.
    """

    site: Range | None
    marked: tuple[Range, ...]
    evidence: tuple[Range, ...]
    catalogue: Range | None
    system: MarkingSystem | None
    others: tuple[Range, ...] = ()
    inside: Item | None = None
    process: bool = False

    @classmethod
    def of(cls, equipment: Equipment, demands: Demands, code: Code | None) -> "AmbientQuestion":
        """The facts of a part with the ambient of its place."""
        if equipment.faces_process:
            found = _of_process(equipment, demands, code)
            if found is not None:
                return found
        marked: tuple[Range, ...] = ()
        if code is not None:
            by_class = tuple(t.ambient for t in code.temperatures if t.ambient is not None)
            marked = (code.ambient,) if code.ambient is not None else by_class
        evidence: list[Range] = []
        others: list[Range] = []
        for each in equipment.evidence or ():
            if each.ambient is not None:
                counts = _binding(each, equipment, demands, code)
                (evidence if counts else others).append(each.ambient)
        component = code is not None and code.suffix is Suffix.U
        system = code.system if code is not None and not component else None
        own, housed = equipment.ambient, equipment.housed
        return cls(
            local_air(equipment, demands),
            marked,
            tuple(evidence),
            own,
            system,
            tuple(others),
            None if housed is None else housed.item,
        )


def local_air(equipment: Equipment, demands: Demands) -> Range | None:
    """The air at a part in °C: that inside the enclosure it stands in, else that of the place."""
    return demands.ambient if equipment.housed is None else equipment.housed.inside_ambient


def _of_process(
    equipment: Equipment, demands: Demands, code: Code | None
) -> AmbientQuestion | None:
    """What faces a process is held to the process temperature of its documents, if they state one.

    The Ta is that of the half which stands in the air.
    """
    binding: list[Range] = []
    others: list[Range] = []
    for each in equipment.evidence or ():
        if each.process_temperature is not None:
            counts = _binding(each, equipment, demands, code)
            (binding if counts else others).append(each.process_temperature)
    if not binding:
        return None
    system = code.system if code is not None else None
    spans = tuple(binding), None, system, tuple(others)
    return AmbientQuestion(demands.ambient, (), *spans, process=True)


def _ask(plate: ChosenCodes, demands: Demands) -> Iterator[Ask[AmbientQuestion]]:
    """Once per hazard for marked and electrical parts; a marking or document counts anywhere.

    What leaves associated apparatus, outside of the area, is certified for its range only. A
    place without a stated ambient has its own finding, so parts are not asked.
    """
    if local_air(plate.equipment, demands) is None and plate.equipment.housed is None:
        return
    if not plate.asked:
        yield from _outside(plate.equipment, demands)
    for choice in plate.asked:
        code = choice.code if choice.path != "inside" else own_range(plate.equipment)
        question = AmbientQuestion.of(plate.equipment, demands, code)
        if (choice.flagged or choice.component) and not _states_a_range(question):
            continue
        path = choice.path if choice.path != "inside" else "ambient"
        yield Ask(question, _path(question, path))


def _states_a_range(question: AmbientQuestion) -> bool:
    own = (question.catalogue, *question.marked, *question.evidence, *question.others)
    return any(span is not None for span in own)


def own_range(equipment: Equipment) -> Code | None:
    """The code of a component that prints a range; that of its enclosure is for the air outside."""
    return next((code for code in equipment.codes if code.ambient is not None), None)


def _outside(equipment: Equipment, demands: Demands) -> Iterator[Ask[AmbientQuestion]]:
    """The best code for each hazard that the nameplate speaks of, or what else is stated.

    Of a document that certifies nothing only what does not hold: such a part owes no range.
    """
    markings = equipment.markings or ()
    found = [
        (code.hazard, AmbientQuestion.of(equipment, demands, code), _at(i, len(markings)))
        for i, marking in enumerate(markings)
        for code in marking.codes
    ]
    for hazard in Hazard:
        pairs = [(question, path) for own, question, path in found if own is hazard]
        if pairs:
            yield Ask(*max(pairs, key=_goodness))
    bare = AmbientQuestion.of(equipment, demands, None)
    against = bare.others and (bare.site is None or not _hold(bare.others, bare.site))
    if not found and (bare.catalogue is not None or bare.evidence or against):
        yield Ask(bare, _path(bare, "marking"))


def _at(i: int, count: int) -> str:
    return "marking" if count == 1 else f"marking/{i}"


def _path(question: AmbientQuestion, marking: str) -> str:
    return marking if question.system is not None or question.evidence else "ambient"


def _goodness(pair: tuple[AmbientQuestion, str]) -> int:
    return _ORDER.index(judge_ambient(pair[0]).verdict)


_ORDER = list(Verdict)  # most severe first


def _binding(document: Evidence, equipment: Equipment, demands: Demands, code: Code | None) -> bool:
    """Whether what a document allows is certified: numbered, valid, for this part, accepted."""
    run_out = expired(document, equipment.placed_on_market, demands.as_of)
    electrical = equipment.electrical
    return not run_out and certifies(document, demands.law, code, electrical=electrical)


def _defaults(system: MarkingSystem) -> tuple[Figure, Figure]:
    """The ends of the range that holds where none is printed."""
    low, high = (f"{end} ambient where none is printed" for end in ("lowest", "highest"))
    return figure(low, system.value), figure(high, system.value)


def _default_rows(system: MarkingSystem) -> tuple[Row, ...]:
    return tuple(Row.of_figure(end) for end in _defaults(system))


def judge_ambient(question: AmbientQuestion) -> Judgement:
    """The narrower of the certified range and the catalogue's must hold the whole site range."""
    site, system = question.site, question.system
    if site is None and question.inside is not None:
        return Answer("the air inside the enclosure", "not stated").unproven(
            Reason.FACT_MISSING,
            f"The part stands inside item {question.inside}; how warm the air in it becomes is not "
            "stated.",
            remedy="State `inside_ambient` of the enclosure, from its heat calculation or a "
            "measurement.",
            answer_by=Role.DESIGNER,
        )
    if site is None:
        return Answer().unproven(Reason.FACT_MISSING, "The place does not state its ambient.")
    required = show_range(site, Dimension.TEMPERATURE)
    certified, source = _certified(question)
    if certified is None and question.catalogue is None and _hold(question.others, site):
        return Answer(required, "not stated").unproven(
            Reason.FACT_MISSING,
            f"Neither a certified nor a catalogue ambient range is stated.{_uncounted(question)}",
            remedy="State `ambient` from the data sheet of the part.",
        )
    clause = _defaults(system)[0].clause if system is not None else ""
    rows = _default_rows(system) if system is not None and source == _DEFAULT else ()
    stated = [(certified, source), (question.catalogue, _CATALOGUE)]
    stated += [(span, "range of a document that certifies nothing") for span in question.others]
    for span, name in stated:
        if span is not None and not site.within(span):
            shown = show_range(span, Dimension.TEMPERATURE)
            where = "The place" if question.inside is None else f"The inside of {question.inside}"
            return Answer(required, f"{shown} ({name})", rows, clause).flagged(
                f"{where} reaches {required}; the {name} is {shown}.{_uncounted(question)}",
                remedy=_wider(question, required, name),
            )
    span = certified or question.catalogue or site
    found = f"{show_range(span, Dimension.TEMPERATURE)} ({source})"
    return Answer(required, found, rows, clause).passed(
        f"The range holds the place's.{_uncounted(question)}"
    )


_CATALOGUE = "catalogue range"


def _wider(question: AmbientQuestion, required: str, name: str) -> str:
    """What of a part shows the range of its place, and who may still change that range."""
    shown = "whose `marking`, or certificate in `evidence`, gives a Ta of"
    part = (
        f"Choose a part with `ambient: {required}`"
        if name == _CATALOGUE
        else (f"Choose a part {shown} {required}")
    )
    air = "the place (the air at the part, sun and neighbours included)"
    if question.inside is not None:
        air = "the air inside the enclosure (`inside_ambient`)"
    return f"{part} or wider, or have the range of {air} confirmed."


def _uncounted(question: AmbientQuestion) -> str:
    """That a document's range counts against the part only, lest it seem to be overlooked."""
    if not question.others:
        return ""
    spans = dict.fromkeys(show_range(each, Dimension.TEMPERATURE) for each in question.others)
    return (
        f" {', '.join(spans)} of the stated document does not count for the part: by its type, "
        "number, level or date it is no certificate of it."
    )


_DEFAULT = "default where no Ta is printed"


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
        source = "Ta of the document" if not question.marked else "marked Ta"
        span, source = common, "process temperature of the document" if question.process else source
    if span is None and question.system is not None:
        span, source = default_ambient(question.system), _DEFAULT
    return span, source


def _hold(spans: tuple[Range, ...], site: Range) -> bool:
    return all(site.within(span) for span in spans)


def _holds(span: Range, site: Range | None) -> bool:
    return site is not None and site.within(span)


AMBIENT_RANGE = Rule[AmbientQuestion](
    id="ambient-range",
    title="Ambient range holds the place's",
    family=Family.AREA,
    subject=Subject.NAMEPLATE,
    clause="IEC 60079-0:2017 5.1.1; NFPA 70-2023 500.8(C)(5), 505.9(C)",
    why="Protection and temperature class hold only inside the certified range; outside it both "
    "are unknown, even where the temperature class would leave room.",
    remedy="Choose a part certified for the place's range, or have the range of the place "
    "(the air at the part, sun and neighbours included) confirmed.",
    answer_by=Role.SUPPLIER,
    note="Where no Ta is printed, -20..40 °C holds under IEC, ATEX and NFPA 70 zones, and "
    "-25..40 °C for Division equipment. Only a numbered, valid document that certifies the part "
    "gives another: a certificate, a listing under NFPA 70, the maker's declaration for category 3 "
    "and for what is not electrical. Catalogue and other documents only narrow it, wherever the "
    "part stands: barriers outside of the area too. What stands inside an enclosure (`inside`) is "
    "held to the air in it (`inside_ambient`); what faces a process (`process_side`), to the "
    "process temperature of its document.",
    ask=_ask,
    judge=judge_ambient,
    examples=(
        Example(
            "Marked Ta holds the place",
            Verdict.PASS,
            "{kind: electrical, marking: Ex db IIB T4 Gb -40 °C ≤ Ta ≤ +60 °C}",
            "{area: 'Zone 1, IIB, T3', ambient: -30..55 °C}",
        ),
        Example(
            "A hot place and no Ta printed",
            Verdict.FLAG,
            "{kind: electrical, marking: Ex db IIB T4 Gb}",
            "{area: 'Zone 1, IIB, T3', ambient: 5..50 °C}",
        ),
        Example(
            "A barrier outside, with a wider catalogue range",
            Verdict.FLAG,
            "{kind: electrical, marking: '[Ex ia Ga] IIC', ambient: -20..70 °C}",
            "{area: unclassified, ambient: 0..60 °C}",
        ),
        Example(
            "An unmarked part without a catalogue range",
            Verdict.UNPROVEN,
            "{kind: electrical}",
            "{area: 'Zone 1, IIB, T3', ambient: 5..40 °C}",
        ),
    ),
)


class ProcessQuestion(Frozen):
    """Ranges in °C: of what the part is immersed in, of its Ta, and of documents that allow more.

    `certified` is None where nameplate and documents contradict each other. `others` are ranges of
    documents that do not certify the part: they count against it only.
    """

    names: tuple[str, ...]
    process: Range
    certified: Range | None
    allowed: tuple[Range, ...]
    others: tuple[Range, ...] = ()
    rows: tuple[Row, ...] = ()


def _ask_process(body: Body, demands: Demands) -> Iterator[Ask[ProcessQuestion]]:
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
    counting = [d for d in documents if _binds(d, body.equipment, demands, codes)]
    stated = [d.process_temperature for d in documents if d not in counting]
    allowed = [d.process_temperature for d in counting]
    certified = any(d.ambient is not None for d in counting)
    # As for the ambient range: a Ta that a document certifies stands in for one not printed.
    bare = [code for code in codes if _printed(code) is None and not certified]
    yield Ask(
        ProcessQuestion(
            tuple(dict.fromkeys(name for name, _ in found)),
            Range(min(span.low for _, span in found), max(span.high for _, span in found)),
            _common(
                map(_printed, codes),
                [default_ambient(code.system) for code in bare],
                [d.ambient for d in documents],
            ),
            tuple(span for span in allowed if span is not None),
            tuple(span for span in stated if span is not None),
            tuple(dict.fromkeys(row for code in bare for row in _default_rows(code.system))),
        ),
        "evidence",
    )


def _binds(
    document: Evidence, equipment: Equipment, demands: Demands, codes: tuple[Code, ...]
) -> bool:
    """Whether the document certifies the part by every code."""
    return all(_binding(document, equipment, demands, code) for code in codes)


def _codes(equipment: Equipment) -> Iterator[Code]:
    for marking in equipment.markings or ():
        yield from (code for code in marking.codes if code.speaks_of_housing)


def _common(*groups: Iterable[Range | None]) -> Range | None:
    """What every code and document holds for; None where they have nothing in common."""
    first, *others = (span for group in groups for span in group if span is not None)
    common: Range | None = first
    for other in others:
        common = common.common(other) if common is not None else None
    return common


def _printed(code: Code) -> Range | None:
    """The Ta of a code, from the lowest to the highest of its classes."""
    if code.ambient is not None:
        return code.ambient
    spans = [mark.ambient for mark in code.temperatures if mark.ambient is not None]
    if not spans:
        return None
    return Range(min(span.low for span in spans), max(span.high for span in spans))


def _judge_process(question: ProcessQuestion) -> Judgement:
    process = show_range(question.process, Dimension.TEMPERATURE)
    what = ", ".join(question.names)
    certified = question.certified
    ta = "contradictory" if certified is None else show_range(certified, Dimension.TEMPERATURE)
    required = f"certified for {process} of what it is immersed in"
    answer = Answer(required, f"Ta {ta}", question.rows)
    if certified is not None and question.process.within(certified):
        return answer.passed(f"{what} stays within the certified ambient range.")
    others = [span for span in question.others if not question.process.within(span)]
    stated = (*question.allowed, *others)
    spans = ", ".join(show_range(span, Dimension.TEMPERATURE) for span in stated)
    answer = replace(answer, found=f"Ta {ta}, process temperature {spans or 'not stated'}")
    if not stated:
        return answer.unproven(
            Reason.FACT_MISSING,
            f"The part is immersed in {what} of {process}, and its certified ambient range is "
            f"{ta}: whether the certificate allows that process temperature is not stated.",
        )
    if all(question.process.within(span) for span in stated):
        return answer.passed(f"The document allows {what} of {process}.")
    return answer.flagged(
        f"The part is immersed in {what} of {process}; its document allows {spans}."
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

PROCESS_TEMPERATURE = Rule[ProcessQuestion](
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
    ask=_ask_process,
    judge=_judge_process,
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
