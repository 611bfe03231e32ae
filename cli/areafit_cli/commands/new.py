"""`areafit new`: a commented list to start from."""

from importlib.resources import files
from pathlib import Path
from typing import Annotated

import typer

from areafit_cli import paths, terminal
from areafit_cli.errors import CallError

EXAMPLE = "areafit new bom.yaml"


def command(
    file: Annotated[str, typer.Argument(metavar="FILE", help="A new file, or - for output.")],
) -> None:
    """Write a commented list that `check` can read; nothing is stated in it yet."""
    text = (files("areafit_cli") / "data" / "new.yaml").read_text(encoding="utf-8")
    if file == paths.STDOUT:
        terminal.write([text])
        return
    try:
        with Path(file).open("x", encoding="utf-8", newline="\n") as stream:
            stream.write(text)
    except FileExistsError:
        raise CallError(f"{file} exists; choose a new name") from None
    except OSError as error:
        raise CallError(f"cannot write {file}: {error.strerror or error}") from None
    terminal.note(f"areafit: wrote {file}; fill it in, then run `areafit check {file}`")
