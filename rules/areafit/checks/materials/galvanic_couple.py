"""Two metals that touch where it is wet: which suffers, and by how much they differ."""

from collections.abc import Iterator

from areafit.cases import ContactCase
from areafit.checks.materials.galvanic.answer import judge
from areafit.checks.materials.galvanic.question import Asked, Open, ask
from areafit.demands import Demands
from areafit.rule import Ask, Example, Family, Rule, Subject
from areafit.verdict import Role, Verdict


def _ask(case: ContactCase, demands: Demands) -> Iterator[Ask[Asked]]:
    """Every stated contact; of two materials of one part only what would not pass."""
    for asked in ask(case, demands):
        unknown = isinstance(asked.question, Open)  # `chemical-resistance` reports the name
        if not case.inside or not (unknown or judge(asked.question).verdict is Verdict.PASS):
            yield asked


_WATER = "{chemicals: [{name: tap water, temperature: 20 °C}]}"


def _pair(own: str, other: str) -> tuple[str, str]:
    part = (
        f"kind: structural, materials: [{{material: '{own}', exposure: splash}}], "
        "contacts: [{with: '2', wet: true}]"
    )
    more = (
        f"  - {{item: '2', location: case, kind: structural, contacts: none, "
        f"materials: [{{material: '{other}', exposure: splash}}]}}\n"
    )
    return part, more


_SAME = _pair("304", "316")
_BAD = _pair("304", "6061")

GALVANIC_COUPLE = Rule[Asked](
    id="galvanic-couple",
    title="Metals in wet contact lie close in the galvanic series",
    family=Family.MATERIALS,
    subject=Subject.CONTACT,
    clause="Anodic index table of US military electronic-equipment practice; limits of 0.15, 0.25 "
    "and 0.50 V by atmosphere; MIL-STD-1250A 5.7 for the area ratio",
    why="The less noble of two metals in a common wet film corrodes for both, the faster the "
    "smaller it is.",
    remedy="Use like metals, part them with a sleeve and washers, or coat the nobler side or both.",
    answer_by=Role.DESIGNER,
    note="Where chemicals wet a part its air counts as severe. The limits read `not more than`. "
    "Area ratios count where both surfaces are stated or one side is a fastener. Painting only "
    "the anode makes it worse. Two metals of one part that liquid wets are asked about where they "
    "would not pass together.",
    ask=_ask,
    judge=judge,
    examples=(
        Example("304 on 316", Verdict.PASS, _SAME[0], _WATER, more=_SAME[1]),
        Example("304 on aluminium", Verdict.FLAG, _BAD[0], _WATER, more=_BAD[1]),
        Example(
            "A wet part that says nothing of what it touches",
            Verdict.UNPROVEN,
            "kind: structural, materials: [{material: '304', exposure: splash}]",
            _WATER,
        ),
    ),
)
