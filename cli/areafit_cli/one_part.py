"""One part at one place as a list of its own, from words of the command line.

Facts are built directly: a single question must not wait for the reader of files.
"""

import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from types import MappingProxyType
from typing import TypeVar

from areafit.facts.bom import Assembly, Bom, Position
from areafit.facts.evidence import Evidence, EvidenceType
from areafit.facts.fittings import Device
from areafit.facts.marking import Marking
from areafit.facts.part import (
    Body,
    Equipment,
    Exposure,
    Item,
    Kind,
    MaterialUse,
    Part,
    SurfaceTemperature,
)
from areafit.facts.place import AreaReading, Place, PresentSubstance
from areafit.facts.protection import Law
from areafit.facts.quantity import Dimension, Range
from areafit.file.facts import facts
from areafit.marking import decode, read_areas
from areafit.pattern import pattern
from areafit_cli import words
from areafit_cli.errors import CallError

T = TypeVar("T")
_CLASS = pattern(r"\b(?:class|div)", re.IGNORECASE)  # not the one within `unclassified`
PLACE = "here"
ITEM = Item("1")
_SUBJECTS = MappingProxyType({"parts": "part", "locations": "place"})
# A finding on an area may ask for the document that declares it.
_BESIDE = MappingProxyType({"place.area": ("place.area", "place.document")})
Stated = Mapping[str, tuple[str, ...]]
"""What a call states: the words of each option that it gives, by the option's parameter."""


def stated(**options: str | bool | Iterable[str] | None) -> Stated:
    """The options that are given; a flag has no words."""
    given = {name: value for name, value in options.items() if value is not None}
    return {
        name: () if value is True else (value,) if isinstance(value, str) else tuple(value)
        for name, value in given.items()
        if value is True or isinstance(value, str) or value
    }


def build(stated: Stated) -> Bom:
    """The list of one part.

    Raises:
        CallError: a word or quantity cannot be read.
    """
    area = read_areas(stated["area"]) if "area" in stated else None
    code = _one(stated, "code")
    law = words.word(Law, code, "code") if code else _law_of(area)
    return Bom(
        name="command line",
        assembly=Assembly("one part"),
        law=law,
        places={PLACE: _place(stated, law, area)},
        parts=(_part(stated),),
        edition=_one(stated, "edition"),
        locate=locate,
    )


def locate(path: str) -> Position:
    """The option that states the fact of a path; there are no lines to point at."""
    subject, *steps = path.split("/")
    key = (
        f"{_SUBJECTS[subject]}.{steps[1]}" if subject in _SUBJECTS and steps[1:] else f"list.{path}"
    )
    rows = (row for name in _BESIDE.get(key, (key,)) if (row := facts().get(name)))
    option = ", ".join(option.name for row in rows for option in row.options())
    if not option:  # no option states it: say where it can be stated
        last = path.rpartition("/")[2]
        option = f"`{last}` in a list, for which there is no option" if last else "command line"
    return Position(option, 0, 0)


def _one(stated: Stated, option: str) -> str | None:
    return stated[option][0] if option in stated else None


def _law_of(area: AreaReading | None) -> Law:
    """Only the North American rules write a Class; the report says which rules governed."""
    if area is None:
        return Law.IEC
    stated = any(each.hazard_class for each in area.areas)
    unread = not area.areas and _CLASS.search(area.text)
    return Law.NEC if stated or unread else Law.IEC


def _kinds(stated: tuple[str, ...], markings: tuple[Marking, ...]) -> frozenset[Kind]:
    if stated:
        return frozenset(words.word(Kind, kind, "kind") for kind in stated)
    if not markings:
        known = ", ".join(kind.value for kind in Kind)
        raise CallError(f"a part without a marking needs its --kind: {known}")
    codes = [code for marking in markings for code in marking.codes]
    mechanical = codes and all(code.non_electrical for code in codes)
    return frozenset({Kind.MECHANICAL if mechanical else Kind.ELECTRICAL})


def _place(stated: Stated, law: Law, area: AreaReading | None) -> Place:
    layer = _one(stated, "layer")
    return Place(
        PLACE,
        law,
        edition=_one(stated, "edition"),
        area=area,
        substances=_listed(stated.get("substance"), "--substance", PresentSubstance),
        layer=None if layer is None else words.layer(layer, "--layer"),
        ambient=_span(_one(stated, "ambient"), "--ambient"),
        document=_one(stated, "document"),
        chemicals=_listed(stated.get("chemical"), "--chemical", words.chemical),
    )


def _listed(
    texts: tuple[str, ...] | None, option: str, make: Callable[[str], T]
) -> tuple[T, ...] | None:
    if texts is None:
        return None
    if "none" in texts:
        if len(texts) > 1:
            raise CallError(f"{option} none stands alone: it says that there is none")
        return ()
    return tuple(map(make, texts))


def _plates(texts: tuple[str, ...]) -> tuple[str, ...]:
    """The nameplates; single words only are one that was written without quotes."""
    unquoted = len(texts) > 1 and not any(" " in text for text in texts)
    return (" ".join(texts),) if unquoted else texts


def _entries(text: str | None) -> tuple[()] | None:
    """No entries; what closes one takes more facts than an option can hold."""
    if text in (None, "none"):
        return None if text is None else ()
    raise CallError(
        "--entries takes `none`, for an enclosure without an opening for a cable; what closes an "
        "opening is stated in a list, under `entries`"
    )


def _part(stated: Stated) -> Part:
    markings = tuple(map(decode, _plates(stated.get("marking", ()))))
    device = _one(stated, "device")
    equipment = Equipment(
        kinds=_kinds(stated.get("kind", ()), markings),
        markings=markings or None,
        ambient=_span(_one(stated, "rated_ambient"), "--rated-ambient"),
        surface=_surface(_one(stated, "surface_temperature")),
        ingress=_one(stated, "ingress"),
        evidence=tuple(_evidence(stated)) or None,
        electrical_content=_one(stated, "electrical_content"),
        entries=_entries(_one(stated, "entries")),
        device=words.word(Device, device, "device") if device else None,
    )
    materials = _materials(stated.get("material", ()), stated.get("exposure", ()))
    return Part(
        index=0,
        item=ITEM,
        locations=(PLACE,),
        equipment=equipment,
        body=Body(equipment, materials=materials, bonded="bonded" in stated or None),
        materials=materials,
        materials_complete="materials_complete" in stated or None,
        contacts=() if "no_contacts" in stated else None,
    )


def _evidence(stated: Stated) -> Iterator[Evidence]:
    """The documents: each has an option that is called as its type."""
    for option in facts()["part.evidence"].options():
        kind = EvidenceType(option.parameter.replace("_", " "))
        yield from (Evidence(kind, number) for number in stated.get(option.parameter, ()))


def _span(text: str | None, option: str) -> Range | None:
    return None if text is None else words.span(text, Dimension.TEMPERATURE, option)


def _surface(text: str | None) -> SurfaceTemperature | None:
    if text is None:
        return None
    value = words.quantity(text, Dimension.TEMPERATURE, "--surface-temperature")
    return SurfaceTemperature(value)


def _materials(
    names: tuple[str, ...], exposures: tuple[str, ...]
) -> tuple[MaterialUse, ...] | None:
    """The n-th exposure goes with the n-th material; a single one holds for all."""
    if names == ("none",):
        return ()
    if len(exposures) not in (0, 1, len(names)):
        raise CallError("give one --exposure for all, or one for each --material in their order")
    found: Iterable[Exposure | None] = [words.word(Exposure, e, "exposure") for e in exposures]
    if len(exposures) != len(names):
        found = [*found, None][:1] * len(names)
    uses = [
        MaterialUse(name, exposure=exposure) for name, exposure in zip(names, found, strict=True)
    ]
    return tuple(uses) or None
