"""`areafit check`: the lists behind the paths, judged and reported."""

from typing import Annotated

import typer

from areafit.verdict import Basis
from areafit_cli import checking, config_option, render
from areafit_cli.shared_options import (
    AcceptOption,
    AsOfOption,
    ExitZeroOption,
    LeastBasisOption,
    NoWaiversOption,
    Strings,
    TablesOption,
    WaiversOption,
)

_REPORT, _SCOPE = "Report", "What is judged"


def command(
    path: Annotated[
        list[str], typer.Argument(metavar="PATH...", help="Lists, folders, globs, or - for input.")
    ],
    *,
    formats: Annotated[
        Strings,
        typer.Option(
            "--format",
            metavar="|".join(render.NAMES),
            help="May be repeated.",
            rich_help_panel=_REPORT,
        ),
    ] = None,
    outputs: Annotated[
        Strings,
        typer.Option(
            "--output",
            metavar="FILE",
            help="The n-th output takes the n-th format; - is standard output.",
            rich_help_panel=_REPORT,
        ),
    ] = None,
    quiet: Annotated[
        bool, typer.Option("--quiet", help="Open points only.", rich_help_panel=_REPORT)
    ] = False,
    only: Annotated[
        Strings, typer.Option(metavar="RULE", help="These rules only.", rich_help_panel=_SCOPE)
    ] = None,
    skip: Annotated[
        Strings, typer.Option(metavar="RULE", help="Not these rules.", rich_help_panel=_SCOPE)
    ] = None,
    tables: TablesOption = None,
    changed_since: Annotated[
        str | None,
        typer.Option(
            metavar="REV",
            help="Lists only that changed since this git revision, or depend on what did.",
            rich_help_panel=_SCOPE,
        ),
    ] = None,
    as_of: AsOfOption = None,
    waivers: WaiversOption = None,
    no_waivers: NoWaiversOption = False,
    accept_unproven: AcceptOption = None,
    least_basis: LeastBasisOption = Basis.MEMORY,
    exit_zero: ExitZeroOption = False,
    jobs: Annotated[int, typer.Option(min=1, metavar="N", help="Lists judged at a time.")] = 1,
    no_config: config_option.NoConfigOption = False,
    config_: config_option.ConfigOption = None,
) -> None:
    """Judge bills of materials, and report what fits, what does not and what is unproven."""
    raise typer.Exit(
        checking.check(
            path,
            formats=formats,
            outputs=outputs,
            quiet=quiet,
            only=only,
            skip=skip,
            tables=tables,
            changed_since=changed_since,
            as_of=as_of,
            waivers=waivers,
            no_waivers=no_waivers,
            accept_unproven=accept_unproven,
            least_basis=least_basis,
            exit_zero=exit_zero,
            jobs=jobs,
            no_config=no_config,
            config_=config_,
        )
    )
