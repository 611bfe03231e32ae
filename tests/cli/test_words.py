"""Chemicals and quantities as the command line writes them."""

from decimal import Decimal

import pytest

import areafit
from areafit.facts.part import Exposure, Kind
from areafit.facts.place import Concentration, ConcentrationUnit, Place, PresentChemical
from areafit.facts.quantity import Dimension, Range
from areafit_cli import one_part, words
from areafit_cli.errors import CallError


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
    assert words.quantity("75 °C", Dimension.TEMPERATURE, "--x") == 75
    assert words.layer("none", "--x") == 0
    assert words.rating("none", Dimension.VOLTAGE, "--x").is_infinite()
    with pytest.raises(CallError, match=r"--x: .* has no unit"):
        words.quantity("75", Dimension.TEMPERATURE, "--x")
    with pytest.raises(CallError, match="--y"):
        words.span("40..5 °C", Dimension.TEMPERATURE, "--y")


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("nitric acid, 150 %, 25 °C", "'150 %' is more than the whole"),
        ("nitric acid, 1e3 %", "'1e3 %' is more than the whole"),
        ("nitric acid, -2 g/L", "'-2 g/L' is less than nothing"),
        ("nitric acid, 2 % g/L", "mixes units"),
    ],
)
def test_a_concentration_that_cannot_be_is_told(text: str, said: str) -> None:
    with pytest.raises(CallError, match=said):
        words.chemical(text)


QUANTITIES = [
    ("5 mm", Dimension.LENGTH),
    ("-5 mm", Dimension.LENGTH),
    ("none", Dimension.LENGTH),
    ("-20 °C", Dimension.TEMPERATURE),
    ("5..40 °C", Dimension.TEMPERATURE),
    ("40..5 °C", Dimension.TEMPERATURE),
    ("9" * 90 + " °C", Dimension.TEMPERATURE),
    ("5", Dimension.LENGTH),
]


def in_a_list(entry: str) -> Place | None:
    """The place of a list with this entry, or None where the list is refused."""
    text = (
        "areafit: 1\nassembly: {number: W}\ncode: IEC\n"
        f"locations: {{here: {{{entry}}}}}\n"
        "parts: [{item: '1', location: here, kind: structural}]\n"
    )
    try:
        return areafit.read(text.encode(), "list.yaml").places["here"]
    except areafit.InputErrors:
        return None


@pytest.mark.parametrize(("text", "dimension"), QUANTITIES)
def test_an_option_takes_what_a_list_takes(text: str, dimension: Dimension) -> None:
    """One notation: nothing is accepted in a call that a list refuses, and the reverse."""
    option = "layer" if dimension is Dimension.LENGTH else "ambient"
    listed = in_a_list(f"{option}: '{text}'")
    stated = one_part.stated(kind="structural", **{option: text})
    if listed is None:
        with pytest.raises(CallError, match=f"--{option}: "):
            one_part.build(stated)
    else:
        called = one_part.build(stated).places["here"]
        assert getattr(called, option) == getattr(listed, option)


@pytest.mark.parametrize("text", ["2 %", "1..5 % v/v", "150 %", "-1 g/L", "200 mg/l", "150 g/L"])
def test_a_strength_is_one_in_both(text: str) -> None:
    listed = in_a_list(f"chemicals: [{{name: nitric acid, concentration: '{text}'}}]")
    if listed is None:
        with pytest.raises(CallError):
            words.chemical(f"nitric acid, {text}")
    else:
        assert listed.chemicals == (words.chemical(f"nitric acid, {text}"),)
