"""What is open in a report, each cause once: what must change, who must answer, what to accept.

A cause is what one change or one answer settles. Flags and conditions are one cause where rule,
verdict, reason, facts and rows agree, whatever line they are found on; questions are one where the
same party is asked for the same keys. Every finding stands in exactly one cause.
"""

from collections.abc import Iterable, Iterator

from areafit.answers.asks import Asked, asks_of
from areafit.findings.report import BomReport, Finding, PartReport, PlaceReport, SubjectReport
from areafit.values import Frozen, Term
from areafit.verdict import Reason, Role, Verdict


class Kind(Term):
    """What a cause asks of people, in the order of reports."""

    CHANGE = "to change"
    ANSWER = "to answer"
    ACCEPT = "to accept"


class Bearer(Frozen, eq=False):
    """A finding and the line, place or loop that it is about."""

    subject: SubjectReport
    name: str
    finding: Finding

    @property
    def part(self) -> PartReport | None:
        """The line, where it is one."""
        return self.subject if isinstance(self.subject, PartReport) else None


class Cause(Frozen, eq=False):
    """One thing to change, to answer or to accept, and all that it settles.

    `vendor` is the one that sells the parts, where a supplier is asked. `asks` are the keys that
    an answer would state, each once.
    """

    kind: Kind
    who: Role
    vendor: str | None
    what: str
    closes: str
    asks: tuple[Asked, ...]
    bearers: tuple[Bearer, ...]

    @property
    def first(self) -> Finding:
        """The finding that stands for all."""
        return self.bearers[0].finding

    @property
    def names(self) -> tuple[str, ...]:
        """Lines, places and loops, each once."""
        return tuple(dict.fromkeys(bearer.name for bearer in self.bearers))


def causes(report: BomReport) -> tuple[Cause, ...]:
    """Every open finding of a report by its cause; those that settle most lines come first."""
    gathered: dict[tuple[object, ...], list[Bearer]] = {}
    for bearer in _open(report):
        gathered.setdefault(_key(bearer), []).append(bearer)
    found = [_cause(group) for group in gathered.values()]
    kinds, roles = list(Kind), list(Role)
    return tuple(
        sorted(
            found,
            key=lambda one: (
                kinds.index(one.kind),
                roles.index(one.who) if one.kind is Kind.ANSWER else 0,
                one.vendor or "" if one.kind is Kind.ANSWER else "",
                -len(one.names),
            ),
        )
    )


def kind_of(finding: Finding) -> Kind:
    """What an open finding asks of people."""
    if finding.verdict is Verdict.FLAG:
        return Kind.CHANGE
    accepted = finding.reason is Reason.CONDITION_TO_ACCEPT and not finding.rule.always
    return Kind.ACCEPT if accepted else Kind.ANSWER


def _open(report: BomReport) -> Iterator[Bearer]:
    subjects: Iterable[SubjectReport] = (
        report.own,
        *report.places,
        *report.parts,
        *report.loops,
    )
    for subject in subjects:
        name = _name(subject)
        yield from (Bearer(subject, name, finding) for finding in subject.open_findings())


def _name(subject: SubjectReport) -> str:
    if isinstance(subject, PartReport | PlaceReport):
        return subject.name
    return f"loop {subject.name}" if subject.blocks and subject.blocks[0].prefix else "the list"


def _key(bearer: Bearer) -> tuple[object, ...]:
    finding = bearer.finding
    kind = kind_of(finding)
    if kind is not Kind.ANSWER:
        rule, what = finding.rule.id, finding.message
        return (kind, rule, finding.verdict, finding.reason, what, finding.remedy, finding.rows)
    keys = tuple(asked.row.key for asked in asks_of(finding))
    about: object = keys or (finding.rule.id, finding.message)
    if finding.reason is Reason.NO_DATA:  # one letter asks for all that is missing
        about = (finding.rule.id, finding.reason)
    return (kind, finding.answer_by, _vendor(bearer), _subject(bearer), about)


def _subject(bearer: Bearer) -> str:
    return bearer.finding.path.partition("/")[0]


def _vendor(bearer: Bearer) -> str | None:
    """Who sells the part, if the supplier is asked."""
    if bearer.part is None or bearer.finding.answer_by is not Role.SUPPLIER:
        return None
    return bearer.part.part.vendor


def _cause(group: list[Bearer]) -> Cause:
    first = group[0].finding
    kind = kind_of(first)
    keys: dict[str, Asked] = {}
    for asked in asks_of(first):
        keys.setdefault(asked.row.key, asked)
    asks = tuple(keys.values())
    what = first.message
    if first.reason is Reason.NO_DATA:
        what = " ".join(dict.fromkeys(bearer.finding.message for bearer in group))
    elif kind is Kind.ANSWER and asks:
        what = " ".join(dict.fromkeys(asked.row.question for asked in asks))
    return Cause(
        kind,
        first.answer_by,
        _vendor(group[0]),
        what,
        first.remedy or first.rule.remedy,
        asks,
        tuple(group),
    )
