"""The reports of samples, cases and examples are those that were stored, to the byte."""

import importlib.util
from pathlib import Path
from typing import Any


def _digests() -> Any:
    spec = importlib.util.spec_from_file_location("digests", Path(__file__).parent / "digests.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def test_no_report_moved() -> None:
    digests = _digests()
    found = digests.digested(small=True)
    assert len(found) > 500
    assert digests.differing(found) == {}
