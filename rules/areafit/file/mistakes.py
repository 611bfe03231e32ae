"""The mistakes of one reading, collected so that all of them are reported in one go."""

from typing import NoReturn

from areafit.errors import InputError, InputErrors
from areafit.facts.bom import Position
from areafit.file.limits import ERRORS


class Mistakes:
    """Collects mistakes; the first one at a position stands, later ones there follow from it."""

    def __init__(self) -> None:
        self._found: dict[Position, InputError] = {}

    def __bool__(self) -> bool:
        return bool(self._found)

    def add(self, position: Position, message: str, remedy: str) -> None:
        """Note a mistake.

        Raises:
            InputErrors: so many were found that more of them would tell nothing new.
        """
        self._found.setdefault(position, InputError(message, remedy, position))
        if len(self._found) >= ERRORS:
            raise self.all()

    def fatal(self, position: Position, message: str, remedy: str) -> NoReturn:
        """Note a mistake after which nothing more can be read, and raise all of them.

        Raises:
            InputErrors: always.
        """
        self._found.setdefault(position, InputError(message, remedy, position))
        raise self.all()

    def all(self) -> InputErrors:
        """Everything noted so far, to be raised."""
        return InputErrors(self._found.values())
