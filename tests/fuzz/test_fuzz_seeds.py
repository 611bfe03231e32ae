"""The seeds of the fuzzers, and all cases that they found, hold."""

from pathlib import Path

import pytest
from fuzz_targets import SEEDS, TARGETS

CASES = [(name, path) for name in TARGETS for path in sorted((SEEDS / name).iterdir())]


@pytest.mark.parametrize(("name", "path"), CASES, ids=lambda v: getattr(v, "name", v))
def test_a_kept_case_holds(name: str, path: Path) -> None:
    TARGETS[name](path.read_bytes())


def test_every_seed_has_a_target() -> None:
    assert {path.name for path in SEEDS.iterdir()} == set(TARGETS)
