"""Physical quantities as fields: each has a dimension, and messages list the units that serve."""

from collections.abc import Callable
from decimal import Decimal
from typing import Annotated, Any, TypeVar

from areafit.facts.loop import ByGroup
from areafit.facts.place import Concentration, ConcentrationUnit
from areafit.facts.quantity import Dimension, QuantityError, Range, parse, parse_range, units
from areafit.file.limits import QUANTITY_CHARACTERS
from areafit.file.model.mistake import Mistake
from areafit.file.model.types import FromText, Reads, kind_of
from areafit.file.model.words import read_group
from areafit.file.wording import brief
from areafit.pattern import pattern

T = TypeVar("T")
_BELOW_ZERO = frozenset({Dimension.TEMPERATURE})
_STRENGTH_UNITS = {
    "% v/v": ConcentrationUnit.VOLUME,
    "mg/L": ConcentrationUnit.MILLIGRAMS_PER_LITRE,
    "g/L": ConcentrationUnit.GRAMS_PER_LITRE,
    "%": ConcentrationUnit.MASS,
    "% w/w": ConcentrationUnit.MASS,
}
_SHARES = frozenset({ConcentrationUnit.MASS, ConcentrationUnit.VOLUME})
_STRENGTH_REMEDY = "write one of % (by mass), % v/v, g/L, mg/L"
_STRENGTH_UNIT = pattern(r"% ?[vV]/[vV]|% ?[wW]/[wW]|mg/[lL]|g/[lL]|%")


def _parsed(parser: Callable[[str, Dimension], T], text: str, dimension: Dimension) -> T:
    if len(text) > QUANTITY_CHARACTERS:
        raise Mistake(f"'{brief(text)}' is too long for a quantity", "write a number and its unit")
    try:
        return parser(text, dimension)
    except QuantityError as error:
        message, _, remedy = str(error).partition("; ")
        raise Mistake(message, remedy or "check the figure") from None


def _not_negative(lowest: Decimal, text: str, dimension: Dimension) -> None:
    if lowest < 0 and dimension not in _BELOW_ZERO:
        raise Mistake(f"'{brief(text)}' is less than nothing", "check the sign")


def _described(dimension: Dimension, example: str) -> dict[str, Any]:
    return {
        "type": "string",
        "description": f"a number with its unit: {units(dimension)}",
        "examples": [example],
    }


def _reader(dimension: Dimension) -> Callable[[str], Decimal]:
    def read(text: str) -> Decimal:
        value = _parsed(parse, text, dimension)
        _not_negative(value, text, dimension)
        return value

    return read


def _quantity(dimension: Dimension, example: str) -> Reads:
    return FromText(_reader(dimension), _described(dimension, example))


def _rating(dimension: Dimension, example: str) -> Reads:
    """A limit that may be `none`, as simple apparatus has none; that is an infinite one."""
    quantity = _reader(dimension)

    def read(text: str) -> Decimal:
        return Decimal("Infinity") if text == "none" else quantity(text)

    described = _described(dimension, example)
    schema = {**described, "description": f"{described['description']}; or `none`"}
    return FromText(read, schema)


def _range(dimension: Dimension, example: str) -> Reads:
    def read(text: str) -> Range:
        span = _parsed(parse_range, text, dimension)
        _not_negative(span.low, text, dimension)
        return span

    return FromText(read, _described(dimension, example))


_length = _reader(Dimension.LENGTH)
_percent = _reader(Dimension.FRACTION)


def _layer(text: str) -> Decimal:
    return Decimal(0) if text == "none" else _length(text)


def _strength(text: str) -> Concentration:
    if len(text) > QUANTITY_CHARACTERS:
        raise Mistake(f"'{brief(text)}' is too long for a quantity", _STRENGTH_REMEDY)
    found = {_spelled(unit) for unit in _STRENGTH_UNIT.findall(text)}
    if len(found) != 1:
        said = "has no unit" if not found else "mixes units"
        raise Mistake(f"'{text}' {said}", _STRENGTH_REMEDY)
    span = _parsed(parse_range, _STRENGTH_UNIT.sub("%", text), Dimension.FRACTION)
    unit = _STRENGTH_UNITS[found.pop()]
    _not_negative(span.low, text, Dimension.FRACTION)
    if span.high > 100 and unit in _SHARES:
        raise Mistake(f"'{text}' is more than the whole", "check the figure")
    return Concentration(span, unit)


def _spelled(unit: str) -> str:
    return unit.lower().replace("/l", "/L").replace("%v", "% v").replace("%w", "% w")


def _oxygen(text: str) -> Range:
    strength = _strength(text)
    if strength.unit not in _SHARES:
        raise Mistake(f"'{text}' is no share of a gas", "write percent by volume, such as 21 % v/v")
    return strength.span


def _ph(text: str) -> Range:
    """A pH or a range of it; the scale has no unit, so `%` stands in while it is read."""
    if "%" in text:
        raise Mistake(f"'{brief(text)}' is no pH", "write a number or a range, such as 6..8")
    span = _parsed(parse_range, f"{text} %", Dimension.FRACTION)
    if span.high > 14:
        raise Mistake(f"'{brief(text)}' is beyond the scale of pH", "write 0 to 14")
    _not_negative(span.low, text, Dimension.FRACTION)
    return span


def _composition(value: object) -> tuple[tuple[str, Decimal], ...]:
    if not isinstance(value, dict):
        raise Mistake(f"{kind_of(value)} where a composition belongs", "write {Al: 95 %, Mg: 4 %}")
    return tuple((name, _share(name, share)) for name, share in value.items())


def _share(name: str, share: object) -> Decimal:
    if not isinstance(share, str):
        raise Mistake(f"{kind_of(share)} as the share of {brief(name)}", "write a percentage")
    return _percent(share)


def _by_group(dimension: Dimension) -> Callable[[object], ByGroup]:
    read = _reader(dimension)

    def by_group(value: object) -> ByGroup:
        if isinstance(value, str):
            return ByGroup(any=read(value))
        if not isinstance(value, dict) or not all(isinstance(v, str) for v in value.values()):
            raise Mistake(f"{kind_of(value)} where a quantity belongs", "write {IIC: …, IIB: …}")
        return ByGroup(groups=tuple((read_group(key), read(v)) for key, v in value.items()))

    return by_group


def _permitted(dimension: Dimension, example: str) -> Reads:
    one = _described(dimension, example)
    groups = {"type": "object", "additionalProperties": one}
    return Reads(_by_group(dimension), {"anyOf": [one, groups]})


_D = Dimension
Temperature = Annotated[Decimal, _quantity(_D.TEMPERATURE, "75 °C")]
Length = Annotated[Decimal, _quantity(_D.LENGTH, "0.1 mm")]
Layer = Annotated[Decimal, FromText(_layer, _described(_D.LENGTH, "5 mm"))]
Surface = Annotated[Decimal, _quantity(_D.AREA, "40 cm²")]
Speed = Annotated[Decimal, _quantity(_D.SPEED, "0.2 m/s")]
Voltage = Annotated[Decimal, _quantity(_D.VOLTAGE, "28 V")]
Charge = Annotated[Decimal, _quantity(_D.CHARGE, "8 nC")]
Current = Annotated[Decimal, _quantity(_D.CURRENT, "93 mA")]
Power = Annotated[Decimal, _quantity(_D.POWER, "0.65 W")]
RatedVoltage = Annotated[Decimal, _rating(_D.VOLTAGE, "30 V")]
RatedCurrent = Annotated[Decimal, _rating(_D.CURRENT, "100 mA")]
RatedPower = Annotated[Decimal, _rating(_D.POWER, "1 W")]
Capacitance = Annotated[Decimal, _quantity(_D.CAPACITANCE, "5 nF")]
Inductance = Annotated[Decimal, _quantity(_D.INDUCTANCE, "50 µH")]
Resistance = Annotated[Decimal, _quantity(_D.RESISTANCE, "1e9 ohm")]
CapacitancePerLength = Annotated[Decimal, _quantity(_D.CAPACITANCE_PER_LENGTH, "197 pF/m")]
InductancePerLength = Annotated[Decimal, _quantity(_D.INDUCTANCE_PER_LENGTH, "0.66 µH/m")]
InductancePerResistance = Annotated[Decimal, _quantity(_D.INDUCTANCE_PER_RESISTANCE, "30 µH/Ω")]
PermittedCapacitance = Annotated[ByGroup, _permitted(_D.CAPACITANCE, "0.65 µF")]
PermittedInductance = Annotated[ByGroup, _permitted(_D.INDUCTANCE, "15 mH")]
TemperatureRange = Annotated[Range, _range(_D.TEMPERATURE, "-20..40 °C")]
PressureRange = Annotated[Range, _range(_D.PRESSURE, "90..110 kPa")]
Oxygen = Annotated[
    Range,
    FromText(_oxygen, {"type": "string", "description": "percent by volume", "examples": ["21 %"]}),
]
Strength = Annotated[
    Concentration,
    FromText(
        _strength,
        {
            "type": "string",
            "description": "a number or range; % is by mass unless % v/v, g/L or mg/L is written",
            "examples": ["2 %", "0.1..0.5 g/L"],
        },
    ),
]
AcidityRange = Annotated[
    Range,
    FromText(_ph, {"type": "string", "description": "a pH or a range of it", "examples": ["6..8"]}),
]
Composition = Annotated[
    tuple[tuple[str, Decimal], ...],
    Reads(
        _composition,
        {"type": "object", "additionalProperties": {"type": "string", "examples": ["95 %"]}},
    ),
]
