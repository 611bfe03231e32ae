"""A JSON Schema of the file format, for editors that complete and check while one writes."""

from typing import Any

from areafit.file.model.bom import BomModel


def bom_schema() -> dict[str, Any]:
    """The format as JSON Schema (draft 2020-12), made from the models that reading uses."""
    schema = BomModel.model_json_schema(by_alias=True, mode="validation")
    return {"$schema": "https://json-schema.org/draft/2020-12/schema", **schema}
