"""Couples against Table I of MIL-STD-889C, as a data file of a laboratory of the US Navy has it.

That what the standard forbids never passes at the same exposure is the project's own rule.
"""

from collections import Counter
from itertools import combinations
from typing import Any

import pytest

from areafit.tables import Tables
from areafit.tables.materials import GalvanicColumn, GalvanicGroup, GalvanicPair
from areafit.verdict import Verdict

T = Tables.shipped()
GROUPS = {row.material: row.group for row in T.rows("galvanic_groups", GalvanicGroup)}
PAIRS = {(row.first, row.second): row for row in T.rows("galvanic_pairs", GalvanicPair)}
# One of each group, and the grades that lists name most.
METALS = (
    *("Mg-AZ91", "zinc-diecast", "AL-6061", "carbon-steel", "cast-iron-grey", "410", "304"),
    *("316L", "brass-C360", "bronze-aluminium", "bronze-phosphor", "copper-C110", "nickel200"),
    *("C276", "Ti-gr2", "silver", "graphite"),
)
PLACES = {
    "air": {"atmosphere": "severe", "chemicals": "none"},
    "sea": {"chemicals": [{"name": "sea water", "temperature": "20 °C"}]},
}


def _pair(one: str, other: str) -> GalvanicPair:
    first, second = sorted((GROUPS[one], GROUPS[other]))
    return PAIRS[first, second]


def test_every_pair_of_groups_is_there_once() -> None:
    letters = sorted({row.first for row in PAIRS.values()})
    assert len(letters) == 20
    assert len(PAIRS) == 20 * 21 // 2
    assert all(PAIRS[one, one].allowed(tuple(GalvanicColumn)) for one in letters)


@pytest.mark.parametrize("where", PLACES)
@pytest.mark.parametrize(("one", "other"), [*combinations(METALS, 2)])
def test_what_the_standard_forbids_never_passes(ask: Any, where: str, one: str, other: str) -> None:
    said = _pair(one, other)
    answer = ask(
        "galvanic-couple",
        PLACES[where],
        {
            "materials": [{"material": one, "exposure": "splash"}],
            "contacts": [{"with": "2", "wet": True}],
        },
        {"materials": [{"material": other, "exposure": "splash"}], "contacts": "none"},
    )
    fits = said.marine and said.industrial and (where == "air" or said.sea_water)
    assert fits or answer.verdict is not Verdict.PASS, answer.text


def test_each_kind_of_answer_is_in_the_table() -> None:
    kinds = Counter((row.marine, row.sea_water, row.industrial) for row in PAIRS.values())
    assert kinds[True, True, True] > 20
    assert kinds[True, False, True] > 20
    assert kinds[False, False, False] > 50
