"""`areafit marking`: a nameplate text decoded, and what is wrong in it."""

from collections.abc import Iterator
from decimal import Decimal
from typing import TYPE_CHECKING, Annotated

import typer

import areafit
from areafit.marking.clashes import missing_elements
from areafit_cli import terminal
from areafit_cli.errors import Exit
from areafit_cli.options import AnswerFormat, FullOption
from areafit_cli.render.paper import block, show

if TYPE_CHECKING:
    from areafit.facts.marking import Code, Marking, Problem, TemperatureMark
    from areafit.facts.quantity import Range


EXAMPLE = 'areafit marking "II 2G Ex db IIC T4 Gb"'


def command(
    words: Annotated[
        list[str],
        typer.Argument(metavar="TEXT...", help="The marking as it stands on the nameplate."),
    ],
    full: FullOption = False,
    format_: Annotated[AnswerFormat, typer.Option("--format")] = AnswerFormat.TEXT,
) -> None:
    """Decode a nameplate marking. Status 1 where something is wrong, missing or not read."""
    marking = areafit.decode(" ".join(words))
    wrong = _wrong(marking)
    if format_ is AnswerFormat.JSON:
        terminal.write_json(as_data(marking))
    else:
        terminal.write(_lines(marking) if full else _short(marking))
    sound = marking.codes and not wrong
    raise typer.Exit(Exit.PASSED if sound else Exit.FAILED)


def _wrong(marking: "Marking") -> tuple["Problem", ...]:
    """What contradicts or was not read, and what the plate lacks."""
    return (*marking.problems, *missing_elements(marking))


def as_data(marking: "Marking") -> dict[str, object]:
    """The marking in the vocabulary of the JSON answers."""
    return {
        "text": marking.text,
        "system": marking.codes[0].system if marking.codes else None,
        "parts": [_code(code) for code in marking.codes],
        "problems": [
            {"message": each.message, "clause": each.clause, "unread": each.unread}
            for each in _wrong(marking)
        ],
    }


def _code(code: "Code") -> dict[str, object]:
    hottest = max(code.temperatures, key=_heat, default=None)
    return {
        "class": code.hazard_class,
        "division": min(code.divisions, default=None),
        "zone": code.zone,
        "category": code.category,
        "protection": code.protection,
        "groups": _groups(code),
        "temperature_class": hottest.name if hottest else None,
        "maximum_surface_temperature_c": hottest.maximum if hottest else None,
        "epl": code.level,
        "ambient_c": _span(code.ambient),
        "associated": code.associated,
        "equipment": "non-electrical" if code.non_electrical else "electrical",
        "suffix": code.suffix,
        "system": code.system,
        "hazard": code.hazard,
        "divisions": code.divisions,
        "inner_category": code.inner_category,
        "inner_epl": code.inner_level,
        "unprotected_side": code.bare,
        "equipment_group": code.equipment_group,
        "gases": code.gases,
        "extra_gases": code.extra_gases,
        "temperatures": [_temperature(each) for each in code.temperatures],
        "outputs": [
            {
                "protection": out.protection,
                "groups": sorted(group.value for group in out.groups),
                "epl": out.level,
                "divisions": out.divisions,
            }
            for out in code.outputs
        ],
        "ingress": code.ingress,
        "purge": code.purge,
        "words": code.words,
        "legacy": code.legacy,
    }


def _groups(code: "Code") -> list[str]:
    return sorted(group.value for group in code.groups)


def _heat(mark: "TemperatureMark") -> Decimal:
    """The hottest of several marks is what the code promises over its whole ambient range."""
    return mark.maximum if mark.maximum is not None else Decimal("Infinity")


def _temperature(mark: "TemperatureMark") -> dict[str, object]:
    return {
        "class": mark.name,
        "maximum_c": mark.maximum,
        "ambient_c": _span(mark.ambient),
        "layer_m": mark.layer,
    }


def _span(span: "Range | None") -> list[Decimal] | None:
    return [span.low, span.high] if span else None


def _empty(value: object) -> bool:
    """Whether a value says nothing; Zone 0 does say something."""
    return value is False or value in ((), [])


def _short(marking: "Marking") -> Iterator[str]:
    """Whether it is sound, in the first line; then each code in one, and what is wrong."""
    paper = terminal.paper()
    wrong = _wrong(marking)
    sound = bool(marking.codes) and not wrong
    answer = "reads without a complaint" if sound else f"{len(wrong) or 'no code read, 1'} wrong"
    yield from paper.wrap(f"{marking.text}: {answer}")
    for code in marking.codes:
        told = _code(code)
        words = (
            f"{code.system.value}, {code.hazard.value}",
            f"type {show(code.protection)}" if code.protection else "",
            f"groups {show(told['groups'])}" if told["groups"] else "",
            show(told["temperature_class"]) or _surface(told),
            f"EPL {show(code.level)}" if code.level else "",
            f"division {show(told['division'])}" if told["division"] else "",
            f"zone {code.zone}" if code.zone is not None else "",
            f"category {show(code.category)}" if code.category else "",
            _other_side(code),
            f"Ta {show(code.ambient.low)}..{show(code.ambient.high)} °C" if code.ambient else "",
            f"feeds {show(told['outputs'])}" if code.outputs else "",
            f"suffix {code.suffix.value}" if code.suffix else "",
        )
        yield from paper.wrap("; ".join(filter(None, words)), "  ", "    ")
    if not marking.codes:
        yield "  no code could be read\n"
    for problem in wrong:
        missing = problem not in marking.problems
        word = "not read" if problem.unread else "missing" if missing else "wrong"
        yield from paper.wrap(problem.message, f"  {paper.paint(word, 'flag')}: ", "    ")
    yield "  every element and clause: --full\n"


def _other_side(code: "Code") -> str:
    """What a pair says of the process side, or which side its dash leaves without protection."""
    if code.bare is not None:
        return f"no protection on the side of the {_SIDES[code.bare.value]}"
    better = code.inner_category or (code.inner_level.value if code.inner_level else "")
    return f"towards the process {better}" if better else ""


_SIDES = {"process": "process", "outside": "place around it"}


def _surface(told: dict[str, object]) -> str:
    limit = told["maximum_surface_temperature_c"]
    return f"surfaces at most {show(limit)} °C" if limit is not None else ""


def _lines(marking: "Marking") -> Iterator[str]:
    paper = terminal.paper()
    yield from paper.wrap(marking.text)
    for number, code in enumerate(marking.codes, 1):
        title = f"code {number}: {code.system.value}, {code.hazard.value}"
        yield f"\n{paper.paint(title, 'title')}\n"
        told = {key: value for key, value in _code(code).items() if not _empty(value)}
        if len(code.temperatures) < 2:
            told.pop("temperatures", None)
        yield from block(told, paper, skip=("system", "hazard", "divisions"))
    if not marking.codes:
        yield "\nno code could be read\n"
    for problem in _wrong(marking):
        missing = problem not in marking.problems
        word = "not read" if problem.unread else "missing" if missing else "wrong"
        yield f"\n{paper.paint(word, 'flag')}\n"
        yield from paper.wrap(problem.message, "  ", "  ")
        yield from paper.labelled("clause", problem.clause, 2, 10)
