"""`areafit material`: a material's data, and how it stands up to chemicals."""

from typing import TYPE_CHECKING, Annotated

import typer

import areafit
from areafit.facts.part import Exposure
from areafit.verdict import Basis
from areafit_cli import answers, choices, name_hints, one_part, words
from areafit_cli.render import material_text

if TYPE_CHECKING:
    from areafit.findings.report import Finding
    from areafit.tables import Tables
    from areafit.tables.materials import Material


def command(
    name_words: Annotated[
        list[str],
        typer.Argument(metavar="NAME...", help="Grade, alias, EN or UNS designation, or id."),
    ],
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
    """Tell a material's data and its resistance rows, or judge it against chemicals.

    What is judged does not change the status, since this only looks things up: `part` gates.
    """
    tables = areafit.Tables.shipped()
    name = " ".join(name_words)
    found = tables.materials(name)
    if not found:
        raise name_hints.no_material(name, tables)
    chemicals = [text for text in chemical or () if text != "none"]
    named = _named(chemicals, tables)
    data = [{**answers.plain(one), "resistance": _resistance(one, named, tables)} for one in found]
    judged = _judged(name, chemicals, exposure, tables) if chemicals else []
    if format_ is answers.AnswerFormat.JSON:
        findings = [_finding(finding) for finding in judged]
        answers.say_json({"name": name, "materials": data, "findings": findings})
    elif len(data) == 1:
        answers.say(material_text.lines(data[0], judged, answers.paper()))
    else:
        each = [_judged(one.id, chemicals, exposure, tables) if chemicals else [] for one in found]
        grades = list(zip(data, each, strict=True))
        answers.say(material_text.grades(name, grades, answers.paper(), judged=bool(chemicals)))


def _named(texts: list[str], tables: "Tables") -> list[str]:
    """The names of the chemicals.

    Raises:
        CallError: one is known neither as a chemical nor as a substance, which counts as one.
    """
    names = [words.chemical(text).name for text in texts]
    for name in names:
        if not tables.chemicals(name) and not tables.substances(name):
            raise name_hints.no_chemical(name, tables)
    return names


def _resistance(
    material: "Material", chemicals: list[str], tables: "Tables"
) -> list[dict[str, object]]:
    if chemicals:
        ids = [row.id for name in chemicals for row in tables.chemicals(name)]
    else:
        ids = list(tables.ids("chemicals"))
    return [answers.plain(row) for one in ids for row in tables.resistance(material.id, one)]


def _judged(
    name: str, chemicals: list[str], exposure: Exposure, tables: "Tables"
) -> "list[Finding]":
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
    return list(part.findings())


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
