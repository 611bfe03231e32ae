"""Neutral solvents: which flammable substances are such, and what holds for them by class."""

from decimal import Decimal

from areafit.tables import Tables
from areafit.tables.chemicals import (
    Chemical,
    Drying,
    Hydrogen,
    Medium,
    PropertyState,
    Reaction,
    Volatility,
)
from areafit.tables.substances import Substance
from areafit.tables.vapours import QuietGas, Solvent, SolventClass

_PURE = Decimal(100)
# Reactivity groups of EPA-600/2-80-076 by class; a hydrocarbon of a kind not stated is all three.
_GROUPS = {
    SolventClass.ALCOHOL: ("4",),
    SolventClass.KETONE: ("19",),
    SolventClass.ESTER: ("13",),
    SolventClass.ETHER: ("14",),
    SolventClass.HYDROCARBON: ("16", "28", "29"),
}
_SATURATED = ("29",)


def neutral_solvent(name: str, tables: Tables) -> bool:
    """Whether every substance that the name may mean is a neutral solvent by its class row."""
    found = tables.substances(name)
    return bool(found) and all(one.id in _solvents(tables) for one in found)


def quiet_gas(name: str, tables: Tables) -> bool:
    """Whether every chemical that the name may mean is a light gas of table `quiet_gases`."""
    quiet = {row.chemical for row in tables.rows("quiet_gases", QuietGas)}
    found = tables.chemicals(name)
    return bool(found) and all(one.id in quiet for one in found)


def class_of(chemical: Chemical, tables: Tables) -> SolventClass | None:
    """The class of a chemical that is a neutral solvent, or a saturated hydrocarbon as a gas.

    Such a gas counts at every exposure, and does no more than the liquids of its class.
    """
    row = _solvents(tables).get(chemical.substance)
    if row is not None:
        return row.solvent_class
    pure = tables.substance(chemical.substance)
    gas = chemical.medium is Medium.GAS and chemical.epa_groups == _SATURATED
    return SolventClass.HYDROCARBON if gas and pure is not None and pure.formula else None


def known_chemicals(name: str, tables: Tables) -> tuple[Chemical, ...]:
    """The chemicals of this name; a neutral solvent without a row of its own by its class."""
    found = tables.chemicals(name)
    if found or not neutral_solvent(name, tables):
        return found
    return tuple(_by_class(one, _solvents(tables)[one.id]) for one in tables.substances(name))


def _by_class(substance: Substance, row: Solvent) -> Chemical:
    """A neutral solvent as a chemical: neat, volatile, nothing but a solvent."""
    return Chemical(
        id=substance.id,
        name=substance.name,
        cas=substance.cas,
        names=substance.names,
        medium=Medium.LIQUID,
        epa_groups=_GROUPS[row.solvent_class],
        reaction=Reaction.NOT_AQUEOUS,
        oxidising=PropertyState.NO,
        oxidising_note="",
        chloride=PropertyState.NO,
        chloride_note="",
        copper_complexing=PropertyState.NO,
        hydrogen=Hydrogen.NONE,
        volatile=Volatility.YES,
        substance=substance.id,
        assumed_pct=_PURE,
        typical_pct="100",
        drying=Drying.EVAPORATES,
        dried_pct=None,
        behaves_as="",
        behaves_not=(),
        source_id=row.source_id,
        locator=row.locator,
        basis=row.basis,
        note=row.note,
    )


def _solvents(tables: Tables) -> dict[str, Solvent]:
    return tables.remembered(
        ("solvents by id",),
        lambda: {row.substance: row for row in tables.rows("solvents", Solvent)},
    )
