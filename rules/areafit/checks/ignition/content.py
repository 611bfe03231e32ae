"""How much light metal a material may hold: by its grade's maximum and by what the list states."""

from collections.abc import Iterable
from decimal import Decimal

from areafit.checks.ignition.cite import material_row
from areafit.facts.part import MaterialUse
from areafit.rule import Row
from areafit.tables import Tables
from areafit.tables.materials import Material
from areafit.values import Frozen

_ELEMENTS = {
    "al": "Al", "aluminium": "Al", "aluminum": "Al",
    "mg": "Mg", "magnesium": "Mg",
    "ti": "Ti", "titanium": "Ti",
    "zr": "Zr", "zirconium": "Zr",
}  # fmt: skip
_ALL = frozenset(_ELEMENTS.values())
_HUNDRED = Decimal(100)

Composition = tuple[tuple[str, Decimal], ...]


class Share(Frozen):
    """A content in mass %: what it is at least, and at most. Both are equal if it is known."""

    least: Decimal
    most: Decimal


class Content(Frozen):
    """Al+Mg+Ti+Zr and Mg+Ti+Zr of a material, and the titanium and zirconium in it.

    `known` is False where neither the grade nor a composition says anything: then a share is
    anything from nothing to all, and `nearest` holds known names if no table has this one.
    """

    total: Share
    without_aluminium: Share
    sparks: Share
    known: bool
    rows: tuple[Row, ...] = ()
    nearest: tuple[str, ...] = ()


def content_of(use: MaterialUse, name: str, tables: Tables) -> Content:
    """The content of a material of a part; the more onerous of grade and stated composition.

    An element that a composition leaves out may be as much as the grade allows, or, where the
    grade is not known, as much as the composition leaves open.
    """
    composition = use.composition if name == use.material else None
    key = ("light metal content", name, composition)
    return tables.remembered(key, lambda: _of(name, composition, tables))


def _of(name: str, composition: Composition | None, tables: Tables) -> Content:
    grades = tables.materials(name)
    stated = None if composition is None else _stated(composition)
    by_grade = [_grade(grade) for grade in grades]
    contents = [content for content in by_grade if content is not None]
    if contents and len(contents) == len(by_grade):
        return _spread(contents, _content(stated or {}, Decimal(0)))
    if stated is not None:
        rest = max(Decimal(0), _HUNDRED - sum(dict(composition or ()).values()))
        return _content(stated, Decimal(0) if stated.keys() >= _ALL else rest)
    anything = Share(Decimal(0), _HUNDRED)
    near = () if grades else tables.nearest("materials", name)
    return Content(anything, anything, anything, known=False, nearest=near)


def _stated(composition: Composition) -> dict[str, Decimal]:
    found = ((_ELEMENTS.get(name.strip().casefold()), share) for name, share in composition)
    return {element: share for element, share in found if element is not None}


def _content(stated: dict[str, Decimal], rest: Decimal) -> Content:
    """`rest` may be any of the elements that are not stated."""

    def share(elements: Iterable[str]) -> Share:
        wanted = set(elements)
        least = sum((stated.get(element, Decimal(0)) for element in wanted), Decimal(0))
        return Share(least, least if wanted <= stated.keys() else least + rest)

    return Content(share(_ALL), share(_ALL - {"Al"}), share(("Ti", "Zr")), known=True)


def _grade(grade: Material) -> Content | None:
    total, rest = grade.light_metal_pct_max, grade.mg_ti_zr_pct_max
    if total is None or rest is None:
        return None
    spark = rest if grade.family in ("titanium", "zirconium") else Decimal(0)
    value = f"Al+Mg+Ti+Zr at most {total} %, Mg+Ti+Zr at most {rest} %"
    row = material_row(grade, "light metals", value)
    return Content(
        Share(total, total), Share(rest, rest), Share(spark, spark), known=True, rows=(row,)
    )


def _spread(grades: list[Content], stated: Content) -> Content:
    """From the leanest to the richest grade that a name may mean, not below what is stated."""

    def share(shares: list[Share], own: Share) -> Share:
        least, most = min(s.least for s in shares), max(s.most for s in shares)
        return Share(max(least, own.least), max(most, own.least))

    return Content(
        share([c.total for c in grades], stated.total),
        share([c.without_aluminium for c in grades], stated.without_aluminium),
        share([c.sparks for c in grades], stated.sparks),
        known=True,
        rows=tuple(row for c in grades for row in c.rows),
    )
