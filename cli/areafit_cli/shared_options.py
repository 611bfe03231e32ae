"""Options that several commands understand alike."""

from typing import Annotated

import typer

from areafit.verdict import Basis

_SCOPE, _GATE = "What is judged", "Gate"
Strings = list[str] | None

TablesOption = Annotated[
    str | None,
    typer.Option(
        "--tables",
        metavar="DIR",
        help="Your own table rows, laid over ours.",
        rich_help_panel=_SCOPE,
    ),
]
AsOfOption = Annotated[
    str | None,
    typer.Option(
        "--as-of",
        metavar="DATE",
        help="The date for certificates and waivers; today.",
        rich_help_panel=_SCOPE,
    ),
]
WaiversOption = Annotated[
    Strings,
    typer.Option(
        "--waivers",
        metavar="FILE",
        help="Accepted deviations. May be repeated.",
        rich_help_panel=_GATE,
    ),
]
NoWaiversOption = Annotated[
    bool,
    typer.Option("--no-waivers", help="As if nothing had been waived.", rich_help_panel=_GATE),
]
AcceptOption = Annotated[
    Strings,
    typer.Option(
        "--accept-unproven",
        metavar="RULE",
        help="Let what this rule cannot prove pass.",
        rich_help_panel=_GATE,
    ),
]
LeastBasisOption = Annotated[
    Basis,
    typer.Option("--least-basis", help="The weakest basis of a pass.", rich_help_panel=_GATE),
]
ExitZeroOption = Annotated[
    bool,
    typer.Option("--exit-zero", help="Status 0 for a failed gate too.", rich_help_panel=_GATE),
]
