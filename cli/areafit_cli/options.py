"""Options that several commands understand alike, and how an option is declared."""

from enum import Enum
from pathlib import Path
from typing import Annotated

import typer

from areafit.verdict import Basis
from areafit_cli import config
from areafit_cli.errors import CallError

_SCOPE, _GATE = "What is judged", "Gate"
Strings = list[str] | None


class AnswerFormat(Enum):
    """The formats of an answer that is no report."""

    TEXT = "text"
    JSON = "json"


class PageFormat(Enum):
    """The formats of an answer that is also pasted into pages."""

    TEXT = "text"
    JSON = "json"
    MARKDOWN = "markdown"


def value(
    help_: str, panel: str | None = None, metavar: str | None = "TEXT", *, name: str | None = None
) -> typer.models.OptionInfo:
    """An option with a value, called as its parameter unless a name is given."""
    names = (name,) if name else ()
    option: typer.models.OptionInfo = typer.Option(
        *names, metavar=metavar, help=help_, rich_help_panel=panel
    )
    return option


def flag(name: str, help_: str, panel: str | None = None) -> typer.models.OptionInfo:
    """An option without a value, and without its contrary."""
    option: typer.models.OptionInfo = typer.Option(name, help=help_, rich_help_panel=panel)
    return option


TablesOption = Annotated[
    str | None, value("Your own table rows, laid over ours.", _SCOPE, "DIR", name="--tables")
]
AsOfOption = Annotated[
    str | None,
    value("The date for certificates and waivers; today.", _SCOPE, "DATE", name="--as-of"),
]
WaiversOption = Annotated[
    Strings, value("Accepted deviations. May be repeated.", _GATE, "FILE", name="--waivers")
]
NoWaiversOption = Annotated[bool, flag("--no-waivers", "As if nothing had been waived.", _GATE)]
AcceptOption = Annotated[
    Strings,
    value("Let what this rule cannot prove pass.", _GATE, "RULE", name="--accept-unproven"),
]
LeastBasisOption = Annotated[
    Basis, value("The weakest basis of a pass.", _GATE, None, name="--least-basis")
]
ExitZeroOption = Annotated[bool, flag("--exit-zero", "Status 0 for a failed gate too.", _GATE)]


# Which configuration holds, and what it does to the other options

_BOTH = "--config and --no-config contradict each other; give one of them"


def _apply(ctx: typer.Context, value: str | None) -> str | None:
    """Let the configuration stand in for options that the command line leaves out."""
    if ctx.resilient_parsing:
        return value
    if ctx.params.get("no_config"):
        if value is not None:
            raise CallError(_BOTH)
        return value
    path = Path(value) if value is not None else config.find(Path.cwd())
    if path is not None:
        stated = config.load(path, found=value is None)
        names = {_key(parameter.opts): parameter.name for parameter in ctx.command.params}
        ctx.default_map = {
            name: stated[key] for key, name in names.items() if name and key in stated
        }
    return value


def _without(ctx: typer.Context, value: bool) -> bool:
    if value and ctx.params.get("config_") is not None:
        raise CallError(_BOTH)
    if value:
        ctx.default_map = None
    return value


def _key(spellings: list[str]) -> str:
    return max(spellings, key=len).removeprefix("--")


ConfigOption = Annotated[
    str | None,
    typer.Option(
        "--config",
        metavar="FILE",
        is_eager=True,
        callback=_apply,
        help="Options from this file, not from the nearest areafit.toml or pyproject.toml.",
    ),
]
NoConfigOption = Annotated[
    bool,
    typer.Option("--no-config", is_eager=True, callback=_without, help="No options from a file."),
]

FullOption = Annotated[
    bool, typer.Option("--full", help="All that is known, with sources and clauses.")
]
