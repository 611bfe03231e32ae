"""A purchase specification in plain text, to be pasted into an order."""

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from areafit_cli.render import need_words as words

if TYPE_CHECKING:
    from areafit.answers.need import HazardNeed, Need
    from areafit.answers.suiting import ExposureNeed
    from areafit_cli.render.paper import Paper

_COLUMN = 11


def lines(needs: Iterable["Need"], paper: "Paper") -> Iterator[str]:
    """One block a place."""
    for number, need in enumerate(needs):
        if number:
            yield "\n"
        yield from paper.wrap(paper.paint(words.title(need), "title"))
        for label, text in words.facts(need):
            yield from paper.labelled(label, text, 2, _COLUMN)
        for hazard in need.hazards:
            yield from _hazard(hazard, paper)
        if not need.hazards:
            yield "\n  No classified area is declared: no marking is asked for.\n"
        yield from _open(need, paper)
        if words.no_material(need):
            yield f"\n  {words.no_material(need)}\n"
        for exposure in words.told(need):
            yield from _exposure(exposure, paper)
        if any(exposure.suits or exposure.limited for exposure in need.exposures):
            yield "\n"
            yield from paper.wrap(words.RULES_LEFT, "  ", "  ")
    yield "\n"
    yield from paper.wrap(words.DEFERS)


def _hazard(hazard: "HazardNeed", paper: "Paper") -> Iterator[str]:
    yield paper.heading(f"  {hazard.hazard}: {'; '.join(hazard.area)}")
    for label, text in words.surface(hazard):
        yield from paper.labelled(label, text, 2, _COLUMN)
    for system, markings in words.by_system(hazard):
        yield from paper.wrap(f"Marked, {system}, with one of:", "  ", "  ")
        for marking in markings:
            yield from paper.wrap(marking, "  - ", "    ")
    for text in words.evidence(hazard):
        yield from paper.labelled("with", text, 2, _COLUMN)


def _open(need: "Need", paper: "Paper") -> Iterator[str]:
    points = [*need.open, *(point for hazard in need.hazards for point in hazard.open)]
    if points:
        yield paper.heading("  open points")
        for point in points:
            yield from paper.wrap(point, "  - ", "    ")


def _exposure(exposure: "ExposureNeed", paper: "Paper") -> Iterator[str]:
    yield paper.heading(f"  materials, {exposure.exposure}")
    if exposure.unknown:
        text = f"no data: {', '.join(exposure.unknown)}; no material can be named"
        yield from paper.wrap(text, "  ", "  ")
    for label, suits in (
        ("suitable", exposure.suits),
        ("with a condition", exposure.limited),
        ("to avoid", exposure.avoid),
    ):
        if suits:
            yield f"  {label}:\n"
        for condition, families in words.by_condition(suits):
            if condition:
                yield from paper.wrap(condition, "  * ", "    ")
            for text in families:
                yield from paper.wrap(text, "  - " if not condition else "    - ", "      ")
    if exposure.no_data:
        yield f"  {exposure.no_data} more materials have no data for all chemicals here.\n"
