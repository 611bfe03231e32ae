"""What a SARIF log says of the run beside its results, and where things are."""

from typing import TYPE_CHECKING

from areafit.facts.bom import Position
from areafit_cli.render import remarks

if TYPE_CHECKING:
    from areafit_cli.render.run import Run

_KEPT = frozenset("abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-._~/")


def invocation(run: "Run") -> dict[str, object]:
    """Whether every list could be read, what could not, and what limits the result."""
    faults = [
        _notification(
            f"{fault.message}; {fault.remedy}" if fault.remedy else fault.message,
            "error",
            Position(fault.path, fault.line, fault.column),
        )
        for fault in run.faults
    ]
    limits = [_notification(remark, "note") for remark in remarks.of(run)]
    void = [
        _notification(remarks.told(outcome), "warning", outcome.waiver.position)
        for bom in run.boms
        for outcome in bom.void
    ]
    return {
        "executionSuccessful": not run.faults,
        "toolExecutionNotifications": faults,
        "toolConfigurationNotifications": [*limits, *void],
    }


def properties(run: "Run") -> dict[str, object]:
    """Gate and scope of the run and of each list."""
    return {
        "gate": run.gate,
        "asOf": run.as_of and run.as_of.isoformat(),
        "tables": run.tables,
        "ownTables": [overlay.name for overlay in run.overlays],
        "lists": [
            {"path": bom.path, "assembly": bom.number, "gate": bom.gate, "scope": bom.scope}
            for bom in run.boms
        ],
    }


def _notification(text: str, level: str, position: Position | None = None) -> dict[str, object]:
    told: dict[str, object] = {"level": level, "message": {"text": safe(text)}}
    if position is not None:
        told["locations"] = [{"physicalLocation": physical(position)}]
    return told


def physical(position: Position) -> dict[str, object]:
    """File, line and column; what has no line is about the file, so its first."""
    return {
        "artifactLocation": {"uri": _uri(position.file)},
        "region": {
            "startLine": max(position.line, 1),
            "startColumn": max(position.column, 1),
        },
    }


def safe(text: str) -> str:
    """A message in which nothing reads as the embedded link of SARIF 2.1.0, 3.11.6."""
    return text.replace("](", "] (")


def _uri(path: str) -> str:
    """The path as a relative reference (RFC 3986): what is not a path character is escaped."""
    return "".join(
        char
        if char in _KEPT
        else "".join(f"%{byte:02X}" for byte in char.encode("utf-8", "replace"))
        for char in path
    )
