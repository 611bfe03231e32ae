"""A remedy, applied to the list, closes the finding that it was given for.

Each row is a finding of certified equipment and its openings, a word of its remedy, and the part
with what that asks stated. Own design, no source; the clauses stand beside the rules.
"""

from collections.abc import Callable

import pytest

from areafit.rule import Judgement
from areafit.verdict import Verdict

Ask = Callable[..., Judgement]
_ZONE_1 = "area: 'Zone 1, IIB, T3', ambient: 5..40 °C, substances: [ethanol]"
_DB = "kind: electrical, marking: Ex db IIC T4 Gb, entries: [{type: cable gland, %s}]"
_GLAND = "marking: Ex db IIC Gb, thread: M20x1.5, hole: M20, ingress: IP66"
_DBEB = "kind: electrical, marking: Ex db eb IIC T4 Gb, entries: [{type: cable gland, %s}]"
_EB_GLAND = _GLAND.replace("Ex db", "Ex eb")
_LENS = (
    "kind: electrical, marking: %s, evidence: [{type: certificate, %s}], "
    "materials: [{%smaterial: PC, surface_area: 900 cm²}]"
)
_NUMBER, _EX, _OF = "number: IECEx ABC 21.0001", "Ex eb IIC T4 Gb", "component: lens, "
_MET = f"{_NUMBER}X, conditions: [{{text: avoid static charge, met_by: sign, document: DN-1}}]"


_CASES = (
    ("cable-entry", _DB % _GLAND.replace("thread: M20x1.5, ", ""), "`thread`", _DB % _GLAND),
    (
        "cable-entry",
        _DB % _GLAND.replace("Ex db IIC Gb", "Ex eb IIC Gb"),
        "type d",
        _DB % _GLAND,
    ),
    ("cable-entry", _DB % _GLAND.replace("M20x1.5", "M25x1.5"), "thread", _DB % _GLAND),
    ("cable-entry", _DB % _GLAND.replace("Ex db IIC", "Ex db IIA"), "marked", _DB % _GLAND),
    (
        "cable-entry",
        _DB % _GLAND.replace("marking: Ex db IIC Gb, ", ""),
        "`marking`",
        _DB % _GLAND,
    ),
    ("cable-entry", _DBEB % _EB_GLAND, "`into: e`", _DBEB % f"{_EB_GLAND}, into: e"),
    (
        "cable-entry",
        _DBEB % f"{_EB_GLAND}, into: d",
        "type d",
        _DBEB % f"{_GLAND}, into: d",
    ),
    (
        "cable-entry",
        _DB % _GLAND.replace("IIC Gb", "IIC Gb X"),
        "`conditions`",
        _DB
        % (
            _GLAND.replace("IIC Gb", "IIC Gb X")
            + ", conditions: [{text: clamp, met_by: clamp, document: D-1}]"
        ),
    ),
    ("static-surface", _LENS % (_EX, _NUMBER, ""), "`component`", _LENS % (_EX, _NUMBER, _OF)),
    (
        "static-surface",
        _LENS % (_EX, "number: tbd", _OF),
        "documents lack",
        _LENS % (_EX, _NUMBER, _OF),
    ),
    (
        "static-surface",
        _LENS % (f"{_EX} X", f"{_NUMBER}X", _OF),
        "documents lack",
        _LENS % (f"{_EX} X", _MET, _OF),
    ),
    (
        "static-surface",
        _LENS % (_EX, _NUMBER, "component: label, "),
        "smaller",
        (_LENS % (_EX, _NUMBER, "component: label, ")).replace("900", "90"),
    ),
    (
        "static-surface",
        "kind: mechanical",
        "`materials`",
        "kind: mechanical, materials: [{component: box, material: '316'}]",
    ),
    (
        "ignition-hazard",
        "kind: mechanical, evidence: [{type: assessment, number: tbd}]",
        "`number`",
        "kind: mechanical, evidence: [{type: assessment, number: IHA-1}]",
    ),
)


@pytest.mark.parametrize("case", _CASES, ids=[f"{case[0]} {i}" for i, case in enumerate(_CASES)])
def test_a_remedy_closes_its_finding(
    ask: Ask, remedies: Callable[..., list[str]], case: tuple[str, str, str, str]
) -> None:
    rule, before, word, after = case
    assert not ask(rule, before, _ZONE_1).verdict.passes
    assert any(word in each for each in remedies(rule, before, _ZONE_1))
    closed = ask(rule, after, _ZONE_1)
    assert closed.verdict is Verdict.PASS, closed.message
