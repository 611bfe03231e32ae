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
    moved = digests.differing(found)
    names = [f"{name}: {', '.join(what)}" for name, what in moved.items()]
    assert not moved, (
        f"The reports of {len(moved)} lists moved, {'; '.join(names[:10])}"
        f"{' …' if names[10:] else ''}.\nRead what moved: `python tests/digests/digests.py compare "
        "--small --keep FOLDER` here and at the commit before, then `diff -r`. If each move is "
        "meant, `python tests/digests/digests.py store`, and say in the commit which and why."
    )
