"""A company's own rows: what is required, what is found and the verdict come from the same row.

A blank cell means as shipped, so an own row may set one figure below another that the shipped row
gives. Common practice, no source.
"""

from collections.abc import Callable
from typing import Any

import pytest

from areafit.rule import Judgement
from areafit.tables import Tables
from areafit.tables.load import raw
from areafit.verdict import Verdict

SOURCES = b"id,title,edition,publisher,kind,read_on,note\nhouse,House rules,,Us,practice,,\n"
Own = Callable[..., Judgement]


@pytest.fixture
def own(ask: Any) -> Own:
    """The decisive judgement of a rule under one own row, whose other cells are as shipped."""

    def run(
        rule: str, row: dict[str, dict[str, str]], place: dict[str, Any], *parts: dict[str, Any]
    ) -> Judgement:
        ((table, cells),) = row.items()
        header, _ = raw(table)
        said = {"source_id": "house", "locator": "1", "basis": "seen", **cells}
        line = ",".join(said.get(name, "") for name in header)
        files = {"sources.csv": SOURCES, f"{table}.csv": f"{','.join(header)}\n{line}\n".encode()}
        found: Judgement = ask(rule, place, *parts, tables=Tables.overlaid(files)).decisive
        return found

    return run


def water(chloride: str, heat: str = "20 °C") -> dict[str, Any]:
    return {"chemicals": [{"name": "tap water", "chloride": chloride, "temperature": heat}]}


def steel(material: str, exposure: str = "immersed", **more: Any) -> dict[str, Any]:
    return {"materials": [{"material": material, "exposure": exposure, **more}]}


@pytest.mark.parametrize(
    ("chloride", "more", "verdict", "required"),
    [
        (600, {"crevice": False}, Verdict.FLAG, "below 500 mg/L"),
        (500, {"crevice": False}, Verdict.FLAG, "below 500 mg/L"),
        (499, {"crevice": False}, Verdict.PASS, "below 500 mg/L"),
        (49, {"crevice": True}, Verdict.PASS, "below 50 mg/L"),
        (50, {"crevice": True}, Verdict.FLAG, "below 50 mg/L"),
        (49, {"crevice": None}, Verdict.PASS, "below 500 mg/L"),
        (50, {"crevice": None}, Verdict.UNPROVEN, "chloride below"),
        (600, {"exposure": "splash", "crevice": False}, Verdict.FLAG, "below 50 mg/L"),
        (60, {"exposure": "splash", "crevice": False}, Verdict.UNPROVEN, "chloride below"),
    ],
)
def test_where_an_own_row_says_that_steel_pits_no_more_is_required(
    own: Own, chloride: int, more: dict[str, Any], verdict: Verdict, required: str
) -> None:
    """316 pits from 500 mg/L on in this house; ours says that it withstands 1000."""
    row = {"pitting_limits": {"pren_min": "23", "fails_mg_l": "500"}}
    found = own("pitting", row, water(f"{chloride} mg/L"), steel("316", **more))
    assert found.verdict is verdict
    assert found.required.startswith(required)
    assert found.found.startswith(f"{chloride} mg/L")


COAST = {"chemicals": ["marine air"], "ambient": "0..35 °C"}


@pytest.mark.parametrize(
    ("pren", "salt_air", "material", "crevice", "verdict", "required"),
    [
        (
            "33",
            "stains",
            "2205",
            False,
            Verdict.UNPROVEN,
            "from 23 to below 33 and from 40 on open",
        ),
        ("33", "stains", "316", False, Verdict.PASS, "from 23 to below 33 and from 40 on open"),
        ("33", "open surfaces", "2205", True, Verdict.UNPROVEN, "from 40 with crevices"),
        ("9", "stains", "316", False, Verdict.PASS, "from 23 on open surfaces, from 33 with"),
    ],
)
def test_an_own_row_says_which_class_stands_salt_air(
    own: Own,
    pren: str,
    salt_air: str,
    material: str,
    *,
    crevice: bool,
    verdict: Verdict,
    required: str,
) -> None:
    cells = {"pren_min": pren, "salt_air": salt_air, "chloride_mg_l": "100", "temp_max_c": "30"}
    found = own(
        "salt-air", {"pitting_limits": cells}, COAST, steel(material, "splash", crevice=crevice)
    )
    assert found.verdict is verdict
    assert required in found.required
    assert found.rows[0].source_id == (
        "house" if verdict is not Verdict.PASS else "corrosion-textbook"
    )


@pytest.mark.parametrize(("heat", "verdict"), [("39 °C", Verdict.PASS), ("40 °C", Verdict.FLAG)])
def test_where_an_own_row_says_that_an_alloy_cracks_no_guide_lets_it_pass(
    own: Own, heat: str, verdict: Verdict
) -> None:
    """Ours has 50 °C as a guide for 304, and the own row 40 °C as the limit."""
    row = {"chloride_cracking": {"family": "austenitic stainless steel", "limit_c": "40"}}
    found = own("stress-corrosion", row, water("50 mg/L", heat), steel("304"))
    assert found.verdict is verdict
    assert found.required == "below 40 °C in this chloride, or no lasting stress"


def test_the_strictest_limit_governs_where_the_air_is_not_stated(own: Own) -> None:
    """Brass and copper differ by 100 mV, within the shipped limits of all air."""
    parts = (
        {**steel("CW614N", "room"), "contacts": [{"with": "2"}]},
        {**steel("copper", "room"), "contacts": "none"},
    )
    row = {"galvanic_limits": {"atmosphere": "controlled", "limit_mv": "60"}}
    found = own("galvanic-couple", row, water("50 mg/L"), *parts)
    assert found.verdict is Verdict.UNPROVEN
    assert "allowed in normal air, too much in controlled" in found.message
    assert found.rows[-1].value == "60 mV"


def test_a_stricter_cold_limit_holds_for_fasteners_of_a_class_too(own: Own) -> None:
    row = {"materials": {"id": "carbon-steel", "tmin_c": "-10"}}
    place = {"ambient": "-15..40 °C", "chemicals": "none"}
    use = {"material": "carbon steel", "component": "screw", "property_class": "8.8"}
    assert own("material-temperature", row, place, {"materials": [use]}).verdict is Verdict.FLAG
