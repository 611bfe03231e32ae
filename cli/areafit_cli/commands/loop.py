"""`areafit loop`: one intrinsically safe circuit by its values."""

from collections.abc import Iterator, Mapping
from decimal import Decimal
from types import MappingProxyType
from typing import TYPE_CHECKING, Annotated, Any

import typer

import areafit
from areafit import registry
from areafit.facts.bom import Assembly, Bom, Position
from areafit.facts.groups import Group
from areafit.facts.loop import ByGroup, Cable, Loop, LoopDevice, LoopSource
from areafit.facts.part import Generates, Item, Kind, Part
from areafit.facts.quantity import Dimension, QuantityError, parse, units
from areafit.findings.cautions import CAUTIONS
from areafit.findings.report import Gate
from areafit.pattern import pattern
from areafit.rule import Subject
from areafit.values import Frozen, replace
from areafit.verdict import Basis, Verdict
from areafit_cli import one_part, terminal, words
from areafit_cli.errors import CallError, Exit
from areafit_cli.options import (
    AnswerFormat,
    ExitZeroOption,
    FullOption,
    LeastBasisOption,
    Strings,
    value,
)
from areafit_cli.render.full_text import cautions, details
from areafit_cli.render.json_text import findings

if TYPE_CHECKING:
    from areafit.findings.report import Finding, SubjectReport

EXAMPLE = (
    'areafit loop --source "Uo 28 V, Io 93 mA, Po 0.65 W, Co 83 nF, Lo 4.2 mH, Um 250 V, '
    'supply 230 V" '
    '--device "Ui 30 V, Ii 100 mA, Pi 1 W, Ci 5 nF, Li 10 µH" --cable "100 m, default" '
    '--group IIC --area "Zone 1, IIC, T4" --substance hydrogen --source-area unclassified '
    '--source-marking "[Ex ia Ga] IIC" --device-marking "Ex ia IIC T4 Ga"'
)
_CIRCUIT, _PLACE, _REPORT = "The circuit", "The place", "Report"
_SOURCES = "What comes out at most: 'Uo 28 V, Io 93 mA, Po 0.65 W, Co 83 nF, Lo 4.2 mH, Um 250 V'."
_DEVICES = "What may go in: 'Ui 30 V, Ii 100 mA, Pi 1 W, Ci 5 nF, Li 10 µH'. May be repeated."
_CABLES = "'200 m, 180 pF/m, 0.7 µH/m', with L/R in µH/Ω, or '200 m, default'."
_OF_LISTS = "loop-items"  # that a circuit names lines of the list; here there is none
_PLATE = "May be repeated; the n-th for the n-th, one for all."
SOURCE, DEVICE = "source", "device"
_D = Dimension
_SOURCE: Mapping[str, tuple[str, Dimension]] = MappingProxyType(
    {
        **dict.fromkeys(("uo", "voc"), ("voltage", _D.VOLTAGE)),
        **dict.fromkeys(("io", "isc"), ("current", _D.CURRENT)),
        "po": ("power", _D.POWER),
        **dict.fromkeys(("co", "ca"), ("capacitance", _D.CAPACITANCE)),
        **dict.fromkeys(("lo", "la"), ("inductance", _D.INDUCTANCE)),
        **dict.fromkeys(
            ("lo/ro", "la/ra"), ("inductance_per_resistance", _D.INDUCTANCE_PER_RESISTANCE)
        ),
        "um": ("maximum_voltage", _D.VOLTAGE),
        "supply": ("supply", _D.VOLTAGE),
    }
)
_DEVICE: Mapping[str, tuple[str, Dimension]] = MappingProxyType(
    {
        **dict.fromkeys(("ui", "vmax"), ("voltage", _D.VOLTAGE)),
        **dict.fromkeys(("ii", "imax"), ("current", _D.CURRENT)),
        "pi": ("power", _D.POWER),
        "ci": ("capacitance", _D.CAPACITANCE),
        "li": ("inductance", _D.INDUCTANCE),
    }
)
_RATINGS = frozenset({"voltage", "current", "power"})
_CABLE = (
    ("length", _D.LENGTH),
    ("capacitance", _D.CAPACITANCE_PER_LENGTH),
    ("inductance", _D.INDUCTANCE_PER_LENGTH),
    ("inductance_per_resistance", _D.INDUCTANCE_PER_RESISTANCE),
)
_NAME_END = pattern(r"\s*[=:\s]\s*")
_NOTHING = Generates(Decimal(0), Decimal(0), Decimal(0))
_BEHIND = (
    ("/device", ("device", "device_marking", "area")),
    ("/source", ("source", "source_marking", "source_area")),
    ("/group", ("group", "area", "source_area", "substance")),
    (
        "",
        (
            *("source", "device", "cable", "group"),
            *("area", "source_area", "source_marking", "device_marking"),
        ),
    ),
)
_PLURAL = frozenset({"source", "device", "source_marking", "device_marking", "substance"})


def command(
    *,
    source: Annotated[Strings, value(_SOURCES, _CIRCUIT, "VALUES")] = None,
    device: Annotated[Strings, value(_DEVICES, _CIRCUIT, "VALUES")] = None,
    cable: Annotated[str | None, value(_CABLES, _CIRCUIT, "VALUES")] = None,
    group: Annotated[str | None, value("That Co and Lo are stated for.", _CIRCUIT, "GROUP")] = None,
    source_marking: Annotated[
        Strings, value(f"Nameplate of the source. {_PLATE}", _CIRCUIT)
    ] = None,
    device_marking: Annotated[Strings, value(f"Nameplate of a device. {_PLATE}", _CIRCUIT)] = None,
    area: Annotated[Strings, value("Where the devices stand. May be repeated.", _PLACE)] = None,
    source_area: Annotated[Strings, value("Where the source stands: unclassified.", _PLACE)] = None,
    substance: Annotated[
        Strings, value("Gas, vapour or dust at the devices. May be repeated.", _PLACE)
    ] = None,
    code: Annotated[
        str | None,
        value(
            "NEC, IEC or ATEX. Without it NEC where an area names a Class, else IEC.",
            _PLACE,
            "CODE",
        ),
    ] = None,
    least_basis: LeastBasisOption = Basis.MEMORY,
    exit_zero: ExitZeroOption = False,
    full: FullOption = False,
    format_: Annotated[AnswerFormat, value("", _REPORT, None, name="--format")] = AnswerFormat.TEXT,
) -> None:
    """Compare source, devices and cable of one circuit. What is left out is not stated.

    Status 0 where everything passes, 1 where something is flagged or unproven.
    """
    stated = LoopOptions(
        sources=tuple(source or ()),
        devices=tuple(device or ()),
        cable=cable,
        group=group,
        area=tuple(area or ()),
        source_area=tuple(source_area or ()),
        substances=tuple(substance or ()),
        source_markings=tuple(source_marking or ()),
        device_markings=tuple(device_marking or ()),
        code=code,
    )
    if not stated.sources and not stated.devices:
        raise CallError(f"state --source and --device, such as: {EXAMPLE}")
    bom = build(stated)
    options = words.options(
        only=[rule.id for rule in registry.on(Subject.LOOP) if rule.id != _OF_LISTS],
        least_basis=least_basis,
    )
    (report,) = areafit.judge(bom, areafit.Tables.shipped(), options).loops
    if format_ is AnswerFormat.JSON:
        terminal.write_json(_data(report))
    else:
        terminal.write(_lines(report, stated) if full else _short(report, stated))
    passes = report.verdict.passes or exit_zero
    raise typer.Exit(Exit.PASSED if passes else Exit.FAILED)


def _gate(report: "SubjectReport") -> str:
    return Gate.word(passes=report.verdict.passes)


def _data(report: "SubjectReport") -> dict[str, object]:
    """The circuit in the vocabulary of the JSON report."""
    return {
        "code": report.bom.law,
        "verdict": report.verdict,
        "gate": _gate(report),
        "findings": findings(report.findings(), about=lambda finding: finding.position.file),
        "cautions": CAUTIONS,
    }


def _lines(report: "SubjectReport", stated: "LoopOptions") -> Iterator[str]:
    paper = terminal.paper()
    yield f"GATE {paper.paint(_gate(report))} under {report.bom.law.value}\n"
    found = sorted(report.findings(), key=lambda f: list(Verdict).index(f.verdict))
    for finding in found:
        reason = f" ({finding.reason.value})" if finding.reason else ""
        yield f"\n{paper.paint(finding.verdict.value)} {finding.rule.id}{reason}\n"
        yield from paper.wrap(finding.message, "  ", "  ")
        yield from details(finding, paper, 2, _see(finding, stated))
    yield from cautions(paper, brief=True)


def _short(report: "SubjectReport", stated: "LoopOptions") -> Iterator[str]:
    """The gate with what decides it, what is open with what closes it, and what passes."""
    paper = terminal.paper()
    found = sorted(report.findings(), key=lambda f: list(Verdict).index(f.verdict))
    open_ = [finding for finding in found if not finding.verdict.passes]
    told = open_[0].message if open_ else f"{len(found)} comparisons hold"
    lead = f"GATE {paper.paint(_gate(report))} under {report.bom.law.value}: "
    yield from paper.wrap(told, lead, "  ")
    for finding in open_:
        yield f"{paper.paint(finding.verdict.value)} {finding.rule.title}\n"
        for text in (finding.message if finding is not open_[0] else "", finding.remedy):
            if text:
                yield from paper.wrap(text, "  ", "  ")
        see = _see(finding, stated)
        if see:
            yield from paper.labelled("see", see, 2, 10)
    for finding in found:
        if finding.verdict is Verdict.PASS:
            yield from paper.wrap(f"pass {finding.message.partition('. ')[0].rstrip('.')}.")
    yield from paper.wrap("every clause and sum: --full")
    yield from cautions(paper, brief=True)


def _see(finding: "Finding", stated: "LoopOptions") -> str:
    """The option behind a finding, and which others were not given where a fact is missing."""
    if finding.verdict.passes:
        return ""
    missing = left_out(finding.path, stated) if finding.reason else []
    return finding.position.file + (f"; not given: {', '.join(missing)}" if missing else "")


# The circuit as a list of its own: facts are built directly, and judged as loops of lists are


class LoopOptions(Frozen):
    """What the call states, in words; empty and None mean not stated."""

    sources: tuple[str, ...] = ()
    devices: tuple[str, ...] = ()
    cable: str | None = None
    group: str | None = None
    area: tuple[str, ...] = ()
    source_area: tuple[str, ...] = ()
    substances: tuple[str, ...] = ()
    source_markings: tuple[str, ...] = ()
    device_markings: tuple[str, ...] = ()
    code: str | None = None


class _End(Frozen):
    """The values of a source or device with the words beside them."""

    values: Mapping[str, Decimal]
    flags: frozenset[str]


def build(stated: LoopOptions) -> Bom:
    """The list of one circuit, its sources and its devices.

    Raises:
        CallError: a word or a quantity cannot be read.
    """
    of_source = ("linear", "non-linear", "together")
    sources = [_end(text, "--source", _SOURCE, of_source) for text in stated.sources]
    known = ("active", "passive", "simple apparatus")
    devices = [_end(text, "--device", _DEVICE, known) for text in stated.devices]
    here = _list_of_one(stated, stated.area, None, simple=False)
    there = _list_of_one(
        replace(stated, code=here.law.value), stated.source_area, None, simple=False
    )
    parts: list[Part] = []
    for place, word, ends, plates in (
        (SOURCE, SOURCE, sources, stated.source_markings),
        (one_part.PLACE, DEVICE, devices, stated.device_markings),
    ):
        markings = _for_each(plates, len(ends), f"--{word}-marking")
        for i, (end, marking) in enumerate(zip(ends, markings, strict=True)):
            part = _part(stated, end, marking)
            item = Item(i + 1 if word == DEVICE else word + (f" {i + 1}" if i else ""))
            parts.append(replace(part, index=len(parts), item=item, locations=(place,)))
    return Bom(
        name="command line",
        assembly=Assembly("one loop"),
        law=here.law,
        places={**here.places, SOURCE: replace(there.places[one_part.PLACE], name=SOURCE)},
        parts=tuple(parts),
        loops=(_loop(stated, sources, devices, [part.item for part in parts]),),
        locate=locate,
    )


def locate(path: str) -> Position:
    """The option that states the fact of a path; there are no lines to point at."""
    for step, option in (("device", "--device"), ("source", "--source"), ("group", "--group")):
        if f"/{step}" in path:
            return Position(option, 0, 0)
    return Position("--source, --device, --cable", 0, 0)


def left_out(path: str, stated: LoopOptions) -> list[str]:
    """The options not given that a finding on this path may lack."""
    options = next(options for step, options in _BEHIND if step in path)
    return [
        f"--{option.replace('_', '-')}"
        for option in options
        if not getattr(stated, f"{option}s" if option in _PLURAL else option)
    ]


def _list_of_one(
    stated: LoopOptions, area: tuple[str, ...], marking: str | None, *, simple: bool
) -> Bom:
    """A place with a part in it, as `areafit part` makes them."""
    return one_part.build(
        one_part.stated(
            code=stated.code,
            area=area,
            substance=stated.substances if area == stated.area else (),
            marking=marking,
            kind=Kind.SIMPLE_APPARATUS.value if simple else Kind.ELECTRICAL.value,
        )
    )


def _part(stated: LoopOptions, end: _End, marking: str | None) -> Part:
    simple = "simple apparatus" in end.flags
    (part,) = _list_of_one(stated, stated.area, marking, simple=simple).parts
    if "passive" in end.flags:
        return replace(part, equipment=replace(part.equipment, generates=_NOTHING))
    return part


def _loop(stated: LoopOptions, sources: list[_End], devices: list[_End], items: list[Item]) -> Loop:
    names = iter(items)
    return Loop(
        index=0,
        name="one loop",
        group=None
        if stated.group is None
        else words.word(Group, stated.group, "group", drop="group "),
        sources=tuple(_source(next(names), end) for end in sources),
        devices=tuple(_device(next(names), end) for end in devices),
        cable=None if stated.cable is None else _cable(stated.cable),
    )


def _source(item: Item, end: _End) -> LoopSource:
    values: dict[str, Any] = dict(end.values)
    for name in ("capacitance", "inductance"):
        if name in values:
            values[name] = ByGroup(any=values[name])
    straight = not end.flags.isdisjoint({"linear", "non-linear"})
    return LoopSource(
        item,
        **values,
        linear="linear" in end.flags if straight else None,
        together=True if "together" in end.flags else None,
    )


def _device(item: Item, end: _End) -> LoopDevice:
    said = not end.flags.isdisjoint({"active", "passive"})
    return LoopDevice(item, **end.values, active="active" in end.flags if said else None)


def _end(
    text: str, option: str, names: Mapping[str, tuple[str, Dimension]], flags: tuple[str, ...]
) -> _End:
    """`Uo 28 V, Io 93 mA`: values by name, each once, and words that stand alone."""
    values: dict[str, Decimal] = {}
    found: set[str] = set()
    for entry in _entries(text):
        if entry.casefold() in flags:
            found.add(entry.casefold())
            continue
        name, _, value = _NAME_END.sub(" ", entry, count=1).partition(" ")
        field = names.get(name.casefold())
        if field is None or not value:
            known = ", ".join((*_shown(names), *flags))
            raise CallError(f"{option}: {entry!r} is no value of it; write some of: {known}")
        if field[0] in values:
            raise CallError(f"{option}: {name} is stated twice")
        limit = option == "--device" and field[0] in _RATINGS
        read = words.rating if limit else words.quantity
        values[field[0]] = read(value.strip(), field[1], option)
    return _End(values, frozenset(found))


def _entries(text: str) -> Iterator[str]:
    return (entry.strip() for entry in text.split(",") if entry.strip())


def _shown(names: Mapping[str, tuple[str, Dimension]]) -> Iterator[str]:
    return ("/".join(part.capitalize() for part in name.split("/")) for name in names)


def _cable(text: str) -> Cable:
    """`200 m, 180 pF/m, 0.7 µH/m` or `200 m, default`: each unit says what it is of."""
    found: dict[str, Decimal] = {}
    default = False
    for entry in _entries(text):
        if entry.casefold() == "default":
            default = True
            continue
        name, value = _of_cable(entry)
        if name in found:
            raise CallError(f"--cable: {name.replace('_', ' ')} is stated twice")
        found[name] = value
    return Cable(**found, default=default)


def _of_cable(entry: str) -> tuple[str, Decimal]:
    for name, dimension in _CABLE:
        if _is_of(entry, dimension):
            return name, words.quantity(entry, dimension, "--cable")
    serve = "; ".join(units(dimension) for _, dimension in _CABLE)
    raise CallError(f"--cable: {entry!r} is neither `default` nor a quantity in {serve}")


def _is_of(entry: str, dimension: Dimension) -> bool:
    try:
        parse(entry, dimension)
    except QuantityError:
        return False
    return True


def _for_each(texts: tuple[str, ...], count: int, option: str) -> list[str | None]:
    """The n-th marking goes with the n-th end; a single one holds for all."""
    if len(texts) not in (0, 1, count):
        raise CallError(f"give one {option} for all, or one for each in their order")
    if len(texts) == count:
        return list(texts)
    return [texts[0] if texts else None] * count
