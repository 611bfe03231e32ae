"""Published worked examples, their arithmetic reckoned a second time with a library of units.

`pint` works in floating point, so it is compared to nine digits.
"""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import pint
import pytest

from areafit.checks.loops.budget import Circuit, budget
from areafit.facts.groups import Group
from areafit.facts.protection import Law
from areafit.facts.quantity import Dimension
from areafit.verdict import Verdict

UNITS: pint.UnitRegistry[Any] = pint.UnitRegistry()
C, L = "loop-capacitance", "loop-inductance"


@dataclass(frozen=True)
class Published:
    """An example: where it is printed, the circuit, the printed sums, and the verdicts.

    `capacitance` and `inductance` are expressions for pint, the printed figures beside them.
    """

    source: str
    setting: Callable[[Any], Any]
    capacitance: str
    inductance: str
    printed: tuple[str, str]
    verdicts: dict[str, Verdict]
    note: str = ""


FIELDBUS = Published(
    "Endress+Hauser, Proline Promag 53 FOUNDATION Fieldbus, Ex documentation, pages 23 to 26: "
    "four devices on a linear bus supply, the inductance too large",
    lambda kit: kit.Setting(
        sources=(kit.source("22 V", "216 mA", "1.2 W", "0.165 µF", "0.32 mH"),),
        devices=(
            *(kit.device("30 V", "500 mA", "5.5 W", "5 nF", "10 µH", item=i) for i in ("1", "2")),
            *(kit.device("24 V", "250 mA", "1.2 W", "5 nF", "10 µH", item=i) for i in ("3", "4")),
        ),
        cable=kit.Cable(
            kit.amount("383.1 m", Dimension.LENGTH) / kit.Decimal("0.623"),
            kit.amount("95.6 nF", Dimension.CAPACITANCE)
            / kit.amount("383.1 m", Dimension.LENGTH)
            * kit.Decimal("0.623"),
            kit.amount("0.623 µH/m", Dimension.INDUCTANCE_PER_LENGTH),
        ),
    ),
    "4 * 5 nF + 95.6 nF",
    "4 * 10 uH + 383.1 uH",
    ("115.6 nF", "423.1 uH"),
    {
        "loop-voltage": Verdict.PASS,
        "loop-current": Verdict.PASS,
        "loop-power": Verdict.PASS,
        L: Verdict.FLAG,
        C: Verdict.FLAG,
    },
    "the publication does not know the 50 % rule: it passes 115.6 nF at 165 nF, while Ci is 12 % "
    "of Co and Li 12.5 % of Lo, so that the more onerous text permits 82.5 nF",
)
MULTIPLEXERS = Published(
    "Fluke, Vibronet Signalmaster installation, 06.2016, 5.2: four multiplexers on coaxial cable, "
    "within 300 nF and 1000 µH",
    lambda kit: kit.Setting(
        sources=(kit.source(c="300 nF", l="1 mH"),),
        devices=tuple(kit.device(c="18 nF", l="0 H", item=str(i)) for i in range(1, 5)),
        cable=kit.cable("400 m", "101 pF/m", "273 nH/m", default=False),
    ),
    "4 * 18 nF + 101 pF/m * 400 m",
    "273 nH/m * 400 m",
    ("112.4 nF", "109.2 uH"),
    {C: Verdict.PASS, L: Verdict.PASS},
)
DETECTORS = Published(
    "Halma, Ampac Orbis IS installation, MAN3041-1, page 21, tables 4 and 5: limits in IIC and "
    "mineral-insulated cable, detectors with no capacitance or inductance; the length of 400 m is "
    "ours",
    lambda kit: kit.Setting(
        sources=(kit.source(c="0.083 µF", l="4.2 mH"),),
        devices=(kit.device(c="0 F", l="0 H"),),
        cable=kit.cable("400 m", "0.19 nF/m", "0.534 µH/m", default=False),
    ),
    "0.19 uF/km * 400 m",
    "0.534 mH/km * 400 m",
    ("76 nF", "213.6 uH"),
    {C: Verdict.PASS, L: Verdict.PASS},
)
THOUSAND_FEET = Published(
    "Industrial Monitor Direct, Understanding intrinsic safety loop parameters: 1000 ft of cable "
    "on a barrier of 0.1 µF and 5 mH, too much capacitance",
    lambda kit: kit.Setting(
        sources=(kit.source(c="0.1 µF", l="5 mH"),),
        devices=(kit.device(c="30 nF", l="0.1 mH"),),
        cable=kit.cable("1000 ft", "100 pF/ft", "0.5 µH/ft", default=False),
    ),
    "30 nF + 100 pF/ft * 1000 ft",
    "0.1 mH + 0.5 uH/ft * 1000 ft",
    ("130 nF", "0.6 mH"),
    {C: Verdict.FLAG, L: Verdict.PASS},
)
DEFAULTS = Published(
    "ISA-RP12.06.01 entity calculation, from memory; the default values are printed in Dover, OPW "
    "SiteSentinel iTouch M1500, appendix M, control drawing 924B, note 4",
    lambda kit: kit.Setting(
        law=Law.NEC,
        group=Group.B,
        area="Class I, Division 1, Group B",
        sources=(kit.source("28 V", "110 mA", "0.77 W", "130 nF", "3 mH"),),
        devices=(kit.device("30 V", "150 mA", "1 W", "10 nF", "20 µH"),),
        cable=kit.cable("1000 ft"),
        barrier=kit.equipment("Associated apparatus Class I, Division 1, Groups A, B, C, D"),
        sensor=kit.equipment("IS Class I, Division 1, Groups A, B, C, D T4"),
    ),
    "10 nF + 60 pF/ft * 1000 ft",
    "20 uH + 0.20 uH/ft * 1000 ft",
    ("70 nF", "0.22 mH"),
    {C: Verdict.PASS, L: Verdict.PASS, "loop-group": Verdict.PASS, "loop-level": Verdict.PASS},
)
EXAMPLES = pytest.mark.parametrize(
    "example",
    [FIELDBUS, MULTIPLEXERS, DETECTORS, THOUSAND_FEET, DEFAULTS],
    ids=["fieldbus", "multiplexers", "detectors", "thousand feet", "defaults"],
)


@EXAMPLES
@pytest.mark.parametrize("dimension", [Dimension.CAPACITANCE, Dimension.INDUCTANCE])
def test_sums_are_those_printed_and_those_of_pint(
    kit: Any, example: Published, dimension: Dimension
) -> None:
    capacitive = dimension is Dimension.CAPACITANCE
    expression = example.capacitance if capacitive else example.inductance
    printed = example.printed[0 if capacitive else 1]
    reckoned = budget(Circuit.of(example.setting(kit).case()), dimension).known
    for text in (expression, printed):
        again = UNITS(text).to("farad" if capacitive else "henry").magnitude
        assert float(reckoned) == pytest.approx(again, rel=1e-9)


@EXAMPLES
def test_verdicts_are_those_printed_or_more_onerous(kit: Any, example: Published) -> None:
    setting = example.setting(kit)
    for rule, verdict in example.verdicts.items():
        assert setting.verdict(rule) is verdict, (rule, example.source)


def test_the_longest_cable_is_that_of_the_publication_or_shorter(kit: Any) -> None:
    """The fieldbus example has its line cut by 175 m, from 615 m, to come below 320 µH."""
    reckoned = budget(Circuit.of(FIELDBUS.setting(kit).case()), Dimension.INDUCTANCE)
    assert reckoned.full is not None
    assert reckoned.cable.each is not None
    full = (reckoned.full - reckoned.own.devices.known) / reckoned.cable.each
    assert 615 - 175 < full < 615
    longest = reckoned.longest
    assert longest is not None
    assert longest < full


def test_cable_by_its_ratio(kit: Any) -> None:
    """Table 5 of the detectors' manual: 0.534 mH/km over two cores of 12.1 ohm/km, at most
    55 µH/ohm in IIC by table 4."""
    each = UNITS("0.534 mH/km / (2 * 12.1 ohm/km)").to("microhenry/ohm").magnitude
    setting = kit.Setting(
        sources=(kit.source(l="0.1 mH", inductance_per_resistance=kit.Decimal("55e-6")),),
        devices=(kit.device(c="0 F", l="0 H"),),
        cable=kit.cable("400 m", "0.19 nF/m", "0.534 µH/m", f"{each:.6f} µH/Ω", default=False),
    )
    assert each == pytest.approx(22.066, rel=1e-4)
    assert setting.verdict(L) is Verdict.PASS
    assert "L/R 22.0661 µH/Ω" in setting.only(L).found


@pytest.mark.parametrize(
    ("source", "device", "verdict"),
    [("[Ex ia Ga] IIC", "Ex ib IIC T4 Gb", "ib"), ("[Ex ib Gb] IIC", "Ex ia IIC T4 Ga", "ib")],
)
def test_a_system_takes_the_lower_level(kit: Any, source: str, device: str, verdict: str) -> None:
    """IEC 60079-25:2020, Annex A, b) as a public extract prints it: ia with ib makes ib."""
    ends = {"barrier": kit.equipment(source), "sensor": kit.equipment(device)}
    assert f"is {verdict}" in kit.Setting(**ends).only("loop-level").message
    zone_0 = kit.Setting(**ends, area="Zone 0, IIC, T4")
    assert zone_0.verdict("loop-level") is Verdict.FLAG


def test_a_system_takes_the_milder_group(kit: Any) -> None:
    """IEC 60079-25:2020, Annex A, a) as a public extract prints it: IIC with IIB makes IIB, and so
    do values taken for IIB."""
    mild = kit.equipment("Ex ia IIB T4 Ga")
    assert kit.Setting(sensor=mild).verdict("loop-group") is Verdict.FLAG
    assert kit.Setting(group=Group.IIB).verdict("loop-group") is Verdict.FLAG
    zone = {"area": "Zone 1, IIB, T3", "substances": ("ethylene",)}
    assert kit.Setting(sensor=mild, **zone).verdict("loop-group") is Verdict.PASS
