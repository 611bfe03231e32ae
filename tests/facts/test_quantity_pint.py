"""Every unit against pint, a published library of unit definitions (SI, NIST)."""

from decimal import Decimal

import pint
import pytest

from areafit.facts import quantity
from areafit.facts.quantity import Dimension, QuantityError, Range, parse, parse_range, show_range

REGISTRY: "pint.UnitRegistry[float]" = pint.UnitRegistry()
UNITS = [
    (dimension, unit)
    for dimension, known in quantity._UNITS.items()  # noqa: SLF001 - all of them are compared
    for unit in known
]


def in_pint(number: str, unit: str) -> "pint.Quantity[float]":
    unit = unit.replace("% w/w", "percent").replace("%", "percent")
    return REGISTRY.Quantity(float(number), unit)


@pytest.mark.parametrize(("dimension", "unit"), UNITS, ids=[unit for _, unit in UNITS])
def test_every_unit(dimension: Dimension, unit: str) -> None:
    ours = float(parse(f"12.5 {unit}", dimension))
    theirs = in_pint("12.5", unit).to(dimension.value.replace("%", "percent")).magnitude
    assert ours == pytest.approx(theirs, rel=1e-12)


@pytest.mark.parametrize("unit", ["degC", "degF", "K"])
@pytest.mark.parametrize("number", ["-40", "0", "98.6", "450"])
def test_temperatures(unit: str, number: str) -> None:
    if unit == "K" and number == "-40":
        with pytest.raises(QuantityError, match="absolute zero"):
            parse("-40 K", Dimension.TEMPERATURE)
        return
    theirs = (
        REGISTRY.Quantity(float(number), "kelvin" if unit == "K" else unit).to("degC").magnitude
    )
    assert float(parse(f"{number} {unit}", Dimension.TEMPERATURE)) == pytest.approx(
        theirs, abs=1e-9
    )


@pytest.mark.parametrize(
    ("text", "dimension", "value"),
    [
        ("113 °F", Dimension.TEMPERATURE, "45"),
        ("45C", Dimension.TEMPERATURE, "45"),
        ("\u221220 ℃", Dimension.TEMPERATURE, "-20"),
        ("1e9 ohm", Dimension.RESISTANCE, "1E9"),
        ("2 kOhm", Dimension.RESISTANCE, "2000"),
        ("5 \u2126", Dimension.RESISTANCE, "5"),
        ("0.65 \u03bcF", Dimension.CAPACITANCE, "0.65E-6"),
        ("50 uH", Dimension.INDUCTANCE, "50E-6"),
        ("40 cm2", Dimension.AREA, "0.004"),
        ("40 cm^2", Dimension.AREA, "0.004"),
        (".5\u00a0mm", Dimension.LENGTH, "0.0005"),
        ("30 µH/ohm", Dimension.INDUCTANCE_PER_RESISTANCE, "30E-6"),
    ],
)
def test_spellings(text: str, dimension: Dimension, value: str) -> None:
    assert parse(text, dimension) == Decimal(value)


@pytest.mark.parametrize(
    ("text", "low", "high"),
    [
        ("5..40 °C", 5, 40),
        ("-20 °C to 40 °C", -20, 40),
        ("-4 °F … 104 °F", -20, 40),
        ("5...40 C", 5, 40),
        ("20 °C", 20, 20),
        ("41 °F to 40 °C", 5, 40),
    ],
)
def test_ranges(text: str, low: int, high: int) -> None:
    assert parse_range(text, Dimension.TEMPERATURE) == Range(Decimal(low), Decimal(high))


@pytest.mark.parametrize(
    ("text", "dimension", "says"),
    [
        ("45", Dimension.TEMPERATURE, "has no unit; write one of °C, °F or K"),
        ("5..40", Dimension.TEMPERATURE, "has no unit"),
        ("warm", Dimension.TEMPERATURE, "is not a number with a unit"),
        ("45 mm", Dimension.TEMPERATURE, "is no temperature unit"),
        ("5 bar", Dimension.LENGTH, "is no unit of length; write one of m, dm, cm, mm"),
        ("40..5 °C", Dimension.TEMPERATURE, "runs downwards"),
        ("-300 °C", Dimension.TEMPERATURE, "absolute zero"),
        ("1e999 V", Dimension.VOLTAGE, "is not a number|is no unit"),
        ("5 F", Dimension.CHARGE, "is no unit of charge"),
        ("5-40 C", Dimension.TEMPERATURE, "^'5-40 C' is no range; write 5..40 C$"),
        ("5-40", Dimension.TEMPERATURE, "^'5-40' is no range; write 5..40 °C$"),
        ("-20 °C – 40 °C", Dimension.TEMPERATURE, "is no range; write -20..40 °C$"),
        ("28 V Io 93 mA", Dimension.VOLTAGE, "^'V Io 93 mA' in .* separate values by commas$"),
        (
            "197 pF",
            Dimension.CAPACITANCE_PER_LENGTH,
            "'pF' in '197 pF' is no unit of capacitance per length; write pF/m, nF/km or pF/ft",
        ),
    ],
)
def test_what_cannot_be_read(text: str, dimension: Dimension, says: str) -> None:
    with pytest.raises(QuantityError, match=says):
        parse_range(text, dimension)


@pytest.mark.parametrize(
    ("value", "dimension", "text"),
    [
        ("0.004", Dimension.AREA, "40 cm²"),
        ("0.005", Dimension.LENGTH, "5 mm"),
        ("2", Dimension.LENGTH, "2 m"),
        ("83E-9", Dimension.CAPACITANCE, "83 nF"),
        ("0", Dimension.VOLTAGE, "0 V"),
        ("5E-15", Dimension.CAPACITANCE, "0.005 pF"),
        ("1E9", Dimension.RESISTANCE, "1 GΩ"),
        ("75.123456", Dimension.TEMPERATURE, "75.12 °C"),
        ("0", Dimension.TEMPERATURE, "0 °C"),
        ("1E5", Dimension.PRESSURE, "100 kPa"),
        ("6E-8", Dimension.CHARGE, "60 nC"),
    ],
)
def test_shown(value: str, dimension: Dimension, text: str) -> None:
    assert quantity.show(Decimal(value), dimension) == text


def test_ranges_are_shown_and_compared() -> None:
    wide, narrow = Range(Decimal(-20), Decimal(40)), Range(Decimal(0), Decimal(30))
    assert show_range(wide, Dimension.TEMPERATURE) == "-20..40 °C"
    assert show_range(Range(Decimal(1), Decimal(1)), Dimension.VOLTAGE) == "1 V"
    assert show_range(Range(Decimal(1), Decimal(2)), Dimension.VOLTAGE) == "1 V to 2 V"
    assert narrow.within(wide)
    assert not wide.within(narrow)
    assert wide.common(narrow) == narrow
    assert wide.common(Range(Decimal(50), Decimal(60))) is None
    assert quantity.units(Dimension.TEMPERATURE) == "°C, °F or K"
    assert quantity.units(Dimension.MASS) == "kg, g, lb"
