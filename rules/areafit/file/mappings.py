"""Mappings and lists of a file as models, whose keys mean what the table of facts says."""

from collections.abc import Callable, Iterator
from typing import Annotated, Any, ClassVar, Self, TypeVar, cast, get_args

from pydantic import (
    AliasChoices,
    BaseModel,
    ConfigDict,
    Field,
    GetCoreSchemaHandler,
    GetJsonSchemaHandler,
    ValidatorFunctionWrapHandler,
)
from pydantic_core import core_schema

from areafit.errors import InputError
from areafit.file.facts import facts
from areafit.file.fields import Schema, kind_of
from areafit.values import Frozen

Entry = TypeVar("Entry")


class Model(BaseModel):
    """A mapping of the file: no other keys than its own, no value turned into another type.

    `called` names such a mapping in messages; `under` stands before its keys in the table of facts,
    `beside` before those that are no keys of such a mapping elsewhere.
    """

    # Deferred: those that only stand inside others need no validator of their own.
    model_config = ConfigDict(
        strict=True, extra="forbid", str_strip_whitespace=True, defer_build=True
    )

    called: ClassVar[str]
    under: ClassVar[str] = ""
    beside: ClassVar[str] = ""

    @classmethod
    def keys(cls) -> dict[str, tuple[str, ...]]:
        """For each field, the keys that a file may write for it."""
        return {name: _spellings(name, field) for name, field in cls.model_fields.items()}

    @classmethod
    def offered(cls) -> list[str]:
        """The keys that a message about an unknown one may name."""
        return [key for spellings in cls.keys().values() for key in spellings]

    @classmethod
    def meaning(cls, name: str) -> str:
        """What a field means: by the table of facts, or by its own words where it is no fact."""
        row = facts().get(cls.fact(name))
        return row.meaning if row else cls.model_fields[name].description or ""

    @classmethod
    def fact(cls, name: str) -> str:
        """The row of a field in the table of facts; empty where the mapping holds none."""
        key = cls.keys()[name][0]
        own = cls.under + key
        return own if own in facts() or not cls.beside else cls.beside + key

    @classmethod
    def schema_for_editors(cls) -> Schema:
        """As JSON Schema (draft 2020-12)."""
        schema = cls.model_json_schema(by_alias=True, mode="validation")
        return {"$schema": "https://json-schema.org/draft/2020-12/schema", **schema}

    @classmethod
    def __get_pydantic_core_schema__(
        cls, source: type[BaseModel], handler: GetCoreSchemaHandler
    ) -> core_schema.CoreSchema:
        """Called by pydantic: what checks a mapping inside another is built when one is read.

        A list holds few of the kinds that it may hold, and building all takes longer than judging.
        """
        if handler.field_name is None:
            return handler(source)
        ref = f"{cls.__module__}.{cls.__qualname__}:{id(cls)}"  # as pydantic's, for its JSON Schema
        return core_schema.with_info_plain_validator_function(cls._inside, ref=ref)

    @classmethod
    def _inside(cls, value: object, info: core_schema.ValidationInfo) -> Self:
        return cls.model_validate(value, context=info.context)

    @classmethod
    def __get_pydantic_json_schema__(
        cls, schema: core_schema.CoreSchema, handler: GetJsonSchemaHandler
    ) -> Schema:
        """Called by pydantic, which itself would describe one spelling of a key only."""
        if schema["type"] == "function-plain":  # one inside another, as above
            own = cls.__pydantic_core_schema__
            return handler(core_schema.no_info_after_validator_function(cls, own))
        described = handler(schema)
        properties = handler.resolve_ref_schema(described).get("properties", {})
        for name, keys in cls.keys().items():
            if meaning := cls.meaning(name):
                properties[keys[0]] = {**properties[keys[0]], "description": meaning}
            properties.update((other, properties[keys[0]]) for other in keys[1:])
        return described


def written(*keys: str) -> Any:  # noqa: ANN401 - as pydantic's own
    """A fact that may be left out and stands under other keys than its name."""
    return Field(None, validation_alias=keys[0] if len(keys) == 1 else AliasChoices(*keys))


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


class Listed(Frozen):
    """Marks a list. A single text stands for a list of one, and `none` for nothing where it may."""

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
        return {"anyOf": [*none, *_texts(many["items"], handler), {**many, "minItems": 1}]}

    def _entries(self, value: object) -> object:
        if isinstance(value, str):
            return self._one(value)
        if not isinstance(value, list):
            remedy = "start each entry with `- `, or put the only one in brackets, [ ]"
            raise InputError(f"{kind_of(value)} where a list belongs", remedy)
        if not value:
            say = "write `none` if there is none" if self.none else "write its entries"
            raise InputError("an empty list says nothing", f"{say}, or leave the key out")
        if self.none and "none" in value:
            raise InputError(
                "`none` among the entries of a list", "write `none` instead of the list"
            )
        return tuple(value)

    def _one(self, value: str) -> tuple[str, ...]:
        if self.none and value == "none":
            return ()
        if self.none and value.lower() == "none":
            raise InputError(
                f"'{value}' may be a leftover", "write `none` to say that there is none"
            )
        return (value,)


def _texts(entry: Schema, handler: GetJsonSchemaHandler) -> Iterator[Schema]:
    """What of an entry is a text, which may stand for a list of it; a mapping may not."""
    meant = handler.resolve_ref_schema(entry)
    if "anyOf" in meant:
        for one in meant["anyOf"]:
            yield from _texts(one, handler)
    elif meant.get("type") != "object":
        yield entry


class Becomes(Frozen):
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


Many = Annotated[tuple[Entry, ...], Listed()]
ManyOrNone = Annotated[tuple[Entry, ...], Listed(none=True)]
