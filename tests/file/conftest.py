from collections.abc import Callable
from textwrap import dedent

import pytest

from areafit.errors import InputErrors
from areafit.facts.bom import Bom
from areafit.file import read

HEAD = """\
areafit: 1
assembly: {number: M-1}
code: IEC
locations:
  room: {area: "Zone 1, IIB, T4"}
"""
PART = "parts: [{item: 1, location: room, kind: structural}]\n"


@pytest.fixture
def lines() -> Callable[[str], Bom]:
    """Reads the parts (and what follows) of a list with one location, `room`."""
    return lambda text: read(f"{HEAD}{dedent(text)}".encode(), "list.yaml")


@pytest.fixture
def faults() -> Callable[..., list[tuple[int, int, str]]]:
    """What is wrong with a whole file: line, column and message of each mistake."""

    def find(text: str | bytes, name: str = "list.yaml") -> list[tuple[int, int, str]]:
        data = text if isinstance(text, bytes) else dedent(text).encode()
        with pytest.raises(InputErrors) as caught:
            read(data, name)
        assert all(error.remedy for error in caught.value.errors)
        assert all(error.position.file == name for error in caught.value.errors)
        found = [(e.position.line, e.position.column, e.message) for e in caught.value.errors]
        assert found == sorted(found, key=lambda entry: entry[:2])
        return found

    return find


@pytest.fixture
def part_faults(faults: Callable[..., list[tuple[int, int, str]]]) -> Callable[[str], list[str]]:
    """The messages about a file that has `HEAD` and these further lines."""
    return lambda text: [message for _, _, message in faults(HEAD + dedent(text))]
