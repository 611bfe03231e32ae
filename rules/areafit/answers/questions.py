"""The open questions of a list, a row for each key and each thing that it is asked of.

A question is known by its party, machine, line and key, never by a position: the same part asks it
once however many lines bear it, and it is found again after a list was renumbered.
"""

from collections.abc import Iterable, Iterator
from typing import Any, Protocol

from areafit.answers.asks import asks_of
from areafit.answers.causes import MADE_OF, Bearer, CauseKind, causes, kind_of
from areafit.facts.bom import Bom, StatedAt, UsedEntry
from areafit.facts.identity import identity
from areafit.facts.loop import LoopDevice, LoopSource
from areafit.facts.part import Part
from areafit.facts.quantity import Dimension, show_range
from areafit.file.facts import FactRow, facts
from areafit.file.library import same_number
from areafit.findings.report import BomReport
from areafit.values import Frozen, replace
from areafit.verdict import Role, Verdict

Steps = tuple[str | int, ...]

LIBRARY = "the library"
"""Instead of a machine: a bought part with an entry, asked once for all lists that use it."""
_OF_THE_PLACE = frozenset({"part.materials.exposure", "part.materials.to"})

TABLES = {
    "part.materials": ("component", "material", "finish", "substrate", "property_class"),
    "part.evidence": ("type", "number", "covers", "standard", "level", "ambient", "valid_until"),
    "part.entries": ("type", "marking", "thread", "hole", "into", "ingress", "within"),
    "part.contacts": ("with", "wet", "component", "with_component"),
}
"""Keys whose answer is a table, with its columns."""
BARRED = frozenset(
    {
        *("part.kind", "part.item", "part.line_id", "part.part_number", "part.description"),
        *("part.note", "part.vendor", "part.maker", "part.maker_number", "part.parent"),
        *("part.location", "part.quantity", "part.proposed", "part.alternates", "place.area"),
        *("part.unit_cost", "part.inside", "part.process_side", "part.brake"),
    }
)
"""Keys that no answer of another party writes."""
SHORT = {
    "surface_temperature": "value",
    "generates": "output",
    "battery": "present",
    "materials_complete": "complete",
}
"""Keys that may be written by one value, with the inner key that it stands for."""
_SURFACE = ("value", "at_ambient", "case")
"""What a figure of a surface is nothing without."""
_WAITS = {
    "part.resistance_to_earth": "part.bonded",
    "part.capacitance": "part.bonded",
    "part.materials.framed": "part.materials.surface_area",
    "part.evidence": "part.inverter_fed",
    **dict.fromkeys(
        ("part.air_supply.source", "part.air_supply.exhaust", "part.air_supply.on_loss"),
        "part.drive",
    ),
}
"""What only matters once another answer is there, which is asked first."""
_LISTS = ("materials", "evidence", "entries", "contacts", "substances", "chemicals")
_NAMED_BY = {
    "materials": ("component", "material"),
    "evidence": ("number", "type"),
    "entries": ("type",),
    "contacts": ("with",),
    "substances": ("name",),
    "chemicals": ("name",),
}
_DEVICE = {"Ui": "voltage", "Ii": "current", "Pi": "power", "Ci": "capacitance", "Li": "inductance"}
_SOURCE = {"Uo": "voltage", "Io": "current", "Po": "power", "Co": "capacitance", "Lo": "inductance"}
_SUBJECTS = {"parts": "part", "locations": "place", "loops": "loop"}


class Party(Frozen):
    """Who is asked: a role, and of suppliers the one that sells the part."""

    role: Role
    vendor: str | None = None

    @property
    def name(self) -> str:
        """As registers and reports write it."""
        return f"{self.role.value} {self.vendor}" if self.vendor else self.role.value


class Question(Frozen):
    """One key that is asked of one part, place or circuit.

    `line` is what the part is known by, or the name of the place or circuit; `about` which of its
    materials, documents or openings is meant. `items` are the lines that it settles now, `demand`
    is what their places ask of them.
    """

    party: Party
    assembly: str
    line: str
    key: str
    about: str
    text: str
    why: str
    rule: str
    part_number: str
    maker_number: str
    description: str
    items: tuple[str, ...]
    demand: str
    findings: int = 1
    clause: str = ""

    @property
    def identity(self) -> tuple[str, str, str, str, str]:
        """By what it is found again."""
        return (self.party.name, self.assembly, self.line, self.key, self.about)

    @property
    def row(self) -> FactRow | None:
        """The row of the table of facts; None for what no list can state."""
        return facts().get(self.key)

    @property
    def table(self) -> bool:
        """Whether the answer is a table of its own."""
        return self.key in TABLES


def questions(report: BomReport, *, offers: bool = False) -> tuple[Question, ...]:
    """Every open question of a list, those that settle most lines of a party first.

    A question that only matters once the kind of a part is known waits for it. With `offers`, an
    alternative is asked for each part of a vendor that does not fit.
    """
    found: dict[tuple[str, ...], Question] = {}
    for cause in causes(report):
        if cause.kind is CauseKind.ANSWER:
            for bearer in cause.bearers:
                for one in _of(report, bearer, cause.who):
                    _add(found, one)
    for one in _of_loops(report):
        _add(found, one)
    if offers:
        for part in report.parts:
            vendor = part.part.vendor
            flags = [f for f in part.open_findings() if f.verdict is Verdict.FLAG]
            if vendor and flags:
                _add(found, _offer(report, part.part, vendor))
    return tuple(_without_own_house(found.values()))


def asked_by(report: BomReport, bearer: Bearer, who: Role) -> tuple[tuple[str, ...], ...]:
    """What the questions of an open finding to its party are known by, in a register too."""
    return tuple(one.identity for one in _of(report, bearer, who))


def _add(found: dict[tuple[str, ...], Question], one: Question) -> None:
    known = found.get(one.identity)
    found[one.identity] = one if known is None else joined(known, one)


def joined(one: Question, other: Question) -> Question:
    """Two that are known by the same as one, with the lines and demands of both."""
    items = tuple(dict.fromkeys((*one.items, *other.items)))
    demand = "; ".join(dict.fromkeys((*one.demand.split("; "), *other.demand.split("; "))))
    findings = one.findings + other.findings
    return replace(one, items=items, findings=findings, demand=demand.strip("; "))


def _without_own_house(every: Iterable[Question]) -> Iterator[Question]:
    """Each question once: of two parties that are asked the same, the one that knows it."""
    asked = list(every)
    by_thing: dict[tuple[str, ...], list[Question]] = {}
    for one in asked:
        by_thing.setdefault((one.assembly, _thing(one), one.key, one.about), []).append(one)
    for one in asked:
        rivals = by_thing[one.assembly, _thing(one), one.key, one.about]
        row = one.row
        owner = [each for each in rivals if row is not None and each.party.role is row.who]
        if one is (owner or rivals)[0] or (owner and one in owner):
            yield one


def _thing(one: Question) -> str:
    return one.part_number or one.line


def _of(report: BomReport, bearer: Bearer, who: Role) -> Iterator[Question]:
    """What an open finding asks: those of its keys that its party can state.

    What a part is made of, and what the tables have no data for, is asked of `who`, the party of
    its cause.
    """
    bom, finding = report.bom, bearer.finding
    steps = finding.path.split("/")
    if steps[2:3] == ["alternates"]:
        return  # asked by hand: another make is another part
    subject = _SUBJECTS.get(steps[0], "list")
    keys: dict[tuple[str, str], str] = {}
    every = asks_of(finding)
    if not every and finding.answer_by is not Role.SUPPLIER and subject != "loop":
        yield _of_no_key(report, bearer, subject, who)
    for asked in every:
        key = f"{asked.row.subject}.{asked.row.key}"
        if subject == "loop" and asked.row.key.partition(".")[0] in {
            "source",
            "sources",
            "devices",
        }:
            inner = asked.row.key.rpartition(".")[2]
            if inner not in {"supply", "Um"}:
                continue  # a row for each value that is missing, below
        part = bearer.part.part if bearer.part else None
        for one in _expanded(key, part):
            for name, about in _placed(bom, part, asked.path, one):
                keys[name, about] = name
    for name, about in _useful(keys, finding.answer_by):
        knows = who if name in MADE_OF else finding.answer_by
        yield _question(report, bearer, subject, name, about, knows)


def _useful(keys: dict[tuple[str, str], str], who: Role) -> list[tuple[str, str]]:
    """Those that the party knows; what follows from a table that is asked for waits for it."""
    free = [one for one in keys if one[0] not in BARRED]
    own = [one for one in free if facts()[one[0]].who is who]
    made = who is Role.DESIGNER  # who makes the part knows all of it
    chosen = free if made else own or free
    holders = {name for name, _ in chosen if name in TABLES}
    names = {name for name, _ in chosen}
    return [
        one
        for one in chosen
        if not any(one[0].startswith(f"{each}.") for each in holders)
        and _WAITS.get(one[0]) not in names
    ]


def _expanded(key: str, part: Part | None) -> tuple[str, ...]:
    """A key that is a mapping by the inner keys that say something by themselves."""
    last = key.rpartition(".")[2]
    if last == "surface_temperature":
        surface = part.equipment.surface if part is not None else None
        open_ = [one for one in _SURFACE if surface is None or getattr(surface, one) is None]
        return tuple(f"{key}.{one}" for one in open_ or _SURFACE)
    if last == "generates":
        return tuple(f"{key}.{one}" for one in ("output", "voltage", "current", "power"))
    if key in TABLES or last in SHORT:
        return (key,)
    inner = [one for one in facts() if one.startswith(f"{key}.")]
    return tuple(inner) or (key,)


def _placed(bom: Bom, part: Part | None, path: str, key: str) -> Iterator[tuple[str, str]]:
    """A key with the entry of a list that it is about; the list itself where that is not clear."""
    subject, _, inner = key.partition(".")
    holder, _, below = inner.partition(".")
    if not below or holder not in _LISTS:
        yield key, ""
        return
    labels = entry_labels(bom, part, holder) if part is not None else []
    steps = path.split("/")
    number = next((int(one) for one in steps[2:] if one.isdecimal()), None)
    if number is not None and number < len(labels) and labels.count(labels[number]) == 1:
        yield key, labels[number]
    elif len(labels) == 1:
        yield key, labels[0]
    elif part is not None:
        yield f"{subject}.{holder}", ""


def entry_labels(bom: Bom, part: Part, holder: str) -> list[str]:
    """By what the entries of a list of a part are told apart, in the order of the file."""
    del bom
    values: tuple[Any, ...] = ()
    if holder == "materials":
        values = part.materials or ()
    elif holder == "evidence":
        values = part.equipment.evidence or ()
    elif holder == "entries":
        values = part.equipment.entries or ()
    labels = []
    for value in values:
        label = ""
        for name in _NAMED_BY[holder]:
            said = getattr(value, name, None)
            label = label or str(getattr(said, "value", said) or "")
        labels.append(label)
    return labels


def label_of(holder: str, entry: object) -> str:
    """As `entry_labels`, of an entry as it is written."""
    if isinstance(entry, dict):
        for name in _NAMED_BY.get(holder, ()):
            if entry.get(name):
                return str(entry[name])
        return ""
    return str(entry)


def line_of(bom: Bom, part: Part, role: Role) -> str:
    """What a line is known by: to a supplier its part number, to others where it is mounted too."""
    if role is Role.SUPPLIER and part.part_number:
        return part.part_number
    return identity(bom, part.item)


def entry_of(bom: Bom, part: Part) -> UsedEntry | None:
    """The entry of the library that a line takes facts of."""
    if part.part_number is None or part.alternate:
        return None
    number = same_number(part.part_number)
    by = {one.position for one in bom.stated_by(part.prefix) if one.level is StatedAt.LIBRARY}
    used = bom.library.used
    return next((one for one in used if number in one.numbers and one.position in by), None)


def in_library(key: str) -> bool:
    """Whether the entry of a bought part may state a key."""
    row = facts().get(key)
    return row is not None and row.library and key not in _OF_THE_PLACE


def _known_by(bom: Bom, part: Part, role: Role, key: str) -> tuple[str, str, str]:
    """Machine, line and part number of a question: those of its entry, where that may answer it."""
    entry = entry_of(bom, part) if in_library(key) else None
    if entry is not None:
        return LIBRARY, entry.number, entry.number
    return bom.assembly.number, line_of(bom, part, role), part.part_number or ""


def _question(  # noqa: PLR0913, PLR0917 - what is asked, of what and whom
    report: BomReport, bearer: Bearer, subject: str, key: str, about: str, role: Role
) -> Question:
    finding, bom = bearer.finding, report.bom
    row = facts()[key]
    part = bearer.part.part if bearer.part else None
    vendor = part.vendor if part is not None and role is Role.SUPPLIER else None
    assembly, number = bom.assembly.number, ""
    line = "the list" if subject == "list" else bearer.name.removeprefix("loop ")
    if part is not None:
        assembly, line, number = _known_by(bom, part, role, key)
    return Question(
        Party(role, vendor),
        assembly,
        line,
        key,
        about,
        row.question,
        finding.rule.why,
        finding.rule.id,
        number,
        (part.maker_number or "") if part is not None else "",
        (part.description or "") if part is not None else "",
        (bearer.name,),
        demand_of(bom, part.locations) if part is not None else "",
        clause=finding.clause,
    )


def _of_no_key(report: BomReport, bearer: Bearer, subject: str, who: Role) -> Question:
    """What nothing in a list can state, such as a test: its answer is kept and never judged."""
    finding = bearer.finding
    one = _question(report, bearer, subject, "part.note", finding.component or "", who)
    return replace(one, key=f"rule.{finding.rule.id}", text=finding.message)


def demand_of(bom: Bom, locations: Iterable[str]) -> str:
    """What the places ask of a part, without their names."""
    said: dict[str, None] = {}
    for name in locations:
        place = bom.places[name]
        words = []
        if place.area is not None:
            words.append(place.area.text)
        if place.ambient is not None:
            words.append(show_range(place.ambient, Dimension.TEMPERATURE))
        if place.ingress is not None:
            words.append(str(place.ingress))
        words += [each.name for each in place.substances or ()]
        words += [each.name for each in place.chemicals or ()]
        said[", ".join(dict.fromkeys(words))] = None
    return "; ".join(filter(None, said))


def _of_loops(report: BomReport) -> Iterator[Question]:
    """The values of sources and devices that an open circuit lacks, a row for each."""
    bom = report.bom
    by_item = {part.item: part for part in bom.parts}
    for subject, loop in zip(report.loops, bom.loops, strict=True):
        open_ = [one for one in subject.open_findings() if kind_of(one) is CauseKind.ANSWER]
        if not open_:
            continue
        ends: tuple[LoopSource | LoopDevice, ...] = (*loop.sources, *loop.devices)
        for end in ends:
            letters = _SOURCE if isinstance(end, LoopSource) else _DEVICE
            holder = "source" if isinstance(end, LoopSource) else "devices"
            part = by_item.get(end.item)
            if part is None:
                continue
            values = [
                (f"loop.{holder}.{letter}", getattr(end, name)) for letter, name in letters.items()
            ]
            if any(one.rule.id == "loop-level" for one in open_):
                values.append(("part.marking", part.equipment.markings))
            for key, stated in values:
                if stated is None:
                    assembly, line, number = _known_by(bom, part, Role.SUPPLIER, key)
                    yield Question(
                        Party(Role.SUPPLIER, part.vendor),
                        assembly,
                        line,
                        key,
                        "",
                        facts()[key].question,
                        open_[0].rule.why,
                        open_[0].rule.id,
                        number,
                        part.maker_number or "",
                        part.description or "",
                        (part.item,),
                        demand_of(bom, part.locations),
                        clause=open_[0].clause,
                    )


def _offer(report: BomReport, part: Part, vendor: str) -> Question:
    return Question(
        Party(Role.SUPPLIER, vendor),
        report.bom.assembly.number,
        line_of(report.bom, part, Role.SUPPLIER),
        "offer",
        "",
        "Which other part of yours do you offer for such a place?",
        "The place asks for more than is known of this part.",
        "offer",
        part.part_number or "",
        part.maker_number or "",
        part.description or "",
        (part.item,),
        demand_of(report.bom, part.locations),
    )


class Named(Protocol):
    """What names a question: itself, or a reply to it."""

    @property
    def party(self) -> Party: ...  # noqa: D102 - as `Question` has them
    @property
    def assembly(self) -> str: ...  # noqa: D102
    @property
    def line(self) -> str: ...  # noqa: D102
    @property
    def key(self) -> str: ...  # noqa: D102
    @property
    def about(self) -> str: ...  # noqa: D102


def lines_of(bom: Bom, one: Named) -> tuple[Part, ...]:
    """The lines of a list that a question is about, as they are now."""
    role, vendor = one.party.role, one.party.vendor

    def bears(part: Part) -> bool:
        if role is Role.SUPPLIER and part.vendor != vendor:
            return False
        if one.assembly == LIBRARY:
            entry = entry_of(bom, part)
            return entry is not None and entry.number == one.line
        return line_of(bom, part, role) == one.line

    return tuple({part.item: part for part in bom.parts if bears(part)}.values())


def targets(bom: Bom, root: Any, one: Named) -> list[Steps]:  # noqa: ANN401, C901 - a list as read
    """The paths in a list that an answer states: one for each line that bears the part.

    Empty where the line, or the material or document that is meant, is no longer there.
    """
    line, about = one.line, one.about
    subject, _, inner = one.key.partition(".")
    steps = inner.split(".")
    found: list[Steps] = []
    if subject == "list":
        return [tuple(steps)]
    if subject == "place":
        return [("locations", line, *steps)] if line in bom.places else []
    if subject == "loop" and steps[-1] in {"supply", "Um", "group"}:
        named = [loop for loop in bom.loops if loop.name == line]
        return [("loops", loop.index, *steps) for loop in named]
    items = {part.item: part for part in lines_of(bom, one)}
    if subject == "loop":
        for loop in bom.loops:
            base: Steps = ("loops", loop.index)
            for i, device in enumerate(loop.devices):
                if steps[0] == "devices" and device.item in items:
                    found.append((*base, "devices", i, steps[1]))
            for i, source in enumerate(loop.sources):
                if steps[0] == "source" and source.item in items:
                    several = "sources" in root["loops"][loop.index]
                    where: Steps = ("sources", i) if several else ("source",)
                    found.append((*base, *where, steps[1]))
        return found
    for part in items.values():
        start: Steps = ("parts", part.index)
        at = steps_below(root["parts"][part.index], one.key, about)
        found += [(*start, *at)] if at is not None else []
    return found


def steps_below(line: Any, key: str, about: str) -> Steps | None:  # noqa: ANN401 - as written
    """Where a key of a part stands in its line or its entry, as that is written.

    None where it belongs to a material or document that is not written there.
    """
    holder, *inner = key.partition(".")[2].split(".")
    if not inner or holder not in _LISTS:
        return (holder, *inner)
    entries = line.get(holder) if isinstance(line, dict) else None
    listed = entries if isinstance(entries, list) else [] if entries is None else [entries]
    labels = [label_of(holder, each) for each in listed]
    if labels.count(about) != 1:
        return None
    at: Steps = (labels.index(about),) if isinstance(entries, list) else ()
    return (holder, *at, *inner)
