"""A material in plain text: what was judged first, then its data, then its resistance rows."""

from collections.abc import Iterator, Mapping, Sequence
from types import MappingProxyType
from typing import TYPE_CHECKING

from areafit.verdict import Verdict, worst
from areafit_cli.render.finding_text import details
from areafit_cli.render.values import block, show

if TYPE_CHECKING:
    from areafit.findings.report import Finding
    from areafit_cli.render.paper import Paper

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


def lines(material: Row, findings: "Sequence[Finding]", paper: "Paper") -> Iterator[str]:
    """The answer to the name of one grade."""
    order = list(Verdict)
    for finding in sorted(findings, key=lambda each: order.index(each.verdict)):
        yield from _finding(finding, paper)
        yield "\n"
    yield f"{paper.paint(str(material['name']), 'title')}\n"
    yield from block(_told(material), paper)
    yield from _resistance(material["resistance"], paper)


def grades(
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
    yield from paper.wrap(f"{say} are shown for one grade: `areafit material {ids[0]}`.")


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


def _resistance(rows: object, paper: "Paper") -> Iterator[str]:
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
