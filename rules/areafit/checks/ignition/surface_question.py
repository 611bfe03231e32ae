"""One surface of a part, as far as static charge is concerned."""

from decimal import Decimal

from areafit.checks.ignition.cite import material_row
from areafit.checks.ignition.earth import on_earthed_metal
from areafit.checks.ignition.static_groups import StaticLimits
from areafit.facts.evidence import Condition
from areafit.facts.part import Body, Exposure, Kind, MaterialUse
from areafit.facts.quantity import Dimension
from areafit.rule import Row
from areafit.tables import Tables
from areafit.tables.described import is_seal
from areafit.tables.figures import figure
from areafit.tables.materials import SurfaceClass
from areafit.values import Frozen, Term


class Surface(Term):
    """How a surface carries charge away."""

    CARRIES = "conductive or dissipative"
    FILM = "thin oxide film on metal"
    INSULATES = "insulating"
    DEPENDS = "insulating or not, by filler or moisture"
    UNKNOWN = "not known"


class SurfaceQuestion(Frozen):
    """A surface, the limits of the place, and a specific condition of use about static.

    `resistance` tells that the class rests on a stated value in Ω; lengths in m, area in m²,
    charge in C, voltage in V. `enclosed`: it is no outer surface, or a seal between two faces.
    `metal`: it lies on earthed metal. `nearest` holds known names where no table has this one.
    `own`: the part is structural, so that its designer knows it.
    """

    name: str
    surface: Surface
    limits: StaticLimits
    resistance: Decimal | None = None
    area: Decimal | None = None
    width: Decimal | None = None
    thickness: Decimal | None = None
    metal: bool = False
    framed: bool = False
    charge: Decimal | None = None
    breakdown: Decimal | None = None
    enclosed: bool = False
    condition: Condition | None = None
    rows: tuple[Row, ...] = ()
    nearest: tuple[str, ...] = ()
    own: bool = False


_BY_CLASS = {
    SurfaceClass.CONDUCTIVE: Surface.CARRIES,
    SurfaceClass.DISSIPATIVE: Surface.CARRIES,
    SurfaceClass.INSULATING_FILM: Surface.FILM,
    SurfaceClass.DEPENDS: Surface.DEPENDS,
    SurfaceClass.INSULATING: Surface.INSULATES,
}
_WORST_FIRST = (
    Surface.INSULATES,
    Surface.DEPENDS,
    Surface.FILM,
    Surface.CARRIES,
)


def surface_question(
    use: MaterialUse,
    body: Body,
    tables: Tables,
    limits: StaticLimits,
    condition: Condition | None,
) -> SurfaceQuestion:
    """The question about one material of a part."""
    key = ("surface", use.material, use.surface_resistance)
    surface, rows, nearest = tables.remembered(key, lambda: _surface(use, tables))
    return SurfaceQuestion(
        use.material,
        surface,
        limits,
        use.surface_resistance,
        use.surface_area,
        use.width,
        use.layer_thickness,
        on_earthed_metal(use, body, tables),
        use.framed is True,
        use.charge,
        use.breakdown_voltage,
        use.exposure is Exposure.ENCLOSED or _between_faces(use),
        condition,
        rows,
        nearest,
        is_own(body),
    )


def is_own(body: Body) -> bool:
    """Whether a part is structural and nothing else: made to a drawing of one's own."""
    return body.equipment.kinds == {Kind.STRUCTURAL}


def _between_faces(use: MaterialUse) -> bool:
    """Whether it is a seal, of which no surface is stated: it lies between the faces it seals."""
    sized = (use.surface_area, use.width, use.charge, use.form)
    if use.component is None or any(size is not None for size in sized):
        return False
    return is_seal(use.component)


def _surface(use: MaterialUse, tables: Tables) -> tuple[Surface, tuple[Row, ...], tuple[str, ...]]:
    """The class by the stated resistance, else the worst that the material's name may mean.

    With it the rows, and the nearest known names where it is in no table.
    """
    if use.surface_resistance is not None:
        limit = figure("surface resistance").amount(Dimension.RESISTANCE)
        carries = use.surface_resistance <= limit
        return (Surface.CARRIES if carries else Surface.INSULATES), (), ()
    grades = tables.materials(use.material)
    if not grades:
        return Surface.UNKNOWN, (), tables.nearest("materials", use.material)
    found = {_BY_CLASS[grade.surface] for grade in grades}
    rows = tuple(material_row(grade, "surface", grade.surface.value) for grade in grades)
    return next(each for each in _WORST_FIRST if each in found), rows, ()
