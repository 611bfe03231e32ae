"""What a part states beyond its nameplate: purge, conduit seals, cable entries."""

from decimal import Decimal
from functools import cache
from typing import Annotated, ClassVar

from pydantic import Field

from areafit.facts.evidence import Condition
from areafit.facts.fittings import Entry, EntryType
from areafit.facts.marking import Marking
from areafit.file.model.base import Model
from areafit.file.model.evidence import ConditionModel
from areafit.file.model.quantities import Length
from areafit.file.model.types import Fact, Listed
from areafit.file.model.words import ContentsWord, EntryTypeWord, OnLossWord, Text, YesNo
from areafit.marking import decode


class PressurizationModel(Model):
    """What stands inside a purged enclosure, and what follows loss of pressure."""

    called: ClassVar[str] = "`pressurization`"

    contents: ContentsWord | None = None
    on_loss: OnLossWord | None = None


class ConduitSealsModel(Model):
    """Seals in the conduits of an explosionproof enclosure."""

    called: ClassVar[str] = "`conduit_seals`"

    within: Annotated[Length | None, Field(description="greatest distance from the box")] = None
    all_runs: YesNo | None = None


class EntryConditionModel(ConditionModel):
    """A specific condition of use of an `X` on a fitting."""

    called: ClassVar[str] = "a condition of an entry"


class EntryModel(Model):
    """One opening of an enclosure, and what closes it."""

    called: ClassVar[str] = "an entry"

    type: EntryTypeWord
    marking: Annotated[tuple[Text, ...], Listed(none=True)] | None = None
    thread: Annotated[Text | None, Field(description="of the fitting, such as M20x1.5")] = None
    hole: Annotated[Text | None, Field(description="thread of the enclosure's opening")] = None
    ingress: Text | None = None
    within: Annotated[Length | None, Field(description="of a conduit seal, from the box")] = None
    conditions: (
        Annotated[
            tuple[Annotated[EntryConditionModel, Fact(Condition, "text")], ...], Listed(none=True)
        ]
        | None
    ) = None


def entry(  # noqa: PLR0913, PLR0917 - the keys of an entry
    type: EntryType,  # noqa: A002 - the key of the file
    marking: tuple[str, ...] | None,
    thread: str | None,
    hole: str | None,
    ingress: str | None,
    within: Decimal | None,
    conditions: tuple[Condition, ...] | None,
) -> Entry:
    """The fact of an entry, its marking decoded."""
    markings = None if marking is None else tuple(map(_decode, marking))
    return Entry(type, markings, thread, hole, ingress, within, conditions)


@cache
def _decode(text: str) -> Marking:
    return decode(text)
