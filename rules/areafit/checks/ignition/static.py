"""Static charge that metal stores: paths to earth, and the limits without one."""

from collections.abc import Iterable, Iterator, Sequence
from decimal import Decimal
from functools import lru_cache

from areafit.checks.ignition.assessment import examined_as_carried
from areafit.demands import Demands, GroupDemand, HazardDemand
from areafit.demands.demand import Gap, GroupNeed, asked_level
from areafit.facts.groups import Group, GroupScheme, severity
from areafit.facts.part import Body, Kind, MaterialUse
from areafit.facts.place import AreaSystem
from areafit.facts.protection import Hazard
from areafit.facts.quantity import Dimension, show
from areafit.pattern import pattern
from areafit.rule import Answer, Ask, Example, Family, Judgement, Row, Rule, Subject
from areafit.tables import Tables
from areafit.tables.limits import StaticLimit, figure, static_limit
from areafit.tables.materials import SurfaceClass
from areafit.tables.words import denies
from areafit.values import Frozen, replace
from areafit.verdict import Reason, Role, Verdict

_LADDER = (Group.IIA, Group.IIB, Group.IIC)
_AT_LEAST = {Group.A: Group.IIC, Group.B: Group.IIC, Group.C: Group.IIB, Group.D: Group.IIA}
_AT_MOST = {Group.A: Group.IIC, Group.B: Group.IIC, Group.C: Group.IIB, Group.D: Group.IIB}


class StaticLimits(Frozen):
    """The limits of the mildest and of the most onerous group that the place may have.

    They are the same where the group is known; `gap` says why they differ. `because` names what
    asks for the governing group where the declared area does not.
    """

    mildest: StaticLimit
    governing: StaticLimit
    dust: bool
    gap: Gap | None = None
    because: str = ""

    @property
    def whose(self) -> str:
        """The governing level and group, and what asks for it beyond the declared area."""
        limit = self.governing
        cause = f": {self.because}" if self.because else ""
        return f"EPL {limit.level}, {limit.group}{cause}"


def static_limits(demands: Demands, hazard: HazardDemand) -> StaticLimits:
    """The limits for one hazard of a place.

    The most onerous of the declared groups and of every substance governs. A Division letter is
    read as the more onerous of the IEC groups that its gases have; where a group is not known a
    surface passes only at IIC, and fails only by what is known.
    """
    return _limits(demands, hazard.hazard)


@lru_cache(maxsize=64)  # every part of a place asks
def _limits(demands: Demands, name: Hazard) -> StaticLimits:
    hazard = next(each for each in demands.hazards if each.hazard is name)
    level = asked_level(demands, hazard).value
    if hazard.hazard is not Hazard.GAS:
        limit = static_limit(level, "III")
        return StaticLimits(limit, limit, dust=True)
    zone = hazard.group_demand(GroupScheme.ZONE_GAS)
    division = hazard.group_demand(GroupScheme.DIVISION_GAS)
    divided = any(area.system is AreaSystem.DIVISION for area in hazard.areas)
    letters = [
        need.group
        for need in _needs(division)
        if divided and need.group in _AT_LEAST and not need.uncertain
    ]
    known = [_step(need.group) for need in _needs(zone) if not need.uncertain]
    maybe = [need for need in _needs(zone) if need.uncertain]
    low = [*known, *(_LADDER.index(_AT_LEAST[g]) for g in letters)]
    high = [*known, *(_LADDER.index(_AT_MOST[g]) for g in letters)]
    unknown = _gap(zone, letters)
    gap = unknown or _gathering(maybe, high)
    high += [_step(need.group) for need in maybe]
    if gap is not None or not high:
        high.append(len(_LADDER) - 1)
    lowest, highest = max(low, default=0), max(high)
    if lowest == highest:
        gap = None
    return StaticLimits(
        static_limit(level, _LADDER[lowest].value),
        static_limit(level, _LADDER[highest].value),
        dust=False,
        gap=gap,
        because=_because(zone, highest) if unknown is None else "",
    )


def _because(zone: GroupDemand | None, highest: int) -> str:
    """The substance, or the hydrogen from a chemical, that asks for more than the area declares."""
    needs = [n for n in (zone.needs if zone is not None else ()) if _step(n.group) == highest]
    if not needs or any(need.substance is None for need in needs):
        return ""
    return needs[0].cause


def _needs(demand: GroupDemand | None) -> tuple[GroupNeed, ...]:
    return demand.needs if demand is not None else ()


def _gathering(maybe: Iterable[GroupNeed], known: Sequence[int]) -> Gap | None:
    """The hydrogen that may gather, where it asks for more than is known."""
    more = (need for need in maybe if _step(need.group) > max(known, default=-1))
    need = next(more, None)
    if need is None:
        return None
    message = f"{need.cause} asks for {need.group.value} if it gathers"
    return Gap(
        Reason.FACT_MISSING,
        message,
        about=(need.cause,),
        remedy_told="Settle `hydrogen-evolution` of the place: have its area classification say "
        "whether hydrogen gathers, or state its `ventilation`; or make the `surface_area` smaller.",
    )


def _step(group: Group) -> int:
    """The place of a group on the ladder; a group without a letter is held to the worst."""
    found = severity(group)
    return len(_LADDER) - 1 if found is None else found


def _gap(zone: GroupDemand | None, letters: list[Group]) -> Gap | None:
    """What is not known of the group.

    Division letters answer for what the area declares, never for a substance that is not known.
    """
    gaps = zone.gaps if zone is not None else ()
    if letters:
        gaps = tuple(gap for gap in gaps if gap.reason is not Reason.FACT_MISSING)
    return gaps[0] if gaps else None


def static_row(limit: StaticLimit, value: str) -> Row:
    """The figure of the static limits that decided."""
    return Row.of("static_limits", f"{limit.level}, {limit.group}", limit, value)


_EARTHED = ("earthed", "grounded", "bonded")


def earthed(body: Body) -> bool | None:
    """Whether the part is earthed; None where nothing is said, False where facts contradict."""
    measured = None
    if body.resistance_to_earth is not None:
        limit = figure("earth resistance").amount(Dimension.RESISTANCE)
        measured = body.resistance_to_earth <= limit
    if body.bonded is False or measured is False:
        return False
    return True if body.bonded or measured else None


def on_earthed_metal(use: MaterialUse, body: Body, tables: Tables) -> bool:
    """Whether a layer is said to lie on earthed metal, and the part is not said to be isolated."""
    path = earthed(body)
    if path is False:
        return False
    if use.backing is not None:
        said = _backed_by_metal(use, tables)
        return said and (_calls_it_earthed(use) or path is True)
    under = use.substrate is not None and _conducts(use.substrate, tables)
    return under and path is True


def _backed_by_metal(use: MaterialUse, tables: Tables) -> bool:
    """Whether what the layer lies on is said to be metal."""
    if use.backing is None:
        return False
    return _METAL.search(use.backing.casefold()) is not None or _conducts(use.backing, tables)


_METAL = pattern(r"(?<!\w)(?<!non[- ])(?<!not )(?<!no )metal(?:lic)?(?!\w)")


def _calls_it_earthed(use: MaterialUse) -> bool:
    """Whether the list calls what the layer lies on earthed, and denies nothing of it."""
    backing = (use.backing or "").casefold()
    said = any(word in _WORDS.findall(backing) for word in _EARTHED)
    return said and not denies(backing)


_WORDS = pattern(r"\w+")


def _conducts(name: str, tables: Tables) -> bool:
    grades = tables.materials(name)
    return bool(grades) and all(grade.surface is SurfaceClass.CONDUCTIVE for grade in grades)


_PF = Decimal("1E-12")


class EarthPath(Frozen):
    """What is said of the earth path: `earthed` None where nothing is, Ω and F."""

    earthed: bool | None
    resistance: Decimal | None
    capacitance: Decimal | None
    limits: StaticLimits


def _ask_bonding(body: Body, demands: Demands) -> Iterator[Ask[EarthPath]]:
    """Every part that holds metal or may do so; not one whose materials all insulate.

    Of rubber, glass and ceramic, which may conduct by what is in them, `static-surface` asks the
    resistance; only one that states it low is asked for its earth.

    Metal that a layer lies on counts, unless it is called earthed and nothing says otherwise.
    """
    if body.capacitance is None and not _may_conduct(body, demands.tables):
        return
    said = (body.bonded, body.resistance_to_earth, body.capacitance)
    if said == (None, None, None) and examined_as_carried(body, demands):
        return
    path = next(
        (
            key
            for key in ("bonded", "resistance_to_earth", "capacitance")
            if getattr(body, key) is not None
        ),
        "bonded",
    )
    for hazard in demands.hazards:
        limits = static_limits(demands, hazard)
        question = EarthPath(earthed(body), body.resistance_to_earth, body.capacitance, limits)
        yield Ask(question, path)


def _may_conduct(body: Body, tables: Tables) -> bool:
    if body.materials is None:
        return True
    isolated = earthed(body) is False
    return any(
        _material_may_conduct(use, tables, plain=_all_of_it_listed(body))
        or (_backed_by_metal(use, tables) and (isolated or not _calls_it_earthed(use)))
        for use in body.materials
    )


def _all_of_it_listed(body: Body) -> bool:
    """Whether a part is nothing but a piece of its materials, or says so as a mechanical one."""
    kinds = body.equipment.kinds
    if kinds <= {Kind.STRUCTURAL, Kind.LOOSE_ITEM}:
        return True
    plain = kinds <= {Kind.STRUCTURAL, Kind.LOOSE_ITEM, Kind.MECHANICAL}
    empty = body.equipment.electrical_content == "none"
    return plain and empty and body.materials_complete is True


def _material_may_conduct(use: MaterialUse, tables: Tables, *, plain: bool) -> bool:
    """Metal, or what may be metal; a stated surface resistance tells plastic from it.

    `plain`: all that the part is made of is listed, so that a rubber is no seal in metal.
    """
    stated = use.surface_resistance
    plastic = stated is not None and stated >= figure("surface that is no metal").amount(
        Dimension.RESISTANCE
    )
    no_metal = {SurfaceClass.INSULATING}
    if plain and stated is None:
        no_metal.add(SurfaceClass.DEPENDS)
    names = (None if plastic else use.material, use.substrate)
    grades = [tables.materials(name) for name in names if name is not None]
    return any(
        not found or any(grade.surface not in no_metal for grade in found) for found in grades
    )


def _judge_bonding(path: EarthPath) -> Judgement:
    limit, capacitance, limits = figure("earth resistance"), path.capacitance, path.limits
    without_earth = f"{limits.governing.capacitance_pf} pF"
    answer = Answer(
        required=f"bonded, or at most {limit.value} to earth; without earth at most "
        f"{without_earth} ({limits.whose})",
        found=_found_earth(path),
        rows=(
            Row.of_figure(limit),
            static_row(limits.governing, f"{without_earth} without earth"),
        ),
    )
    if path.earthed:
        return answer.passed("Earthed, so no isolated conductor.")
    if capacitance is not None and _small(capacitance, limits.governing):
        clause = "IEC 60079-0:2017 7.5; IEC TS 60079-32-1:2013"
        return replace(answer, clause=clause).passed(
            "Too small to store a dangerous charge, earthed or not."
        )
    if path.earthed is None:
        return answer.unproven(
            Reason.FACT_MISSING, "Whether the metal of the part is bonded is not stated."
        )
    if capacitance is not None and _small(capacitance, limits.mildest):
        gap = limits.gap
        message = gap.message if gap is not None else "the Division letter covers several groups"
        return answer.unproven(
            gap.reason if gap is not None else Reason.NO_DATA,
            f"Too large for the most onerous group, which is not known: {message}.",
        )
    return answer.flagged(
        "Metal without a path to earth stores a charge and gives it off in a spark."
    )


def _small(capacitance: Decimal, limit: StaticLimit) -> bool:
    return capacitance <= limit.capacitance_pf * _PF


def _found_earth(path: EarthPath) -> str:
    words = {True: "earthed", False: "not earthed", None: "earth not stated"}
    stated = [words[path.earthed]]
    if path.resistance is not None:
        stated.append(f"{show(path.resistance, Dimension.RESISTANCE)} to earth")
    if path.capacitance is not None:
        stated.append(show(path.capacitance, Dimension.CAPACITANCE))
    return ", ".join(stated)


BONDING = Rule[EarthPath](
    id="bonding",
    title="Metal parts are earthed",
    family=Family.IGNITION,
    subject=Subject.BODY,
    clause="IEC 60079-14:2013 6.4; IEC TS 60079-32-1:2013 13; NFPA 77-2019",
    why="An isolated metal part is charged by its surroundings and discharges in one spark, "
    "which lights gas and dust far more easily than plastic does.",
    remedy="Bond the part and state `bonded: true`, or `resistance_to_earth`; for a small metal "
    "part that cannot be earthed state its `capacitance`.",
    answer_by=Role.INSTALLER,
    note="1 MΩ is enough for static; fault currents ask for far less (NFPA 70 250, IEC 60364). "
    "The capacitance limits differ by edition: 3 pF at level a and in IIC, 10 pF elsewhere.",
    ask=_ask_bonding,
    judge=_judge_bonding,
    examples=(
        Example(
            "A bonded frame",
            Verdict.PASS,
            "{kind: structural, materials: [{component: frame, material: '304'}], bonded: true}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
        Example(
            "A frame on rubber feet",
            Verdict.FLAG,
            "{kind: structural, materials: [{component: frame, material: '304'}], bonded: false}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
        Example(
            "A frame of which nothing is said",
            Verdict.UNPROVEN,
            "{kind: structural, materials: [{component: frame, material: '304'}]}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
        Example(
            "A handwheel on a plastic shaft",
            Verdict.FLAG,
            "{kind: mechanical, capacitance: 80 pF, resistance_to_earth: 1e12 ohm}",
            "{area: 'Zone 1, IIC, T1'}",
        ),
    ),
)
