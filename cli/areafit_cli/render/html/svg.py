"""Figures drawn in the page itself: no script, no file, nothing fetched.

A figure says in words what it shows; its shapes differ in outline and dash, so that print without
colour reads the same. Colours come from the style sheet by class.
"""

from collections.abc import Iterable
from decimal import Decimal

from areafit_cli.render.html import text

Number = int | float | Decimal


def drawing(width: int, height: int, said: str, shapes: Iterable[str]) -> str:
    """A figure with what it shows in words."""
    return (
        f'<svg class="figure" viewBox="0 0 {width} {height}" width="{width}" height="{height}" '
        f'role="img" aria-label="{text(said)}">{"".join(shapes)}</svg>'
    )


def bar(share: float, kind: str) -> str:
    """A bar beside its number, which says the same: up to a fixed length, at least a stroke."""
    if share <= 0:
        return ""
    length = max(round(share * 58), 2)
    return (
        f'<svg class="bar" width="60" height="9" viewBox="0 0 60 9" aria-hidden="true">'
        f"{rectangle(1, 1, length, 7, kind)}</svg>"
    )


def rectangle(x: Number, y: Number, width: Number, height: Number, kind: str) -> str:
    """A rectangle; its kind says how it is filled and drawn."""
    size = f'width="{_plain(width)}" height="{_plain(height)}"'
    return f'<rect class="{text(kind)}" x="{_plain(x)}" y="{_plain(y)}" {size}/>'


def line(x1: Number, y1: Number, x2: Number, y2: Number, kind: str) -> str:
    """A straight line."""
    start, end = f'x1="{_plain(x1)}" y1="{_plain(y1)}"', f'x2="{_plain(x2)}" y2="{_plain(y2)}"'
    return f'<line class="{text(kind)}" {start} {end}/>'


def curve(points: Iterable[tuple[Number, Number]], kind: str) -> str:
    """A line through points."""
    through = " ".join(f"{_plain(x)},{_plain(y)}" for x, y in points)
    return f'<polyline class="{text(kind)}" points="{through}"/>'


def dot(x: Number, y: Number) -> str:
    """A point."""
    return f'<circle class="dot" cx="{_plain(x)}" cy="{_plain(y)}" r="3"/>'


def words(x: Number, y: Number, said: str, end: str = "start") -> str:
    """A text that begins, ends or has its middle at a point."""
    at = f'x="{_plain(x)}" y="{_plain(y)}" text-anchor="{text(end)}"'
    return f"<text {at}>{text(said)}</text>"


def _plain(value: Number) -> str:
    """A length with at most two digits behind the point, the same on every machine."""
    return f"{float(value):.2f}".rstrip("0").rstrip(".")
