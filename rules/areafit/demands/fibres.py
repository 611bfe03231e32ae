"""Surface temperature beside easily ignited fibres and flyings (Class III)."""

from decimal import Decimal

from areafit.demands.demand import Limit

_CLAUSE = "NFPA 70-2023 503.5"


def fibre_limits() -> tuple[Limit, ...]:
    """165 °C for equipment that cannot be overloaded, 120 °C for what may be.

    Above 120 °C it must be shown that the equipment cannot be overloaded, so that figure is
    uncertain here and `temperature-class` settles it with the part's own statement.
    """
    return (
        Limit(Decimal(165), "Class III, not subject to overload", _CLAUSE, inclusive=True),
        Limit(
            Decimal(120),
            "Class III, where it may be overloaded",
            _CLAUSE,
            inclusive=True,
            uncertain=True,
            overload=True,
        ),
    )
