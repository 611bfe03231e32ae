"""How exposure and lasting stress change a rating that was found for immersion, and why.

Every step is reasoned, none is published, so a rating that rests on one has basis `judgement`.
Relief is given only for slow mechanisms: one drop is enough to pit, to crack or to dissolve.
"""

import re

from areafit.demands.exposure import Met, Rises, SolutionState, attacking_pressure
from areafit.facts.part import Exposure, MaterialUse
from areafit.facts.quantity import Dimension, number
from areafit.pattern import pattern
from areafit.rule import Row
from areafit.tables.chemicals import Drying, Medium, PropertyState, Reaction
from areafit.tables.limits import Figure, figure, figure_if_any
from areafit.tables.materials import (
    ALUMINIUM,
    BARE_STEEL,
    COPPER,
    MAGNESIUM,
    PLATED,
    ZINC,
    Material,
    is_elastomer,
    is_natural,
    is_polymer,
    is_stainless,
)
from areafit.tables.resistance import Mechanism, Rating, ResistanceRow
from areafit.values import Frozen, replace

SLOW = frozenset(
    {
        Mechanism.UNIFORM,
        Mechanism.UNIFORM_WITH_HYDROGEN,
        Mechanism.LAYER_CONSUMED,
        Mechanism.ATTACK_ON_POLYMER,
        Mechanism.SWELLING,
        Mechanism.HYDROLYSIS,
        Mechanism.PLASTICISER_LOSS,
    }
)
CRACKING = frozenset(
    {
        Mechanism.STRESS_CORROSION,
        Mechanism.ENVIRONMENTAL_STRESS_CRACKING,
        Mechanism.OZONE_CRACKING,
        Mechanism.DEHYDROFLUORINATION,
        Mechanism.EMBRITTLEMENT,
    }
)
_UNDER_TENSION = frozenset(
    {
        Mechanism.ENVIRONMENTAL_STRESS_CRACKING,
        Mechanism.OZONE_CRACKING,
        Mechanism.STRESS_CORROSION,
    }
)
_UNIFORM = frozenset({Mechanism.UNIFORM, Mechanism.UNIFORM_WITH_HYDROGEN})
_ORDER = tuple(Rating)
_FLUORIDES = "15"  # EPA reactivity group
_AMINES = "7"  # EPA reactivity group
_ACIDS = (Reaction.STRONG_ACID, Reaction.WEAK_ACID)
_TAKEN_UP = frozenset({Mechanism.SWELLING, Mechanism.PLASTICISER_LOSS})
_BY_SHARE = frozenset({Mechanism.SWELLING, Mechanism.PERMEATION})
_ALKANES = ("29",)  # EPA reactivity group
_LEAKED_GAS = "most of a light alkane that a leak brings to the air of a room"
_IN_AIR = frozenset({Exposure.FUME, Exposure.ROOM, Exposure.ENCLOSED})
# ISO 15156-3:2020 Table A.2, from memory: annealed, to 60 °C and 100 kPa, in any chloride, loaded
# or not. Cold-worked parts are not in it, so that the condition stays to be accepted.
_LOADED_IN_SOUR_GAS = frozenset({"316", "316L"})
_TARNISHING = frozenset({"sulfur-dioxide", "hydrogen-sulfide"})
_REST = ZINC | ALUMINIUM | MAGNESIUM | BARE_STEEL
_SPRING = pattern(r"\bsprings?\b", re.IGNORECASE)
_FASTENER = pattern(
    r"\b(?:bolts?|cap screws?|fasteners?|nuts?|screws?|studs?|threaded rods?|washers?)\b",
    re.IGNORECASE,
)


class PieceFacts(Frozen):
    """What a list says of a piece that changes how its material fares.

    `strained`: True for springs and what is stated as stressed, False for what is stated as not;
    `crevice`: whether it has gaps that liquid enters and does not leave.
    """

    strained: bool | None = None
    crevice: bool | None = None


class Relieved(Frozen):
    """A rating for one exposure; `why` is empty where it is the row's own, `rows` made it so."""

    rating: Rating
    why: str = ""
    rows: tuple[Row, ...] = ()


def relieved(  # noqa: C901, PLR0911 - one return for each answer
    row: ResistanceRow, material: Material, met: Met, piece: PieceFacts
) -> Relieved:
    """The rating of a row for how its chemical is met by a piece."""
    strained = piece.strained
    if _eats_layer(row, material):
        gone = relieved(replace(row, rating=Rating.UNSUITABLE), material, met, piece)
        return replace(gone, rows=(*gone.rows, Row.of_figure(figure("thickness of a plating"))))
    if _never_sensitised(row, material):
        low = Row.of_figure(figure("carbon of a low-carbon stainless steel"))
        return Relieved(Rating.SUITABLE, rows=(_carbon(material), low))
    if _dry_hydrogen(row, met):
        return Relieved(Rating.LIMITED, "leaked gas at ambient pressure hardly enters dry steel")
    cracks = row.rating is Rating.LIMITED and row.mechanism in CRACKING and strained is True
    if cracks and not _stands_load(material, met):
        return Relieved(Rating.UNSUITABLE, "a part under lasting stress cracks where others last")
    if row.rating is Rating.LIMITED and _needs_stress(row.mechanism) and strained is False:
        return Relieved(Rating.SUITABLE, "cracks only under stress, and the part has none")
    if row.rating is Rating.LIMITED and _without_gaps(row, met, piece):
        return Relieved(Rating.SUITABLE, "corrodes in gaps only, and the part has none")
    if _thin_gas(row, met):
        return Relieved(Rating.SUITABLE, rows=(Row.of_figure(figure(_LEAKED_GAS)),))
    if _worse_in_vapour(row, material, met):
        return Relieved(Rating.LIMITED, "cracks in moist, aerated vapour")
    steps = min(_steps(row, material, met), row.rating.rank)
    if not steps and _thinly_met(row, met):
        return Relieved(Rating.LIMITED, "unsuitable if immersed; in a room's air it is thin")
    if not steps and _traces_only(row, material, met):
        rows = (*met.rises_by, Row.of_figure(attacking_pressure()))
        return Relieved(Rating.LIMITED, "only traces of it are in the vapour", rows)
    if not steps:
        return Relieved(row.rating)
    better = _ORDER[row.rating.rank - steps]
    why = f"{row.rating.value} if immersed, {met.exposure.value} is milder"
    slow = _slow_to(met)
    return Relieved(better, why, () if slow is None else (Row.of_figure(slow),))


def _never_sensitised(row: ResistanceRow, material: Material) -> bool:
    """Whether a row asks for a grade low in carbon or stabilised, and the grade is.

    What such a grade loses by itself stands in its rows as uniform corrosion.
    """
    if row.rating is not Rating.LIMITED or row.mechanism is not Mechanism.INTERGRANULAR:
        return False
    low = figure("carbon of a low-carbon stainless steel").amount(Dimension.FRACTION)
    carbon = material.carbon_max_pct
    return material.stabilised is True or (carbon is not None and carbon <= low)


def _carbon(material: Material) -> Row:
    said = (
        "?" if material.carbon_max_pct is None else f"at most {number(material.carbon_max_pct)} %"
    )
    return Row.of("materials", f"{material.id} carbon", material, said)


def suffers(row: ResistanceRow, material: Material) -> Mechanism:
    """By what such a material suffers: no plastic and no plating loses millimetres by the year."""
    if row.mechanism not in _UNIFORM:
        return row.mechanism
    if is_polymer(material):
        return Mechanism.ATTACK_ON_POLYMER
    return Mechanism.LAYER_CONSUMED if _of_layer(row, material) else row.mechanism


def _eats_layer(row: ResistanceRow, material: Material) -> bool:
    """A layer of some ten micrometres does not outlast a year of 0.1 mm."""
    loses = row.rating is Rating.LIMITED and row.mechanism in _UNIFORM
    return loses and _of_layer(row, material)


def _of_layer(row: ResistanceRow, material: Material) -> bool:
    """Whether a row speaks of a plating.

    The rows of a bare copper alloy do not, where a plated one is taken for it: they say what
    happens where the alloy shows through, and its plating makes that no worse.
    """
    bare = material.family in COPPER and row.material != material.id
    return material.family in PLATED and not bare


def _traces_only(row: ResistanceRow, material: Material, met: Met) -> bool:
    """Too little in the vapour to eat as the liquid does, but for what traces attack."""
    traces = met.vapour is Rises.TRACES and met.exposure in _IN_AIR and not met.mist
    return traces and row.rating is Rating.UNSUITABLE and not _traces_suffice(material, met)


def clean_air(material: Material, met: Met) -> bool:
    """Whether nothing of the chemical reaches the material: a row says that none of it rises.

    What water rusts or whitens stays as it is immersed where the vapour of a bath condenses on
    it, and, aluminium apart, in its room unless the list says that the bath is calm: damp air does
    next to nothing to aluminium (ISO 9223). Wood, hide and fibre take up the damp.
    """
    if is_natural(material):
        return False
    indoors = met.exposure is not Exposure.FUME
    if material.family in ALUMINIUM and indoors:
        return met.clean_air and not met.mist
    if material.family in _REST:
        return met.calm and indoors
    return met.clean_air and not met.mist


def _thinly_met(row: ResistanceRow, met: Met) -> bool:
    """Swelling and extraction by what leaks now and then: less than by the liquid, and not none."""
    return met.leaked and row.rating is Rating.UNSUITABLE and row.mechanism in _TAKEN_UP


def _thin_gas(row: ResistanceRow, met: Met) -> bool:
    """A rubber takes up a gas by its share of the air (Henry's law), and a leak brings little."""
    alkane = met.chemical.medium is Medium.GAS and met.chemical.epa_groups == _ALKANES
    taken_up = row.rating is Rating.LIMITED and row.mechanism in _BY_SHARE
    return met.leaked and alkane and taken_up


def _dry_hydrogen(row: ResistanceRow, met: Met) -> bool:
    """Hydrogen that is in the air embrittles nothing as the gas in a pressure vessel does."""
    embrittled = row.rating is not Rating.SUITABLE and row.mechanism is Mechanism.EMBRITTLEMENT
    return embrittled and met.chemical.id == "hydrogen" and met.exposure in _IN_AIR


def _stands_load(material: Material, met: Met) -> bool:
    return met.chemical.id == "hydrogen-sulfide" and material.id in _LOADED_IN_SOUR_GAS


def _needs_stress(mechanism: Mechanism) -> bool:
    return mechanism in _UNDER_TENSION


def _without_gaps(row: ResistanceRow, met: Met, piece: PieceFacts) -> bool:
    """Whether a row of crevice corrosion meets no gap: drops leave deposits, which are gaps too."""
    gaps = row.mechanism is Mechanism.CREVICE and piece.crevice is False
    return gaps and met.exposure is Exposure.IMMERSED


def _worse_in_vapour(row: ResistanceRow, material: Material, met: Met) -> bool:
    """Nickel-copper stands hydrofluoric acid as a liquid and cracks in its moist vapour."""
    pair = material.id == "alloy400" and met.chemical.id == "hydrofluoric-acid"
    return pair and met.exposure is Exposure.FUME and row.rating is Rating.SUITABLE


def _steps(row: ResistanceRow, material: Material, met: Met) -> int:
    if met.mist:
        return _splash(row, material, met)
    match met.exposure:
        case Exposure.SPLASH | Exposure.WASHDOWN:
            return _splash(row, material, met)
        case Exposure.FUME:
            return _fume(row, material, met)
        case Exposure.ROOM:
            return _room(row, material, met)
        case Exposure.ENCLOSED:
            sealed = not met.rises or met.breathes is False
            return 2 if sealed else _room(row, material, met)
        case _:
            return 0


def _slow(row: ResistanceRow, met: Met) -> bool:
    """Whether time and rinsing count: a slow mechanism, no fluoride, no strong oxidiser."""
    if row.mechanism not in SLOW or _FLUORIDES in met.chemical.epa_groups:
        return False
    slow = _slow_to(met)
    if slow is not None:
        strongest = max(strength.span.high for strength in met.strengths)
        return strongest <= slow.amount(Dimension.FRACTION)
    return met.chemical.oxidising is not PropertyState.YES


def washes_off(row: ResistanceRow, met: Met) -> bool:
    """Whether rinsing before a drop dries saves from this: what takes time, and no one drop."""
    return row.rating is Rating.SUITABLE or _slow(row, met)


def never_dries(met: Met) -> Figure | None:
    """Up to which strength an oxidiser that is rinsed off never becomes what its drops dry to.

    None where it is stronger, or not said to be rinsed: in one drop it does what it does.
    """
    weak = figure_if_any(
        "strength of an oxidiser that is rinsed off as it is used", met.chemical.id
    )
    dries = any(one.form is SolutionState.DRIED for one in met.strengths)
    if weak is None or not (met.rinsed and dries):
        return None
    bath = next(one for one in met.strengths if one.form is SolutionState.BATH)
    enough = bath.certain and bath.span.high <= weak.amount(Dimension.FRACTION)
    return weak if enough else None


def _slow_to(met: Met) -> Figure | None:
    """Up to which strength it does not oxidise, where the strength decides: sulfuric acid."""
    return figure_if_any("strength to which attack is slow", met.chemical.id)


def _splash(row: ResistanceRow, material: Material, met: Met) -> int:
    if not _slow(row, met) or _foam_strips(material, met):
        return 0
    if row.rating is Rating.LIMITED:
        return 1 if met.rinsed else 0
    return 1 if _solvent_swells(row, material, met) else 0


def _foam_strips(material: Material, met: Met) -> bool:
    """Aluminium and zinc fail in strong alkali however short the wash."""
    alkali = met.chemical.reaction is Reaction.STRONG_ALKALI
    return alkali and material.family in ALUMINIUM | ZINC


def _solvent_swells(row: ResistanceRow, material: Material, met: Met) -> bool:
    """A rubber that a solvent swells, and that shrinks back as the solvent evaporates."""
    solvent = met.chemical.reaction is Reaction.NOT_AQUEOUS
    leaves = met.chemical.drying is Drying.EVAPORATES
    return row.mechanism is Mechanism.SWELLING and is_elastomer(material) and solvent and leaves


def _fume(row: ResistanceRow, material: Material, met: Met) -> int:
    if not _slow(row, met):
        return 0
    if met.rises:
        return 1 if met.ventilated and _solvent_swells(row, material, met) else 0
    return 0 if material.family in _REST else 1


def _room(row: ResistanceRow, material: Material, met: Met) -> int:
    if not _slow(row, met) or _traces_suffice(material, met):
        return 0
    if met.rises:
        return 1
    return 2 if is_stainless(material) else 1


def _traces_suffice(material: Material, met: Met) -> bool:
    """Materials that what little is in the air of a room attacks as the liquid does."""
    chemical = met.chemical
    if not met.rises:
        return False
    if material.family in ZINC | BARE_STEEL | MAGNESIUM and chemical.reaction in _ACIDS:
        return True
    ammonia = chemical.copper_complexing is PropertyState.YES or _AMINES in chemical.epa_groups
    tarnishes = ammonia or chemical.id in _TARNISHING
    return tarnishes and (material.family in COPPER or material.id == "silver")


def called_spring(use: MaterialUse) -> bool:
    """Whether the component is called a spring."""
    return use.component is not None and _SPRING.search(use.component) is not None


def is_spring(use: MaterialUse, material: Material) -> bool:
    """Whether the component is a spring, or of a material that is made into nothing else."""
    return called_spring(use) or material.uses == ("spring",)


def is_fastener(use: MaterialUse) -> bool:
    """Whether the component is called a screw, a nut or the like."""
    return use.component is not None and _FASTENER.search(use.component) is not None


def piece_of(use: MaterialUse, material: Material) -> PieceFacts:
    """What the list says of the piece; springs are always strained."""
    strained = True if is_spring(use, material) else use.stressed
    return PieceFacts(strained, use.crevice)
