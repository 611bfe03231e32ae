"""A rule: frozen data and two plain functions.

`ask` looks at one aspect of a part (or at a place, a contact, a loop, the list) and yields small
frozen questions; `judge` is a pure function from a question to a judgement. A question is all
that a judgement may rest on: it is what is cached, and what a waiver's fingerprint digests.
"""

from collections.abc import Callable, Iterable
from typing import TYPE_CHECKING, Any, Generic, TypeVar

from areafit.values import Frozen, Term, replace
from areafit.verdict import Basis, Reason, Role, Verdict, trust

if TYPE_CHECKING:
    from areafit.tables.limits import Figure
    from areafit.tables.sources import Sourced

Q = TypeVar("Q")
COMPUTED = "computed"
"""The table of a row that was computed: its source is the method, its locator the version."""


class Family(Term):
    """Groups of rules, in the order reports list them."""

    AREA = "area"
    PROOF = "documents"
    IGNITION = "ignition"
    LOOPS = "loops"
    PLACES = "places"
    MATERIALS = "materials"
    ASSEMBLY = "assembly"


class Subject(Term):
    """What a rule reads: the type that its `ask` is handed, and how often."""

    NAMEPLATE = "nameplate"  # ask(ChosenCodes, Demands), once per part and place
    EQUIPMENT = "equipment"  # ask(Equipment, Demands), once per part and place
    BODY = "body"  # ask(Body, Demands), once per part and place
    MATERIAL = "material"  # ask(MaterialUse, Demands), once per material of a part and place
    WETTING = "wetting"  # ask(Wetting, Demands), once per part and place
    CONTACT = "contact"  # ask(ContactCase, Demands), once per contact and place
    PLACE = "place"  # ask(PlaceCase, Demands), once per place
    LINE = "line"  # ask(LineOrigin, Demands), once per part and place
    LOOP = "loop"  # ask(LoopCase, None), once per loop
    BOM = "bom"  # ask(Bom, None), once


class Row(Frozen):
    """A table row that a judgement rests on, or sets aside.

    `governs` is False of a row that a stricter one of another source overrules: it is shown, and
    neither weighs nor binds a waiver.
    """

    table: str
    key: str
    source_id: str
    locator: str
    basis: Basis
    value: str = ""
    governs: bool = True

    @staticmethod
    def of(table: str, key: str, entry: "Sourced", value: str = "") -> "Row":
        """The entry of a table under this key; `value` is the figure of it that was used."""
        return Row(table, key, entry.source_id, entry.locator, entry.basis, value)

    @staticmethod
    def of_figure(figure: "Figure") -> "Row":
        """A row of the table of figures."""
        every = figure.applies_to == "all"
        key = figure.name if every else f"{figure.name}, {figure.applies_to}"
        return Row.of("figures", key, figure, figure.value)


def of_a_pass(rows: Iterable[Row]) -> tuple[Row, ...]:
    """The rows of a pass: of several figures for one quantity the best founded weighs.

    What passes meets them all, so that the others only asked for more. Where several quantities
    must hold, each has its own, and the pass rests on the weakest of these.
    """
    found = tuple(dict.fromkeys(rows))
    best: dict[tuple[str, str], int] = {}
    for row in found:
        if not row.governs:
            continue
        quantity = (row.table, row.key.partition(" (")[0])
        best[quantity] = min(trust(row.basis), best.get(quantity, trust(row.basis)))
    return tuple(
        row
        if trust(row.basis) == best.get((row.table, row.key.partition(" (")[0]))
        else replace(row, governs=False)
        for row in found
    )


class Judgement(Frozen):
    """The answer to a question.

    `required` and `found` are short texts for a person; `clause` overrides the rule's own where
    a more precise one decides; `rows` are the table rows used, `basis` the weakest that governs.
    `document_to_waive`: unproven, and accepted like a flag: by a waiver with a document alone.
    """

    verdict: Verdict
    message: str
    required: str = ""
    found: str = ""
    clause: str = ""
    rows: tuple[Row, ...] = ()
    reason: Reason | None = None
    remedy: str = ""
    answer_by: Role | None = None
    basis: Basis | None = None
    document_to_waive: bool = False


class Ask(Frozen, Generic[Q]):
    """A question, with the field of the subject that it is about.

    `path` is relative to the subject (`marking`, `surface_area`), empty for the subject itself;
    `component` names the material's component in reports.
    """

    question: Q
    path: str = ""
    component: str | None = None


class Example(Frozen):
    """A worked case in the file's own terms, run by the tests and shown by `areafit rule`.

    `place` and `part` are YAML mappings (the fields of one location and of one part; item and
    location are added); `more` holds further top-level YAML such as loops or a second part,
    `assembly` the mapping of the machine.
    """

    title: str
    verdict: Verdict
    part: str = "kind: structural"
    place: str = ""
    law: str = "IEC"
    more: str = ""
    assembly: str = "{number: CASE-1}"

    @property
    def as_list(self) -> str:
        """The smallest list that holds the example, as it can be saved and checked."""
        part = self.part.strip().removeprefix("{").removesuffix("}")
        return (
            "areafit: 1\n"
            f"assembly: {self.assembly}\n"
            f"code: {self.law}\n"
            f"locations:\n  case: {self.place or '{}'}\n"
            f"parts:\n  - {{item: '1', location: case, {part}}}\n"
            f"{self.more}"
        )


class Rule(Frozen, Generic[Q]):
    """Identity, source and logic of one requirement.

    `clause` is the document and clause as reports cite it, editions included; `note` says where
    editions or countries differ. A rule that is `always` judged holds whatever options choose rules
    or accept findings, and no waiver reaches it: only the list settles what it asks.
    """

    id: str
    title: str
    family: Family
    subject: Subject
    clause: str
    why: str
    remedy: str
    answer_by: Role
    ask: Callable[[Any, Any], Iterable[Ask[Q]]]
    judge: Callable[[Q], Judgement]
    examples: tuple[Example, ...]
    note: str = ""
    always: bool = False


class Answer(Frozen):
    """What a judgement says whatever the verdict: required, found, rows and clause, said once.

    >>> answer = Answer(required="at most 1 m/s", found="6 m/s")
    >>> answer.flagged("6 m/s is over 1 m/s.").verdict.value
    'flag'
    """

    required: str = ""
    found: str = ""
    rows: tuple[Row, ...] = ()
    clause: str = ""

    def passed(self, message: str) -> Judgement:
        """The requirement is met by stated facts."""
        return self._said(Verdict.PASS, message)

    def flagged(
        self, message: str, *, remedy: str = "", answer_by: Role | None = None
    ) -> Judgement:
        """A stated fact fails."""
        return self._said(Verdict.FLAG, message, remedy=remedy, answer_by=answer_by)

    def not_applicable(self, message: str) -> Judgement:
        """Nothing is shown and nothing asked, but there is something to tell."""
        return self._said(Verdict.NOT_APPLICABLE, message)

    def unproven(
        self, reason: Reason, message: str, *, remedy: str = "", answer_by: Role | None = None
    ) -> Judgement:
        """A needed fact is missing, unknown or to be accepted by somebody."""
        return self._said(Verdict.UNPROVEN, message, reason, remedy, answer_by)

    def _said(
        self,
        verdict: Verdict,
        message: str,
        reason: Reason | None = None,
        remedy: str = "",
        answer_by: Role | None = None,
    ) -> Judgement:
        return Judgement(
            verdict,
            message,
            self.required,
            self.found,
            self.clause,
            self.rows,
            reason,
            remedy,
            answer_by,
        )
