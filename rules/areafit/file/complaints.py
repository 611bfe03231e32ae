"""The findings of the models, said with their position for the person who wrote the file."""

from collections.abc import Callable, Iterable

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from areafit.file.mistakes import Mistakes
from areafit.file.model.base import Model, models_in
from areafit.file.model.types import kind_of
from areafit.file.positions import Document
from areafit.file.wording import brief, choices, suggestion

Path = tuple[str | int, ...]
Saying = tuple[str, str]


def complain(
    error: ValidationError, model: type[Model], document: Document, path: Path, mistakes: Mistakes
) -> None:
    """Note all that a model found in the value at `path`."""
    for found in error.errors(include_url=False):
        where = (*path, *found["loc"])
        holder = model_at(model, found["loc"][:-1])
        if found["type"] == "extra_forbidden":
            mistakes.add(document.key_at(where), *_unknown_key(holder, str(where[-1])))
        else:
            say = _SAYINGS.get(found["type"], _other)
            message, remedy = say(found, holder)
            subject = "" if found["type"] == "missing" else _subject(document.written(where))
            mistakes.add(document.at(where), f"{subject}{message}", remedy)


def model_at(model: type[Model], path: Iterable[str | int]) -> type[Model]:
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


def _unknown_key(holder: type[Model], key: str) -> Saying:
    message = f"`{brief(key)}` is no key of {holder.called}"
    known = holder.keys().values()
    for spellings in known:
        if key in spellings:
            return f"`{key}` says the same as `{spellings[0]}`", "keep one of the two"
    return message, suggestion(key, [name for spellings in known for name in spellings])


def _missing(found: ErrorDetails, holder: type[Model]) -> Saying:
    key = str(found["loc"][-1])
    meant = next(
        holder.model_fields[name].description for name, keys in holder.keys().items() if key in keys
    )
    if key.startswith("areafit"):
        return f"{holder.called} without `{key}`", f"add `{key}: 1` as its first line"
    remedy = f"add `{key}:`" + (f", {meant}" if meant else "")
    return f"{holder.called} without `{key}`", remedy


def _said_by_field(found: ErrorDetails, holder: type[Model]) -> Saying:
    del holder
    mistake = found["ctx"]["error"]
    return mistake.message, mistake.remedy


def _no_text(found: ErrorDetails, holder: type[Model]) -> Saying:
    del holder
    return f"{kind_of(found['input'])} where a text belongs", "write a single value"


def _no_mapping(found: ErrorDetails, holder: type[Model]) -> Saying:
    inner = model_at(holder, found["loc"][-1:])
    keys = [f"`{names[0]}:`" for names in inner.keys().values()][:3]
    remedy = f"write its keys, such as {choices(keys, 'and')}"
    return f"{kind_of(found['input'])} where a mapping belongs", remedy


def _too_long(found: ErrorDetails, holder: type[Model]) -> Saying:
    del holder
    return f"longer than {found['ctx']['max_length']} characters", "shorten it"


def _other(found: ErrorDetails, holder: type[Model]) -> Saying:
    del holder
    return f"{kind_of(found['input'])} cannot be taken", found["msg"]


_SAYINGS: dict[str, Callable[[ErrorDetails, type[Model]], Saying]] = {
    "missing": _missing,
    "value_error": _said_by_field,
    "string_type": _no_text,
    "model_type": _no_mapping,
    "model_attributes_type": _no_mapping,
    "dict_type": _no_mapping,
    "string_too_long": _too_long,
}
