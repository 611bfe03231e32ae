"""Foreign text cannot steer a terminal, fake a line or hide what it says."""

import json
import unicodedata

from hypothesis import given
from hypothesis import strategies as st

from areafit_cli.safe_text import clean, clean_json

_ANY = st.text(st.characters(exclude_categories=()))


@given(_ANY)
def test_nothing_invisible_and_no_line_end_is_left(text: str) -> None:
    for sign in clean(text):
        assert sign != "\n"
        assert unicodedata.category(sign) not in {"Cc", "Zl", "Zp", "Cs"}
        assert unicodedata.bidirectional(sign) not in {"LRE", "RLE", "LRO", "RLO", "PDF"}
        assert unicodedata.bidirectional(sign) not in {"LRI", "RLI", "FSI", "PDI"}


@given(_ANY)
def test_json_keeps_its_data(text: str) -> None:
    made = clean_json(json.dumps(text, ensure_ascii=False))
    assert json.loads(made) == text
    assert "\x1b" not in made
    assert "\x9b" not in made


def test_escapes_are_readable() -> None:
    assert clean("a\nb\tc\r") == r"a\nb\tc\r"
    assert clean("\x1b[31m\x9b\x7f") == r"\x1b[31m\x9b\x7f"
    assert clean("\u202e\u200b\u2028\ufeff") == r"\u202e\u200b\u2028\ufeff"
    assert clean("\U000e0041\ud800") == r"\U000e0041\ud800"


def test_what_a_build_service_obeys_anywhere_is_broken() -> None:
    assert clean("a ##[group]b ##VSO[x]") == r"a #\x23[group]b #\x23VSO[x]"
    assert clean("## Title, # [1], #[2]") == "## Title, # [1], #[2]"
    assert clean_json('"##[x"') == r'"#\u0023[x"'


def test_the_trade_is_left_alone() -> None:
    trade = "Ω µF °C cm² Überdruck, 65 % — ‘Ex db’ \N{MULTIPLICATION SIGN}"
    assert clean(trade) == trade
