"""What a list says once: notes that hold for many lines "unless otherwise stated".

A note is an entry of `unless_stated` in a list, in a shared file of places, or in one location. It
speaks for the lines that its `where` names and that do not say otherwise themselves; only what
drawings say so may stand in it. Nothing here knows which rule will read a fact.
"""

from collections.abc import Collection, Iterator, Mapping, Sequence
from functools import cache
from typing import Annotated, Any, Self

from pydantic import model_validator

from areafit.errors import InputError, brief, suggestion
from areafit.facts.bom import Position, StatedAt, Statement
from areafit.facts.mechanics import AirSupply, EndStops, Finish, LooseParts, Release
from areafit.facts.part import Exposure, Item, Kind
from areafit.file.facts import facts
from areafit.file.fields import ItemText, Layer, NoneWord, OneWord, Reference, Text, YesNo
from areafit.file.mappings import Becomes, Many, Model, written
from areafit.file.part_model import ABSENT, AirSupplyModel, PartModel
from areafit.file.positions import Items, Map
from areafit.file.source import Path, SourceFile
from areafit.tables.load import rows
from areafit.tables.materials import HiddenItem, hidden_in
from areafit.tables.words import needs_own_word
from areafit.values import Frozen, replace


class WhereModel(Model):
    """Which lines a note speaks for: all that is given must hold."""

    called = "`where`"
    under = "list.unless_stated.where."

    kinds: Many[OneWord[Kind]] | None = written("kind")
    locations: Many[Text] | None = written("location")
    items: Many[ItemText] | None = None

    @model_validator(mode="after")
    def _known_kinds(self) -> Self:
        if Kind.UNKNOWN in (self.kinds or ()):
            raise InputError("a note for kinds that are unknown", "name kinds that are known")
        return self


class NotedFactsModel(Model):
    """What a note may say of a part."""

    called = "the `facts` of a note"
    under = "part."

    locations: Many[Text] | None = written("location")
    exposure: OneWord[Exposure] | None = None
    bonded: YesNo | None = None
    contacts: NoneWord | None = None
    materials_complete: YesNo | None = None
    air_supply: Annotated[AirSupplyModel, Becomes(AirSupply)] | None = None
    drop_height: Layer | None = None
    end_stops: OneWord[EndStops] | None = None
    loose_parts: OneWord[LooseParts] | None = None
    release: OneWord[Release] | None = None

    @model_validator(mode="after")
    def _not_enclosed(self) -> Self:
        if self.exposure is Exposure.ENCLOSED:
            raise InputError(
                "a note cannot say that parts are enclosed", "say so on the lines that are"
            )
        return self


class NotedMaterialsModel(Model):
    """What a note may say of every material of a part."""

    called = "the `materials` of a note"
    under = "part.materials."

    welded: YesNo | None = None
    crevice: YesNo | None = None
    stressed: YesNo | None = None
    finish: OneWord[Finish] | None = None


class NoteModel(Model):
    """One entry of `unless_stated`."""

    called = "a note"
    under = "list.unless_stated."

    where: WhereModel | None = None
    document: Reference
    role: Reference
    facts: NotedFactsModel | None = None
    materials: NotedMaterialsModel | None = None

    @model_validator(mode="after")
    def _says_something(self) -> Self:
        if self.document is None or self.role is None:
            raise InputError(
                "a note without a document or a role", "name the drawing note and who answers"
            )
        if not (_said(self.facts) or _said(self.materials)):
            raise InputError("a note that says nothing", "add `facts:` or `materials:`")
        return self


class Note(Frozen, eq=False):
    """A note as read: what it says, by the names of the fields, and of which lines."""

    statement: Statement
    kinds: frozenset[Kind] | None
    locations: frozenset[str] | None
    items: frozenset[str] | None
    facts: Mapping[str, Any]
    materials: Mapping[str, Any]

    def speaks_for(
        self,
        item: Item | None,
        kinds: tuple[Kind, ...] | None,
        locations: Sequence[str],
        *,
        by_name: bool,
    ) -> bool:
        """Whether it speaks for such a line at these locations; `by_name`: only one that it names.

        Of a line whose kind is only proposed no note knows the kind.
        """
        if item not in self.items if self.items is not None else by_name:
            return False
        if self.locations is not None and not (locations and self.locations.issuperset(locations)):
            return False
        return self.kinds is None or (kinds is not None and self.kinds.issuperset(kinds))


_NONE: frozenset[str] = frozenset()
_OF_MAKERS = frozenset({"materials_complete", "contacts"})


def _plain(part: PartModel) -> bool:
    """Whether a line is structural alone, and of a description that usually hides nothing."""
    known = part.description is None or hidden_in(
        part.description, rows("hidden_items", HiddenItem)
    )
    proposed = "kind" in (part.proposed or ())
    return part.kinds == (Kind.STRUCTURAL,) and not proposed and not known


Found = tuple[Any, Statement]


class _Clash(Exception):  # noqa: N818 - what it is an error of is told by who knows the line
    """Two statements that count alike and differ."""

    def __init__(self, one: Statement, other: Statement) -> None:
        super().__init__(one, other)
        self.one, self.other = one, other


class Notes:
    """All notes that a list can use, and what the nearest of them says of a line.

    They go by little of a line, so what they say is worked out once for all lines that are alike.
    """

    def __init__(
        self, places: Mapping[str, Sequence[Note]], own: Sequence[Note], shared: Sequence[Note]
    ) -> None:
        self._places = places
        self._own = own
        self._shared = shared
        self._used: set[Position] = set()
        every = (*own, *shared, *(note for here in places.values() for note in here))
        self._items = frozenset(item for note in every for item in note.items or ())
        self._near = cache(self._nearest)
        self.stating = cache(_stating)
        self.facts = frozenset(name for note in every for name in note.facts)
        self.materials = frozenset(name for note in every for name in note.materials)

    def __bool__(self) -> bool:
        return bool(self._own or self._shared or any(self._places.values()))

    def fact(self, name: str, part: PartModel, locations: Sequence[str]) -> Found | None:
        """What the nearest note says of a fact, and who says it.

        Raises:
            InputError: two notes that count alike differ, or one of the list from a shared one.
        """
        return self._found("facts", name, part, locations) if name in self.facts else None

    def material(self, name: str, part: PartModel, locations: Sequence[str]) -> Found | None:
        """As `fact`, of what holds for every material of the line."""
        return self._found("materials", name, part, locations) if name in self.materials else None

    def unused(self) -> Iterator[Statement]:
        """Every note that no line took anything from."""
        placed = (note for notes in self._places.values() for note in notes)
        for note in (*self._own, *placed, *self._shared):
            if note.statement.position not in self._used:
                yield note.statement

    def _found(
        self, where: str, name: str, part: PartModel, locations: Sequence[str]
    ) -> Found | None:
        """What the nearest notes say of a line.

        Notes don't speak for makers: what a part holds and touches they say only of lines that they
        name, and of plain structural parts.
        """
        if name == "materials_complete" and not part.materials:
            return None
        item = part.item if part.item in self._items else None
        kinds = None if "kind" in (part.proposed or ()) else part.kinds
        by_name = name in _OF_MAKERS and not _plain(part)
        try:
            return self._near(where, name, item, kinds, tuple(locations), by_name=by_name)
        except _Clash as clash:
            raise _differ(part, name, clash.one, clash.other) from None

    def _nearest(  # noqa: PLR0913 - all that notes go by
        self,
        where: str,
        name: str,
        item: Item | None,
        kinds: tuple[Kind, ...] | None,
        locations: tuple[str, ...],
        *,
        by_name: bool,
    ) -> Found | None:
        """What the nearest notes say, at every place of the line alike; else nobody says it."""

        def agreed(notes: Sequence[Note]) -> Found | None:
            found = [
                (said[name], note.statement)
                for note in notes
                if name in (said := getattr(note, where))
                and note.speaks_for(item, kinds, locations, by_name=by_name)
            ]
            for value, statement in found[1:]:
                if value != found[0][0]:
                    raise _Clash(found[0][1], statement)
            return found[0] if found else None

        own, shared = agreed(self._own), agreed(self._shared)
        here = [agreed(self._places.get(each, ())) or own for each in locations] or [own]
        for near in here:
            if near is not None and shared is not None and near[0] != shared[0]:
                raise _Clash(near[1], shared[1])
        said = [near if near is not None else shared for near in here]
        first = said[0]
        if first is None or any(one is None or one[0] != first[0] for one in said):
            return None
        self._used.update(one[1].position for one in said if one is not None)
        return first


def read_notes(
    source: SourceFile,
    models: Sequence[NoteModel] | None,
    path: Path,
    level: StatedAt,
    places: Collection[str],
) -> tuple[Note, ...]:
    """The notes below a path of a file; what cannot be meant is noted as an error."""
    for i, model in enumerate(models or ()):
        for key, holder in (("where", model.where), ("facts", model.facts)):
            _check_places(source, holder, (*path, i, key, "location"), places)
    found = (_note(source, model, (*path, i), level) for i, model in enumerate(models or ()))
    return tuple(note for note in found if note is not None)


def _check_places(
    source: SourceFile,
    holder: WhereModel | NotedFactsModel | None,
    path: Path,
    places: Collection[str],
) -> None:
    """Note every place that a note names and that there is not."""
    for k, name in enumerate((holder.locations if holder is not None else None) or ()):
        if places and name not in places:
            message = f"`{brief(name)}` is none of the `locations`"
            source.note((*path, k), message, suggestion(name, places))


def _note(source: SourceFile, model: NoteModel, path: Path, level: StatedAt) -> Note | None:
    where = model.where or WhereModel()
    facts, materials = _said(model.facts), _said(model.materials)
    if "locations" in facts and (level is StatedAt.LOCATION or where.locations is not None):
        message = "a note that says where parts stand, for those that stand at one location"
        source.note((*path, "facts", "location"), message, "name the lines by kind or item")
        return None
    if "contacts" in facts:
        facts["contacts"] = ()
    position = source.document.at(path)
    name = "/".join(map(str, path))
    return Note(
        Statement(name, level, str(model.document), str(model.role), position),
        None if where.kinds is None else frozenset(where.kinds),
        None if where.locations is None else frozenset(where.locations),
        None if where.items is None else frozenset(where.items),
        facts,
        materials,
    )


def _said(model: Model | None) -> dict[str, Any]:
    values = {} if model is None else vars(model)
    return {name: value for name, value in values.items() if value is not None}


def _stating(statement: Statement, path: str) -> Statement:
    """A note's statement as that of one fact of a line; all lines that take it share one."""
    return replace(statement, path=path)


def _differ(part: PartModel, name: str, one: Statement, other: Statement) -> InputError:
    key = PartModel.keys().get(name, (name,))[0]
    return InputError(
        f"two notes say different things of `{key}` of item `{brief(part.item)}`: {one.document} "
        f"(line {one.position.line}) and {other.document} ({other.position})",
        f"state `{key}` on the line, or narrow `where` of one of the two",
        one.position,
    )


def without_unknown(line: Any) -> tuple[Any, frozenset[str]]:  # noqa: ANN401 - as written
    """A line without the keys that it says are unknown, which keeps them unstated; and those keys.

    Only what a note or a library could state may be unknown; elsewhere the word is judged as any.
    """
    if not isinstance(line, Map):
        return line, _NONE
    open_ = [key for key, value in line.items() if value == "unknown" and key in _open("part.")]
    uses = line.get("materials")
    inner = [
        (number, key)
        for number, use in (enumerate(uses) if isinstance(uses, Items) else ())
        if isinstance(use, Map)
        for key, value in use.items()
        if value == "unknown" and key in _open("part.materials.")
    ]
    alternates = line.get("alternates")
    if not (open_ or inner or isinstance(alternates, list)):
        return line, _NONE
    stated = {key: value for key, value in line.items() if key not in open_}
    if inner:
        stated["materials"] = [
            {key: value for key, value in use.items() if (number, key) not in inner}
            if isinstance(use, Map)
            else use
            for number, use in enumerate(line["materials"])
        ]
    if isinstance(alternates, list):
        stated["alternates"] = [_left_empty(alternate) for alternate in alternates]
    return stated, frozenset((*open_, *(f"materials/{number}/{key}" for number, key in inner)))


def _left_empty(alternate: Any) -> Any:  # noqa: ANN401 - as written
    """An alternate whose unknown keys are left empty: it takes them from nowhere."""
    if not isinstance(alternate, Map):
        return alternate
    known = _open("part.")
    return {
        key: None if value == "unknown" and key in known else value
        for key, value in alternate.items()
    }


@cache
def _open(prefix: str) -> frozenset[str]:
    """The keys that may be unknown: those that a note or an entry of the library may state.

    Not the place: without one nothing of a line is judged, so the word is none of the places.
    """
    return frozenset(
        row.key.rpartition(".")[2]
        for path, row in facts().items()
        if path.rpartition(".")[0] + "." == prefix and (row.note or row.library)
    ) - {"kind", "location"}


class NotedFacts(Frozen, eq=False):
    """What a line takes from notes: facts by field, facts of materials by their number."""

    facts: Mapping[str, Any]
    materials: Mapping[int, Mapping[str, Any]]
    statements: tuple[Statement, ...]


NOTHING = NotedFacts({}, {}, ())
_STANDING = frozenset({"locations", "exposure"})  # taken where a line's standing is found
_FACTS = tuple(name for name in NotedFactsModel.model_fields if name not in _STANDING)
_TENSION = ("stressed", "crevice")
_OF_MATERIALS = tuple(NotedMaterialsModel.model_fields)


def taken(
    notes: Notes, part: PartModel, unknown: frozenset[str], locations: Sequence[str]
) -> NotedFacts:
    """What the notes say of a line that the line leaves open.

    `unknown` are the keys that the line says are not known: no note fills those.

    Raises:
        InputError: two notes differ.
    """
    facts: dict[str, Any] = {}
    materials: dict[int, dict[str, Any]] = {}
    statements: list[Statement] = []

    def take(found: Found, path: str) -> Any:  # noqa: ANN401 - any fact
        statements.append(notes.stating(found[1], path))
        return found[0]

    for name in _FACTS:
        if name in notes.facts and getattr(part, name) is None and name not in unknown:
            found = notes.fact(name, part, locations)
            if found is not None:
                facts[name] = take(found, name)
    of_materials = [name for name in _OF_MATERIALS if name in notes.materials]
    for number, use in enumerate(part.materials or ()):
        if use.material == ABSENT:
            continue
        for name in of_materials:
            if getattr(use, name) is None and f"materials/{number}/{name}" not in unknown:
                found = notes.material(name, part, locations)
                if found is None or (
                    found[0] is False
                    and name in _TENSION
                    and needs_own_word(name, use.component, part.description)
                ):
                    continue
                value = take(found, f"materials/{number}/{name}")
                materials.setdefault(number, {})[name] = value
    return NotedFacts(facts, materials, tuple(statements))
