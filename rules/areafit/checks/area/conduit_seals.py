"""Conduit seals: how near to an enclosure each conduit is sealed, and which need no seal."""

from collections.abc import Iterator
from decimal import Decimal

from areafit.checks.area.entry_questions import (
    ARTICLE,
    CONDUITS,
    REQUIRED,
    Defect,
    EntryQuestion,
    Needs,
    hot_share,
)
from areafit.checks.area.group import both_units
from areafit.facts.fittings import (
    Compartment,
    ConduitSeals,
    EntryType,
)
from areafit.facts.quantity import Dimension, show
from areafit.rule import Answer, Judgement, Row
from areafit.tables.limits import Figure, figure
from areafit.verdict import Reason
from areafit.wording import capital


def judge_seals(needs: Needs, seals: ConduitSeals) -> Judgement:
    """What one word says of all conduits of a box that asks for seals: it can object at least."""
    most = _distance(needs)
    answer = Answer(REQUIRED, "conduit seals", (Row.of_figure(most),), clause=most.clause)
    if seals.within is not None and seals.within > most.amount(Dimension.LENGTH):
        return answer.flagged(
            f"Conduit seals stand up to {show(seals.within, Dimension.LENGTH)} from the enclosure; "
            f"{both_units(most)} is the most.",
            remedy=f"Seal each conduit within {both_units(most)} of the enclosure, and state "
            "`conduit_seals: {within: …, all_runs: true}`.",
        )
    if seals.all_runs is False:
        return answer.flagged(
            f"{capital(ARTICLE[needs])} enclosure asks for a seal in every conduit; not all have "
            "one.",
            remedy="Seal every conduit near the enclosure, and state `all_runs: true`.",
        )
    return answer.unproven(
        Reason.FACT_MISSING,
        "For which class and group the conduit seals are marked, and what closes other openings, "
        "is not stated.",
        remedy="List `entries`: each conduit seal with marking, thread, hole and `within`, and the "
        "plugs of openings that are not used.",
    )


def seal_figures(question: EntryQuestion) -> tuple[Figure, ...]:
    """The figures that a conduit, or its seal, is held to."""
    used = [_large(), hot_share()] if question.entry.type in CONDUITS and question.quiet else []
    if question.entry.type is EntryType.CONDUIT and question.needs is not Needs.CLOSED:
        used.append(_distance(question.needs))
    return (*used, *_distances(question))


def _distances(question: EntryQuestion) -> tuple[Figure, ...]:
    """Within what of the enclosure a conduit seal must be, and should be at type d."""
    entry = question.entry
    if question.needs is Needs.CLOSED or entry.type is not EntryType.CONDUIT_SEAL:
        return ()
    if question.both and entry.into is Compartment.INCREASED_SAFETY:
        return ()
    if question.sealed and question.needs is Needs.FLAMEPROOF:
        return ()  # 505.16(B)(1), exception
    if question.quiet and entry.trade_size is not None and not _asks_by_size(entry.trade_size):
        return ()
    nearer = (_distance(Needs.FLAMEPROOF),) if question.needs is Needs.FLAMEPROOF else ()
    most = Needs.EXPLOSIONPROOF if nearer else question.needs
    return (_distance(most), *nearer)


def _distance(needs: Needs) -> Figure:
    uses = {Needs.FLAMEPROOF: "type d", Needs.PRESSURIZED: "pressurized"}
    return figure("distance of a conduit seal", uses.get(needs, "Division 1"))


_SEAL_IT = (
    "Seal the conduit near the enclosure, and state `type: conduit seal` with its `within` and its "
    "`marking`."
)


def unsealed(question: EntryQuestion) -> Iterator[Defect]:
    """A conduit without a seal: what asks for one, and what does not."""
    needs, entry = question.needs, question.entry
    if needs is Needs.FLAMEPROOF and question.sealed:
        return
    if needs is Needs.CLOSED and not question.sealed_e:
        return  # dust and fibres enter no threaded joint; 502.15 seals what leads elsewhere
    if question.sealed_e and (needs is Needs.CLOSED or entry.into is not Compartment.FLAMEPROOF):
        yield Defect(
            "A conduit into an enclosure of type e asks for a seal; whether only NPT joints lead "
            "to one, or to another enclosure of type e, is not stated.",
            _SEAL_IT,
            clause="NFPA 70-2023 505.16(B)(1)",
        )
        return
    most = _distance(needs)
    clause = most.clause
    if needs is Needs.PRESSURIZED:
        yield Defect(
            "A conduit into a pressurized enclosure asks for a seal unless the same pressure is "
            "in it, which is not stated.",
            _SEAL_IT,
            clause=clause,
        )
    elif not question.quiet:
        yield Defect(
            f"{capital(ARTICLE[needs])} enclosure asks for a seal within {both_units(most)} in "
            "every conduit; this one has none.",
            _SEAL_IT,
            fails=True,
            clause=clause,
        )
    elif entry.trade_size is None:
        yield Defect(
            f"From trade size 2 on a conduit asks for a seal within {both_units(most)}; its size "
            "is not stated.",
            "State `trade_size`: below 2 no seal is asked for.",
            clause=clause,
        )
    elif _asks_by_size(entry.trade_size):
        yield Defect(
            f"From trade size 2 on a conduit asks for a seal within {both_units(most)}; this one "
            "has none.",
            _SEAL_IT,
            fails=True,
            clause=clause,
        )


def _asks_by_size(inches: Decimal) -> bool:
    """Whether a conduit is so large that even a box with splices only asks for a seal near it."""
    return inches * _METRES_AN_INCH >= _large().amount(Dimension.LENGTH)


_METRES_AN_INCH = Decimal("0.0254")
_BY_SIZE = ", or `trade_size`: below 2 the distance is free"


def _nearer(most: Figure) -> str:
    return f"Seal the conduit within {both_units(most)} of the enclosure, and state `within`."


def too_far(question: EntryQuestion) -> Iterator[Defect]:
    """A seal that stands farther from the enclosure than the code lets it."""
    distances = _distances(question)
    if not distances:
        return
    within, clause = question.entry.within, distances[-1].clause
    by_size = question.quiet and question.entry.trade_size is None
    if within is None:
        size = ", nor the trade size of the conduit" if by_size else ""
        yield Defect(
            f"How far the conduit seal is from the enclosure is not stated{size}.",
            f"State `within`{_BY_SIZE if by_size else ''}.",
            clause=clause,
        )
        return
    stands = f"The conduit seal stands {show(within, Dimension.LENGTH)} from the enclosure; "
    most, *nearer = distances
    if within > most.amount(Dimension.LENGTH):
        if by_size:
            yield Defect(
                f"{stands}{both_units(most)} is the most from trade size 2 on, which is not "
                "stated.",
                "State `trade_size`: below 2 the distance is free.",
                clause=clause,
            )
            return
        yield Defect(
            f"{stands}{both_units(most)} is the most.", _nearer(most), fails=True, clause=clause
        )
    elif any(within > each.amount(Dimension.LENGTH) for each in nearer):
        yield Defect(
            f"{stands}type d asks for {both_units(nearer[0])} unless its own marking says "
            "otherwise.",
            _nearer(nearer[0]),
            clause=clause,
        )


def _large() -> Figure:
    return figure("trade size from which a box with splices asks for a conduit seal")
