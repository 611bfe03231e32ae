"""What a name changes in a verdict: fillers, coats, shared and trade names, strengths, waters.

Every expectation is from memory or common practice; no published table was read for it.
"""

from collections.abc import Callable

import pytest

from areafit.tables import Tables
from areafit.verdict import Verdict

Say = Callable[..., Verdict]
Tell = Callable[..., str]
P, F, U = Verdict.PASS, Verdict.FLAG, Verdict.UNPROVEN
RULE = "chemical-resistance"
HF = "{name: hydrofluoric acid, concentration: 20 %, temperature: 25 °C}"
NITRIC = "{name: nitric acid, concentration: 20 %, temperature: 25 °C}"
SULFURIC = "{name: sulfuric acid, concentration: 20 %, temperature: 25 °C}"
CAUSTIC = "{name: sodium hydroxide, concentration: 20 %, temperature: 80 °C}"
BRINE = "{name: sodium chloride, concentration: 3 %, temperature: 25 °C}"


def _part(material: str, exposure: str = "immersed", more: str = "") -> str:
    use = f"{{material: '{material}', exposure: {exposure}{more}}}"
    return f"kind: structural, materials: [{use}], contacts: none"


def _place(*chemicals: str) -> str:
    return f"chemicals: [{', '.join(chemicals)}], ambient: 5..30 °C"


@pytest.mark.parametrize(
    ("material", "chemical", "expected"),
    [
        ("PTFE", HF, P),
        ("PTFE + 25 % glass", HF, F),
        ("PTFE GF15 schwarz", HF, F),
        ("glass filled PTFE", NITRIC, P),
        ("PTFE + 25 % carbon", HF, P),
        ("PTFE carbon filled", SULFURIC, P),
        ("PTFE 60% bronze", NITRIC, F),
        ("PTFE 60% bronze", SULFURIC, U),
        ("PTFE 60% bronze", BRINE, P),
        ("PP", HF, P),  # two published lists; a third prints no strength and holds above them
        ("PP-GF30", HF, F),
        ("PP GF20", BRINE, P),
    ],
)
def test_a_filler_matters_where_it_fails(
    say: Say, material: str, chemical: str, expected: Verdict
) -> None:
    assert say(RULE, _part(material), _place(chemical)) is expected


def test_a_filler_is_named_and_cured(tell: Tell, remedies: Callable[..., list[str]]) -> None:
    asked = (RULE, _part("PTFE GF25"), _place(HF))
    assert "glass-fibre, the filler of PTFE GF25" in tell(*asked)
    (remedy,) = remedies(*asked)
    assert "without this filler" in remedy


def test_bronze_in_ptfe_is_copper(say: Say) -> None:
    # copper and acetylene: 46 CFR 56.50-103 names 65 %
    place = "substances: [acetylene], area: 'Zone 1, IIC, T2', ambient: 5..30 °C, chemicals: none"
    assert say("copper-alloy", _part("PTFE 60% bronze", "fume"), place) is F
    assert say("copper-alloy", _part("PTFE GF25", "fume"), place) is Verdict.NOT_APPLICABLE


@pytest.mark.parametrize(
    ("material", "chemical", "expected"),
    [
        # flame-retardant polypropylene, not polyphenylene sulfide
        ("PPs", "{name: hydrochloric acid, concentration: 10 %, temperature: 25 °C}", P),
        ("PP-s", "{name: toluene, temperature: 40 °C}", F),
        ("PPS", "{name: toluene, temperature: 40 °C}", P),
        ("pps", "{name: toluene, temperature: 40 °C}", F),
        # the worst of what the name means
        ("C22", SULFURIC, F),
        ("alloy C-22", SULFURIC, U),  # an analogy
        ("C22", BRINE, F),
        ("A2", NITRIC, U),
        ("A2-70", NITRIC, P),
        ("Edelstahl A2", NITRIC, P),
        ("1050", CAUSTIC, F),
        ("EN AW-1050A", CAUSTIC, F),
        ("AISI 1050", "{name: sodium hydroxide, concentration: 5 %, temperature: 25 °C}", P),
        ("1050", "{name: sodium hydroxide, concentration: 5 %, temperature: 25 °C}", F),
    ],
)
def test_the_worst_of_a_shared_name_governs(
    say: Say, material: str, chemical: str, expected: Verdict
) -> None:
    assert say(RULE, _part(material), _place(chemical)) is expected


@pytest.mark.parametrize(
    ("material", "meant"),
    [("C22", "carbon-steel"), ("A2", "tool-steel"), ("1050", "AL-1050A")],
)
def test_a_shared_name_says_which_governs(tell: Tell, material: str, meant: str) -> None:
    chemical = {"A2": NITRIC}.get(material, CAUSTIC if material == "1050" else SULFURIC)
    told = tell(RULE, _part(material), _place(chemical))
    assert f"{material} (which may be {meant})" in told


def test_a_grade_that_would_do_is_asked_for(remedies: Callable[..., list[str]]) -> None:
    (remedy,) = remedies(RULE, _part("A2"), _place(NITRIC))
    assert "name the grade, if it is 304 austenitic stainless steel" in remedy.casefold()


@pytest.mark.parametrize(
    ("trade", "polymer"),
    [
        ("Kalrez", "FFKM"),
        ("Plexiglas", "PMMA"),
        ("Hypalon", "CSM"),
        ("neoprene", "CR"),
        ("Viton", "FKM"),
        ("Delrin", "POM-H"),
        ("Makrolon", "PC"),
        ("Kynar", "PVDF"),
    ],
)
@pytest.mark.parametrize("chemical", [NITRIC, CAUSTIC, "{name: acetone, temperature: 20 °C}"])
def test_a_trade_name_is_judged_as_its_polymer(
    say: Say, trade: str, polymer: str, chemical: str
) -> None:
    assert say(RULE, _part(trade), _place(chemical)) is say(RULE, _part(polymer), _place(chemical))


@pytest.mark.parametrize(
    ("named", "stated"),
    [
        ("HNO3 20 %", "{name: nitric acid, concentration: 20 %"),
        ("'NaOH 50 Gew.-%'", "{name: sodium hydroxide, concentration: 50 %"),
        ("Salzsäure 10 %", "{name: hydrochloric acid, concentration: 10 %"),
        ("conc. sulfuric acid", "{name: sulfuric acid, concentration: 93..98 %"),
    ],
)
@pytest.mark.parametrize("material", ["316L", "carbon steel", "PP", "PVDF", "EPDM"])
def test_a_strength_in_the_name_counts(say: Say, material: str, named: str, stated: str) -> None:
    by_name = say(RULE, _part(material), _place(f"{{name: {named}, temperature: 25 °C}}"))
    by_key = say(RULE, _part(material), _place(f"{stated}, temperature: 25 °C}}"))
    assert by_name is by_key


def test_two_strengths_hold_both(say: Say) -> None:
    both = "{name: HCl 1 %, concentration: 30 %, temperature: 25 °C}"
    units = "{name: H2SO4 1 %, concentration: 900 g/L, temperature: 25 °C}"
    assert say(RULE, _part("316L"), _place(both)) is F
    assert say(RULE, _part("316L"), _place(units)) is not P


BATHS = [
    ("BOE", "glass", F),
    ("BOE", "PVDF", P),
    ("buffered oxide etch", "quartz glass", F),
    ("piranha solution", "PP", F),
    ("piranha solution", "PTFE", P),
    ("SC1", "AlMg3", F),
    ("SC1", "PFA", P),
    ("SC2", "316L", F),
    ("pickling paste", "304", F),
    ("pickling paste", "glass", F),
    ("zinc phosphate bath", "carbon steel", F),
    ("zinc phosphate bath", "316L", P),
    ("electroless nickel bath", "carbon steel", F),
    ("electroless nickel bath", "PP", P),
    ("Watts bath", "AlMg3", F),
    ("AdBlue", "brass", F),
    ("AdBlue", "316L", P),
    ("Skydrol", "NBR", F),
    ("Skydrol", "EPDM", P),
    ("cooling lubricant emulsion", "NBR", P),
    ("cooling lubricant emulsion", "PC", F),
    ("ozonated water", "NBR", F),
    ("ozonated water", "PVDF", P),
    ("compressed air", "NBR 70", P),
    ("compressed air", "carbon steel", P),
]


@pytest.mark.parametrize(("bath", "material", "expected"), BATHS)
def test_named_baths(say: Say, bath: str, material: str, expected: Verdict) -> None:
    place = _place(f"{{name: {bath}, temperature: 25 °C}}")
    assert say(RULE, _part(material), place) is expected


@pytest.mark.parametrize(
    ("members", "bath"),
    [
        (("sulfuric acid", "hydrogen peroxide"), "piranha"),
        (("ammonium fluoride", "HF 5 %"), "BOE"),
        (("Ammoniakwasser", "hydrogen peroxide"), "SC1"),
        (("nitric acid", "Flusssäure"), "pickling paste"),
        (("copper sulfate", "sulfuric acid"), "acid copper bath"),
    ],
)
@pytest.mark.parametrize("material", ["glass", "PTFE", "316L", "PP"])
def test_a_bath_by_its_parts_is_the_bath_by_its_name(
    say: Say, tell: Tell, members: tuple[str, str], bath: str, material: str
) -> None:
    mixed = [f"{{name: {one}, concentration: 5 %, temperature: 25 °C, bath: a}}" for one in members]
    told = tell(RULE, _part(material), _place(*mixed))
    assert "no data for what they become" not in told
    named = say(RULE, _part(material), _place(f"{{name: {bath}, temperature: 25 °C}}"))
    assert say(RULE, _part(material), _place(*mixed)) is named or named is P


@pytest.mark.parametrize(
    ("members", "fits"),
    [
        ("hydrochloric acid: 5, hydrogen peroxide: 4", True),
        ("hydrochloric acid: 5, hydrogen peroxide: 10", False),
        ("hydrochloric acid: 30, hydrogen peroxide: 4", False),
        ("ammonia solution: 25, hydrogen peroxide: 4", False),
        ("nitric acid: 20, hydrofluoric acid: 5", True),
        ("nitric acid: 65, hydrofluoric acid: 5", False),
        ("chromic acid: 25, sulfuric acid: 0.25", True),
        ("chromic acid: 25, sulfuric acid: 25", False),  # an etch for plastics
        ("hydrochloric acid: 37, nitric acid: 65", True),  # nothing is worse than aqua regia
        ("sulfuric acid: 90, hydrogen peroxide: 35", True),
    ],
)
def test_what_is_stronger_than_a_named_bath_is_not_that_bath(
    tell: Tell, members: str, *, fits: bool
) -> None:
    # compositions of the named baths, ASTM A380 of the pickle: from memory
    pairs = (one.split(": ") for one in members.split(", "))
    mixed = [
        f"{{name: {name}, concentration: {share} %, temperature: 25 °C, bath: a}}"
        for name, share in pairs
    ]
    told = tell(RULE, _part("PTFE"), _place(*mixed))
    assert ("no data for what they become" in told) is not fits


@pytest.mark.parametrize(
    ("material", "expected"),
    [("PP", P), ("titanium grade 2", P), ("304", U), ("410", F), ("PA66", F), ("6082", F)],
)
def test_an_acid_copper_bath_is_no_mere_salt(say: Say, material: str, expected: Verdict) -> None:
    # a tenth of sulfuric acid and some chloride: from memory of such baths
    bath = _place("{name: acid copper bath, temperature: 25 °C}")
    assert say(RULE, _part(material), bath) is expected


WATERS = [
    ("tap water", "PP", 60, P),
    ("tap water", "HDPE", 50, P),
    ("tap water", "HDPE", 80, U),
    ("tap water", "EPDM", 90, P),
    ("tap water", "NBR", 60, P),
    ("tap water", "FKM", 60, P),
    ("rinse water", "PVDF", 80, P),
    ("rinse water", "PVC-U", 40, P),
    ("deionised water", "316L", 90, P),
    ("deionised water", "304", 95, P),
    ("deionised water", "glass", 40, P),
    ("deionised water", "bronze-tin", 40, P),
    ("tap water", "bronze-tin", 60, P),
    ("hot water", "bronze-tin", 70, P),
    ("hot water", "316L", 50, P),
    ("hot water", "316L", 90, U),  # chloride and heat
    ("hot water", "glass-borosilicate", 95, P),
    ("hot water", "PVC-U", 90, F),
    ("hot water", "PEEK", 95, P),
    ("hot water", "POM-C", 95, U),
    ("Leitungswasser", "1.4301", 20, P),
    ("demin water", "PTFE", 90, P),
    ("tap water", "PA66 schwarz", 20, P),
    ("tap water", "Plexiglas", 20, P),
    ("tap water", "carbon steel", 20, F),
]


@pytest.mark.parametrize(("water", "material", "heat", "expected"), WATERS)
def test_waters(say: Say, water: str, material: str, heat: int, expected: Verdict) -> None:
    place = _place(f"{{name: {water}, temperature: {heat} °C}}")
    assert say(RULE, _part(material), place) is expected


@pytest.mark.parametrize("water", ["tap water", "deionised water", "hot water"])
@pytest.mark.parametrize(
    "material",
    ["PP", "HDPE", "PVDF", "PA66", "POM-C", "PC", "EPDM", "NBR", "FKM", "316L", "bronze-tin"],
)
def test_hotter_water_never_passes_more(say: Say, water: str, material: str) -> None:
    order = [F, U, P]
    ranks = [
        order.index(say(RULE, _part(material), _place(f"{{name: {water}, temperature: {t} °C}}")))
        for t in (20, 60, 95, 140)
    ]
    assert ranks == sorted(ranks, reverse=True)


@pytest.mark.parametrize(
    ("material", "more", "expected"),
    [
        ("42CrMo4", ", component: shaft", Verdict.NOT_APPLICABLE),
        ("42CrMo4", ", component: screw", U),
        ("42CrMo4+QT", ", component: screw, property_class: '8.8'", P),
        ("42CrMo4 hardened", ", component: shaft", F),
        ("4140", ", component: screw, property_class: '12.9'", F),
        ("12.9 zinc plated", ", component: screw", F),
        ("8.8 zinc plated", ", component: screw, property_class: '8.8'", P),
        ("DIN 912 12.9", ", component: screw", F),
        ("16MnCr5 einsatzgehärtet", ", component: gear", F),
    ],
)
def test_strength_is_not_guessed_from_the_alloy(
    say: Say, material: str, more: str, expected: Verdict
) -> None:
    place = _place("{name: hydrochloric acid, concentration: 10 %, temperature: 25 °C}")
    assert say("hydrogen-embrittlement", _part(material, "fume", more), place) is expected


def test_a_trade_name_says_what_it_is_taken_for(
    tell: Tell, remedies: Callable[..., list[str]]
) -> None:
    assert "Kalrez (read as FFKM) resists" in tell(RULE, _part("Kalrez"), _place(SULFURIC))
    assert "FFKM resists" in tell(RULE, _part("FFKM"), _place(SULFURIC))
    (remedy,) = remedies(RULE, _part("neoprene"), _place("{name: acetone, temperature: 20 °C}"))
    assert "name the grade" in remedy.casefold()


@pytest.mark.parametrize(
    ("index", "spoken"),
    [
        ("ammonia, anhydrous", "anhydrous ammonia"),
        ("acetic acid, glacial", "glacial acetic acid"),
        ("water, deionised", "deionised water"),
        ("acid, phosphoric", "phosphoric acid"),
        ("chlorine, dry", "dry chlorine"),
    ],
)
def test_an_index_name_is_the_spoken_one(index: str, spoken: str) -> None:
    """Safety data sheets and indices of substances put the head first (common practice)."""
    tables = Tables.shipped()
    assert tables.chemicals(index) == tables.chemicals(spoken) != ()


@pytest.mark.parametrize("name", ["ammonia, nobody", "a, b", "water, wine", "PTFE, glass, filled"])
def test_a_comma_alone_makes_no_name(name: str) -> None:
    """From memory: what is no name either way stays unknown."""
    assert Tables.shipped().chemicals(name) == ()
