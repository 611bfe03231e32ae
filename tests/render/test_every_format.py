"""What every format must say: scope, date, own tables, waivers that do not hold, cautions."""

import json
import re
import tomllib
from datetime import date
from pathlib import Path
from typing import Any

import pytest

import areafit
from areafit.engine import judge
from areafit.errors import InputError
from areafit.facts.bom import Position
from areafit.findings.cautions import CAUTIONS
from areafit.options import Options
from areafit.tables import LaxerValue, Tables
from areafit.values import replace
from areafit.verdict import Verdict
from areafit_cli import render
from areafit_cli.render import Style

ROOT = Path(__file__).parents[2]
# Read by people, so that each caution must be there.
READ = ("text", "json", "markdown", "html", "csv", "junit", "sarif")


def plain(text: str) -> str:
    """The words of a report without the escapes and breaks of its format."""
    text = re.sub(r"<span></span>|\\", "", text)
    return re.sub(r"\s+", " ", text).replace("&#x27;", "'")


def test_the_contract_keeps_every_format_apart() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    contracts = {each["name"]: each for each in project["tool"]["importlinter"]["contracts"]}
    kept = {name.rpartition(".")[2] for name in contracts["formats stay apart"]["modules"]}
    assert kept == {f"as_{name}" for name in render.NAMES}


@pytest.mark.parametrize("kind", READ)
def test_cautions_stand_where_people_read(made: Any, kind: str) -> None:
    text = plain(made.rendered(kind, made.run(made.rich), made.rich))
    for caution in CAUTIONS:
        assert caution in text


@pytest.mark.parametrize("kind", render.NAMES)
@pytest.mark.parametrize(
    ("options", "scope"),
    [
        ({"skip": frozenset({"ingress"})}, "partial"),
        ({"accept_unproven": frozenset({"evidence"})}, "relaxed"),
        ({"as_of_chosen": True}, "relaxed"),
    ],
)
@pytest.mark.parametrize("name", ["plain", "rich"])
def test_the_scope_is_said_passing_or_not(
    made: Any, kind: str, options: dict[str, Any], scope: str, name: str
) -> None:
    report = made.judged(made.listed(name), f"{name}.yaml", **options)
    text = made.rendered(kind, made.run(report), report)
    assert scope in text
    assert ("pass" in report.gate) == (name == "plain")
    full = made.judged(made.listed(name), f"{name}.yaml")
    shown = made.rendered(kind, made.run(full), full).replace("partialFingerprints", "")
    assert scope not in shown


@pytest.mark.parametrize("kind", [name for name in render.NAMES if name != "json"])
def test_lists_left_out_as_unchanged_are_said(made: Any, kind: str) -> None:
    whole = made.run(unchanged=2)
    assert whole.gate == "pass (partial)"
    assert "2 unchanged lists" in plain(made.rendered(kind, whole))


def test_json_of_nothing_but_unchanged_lists_says_so_by_its_gate(made: Any) -> None:
    assert json.loads(made.rendered("json", made.run(unchanged=2)))["gate"] == "pass (partial)"


@pytest.mark.parametrize("kind", render.NAMES)
def test_own_tables_are_named(made: Any, kind: str) -> None:
    whole = made.run(made.plain, overlays=["resistance.csv"])
    assert "resistance.csv" in made.rendered(kind, whole, made.plain)


@pytest.mark.parametrize("kind", render.NAMES)
@pytest.mark.parametrize(
    ("approved", "said"), [("", "not used"), ("materials engineer, 2026-03-31", "is used")]
)
def test_own_values_that_ask_for_less_are_told(
    made: Any, kind: str, approved: str, said: str
) -> None:
    where = "substance_values.csv:2"
    value = LaxerValue(
        "acetone", "autoignition_c", "600", "465", where, f"{where} gives 600", approved
    )
    whole = made.run(made.plain, overlays=["substance_values.csv"], laxer=[value])
    text = made.rendered(kind, whole, made.plain)
    if kind == "json":
        (told,) = json.loads(text)["tables"][0]["laxer"]
        assert (told["line"], told["value"], told["approved"]) == (2, "600", approved or None)
    else:
        assert said in plain(text)


@pytest.mark.parametrize("kind", render.NAMES)
@pytest.mark.parametrize("state", ["expired", "stale", "unmatched"])
def test_a_waiver_that_does_not_hold_is_said(made: Any, kind: str, state: str) -> None:
    assert state in made.rendered(kind, made.run(made.rich), made.rich)


@pytest.mark.parametrize(
    "kind", [name for name in render.NAMES if name not in ("github", "gitlab")]
)
def test_what_is_waived_is_shown_with_its_reason(made: Any, kind: str) -> None:
    only = made.judged(made.listed("rich"), "rich.yaml", only=frozenset({"static-surface"}))
    from areafit.findings.waivers import apply

    found = made.open_of(only, "3")
    report = apply(only, [made.waiver("3", each) for each in found], made.day)
    part = next(each for each in report.parts if each.name == "3")
    assert part.verdict is Verdict.WAIVED
    text = made.rendered(kind, made.run(report), report)
    assert "replaced yearly" in text
    assert "process owner" in text


@pytest.mark.parametrize("kind", render.NAMES)
def test_a_part_of_which_nothing_was_judged_is_no_silence(made: Any, kind: str) -> None:
    report = made.judged(made.listed("plain").replace("chemicals: none", "chemicals: [water]"))
    (part,) = report.parts
    assert part.verdict is Verdict.UNPROVEN
    assert list(made.open_of(report, "1"))
    text = plain(made.rendered(kind, made.run(report), report))
    assert made.open_of(report, "1")[0].message in text


@pytest.mark.parametrize("kind", render.NAMES)
def test_loops_places_list_and_alternates_are_there(made: Any, kind: str) -> None:
    wet = made.listed("rich").replace("    document: AC-1 rev A\n    ingress", "    ingress")
    report = made.judged(wet, "rich.yaml")
    text = made.rendered(kind, made.run(report), report)
    for rule in ("loop-voltage", "assembly-assessment", "declared-area"):
        assert rule in text
    assert "RF-100B" in text or "alternates/0" in text


@pytest.mark.parametrize("kind", render.NAMES)
def test_several_lists_stand_in_one_report(made: Any, kind: str) -> None:
    text = made.rendered(kind, made.run(made.plain, made.rich), made.plain, made.rich)
    assert "rich.yaml" in text
    assert "plain.yaml" in text or kind == "gitlab"


@pytest.mark.parametrize("kind", render.NAMES)
def test_hostile_text_holds_no_control_character(made: Any, kind: str) -> None:
    report = made.hostile_report()
    text = made.rendered(kind, made.run(report), report, style=Style(200))
    allowed = "\r\n" if kind == "csv" else "\n"
    assert all(sign in allowed or sign.isprintable() for sign in text)
    text.encode()  # no half of a pair is left


LIST = """areafit: 1
assembly: {number: T-1}
code: IEC
locations:
  cell: {area: Zone 1, substances: [{name: carbon disulfide, autoignition: 220 °C, source: TR-9,
         document: D-9}]}
parts:
  - {item: '1', location: cell, kind: electrical, marking: Ex db IIC T3 Gb}
"""


@pytest.mark.parametrize("kind", [name for name in render.NAMES if name != "github"])
@pytest.mark.parametrize("start", ["::error::x", "##vso[task.complete]x", "a ##[group]b"])
def test_no_line_is_a_command_of_a_build_service(made: Any, kind: str, start: str) -> None:
    """`##[` is one anywhere in a line: `ActionCommand.cs` of the runner of GitHub Actions, read."""
    report = made.hostile_report()
    called = replace(report, bom=replace(report.bom, name=start))
    error = InputError(start, start, Position(start, 1, 1))
    lines = made.rendered(kind, made.run(called, errors=[error]), called).splitlines()
    assert not any(line.lstrip().startswith(("::", "##vso[")) or "##[" in line for line in lines)


@pytest.mark.parametrize("kind", render.NAMES)
def test_a_milder_own_value_stands_in_every_format(made: Any, kind: str) -> None:
    """Common practice, no source: whoever reads a report must see that somebody relaxed a row."""
    report = judge(
        areafit.read(LIST.encode(), "t.yaml"), Tables.shipped(), Options(as_of=date(2026, 1, 1))
    )
    for style in (Style(), Style(full=True)):
        text = plain(made.rendered(kind, made.run(report), report, style=style))
        assert re.search(r"220.°C stated in the list", text)
        assert "TR-9" in text
