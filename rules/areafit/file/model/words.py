"""Values out of closed lists of words: the trade's enumerations, yes and no, dates, numbers."""

from collections.abc import Mapping
from datetime import date
from decimal import Decimal
from enum import Enum
from typing import Annotated, Any

from pydantic import AfterValidator, Field, WithJsonSchema

from areafit import notation
from areafit.facts.evidence import EvidenceType
from areafit.facts.fittings import (
    ContactProtection,
    Contents,
    Device,
    Enclosure,
    EntryType,
    IntrinsicSafety,
    OnLoss,
)
from areafit.facts.groups import Group
from areafit.facts.mechanics import Drive, EndStops, Form, LooseParts, LossOfAir, Release, Side
from areafit.facts.part import Exposure, Kind, SurfaceCase
from areafit.facts.place import Atmosphere
from areafit.facts.protection import Law, Level
from areafit.file.limits import NAME_CHARACTERS
from areafit.file.model.mistake import Mistake
from areafit.file.model.types import FromText, Reads
from areafit.file.wording import brief, choices, nearest
from areafit.pattern import pattern

_YES_NO = {"true": True, "yes": True, "false": False, "no": False}
_NOT_STATED = {"none", "n/a", "na", "-", "–", "?", "tbd", "tba", "tbc", "unknown", "pending", "nil"}
_NUMBER = pattern(r"\d{1,15}(?:\.\d{1,9})?")
_ISO_DATE = pattern(r"\d{4}-\d{2}-\d{2}")


def _word(members: type[Enum], drop: str = "") -> Reads:
    names = [str(member.value) for member in members]

    def read(text: str) -> Enum:
        found = notation.member(members, text, drop)
        if found is not None:
            return found
        near = nearest(text, names)
        meant = f", perhaps `{near}`" if near else ""
        raise Mistake(f"'{brief(text)}' is not known here", f"write {choices(names)}{meant}")

    return FromText(read, {"enum": names})


def _yes_no(text: str) -> bool:
    found = _YES_NO.get(text.lower())
    if found is None:
        raise Mistake(f"'{brief(text)}' is neither yes nor no", "write true or false")
    return found


def _nothing(text: str) -> bool:
    """False for `none`: the list says that there is nothing."""
    if text != "none":
        raise Mistake(f"'{brief(text)}' is no mapping", "write none, or {voltage: …, current: …}")
    return False


def _date(text: str) -> date:
    try:
        if _ISO_DATE.fullmatch(text):
            return date.fromisoformat(text)
    except ValueError:
        pass
    raise Mistake(f"'{brief(text)}' is no date", "write year-month-day, such as 2031-06-30")


def _number(text: str) -> Decimal:
    if not _NUMBER.fullmatch(text):
        raise Mistake(
            f"'{brief(text)}' is no plain number", "write digits only, such as 2 or 84.50"
        )
    return Decimal(text)


def _version(text: str) -> int:
    if text != "1":
        raise Mistake(
            f"format version '{brief(text)}' is not known here",
            "write 1, or use a newer release for a newer format",
        )
    return 1


def _stated(text: str | None) -> str | None:
    """The text, or None where it only says that there is nothing: that is no evidence."""
    return None if text is None or text.lower() in _NOT_STATED else text


_AS_TEXT: Mapping[str, Any] = {"type": ["string", "number", "boolean"]}
Text = Annotated[str, Field(max_length=NAME_CHARACTERS), WithJsonSchema(dict(_AS_TEXT))]
"""A name or phrase, kept as it is written."""
Reference = Annotated[Text, AfterValidator(_stated)]
"""The name of a document, source or person; `n/a` and the like say that there is none."""
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
_LAW = _word(Law)
read_law = _LAW.read
LawWord = Annotated[Law, _LAW]
_GROUP = _word(Group, drop="group ")
read_group = _GROUP.read
GroupWord = Annotated[Group, _GROUP]
LevelWord = Annotated[Level, _word(Level)]
KindWord = Annotated[Kind, _word(Kind)]
ExposureWord = Annotated[Exposure, _word(Exposure)]
SurfaceCaseWord = Annotated[SurfaceCase, _word(SurfaceCase)]
AtmosphereWord = Annotated[Atmosphere, _word(Atmosphere)]
EvidenceWord = Annotated[EvidenceType, _word(EvidenceType)]
DeviceWord = Annotated[Device, _word(Device)]
ContactProtectionWord = Annotated[ContactProtection, _word(ContactProtection)]
IntrinsicSafetyWord = Annotated[IntrinsicSafety, _word(IntrinsicSafety)]
EnclosureWord = Annotated[Enclosure, _word(Enclosure)]
ContentsWord = Annotated[Contents, _word(Contents)]
OnLossWord = Annotated[OnLoss, _word(OnLoss)]
EntryTypeWord = Annotated[EntryType, _word(EntryType)]
DriveWord = Annotated[Drive, _word(Drive)]
EndStopsWord = Annotated[EndStops, _word(EndStops)]
FormWord = Annotated[Form, _word(Form)]
LoosePartsWord = Annotated[LooseParts, _word(LooseParts)]
LossOfAirWord = Annotated[LossOfAir, _word(LossOfAir)]
ReleaseWord = Annotated[Release, _word(Release)]
SideWord = Annotated[Side, _word(Side)]
