"""A contact that is said to be wet in air that is said to be controlled: one is not so."""

from collections.abc import Iterator

from areafit.cases import ContactCase
from areafit.checks.materials.galvanic.answer import judge
from areafit.checks.materials.galvanic.question import Couple, Question, aqueous, ask
from areafit.demands import Demands
from areafit.facts.place import Atmosphere
from areafit.rule import Ask, Example, Family, Judgement, Rule, Subject, passed, unproven
from areafit.tables.classes import Atmosphere as Air
from areafit.tables.classes import GalvanicLimit
from areafit.values import Frozen, replace
from areafit.verdict import Reason, Role, Verdict


class Wet(Frozen):
    """Every pair that the names may mean, held to the limit of air that may be damp."""

    couples: tuple[Couple, ...]


def _ask(case: ContactCase, demands: Demands) -> Iterator[Ask[Wet]]:
    """Where nothing is listed that could wet the contact; chemicals are severe air anyway."""
    controlled = demands.place.atmosphere is Atmosphere.CONTROLLED
    if not (controlled and case.wet is True) or aqueous(demands):
        return
    rows = demands.tables.rows("galvanic_limits", GalvanicLimit)
    damp = tuple(row for row in rows if row.atmosphere is Air.NORMAL)
    for asked in ask(case, demands):
        if isinstance(asked.question, Question):
            couples = tuple(replace(one, limits=damp) for one in asked.question.couples)
            yield Ask(Wet(couples), asked.path, asked.component)


def _judge(question: Wet) -> Judgement:
    found = judge(Question(question.couples))
    if found.verdict is Verdict.PASS:
        message = "The metals lie close enough for air that is not controlled as well."
        return passed(message, required=found.required, found=found.found, rows=found.rows)
    return unproven(
        Reason.FACT_MISSING,
        "The contact is said to be wet and the air of its place to be controlled; what wets it is "
        f"not listed. Wet, the pair would not pass in normal air: {found.message}",
        required=found.required,
        found=f"{found.found}, wet",
        rows=found.rows,
    )


def _pair(other: str, wet: str) -> tuple[str, str]:
    part = (
        "kind: structural, materials: [{material: '304', exposure: room}], "
        f"contacts: [{{with: '2', wet: {wet}}}]"
    )
    more = (
        "  - {item: '2', location: case, kind: structural, contacts: none, "
        f"materials: [{{material: '{other}', exposure: room}}]}}\n"
    )
    return part, more


_ROOM = "{chemicals: none, atmosphere: controlled}"
_LIKE, _WET, _DRY = _pair("316", "true"), _pair("6061", "true"), _pair("6061", "false")

WET_CONTACT = Rule[Wet](
    id="wet-contact",
    title="A wet contact stands in air that is called so",
    family=Family.MATERIALS,
    subject=Subject.CONTACT,
    clause="Limits of 0.15, 0.25 and 0.50 V by atmosphere, as in `galvanic-couple`",
    why="The widest limit of the galvanic series is for dry air of controlled humidity: a film of "
    "water on the contact takes it away.",
    remedy="List what wets the contact under `chemicals`, state `atmosphere: normal` or `severe`, "
    "or `wet: false` where it stays dry.",
    answer_by=Role.DESIGNER,
    note="`galvanic-couple` takes the air of the place at its word; this rule asks where the "
    "contact says otherwise.",
    ask=_ask,
    judge=_judge,
    examples=(
        Example("304 on 316", Verdict.PASS, _LIKE[0], _ROOM, more=_LIKE[1]),
        Example("304 on aluminium, wet", Verdict.UNPROVEN, _WET[0], _ROOM, more=_WET[1]),
        Example("304 on aluminium, dry", Verdict.NOT_APPLICABLE, _DRY[0], _ROOM, more=_DRY[1]),
    ),
)
