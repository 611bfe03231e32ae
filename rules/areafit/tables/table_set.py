"""The tables as one immutable object: ours, or ours with a company's own rows laid over them."""

import functools
from collections.abc import Callable, Iterable, Mapping
from typing import TYPE_CHECKING, Any, TypeVar

from areafit.tables import load
from areafit.tables.catalogue import CATALOGUE, Merge
from areafit.tables.names import NamedRows, key, nearest
from areafit.tables.sources import LaxerValue, Source

if TYPE_CHECKING:
    from datetime import date

    from areafit.facts.quantity import Range
    from areafit.tables.chemicals import Chemical, Encounter, Incompatible, Meets
    from areafit.tables.designations import Reading
    from areafit.tables.materials import Material
    from areafit.tables.overlay import Merged, OwnRow
    from areafit.tables.resistance import Lookup, Pairs, ResistanceRow
    from areafit.tables.substances import Dust, Substance

Row = TypeVar("Row")

_TRADE_NAME = "trade name"
_NAMED = ("chemicals", "dusts", "materials", "substances")
_VALUES = {"dusts": "dust_values", "substances": "substance_values"}


class Tables:
    """Everything the rules know of substances, dusts, materials and chemicals.

    A look-up is by id, name, alias, CAS number, EN or UNS designation; case, blanks and hyphens
    do not matter, and nothing is guessed. The plural look-ups return every row that a name may
    mean: one if the name is clear, several if it is shared (then all are judged and the worst
    governs), none if it is unknown. The singular ones return the row of a clear name, else None.
    Tables are read from the package when first needed; no other file is touched. Values are in
    the unit of their name: `_c` is °C, `_pct` mass percent, `_mm` millimetres.

    >>> ethanol = Tables.shipped().substance("ethyl alcohol")
    >>> lowest = ethanol.lowest_autoignition()
    >>> lowest.value, lowest.source_id
    (Decimal('363'), 'chemicals-nfpa-497')
    >>> Tables.shipped().nearest("substances", "ethanoll")[0]
    'ethanol'
    """

    def __init__(
        self, own: "tuple[OwnRow, ...]" = (), files: Mapping[str, bytes] | None = None
    ) -> None:
        self._own = own
        self._files = dict(files or {})
        self._memo: dict[Any, Any] = {}
        self._named = functools.cache(self._by_name)
        self._meant = functools.cache(self._means)

    @staticmethod
    @functools.cache
    def shipped() -> "Tables":
        """The tables of this version, without any overlay."""
        return Tables()

    @staticmethod
    def overlaid(files: Mapping[str, bytes], as_of: "date | None" = None) -> "Tables":
        """The shipped tables with a company's own rows, from CSV files named like ours.

        With `as_of`, a row approved on a later date is not approved.

        Raises:
            TableError: with every fault found, each with file, line and what to do.
        """
        from areafit.tables.overlay import read  # noqa: PLC0415 - only overlays need it

        tables = Tables(read(files, as_of), files)
        for name in {row.table for row in tables._own}:
            tables.rows(name, CATALOGUE[name].row_type)
        return tables

    @property
    def overlays(self) -> tuple[str, ...]:
        """Names of the company's own files that are laid over the shipped tables."""
        return tuple(sorted(self._files))

    @functools.cached_property
    def digest(self) -> str:
        """SHA-256 over all tables and overlays: two runs with one digest had the same rows."""
        import hashlib  # noqa: PLC0415 - only reports need it

        total = hashlib.sha256()
        parts = [(f"{name}.csv", load.shipped(name)) for name in sorted(CATALOGUE)]
        parts += [(f"own {name}", self._files[name]) for name in sorted(self._files)]
        for name, data in parts:
            total.update(f"{name}\0{len(data)}\0".encode())
            total.update(data)
        return total.hexdigest()

    # Identities

    def substance(self, name: str) -> "Substance | None":
        """The flammable gas or vapour of this name, if the name is clear."""
        return _only(self.substances(name))

    def substances(self, name: str) -> "tuple[Substance, ...]":
        """Every flammable gas or vapour that the name may mean."""
        return self._meant("substances", name)

    def dust(self, name: str) -> "Dust | None":
        """The combustible dust of this name, if the name is clear."""
        return _only(self.dusts(name))

    def dusts(self, name: str) -> "tuple[Dust, ...]":
        """Every combustible dust that the name may mean."""
        return self._meant("dusts", name)

    def substances_within(self, texts: Iterable[str]) -> "tuple[Substance, ...]":
        """The gases and vapours of every shipped name that stands in one of these texts."""
        return self._within("substances", texts)

    def dusts_within(self, texts: Iterable[str]) -> "tuple[Dust, ...]":
        """The dusts of every shipped name that stands in one of these texts."""
        return self._within("dusts", texts)

    def material(self, name: str) -> "Material | None":
        """The material of this name, if the name is clear."""
        return _only(self.materials(name))

    def materials(self, name: str) -> "tuple[Material, ...]":
        """Every material that the name may mean."""
        return self._meant("materials", name)

    def chemical(self, name: str) -> "Chemical | None":
        """The chemical of this name, if the name is clear."""
        return _only(self.chemicals(name))

    def chemicals(self, name: str) -> "tuple[Chemical, ...]":
        """Every chemical that the name may mean."""
        return self._meant("chemicals", name)

    def reading(self, kind: str, name: str) -> "Reading":
        """What a name means, with what its words beside a known name say.

        `kind` is `substances`, `dusts`, `materials` or `chemicals`; the singular serves too.
        """
        table = kind if kind in _NAMED else f"{kind}s"
        return self.remembered(("reading", table, name), lambda: self._read(table, name))

    def fillers(self, name: str) -> "tuple[Material, ...]":
        """The materials that a material's name says to be in it, such as glass in PTFE."""
        return tuple(map(self._named("materials").get, self.reading("materials", name).fillers))

    def row(self, kind: str, identity: str) -> Any:  # noqa: ANN401 - of the table's row type
        """The row of an id, whatever else its name may mean.

        Raises:
            KeyError: no row has this id.
        """
        return self._named(kind).get(identity)

    def nearest(self, kind: str, text: str) -> tuple[str, ...]:
        """Up to three known names like `text`, for a message.

        `kind` is `substances`, `dusts`, `materials` or `chemicals`; the singular serves too.
        """
        table = kind if kind in _NAMED else f"{kind}s"
        return nearest(text, self._named(table).known_names())

    def ids(self, kind: str) -> tuple[str, ...]:
        """Every id of `substances`, `dusts`, `materials` or `chemicals`, in order."""
        return self._named(kind).ids()

    # Pairs

    def resistance(self, material_id: str, chemical_id: str) -> "tuple[ResistanceRow, ...]":
        """The rows of exactly this pair, a company's own last; empty if there are none."""
        return self._pairs.rows(material_id, chemical_id)

    def rated_in(self, chemical_id: str) -> frozenset[str]:
        """The ids of all materials that have a row of their own in a chemical."""
        return self._pairs.rated_in(chemical_id)

    def resistance_at(
        self, material_id: str, chemical_id: str, conc: "Range", temp: "Range"
    ) -> "Lookup":
        """What the rows of exactly this pair say over a range of mass % and °C."""
        return self._pairs.at(material_id, chemical_id, conc, temp)

    def incompatible(self, chem_a: str, chem_b: str) -> "tuple[Incompatible, ...]":
        """Why two chemicals, given by id, must not meet; named pairs first, then group pairs."""
        from areafit.tables.chemicals import Meets  # noqa: PLC0415 - as below

        get = self._named("chemicals").get
        return self.encounter(Meets(get(chem_a)), Meets(get(chem_b))).rows

    def encounter(self, first: "Meets", second: "Meets") -> "Encounter":
        """What the rows say of two chemicals at their strengths."""
        from areafit.tables.chemicals import Incompatible, encounter  # noqa: PLC0415 - as below

        rows = self.remembered(
            ("incompatible by pair",),
            lambda: {
                (row.kind.value, row.a, row.b): row
                for row in self.rows("incompatible", Incompatible)
            },
        )
        return encounter(rows, first, second)

    def analogues(self, material_id: str, chemical_id: str) -> tuple[tuple[str, str], ...]:
        """Pairs of ids whose rows may serve where this pair has none, nearest first.

        What the analogy must not cover is left out. An answer by analogy is a judgement.
        """
        from areafit.tables.resistance import analogues  # noqa: PLC0415 - as all row types

        materials, chemicals = self._named("materials"), self._named("chemicals")
        material, chemical = materials.get(material_id), chemicals.get(chemical_id)
        return tuple(analogues(material, chemical, materials.get, chemicals.get))

    # Any table

    def source(self, identity: str) -> Source:
        """The source of this id.

        Raises:
            KeyError: no source has this id.
        """
        return self.remembered(
            ("sources by id",),
            lambda: {source.id: source for source in self.rows("sources", Source)},
        )[identity]

    def rows(self, name: str, row_type: type[Row]) -> tuple[Row, ...]:
        """All rows of a table, a company's own included.

        Raises:
            KeyError: there is no such table.
            TableError: the file does not fit the row type.
        """
        spec = CATALOGUE[name]
        own = [row for row in self._own if row.table == name]
        if not own:
            return load.rows(name, row_type)
        if spec.merge is Merge.POINTS:
            extra = [load.to_row(row_type, row.cells, row.file, row.line) for row in own]
            return (*load.rows(name, row_type), *extra)
        return tuple(load.to_row(row_type, cells, f"{name}.csv") for cells in self._cells(name))

    @property
    def laxer(self) -> tuple[LaxerValue, ...]:
        """A company's values that ask for less than ours: approved and used, or waiting.

        Ratings of a pair of material and chemical are compared where they apply, and are not here:
        `resistance_at` says which wait.
        """
        laid = (name for name in sorted(CATALOGUE) if self._overlays_table(name))
        return tuple(entry for name in laid for entry in self._merged(name).laxer)

    def never_governing(
        self, gas: "Substance | None", dust: "Dust | None"
    ) -> tuple[LaxerValue, ...]:
        """A company's approved values of a shipped row that are only ever told beside it."""
        rows = (("substance_values", gas), ("dust_values", dust))
        return tuple(
            entry
            for table, row in rows
            if row is not None and self._overlays_table(table)
            for entry in self._merged(table).laxer
            if entry.key == row.id and entry.approved and not entry.governs
        )

    def remembered(self, key: tuple[Any, ...], make: Callable[[], Row]) -> Row:
        """What `make` gives, computed once for these tables: it may rest on them and `key` only."""
        try:
            found: Row = self._memo[key]
        except KeyError:
            found = self._memo[key] = make()
        return found

    # Within

    def _overlays_table(self, name: str) -> bool:
        return CATALOGUE[name].merge is not Merge.POINTS and any(
            row.table == name for row in self._own
        )

    def _merged(self, name: str) -> "Merged":
        from areafit.tables.overlay import merge  # noqa: PLC0415 - only overlays need it

        own = [row for row in self._own if row.table == name]
        return self.remembered(("merged", name), lambda: merge(name, own))

    def _cells(self, name: str) -> tuple[list[str], ...]:
        if self._overlays_table(name):
            return self._merged(name).cells
        return load.cells_of(name, CATALOGUE[name].row_type)

    def _means(self, table: str, name: str) -> tuple[Any, ...]:
        found = self._named(table).find(name)
        if found or table not in _NAMED:
            return found
        return tuple(map(self._named(table).get, self.reading(table, name).ids))

    def _read(self, table: str, name: str) -> "Reading":
        """By its own names, by those of the table that a chemical or a vapour shares, by rule."""
        from areafit.tables.designations import Reader, Reading  # noqa: PLC0415 - seldom needed

        found = self._known(table, name)
        if found:
            return Reading(found, trade=(table, key(name)) in self._trade_names)
        known = functools.partial(self._known, table)
        reader = self.remembered(
            ("reader", table), lambda: Reader(table, known, self._named(table).get)
        )
        read = reader.read(name)
        turned = () if read.ids else self._turned(table, name)
        return Reading(turned) if turned else read

    def _turned(self, table: str, name: str) -> tuple[str, ...]:
        """An index name as it is spoken: `ammonia, anhydrous` is anhydrous ammonia."""
        head, comma, before = name.partition(",")
        if not comma or "," in before or table not in ("chemicals", "substances"):
            return ()
        return self._known(table, f"{before.strip()} {head.strip()}")

    def _known(self, table: str, name: str) -> tuple[str, ...]:
        """The ids of a name as it is."""
        own = self._named(table).find(name)
        return tuple(row.id for row in own) if own else self._shares(table, name)

    @functools.cached_property
    def _trade_names(self) -> frozenset[tuple[str, str]]:
        """Makers' names of several grades, by table, as look-ups fold them."""
        own = ((cells[0], key(cells[1]), cells[4]) for cells in self._cells("shared_names"))
        return frozenset((table, name) for table, name, at in own if at.startswith(_TRADE_NAME))

    def _shares(self, table: str, name: str) -> tuple[str, ...]:
        """The ids of a name that stands in the other of two tables: vapours, and as chemicals."""
        if table == "substances":
            chemicals = self._named("chemicals").find(name)
            return tuple(dict.fromkeys(row.substance for row in chemicals if row.substance))
        if table != "chemicals":
            return ()
        vapours = {row.id for row in self._named("substances").find(name)}
        if not vapours:
            return ()
        by_substance = self.remembered(("chemicals by substance",), self._by_substance)
        return tuple(one for vapour in sorted(vapours) for one in by_substance.get(vapour, ()))

    def _by_substance(self) -> dict[str, tuple[str, ...]]:
        """The ids of the chemicals that each substance is."""
        header = load.columns(CATALOGUE["chemicals"].row_type)
        column = header.index("substance")
        found: dict[str, tuple[str, ...]] = {}
        for cells in self._cells("chemicals"):
            if cells[column]:
                found[cells[column]] = (*found.get(cells[column], ()), cells[0])
        return found

    def _by_name(self, table: str) -> NamedRows[Any]:
        shared = [
            (cells[1], tuple(cells[2].split("|")))
            for cells in self._cells("shared_names")
            if cells[0] == table
        ]
        header = load.columns(CATALOGUE[table].row_type)
        columns = [header.index(name) for name in ("name", "cas", "names") if name in header]
        return NamedRows(self._cells(table), columns, shared, functools.partial(self._built, table))

    def _within(self, table: str, texts: Iterable[str]) -> tuple[Any, ...]:
        shipped = Tables.shipped()._named(table)  # noqa: SLF001 - of the same class
        own = self._named(table)
        found = (identity for text in texts for identity in shipped.within(text))
        return tuple(own.get(identity) for identity in dict.fromkeys(found))

    def _built(self, table: str, cells: list[str]) -> Any:  # noqa: ANN401 - of the table's row type
        """What a row describes: the row itself, or what it is with its lines of values."""
        row = load.to_row(CATALOGUE[table].row_type, cells)
        if table not in _VALUES:
            return row
        values = _VALUES[table]
        row_type = CATALOGUE[values].row_type
        return row.with_values(
            [load.to_row(row_type, line) for line in self._lines(values, row.id)]
        )

    def _lines(self, table: str, identity: str) -> list[list[str]]:
        if self._overlays_table(table):
            return [cells for cells in self._cells(table) if cells[0] == identity]
        return load.lines_of(table, (identity,))

    @functools.cached_property
    def _pairs(self) -> "Pairs":
        from areafit.tables.resistance import Pairs  # noqa: PLC0415 - as all row types

        return Pairs([row for row in self._own if row.table == "resistance"])


def _only(found: tuple[Row, ...]) -> Row | None:
    return found[0] if len(found) == 1 else None
