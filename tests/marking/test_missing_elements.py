"""What a plate lacks. IEC 60079-0:2017 29.4, 29.5; NFPA 70-2023 500.8(C); from memory."""

import pytest

from areafit.marking import decode
from areafit.marking.clashes import missing_elements

_WITHOUT_HEAT = "is printed; of equipment only cable glands, plugs and adapters do without."
CASES = [
    ("Ex db IIC T4 Gb", []),
    ("Ex db T4 Gb", ["No gas group is printed."]),
    ("Ex tb IIIC Db", [f"No maximum surface temperature {_WITHOUT_HEAT}"]),
    ("Ex db IIC Gb", [f"No temperature class {_WITHOUT_HEAT}"]),
    ("I M2 Ex db I Mb", []),  # 150 °C or 450 °C by the group itself: 5.3.2.1
    ("I M1 Ex ia I Ma", []),
    ("Ex db IIC T4", ["No protection level (EPL) is printed."]),
    ("II 2GD c IIB T4", [f"No maximum surface temperature {_WITHOUT_HEAT}"]),
    ("Ex eb IIC Gb U", []),
    ("[Ex ia Ga] IIC", []),
    ("[Ex ia IIC Ga]", []),
    ("II 2D Ex tD A21 IP65 T80°C", []),
    ("II 2G EEx d IIB T4", []),
    ("Class I, Zone 1, AEx db IIC T4", []),
    ("Class I, Division 1, T4", ["No group letter is printed."]),
    ("Class I, Division 2, Groups C, D", []),
    ("Class III, Division 1", []),
    ("Div 2 ABCD", []),  # that no class is printed is said by itself
    ("Division 1", ["No group letter is printed."]),
]


@pytest.mark.parametrize(("text", "expected"), CASES)
def test_what_a_plate_lacks(text: str, expected: list[str]) -> None:
    found = missing_elements(decode(text))
    assert [problem.message for problem in found] == expected
    assert all(problem.clause and not problem.unread for problem in found)
