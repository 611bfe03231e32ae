"""What a description proposes: common practice, no source."""

import pytest

from areafit.importing.proposals import proposed
from areafit.tables.descriptions import DescribedPart, Says
from areafit.tables.load import rows
from areafit.tables.part_names import PassiveArticle


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
        ("Isolating barrier 2 channel", "electrical", False),
        ("U channel 40 x 20", "structural", False),
        ("Slide block 40x30", "mechanical", True),
        ("Slide plate", "structural", False),
        ("Gleitstein", "mechanical", True),
        ("Gleitplatte", "structural", False),
        ("Linear guide rail 20 with carriage", "mechanical", True),
        ("Guide rail", "structural", False),
        ("Führungswagen", "mechanical", True),
        ("Führungsblech", "structural", False),
        ("Guide linéaire", "mechanical", True),
        ("Rail de guidage", "structural", False),
        ("Chariot", "mechanical", False),
        ("Pattino", "mechanical", True),
        ("Piastra scorrevole", "structural", False),
        ("Patín de guía lineal", "mechanical", True),
        ("Carril", "structural", False),
        ("Energy chain 18x37", "mechanical", False),  # which comes with its cables, or without
        ("Cable carrier chain", "mechanical", False),
        ("Drag chain bracket", "structural", False),
        ("Chain guard", "structural", False),
        ("Schleppkette", "mechanical", False),
        ("Kettenschutz", "structural", False),
        ("Chaîne porte-câbles", "mechanical", False),
        ("Carter de chaîne", "structural", False),
        ("Catena portacavi", "mechanical", False),
        ("Supporto catena portacavi", "structural", False),
        ("Cadena portacables", "mechanical", False),
        ("Protección de cadena", "structural", False),
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
    assert (told.get("electrical_content") == "none") is passive


@pytest.mark.parametrize(
    ("description", "content"),
    [
        ("Cylinder with reed switch", "reed switch"),
        ("Zylinder mit Endschalter", "schalter"),
        ("Pompe avec moteur", "moteur"),
        ("Cilindro con finecorsa", "finecorsa"),
        ("Cilindro con sensor", "sensor"),
        ("Cylinder with bracket", None),
        ("Cylinder for a reed switch", None),
        ("Bracket with sensor", None),  # whose kind is not told
    ],
)
def test_what_comes_with_a_mechanical_article_is_proposed_with_it(
    description: str, content: str | None
) -> None:
    assert proposed(description, assembly=False).get("electrical_content") == content


@pytest.mark.parametrize("article", ["Pump", "Fan", "Pumpe", "Ventilateur", "Pompa"])
def test_what_moves_at_a_voltage_moves_all_the_same(article: str) -> None:
    for figure in ("400 V", "230V~", "24 V DC"):
        assert proposed(f"{article} {figure}", assembly=False)["kind"] == [
            "electrical",
            "mechanical",
        ]
    assert proposed(f"{article} 0.5 kW", assembly=False)["kind"] == "mechanical"  # or by air
    assert proposed("Terminal box 400 V", assembly=False) == {"kind": "electrical"}


def test_an_assembly_is_made_of_its_lines_unless_it_is_electrical_itself() -> None:
    assert proposed("Conveyor", assembly=True) == {"kind": "structural", "materials": "none"}
    assert proposed("Unit 7", assembly=True) == {"kind": "structural", "materials": "none"}
    told = proposed("Pneumatic cylinder", assembly=True, moves_below=False)
    assert told == {"kind": "mechanical"}
    assert proposed("Control cabinet, 24 V", assembly=True) == {"kind": "electrical"}
