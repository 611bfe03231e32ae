"""The command tree, and what all commands have alike: short options, choices that help can wrap.

A command's module is imported when it is called or when help lists it. It has a function `command`
and an `EXAMPLE`, one call that can be typed as it stands: the last line of its help.
"""

from importlib import import_module
from types import MappingProxyType
from typing import Annotated, Any

import typer
from typer.core import TyperGroup

from areafit.version import __version__
from areafit_cli.errors import unknown

COMMANDS = MappingProxyType(
    {
        "check": "areafit_cli.commands.check",
        "part": "areafit_cli.commands.part",
        "marking": "areafit_cli.commands.marking",
        "substance": "areafit_cli.commands.substance",
        "material": "areafit_cli.commands.material",
        "rule": "areafit_cli.commands.rule",
        "table": "areafit_cli.commands.table",
        "need": "areafit_cli.commands.need",
        "actions": "areafit_cli.commands.actions",
        "ask": "areafit_cli.commands.ask",
        "questions": "areafit_cli.commands.questions",
        "answers": "areafit_cli.commands.answers",
        "compare": "areafit_cli.commands.compare",
        "loop": "areafit_cli.commands.loop",
        "library": "areafit_cli.commands.library",
        "waiver": "areafit_cli.commands.waiver",
        "new": "areafit_cli.commands.new",
        "import": "areafit_cli.commands.importer",
        "schema": "areafit_cli.commands.schema",
    }
)

_USUAL = "text"  # the format of a report for which none is asked
_SHORT = MappingProxyType({"--output": "-o", "--format": "-f", "--quiet": "-q"})


class _Lazy(TyperGroup):
    """A group that knows its commands by name and imports one when it is asked for."""

    def resolve_command(self, ctx: Any, args: list[str]) -> Any:  # noqa: ANN401 - as below
        if args[:1] == ["help"]:
            if args[1:] in ([], ["--help"], ["-h"]):
                typer.echo(ctx.get_help())
                raise typer.Exit
            args = [args[1], "--help"]
        if args and args[0] not in COMMANDS and not args[0].startswith("-"):
            raise unknown("command", args[0], COMMANDS)
        return super().resolve_command(ctx, args)

    def list_commands(self, ctx: Any) -> list[str]:  # noqa: ANN401, ARG002 - typer's own signature
        return list(COMMANDS)

    def get_command(self, ctx: Any, cmd_name: str) -> Any:  # noqa: ANN401, ARG002 - as above
        home = COMMANDS.get(cmd_name)
        if home is None:
            return None
        if cmd_name not in self.commands:
            module = import_module(home)
            one = getattr(module, "group", None)  # a command of commands
            if one is None:
                one = typer.Typer(add_completion=False)
                one.command(cmd_name, epilog=f"Example: {module.EXAMPLE}")(module.command)
            command = typer.main.get_command(one)
            command.name = cmd_name
            for each in (command, *getattr(command, "commands", {}).values()):
                for parameter in each.params:
                    _complete(parameter)
            self.commands[cmd_name] = command
        return self.commands[cmd_name]


def _complete(parameter: Any) -> None:  # noqa: ANN401 - as above
    """Give an option its short name, and let its choices stand where help can wrap them."""
    short = next((_SHORT[name] for name in parameter.opts if name in _SHORT), None)
    if short is not None:
        parameter.opts.append(short)
    if parameter.param_type_name == "argument":
        parameter.metavar = parameter.metavar or parameter.name.upper()
        return
    choices = _choices(parameter)
    if choices:  # a list of them as the name of a value is broken in mid-word
        said = f"One of {', '.join(choices)}."
        if parameter.multiple and _USUAL in choices:
            said = f"{said} Without one, {_USUAL}."
        parameter.help = f"{parameter.help} {said}" if parameter.help else said
        parameter.metavar = "NAME"


def _choices(parameter: Any) -> tuple[str, ...]:  # noqa: ANN401 - as above
    if parameter.metavar is not None:
        words = parameter.metavar.split("|")
        return tuple(words) if len(words) > 1 else ()
    return tuple(getattr(parameter.type, "choices", ()))


app = typer.Typer(
    cls=_Lazy,
    no_args_is_help=True,
    context_settings={"help_option_names": ["--help", "-h"]},
    pretty_exceptions_enable=False,
    help=(
        "Checks every line of a machine's bill of materials against the hazardous area and the "
        "chemicals where it will stand.\n\n"
        "Exit status: 0 passed, 1 flagged or unproven, 2 the input or the call is wrong, 3 a bug."
    ),
    epilog="`areafit COMMAND --help` tells the options of a command, with an example.",
)


def _version(asked: bool) -> None:
    if asked:
        typer.echo(f"areafit {__version__}")
        raise typer.Exit


@app.callback()
def _top(
    version: Annotated[
        bool, typer.Option("--version", callback=_version, is_eager=True, help="Print the version.")
    ] = False,
) -> None:
    """Hold the options that stand before a command."""
    del version
