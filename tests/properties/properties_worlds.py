"""Lists that pass, one for each system, every fact stated: what properties make worse."""

import copy
from typing import Any

from properties_world import Tree  # made importable by conftest

MACHINE = {"number": "W-1", "assessment": "IHA-1"}
_PLACE = {
    "ambient": "0..40 °C",
    "document": "AC-1",
    "ingress": "IP54",
    "atmosphere": "controlled",
}
_STEEL = {
    "component": "body",
    "material": "316",
    "exposure": "room",
    "counterface": "none",
    "welded": False,
    "crevice": False,
    "stressed": False,
}
_MECHANICAL = {
    "kind": "mechanical",
    "electrical_content": "none",
    "drive": "pneumatic",
    "air_supply": {"source": "outside the area", "exhaust": "outside the area", "on_loss": "safe"},
    "rubbing_speed": "0.3 m/s",
    "bonded": True,
    "drop_height": "none",
    "end_stops": "damped",
    "loose_parts": "contained",
    "protects": False,
    "surface_temperature": {"value": "60 °C", "at_ambient": "40 °C", "case": "rare malfunction"},
    "materials": [_STEEL],
    "materials_complete": True,
    "contacts": "none",
}
_STRUCTURAL = {
    "kind": "structural",
    "bonded": True,
    "materials": [_STEEL],
    "materials_complete": True,
    "contacts": "none",
}


def _electrical(marking: str | list[str], evidence: list[dict[str, Any]]) -> dict[str, Any]:
    return {
        "kind": "electrical",
        "marking": marking,
        "ambient": "-20..60 °C",
        "ingress": "IP66",
        "evidence": evidence,
        "entries": "none",
        "bonded": True,
        "materials": [_STEEL],
        "materials_complete": True,
        "contacts": "none",
    }


def _world(
    law: str, area: str | list[str], place: dict[str, Any], parts: list[dict[str, Any]]
) -> Tree:
    lines = [{"item": str(i), "location": "spot", **part} for i, part in enumerate(parts, 1)]
    return copy.deepcopy(
        {
            "areafit": 1,
            "assembly": MACHINE,
            "code": law,
            "edition": "2023" if law == "NEC" else "2014" if law == "ATEX" else "2013",
            "locations": {"spot": {"area": area, **_PLACE, **place}},
            "parts": lines,
        }
    )


_LISTED = [{"type": "listing", "number": "E-1"}, {"type": "control drawing", "number": "CD-1"}]
_EU = [
    {"type": "certificate", "number": "QQQ 21 ATEX 0001"},
    {"type": "declaration", "number": "DOC-1"},
]
_IEC = [{"type": "certificate", "number": "IECEx QQQ 21.0001"}]
_ASSESSED = [{"type": "assessment", "number": "IHA-2"}]
_VAPOUR = {"substances": ["n-hexane"], "chemicals": "none"}
_DUST = {
    "substances": [
        {
            "name": "sugar",
            "cloud_ignition": "370 °C",
            "layer_ignition": "390 °C",
            "source": "test report TR-1",
            "document": "TR-1",
        }
    ],
    "layer": "5 mm",
    "chemicals": "none",
}

WORLDS: dict[str, Tree] = {
    "NEC division": _world(
        "NEC",
        "Class I, Division 1, Group D",
        {**_VAPOUR, "required_epl": "Gb"},
        [
            _electrical("Class I, Division 1, Groups C, D T4", _LISTED),
            {**_MECHANICAL, "evidence": _ASSESSED},
            _STRUCTURAL,
        ],
    ),
    "NEC zone": _world(
        "NEC",
        "Class I, Zone 1, IIA, T3",
        _VAPOUR,
        [
            _electrical("Class I, Zone 1, AEx db IIB T4 Gb", _LISTED),
            {**_MECHANICAL, "evidence": _ASSESSED},
            _STRUCTURAL,
        ],
    ),
    "IEC gas": _world(
        "IEC",
        "Zone 1, IIA, T3",
        _VAPOUR,
        [
            _electrical("Ex db IIB T4 Gb", _IEC),
            {**_MECHANICAL, "marking": "Ex h IIB T4 Gb", "evidence": _ASSESSED},
            _STRUCTURAL,
        ],
    ),
    "ATEX gas": _world(
        "ATEX",
        "Zone 1, IIA, T3",
        _VAPOUR,
        [
            _electrical("II 2G Ex db IIB T4 Gb", _EU),
            {
                **_MECHANICAL,
                "marking": "II 2G Ex h IIB T4 Gb",
                "evidence": [*_ASSESSED, {"type": "declaration", "number": "DOC-2"}],
            },
            _STRUCTURAL,
        ],
    ),
    "IEC dust": _world(
        "IEC",
        "Zone 21, IIIB, T135 °C",
        _DUST,
        [
            _electrical("Ex tb IIIC T95 °C Db IP66", _IEC),
            {**_MECHANICAL, "marking": "Ex h IIIC T95 °C Db", "evidence": _ASSESSED},
            _STRUCTURAL,
        ],
    ),
}

# Beside the systems: what a liquid gives off.

RINSE: Tree = _world(
    "IEC",
    "unclassified",
    {
        "ambient": "5..20 °C",
        "substances": [{"mixture": {"ethanol": "2 %", "water": "rest"}, "temperature": "20 °C"}],
        "chemicals": "none",
    },
    [_STRUCTURAL],
)
"""A rinse far below its flash point in an unclassified place."""

_GASSED = {
    **_STRUCTURAL,
    "quantity": 2,
    "materials": [
        {**_STEEL, "material": "carbon steel", "exposure": "immersed", "surface_area": "0.5 m²"}
    ],
}
VENTED: Tree = _world(
    "IEC",
    "Zone 1, IIA, T3",
    {
        "substances": ["n-hexane"],
        "chemicals": [
            {"name": "hydrochloric acid", "concentration": "3 %", "temperature": "25 °C"}
        ],
        "ventilation": {
            "rate": "600 m³/h",
            "document": "VE-1",
            "availability": "good",
            "dead_spaces": "none",
            "other_hydrogen": "none",
        },
    },
    [_GASSED, _electrical("Ex db IIA T3 Gb", _IEC)],
)
"""Steel in an acid whose hydrogen the air keeps thin; the steel itself does not last there."""
