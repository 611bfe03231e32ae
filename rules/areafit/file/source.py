"""One file being read: its document, values of it held against models, and what is said of them."""

import re
from collections.abc import Callable, Iterable, Sequence
from functools import lru_cache
from typing import Any, TypeVar, get_args

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from areafit.errors import Collector, brief, choices, nearest, suggestion
from areafit.facts.bom import Position
from areafit.file.events import load
from areafit.file.facts import facts
from areafit.file.fields import kind_of
from areafit.file.mappings import Listed, Model, models_in
from areafit.file.positions import Document
from areafit.file.text import decode
from areafit.values import Frozen

Path = tuple[str | int, ...]
_Saying = tuple[str, str]
M = TypeVar("M", bound=Model)


class SourceFile(Frozen, eq=False):
    """A document, the errors found so far, and the facts made of it so far."""

    document: Document
    errors: Collector
    facts: dict[object, object]
    text: str = ""

    def text_at(self, line: int, column: int) -> str:
        """The rest of a line of the file from a column on, both counted from 1."""
        return _lines(self.text)[line - 1][column - 1 :]

    def check(self, model: type[M], value: Any, *path: str | int) -> M | None:  # noqa: ANN401
        """The value at a path as a model; None where errors had to be noted."""
        try:
            return model.model_validate(value, context=self.facts)
        except ValidationError as error:
            _tell(error, model, self.document, path, self.errors)
            return None

    def note(self, path: Path, message: str, remedy: str) -> None:
        """An error in the value at a path."""
        self.errors.add(self.document.at(path), message, remedy)

    def missing(self, path: Path, holder: type[Model], key: str) -> None:
        """A mapping at a path without a key that it needs."""
        self.errors.add(self.document.at(path), *_without(holder, key))

    def note_key(self, path: Path, message: str, remedy: str) -> None:
        """An error in the key at the end of a path."""
        self.errors.add(self.document.key_at(path), message, remedy)


def open_source(data: bytes, name: str, errors: Collector) -> SourceFile:
    """Parse a file.

    Raises:
        InputErrors: so little of it can be parsed that it cannot be checked further.
    """
    _refuse_exports(data, name, errors)
    text = decode(data, name, errors)
    return SourceFile(load(text, name, errors), errors, {}, text)


_EXPORTS = (".csv", ".tsv", ".xlsx", ".xlsm", ".ods")
_OLD = (".xls", ".pdf", ".doc", ".docx")


def _refuse_exports(data: bytes, name: str, errors: Collector) -> None:
    """Raise where the file is an export of a parts list, with how to make a list of it."""
    suffix = name[name.rfind(".") :].lower() if "." in name else ""
    start = Position(name, 1, 1)
    if suffix in _OLD or data.startswith((b"%PDF", b"\xd0\xcf\x11\xe0")):
        errors.fatal(
            start,
            "this file cannot be read as a list",
            "save the parts list as .xlsx or .csv, then `areafit import` makes a list of it",
        )
    if suffix in _EXPORTS or data.startswith(b"PK\x03\x04"):
        errors.fatal(
            start,
            "this is an export of a parts list, not yet a list",
            f"make a list of it: `areafit import {brief(name)} --code NEC --output bom.yaml`",
        )


@lru_cache(maxsize=2)
def _lines(text: str) -> list[str]:
    return re.split("\r\n|\r|\n", text)


def _tell(
    error: ValidationError, model: type[Model], document: Document, path: Path, errors: Collector
) -> None:
    """Note all that a model found in the value at `path`."""
    for found in error.errors(include_url=False):
        where = (*path, *found["loc"])
        holder = _model_at(model, found["loc"][:-1])
        if found["type"] == "extra_forbidden":
            errors.add(document.key_at(where), *_unknown_key(holder, str(where[-1])))
        else:
            say = _SAYINGS.get(found["type"], _other)
            message, remedy = say(found, holder)
            if say is _no_mapping and found["input"] in _NOTHING and _or_none(model, found["loc"]):
                remedy = "write `none` if there is none, or leave the key out while it is not known"
            subject = "" if found["type"] == "missing" else _subject(document.written(where))
            errors.add(document.at(where), f"{subject}{message}", remedy)


def _model_at(model: type[Model], path: Iterable[str | int]) -> type[Model]:
    """The model of the mapping at a path below a model."""
    for step in path:
        for name, keys in model.keys().items():
            if step in keys:
                model = next(models_in(model.model_fields[name].annotation), model)
    return model


def _subject(path: Path) -> str:
    """The key that a message is about."""
    keys = [step for step in path if isinstance(step, str)]
    return f"`{brief(keys[-1])}`: " if keys else ""


_NOTHING = ("n/a", "N/A", "n.a.", "no", "No", "NO", "nil", "nothing", "not applicable", "-")


def _or_none(model: type[Model], path: Sequence[str | int]) -> bool:
    """Whether what stands at a path below a model may be `none` instead."""
    steps = [step for step in path if isinstance(step, str)]
    holder = _model_at(model, steps[:-1])
    name = next((name for name, keys in holder.keys().items() if steps[-1] in keys), None)
    kinds = get_args(holder.model_fields[name].annotation) if name else ()
    return any(Listed(none=True) in getattr(kind, "__metadata__", ()) for kind in kinds)


_TYPOGRAPHIC = "“”„‟‘’‚«»"


def _unknown_key(holder: type[Model], key: str) -> _Saying:
    message = f"`{brief(key)}` is no key of {holder.called}"
    known = holder.keys().values()
    if key.strip(_TYPOGRAPHIC) != key:
        said = f"'{brief(key)}' is a piece of a text that typographic quotes do not hold together"
        return said, "write plain quotes around the whole text"
    name, colon, rest = key.partition(":")
    if colon and any(name in spellings for spellings in known):
        said = f"a space is missing behind the colon of '{brief(key)}'"
        return said, f"write `{name}: {brief(rest)}`"
    for spellings in known:
        if key in spellings:
            return f"`{key}` says the same as `{spellings[0]}`", "keep one of the two"
    belongs = _belongs(key, holder)
    near = nearest(key, holder.offered())
    if not belongs:
        return message, suggestion(key, holder.offered())
    if near is not None and key in near:
        return message, f"did you mean `{near}`? `{brief(key)}` by itself {belongs}"
    return message, f"it {belongs}; write it there"


def _belongs(key: str, holder: type[Model]) -> str:
    """Where else a list takes a key of this name; empty where nowhere, or of the holder's kind."""
    found: dict[str, None] = {}
    if f"{holder.under}{key}" in facts():
        return ""
    for row in facts().values():
        above, _, name = row.key.rpartition(".")
        own = f"{row.subject}.{above}." if above else f"{row.subject}."
        if (name == key or key in row.also) and own != holder.under:
            inside = " of ".join(f"`{step}`" for step in reversed(above.split(".")) if step)
            found[" of ".join(filter(None, (inside, f"a {row.subject}")))] = None
    return f"is a key of {choices(list(found)[:2], 'or')}" if found else ""


def _missing(found: ErrorDetails, holder: type[Model]) -> _Saying:
    return _without(holder, str(found["loc"][-1]))


def _without(holder: type[Model], key: str) -> _Saying:
    name = next(name for name, keys in holder.keys().items() if key in keys)
    meant = holder.meaning(name).partition(";")[0].rstrip(".")
    if key.startswith("areafit"):
        return f"{holder.called} without `{key}`", f"add `{key}: 1` as its first line"
    remedy = f"add `{key}:`" + (f", {meant[:1].lower()}{meant[1:]}" if meant else "")
    return f"{holder.called} without `{key}`", remedy


def _said_by_field(found: ErrorDetails, holder: type[Model]) -> _Saying:
    del holder
    refused = found["ctx"]["error"]
    return refused.message, refused.remedy


def _no_text(found: ErrorDetails, holder: type[Model]) -> _Saying:
    del holder
    return f"{kind_of(found['input'])} where a text belongs", "write a single value"


def _no_mapping(found: ErrorDetails, holder: type[Model]) -> _Saying:
    inner = _model_at(holder, found["loc"][-1:])
    keys = [f"`{names[0]}:`" for names in inner.keys().values()][:3]
    remedy = f"write its keys, such as {choices(keys, 'and')}"
    return f"{kind_of(found['input'])} where a mapping belongs", remedy


def _too_long(found: ErrorDetails, holder: type[Model]) -> _Saying:
    del holder
    return f"longer than {found['ctx']['max_length']} characters", "shorten it"


def _other(found: ErrorDetails, holder: type[Model]) -> _Saying:
    del holder
    return f"{kind_of(found['input'])} cannot be taken", found["msg"]


_SAYINGS: dict[str, Callable[[ErrorDetails, type[Model]], _Saying]] = {
    "missing": _missing,
    "value_error": _said_by_field,
    "string_type": _no_text,
    "model_type": _no_mapping,
    "model_attributes_type": _no_mapping,
    "dict_type": _no_mapping,
    "string_too_long": _too_long,
}
