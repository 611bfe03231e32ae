"""The JSON Schema for editors accepts what the reader accepts, and refuses its typing mistakes."""

from typing import Any

import jsonschema  # type: ignore[import-untyped]  # it has no types
import pytest
from ruamel.yaml import YAML

from areafit.file import bom_schema, read
from areafit.file.model import areas_schema
from areafit.file.waivers import waivers_schema

GOOD = """\
areafit: 1
assembly: {number: M-1, revision: 3}
code: IEC
edition: 2017
locations:
  room:
    area: [Zone 1 IIB T4]
    substances: [ethanol, {name: own, group: IIB, autoignition: 300 °C, source: report}]
    chemicals: none
    layer: none
parts:
  - item: 10
    location: room
    kind: [electrical, simple apparatus]
    quantity: 2
    bonded: true
    arcing: "no"
    marking:
    surface_temperature: 75 °C
    materials: [304, {material: 1.4301, exposure: splash, composition: {Cr: 18 %}}]
    evidence: [{type: listing, valid_until: "2031-06-30"}]
    contacts: [{with: 10, wet: true}]
    alternates: [{part_number: 7}]
loops:
  - name: L
    source: {item: 10, Voc: 28 V, Co: {IIC: 83 nF}}
    devices: [{item: 10, Ui: 30 V}]
    cable: {length: 5 m, values: default}
"""


def checked(text: str) -> list[str]:
    validator = jsonschema.Draft202012Validator(bom_schema())
    data: Any = YAML(typ="safe", pure=True).load(text)
    return [error.message for error in validator.iter_errors(data)]


def test_it_is_a_schema_and_accepts_a_list() -> None:
    jsonschema.Draft202012Validator.check_schema(bom_schema())
    read(GOOD.encode(), "good.yaml")
    assert checked(GOOD) == []


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("code: IEC", "code: IEK"),
        ("areafit: 1", "areafit: 2"),
        ("  - item: 10\n    location", "  - location"),
        ("bonded:", "bounded:"),
        ("75 °C", "75"),
        ("Voc", "Vco"),
        ("exposure: splash", "exposure: wet"),
    ],
)
def test_it_refuses_mistakes(old: str, new: str) -> None:
    assert checked(GOOD.replace(old, new))


def test_a_shared_file_of_places_has_one_too() -> None:
    validator = jsonschema.Draft202012Validator(areas_schema())
    assert validator.is_valid({"areafit-areas": 1, "code": "IEC", "locations": {"hall": {}}})
    assert not validator.is_valid({"areafit-areas": 1})


def test_every_mapping_tells_an_editor_what_it_is() -> None:
    schema = bom_schema()
    assert schema["$schema"] == "https://json-schema.org/draft/2020-12/schema"
    for definition in [schema, *schema["$defs"].values()]:
        assert definition["description"]
        assert definition["additionalProperties"] is False


def test_only_known_names_are_exported() -> None:
    import areafit.file

    with pytest.raises(AttributeError):
        areafit.file.nothing  # noqa: B018 - asked for on purpose


def test_every_key_tells_an_editor_what_it_means() -> None:
    for schema in (bom_schema(), areas_schema(), waivers_schema()):
        for definition in [schema, *schema.get("$defs", {}).values()]:
            assert all(each["description"] for each in definition.get("properties", {}).values())
