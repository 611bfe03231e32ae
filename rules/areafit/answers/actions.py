"""Open points of a report, each cause once, gathered by who can answer them."""

from areafit.answers.asks import Asked
from areafit.answers.causes import Bearer, Cause, CauseKind, causes
from areafit.findings.report import BomReport, PartReport, PlaceReport
from areafit.values import Frozen
from areafit.verdict import Role, Verdict


class Action(Frozen):
    """One thing to change, to answer or to accept, with every subject that it is about.

    `rule` and `verdict` are of the finding that stands for all, `rules` of each that it settles.
    `asks` are the keys that an answer would state, `vendor` who sells the parts, where a supplier
    is asked. `where` says for each of the subjects where the first such finding on it stands.
    """

    role: Role
    rule: str
    verdict: Verdict
    question: str
    remedy: str
    required: str
    subjects: tuple[str, ...]
    where: tuple[str, ...]
    kind: CauseKind
    vendor: str | None
    rules: tuple[str, ...]
    asks: tuple[Asked, ...]


def actions(report: BomReport) -> tuple[Action, ...]:
    """Every cause of a report, in the order of the roles, what must change first."""
    roles, kinds = list(Role), list(CauseKind)
    found = sorted(causes(report), key=lambda one: (roles.index(one.who), kinds.index(one.kind)))
    return tuple(map(_action, found))


def _action(cause: Cause) -> Action:
    first = cause.first
    places: dict[str, str] = {}
    for bearer in cause.bearers:
        places.setdefault(_called(bearer), _where(bearer))
    return Action(
        cause.who,
        first.rule.id,
        first.verdict,
        cause.what,
        cause.closes,
        first.required,
        tuple(places),
        tuple(places.values()),
        cause.kind,
        cause.vendor,
        tuple(dict.fromkeys(bearer.finding.rule.id for bearer in cause.bearers)),
        cause.asks,
    )


def _called(bearer: Bearer) -> str:
    """The line by item, part number and description, or the place or loop by name."""
    match bearer.subject:
        case PartReport(part=part):
            words = (f"item {part.item}", part.part_number, part.description)
            return ", ".join(word for word in words if word)
        case PlaceReport(name=name):
            return f"location {name}"
    return bearer.name


def _where(bearer: Bearer) -> str:
    position = bearer.finding.position
    return f"{position.file}:{position.line}:{position.column}"
