"""What a reader must know of a run beside its findings: scope, date, own tables, void waivers."""

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from areafit.facts.waiver import Waiver
    from areafit.findings.report import BomReport
    from areafit.findings.waivers import WaiverOutcome
    from areafit_cli.render.run import Run, Summary


def scope(of: "BomReport | Summary") -> str:
    """What a narrowed or relaxed scope means, and which options made it; empty for a full one."""
    if of.scope == "full":
        return ""
    said = "; ".join(f"--{option}" for option in of.narrowed)
    return f"{of.scope}: {said or 'lists were left out of this run'}"


def of(run: "Run") -> Iterator[str]:
    """One sentence each, none where the run was plain."""
    for text in dict.fromkeys(map(scope, run.boms)):
        if text:
            yield f"Scope {text}."
    if run.unchanged:
        yield f"Scope partial: {counted(run.unchanged, 'unchanged list')} left out."
    if run.as_of:
        yield f"Judged as of {run.as_of.isoformat()}."
    if run.overlays:
        names = ", ".join(overlay.name for overlay in run.overlays)
        yield f"Own rows were laid over the shipped tables: {names}."
    for entry in run.laxer:
        yield f"An own row is {'used' if entry.approved else 'not used'}: {entry.reason}."


def counted(number: int, word: str) -> str:
    """A number of things: `1 part`, `2 parts`."""
    return f"{number} {word}" if number == 1 else f"{number} {word}s"


def void(outcomes: Iterable["WaiverOutcome"]) -> Iterator["WaiverOutcome"]:
    """The waivers that do not hold."""
    return (outcome for outcome in outcomes if outcome.state.value != "used")


def void_of(report: "BomReport") -> tuple["WaiverOutcome", ...]:
    """The waivers of one list that do not hold."""
    return tuple(void(report.waiver_outcomes))


def told(outcome: "WaiverOutcome") -> str:
    """What became of a waiver, in one sentence."""
    waiver = outcome.waiver
    about = f"{waiver.subject.value} {waiver.name}, {waiver.rule}"
    return f"Waiver for {about} is {outcome.state.value}: {outcome.message}."


def granted(waiver: "Waiver") -> str:
    """Why, by whom and until when something was waived."""
    document = f", {waiver.document}" if waiver.document else ""
    return f"{waiver.reason}; {waiver.approved_by}{document}, until {waiver.until.isoformat()}"
