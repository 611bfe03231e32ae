"""Unmarked equipment that the installation rules let in: what it states, and the row it meets."""

from areafit.checks.area.missing import Missing
from areafit.demands import Demands
from areafit.facts.fittings import ContactProtection, Device, Enclosure
from areafit.facts.part import Equipment
from areafit.facts.place import Area
from areafit.facts.protection import Law
from areafit.tables.area import GeneralPurpose, general_purpose
from areafit.values import Frozen


class GeneralUse(Frozen):
    """What an unmarked electrical part states, for the allowances of general-purpose equipment."""

    device: Device | None
    arcing: bool | None
    contact_protection: ContactProtection | None
    enclosure: Enclosure | None
    inverter_fed: bool | None
    space_heater: bool | None

    @classmethod
    def of(cls, equipment: Equipment) -> "GeneralUse":
        """The facts of a part."""
        return cls(
            equipment.device,
            equipment.arcing,
            equipment.contact_protection,
            equipment.enclosure,
            equipment.inverter_fed,
            equipment.space_heater,
        )


def general_use(
    equipment: Equipment, demands: Demands, missing: Missing | None
) -> GeneralUse | None:
    """The facts for the allowances of NFPA 70, which alone knows them; None elsewhere."""
    if missing is not Missing.UNMARKED or demands.law is not Law.NEC:
        return None
    return GeneralUse.of(equipment)


def general_row(area: Area, use: GeneralUse) -> GeneralPurpose | None:
    """The allowance for the device in this area, None where there is none."""
    if use.device is None:
        return None
    return general_purpose().get((area.key, use.device.value))
