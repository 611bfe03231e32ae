"""A place where parts stand: its classification and what is present in it."""

from decimal import Decimal

from areafit.facts.groups import Group
from areafit.facts.protection import Hazard, Law, Level, level_of
from areafit.facts.quantity import Range, number
from areafit.values import Frozen, Term


class AreaSystem(Term):
    """How the area classification document writes the place."""

    DIVISION = "division"
    ZONE = "zone"
    UNCLASSIFIED = "unclassified"


class Area(Frozen):
    """One classified area as declared; `maximum` is the declared temperature limit in °C."""

    system: AreaSystem
    hazard: Hazard | None = None
    hazard_class: str | None = None
    division: int | None = None
    zone: int | None = None
    groups: frozenset[Group] = frozenset()
    maximum: Decimal | None = None
    temperature_class: str | None = None

    @property
    def classified(self) -> bool:
        """Whether an explosive atmosphere is declared at all."""
        return self.system is not AreaSystem.UNCLASSIFIED

    @property
    def name(self) -> str:
        """The area in words: `Zone 1`, `Class II, Division 1`."""
        if self.system is AreaSystem.ZONE:
            return f"Zone {self.zone}"
        return f"Class {self.hazard_class}, Division {self.division}"

    @property
    def key(self) -> str:
        """The key under which the tables know the area: `zone 1`, `II/1`."""
        if self.system is AreaSystem.ZONE:
            return f"zone {self.zone}"
        return f"{self.hazard_class}/{self.division}"


class AreaReading(Frozen):
    """Declared area text, decoded; `problems` says which words could not be read or contradict.

    `contradictory` says that words were read and declare a place that does not exist.
    """

    text: str
    areas: tuple[Area, ...]
    problems: tuple[str, ...] = ()
    contradictory: bool = False


class Atmosphere(Term):
    """Severity of the air for galvanic pairs."""

    SEVERE = "severe"
    NORMAL = "normal"
    CONTROLLED = "controlled"


class ShareOf(Term):
    """What the shares of a mixture are shares of."""

    MASS = "%"
    VOLUME = "% v/v"
    MOLE = "mol %"


class MixtureComponent(Frozen):
    """A liquid in a mixture with its share in percent; None: the rest."""

    name: str
    share: Range | None = None


class Mixture(Frozen):
    """What a liquid is mixed of."""

    components: tuple[MixtureComponent, ...]
    share_of: ShareOf

    @property
    def text(self) -> str:
        """As a person writes it: `isopropanol 15 %, water`."""
        return ", ".join(
            one.name
            if one.share is None
            else f"{one.name} {_figures(one.share)} {self.share_of.value}"
            for one in self.components
        )


def _figures(share: Range) -> str:
    low, high = number(share.low), number(share.high)
    return low if low == high else f"{low}..{high}"


class PresentSubstance(Frozen):
    """A flammable gas, vapour or dust said to be present, with own test values if stated.

    Temperatures in °C. `source` and `document` say where own values come from. Of a `mixture` the
    name is only what it is called.
    """

    name: str
    group: Group | None = None
    autoignition: Decimal | None = None
    flash_point: Decimal | None = None
    cloud_ignition: Decimal | None = None
    layer_ignition: Decimal | None = None
    layer_melts: bool | None = None
    carbonises: bool | None = None
    conductive: bool | None = None
    temperature: Range | None = None
    source: str | None = None
    document: str | None = None
    mixture: Mixture | None = None

    @property
    def has_own_values(self) -> bool:
        """Whether anything beside the name is stated that a table row would give."""
        own = (self.group, self.autoignition, self.flash_point, self.cloud_ignition)
        return any(v is not None for v in (*own, self.layer_ignition, self.carbonises))


class ConcentrationUnit(Term):
    """What a concentration is a share of."""

    MASS = "%"
    VOLUME = "% v/v"
    GRAMS_PER_LITRE = "g/L"
    MILLIGRAMS_PER_LITRE = "mg/L"


class Concentration(Frozen):
    """A concentration or a range of it, in the unit that was written."""

    span: Range
    unit: ConcentrationUnit


class PresentChemical(Frozen):
    """A chemical that corrodes: strength, temperature in °C, and the bath it is mixed in."""

    name: str
    concentration: Concentration | None = None
    temperature: Range | None = None
    bath: str | None = None
    chloride: Concentration | None = None
    rinsed: bool | None = None
    mist: bool | None = None
    ventilated: bool | None = None
    ph: Range | None = None


class Availability(Term):
    """How reliably air is moved, by IEC 60079-10-1."""

    GOOD = "good"
    FAIR = "fair"
    POOR = "poor"


class Presence(Term):
    """Whether there is something of a kind at a place."""

    NONE = "none"
    SOME = "some"


class Ventilation(Frozen):
    """The air that is moved through a place, in m³/h, and what its owner says of it.

    `dead_spaces`: corners and hoods where a light gas gathers; `other_hydrogen`: from chargers,
    electrolysis or lines, beside what the parts here evolve.
    """

    rate: Decimal | None = None
    document: str | None = None
    availability: Availability | None = None
    dead_spaces: Presence | None = None
    other_hydrogen: Presence | None = None


class Place(Frozen):
    """A location of the bill of materials.

    None means not stated; an empty tuple or zero means that the list says `none`. `layer` is the
    dust layer to be expected in metres; `pressure` in Pa, `oxygen` in percent by volume.
    `hybrid_mixtures`: whether gas and dust can form one mixture. `restricted_access`: the public
    is kept out and only qualified persons service the installation.
    """

    name: str
    law: Law
    edition: str | None = None
    title: str | None = None
    area: AreaReading | None = None
    substances: tuple[PresentSubstance, ...] | None = None
    layer: Decimal | None = None
    ambient: Range | None = None
    document: str | None = None
    ingress: str | None = None
    atmosphere: Atmosphere | None = None
    chemicals: tuple[PresentChemical, ...] | None = None
    required_levels: tuple[Level, ...] | None = None
    pressure: Range | None = None
    oxygen: Range | None = None
    hybrid_mixtures: bool | None = None
    restricted_access: bool | None = None
    ventilation: Ventilation | None = None

    @property
    def substances_named(self) -> tuple[PresentSubstance, ...]:
        """The substances, each component of a mixture by its own name and as warm as that."""
        return tuple(
            each
            for one in self.substances or ()
            for each in (
                (one,)
                if one.mixture is None
                else tuple(
                    PresentSubstance(part.name, temperature=one.temperature)
                    for part in one.mixture.components
                )
            )
        )

    def level_asked(self, hazard: Hazard) -> Level | None:
        """The best level that the place states for a hazard; fibres count as dust, mines as gas."""
        levels = self.required_levels or ()
        same = [each for each in levels if (each.hazard is Hazard.GAS) is (hazard is Hazard.GAS)]
        best = min(same, key=lambda each: each.rank, default=None)
        return None if best is None else level_of(hazard, best.rank)
