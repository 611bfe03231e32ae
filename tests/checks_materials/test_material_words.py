"""Messages call a material what the list calls it, and say which grade decided."""

from typing import Any

import pytest

SALT = {"chemicals": [{"name": "sodium chloride", "concentration": "3 %", "temperature": "60 °C"}]}
WATER = {"chemicals": [{"name": "tap water", "temperature": "20 °C"}]}


def wet(material: str, **more: Any) -> dict[str, Any]:
    return {"materials": [{"material": material, "exposure": "splash", **more}], "contacts": "none"}


@pytest.mark.parametrize("word", ["1.4404", "X2CrNiMo17-12-2", "316L"])
def test_a_grade_keeps_the_word_of_the_list(ask: Any, word: str) -> None:
    for rule in ("pitting", "stress-corrosion"):
        text = ask(rule, SALT, wet(word)).text
        assert word in text
        assert "may be" not in text


def test_a_name_of_several_grades_says_which_decided(ask: Any) -> None:
    text = ask("material-temperature", SALT, wet("aluminium", temperature="400 °C")).text
    assert text.startswith("aluminium (which may be ")


def test_a_couple_is_named_as_in_the_list(ask: Any) -> None:
    own = {**wet("1.4404"), "contacts": [{"with": "2", "wet": True}]}
    text = ask("galvanic-couple", WATER, own, wet("hard chrome")).text
    assert "1.4404 and hard chrome" in text or "hard chrome and 1.4404" in text
