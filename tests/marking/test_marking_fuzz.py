"""Whatever stands on a plate, reading it ends quickly and without an exception."""

import random
import string
import time

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from areafit.facts.marking import Marking
from areafit.facts.place import AreaReading
from areafit.marking import decode, effective_level, read_area
from areafit.marking.canonical import canonical
from areafit_cli.commands.marking import as_data

WORDS = (  # noqa: SIM905 - one word a line would hide what they are
    "Class I II III Division 1 2 3 Group Groups A B C D E F G Zone 0 20 21 22 Ex AEx EEx ia "
    "ib db eb de nA tb tD A21 h c k fr op is [ ] ( ) / , ; . : + - - .. to <= >= T4 T6 T3C "
    "T135 T500 T7 °C C F ° 60 -20 +40 Ta Tamb ambient max min IIA IIB IIC IIIC I II M1 M2 G "
    "GD 2G H2 NH3 hydrogen only Ga Gb Da Db Ma X U IP66 IP 6X Type 4X NEMA X Y Z "
    "pressurization purged contents general purpose CE 0123 ABC 21 ATEX 0123X IECEx drawing "
    "12-3 rev 2 associated apparatus provides intrinsically safe circuits nonincendive "
    "explosionproof non-hazardous unclassified not except or and @ for C1D2 GP ABCD A-D "
    "ExdIIBT4 II2G DIV2 ½ \n \t é 🙂 ² ℃"
).split(" ")
SAMPLES = [
    "Class I, Division 1, Groups C and D, T4",
    "II 2 (1) G Ex eb [ia Ga] IIC T4 Gb -20 °C ≤ Ta ≤ +60 °C IP66 X",
    "Ex db IIC T6 (Ta -20..+40) T4 (Ta -20..+60) Gb",
    "Associated apparatus, non-hazardous or Class I Div 2; provides IS circuits to Class I Div 1",
    "II 2 GD c b k T4 / T135 C",
    "Zone 21, IIIB, T135 °C",
]


def check(text: str) -> None:
    marking, area = decode(text), read_area(text)
    assert isinstance(marking, Marking)
    assert isinstance(area, AreaReading)
    assert marking.codes or any(problem.unread for problem in marking.problems)
    assert area.areas or area.problems
    assert as_data(marking)["text"] == text
    for code in marking.codes:
        effective_level(code)
        canonical(code)


def mutated(pick: random.Random) -> str:
    if pick.random() < 0.5:
        return pick.choice(["", " ", " "]).join(pick.choices(WORDS, k=pick.randint(1, 14)))
    text = list(pick.choice(SAMPLES))
    for _ in range(pick.randint(1, 5)):
        at = pick.randrange(len(text) + 1)
        text[at : at + pick.randrange(3)] = pick.choice([*string.printable, *WORDS])
    return "".join(text)


def fuzz(seed: int, count: int) -> None:
    pick = random.Random(seed)  # noqa: S311 - no secret
    for _ in range(count):
        text = mutated(pick)
        try:
            check(text)
        except Exception as fault:
            raise AssertionError(repr(text)) from fault


def test_mutated_plates_are_read_without_an_exception() -> None:
    fuzz(5, 5_000)


@pytest.mark.long
def test_a_million_mutated_plates_are_read_without_an_exception() -> None:
    fuzz(6, 1_000_000)


@settings(max_examples=150, deadline=None)
@given(st.text(max_size=60))
def test_any_text_is_read_without_an_exception(text: str) -> None:
    check(text)


@settings(max_examples=150, deadline=None)
@given(st.lists(st.sampled_from(WORDS), max_size=20).map(" ".join))
def test_any_trade_words_are_read_without_an_exception(text: str) -> None:
    check(text)


UNITS = [*WORDS, "((", "[[", "T4 ", "Groups A, ", "II 2 G ", "IS ", "IS;", "-1 ", "1 to ", "only "]
UNITS += ["hydrogen ", "with intrinsically ", "Ta -20..40 ", "drawing 1-", "IP66/", "Type 4,", "a"]


@pytest.mark.parametrize("unit", UNITS)
def test_a_long_text_is_answered_at_once(unit: str) -> None:
    decode("warm up (hydrogen)")
    for length in (1_900, 10_000):
        text = (unit * length)[:length]
        began = time.process_time()
        decode(text)
        read_area(text)
        assert time.process_time() - began < 2.0  # 0.2 s without coverage on an idle machine


def test_a_text_of_ten_thousand_characters_is_not_read() -> None:
    text = "Ex db IIC T4 Gb " * 625
    marking = decode(text)
    assert marking.problems[0].unread
    assert not marking.codes
