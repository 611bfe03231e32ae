"""Writes how far the tables were checked into the README, between two markers; run by hand.

python tests/tables/readme_basis.py
"""

from collections import Counter
from pathlib import Path

from areafit.tables import load
from areafit.verdict import Basis

README = Path(__file__).parents[2] / "README.md"
START = "<!-- bases: made by tests/tables/readme_basis.py -->\n"
END = "<!-- end of bases -->\n"
TABLES = {
    "acceptance, types of protection, purges, ingress, classes, editions": (
        "acceptance",
        "editions",
        "enclosure_types",
        "minimum_ingress",
        "protection_types",
        "purges",
        "superseded_forms",
        "temperature_classes",
    ),
    "unmarked devices and wiring under NFPA 70": ("general_purpose", "wiring_methods"),
    "light metals, static, belts, tools": (
        "belts",
        "hand_tools",
        "light_metal_limits",
        "static_limits",
        "steel_tool_gases",
    ),
    "single figures": ("figures",),
    "clauses cited": ("clauses",),
    "gases and vapours, their values": ("substance_values",),
    "dusts, their values": ("dust_values",),
    "vapour pressures": ("vapour_pressures",),
    "chemicals that must not meet": ("epa_groups", "incompatible"),
    "resistance of materials": ("class_resistance", "resistance"),
}
"""What a designer would call them, and the tables of it; tables of words are left out."""


def counted(tables: tuple[str, ...]) -> Counter[str]:
    """The rows of these tables by basis."""
    found: Counter[str] = Counter()
    for name in tables:
        header, rows = load.raw(name)
        found.update(row[header.index("basis")] for row in rows)
    return found


def shares(counts: Counter[str]) -> list[int]:
    """Per cent of the rows by basis, best first."""
    return [round(100 * counts[basis.value] / counts.total()) for basis in Basis]


def made(readme: str) -> str:
    """The README with the table as it is now."""
    before, _, rest = readme.partition(START)
    _, _, after = rest.partition(END)
    head = " | ".join(basis.value for basis in Basis)
    lines = [f"| table | rows | {head} |\n", "| --- | --- | --- | --- | --- | --- |\n"]
    for title, tables in TABLES.items():
        counts = counted(tables)
        cells = " | ".join(f"{share} %" for share in shares(counts))
        lines.append(f"| {title} | {counts.total():,} | {cells} |\n")
    return f"{before}{START}{''.join(lines)}{END}{after}"


if __name__ == "__main__":
    README.write_text(made(README.read_text(encoding="utf-8")), encoding="utf-8")
