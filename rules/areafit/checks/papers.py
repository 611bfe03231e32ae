"""What the papers of a part answer of its own housing, beside what its marking is judged for.

What IEC 60079-0 asks of charged surfaces (7.4) and of light metals (8) is examined with the
equipment, so that a marking with a document that serves for it answers both for the housing as it
left its maker: for the hazard that it speaks of, at a level, in a group and in an ambient that hold
at the place, under the conditions of its X where they are met. Nothing else follows from it: not
that the part is bonded, what corrodes it, or what was added to it later.
"""

from collections.abc import Iterable, Iterator
from functools import lru_cache

from areafit.checks.area.ambient import AmbientQuestion, judge_ambient, own_range
from areafit.checks.area.group import GroupQuestion, judge_group
from areafit.checks.area.level import (
    LevelQuestion,
    NotElectrical,
    judged_level,
    question_of,
)
from areafit.checks.area.nameplate import Candidate, ChosenCodes, serving, valid_documents
from areafit.checks.area.protection_type import TypeQuestion, judge_type
from areafit.checks.ignition.assessment import cover_of
from areafit.checks.proof.sufficiency import claim_of, insufficient
from areafit.demands import Demands, HazardDemand
from areafit.documents import bears, identified, is_shown
from areafit.facts.evidence import Condition, Evidence, EvidenceType, Examined
from areafit.facts.marking import Code
from areafit.facts.part import Body, Equipment, Kind
from areafit.facts.protection import Hazard, Suffix
from areafit.verdict import Verdict


def examined(body: Body, plate: ChosenCodes, demands: Demands) -> tuple[Examined, ...]:
    """What the papers of a part answer of its housing, for each hazard that it is marked for."""
    found = (_against(hazard, body, plate, demands) for hazard in demands.hazards)
    return tuple(each for each in found if each is not None)


def refused(plate: ChosenCodes) -> frozenset[Hazard]:
    """The hazards for which the plate is flagged: by level, group or type, or as none for them.

    The part goes back, or to another place. What its marking would have answered of its own housing
    and its own sources waits for the one that comes: a question about it decides nothing here.
    """
    if plate.equipment.kept:
        return frozenset()
    return frozenset(
        each.hazard.hazard
        for each in plate.asked
        if each.path != "inside"
        and (each.flagged or (each.code is not None and Verdict.FLAG in _verdicts(each)))
    )


def _verdicts(choice: Candidate) -> tuple[Verdict, ...]:
    return _of_code(question_of(choice), GroupQuestion.of(choice), TypeQuestion.of(choice))


def _against(
    hazard: HazardDemand, body: Body, plate: ChosenCodes, demands: Demands
) -> Examined | None:
    """None where nothing is marked for the hazard."""
    name = hazard.hazard
    # Inside a purge the areas of the demand are others, and the hazard the same.
    chosen = [e for e in plate.chosen if e.hazard.hazard is name and e.code is not None]
    if not chosen:
        return None
    papers: dict[str, None] = {}
    met: dict[Condition, None] = {}
    for choice in chosen:
        documents = serving(choice)
        lacks = next(_lacks(choice, documents), "")
        if lacks:
            return Examined(name, lacks=lacks)
        papers.update(dict.fromkeys(f"{d.type.value} {d.number}" for d in documents))
        met.update(dict.fromkeys(_conditions(documents)))
    if not _both_halves(chosen, body, demands):
        lacks = "it speaks of the electrical half only, and nothing covers the mechanical one"
        return Examined(name, lacks=lacks)
    return Examined(name, " and ".join(papers), met=tuple(met))


def _both_halves(chosen: list[Candidate], body: Body, demands: Demands) -> bool:
    """Whether a part that is mechanical too has a marking or an assessment for that half."""
    if Kind.MECHANICAL not in body.equipment.kinds:
        return True
    marked = any(each.code is not None and each.code.non_electrical for each in chosen)
    return marked or cover_of(body, demands, chosen[0].hazard).holds


def _lacks(choice: Candidate, documents: tuple[Evidence, ...]) -> Iterator[str]:
    """Why a chosen code answers nothing, most telling first."""
    if choice.code is not None:
        yield from _of_marking(choice, choice.code)
        yield from _of_documents(choice, choice.code, documents)


def _of_marking(choice: Candidate, code: Code) -> Iterator[str]:
    if code.suffix is Suffix.U:
        yield "it is that of a component (U)"
    if _doubtful(choice.equipment, code):
        yield "its nameplate contradicts itself or was not read whole"
    level, group, kind = _verdicts(choice)
    if level is not Verdict.PASS:
        yield "that its level holds here is not shown"
    if group is not Verdict.PASS:
        yield "that its group holds here is not shown"
    if kind is Verdict.FLAG:
        yield "its type of protection does not serve here"
    # A place without a stated ambient has its own finding, so parts are not held to it.
    own = code if choice.path != "inside" else own_range(choice.equipment)
    ambient = AmbientQuestion.of(choice.equipment, choice.demands, own)
    asked = ambient.site is not None or ambient.inside is not None
    if asked and not _suits(ambient):
        yield "that its ambient holds here is not shown"


@lru_cache(maxsize=1024)  # as below
def _suits(ambient: AmbientQuestion) -> bool:
    return judge_ambient(ambient).verdict is Verdict.PASS


@lru_cache(maxsize=1024)  # many parts bear the same code
def _of_code(
    level: LevelQuestion | NotElectrical, group: GroupQuestion, kind: TypeQuestion
) -> tuple[Verdict, Verdict, Verdict]:
    """Whether level, group and type of a code hold at a place."""
    return judged_level(level).verdict, judge_group(group).verdict, judge_type(kind).verdict


def _of_documents(choice: Candidate, code: Code, documents: tuple[Evidence, ...]) -> Iterator[str]:
    if not documents:
        yield "no numbered, valid document that certifies it is stated"
    if _contradicted(choice):
        yield "the documents stated contradict it"
    repairs = [d for d in valid_documents(choice) if d.type is EvidenceType.REPAIR_RECORD]
    if not all(identified(each) and each.standard for each in repairs):
        yield "it was repaired, and no record with its standard is stated"
    if not _conditions_met(code, choice.equipment, documents):
        yield "a condition of its X is not listed, or not shown to be met"


def _doubtful(equipment: Equipment, code: Code) -> bool:
    own = (marking for marking in equipment.markings or () if code in marking.codes)
    return any(marking.problems for marking in own)


def _contradicted(choice: Candidate) -> bool:
    """Whether the documents show the wrong thing for the code; that one is missing is no matter.

    What certifies the code has examined its housing; the declaration beside it says nothing more.
    """
    if choice.code is None:
        return False
    claim = claim_of(choice.code, electrical=choice.electrical)
    short = insufficient(choice.demands.law, claim, tuple(valid_documents(choice)))
    return short is not None and short.contradicts


def _conditions_met(code: Code, equipment: Equipment, serving: tuple[Evidence, ...]) -> bool:
    """Every condition of every document shown, and listed where an X says that there are some.

    A text may be in any language, so that none of them is left out as one of something else.
    """
    own = [document for document in equipment.evidence or () if not document.elsewhere]
    if not all(map(is_shown, _conditions(own))):
        return False
    marked = code.suffix is Suffix.X
    listed = any(document.conditions for document in serving)
    certified = all(d.conditions for d in serving if bears(d, Suffix.X))
    return certified and (listed or not marked)


def _conditions(documents: Iterable[Evidence]) -> Iterator[Condition]:
    return (each for document in documents for each in document.conditions or ())
