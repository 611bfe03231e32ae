"""Process chemicals: what reacts with what, what fumes, and what a drop becomes as it dries."""

from collections.abc import Mapping
from decimal import Decimal
from functools import cache

from areafit.facts.mechanics import Fluid
from areafit.tables.load import rows
from areafit.tables.sources import Sourced
from areafit.values import Frozen, Term


class PropertyState(Term):
    """Whether a chemical has a property; `depends` counts as yes unless a fact excludes it."""

    YES = "yes"
    NO = "no"
    DEPENDS = "depends"


class Hydrogen(Term):
    """On which metals the chemical evolves hydrogen."""

    NONE = "no"
    ACTIVE = "active metals"  # magnesium, aluminium, zinc, steel
    AMPHOTERIC = "amphoteric metals"  # aluminium, zinc, tin, lead
    LITTLE = "little"  # slow, or mostly other gases


class Volatility(Term):
    """What rises from an open bath."""

    YES = "yes"
    LOW = "low"
    HOT = "hot"  # only when hot or acidified
    MIST = "mist"  # spray or aerosol carries it
    NO = "no"


class Reaction(Term):
    """Acid or alkali, by the pH of the usual solution."""

    STRONG_ACID = "strong acid"
    WEAK_ACID = "weak acid"
    NEUTRAL = "neutral"
    WEAK_ALKALI = "weak alkali"
    STRONG_ALKALI = "strong alkali"
    NOT_AQUEOUS = "not aqueous"


class Drying(Term):
    """What becomes of a drop that is left to dry in room air."""

    CONCENTRATES = "concentrates"  # towards dried_pct, from either side
    SATURATES = "saturates"  # salt dries to saturation, dried_pct
    NEVER_DRIES = "never dries"  # draws water from the air; stays at dried_pct
    EVAPORATES = "evaporates"  # leaves nothing
    UNKNOWN = "unknown"


class Medium(Term):
    """In which form the chemical meets the part."""

    LIQUID = "liquid"
    SOLUTION = "solution"
    GAS = "gas"
    ATMOSPHERE = "atmosphere"


class Chemical(Sourced):
    """A chemical as a place lists it.

    `assumed_pct` is the mass % that holds where none is stated (gases, neat liquids, water); where
    it is None a concentration must be stated. `dried_pct` is the mass % a drop moves to.
    `substance` is the id in the substance table of a chemical that burns. `epa_groups` are
    reactivity group numbers of EPA-600/2-80-076.
    """

    id: str
    name: str
    cas: str
    names: tuple[str, ...]
    medium: Medium
    epa_groups: tuple[str, ...]
    reaction: Reaction
    oxidising: PropertyState
    oxidising_note: str
    chloride: PropertyState
    chloride_note: str
    copper_complexing: PropertyState
    hydrogen: Hydrogen
    volatile: Volatility
    substance: str
    assumed_pct: Decimal | None
    typical_pct: str
    drying: Drying
    dried_pct: Decimal | None
    behaves_as: str
    behaves_not: tuple[str, ...]


class NamedMixture(Sourced):
    """Chemicals, by id, that together are the chemical `mixture`; order does not matter.

    `strongest_pct`: the most of each, in the order of `members`; none where any is no worse.
    """

    mixture: str
    members: tuple[str, ...]
    strongest_pct: tuple[str, ...]

    def is_of(self, shares: dict[str, Decimal | None]) -> bool:
        """Whether these chemicals, in mass % where it is known, make the mixture."""
        if frozenset(shares) != frozenset(self.members):
            return False
        most = zip(self.members, self.strongest_pct, strict=False)
        return all((shares[one] or 0) <= Decimal(limit) for one, limit in most)


class WorkingFluid(Sourced):
    """What a kind of working liquid is as a chemical, by id, and in °C how hot such a one is used.

    The kinds are those of ISO 6743-4; hotter than that its water boils off, or it ages. `metals`:
    whether the rows of the chemical speak of metals too, which treated water does not rust.
    """

    kind: Fluid
    chemical: str
    hottest_c: Decimal
    metals: bool


@cache
def working_fluid(kind: Fluid) -> WorkingFluid | None:
    """The row of a kind; None where it says no more than that it is another one."""
    return next((row for row in rows("working_fluids", WorkingFluid) if row.kind is kind), None)


class EpaGroup(Sourced):
    """A reactivity group of EPA-600/2-80-076."""

    number: str
    name: str


class PairKind(Term):
    """What `a` and `b` of a row name."""

    GROUPS = "groups"  # reactivity group numbers
    CHEMICALS = "chemicals"  # chemical ids
    GASES = "gases"  # ids or group numbers of which one at least is a gas; `any` is all others


class Separation(Term):
    """What follows for the place, worst first."""

    MUST_NOT = "must not share"
    CAUTION = "caution"
    INFORMATION = "information"


class Incompatible(Sourced):
    """One pair of groups or of chemicals, `a` before `b`.

    `codes` are the letters of the EPA chart: H heat, F fire, G gas, GT toxic gas, GF flammable
    gas, E explosion, P polymerisation, S toxic solution, U unknown, X extremely reactive.
    """

    a: str
    b: str
    kind: PairKind
    codes: tuple[str, ...]
    consequence: str
    separation: Separation
    example: str


ANY = "any"
WATER = "106"  # EPA group: water and mixtures containing water
_TOXIC = frozenset({"GT"})
_Rows = Mapping[tuple[str, str, str], Incompatible]


class Meets(Frozen):
    """A chemical that meets another; `dilute` says that it is too weak to count as more than water.

    `harmless`: too weak to free a toxic gas as well.
    """

    chemical: Chemical
    dilute: bool = False
    harmless: bool = False

    @property
    def groups(self) -> tuple[str, ...]:
        """Its reactivity groups at its strength."""
        return (WATER,) if self.dilute else self.chemical.epa_groups

    @property
    def gas(self) -> bool:
        """Whether it is a gas, for which a chart of liquid wastes does not speak."""
        return self.chemical.medium is Medium.GAS


class Encounter(Frozen):
    """What the rows say of two chemicals; `silent`: one is a gas, and no row speaks of the two."""

    rows: tuple[Incompatible, ...]
    silent: bool = False


def encounter(listed: _Rows, first: Meets, second: Meets) -> Encounter:
    """The rows for two chemicals: the pair by name, then what their groups say.

    The chart is of liquid wastes in quantity: where one is a gas its own rows speak, or none.
    A pair by name that frees a toxic gas counts at any strength, unless that, too, has a limit.
    """
    a, b = sorted((first, second), key=lambda one: one.chemical.id)
    named = listed.get((PairKind.CHEMICALS.value, a.chemical.id, b.chemical.id))
    if named is not None and (a.dilute or b.dilute):
        harmless = a.harmless or b.harmless
        named = None if harmless or not _TOXIC.intersection(named.codes) else named
    known = (named,) if named is not None else ()
    if a.gas or b.gas:
        found, silent = _of_gases(listed, a, b)
        return Encounter((*known, *found), silent and not known)
    pairs = {
        (PairKind.GROUPS.value, min(left, right, key=int), max(left, right, key=int))
        for left in a.groups
        for right in b.groups
    }
    return Encounter((*known, *(listed[pair] for pair in sorted(pairs) if pair in listed)))


def _of_gases(listed: _Rows, a: Meets, b: Meets) -> tuple[tuple[Incompatible, ...], bool]:
    """The rows for a gas, by id before group, and whether any pair of groups has none."""

    def row(left: str, right: str) -> Incompatible | None:
        first, second = sorted((left, right))
        return listed.get((PairKind.GASES.value, first, second))

    one, other = a.chemical.id, b.chemical.id
    own = row(one, other) or row(one, ANY) or row(ANY, other)
    if own is not None:
        return (own,), False
    found = [
        row(one, right) or row(left, other) or row(left, right)
        for left in a.groups or ("",)
        for right in b.groups or ("",)
    ]
    known = tuple(dict.fromkeys(each for each in found if each is not None))
    return known, None in found


class Acts(Term):
    """Which half of a neutralisation it is."""

    ACID = "acid"
    ALKALI = "alkali"


class Neutralising(Sourced):
    """An acid or an alkali, by id, as it neutralises.

    Molar mass in g/mol, equivalents of a mole, the strongest that is sold in mass %, and the heat
    in kJ of one equivalent with a strong partner.
    """

    chemical: str
    acts: Acts
    g_per_mol: Decimal
    equivalents: Decimal
    strongest_pct: Decimal
    kj_per_equivalent: Decimal


def neutralising(chemical: str) -> Neutralising | None:
    """The row of a chemical, by id; None where it is no acid and no alkali that counts."""
    return _neutralising().get(chemical)


@cache
def _neutralising() -> dict[str, Neutralising]:
    return {row.chemical: row for row in rows("neutralisation", Neutralising)}


class SolutionPh(Sourced):
    """The pH that the usual solutions of a class span; a stated pH replaces it."""

    reaction: Reaction
    ph_min: Decimal
    ph_max: Decimal
