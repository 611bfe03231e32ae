"""`areafit schema`: JSON Schemas of what is read and of the report."""

from enum import Enum
from importlib.resources import files
from typing import Annotated

import typer

from areafit_cli import terminal

EXAMPLE = "areafit schema bom"


class Described(Enum):
    """What a schema is for."""

    BOM = "bom"
    AREAS = "areas"
    LIBRARY = "library"
    WAIVERS = "waivers"
    REPORT = "report"


def command(
    of: Annotated[
        Described, typer.Argument(metavar="[OF]", help="What it describes.")
    ] = Described.BOM,
) -> None:
    """Print the JSON Schema (2020-12) for an editor, or for what reads the report."""
    from areafit.file.model import areas_schema, bom_schema, library_schema  # noqa: PLC0415 - on demand
    from areafit.file.waivers import waivers_schema  # noqa: PLC0415 - as above

    match of:
        case Described.REPORT:
            source = files("areafit_cli") / "data" / "report.schema.json"
            terminal.write([source.read_text(encoding="utf-8")])
        case Described.BOM:
            terminal.write_json(bom_schema())
        case Described.AREAS:
            terminal.write_json(areas_schema())
        case Described.LIBRARY:
            terminal.write_json(library_schema())
        case Described.WAIVERS:
            terminal.write_json(waivers_schema())
