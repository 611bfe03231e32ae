"""What one changed expression of a rule would get past other tests; see that of materials."""

from typing import Any

from areafit.checks.loops.budget import cable_adds
from areafit.checks.loops.described import LOOP_ITEMS as ITEMS
from areafit.checks.loops.level import device_letter, source_letter
from areafit.facts.protection import Hazard, Law
from areafit.facts.quantity import Dimension
from areafit.marking import decode
from areafit.values import replace
from areafit.verdict import Verdict

FARADS = Dimension.CAPACITANCE


def test_the_weakest_output_and_the_best_input_count(kit: Any) -> None:
    outputs = tuple(decode(text) for text in ("[Ex ia Ga] IIC", "[Ex ib Gb] IIC"))
    barrier = replace(kit.equipment("[Ex ia Ga] IIC"), markings=outputs)
    assert source_letter(barrier, Hazard.GAS) == "b"
    inputs = tuple(decode(text) for text in ("Ex ia IIC T4 Ga", "Ex ib IIC T4 Gb"))
    sensor = replace(kit.equipment("Ex ia IIC T4 Ga"), markings=inputs)
    assert device_letter(sensor, Hazard.GAS) == "a"


def test_only_what_is_not_stated_is_asked_for(kit: Any) -> None:
    silent = kit.Setting(sources=(kit.source(u=None),)).only("loop-voltage").message
    assert silent == "Not stated: Uo of item 9."
    silent = kit.Setting(devices=(kit.device(u=None),)).only("loop-voltage").message
    assert silent.startswith("Not stated: Ui of item 1.")
    assert "Uo" not in silent


def test_a_stated_cable_is_no_default(kit: Any) -> None:
    laws = [law for law in Law if cable_adds(kit.cable(), law, FARADS).default is not None]
    assert laws
    for law in laws:
        assert cable_adds(kit.cable(), law, FARADS).defaulted
        assert not cable_adds(kit.cable(c="100 pF/m"), law, FARADS).defaulted
        assert not cable_adds(kit.cable(default=False), law, FARADS).defaulted


def test_an_end_is_shown_where_it_is_written(kit: Any) -> None:
    two = (kit.source(), kit.source(item="8"))
    paths = [[a.path for a in ITEMS.ask(s.case(), None)] for s in (kit.Setting(), kit.Setting(two))]
    assert paths == [["source", "devices/0"], ["sources/0", "sources/1", "devices/0"]]


def test_no_cable_is_left_where_the_devices_take_all(kit: Any) -> None:
    full = kit.Setting(devices=(kit.device(c="83 nF"),), cable=kit.cable("10 m"))
    assert "0 m" in full.only("loop-capacitance").message


def test_what_lumps_nothing_halves_nothing(kit: Any) -> None:
    """IEC 60079-14:2013 16.2.4 halves where both are lumped; from memory."""
    unknown = (kit.source(l=None),)
    for inductance, verdict in (("0 mH", Verdict.PASS), ("10 µH", Verdict.UNPROVEN)):
        devices = (kit.device(c="50 nF", l=inductance),)
        setting = kit.Setting(unknown, devices, kit.cable("10 m"))
        assert setting.verdict("loop-capacitance") is verdict
