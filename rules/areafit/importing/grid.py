"""A sheet as rows of text cells, and what is wrong with a file that holds none."""

from areafit.values import Frozen, replace


class GridError(ValueError):
    """A file that cannot be read as rows of cells; the message says what to do."""


class Grid(Frozen):
    """Rows of cells, whitespace at their ends and inside them made plain.

    `start` is the number of the first row in the file, from 1. `semicolons` says that cells were
    separated by them, which leaves the comma for decimals. `notes` tell of cells that could not be
    taken as they are, `numbers` which were stored as numbers (row as in the file, column from 0).
    """

    rows: tuple[tuple[str, ...], ...]
    start: int = 1
    semicolons: bool = False
    notes: tuple[str, ...] = ()
    numbers: frozenset[tuple[int, int]] = frozenset()

    def from_row(self, number: int) -> "Grid":
        """The same from a row on, counted from 1 as the file counts.

        Raises:
            GridError: there is no such row.
        """
        skipped = number - self.start
        if not 0 <= skipped < len(self.rows):
            raise GridError(f"there is no row {number} to take the names of the columns from")
        return replace(self, rows=self.rows[skipped:], start=number)


def plain(cell: str) -> str:
    """The text of a cell on one line."""
    return " ".join(cell.split())
