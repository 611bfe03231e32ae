"""What `chemical-resistance` asks of one material of a part."""

from collections.abc import Iterator
from functools import lru_cache, partial

from areafit.checks.materials.resistance.better import NONE, Better, better_than
from areafit.checks.materials.strain import called_spring, strained
from areafit.corrosion.outcome import Outcome, decide
from areafit.corrosion.rating import Rated, rate
from areafit.demands import Demands
from areafit.demands.exposure import Met
from areafit.demands.meeting import Meeting, meetings, strangers
from areafit.facts.part import Exposure, MaterialUse
from areafit.rule import Ask
from areafit.tables.families import COATING
from areafit.tables.materials import Material
from areafit.tables.names import nearest
from areafit.values import Frozen, replace


class Unknown(Frozen):
    """A name that no table answers to: of the material, of a chemical, or one in `to`."""

    what: str
    name: str
    nearest: tuple[str, ...]


class NoExposure(Frozen):
    """The part does not say how it meets the chemicals of its place."""

    material: str


class NoMixture(Frozen):
    """Chemicals mixed in one bath, and no row for what they become."""

    material: str
    mixture: str


class NoVapour(Frozen):
    """A flammable substance that is known as such, and not by what it does to materials."""

    material: str
    substance: str


class Resistance(Frozen):
    """One material in one chemical.

    `rated` holds every material and chemical that the names may mean, `if_mist` the same where
    mist is not ruled out, `below` the substrate of a coating (None: not stated). `better` names
    materials that would pass.
    """

    material: str
    rated: tuple[Rated, ...]
    if_mist: tuple[Rated, ...] = ()
    below: tuple[Rated, ...] | None = ()
    better: Better = NONE

    @property
    def suits(self) -> bool:
        """Whether the material stands the chemical, whatever the names mean."""
        return all(decide(one).outcome is Outcome.SUITABLE for one in self.rated)


Question = Unknown | NoExposure | NoMixture | NoVapour | Resistance


def ask(use: MaterialUse, demands: Demands) -> Iterator[Ask[Question]]:
    """One question for each chemical that the material meets, and one for each thing unknown."""
    if not demands.chemicals:
        return
    tables = demands.tables
    candidates = tables.materials(use.material)
    if not candidates:
        near = tables.nearest("materials", use.material)
        yield Ask(Unknown("material", use.material, near), "material", use.component)
        return
    for name in strangers(use, demands):
        near = nearest(name, (c.stated.name for c in demands.chemicals))
        yield Ask(Unknown("chemical of this place", name, near), "to", use.component)
    if use.exposure is None and any(not c.fume_only for c in demands.chemicals):
        yield Ask(NoExposure(use.material), "exposure", use.component)
    read = MaterialUse(
        use.material,
        exposure=use.exposure,
        to=use.to,
        substrate=use.substrate,
        stressed=True if called_spring(use) else use.stressed,
        breathes=use.breathes,
    )
    for question in _questions(read, demands):
        yield Ask(question, "", use.component)


@lru_cache(maxsize=4096)  # many components are of one material and exposure
def _questions(use: MaterialUse, demands: Demands) -> tuple[Question, ...]:
    return tuple(_asked_of(use, demands))


def _asked_of(use: MaterialUse, demands: Demands) -> Iterator[Question]:
    tables = demands.tables
    candidates = tables.materials(use.material)
    below = () if use.substrate is None else tables.materials(use.substrate)
    strain = tuple(strained(use, one) for one in (*candidates, *below))
    met = meetings(use, demands)
    for meeting in met:
        key = ("resistance", use.material, use.substrate, strain, meeting)
        question = tables.remembered(key, partial(_question, use, candidates, meeting, demands))
        if isinstance(question, Resistance) and not question.suits:
            cures = better_than(use, candidates[0], meeting, met, demands)
            question = replace(question, better=cures)
        yield question


def _question(
    use: MaterialUse, candidates: tuple[Material, ...], meeting: Meeting, demands: Demands
) -> Question:
    if not meeting.mets:
        if meeting.mixture:
            return NoMixture(use.material, meeting.name)
        if demands.tables.substances(meeting.name):
            return NoVapour(use.material, meeting.name)
        near = demands.tables.nearest("chemicals", meeting.name)
        return Unknown("chemical", meeting.name, near)
    coating = any(one.family == COATING for one in candidates)
    return Resistance(
        use.material,
        _rated(use, candidates, meeting.mets, demands),
        _rated(use, candidates, meeting.if_mist, demands),
        _below(use, meeting.mets, demands) if coating else (),
    )


def _rated(
    use: MaterialUse, candidates: tuple[Material, ...], mets: tuple[Met, ...], demands: Demands
) -> tuple[Rated, ...]:
    return tuple(
        rate(material, met, demands.tables, strained=strained(use, material))
        for material in candidates
        for met in mets
    )


def _below(use: MaterialUse, mets: tuple[Met, ...], demands: Demands) -> tuple[Rated, ...] | None:
    """The substrate, which pinholes and edges expose once a coating is immersed."""
    if mets[0].exposure is not Exposure.IMMERSED:
        return ()
    if use.substrate is None:
        return None
    return _rated(use, demands.tables.materials(use.substrate), mets, demands) or None
