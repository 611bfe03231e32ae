"""`areafit loop`: the same rules, from values on the command line."""

import json
from typing import Any

import pytest

from areafit_cli.__main__ import run
from areafit_cli.errors import Exit

Capture = pytest.CaptureFixture[str]
SOURCE = "Um 250 V, supply 230 V, Uo 28 V, Io 93 mA, Po 0.65 W, Co 83 nF, Lo 4.2 mH"
DEVICE = "Ui 30 V, Ii 300 mA, Pi 1 W, Ci 5 nF, Li 10 µH"
ENDS = ("--source-marking", "[Ex ia Ga] IIC", "--device-marking", "Ex ia IIC T4 Ga")
PLACE = (
    *("--area", "Zone 1, IIC, T4", "--substance", "hydrogen"),
    *("--source-area", "unclassified", "--group", "IIC"),
)


def call(
    source: str = SOURCE, device: str = DEVICE, cable: str = "200 m, default", *more: str
) -> list[str]:
    values = ("--source", source, "--device", device, "--cable", cable)
    return ["loop", *values, *ENDS, *PLACE, *more]


def data(capsys: Capture, arguments: list[str], status: Exit) -> dict[str, Any]:
    assert run([*arguments, "--format", "json"]) == status
    found: dict[str, Any] = json.loads(capsys.readouterr().out)
    return found


def verdicts(answer: dict[str, Any]) -> dict[str, str]:
    return {finding["rule"]: finding["verdict"] for finding in answer["findings"]}


def test_a_circuit_that_fits(capsys: Capture) -> None:
    answer = data(capsys, call(), Exit.PASSED)
    assert (answer["gate"], answer["verdict"], answer["code"]) == ("pass", "pass", "IEC")
    assert verdicts(answer)["loop-capacitance"] == "pass"
    assert answer["cautions"]


def test_text_tells_what_is_open_first(capsys: Capture) -> None:
    assert run(call(device=DEVICE.replace("30 V", "24 V"))) == Exit.FAILED
    shown = capsys.readouterr().out
    assert shown.startswith("GATE fail under IEC: Uo 28 V of item source")
    assert "over by 16.7 %" in shown


def test_the_status_can_be_left_to_others(capsys: Capture) -> None:
    assert run([*call(device="Ui 30 V"), "--exit-zero"]) == Exit.PASSED
    assert "GATE fail" in capsys.readouterr().out


def test_what_is_left_out_is_unproven(capsys: Capture) -> None:
    found = verdicts(data(capsys, ["loop", "--device", DEVICE], Exit.FAILED))
    assert found.pop("loop-source") == "unproven"
    assert "pass" not in found.values()


def test_a_call_without_values_says_how_to_state_them(capsys: Capture) -> None:
    assert run(["loop", "--group", "IIC"]) == Exit.WRONG_INPUT
    shown = capsys.readouterr()
    assert shown.out == ""
    assert shown.err.startswith("areafit: state --source and --device, such as: areafit loop ")


def test_a_missing_fact_is_named_by_its_option(capsys: Capture) -> None:
    values = ("--source", SOURCE, "--device", DEVICE, "--cable", "200 m, default")
    assert run(["loop", *values, "--group", "IIC"]) == Exit.FAILED
    text = capsys.readouterr().out
    assert "see       --source; not given: --source-marking, --source-area\n" in text
    assert "see       --device; not given: --device-marking, --area\n" in text
    assert "--group" not in " ".join(
        line.partition("not given")[2] for line in text.splitlines() if "not given" in line
    )


def test_a_finding_is_told_under_the_labels_of_check(capsys: Capture) -> None:
    assert run([*call(device=DEVICE.replace("30 V", "24 V")), "--full"]) == Exit.FAILED
    text = capsys.readouterr().out
    flagged = text.split("\n\n")[1]
    labels = ["required", "found", "to pass", "clause", "who", "see"]
    assert [label for label in labels if f"\n  {label:<10}" in flagged] == labels
    assert "see       --device\n" in f"{flagged}\n"
    assert "loop-items" not in text
    assert "remedy" not in text
    assert "authority having jurisdiction" in text


def test_several_devices_and_american_names(capsys: Capture) -> None:
    source = "Voc=28 V, Isc=110 mA, Po=0.77 W, Ca=130 nF, La=3 mH, Um 250 V, supply 230 V"
    ends = (
        *("--source-marking", "Associated apparatus Class I, Division 1, Groups A, B, C, D"),
        *("--device-marking", "IS Class I, Division 1, Groups A, B, C, D T4"),
        *("--area", "Class I, Division 1, Group B", "--source-area", "unclassified"),
    )
    device = "Vmax 30 V, Imax 150 mA, Pi 1 W, Ci 5 nF, Li 10 uH"
    arguments = ["loop", "--source", source, "--device", device, "--device", device]
    arguments += ["--cable", "1000 ft, default", "--group", "B", *ends]
    answer = data(capsys, arguments, Exit.PASSED)
    assert answer["code"] == "NEC"
    (capacitance,) = [f for f in answer["findings"] if f["rule"] == "loop-capacitance"]
    assert capacitance["message"].startswith("Capacitance 70 nF is within 130 nF")


def test_simple_apparatus_and_other_words(capsys: Capture) -> None:
    switch = "simple apparatus, passive, Ui none, Ii none, Pi 1.3 W, Ci 0 F, Li 0 H"
    found = verdicts(data(capsys, call(device=switch), Exit.PASSED))
    assert found["loop-simple-apparatus"] == "pass"
    found = verdicts(data(capsys, call(device=f"{DEVICE}, active"), Exit.FAILED))
    assert found["loop-source"] == "unproven"
    found = verdicts(data(capsys, call(source=f"{SOURCE}, non-linear"), Exit.PASSED))
    assert found["loop-source"] == "pass"
    lumped = DEVICE.replace("10 µH", "100 µH")
    found = verdicts(data(capsys, call(f"{SOURCE}, non-linear", lumped), Exit.FAILED))
    assert found["loop-source"] == "unproven"


def test_a_device_with_another_protection_says_whether_it_feeds_the_circuit(
    capsys: Capture,
) -> None:
    plate = ("Ex ia IIC T4 Ga", "Ex db ia IIC T4 Ga")
    for marking, said, expected in (
        (plate[0], "", "pass"),
        (plate[1], "", "unproven"),
        (plate[1], ", passive", "pass"),
        (plate[1], ", active", "unproven"),
    ):
        arguments = [marking if each == plate[0] else each for each in call(device=DEVICE + said)]
        status = Exit.PASSED if expected == "pass" else Exit.FAILED
        assert verdicts(data(capsys, arguments, status))["loop-source"] == expected


def test_a_cable_by_its_units(capsys: Capture) -> None:
    source = SOURCE.replace("4.2 mH", "0.1 mH") + ", Lo/Ro 55 µH/Ω, linear"
    cable = "400 m, 0.1 nF/m, 0.5 µH/m, 22 µH/ohm"
    device = DEVICE.replace("5 nF", "0 F").replace("10 µH", "0 H")
    found = verdicts(data(capsys, call(source, device, cable), Exit.PASSED))
    assert found["loop-inductance"] == "pass"


def test_several_sources(capsys: Capture) -> None:
    found = verdicts(data(capsys, [*call(), "--source", SOURCE], Exit.FAILED))
    assert found["loop-source"] == "unproven"


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (call(source="Ux 28 V"), "'Ux 28 V' is no value"),
        (call(source="Uo"), "'Uo' is no value"),
        (call(source="Uo 28 V, Voc 28 V"), "Voc is stated twice"),
        (call(source="Uo none"), "not a number"),
        (call(source="Uo 28"), "no unit"),
        (call(device="Ci none"), "not a number"),
        (call(device="Ci -5 nF"), "less than nothing"),
        (call(cable="200 m, 300 m"), "length is stated twice"),
        (call(cable="200 kg"), "neither `default` nor"),
        (call(cable="-200 m"), "less than nothing"),
        ([*call(), "--device-marking", "a", "--device-marking", "b"], "--device-marking"),
        ([*call(), "--group", "X"], "group"),
        ([*call(), "--code", "XYZ"], "code"),
    ],
)
def test_a_wrong_call_says_what_serves(capsys: Capture, arguments: list[str], words: str) -> None:
    assert run(arguments) == Exit.WRONG_INPUT
    shown = capsys.readouterr()
    assert words in shown.err
    assert shown.out == ""
