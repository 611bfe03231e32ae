"""How a single value of a list is read into a fact, and how an editor is told about it.

Texts, the trade's words, yes and no, dates, numbers, and quantities: each of these has a dimension,
and messages list the units that serve.
"""

import re
from collections.abc import Callable, Mapping
from datetime import date
from decimal import Decimal
from enum import Enum
from functools import lru_cache
from itertools import pairwise
from typing import Annotated, Any, TypeVar

from pydantic import (
    AfterValidator,
    Field,
    GetCoreSchemaHandler,
    GetJsonSchemaHandler,
    WithJsonSchema,
)
from pydantic_core import core_schema

from areafit import notation
from areafit.errors import InputError, brief, choices, nearest
from areafit.facts.groups import Group
from areafit.facts.loop import ByGroup
from areafit.facts.part import Item
from areafit.facts.place import Concentration, Mixture
from areafit.facts.protection import Law
from areafit.facts.quantity import Dimension, QuantityError, Range, units
from areafit.pattern import pattern
from areafit.values import Frozen
from areafit.wording import NOT_STATED

Schema = dict[str, Any]
T = TypeVar("T")
Word = TypeVar("Word", bound=Enum)
_YES_NO = {"true": True, "yes": True, "false": False, "no": False}
_NUMBER = pattern(r"\d{1,15}(?:\.\d{1,9})?")
_ISO_DATE = pattern(r"\d{4}-\d{2}-\d{2}")
_NAME_CHARACTERS = 2_000


def kind_of(value: object) -> str:
    """What a value is, as a message names it."""
    if value is None:
        return "nothing"
    if isinstance(value, str):
        return f"the text '{brief(value)}'"
    return "a mapping" if isinstance(value, dict) else "a list"


class Reads(Frozen, eq=False):
    """Marks a field whose value `read` turns into a fact; `schema` describes it to editors."""

    read: Callable[[Any], Any]
    schema: Mapping[str, Any]

    def __get_pydantic_core_schema__(
        self, source: object, handler: GetCoreSchemaHandler
    ) -> core_schema.CoreSchema:
        """Called by pydantic."""
        return core_schema.no_info_plain_validator_function(self.read)

    def __get_pydantic_json_schema__(
        self, schema: core_schema.CoreSchema, handler: GetJsonSchemaHandler
    ) -> Schema:
        """Called by pydantic."""
        return dict(self.schema)


class FromText(Reads, eq=False):
    """As `Reads`, for a value that is always a text; one that recurs is read once."""

    def __get_pydantic_core_schema__(
        self, source: object, handler: GetCoreSchemaHandler
    ) -> core_schema.CoreSchema:
        """Called by pydantic."""
        read = lru_cache(maxsize=4096)(self.read)
        return core_schema.no_info_after_validator_function(read, core_schema.str_schema())


class OneOf(Frozen):
    """Marks a field that takes the words of its enumeration; `drop` may stand before a word."""

    drop: str = ""

    def __get_pydantic_core_schema__(
        self, source: type[Enum], handler: GetCoreSchemaHandler
    ) -> core_schema.CoreSchema:
        """Called by pydantic."""
        read = lru_cache(maxsize=4096)(lambda text: word(source, text, self.drop))
        words = [str(member.value) for member in source]
        return core_schema.no_info_after_validator_function(
            read, core_schema.str_schema(), metadata={"words": words}
        )

    def __get_pydantic_json_schema__(
        self, schema: core_schema.CoreSchema, handler: GetJsonSchemaHandler
    ) -> Schema:
        """Called by pydantic."""
        return {"enum": schema["metadata"]["words"]}


def whole(texts: tuple[str, ...]) -> tuple[str, ...]:
    """The texts of a list of nameplates or areas.

    Raises:
        InputError: one is a division without its class, and the one before ends with a class: the
            commas of `[Class I, Division 2]` have cut one text.
    """
    for before, text in pairwise(texts):
        if _DIVISION.match(text) and _CLASS.search(before):
            said = ", ".join(texts)
            raise InputError(
                f"the commas within brackets cut a text into pieces, one is '{brief(text)}'",
                f"quote the whole: '{brief(said)}'",
            )
    return texts


_DIVISION = pattern(r"(?:div|zone)\w*\.?\s*[0-9I]", re.IGNORECASE)
_CLASS = pattern(r"\b(?:class|cl)\.?\s*[I1-3]+$", re.IGNORECASE)
_QUOTES = "\u201c\u201d\u201e\u2018\u2019\u201a\u00ab\u00bb"


def _refuse_quotes(text: str) -> None:
    """Raise for what a word processor put between its own quotes, which belong to no name."""
    bare = text.strip(_QUOTES)
    if bare != text:
        raise InputError(
            f"'{brief(text)}' stands in typographic quotes", f"write it without: {brief(bare)}"
        )


def _item(text: str) -> Item:
    """An item as it is written.

    Raises:
        InputError: it stands in typographic quotes, so that nothing would find it by its name.
    """
    _refuse_quotes(text)
    return Item(text)


def word(kind: type[Word], text: str, drop: str = "") -> Word:
    """The member of an enumeration that a list names.

    Raises:
        InputError: there is none; the nearest one is told.
    """
    found = notation.member(kind, text, drop)
    if found is None:
        names = [str(member.value) for member in kind]
        _refuse_quotes(text)
        if kind is Law:  # CEC is no NEC with a slip of the pen
            raise InputError(
                f"'{brief(text)}' is not known here",
                "write NEC, IEC or ATEX; no other code is known (NFPA 70, IEC 60079-14, "
                "1999/92/EC)",
            )
        near = nearest(text, names)
        meant = f", perhaps `{near}`" if near else ""
        raise InputError(f"'{brief(text)}' is not known here", f"write {choices(names)}{meant}")
    return found


def _yes_no(text: str) -> bool:
    found = _YES_NO.get(text.lower())
    if found is None:
        raise InputError(f"'{brief(text)}' is neither yes nor no", "write true or false")
    return found


def _nothing(text: str) -> bool:
    """False for `none`: the list says that there is nothing."""
    if text != "none":
        raise InputError(
            f"'{brief(text)}' is no mapping", "write none, or {voltage: …, current: …}"
        )
    return False


def _date(text: str) -> date:
    try:
        if _ISO_DATE.fullmatch(text):
            return date.fromisoformat(text)
    except ValueError:
        pass
    raise InputError(f"'{brief(text)}' is no date", "write year-month-day, such as 2031-06-30")


def _number(text: str) -> Decimal:
    if not _NUMBER.fullmatch(text):
        raise InputError(
            f"'{brief(text)}' is no plain number", "write digits only, such as 2 or 84.50"
        )
    return Decimal(text)


_INCHES = pattern(r"(?:(\d{1,2})(?:[ -]+|$))?(?:(\d{1,2})/([1-9]\d?))?")
_ENDS = ("inches", "inch", "in.", "in", '"', "″")


def _trade_size(text: str) -> Decimal:
    """Inches as conduit is sold by: `3/4`, `1-1/2`, `2 in`; not a metric designator."""
    bare = text.strip().lower()
    for end in _ENDS:
        bare = bare.removesuffix(end).strip()
    found = _INCHES.fullmatch(bare)
    amount = Decimal(bare) if _NUMBER.fullmatch(bare) else Decimal(0)
    if bare and found is not None:
        whole, top, under = (Decimal(each or 0) for each in found.groups())
        amount = whole + (top / under if under else 0)
    if not 0 < amount <= _LARGEST_CONDUIT:
        raise InputError(
            f"'{brief(text)}' is no trade size of conduit", "write inches, such as 3/4 or 2"
        )
    return amount


_LARGEST_CONDUIT = 6  # the largest trade size of NFPA 70 Table 300.1(C); above are designators


def _version(text: str) -> int:
    if text != "1":
        raise InputError(
            f"format version '{brief(text)}' is not known here",
            "write 1, or use a newer release for a newer format",
        )
    return 1


def _stated(text: str | None) -> str | None:
    """The text, or None where it only says that there is nothing: that is no evidence."""
    return None if text is None or text.lower() in NOT_STATED else text


def _text(read: Callable[[str], T]) -> Callable[[str], T]:
    """The reading, whose refusal is reported at the place in the file."""

    def told(text: str) -> T:
        try:
            return read(text)
        except QuantityError as error:
            message, _, remedy = str(error).partition("; ")
            raise InputError(message, remedy or "check the figure") from None

    return told


def _described(says: str, *examples: str) -> Schema:
    return {"type": "string", "description": says, "examples": list(examples)}


def _quantity(
    dimension: Dimension,
    example: str,
    read: Callable[[str, Dimension], object] = notation.amount,
    more: str = "",
) -> Reads:
    return FromText(
        _text(lambda text: read(text, dimension)),
        _described(f"a number with its unit: {units(dimension)}{more}", example),
    )


def _rating(dimension: Dimension, example: str) -> Reads:
    return _quantity(dimension, example, notation.rating, "; or `none`")


def _permitted(dimension: Dimension, example: str) -> Reads:
    one = _quantity(dimension, example)

    def by_group(value: object) -> ByGroup:
        if isinstance(value, str):
            return ByGroup(any=one.read(value))
        if not isinstance(value, dict) or not all(isinstance(v, str) for v in value.values()):
            raise InputError(f"{kind_of(value)} where a quantity belongs", "write {IIC: …, IIB: …}")
        return ByGroup(
            groups=tuple((word(Group, key, "group "), one.read(v)) for key, v in value.items())
        )

    groups = {"type": "object", "additionalProperties": one.schema}
    return Reads(by_group, {"anyOf": [one.schema, groups]})


def _composition(value: object) -> tuple[tuple[str, Decimal], ...]:
    if not isinstance(value, dict):
        raise InputError(
            f"{kind_of(value)} where a composition belongs", "write {Al: 95 %, Mg: 4 %}"
        )
    return tuple((name, _share(name, share)) for name, share in value.items())


def _share(name: str, share: object) -> Decimal:
    if not isinstance(share, str):
        raise InputError(f"{kind_of(share)} as the share of {brief(name)}", "write a percentage")
    return _text(lambda text: notation.amount(text, Dimension.FRACTION))(share)


def _mixture(value: object) -> Mixture:
    if not isinstance(value, dict):
        raise InputError(
            f"{kind_of(value)} where a mixture belongs", "write {isopropanol: 15 %, water: rest}"
        )
    for name, share in value.items():
        if not isinstance(share, str):
            raise InputError(
                f"{kind_of(share)} as the share of {brief(name)}", "write a percentage, or rest"
            )
    return _text(lambda _: notation.mixture(value))("")


_AS_TEXT: Mapping[str, Any] = {"type": ["string", "number", "boolean"]}
Text = Annotated[str, Field(max_length=_NAME_CHARACTERS), WithJsonSchema(dict(_AS_TEXT))]
"""A name or phrase, kept as it is written."""
Reference = Annotated[Text, AfterValidator(_stated)]
"""The name of a document, source or person; `n/a` and the like say that there is none."""
ItemText = Annotated[Text, AfterValidator(_item)]
LongText = Annotated[str, WithJsonSchema(dict(_AS_TEXT))]
"""A description."""
YesNo = Annotated[
    bool, FromText(_yes_no, {"anyOf": [{"type": "boolean"}, {"enum": ["yes", "no"]}]})
]
NoneWord = Annotated[bool, FromText(_nothing, {"enum": ["none"]})]
Date = Annotated[
    date, FromText(_date, {"type": "string", "format": "date", "examples": ["2031-06-30"]})
]
Number = Annotated[
    Decimal, FromText(_number, {"type": ["number", "string"], "minimum": 0, "examples": [2]})
]
Version = Annotated[int, FromText(_version, {"enum": [1, "1"]})]
OneWord = Annotated[Word, OneOf()]
GroupWord = Annotated[Group, OneOf(drop="group ")]

TradeSize = Annotated[
    Decimal, FromText(_trade_size, _described("inches, as conduit is sold by", "3/4", "2"))
]

_D = Dimension
Temperature = Annotated[Decimal, _quantity(_D.TEMPERATURE, "75 °C")]
Length = Annotated[Decimal, _quantity(_D.LENGTH, "0.1 mm")]
Layer = Annotated[Decimal, _quantity(_D.LENGTH, "5 mm", lambda text, _: notation.layer(text))]
Surface = Annotated[Decimal, _quantity(_D.AREA, "40 cm²")]
Speed = Annotated[Decimal, _quantity(_D.SPEED, "0.2 m/s")]
Voltage = Annotated[Decimal, _quantity(_D.VOLTAGE, "28 V")]
Charge = Annotated[Decimal, _quantity(_D.CHARGE, "8 nC")]
Current = Annotated[Decimal, _quantity(_D.CURRENT, "93 mA")]
Power = Annotated[Decimal, _quantity(_D.POWER, "0.65 W")]
Energy = Annotated[Decimal, _quantity(_D.ENERGY, "2 kJ")]
Intensity = Annotated[Decimal, _quantity(_D.INTENSITY, "5 mW/mm²")]
VolumeFlow = Annotated[Decimal, _quantity(_D.VOLUME_FLOW, "600 m³/h")]
Time = Annotated[Decimal, _quantity(_D.TIME, "8 s")]
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
TemperatureRange = Annotated[Range, _quantity(_D.TEMPERATURE, "-20..40 °C", notation.span)]
PressureRange = Annotated[Range, _quantity(_D.PRESSURE, "90..110 kPa", notation.span)]
Oxygen = Annotated[Range, FromText(_text(notation.oxygen), _described("percent by volume", "21 %"))]
Strength = Annotated[
    Concentration,
    FromText(
        _text(notation.strength),
        _described(
            "a number or range; % is by mass unless % v/v, g/L or mg/L is written",
            "2 %",
            "0.1..0.5 g/L",
        ),
    ),
]
AcidityRange = Annotated[
    Range, FromText(_text(notation.acidity), _described("a pH or a range of it", "6..8"))
]
Composition = Annotated[
    tuple[tuple[str, Decimal], ...],
    Reads(
        _composition,
        {"type": "object", "additionalProperties": {"type": "string", "examples": ["95 %"]}},
    ),
]
MixtureOf = Annotated[
    Mixture,
    Reads(
        _mixture,
        {
            "type": "object",
            "additionalProperties": {"type": "string", "examples": ["15 %", "40 % v/v", "rest"]},
        },
    ),
]
