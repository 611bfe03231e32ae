"""Chemicals of one place: gases by rows of their own, strength, and names by their rows."""

from collections.abc import Callable

import pytest

from areafit.tables import Tables
from areafit.verdict import Verdict

Say = Callable[..., Verdict]
Tell = Callable[..., str]
P, F, U = Verdict.PASS, Verdict.FLAG, Verdict.UNPROVEN
RULE = "chemicals-together"


def _place(*chemicals: str, substances: str = "none") -> str:
    listed = f"[{', '.join(chemicals)}]" if chemicals else "none"
    return f"chemicals: {listed}, substances: {substances}"


def _at(name: str, strength: str) -> str:
    return f"{{name: {name}, concentration: {strength}, temperature: 20 °C}}"


# EPA-600/2-80-076 is a chart of liquid wastes in quantity; what gases do to each other is from
# memory of the safety literature.
GASES = [
    (_place(substances="[hydrogen, ethanol]"), P),
    (_place(substances="[hydrogen, methane]"), P),
    (_place(substances="[propane, acetone]"), P),
    (_place(substances="[ethylene, toluene]"), P),
    (_place("compressed air", "nitric acid"), P),
    (_place("nitrogen", "sodium hydroxide"), P),
    (_place("chlorine", substances="[hydrogen]"), F),
    (_place("chlorine gas", substances="[toluene]"), F),
    (_place("ozone", substances="[ethylene]"), F),
    (_place("ammonia gas", "chlorine"), F),
    (_place("hydrogen chloride gas", "ammonia gas"), F),
    (_place("ethylene oxide", "ammonia gas"), F),
    (_place("ammonia gas", substances="[propane]"), P),
    (_place("carbon dioxide", "mineral oil"), P),
    (_place("carbon dioxide", "sodium hydroxide"), P),
    # vapours without a row of their own, by their class
    (_place(substances="[hydrogen, 1-hexene]"), P),
    (_place("nitric acid", substances="[1-hexene]"), F),
    (_place("sodium hydroxide", substances="[n-octane]"), P),
    # no row speaks of the two
    (_place("ethylene oxide", substances="[acetonitrile]"), U),
    (_place("ozone", "carbon dioxide"), P),
    (_place("hydrogen sulfide", "dimethylformamide"), U),
    (_place("phosgene", substances="[hydrogen]"), U),
]


@pytest.mark.parametrize(("place", "expected"), GASES)
def test_gases_are_judged_by_rows_of_their_own(say: Say, place: str, expected: Verdict) -> None:
    assert say(RULE, place=place) is expected


# Strengths: Regulation (EC) 1272/2008 Annex VI and ADR, from memory.
STRENGTHS = [
    (_place(_at("peracetic acid", "0.2 %"), "ethanol"), P),
    (_place(_at("peracetic acid", "2000 mg/L"), "ethanol"), P),
    (_place("PAA 0.2 %", "ethanol 70 %"), P),
    (_place(_at("peracetic acid", "15 %"), "ethanol"), F),
    (_place(_at("peracetic acid", "1 %"), "ethanol"), F),  # the limit itself counts
    (_place(_at("peracetic acid", "0.2..5 %"), "ethanol"), F),  # the strongest of a range
    (_place("peracetic acid", "ethanol"), F),  # not stated counts in full
    (_place(_at("hydrogen peroxide", "3 %"), "acetone"), P),
    (_place(_at("hydrogen peroxide", "35 %"), "acetone"), F),
    (_place(_at("nitric acid", "0.5 %"), "isopropanol"), P),
    (_place(_at("nitric acid", "20 %"), "isopropanol"), F),
    (_place(_at("bleach", "0.02 %"), _at("hydrochloric acid", "10 %")), P),
    (_place(_at("bleach", "0.5 %"), _at("hydrochloric acid", "10 %")), F),
    (_place(_at("bleach", "5 %"), _at("hydrochloric acid", "0.5 %")), F),  # still frees chlorine
    (_place(_at("sodium cyanide", "0.1 %"), _at("citric acid", "1 %")), F),  # at any strength
    (_place(_at("sodium sulfide", "1 %"), _at("hydrochloric acid", "0.2 %")), F),
]


@pytest.mark.parametrize(("place", "expected"), STRENGTHS)
def test_a_dilute_chemical_is_not_its_concentrate(say: Say, place: str, expected: Verdict) -> None:
    assert say(RULE, place=place) is expected


def test_what_counts_as_water_is_told(tell: Tell) -> None:
    place = _place(_at("peracetic acid", "0.2 %"), "ethanol")
    assert "Below 1 % peracetic acid counts as water." in tell(RULE, place=place)


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("n-butyl acetate", "butyl-acetate"),
        ("bioethanol", "ethanol"),
        ("methanoic acid", "formic-acid"),
        ("Salpetersäure", "nitric-acid"),
        ("isopropyl alcohol (IPA)", "isopropanol"),
        ("H₂O₂", "hydrogen-peroxide"),
        ("eau de Javel", "sodium-hypochlorite"),
    ],
)
def test_another_name_is_the_same_chemical(say: Say, tell: Tell, one: str, other: str) -> None:
    tables = Tables.shipped()
    assert [row.id for row in tables.chemicals(one)] == [other]
    for partner in ("nitric acid", "sodium hydroxide", "acetone", "sodium hypochlorite"):
        asked = [say(RULE, place=_place(name, partner)) for name in (one, other)]
        assert asked[0] is asked[1]
    assert "in no table" not in tell(RULE, place=_place(one, "acetone"))


# Worked by hand: equivalents a kg in the proportion that leaves none over, 56 kJ each (52 of
# ammonia), 3.5 kJ/(kg K); heats of neutralisation and heat capacity from memory. 40 CFR 264
# appendix V keeps group 1-A from 1-B whatever the strength, which would part every cleaner from
# every other.
HEATS = [
    (_at("sulfuric acid", "98 %"), _at("sodium hydroxide", "50 %"), F),  # 123 K
    (_at("sulfuric acid", "98 %"), _at("caustic potash", "45 %"), F),
    (_at("Schwefelsäure", "60 %"), _at("Natronlauge", "50 %"), F),  # 99 K
    (_at("acetic acid", "100 %"), _at("sodium hydroxide", "50 %"), F),
    (_at("hydrochloric acid", "37 %"), _at("sodium hydroxide", "50 %"), F),
    (_at("nitric acid", "65 %"), _at("ammonium hydroxide", "25 %"), F),
    (_at("hydrochloric acid", "10 %"), _at("sodium hydroxide", "50 %"), P),  # 36 K
    (_at("hydrochloric acid", "37 %"), _at("sodium hydroxide", "5 %"), P),  # 18 K
    (_at("sulfuric acid", "5 %"), _at("sodium hydroxide", "5 %"), P),
    # by water alone: heat of dilution, Thomsen's formula by hand, 83 K from 90 %, 47 K from 80 %
    (_at("sulfuric acid", "98 %"), _at("sodium hydroxide", "2 %"), F),
    (_at("sulfuric acid", "75 %"), _at("sodium hydroxide", "2 %"), P),
    (_at("sulfuric acid", "30 %"), _at("sodium carbonate", "10 %"), P),
    (_at("oleum", "20 %"), _at("sodium hydroxide", "2 %"), F),
    ("aqua regia", _at("sodium hydroxide", "50 %"), F),
    (_at("citric acid", "5 %"), _at("caustic soda", "2 %"), P),
    (_at("citric acid", "20 %"), _at("sodium hydroxide", "30 %"), P),  # 34 K
    (_at("sulfuric acid", "98 %"), _at("sodium carbonate", "10 %"), F),
    ("sulfuric acid", "sodium hydroxide", F),  # not stated: as strong as it is sold
    (_at("sulfuric acid", "5..98 %"), _at("sodium hydroxide", "20..50 %"), F),
]


@pytest.mark.parametrize(("one", "other", "expected"), HEATS)
def test_acid_and_alkali_that_boil_are_kept_apart(
    say: Say, one: str, other: str, expected: Verdict
) -> None:
    assert say(RULE, place=_place(one, other)) is expected
    assert say(RULE, place=_place(other, one)) is expected


def test_a_hotter_bath_boils_sooner(say: Say, tell: Tell) -> None:
    """Own reasoning: what is added is the same, where it starts is not."""
    acid = "{name: nitric acid, concentration: 30 %, temperature: %s}"
    caustic = "{name: sodium hydroxide, concentration: 30 %, temperature: 20 °C}"
    cold, hot = (_place(acid.replace("%s", heat), caustic) for heat in ("20 °C", "176 °F"))
    assert (say(RULE, place=cold), say(RULE, place=hot)) == (P, F)
    assert "boil and spatter" in tell(RULE, place=hot)


def test_a_weaker_liquid_is_never_judged_worse(say: Say) -> None:
    order = [F, U, P]
    for name in ("peracetic acid", "hydrogen peroxide", "nitric acid", "sodium hypochlorite"):
        for partner in (
            "ethanol",
            "acetone",
            "hydrochloric acid",
            "sodium sulfide",
            "aniline",
            "sodium hydroxide",
        ):
            found = [
                say(RULE, place=_place(_at(name, strength), partner))
                for strength in ("0.01 %", "0.5 %", "5 %", "30 %")
            ]
            ranks = [order.index(each) for each in found]
            assert ranks == sorted(ranks, reverse=True), (name, partner, found)


@pytest.mark.parametrize(
    ("strength", "expected"), [("2 %", P), ("5 %", P), ("9 %", P), ("10 %", F), ("2..15 %", F)]
)
def test_a_cleaning_strength_of_citric_acid_may_stand_beside_alcohol(
    say: Say, strength: str, expected: Verdict
) -> None:
    """From memory: Regulation (EC) 1272/2008, Annex I, Table 3.3.3, counts irritants from 10 %."""
    place = _place(_at("citric acid", strength), _at("isopropanol", "100 %"))
    assert say(RULE, place=place) is expected
