"""Physical quantities as fields: each has a dimension, and messages list the units that serve."""

from collections.abc import Callable
from decimal import Decimal
from typing import Annotated, Any, TypeVar

from areafit import notation
from areafit.facts.loop import ByGroup
from areafit.facts.place import Concentration
from areafit.facts.quantity import Dimension, QuantityError, Range, units
from areafit.file.model.mistake import Mistake
from areafit.file.model.types import FromText, Reads, kind_of
from areafit.file.model.words import read_group
from areafit.file.wording import brief

T = TypeVar("T")


def _text(read: Callable[[str], T]) -> Callable[[str], T]:
    """The reading, whose complaint is reported at the place in the file."""

    def told(text: str) -> T:
        try:
            return read(text)
        except QuantityError as error:
            message, _, remedy = str(error).partition("; ")
            raise Mistake(message, remedy or "check the figure") from None

    return told


def _described(dimension: Dimension, example: str) -> dict[str, Any]:
    return {
        "type": "string",
        "description": f"a number with its unit: {units(dimension)}",
        "examples": [example],
    }


def _reader(dimension: Dimension) -> Callable[[str], Decimal]:
    return _text(lambda text: notation.amount(text, dimension))


def _quantity(dimension: Dimension, example: str) -> Reads:
    return FromText(_reader(dimension), _described(dimension, example))


def _rating(dimension: Dimension, example: str) -> Reads:
    described = _described(dimension, example)
    schema = {**described, "description": f"{described['description']}; or `none`"}
    return FromText(_text(lambda text: notation.rating(text, dimension)), schema)


def _range(dimension: Dimension, example: str) -> Reads:
    read = _text(lambda text: notation.span(text, dimension))
    return FromText(read, _described(dimension, example))


_percent = _reader(Dimension.FRACTION)


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
Layer = Annotated[Decimal, FromText(_text(notation.layer), _described(_D.LENGTH, "5 mm"))]
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
    FromText(
        _text(notation.oxygen),
        {"type": "string", "description": "percent by volume", "examples": ["21 %"]},
    ),
]
Strength = Annotated[
    Concentration,
    FromText(
        _text(notation.strength),
        {
            "type": "string",
            "description": "a number or range; % is by mass unless % v/v, g/L or mg/L is written",
            "examples": ["2 %", "0.1..0.5 g/L"],
        },
    ),
]
AcidityRange = Annotated[
    Range,
    FromText(
        _text(notation.acidity),
        {"type": "string", "description": "a pH or a range of it", "examples": ["6..8"]},
    ),
]
Composition = Annotated[
    tuple[tuple[str, Decimal], ...],
    Reads(
        _composition,
        {"type": "object", "additionalProperties": {"type": "string", "examples": ["95 %"]}},
    ),
]
