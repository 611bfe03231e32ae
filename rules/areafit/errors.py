"""What is wrong with an input, said for the person who wrote it."""

from collections.abc import Iterable

from areafit.facts.bom import Position
from areafit.values import Frozen


class InputError(Frozen):
    """One mistake in an input: what is wrong, what to do about it, and where it stands.

    >>> print(InputError("no `kind`", "write one", Position("list.yaml", 7, 5)))
    list.yaml:7:5: no `kind`; write one
    """

    message: str
    remedy: str
    position: Position

    def __str__(self) -> str:
        return f"{self.position}: {self.message}; {self.remedy}"


class InputErrors(Exception):  # noqa: N818 - it holds errors, each of them named so
    """All mistakes found in an input, in the order in which they stand in the file.

    Raises:
        ValueError: there are none. A list that is refused without a word would count as no list.
    """

    def __init__(self, errors: Iterable[InputError]) -> None:
        super().__init__()
        self.errors = tuple(sorted(errors, key=_place))
        if not self.errors:
            raise ValueError("an input was refused and nothing says why")

    def __str__(self) -> str:
        return "\n".join(map(str, self.errors))


def _place(error: InputError) -> tuple[str, int, int]:
    return error.position.file, error.position.line, error.position.column
