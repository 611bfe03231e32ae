"""The circuit that the rules' own examples vary."""

from areafit.rule import Example
from areafit.verdict import Verdict

PLACE = "{area: 'Zone 1, IIC, T4', substances: [hydrogen]}"
BARRIER = "{item: '9', location: safe, kind: electrical, marking: '[Ex ia Ga] IIC'}"
SENSOR = "{kind: electrical, marking: Ex ia IIC T4 Ga}"
CIRCUIT = (
    "loops:\n"
    "  - name: LS-1\n"
    "    group: IIC\n"
    "    source: {item: '9', Um: 250 V, supply: 230 V, Uo: 28 V, Io: 93 mA, Po: 0.65 W, "
    "Co: 83 nF, Lo: 4.2 mH}\n"
    "    devices: [{item: '1', Ui: 30 V, Ii: 300 mA, Pi: 1 W, Ci: 5 nF, Li: 10 µH}]\n"
    "    cable: {length: 200 m, values: default}\n"
)


def example(  # noqa: PLR0913 - what an example may vary, each by name
    title: str,
    verdict: Verdict,
    circuit: str,
    *,
    place: str = PLACE,
    sensor: str = SENSOR,
    barrier: str = BARRIER,
) -> Example:
    """A sensor as item 1 in a Zone 1 of IIC, its barrier as item 9 outside, and the circuit.

    An example has one place and one part of its own; the place of the barrier stands behind the
    first place, and the barrier and the circuit in what follows the parts.
    """
    return Example(
        title,
        verdict,
        part=sensor,
        place=f"{place}\n  safe: {{area: unclassified}}",
        more=f"  - {barrier}\n{circuit}",
    )


def changed(old: str, new: str, times: int = 1) -> str:
    """The circuit with one of its statements changed; a slip in `old` would go unnoticed."""
    if CIRCUIT.count(old) != times:
        raise ValueError(f"the circuit holds {old!r} {CIRCUIT.count(old)} times")
    return CIRCUIT.replace(old, new)
