"""What to write instead of a name that a look-up does not know."""

from typing import TYPE_CHECKING

from areafit.tables.classes import SharedName
from areafit.tables.materials import Material
from areafit.tables.names import key
from areafit_cli.faults import CallError

if TYPE_CHECKING:
    from areafit.tables import Tables

_SHOWN = 3
_START = 3  # letters; fewer start too many names


def no_substance(name: str, tables: "Tables") -> CallError:
    """The error for a name that is neither a substance nor a dust."""
    near = tables.nearest("substances", name) + tables.nearest("dusts", name)
    if tables.chemicals(name):
        return _chemical(name)
    hint = f"near to it: {', '.join(near)}" if near else "see `areafit table substances`"
    return CallError(f"no substance {name!r} is known; {hint}")


def no_material(name: str, tables: "Tables") -> CallError:
    """The error for a name that is no material; the start of a name serves as a hint too."""
    if tables.chemicals(name):
        return _chemical(name)
    near = _starting(name, tables) or tables.nearest("materials", name)
    if near:
        return CallError(f"no material {name!r} is known; near to it: {', '.join(near)}")
    return CallError(
        f"no material {name!r} is known; write a grade or a generic name, such as 316L, FKM or "
        "POM, in place of a brand; `areafit table materials` lists them"
    )


def no_chemical(name: str, tables: "Tables") -> CallError:
    """The error for a name that is no chemical."""
    near = tables.nearest("chemicals", name)
    hint = f"near to it: {', '.join(near)}" if near else "see `areafit table chemicals`"
    return CallError(f"no chemical {name!r} is known; {hint}, or write its CAS number")


def _chemical(name: str) -> CallError:
    return CallError(
        f"{name!r} is a chemical: judge a material against it by `areafit material NAME --chemical "
        f'"{name}, 2 %, 60 °C"`; `areafit table chemicals` lists what is known'
    )


def _starting(text: str, tables: "Tables") -> tuple[str, ...]:
    """The shortest names of materials that start with a text."""
    start = key(text)
    if len(start) < _START:
        return ()
    names = [
        name
        for row in tables.rows("materials", Material)
        for name in (row.id, row.name, *row.names)
    ]
    names += [
        row.name for row in tables.rows("shared_names", SharedName) if row.table == "materials"
    ]
    found = {key(name): name for name in names if key(name).startswith(start)}
    return tuple(found[each] for each in sorted(found, key=lambda one: (len(one), one))[:_SHOWN])
