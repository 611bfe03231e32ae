"""`areafit substance`: what the tables say of a gas, vapour or dust, and what it asks for."""

from collections.abc import Iterator, Mapping
from decimal import Decimal
from typing import TYPE_CHECKING, Annotated

import typer

import areafit
from areafit.demands import derive
from areafit.facts.groups import GroupScheme
from areafit.facts.place import Area, AreaReading, AreaSystem, Place, PresentSubstance
from areafit.facts.protection import Hazard, Law
from areafit.tables.area import ClassScheme, TemperatureClass
from areafit.tables.substances import Dust
from areafit_cli import terminal, words
from areafit_cli.errors import CallError, is_chemical
from areafit_cli.options import AnswerFormat
from areafit_cli.render.json_text import fields
from areafit_cli.render.paper import block, show

if TYPE_CHECKING:
    from areafit.tables import Tables
    from areafit.tables.substances import Substance

EXAMPLE = "areafit substance toluene"
_ASKED = "asks_for"
_UNITS = {
    "autoignition": " °C",
    "cloud": " °C",
    "flash_point": " °C",
    "layers": " °C",
    "lower_limit": " % by volume",
    "mesg": " mm",
    "upper_limit": " % by volume",
}
_LAYER = Decimal("0.005")  # the layer that IEC 60079-14:2013, 5.6.3 takes as its base, in metres
_NEC_ONLY = frozenset({GroupScheme.DIVISION_GAS, GroupScheme.DIVISION_DUST})
_AREAS = {
    (Law.IEC, Hazard.GAS): Area(AreaSystem.ZONE, Hazard.GAS, zone=1),
    (Law.IEC, Hazard.DUST): Area(AreaSystem.ZONE, Hazard.DUST, zone=21),
    (Law.NEC, Hazard.GAS): Area(AreaSystem.DIVISION, Hazard.GAS, hazard_class="I", division=1),
    (Law.NEC, Hazard.DUST): Area(AreaSystem.DIVISION, Hazard.DUST, hazard_class="II", division=1),
}


def command(
    name_words: Annotated[
        list[str], typer.Argument(metavar="NAME...", help="Name, alias, CAS number or id.")
    ],
    *,
    format_: Annotated[AnswerFormat, typer.Option("--format")] = AnswerFormat.TEXT,
) -> None:
    """Tell the data of a gas, vapour or dust, and the group and temperature class it asks for."""
    name = " ".join(name_words)
    tables = areafit.Tables.shipped()
    found: tuple[Substance | Dust, ...] = (*tables.substances(name), *tables.dusts(name))
    if not found:
        raise _no_substance(name, tables)
    data = [as_data(one, tables) for one in found]
    if format_ is AnswerFormat.JSON:
        terminal.write_json({"name": name, "substances": data})
    else:
        terminal.write(line for one in data for line in _lines(one))


def as_data(found: "Substance | Dust", tables: "Tables") -> dict[str, object]:
    """The row with its cited values, and what it asks for under each code."""
    asks = [_asks(found, law, tables) for law in (Law.IEC, Law.NEC)]
    return {**fields(found), "asks_for": [one for one in asks if one]}


def _no_substance(name: str, tables: "Tables") -> CallError:
    """The error for a name that is neither a substance nor a dust."""
    near = tables.nearest("substances", name) + tables.nearest("dusts", name)
    if tables.chemicals(name):
        return is_chemical(name)
    hint = f"near to it: {', '.join(near)}" if near else "see `areafit table substances`"
    return CallError(f"no substance {name!r} is known; {hint}")


def _asks(found: "Substance | Dust", law: Law, tables: "Tables") -> dict[str, object] | None:
    """Group, highest surface temperature and temperature class; None where nothing is asked."""
    dusty = isinstance(found, Dust)
    area = _AREAS[law, Hazard.DUST if dusty else Hazard.GAS]
    place = Place(
        "here",
        law,
        area=AreaReading("", (area,)),
        substances=(PresentSubstance(found.id),),
        layer=_LAYER if dusty else None,
        chemicals=(),
    )
    (demand,) = derive(
        place, tables, words.today()
    ).hazards  # no document is judged: any date serves
    limit = min(demand.limits, key=lambda one: one.maximum, default=None)
    groups = {
        each.scheme.value: sorted({need.group.value for need in each.needs})
        for each in demand.groups
        if each.needs and (law is Law.NEC or each.scheme not in _NEC_ONLY)
    }
    return {
        "code": law.value,
        "groups": groups,
        "surface_below_c": None if limit is None else limit.maximum,
        "limit_itself_allowed": None if limit is None else limit.inclusive,
        "temperature_class": None
        if limit is None
        else _class(limit.maximum, law, tables, inclusive=limit.inclusive),
        "because": None if limit is None else limit.cause,
        "clause": None if limit is None else limit.clause,
        "dust_layer_mm": 5 if dusty else None,
        "open": [gap.message for each in demand.groups if each.needs for gap in each.gaps]
        + [gap.message for gap in demand.temperature_gaps],
    }


def _class(limit: Decimal, law: Law, tables: "Tables", *, inclusive: bool) -> str | None:
    """The hottest class whose maximum stays below the limit; None where no class does."""
    fitting = [
        row
        for row in tables.rows("temperature_classes", TemperatureClass)
        if (row.scheme is ClassScheme.BOTH or law is Law.NEC)
        and (row.max_c < limit or (inclusive and row.max_c == limit))
    ]
    best = max(fitting, key=lambda row: row.max_c, default=None)
    return best.name if best else None


def _lines(data: Mapping[str, object]) -> Iterator[str]:
    """What it asks for first, then its identity, then every quantity with all its sources."""
    paper = terminal.paper()
    cited = {key: _entries(value) for key, value in data.items() if key != _ASKED}
    yield f"{paper.paint(str(data['name']), 'title')}\n"
    yield from block({"asks for": [_asked(one) for one in _entries(data[_ASKED])]}, paper)
    yield from block(data, paper, skip=("name", _ASKED, *(key for key in cited if cited[key])))
    for key, entries in cited.items():
        if entries:
            yield from paper.labelled(key.replace("_", " "), _cited(key, entries), 2, 22)


def _asked(one: Mapping[str, object]) -> dict[str, object]:
    """What is asked for, the limit in words that say whether it may be reached."""
    told: dict[str, object] = {}
    for key, value in one.items():
        if key == "surface_below_c" and value is not None:
            limit = f"{show(value)} °C"
            kept = one["limit_itself_allowed"]
            told["stay at or below" if kept else "stay below"] = (
                limit if kept else f"{limit} ({limit} itself is too hot)"
            )
        elif key != "limit_itself_allowed":
            told[key] = value
    return told


def _entries(value: object) -> list[Mapping[str, object]]:
    """The cited values of a field: one, several or none."""
    found = value if isinstance(value, list) else [value]
    return [one for one in found if isinstance(one, Mapping)]


def _cited(key: str, entries: list[Mapping[str, object]]) -> str:
    """Every value of one quantity with its source, a remark that several share told once."""
    notes: dict[str, list[str]] = {}
    for entry in entries:
        notes.setdefault(str(entry["note"] or ""), []).append(_value(key, entry))
    return "; ".join(
        " and ".join(values) + (f": {note}" if note else "") for note, values in notes.items()
    )


def _value(key: str, entry: Mapping[str, object]) -> str:
    figure = show(entry["value"])
    told = [
        figure + _UNITS.get(key, "") if figure else "",
        show(entry.get("state")),
        f"layer of {show(entry['thickness_mm'])} mm" if entry.get("thickness_mm") else "",
        f"({entry['source_id']}, {entry['locator']}; {entry['basis']})",
    ]
    return " ".join(filter(None, told))
