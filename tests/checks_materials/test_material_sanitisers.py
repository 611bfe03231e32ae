"""Doses of sanitisers that are rinsed off, and what no exposure saves.

40 CFR 180.940 and 21 CFR 178.1010, as summaries print them: food equipment meets up to 200 ppm of
available chlorine. Doses of up to 500 ppm with a rinse from memory; resistance from memory.
"""

from typing import Any

import pytest

from areafit.verdict import Verdict

P, F, U = Verdict.PASS, Verdict.FLAG, Verdict.UNPROVEN


def _place(strength: str, *, rinsed: bool | None = True, name: str = "sodium hypochlorite") -> Any:
    chemical = {"name": name, "concentration": strength, "temperature": "20 °C"}
    if rinsed is not None:
        chemical["rinsed"] = rinsed  # type: ignore[assignment]
    return {"chemicals": [chemical], "ambient": "5..35 °C"}


def _part(material: str, exposure: str | None = "washdown", **more: Any) -> Any:
    use = {"component": "piece", "material": material, "crevice": False, "stressed": False, **more}
    if exposure is not None:
        use["exposure"] = exposure
    return {"materials": [use]}


@pytest.mark.parametrize(
    ("material", "strength", "rinsed", "expected"),
    [
        ("316L", "200 mg/L", True, P),
        ("316L", "200 mg/L", False, F),  # what dries on is stronger
        ("316L", "200 mg/L", None, F),
        ("316L", "500 mg/L", True, U),  # limited as it is used
        ("316L", "0.1 %", True, F),  # no sanitiser dose any more
        ("316L", "5 %", True, F),
        ("304", "200 mg/L", True, U),
        ("304", "500 mg/L", True, F),
        ("EPDM", "500 mg/L", True, P),
        ("EPDM", "500 mg/L", None, U),
        ("POM-C", "200 mg/L", True, F),
        ("6082", "200 mg/L", True, F),
    ],
)
def test_a_weak_oxidiser_that_is_rinsed_off_never_dries(
    ask: Any, material: str, strength: str, *, rinsed: bool | None, expected: Verdict
) -> None:
    answer = ask("chemical-resistance", _place(strength, rinsed=rinsed), _part(material))
    assert answer.verdict is expected, answer.text


def test_stronger_is_never_better(ask: Any) -> None:
    rank = {P: 0, U: 1, F: 2}
    doses = ("50 mg/L", "200 mg/L", "400 mg/L", "500 mg/L", "600 mg/L", "0.2 %", "5 %")
    for material in ("304", "316L", "2507", "EPDM", "PP", "PVC-U", "POM-C", "PC"):
        found = [
            rank[ask("chemical-resistance", _place(dose), _part(material)).verdict]
            for dose in doses
        ]
        assert found == sorted(found), material


@pytest.mark.parametrize(
    ("material", "name", "strength", "expected"),
    [
        ("POM-C", "peracetic acid", "0.2 %", F),
        ("zinc plated steel", "hydrochloric acid", "10 %", F),
        ("PTFE", "peracetic acid", "0.2 %", U),  # how it is exposed bears on other rules
        ("6082", "sodium hydroxide", "5 %", U),  # in the room it is another matter
        ("316L", "peracetic acid", "0.2 %", U),
    ],
)
def test_no_exposure_is_asked_where_none_saves(
    ask: Any, material: str, name: str, strength: str, expected: Verdict
) -> None:
    """Polymer makers' tables, from memory: oxidising acids destroy acetal, traces strip zinc."""
    place = _place(strength, rinsed=None, name=name)
    answer = ask("chemical-resistance", place, _part(material, None))
    assert answer.verdict is expected, answer.text
    assert ("however it is exposed" in answer.text) is (expected is F)
    if expected is F:
        for exposure in ("immersed", "splash", "washdown", "fume", "room", "enclosed"):
            assert ask("chemical-resistance", place, _part(material, exposure)).verdict is F
        sealed = _part(material, "enclosed", breathes=False)
        assert ask("chemical-resistance", place, sealed).verdict is not F
