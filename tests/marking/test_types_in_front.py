"""Types of two classes in front of both: `XP/DIP Class I …; Class II …`.

NFPA 70-2023 500.7(A), (B), from memory: explosionproof is a type of Class I, dust-ignitionproof one
of Class II; plates print both in front of the classes (common practice, no source).
"""

import pytest

from areafit.marking import decode

_REST = "Class I, Division 1, Groups C, D; Class II, Division 1, Groups E, F, G; T4"


@pytest.mark.parametrize(
    "text",
    [
        f"XP/DIP {_REST}",
        f"XP-DIP {_REST}",
        f"XP/DIP {_REST.replace('; T4', '; Class III; T4')}",
        "XP/DIP CL I DIV 1 GP CD; CL II DIV 1 GP EFG T4A",
        "XP/DIP/I,II/1/CDEFG T4",
    ],
)
def test_each_type_is_that_of_its_class(text: str) -> None:
    marking = decode(text)
    assert [each.message for each in marking.problems] == []
    said = {code.hazard_class: code.words for code in marking.codes}
    assert "dust-ignitionproof" not in said["I"]
    assert "explosionproof" in said["I"]
    assert "explosionproof" not in said["II"]


@pytest.mark.parametrize(
    "text",
    [
        "XP/DIP Class I, Division 1, Groups C, D T4",  # no Class II that the type could be of
        "DIP Class I, Division 1, Groups C, D T4",
        "XP Class II, Division 1, Groups E, F, G T4",
        "XP/DIP Class II, Division 1, Groups E, F, G T4",
        "DIP Class I, Division 1, Groups C, D; XP Class II, Division 1, Groups E, F, G; T4",
    ],
)
def test_a_type_of_a_class_that_is_not_there_stays_a_contradiction(text: str) -> None:
    assert any("is a type of Class" in each.message for each in decode(text).problems)


@pytest.mark.parametrize(
    "text",
    [
        "Type X pressurization NFPA 496, Class I, Division 1, Groups C, D T4",
        "Type X pressurization per NFPA 496, Class I, Division 1, Groups C, D T4",
        "NFPA 496 Type X, Class I, Division 1, Groups C, D T4",
        "Class I, Division 1, Groups C, D T4, Type X purge (NFPA 496-2021)",
        "Purged Type X to NFPA 496, Class I, Division 1, Groups C, D T4",
    ],
)
def test_the_type_of_a_purge_is_no_condition_of_use(text: str) -> None:
    # NFPA 496-2021, from memory: types X, Y and Z of pressurization
    marking = decode(text)
    assert [each.message for each in marking.problems] == []
    [code] = marking.codes
    assert code.purge is not None
    assert (code.purge.value, code.suffix) == ("X", None)
