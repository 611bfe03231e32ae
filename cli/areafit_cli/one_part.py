"""One part at one place as a list of its own, from words of the command line.

Facts are built directly: a single question must not wait for the reader of files.
"""

import re
from collections.abc import Callable, Iterable
from typing import TypeVar

from areafit.facts.bom import Assembly, Bom, Position
from areafit.facts.evidence import Evidence, EvidenceType
from areafit.facts.fittings import Device
from areafit.facts.marking import Marking
from areafit.facts.part import (
    Body,
    Equipment,
    Exposure,
    Kind,
    MaterialUse,
    Part,
    SurfaceTemperature,
)
from areafit.facts.place import AreaReading, Place, PresentSubstance
from areafit.facts.protection import Law
from areafit.facts.quantity import Dimension, Range
from areafit.marking import decode, read_areas
from areafit.pattern import pattern
from areafit.values import Frozen
from areafit_cli import words
from areafit_cli.errors import CallError

T = TypeVar("T")
_CLASS = pattern(r"\b(?:class|div)", re.IGNORECASE)  # not the one within `unclassified`
PLACE = "here"
ITEM = "1"
_OPTIONS = (
    ("parts/0/marking", "MARKING"),
    ("parts/0/ambient", "--rated-ambient"),
    ("parts/0/surface_temperature", "--surface-temperature"),
    ("parts/0/ingress", "--ingress"),
    ("parts/0/evidence", "--listing, --certificate, --declaration, --assessment"),
    ("parts/0/kind", "--kind"),
    ("parts/0/materials_complete", "--materials-complete"),
    ("parts/0/materials", "--material"),
    ("parts/0/contacts", "--no-contacts"),
    ("parts/0/bonded", "--bonded"),
    ("parts/0/entries", "--entries"),
    ("parts/0/device", "--device"),
    ("parts/0/electrical_content", "--electrical-content"),
    (f"locations/{PLACE}/area", "--area, --document"),
    (f"locations/{PLACE}/substances", "--substance"),
    (f"locations/{PLACE}/chemicals", "--chemical"),
    (f"locations/{PLACE}/ambient", "--ambient"),
    (f"locations/{PLACE}/layer", "--layer"),
    (f"locations/{PLACE}/document", "--document"),
)


class PartOptions(Frozen):
    """What the call states, in words; empty and None mean not stated, `none` that there is none."""

    code: str | None = None
    edition: str | None = None
    area: tuple[str, ...] = ()
    substances: tuple[str, ...] = ()
    layer: str | None = None
    ambient: str | None = None
    document: str | None = None
    chemicals: tuple[str, ...] = ()
    markings: tuple[str, ...] = ()
    kinds: tuple[str, ...] = ()
    rated_ambient: str | None = None
    surface_temperature: str | None = None
    ingress: str | None = None
    evidence: tuple[tuple[EvidenceType, str], ...] = ()
    materials: tuple[str, ...] = ()
    exposures: tuple[str, ...] = ()
    materials_complete: bool | None = None
    no_contacts: bool = False
    electrical_content: str | None = None
    bonded: bool | None = None
    entries: str | None = None
    device: str | None = None


def build(stated: PartOptions) -> Bom:
    """The list of one part.

    Raises:
        CallError: a word or quantity cannot be read.
    """
    area = read_areas(stated.area) if stated.area else None
    law = words.word(Law, stated.code, "code") if stated.code else _law_of(area)
    return Bom(
        name="command line",
        assembly=Assembly("one part"),
        law=law,
        places={PLACE: _place(stated, law, area)},
        parts=(_part(stated),),
        edition=stated.edition,
        locate=locate,
    )


def locate(path: str) -> Position:
    """The option that states the fact of a path; there are no lines to point at."""
    option = next((name for start, name in _OPTIONS if path.startswith(start)), None)
    if option is None:  # no option states it: say where it can be stated
        key = path.rpartition("/")[2]
        option = f"`{key}` in a list, for which there is no option" if key else "command line"
    return Position(option, 0, 0)


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


def _place(stated: PartOptions, law: Law, area: AreaReading | None) -> Place:
    return Place(
        PLACE,
        law,
        edition=stated.edition,
        area=area,
        substances=_listed(stated.substances, "--substance", PresentSubstance),
        layer=None if stated.layer is None else words.layer(stated.layer, "--layer"),
        ambient=_span(stated.ambient, "--ambient"),
        document=stated.document,
        chemicals=_listed(stated.chemicals, "--chemical", words.chemical),
    )


def _listed(texts: tuple[str, ...], option: str, make: Callable[[str], T]) -> tuple[T, ...] | None:
    if not texts:
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


def _part(stated: PartOptions) -> Part:
    markings = tuple(map(decode, _plates(stated.markings)))
    equipment = Equipment(
        kinds=_kinds(stated.kinds, markings),
        markings=markings or None,
        ambient=_span(stated.rated_ambient, "--rated-ambient"),
        surface=_surface(stated.surface_temperature),
        ingress=stated.ingress,
        evidence=tuple(Evidence(kind, number) for kind, number in stated.evidence) or None,
        electrical_content=stated.electrical_content,
        entries=_entries(stated.entries),
        device=words.word(Device, stated.device, "device") if stated.device else None,
    )
    materials = _materials(stated.materials, stated.exposures)
    return Part(
        index=0,
        item=ITEM,
        locations=(PLACE,),
        equipment=equipment,
        body=Body(equipment, materials=materials, bonded=stated.bonded),
        materials=materials,
        materials_complete=stated.materials_complete,
        contacts=() if stated.no_contacts else None,
    )


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
