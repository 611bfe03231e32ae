"""What a list says of a part's compressed air."""

from typing import ClassVar

from areafit.file.model.base import Model
from areafit.file.model.words import LossOfAirWord, SideWord


class AirSupplyModel(Model):
    """Where compressed air is drawn and let out, and what its loss brings about."""

    called: ClassVar[str] = "`air_supply`"

    source: SideWord | None = None
    exhaust: SideWord | None = None
    on_loss: LossOfAirWord | None = None
