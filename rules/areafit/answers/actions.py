"""Open points of a report, gathered by who can answer them."""

from collections.abc import Iterator

from areafit.findings.report import BomReport, Finding, PartReport, SubjectReport
from areafit.values import Frozen
from areafit.verdict import Role, Verdict


class Action(Frozen):
    """One question or correction, with every subject that it is asked for.

    `where` says for each of the subjects where the first such finding on it stands.
    """

    role: Role
    rule: str
    verdict: Verdict
    question: str
    remedy: str
    required: str
    subjects: tuple[str, ...]
    where: tuple[str, ...]


def actions(report: BomReport) -> tuple[Action, ...]:
    """Every open finding, those that ask the same of the same role put together.

    In the order of the roles, flags before what is unproven, then in the order of the file.
    """
    gathered: dict[tuple[object, ...], list[tuple[str, Finding]]] = {}
    for subject, finding in _open(report):
        key = (
            finding.answer_by,
            finding.verdict,
            finding.rule.id,
            finding.message,
            finding.remedy,
            finding.required,
        )
        gathered.setdefault(key, []).append((subject, finding))
    found = [
        Action(
            first.answer_by,
            first.rule.id,
            first.verdict,
            first.message,
            first.remedy,
            first.required,
            tuple(places),
            tuple(places.values()),
        )
        for group in gathered.values()
        for first, places in ((group[0][1], _places(group)),)
    ]
    roles, verdicts = list(Role), list(Verdict)
    return tuple(sorted(found, key=lambda a: (roles.index(a.role), verdicts.index(a.verdict))))


def _places(group: list[tuple[str, Finding]]) -> dict[str, str]:
    places: dict[str, str] = {}
    for subject, finding in group:
        places.setdefault(subject, _where(finding))
    return places


def _open(report: BomReport) -> Iterator[tuple[str, Finding]]:
    subjects: list[tuple[str, SubjectReport]] = [("the list", report.own)]
    subjects += [(f"location {place.name}", place) for place in report.places]
    subjects += [(_part(part), part) for part in report.parts]
    subjects += [(f"loop {loop.name}", loop) for loop in report.loops]
    for name, subject in subjects:
        yield from ((name, finding) for finding in subject.open_findings())


def _part(part: PartReport) -> str:
    facts = part.part
    words = (f"item {facts.item}", facts.part_number, facts.description)
    return ", ".join(word for word in words if word)


def _where(finding: Finding) -> str:
    position = finding.position
    return f"{position.file}:{position.line}:{position.column}"
