"""The command as a pipeline sees it: exit status, standard output, standard error."""

import subprocess
import sys
from pathlib import Path

import pytest

import areafit
from areafit.errors import InputError, InputErrors
from areafit.facts.bom import Position
from areafit_cli import paths, terminal
from areafit_cli.__main__ import run
from areafit_cli.errors import Exit


def _raising(error: BaseException) -> object:
    def raised(*_: object, **_named: object) -> None:
        raise error

    return raised


def test_the_version_is_one_line(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["--version"]) == Exit.PASSED
    assert capsys.readouterr().out == f"areafit {areafit.__version__}\n"
    assert run(["--version", "check"]) == Exit.PASSED
    assert capsys.readouterr().out == f"areafit {areafit.__version__}\n"


def test_the_version_imports_nothing_large() -> None:
    code = (
        "import sys; from areafit_cli.__main__ import run; run(['--version']);"
        "print(sorted({'typer', 'rich', 'pydantic', 'ruamel', 'dataclasses'} & set(sys.modules)))"
    )
    ran = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert ran.stdout.splitlines()[1] == "[]"


def test_help_lists_every_command(capsys: pytest.CaptureFixture[str]) -> None:
    from areafit_cli.app import COMMANDS

    assert run(["--help"]) == Exit.PASSED
    text = capsys.readouterr().out
    assert all(f" {name} " in text for name in COMMANDS)


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["chek"], "areafit: there is no command 'chek'; near to it: check"),
        (["check"], "areafit: missing argument 'PATH...'; `areafit check --help` tells what"),
        (["check", "--output", "x.pdf", "."], "write the dossier as .html and print it to PDF"),
        (["check", "--output", "x.xlsx", "."], "write .csv, or the questions by `areafit actions"),
        (["check", "--nonsense", "x"], "areafit: no such option: --nonsense"),
        (["check", "gone.yaml"], "gone.yaml: there is no such file or folder; check the path"),
        (["check", "gone/*.yaml"], "areafit: no bill of materials in gone/*.yaml"),
        (["check", "--format", "jsn", "x"], "areafit: there is no format 'jsn'; near to it: json"),
        (["check", "--as-of", "soon", "."], "areafit: 'soon' is no date"),
        (["check", "--jobs", "0", "x"], "areafit: invalid value for '--jobs'"),
        (["check", "--tables", "gone", "."], "areafit: cannot read the tables of gone"),
        (["part"], "needs its --kind"),
        (["part", "--kind", "electric"], "near to it: electrical"),
        (["part", "--kind", "mechanical", "--ambient", "40"], "--ambient: '40' has no unit"),
        (["part", "--kind", "mechanical", "--code", "CEC"], "known: NEC, IEC, ATEX"),
        (["part", "--kind", "electrical", "--entries", "M20"], "--entries takes `none`"),
        (["part", "--kind", "electrical", "--device", "luminair"], "near to it: luminaire"),
        (["rule", "gas-grup"], "areafit: there is no rule 'gas-grup'; near to it: gas-group"),
        (["table", "substnces"], "near to it: substances"),
        (["substance", "ethnol"], ", ethanol"),  # and its names in other languages
        (["material", "316LL"], "near to it"),
        (["material", "316L", "--chemical", "acid, 2"], "write name, concentration, temperature"),
    ],
)
def test_a_wrong_call_is_2_and_says_what_serves(
    arguments: list[str],
    said: str,
    capsys: pytest.CaptureFixture[str],
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "bom.yaml").write_text("areafit: 1\n")
    assert run(arguments) == Exit.WRONG_INPUT
    shown = capsys.readouterr()
    assert shown.out == ""
    assert said in shown.err
    assert "╭" not in shown.err


@pytest.mark.parametrize(
    ("error", "status", "said"),
    [
        (KeyboardInterrupt(), Exit.INTERRUPTED, ""),
        (ZeroDivisionError("by \x1b[31m"), Exit.BUG, r"ZeroDivisionError: by \x1b[31m"),
        (
            InputErrors([InputError("no", "say yes", Position("a\nb.yaml", 3, 7))]),
            Exit.WRONG_INPUT,
            "a\\nb.yaml:3:7: no; say yes\n",
        ),
    ],
)
def test_what_goes_wrong_is_told_by_its_status(
    error: BaseException,
    status: Exit,
    said: str,
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(paths, "find", _raising(error))
    assert run(["check", "x"]) == status
    shown = capsys.readouterr()
    assert shown.out == ""
    assert said in shown.err


def test_a_bug_says_where_and_names_no_path_of_the_machine(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(paths, "find", _raising(ZeroDivisionError()))
    run(["check", "x"])
    told = capsys.readouterr().err
    assert "a bug in areafit" in told
    assert "test_command_line.py:" in told
    assert str(Path(__file__).parent) not in told


def test_a_closed_pipe_ends_quietly(monkeypatch: pytest.MonkeyPatch) -> None:
    class Closed:
        def write(self, _text: str) -> None:
            raise BrokenPipeError

    muted: list[bool] = []
    monkeypatch.setattr(terminal, "mute", lambda: muted.append(True))
    monkeypatch.setattr(sys, "stdout", Closed())
    terminal.write(["x"])
    assert muted == [True]


def test_the_installed_command_survives_a_reader_that_leaves() -> None:
    script = Path(sys.executable).with_name("areafit")
    with subprocess.Popen(
        [script, "table", "resistance"], stdout=subprocess.PIPE, stderr=subprocess.PIPE
    ) as process:
        assert process.stdout
        assert process.stderr
        process.stdout.readline()
        process.stdout.close()
        assert process.wait(timeout=60) == Exit.PASSED
        assert process.stderr.read() == b""
