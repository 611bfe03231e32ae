"""`areafit ask` in a real terminal: written at once, undone, interrupted, narrow, without colour.

Own design, no source.
"""

import csv
import os
import re
import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

import areafit
from areafit_cli.desk import Desk

pexpect = pytest.importorskip("pexpect")
if os.name == "nt":
    pytest.skip("there is no pseudo-terminal", allow_module_level=True)

LIST = """\
areafit: 1
assembly: {number: ASK-1, title: Filler, revision: A, assessment: IHA-1}
code: ATEX
library: parts.yaml
locations:
  head:
    area: Zone 1, IIB, T3
    document: AC-1
    substances: ethanol
    ambient: 5..40 °C
    ingress: IP65
    chemicals: none
  hall:
    area: unclassified
    document: AC-1
    substances: none
    ambient: 5..40 °C
    chemicals: none
parts:
  - {item: "1", part_number: SA-1, description: Turret, location: head, kind: structural}   # welded
  - item: "10"
    part_number: PN-1
    description: Lever
    parent: "1"
    kind: mechanical
    proposed: kind
    electrical_content: none
    drive: manual
  - {item: "20", part_number: PN-2, description: Thing, parent: "1", kind: unknown}
  - {item: "21", part_number: PN-2, description: Thing, parent: "1", kind: unknown}
  - {item: "30", part_number: PN-3, description: Post, location: hall, kind: structural, proposed: [kind, location]}
  - {item: "40", part_number: PN-4, description: Gearbox, vendor: V-1, location: head}
  - {item: "50", part_number: PN-5, description: Sensor, vendor: V-1, location: head, kind: electrical}
"""  # noqa: E501 - flow style
PARTS = """\
areafit-parts: 1
parts:
  PN-4:
    kind: mechanical
    electrical_content: none
    drive: electric
    confirmed: {on: 2026-01-05, document: sheet 4, role: supplier}
"""
SIZES = [(80, ""), (40, ""), (80, "1"), (40, "1")]
PROMPT = r"(?:\su\s+q|q\s+stop|empty:[^)]*|enter:[^)`]*)\): "


class Talk:
    """An interview in a terminal of its own."""

    def __init__(self, path: Path, *more: str, columns: int = 80, no_color: str = "") -> None:
        env = {**os.environ, "TERM": "xterm", "LANG": "C.UTF-8"}
        for name in ("FORCE_COLOR", "NO_COLOR", "COLUMNS", "LINES"):
            env.pop(name, None)
        if no_color:
            env["NO_COLOR"] = no_color
        self.child = pexpect.spawn(
            sys.executable,
            ["-m", "areafit_cli", "ask", path.name, *more],
            cwd=str(path.parent),
            env=env,
            encoding="utf-8",
            dimensions=(60, columns),
            timeout=20,
        )
        self.seen = ""
        self.shown = self.asked()

    def asked(self) -> str:
        """What is shown until something is to be typed, without colour, in one line."""
        self.child.expect(PROMPT)
        said = self.child.before + self.child.after
        self.seen += f"\n{said}"  # what was typed behind a prompt is no line of ours
        return " ".join(_plain(said).split())

    def say(self, text: str) -> str:
        self.child.sendline(text)
        self.shown = self.asked()
        return self.shown

    def ends(self) -> tuple[str, int]:
        self.child.expect(pexpect.EOF)
        self.seen += self.child.before
        self.child.close()
        return " ".join(_plain(self.child.before).split()), self.child.exitstatus

    def to(self, text: str) -> str:
        """Leave open what is asked before a question."""
        for _ in range(60):
            if text in self.shown:
                return self.shown
            self.say("" if "confirms" in self.shown else "s")
        raise AssertionError(f"never asked: {text}")


Begin = Callable[..., Talk]


def _plain(line: str) -> str:
    return re.sub(r"\x1b\[[0-9;?]*[A-Za-z]", "", line).replace("\r", "")


@pytest.fixture
def path(tmp_path: Path) -> Path:
    found = tmp_path / "ask.yaml"
    found.write_text(LIST, encoding="utf-8")
    (tmp_path / "parts.yaml").write_text(PARTS, encoding="utf-8")
    return found


@pytest.fixture
def begin(path: Path) -> Iterator[Begin]:
    started: list[Talk] = []

    def begin_(*more: str, columns: int = 80, no_color: str = "") -> Talk:
        started.append(Talk(path, *more, columns=columns, no_color=no_color))
        return started[-1]

    yield begin_
    for each in started:
        each.child.close(force=True)


def _parts(path: Path) -> dict[str, Any]:
    bom = areafit.read(
        path.read_bytes(), path.name, lambda name: (path.parent / name).read_bytes(), None
    )
    return {str(part.item): part for part in bom.parts}


def _register(path: Path) -> list[dict[str, str]]:
    with (path.parent / "questions.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


@pytest.mark.parametrize(("columns", "no_color"), SIZES)
def test_places_then_kinds_then_the_rest(
    path: Path, begin: Begin, columns: int, no_color: str
) -> None:
    talk = begin(columns=columns, no_color=no_color)
    assert "WHERE THE SUB-ASSEMBLIES STAND" in talk.shown
    assert "1 1 Turret, 3 lines in it: head" in talk.shown
    assert "2 30 Post: hall, proposed" in talk.shown
    assert path.read_text(encoding="utf-8") == LIST
    talk.say("2")
    assert "proposed: [kind, location]" not in path.read_text(encoding="utf-8")
    assert "2 30 Post: hall (" in talk.shown
    assert "WHERE" not in talk.shown
    assert "WHERE THE SUB-ASSEMBLIES STAND" in talk.say("")
    shown = talk.say("")
    assert "WHAT SORT OF PARTS (3 TO CONFIRM)" in shown
    assert "1 PN-1 Lever (10): kind mechanical, proposed" in shown
    assert "2 PN-2 Thing (20, 21): kind not known yet" in shown
    talk.say("1")
    text = path.read_text(encoding="utf-8")
    assert "proposed: kind\n" not in text
    assert text.count("kind: unknown") == 2
    assert "# welded" in text
    assert "none of:" in talk.say("2 no such kind")
    assert "Nobody proposed anything here" in talk.say("2")
    assert "follows from what sort of part" in talk.say("?")
    talk.say("2 structural")
    assert path.read_text(encoding="utf-8").count("kind: unknown") == 0
    talk.say("3")
    assert "proposed" not in path.read_text(encoding="utf-8")
    assert "TO ASK" in talk.shown
    talk.child.sendline("q")
    told, status = talk.ends()
    assert "All answers given so far are written" in told
    assert status == 0
    assert not [line for line in _plain(talk.seen).split("\n") if len(line) > columns]
    assert ("\x1b[" in talk.seen) is not bool(no_color)


def test_nothing_confirms_several_rows_at_once(path: Path, begin: Begin) -> None:
    talk = begin()
    talk.say("")
    for said in ("1-3", "1,2", "1, 2 structural", "1 2", "1 to 3", "all", "ALL", "*"):
        assert "One row at a time: each is confirmed by its own number." in talk.say(said)
        assert path.read_text(encoding="utf-8") == LIST
    for said in ("y", "yes", "0", "5"):
        assert "names no row" in talk.say(said)
        assert path.read_text(encoding="utf-8") == LIST


def test_rows_keep_their_numbers_while_a_screen_stands(path: Path, begin: Begin) -> None:
    """1 and then 2 confirm what stood at 1 and 2; only the row that changed is told."""
    talk = begin()
    shown = talk.say("")
    assert "3 PN-3 Post (30): kind structural, proposed" in shown
    shown = talk.say("1")
    assert "1 PN-1 Lever (10): kind mechanical, confirmed (enter: rows left" in shown
    assert not any(other in shown for other in ("PN-2", "PN-3", "WHAT SORT", "structural:"))
    assert "Row 1 is answered already" in talk.say("1")
    shown = talk.say("2 structural")
    assert "2 PN-2 Thing (20, 21): kind structural, confirmed (enter" in shown
    parts = _parts(path)
    assert parts["30"].proposed == ("kind", "location")
    assert {kind.value for kind in parts["21"].equipment.kinds} == {"structural"}
    for said in ("list", "LIST"):
        shown = talk.say(said)
        assert "(2 TO CONFIRM) 3 PN-3 Post (30): kind structural, proposed 4 PN-3" in shown
        assert "PN-2" not in shown
    shown = talk.say("u")
    assert "undone 2 PN-2 Thing (20, 21): kind not known yet (" in shown
    assert "PN-3" not in shown
    shown = talk.say("")
    assert "2 PN-2 Thing (20, 21): kind not known yet 3 PN-3" in shown
    assert "TO ASK" in talk.say("")  # nothing was said since: the same is not told twice


def test_a_row_is_confirmed_once_it_was_on_the_screen(path: Path, begin: Begin) -> None:
    """Twenty proposals on two pages; a page that is done makes room for the next."""
    more = "".join(
        f'  - {{item: "{n}", part_number: Q-{n}, description: Bar, location: hall, '
        "kind: structural, proposed: kind}\n"
        for n in range(60, 80)
    )
    text = LIST.replace("    proposed: kind\n", "").replace("kind: unknown", "kind: structural")
    text = text.replace(", proposed: [kind, location]", "") + more
    path.write_text(text, encoding="utf-8")
    before = path.read_text(encoding="utf-8")
    talk = begin()
    shown = talk.say("")
    assert "12 Q-71" in shown
    assert "13 Q-72" not in shown
    assert "Row 13 was not on the screen yet" in talk.say("13")
    assert path.read_text(encoding="utf-8") == before
    assert "13 Q-72 Bar (72): kind structural, proposed" in talk.say("n")
    assert "13 Q-72 Bar (72): kind structural, confirmed" in talk.say("13")
    assert "1 Q-60 Bar (60): kind structural, confirmed" in talk.say("1")
    shown = talk.say("list")
    assert "(18 TO CONFIRM) 2 Q-61" in shown
    for number in range(2, 13):
        shown = talk.say(str(number))
    assert "14 Q-73 Bar (73): kind structural, proposed" not in shown
    talk.say("14")
    left = [item for item, part in _parts(path).items() if part.proposed]
    assert left == [str(n) for n in range(74, 80)]


def test_what_a_colleague_moved_is_told_before_it_is_confirmed(path: Path, begin: Begin) -> None:
    talk = begin()
    moved = LIST.replace("Post, location: hall", "Post, location: head")
    path.write_text(moved, encoding="utf-8")
    shown = talk.say("2")
    assert "The list has changed meanwhile" in shown
    assert "2 30 Post: head, proposed" in shown
    assert path.read_text(encoding="utf-8") == moved


def test_a_subassembly_is_moved(path: Path, begin: Begin) -> None:
    talk = begin()
    assert "This row is not in doubt" in talk.say("1")
    assert "cellar is none of the places" in talk.say("1 cellar")
    assert "names no row" in talk.say("7 hall")
    assert "1 1 Turret, 3 lines in it: hall" in talk.say("1 hall")
    assert {str(each) for each in _parts(path)["10"].locations} == {"hall"}
    assert "1 1 Turret, 3 lines in it: head" in talk.say("u")
    assert path.read_text(encoding="utf-8") == LIST


def test_choices_are_told_and_none_is_preset(path: Path, begin: Begin) -> None:
    talk = begin("--item", "10")
    shown = talk.to("Is the metal of the part joined to earth?")
    assert "1 yes 2 no (" in shown
    before = path.read_text(encoding="utf-8")
    assert "joined to earth" not in talk.say("")  # the key alone answers nothing
    assert path.read_text(encoding="utf-8") == before


def test_why_and_clause_are_told(begin: Begin) -> None:
    talk = begin("--item", "10")
    talk.to("How fast do surfaces rub?")
    told = talk.say("?")
    assert "make hot spots" in told
    assert "clause: ISO 80079-36" in told
    assert "rub" not in talk.say("?").partition("clause")[2]


def test_who_would_know_is_noted(path: Path, begin: Begin) -> None:
    talk = begin("--item", "10", "--role", "designer")
    talk.to("How fast do surfaces rub?")
    told = talk.say("d")
    assert "who would know?" in told
    talk.say("1")
    (entry,) = _register(path)
    assert entry["key"] == "part.rubbing_speed"
    assert re.fullmatch(
        r"not known by the designer on \d{4}-\d\d-\d\d; supplier would know", entry["remark"]
    )
    assert path.read_text(encoding="utf-8") == LIST


def test_answers_are_written_at_once_and_undone(path: Path, begin: Begin) -> None:
    talk = begin("--item", "10")
    talk.to("joined to earth?")
    before = path.read_text(encoding="utf-8")
    assert "written" in talk.say("1")
    assert _parts(path)["10"].body.bonded
    assert "undone" in talk.say("u")
    assert "joined to earth?" in talk.shown
    assert path.read_text(encoding="utf-8") == before
    assert "nothing to undo" in talk.say("u")


def test_an_answer_that_cannot_be_read_is_asked_again(path: Path, begin: Begin) -> None:
    talk = begin("--item", "10")
    talk.to("How fast do surfaces rub?")
    before = path.read_text(encoding="utf-8")
    assert "not a number with a unit" in talk.say("rather fast")
    assert "How fast do surfaces rub?" in talk.shown
    assert path.read_text(encoding="utf-8") == before


def test_one_answer_for_all_lines_that_it_settles_alike(path: Path, begin: Begin) -> None:
    for each in ("kind: unknown", "proposed: kind\n", ", proposed: [kind, location]"):
        text = path.read_text(encoding="utf-8")
        path.write_text(
            text.replace(each, "kind: structural" if "unknown" in each else "\n" * ("\n" in each)),
            encoding="utf-8",
        )
    talk = begin()
    shown = talk.to("joined to earth?")
    assert "SA-1 Turret (1)" in shown
    assert "PN-2 Thing (20, 21)" in shown
    assert "e each by itself" in shown
    assert "one note instead: its document" in talk.say("1")
    assert all(_parts(path)[item].body.bonded for item in ("1", "20", "21"))
    talk.say("ES-12 rev B")
    talk.say("4")
    text = path.read_text(encoding="utf-8")
    assert "unless_stated" in text
    assert "ES-12 rev B" in text
    assert 'items: ["1", "10", "20", "21"]' in text  # what is bought keeps it on its line
    assert text.count("bonded") == 2  # the sensor, whose plate is asked for first, has its own turn
    assert all(_parts(path)[item].body.bonded for item in ("1", "20", "21"))
    talk.say("u")
    text = path.read_text(encoding="utf-8")
    assert "unless_stated" not in text
    assert "bonded" not in text
    talk.to("joined to earth?")
    talk.say("e")
    assert "e each by itself" not in talk.shown
    talk.to("SA-1 Turret (1)")
    talk.to("joined to earth?")
    talk.say("1")
    assert path.read_text(encoding="utf-8").count("bonded: true") == 1


@pytest.mark.parametrize("confirmed", [True, False])
def test_a_bought_parts_fact_goes_into_its_entry_only_if_confirmed_anew(
    path: Path, begin: Begin, *, confirmed: bool
) -> None:
    talk = begin("--item", "40")
    talk.to("How does the movement of the part end?")
    assert "document that now confirms the entry" in talk.say("none")
    assert "confirmed 2026-01-05 by sheet 4" in talk.shown
    assert "end_stops: none" in path.read_text(encoding="utf-8")  # written at once, on the line
    shelf = path.with_name("parts.yaml")
    assert shelf.read_text(encoding="utf-8") == PARTS
    if not confirmed:
        assert "nothing more to ask" in talk.say("")
        assert shelf.read_text(encoding="utf-8") == PARTS
        assert "end_stops" in path.read_text(encoding="utf-8")
        return
    talk.say("sheet 4 rev B")
    talk.say("1")
    assert "no date" in talk.say("yesterday")
    talk.say("2026-11-20")
    entry = shelf.read_text(encoding="utf-8")
    assert "end_stops: none" in entry
    told = areafit.read(path.read_bytes(), path.name, lambda _: shelf.read_bytes(), None)
    (used,) = told.library.used
    assert (str(used.confirmed_on), used.document) == ("2026-11-20", "sheet 4 rev B")
    assert "end_stops" not in path.read_text(encoding="utf-8")
    talk.say("u")
    assert shelf.read_text(encoding="utf-8") == PARTS
    assert "end_stops" not in path.read_text(encoding="utf-8")


def test_a_nameplate_needs_its_document(path: Path, begin: Begin) -> None:
    talk = begin("--item", "50")
    talk.to("What does the nameplate say")
    before = path.read_text(encoding="utf-8")
    talk.say("II 2G Ex h IIB T4 Gb")
    assert "without the document that shows it; kept in questions.csv" in talk.say("")
    assert path.read_text(encoding="utf-8") == before
    (entry,) = _register(path)
    assert entry["refused"] == entry["answer"] == "II 2G Ex h IIB T4 Gb"
    assert entry["why"] == "without the document that shows it"


NO_DOCUMENT = ("n", "N", "?", "-", "--", "no", "No.", "none", "n/a", "yes")


@pytest.mark.parametrize("said", NO_DOCUMENT)
def test_no_is_no_document(said: str) -> None:
    typed = [said, "AC-1"]
    told: list[str] = []

    class Typist(Desk):
        def typed(self, prompt: str) -> str:
            assert "empty: line only; u undo, q stop" in prompt
            return typed.pop(0)

        def say(self, text: str, indent: int = 0) -> None:
            del indent
            told.append(text)

    assert Typist().document("which document", "line only") == "AC-1"
    assert told == [f"{said} names no document. An empty line: line only."]


def test_a_nameplate_is_taken_back_or_kept_where_there_is_no_document(
    path: Path, begin: Begin
) -> None:
    talk = begin("--item", "50")
    talk.to("What does the nameplate say")
    plate = "II 2G Ex h IIB T4 Gb"
    talk.say(plate)
    assert "n names no document. An empty line: it stays open." in talk.say("n")
    assert "What does the nameplate say" in talk.say("u")
    assert path.read_text(encoding="utf-8") == LIST
    assert not path.with_name("questions.csv").exists()
    talk.say(plate)
    talk.child.sendline("q")
    told, status = talk.ends()
    assert status == 0
    assert "All answers given so far are written" in told
    assert path.read_text(encoding="utf-8") == LIST
    assert _register(path)[0]["answer"] == plate


@pytest.mark.parametrize("out", ["", "u", "q"])
def test_a_role_need_not_be_named(path: Path, begin: Begin, out: str) -> None:
    """The ways out of the last prompt but one; the answer stays on the line, or is undone."""
    talk = begin("--item", "40")
    talk.to("How does the movement of the part end?")
    talk.say("none")
    shown = talk.say("sheet 4 rev B")
    assert "which role confirms it? empty: line only; u undo, q stop" in shown
    assert "None of these" in talk.say("boss")
    shelf = path.with_name("parts.yaml")
    if out == "q":
        talk.child.sendline(out)
        assert talk.ends()[1] == 0
    else:
        talk.say(out)
    assert shelf.read_text(encoding="utf-8") == PARTS
    assert ("end_stops: none" in path.read_text(encoding="utf-8")) is (out != "u")


def test_a_small_table_is_written_row_by_row(path: Path, begin: Begin) -> None:
    talk = begin("--item", "40")
    talk.to("What is the part made of?")
    talk.say("1")
    talk.say("sheet 4")
    for said in ("casing", "316L", "", "", ""):
        talk.say(said)
    assert "316L" in path.read_text(encoding="utf-8")
    assert "Is that list complete?" in talk.say("")
    assert "document that now confirms the entry" in talk.say("1")
    part = _parts(path)["40"]
    assert [one.material for one in part.body.materials] == ["316L"]
    assert part.materials_complete
    assert "sheet 4" in path.read_text(encoding="utf-8")
    for said in ("sheet 4 rev C", "1", ""):
        talk.say(said)
    shelf = path.with_name("parts.yaml").read_text(encoding="utf-8")
    assert "316L" in shelf
    assert "materials_complete" in shelf
    assert "316L" not in path.read_text(encoding="utf-8")
    part = _parts(path)["40"]
    assert [one.material for one in part.body.materials] == ["316L"]
    assert part.materials_complete


@pytest.mark.parametrize("place", range(6))
def test_an_interrupt_loses_nothing(path: Path, begin: Begin, place: int) -> None:
    """On every screen and at every prompt; what was said before it is written."""
    talk = begin(*([] if place < 2 else ["--item", ("10", "10", "50", "40")[place - 2]]))
    written = ""
    if place == 1:
        talk.say("")
        talk.say("1")
        written = "drive: manual"
    elif place == 2:
        talk.to("joined to earth?")
        talk.say("1")
        written = "bonded: true"
    elif place == 3:
        talk.to("How fast do surfaces rub?")
        talk.say("d")
    elif place == 4:
        talk.to("What does the nameplate say")
        talk.say("II 2G Ex h IIB T4 Gb")
    elif place == 5:
        talk.to("How does the movement of the part end?")
        talk.say("none")
        written = "end_stops: none"
    before = path.read_text(encoding="utf-8")
    talk.child.sendintr()
    told, status = talk.ends()
    assert status == 130
    assert "All answers given so far are written" in told
    assert path.read_text(encoding="utf-8") == before
    assert written in before
    if place == 4:
        assert _register(path)[0]["answer"] == "II 2G Ex h IIB T4 Gb"
    assert not list(path.parent.glob(".*"))


def test_the_very_last_answer_is_undone_too(path: Path, begin: Begin) -> None:
    talk = begin("--item", "10", "--role", "installer")
    before = path.read_text(encoding="utf-8")
    assert "the last one" in talk.shown.casefold()
    assert "nothing more to ask" in talk.say("1")
    assert "joined to earth?" in talk.say("u")
    assert path.read_text(encoding="utf-8") == before
    talk.say("1")
    talk.child.sendline("")
    told, status = talk.ends()
    assert "lines are still open; `areafit check ask.yaml` tells" in told
    assert status == 0
    assert "bonded: true" in path.read_text(encoding="utf-8")


def test_the_end_of_input_is_an_end(path: Path, begin: Begin) -> None:
    talk = begin()
    talk.child.sendeof()
    told, status = talk.ends()
    assert status == 0
    assert "All answers given so far" in told
    assert path.read_text(encoding="utf-8") == LIST


def test_the_list_is_read_anew_before_each_answer(path: Path, begin: Begin) -> None:
    """What a colleague wrote meanwhile stays, and is never asked again."""
    talk = begin("--item", "10")
    talk.to("joined to earth?")
    text = path.read_text(encoding="utf-8").replace(
        "drive: manual", "drive: manual\n    end_stops: none"
    )
    path.write_text(f"{text}# a colleague\n", encoding="utf-8")
    talk.say("1")
    now = path.read_text(encoding="utf-8")
    assert "bonded: true" in now
    assert "end_stops: none" in now
    assert now.endswith("# a colleague\n")
    path.write_text(f"{now}# another\n", encoding="utf-8")
    assert "has changed since" in talk.say("u")
    assert path.read_text(encoding="utf-8").endswith("# another\n")


def test_without_a_terminal_it_refuses(path: Path) -> None:
    done = subprocess.run(
        [sys.executable, "-m", "areafit_cli", "ask", str(path)],
        input="1\n",
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 2
    assert "needs a terminal" in done.stderr
    assert path.read_text(encoding="utf-8") == LIST


def test_an_unknown_role_or_item_is_told(path: Path) -> None:
    for more in (["--role", "boss"], ["--item", "99"]):
        child = pexpect.spawn(
            sys.executable, ["-m", "areafit_cli", "ask", str(path), *more], timeout=20
        )
        child.expect(pexpect.EOF)
        child.close()
        assert child.exitstatus == 2
