"""The work of `areafit part`: one part at one place, judged by the engine that judges lists."""

from collections.abc import Iterator, Mapping, Sequence
from functools import cache
from types import MappingProxyType

import areafit
from areafit.file.facts import Option, facts
from areafit.findings.report import Answers, BomReport, Judged, SubjectReport
from areafit.values import replace
from areafit.verdict import Basis, Verdict, worst
from areafit.version import __version__
from areafit_cli import one_part, render, terminal, words
from areafit_cli.errors import Exit
from areafit_cli.one_part import Stated
from areafit_cli.render import Run, Style, summarise

# The options beside those of the table of facts
_MEMORY, _TEXT = Basis.MEMORY.value, "text"
OWN = (
    Option("--accept-unproven", "Let what this rule cannot prove pass.", "RULE", repeated=True),
    Option("--least-basis", "The weakest basis of a pass.", "NAME"),
    Option("--quiet", "Open points only."),
    Option("--exit-zero", "Status 0 for a failed gate too."),
    Option("--format", "", "NAME"),
)
_CLOSED = MappingProxyType(
    {"least_basis": tuple(basis.value for basis in Basis), "format": (_TEXT, "json")}
)


@cache
def options() -> Mapping[str, Option]:
    """The options of a call by their names; `MARKING` is its argument."""
    stated = (option for row in facts().values() for option in row.options())
    return {option.name: option for option in (*stated, *OWN)}


def read_call(arguments: Sequence[str]) -> Stated | None:
    """What a usual call states; None where typer must look at it.

    Importing typer takes longer than judging. What is not understood here, help and every mistake
    included, is left to it; tests hold that both read the same call alike.
    """
    stated: dict[str, tuple[str, ...]] = {}
    rest = iter(arguments)
    for argument in rest:
        name, equals, value = argument.partition("=")
        if not argument.startswith("-"):
            name, equals, value = "MARKING", "=", argument
        option = options().get(name)
        if option is None or (equals and option.flag):
            return None
        key = option.parameter
        if option.flag:
            stated[key] = ()
            continue
        text = value if equals else next(rest, None)
        if text is None or text not in _CLOSED.get(key, (text,)):
            return None
        stated[key] = (*stated.get(key, ()), text) if option.repeated else (text,)
    return stated


def answer(stated: Stated) -> Exit:
    """Judge the part, print the report and return the status of the gate.

    Raises:
        CallError: something stated cannot be read.
    """
    bom = one_part.build(stated)
    (least,) = stated.get("least_basis", (_MEMORY,))
    (kind,) = stated.get("format", (_TEXT,))
    accepted = stated.get("accept_unproven", ())
    options = words.options(accept_unproven=accepted, least_basis=Basis(least))
    tables = areafit.Tables.shipped()
    report = _without_assembly(areafit.judge(bom, tables, options))
    run = Run(__version__, tables.digest, (summarise(report),))
    paper = terminal.paper()
    style = Style(paper.width, paper.colour, "quiet" in stated, brief=True)
    terminal.write(_whole(report, run, kind, style))
    return Exit.PASSED if "exit_zero" in stated or report.passes else Exit.FAILED


def _whole(report: BomReport, run: Run, kind: str, style: Style) -> Iterator[str]:
    shape = render.find(kind)
    yield from shape.head(run, style)
    yield from shape.body(report, style)
    yield from shape.tail(run, style)


# What a question about a single part cannot be about: the machine that it goes into

_ASSEMBLY = "assembly-assessment"
_ELSEWHERE = (
    "A single part was asked about, so the assembly was not judged: `areafit check` judges it in "
    "a list."
)


def _without_assembly(report: BomReport) -> BomReport:
    """The report of one part, what holds for the assembly said to be not applicable.

    The finding stays in the report with its requirement, so that nobody takes it for met. The
    edition of the rules counts for a single part too.
    """
    own = report.own
    blocks = tuple(
        replace(block, judged=Answers(map(_not_asked, block.judged))) for block in own.blocks
    )
    found = SubjectReport(own.name, worst(block.verdict for block in blocks), blocks, own.bom)
    return replace(report, own=found)


def _not_asked(judged: Judged) -> Judged:
    if judged.rule.id != _ASSEMBLY:
        return judged
    judgement = replace(
        judged.judgement,
        verdict=Verdict.NOT_APPLICABLE,
        message=_ELSEWHERE,
        found="one part",
        reason=None,
    )
    return Judged(judged.rule, judged.ask, judgement)
