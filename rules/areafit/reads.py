"""What a rule reads of its subject: a key by which to remember, and the subject cut down to it.

A rule is handed nothing but the facts it names, so what it answered for one subject holds for
every other that agrees in them, whatever else is stated. Both are worked out for every line of a
list, so they are compiled: as expressions over the facts named, without a loop over names.
"""

from collections.abc import Callable, Hashable, Iterable
from typing import Any

from areafit.frozen import field_names

Key = Callable[[Any], Hashable]


def key_of(kind: type, names: Iterable[str] = ()) -> Key:
    """A key that two subjects share only if they hold the same values under these names.

    A name may go into a fact or into each entry of a list (`evidence.type`); without names every
    field counts. `evidence.number|ambient` is the number of those entries only that state an
    ambient. Values are told apart by identity, which is quick: the reader makes one value of
    equal text. The key means nothing once a subject is gone.
    """
    return _key(_tree(tuple(names) or field_names(kind)))


def key_of_each(names: Iterable[str], each: str) -> Key:
    """The same for the entries of a list, by the names that go into them."""
    return _key(_tree(names).below[each])


def narrowing(names: Iterable[str]) -> Callable[[Any], Any]:
    """Makes of a subject one that states nothing but these facts; without names, itself."""
    tree = _tree(names)
    return _narrowed(tree) if tree.below else lambda subject: subject


class _Read:
    """A fact that is read: whole where nothing is named below it, else what is named.

    `only_with` are the facts of which one must be stated for it to be read; none: always.
    """

    def __init__(self) -> None:
        self.below: dict[str, _Read] = {}
        self.only_with: set[str] = set()

    def guarded(self, name: str, otherwise: str) -> str:
        """The expression for one fact below."""
        read = self.below[name]
        if not read.only_with:
            return otherwise
        stated = " or ".join(f"fact.{other} is not None" for other in sorted(read.only_with))
        return f"({otherwise} if {stated} else None)"


def _tree(names: Iterable[str]) -> _Read:
    """The facts by those that they are in; what is named whole has no names below it."""
    always = {name for name in names if "|" not in name}
    tree = _Read()
    for name in sorted(names):
        path, _, with_ = name.partition("|")
        steps = path.split(".")
        above = {".".join(steps[:n]) for n in range(1, len(steps))}
        if above & always or (with_ and path in always):
            continue
        read = tree
        for step in steps:
            read = read.below.setdefault(step, _Read())
        if with_:
            read.only_with.add(with_)
    return tree


def _key(tree: _Read) -> Key:
    below = {f"_of_{name}": _key(read) for name, read in tree.below.items() if read.below}
    parts = [
        f"_of_{name}(fact.{name})" if read.below else tree.guarded(name, f"id(fact.{name})")
        for name, read in tree.below.items()
    ]
    own = _compiled(f"({''.join(f'{part}, ' for part in parts)})", below)

    def key(value: Any) -> Hashable:  # noqa: ANN401 - any fact
        if value is None:
            return None
        return tuple([own(each) for each in value]) if type(value) is tuple else own(value)

    return key


def _narrowed(tree: _Read) -> Callable[[Any], Any]:
    below = {f"_of_{name}": _narrowed(read) for name, read in tree.below.items() if read.below}
    parts = [
        f"{name}=_of_{name}(fact.{name})"
        if read.below
        else f"{name}={tree.guarded(name, f'fact.{name}')}"
        for name, read in tree.below.items()
    ]
    own = _compiled(f"type(fact)({', '.join(parts)})", below)

    def narrowed(value: Any) -> Any:  # noqa: ANN401 - any fact, cut down to the same type
        if value is None:
            return None
        return tuple([own(each) for each in value]) if type(value) is tuple else own(value)

    return narrowed


def _compiled(expression: str, names: dict[str, Any]) -> Callable[[Any], Any]:
    made: Callable[[Any], Any] = eval(  # noqa: S307 - names of our own fields and nothing else
        f"lambda fact: {expression}", names
    )
    return made
