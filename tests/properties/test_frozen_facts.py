"""What a frozen record promises: it never changes, is equal by value, and travels."""

import copy
import pickle
from typing import Any

import pytest

from areafit.values import Frozen, defaults, replace


class Quick(Frozen):
    """A record."""

    name: str
    size: int = 3
    parts: tuple[str, ...] = ()

    @property
    def long(self) -> bool:
        return len(self.name) > self.size


class Longer(Quick):
    """One more field."""

    more: bool = False


class Single(Frozen, eq=False):
    """Equal only to itself."""

    name: str


def test_it_shows_compares_and_hashes_by_value() -> None:
    quick = Quick("a", parts=("b",))
    assert repr(quick) == "Quick(name='a', size=3, parts=('b',))"
    assert quick == Quick("a", 3, ("b",))
    assert hash(quick) == hash(Quick("a", 3, ("b",)))
    assert quick != Quick("a", 4, ("b",))
    assert quick != Longer("a", 3, ("b",))
    assert not quick.long


def test_one_that_is_equal_only_to_itself_is_found_by_identity() -> None:
    one, other = Single("a"), Single("a")
    assert one != other
    assert {one: 1, other: 2} == {one: 1, other: 2}
    assert len({one, other}) == 2


def test_it_knows_its_fields_and_can_be_changed_into_another() -> None:
    assert Longer.__struct_fields__ == ("name", "size", "parts", "more")
    assert defaults(Longer) == {"size": 3, "parts": (), "more": False}
    assert defaults(Single) == {}
    assert replace(Quick("a"), size=9) == Quick("a", 9)
    match Quick("a", 5):
        case Quick(name, size):
            assert (name, size) == ("a", 5)


@pytest.mark.parametrize("name", ["name", "other"])
def test_nothing_of_it_can_be_set_or_deleted(name: str) -> None:
    quick: Any = Quick("a")
    with pytest.raises(AttributeError):
        setattr(quick, name, "b")
    with pytest.raises(AttributeError):
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
