"""Names: exact, in every system of names, and never the milder of two."""

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from areafit.tables import Tables, names

T = Tables.shipped()
KINDS = ("chemicals", "dusts", "materials", "substances")


@pytest.mark.parametrize(
    ("name", "identity"),
    [
        ("316 l", "316L"),
        ("1.4404", "316L"),
        ("s31603", "316L"),
        ("AISI 304", "304"),
        ("A4-70", "316"),
        ("PUR ether", "TPU-ether"),
        ("PUR ester", "TPU-ester"),
        ("aluminium 6061", "AL-6061"),
        ("aluminum 6061", "AL-6061"),
        ("EN AW-6061", "AL-6061"),
        ("en aw 6061", "AL-6061"),
        ("AlMg3", "AL-5754"),
        ("EN AW-5754", "AL-5754"),
        ("polyester powder coat", "polyester-powder"),
        ("FKM type A", "FKM"),
        ("PVC-U", "PVC-U"),
        ("nitrile rubber", "NBR"),
        ("CW614N", "brass-CW614N"),
        ("CuZn39Pb3", "brass-CW614N"),
        ("EN-GJL-250", "cast-iron-grey"),
        ("ZAMAK 5", "zinc-diecast"),
        ("ISO 4042", "steel-zinc-plated"),
    ],
)
def test_materials_by_the_names_of_the_trade(name: str, identity: str) -> None:
    found = T.material(name)
    assert found is not None
    assert found.id == identity


@pytest.mark.parametrize(
    ("name", "identity"),
    [
        ("sodium hydroxide", "sodium-hydroxide"),
        ("NaOH", "sodium-hydroxide"),
        ("1310-73-2", "sodium-hydroxide"),
        ("sulphuric acid", "sulfuric-acid"),
        ("sulfuric acid", "sulfuric-acid"),
        ("Peracetic Acid", "peracetic-acid"),
        ("bleach", "sodium-hypochlorite"),
        ("ipa", "isopropanol"),
        ("67-64-1", "acetone"),
    ],
)
def test_chemicals_by_name_formula_and_number(name: str, identity: str) -> None:
    found = T.chemical(name)
    assert found is not None
    assert found.id == identity


@pytest.mark.parametrize(
    ("name", "identity"),
    [
        ("ethanol", "ethanol"),
        ("isopropanol", "2-propanol"),
        ("IPA", "2-propanol"),
        ("MEK", "methyl-ethyl-ketone"),
        ("64-17-5", "ethanol"),
        ("Hydrogen Sulphide", "hydrogen-sulfide"),
        ("NH3", "ammonia"),
        ("diesel", "diesel-fuel-fuel-oil-no-2"),
        ("petrol", "gasoline"),
        ("xylene", "xylenes-mixed-isomers"),
    ],
)
def test_gases_and_vapours(name: str, identity: str) -> None:
    found = T.substance(name)
    assert found is not None
    assert found.id == identity


@pytest.mark.parametrize(
    ("name", "identity"),
    [
        ("wheat flour", "wheat-flour"),
        ("aluminium dust", "aluminium-dust"),
        ("aluminum powder", "aluminium-dust"),
        ("sugar", "sugar"),
        ("grain dust", "grain-dust"),
        ("coal dust", "coal-dust"),
        ("wood dust", "wood-flour"),
    ],
)
def test_dusts(name: str, identity: str) -> None:
    found = T.dust(name)
    assert found is not None
    assert found.id == identity


@pytest.mark.parametrize(
    "name",
    ["PUR", "PVC", "stainless", "stainless steel", "nylon", "POM", "aluminium", "brass", "steel"],
)
def test_a_name_that_does_not_say_which_is_never_resolved_to_one(name: str) -> None:
    assert T.material(name) is None
    assert len(T.materials(name)) > 1


def test_shared_names_hold_the_onerous_member() -> None:
    def members(name: str) -> set[str]:
        return {row.id for row in T.materials(name)}

    assert {"TPU-ester", "TPU-ether"} == members("polyurethane")
    assert "PVC-P" in members("PVC")
    assert {"303", "410", "304"} <= members("stainless")
    assert "brass-C260" in members("brass")  # above 65 % copper
    assert "AL-cast-AlMg9" in members("aluminium")  # above 7.5 % magnesium


def test_cas_numbers_of_several_forms_name_all_of_them() -> None:
    assert T.chemical("7732-18-5") is None
    assert len(T.chemicals("7732-18-5")) == 4
    assert {row.id for row in T.chemicals("chlorine")} == {"chlorine-dry", "chlorine-wet"}


@pytest.mark.parametrize("kind", KINDS)
def test_a_name_belongs_to_one_row_or_is_listed_as_shared(kind: str) -> None:
    owners: dict[str, set[str]] = {}
    for identity in T.ids(kind):
        row = getattr(T, kind)(identity)[0]
        assert row.id == identity
        for name in (row.name, *row.names):
            owners.setdefault(names.key(name), set()).add(identity)
    shared = {name: holders for name, holders in owners.items() if len(holders) > 1 and name}
    for name, holders in shared.items():
        assert {row.id for row in getattr(T, kind)(name)} >= holders or any(
            names.key(identity) == name for identity in holders
        ), (name, holders)


@pytest.mark.parametrize("kind", KINDS)
def test_every_name_finds_its_row(kind: str) -> None:
    for identity in T.ids(kind):
        row = getattr(T, kind)(identity)[0]
        for name in (row.name, *row.names):
            assert identity in {found.id for found in getattr(T, kind)(name)}, (name, identity)


def test_the_ids_of_the_first_tables_stay_names() -> None:
    # ids that bills of materials may already use
    text = (Path(__file__).parent / "accepted_ids.txt").read_text(encoding="utf-8")
    for line in text.splitlines():
        kind, _, identity = line.partition(" ")
        assert identity in T.ids(kind), line


def test_unknown_names_get_the_nearest_known_ones_but_no_row() -> None:
    assert T.material("316LL") is None
    assert "316L" in T.nearest("material", "316LL")
    assert T.substance("ethanoll") is None
    assert any(name.casefold() == "ethanol" for name in T.nearest("substance", "ethanoll"))
    assert T.nearest("chemical", "qqqqqqqqqqqq") == ()


KNOWN = {names.key(name) for kind in KINDS for name in T._named(kind).known_names()}  # noqa: SLF001


@settings(deadline=None)
@given(st.text(max_size=30))
def test_a_look_up_never_guesses(text: str) -> None:
    numbers = text.strip().count("-") == 2
    if names.key(text) not in KNOWN and not numbers:
        # What is read by rule says by which row: `industrial` beside a known name.
        assert not any(getattr(T, kind)(text) and not T.reading(kind, text).said for kind in KINDS)


def test_commas_and_dots_distinguish_substances() -> None:
    assert names.key("1,1-dichloroethane") != names.key("11-dichloroethane")
    assert names.key("1.4404") != names.key("14404")


@pytest.mark.parametrize(
    ("name", "identity"),
    [
        ("stainless steel 316L", "316L"),
        ("aluminum 6061-T6", "AL-6061"),
        ("butyl", "IIR"),
        ("ductile iron", "cast-iron-ductile"),
        ("borosilicate", "glass-borosilicate"),
    ],
)
def test_generic_words_of_the_trade(name: str, identity: str) -> None:
    """Common practice, no source; words that a maker owns are no names here."""
    found = T.material(name)
    assert found is not None
    assert found.id == identity
