"""`areafit questions`: another name of `areafit actions`, for who thinks of what is to be asked."""

from areafit_cli.commands.actions import command as command  # noqa: PLC0414 - the same

EXAMPLE = "areafit questions bom.yaml --format xlsx --output books"
