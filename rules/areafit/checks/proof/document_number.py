"""Documents that nobody could find: without a number, or with words in the place of one."""

from collections.abc import Iterator

from areafit.demands import Demands
from areafit.documents import identified
from areafit.facts.evidence import EvidenceType
from areafit.facts.part import Equipment
from areafit.rule import Ask, Example, Family, Judgement, Rule, Subject, passed, unproven
from areafit.values import Frozen
from areafit.verdict import Reason, Role, Verdict

_BESIDE_A_MARKING = frozenset(
    {EvidenceType.ASSESSMENT, EvidenceType.TEST_REPORT, EvidenceType.MATERIAL_CERTIFICATE}
)
"""What `evidence` does not look for behind a marking; of unmarked parts it looks at nothing."""


class Question(Frozen):
    """A type of document, and whether one of it has a number; `stated` is what stands there."""

    type: EvidenceType
    identified: bool
    stated: tuple[str, ...]


def _ask(equipment: Equipment, demands: Demands) -> Iterator[Ask[Question]]:
    documents = equipment.evidence or ()
    marked = any(marking.codes for marking in equipment.markings or ())
    for kind in dict.fromkeys(document.type for document in documents):
        if not demands.classified or (marked and kind not in _BESIDE_A_MARKING):
            continue
        own = [document for document in documents if document.type is kind]
        stated = tuple(document.number or "no number" for document in own)
        yield Ask(Question(kind, any(map(identified, own)), stated), "evidence")


def _judge(question: Question) -> Judgement:
    name, found = question.type.value, ", ".join(question.stated)
    required = f"the number under which the {name} is filed"
    if question.identified:
        return passed(f"The {name} can be found.", required=required, found=found)
    return unproven(
        Reason.FACT_MISSING,
        f"The {name} has no number that it could be found by, so it shows nothing.",
        required=required,
        found=found,
    )


DOCUMENT_NUMBER = Rule[Question](
    id="document-number",
    title="Documents have a number",
    family=Family.PROOF,
    subject=Subject.EQUIPMENT,
    clause="Common practice, no published source",
    why="A document that is still to follow, or that nobody can name, proves nothing; lists carry "
    "such entries for years.",
    remedy="Obtain the document and state its number.",
    answer_by=Role.SUPPLIER,
    note="Words such as `to follow` and `tbd` count as no number, here and in `evidence`, which "
    "judges the documents behind a marking.",
    ask=_ask,
    judge=_judge,
    examples=(
        Example(
            "An assessment on file",
            Verdict.PASS,
            "{kind: mechanical, evidence: [{type: assessment, number: IHA-1}]}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
        Example(
            "An assessment that is still to come",
            Verdict.UNPROVEN,
            "{kind: mechanical, evidence: [{type: assessment, number: to follow}]}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
    ),
)
