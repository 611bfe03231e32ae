"""Whether a couple stays within the allowed difference, and where the index misleads."""

from areafit.checks.materials.galvanic.question import Asked, Couple, Doubtful, Dry, Half, Open
from areafit.checks.materials.several import most_severe
from areafit.corrosion.cite import reasoned
from areafit.naming import nearest_known, use_known_name
from areafit.rule import Judgement, Row, flagged, passed, unproven
from areafit.tables.classes import Atmosphere, GalvanicLimit
from areafit.values import Frozen
from areafit.verdict import Reason, Role, Verdict

_STEEL_MV = 850  # what is left when the zinc has gone


class Sides(Frozen):
    """The two halves by their index: the anode suffers. `delta` in mV."""

    anode: Half
    cathode: Half
    delta: int


def judge(question: Asked) -> Judgement:
    """The worst of the pairs that the names may mean."""
    if isinstance(question, Open):
        return _open(question)
    if isinstance(question, Dry):
        return passed(
            f"No electrolyte, no couple: {question.why}.",
            required="no lasting wetness, or metals close to each other",
            found=question.why,
        )
    found = most_severe(_couple(couple) for couple in question.couples)
    return _doubtful(question, found) if isinstance(question, Doubtful) else found


def _doubtful(question: Doubtful, found: Judgement) -> Judgement:
    """A pair that only a dry contact would let pass, or that may not touch at all."""
    if found.verdict is Verdict.PASS:
        return found
    if question.inside:
        return unproven(
            Reason.FACT_MISSING,
            f"Two metals of this part are wetted alike; whether they touch is not stated. Do they, "
            f"then: {found.message}",
            required=found.required,
            found=found.found,
            rows=found.rows,
            remedy="Part or coat the nobler metal and list the coating, or choose like metals; "
            "where they do not touch, have that accepted in a waiver.",
        )
    return unproven(
        Reason.FACT_MISSING,
        "The contact is said to be kept dry, and liquid wets the parts on both sides. Wet, it "
        f"would not pass: {found.message}",
        required=found.required,
        found=f"{found.found}, said to be dry",
        rows=found.rows,
        remedy="Say by the exposure of both sides that nothing wets them there, or seal the joint "
        "and have that accepted in a waiver.",
    )


def _open(question: Open) -> Judgement:
    if question.what == "material":
        return unproven(
            Reason.NAME_UNKNOWN,
            f"{question.name!r} is no known material.{nearest_known(question.nearest)}",
            required="a known material on both sides",
            found=question.name,
            remedy=use_known_name(question.nearest, "have a corrosion specialist judge the pair"),
        )
    if question.what == "contacts":
        return unproven(
            Reason.FACT_MISSING,
            "What the part touches is not stated, and it gets wet.",
            required="`contacts`, or `contacts: none`",
            found="not stated",
            remedy="List `contacts` with the items that the part touches, or state `none`.",
        )
    which = "this part" if question.what == "own component" else f"item {question.name}"
    return unproven(
        Reason.FACT_MISSING,
        f"Which material of {which} makes the contact with item {question.name} is not clear.",
        required="one material on each side",
        found="none or several",
        remedy="Name `component` and `with_component`, and list the materials of both items.",
    )


def _couple(couple: Couple) -> Judgement:
    first, second = couple.first.index_mv, couple.second.index_mv
    if first is None or second is None:
        plastic = couple.first if first is None else couple.second
        return passed(
            f"{plastic.material} is no metal, so there is no couple.",
            required="metals close to each other",
            found=f"{couple.first.material} on {couple.second.material}",
        )
    sides = _sides(couple, first, second)
    limits = sorted(couple.limits, key=lambda limit: _allowed(couple, sides, limit))
    harshest, mildest = limits[0], limits[-1]
    if sides.delta <= _allowed(couple, sides, harshest):
        return _within(couple, sides, harshest)
    known = _misleading(couple, sides, harshest)
    if known is not None:
        return known
    if not couple.stated and sides.delta <= _allowed(couple, sides, mildest):
        return unproven(
            Reason.FACT_MISSING,
            f"{_names(sides)} differ by {sides.delta} mV: allowed in {mildest.atmosphere.value} "
            f"air, too much in {harshest.atmosphere.value}; the air of the place is not stated.",
            required="the atmosphere of the place",
            found="not stated",
            rows=_rows(couple, harshest),
            remedy="State `atmosphere`: severe, normal or controlled.",
            answer_by=Role.PROCESS_OWNER,
        )
    return _exceeded(couple, sides, mildest)


def _sides(couple: Couple, first: int, second: int) -> Sides:
    if first >= second:
        return Sides(couple.first, couple.second, first - second)
    return Sides(couple.second, couple.first, second - first)


def _anode_larger(couple: Couple, sides: Sides) -> int:
    """1 where the anode is much the larger surface, -1 where much the smaller, 0 if unknown."""
    if couple.first_larger:
        return couple.first_larger if sides.anode is couple.first else -couple.first_larger
    if sides.cathode.fastener and not sides.anode.fastener:
        return 1
    return -1 if sides.anode.fastener and not sides.cathode.fastener else 0


def _allowed(couple: Couple, sides: Sides, limit: GalvanicLimit) -> int:
    """The limit in mV, doubled for a small noble side in milder air, halved for a small anode."""
    base = sides.cathode.stainless and sides.anode.base
    larger = _anode_larger(couple, sides) if base else 0
    if larger > 0 and limit.atmosphere is not Atmosphere.SEVERE:
        return 2 * limit.limit_mv
    return limit.limit_mv // 2 if larger < 0 else limit.limit_mv


def _within(couple: Couple, sides: Sides, limit: GalvanicLimit) -> Judgement:
    allowed = _allowed(couple, sides, limit)
    rows = _rows(couple, limit)
    if allowed != limit.limit_mv:
        rows = (*rows, reasoned("area ratio", f"limit {limit.limit_mv} mV becomes {allowed} mV"))
    return passed(
        f"{_names(sides)} differ by {sides.delta} mV, within {allowed} mV.",
        required=_required(limit, allowed),
        found=f"{sides.delta} mV",
        rows=rows,
    )


def _misleading(couple: Couple, sides: Sides, limit: GalvanicLimit) -> Judgement | None:
    """Couples for which the index says more than happens; None where it is right."""
    pair = (sides.anode, sides.cathode)
    if any(side.stainless for side in pair) and any(side.small_noble for side in pair):
        return _by_reason(
            couple, sides, limit, "passive stainless steel is a small couple with it either way"
        )
    if any(side.film for side in pair):
        return unproven(
            Reason.CONDITION_TO_ACCEPT,
            f"{_names(sides)} differ by {sides.delta} mV; only the anodic film parts them, and at "
            "a scratch or a drilled hole it does not.",
            required=_required(limit, _allowed(couple, sides, limit)),
            found=f"{sides.delta} mV below a film",
            rows=_rows(couple, limit),
            remedy="Isolate the joint, or show that the film stays whole.",
        )
    if sides.anode.zinc and (sides.cathode.steel or sides.cathode.base):
        return _sacrificial(couple, sides, limit)
    return None


def _sacrificial(couple: Couple, sides: Sides, limit: GalvanicLimit) -> Judgement:
    """Zinc on steel, or on a fastener in aluminium: it is there to be the anode."""
    if couple.hot:
        return unproven(
            Reason.CONDITION_TO_ACCEPT,
            f"Above 60 °C zinc may become the nobler side of {sides.cathode.material}.",
            required="water below 60 °C for zinc to protect",
            found="hotter",
            rows=_rows(couple, limit),
        )
    left = abs(_STEEL_MV - (sides.cathode.index_mv or 0))
    why = f"the zinc protects until it is used up; the steel then differs by {left} mV"
    return _by_reason(couple, sides, limit, why)


def _by_reason(couple: Couple, sides: Sides, limit: GalvanicLimit, why: str) -> Judgement:
    return passed(
        f"{_names(sides)} differ by {sides.delta} mV by the index, but {why}.",
        required=_required(limit, _allowed(couple, sides, limit)),
        found=f"{sides.delta} mV by the index",
        rows=(*_rows(couple, limit), reasoned("where the index misleads", why)),
    )


def _exceeded(couple: Couple, sides: Sides, limit: GalvanicLimit) -> Judgement:
    allowed = _allowed(couple, sides, limit)
    small = (
        " It is the smaller side too, which concentrates the attack."
        if (_anode_larger(couple, sides) < 0)
        else ""
    )
    return flagged(
        f"{sides.anode.material} corrodes on {sides.cathode.material}: they differ by "
        f"{sides.delta} mV, {allowed} mV are allowed.{small}",
        required=_required(limit, allowed),
        found=f"{sides.delta} mV",
        rows=_rows(couple, limit),
    )


def _names(sides: Sides) -> str:
    return f"{sides.anode.material} and {sides.cathode.material}"


def _required(limit: GalvanicLimit, allowed: int) -> str:
    return f"at most {allowed} mV ({limit.atmosphere.value} air)"


def _rows(couple: Couple, limit: GalvanicLimit) -> tuple[Row, ...]:
    row = Row.of("galvanic_limits", limit.atmosphere.value, limit, f"{limit.limit_mv} mV")
    own = (half.row for half in (couple.first, couple.second) if half.row is not None)
    return (*dict.fromkeys(own), row)
