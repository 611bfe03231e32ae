"""Which keys of a list would settle an open finding: those that its remedy names.

A remedy writes keys in backticks; the table of facts says which of them the subject of the finding
has, what each asks in plain words, and what it takes.
"""

from collections.abc import Iterator
from functools import lru_cache

from areafit.file.facts import FactRow, facts
from areafit.findings.report import Finding
from areafit.pattern import pattern
from areafit.values import Frozen
from areafit.verdict import Reason, Verdict

_SAID = pattern(r"(?:(place's) )?`([^`]+)`(?: (of the place))?")
_WORD = pattern(r"[A-Za-z_/]+")
_SUBJECTS = {"parts": "part", "locations": "place", "loops": "loop"}


class Asked(Frozen):
    """A key that would settle a finding: its path in the list, and its row of the table."""

    path: str
    row: FactRow

    @property
    def key(self) -> str:
        """The key as it is written."""
        return self.row.key.rpartition(".")[2]


def asks_of(finding: Finding) -> tuple[Asked, ...]:
    """The keys that would settle an open finding, those that its remedy names first.

    None where it passes, and where nothing that the list can state would settle it.
    """
    return tuple(asked_at(finding.path, key, finding.location) for key in keys_of(finding))


def keys_of(finding: Finding) -> tuple[str, ...]:
    """The keys by their rows of the table of facts, `part.materials.surface_area`.

    The same for each finding that differs in its line only.
    """
    path = finding.path
    subject, prefix = _subject(path)
    own = path.removeprefix(prefix).strip("/")
    return _named(finding.verdict, finding.reason, finding.remedy, subject, own)


@lru_cache(maxsize=4096)
def _named(
    verdict: Verdict, reason: Reason | None, remedy: str, subject: str, own: str
) -> tuple[str, ...]:
    if verdict not in (Verdict.FLAG, Verdict.UNPROVEN):
        return ()
    about = own.partition("/")[0]
    said = [(text, bool(before or after)) for before, text, after in _SAID.findall(remedy)]
    told = [text for text, placed in said if not placed or subject != "part"]
    found = {key: None for text in told for key in _keys(subject, text, about)}
    key = ".".join(step for step in own.split("/") if not step.isdecimal())
    missing = reason in (Reason.FACT_MISSING, Reason.NAME_UNKNOWN)
    of_place = {key: None for text, _ in said for key in _keys("place", text, "")}
    if subject == "part" and of_place:  # the pH of a chemical, the air, whether it is rinsed off
        first = not told or told[0] != said[0][0] or not _keys(subject, told[0], about)
        if first or not found:
            there = {key.rpartition(".")[2] for key in of_place}  # `source`: of the same thing
            own_ = (f"{subject}.{key}" for key in found if key.rpartition(".")[2] not in there)
            return (*(f"place.{key}" for key in of_place), *own_)
    if found:
        return tuple(f"{subject}.{key}" for key in found)
    if key == "contacts" and own != key and reason is Reason.FACT_MISSING:
        return ()  # the contact is stated: what is missing of it, the message says
    return (f"{subject}.{key}",) if missing and f"{subject}.{key}" in facts() else ()


def asked_at(path: str, key: str, place: str | None = None) -> Asked:
    """A key of `keys_of` as it is asked of the line, place or loop of a path.

    A key of the place is asked of the one that the line was judged at.
    """
    subject, prefix = _subject(path)
    row = facts()[key]
    if row.subject != subject:
        return Asked(f"locations/{place}/{row.key.replace('.', '/')}", row)
    return Asked(_path(prefix, path, row.key), row)


def _subject(path: str) -> tuple[str, str]:
    """What a path is about in the table of facts, and the part of the path that leads there."""
    steps = path.split("/")
    subject = _SUBJECTS.get(steps[0], "list")
    if subject == "list":
        return subject, ""
    alternate = 2 if steps[2:3] == ["alternates"] else 0
    return subject, "/".join(steps[: 2 + alternate])


@lru_cache(maxsize=1024)
def _keys(subject: str, said: str, about: str) -> tuple[str, ...]:
    """The keys of a subject that a text in backticks names: itself and those in its braces.

    `about` is the key that the finding stands at: what it holds is meant before what others hold.
    """
    found: list[str] = []
    holder = ""
    for word in _WORD.findall(said):
        fitting = about == "entries" and not holder  # it has a marking of its own
        own = (f"{about}.{word}",) if fitting else ()
        inner = f"{holder}.{word}" if holder else word
        for candidate in (*own, inner, word, f"{about}.{word}"):
            if f"{subject}.{candidate}" in facts():
                found.append(candidate)
                holder = holder or candidate
                break
        else:
            found += _inside(subject, word) if not found else ()
    inner = [key for key in found if key.startswith(f"{holder}.")]
    return tuple(inner if len(inner) == 1 else found[:1] if inner else found)


def _inside(subject: str, word: str) -> Iterator[str]:
    """A key of the mappings of a subject, such as `surface_area` of a material."""
    for row in facts().values():
        if row.subject == subject and (row.key.rpartition(".")[2] == word or word in row.also):
            yield row.key
            return


def _path(prefix: str, path: str, key: str) -> str:
    """Where the key belongs: in the very material or document that the finding is about."""
    steps = key.split(".")
    own = path.removeprefix(prefix).strip("/").split("/")
    if len(steps) > 1 and own[0] == steps[0] and own[1:2] and own[1].isdecimal():
        steps[0] = f"{steps[0]}/{own[1]}"
    return "/".join(filter(None, (prefix, *steps)))
