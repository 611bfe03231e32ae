"""The names by which a fingerprint digests a question never change. Own design, no source.

`published_names.csv` lists them, typed by hand and sorted by its first two columns so that two
branches merge: `of` is a rule (for the fields of its question), a record or a list of words that
one of them holds; `holds` is what stands there, `default` what is left out beside None.
"""

import csv
import json
from collections.abc import Iterable, Mapping
from datetime import date
from decimal import Decimal
from enum import Enum
from itertools import pairwise
from pathlib import Path
from typing import Any, get_args, get_origin, get_type_hints

import pytest

import areafit
from areafit.facts.part import Item
from areafit.findings.fingerprint import COUNTED, SCHEME, WORDING, published
from areafit.registry import RULES
from areafit.rule import Rule
from areafit.values import Frozen, defaults

FILE = Path(__file__).with_name("published_names.csv")
HEADER = ["of", "name", "holds", "default"]
RELEASED = not areafit.__version__.startswith("0.1.")
VOIDS = (
    "A fingerprint digests these names. Whatever renames, removes or retypes one voids every "
    "waiver that a company holds of such a finding: its gate shuts till each is granted anew. "
    + (
        f"Keep the old name, or raise SCHEME ({SCHEME}) and say so in the changelog."
        if RELEASED
        else f"No release has scheme {SCHEME} yet, so nobody holds one: write the line as it is."
    )
)
_PLAIN: Mapping[object, str] = {
    str: "text",
    bool: "yes or no",
    int: "whole number",
    Decimal: "number",
    date: "date",
    Item: "line",
}
_LIST = """
areafit: 1
assembly: {number: T-1}
code: IEC
locations: {head: {}}
parts: [{item: '1', location: head, kind: structural}]
"""

Line = tuple[str, str, str, str]


class Names:
    """Walks the types of all questions, as `published` walks their values."""

    def __init__(self, rules: Iterable[Rule[Any]]) -> None:
        self._said: dict[tuple[str, str], dict[tuple[str, str], None]] = {}
        self._always: set[tuple[str, str]] = set()
        self._walked: dict[str, object] = {}
        self._bom = areafit.read(_LIST.encode(), "list.yaml")
        for rule in rules:
            (asked,) = get_args(get_type_hints(rule.ask)["return"])
            (question,) = get_args(asked)
            always = [self._fields(rule.id, kind) for kind in _either(question)]
            self._always |= set.intersection(*always)  # a kind of question added voids nothing

    def lines(self) -> list[Line]:
        """One for each name, in the order of the file."""
        return sorted(
            (of, name, _or(holds for holds, _ in said), _or(default for _, default in said))
            for (of, name), said in self._said.items()
        )

    def always_told(self, line: Line) -> bool:
        """Whether the field is in every digest, so that it voids what was granted before it."""
        return line[:2] in self._always

    def _say(self, of: str, name: str, holds: str, default: str = "") -> None:
        self._said.setdefault((of, name), {})[holds, default] = None

    def _fields(self, of: str, kind: Any) -> set[tuple[str, str]]:
        """Say the fields; those are given back that no value of this kind leaves out."""
        always = set()
        record, filled = get_origin(kind) or kind, get_args(kind)
        hints, usual = get_type_hints(record), defaults(record)
        for name in record.__struct_fields__:
            if name in WORDING:
                continue
            hint = (
                hints[name][filled] if getattr(hints[name], "__parameters__", ()) else hints[name]
            )
            told = usual.get(name)
            default = "" if told is None else json.dumps(published(told, self._bom))
            self._say(of, name, "how many" if name in COUNTED else self._holds(hint), default)
            if name not in usual and type(None) not in get_args(hint):
                always.add((of, name))
        return always

    def _holds(self, hint: Any) -> str:
        kinds = [kind for kind in _either(hint) if kind is not type(None)]
        return " or ".join(self._one(kind) for kind in kinds)

    def _one(self, kind: Any) -> str:
        if kind in _PLAIN:
            return _PLAIN[kind]
        if get_origin(kind) is frozenset or get_args(kind)[1:] == (...,):
            return f"list of {self._holds(get_args(kind)[0])}"
        if get_origin(kind) is tuple:
            return " with ".join(map(self._holds, get_args(kind)))
        name: str = kind.__name__
        if name in self._walked:
            assert self._walked[name] is kind, f"Two classes are called {name}: rename one."
        else:
            self._walked[name] = kind
            if issubclass(kind, Enum):
                for word in kind:
                    self._say(name, word.value, "word")
            elif issubclass(kind, Frozen):
                self._always |= self._fields(name, kind)
            else:
                raise TypeError(f"{name} has no published form")
        return name


def _or(words: Iterable[str]) -> str:
    return " or ".join(dict.fromkeys(word for word in words if word))


def _either(hint: Any) -> tuple[Any, ...]:
    tupled = get_origin(hint) in (tuple, frozenset) or isinstance(hint, type)
    return (hint,) if tupled or not get_args(hint) or _generic(hint) else get_args(hint)


def _generic(hint: object) -> bool:
    return isinstance(get_origin(hint), type) and issubclass(get_origin(hint), Frozen)  # type: ignore[arg-type]


@pytest.fixture(scope="module")
def names() -> Names:
    return Names(RULES)


def _listed() -> list[Line]:
    with FILE.open(encoding="utf-8", newline="") as file:
        header, *lines = csv.reader(file)
    assert header == HEADER
    return [(of, name, holds, default) for of, name, holds, default in lines]


def _typed(lines: Iterable[Line]) -> str:
    return "\n".join(
        ",".join(
            f'"{cell.replace(chr(34), 2 * chr(34))}"' if set(cell) & set(',"') else cell
            for cell in line
        )
        for line in lines
    )


def test_the_file_is_sorted_and_says_each_name_once() -> None:
    keys = [line[:2] for line in _listed()]
    wrong = [f"{one} stands after {two}" for two, one in pairwise(keys) if one <= two]
    assert not wrong, f"Sort {FILE.name} by its first two columns: {'; '.join(wrong)}"


def test_no_published_name_is_renamed_removed_or_retyped(names: Names) -> None:
    now = {line[:2]: line for line in names.lines()}
    gone = [line for line in _listed() if now.get((line[0], line[1])) != line]
    as_now = [now[line[:2]] for line in gone if line[:2] in now]
    assert not gone, (
        f"{FILE.name} lists what the rules no longer have:\n{_typed(gone)}\n"
        + (f"The rules have instead:\n{_typed(as_now)}\n" if as_now else "")
        + f"{VOIDS}\nIf a class alone was renamed, write its new name: no fingerprint digests that."
    )


def test_every_name_that_a_fingerprint_digests_is_listed(names: Names) -> None:
    listed = {line[:2] for line in _listed()}
    missing = [line for line in names.lines() if line[:2] not in listed]
    known = {of for of, _ in listed}
    voiding = [line for line in missing if line[0] in known and names.always_told(line)]
    warning = (
        f"But these are told by every question of their kind:\n{_typed(voiding)}\n"
        "so each fingerprint of it changes. Give them a default that means what was so before, or "
        f"`| None`. {VOIDS}"
    )
    assert not missing, (
        f"Add a line to tests/findings/{FILE.name} for each new name, where the sort puts it:\n"
        f"{_typed(missing)}\n" + (warning if voiding else "A new name voids no waiver.")
    )
