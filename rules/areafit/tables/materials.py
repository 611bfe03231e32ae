"""Engineering materials: grades, families that behave alike, and limits set for them."""

import re
from decimal import Decimal
from functools import cache, lru_cache

from areafit.facts.place import Atmosphere
from areafit.pattern import Words
from areafit.tables.load import rows
from areafit.tables.sources import Sourced
from areafit.values import Term
from areafit.verdict import Basis


class SurfaceClass(Term):
    """How a surface carries charge away; above 1 GΩ at 50 % humidity it is insulating."""

    CONDUCTIVE = "conductive"
    DISSIPATIVE = "dissipative"
    INSULATING_FILM = "insulating film"  # thin non-conducting film on conductive metal
    DEPENDS = "depends"  # filler or, on glass, moisture decides: a test value is needed
    INSULATING = "insulating"


class Material(Sourced):
    """A material as a part list names it.

    Temperatures in °C (dry service), density in g/cm³, contents in mass %. `cr`, `mo`, `n`, `ni`
    are nominal; every `…_max` is the most that the grade's standard allows. `pren` is
    Cr + 3.3 Mo + 16 N. `anodic_index_mv` is in whole millivolts. `carbon_max_pct` and
    `stabilised` are given for stainless steels. `behaves_as` names the material whose resistance
    rows serve where the exact pair has none (basis then `judgement`), except in `behaves_not`.
    """

    id: str
    name: str
    family: str
    names: tuple[str, ...]
    uses: tuple[str, ...]
    density_g_cm3: Decimal | None
    tmin_c: Decimal | None
    tmax_c: Decimal | None
    cr_pct: Decimal | None
    ni_pct: Decimal | None
    mo_pct: Decimal | None
    n_pct: Decimal | None
    pren: Decimal | None
    carbon_max_pct: Decimal | None
    stabilised: bool | None
    light_metal_pct_max: Decimal | None
    mg_ti_zr_pct_max: Decimal | None
    cu_pct_max: Decimal | None
    high_strength: bool
    surface: SurfaceClass
    anodic_index_mv: int | None
    anodic_basis: Basis
    anodic_source_id: str
    anodic_note: str
    behaves_as: str
    behaves_not: tuple[str, ...]


BARE_STEEL = frozenset({"carbon steel", "cast iron", "high-strength steel"})
ZINC = frozenset({"zinc alloy", "zinc-coated steel"})
ALUMINIUM = frozenset({"aluminium alloy", "aluminium alloy, coated"})
MAGNESIUM = frozenset({"magnesium alloy"})
COPPER = frozenset({"copper alloy", "copper alloy, coated"})
COATED_STEEL = frozenset(
    {
        "cadmium-coated steel",
        "chromium-coated steel",
        "nickel-coated steel",
        "tin-coated steel",
        "zinc-coated steel",
    }
)
RUSTED_BY_WATER = (
    BARE_STEEL | COATED_STEEL | ZINC | MAGNESIUM | {"martensitic stainless steel", "hardmetal"}
)
"""Families that neat solvents leave alone and water does not."""
COATING = "coating"


_POLYMERS = frozenset({"thermoplastic", "fluoropolymer", "cable jacket", "composite", COATING})
PLATED = COATED_STEEL | {"aluminium alloy, coated", "copper alloy, coated"}
"""Families that are a metal below a layer of some ten micrometres."""


def is_stainless(material: Material) -> bool:
    """Whether it is a stainless steel of any kind."""
    return material.family.endswith("stainless steel")


def is_elastomer(material: Material) -> bool:
    """Whether it is a rubber, thermoplastic rubber included."""
    return material.family.startswith("elastomer")


def is_polymer(material: Material) -> bool:
    """Whether it is a plastic, a rubber, or a paint or composite of one."""
    return material.family in _POLYMERS or is_elastomer(material)


def is_natural(material: Material) -> bool:
    """Whether it is wood, cork, hide or fibre: it takes up what wets it, and burns."""
    return material.family == "natural material"


def metallic(material: Material) -> bool:
    """Whether it conducts as metals and graphite do, so that it can be half of a couple."""
    return material.anodic_index_mv is not None


class GalvanicLimit(Sourced):
    """The largest difference of anodic index, in whole millivolts, that an atmosphere allows."""

    atmosphere: Atmosphere
    limit_mv: int


class GalvanicColumn(Term):
    """What a couple stands in, as the galvanic standard divides it."""

    MARINE = "marine"
    SEA_WATER = "sea_water"
    INDUSTRIAL = "industrial"


class GalvanicGroup(Sourced):
    """The group of a metal in the standard, `A` the least noble."""

    material: str
    group: str


class GalvanicPair(Sourced):
    """Whether two groups may touch in marine air, in sea water and in industrial air."""

    first: str
    second: str
    marine: bool
    sea_water: bool
    industrial: bool

    def allowed(self, columns: tuple[GalvanicColumn, ...]) -> bool:
        """Whether they may touch in every one of these."""
        said = {
            GalvanicColumn.MARINE: self.marine,
            GalvanicColumn.SEA_WATER: self.sea_water,
            GalvanicColumn.INDUSTRIAL: self.industrial,
        }
        return all(said[column] for column in columns)


class GalvanicExposure(Sourced):
    """The columns that stand for the air of a place; `forbids`: what they forbid is forbidden."""

    exposure: str
    columns: tuple[str, ...]
    forbids: bool

    @property
    def asked(self) -> tuple[GalvanicColumn, ...]:
        """The columns, as words of the trade."""
        return tuple(map(GalvanicColumn, self.columns))


def galvanic_pair(one: str, other: str) -> GalvanicPair | None:
    """What the standard says of two materials, by id; None where one is in no group of it."""
    groups = _groups()
    if one not in groups or other not in groups:
        return None
    return _pairs()[min(groups[one], groups[other]), max(groups[one], groups[other])]


@cache
def _groups() -> dict[str, str]:
    return {row.material: row.group for row in rows("galvanic_groups", GalvanicGroup)}


@cache
def _pairs() -> dict[tuple[str, str], GalvanicPair]:
    return {(row.first, row.second): row for row in rows("galvanic_pairs", GalvanicPair)}


class HiddenItem(Sourced):
    """What a bought part of a given kind usually holds that its description does not say.

    `called` are further words by which a list may name the component.
    `materials` are the usual ones, for the question to the supplier; none of them is a fact.
    """

    kind: str
    component: str
    called: tuple[str, ...]
    names: tuple[str, ...]
    materials: tuple[str, ...]
    question: str

    @property
    def named(self) -> re.Pattern[str]:
        """What finds it among the components of a list."""
        return _named(self.component, self.called)


def hidden_in(description: str | None, items: tuple[HiddenItem, ...]) -> tuple[HiddenItem, ...]:
    """What a part of this description usually holds: the rows whose names stand in it.

    What it is on, for or of does not count: a sensor on the actuator has no piston rod.
    """
    whole = (description or "").casefold()
    names, called = _called(items)
    near = {item for name in names.within(whole) for item in called[name]}
    if not near:  # as of most descriptions
        return ()
    said = _OF_ANOTHER.sub("", whole)
    return tuple(item for item in items if item in near and _kind(item).search(said))


_OF_ANOTHER = re.compile(
    r"(?<!\bset )(?<!\bsets )(?<!\bpair )(?<!\bkit )(?<!\bbank )(?<!\brow )(?<!\bblock )(?<!\bbox )"
    r"(?<=[^\d\s]\s)(?:of|on|for|at|to|in|under|beside|near|behind|against)\b(?!-)"
    r".*?(?=[,;(]|\bwith\b|$)"
)
# Of English words in a row the last is the thing; what follows behind these does not count.
_NO_MORE = r"(?![ -]+(?!(?:of|for|in|on|at|and|or|with|m?\d+)\b)[^\W\d_])"

_CARRIERS = (
    "bracket|holder|mount|mounting|plate|base|guard|frame|support|stand|tray|lug|cable|cord|lead|"
    "conduit"
)


@cache
def _named(component: str, called: tuple[str, ...]) -> re.Pattern[str]:
    """Its own name and the others, in the singular and the plural.

    `rod` finds a `tie rod` and a `rod of the piston`, `piston` no `piston rod`.
    """
    stems = (re.escape(word.casefold().removesuffix("s")) for word in (component, *called))
    return re.compile(rf"\b(?:{'|'.join(stems)})(?:e?s)?\b{_NO_MORE}")


@lru_cache(maxsize=8)
def _called(items: tuple[HiddenItem, ...]) -> tuple[Words, dict[str, list[HiddenItem]]]:
    """What descriptions call them, and which of them by each name."""
    called: dict[str, list[HiddenItem]] = {}
    for item in items:
        for name in (item.kind, *item.names):
            called.setdefault(name.casefold(), []).append(item)
    return Words(called), called


@cache
def _kind(item: HiddenItem) -> re.Pattern[str]:
    """Its names, in the singular or with a plural s; a pump bracket is no pump."""
    names = "|".join(re.escape(name.casefold()) for name in (item.kind, *item.names))
    return re.compile(rf"\b(?:{names})s?\b(?![ -](?:{_CARRIERS})s?\b)")


class ChlorideContent(Sourced):
    """Chloride that a chemical brings: per mass % of it, or as it stands, in mg/L."""

    chemical: str
    mg_l_per_pct: Decimal | None
    mg_l: Decimal | None


class SaltAir(Term):
    """How a class of stainless steel stands salt that settles from the air."""

    STAINS = "stains"  # on open surfaces too
    OPEN_SURFACES = "open surfaces"  # holds where rain or washing reaches
    HOLDS = "holds"


class PittingLimit(Sourced):
    """Chloride in mg/L that a pitting resistance number from `pren_min` on withstands.

    In open, neutral water up to `temp_max_c`, without crevices; from `fails_mg_l` on it pits.
    `salt_air` says where it serves in salt-laden air.
    """

    pren_min: Decimal
    chloride_mg_l: Decimal
    fails_mg_l: Decimal | None
    temp_max_c: Decimal
    salt_air: SaltAir

    @property
    def most_mg_l(self) -> Decimal:
        """The most that it withstands: no more than where it pits, whatever an own row says."""
        fails = self.fails_mg_l
        return self.chloride_mg_l if fails is None else min(self.chloride_mg_l, fails)

    def pits(self, chloride: Decimal) -> bool:
        """Whether it is known to pit at this content."""
        return self.fails_mg_l is not None and chloride >= self.fails_mg_l

    def withstands(self, chloride: Decimal) -> bool:
        """Whether it is known to stand this content."""
        return chloride <= self.most_mg_l and not self.pits(chloride)


class ChlorideLimit(Sourced):
    """A chloride in mg/L that a class of stainless steel is printed to stand up to `temp_max_c`.

    A printed point: of less chloride and colder water it holds too, and of no other. In flowing
    water of `ph_min` to `ph_max` without an oxidiser; not where drops dry, nor on a surface hotter
    than the water.
    """

    pren_min: Decimal
    chloride_mg_l: Decimal
    temp_max_c: Decimal
    ph_min: Decimal
    ph_max: Decimal


class CrackingLimit(Sourced):
    """Temperatures in °C from which chlorides crack a stressed alloy; empty where they do not.

    From `drying_c` on where chloride concentrates, is acid or frees chlorine, from `guide_c` on
    in any chloride water, and from `limit_c` on no stress is low enough.
    """

    family: str
    material: str
    drying_c: Decimal | None
    guide_c: Decimal | None
    limit_c: Decimal | None

    def lowest(self, *, sharp: bool) -> Decimal | None:
        """From where it may crack; None where it does not.

        `sharp`: the chloride concentrates, is acid or frees chlorine. An own row may set any one
        of the three: the lowest governs.
        """
        marks = (self.drying_c if sharp else None, self.guide_c, self.limit_c)
        return min((mark for mark in marks if mark is not None), default=None)


class Running(Term):
    """What runs in each other with force."""

    THREAD = "thread"
    PIN = "pin"
    SLIDE = "slide"


class RubbingSide(Term):
    """Which half of such a pair a component is."""

    OUTER = "outer"  # what goes in: the screw, the pin, the slide
    INNER = "inner"  # what it goes into


class RubbingComponent(Sourced):
    """A component that runs in another, as lists call it."""

    component: str
    pair: Running
    side: RubbingSide


class SteelToughness(Sourced):
    """The temperature in °C of the impact test that a subgrade of structural steel passes."""

    subgrade: str
    tested_c: Decimal


class UsualMaterial(Sourced):
    """How usual a material is in machines, 1 the most; it orders what is told, decides nothing."""

    id: str
    rank: int


class PlatingWindow(Sourced):
    """pH limits of a coated metal's surface; `chloride_rusts` says that chlorides rust through."""

    family: str
    surface: str
    ph_min: Decimal
    ph_max: Decimal
    chloride_rusts: bool
