"""What all tests share: generated cases are the same in every run, and nothing reaches out.

`say`, `tell` and `remedies` are for the tests of rules: one part at one place, written as in a
list, and what one rule says of it.
"""

import os
import socket
from collections.abc import Callable
from datetime import date
from functools import lru_cache
from pathlib import Path
from typing import Any, NoReturn

import pytest
from hypothesis import Phase, settings

import areafit
from areafit.engine import judge
from areafit.findings.report import BomReport, Judged
from areafit.options import Options
from areafit.tables import Tables
from areafit.verdict import Verdict, worst

os.environ.pop("COLUMNS", None)  # a test runner may narrow what is asked of a pipe

ROOT = Path(__file__).parent.parent

# A merge must not fail by chance: new cases are searched for with `--hypothesis-profile=search`.
settings.register_profile("steady", derandomize=True, deadline=None)
settings.register_profile("search", deadline=None, max_examples=2000)
# A mutant dies of the first failure; to shrink it would take minutes.
_FIRST = (Phase.explicit, Phase.generate)
settings.register_profile("mutants", derandomize=True, deadline=None, phases=_FIRST)
settings.load_profile("steady")


@pytest.fixture(autouse=True)
def _no_network(monkeypatch: pytest.MonkeyPatch) -> None:
    """Refuse every connection: the tool has no business on a network, and its tests have none."""

    def refuse(*_: object, **__: object) -> NoReturn:
        raise AssertionError("a test tried to connect")

    monkeypatch.setattr(socket.socket, "connect", refuse)


def _judged(
    rule: str,
    part: str = "kind: structural",
    place: str = "",
    law: str = "IEC",
    as_of: date = date(2026, 1, 1),
) -> list[Judged]:
    text = (
        "areafit: 1\n"
        "assembly: {number: T-1}\n"
        f"code: {law}\n"
        f"locations:\n  case: {{{place}}}\n"
        f"parts:\n  - {{item: '1', location: case, {part}}}\n"
    )
    bom = areafit.read(text.encode(), "case.yaml")
    report = judge(bom, Tables.shipped(), Options(as_of=as_of, only=frozenset({rule})))
    subjects = (*report.parts, *report.places)
    found = [j for subject in subjects for block in subject.blocks for j in block.judged]
    return [each for each in found if each.rule.id == rule]


@pytest.fixture(scope="session")
def say() -> Callable[..., Verdict]:
    """`say(rule, part, place, law)`: the worst verdict of the rule."""

    def run(*asked: Any, **named: Any) -> Verdict:
        return worst(j.judgement.verdict for j in _judged(*asked, **named))

    return run


@pytest.fixture(scope="session")
def tell() -> Callable[..., str]:
    """`tell(rule, part, place, law)`: every message, requirement and finding of the rule."""

    def run(*asked: Any, **named: Any) -> str:
        return "\n".join(
            f"{j.judgement.message} | {j.judgement.required} | {j.judgement.found}"
            for j in _judged(*asked, **named)
        )

    return run


@pytest.fixture(scope="session")
def remedies() -> Callable[..., list[str]]:
    """`remedies(rule, part, place, law)`: what would pass, for every finding that does not."""

    def run(*asked: Any, **named: Any) -> list[str]:
        judged = _judged(*asked, **named)
        return [
            j.judgement.remedy or j.rule.remedy for j in judged if not j.judgement.verdict.passes
        ]

    return run


@lru_cache
def _of_list(name: str) -> BomReport:
    text = (Path(__file__).parent / f"digests/lists/{name}.yaml").read_bytes()
    bom = areafit.read(text, f"{name}.yaml")
    return judge(bom, Tables.shipped(), Options(as_of=date(2026, 1, 1)))


@pytest.fixture(scope="session")
def listed() -> Callable[[str, str, str], tuple[Verdict, str]]:
    """`listed(name, subject, rule)`: of `digests/lists/NAME.yaml`, the worst verdict and texts."""

    def run(name: str, subject: str, rule: str) -> tuple[Verdict, str]:
        report = _of_list(name)
        subjects = (*report.parts, *report.places, *report.loops)
        [found] = [each for each in subjects if each.name == subject]
        judged = [j.judgement for block in found.blocks for j in block.judged if j.rule.id == rule]
        return worst(j.verdict for j in judged), "\n".join(j.message for j in judged)

    return run


@pytest.fixture(scope="session")
def small() -> str:
    """A list with a part that fails, one that is open, a loop and two places; all invented."""
    return (Path(__file__).parent / "small_list.yaml").read_text(encoding="utf-8")


@pytest.fixture(scope="session")
def judged(small: str) -> Callable[..., BomReport]:
    """`judged(text, **options)`: the report on a list, on the small one where none is given."""

    def run(text: str = small, **options: Any) -> BomReport:
        given = Options(**{"as_of": date(2026, 1, 1), **options})
        return judge(areafit.read(text.encode(), "t.yaml"), Tables.shipped(), given)

    return run


@pytest.fixture
def golden(request: pytest.FixtureRequest) -> Callable[[str, str], None]:
    """`golden(name, text)`: the bytes of that file in the folder `golden` beside the test."""
    test = request.path

    def run(name: str, text: str) -> None:
        path = test.with_name("golden") / name
        if os.environ.get("AREAFIT_REGOLD"):
            path.write_text(text, encoding="utf-8", newline="")
        anew = (
            f"If what changed is meant, AREAFIT_REGOLD=1 pytest {test.relative_to(ROOT)} writes it "
            "anew; read the difference."
        )
        assert path.exists(), f"There is no {path.relative_to(ROOT)} yet. {anew}"
        with path.open(encoding="utf-8", newline="") as stream:  # csv has line ends of its own
            assert text == stream.read(), anew

    return run
