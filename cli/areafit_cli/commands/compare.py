"""`areafit compare`: two revisions of a list, or two variants of a design."""

from enum import Enum
from typing import TYPE_CHECKING, Annotated

import typer

from areafit.answers.compare import Comparison, compare
from areafit.verdict import Basis
from areafit_cli import answers, config_option, one_list
from areafit_cli.exits import Exit
from areafit_cli.faults import CallError
from areafit_cli.shared_options import (
    AcceptOption,
    AsOfOption,
    ExitZeroOption,
    LeastBasisOption,
    NoWaiversOption,
    TablesOption,
    WaiversOption,
)

if TYPE_CHECKING:
    from areafit.findings.report import BomReport


class CompareFormat(Enum):
    """The formats of a comparison."""

    TEXT = "text"
    JSON = "json"
    MARKDOWN = "markdown"


def command(
    old: Annotated[str, typer.Argument(metavar="OLD", help="The list as it was.")],
    new: Annotated[str, typer.Argument(metavar="NEW", help="The list as it is; it gates.")],
    *,
    format_: Annotated[CompareFormat, typer.Option("--format")] = CompareFormat.TEXT,
    tables: TablesOption = None,
    as_of: AsOfOption = None,
    waivers: WaiversOption = None,
    no_waivers: NoWaiversOption = False,
    accept_unproven: AcceptOption = None,
    least_basis: LeastBasisOption = Basis.MEMORY,
    exit_zero: ExitZeroOption = False,
    no_config: config_option.NoConfigOption = False,
    config_: config_option.ConfigOption = None,
) -> None:
    """Tell which verdicts changed and by which fact, what is asked anew, and cost."""
    del no_config, config_
    if old == new == "-":
        raise CallError("only one of the two lists can come from standard input")

    def judged(name: str) -> "BomReport":
        return one_list.report(
            name,
            tables=tables,
            as_of=as_of,
            waivers=() if no_waivers else waivers or (),
            accept_unproven=accept_unproven or (),
            least_basis=least_basis,
        )

    before, after = judged(old), judged(new)
    _say(compare(before, after), (before, after), format_)
    raise typer.Exit(Exit.PASSED if exit_zero or after.passes else Exit.FAILED)


def _data(found: Comparison, reports: "tuple[BomReport, BomReport]") -> dict[str, object]:
    old, new = reports
    return {
        "old": _side(old) | answers.plain(found.old),
        "new": _side(new) | answers.plain(found.new),
        "subjects": [answers.plain(change) for change in found.subjects],
    }


def _side(report: "BomReport") -> dict[str, object]:
    assembly = answers.plain(report.bom.assembly)
    return {"path": report.bom.name, "assembly": assembly, "gate": report.gate}


def _say(found: Comparison, reports: "tuple[BomReport, BomReport]", format_: CompareFormat) -> None:
    match format_:
        case CompareFormat.JSON:
            answers.say_json(_data(found, reports))
        case CompareFormat.MARKDOWN:
            from areafit_cli.render import compare_markdown  # noqa: PLC0415 - one format is used

            answers.say(compare_markdown.lines(found, reports))
        case CompareFormat.TEXT:
            from areafit_cli.render import compare_text  # noqa: PLC0415 - as above

            answers.say(compare_text.lines(found, reports, answers.paper()))
