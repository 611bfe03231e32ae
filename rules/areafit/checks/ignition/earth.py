"""Whether the metal of a part is earthed, as far as the list says."""

from decimal import Decimal

from areafit.facts.part import Body, MaterialUse
from areafit.facts.quantity import Dimension
from areafit.tables import Tables
from areafit.tables.figures import figure
from areafit.tables.materials import SurfaceClass

_EARTHED = ("earthed", "grounded", "bonded")


def earth_limit() -> Decimal:
    """The largest resistance to earth, in Ω, that carries static charge away."""
    return figure("earth resistance").amount(Dimension.RESISTANCE)


def earthed(body: Body) -> bool | None:
    """Whether the part is earthed; None where nothing is said, False where facts contradict."""
    measured = None
    if body.resistance_to_earth is not None:
        measured = body.resistance_to_earth <= earth_limit()
    if body.bonded is False or measured is False:
        return False
    return True if body.bonded or measured else None


def on_earthed_metal(use: MaterialUse, body: Body, tables: Tables) -> bool:
    """Whether a layer is said to lie on earthed metal, and the part is not said to be isolated."""
    path = earthed(body)
    if path is False:
        return False
    if use.backing is not None:
        said = backed_by_metal(use, tables)
        return said and (calls_it_earthed(use) or path is True)
    under = use.substrate is not None and _conducts(use.substrate, tables)
    return under and path is True


def backed_by_metal(use: MaterialUse, tables: Tables) -> bool:
    """Whether what the layer lies on is said to be metal."""
    if use.backing is None:
        return False
    return "metal" in use.backing.casefold() or _conducts(use.backing, tables)


def calls_it_earthed(use: MaterialUse) -> bool:
    """Whether the list calls what the layer lies on earthed."""
    words = (use.backing or "").casefold().split()
    return any(word in words for word in _EARTHED)


def _conducts(name: str, tables: Tables) -> bool:
    grades = tables.materials(name)
    return bool(grades) and all(grade.surface is SurfaceClass.CONDUCTIVE for grade in grades)
