"""JUnit as its consumers read it; there is no official schema."""

import io
import xml.etree.ElementTree as ET
from typing import Any

import pytest

from areafit.errors import InputError
from areafit.facts.bom import Position

junitparser = pytest.importorskip("junitparser")


def read(text: str) -> Any:
    return junitparser.JUnitXml.fromfile(io.BytesIO(text.encode()))


@pytest.fixture
def text(made: Any) -> str:
    whole = made.run(made.plain, made.rich, errors=[made.error])
    return str(made.rendered("junit", whole, made.plain, made.rich))


def test_counts_add_up(text: str) -> None:
    whole = read(text)
    suites = list(whole)
    for name in ("tests", "failures", "errors", "skipped"):
        assert getattr(whole, name) == sum(getattr(suite, name) for suite in suites)
    for suite in suites:
        cases = list(suite)
        results = [type(result).__name__ for case in cases for result in case.result]
        assert suite.tests == len(cases)
        assert suite.failures == results.count("Failure")
        assert suite.errors == results.count("Error")
        assert suite.skipped == results.count("Skipped")


def test_each_subject_is_a_case_and_open_ones_fail(text: str, made: Any) -> None:
    _, plain, rich = read(text)
    assert [case.name for case in plain] == ["list PL-1", "location hall", "item 1 · Frame"]
    failed = {case.name.split(" · ")[0] for case in rich if case.result}
    subjects = [("list", made.rich.own)]
    subjects += [("item", each) for each in made.rich.parts]
    subjects += [("loop", each) for each in made.rich.loops]
    assert failed == {f"{kind} {each.name}" for kind, each in subjects if not each.verdict.passes}


def test_gate_and_scope_are_properties(text: str) -> None:
    _, plain, rich = read(text)
    assert {one.name: one.value for one in plain.properties()} == {
        "gate": "pass",
        "scope": "full",
    }
    assert {one.name: one.value for one in rich.properties()}["gate"] == "fail"


def test_hostile_text_neither_breaks_nor_ends_anything(made: Any) -> None:
    report = made.hostile_report()
    text = made.rendered("junit", made.run(report, overlays=["a--b-->.csv", "--"]), report)
    root = ET.fromstring(text)  # noqa: S314 - our own output
    assert {each.tag for each in root.iter()} <= {
        *("testsuites", "testsuite", "properties", "property", "testcase"),
        *("failure", "skipped", "system-out"),
    }
    assert "<script>alert(1)</script>" in root[0][1].attrib["name"]
    assert len(list(read(text))) == 1


@pytest.mark.parametrize("sign", ["\x00", "\x0b", "\x1b", "\ud800", "\ufffe", "\uffff"])
def test_what_xml_forbids_is_left_out(made: Any, sign: str) -> None:
    at = Position(file=f"c{sign}d", line=3, column=7)
    error = InputError(f"a{sign}b", f"e{sign}f", at)
    text = made.rendered("junit", made.run(errors=[error]))
    assert sign not in text
    ET.fromstring(text)  # noqa: S314 - our own output
