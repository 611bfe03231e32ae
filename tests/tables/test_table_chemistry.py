"""What chemistry forbids is answered as suitable by no row, at any usual strength.

Families against families of chemicals, as any handbook of corrosion or of plastics has them: from
memory. A row that is an exception stands in `EXCEPTIONS` with its reason.
"""

import re
from decimal import Decimal
from typing import NamedTuple

import pytest

from areafit.facts.quantity import Range
from areafit.tables import Tables
from areafit.tables.chemicals import Chemical
from areafit.tables.materials import Material, is_stainless
from areafit.tables.resistance import Rating

TABLES = Tables.shipped()
MATERIALS = TABLES.rows("materials", Material)
KNOWN = {chemical.id for chemical in TABLES.rows("chemicals", Chemical)}
STRENGTHS = (5, 20, 50, 90)
HEATS = (25, 60)


class Forbidden(NamedTuple):
    """Materials that do not stand these chemicals, from a strength in mass % on and up to one."""

    why: str
    materials: frozenset[str]
    chemicals: frozenset[str]
    least: int = 0
    most: int = 100


def _of(*families: str) -> frozenset[str]:
    return frozenset(each.id for each in MATERIALS if any(word in each.family for word in families))


def _ids(text: str) -> frozenset[str]:
    return frozenset(text.split())


STEEL = _of("carbon steel", "high-strength steel", "cast iron", "zinc-coated", "tin-coated")
ZINC, ALUMINIUM = _of("zinc alloy"), _of("aluminium")
COPPER = _of("copper alloy") - _of("copper alloy, coated")
STAINLESS = frozenset(each.id for each in MATERIALS if is_stainless(each))
POLYAMIDES = frozenset(each.id for each in MATERIALS if re.match(r"PA\d", each.id))

ACIDS = _ids(
    "hydrochloric-acid hydrobromic-acid methanesulfonic-acid sulfamic-acid fluoboric-acid "
    "fluosilicic-acid perchloric-acid aqua-regia mixed-pickling-acid SC2 piranha acid-copper-bath"
)
LYES = _ids("sodium-hydroxide potassium-hydroxide TMAH alkaline-wash alkaline-zinc-bath")
KETONES = _ids("acetone methyl-ethyl-ketone methyl-isobutyl-ketone cyclohexanone")
ESTERS = _ids("ethyl-acetate butyl-acetate vinyl-acetate methyl-methacrylate")
AROMATICS = _ids("benzene toluene xylene ethylbenzene styrene chlorobenzene")
CHLORINATED = _ids("dichloromethane chloroform trichloroethylene perchloroethylene")
POLAR = _ids("dimethylformamide N-methylpyrrolidone tetrahydrofuran 1-4-dioxane")
OILS = _ids("n-hexane n-heptane cyclohexane gasoline diesel kerosene white-spirit mineral-oil")
FLUORIDES = _ids("hydrofluoric-acid ammonium-bifluoride buffered-oxide-etch mixed-pickling-acid")
SOLVENTS = KETONES | ESTERS | AROMATICS | CHLORINATED | POLAR

RULES = (
    Forbidden("an active metal in acid", STEEL | ZINC, ACIDS),
    Forbidden("an active metal in weak sulfuric acid", STEEL | ZINC, _ids("sulfuric-acid"), 0, 70),
    Forbidden("steel and zinc in nitric acid", STEEL | ZINC, _ids("nitric-acid phosphoric-acid")),
    Forbidden("aluminium in acid", ALUMINIUM, ACIDS | _ids("hydrofluoric-acid")),
    Forbidden("amphoteric metals in alkali", ALUMINIUM | ZINC, LYES),
    Forbidden(
        "copper in what complexes or oxidises it",
        COPPER,
        _ids(
            "ammonium-hydroxide nitric-acid ferric-chloride cupric-chloride ammonium-persulfate "
            "sodium-persulfate sodium-cyanide chromic-acid peracetic-acid sodium-hypochlorite "
            "hydrogen-sulfide sodium-sulfide aqua-regia chlorine-wet"
        ),
    ),
    Forbidden(
        "stainless steel in halide acids",
        STAINLESS,
        _ids("hydrochloric-acid hydrobromic-acid hydrofluoric-acid ferric-chloride bromine SC2"),
    ),
    Forbidden("titanium in fluoride", _of("titanium"), FLUORIDES | _ids("chlorine-dry")),
    Forbidden("glass in fluoride", _of("glass"), FLUORIDES),
    Forbidden("tantalum in fluoride", _ids("tantalum"), FLUORIDES | _ids("oleum")),
    Forbidden("zirconium", _ids("Zr702"), FLUORIDES | _ids("ferric-chloride chlorine-wet")),
    Forbidden(
        "nickel in what oxidises it",
        _ids("alloy400 nickel200"),
        _ids("nitric-acid ferric-chloride cupric-chloride chromic-acid sodium-hypochlorite"),
    ),
    Forbidden(
        "polyamide",
        POLYAMIDES,
        ACIDS | _ids("hydrochloric-acid sulfuric-acid nitric-acid phenol cresol"),
        20,
    ),
    Forbidden("the amides that zinc cracks", _ids("PA6 PA66"), _ids("zinc-chloride")),
    Forbidden(
        "acetal",
        _ids("POM-C POM-H"),
        ACIDS | _ids("sulfuric-acid nitric-acid sodium-hypochlorite peracetic-acid chlorine-wet"),
        20,
    ),
    Forbidden("polycarbonate", _ids("PC"), LYES | SOLVENTS | _ids("monoethanolamine")),
    Forbidden("acrylics and styrenics", _ids("PMMA ABS PS SAN"), SOLVENTS),
    Forbidden("PVC", _ids("PVC-U PVC-C PVC-P"), SOLVENTS),
    Forbidden("PVDF", _ids("PVDF"), KETONES | _ids("sodium-hydroxide dimethylformamide")),
    Forbidden("sulfones", _ids("PSU PES PEI"), KETONES | _ids("dichloromethane chloroform")),
    Forbidden("polyolefins", _ids("HDPE LDPE PP UHMWPE"), AROMATICS | CHLORINATED),
    Forbidden(
        "rubber that oil swells",
        _ids("EPDM EPDM-peroxide IIR NR SBR VMQ"),
        OILS | AROMATICS | CHLORINATED,
    ),
    Forbidden("nitrile rubber", _ids("NBR HNBR"), SOLVENTS | _ids("phosphate-ester-fluid")),
    Forbidden("rubber that ozone cracks", _ids("NBR NR SBR"), _ids("ozone")),
    Forbidden("chloroprene", _ids("CR"), SOLVENTS),
    Forbidden("fluoro rubber", _ids("FKM FKM-highF"), KETONES | ESTERS | _ids("ammonia-gas")),
    Forbidden("polyurethane", _ids("TPU-ester TPU-ether"), ACIDS | KETONES | POLAR, 20),
)
EXCEPTIONS = {
    ("2507", "ferric-chloride"): "ASTM G48 tests it in this solution, and it pits in the heat only",
    ("6Mo-S31254", "ferric-chloride"): "the same",
}


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.why)
def test_no_row_lets_pass_what_chemistry_forbids(rule: Forbidden) -> None:
    let_pass = [
        (material, chemical, strength, heat)
        for material in sorted(rule.materials)
        for chemical in sorted(rule.chemicals & KNOWN)
        for strength in (*STRENGTHS, 100)
        if rule.least <= strength <= rule.most
        for heat in HEATS
        if (material, chemical) not in EXCEPTIONS and _suitable(material, chemical, strength, heat)
    ]
    assert let_pass == []


def _suitable(material: str, chemical: str, strength: int, heat: int) -> bool:
    at, warm = Range.of(Decimal(strength)), Range.of(Decimal(heat))
    found = TABLES.resistance_at(material, chemical, at, warm)
    return found.complete and found.rating is Rating.SUITABLE


def test_every_rule_speaks_of_rows_that_exist() -> None:
    for rule in RULES:
        pairs = {
            (material, chemical)
            for material in rule.materials
            for chemical in rule.chemicals
            if TABLES.resistance(material, chemical)
        }
        assert pairs, rule.why
        assert rule.chemicals <= KNOWN, rule.why
    for material, chemical in EXCEPTIONS:
        assert TABLES.resistance(material, chemical)
