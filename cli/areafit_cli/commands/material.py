"""`areafit material`: a material's data, and how it stands up to chemicals."""

from collections.abc import Iterator
from typing import TYPE_CHECKING, Annotated

import typer

import areafit
from areafit.facts.part import Exposure
from areafit.verdict import Basis
from areafit_cli import answers, choices, one_part, words
from areafit_cli.faults import CallError
from areafit_cli.render.values import block, show

if TYPE_CHECKING:
    from areafit.findings.report import Finding
    from areafit.tables import Tables
    from areafit.tables.materials import Material


def command(
    name: Annotated[str, typer.Argument(help="Grade, alias, EN or UNS designation, or id.")],
    *,
    chemical: Annotated[
        list[str] | None,
        typer.Option(metavar="TEXT", help='"sodium hydroxide, 2 %, 60 °C"; may be repeated.'),
    ] = None,
    exposure: Annotated[
        Exposure, typer.Option(help="How the chemical is met.")
    ] = Exposure.IMMERSED,
    format_: Annotated[answers.AnswerFormat, typer.Option("--format")] = answers.AnswerFormat.TEXT,
) -> None:
    """Tell a material's data and its resistance rows, or judge it against chemicals."""
    tables = areafit.Tables.shipped()
    found = tables.materials(name)
    if not found:
        near = tables.nearest("materials", name)
        hint = f"near to it: {', '.join(near)}" if near else "see `areafit table materials`"
        raise CallError(f"no material {name!r} is known; {hint}")
    data = [
        {**answers.plain(one), "resistance": _resistance(one, chemical or (), tables)}
        for one in found
    ]
    judged = _judged(name, chemical, exposure, tables) if chemical else []
    if format_ is answers.AnswerFormat.JSON:
        answers.say_json({"name": name, "materials": data, "findings": judged})
    else:
        answers.say(_lines(data, judged))


def _resistance(
    material: "Material", chemicals: "tuple[str, ...] | list[str]", tables: "Tables"
) -> list[dict[str, object]]:
    if chemicals:
        named = (words.chemical(text).name for text in chemicals)
        ids = [row.id for name in named for row in tables.chemicals(name)]
    else:
        ids = list(tables.ids("chemicals"))
    return [answers.plain(row) for one in ids for row in tables.resistance(material.id, one)]


def _judged(
    name: str, chemicals: list[str], exposure: Exposure, tables: "Tables"
) -> list[dict[str, object]]:
    """What the rules for materials say, from the same engine that judges lists."""
    bom = one_part.build(
        one_part.Stated(
            area=("unclassified",),
            chemicals=tuple(chemicals),
            kinds=("structural",),
            materials=(name,),
            exposures=(exposure.value,),
        )
    )
    families = [rule.id for rule in areafit.RULES if rule.subject.value == "material"]
    options = choices.options(
        only=families, skip=(), accept_unproven=(), least_basis=Basis.MEMORY, as_of=None
    )
    (part,) = areafit.judge(bom, tables, options).parts
    return [_finding(finding) for finding in part.findings()]


def _finding(finding: "Finding") -> dict[str, object]:
    return {
        "rule": finding.rule.id,
        "verdict": finding.verdict.value,
        "message": finding.message,
        "required": finding.required,
        "found": finding.found,
        "clause": finding.clause,
        "sources": list(finding.sources),
        "basis": finding.basis and finding.basis.value,
        "reason": finding.reason and finding.reason.value,
        "remedy": finding.remedy,
        "answer_by": finding.answer_by.value,
    }


def _lines(data: list[dict[str, object]], judged: list[dict[str, object]]) -> Iterator[str]:
    paper = answers.paper()
    for one in data:
        yield f"{paper.paint(str(one['name']), 'title')}\n"
        yield from block(one, paper, skip=("name", "resistance"))
        rows = one["resistance"]
        yield paper.heading("Resistance")
        if not rows:
            yield "  no row\n"
        for row in rows if isinstance(rows, list) else ():
            yield from paper.wrap(_row(row), "  ", "      ")
    for finding in judged:
        yield f"\n{paper.paint(str(finding['verdict']))}  {finding['rule']}\n"
        yield from block(finding, paper, skip=("rule", "verdict"))


def _row(row: "dict[str, object]") -> str:
    limit = show(row["temp_max_c"])
    heat = f"to {limit} °C" if limit else "at any temperature"
    band = f"{show(row['conc_min_pct'])}..{show(row['conc_max_pct'])} %"
    cited = f"{row['source_id']}, {row['locator']}; {row['basis']}"
    details = (row["mechanism"], row["figure"], row["note"])
    said = "; ".join(str(one) for one in details if one and one != "none")
    return (
        f"{row['chemical']} {band} {heat}: {row['rating']}"
        + (f"; {said}" if said else "")
        + (f" ({cited})")
    )
