"""What a rule reads of its subject: a key by which to remember, and the subject cut down to it.

A rule is handed nothing but the facts it names, so what it answered for one subject holds for
every other that agrees in them, whatever else is stated.
"""

from collections.abc import Callable, Hashable, Iterable, Sequence
from operator import attrgetter
from typing import Any

from areafit.frozen import field_names

Key = Callable[[Any], Hashable]
Tree = dict[str, "Tree"]


def key_of(kind: type, names: Iterable[str] = ()) -> Key:
    """A key that two subjects share only if they hold the same values under these names.

    A name may go into a fact or into each entry of a list (`evidence.type`); without names every
    field counts. Values are told apart by identity, which is quick: the reader makes one value of
    equal text. The key means nothing once a subject is gone.
    """
    names = tuple(names) or field_names(kind)
    return _key(_tree(names))


def key_of_each(names: Iterable[str], each: str) -> Key:
    """The same for the entries of a list, by the names that go into them."""
    return _key(_tree(names)[each])


def narrowing(names: Iterable[str]) -> Callable[[Any], Any]:
    """Makes of a subject one that states nothing but these facts; without names, itself."""
    tree = _tree(names)
    return _narrowed(tree) if tree else lambda subject: subject


def _tree(names: Iterable[str]) -> Tree:
    tree: Tree = {}
    for name in names:
        branch = tree
        for step in name.split("."):
            branch = branch.setdefault(step, {})
    return tree


def _key(tree: Tree) -> Key:
    leaves = _leaves([name for name, below in tree.items() if not below])
    branches = [(attrgetter(name), _key(below)) for name, below in tree.items() if below]

    def key(value: Any) -> Hashable:  # noqa: ANN401 - any fact
        if value is None:
            return None
        if type(value) is tuple:
            return tuple(map(key, value))
        own = tuple(map(id, leaves(value)))
        return (own, *(below(get(value)) for get, below in branches)) if branches else own

    return key


def _leaves(names: Sequence[str]) -> Callable[[Any], tuple[object, ...]]:
    if not names:
        return lambda _value: ()
    get = attrgetter(*names)
    return get if len(names) > 1 else lambda value: (get(value),)


def _narrowed(tree: Tree) -> Callable[[Any], Any]:
    names = tuple(tree)
    get = _leaves(names)
    below = {name: _narrowed(branch) for name, branch in tree.items() if branch}

    def narrowed(value: Any) -> Any:  # noqa: ANN401 - any fact, cut down to the same type
        if value is None:
            return None
        if type(value) is tuple:
            return tuple(map(narrowed, value))
        kept = dict(zip(names, get(value), strict=True))
        for name, cut in below.items():
            kept[name] = cut(kept[name])
        return type(value)(**kept)

    return narrowed
