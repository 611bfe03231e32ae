"""What a rule reads of its subject: a key by which to remember, and the subject cut down to it.

A rule is handed nothing but the facts it names, so what it answered for one subject holds for
every other that agrees in them, whatever else is stated. Both are worked out for every line of a
list, so they are compiled: as expressions over the facts named, without a loop over names.
"""

from collections.abc import Callable, Hashable, Iterable
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
    return _key(_tree(tuple(names) or field_names(kind)))


def key_of_each(names: Iterable[str], each: str) -> Key:
    """The same for the entries of a list, by the names that go into them."""
    return _key(_tree(names)[each])


def narrowing(names: Iterable[str]) -> Callable[[Any], Any]:
    """Makes of a subject one that states nothing but these facts; without names, itself."""
    tree = _tree(names)
    return _narrowed(tree) if tree else lambda subject: subject


def _tree(names: Iterable[str]) -> Tree:
    """Names by the fact that they go into; what is named whole has no names below it."""
    whole = frozenset(names)
    tree: Tree = {}
    for name in sorted(whole):
        steps = name.split(".")
        if any(".".join(steps[:n]) in whole for n in range(1, len(steps))):
            continue
        branch = tree
        for step in steps:
            branch = branch.setdefault(step, {})
    return tree


def _key(tree: Tree) -> Key:
    below = {f"_of_{name}": _key(branch) for name, branch in tree.items() if branch}
    parts = [f"_of_{n}(fact.{n})" if branch else f"id(fact.{n})" for n, branch in tree.items()]
    own = _compiled(f"({''.join(f'{part}, ' for part in parts)})", below)

    def key(value: Any) -> Hashable:  # noqa: ANN401 - any fact
        if value is None:
            return None
        return tuple([own(each) for each in value]) if type(value) is tuple else own(value)

    return key


def _narrowed(tree: Tree) -> Callable[[Any], Any]:
    below = {f"_of_{name}": _narrowed(branch) for name, branch in tree.items() if branch}
    parts = [f"{n}=_of_{n}(fact.{n})" if branch else f"{n}=fact.{n}" for n, branch in tree.items()]
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
