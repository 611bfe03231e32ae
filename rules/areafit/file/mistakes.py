"""The mistakes of one reading, collected so that all of them are reported in one go."""

from typing import NoReturn

from areafit.errors import InputError, InputErrors
from areafit.facts.bom import Position
from areafit.file.limits import ERRORS


class Mistakes:
    """Collects mistakes, each once.

    Where the parser refused something, nothing more is said: what follows is a consequence.
    """

    def __init__(self) -> None:
        self._found: dict[InputError, None] = {}
        self._refused: set[Position] = set()

    def __bool__(self) -> bool:
        return bool(self._found)

    def add(self, position: Position, message: str, remedy: str) -> None:
        """Note a mistake.

        Raises:
            InputErrors: so many were found that more of them would tell nothing new.
        """
        if position in self._refused:
            return
        self._found[InputError(message, remedy, position)] = None
        if len(self._found) >= ERRORS:
            raise self.all()

    def refuse(self, position: Position, message: str, remedy: str) -> None:
        """Note something that the parser does not take.

        Raises:
            InputErrors: as for `add`.
        """
        self.add(position, message, remedy)
        self._refused.add(position)

    def fatal(self, position: Position, message: str, remedy: str) -> NoReturn:
        """Note a mistake after which nothing more can be read, and raise all of them.

        Raises:
            InputErrors: always.
        """
        self._found[InputError(message, remedy, position)] = None
        raise self.all()

    def all(self) -> InputErrors:
        """Everything noted so far, to be raised."""
        return InputErrors(self._found)
