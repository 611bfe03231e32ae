"""`areafit check`: the lists behind the paths, judged and reported."""

from typing import Annotated

import typer

from areafit.verdict import Basis
from areafit_cli import checking, render
from areafit_cli.options import (
    AcceptOption,
    AsOfOption,
    ConfigOption,
    ExitZeroOption,
    LeastBasisOption,
    NoConfigOption,
    NoWaiversOption,
    Strings,
    TablesOption,
    WaiversOption,
    flag,
    value,
)

EXAMPLE = "areafit check machines/ --format html --output dossier.html"
_REPORT, _SCOPE = "Report", "What is judged"


def command(
    path: Annotated[
        list[str], typer.Argument(metavar="PATH...", help="Lists, folders, globs, or - for input.")
    ],
    *,
    formats: Annotated[
        Strings, value("May be repeated.", _REPORT, "|".join(render.NAMES), name="--format")
    ] = None,
    outputs: Annotated[
        Strings,
        value(
            "The n-th output takes the n-th format; - is standard output.",
            _REPORT,
            "FILE",
            name="--output",
        ),
    ] = None,
    quiet: Annotated[bool, flag("--quiet", "Open points only.", _REPORT)] = False,
    full: Annotated[
        bool, flag("--full", "Every finding, with clause and sources.", _REPORT)
    ] = False,
    only_lists: Annotated[
        bool, flag("--only-lists", "Pass over named files that are no lists, for hooks.", _SCOPE)
    ] = False,
    only: Annotated[Strings, value("These rules only.", _SCOPE, "RULE")] = None,
    skip: Annotated[Strings, value("Not these rules.", _SCOPE, "RULE")] = None,
    tables: TablesOption = None,
    changed_since: Annotated[
        str | None,
        value(
            "Lists only that changed since this git revision, or depend on what did.",
            _SCOPE,
            "REV",
        ),
    ] = None,
    since: Annotated[
        str | None,
        value("The list as it was; what became of its lines is told.", _REPORT, "OLD"),
    ] = None,
    as_of: AsOfOption = None,
    library_age: Annotated[
        str | None,
        value("Tell entries of a library confirmed longer ago, 24 months.", _REPORT, "TIME"),
    ] = None,
    waivers: WaiversOption = None,
    no_waivers: NoWaiversOption = False,
    accept_unproven: AcceptOption = None,
    least_basis: LeastBasisOption = Basis.MEMORY,
    exit_zero: ExitZeroOption = False,
    jobs: Annotated[int, typer.Option(min=1, metavar="N", help="Lists judged at a time.")] = 1,
    no_config: NoConfigOption = False,
    config_: ConfigOption = None,
) -> None:
    """Judge bills of materials, and report what fits, what does not and what is unproven."""
    raise typer.Exit(
        checking.check(
            path,
            formats=formats,
            outputs=outputs,
            quiet=quiet,
            full=full,
            only_lists=only_lists,
            only=only,
            skip=skip,
            tables=tables,
            changed_since=changed_since,
            since=since,
            as_of=as_of,
            waivers=waivers,
            no_waivers=no_waivers,
            accept_unproven=accept_unproven,
            least_basis=least_basis,
            exit_zero=exit_zero,
            library_age=library_age,
            jobs=jobs,
            no_config=no_config,
            config_=config_,
        )
    )
