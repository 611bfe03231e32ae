"""A purchase specification in Markdown."""

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from areafit_cli.render import need_words as words
from areafit_cli.render.as_markdown import escape

if TYPE_CHECKING:
    from areafit.answers.need import HazardNeed, Need
    from areafit.answers.suiting import ExposureNeed


def lines(needs: Iterable["Need"]) -> Iterator[str]:
    """One section a place."""
    for need in needs:
        yield f"## {escape(words.title(need))}\n\n"
        for label, text in words.facts(need):
            yield f"- {label}: {escape(text)}\n"
        for hazard in need.hazards:
            yield from _hazard(hazard)
        if not need.hazards:
            yield "\nNo classified area is declared: no marking is asked for.\n"
        points = [*need.open, *(point for hazard in need.hazards for point in hazard.open)]
        if points:
            yield "\n### Open points\n\n"
            yield from (f"- [ ] {escape(point)}\n" for point in points)
        if words.no_material(need):
            yield f"\n{escape(words.no_material(need))}\n"
        for exposure in words.told(need):
            yield from _exposure(exposure)
        yield "\n"
    yield f"{escape(words.RULES_LEFT)}\n\n{escape(words.DEFERS)}\n"


def _hazard(hazard: "HazardNeed") -> Iterator[str]:
    yield f"\n### {escape(hazard.hazard.capitalize())}: {escape('; '.join(hazard.area))}\n\n"
    for label, text in words.surface(hazard):
        yield f"- {label}: {escape(text)}\n"
    for text in words.evidence(hazard):
        yield f"- with: {escape(text)}\n"
    for system, markings in words.by_system(hazard):
        yield f"\nMarked, {escape(system)}, with one of:\n\n"
        yield from (f"- {escape(marking)}\n" for marking in markings)


def _exposure(exposure: "ExposureNeed") -> Iterator[str]:
    yield f"\n### Materials, {escape(exposure.exposure)}\n\n"
    if exposure.unknown:
        yield f"No data: {escape(', '.join(exposure.unknown))}; no material can be named.\n"
        return
    yield "| fitness | why | materials |\n| --- | --- | --- |\n"
    for label, suits in (
        ("suitable", exposure.suits),
        ("with a condition", exposure.limited),
        ("to avoid", exposure.avoid),
    ):
        for condition, families in words.by_condition(suits):
            yield f"| {label} | {escape(condition)} | {escape('; '.join(families))} |\n"
    yield f"\n{exposure.no_data} more materials have no data for all chemicals here.\n"
