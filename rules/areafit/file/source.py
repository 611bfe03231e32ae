"""One file being read: its document, and checking a value of it against a model."""

from dataclasses import dataclass, field
from typing import Any, TypeVar

from pydantic import ValidationError

from areafit.file.complaints import Path, complain
from areafit.file.encoding import decode
from areafit.file.events import load
from areafit.file.mistakes import Mistakes
from areafit.file.model.base import Model
from areafit.file.positions import Document
from areafit.file.refusals import Refusals

M = TypeVar("M", bound=Model)


@dataclass(frozen=True, slots=True)
class Source:
    """A document, the mistakes found so far, and the facts made of it so far."""

    document: Document
    mistakes: Mistakes
    facts: dict[object, object] = field(default_factory=dict)

    def check(self, model: type[M], value: Any, *path: str | int) -> M | None:  # noqa: ANN401
        """The value at a path as a model; None where mistakes had to be noted."""
        try:
            return model.model_validate(value, context=self.facts)
        except ValidationError as error:
            complain(error, model, self.document, path, self.mistakes)
            return None

    def note(self, path: Path, message: str, remedy: str) -> None:
        """A mistake in the value at a path."""
        self.mistakes.add(self.document.at(path), message, remedy)

    def note_key(self, path: Path, message: str, remedy: str) -> None:
        """A mistake in the key at the end of a path."""
        self.mistakes.add(self.document.key_at(path), message, remedy)


def open_source(data: bytes, name: str, mistakes: Mistakes) -> Source:
    """Parse a file.

    Raises:
        InputErrors: so little of it can be parsed that it cannot be checked further.
    """
    text = decode(data, name, mistakes)
    return Source(load(text, Refusals(name, mistakes)), mistakes)
