"""Reports made by the real engine, and all formats of them, for the tests of renderers."""

from collections.abc import Callable, Sequence
from datetime import date
from pathlib import Path
from typing import Any

import pytest

import areafit
from areafit.errors import InputError
from areafit.facts.bom import Position
from areafit.facts.waiver import WaivedSubject, Waiver
from areafit.findings.report import BomReport, Finding
from areafit.findings.waivers import apply
from areafit.tables import LaxerValue
from areafit_cli import render
from areafit_cli.render import Overlay, Run, Style, summarise

LISTS = Path(__file__).parent / "lists"
DAY = date(2026, 3, 31)
HOSTILE = (
    "=cmd|' /C calc'!A0 <script>alert(1)</script> ]]> --> `x` [y](http://evil.invalid) "
    "@everyone #1 | :smile: %0A::error::x \" ' & ;=1+1 [bold]z[/] "
    "\x1b]52;c;aGk=\x07 \u202egnp \u200b \u2028 \n::stop-commands::t\r\nFLAG none"
)


def judged(text: str, name: str = "list.yaml", **options: Any) -> BomReport:
    """The report on a list of this text, on a fixed day."""
    bom = areafit.read(text.encode(), name)
    return areafit.judge(bom, areafit.Tables.shipped(), areafit.Options(as_of=DAY, **options))


def listed(name: str) -> str:
    return (LISTS / f"{name}.yaml").read_text(encoding="utf-8")


def waiver(name: str, found: Finding, *, until: date = date(2027, 1, 31), **more: str) -> Waiver:
    facts = {
        "fingerprint": found.fingerprint,
        "reason": "replaced yearly",
        "approved_by": "process owner",
        "document": "DN-12",
        "rule": found.rule.id,
        **more,
    }
    place = Position("waivers.yaml", 4, 5)
    return Waiver(WaivedSubject.ITEM, name, until=until, position=place, **facts)


def open_of(report: BomReport, item: str) -> list[Finding]:
    (part,) = (each for each in report.parts if each.name == item)
    return [each for each in part.findings() if not each.verdict.passes]


def waived() -> BomReport:
    """The rich list with a waiver that holds and one of each kind that does not."""
    report = judged(listed("rich"), "rich.yaml")
    flag = open_of(report, "3")[0]
    others = open_of(report, "2")
    waivers = (
        waiver("3", flag),
        waiver("2", others[0], until=date(2026, 1, 31)),
        waiver("2", others[1], fingerprint="2:" + "0" * 24),
        waiver("9", flag, fingerprint="2:" + "9" * 24),
    )
    return apply(report, waivers, DAY)


def run(
    *reports: BomReport,
    errors: Sequence[InputError] = (),
    overlays: Sequence[str] = (),
    as_of: date | None = None,
    unchanged: int = 0,
    laxer: Sequence[LaxerValue] = (),
) -> Run:
    own = tuple(Overlay(name, "ab" * 32) for name in overlays)
    summed = tuple(map(summarise, reports))
    return Run("1.2.3", "0" * 64, summed, tuple(errors), own, as_of, unchanged, tuple(laxer))


def rendered(kind: str, whole: Run, *reports: BomReport, style: Style | None = None) -> str:
    """A whole report, put together as the command does it."""
    shape, style = render.find(kind), style or Style(full=True)
    bodies = ["".join(shape.body(each, style)) for each in reports]
    middle = shape.between.join(filter(None, bodies))
    return "".join((*shape.head(whole, style), middle, *shape.tail(whole, style)))


ERROR = InputError(
    "unknown key 'mterial'", "did you mean 'material'", Position("broken.yaml", 3, 7)
)

Render = Callable[..., str]


class Made:
    """What tests are handed: the functions above by name."""

    judged = staticmethod(judged)
    listed = staticmethod(listed)
    run = staticmethod(run)
    rendered = staticmethod(rendered)
    waiver = staticmethod(waiver)
    open_of = staticmethod(open_of)
    day = DAY
    error = ERROR
    hostile = HOSTILE

    def __init__(self) -> None:
        self.rich = waived()
        self.plain = judged(listed("plain"), "plain.yaml")

    def hostile_report(self) -> BomReport:
        """A report in which every foreign text is hostile; the file's reader is passed by."""
        from areafit.values import replace

        bom = self.rich.bom
        parts = tuple(
            replace(
                each,
                part=replace(each.part, description=HOSTILE, part_number=HOSTILE),
            )
            for each in self.rich.parts
        )
        assembly = replace(bom.assembly, number=HOSTILE, title=HOSTILE, revision=HOSTILE)
        places = {name: replace(each, title=HOSTILE) for name, each in bom.places.items()}
        locate = bom.locate
        hostile = replace(
            bom,
            name=f"a b/\ud800{HOSTILE}.yaml",  # a path may hold any byte
            assembly=assembly,
            places=places,
            jurisdiction=HOSTILE,
            locate=lambda path: Position(HOSTILE, locate(path).line, locate(path).column),
        )
        outcomes = tuple(
            replace(each, waiver=replace(each.waiver, reason=HOSTILE, name=HOSTILE))
            for each in self.rich.waiver_outcomes
        )
        subjects: dict[str, Any] = {
            "own": replace(self.rich.own, name=HOSTILE, bom=hostile),
            "parts": tuple(replace(each, bom=hostile) for each in parts),
            "places": tuple(replace(each, bom=hostile) for each in self.rich.places),
            "loops": tuple(replace(each, bom=hostile, name=HOSTILE) for each in self.rich.loops),
        }
        return replace(self.rich, bom=hostile, waiver_outcomes=outcomes, **subjects)


@pytest.fixture(scope="session")
def made() -> Made:
    return Made()
