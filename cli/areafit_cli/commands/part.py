"""`areafit part` as typer tells it; `query` reads the usual call without typer."""

from collections.abc import Iterator
from enum import Enum
from inspect import Parameter, Signature
from typing import Annotated, Any

import typer

from areafit.file.facts import FactRow, Option, facts
from areafit.verdict import Basis
from areafit_cli import one_part, query
from areafit_cli.options import AnswerFormat, Strings, flag, value

EXAMPLE = (
    'areafit part "Ex db IIC T4 Gb" --area "Zone 1, IIB, T3" --document "AC-014 rev B" '
    '--substance toluene --chemical none --ambient "5..40 °C" '
    '--certificate "IECEx QQQ 20.0001" --entries none --bonded --material 316L '
    "--exposure room --materials-complete --no-contacts"
)
_CLOSED: dict[str, Enum] = {"least_basis": Basis.MEMORY, "format": AnswerFormat.TEXT}


def command(**given: Any) -> None:  # noqa: ANN401 - typer names no type of it
    """Judge one part at one place. What is left out is not stated, and so unproven."""
    plain = {name: one.value if isinstance(one, Enum) else one for name, one in given.items()}
    raise typer.Exit(query.answer(one_part.stated(**plain)))


def _parameters() -> Iterator[Parameter]:
    """A parameter for each option: those of the table of facts, then the command's own."""
    for row in facts().values():
        yield from (_parameter(option, _panel(row)) for option in row.options())
    yield from (_parameter(option, "Gate and report") for option in query.OWN)


def _panel(row: FactRow) -> str:
    if row.subject != "part":
        return "The place"
    if row.key == "evidence":
        return "What is on file"
    if row.key.startswith("materials") or row.key in ("exposure", "contacts"):
        return "Its materials"
    return "What moves, falls, rubs" if one_part.mechanical(row) else "The part"


def _parameter(option: Option, panel: str) -> Parameter:
    default: Enum | bool | None = _CLOSED.get(option.parameter)
    how: Any
    type_: Any
    if option.argument:
        how, type_ = typer.Argument(metavar=f"[{option.name}]...", help=option.help), Strings
    elif option.flag:
        how, type_, default = flag(option.name, option.help, panel), bool, False
    elif default is not None:
        how, type_ = value(option.help, panel, None), type(default)
    elif option.repeated:
        how, type_ = value(f"{option.help} May be repeated.", panel, option.metavar), Strings
    else:
        how, type_ = value(option.help, panel, option.metavar), str | None
    kind = Parameter.POSITIONAL_OR_KEYWORD if option.argument else Parameter.KEYWORD_ONLY
    return Parameter(option.parameter, kind, default=default, annotation=Annotated[type_, how])


# typer reads a command's options from its signature
_FOUND = sorted(_parameters(), key=lambda one: one.kind)
command.__signature__ = Signature(_FOUND)  # type: ignore[attr-defined]  # a function may have one
command.__annotations__ = {one.name: one.annotation for one in _FOUND}
