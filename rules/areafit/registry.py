"""Every rule, in the order that reports list them; explicit, so that order is reviewed."""

from functools import cache
from typing import Any

from areafit.checks import area, assembly, ignition, materials, places, proof
from areafit.rule import Rule, Subject

RULES: tuple[Rule[Any], ...]
"""All of them, made when first asked for."""

_SINGLE = (*area.RULES, *proof.RULES, *ignition.RULES, *materials.RULES, *places.RULES)


@cache
def on(subject: Subject) -> tuple[Rule[Any], ...]:
    """The rules for one sort of subject."""
    known = _loops() if subject is Subject.LOOP else (*_SINGLE, *assembly.RULES)
    return tuple(rule for rule in known if rule.subject is subject)


def find(identity: str) -> Rule[Any] | None:
    """The rule with this id, or None."""
    return next((rule for rule in _every() if rule.id == identity), None)


def _loops() -> tuple[Rule[Any], ...]:
    from areafit.checks import loops  # noqa: PLC0415 - a fifth of all rules, and few lists have one

    return loops.RULES


@cache
def _every() -> tuple[Rule[Any], ...]:
    return (*_SINGLE, *_loops(), *assembly.RULES)


def __getattr__(name: str) -> object:
    """Make `RULES` when it is first used (PEP 562)."""
    if name == "RULES":
        return _every()
    raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
