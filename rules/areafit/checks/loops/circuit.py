"""What the rules of circuits share: names of values, how they are written, the example circuit."""

from collections.abc import Iterable, Iterator, Sequence
from decimal import ROUND_FLOOR, ROUND_HALF_EVEN, Decimal
from typing import TypeVar

from areafit.facts.protection import Law
from areafit.facts.quantity import Dimension, show
from areafit.rule import Example
from areafit.values import Frozen
from areafit.verdict import Verdict

T = TypeVar("T")

NO_CURVES = (
    "The source's values are taken as stated; whether they lie below the published ignition "
    "curves is not checked here."
)
CHECK_UNIT = (
    "Compare value and unit with the certificate; where they are right, have a role waive this and "
    "name the certificate."
)

ASSESSED = (
    "Feed the circuit from a single source with stated values, or have the combination assessed "
    "and accept the finding by a waiver that names the assessment."
)


class EntityNames(Frozen):
    """What one quantity is called, as the output of a source and as the input of a device."""

    word: str
    output: str
    input: str

    @property
    def key(self) -> str:
        """The output as a list writes it."""
        return self.output.partition(" ")[0]

    @property
    def input_key(self) -> str:
        """The input as a list writes it."""
        return self.input.partition(" ")[0]


_EUROPEAN = {
    Dimension.VOLTAGE: EntityNames("voltage", "Uo", "Ui"),
    Dimension.CURRENT: EntityNames("current", "Io", "Ii"),
    Dimension.POWER: EntityNames("power", "Po", "Pi"),
    Dimension.CAPACITANCE: EntityNames("capacitance", "Co", "Ci"),
    Dimension.INDUCTANCE: EntityNames("inductance", "Lo", "Li"),
}
_AMERICAN = {
    **_EUROPEAN,
    Dimension.VOLTAGE: EntityNames("voltage", "Uo (Voc)", "Ui (Vmax)"),
    Dimension.CURRENT: EntityNames("current", "Io (Isc)", "Ii (Imax)"),
    Dimension.CAPACITANCE: EntityNames("capacitance", "Co (Ca)", "Ci"),
    Dimension.INDUCTANCE: EntityNames("inductance", "Lo (La)", "Li"),
}


def names(dimension: Dimension, law: Law | None) -> EntityNames:
    """The names of a quantity; a list under the NEC may use either of two."""
    return (_AMERICAN if law is Law.NEC else _EUROPEAN)[dimension]


def both(items: Iterable[str]) -> str:
    """`10`, `10 and 11`, `10, 11 and 12`, each item once."""
    listed = list(dict.fromkeys(items))
    return " and ".join(filter(None, (", ".join(listed[:-1]), *listed[-1:])))


def amount(value: Decimal | None, dimension: Dimension) -> str:
    """A stated value as a finding shows it; an infinite limit is one that was stated as `none`."""
    if value is None:
        return "not stated"
    return "none" if value.is_infinite() else show(value, dimension)


def with_paths(sources: Sequence[T]) -> Iterator[tuple[str, T]]:
    """Each source with where it is written: a list of one may leave out that it is a list."""
    for i, source in enumerate(sources):
        yield "source" if len(sources) == 1 else f"sources/{i}", source


_TENTH = Decimal("0.1")


def margin(value: Decimal, limit: Decimal) -> str:
    """How far the value stays below the limit or exceeds it, in percent of the limit.

    A margin is rounded down, so that none is shown that is not there; an excess to the nearest.
    """
    if limit.is_infinite():
        return "no limit"
    if limit == 0:
        return "no margin" if value == 0 else "over a limit of zero"
    percent = (limit - value) * 100 / limit
    if value <= limit:
        return f"margin {percent.quantize(_TENTH, ROUND_FLOOR)} %"
    if -percent < _TENTH:
        return "over by less than 0.1 %"
    return f"over by {-percent.quantize(_TENTH, ROUND_HALF_EVEN)} %"


# The circuit that the rules' own examples vary.
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
    circuit: str = CIRCUIT,
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


def changed(old: str, new: str) -> str:
    """The circuit with one of its statements changed; a slip in `old` would go unnoticed."""
    if CIRCUIT.count(old) != 1:
        raise ValueError(f"the circuit holds {old!r} {CIRCUIT.count(old)} times")
    return CIRCUIT.replace(old, new)
