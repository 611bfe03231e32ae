"""`import areafit`: what a program may rely on, documented, typed and quick to import."""

import doctest
import importlib
import inspect
import subprocess
import sys
from datetime import date
from pathlib import Path

import pytest

import areafit
from areafit.facts.quantity import Dimension, parse, parse_range

PUBLIC = [name for name in areafit.__all__ if name not in ("__version__", "RULES")]
LIST = b"""areafit: 1
assembly: {number: P-1}
code: IEC
locations: {hall: {area: unclassified, chemicals: none, substances: none, ambient: 5..40 C}}
parts: [{item: "1", kind: structural, location: hall}]
"""


def test_every_public_name_is_there_and_listed() -> None:
    assert dir(areafit) == sorted(areafit.__all__)
    for name in areafit.__all__:
        assert getattr(areafit, name) is not None
    with pytest.raises(AttributeError, match="no attribute 'nonsense'"):
        _ = areafit.nonsense  # type: ignore[attr-defined]  # that is the point


@pytest.mark.parametrize("name", PUBLIC)
def test_every_public_name_says_what_it_is(name: str) -> None:
    said = inspect.getdoc(getattr(areafit, name))
    assert said
    assert said.splitlines()[0].endswith((".", ";"))


@pytest.mark.parametrize("name", PUBLIC)
def test_examples_of_public_names_hold(name: str) -> None:
    home = importlib.import_module(getattr(areafit, name).__module__)
    failed, _ = doctest.testmod(home, optionflags=doctest.ELLIPSIS)
    assert failed == 0


@pytest.mark.parametrize("home", ["areafit.facts.quantity", "areafit.verdict", "areafit.notation"])
def test_examples_of_what_they_rest_on_hold(home: str) -> None:
    failed, _ = doctest.testmod(importlib.import_module(home))
    assert failed == 0


def test_calls_are_checked_by_a_type_checker() -> None:
    """Each ignored error is one that mypy must find; without it mypy names the comment unused."""
    with pytest.raises(TypeError):
        areafit.decode("Ex", 2)  # type: ignore[call-arg]  # found by mypy
    with pytest.raises(TypeError):
        parse("5 m", Dimension.LENGTH, foo=3)  # type: ignore[call-arg]  # as above
    with pytest.raises(TypeError):
        parse_range("5 m")  # type: ignore[call-arg]  # as above


def test_importing_costs_nothing() -> None:
    code = "import sys, areafit; print(*(m for m in sys.modules if m.startswith('areafit')))"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.split() == ["areafit.version", "areafit"]


def test_a_list_is_judged_and_waived_through_the_front_door() -> None:
    day = date(2026, 3, 31)
    bom: areafit.Bom = areafit.read(LIST, "list.yaml")
    report = areafit.judge(bom, areafit.Tables.shipped(), areafit.Options(as_of=day))
    found: areafit.Finding = next(
        each for each in report.places[0].findings() if not each.verdict.passes
    )
    text = (
        f"areafit-waivers: 1\nwaivers:\n  - {{place: hall, rule: {found.rule.id}, fingerprint: "
        f"'{found.fingerprint}', reason: known, approved_by: area owner, until: 2027-01-31}}\n"
    )
    rules = [rule.id for rule in areafit.RULES]
    waivers = areafit.read_waivers(text.encode(), "waivers.yaml", rules)
    laid = areafit.apply_waivers(report, waivers, day)
    assert laid.waivers.used == 1
    assert report.waivers.used == 0


def test_the_distribution_says_that_it_is_typed() -> None:
    assert (Path(areafit.__file__).parent / "py.typed").is_file()
