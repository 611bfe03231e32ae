"""Colour and width as people and pipes expect them."""

import io

import pytest

from areafit_cli import terminal


class Screen(io.StringIO):
    """A stream that says it is a terminal."""

    def isatty(self) -> bool:
        return True


@pytest.mark.parametrize(
    ("environ", "on_screen", "in_pipe"),
    [
        ({}, True, False),
        ({"TERM": "dumb"}, False, False),
        ({"NO_COLOR": "1"}, False, False),
        ({"NO_COLOR": ""}, True, False),
        ({"FORCE_COLOR": "1"}, True, True),
        ({"FORCE_COLOR": "0"}, False, False),
        ({"NO_COLOR": "1", "FORCE_COLOR": "1"}, False, False),
    ],
)
def test_colour(environ: dict[str, str], on_screen: object, in_pipe: object) -> None:
    assert terminal.colours(Screen(), environ) is on_screen
    assert terminal.colours(io.StringIO(), environ) is in_pipe


@pytest.mark.parametrize(
    ("columns", "width"),
    [("", 100), ("80", 80), ("10", 40), ("500", 120), ("0", 100), ("wide", 100), ("-5", 100)],
)
def test_width(columns: str, width: int) -> None:
    assert terminal.width(io.StringIO(), {"COLUMNS": columns}) == width
