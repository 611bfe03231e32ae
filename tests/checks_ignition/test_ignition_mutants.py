"""What one changed expression of a rule would get past other tests; see that of materials."""

from collections.abc import Callable
from typing import Any

import pytest

import areafit
from areafit.checks.ignition.assessment import Motion, met_condition, motion
from areafit.checks.ignition.light_metal import SPARKING
from areafit.checks.ignition.static_surface import STATIC
from areafit.facts.evidence import EvidenceType
from areafit.facts.part import Part
from areafit.values import replace
from areafit.verdict import Verdict

Judging = Callable[..., Any]
GAS = {"area": "Zone 1, IIB, T3", "ambient": "5..40 °C"}


def part(**more: str) -> Part:
    stated = "".join(f", {key}: {value}" for key, value in more.items())
    text = (
        "areafit: 1\nassembly: {number: M-1}\ncode: IEC\nlocations: {a: {}}\n"
        f"parts: [{{item: '1', location: a{stated}}}]\n"
    )
    return areafit.read(text.encode(), "x").parts[0]


def test_only_a_certificate_has_conditions_that_relieve() -> None:
    condition = "{text: protect from impact, met_by: a guard, document: D-1}"
    evidence = f"[{{type: certificate, number: C-1, conditions: [{condition}]}}]"
    equipment = part(kind="mechanical", evidence=evidence).body.equipment
    assert met_condition(equipment, SPARKING)
    [document] = equipment.evidence or ()
    for kind in set(EvidenceType) - {EvidenceType.CERTIFICATE}:
        other = replace(equipment, evidence=(replace(document, type=kind),))
        assert met_condition(other, SPARKING) is None, kind


def test_a_condition_that_denies_relieves_of_nothing() -> None:
    """IEC 60079-0:2017 29.3 e), from memory."""
    for words, texts in (
        (
            SPARKING,
            ("aluminium shall not be used in Zone 0", "no impact protection"),
        ),
        (STATIC, ("not for areas with electrostatic charging", "use where static is excluded")),
    ):
        for text in texts:
            condition = f"{{text: {text}, met_by: instruction, document: D-1}}"
            evidence = f"[{{type: certificate, number: C-1, conditions: [{condition}]}}]"
            equipment = part(kind="mechanical", evidence=evidence).body.equipment
            assert met_condition(equipment, words) is None, text


@pytest.mark.parametrize("document", ["number: to follow", "number: C-1, covers: ZZ"])
def test_a_condition_counts_in_a_document_of_this_part(document: str) -> None:
    condition = "{text: protect from impact, met_by: a guard, document: D-1}"
    evidence = f"[{{type: certificate, {document}, conditions: [{condition}]}}]"
    equipment = part(kind="mechanical", part_number="A", evidence=evidence).body.equipment
    assert met_condition(equipment, SPARKING) is None


def test_a_drive_moves_what_is_not_electrical_only() -> None:
    assert motion(part(kind="electrical", drive="electric").body) is None
    assert motion(part(kind="structural", drive="electric").body) is Motion.MOVING
    assert motion(part(kind="loose item", drive="electric").body) is Motion.MOVING
    assert motion(part(kind="loose item", drive="manual").body) is Motion.LOOSE


def test_a_class_marked_for_dust_says_nothing_of_gas(judging: Judging) -> None:
    both = ["II 2G Ex h IIB Gb", "II 2D Ex h IIIC T120 °C Db"]
    [judgement] = judging("hot-surface", {"kind": "mechanical", "marking": both}, GAS)
    assert judgement.verdict is Verdict.UNPROVEN
    classed = {"kind": "mechanical", "marking": "II 2G Ex h IIB T4 Gb"}
    assert judging("hot-surface", classed, GAS) == []
