"""One list from its path to a report, for the commands that answer from a report."""

from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING

import areafit
from areafit.verdict import Basis
from areafit_cli import choices, fetch, judging, paths, reading, waiving
from areafit_cli.faults import CallError

if TYPE_CHECKING:
    from areafit.facts.bom import Bom
    from areafit.findings.report import BomReport


def read(name: str) -> "Bom":
    """The facts of a list; `-` is standard input.

    Raises:
        CallError: the file cannot be read.
        InputErrors: it is no valid list.
    """
    path = Path(name)
    try:
        data = reading.read(path)
    except OSError as error:
        raise CallError(f"{name} cannot be read: {error.strerror or error}") from None
    return areafit.read(data, paths.shown(path), fetch.fetcher(path))


def report(
    name: str,
    *,
    tables: str | None = None,
    as_of: str | None = None,
    waivers: Iterable[str] = (),
    accept_unproven: Iterable[str] = (),
    least_basis: Basis = Basis.MEMORY,
) -> "BomReport":
    """The report on a list with the waivers that hold laid over it.

    Raises:
        CallError: a file cannot be read, or an option does not serve.
        InputErrors: the list or a waiver file is not valid.
    """
    options = choices.options(
        only=(), skip=(), accept_unproven=accept_unproven, least_basis=least_basis, as_of=as_of
    )
    known = judging.tables(judging.read_overlays(tables), options.as_of)
    return judging.judged(read(name), known, options, waiving.read(waivers))
