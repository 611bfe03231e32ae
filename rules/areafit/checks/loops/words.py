"""The names of entity values: European ones, with the North American ones where the NEC governs."""

from collections.abc import Iterable

from areafit.facts.protection import Law
from areafit.values import Frozen

NO_CURVES = (
    "The source's values are taken as stated; whether they lie below the published ignition "
    "curves is not checked here."
)
CHECK_UNIT = (
    "Compare value and unit with the certificate; where they are right, have a role waive this and "
    "name the certificate."
)


class Names(Frozen):
    """What the output and the input value of one quantity are called."""

    output: str
    input: str


_EUROPEAN = {
    "voltage": Names("Uo", "Ui"),
    "current": Names("Io", "Ii"),
    "power": Names("Po", "Pi"),
    "capacitance": Names("Co", "Ci"),
    "inductance": Names("Lo", "Li"),
}
_AMERICAN = {
    "voltage": Names("Uo (Voc)", "Ui (Vmax)"),
    "current": Names("Io (Isc)", "Ii (Imax)"),
    "power": Names("Po", "Pi"),
    "capacitance": Names("Co (Ca)", "Ci"),
    "inductance": Names("Lo (La)", "Li"),
}


def names(quantity: str, law: Law | None) -> Names:
    """The names for `voltage`, `current` and so on; a list under the NEC may use either of two."""
    return (_AMERICAN if law is Law.NEC else _EUROPEAN)[quantity]


def both(items: Iterable[str]) -> str:
    """`10`, `10 and 11`, `10, 11 and 12`, each item once."""
    listed = list(dict.fromkeys(items))
    return " and ".join(filter(None, (", ".join(listed[:-1]), *listed[-1:])))
