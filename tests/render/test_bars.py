"""How long reports may be, so that a designer with two minutes reads them.

The bars are common practice, no source: a screen of 50 lines, two printed pages.
"""

import contextlib
import io
from collections import Counter
from datetime import date
from pathlib import Path

import pytest

import areafit
from areafit.answers.causes import Cause, CauseKind, causes
from areafit.verdict import Role
from areafit_cli import lists
from areafit_cli.__main__ import run
from areafit_cli.render import wording
from areafit_cli.render.html import front

ROOT = Path(__file__).parents[2]
BARE = """\
areafit: 1
assembly: {number: T-3}
code: NEC
locations: {filling: {}}
parts:
  - {item: "1", location: filling, kind: [electrical, mechanical], description: Solenoid valve}
  - {item: "2", location: filling, kind: [electrical, mechanical], description: Gearmotor}
  - {item: "3", location: filling, kind: [electrical, mechanical], description: Hinge}
"""


def lines(monkeypatch: pytest.MonkeyPatch, *words: str, columns: int = 100) -> list[str]:
    """What a call prints, from the top of the project."""
    monkeypatch.chdir(ROOT)
    monkeypatch.setenv("COLUMNS", str(columns))
    out, err = io.StringIO(), io.StringIO()
    with contextlib.redirect_stdout(out), contextlib.redirect_stderr(err):
        run(list(words))
    return (err.getvalue() + out.getvalue()).splitlines()


@pytest.mark.parametrize(
    ("path", "most"),
    [
        ("sample_bom/capping_carousel.yaml", 90),
        ("sample_bom/hydrogen_bench.yaml", 90),
        ("sample_bom/solvent_skid.yaml", 90),
        ("sample_bom/sugar_bagging.yaml", 25),
        ("tests/lists43/bare.yaml", 180),
        ("tests/lists43/filled.yaml", 180),
    ],
)
def test_a_list_is_told_in_two_minutes(
    path: str, most: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    said = lines(monkeypatch, "check", path)
    assert 10 < len(said) <= most


def test_three_bare_lines_fit_a_screen(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "bare.yaml"
    path.write_text(BARE, encoding="utf-8")
    assert 10 < len(lines(monkeypatch, "check", str(path))) <= 45


def test_the_first_command_of_the_readme_ends_on_one_screen(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """It says of each sample what it is there for, and where to read on."""
    said = lines(monkeypatch, "check", "sample_bom/")
    assert len(said) <= 50
    assert " ".join(said).count("Invented.") == 4


@pytest.mark.parametrize("columns", [40, 60, 100, 120])
def test_one_list_among_several_takes_twelve_lines(
    columns: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    said = lines(monkeypatch, "check", "sample_bom/", "tests/lists43", columns=columns)
    text = "\n".join(said)
    blocks = [one for one in text.split("\n\n") if "GATE" in one][1:]
    assert len(blocks) == 6
    assert max(len(one.strip().splitlines()) for one in blocks) <= 12
    assert all("areafit check " in " ".join(one.split()) for one in blocks if "GATE fail" in one)


def _carousel() -> tuple[Cause, ...]:
    bom = lists.read(str(ROOT / "sample_bom/capping_carousel.yaml"))
    return causes(
        areafit.judge(bom, areafit.Tables.shipped(), areafit.Options(as_of=date(2026, 3, 31)))
    )


def test_what_reads_alike_is_told_once_and_every_number_stands() -> None:
    """Causes of one line that differ in the chemical alone are one sentence; others are not."""
    found = front.numbered(_carousel(), CauseKind.CHANGE)
    told = list(wording.alike(found))
    assert sum(len(several) for _, _, several in told) == len(found) > len(told)
    for label, said, several in told:
        assert label[0] == "C"
        if len(several) > 1:
            assert len({cause.names for cause in several}) == 1 or "," not in said
            assert all(wording.short(one.what).rpartition(" in ")[2] in said for one in several)


def test_the_first_step_names_a_cause_and_the_party_that_closes_most() -> None:
    found = _carousel()
    step = wording.first_step(found)
    assert step.startswith("change C1 (filling-head) with the area owner; then ask the ")
    closing = Counter[str]()
    for cause in found:
        if cause.kind is CauseKind.ANSWER and cause.who is not Role.DESIGNER:
            closing[cause.who.value] += len(cause.bearers)
    (party, closes), *_ = closing.most_common(1)
    assert f"ask the {party} about " in step
    assert step.endswith(f": {closes} findings")
    assert wording.first_step([]) == ""


SINCE = """\
areafit: 1
assembly: {{number: T-4, revision: {revision}, assessment: IHA-4}}
code: IEC
locations: {{hall: {{area: unclassified, document: AC-4, substances: none, chemicals: none}}}}
parts:
{parts}
"""
LINE = "  - {{item: '{0}', part_number: '{1}', location: hall, kind: structural, contacts: none}}\n"


def _list(folder: Path, revision: str, *parts: tuple[str, str]) -> str:
    path = folder / f"{revision}.yaml"
    made = "".join(LINE.format(*each) for each in parts)
    path.write_text(SINCE.format(revision=revision, parts=made), encoding="utf-8")
    return str(path)


def test_what_became_of_the_lines_is_told_beside_the_list_as_it_was(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Own design, no source."""
    old = _list(tmp_path, "C", ("1", "P-1"), ("2", "P-2"), ("3", "P-3"))
    new = _list(tmp_path, "D", ("10", "P-1"), ("20", "P-2"), ("30", "P-9"), ("40", "P-8"))
    told = lines(monkeypatch, "check", new, "--since", old)
    row = "since C   2 new lines, 1 gone, 2 renumbered, 0 verdicts turned"
    assert [one.strip() for one in told if "since C" in one] == [row]
    assert not [one for one in lines(monkeypatch, "check", new) if "since" in one]
    refused = lines(monkeypatch, "check", new, old, "--since", old)
    assert "name one list" in " ".join(refused)
    written = lines(monkeypatch, "check", new, "--since", old, "--output", old)
    assert "read or written already" in " ".join(written)
