"""`areafit check` from files to gate, and `areafit part` beside it."""

import json
import os
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from areafit_cli.__main__ import run
from areafit_cli.errors import Exit

Capture = pytest.CaptureFixture[str]
PASSING = """\
areafit: 1
assembly: {number: T-1, title: Packing table}
code: IEC
locations:
  hall:
    area: unclassified
    document: AC-1
    substances: none
    chemicals: none
    ambient: 5..40 °C
parts:
  - {item: "1", location: hall, kind: structural, description: Frame}
"""
FAILING = PASSING.replace("unclassified", "Zone 1, IIB, T3").replace("structural", "electrical")
BROKEN = PASSING.replace("item:", "itm:") + "colour: red\n"


@pytest.fixture(autouse=True)
def lists(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("COLUMNS", "100")
    (tmp_path / "good.yaml").write_text(PASSING, encoding="utf-8")
    (tmp_path / "bad.yaml").write_text(FAILING, encoding="utf-8")
    (tmp_path / "broken.yaml").write_text(BROKEN, encoding="utf-8")
    return tmp_path


def report(capsys: Capture, *arguments: str, status: Exit) -> Any:
    assert run(["check", *arguments, "--format", "json"]) == status
    return json.loads(capsys.readouterr().out)


@pytest.mark.parametrize(
    ("arguments", "status"),
    [
        (["good.yaml"], Exit.PASSED),
        (["bad.yaml"], Exit.FAILED),
        (["bad.yaml", "--exit-zero"], Exit.PASSED),
        (["good.yaml", "bad.yaml"], Exit.FAILED),
        (["broken.yaml"], Exit.WRONG_INPUT),
        (["broken.yaml", "--exit-zero"], Exit.WRONG_INPUT),
        (["bad.yaml", "broken.yaml", "gone.yaml"], Exit.WRONG_INPUT),
    ],
)
def test_the_highest_status_wins(arguments: list[str], status: Exit) -> None:
    assert run(["check", *arguments]) == status


def test_an_unreadable_list_stops_no_other(capsys: Capture) -> None:
    assert run(["check", "broken.yaml", "good.yaml", "--format", "json"]) == Exit.WRONG_INPUT
    shown = capsys.readouterr()
    told = json.loads(shown.out)
    assert [bom["path"] for bom in told["boms"]] == ["good.yaml"]
    assert told["gate"] == "fail"
    lines = [(error["path"], error["line"]) for error in told["errors"]]
    assert ("broken.yaml", 12) in lines
    assert ("broken.yaml", 13) in lines
    assert all(f"broken.yaml:{line}:" in shown.err for _, line in lines)
    assert all(error["message"] and error["remedy"] for error in told["errors"])


def test_the_text_report_starts_with_the_gate(capsys: Capture) -> None:
    run(["check", "bad.yaml"])
    text = capsys.readouterr().out
    assert text.index("GATE fail") < text.index("TO ANSWER") < text.index("PLACES")
    run(["check", "bad.yaml", "--full"])
    text = capsys.readouterr().out
    assert text.index("GATE fail") < text.index("OPEN POINTS") < text.index("REQUIREMENTS BY")
    assert text.index("REQUIREMENTS BY") < text.index("CAUTIONS")
    assert "item 1 · Frame · at hall · bad.yaml:12:5" in text


def test_quiet_says_one_line_where_everything_passes(capsys: Capture) -> None:
    assert run(["check", "good.yaml", "--quiet"]) == Exit.PASSED
    assert capsys.readouterr() == ("GATE pass · good.yaml\n", "")


def test_formats_go_to_their_outputs(capsys: Capture, lists: Path) -> None:
    outputs = ["--format", "json", "--output", "r.json", "--format", "text"]
    assert run(["check", "good.yaml", *outputs]) == Exit.PASSED
    assert "GATE pass" in capsys.readouterr().out
    assert json.loads((lists / "r.json").read_text(encoding="utf-8"))["gate"] == "pass"


def test_other_yaml_files_are_counted(capsys: Capture, lists: Path) -> None:
    (lists / "broken.yaml").write_text("other: 1\n")
    assert run(["check", "."]) == Exit.FAILED
    assert "left out 1 YAML file that is" in capsys.readouterr().err


def test_a_narrowed_or_relaxed_run_says_so(capsys: Capture) -> None:
    only = report(capsys, "good.yaml", "--only", "place-stated", status=Exit.PASSED)
    assert (only["gate"], only["boms"][0]["scope"]) == ("pass (partial)", "partial")
    dated = report(capsys, "good.yaml", "--as-of", "2020-01-31", status=Exit.PASSED)
    assert (dated["gate"], dated["as_of"]) == ("pass (relaxed)", "2020-01-31")
    assert report(capsys, "good.yaml", status=Exit.PASSED)["as_of"] is None
    run(["check", "good.yaml", "--skip", "kind", "--as-of", "2020-01-31"])
    assert "relaxed: --as-of 2020-01-31; --skip kind\n" in capsys.readouterr().out


def test_several_processes_say_the_same(capsys: Capture) -> None:
    assert run(["check", ".", "--format", "json"]) == Exit.WRONG_INPUT
    one = capsys.readouterr()
    assert run(["check", ".", "--format", "json", "--jobs", "3"]) == Exit.WRONG_INPUT
    assert capsys.readouterr() == one


def test_the_bytes_depend_on_no_hash_seed(lists: Path) -> None:
    made = {
        subprocess.run(
            [sys.executable, "-m", "areafit_cli", "check", "bad.yaml", "--format", kind],
            cwd=lists,
            env={**os.environ, "PYTHONHASHSEED": seed},
            capture_output=True,
            check=False,
        ).stdout
        for seed in ("0", "1", "77")
        for kind in ("json",)
    }
    assert len(made) == 1
    assert str(lists).encode() not in made.pop()


def test_the_installed_command_reads_standard_input(lists: Path) -> None:
    script = Path(sys.executable).with_name("areafit")
    ran = subprocess.run(
        [script, "check", "-"], input=BROKEN.encode(), cwd=lists, capture_output=True, check=False
    )
    assert ran.returncode == Exit.WRONG_INPUT
    assert ran.stdout == b""
    assert ran.stderr.startswith(b"<stdin>:")


def test_standard_input_is_read_among_several_lists(lists: Path) -> None:
    arguments = ["check", "-", "good.yaml", "--jobs", "2", "--quiet"]
    ran = subprocess.run(
        [sys.executable, "-m", "areafit_cli", *arguments],
        input=PASSING.encode(),
        cwd=lists,
        capture_output=True,
        check=False,
    )
    told = (ran.returncode, ran.stdout, ran.stderr)
    assert told == (Exit.PASSED, b"GATE pass over 2 lists\n", b"")


def test_a_table_of_ones_own_is_named_in_the_report(capsys: Capture, lists: Path) -> None:
    (lists / "own").mkdir()
    header = "id,title,edition,publisher,kind,read_on,note\n"
    row = "house,House rules,1,,practice,2026-01-31,\n"
    (lists / "own" / "sources.csv").write_text(header + row)
    told = report(capsys, "good.yaml", "--tables", "own", status=Exit.PASSED)
    plain = report(capsys, "good.yaml", status=Exit.PASSED)
    assert [table["name"] for table in told["tables"]] == ["sources.csv"]
    assert told["tool"]["tables"] != plain["tool"]["tables"]
    (lists / "own" / "sources.csv").write_text("id\nhouse\n")
    (lists / "own" / "valves.csv").write_text("id\nhouse\n")
    assert run(["check", "good.yaml", "--tables", "own"]) == Exit.WRONG_INPUT
    first, second = capsys.readouterr().err.splitlines()  # each error on a line of its own
    assert first.startswith("areafit: sources.csv:1: the columns differ")
    assert second.startswith("areafit: valves.csv:1: no table has this name")


def test_a_failing_report_says_what_to_run_next(capsys: Capture) -> None:
    assert run(["check", "bad.yaml"]) == Exit.FAILED
    whole = capsys.readouterr().out
    assert whole.endswith("next: areafit actions bad.yaml · --full for clauses and sources\n")
    assert run(["check", "bad.yaml", "--full"]) == Exit.FAILED
    whole = capsys.readouterr().out
    assert whole.endswith(
        "Next: `areafit actions bad.yaml` lists the questions by who answers them.\n"
    )
    assert "    found     not stated\n" in whole
    assert run(["check", "good.yaml"]) == Exit.PASSED
    assert "next: " not in capsys.readouterr().out
    assert run(["check", "bad.yaml", "--quiet"]) == Exit.FAILED
    quiet = capsys.readouterr().out
    assert "    found     not stated\n" not in quiet  # the message says so
    assert "Next: " not in quiet


def test_one_part_says_the_answer_first(capsys: Capture) -> None:
    call = ["part", "Ex db IIC T4 Gb", "--area", "Zone 1, IIB, T3", "--substance", "toluene"]
    assert run(call) == Exit.PASSED
    lines = capsys.readouterr().out.splitlines()
    assert lines[0] == "fits: nameplate against place, not released"
    assert len(lines) <= 15
    assert any("judged for -20..40 °C" in line for line in lines)
    assert any(line.startswith("to release it in a list, also: ") for line in lines)
    assert run([*call, "--format", "json"]) == Exit.PASSED
    told = json.loads(capsys.readouterr().out)["boms"][0]
    assert (told["gate"], told["scope"]) == ("pass (partial)", "partial")
    assert run([*call, "--whole"]) == Exit.FAILED
    told = " ".join(capsys.readouterr().out.split())
    suits, _, rest = told.partition(" parts 1: ")
    assert "GATE fail shown to suit kind, protection-level, " in suits
    assert "temperature-class" in suits
    assert "ambient-range" not in suits  # the air is not stated
    assert "OPEN POINTS" in rest


@pytest.mark.parametrize(
    ("marking", "area", "more"),
    [
        ("Ex db IIC T4 Gb X", "Zone 1, IIB, T3", ()),  # an X: its conditions are met by somebody
        ("Ex db IIC T4 Gb U", "Zone 1, IIB, T3", ()),  # a component alone is no equipment
        ("Ex db IIC Gb", "Zone 1, IIB, T3", ()),  # no class is marked
        ("Ex db IIC T4 Gb", "Zone 1", ()),  # nothing says which group and class are asked for
        ("Ex db IIC T4 Gb", "Zone 1, IIB, T3", ("--ambient", "-20..50 °C")),
        ("Ex ec IIC T4 Gc", "Zone 1, IIB, T3", ()),
    ],
)
def test_what_a_nameplate_leaves_open_is_no_fit(
    capsys: Capture, marking: str, area: str, more: tuple[str, ...]
) -> None:
    assert run(["part", marking, "--area", area, *more]) == Exit.FAILED
    lines = capsys.readouterr().out.splitlines()
    assert lines[0].partition(":")[0] in {"does not fit", "unproven"}
    assert len(lines) <= 15


def test_a_substance_says_what_an_area_does_not(capsys: Capture) -> None:
    call = ["part", "Ex db IIC T4 Gb", "--area", "Zone 1", "--substance", "toluene"]
    assert run(call) == Exit.PASSED
    assert capsys.readouterr().out.startswith("fits: ")
    assert run(["part", "Ex db IIA T1 Gb", *call[2:-1], "carbon disulfide"]) == Exit.FAILED
    assert capsys.readouterr().out.startswith("does not fit: ")


def test_materials_of_a_part_are_asked_without_a_nameplate(capsys: Capture) -> None:
    bath = ["--chemical", "hydrochloric acid, 10 %, 25 °C", "--exposure", "immersed"]
    call = ["part", "--kind", "structural", "--area", "unclassified", *bath]
    assert run([*call, "--material", "316L"]) == Exit.FAILED
    assert capsys.readouterr().out.startswith("does not fit: materials against chemicals")
    assert run([*call, "--material", "PTFE"]) == Exit.PASSED
    assert capsys.readouterr().out.startswith("fits: materials against chemicals, not released")


def test_one_part_gates_like_a_list(capsys: Capture) -> None:
    place = ["--area", "unclassified", "--document", "AC-1", "--ambient", "5..40 °C"]
    rest = ["--substance", "none", "--chemical", "none", "--kind", "structural"]
    assert run(["part", *place, *rest]) == Exit.PASSED
    assert capsys.readouterr().out.startswith("fits: ")
    assert run(["part", *place, *rest, "--whole"]) == Exit.PASSED
    assert "GATE pass" in capsys.readouterr().out
    zone = ["--area", "Zone 1, IIB, T3", "--document", "AC-1", "--substance", "ethanol", "--whole"]
    assert run(["part", "Ex db IIA T1 Gb", *zone]) == Exit.FAILED
    text = capsys.readouterr().out
    assert "flag  gas-group" in text
    assert "see       MARKING" in text
    assert run(["part", "Ex db IIA T1 Gb", *zone, "--exit-zero", "--format", "json"]) == 0
    told = json.loads(capsys.readouterr().out)
    assert told["boms"][0]["code"] == "IEC"
    assert told["boms"][0]["parts"][0]["verdict"] == "flag"


PART = (
    *("part", "II 2G Ex eb IIC T4 Gb", "--area", "Zone 1, IIB, T3", "--substance", "toluene"),
    *("--chemical", "none", "--ambient", "5..40 °C", "--document", "AC-1", "--code", "ATEX"),
    *("--edition", "2014", "--certificate", "ABC 21 ATEX 0001", "--declaration", "D-1"),
    *("--ingress", "IP66"),
    *("--material", "304", "--materials-complete", "--exposure", "fume", "--no-contacts"),
    *("--rated-ambient", "-20..40 °C", "--bonded", "--entries", "none"),
    "--whole",
)


def test_a_certified_part_passes_and_the_assembly_is_left_to_a_list(capsys: Capture) -> None:
    assert run([*PART, "--format", "json"]) == Exit.PASSED
    (bom,) = json.loads(capsys.readouterr().out)["boms"]
    edition, assembly = bom["findings"]  # the edition counts for a single part too
    assert (edition["rule"], edition["verdict"]) == ("edition", "pass")
    assert (bom["gate"], assembly["verdict"]) == ("pass", "not applicable")
    assert "not judged" in assembly["message"]
    assert assembly["required"]
    assert run([*PART]) == Exit.PASSED
    assert "authority having jurisdiction" in capsys.readouterr().out
    unknown = ["1994" if word == "2014" else word for word in PART]
    assert run([*unknown]) == Exit.FAILED


@pytest.mark.parametrize("left_out", ["--bonded", "--entries", "--document", "--material"])
def test_what_a_part_lacks_is_named_by_its_option(capsys: Capture, left_out: str) -> None:
    stated = list(PART)
    place = stated.index(left_out)
    del stated[place : place + (1 if left_out == "--bonded" else 2)]
    if left_out == "--material":
        stated.remove("--exposure")
        stated.remove("fume")
    assert run(stated) == Exit.FAILED
    seen = [line for line in capsys.readouterr().out.splitlines() if "    see  " in line]
    assert any(left_out in line for line in seen)


def test_what_no_option_states_is_said_to_need_a_list(capsys: Capture) -> None:
    motor = ["part", "Ex eb IIC T3 Gb", "--device", "squirrel-cage motor"]
    assert run([*motor, "--area", "Zone 1, IIB, T3", "--whole"]) == Exit.FAILED
    assert "`inverter_fed` in a list, for which there is no option" in capsys.readouterr().out


MECHANICAL = [
    *("part", "--kind", "mechanical", "--electrical-content", "none"),
    *("--description", "Cylinder", "--area", "Zone 1, IIB, T3", "--document", "AC-1"),
    *("--substance", "toluene", "--chemical", "none", "--ambient", "5..40 °C"),
    *("--assessment", "IHA-1, Gb", "--rubbing-speed", "0.5 m/s", "--drop-height", "none"),
    *("--end-stops", "none", "--drive", "pneumatic", "--air-drawn", "outside the area"),
    *("--air-let-out", "outside the area", "--on-loss-of-air", "safe", "--bonded"),
    *(
        "--surface-temperature",
        "60 °C at 40 °C, rare malfunction",
        "--material",
        "316L",
        "--exposure",
        "room",
    ),
    *("--materials-complete", "--no-contacts", "--loose-parts", "captive", "--release", "tool"),
]


def test_options_say_everything_of_a_mechanical_part(capsys: Capture) -> None:
    """What shows it safe by ISO 80079-36 5.2: the assessment, and speed, blows, air and earth."""
    assert run([*MECHANICAL, "--whole"]) == Exit.PASSED, capsys.readouterr().out
    capsys.readouterr()
    for option in ("--assessment", "--on-loss-of-air", "--electrical-content", "--material"):
        place = MECHANICAL.index(option)
        assert run([*MECHANICAL[:place], *MECHANICAL[place + 2 :], "--whole"]) == Exit.FAILED
        assert "unproven" in capsys.readouterr().out


def test_a_part_is_answered_in_fifteen_lines_and_by_titles(capsys: Capture) -> None:
    assert run(MECHANICAL) == Exit.PASSED
    told = capsys.readouterr().out
    assert told.startswith("fits: ")
    assert len(told.splitlines()) <= 15
    assert "shown: " in told
    assert "Moving surfaces rub slowly, or their friction is assessed" in " ".join(told.split())
    assert "…" not in told.partition("shown: ")[2]
    assert "rubbing-speed" not in told


@pytest.mark.parametrize("columns", ["60", "80", "100"])
def test_no_flag_of_one_part_gives_way_to_what_was_shown(
    capsys: Capture, monkeypatch: pytest.MonkeyPatch, columns: str
) -> None:
    """Ammonia cracks brass; a European code serves no Division; three metres a second rub hot."""
    monkeypatch.setenv("COLUMNS", columns)
    place = ["--area", "Class I, Division 1, Group C", "--chemical", "ammonia, 5 %, 20 °C"]
    part = ["II 2G Ex db IIB T3 Gb", "--material", "brass", "--exposure", "immersed"]
    more = ["--rubbing-speed", "3 m/s", "--bonded", "--drive", "pneumatic"]
    assert run(["part", *part, *place, *more]) == Exit.FAILED
    told = capsys.readouterr().out
    assert len(told.splitlines()) <= 15
    shown = told.partition("shown: ")[2].partition("judged for")[0]
    assert told.count("  flag  ") == 4 or shown.count("\n") <= 1  # a flag takes two lines


@pytest.mark.parametrize("left_out", range(1, len(MECHANICAL), 3))
def test_whatever_is_asked_takes_fifteen_lines(capsys: Capture, left_out: int) -> None:
    kind = ["part", "--kind", "mechanical", "--area", "Zone 1, IIB, T3"]
    run([*kind, *MECHANICAL[3:left_out]] if MECHANICAL[left_out].startswith("--") else kind)
    told = capsys.readouterr().out
    assert 4 < len(told.splitlines()) <= 15
    assert "not released" in told.splitlines()[0]


def test_a_nameplate_without_quotes_is_one_nameplate(capsys: Capture) -> None:
    told = []
    for marking in (["Ex db IIC T4 Gb"], ["Ex", "db", "IIC", "T4", "Gb"]):
        run(["part", *marking, "--area", "Zone 1, IIB, T3"])
        told.append(capsys.readouterr().out)
    assert told[0] == told[1]


def test_one_part_needs_no_reader_of_files() -> None:
    code = (
        "import sys; from areafit_cli.__main__ import run;"
        "run(['part', 'Ex db IIA T1 Gb', '--area', 'Zone 1', '--quiet']);"
        "print(sorted({'pydantic', 'ruamel', 'rich', 'json'} & set(sys.modules)))"
    )
    ran = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert ran.stdout.splitlines()[-1] == "[]"


def test_a_shared_file_of_places_is_read_and_pointed_at(capsys: Capture, lists: Path) -> None:
    start, rest = FAILING.split("code: IEC\n")
    places, parts = rest.split("parts:\n")
    (lists / "site").mkdir()
    (lists / "site" / "hall.yaml").write_text(f"areafit-areas: 1\ncode: IEC\n{places}")
    (lists / "shared.yaml").write_text(f"{start}areas: site/hall.yaml\nparts:\n{parts}")
    told = report(capsys, "shared.yaml", status=Exit.FAILED)
    findings = told["boms"][0]["locations"][0]["findings"]
    assert {finding["file"] for finding in findings} == {"site/hall.yaml"}
    (lists / "shared.yaml").write_text(f"{start}areas: ../hall.yaml\nparts:\n{parts}")
    (lists.parent / "hall.yaml").write_text(f"areafit-areas: 1\ncode: IEC\n{places}")
    told = report(capsys, "shared.yaml", status=Exit.WRONG_INPUT)
    said = [error["message"] for error in told["errors"]]
    assert any("outside the repository or folder of the list" in each for each in said)


def test_several_lists_are_told_with_the_gate_over_all_first(capsys: Capture) -> None:
    assert run(["check", "good.yaml", "bad.yaml"]) == Exit.FAILED
    text = capsys.readouterr().out
    assert text.startswith("GATE fail over 2 lists\n\nT-1")
    assert text.count("nothing is certified") == 1
    assert run(["check", "good.yaml", "bad.yaml", "--full"]) == Exit.FAILED
    text = capsys.readouterr().out
    assert text.startswith("GATE fail over 2 lists\n  pass  good.yaml")
    assert text.count("CAUTIONS") == 1
