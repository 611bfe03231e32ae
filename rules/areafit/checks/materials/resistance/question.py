"""What `chemical-resistance` asks of one material of a part."""

from collections.abc import Iterator
from functools import partial
from itertools import islice

from areafit.checks.materials.strain import strained
from areafit.corrosion.outcome import Outcome, decide
from areafit.corrosion.rating import Rated, rate
from areafit.demands import Demands
from areafit.demands.exposure import Met
from areafit.demands.meeting import Meeting, meetings, strangers
from areafit.facts.part import Exposure, MaterialUse
from areafit.frozen import frozen
from areafit.rule import Ask
from areafit.suggest import better, keeps_charge
from areafit.tables.families import COATING
from areafit.tables.materials import Material


@frozen
class Unknown:
    """A name that no table answers to: of the material, of a chemical, or one in `to`."""

    what: str
    name: str
    nearest: tuple[str, ...]


@frozen
class NoExposure:
    """The part does not say how it meets the chemicals of its place."""

    material: str


@frozen
class NoMixture:
    """Chemicals mixed in one bath, and no row for what they become."""

    material: str
    mixture: str


@frozen
class NoVapour:
    """A flammable substance that is known as such, and not by what it does to materials."""

    material: str
    substance: str


@frozen
class Resistance:
    """One material in one chemical.

    `rated` holds every material and chemical that the names may mean, `if_mist` the same where
    mist is not ruled out, `below` the substrate of a coating (None: not stated). `better` are
    materials that would pass.
    """

    material: str
    rated: tuple[Rated, ...]
    if_mist: tuple[Rated, ...] = ()
    coating: bool = False
    below: tuple[Rated, ...] | None = ()
    better: tuple[str, ...] = ()


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
        yield Ask(Unknown("chemical of this place", name, ()), "to", use.component)
    if use.exposure is None and any(not c.fume_only for c in demands.chemicals):
        yield Ask(NoExposure(use.material), "exposure", use.component)
    below = () if use.substrate is None else tables.materials(use.substrate)
    strain = tuple(strained(use, one) for one in (*candidates, *below))
    for meeting in meetings(use, demands):
        key = ("resistance", use.material, use.substrate, strain, meeting, demands.classified)
        yield Ask(
            tables.remembered(key, partial(_question, use, candidates, meeting, demands)),
            "",
            use.component,
        )


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
    rated = _rated(use, candidates, meeting.mets, demands)
    coating = any(one.family == COATING for one in candidates)
    return Resistance(
        use.material,
        rated,
        _rated(use, candidates, meeting.if_mist, demands),
        coating,
        _below(use, meeting.mets, demands) if coating else (),
        _better(use, candidates, rated, meeting.mets, demands),
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


def _better(
    use: MaterialUse,
    candidates: tuple[Material, ...],
    rated: tuple[Rated, ...],
    mets: tuple[Met, ...],
    demands: Demands,
) -> tuple[str, ...]:
    if all(decide(one).outcome is Outcome.SUITABLE for one in rated):
        return ()
    first, strain = candidates[0], strained(use, candidates[0])
    key = ("better", first.id, mets, strain, demands.classified)
    return demands.tables.remembered(key, lambda: _search(first, mets, demands, strained=strain))


def _search(
    material: Material, mets: tuple[Met, ...], demands: Demands, *, strained: bool | None
) -> tuple[str, ...]:
    tables = demands.tables
    found = tuple(islice(better(material, mets, tables, strained=strained), 3))
    if demands.classified and all(keeps_charge(one) for one in found):
        # The chemical cure often brings the static problem: name one that cures both.
        cures = better(material, mets, tables, dissipative=True, strained=strained)
        found += tuple(islice(cures, 1))
    return tuple(_named(one, demands) for one in found)


def _named(material: Material, demands: Demands) -> str:
    charged = demands.classified and keeps_charge(material)
    return f"{material.name} (may keep a charge: see static-surface)" if charged else material.name
