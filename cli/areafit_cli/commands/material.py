"""`areafit material`: a material's data, and how it stands up to chemicals."""

from collections.abc import Iterator, Mapping, Sequence
from decimal import Decimal
from types import MappingProxyType
from typing import TYPE_CHECKING, Annotated

import typer

import areafit
from areafit.facts.part import Exposure
from areafit.facts.place import ConcentrationUnit
from areafit.tables.materials import Material
from areafit.tables.names import SharedName, key
from areafit.verdict import Verdict, worst
from areafit_cli import one_part, terminal, words
from areafit_cli.errors import CallError, is_chemical
from areafit_cli.options import AnswerFormat, FullOption
from areafit_cli.render.full_text import details
from areafit_cli.render.json_text import fields
from areafit_cli.render.json_text import findings as finding_data
from areafit_cli.render.paper import block, show

if TYPE_CHECKING:
    from areafit.findings.report import Finding
    from areafit.tables import Tables
    from areafit_cli.render.paper import Paper

EXAMPLE = 'areafit material 316L --chemical "sodium hydroxide, 2 %, 60 °C" --exposure splash'
Row = Mapping[str, object]
_INDENT = 4
_FACTS = MappingProxyType(  # as `block` reads them: what follows the last `_` is the unit
    {
        "id": "id",
        "family": "family",
        "names": "names",
        "uses": "uses",
        "density_g_cm3": "density_g_cm3",
        "tmin_c": "serves from_c",
        "tmax_c": "serves to_c",
        "cr_pct": "Cr_pct",
        "ni_pct": "Ni_pct",
        "mo_pct": "Mo_pct",
        "n_pct": "N_pct",
        "pren": "PREN",
        "carbon_max_pct": "C at most_pct",
        "stabilised": "stabilised",
        "light_metal_pct_max": "light metal_pct_max",
        "mg_ti_zr_pct_max": "Mg+Ti+Zr_pct_max",
        "cu_pct_max": "Cu_pct_max",
        "high_strength": "high strength",
        "surface": "surface",
        "anodic_index_mv": "anodic index_mv",
        "behaves_as": "behaves as",
        "behaves_not": "but not in",
    }
)
_CITED = frozenset(
    {"name", "source_id", "locator", "basis", "note", "resistance"}
    | {"anodic_source_id", "anodic_basis", "anodic_note"}
)
_SHOWN = 3
_ROWS = 8  # of what was asked, in short
_START = 3  # letters; fewer start too many names


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
    full: FullOption = False,
    format_: Annotated[AnswerFormat, typer.Option("--format")] = AnswerFormat.TEXT,
) -> None:
    """Tell a material's data and its resistance rows, or judge it against chemicals.

    What is judged does not change the status, since this only looks things up: `part` gates.
    """
    tables = areafit.Tables.shipped()
    name = " ".join(name_words)
    found = tables.materials(name)
    if not found:
        raise _no_material(name, tables)
    chemicals = [text for text in chemical or () if text != "none"]
    named = _named(chemicals, tables)
    data = [{**fields(one), "resistance": _resistance(one, named, tables)} for one in found]
    read = tables.reading("materials", name)
    said = list(dict.fromkeys(row.says for row in read.said))
    judged = _judged(name, chemicals, exposure, tables) if chemicals else []
    if format_ is AnswerFormat.JSON:
        taken = {"read_as": {"fillers": list(read.fillers), "said": said}} if said else {}
        told = {"name": name, **taken, "materials": data, "findings": finding_data(judged)}
        terminal.write_json(told)
    elif len(data) == 1:
        paper = terminal.paper()
        if said:
            terminal.write(paper.wrap(f"{name!r} is read as {data[0]['name']}: {'; '.join(said)}."))
        terminal.write(
            _one_grade(data[0], judged, paper)
            if full
            else _answer(data[0], judged, chemicals, paper)
        )
    else:
        each = [_judged(one.id, chemicals, exposure, tables) if chemicals else [] for one in found]
        grades = list(zip(data, each, strict=True))
        terminal.write(_grades(name, grades, terminal.paper(), judged=bool(chemicals)))


def _named(texts: list[str], tables: "Tables") -> list[str]:
    """The names of the chemicals.

    Raises:
        CallError: one is known neither as a chemical nor as a substance, which counts as one.
    """
    names = [words.chemical(text).name for text in texts]
    for name in names:
        if not tables.chemicals(name) and not tables.substances(name):
            raise _no_chemical(name, tables)
    return names


def _resistance(
    material: Material, chemicals: list[str], tables: "Tables"
) -> list[dict[str, object]]:
    if chemicals:
        ids = [row.id for name in chemicals for row in tables.chemicals(name)]
    else:
        ids = list(tables.ids("chemicals"))
    return [fields(row) for one in ids for row in tables.resistance(material.id, one)]


def _judged(
    name: str, chemicals: list[str], exposure: Exposure, tables: "Tables"
) -> "list[Finding]":
    """What the rules for materials say, from the same engine that judges lists."""
    bom = one_part.build(
        one_part.stated(
            area="unclassified",
            chemical=chemicals,
            kind="structural",
            material=name,
            exposure=exposure.value,
        )
    )
    families = [rule.id for rule in areafit.RULES if rule.subject.value == "material"]
    (part,) = areafit.judge(bom, tables, words.options(only=families)).parts
    return list(part.findings())


# Names that are not known


def _no_material(name: str, tables: "Tables") -> CallError:
    """The error for a name that is no material; the start of a name serves as a hint too."""
    if tables.chemicals(name):
        return is_chemical(name)
    near = _starting(name, tables) or tables.nearest("materials", name)
    if near:
        return CallError(f"no material {name!r} is known; near to it: {', '.join(near)}")
    return CallError(
        f"no material {name!r} is known; write a grade or a generic name, such as 316L, FKM or "
        "POM, in place of a brand; `areafit table materials` lists them"
    )


def _starting(text: str, tables: "Tables") -> tuple[str, ...]:
    """The shortest names of materials that start with a text."""
    start = key(text)
    if len(start) < _START:
        return ()
    names = [
        name
        for row in tables.rows("materials", Material)
        for name in (row.id, row.name, *row.names)
    ]
    names += [
        row.name for row in tables.rows("shared_names", SharedName) if row.table == "materials"
    ]
    found = {key(name): name for name in names if key(name).startswith(start)}
    return tuple(found[each] for each in sorted(found, key=lambda one: (len(one), one))[:_SHOWN])


def _no_chemical(name: str, tables: "Tables") -> CallError:
    """The error for a name that is no chemical."""
    near = tables.nearest("chemicals", name)
    hint = f"near to it: {', '.join(near)}" if near else "see `areafit table chemicals`"
    return CallError(f"no chemical {name!r} is known; {hint}, or write its CAS number")


# As text: what was judged first, then its data, then its resistance rows


def _answer(
    material: Row, findings: "Sequence[Finding]", asked: list[str], paper: "Paper"
) -> Iterator[str]:
    """The answer in the first line; what is open with what closes it; rows as far as asked."""
    span = f"{show(material['tmin_c'])}..{show(material['tmax_c'])} °C"
    name = f"{material['name']}, serves at {span}"
    if findings:
        verdict = worst(finding.verdict for finding in findings)
        telling = [finding for finding in findings if finding.verdict is verdict]
        told = f" ({'; '.join(asked)})" if verdict.passes else ""  # what fails says where itself
        yield from paper.wrap(f"{paper.paint(verdict.value)}{told}: {telling[0].message}")
        for finding in findings:
            if not finding.verdict.passes:
                more = finding.message if finding is not telling[0] else ""
                said = " ".join(filter(None, (more, finding.remedy)))
                yield from paper.wrap(said, f"  {finding.verdict.value}  ", "    ")
        yield from paper.wrap(name)
        every = material["resistance"] if isinstance(material["resistance"], list) else []
        rows = [row for row in every if _asked_for(row, asked)][:_ROWS]
        for row in rows:
            yield from paper.wrap(_row(row).partition("; ")[0].partition(" (")[0], "  ", "    ")
        if len(every) > len(rows):
            yield f"  {len(every) - len(rows)} more rows, of other strengths too\n"
    else:
        yield from paper.wrap(name)
        yield from _folded(material["resistance"], paper)
    yield "data and every row with its source: --full\n"


def _asked_for(row: Row, asked: list[str]) -> bool:
    """Whether a row speaks of a strength that was asked about; of any, where none was."""
    low, high = row["conc_min_pct"], row["conc_max_pct"]
    for text in asked:
        strength = words.chemical(text).concentration
        by_mass = strength is not None and strength.unit is ConcentrationUnit.MASS
        span = strength.span if strength is not None and by_mass else None
        if span is None or not isinstance(low, Decimal) or not isinstance(high, Decimal):
            return True
        if low <= span.high and high >= span.low:
            return True
    return False


def _folded(rows: object, paper: "Paper") -> Iterator[str]:
    """The chemicals of the rows by their worst and best rating."""
    ratings: dict[str, set[str]] = {}
    for row in rows if isinstance(rows, list) else ():
        ratings.setdefault(str(row["chemical"]), set()).add(show(row["rating"]))
    folded: dict[str, list[str]] = {}
    for chemical, found in ratings.items():
        label = next(iter(found)) if len(found) == 1 else "by strength and heat"
        folded.setdefault(label, []).append(chemical)
    for label in ("suitable", "by strength and heat", "limited", "unsuitable"):
        if label in folded:
            yield from paper.labelled(label, ", ".join(folded[label]), 2, 22)


def _one_grade(material: Row, findings: "Sequence[Finding]", paper: "Paper") -> Iterator[str]:
    """The answer to the name of one grade."""
    order = list(Verdict)
    for finding in sorted(findings, key=lambda each: order.index(each.verdict)):
        yield from _finding(finding, paper)
        yield "\n"
    yield f"{paper.paint(str(material['name']), 'title')}\n"
    yield from block(_told(material), paper)
    yield from _rows(material["resistance"], paper)


def _grades(
    name: str, found: "Sequence[tuple[Row, Sequence[Finding]]]", paper: "Paper", *, judged: bool
) -> Iterator[str]:
    """One line a grade where a name may mean several; all that is known of them fills pages."""
    ids = [str(material["id"]) for material, _ in found]
    lead = f"{name!r} may be any of {len(found)} grades: {', '.join(ids)}; name one."
    yield from paper.wrap(lead)
    yield "\n"
    column = 2 + max(map(len, ids))
    for material, findings in found:
        text = _verdict(findings) if judged else str(material["name"])
        yield from paper.labelled(str(material["id"]), text, 2, column)
    yield "\n"
    say = "Findings and resistance rows" if judged else "Data and resistance rows"
    one = next((each for each in ids if key(each) != key(name)), ids[0])
    yield from paper.wrap(f"{say} are shown for one grade: `areafit material {one}`.")


def _verdict(findings: "Sequence[Finding]") -> str:
    """The worst verdict on a grade and what it rests on."""
    verdict = worst(finding.verdict for finding in findings)
    told = [finding for finding in findings if finding.verdict is verdict]
    if verdict.passes:
        return verdict.value
    reasons = (
        f"{f.rule.id}: {f.message if f.found in {'', 'not stated'} else f.found}" for f in told
    )
    return f"{verdict.value}  {'; '.join(dict.fromkeys(reasons))}"


def _finding(finding: "Finding", paper: "Paper") -> Iterator[str]:
    reason = f" ({finding.reason.value})" if finding.reason else ""
    yield f"{paper.paint(finding.verdict.value)}  {finding.rule.id}{reason}\n"
    yield from paper.wrap(finding.message, " " * _INDENT, " " * _INDENT)
    yield from details(finding, paper, _INDENT, "")


def _told(material: Row) -> dict[str, object]:
    """The facts under their labels, each source on one line."""
    told = {_FACTS.get(key, key): value for key, value in material.items() if key not in _CITED}
    if material["anodic_index_mv"] is not None:
        told["anodic source"] = _source(material, "anodic_source_id", "anodic_note", "anodic_basis")
    told["source"] = _source(material, "source_id", "locator", "note", "basis")
    return told


def _source(material: Row, *keys: str) -> str:
    return "; ".join(filter(None, (show(material[key]) for key in keys)))


def _rows(rows: object, paper: "Paper") -> Iterator[str]:
    yield paper.heading("Resistance")
    if not rows:
        yield "  no row\n"
    for row in rows if isinstance(rows, list) else ():
        yield from paper.wrap(_row(row), "  ", "      ")


def _row(row: Row) -> str:
    limit = show(row["temp_max_c"])
    heat = f"to {limit} °C" if limit else "at any temperature"
    band = f"{show(row['conc_min_pct'])}..{show(row['conc_max_pct'])} %"
    cited = f"{row['source_id']}, {row['locator']}; {row['basis']}"
    remarks = (row["mechanism"], row["figure"], row["note"])
    said = "; ".join(str(one) for one in remarks if one and one != "none")
    return (
        f"{row['chemical']} {band} {heat}: {row['rating']}"
        + (f"; {said}" if said else "")
        + (f" ({cited})")
    )
