"""One part at one place as a list of its own, from words of the command line.

Facts are built directly: a single question must not wait for the reader of files.
"""

import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from types import MappingProxyType
from typing import Any, TypeVar

from areafit.facts.bom import Assembly, Bom, Position
from areafit.facts.evidence import Evidence, EvidenceType
from areafit.facts.fittings import Device
from areafit.facts.marking import Marking
from areafit.facts.mechanics import AirSupply, Brake, Liquid
from areafit.facts.part import (
    Body,
    Equipment,
    Item,
    Kind,
    MaterialUse,
    Part,
    SurfaceCase,
    SurfaceTemperature,
)
from areafit.facts.place import AreaReading, Place, PresentSubstance
from areafit.facts.protection import Law, Level
from areafit.facts.quantity import Dimension, Range
from areafit.file.facts import FactRow, facts
from areafit.marking import decode, read_areas
from areafit.pattern import pattern
from areafit.values import replace
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
        ingress=_one(stated, "required_ingress"),
        required_levels=_levels(_one(stated, "required_epl")),
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
        description=_one(stated, "description"),
    )
    materials = _materials(stated)
    return Part(
        index=0,
        item=ITEM,
        locations=(PLACE,),
        equipment=equipment,
        body=Body(
            equipment,
            materials=materials,
            bonded="bonded" in stated or None,
            **_mechanics(stated),
        ),
        materials=materials,
        materials_complete="materials_complete" in stated or None,
        contacts=() if "no_contacts" in stated else None,
        description=_one(stated, "description"),
    )


_HOLDERS: Mapping[str, Callable[..., object]] = MappingProxyType(
    {"air_supply": AirSupply, "brake": Brake, "liquid": Liquid}
)
_BODY = frozenset(Body.__struct_fields__) - {"equipment", "materials", "bonded", "examined"}


def _mechanics(stated: Stated) -> dict[str, Any]:
    """What the options say of a part that moves, falls, rubs, is braked or fed by air."""
    found: dict[str, Any] = {}
    inner: dict[str, dict[str, object]] = {}
    for row in facts().values():
        if not mechanical(row):
            continue
        holder, _, key = row.key.rpartition(".")
        for option in row.options():
            if option.parameter in stated and not option.flag:
                value = _read(row, stated[option.parameter][0], option.name)
                (inner.setdefault(holder, {}) if holder else found)[key] = value
    return {**found, **{key: _HOLDERS[key](**facts_) for key, facts_ in inner.items()}}


def mechanical(row: FactRow) -> bool:
    """Whether a row is about how a part moves, falls, rubs, is braked or fed."""
    return row.subject == "part" and row.key.partition(".")[0] in _BODY


_DIMENSIONS = MappingProxyType(
    {dimension.name.lower().replace("_", " "): dimension for dimension in Dimension}
)


def _read(row: FactRow, text: str, option: str) -> object:
    """What an option says, by the words or the unit that the table of facts gives it."""
    if row.unit:
        dimension = _DIMENSIONS[row.unit]
        if "none" in row.words:
            return words.layer(text, option)
        return words.quantity(text, dimension, option)
    if row.closed is not None:
        return words.word(row.closed, text, row.key.rpartition(".")[2].replace("_", " "))
    if row.words == ("yes", "no"):
        return _yes_no(text, option)
    return text


def _yes_no(text: str, option: str) -> bool:
    if text.casefold() not in _YES | _NO:
        raise CallError(f"{option} {text!r} is neither yes nor no; write one of the two")
    return text.casefold() in _YES


_YES, _NO = frozenset({"yes", "true"}), frozenset({"no", "false"})


def _levels(text: str | None) -> tuple[Level, ...] | None:
    """The levels of protection asked for, `Ga` or `Ga, Da`."""
    if text is None:
        return None
    return tuple(words.word(Level, each.strip(), "level") for each in text.split(","))


def _evidence(stated: Stated) -> Iterator[Evidence]:
    """The documents: each has an option that is called as its type."""
    for option in facts()["part.evidence"].options():
        kind = EvidenceType(option.parameter.replace("_", " "))
        yield from (Evidence(kind, number) for number in stated.get(option.parameter, ()))


def _span(text: str | None, option: str) -> Range | None:
    return None if text is None else words.span(text, Dimension.TEMPERATURE, option)


def _surface(text: str | None) -> SurfaceTemperature | None:
    """`75 °C`, or with the air and the state it was found at: `75 °C at 40 °C, normal`."""
    if text is None:
        return None
    measured, _, case = text.partition(",")
    value, _, ambient = measured.partition(" at ")
    return SurfaceTemperature(
        words.quantity(value, Dimension.TEMPERATURE, "--surface-temperature"),
        words.quantity(ambient, Dimension.TEMPERATURE, "--surface-temperature")
        if ambient
        else None,
        words.word(SurfaceCase, case.strip(), "state") if case else None,
    )


def _materials(stated: Stated) -> tuple[MaterialUse, ...] | None:
    """Of each option the n-th value goes with the n-th material; a single one holds for all."""
    names = stated.get("material", ())
    if names == ("none",):
        return ()
    uses = [MaterialUse(name) for name in names]
    for row in _OF_MATERIALS:
        for option in facts()[f"part.{row}"].options():
            texts = stated.get(option.parameter, ())
            if len(texts) not in (0, 1, len(names)):
                raise CallError(
                    f"give one {option.name} for all, or one for each --material in their order"
                )
            key = row.rpartition(".")[2]
            read = [_read(facts()[f"part.{row}"], text, option.name) for text in texts]
            for i, fact in enumerate(read * len(uses) if len(read) == 1 else read):
                said: dict[str, Any] = {key: fact}
                uses[i] = replace(uses[i], **said)
    return tuple(uses) or None


_OF_MATERIALS = (
    "exposure",
    *(
        f"materials.{key}"
        for key in MaterialUse.__struct_fields__
        if key not in ("material", "works_in", "screw")  # put on by the engine
    ),
)
