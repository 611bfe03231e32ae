"""The purchase specification of a place as label and text, for every format of it."""

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from areafit.answers.need import CHEMICALS_OPEN
from areafit_cli.render.wording import joined

if TYPE_CHECKING:
    from areafit.answers.need import ExposureNeed, HazardNeed, Need, Suit

RULES_LEFT = (
    "Contacts with other metals, light metals, surfaces that may charge and the temperature of "
    "the part are judged by `areafit check` on the part itself."
)
DEFERS = (
    "This is drawn from what is stated for the place. The local code, the authority having "
    "jurisdiction and the area classification outrank it; each delivered part is to be checked."
)
_NO_CHEMICAL = "There is no chemical here: no material is asked for."


def no_material(need: "Need") -> str:
    """Why no material is told though that was asked; empty where one is, or an open point says it.

    What is not stated is not none.
    """
    silent = not need.exposures or notable(need) or CHEMICALS_OPEN in need.open
    return "" if silent else _NO_CHEMICAL


def notable(need: "Need") -> list["ExposureNeed"]:
    """The exposures of which there is anything to tell."""
    return [
        one
        for one in need.exposures
        if one.unknown or one.suits or one.limited or one.avoid or one.no_data
    ]


def title(need: "Need") -> str:
    """The place by name and title."""
    return joined(need.place, need.title)


def facts(need: "Need") -> Iterator[tuple[str, str]]:
    """What the place is, as far as it is stated."""
    edition = need.edition or "edition not stated"
    rows = (
        ("rules", f"{need.law} {edition}"),
        ("area", need.area),
        ("from", need.document),
        ("present", ", ".join(need.substances)),
        ("chemicals", ", ".join(need.chemicals)),
        ("ambient", need.ambient and f"certified for {need.ambient}"),
        ("enclosure", need.ingress and f"at least {need.ingress}"),
    )
    yield from ((label, text) for label, text in rows if text)
    yield from liquids(need)


def liquids(need: "Need", *, method: bool = True) -> Iterator[tuple[str, str]]:
    """What each mixture of liquids gives off there, and how that was computed."""
    for one in need.liquids:
        by = f" ({one.computed_by})" if method and one.computed_by else ""
        yield "liquid", f"{one.liquid}: {one.answer}{by}"


def surface(hazard: "HazardNeed") -> Iterator[tuple[str, str]]:
    """What a hazard asks of every surface and enclosure."""
    if hazard.surface:
        yield "surfaces", f"limit {hazard.surface}"
    if hazard.ingress:
        yield "enclosure", f"by type of protection at least {'; '.join(hazard.ingress)}"


def by_system(hazard: "HazardNeed") -> Iterator[tuple[str, list[str]]]:
    """The accepted markings of each system, each with clause and note."""
    systems: dict[str, list[str]] = {}
    for option in hazard.options:
        note = f"; {option.note}" if option.note else ""
        systems.setdefault(option.system, []).append(f"{option.text} ({option.clause}{note})")
    yield from systems.items()


def evidence(hazard: "HazardNeed") -> list[str]:
    """What must come with the part."""
    return list(dict.fromkeys(option.evidence for option in hazard.options))


def by_condition(suits: Iterable["Suit"]) -> Iterator[tuple[str, list[str]]]:
    """What must be accepted, or why to avoid; below it the materials, one text a family."""
    found: dict[tuple[str, ...], dict[str, list[str]]] = {}
    for suit in suits:
        found.setdefault(suit.conditions, {}).setdefault(suit.family, []).append(suit.material)
    for conditions, families in found.items():
        told = [f"{family}: {', '.join(names)}" for family, names in families.items()]
        yield "; ".join(conditions), told


def open_points(need: "Need") -> list[str]:
    """What is not known yet of the place and its hazards."""
    return [*need.open, *(point for hazard in need.hazards for point in hazard.open)]


def fitness(exposure: "ExposureNeed") -> "tuple[tuple[str, tuple[Suit, ...]], ...]":
    """The materials by how they fare, the best first."""
    return (
        ("suitable", exposure.suits),
        ("with a condition", exposure.limited),
        ("to avoid", exposure.avoid),
    )
