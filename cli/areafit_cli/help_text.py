"""What all commands have alike: short options, an example, and choices that help can wrap."""

from types import MappingProxyType
from typing import Any

from areafit_cli.examples import EXAMPLES

_USUAL = "text"  # the format of a report for which none is asked
_SHORT = MappingProxyType({"--output": "-o", "--format": "-f", "--quiet": "-q"})


def complete(command: Any, name: str) -> Any:  # noqa: ANN401 - typer's own class has no stable home
    """The command with what all commands have alike, and so have its own commands."""
    for each, own in getattr(command, "commands", {}).items():
        complete(own, f"{name} {each}")
    if name in EXAMPLES:
        command.epilog = f"Example: {EXAMPLES[name]}"
    for parameter in command.params:
        _tell(parameter)
    return command


def _tell(parameter: Any) -> None:  # noqa: ANN401 - as above
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
