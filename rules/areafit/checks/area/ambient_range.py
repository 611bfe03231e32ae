"""Ambient range of the certificate and the catalogue against that of the place."""

from collections.abc import Iterator

from areafit.checks.area.ambient import judge_ambient
from areafit.checks.area.candidates import Need, choices, need
from areafit.checks.area.question import AmbientQuestion
from areafit.demands import Demands
from areafit.facts.part import Equipment
from areafit.facts.protection import Hazard
from areafit.rule import Ask, Example, Family, Rule, Subject
from areafit.verdict import Role, Verdict


def _ask(equipment: Equipment, demands: Demands) -> Iterator[Ask[AmbientQuestion]]:
    """Once per hazard for marked and electrical parts; a marking or document counts anywhere.

    What leaves associated apparatus, outside of the area, is certified for its range only. A
    place without a stated ambient has its own finding, so parts are not asked.
    """
    if demands.ambient is None:
        return
    if need(equipment) is not Need.NONE and demands.classified:
        for hazard in demands.hazards:
            for choice in choices(equipment, demands, hazard):
                yield Ask(choice.ambient, _path(choice.ambient, choice.path))
        return
    yield from _outside(equipment, demands)


def _outside(equipment: Equipment, demands: Demands) -> Iterator[Ask[AmbientQuestion]]:
    """The best code for each hazard that the nameplate speaks of, or what else is stated."""
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
    if not found and (bare.catalogue is not None or bare.evidence or bare.others):
        yield Ask(bare, _path(bare, "marking"))


def _at(i: int, count: int) -> str:
    return "marking" if count == 1 else f"marking/{i}"


def _path(question: AmbientQuestion, marking: str) -> str:
    return marking if question.system is not None or question.evidence else "ambient"


def _goodness(pair: tuple[AmbientQuestion, str]) -> int:
    return _ORDER.index(judge_ambient(pair[0]).verdict)


_ORDER = list(Verdict)  # most severe first


AMBIENT_RANGE = Rule[AmbientQuestion](
    id="ambient-range",
    title="Ambient range holds the place's",
    family=Family.AREA,
    subject=Subject.EQUIPMENT,
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
    "part stands: barriers outside of the area too.",
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
