"""Cells as people fill them: words of five languages, figures without a unit, what is to come.

The cells are common practice, no source.
"""

import pytest

from areafit.answers.replies import CellError, value_of


@pytest.mark.parametrize(
    ("said", "read"),
    [("ja", True), ("Nein", False), ("oui", True), ("non", False), ("Sí", True), ("si", True)],
)
def test_yes_and_no_are_read_in_five_languages(said: str, *, read: bool) -> None:
    assert value_of("part.materials_complete", said) is read


@pytest.mark.parametrize("said", ["jein", "perhaps", "none", "siehe Anhang", "ya"])
def test_what_is_neither_is_told(said: str) -> None:
    with pytest.raises(CellError, match="neither yes nor no"):
        value_of("part.materials_complete", said)


@pytest.mark.parametrize("number", ["tbd", "to follow", "TBA", "pending", "-"])
def test_a_document_that_is_to_come_bears_no_number(number: str) -> None:
    with pytest.raises(CellError, match="names no document"):
        value_of("part.evidence.number", number)
    assert value_of("part.evidence.number", "ABC 19 ATEX 2") == "ABC 19 ATEX 2"


@pytest.mark.parametrize("figure", ["40", "-20", "40,5", "60.0"])
def test_a_figure_in_text_needs_its_unit_as_a_number_does(figure: str) -> None:
    with pytest.raises(CellError, match="has no unit; write the temperature"):
        value_of("part.surface_temperature.value", figure)
    assert value_of("part.surface_temperature.value", f"{figure} °C") == f"{figure} °C"
