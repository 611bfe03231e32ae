"""What a description proposes: common practice, no source."""

import pytest

from areafit.importing.proposals import proposed
from areafit.tables.descriptions import DescribedPart, PassiveArticle, Says
from areafit.tables.load import rows


def test_each_passive_article_is_a_known_word_for_what_moves() -> None:
    known = {row.word: row.says for row in rows("described_parts", DescribedPart)}
    for row in rows("passive_articles", PassiveArticle):
        assert known.get(row.word) is Says.MOVING, row.word


@pytest.mark.parametrize(
    ("description", "kind", "passive"),
    [
        ("Deep groove ball bearing", "mechanical", True),
        ("Rillenkugellager", "mechanical", True),
        ("Roulement à billes", "mechanical", True),
        ("Bearing with sensor", "mechanical", False),
        ("Bearing, 24 V", "electrical, mechanical", False),
        ("Cylinder 32 x 100", "mechanical", False),
        ("Cylinder with reed switch", "mechanical", False),
        ("Elektrozylinder", "electrical, mechanical", False),
        ("Inductive sensor", "electrical", False),
        ("Näherungsschalter induktiv", "electrical", False),
        ("Vakuumpumpe elektrisch", "electrical, mechanical", False),
        ("Sensor bracket", "structural", False),
        ("Bracket with sensor", "unknown", False),
        ("Sechskantschraube M6x20", "structural", False),
        ("Gearmotor, 0.55 kW", "electrical", False),
        ("Widget", "unknown", False),
        ("", "unknown", False),
    ],
)
def test_a_kind_is_proposed_by_the_word_and_nothing_electrical_by_its_row(
    description: str, kind: str, *, passive: bool
) -> None:
    told = proposed(description, assembly=False)
    kinds = told["kind"] if isinstance(told["kind"], str) else ", ".join(told["kind"])
    assert kinds == kind
    assert ("electrical_content" in told) is passive


def test_an_assembly_is_made_of_its_lines_unless_it_is_electrical_itself() -> None:
    assert proposed("Conveyor", assembly=True) == {"kind": "structural", "materials": "none"}
    assert proposed("Unit 7", assembly=True) == {"kind": "structural", "materials": "none"}
    told = proposed("Pneumatic cylinder", assembly=True, moves_below=False)
    assert told == {"kind": "mechanical"}
    assert proposed("Control cabinet, 24 V", assembly=True) == {"kind": "electrical"}
