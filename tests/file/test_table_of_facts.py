"""The table of facts and the models of a list say the same, key by key."""

import csv
import re
from collections.abc import Iterator, Sequence
from importlib.resources import files
from typing import Any, Literal, get_args, get_origin

import pytest

from areafit.errors import InputError
from areafit.facts.part import Complete
from areafit.facts.quantity import Dimension, units
from areafit.file.facts import FactRow, facts
from areafit.file.fields import Number, OneOf, Reads
from areafit.file.library import LibraryModel
from areafit.file.mappings import Becomes, Listed, Model, models_in
from areafit.file.model import BomModel, SiteModel

_UNITS = {
    **{f"a number with its unit: {units(each)}": each.name.lower() for each in Dimension},
    "percent by volume": "oxygen",
    "a number or range; % is by mass unless % v/v, g/L or mg/L is written": "concentration",
    "a pH or a range of it": "pH",
    "inches, as conduit is sold by": "trade size",
}
Taken = tuple[tuple[str, ...], str]
_RANGES = {"oxygen", "concentration", "pH"}


def _models(model: type[Model]) -> Iterator[type[Model]]:
    yield model
    for field in model.model_fields.values():
        for inner in models_in(field.annotation):
            yield from _models(inner)


MODELS = {*_models(BomModel), *_models(SiteModel), *_models(LibraryModel)}
FIELDS = sorted(
    {(model.fact(name), name, model) for model in MODELS
     for name in model.model_fields},
    key=lambda each: (each[0], each[2].__name__),
)  # fmt: skip


def test_each_key_of_a_list_is_one_row_and_each_row_a_key() -> None:
    assert len(MODELS) > 20
    keys = {key for key, _, _ in FIELDS}
    rows = set(facts())
    assert not keys - rows, f"Add a row to file/facts.csv: {sorted(keys - rows)}"
    assert not rows - keys, f"file/facts.csv has no key of a model in: {sorted(rows - keys)}"


@pytest.mark.parametrize(("key", "name", "model"), FIELDS)
def test_the_row_says_what_the_model_takes(key: str, name: str, model: type[Model]) -> None:
    row = facts()[key]
    field = model.model_fields[name]
    taken = dict.fromkeys(_taken(field.annotation, field.metadata))
    assert row.also == model.keys()[name][1:]
    assert set(row.words) == {word for words, _ in taken for word in words}
    assert {row.unit} - {""} == {unit for _, unit in taken} - {""}


def _taken(
    annotation: Any, metadata: Sequence[object] = ()
) -> Iterator[tuple[tuple[str, ...], str]]:
    """The words (or the name of their list) and the unit that each part of a field takes."""
    for one in (*metadata, *getattr(annotation, "__metadata__", ())):
        match one:
            case Reads():
                yield ("none",) if _reads_none(one) else (), _unit(one)
                yield from ((words, "") for words in _words_of(one.schema))
            case OneOf():
                yield (getattr(annotation, "__origin__", annotation).__name__,), ""
            case Listed(none=True):
                yield ("none",), ""
            case Becomes(fact=made) if made is Complete:  # asked for by its shorthand
                yield ("yes", "no"), ""
    if get_origin(annotation) is Literal:
        yield get_args(annotation), ""
    for inner in get_args(annotation):
        yield from _taken(inner)


def _words_of(schema: Any) -> Iterator[tuple[str, ...]]:
    if {"type": "boolean"} in schema.get("anyOf", ()):
        yield "yes", "no"
    elif "enum" in schema:
        yield tuple(dict.fromkeys(map(str, schema["enum"])))


def _reads_none(one: Reads) -> bool:
    try:
        return one.read("none") is not None
    except InputError:
        return False


def _unit(one: Reads) -> str:
    if one in Number.__metadata__:  # type: ignore[attr-defined]  # an annotated type
        return "number"
    if one.schema.get("format") == "date":
        return "date"
    if "anyOf" in one.schema and "description" in one.schema["anyOf"][0]:
        return f"{_UNITS[one.schema['anyOf'][0]['description']].replace('_', ' ')} by group"
    if one.schema.get("type") == "object":
        return "composition"
    said = one.schema.get("description")
    if said is None:
        return ""
    unit = _UNITS[said.removesuffix("; or `none`")].replace("_", " ")
    return f"{unit} range" if unit in _RANGES or ".." in one.schema["examples"][0] else unit


@pytest.mark.parametrize("row", facts().values(), ids=facts())
def test_a_row_speaks_to_people(row: FactRow) -> None:
    assert row.meaning[0] in "`" + row.meaning[0].upper()
    assert row.meaning.endswith(".")
    assert row.question.endswith("?")
    assert all(row.choices)
    assert len(row.option) == len(row.help)


def test_what_is_stated_above_bounds_what_is_stated_below() -> None:
    """A mapping that an entry of the library may not hold has no key that it may hold."""
    for id_, row in facts().items():
        above = facts().get(id_.rpartition(".")[0])
        if above is not None:
            assert above.library or not row.library, id_


NOTES = {
    *("bonded", "contacts", "exposure", "materials_complete", "drop_height", "end_stops"),
    *("loose_parts", "release", "air_supply", "location"),
    *("materials.welded", "materials.crevice", "materials.stressed", "materials.finish"),
}
NEVER_IN_A_LIBRARY = {
    *(
        "item",
        "line_id",
        "proposed",
        "part_number",
        "quantity",
        "location",
        "parent",
        "inside",
        "inside_ambient",
        "process_side",
        "contacts",
        "alternates",
    ),
    *("exposure", "bonded", "resistance_to_earth", "entries", "conduit_seals", "inverter_fed"),
    *("air_supply", "drop_height", "rubbing_speed", "placed_on_market", "in_service"),
    *("overload_trip", "starting", "wiring.moves", "wiring.serves"),  # as `inverter_fed`
    *("battery.charged", "battery.replaced", "slip", "brake", "liquid"),
    *("materials.instead", "materials.document"),
    *(f"evidence.conditions.{key}" for key in ("met", "met_by", "document", "role")),
}


def test_notes_and_libraries_hold_what_the_format_says() -> None:
    parts = {row.key: row for row in facts().values() if row.subject == "part"}
    assert {key for key, row in parts.items() if row.note} - {
        key for key in parts if key.startswith("air_supply.")
    } == NOTES
    barred = {key for key, row in parts.items() if not row.library}
    assert {key for key in barred if key.partition(".")[0] not in NEVER_IN_A_LIBRARY} == {
        key for key in NEVER_IN_A_LIBRARY if "." in key
    }
    assert barred >= NEVER_IN_A_LIBRARY
    assert not any(row.note or row.library for row in facts().values() if row.subject != "part")


def test_usual_names_of_columns_lead_to_columns_of_the_table() -> None:
    text = (files("areafit.importing") / "column_names.csv").read_text(encoding="utf-8")
    named = {row["key"] for row in csv.DictReader(text.splitlines())}
    columns = {row.column for row in facts().values() if row.column}
    assert named - {"level", "total"} <= columns
    assert len(columns) == sum(bool(row.column) for row in facts().values())


def test_every_listed_word_has_its_meaning_in_the_trade() -> None:
    """Told with the choices of an interview: what a word means, never what verdict it gives."""
    listed = [
        (row, word) for row in facts().values() for word in row.choices if word not in row.words
    ]
    assert len(listed) > 150
    assert not [(row.key, word) for row, word in listed if not row.meaning_of(word)]
    told = [row.meaning_of(word) for row, word in listed]
    text = (files("areafit") / "file" / "words.csv").read_text(encoding="utf-8")
    assert {row["meaning"] for row in csv.DictReader(text.splitlines())} == set(told)
    judging = re.compile(r"\b(pass|passes|flag|fits?|unproven|allowed|suitable|better|best)\b")
    assert not [each for each in told if judging.search(each.casefold())]
