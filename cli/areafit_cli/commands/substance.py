"""`areafit substance`: what the tables say of a gas, vapour or dust, and what it asks for."""

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING, Annotated

import typer

import areafit
from areafit.facts.protection import Law
from areafit_cli import answers, asked_for, name_hints
from areafit_cli.render.values import block, show

if TYPE_CHECKING:
    from areafit.tables import Tables
    from areafit.tables.dusts import Dust
    from areafit.tables.substances import Substance


def command(
    words: Annotated[
        list[str], typer.Argument(metavar="NAME...", help="Name, alias, CAS number or id.")
    ],
    *,
    format_: Annotated[answers.AnswerFormat, typer.Option("--format")] = answers.AnswerFormat.TEXT,
) -> None:
    """Tell the data of a gas, vapour or dust, and the group and temperature class it asks for."""
    name = " ".join(words)
    tables = areafit.Tables.shipped()
    found: tuple[Substance | Dust, ...] = (*tables.substances(name), *tables.dusts(name))
    if not found:
        raise name_hints.no_substance(name, tables)
    data = [as_data(one, tables) for one in found]
    if format_ is answers.AnswerFormat.JSON:
        answers.say_json({"name": name, "substances": data})
    else:
        answers.say(line for one in data for line in _lines(one))


def as_data(found: "Substance | Dust", tables: "Tables") -> dict[str, object]:
    """The row with its cited values, and what it asks for under each code."""
    asks = [asked_for.describe(found, law, tables) for law in (Law.IEC, Law.NEC)]
    return {**answers.plain(found), "asks_for": [one for one in asks if one]}


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


def _lines(data: Mapping[str, object]) -> Iterator[str]:
    """What it asks for first, then its identity, then every quantity with all its sources."""
    paper = answers.paper()
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
    words = [
        figure + _UNITS.get(key, "") if figure else "",
        show(entry.get("state")),
        f"layer of {show(entry['thickness_mm'])} mm" if entry.get("thickness_mm") else "",
        f"({entry['source_id']}, {entry['locator']}; {entry['basis']})",
    ]
    return " ".join(filter(None, words))
