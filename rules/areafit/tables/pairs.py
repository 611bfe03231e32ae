"""Resistance rows by their pair of material and chemical: ours, and a company's own."""

from collections.abc import Mapping, Sequence
from functools import cache, cached_property

from areafit.tables import load
from areafit.tables.lookup import Lookup, OwnResistance, Range, lookup
from areafit.tables.own_rows import OwnRow
from areafit.tables.resistance import ResistanceRow


class Pairs:
    """Finds the rows of exactly one pair of ids; `own` are a company's rows of this table."""

    def __init__(self, own: Sequence[OwnRow]) -> None:
        self._own = own

    def rows(self, material: str, chemical: str) -> tuple[ResistanceRow, ...]:
        """The rows of a pair, a company's own last; empty if there are none."""
        own = (entry.row for entry in self._owned(material, chemical))
        return (*_shipped(material, chemical), *own)

    def at(self, material: str, chemical: str, conc: Range, temp: Range) -> Lookup:
        """What the rows of a pair say over a range of mass % and °C."""
        return lookup(_shipped(material, chemical), conc, temp, self._owned(material, chemical))

    def rated_in(self, chemical: str) -> frozenset[str]:
        """The ids of all materials that have a row in a chemical."""
        own = {row.cells[0] for row in self._own if row.cells[1] == chemical}
        return _rated().get(chemical, frozenset()) | own

    def _owned(self, material: str, chemical: str) -> tuple[OwnResistance, ...]:
        return self._by_pair.get((material, chemical), ())

    @cached_property
    def _by_pair(self) -> Mapping[tuple[str, str], tuple[OwnResistance, ...]]:
        found: dict[tuple[str, str], tuple[OwnResistance, ...]] = {}
        for row in self._own:
            pair = (row.cells[0], row.cells[1])
            made = load.to_row(ResistanceRow, row.cells)
            found[pair] = (
                *found.get(pair, ()),
                OwnResistance(made, bool(row.approved), row.where),
            )
        return found


@cache
def _shipped(material: str, chemical: str) -> tuple[ResistanceRow, ...]:
    found = load.lines_of("resistance", (material, chemical))
    return tuple(load.to_row(ResistanceRow, line) for line in found)


@cache
def _rated() -> Mapping[str, frozenset[str]]:
    """The ids of the materials with a row in each chemical."""
    found: dict[str, set[str]] = {}
    for line in load.lines("resistance"):
        material, chemical, _ = line.split(",", 2)
        found.setdefault(chemical, set()).add(material)
    return {chemical: frozenset(ids) for chemical, ids in found.items()}
