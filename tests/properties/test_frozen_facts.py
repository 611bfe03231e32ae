"""Facts made by `frozen` behave as those of `dataclass(frozen=True, slots=True)`."""

import copy
import pickle
from dataclasses import FrozenInstanceError, dataclass, field, fields, is_dataclass, replace
from typing import Any

import pytest

from areafit.frozen import frozen


@dataclass(frozen=True, slots=True)
class Usual:
    """The pattern."""

    name: str
    size: int = 3
    parts: tuple[str, ...] = ()


@frozen
class Quick:
    """The copy."""

    name: str
    size: int = 3
    parts: tuple[str, ...] = ()

    @property
    def long(self) -> bool:
        return len(self.name) > self.size


@frozen
class Longer(Quick):
    """One more field."""

    more: bool = False


def test_it_shows_compares_and_hashes_alike() -> None:
    usual, quick = Usual("a", parts=("b",)), Quick("a", parts=("b",))
    assert repr(quick) == repr(usual).replace("Usual", "Quick")
    assert quick == Quick("a", 3, ("b",))
    assert quick != Quick("a", 4, ("b",))
    assert quick.__eq__(usual) is NotImplemented
    assert hash(quick) == hash(usual)


def test_it_knows_its_fields_and_can_be_changed_into_another() -> None:
    kind: Any = Quick
    assert is_dataclass(kind)
    assert [each.name for each in fields(Quick)] == ["name", "size", "parts"]
    assert replace(Quick("a"), size=9) == Quick("a", 9)
    assert not Quick("a").long
    match Quick("a", 5):
        case Quick(name, size):
            assert (name, size) == ("a", 5)


@pytest.mark.parametrize("name", ["name", "other"])
def test_nothing_of_it_can_be_set_or_deleted(name: str) -> None:
    quick: Any = Quick("a")
    with pytest.raises(FrozenInstanceError):
        setattr(quick, name, "b")
    with pytest.raises(FrozenInstanceError):
        delattr(quick, name)
    assert not hasattr(quick, "__dict__")


def test_it_can_be_copied_and_sent_to_another_process() -> None:
    quick = Longer("a", 4, ("b",), more=True)
    assert pickle.loads(pickle.dumps(quick)) == quick  # noqa: S301 - our own bytes
    assert copy.deepcopy(quick) == quick
    assert copy.copy(quick) == quick


def test_a_needed_value_that_is_not_given_is_an_error() -> None:
    make: Any = Quick
    with pytest.raises(TypeError, match="name"):
        make()
    with pytest.raises(TypeError, match="colour"):
        make("a", colour="red")


def test_it_refuses_what_it_does_not_make() -> None:
    class Listed:
        items: list[str] = field(default_factory=list)

    class Named:
        name: str = field(kw_only=True)

    for kind in (Listed, Named):
        with pytest.raises(TypeError, match=kind.__name__):
            frozen(kind)
