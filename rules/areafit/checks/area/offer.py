"""What a code offers and what an area is, as keys of the acceptance table and in words."""

from areafit.facts.marking import Code
from areafit.facts.protection import MarkingSystem
from areafit.marking.level import effective_level


def offered(code: Code) -> str | None:
    """The key under which the acceptance table knows what a code offers; None if it is unclear."""
    if code.system is MarkingSystem.NEC_DIVISION:
        if code.hazard_class == "III" and not code.divisions and code.purge is None:
            return "III/1"  # one kind of equipment serves both divisions (NFPA 70-2023 500.8(C)(2))
        if code.hazard_class is None or not code.divisions:
            return f"purge {code.purge.value}" if code.purge is not None else None
        safe = " is" if is_intrinsically_safe(code) else ""
        return f"{code.hazard_class}/{min(code.divisions)}{safe}"
    level = effective_level(code)
    if level is None:
        return None
    prefix = "AEx" if code.system is MarkingSystem.NEC_ZONE else "Ex"
    return f"{prefix} {level.value}"


def is_intrinsically_safe(code: Code) -> bool:
    """Whether a Division code says that the equipment is intrinsically safe."""
    return "intrinsically safe" in code.words or any(p in ("ia", "i") for p in code.protection)


def describe(code: Code) -> str:
    """What a code offers, in a few words."""
    if code.system is MarkingSystem.NEC_DIVISION:
        if code.purge is not None and not code.divisions:
            return f"Type {code.purge.value} pressurization"
        divisions = " and ".join(str(d) for d in code.divisions) or "not stated"
        safe = ", intrinsically safe" if is_intrinsically_safe(code) else ""
        return f"Class {code.hazard_class}, Division {divisions}{safe}"
    level = effective_level(code)
    words = f"{code.system.value} marking, EPL {level.value if level else 'not shown'}"
    return words + (f", category {code.category}" if code.category else "")
