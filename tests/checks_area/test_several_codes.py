"""Parts with several complete codes: one of them must meet everything, none lends its half.

Source: project rule after IEC 60079-0:2017 29.6, each code on a nameplate is complete.
"""

from collections.abc import Callable

from areafit.verdict import Verdict

P, F = Verdict.PASS, Verdict.FLAG
Say = Callable[..., Verdict]
RULES = ("protection-level", "gas-group", "temperature-class")


def test_the_code_that_meets_everything_is_taken(say: Say) -> None:
    part = "kind: electrical, marking: [Ex ec IIC T6 Gc, Ex db IIB T4 Gb]"
    for rule in RULES:
        assert say(rule, part, "area: 'Zone 1, IIB, T4'") is P
        assert say(rule, part, "area: 'Zone 2, IIC, T6', ambient: 0..40 °C") is P


def test_two_codes_do_not_pass_for_each_others_halves(say: Say) -> None:
    part = "kind: electrical, marking: [Ex db IIA T6 Gb, Ex db IIC T1 Gb]"
    found = {rule: say(rule, part, "area: 'Zone 1, IIC, T4'") for rule in RULES}
    assert F in found.values()
    both = (
        "kind: electrical, marking: 'Class I, Division 2, Groups A-D T4; Zone 2 AEx ec IIC T4 Gc'"
    )
    assert say("protection-level", both, "area: 'Class I, Zone 2, IIB'", "NEC") is P
    assert say("gas-group", both, "area: 'Class I, Division 2, Group D'", "NEC") is P


def test_fibres_know_no_groups_in_any_code(say: Say) -> None:
    part = (
        "kind: electrical, marking: ['Class III, Division 1 T4A', 'Zone 20 AEx ta IIIC T110°C Da']"
    )
    place = "area: 'Class III, Division 1'"
    assert say("protection-level", part, place, "NEC") is P
    assert say("temperature-class", part, place, "NEC") is P


def test_the_order_of_the_plates_counts_for_nothing(say: Say) -> None:
    """Of mechanical parts under NFPA 70 too, where no code is a listing."""
    plates = [("Ex h IIB T4 Gc", "Ex h IIB T4 Gb"), ("Ex db IIB T4 Gb", "Ex ec IIC T4 Gc")]
    for pair, kind in zip(plates, ("mechanical", "electrical"), strict=True):
        for law, area in (("NEC", "Class I, Division 1, Group C"), ("IEC", "Zone 1, IIB, T4")):
            found = {
                order: tuple(
                    say(
                        rule, f"kind: {kind}, marking: [{', '.join(order)}]", f"area: '{area}'", law
                    )
                    for rule in RULES
                )
                for order in (pair, pair[::-1])
            }
            assert len(set(found.values())) == 1, found
