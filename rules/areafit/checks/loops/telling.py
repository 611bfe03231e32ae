"""The arithmetic of a reactance in words: what is required, what was found, and why."""

from areafit.checks.loops.budget import PER_LENGTH, Budget, Lump
from areafit.checks.loops.circuit import Circuit
from areafit.checks.loops.figures import amount, length_text, share
from areafit.checks.loops.lumped import Halving
from areafit.checks.loops.words import both, names
from areafit.facts.protection import Law
from areafit.facts.quantity import Dimension, show

WORDS = {Dimension.CAPACITANCE: "capacitance", Dimension.INDUCTANCE: "inductance"}


def total(budget: Budget) -> str:
    """`Capacitance 45 nF`."""
    return f"{WORDS[budget.dimension].capitalize()} {show(budget.known, budget.dimension)}"


def required(circuit: Circuit, budget: Budget) -> str:
    """The limit, the group that it is for, and whether it is halved."""
    output = names(WORDS[budget.dimension], circuit.law).output
    if budget.full is None or budget.certain is None:
        needed = dict.fromkeys(need.group.value for need in circuit.needs.groups)
        return f"a stated {output} for {both(needed) or 'the group of the place'}"
    stated = budget.allowed.group
    group = f" for {stated.value}" if stated is not None else ""
    full = f"{output} {show(budget.full, budget.dimension)}{group}"
    if budget.halving is not Halving.YES:
        return f"at most {full}"
    capped = ", capped" if budget.certain * 2 < budget.full else ""
    return f"at most {show(budget.certain, budget.dimension)}: half of {full}{capped}"


def found(circuit: Circuit, budget: Budget) -> str:
    """Every share of the sum: the devices' and the cable's."""
    capacitive = budget.dimension is Dimension.CAPACITANCE
    values = [(d.item, d.capacitance if capacitive else d.inductance) for d in circuit.devices]
    parts = [f"{amount(value, budget.dimension)} (item {item})" for item, value in values]
    parts.append(f"{amount(budget.run.total, budget.dimension)} ({_cable(budget)})")
    return " + ".join(parts)


def _cable(budget: Budget) -> str:
    run = budget.run
    if run.length is None or run.each is None:
        return "cable"
    each = show(run.each, PER_LENGTH[budget.dimension])
    text = f"cable, {show(run.length, Dimension.LENGTH)} of {each}"
    if not run.defaulted or run.default is None:
        return text
    return f"{text}, the default of {run.default.value} ({run.default.source_id})"


def halved(circuit: Circuit, budget: Budget) -> str:
    """Whether the permitted reactances are halved, with the shares that decide it."""
    shares = both(_share(lump, circuit.law) for lump in budget.lumps)
    return f"Cable left out, {shares}{_SO[budget.halving]}"


_SO = {
    Halving.YES: ": both above 1 %, so both limits are halved.",
    Halving.NO: ": not both above 1 %, so nothing is halved.",
    Halving.AT_THE_EDGE: ". Some texts halve above 1 %, others from 1 % on; exactly 1 % leaves no "
    "margin.",
    Halving.OPEN: "; the limit kept here is the halved one.",
}


def _share(lump: Lump, law: Law | None) -> str:
    pair = names(WORDS[lump.dimension], law)
    if lump.devices.missing:
        return f"{pair.input} is not known"
    stated = f"{pair.input} {show(lump.devices.known, lump.dimension)}"
    if lump.permitted is None:
        return f"{stated} is of an unknown share"
    return f"{stated} is {share(lump.devices.known, lump.permitted)} of {pair.output}"


def longest(circuit: Circuit, budget: Budget) -> str:
    """How long the cable may be, as a sentence; empty where it cannot be told."""
    length = budget.longest()
    if length is None:
        return ""
    text = length_text(length, circuit.law)
    if budget.run.each is None and budget.run.default is not None:
        return f"With that default up to {text} of cable would keep this limit."
    return f"Up to {text} of this cable keeps this limit."
