"""Is the rating that a part states enough for the rating that its place asks for."""

from areafit.checks.area.rating import Rating, ips_shown, solids, type_covers, water
from areafit.rule import Judgement, Row, flagged, passed, unproven
from areafit.tables.area import enclosure_types
from areafit.values import Frozen
from areafit.verdict import Reason, Role, Verdict


def judge_ratings(needed: Rating, stated: tuple[Rating, ...]) -> Judgement:
    """All texts together must show what is needed, and none of them may say less.

    An IP code is compared with the IP codes asked for and a Type with the Types, since a Type
    shows an IP rating at least and an IP code no Type at all.
    """
    ips = tuple(ip for rating in stated for ip in rating.ips)
    types = tuple(name for rating in stated for name in rating.types)
    unread = "; ".join(rating.unread for rating in stated if rating.unread)
    answer = judge_rating(needed, Rating(ips, types, unread) if stated else None)
    if answer.verdict is not Verdict.PASS:
        return answer
    for rating in stated:
        own = Rating(
            needed.ips if rating.ips else (),
            needed.types if rating.types else (),
        )
        single = judge_rating(own, rating) if own.ips or own.types else answer
        if single.verdict is Verdict.FLAG:
            return single
    return answer


def judge_rating(needed: Rating, stated: Rating | None) -> Judgement:
    """Types must be covered, and each digit of each IP code reached."""
    required, found = needed.text, stated.text if stated is not None else "not stated"
    if needed.unread or not (needed.ips or needed.types):
        return unproven(
            Reason.NOT_JUDGED,
            f"What the place asks for could not be read: {needed.unread or required!r}.",
            required=required,
            found=found,
            remedy="Write the place's `ingress` as IP65 or Type 4X.",
            answer_by=Role.AREA_OWNER,
        )
    if stated is None or not (stated.ips or stated.types):
        return unproven(
            Reason.FACT_MISSING,
            "The place asks for an enclosure rating; none that could be read is stated.",
            required=required,
            found=found,
        )
    if stated.unread:
        return unproven(
            Reason.NOT_JUDGED,
            f"{stated.unread!r} beside {stated.text} could not be read; it may limit the rating. "
            "Types 7 and 9 are listings for explosion and dust, no ratings.",
            required=required,
            found=found,
        )
    rows = tuple(_row(name) for name in (*needed.types, *stated.types))
    short = _short_of_type(needed, stated) or _short_of_ip(needed, stated)
    if short is None:
        return passed(
            f"{stated.text} holds what the place asks for; holes drilled and cables entered later "
            "must hold it too.",
            required=required,
            found=found,
            rows=rows,
        )
    if short.fails:
        return flagged(short.message, required=required, found=found, rows=rows)
    return unproven(Reason.FACT_MISSING, short.message, required=required, found=found, rows=rows)


class _Short(Frozen):
    """What the rating does not reach, and whether stated facts show that it fails."""

    message: str
    fails: bool


def _short_of_type(needed: Rating, stated: Rating) -> _Short | None:
    for name in needed.types:
        if type_covers(stated.types, name):
            continue
        if stated.types:
            return _Short(f"{stated.text} is not Type {name} and does not include it.", fails=True)
        message = (
            f"An IP rating cannot show Type {name}, which also tests ice, corrosion, oil and the "
            "ageing of gaskets; only a Type converts to IP."
        )
        return _Short(message, fails=False)
    return None


def _short_of_ip(needed: Rating, stated: Rating) -> _Short | None:
    shown = ips_shown(stated)
    for ip in needed.ips:
        if solids(shown, ip.first) and water(shown, ip.second):
            continue
        if stated.types:
            message = f"{stated.text} shows less than {ip.text}; a Type shows a rating at least."
            return _Short(message, fails=False)
        if any(None in (own.first, own.second) for own in stated.ips):
            return _Short(f"{stated.text} leaves a digit of {ip.text} open.", fails=False)
        return _Short(f"{stated.text} does not reach {ip.text}.{_jets(stated)}", fails=True)
    return None


def _jets(stated: Rating) -> str:
    if any(own.second is not None and own.second > 6 for own in stated.ips):
        return " A second digit of 7 to 9 does not include jets unless 5 or 6 is marked beside it."
    return ""


def _row(name: str) -> Row:
    entry = enclosure_types()[name]
    value = f"IP{entry.ip_first}{entry.ip_second} at least"
    key = f"Type {name}"
    return Row.of("enclosure_types", key, entry, value)
