"""What an interview asks: proposals to confirm, and the questions by what an answer settles.

Facts with listed words are weighed by judging the line with each of them, open values by the
findings that ask. What is answered with one word for several lines, and settles the same on each,
is asked once.
"""

import copy
import json
from collections.abc import Callable, Hashable, Iterator, Mapping, Sequence
from itertools import pairwise
from typing import Any

from areafit.answers.questions import (
    BARRED,
    LIBRARY,
    SHORT,
    Question,
    Steps,
    entry_of,
    in_library,
    questions,
    steps_below,
)
from areafit.answers.replies import value_of
from areafit.answers.workbook import words_of
from areafit.errors import InputErrors
from areafit.facts.bom import Bom
from areafit.facts.part import Kind, Part
from areafit.file.editor import EditError, Put, Remove, edit
from areafit.findings.report import BomReport
from areafit.values import Frozen, replace
from areafit.verdict import Role, Verdict

_AFTER = {
    "part.materials_complete": "part.materials",
    "part.surface_temperature.at_ambient": "part.surface_temperature.value",
    "part.surface_temperature.case": "part.surface_temperature.value",
}
"""What is asked with a table, or can be written once another answer is there."""
Judge = Callable[[bytes], BomReport]
Reader = Callable[[bytes], Bom]

# What was proposed


class Proposal(Frozen, eq=False):
    """A key that was proposed, or a kind that nobody knows, for lines of one number or description.

    `value` is as the list writes it, empty where nothing is proposed.
    """

    name: str
    description: str
    key: str
    value: str
    parts: tuple[Part, ...]

    @property
    def items(self) -> tuple[str, ...]:
        """The lines that one confirmation covers."""
        return tuple(str(part.item) for part in self.parts)


def proposals(bom: Bom, root: Any) -> tuple[Proposal, ...]:  # noqa: ANN401 - as written
    """What waits for a person, a row for each key and value of equal parts, in the list's order."""
    rows: dict[tuple[str, ...], list[Part]] = {}
    for part in bom.parts:
        known = part.part_number or part.description or f"item {part.item}"
        keys = dict.fromkeys(part.proposed or ())
        if Kind.UNKNOWN in part.equipment.kinds:
            keys["kind"] = None
        for key in keys:
            written = root["parts"][part.index].get(key)
            value = "" if written == "unknown" else _flat(written)
            rows.setdefault((known, key, value), []).append(part)
    return tuple(
        Proposal(
            known, next((p.description for p in own if p.description), ""), key, value, (*own,)
        )
        for (known, key, value), own in rows.items()
    )


def confirmed(data: bytes, name: str, root: Any, row: Proposal, value: Any = None) -> bytes:  # noqa: ANN401
    """The list with a row confirmed on each of its lines, or with another value stated there.

    Raises:
        EditError: a line cannot be changed so.
    """
    for part in row.parts:
        line: Steps = ("parts", part.index)
        if value is not None:
            data = edit(data, name, Put((*line, row.key), value))
        stated = root["parts"][part.index].get("proposed")
        keys = stated if isinstance(stated, list) else [] if stated is None else [stated]
        rest = [str(key) for key in keys if key != row.key]
        where = (*line, "proposed")
        if len(rest) < len(keys):
            data = edit(data, name, Put(where, rest) if rest else Remove(where))
    return data


def _flat(value: object) -> str:
    if isinstance(value, dict):
        return ", ".join(f"{key} {_flat(each)}" for key, each in value.items())
    return ", ".join(map(_flat, value)) if isinstance(value, list) else str(value)


# What is asked next


class Turn(Frozen, eq=False):
    """Questions that are answered by one word, or one question; and how much that settles."""

    questions: tuple[Question, ...]
    settles: float = 0.0

    @property
    def first(self) -> Question:
        """The one that stands for all."""
        return self.questions[0]

    @property
    def items(self) -> tuple[str, ...]:
        """The lines that it settles."""
        return tuple(dict.fromkeys(item for one in self.questions for item in one.items))


class _Effect(Frozen):
    """What the words of a question do: findings settled on the average, and which, by word."""

    settles: float
    by_word: tuple[tuple[tuple[str, str, int], ...], ...]


class Interview:
    """The turns of one list, as it is now; what words do is kept while a line stays as it was."""

    def __init__(self, judge: Judge) -> None:
        self._judge = judge
        self._effects: dict[Hashable, _Effect | None] = {}

    def turns(
        self,
        report: BomReport,
        root: Any,  # noqa: ANN401 - as written
        *,
        role: Role | None = None,
        item: str | None = None,
    ) -> tuple[Turn, ...]:
        """Every question that a list can take the answer of, those first that settle most."""
        every = questions(report)
        open_ = {(one.party, one.assembly, one.line, one.key) for one in every}
        asked = [
            one
            for one in every
            if role in (None, one.party.role)
            and (item is None or item in one.items)
            and one.key not in BARRED
            and one.row is not None
            and (one.row.subject != "place" or one.line in (root.get("locations") or ()))
            and (one.party, one.assembly, one.line, _AFTER.get(one.key)) not in open_
        ]
        effects = self._weighed(report.bom, root, [one for one in asked if _listed(one)])
        gathered: dict[Hashable, list[Question]] = {}
        for one in asked:
            gathered.setdefault(_alike(report.bom, one, effects.get(one.identity)), []).append(one)
        turns = [
            Turn((*own,), sum(_settles(one, effects.get(one.identity)) for one in own))
            for own in gathered.values()
        ]
        order = {turn.first.identity: place for place, turn in enumerate(turns)}
        return tuple(
            sorted(
                turns,
                key=lambda turn: (
                    -turn.settles,
                    not _listed(turn.first),
                    order[turn.first.identity],
                ),
            )
        )

    def _weighed(
        self,
        bom: Bom,
        root: Any,  # noqa: ANN401 - as written
        asked: Sequence[Question],
    ) -> Mapping[tuple[str, ...], _Effect]:
        """What the words of each question do, where they can be put onto its first line."""
        around = json.dumps({key: each for key, each in root.items() if key != "parts"})
        shelf = tuple(file.sha256 for file in bom.library.files)
        keys: dict[tuple[str, ...], Hashable] = {}
        new: list[tuple[Hashable, Question, int, Steps]] = []
        by_item = {str(part.item): part.index for part in bom.parts}
        for one in asked:
            index = by_item.get(one.items[0], -1)
            line = root["parts"][index] if index >= 0 else {}
            steps = steps_below(line, one.key, one.about)
            bare = not isinstance(line, dict) or (steps and len(steps) > 1 and steps[0] not in line)
            if index < 0 or not one.key.startswith("part.") or steps is None:
                continue
            if bare and one.assembly == LIBRARY:
                continue  # the entry says what it would be put into
            known = (one.identity, json.dumps(line), around, shelf)
            keys[one.identity] = known
            if known not in self._effects:
                new.append((known, one, index, steps))
        self._judged(root, new)
        found = {identity: self._effects.get(known) for identity, known in keys.items()}
        return {identity: effect for identity, effect in found.items() if effect is not None}

    def _judged(self, root: Any, new: Sequence[tuple[Hashable, Question, int, Steps]]) -> None:  # noqa: ANN401
        """Judge each line with each word, all at once as further lines; faulty ones by halves."""
        if not new:
            return
        lines = []
        for number, (_, one, index, steps) in enumerate(new):
            for k, word in enumerate(words_of(one.row)):
                line = copy.deepcopy(root["parts"][index])
                line["item"] = f"{number} with {k}"
                line.pop("line_id", None)
                _put(line, steps, value_of(one.key, word))
                lines.append(line)
        tried = {key: each for key, each in root.items() if key != "loops"}
        tried["parts"] = [*root["parts"], *lines]
        try:
            report = self._judge(json.dumps(tried, ensure_ascii=False).encode())
        except InputErrors:
            half = len(new) // 2
            for some in (new[:half], new[half:]) if half else ():
                self._judged(root, some)
            if not half:
                self._effects[new[0][0]] = None
            return
        by_name = {part.name: _unproven(part) for part in report.parts}
        for number, (known, one, index, _) in enumerate(new):
            before = by_name[str(root["parts"][index]["item"]).strip()]
            words = range(len(words_of(one.row)))
            after = [by_name[f"{number} with {k}"] for k in words]
            settled = [sum(not each.get(key) for key in before) for each in after]
            self._effects[known] = _Effect(
                sum(settled) / len(settled), tuple(_changes(before, each) for each in after)
            )


def _listed(one: Question) -> bool:
    """Whether the answer is one of listed words, and no other."""
    row = one.row
    words = words_of(row)
    only = row is not None and (not row.unit or row.unit == "yes|no")
    return bool(words) and only and words != ("none",) and not one.table


def _settles(one: Question, effect: _Effect | None) -> float:
    return float(one.findings) if effect is None else effect.settles * len(one.items)


def _alike(bom: Bom, one: Question, effect: _Effect | None) -> Hashable:
    """By what questions are one: those of one's own house that each word settles alike.

    What a bought part is differs from one to the next; how it is mounted may be the same.
    """
    if effect is None or one.party.role is Role.SUPPLIER or one.assembly == LIBRARY:
        return one.identity
    parts = [part for part in bom.parts if str(part.item) in one.items]
    if in_library(one.key) and not all(is_made(bom, part) for part in parts):
        return one.identity
    return (one.party, one.key, effect.by_word)


def is_made(bom: Bom, part: Part) -> bool:
    """Whether a line is of one's own make, as far as it says: nobody sells it."""
    bought = (part.vendor, part.maker, part.maker_number)
    return bought == (None, None, None) and entry_of(bom, part) is None


Unproven = Mapping[tuple[str, str, str], Verdict]


def _unproven(part: Any) -> Unproven:  # noqa: ANN401 - a report on a part
    """The open findings of a part: unproven ones, and what fails, told by what they are about."""
    return {
        (one.rule.id, one.location or "", one.component or ""): one.verdict
        for one in part.open_findings()
        if one.verdict is Verdict.UNPROVEN
    }


def _changes(before: Unproven, after: Unproven) -> tuple[tuple[str, str, int], ...]:
    """Which rules a word settles, and which it opens, each with how often."""
    found: dict[tuple[str, str], int] = {}
    for word, some, others in (("settled", before, after), ("opened", after, before)):
        for key in some:
            if key not in others:
                found[word, key[0]] = found.get((word, key[0]), 0) + 1
    return tuple(sorted((word, rule, number) for (word, rule), number in found.items()))


def _put(line: Any, steps: Steps, value: object) -> None:  # noqa: ANN401 - as written
    """A value into a line, with the mappings around it; what is written short is written out."""
    node = line
    for step, following in pairwise(steps):
        inner = node.get(step) if isinstance(node, dict) else node[step]
        if inner is None or (isinstance(inner, str) and isinstance(following, str)):
            short = SHORT.get(str(step), "material" if isinstance(step, int) else "value")
            inner = {} if inner is None else {short: inner}
            node[step] = inner
        node = inner
    node[steps[-1]] = value


# Once for many


def as_note(  # noqa: PLR0913 - a list, and who says what of which lines
    before: bytes,
    made: bytes,
    name: str,
    read: Reader,
    *,
    turn: Turn,
    value: object,
    document: str,
    role: str,
) -> bytes | None:
    """The list with one note in place of the facts that were written onto lines.

    None where no note may say it, or where it would say anything else.
    """
    row = turn.first.row
    if row is None or not row.note:
        return None
    *above, key = turn.first.key.split(".")
    holder = "materials" if above[1:] else "facts"
    entry = {
        "where": {"items": list(turn.items)},
        "document": document,
        "role": role,
        holder: {key: value},
    }
    from areafit.answers.taking import root_of  # noqa: PLC0415 - where it reads lists

    stated = root_of(before, name).get("unless_stated")
    try:
        if stated is None:
            noted = edit(before, name, Put(("unless_stated",), [entry]))
        elif isinstance(stated, list):
            noted = edit(before, name, Put(("unless_stated", len(stated)), entry))
        else:
            return None
        alike = list(_facts(read(noted))) == list(_facts(read(made)))
    except (EditError, InputErrors):
        return None
    return noted if alike else None


def _facts(bom: Bom) -> Iterator[object]:
    """All that a list states of its lines, whoever says it."""
    yield from (replace(part, contacts_note=None) for part in bom.parts)
