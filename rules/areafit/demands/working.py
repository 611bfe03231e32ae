"""The working liquid of a part as a chemical that its own seals and other pieces meet."""

from areafit.demands.demand import CorrodingChemical, Demands
from areafit.demands.liquids import ROOM
from areafit.demands.meeting import Meeting, called, meeting_of
from areafit.facts.part import Exposure, MaterialUse
from areafit.facts.place import PresentChemical
from areafit.facts.quantity import Range, number
from areafit.rule import Row
from areafit.tables.chemicals import working_fluid
from areafit.tables.materials import COATING, Material, is_polymer
from areafit.tables.words import Reach, reach_of
from areafit.values import replace

_OUTSIDE = frozenset({COATING, "cable jacket", "lubricant"})


def reached(use: MaterialUse, material: Material | None) -> bool:
    """Whether the working liquid of its part reaches a piece.

    All but what its name says is outside, and paints, jackets of cables and grease, unless they
    are named as what it reaches: the lining of a tank. Of water, and of a liquid that nobody
    names, plastics and rubbers are asked alone, which no two liquids leave alike.
    """
    liquid = use.works_in
    if liquid is None:
        return False
    row = None if liquid.kind is None else working_fluid(liquid.kind)
    metals = row is not None and row.metals
    if not metals and material is not None and not is_polymer(material):
        return False
    named = None if use.component is None else reach_of(use.component)
    outside = material is not None and material.family in _OUTSIDE
    return named is Reach.WET or not (named is Reach.DRY or outside)


def liquid_met(use: MaterialUse, demands: Demands) -> Meeting | None:
    """The working liquid as a piece meets it; None where no table says what it is.

    Where nothing is said of its heat it is as hot as its kind is used.
    """
    liquid = use.works_in
    row = None if liquid is None or liquid.kind is None else working_fluid(liquid.kind)
    if liquid is None or row is None:
        return None
    hottest = row.hottest_c if liquid.hottest is None else liquid.hottest
    stated = PresentChemical(row.chemical, None, Range.of(hottest))
    found = meeting_of(use, CorrodingChemical(stated), Exposure.IMMERSED, demands)
    said = row.chemical if liquid.hottest is not None else f"to {number(hottest)} °C"
    by = Row.of("working_fluids", row.kind.value, row, said)
    return called(found, f"the working liquid ({row.kind.value})", rows=(by,))


def at_room_heat(meeting: Meeting) -> Meeting:
    """The same at room temperature."""
    heat = Range.of(ROOM)
    return replace(meeting, mets=tuple(replace(met, heat=heat) for met in meeting.mets))
