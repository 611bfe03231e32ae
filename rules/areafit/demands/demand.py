"""What a place asks of everything that stands in it, each value with its cause.

Derived once per place, before any rule runs: the only origin of requirements for rules, for the
report's `requires` and for `areafit need`.
"""

from datetime import date
from decimal import Decimal
from functools import lru_cache

from areafit.demands.substances import ResolvedSubstance
from areafit.facts.groups import Group, GroupScheme, scheme_of
from areafit.facts.place import Area, AreaSystem, Place, PresentChemical
from areafit.facts.protection import Hazard, Law, Level, level_of
from areafit.facts.quantity import Range, number
from areafit.rule import Answer, Judgement, Row
from areafit.tables import Tables
from areafit.values import Frozen, Term, replace
from areafit.verdict import Basis, Reason, Role, at_least
from areafit.wording import capital, use_known_name


class Gap(Frozen):
    """Something that the place does not say, so that a requirement cannot be known.

    `nearest` holds known names where the place uses one that no table has; `about` names the
    substance, dust, line or place that it is the gap of, since no fingerprint digests a message.
    `remedy_told` is what to do about it where the reason alone does not say.
    """

    reason: Reason
    message: str
    nearest: tuple[str, ...] = ()
    about: tuple[str, ...] = ()
    remedy_told: str = ""

    @property
    def remedy(self) -> str:
        """What the owner of the area can do about it."""
        if self.remedy_told:
            return self.remedy_told
        if self.reason is Reason.NOT_JUDGED:
            return "Write the area as declared-area asks for it."
        if self.reason is Reason.FACT_MISSING:
            return (
                "List the `substances` of the place, with group and temperature class, from its "
                "document."
            )
        own = "state own values of the substance, with their source, in the place's `substances`"
        if self.reason is Reason.NAME_UNKNOWN:
            return use_known_name(self.nearest, own)
        return f"{capital(own)}."

    @property
    def sentence(self) -> str:
        """The message as a sentence of its own."""
        return f"{capital(self.message)}."

    def leaves(self, answer: Answer) -> Judgement:
        """The requirement as this gap leaves it: unproven, for the owner of the area to close."""
        return answer.unproven(
            self.reason, self.sentence, remedy=self.remedy, answer_by=Role.AREA_OWNER
        )


def unknown_substance(substance: ResolvedSubstance) -> Gap:
    """The gap that a name leaves which no table has."""
    message = f"{substance.name!r} is in no table and has no own values"
    return Gap(Reason.NAME_UNKNOWN, message, substance.nearest, (substance.name,))


def whence(milder: Row) -> str:
    """Where a milder value is from: `stated in the list`, or `of own tables`."""
    return milder.table if milder.table.startswith("stated") else f"of {milder.table}"


def unaccepted(what: str, stated: str, row: Row, by_row: str, answer: Answer) -> Judgement:
    """What meets nothing but a value that somebody stated instead of a substance's row.

    The sentence names both, since reports that fold show no more of it.
    Group and ignition temperature belong to the substance (ISO/IEC 80079-20-1): a free word and a
    number of a document don't change them, so a role has to answer for it as for a flag.
    """
    answer = replace(answer, rows=(*answer.rows, row))
    where = ", ".join(text for text in (row.source_id, row.locator) if text)
    judgement = answer.unproven(
        Reason.CONDITION_TO_ACCEPT,
        f"{capital(what)} meets nothing but the {stated} {whence(row)} ({where}), and the row "
        f"decides: {by_row}.",
        remedy="Choose a part for the row's value, or have a role accept the milder one by a "
        "waiver with a document.",
        answer_by=Role.AREA_OWNER,
    )
    return replace(judgement, document_to_waive=True)


class GroupNeed(Frozen):
    """A group that must be covered, and why: the declared area, or a substance by its row.

    `with_seals` is the milder letter that NFPA 70 allows for the substance in explosionproof
    equipment whose conduit runs are all sealed within 450 mm (500.6(A), exceptions).

    `uncertain` says that falling short of it is unproven rather than refused. `milder` is what
    somebody stated instead of the table's group: it never decides, but what meets it is unproven.
    `due_to` is the one substance that a declared group is due to.
    """

    group: Group
    cause: str
    substance: str | None = None
    rows: tuple[Row, ...] = ()
    with_seals: Group | None = None
    uncertain: bool = False
    milder: tuple[Group, Row] | None = None
    due_to: str | None = None


class GroupDemand(Frozen):
    """All that must be covered in one scheme; any gap keeps the requirement unproven."""

    scheme: GroupScheme
    needs: tuple[GroupNeed, ...]
    gaps: tuple[Gap, ...] = ()


class Limit(Frozen):
    """A highest surface temperature in °C.

    `inclusive` says that the limit itself may be reached; otherwise a surface must stay below.
    `no_margin_at_limit` says that the limit itself is neither allowed nor refused by the text.
    `uncertain` says that exceeding it is unproven rather than refused; `overload` that it holds
    for equipment that may be overloaded. `declared` marks the area's own class or maximum,
    `ignition` a temperature at which something ignites. `milder` is what somebody stated instead of
    the table's figure: it never decides, and stands beside as a limit of its own. `cure` says what
    would settle a limit that is uncertain.
    """

    maximum: Decimal
    cause: str
    clause: str
    inclusive: bool = False
    no_margin_at_limit: bool = False
    uncertain: bool = False
    ignition: bool = False
    declared: bool = False
    overload: bool = False
    rows: tuple[Row, ...] = ()
    milder: tuple[Decimal, Row] | None = None
    cure: str = ""

    def keeps(self, value: Decimal) -> bool:
        """Whether a surface of this temperature in °C is within the limit beyond doubt."""
        return value < self.maximum or (value == self.maximum and self.inclusive)

    @property
    def words(self) -> str:
        """`below 204 °C`, or `at most 135 °C` where the limit itself may be reached."""
        return f"{'at most' if self.inclusive else 'below'} {number(self.maximum)} °C"


class HazardDemand(Frozen):
    """What one hazard of a place asks for: gas, dust or fibres."""

    hazard: Hazard
    areas: tuple[Area, ...]
    groups: tuple[GroupDemand, ...] = ()
    limits: tuple[Limit, ...] = ()
    temperature_gaps: tuple[Gap, ...] = ()

    @property
    def home(self) -> GroupScheme:
        """The scheme of groups that the areas are written in."""
        division = any(area.system is AreaSystem.DIVISION for area in self.areas)
        return scheme_of(self.hazard, division=division)

    def group_demand(self, scheme: GroupScheme) -> GroupDemand | None:
        """The demand in one scheme, or None where the hazard knows none there."""
        return next((demand for demand in self.groups if demand.scheme is scheme), None)


class CorrodingChemical(Frozen):
    """A chemical that a surface at this place may meet.

    `fume_only` marks a flammable substance that is listed as such and counts as vapour. `liquid`
    in °C is what the list of substances states for it: the heat of the liquid, not of its vapour.
    `solvent` marks one that is a neutral solvent, of which the air of a room brings nothing that
    counts: it is met only where liquid or condensing vapour reaches. `quiet` marks a light gas of
    which a leak does nothing to what listed electrical equipment is made of.
    """

    stated: PresentChemical
    fume_only: bool = False
    solvent: bool = False
    quiet: bool = False
    liquid: Range | None = None


class Evolved(Frozen):
    """A chemical on a metal, and whether hydrogen is certain or has only to be reckoned with."""

    chemical: str
    material: str
    certain: bool
    rows: tuple[Row, ...]

    @property
    def cause(self) -> str:
        """What the need is called in findings."""
        return f"hydrogen from {self.chemical} on {self.material}"


class Lack(Term):
    """What is not known, so that the hydrogen of a line cannot be computed."""

    AREA = "surface_area"
    QUANTITY = "quantity"
    STRENGTH = "concentration"
    HEAT = "temperature"
    RATE = "corrosion rate"


class Evolution(Frozen):
    """Hydrogen in litres an hour at its hottest, and the air in m³/h that it asks for.

    Both are None where something is `lacking`, by item. `rates` are the rows of metals and of how
    fast they go, `factors` what only makes it ask for more.
    """

    litres: Decimal | None
    flow: Decimal | None
    lacking: tuple[tuple[str, Lack], ...] = ()
    rates: tuple[Row, ...] = ()
    factors: tuple[Row, ...] = ()

    @property
    def published(self) -> bool:
        """Whether every corrosion rate was read or reported, none recalled."""
        return all(
            at_least(row.basis, Basis.REPORTED)
            for row in self.rates
            if row.table == "corrosion_rates"
        )


class Demands(Frozen, eq=False):
    """All that one place asks for.

    `chemicals` is None where the place does not state them; `as_of` is the date at which
    documents must be valid.
    """

    place: Place
    tables: Tables
    hazards: tuple[HazardDemand, ...]
    substances: tuple[ResolvedSubstance, ...]
    chemicals: tuple[CorrodingChemical, ...] | None
    as_of: date
    evolved: tuple[Evolved, ...] = ()
    evolution: Evolution | None = None

    @property
    def law(self) -> Law:
        """The installation rules that govern."""
        return self.place.law

    @property
    def ambient(self) -> Range | None:
        """The air temperature at the place in °C."""
        return self.place.ambient

    @property
    def classified(self) -> bool:
        """Whether any explosive atmosphere is declared."""
        return bool(self.hazards)

    def hazard(self, hazard: Hazard) -> HazardDemand | None:
        """The demand of one hazard, or None where the place does not have it."""
        return next((demand for demand in self.hazards if demand.hazard is hazard), None)


_ZONES = {0: Level.GA, 1: Level.GB, 2: Level.GC, 20: Level.DA, 21: Level.DB, 22: Level.DC}


def required_level(area: Area) -> Level | None:
    """The level that an area asks for; None where it is not classified.

    A Division has none. Division 1 takes in what zones call 0 and 1: it is read as level b unless
    the place states level a (`asked_level`), and `place-stated` asks which it is. Division 2 is
    read as level c. Fibres count as dust.
    """
    if not area.classified or area.hazard is None:
        return None
    if area.system is AreaSystem.ZONE and area.zone is not None:
        return _ZONES[area.zone]
    return level_of(area.hazard, 1 if area.division == 1 else 2)


@lru_cache(maxsize=1024)  # every rule asks it of every line
def asked_level(demands: Demands, hazard: HazardDemand) -> Level:
    """The best level that the areas of a hazard, or the site itself, ask for."""
    levels = [level for area in hazard.areas if (level := required_level(area)) is not None]
    own = demands.place.level_asked(hazard.hazard)
    if own is not None:
        levels.append(own)
    return min(levels, key=lambda level: level.rank)


def place_names(hazard: HazardDemand) -> str:
    """The areas of a hazard in words: `Zone 1`, `Class II, Division 1`."""
    return " and ".join(dict.fromkeys(area.name for area in hazard.areas))
