"""The ways in which an insulating surface may stand in an explosive atmosphere."""

from decimal import Decimal

from areafit.checks.ignition.surface_question import SurfaceQuestion
from areafit.facts.quantity import Dimension
from areafit.tables.figures import figure
from areafit.tables.ignition import StaticLimit

_CM2 = Decimal("0.0001")
_MM = Decimal("0.001")
_NC = Decimal("1E-9")


def largest_area(question: SurfaceQuestion, limit: StaticLimit) -> Decimal:
    """The area in m² that a surface may have: four times as much inside an earthed frame."""
    area = limit.area_cm2 * _CM2
    if question.framed:
        area *= figure("framed area").amount(Dimension.FRACTION) / 100
    return area


def way_out(question: SurfaceQuestion, limit: StaticLimit) -> str:
    """The stated fact that frees an insulating surface at these limits; empty if none does."""
    if question.area is not None and question.area <= largest_area(question, limit):
        return "its area is within the limit"
    if _within(question.width, limit.width_mm, _MM):
        return "it is a long part within the limit of width"
    if _within(question.charge, limit.charge_nc, _NC):
        return "a test transferred no more charge than the limit"
    return _layer(question, limit)


def _layer(question: SurfaceQuestion, limit: StaticLimit) -> str:
    """A layer on earthed metal. A layer that stands more than 4 kV feeds a propagating brush.

    One of paint is so thin that it needs no test.
    """
    if not question.metal:
        return ""
    if not question.limits.dust:
        good = _thin(question, limit) and (_breaks_down(question) or _untested(question))
        return "it is a thin layer on earthed metal" if good else ""
    if _breaks_down(question):
        return "its layer on earthed metal breaks down before it can store a dangerous charge"
    return "its layer on metal is too thick for a propagating discharge" if _thick(question) else ""


def layer_open(question: SurfaceQuestion, limit: StaticLimit) -> bool:
    """Whether a layer on earthed metal would do, if a test showed that it breaks down."""
    open_ = question.metal and not question.limits.dust and question.breakdown is None
    return open_ and _thin(question, limit)


def _thin(question: SurfaceQuestion, limit: StaticLimit) -> bool:
    return _within(question.thickness, limit.layer_mm, _MM)


def _untested(question: SurfaceQuestion) -> bool:
    """Whether no test is stated, and none is needed."""
    paint = figure("layer on metal without a breakdown test").amount(Dimension.LENGTH)
    thickness = question.thickness
    return question.breakdown is None and thickness is not None and thickness <= paint


def _breaks_down(question: SurfaceQuestion) -> bool | None:
    """Whether a layer breaks down at 4 kV or less; None where no test is stated."""
    volts = figure("breakdown voltage of a layer on metal").amount(Dimension.VOLTAGE)
    return None if question.breakdown is None else question.breakdown <= volts


def _thick(question: SurfaceQuestion) -> bool:
    thick = figure("thickness of a layer on metal in dust").amount(Dimension.LENGTH)
    return question.thickness is not None and question.thickness >= thick


def _within(value: Decimal | None, limit: Decimal | None, unit: Decimal) -> bool:
    return value is not None and limit is not None and value <= limit * unit


def fails(question: SurfaceQuestion, limit: StaticLimit) -> bool:
    """Whether a figure that is stated is over its limit; a missing one does not fail."""
    over_area = question.area is not None and question.area > largest_area(question, limit)
    return (
        over_area
        or _over(question.width, limit.width_mm, _MM)
        or _over(question.charge, limit.charge_nc, _NC)
        or (question.metal and _over(question.thickness, limit.layer_mm, _MM))
        or (question.metal and _breaks_down(question) is False)
    )


def _over(value: Decimal | None, limit: Decimal | None, unit: Decimal) -> bool:
    return value is not None and limit is not None and value > limit * unit
