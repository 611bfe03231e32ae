"""`areafit substance`: what the tables say of a gas, vapour or dust, and what it asks for."""

from collections.abc import Iterator, Mapping
from decimal import Decimal
from typing import TYPE_CHECKING, Annotated

import typer

import areafit
from areafit.demands import derive
from areafit.facts.groups import GroupScheme
from areafit.facts.place import (
    Area,
    AreaReading,
    AreaSystem,
    Mixture,
    Place,
    PresentSubstance,
)
from areafit.facts.protection import Hazard, Law
from areafit.facts.quantity import Dimension
from areafit.tables.area import ClassScheme, TemperatureClass
from areafit_cli import terminal, words
from areafit_cli.errors import CallError, is_chemical
from areafit_cli.options import AnswerFormat, FullOption
from areafit_cli.render.json_text import fields
from areafit_cli.render.paper import block, show

if TYPE_CHECKING:
    from areafit.tables import Tables
    from areafit.tables.substances import Dust, Substance

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
    temperature: Annotated[
        str | None,
        typer.Option(help="How warm a mixture is: 40 °C.", metavar="TEXT"),
    ] = None,
    full: FullOption = False,
    format_: Annotated[AnswerFormat, typer.Option("--format")] = AnswerFormat.TEXT,
) -> None:
    """Tell the data of a gas, vapour or dust, and the group and temperature class it asks for.

    Of a mixture of liquids, "isopropanol 15 %, water 85 %", it computes the flash point.
    """
    name = " ".join(name_words)
    tables = areafit.Tables.shipped()
    mixed = words.mixture(name)
    if mixed is not None:
        _tell_mixture(mixed, temperature, format_, tables)
        return
    if temperature is not None:
        raise CallError(
            "--temperature is for a mixture; write shares: 'isopropanol 15 %, water 85 %'"
        )
    found: tuple[Substance | Dust, ...] = (*tables.substances(name), *tables.dusts(name))
    if not found:
        raise _no_substance(name, tables)
    data = [as_data(one, tables) for one in found]
    if format_ is AnswerFormat.JSON:
        terminal.write_json({"name": name, "substances": data})
    else:
        tell = _lines if full else _short
        terminal.write(line for one in data for line in tell(one))


def as_data(found: "Substance | Dust", tables: "Tables") -> dict[str, object]:
    """The row with its cited values, and what it asks for under each code."""
    return {**fields(found), "asks_for": _asked_for(PresentSubstance(found.id), tables)}


def _tell_mixture(
    mixed: Mixture, temperature: str | None, format_: AnswerFormat, tables: "Tables"
) -> None:
    for one in mixed.components:
        if not any(
            known(one.name) for known in (tables.substances, tables.dusts, tables.chemicals)
        ):
            raise _no_substance(one.name, tables)
    data = of_mixture(mixed, temperature, tables)
    if format_ is AnswerFormat.JSON:
        terminal.write_json(data)
        return
    paper = terminal.paper()
    asks = {"asks for": [_asked(one) for one in _entries(data[_ASKED])]}
    less = [f"{part['what']}: {show(part['value'])}" for part in _entries(data["taken_off"])]
    computed = _entries(data["computed_by"])
    terminal.write(
        (
            *paper.wrap(paper.paint(str(data["answer"]), "title")),
            *(paper.wrap(str(data["beside"]), "  ", "  ") if data["beside"] else ()),
            *block(asks, paper),
            *(paper.labelled("taken off", "; ".join(less), 2, 22) if less else ()),
            *(
                line
                for one in computed
                for line in paper.labelled(
                    "computed by", f"{one['method']}; {one['version']}", 2, 22
                )
            ),
        )
    )


def of_mixture(mixed: Mixture, temperature: str | None, tables: "Tables") -> dict[str, object]:
    """A mixture's computed flash point against its temperature, and what its components ask for.

    Raises:
        CallError: the temperature cannot be read.
    """
    from areafit.demands.mixtures import Computed, weigh  # noqa: PLC0415 - of a mixture

    handled = None if temperature is None else words.span(temperature, Dimension.TEMPERATURE, _WARM)
    weighed = weigh(mixed, handled, tables)
    found = weighed.found if isinstance(weighed.found, Computed) else None
    by = found.rows[0] if found is not None else None
    flash = None if found is None else found.celsius
    beyond = found is not None and found.beyond
    return {
        "name": mixed.text,
        "answer": weighed.answer,
        "beside": found.beside(handled) if found is not None else "",
        "flash_point_c": None if beyond else flash,
        "none_up_to_c": flash if beyond else None,
        "taken_off": [{"what": one.name, "value": one.value} for one in weighed.taken],
        "lowered_c": weighed.lowered,
        "temperature_c": weighed.hottest,
        "reached": weighed.reached,
        "boils_at_c": None if found is None else found.boils_at,
        "computed_by": by and {"method": by.source_id, "version": by.locator},
        "asks_for": _asked_for(PresentSubstance(mixed.text, mixture=mixed), tables),
    }


_WARM = "--temperature"


def _asked_for(present: PresentSubstance, tables: "Tables") -> list[dict[str, object]]:
    asks = (_asks(present, law, tables) for law in (Law.IEC, Law.NEC))
    return [one for one in asks if one]


def _no_substance(name: str, tables: "Tables") -> CallError:
    """The error for a name that is neither a substance nor a dust."""
    near = tables.nearest("substances", name) + tables.nearest("dusts", name)
    if tables.chemicals(name):
        return is_chemical(name)
    hint = f"near to it: {', '.join(near)}" if near else "see `areafit table substances`"
    return CallError(f"no substance {name!r} is known; {hint}")


def _asks(present: PresentSubstance, law: Law, tables: "Tables") -> dict[str, object] | None:
    """Group, highest surface temperature and temperature class; None where nothing is asked."""
    dusty = bool(tables.dusts(present.name)) and present.mixture is None
    area = _AREAS[law, Hazard.DUST if dusty else Hazard.GAS]
    place = Place(
        "here",
        law,
        area=AreaReading("", (area,)),
        substances=(present,),
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
        "open": list(
            dict.fromkeys(
                gap.message
                for gap in (
                    *(gap for each in demand.groups if each.needs for gap in each.gaps),
                    *demand.temperature_gaps,
                )
            )
        ),
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


_SHOWN = ("flash_point", "autoignition", "cloud", "layers")


def _short(data: Mapping[str, object]) -> Iterator[str]:
    """What it asks for in one line, and the figures that decide."""
    paper = terminal.paper()
    asked = "; ".join(_in_words(one) for one in _entries(data[_ASKED]))
    yield from paper.wrap(f"{data['name']}: {asked or 'nothing can be told'}")
    for key in _SHOWN:
        figures = dict.fromkeys(
            f"{show(one['value'])}{_UNITS.get(key) or ' °C'}"
            for one in _entries(data.get(key))
            if one.get("value") is not None
        )
        if figures:
            yield from paper.labelled(key.replace("_", " "), " or ".join(figures), 2, 18)
    cautions = data.get("cautions")
    for caution in cautions if isinstance(cautions, list) else ():
        yield from paper.wrap(show(caution), "  ", "  ")
    if data.get("note"):
        yield from paper.wrap(str(data["note"]), "  ", "  ")
    yield "  every value with its source: --full\n"


def _in_words(one: Mapping[str, object]) -> str:
    """`IEC zone gas IIB, T2, surfaces below 363 °C`, and what is open of it."""
    temperature = one["temperature_class"]
    limit = one["surface_below_c"]
    word = "at most" if one["limit_itself_allowed"] else "below"
    open_ = one.get("open")
    words = (
        f"{one['code']} {show(one['groups']) or 'no group'}",
        str(temperature) if temperature else "",
        f"surfaces {word} {show(limit)} °C" if limit is not None else "",
        f"open: {show(open_)}" if open_ else "",
    )
    return ", ".join(word for word in words if word)


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
