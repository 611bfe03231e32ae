"""Annotations and code quality: escaping, order, and entries that cannot hide each other."""

import json
import re
from typing import Any

import pytest

from areafit.answers.causes import causes
from areafit.errors import InputError
from areafit.facts.bom import Position
from areafit.values import replace

COMMAND = re.compile(r"::(error|warning|notice) ([^:]*)::(.*)")
PROPERTY = re.compile(r"(file|line|col|title)=([^,:\r\n]*)")


def commands(text: str) -> list[tuple[str, dict[str, str], str]]:
    """The workflow commands, read as the runner reads them: a line each."""
    found = []
    for line in text.removesuffix("\n").split("\n"):
        match = COMMAND.fullmatch(line)
        assert match, line
        pairs = [PROPERTY.fullmatch(pair) for pair in match[2].split(",")]
        assert all(pairs), line
        found.append((match[1], {pair[1]: pair[2] for pair in pairs if pair}, match[3]))
    return found


def decoded(text: str) -> str:
    for code, sign in (("%3A", ":"), ("%2C", ","), ("%0D", "\r"), ("%0A", "\n"), ("%25", "%")):
        text = text.replace(code, sign)
    return text


def test_flags_come_first_and_the_sum_last(made: Any) -> None:
    found = commands(made.rendered("github", made.run(made.rich), made.rich))
    kinds = [kind for kind, _, _ in found]
    assert kinds == sorted(kinds, key=["error", "warning", "notice"].index)
    kind, properties, said = found[-1]
    assert kind == "notice"
    assert properties == {"title": "areafit gate fail"}
    assert said.startswith("6 parts in 1 list. rich.yaml fail.")


def test_every_cause_is_an_annotation_where_it_first_stands(made: Any) -> None:
    found = commands(made.rendered("github", made.run(made.rich), made.rich))
    told = [each for each in found if each[0] != "notice"]
    wanted = causes(made.rich)
    assert len(told) == len(wanted) > 5
    assert [int(each[1]["line"]) for each in told] == [one.first.position.line for one in wanted]
    rules = {rule for each in told for rule in each[1]["title"].split()}
    assert rules == {one.rule.id for each in made.rich.subjects() for one in each.open_findings()}


def test_hostile_text_starts_no_command(made: Any) -> None:
    report = made.hostile_report()
    found = commands(made.rendered("github", made.run(report, errors=[made.error]), report))
    assert not any("stop-commands" in kind for kind, _, _ in found)
    files = {decoded(properties.get("file", "")) for _, properties, _ in found}
    assert any(r"\n::stop-commands::t" in file for file in files)


@pytest.mark.parametrize("sign", ["\n", "\r", "\r\n", "\x85", "\u2028", "%0A", "::", ","])
def test_no_sign_ends_a_command(made: Any, sign: str) -> None:
    at = Position(file=f"x{sign}y", line=3, column=7)
    error = InputError(f"a{sign}::error::b", sign, at)
    text = made.rendered("github", made.run(errors=[error]))
    assert len(text.splitlines()) == 2
    assert len(commands(text)) == 2


def quality(made: Any, whole: Any, *reports: Any) -> Any:
    return json.loads(made.rendered("gitlab", whole, *reports))


def test_code_quality_has_what_the_forge_asks_for(made: Any) -> None:
    whole = made.run(made.plain, made.rich, errors=[made.error], as_of=made.day)
    found = quality(made, whole, made.plain, made.rich)
    for entry in found:
        assert set(entry) == {
            *("description", "check_name", "fingerprint", "severity", "location"),
        }
        assert entry["severity"] in {"info", "minor", "major", "critical", "blocker"}
        assert not entry["location"]["path"].startswith(("./", "/"))
        assert entry["location"]["lines"]["begin"] >= 1
    severities = [entry["severity"] for entry in found]
    assert severities.count("blocker") == 1


@pytest.mark.parametrize("double", [False, True])
def test_fingerprints_are_distinct(made: Any, double: Any) -> None:
    other = replace(made.rich, bom=replace(made.rich.bom, name="copy.yaml"))
    reports = (made.rich, other) if double else (made.rich,)
    prints = [each["fingerprint"] for each in quality(made, made.run(*reports), *reports)]
    assert len(set(prints)) == len(prints) > 10


@pytest.mark.parametrize(
    "shape", [(), ("plain",), ("plain", "plain"), ("rich", "plain"), ("plain", "rich", "plain")]
)
@pytest.mark.parametrize("errors", [0, 2])
@pytest.mark.parametrize("dated", [False, True])
def test_the_array_is_whole_whatever_is_in_it(
    made: Any, shape: tuple[str, ...], errors: int, dated: Any
) -> None:
    reports = [getattr(made, name) for name in shape]
    whole = made.run(*reports, errors=[made.error] * errors, as_of=made.day if dated else None)
    found = quality(made, whole, *reports)
    assert len(found) >= errors + bool(dated)
    assert not found or isinstance(found[0], dict)
