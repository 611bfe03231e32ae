"""What is installed beside us: which licences, and whether CI pins it all.

Licences as the distributions state them; which are permissive is common practice, no source.
"""

import re
from collections.abc import Iterator
from importlib.metadata import Distribution, distribution, requires
from pathlib import Path

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

# Beside a wheel alone there is nothing to read: the extras and the tools aren't installed there.
pytest.importorskip("thermo", reason="the extras are not installed")

ROOT = Path(__file__).parents[2]
PERMISSIVE = re.compile(r"\b(MIT|BSD|Apache|ISC|PSF|Python Software Foundation|0BSD|Unlicense)\b")


def _needed(name: str, extras: frozenset[str], seen: set[str]) -> Iterator[str]:
    """A distribution and all that it needs here."""
    for text in requires(name) or ():
        needed = Requirement(text)
        wanted = any(
            needed.marker is None or needed.marker.evaluate({"extra": extra})
            for extra in (*extras, "")
        )
        if wanted and canonicalize_name(needed.name) not in seen:
            seen.add(canonicalize_name(needed.name))
            yield canonicalize_name(needed.name)
            yield from _needed(needed.name, frozenset(needed.extras), seen)


def _licence(found: Distribution) -> str:
    said = found.metadata
    stated = [said[key] for key in ("License-Expression", "License") if key in said]
    classifiers = said.get_all("Classifier") or []
    stated += [each for each in classifiers if each.startswith("License ::")]
    return "; ".join(text.partition("\n")[0] for text in stated if text)


RUN_TIME = sorted({*_needed("areafit", frozenset({"mixtures", "xlsx"}), set())})


@pytest.mark.parametrize("name", RUN_TIME)
def test_what_is_needed_to_run_has_a_permissive_licence(name: str) -> None:
    licence = _licence(distribution(name))
    assert PERMISSIVE.search(licence), f"{name}: {licence!r}"


def test_some_are_needed() -> None:
    assert {"typer", "pydantic", "msgspec", "rich", "ruamel-yaml"} <= set(RUN_TIME)


def test_ci_pins_every_dependency() -> None:
    text = (ROOT / ".ci" / "constraints.txt").read_text(encoding="utf-8")
    pinned = {
        canonicalize_name(line.partition("==")[0])
        for line in text.splitlines()
        if line and not line.startswith("#")
    }
    needed = {*_needed("areafit", frozenset({"dev"}), set())}
    assert needed - pinned == set(), "pip freeze in a fresh environment gives .ci/constraints.txt"
