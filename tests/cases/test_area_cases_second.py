"""The second set of worked area cases: a neutral form, mapped to the format here.

Each case names its source in the data file. What is compared is the worst verdict over the rules
that concern the subject that the case says decides (`DECIDES`), since a list of materials also
lacks facts that the case does not speak of.
"""

import json
from collections.abc import Callable
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest

from areafit.registry import RULES
from areafit.verdict import Verdict

Tree = dict[str, Any]
CASES: list[Tree] = json.loads(
    (Path(__file__).parent / "area_cases_second_open.json").read_text(encoding="utf-8")
)
KNOWN = {rule.id for rule in RULES}

# The subject that decides a case, and the rules that concern it.
DECIDES = {
    "epl": ("protection-level", "protection-type"),
    "group": ("gas-group", "dust-group"),
    "temperature": ("temperature-class",),
    "ambient": ("ambient-range",),
    "area": ("protection-level", "protection-type", "kind", "declared-area"),
    "evidence": ("evidence", "special-conditions", "ex-component", "marking-consistency"),
    "light-metal": ("light-metal",),
    "static": ("static-surface", "bonding"),
    "entity": (
        "loop-voltage",
        "loop-current",
        "loop-power",
        "loop-capacitance",
        "loop-inductance",
    ),
}
# Cases whose subject is another rule's by the kind of part that they speak of.
OWN_RULES = {
    "AO-075": ("loop-level",),
    "AO-077": ("ignition-hazard",),
    "AO-078": ("ignition-hazard",),
    "AO-081": ("ignition-hazard",),
    "AO-085": ("static-surface",),
    "AO-086": ("static-surface",),
    "AO-087": ("static-surface",),
    "AO-088": ("bonding",),
    "AO-089": ("bonding",),
    "AO-093": ("hydrogen-evolution",),
}
LAWS = {"ATEX": "ATEX", "IEC": "IEC", "NEC-DIV": "NEC", "NEC-ZONE": "NEC"}
LISTED = [{"type": "listing", "number": "E-0001"}, {"type": "control drawing", "number": "CD-1"}]
ATEX_CERTIFICATE = {"type": "certificate", "number": "ABC 21 ATEX 0001"}
DECLARATION = {"type": "declaration", "number": "DC-1"}
IECEX = [{"type": "certificate", "number": "IECEx ABC 21.0001"}]
ASSESSED = [{"type": "assessment", "number": "IHA-1"}]
MET = {"text": "as listed", "met_by": "named drawing", "document": "DN-1", "role": "designer"}


def complete(case: Tree) -> list[Tree]:
    """The documents that the law asks for."""
    text = (case["equipment"].get("marking") or "").rstrip()
    suffix = " U" if text.endswith(" U") else " X" if text.endswith(" X") else ""
    if case["system"] == "ATEX":
        return [DECLARATION, {**ATEX_CERTIFICATE, "number": f"ABC 21 ATEX 0001{suffix}"}]
    return IECEX if case["system"] == "IEC" else LISTED


def evidence(case: Tree) -> Any:
    """The documents that a case speaks of, by its words."""
    said = case["equipment"].get("evidence")
    number = {**ATEX_CERTIFICATE, "number": "ABC 21 ATEX 0001 X"}
    closed = "certificate held; each condition listed and closed by a named drawing"
    return {
        None: None,
        "complete": complete(case),
        "NRTL listed": LISTED,
        "NRTL listed, no EU conformity": LISTED,
        "EU certificate only, no NRTL listing": [ATEX_CERTIFICATE],
        "IECEx certificate only, no NRTL listing": IECEX,
        "certificate number held; conditions not recorded": [DECLARATION, number],
        closed: [DECLARATION, {**number, "conditions": [MET]}],
        "ignition hazard assessment on file: no own ignition source": ASSESSED,
        "ignition assessment on file": ASSESSED,
        "assessment on file": ASSESSED,
    }.get(said, "none")


def area(place: Tree) -> list[str]:
    """The declared area as its document would write it."""
    if place["zone" if "zone" in place else "division"] == "unclassified":
        return ["unclassified"]
    if "division" in place:
        group = f", Group {place['group_declared']}" if "group_declared" in place else ""
        return [f"Class {place['class']}, Division {place['division']}{group}"]
    zones = [place["zone"], *([place["dust_zone"]] if "dust_zone" in place else [])]
    return [f"Zone {zone}" for zone in zones]


def substance(row: Tree) -> Tree:
    """A substance with the case's own values, documented so that they govern."""
    keys = {
        "group": "group",
        "ait_c": "autoignition",
        "cloud_mit_c": "cloud_ignition",
        "layer5mm_lit_c": "layer_ignition",
        "organic_may_carbonize": "carbonises",
    }
    own = {
        key: f"{row[word]} °C" if word.endswith("_c") else row[word]
        for word, key in keys.items()
        if row.get(word) is not None
    }
    return {"name": row["name"], **own, "source": "worked case", "document": "worked case"}


def place(case: Tree) -> Tree:
    """The location."""
    given = case["location"]
    low, high = given["ambient_c"]
    found: Tree = {"area": area(given), "ambient": f"{low}..{high} °C", "document": "AC-1"}
    found["substances"] = [substance(row) for row in case.get("chemicals", ())] or "none"
    if found["area"] == ["unclassified"]:
        del found["substances"]  # what the outgoing circuit reaches, not what is here
    if "layer_mm" in given:
        found["layer"] = f"{given['layer_mm']} mm"
    if "tank" in given:
        found["chemicals"] = [{"name": "hydrochloric acid", "concentration": "15 %"}]
    return found


# Facts that a case states in words.
WORDED: dict[str, Tree] = {
    "AO-018": {"placed_on_market": "2025-01-01"},
    "AO-019": {"in_service": True},
    "AO-050": {
        "device": "squirrel-cage motor",
        "inverter_fed": False,  # a motor on the line; the case leaves drives out
        "space_heater": False,
    },
    "AO-051": {"device": "motor with switch", "contact_protection": "none"},
    "AO-052": {"device": "motor space heater"},
    "AO-053": {"device": "relay", "contact_protection": "hermetically sealed"},
    "AO-054": {"device": "push button", "contact_protection": "none"},
    "AO-055": {"pressurization": {"contents": "general purpose"}},
    "AO-056": {"surface_temperature": "135 °C"},  # outer surface T4
    "AO-061": {
        "device": "squirrel-cage motor",
        "enclosure": "totally enclosed",
        "overloadable": True,
    },
    "AO-080": {"in_service": True},
    "AO-090": {
        "materials": [
            {"component": "wheel", "material": "aluminium 6082", "counterface": "rusty steel"}
        ]
    },
    "AO-093": {"materials": [{"material": "zinc-plated steel", "exposure": "immersed"}]},
}


def part(case: Tree) -> Tree:
    """The part."""
    given = case["equipment"]
    electrical = given["kind"] == "electrical"
    found: Tree = {
        "item": "10",
        "location": "case",
        "kind": "electrical" if electrical else "mechanical",
        "description": given.get("device"),
        "marking": given.get("marking") or "none",
        "evidence": evidence(case),
        "arcing": given.get("arcing_parts"),
        "heat_producing": given.get("heat_producing"),
        "bonded": given.get("bonded"),
        "electrical_content": None if electrical else "none",
    }
    units = {
        "surface_c": ("surface_temperature", "°C"),
        "rub_speed_m_s": ("rubbing_speed", "m/s"),
        "isolated_capacitance_pF": ("capacitance", "pF"),
        "resistance_to_earth_ohm": ("resistance_to_earth", "ohm"),
    }
    for word, (key, unit) in units.items():
        if word in given:
            found[key] = f"{Decimal(str(given[word])):f} {unit}"
    if "enclosure_alloy" in given:
        shares = {metal: f"{share} %" for metal, share in given["enclosure_alloy"].items()}
        found["materials"] = [
            {
                "component": given.get("part", "enclosure"),
                "material": "alloy",
                "composition": shares,
            }
        ]
    if "plastic_area_cm2" in given:
        found["materials"] = [
            {
                "component": "cover",
                "material": "plastic",
                "surface_area": f"{given['plastic_area_cm2']} cm²",
                "surface_resistance": f"{given['surface_resistance_ohm']:.0e} ohm",
            }
        ]
    found.update(WORDED.get(case["id"], {}))
    return {key: value for key, value in found.items() if value is not None}


def loop(case: Tree) -> Tree:
    """An intrinsically safe loop, its source outside and its device in the area."""
    given = case["equipment"]
    names = {"Voc": "Uo", "Isc_mA": "Io_mA", "Ca_nF": "Co_nF", "La_mH": "Lo_mH"}
    names |= {"Vmax": "Ui", "Imax_mA": "Ii_mA"}

    def values(end: Tree) -> Tree:
        found = {}
        for word, value in end.items():
            key, _, unit = names.get(word, word).partition("_")
            if word not in ("level", "group") and value is not None:
                found[key] = f"{value} {unit or 'V'}"
        return found

    wire = given["cable"]
    per = wire["unit"]
    return {
        "name": "LS-1",
        "group": "B" if case["system"] == "NEC-DIV" else given["source"]["group"],
        "source": {"item": "20", **values(given["source"])},
        "devices": [{"item": "10", **values(given["field"])}],
        "cable": {
            "length": f"{wire['length']} {per}",
            "capacitance": f"{wire['c_pF_per_unit']} pF/{per}",
            "inductance": f"{wire['l_uH_per_unit']} µH/{per}",
        },
    }


def ends(case: Tree) -> list[Tree]:
    """The parts at both ends of a loop."""
    if case["system"] == "NEC-DIV":
        safe = "Intrinsically safe, Class I, Division 1, Groups A, B, C, D, T4"
        outputs = (
            "Associated apparatus, non-hazardous; provides IS circuits to Class I Div 1 Groups A-D"
        )
    else:
        levels = {"ia": "Ga", "ib": "Gb"}
        level = case["equipment"]["source"]["level"]
        safe = "Ex ia IIC T4 Ga"
        outputs = f"[Ex {level} {levels[level]}] IIC"
    return [
        {"item": "10", "location": "case", "kind": "electrical", "marking": safe},
        {"item": "20", "location": "outside", "kind": "electrical", "marking": outputs},
    ]


def tree(case: Tree) -> Tree:
    """The case as a list."""
    found: Tree = {
        "areafit": 1,
        "assembly": {"number": case["id"]},
        "code": LAWS[case["system"]],
        "locations": {"case": place(case)},
    }
    if case["equipment"]["kind"] != "is-loop":
        return {**found, "parts": [part(case)]}
    found["locations"]["outside"] = {"area": "unclassified", "document": "AC-1"}
    return {**found, "parts": ends(case), "loops": [loop(case)]}


@pytest.mark.parametrize("case", CASES, ids=[f"{c['id']} {c['decides']}" for c in CASES])
def test_the_rules_that_decide_agree(case: Tree, judging: Callable[[Tree], Any]) -> None:
    rules = OWN_RULES.get(case["id"], DECIDES[case["decides"]])
    absent = [rule for rule in rules if rule not in KNOWN]
    if absent:
        pytest.skip(f"rule {absent[0]} not yet")
    found = judging(tree(case))
    allowed = {Verdict(case["expected"]), *map(Verdict, case.get("also_accept", ()))}
    assert found.verdict(rules) in allowed, found.words(rules)


def test_every_case_names_its_source() -> None:
    assert all(case["source"] for case in CASES)
    assert len({case["id"] for case in CASES}) == len(CASES)
