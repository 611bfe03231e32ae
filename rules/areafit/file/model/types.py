"""How a kind of value is read, and how an editor is told about it."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import Any, cast

from pydantic import GetCoreSchemaHandler, GetJsonSchemaHandler, ValidatorFunctionWrapHandler
from pydantic_core import core_schema

from areafit.file.model.mistake import Mistake
from areafit.file.wording import brief
from areafit.values import Frozen

Schema = dict[str, Any]


@dataclass(frozen=True, slots=True, eq=False)
class Reads:
    """Marks a field whose value `read` turns into a fact; `schema` describes it to editors."""

    read: Callable[[Any], Any]
    schema: Mapping[str, Any]

    def __get_pydantic_core_schema__(
        self, source: object, handler: GetCoreSchemaHandler
    ) -> core_schema.CoreSchema:
        """Called by pydantic."""
        return core_schema.no_info_plain_validator_function(self.read)

    def __get_pydantic_json_schema__(
        self, schema: core_schema.CoreSchema, handler: GetJsonSchemaHandler
    ) -> Schema:
        """Called by pydantic."""
        return dict(self.schema)


class FromText(Reads):
    """As `Reads`, for a value that is always a text; one that recurs is read once."""

    def __get_pydantic_core_schema__(
        self, source: object, handler: GetCoreSchemaHandler
    ) -> core_schema.CoreSchema:
        """Called by pydantic."""
        read = lru_cache(maxsize=4096)(self.read)
        return core_schema.no_info_after_validator_function(read, core_schema.str_schema())


class Listed(Frozen):
    """Marks a list that may be written as its only entry, and as `none` where `none` says so."""

    none: bool = False

    def __get_pydantic_core_schema__(
        self, source: object, handler: GetCoreSchemaHandler
    ) -> core_schema.CoreSchema:
        """Called by pydantic."""
        return core_schema.no_info_before_validator_function(self._entries, handler(source))

    def __get_pydantic_json_schema__(
        self, schema: core_schema.CoreSchema, handler: GetJsonSchemaHandler
    ) -> Schema:
        """Called by pydantic."""
        many = handler(schema)
        none = [{"const": "none"}] if self.none else []
        return {"anyOf": [*none, many["items"], {**many, "minItems": 1}]}

    def _entries(self, value: object) -> object:
        if isinstance(value, str):
            return self._one(value)
        if not isinstance(value, list):
            raise Mistake(f"{kind_of(value)} where a list belongs", "start each entry with `- `")
        if not value:
            say = "write `none` if there is none" if self.none else "write its entries"
            raise Mistake("an empty list says nothing", f"{say}, or leave the key out")
        if self.none and "none" in value:
            raise Mistake("`none` among the entries of a list", "write `none` instead of the list")
        return tuple(value)

    def _one(self, value: str) -> tuple[str, ...]:
        if self.none and value == "none":
            return ()
        if self.none and value.lower() == "none":
            raise Mistake(f"'{value}' may be a leftover", "write `none` to say that there is none")
        return (value,)


class Fact(Frozen):
    """Marks a field whose model becomes a fact; equal text becomes one and the same fact.

    A text in place of the mapping stands for its key `shorthand`. The facts built so far are kept
    in the context of the validation, for one reading.
    """

    fact: Callable[..., Any]
    shorthand: str = ""

    def __get_pydantic_core_schema__(
        self, source: object, handler: GetCoreSchemaHandler
    ) -> core_schema.CoreSchema:
        """Called by pydantic."""
        return core_schema.with_info_wrap_validator_function(self._read, handler(source))

    def __get_pydantic_json_schema__(
        self, schema: core_schema.CoreSchema, handler: GetJsonSchemaHandler
    ) -> Schema:
        """Called by pydantic."""
        mapping = handler(schema)
        if not self.shorthand:
            return mapping
        keys = handler.resolve_ref_schema(mapping)["properties"]
        return {"anyOf": [keys[self.shorthand], mapping]}

    def _read(
        self,
        value: Any,  # noqa: ANN401 - anything may be written
        handler: ValidatorFunctionWrapHandler,
        info: core_schema.ValidationInfo,
    ) -> object:
        if isinstance(value, str) and self.shorthand:
            value = {self.shorthand: value}
        known = cast("dict[object, object]", info.context)
        try:
            key = (self.fact, *value, *value.values())
            found = known.get(key)
        except (AttributeError, TypeError):  # no mapping, or one that holds further ones
            return self.fact(**vars(handler(value)))
        if found is None:
            found = known[key] = self.fact(**vars(handler(value)))
        return found


def kind_of(value: object) -> str:
    """What a value is, as a message names it."""
    if value is None:
        return "nothing"
    if isinstance(value, str):
        return f"the text '{brief(value)}'"
    return "a mapping" if isinstance(value, dict) else "a list"
