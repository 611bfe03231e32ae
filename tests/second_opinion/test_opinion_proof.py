"""Documents as a second reader sees them."""

from collections.abc import Callable

import pytest

from areafit.rule import Judgement
from areafit.verdict import Verdict

P, F, U = Verdict.PASS, Verdict.FLAG, Verdict.UNPROVEN
Ask = Callable[..., Judgement]

_MET = "conditions: [{text: guard, met_by: cover, document: DN-1, role: designer}]"
_LISTED = f"{{type: certificate, number: IECEx ABC 21.0001X, {_MET}}}"
_BROKEN = _LISTED.replace("met_by: cover", "met: false")
_OTHER_X = "{type: certificate, number: ABC 21 ATEX 0002 X}"
_PLAIN = "{type: certificate, number: ABC 21 ATEX 0002}"


@pytest.mark.parametrize(
    ("documents", "verdict"),
    [
        (_LISTED, P),
        (f"{_LISTED}, {_OTHER_X}", U),
        (f"{_LISTED}, {_PLAIN}", P),
        (f"{_BROKEN}, {_OTHER_X}", F),
    ],
)
def test_every_x_certificate_lists_its_own_conditions(
    ask: Ask, documents: str, verdict: Verdict
) -> None:
    # IEC 60079-0:2017 29.3 e), from memory: the X refers to the conditions of that certificate
    part = f"kind: electrical, marking: Ex mb IIC T4 Gb, evidence: [{documents}]"
    assert ask("special-conditions", part, "area: 'Zone 1, IIB, T3'").verdict is verdict
