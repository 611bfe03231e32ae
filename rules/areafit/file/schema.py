"""JSON Schemas of the file formats, for editors that complete and check while one writes."""

from typing import Any

from areafit.file.model import BomModel, Model, SiteModel
from areafit.file.waivers import WaiversModel


def bom_schema() -> dict[str, Any]:
    """A bill of materials as JSON Schema (draft 2020-12), made from the models of reading."""
    return _schema(BomModel)


def areas_schema() -> dict[str, Any]:
    """As `bom_schema`, for a shared file of places."""
    return _schema(SiteModel)


def waivers_schema() -> dict[str, Any]:
    """As `bom_schema`, for a waiver file."""
    return _schema(WaiversModel)


def _schema(model: type[Model]) -> dict[str, Any]:
    schema = model.model_json_schema(by_alias=True, mode="validation")
    return {"$schema": "https://json-schema.org/draft/2020-12/schema", **schema}
