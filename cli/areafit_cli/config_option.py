"""The options that say which configuration holds, and what it does to the others."""

from pathlib import Path
from typing import Annotated

import typer

from areafit_cli.config import find, load
from areafit_cli.faults import CallError


def _apply(ctx: typer.Context, value: str | None) -> str | None:
    """Let the configuration stand in for options that the command line leaves out."""
    if ctx.resilient_parsing:
        return value
    if ctx.params.get("no_config"):
        if value is not None:
            raise CallError(_BOTH)
        return value
    path = Path(value) if value is not None else find(Path.cwd())
    if path is not None:
        stated = load(path)
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


_BOTH = "--config and --no-config contradict each other; give one of them"
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
