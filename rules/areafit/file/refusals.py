"""What a bill of materials may not use of YAML, and how that is said."""

from typing import NoReturn

from ruamel.yaml.error import YAMLError

from areafit.facts.bom import Position
from areafit.file.encoding import refused, shown
from areafit.file.limits import DEPTH, NODES, SCALAR_CHARACTERS
from areafit.file.mistakes import Mistakes
from areafit.file.parser import Event, Mark
from areafit.file.positions import unpack
from areafit.file.wording import brief
from areafit.pattern import pattern
from areafit.values import Frozen

_NULLS = ("", "~", "null", "Null", "NULL")
_DECORATION = pattern(r"[&!](?<![^\s\[{,:][&!])")


def decorated(text: str) -> bool:
    """Whether anything in the text may be an anchor or a tag: looking at each scalar is dear."""
    return ("&" in text or "!" in text) and _DECORATION.search(text) is not None


class Refusals(Frozen):
    """Notes each refused construct with its position; `NoReturn` where reading cannot go on."""

    name: str
    mistakes: Mistakes

    def decorated(self, event: Event) -> None:
        """An anchor or an explicit tag."""
        if event.tag is not None:
            self._note(
                event.start_mark,
                "explicit tags such as `!!str` are not read",
                "delete the tag; values are taken as they are written",
            )
        else:
            self._note(
                event.start_mark,
                f"the anchor `&{brief(str(event.anchor))}` is not read",
                "delete it and write the value where it is needed",
            )

    def alias(self, mark: Mark) -> None:
        """A reference to an anchor."""
        self._note(mark, "references with `*` are not read", "write the value out here")

    def good_text(self, event: Event) -> str | None:
        """The text of a value; None where it is blank, or noted as one that cannot be taken."""
        text = event.value
        if len(text) > SCALAR_CHARACTERS:
            limit = SCALAR_CHARACTERS // 1024
            self._note(event.start_mark, f"a text longer than {limit} Ki characters", "shorten it")
            return None
        hidden = event.style == '"' and not text.isprintable() and refused(text)
        if hidden:
            message = f"the escaped character {shown(hidden)} is not allowed"
            self._note(event.start_mark, message, "delete the escape")
            return None
        return text if text and not text.isspace() else None

    def good_key(self, event: Event) -> str | None:
        """The text of a key; None where it is noted as one that cannot be taken."""
        key = event.value
        if not key.strip() or (not event.style and key in _NULLS):
            self._note(event.start_mark, "this key is empty", "write its name before the colon")
            return None
        if key == "<<":
            self._note(event.start_mark, "merge keys `<<` are not read", "write the keys out here")
            return None
        return self.good_text(event)

    def repeated_key(self, event: Event, first: int) -> None:
        """A key that its mapping holds already, `first` being where."""
        line = unpack(self.name, first).line
        message = f"the key `{brief(event.value)}` is written twice, first on line {line}"
        self._note(event.start_mark, message, "keep one of the two")

    def complex_key(self, mark: Mark) -> None:
        """A list or mapping as a key."""
        self._note(mark, "a key cannot be a list or a mapping", "write a plain text as the key")

    def version(self, event: Event) -> None:
        """A directive that asks for another YAML version than 1.2."""
        if event.version is not None and tuple(event.version) != (1, 2):
            self._note(
                event.start_mark,
                "the file asks for another YAML version than 1.2",
                "delete the `%YAML` line",
            )

    def second_document(self, mark: Mark) -> None:
        """A further document in the same file."""
        self._note(mark, "a second document starts here", "keep one list a file")

    def too_deep(self, mark: Mark) -> NoReturn:
        """Nesting beyond the limit."""
        self._fatal(mark, f"nested more than {DEPTH} levels deep", "close the brackets before")

    def too_many(self, mark: Mark) -> NoReturn:
        """More entries than any real list has."""
        self._fatal(mark, f"more than {NODES} entries", "split the file into several lists")

    def nothing(self) -> NoReturn:
        """A file of comments only."""
        self.mistakes.fatal(
            Position(self.name, 1, 1),
            "the file holds nothing but comments",
            "write a list that starts with `areafit: 1`",
        )

    def syntax(self, error: YAMLError) -> NoReturn:
        """Text that is no YAML."""
        mark = getattr(error, "problem_mark", None) or getattr(error, "context_mark", None)
        problem = getattr(error, "problem", None) or "it cannot be parsed"
        message = f"no valid YAML: {brief(str(problem))}"
        remedy = (
            "look at the indentation (spaces, no tabs), colons, brackets and quotes here and on "
            "the line before, and quote text that starts with a sign"
        )
        if mark is None:
            self.mistakes.fatal(Position(self.name, 1, 1), message, remedy)
        self._fatal(mark, message, remedy)

    def _note(self, mark: Mark, message: str, remedy: str) -> None:
        self.mistakes.refuse(self._position(mark), message, remedy)

    def _fatal(self, mark: Mark, message: str, remedy: str) -> NoReturn:
        self.mistakes.fatal(self._position(mark), message, remedy)

    def _position(self, mark: Mark) -> Position:
        return Position(self.name, mark.line + 1, mark.column + 1)
