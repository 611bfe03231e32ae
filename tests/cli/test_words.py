"""Chemicals and quantities as the command line writes them."""

from decimal import Decimal

import pytest

from areafit.facts.part import Exposure, Kind
from areafit.facts.place import Concentration, ConcentrationUnit, PresentChemical
from areafit.facts.quantity import Dimension, Range
from areafit_cli import words
from areafit_cli.faults import CallError


def span(low: str, high: str | None = None) -> Range:
    return Range(Decimal(low), Decimal(high or low))


def strength(unit: ConcentrationUnit, low: str, high: str | None = None) -> Concentration:
    return Concentration(span(low, high), unit)


MASS = ConcentrationUnit.MASS


@pytest.mark.parametrize(
    ("text", "chemical"),
    [
        ("acetone", PresentChemical("acetone")),
        (
            "sodium hydroxide, 2 %, 60 °C",
            PresentChemical("sodium hydroxide", strength(MASS, "2"), span("60")),
        ),
        (
            "sodium hydroxide, 20..60 °C, 1..5 % w/w",
            PresentChemical("sodium hydroxide", strength(MASS, "1", "5"), span("20", "60")),
        ),
        ("1,1-dichloroethane", PresentChemical("1,1-dichloroethane")),
        ("butane, 2-methyl", PresentChemical("butane, 2-methyl")),
        (
            "ethanol, 70 % v/v",
            PresentChemical("ethanol", strength(ConcentrationUnit.VOLUME, "70")),
        ),
        (
            "chlorine, 200 mg/L, 77 °F",
            PresentChemical(
                "chlorine", strength(ConcentrationUnit.MILLIGRAMS_PER_LITRE, "200"), span("25")
            ),
        ),
        (
            "salt, 35 g/l",
            PresentChemical("salt", strength(ConcentrationUnit.GRAMS_PER_LITRE, "35")),
        ),
    ],
)
def test_a_chemical_is_a_name_and_quantities(text: str, chemical: PresentChemical) -> None:
    assert words.chemical(text) == chemical


@pytest.mark.parametrize(
    "text", ["", ", 2 %", "acid, 2", "acid, 2 %, 3 %", "acid, 60", "acid, -2 %", "acid, 5..2 %"]
)
def test_what_is_no_chemical_is_refused(text: str) -> None:
    with pytest.raises(CallError, match="write name, concentration, temperature"):
        words.chemical(text)


def test_words_of_closed_lists_name_the_nearest() -> None:
    assert words.word(Kind, "Simple-Apparatus", "kind") is Kind.SIMPLE_APPARATUS
    assert words.word(Exposure, "splash", "exposure") is Exposure.SPLASH
    with pytest.raises(CallError, match="near to it: mechanical"):
        words.word(Kind, "mechanic", "kind")


def test_a_quantity_needs_its_unit() -> None:
    assert words.quantity(None, Dimension.TEMPERATURE, "--x") is None
    assert words.quantity("75 °C", Dimension.TEMPERATURE, "--x") == 75
    with pytest.raises(CallError, match=r"--x: .* has no unit"):
        words.quantity("75", Dimension.TEMPERATURE, "--x")
    with pytest.raises(CallError, match="--y"):
        words.span("40..5 °C", Dimension.TEMPERATURE, "--y")
