"""What is open in a report, each cause once: what must change, who must answer, what to accept.

A cause is what one change or one answer settles. Flags and conditions are one cause where rule,
verdict, reason, facts and rows agree, whatever line they are found on; questions are one where the
same party is asked for the same keys. Every finding stands in exactly one cause.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from types import MappingProxyType

from areafit.answers.asks import Asked, asked_at, asks_of, keys_of
from areafit.facts.bom import Bom
from areafit.facts.part import Kind, MaterialUse, Part
from areafit.file.facts import FactRow, facts
from areafit.findings.report import BomReport, Finding, PartReport, PlaceReport, SubjectReport
from areafit.pattern import pattern
from areafit.values import Frozen, Term
from areafit.verdict import Basis, Reason, Role, Verdict
from areafit.wording import NOT_STATED


class CauseKind(Term):
    """What a cause asks of people, in the order of reports."""

    CHANGE = "to change"
    ANSWER = "to answer"
    ACCEPT = "to accept"


class Bearer(Frozen, eq=False):
    """A finding and the line, place or loop that it is about.

    `ends` are the parts that it speaks of, where it is of a loop.
    """

    subject: SubjectReport
    name: str
    finding: Finding
    ends: tuple[Part, ...] = ()

    @property
    def part(self) -> PartReport | None:
        """The line, where it is one."""
        return self.subject if isinstance(self.subject, PartReport) else None


class Cause(Frozen, eq=False):
    """One thing to change, to answer or to accept, and all that it settles.

    `vendor` is the one that sells the parts, where a supplier is asked. `asks` are the keys that
    an answer would state, each once.
    """

    kind: CauseKind
    who: Role
    vendor: str | None
    what: str
    closes: str
    asks: tuple[Asked, ...]
    bearers: tuple[Bearer, ...]

    @property
    def first(self) -> Finding:
        """The finding that stands for all."""
        return self.bearers[0].finding

    @property
    def first_of_all(self) -> bool:
        """Whether it asks what a part is, which decides all else that is asked of it."""
        return self.kind is CauseKind.ANSWER and self.first.rule.id in _BEFORE_ALL

    @property
    def names(self) -> tuple[str, ...]:
        """Lines, places and loops, each once."""
        return tuple(dict.fromkeys(bearer.name for bearer in self.bearers))


def causes(report: BomReport) -> tuple[Cause, ...]:
    """Every open finding of a report by its cause.

    What was proposed, or of no known kind, comes first of the questions, since all else hangs on
    it; then those that settle most lines. What is open of a place bears on every line there.
    """
    gathered: dict[tuple[object, ...], list[Bearer]] = {}
    questions: dict[tuple[object, ...], _Question] = {}
    for bearer, question in _open(report):
        key = _key(bearer, question)
        gathered.setdefault(key, []).append(bearer)
        questions.setdefault(key, question)
    found = [_cause(group, questions[key]) for key, group in gathered.items()]
    kinds, roles = list(CauseKind), list(Role)
    return tuple(
        sorted(
            found,
            key=lambda one: (
                kinds.index(one.kind),
                not one.first_of_all,
                roles.index(one.who) if one.kind is CauseKind.ANSWER else 0,
                one.vendor or "" if one.kind is CauseKind.ANSWER else "",
                -_lines(one, report),
            ),
        )
    )


def _lines(cause: Cause, report: BomReport) -> int:
    """How many lines a cause bears on: of a place, all that stand there."""
    places = {bearer.name for bearer in cause.bearers if isinstance(bearer.subject, PlaceReport)}
    if not places:  # as of most causes: no line of a long list is looked at for them
        return len(cause.names)
    there = sum(not places.isdisjoint(part.part.locations) for part in report.parts)
    return max(there, len(cause.names))


def kind_of(finding: Finding) -> CauseKind:
    """What an open finding asks of people."""
    if finding.verdict is Verdict.FLAG:
        return CauseKind.CHANGE
    accepted = finding.reason is Reason.CONDITION_TO_ACCEPT and not finding.rule.always
    return CauseKind.ACCEPT if accepted else CauseKind.ANSWER


class _Question(Frozen, eq=False):
    """Who is asked for what, where a finding is a question.

    `asks` are the keys asked for, each with the finding that asks: only of the first question of
    a cause it matters where they belong. `unknown` is a name that no table has, `plate` what is
    stated of a nameplate that says too little.
    """

    kind: CauseKind
    who: Role
    asks: Mapping[str, Finding] = MappingProxyType({})
    said: tuple[str, ...] = ()
    unknown: str = ""
    plate: str = ""

    @property
    def first(self) -> str:
        """The key that it begins with, empty without any."""
        return next(iter(self.asks), "")


def _open(report: BomReport) -> Iterator[tuple[Bearer, _Question]]:
    subjects: Iterable[SubjectReport] = (
        report.own,
        *report.places,
        *report.parts,
        *report.loops,
    )
    for subject in subjects:
        name = _name(subject)
        bearers = [
            Bearer(subject, name, finding, _ends(finding, report.bom))
            for finding in subject.open_findings()
        ]
        yield from zip(bearers, _questions(bearers), strict=True)


def _ends(finding: Finding, bom: Bom) -> tuple[Part, ...]:
    """The parts of a loop that a finding names, or that its path leads to."""
    steps = finding.path.split("/")
    if steps[0] != "loops" or not steps[1:2]:
        return ()
    loop = bom.loops[int(steps[1])]
    sources = [end.item for end in loop.sources]
    devices = [end.item for end in loop.devices]
    items = {*sources, *devices}
    if steps[2:3] == ["devices"] and steps[3:4]:
        items = {devices[int(steps[3])]}
    elif steps[2:3] == ["sources"] and steps[3:4]:
        items = {sources[int(steps[3])]}
    elif steps[2:3] == ["source"]:
        items = set(sources)
    named = {item for item in items if f"item {item} " in f"{finding.message} "}
    return tuple(part for part in bom.parts if part.item in (named or items))


def _questions(bearers: list[Bearer]) -> Iterator[_Question]:
    """The question of each finding on one subject; those that begin alike are one.

    What a part is made of is asked once, whatever else depends on it; a bought part's of its
    supplier. What a nameplate or an assessment may answer waits for them.
    """
    own = [_own_question(bearer) for bearer in bearers]
    alike: dict[str, list[_Question]] = {}
    for question in own:
        if question.asks and not question.unknown:
            alike.setdefault(_AS_ONE.get(question.first, question.first), []).append(question)
    for bearer, question in zip(bearers, own, strict=True):
        if not question.asks or question.unknown:
            yield question
            continue
        first = question.first
        same = alike.get(_WAITS.get(first, "")) or alike[_AS_ONE.get(first, first)]
        roles = [one.who for one in same]
        who = Role.SUPPLIER if Role.SUPPLIER in roles else roles[0]
        if first in MADE_OF and bearer.part is not None:
            who = _maker(bearer.part.part) or who
        if len(same) == 1 and same[0].who is who:  # as most are
            yield same[0]
            continue
        asks = {key: finding for one in same for key, finding in one.asks.items()}
        said = dict.fromkeys(text for one in same for text in one.said)
        plate = next((one.plate for one in same if one.plate), "")
        yield _Question(CauseKind.ANSWER, who, asks, tuple(said), plate=plate)


def _maker(part: Part) -> Role | None:
    """Who knows what a part is made of: of one that is sold its supplier, of a plain one we."""
    if part.vendor is not None or part.maker is not None:
        return Role.SUPPLIER
    return Role.DESIGNER if part.equipment.kinds == frozenset({Kind.STRUCTURAL}) else None


def _own_question(bearer: Bearer) -> _Question:
    finding = bearer.finding
    kind = kind_of(finding)
    if kind is CauseKind.ANSWER and finding.reason is Reason.NO_DATA:
        return _Question(kind, _tester(bearer))
    if kind is not CauseKind.ANSWER:
        return _Question(kind, finding.answer_by)
    keys, rows = keys_of(finding), facts()
    if finding.reason is Reason.NAME_UNKNOWN and (named := _NAME.search(finding.message)):
        material = bearer.part is not None and finding.answer_by in _KNOW_MATERIALS
        own = _maker(bearer.part.part) if bearer.part is not None and material else None
        who = own or finding.answer_by
        if material and "/materials/" in finding.path and _says_nothing(named[2]):
            told, asks = rows["part.materials"].question, {"part.materials": finding}
            return _Question(kind, who, asks, (told,))
        asks = dict.fromkeys(keys, finding)
        return _Question(kind, who, asks, (finding.message,), unknown=named[2])
    if finding.reason is Reason.FACT_MISSING:
        keys = tuple(key for key in keys if not _stated(bearer, rows[key])) or keys
        if keys and rows[keys[0]].key == "materials":  # how large it is waits for what it is
            keys = tuple(key for key in keys if rows[key].key in _WHOLE)
    alone = keys and keys[0] in _ALONE
    said = _told(keys[: 1 if alone else _SAID])
    if keys and (rows[keys[0]].subject == "loop" or _given(bearer, keys[0])):
        said = (finding.message,)  # which value of which device; what could not be read
    plate = _plate(bearer, keys)
    if plate:
        missing = finding.reason is Reason.FACT_MISSING
        said = (f"What does the nameplate say beside {plate!r}?" if missing else finding.message,)
    return _Question(kind, finding.answer_by, dict.fromkeys(keys, finding), said, plate=plate)


def _told(keys: Sequence[str]) -> tuple[str, ...]:
    """The questions of keys; two of which one is enough are one question."""
    said = tuple(facts()[key].question for key in keys)
    if len(said) == 2 and keys[0] in _EITHER:
        return (f"{said[0].rstrip('?')}, or {said[1][:1].lower()}{said[1][1:]}",)
    return said


_KNOW_MATERIALS = frozenset({Role.DESIGNER, Role.SUPPLIER})


def _says_nothing(name: str) -> bool:
    """Whether a name only says that none is known yet: tbd, n.a., ?"""
    return name.casefold().strip().replace("n.a.", "na") in NOT_STATED


def _tester(bearer: Bearer) -> Role:
    """Who can say more where the tables have no data: of a bought part its supplier.

    What is known by judgement stays with the one who must accept it.
    """
    finding = bearer.finding
    if bearer.part is None or finding.basis is Basis.JUDGEMENT or "/alternates/" in finding.path:
        return finding.answer_by
    bought = finding.answer_by is Role.DESIGNER and "/materials/" in finding.path
    return _maker(bearer.part.part) or finding.answer_by if bought else finding.answer_by


def _given(bearer: Bearer, key: str) -> bool:
    """Whether another kind or document is stated, or words that could not be read."""
    part = bearer.part.part if bearer.part is not None else None
    if part is not None and key == "part.evidence":
        return bool(part.equipment.evidence) and "/alternates/" not in bearer.finding.path
    if part is not None and key == "part.kind":
        return Kind.UNKNOWN not in part.equipment.kinds
    if part is not None and key == "part.ingress":
        return part.equipment.ingress is not None
    if key in {"place.area", "place.ingress"}:
        place = bearer.subject.bom.places.get(bearer.finding.location or bearer.name)
        return getattr(place, key.removeprefix("place."), None) is not None
    return False


def _plate(bearer: Bearer, keys: Sequence[str]) -> str:
    """What the nameplate of a line is stated to say, where more of it is asked for."""
    if bearer.part is None or keys[:1] != ("part.marking",):
        return ""
    if "/alternates/" in bearer.finding.path:
        return ""
    return "; ".join(one.text for one in bearer.part.part.equipment.markings or ())


def _stated(bearer: Bearer, row: FactRow) -> bool:
    """Whether a plain fact of the line is stated already, so that only its fellow is missing."""
    part = bearer.part
    plain = row.subject == "part" and "." not in row.key and bool(row.words or row.unit)
    if part is not None and row.subject == "part" and row.key == "evidence":
        return part.part.equipment.evidence == ()  # `none`: what else shows it is asked for
    if part is not None and row.key == "materials":  # some are listed: are they all?
        return bool(part.part.materials) and bearer.finding.path.endswith("/materials_complete")
    if part is not None and _MATERIAL.match(bearer.finding.path) and "materials." in row.key:
        use = _use(bearer)
        return getattr(use, row.key.removeprefix("materials."), None) is not None
    if part is None or not plain or row.key in _WHOLE or "/alternates/" in bearer.finding.path:
        return False
    stated = (part.part, part.part.body, part.part.equipment)
    return any(getattr(one, row.key, None) is not None for one in stated)


# A name that no table has.
_NAME = pattern(r"""(['"])(.+?)\1 (?:and .+ are|is) """)
_BEFORE_ALL = frozenset({"proposed", "kind-known"})
_SAID = 2  # of the keys of a question; the others are further ways to answer it
# What a nameplate or an assessment may answer is asked for once it does not.
_WAITS = {
    "part.surface_temperature": "part.marking",
    "part.device": "part.marking",
    "part.ambient": "part.marking",
    "part.rubbing_speed": "part.evidence",
    "part.drop_height": "part.evidence",
}
_AS_ONE = {"part.materials_complete": "part.materials"}
# of these the next key is another way, or a next step
_ALONE = frozenset(
    {
        *("part.evidence", "part.drive", "part.rubbing_speed", "part.bonded", "place.atmosphere"),
        *("part.inverter_fed", "part.entries", "part.device"),
    }
)
_EITHER = frozenset({"part.materials.surface_area"})  # of these two keys one is enough
MADE_OF = frozenset({"part.materials", "part.materials_complete"})
_WHOLE = frozenset({"evidence", "materials", "materials_complete", "contacts", "kind"})


def _name(subject: SubjectReport) -> str:
    if isinstance(subject, PartReport | PlaceReport):
        return subject.name
    return f"loop {subject.name}" if subject.blocks and subject.blocks[0].prefix else "the list"


def _key(bearer: Bearer, question: _Question) -> tuple[object, ...]:
    finding, kind = bearer.finding, question.kind
    if kind is not CauseKind.ANSWER:
        rule, what = finding.rule.id, finding.message
        step = finding.remedy if kind is CauseKind.CHANGE else ""  # a condition says what it asks
        return (kind, rule, finding.verdict, finding.reason, what, step, finding.rows)
    if question.unknown:  # one correction of the name settles all that is said of it
        vendor = _vendor(bearer, question.who) if question.who is Role.SUPPLIER else None
        return (kind, vendor, question.unknown)
    about: object = (finding.rule.id, finding.message)
    if question.asks:
        about = (tuple(question.asks), question.said, question.plate)  # true of each line
    if finding.reason is Reason.NO_DATA:  # one letter asks for all that is missing
        about = (finding.rule.id, finding.reason, finding.basis is Basis.JUDGEMENT)
    return (kind, question.who, _vendor(bearer, question.who), _subject(bearer), about)


def _subject(bearer: Bearer) -> str:
    return bearer.finding.path.partition("/")[0]


def _vendor(bearer: Bearer, who: Role) -> str | None:
    """Who sells the part, or all parts of a loop that are spoken of, if the supplier is asked."""
    if who is not Role.SUPPLIER:
        return None
    parts = (bearer.part.part,) if bearer.part is not None else bearer.ends
    vendors = {part.vendor for part in parts}
    return vendors.pop() if len(vendors) == 1 else None


def _cause(group: list[Bearer], question: _Question) -> Cause:
    first, kind = group[0].finding, question.kind
    asks: Iterable[Asked] = asks_of(first)
    if kind is CauseKind.ANSWER:
        asks = (asked_at(by.path, key, by.location) for key, by in question.asks.items())
    known: dict[str, Asked] = {}
    for asked in asks:
        known.setdefault(asked.row.key, asked)
    what = first.message
    if kind is CauseKind.ANSWER and first.reason is Reason.NO_DATA:
        what = _data_missing(group)
    elif question.unknown:
        told = [bearer.finding.message for bearer in group]
        what = min(told, key=lambda said: ("Nearest known" not in said, len(said)))
    elif kind is CauseKind.ANSWER and known:
        what = " ".join(question.said) + _of_materials(group)
    return Cause(
        kind,
        question.who,
        _vendor(group[0], question.who),
        what,
        first.remedy,
        tuple(known.values()),
        tuple(group),
    )


def _of_materials(group: list[Bearer]) -> str:
    """Of which materials a question is, where it is of a few and not of the whole part."""
    names: dict[str, None] = {}
    for bearer in group:
        use = _use(bearer)
        if use is None:
            return ""
        names[use.material] = None
    return f" ({', '.join(names)})" if len(names) <= _NAMED else ""


_NAMED = 4  # materials that a question names


def _use(bearer: Bearer) -> MaterialUse | None:
    """The material of a line that a finding is about; None of one that only an answer states."""
    found = _MATERIAL.match(bearer.finding.path)
    if bearer.part is None or found is None:
        return None
    return next(iter((bearer.part.part.materials or ())[int(found[1]) :]), None)


_MATERIAL = pattern(r"parts/[0-9]+/materials/([0-9]+)")


def _data_missing(group: list[Bearer]) -> str:
    """What data is missing of, each material once: `NBR in ethanol; PC, PUR in acetone`."""
    missing: dict[str, dict[str, None]] = {}
    for bearer in group:
        said = bearer.finding.message.removeprefix("Known by judgement only: ")
        pair = _PAIR.match(said)
        thing, other = (pair[1], pair[2]) if pair else (said, "")
        missing.setdefault(thing, {})[other] = None
    alike: dict[frozenset[str], list[str]] = {}
    for thing, others in missing.items():
        alike.setdefault(frozenset(others), []).append(thing)
    told = "; ".join(
        f"{', '.join(things)} in {', '.join(missing[things[0]])}" if any(others) else things[0]
        for others, things in alike.items()
    )
    if group[0].finding.basis is Basis.JUDGEMENT:
        return f"Known by judgement only, which somebody must accept: {told.rstrip('.')}."
    return f"No data; ask for a test: {told.rstrip('.')}."


_PAIR = pattern(
    r"(.+?)(?: \((?:read as|which may be)[^()]*\))? (?:in|resists) ([^,:;(]+?)(?=[,:;.]| \(|$)"
)
