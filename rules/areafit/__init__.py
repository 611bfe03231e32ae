"""Checks a machine's bill of materials against the place where the machine will stand.

The library knows no terminal, clock, network or file but its own tables: callers hand it bytes
and a date, and get back frozen results. Everything is imported on first use.

`read` makes facts of a list, `judge` a report of the facts, `apply_waivers` lays waivers over it;
`decode` reads one nameplate, `Tables` answers for substances, materials and chemicals, `RULES` are
all rules with their clauses.
"""

from typing import TYPE_CHECKING

from areafit.version import __version__

if TYPE_CHECKING:
    from areafit.engine import judge
    from areafit.errors import InputError, InputErrors
    from areafit.facts.bom import Bom
    from areafit.facts.marking import Marking
    from areafit.facts.waiver import Waiver
    from areafit.file.reader import read
    from areafit.file.waivers import read_waivers
    from areafit.findings.report import BomReport, Finding, PartReport
    from areafit.findings.waivers import apply as apply_waivers
    from areafit.marking import decode
    from areafit.options import Options
    from areafit.registry import RULES
    from areafit.tables import TableError, Tables
    from areafit.verdict import Basis, Reason, Role, Verdict

__all__ = [
    "RULES",
    "Basis",
    "Bom",
    "BomReport",
    "Finding",
    "InputError",
    "InputErrors",
    "Marking",
    "Options",
    "PartReport",
    "Reason",
    "Role",
    "TableError",
    "Tables",
    "Verdict",
    "Waiver",
    "__version__",
    "apply_waivers",
    "decode",
    "judge",
    "read",
    "read_waivers",
]

_HOMES = {
    "RULES": "registry",
    "Basis": "verdict",
    "Bom": "facts.bom",
    "BomReport": "findings.report",
    "Finding": "findings.report",
    "InputError": "errors",
    "InputErrors": "errors",
    "Marking": "facts.marking",
    "Options": "options",
    "PartReport": "findings.report",
    "Reason": "verdict",
    "Role": "verdict",
    "TableError": "tables",
    "Tables": "tables",
    "Verdict": "verdict",
    "Waiver": "facts.waiver",
    "apply_waivers": "findings.waivers:apply",
    "decode": "marking",
    "judge": "engine",
    "read": "file.reader",
    "read_waivers": "file.waivers",
}


if not TYPE_CHECKING:  # to a type checker a name that is not above is a mistake

    def __getattr__(name: str) -> object:
        """Import a public name when it is first used (PEP 562)."""
        home, _, other = _HOMES.get(name, "").partition(":")
        if not home:
            raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
        from importlib import import_module  # noqa: PLC0415 - only when a name is first used

        return getattr(import_module(f"areafit.{home}"), other or name)


def __dir__() -> list[str]:
    return list(__all__)
