"""What is drawn of a report: verdicts by family, who must answer, places, and loops."""

import re
from collections import Counter
from collections.abc import Iterator, Sequence
from decimal import Decimal
from itertools import pairwise
from typing import TYPE_CHECKING

from areafit.answers.causes import Cause, CauseKind
from areafit.answers.need import mixtures_of, warmth_of
from areafit.facts.quantity import Dimension, number, show
from areafit.rule import Family
from areafit.verdict import Verdict
from areafit_cli.render import wording
from areafit_cli.render.html import isolated, svg, table, text, word

if TYPE_CHECKING:
    from areafit.checks.loops.budget import Budget
    from areafit.demands.mixtures import Drawn, Weighed
    from areafit.findings.report import BomReport, PlaceReport, SubjectReport
    from areafit_cli.render import Style

_FAMILIES = {
    Family.AREA: "area and marking",
    Family.PROOF: "documents",
    Family.IGNITION: "ignition, static, bonding",
    Family.LOOPS: "loops",
    Family.PLACES: "places",
    Family.MATERIALS: "materials",
    Family.ASSEMBLY: "the machine as a whole",
}
_SHOWN = (Verdict.PASS, Verdict.FLAG, Verdict.UNPROVEN, Verdict.WAIVED)
_MARGIN = re.compile(r"(?:margin|over by) (-?[\d.]+ %)")


def by_family(report: "BomReport") -> str:
    """How many findings of each family have which verdict; each bar beside its number."""
    counted: Counter[tuple[Family, Verdict]] = Counter()
    for subject in report.subjects():
        for block in subject.blocks:
            for judged in block.judged:
                counted[judged.rule.family, judged.judgement.verdict] += 1
    most = max((counted[f, v] for f in Family for v in _SHOWN), default=1) or 1
    rows = []
    for family, name in _FAMILIES.items():
        amounts = [counted[family, verdict] for verdict in _SHOWN]
        if any(amounts):
            cells = [
                f"{svg.bar(amount / most, verdict.value)} {amount}"
                for amount, verdict in zip(amounts, _SHOWN, strict=True)
            ]
            rows.append((text(name), *cells))
    head = ("Family", *(verdict.value for verdict in _SHOWN))
    return table("Verdicts by family: number of findings", head, rows, "bars")


def parties(report: "BomReport", found: Sequence[Cause], most_shown: int, style: "Style") -> str:
    """Who must answer how much, the busiest first, and what was asked of them when."""
    counted: Counter[tuple[str, str]] = Counter()
    lines: dict[tuple[str, str], set[str]] = {}
    own: dict[tuple[str, str], list[Cause]] = {}
    for cause in found:
        if cause.kind is CauseKind.ANSWER:
            party = (cause.who.value, cause.vendor or "")
            counted[party] += 1
            lines.setdefault(party, set()).update(cause.names)
            own.setdefault(party, []).append(cause)
    most = max(counted.values(), default=1)
    order = sorted(counted, key=lambda each: (-counted[each], each))
    rows = [
        (
            wording.joined(*map(isolated, party)),
            f"{svg.bar(counted[party] / most, 'unproven')} {counted[party]}",
            str(len(lines[party])),
            isolated(wording.asked(report, own[party], style.asked, style.on)),
        )
        for party in order[:most_shown]
    ]
    left = sum(counted[party] for party in order[most_shown:])
    if left:
        rows.append((f"{len(order) - most_shown} more", str(left), "", ""))
    head = ("Who", "Questions", "Subjects", "Numbers, asked, came back")
    if not any(row[3] for row in rows):  # nothing was asked in a register yet
        return table("Questions by who answers", head[:3], [row[:3] for row in rows], "bars")
    return table("Questions by who answers", head, rows, "bars asked")


def places(report: "BomReport", most: int | None = None) -> str:
    """Each place with its hazards, the range of its air on one scale, and how its lines fare."""
    ranges = [facts.ambient for facts in report.bom.places.values() if facts.ambient is not None]
    low = min([Decimal(-20), *(each.low for each in ranges)])
    high = max([Decimal(60), *(each.high for each in ranges)])
    rows: list[tuple[str, ...]] = []
    for place in report.places[:most]:
        facts = report.bom.places.get(place.name)
        ambient = facts.ambient if facts else None
        here = [part for part in report.parts if place.name in part.part.locations]
        open_ = sum(not part.verdict.passes for part in here)
        drawn = ""
        if ambient is not None:
            scale = 120 / (high - low)
            start, length = (ambient.low - low) * scale, (ambient.high - ambient.low) * scale
            shapes = [
                svg.line(0, 7, 120, 7, "axis"),
                svg.line(-low * scale, 1, -low * scale, 13, "axis"),
                svg.rectangle(start, 3, max(length, Decimal(2)), 8, "span"),
            ]
            drawn = svg.drawing(122, 14, wording.span(ambient), shapes)
            drawn += f" {text(wording.span(ambient))}"
        rows.append(
            (
                wording.joined(isolated(place.name), isolated(facts.title if facts else None)),
                isolated(facts.area.text if facts and facts.area else "area not stated"),
                isolated("; ".join(_hazards(place))),
                drawn or "not stated",
                isolated(", ".join(each.name for each in (facts.chemicals or ()) if facts))
                if facts
                else "",
                isolated(facts.document if facts else None),
                text(f"{len(here)} lines, {open_} open"),
            )
        )
    if most is not None and len(report.places) > most:
        left = f"and {len(report.places) - most} more under “Places”"
        rows.append((text(left), *[""] * 6))
    head = ("Place", "Area", "Hazards", "Air, on one scale", "Chemicals", "From", "Lines")
    return table("Places, their hazards and their air", head, rows, "places")


def _hazards(place: "PlaceReport") -> Iterator[str]:
    demands = place.demands
    if demands is None:
        return
    for hazard in demands.hazards:
        present = ", ".join(dict.fromkeys(one.name for one in demands.substances))
        limit = min((each.maximum for each in hazard.limits), default=None)
        below = f", surfaces below {number(limit)} °C" if limit is not None else ""
        yield f"{hazard.hazard.value}: {present or 'not stated'}{below}"


# Mixtures of liquids

_APART = 5
_SCALE = 44


def liquids(report: "BomReport") -> Iterator[str]:
    """Each mixture of liquids: what it gives off, and its flash point over its composition."""
    rows, drawn = [], []
    for place in report.places:
        demands = place.demands
        mixed = mixtures_of(demands) if demands is not None else ()
        for liquid in mixed:
            from areafit.demands import mixtures  # noqa: PLC0415 - seldom a mixture

            if demands is None or liquid.mixture is None:
                continue
            warm = warmth_of(liquid, demands)
            weighed = mixtures.weigh(liquid.mixture, warm, demands.tables)
            rows.append((isolated(place.name), isolated(liquid.name), isolated(weighed.answer)))
            if isinstance(weighed.found, mixtures.Computed) and not weighed.found.beyond:
                curve = mixtures.drawn(liquid.mixture, demands.tables)
                drawn.append(_flash_curve(liquid.name, weighed.found.celsius, weighed, curve))
    if rows:
        yield table("Mixtures of liquids", ("Place", "Liquid", "Vapour that burns"), rows, "asks")
    if any(drawn):
        yield f'<div class="curves">{"".join(drawn)}</div>\n'


def _flash_curve(liquid: str, flash: Decimal, weighed: "Weighed", drawn: "Drawn | None") -> str:
    """The flash point over the share of what flashes coldest, and what is stated; in °C."""
    hottest = weighed.hottest
    if drawn is None or len(drawn.points) < 2:
        return ""
    taken = flash - (weighed.lowered or flash)
    values = [value for _, value in drawn.points]
    marks = [*values, *(value - taken for value in values)]
    marks += [hottest] if hottest is not None else []
    top, foot = max(marks).quantize(Decimal(1)) + 5, min(marks).quantize(Decimal(1)) - 5
    across = Decimal(_WIDE - _SCALE - _LEFT) / 100
    up = (_HIGH - _FOOT - 40) / (top - foot)

    def x(share: Decimal) -> Decimal:
        return _SCALE + share * across

    def y(celsius: Decimal) -> Decimal:
        return _HIGH - _FOOT - (celsius - foot) * up

    unit = drawn.share_of.value
    share = f"{number(drawn.low)}{'' if drawn.low == drawn.high else f'..{number(drawn.high)}'}"
    point = f"{number(flash)} °C"
    said = f"Flash point of {liquid} over the share of {drawn.component}: {point} at {share} {unit}"
    right = drawn.high > 50
    shapes = [
        svg.line(_SCALE, _HIGH - _FOOT, _WIDE - _LEFT, _HIGH - _FOOT, "axis"),
        svg.line(_SCALE, 34, _SCALE, _HIGH - _FOOT, "axis"),
        *(
            svg.curve([(x(at), y(value - less)) for at, value in piece], kind)
            for piece in _unbroken(drawn.points)
            for less, kind in ((Decimal(0), "sum"), (taken, "lowered"))
        ),
        *(
            svg.line(x(at), _HIGH - _FOOT, x(at), 32, "stated")
            for at in dict.fromkeys((drawn.low, drawn.high))
        ),
        svg.dot(x(_worst(drawn)), y(flash)),
        svg.words(
            x(drawn.high) + (-3 if right else 3),
            28,
            f"stated: {share} {unit}, {point}",
            "end" if right else "start",
        ),
        svg.words(_SCALE, _HIGH - 16, f"0 {unit}"),
        svg.words(_WIDE - _LEFT, _HIGH - 16, f"100 {unit}", "end"),
        svg.words((_WIDE + _SCALE) / 2, _HIGH - 2, f"share of {drawn.component}", "middle"),
        svg.words(_SCALE - 3, 44, f"{number(top)} °C", "end"),
        svg.words(_SCALE - 3, _HIGH - _FOOT, f"{number(foot)} °C", "end"),
        svg.words(_LEFT, 12, f"flash point; dotted: less {number(taken)} K of error and margin"),
    ]
    if hottest is not None:
        shapes += [
            svg.line(_SCALE, y(hottest), _WIDE - _LEFT, y(hottest), "limit"),
            svg.words(_WIDE - _LEFT, y(hottest) - 4, f"up to {number(hottest)} °C here", "end"),
        ]
    return svg.drawing(_WIDE, _HIGH, said, shapes)


def _worst(drawn: "Drawn") -> Decimal:
    """The end of the stated share at which the curve is lowest."""

    def height(share: Decimal) -> Decimal:
        return min(drawn.points, key=lambda point: abs(point[0] - share))[1]

    return min((drawn.high, drawn.low), key=height)


def _unbroken(
    points: Sequence[tuple[Decimal, Decimal]],
) -> Iterator[Sequence[tuple[Decimal, Decimal]]]:
    """The pieces of a curve between shares that have no point; points lie at most 5 % apart."""
    piece = [points[0]]
    for before, after in pairwise(points):
        if after[0] - before[0] > _APART:
            yield piece
            piece = []
        piece.append(after)
    yield piece


# Loops


def loop(found: "SubjectReport") -> Iterator[str]:
    """The margins of a circuit, and its capacitance and inductance over the length of its cable."""
    rows = [
        (
            text(finding.rule.title),
            word(finding.verdict),
            isolated(finding.required),
            isolated(finding.found),
            text(", ".join(_MARGIN.findall(finding.message))),
        )
        for finding in found.findings()
    ]
    head = ("Requirement", "Verdict", "Required", "Values and sums", "Margin")
    yield table(f"Loop {found.name}: margins", head, rows, "asks")
    drawn = "".join(filter(None, (_curve(budget) for budget in _budgets(found))))
    if drawn:
        yield f'<div class="curves">{drawn}</div>\n'


def _budgets(found: "SubjectReport") -> Iterator["Budget"]:
    from areafit.checks.loops.budget import Circuit, budget  # noqa: PLC0415 - seldom a loop

    dimensions = {
        "loop-capacitance": Dimension.CAPACITANCE,
        "loop-inductance": Dimension.INDUCTANCE,
    }
    for block in found.blocks:
        for judged in block.judged:
            dimension = dimensions.get(judged.rule.id)
            question = judged.ask.question
            if dimension is not None and isinstance(question, Circuit):
                yield budget(question, dimension)


_WIDE, _HIGH, _LEFT, _FOOT = 420, 190, 16, 30


def _curve(reckoned: "Budget") -> str:
    """The sum over the length of the cable, its limit, and the length that is stated."""
    cable, limit = reckoned.cable, reckoned.certain
    if limit is None or cable.length is None or cable.each is None or reckoned.own.devices.missing:
        return ""
    dimension = reckoned.dimension
    devices, longest = reckoned.own.devices.known, reckoned.longest
    furthest = max(cable.length * Decimal("1.5"), Decimal(1))
    if longest is not None and longest > 0:
        furthest = max(furthest, min(longest * Decimal("1.15"), cable.length * 4))
    highest = max(devices + cable.each * furthest, limit * Decimal("1.15"), reckoned.known)
    across = (_WIDE - 2 * _LEFT) / furthest
    up = (_HIGH - _FOOT - 40) / highest

    def x(metres: Decimal) -> Decimal:
        return _LEFT + metres * across

    def y(value: Decimal) -> Decimal:
        return _HIGH - _FOOT - value * up

    name = dimension.name.lower()
    total = f"{show(reckoned.known, dimension)} at {number(cable.length)} m"
    said = f"{name.capitalize()} over cable length: {total}, limit {show(limit, dimension)}"
    if longest is not None:
        said += f", reached at {show(longest.quantize(Decimal(1)), Dimension.LENGTH)}"
    right = x(cable.length) > _WIDE / 2
    stated = x(cable.length)
    shapes = [
        svg.line(_LEFT, _HIGH - _FOOT, _WIDE - _LEFT, _HIGH - _FOOT, "axis"),
        svg.line(_LEFT, 34, _LEFT, _HIGH - _FOOT, "axis"),
        svg.line(_LEFT, y(limit), _WIDE - _LEFT, y(limit), "limit"),
        svg.line(_LEFT, y(devices), x(furthest), y(devices + cable.each * furthest), "sum"),
        svg.line(stated, _HIGH - _FOOT, stated, 32, "stated"),
        svg.dot(stated, y(reckoned.known)),
        svg.words(
            _LEFT + 4 if right else _WIDE - _LEFT,
            y(limit) - 4,
            f"limit {show(limit, dimension)}",
            "start" if right else "end",
        ),
        svg.words(stated, 28, f"stated: {total}", "end" if right else "start"),
        svg.words(_LEFT, _HIGH - 16, f"0 m: devices {show(devices, dimension)}"),
        svg.words(_WIDE - _LEFT, _HIGH - 16, f"{number(furthest.quantize(Decimal(1)))} m", "end"),
        svg.words(_WIDE / 2, _HIGH - 2, "length of cable", "middle"),
        svg.words(_LEFT, 12, f"{name} of devices and cable"),
    ]
    return svg.drawing(_WIDE, _HIGH, said, shapes)
