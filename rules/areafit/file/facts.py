"""The table of facts: one row for every key that a list can state.

Messages, schemas, imports, the options of `areafit part` and the README take from it what a key
means, what it takes, who answers for it, and where else than on its line it may be stated.
"""

import csv
import os.path
from collections.abc import Iterator, Mapping
from functools import cache

from areafit.facts.evidence import EvidenceType
from areafit.facts.fittings import (
    BatteryCare,
    Compartment,
    ContactProtection,
    Contents,
    CordServes,
    CordUsage,
    Device,
    Enclosure,
    EntryType,
    IntrinsicSafety,
    OnLoss,
    Starting,
    WiringMethod,
)
from areafit.facts.groups import Group
from areafit.facts.mechanics import (
    BeltUse,
    BrakeUse,
    Conveyed,
    Drive,
    EndStops,
    Finish,
    Fluid,
    Form,
    LooseParts,
    LossOfAir,
    Release,
    Side,
    Slip,
    Sparks,
)
from areafit.facts.part import Exposure, Kind, SurfaceCase
from areafit.facts.place import Atmosphere, Availability, Presence
from areafit.facts.protection import Law, Level
from areafit.tables.load import to_row
from areafit.values import Frozen, Term
from areafit.verdict import Role

_FILE = os.path.join(os.path.dirname(__file__), "facts.csv")  # noqa: PTH118, PTH120 - quicker
_WORDS = os.path.join(os.path.dirname(__file__), "words.csv")  # noqa: PTH118, PTH120 - as above
_LISTS: dict[str, type[Term]] = {
    kind.__name__: kind
    for kind in (
        *(Law, Level, Group, Kind, Exposure, Atmosphere, SurfaceCase, EvidenceType, EntryType),
        *(Device, ContactProtection, Enclosure, IntrinsicSafety, Contents, OnLoss, Starting),
        *(WiringMethod, CordUsage, CordServes, BatteryCare, BrakeUse, Slip, Fluid, Compartment),
        *(Drive, EndStops, Form, LooseParts, LossOfAir, Release, Side, BeltUse, Conveyed, Sparks),
        *(Finish, Availability, Presence),
    )
}


class Option(Frozen):
    """An option of `areafit part`; without a metavar it is a flag, in capitals the argument."""

    name: str
    help: str
    metavar: str = ""
    repeated: bool = False

    @property
    def argument(self) -> bool:
        """Whether it stands without a name."""
        return self.name.isupper()

    @property
    def flag(self) -> bool:
        """Whether it says all by itself."""
        return not self.metavar and not self.argument

    @property
    def parameter(self) -> str:
        """Its name as a parameter: `rated_ambient`."""
        return self.name.removeprefix("--").replace("-", "_").lower()


class FactRow(Frozen):
    """A key below its `subject` (list, place, part or loop); those of mappings behind a dot.

    `also` are further spellings. `words` are those that it takes, or the name of their closed list;
    `unit` is the dimension of a quantity, or what else is no plain text. `note` says whether a note
    may state it for many parts, `library` whether the entry of a bought part may, `column` the name
    of a column of an import, `option` the options of `areafit part`, as their usage is written, and
    `help` what each of them says.
    """

    subject: str
    key: str
    also: tuple[str, ...]
    meaning: str
    question: str
    words: tuple[str, ...]
    unit: str
    who: Role
    note: bool
    library: bool
    column: str
    option: tuple[str, ...]
    help: tuple[str, ...]

    @property
    def choices(self) -> tuple[str, ...]:
        """The words that it takes, those of a closed list written out."""
        return tuple(
            word
            for name in self.words
            for word in ([str(one.value) for one in _LISTS[name]] if name in _LISTS else (name,))
        )

    @property
    def closed(self) -> type[Term] | None:
        """The closed list of its words, where they are one."""
        return next((_LISTS[name] for name in self.words if name in _LISTS), None)

    def meaning_of(self, word: str) -> str:
        """What a word of its list means in the trade; empty for words that say it themselves."""
        told = (_meanings().get((name, word)) for name in self.words)
        return next(filter(None, told), "")

    def options(self) -> Iterator[Option]:
        """The options that state it."""
        for usage, help_ in zip(self.option, self.help, strict=True):
            name, _, metavar = usage.removesuffix("...").partition(" ")
            yield Option(name, help_, metavar, usage.endswith("..."))


@cache
def facts() -> Mapping[str, FactRow]:
    """The rows in the order of a list, each by its subject and key: `part.materials.exposure`."""
    with open(_FILE, encoding="utf-8", newline="") as file:  # noqa: PTH123 - quicker
        _, *found = csv.reader(file)
    rows = (to_row(FactRow, cells, "facts.csv", line) for line, cells in enumerate(found, 2))
    return {f"{row.subject}.{row.key}": row for row in rows}


@cache
def _meanings() -> Mapping[tuple[str, str], str]:
    """The words of the closed lists, by list and word."""
    with open(_WORDS, encoding="utf-8", newline="") as file:  # noqa: PTH123 - as above
        _, *found = csv.reader(file)
    return {(name, word): meaning for name, word, meaning in found}
