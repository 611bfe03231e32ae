"""Fingerprints: what voids a waiver and what does not."""

from decimal import Decimal
from typing import TYPE_CHECKING

from areafit.facts.marking import Code
from areafit.facts.protection import Hazard, MarkingSystem
from areafit.findings.finding import canonical
from areafit.values import Frozen

if not TYPE_CHECKING:

    class Grown(Code):
        """The fact as a later release may have it."""

        odour: str | None = None
        odourless: bool = False
        density: Decimal | None = None

    Grown.__name__ = Code.__name__


def test_an_optional_field_of_a_later_release_voids_no_waiver() -> None:
    now, later = Code, Grown  # type: ignore[name-defined]  # hidden from the type checker
    facts = (MarkingSystem.IEC, Hazard.GAS)
    assert canonical(now(*facts)) == canonical(later(*facts))
    assert canonical(now(*facts, legacy=True)) == canonical(later(*facts, legacy=True))
    assert canonical(later(*facts)) != canonical(later(*facts, odour="sweet"))
    assert canonical(later(*facts)) != canonical(later(*facts, odourless=True))


class Sample(Frozen):
    """A fact with defaults."""

    name: str
    said: bool = False
    share: Decimal = Decimal(0)
    notes: tuple[str, ...] = ()


def test_only_the_very_default_is_left_out() -> None:
    assert canonical(Sample("a")) == "Sample(name='a')"
    told = {
        canonical(Sample("a")),
        canonical(Sample("a", said=True)),
        canonical(Sample("a", notes=("",))),
        canonical(Sample("a", share=Decimal("0.1"))),
    }
    assert len(told) == 4
    assert canonical(Sample("a", share=Decimal("0.00"))) == canonical(Sample("a"))
