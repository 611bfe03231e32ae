"""What all models of the file have in common."""

from collections.abc import Iterator
from typing import Any, ClassVar, get_args

from pydantic import BaseModel, ConfigDict, GetJsonSchemaHandler
from pydantic_core import core_schema


class Model(BaseModel):
    """A mapping of the file: no other keys than its own, no value turned into another type.

    `called` names such a mapping in messages.
    """

    # Deferred: those that only stand inside others need no validator of their own.
    model_config = ConfigDict(
        strict=True, extra="forbid", str_strip_whitespace=True, defer_build=True
    )

    called: ClassVar[str]

    @classmethod
    def keys(cls) -> dict[str, tuple[str, ...]]:
        """For each field, the keys that a file may write for it."""
        return {name: _spellings(name, field) for name, field in cls.model_fields.items()}

    @classmethod
    def __get_pydantic_json_schema__(
        cls, schema: core_schema.CoreSchema, handler: GetJsonSchemaHandler
    ) -> dict[str, Any]:
        """Called by pydantic, which itself would describe one spelling of a key only."""
        described = handler(schema)
        properties = handler.resolve_ref_schema(described).get("properties", {})
        for first, *others in cls.keys().values():
            properties.update((other, properties[first]) for other in others)
        return described


def models_in(annotation: Any) -> Iterator[type[Model]]:  # noqa: ANN401 - any type annotation
    """The models that a field's type speaks of."""
    if isinstance(annotation, type) and issubclass(annotation, Model):
        yield annotation
    for inner in get_args(annotation):
        yield from models_in(inner)


def _spellings(name: str, field: Any) -> tuple[str, ...]:  # noqa: ANN401 - pydantic's field
    alias = field.validation_alias
    if alias is None:
        return (name,)
    return (alias,) if isinstance(alias, str) else tuple(map(str, alias.choices))
