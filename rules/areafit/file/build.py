"""Checked models to facts: field by field of the same name, text decoded by `marking`."""

import re
from collections.abc import Callable, Collection, Iterable, Mapping
from functools import cache
from operator import itemgetter
from typing import Any, TypeVar

from areafit.facts.evidence import Evidence
from areafit.facts.loop import Cable, Loop
from areafit.facts.marking import Marking
from areafit.facts.part import (
    Body,
    Complete,
    Disagreement,
    Equipment,
    Exposure,
    Item,
    MaterialUse,
    Part,
)
from areafit.facts.place import Place
from areafit.facts.protection import Law
from areafit.file.model import CableModel, LocationModel, LoopModel
from areafit.file.notes import NotedFacts
from areafit.file.part_model import ABSENT, AlternateModel, PartModel
from areafit.file.references import Standing
from areafit.marking import decode, read_areas
from areafit.values import Frozen, replace

F = TypeVar("F")
Record = TypeVar("Record", bound=Frozen)


def _taking(fact: type[Record]) -> Callable[[Mapping[str, Any]], Record]:
    """Makes a fact of the values that are named like its fields."""
    pick = itemgetter(*fact.__struct_fields__)

    def take(values: Mapping[str, Any]) -> Record:
        return fact(*pick(values))

    return take


_place = _taking(Place)
_equipment = _taking(Equipment)
_body = _taking(Body)
_part = _taking(Part)


class Builder:
    """Makes the facts of one list; text that occurs many times is decoded once."""

    def __init__(self, law: Law, edition: str | None, in_loops: Collection[str] = ()) -> None:
        self._law = law
        self._edition = edition
        self._in_loops = in_loops
        self._decode = cache(decode)
        self._markings = cache(self._decoded)
        self._exposed = cache(_exposed)
        self._noted = cache(_noted)
        self._shared: dict[object, Any] = {}

    def place(self, name: str, model: LocationModel) -> Place:
        """A location."""
        values = {**vars(model), "name": name, "law": self._law, "edition": self._edition}
        values["area"] = None if model.area is None else read_areas(model.area)
        return _place(values)

    def part(
        self,
        index: int,
        model: PartModel,
        standing: Standing,
        noted: NotedFacts,
        disagreements: tuple[Disagreement, ...] = (),
    ) -> Part:
        """A line with its alternates, each of which takes what it leaves out from the line.

        The line's documents are not for another part number or description, unless they name it.
        """
        line = {**vars(model), **noted.facts, "index": index, "alternate": 0, "alternates": ()}
        if noted.materials:
            line["materials"] = tuple(
                self._noted(use, tuple(noted.materials.get(number, {}).items()))
                for number, use in enumerate(model.materials or ())
            )
        said = (one.document for one in noted.statements if one.path == "contacts")
        line["contacts_note"] = next(said, None)
        line["disagreements"] = _of(f"parts/{index}", disagreements)
        line["in_loop"] = model.item in self._in_loops
        process = () if model.process_side is None else (model.process_side,)
        line["locations"] = tuple(dict.fromkeys((*standing.locations, *process)))
        line["exposure"] = standing.exposure
        if model.alternates:
            line["alternates"] = tuple(
                self._variant(
                    {
                        **_lent(line, alternate),
                        **_claimed(line, alternate),
                        **_own(alternate),
                        "alternate": number,
                        "disagreements": _of(
                            f"parts/{index}/alternates/{number - 1}", disagreements
                        ),
                    }
                )
                for number, alternate in enumerate(model.alternates, 1)
            )
        return self._variant(line)

    def _variant(self, values: dict[str, Any]) -> Part:
        values["kinds"] = self._same(frozenset(values["kinds"]))
        if values["markings"] is not None:
            values["markings"] = self._markings(values["markings"])
        if values["electrical_content"] is not None:
            content = ", ".join(values["electrical_content"]) or "none"
            values["electrical_content"] = self._same(content)
        for name in ("ingress", "description"):
            values[name] = self._same(values[name])
        number, documents = values["part_number"], values["evidence"]
        if documents:
            values["evidence"] = tuple(_covering(each, number) for each in documents)
        _complete(values)
        exposure, materials = values["exposure"], values["materials"]
        if exposure is not None and materials:
            materials = tuple(self._exposed(m, exposure) for m in materials)
        if materials:
            values["materials"] = self._shared.setdefault(tuple(map(id, materials)), materials)
        values.update(
            examined=(),
            refused=frozenset(),
            housed=None,
            faces_process=False,
            kept=False,
            mounted=None,
        )
        values.update(answered=(), otherwise=())
        values["equipment"] = _equipment(values)
        values["body"] = _body(values)
        return _part(values)

    def _decoded(self, texts: tuple[str, ...]) -> tuple[Marking, ...]:
        return tuple(map(self._decode, texts))

    def _same(self, value: F) -> F:
        """One object for equal values, so that memories may go by identity."""
        found: F = self._shared.setdefault(value, value)
        return found


def loop_items(loops: Iterable[LoopModel | None]) -> frozenset[str]:
    """The items that the loops join."""
    found = (loop for loop in loops if loop is not None)
    return frozenset(
        end.item for loop in found for end in (*(loop.sources or (loop.source,)), *loop.devices)
    )


def build_loop(index: int, model: LoopModel, places_of: Mapping[Item, tuple[str, ...]]) -> Loop:
    """A loop; it enters every location of its ends, and those that the file adds."""
    sources = model.sources or (model.source,)
    ends = [end.item for end in (*sources, *model.devices)]
    standing = (name for item in ends for name in places_of[item])
    locations = dict.fromkeys((*standing, *(model.locations or ())))
    return Loop(
        index=index,
        name=model.name,
        group=model.group,
        sources=sources,  # type: ignore[arg-type]  # `Becomes` has made facts of the models
        devices=model.devices,  # type: ignore[arg-type]  # as above
        cable=None if model.cable is None else _cable(model.cable),
        locations=tuple(locations),
    )


def _cable(model: CableModel) -> Cable:
    values = vars(model)
    return Cable(**{k: v for k, v in values.items() if k != "values"}, default=bool(model.values))


def _own(alternate: AlternateModel) -> dict[str, Any]:
    """What an alternate states; a key left empty takes the line's statement away from it.

    It cannot do without a kind and a location, which it takes from the line then.
    """
    stated = {name: getattr(alternate, name) for name in alternate.model_fields_set}
    if "contacts" in stated:
        stated["contacts_note"] = None
    needed = ("kinds", "locations")
    return {name: v for name, v in stated.items() if v is not None or name not in needed}


def _lent(line: dict[str, Any], alternate: AlternateModel) -> dict[str, Any]:
    """What a line lends to an alternate: of its documents those that name it, where it has a name.

    The others are kept as documents for other part numbers, since they may count against it.
    """
    named = ("part_number", "description")
    known = {name: getattr(alternate, name) for name in named}
    if not line["evidence"] or all(known[n] in {None, line[n]} for n in named):
        return line
    number, own = known["part_number"], line["part_number"] or "the part number of the line"
    lent = (
        replace(document, covers=document.covers or own, elsewhere=True)
        if number is None or document.covers is None
        else document
        for document in line["evidence"]
    )
    return {**line, "evidence": tuple(lent), **({"part_number": None} if number is None else {})}


def _claimed(line: dict[str, Any], alternate: AlternateModel) -> dict[str, Any]:
    """What a line says of its list of materials: the document is not for that of another part."""
    said = line["materials_complete"]
    other = {"part_number", "description", "materials"} & alternate.model_fields_set
    if not other or not isinstance(said, Complete):
        return {}
    return {"materials_complete": Complete(said.complete)}


def _complete(values: dict[str, Any]) -> None:
    """Part what is a material from what the part has not, and a claim from its document."""
    said, materials = values["materials_complete"], values["materials"]
    stated = said if isinstance(said, Complete) else Complete(said)
    values.update(materials_complete=stated.complete, materials_document=stated.document)
    gone = absent(materials)
    values["without"] = tuple(materials[i].component for i in gone)
    if gone:
        values["materials"] = tuple(use for use in materials if use.material != ABSENT)


def absent(materials: tuple[MaterialUse, ...] | None) -> tuple[int, ...]:
    """The places of those that say what the part has not."""
    return tuple(i for i, use in enumerate(materials or ()) if use.material == ABSENT)


def _of(prefix: str, disagreements: tuple[Disagreement, ...]) -> tuple[Disagreement, ...]:
    return tuple(one for one in disagreements if one.prefix == prefix)


def _covering(document: Evidence, part_number: str | None) -> Evidence:
    """The document, marked where the part numbers that it covers leave out this one.

    A line without a number is among none of them.
    """
    if document.covers is None or (document.covers == part_number and not document.elsewhere):
        return document
    if part_number is None:
        return replace(document, elsewhere=True)
    word = rf"(?<![^\W_]){re.escape(part_number)}(?![^\W_])"
    elsewhere = re.search(word, document.covers, re.IGNORECASE) is None
    return document if elsewhere is document.elsewhere else replace(document, elsewhere=elsewhere)


def _noted(use: MaterialUse, facts: tuple[tuple[str, Any], ...]) -> MaterialUse:
    return replace(use, **dict(facts)) if facts else use


def _exposed(use: MaterialUse, exposure: Exposure) -> MaterialUse:
    return use if use.exposure is not None else replace(use, exposure=exposure)
