"""Every rule, in the order that reports list them; explicit, so that order is reviewed.

A family lists its rules and the subject of each, so that only those are imported that a list has
a subject for.
"""

from functools import cache
from importlib import import_module
from types import ModuleType
from typing import Any

from areafit.checks import area, assembly, ignition, loops, materials, places, proof
from areafit.rule import Rule, Subject

RULES: tuple[Rule[Any], ...]
"""All of them, imported when first asked for."""

_FAMILIES: tuple[ModuleType, ...] = (area, proof, ignition, materials, places, loops, assembly)


@cache
def on(subject: Subject) -> tuple[Rule[Any], ...]:
    """The rules for one sort of subject.

    Raises:
        LookupError: a family lists a rule under a subject that is not its own.
    """
    found = tuple(
        _rule(family, identity, module)
        for family in _FAMILIES
        for identity, module, of in family.LISTED
        if of is subject
    )
    misplaced = [rule.id for rule in found if rule.subject is not subject]
    if misplaced:
        raise LookupError(f"listed under {subject.name}, but for another: {', '.join(misplaced)}")
    return found


def find(identity: str) -> Rule[Any] | None:
    """The rule with this id, or None."""
    return next((rule for rule in _every() if rule.id == identity), None)


def _rule(family: ModuleType, identity: str, module: str) -> Rule[Any]:
    """The constant that is named like the rule: `gas-group` is `GAS_GROUP`."""
    home = import_module(f"{family.__name__}.{module}")
    rule: Rule[Any] = getattr(home, identity.upper().replace("-", "_"))
    return rule


@cache
def _every() -> tuple[Rule[Any], ...]:
    return tuple(
        _rule(family, identity, module)
        for family in _FAMILIES
        for identity, module, _ in family.LISTED
    )


def __getattr__(name: str) -> object:
    """Import all rules when `RULES` is first used (PEP 562)."""
    if name == "RULES":
        return _every()
    raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
