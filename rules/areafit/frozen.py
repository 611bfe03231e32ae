"""Frozen facts that are quick to define and to make.

The project has hundreds of small frozen classes, most of which one run never makes an instance
of, and defining one with `dataclasses` takes longer than anything else that a single question
does. Here the methods of a class are compiled once it has been used a few times, what
`dataclasses` looks for is made when it does, and values are set without looking names up.
"""

import sys
from collections.abc import Callable
from typing import TYPE_CHECKING, Any, NoReturn, TypeVar, dataclass_transform

if TYPE_CHECKING:
    from dataclasses import Field
    from dataclasses import replace as replace  # noqa: PLC0414 - exported

T = TypeVar("T")
_FEW = 48
"""Calls after which compiling the methods of a class has been cheaper than not compiling them."""


@dataclass_transform(frozen_default=True)
def frozen(cls: type[T]) -> type[T]:
    """The class as `dataclass(frozen=True, slots=True)` makes it; defaults are plain values.

    Raises:
        TypeError: a default is a `field(…)`; `dataclass` makes those.
    """
    return _made(cls, ("__init__", "__hash__", "__eq__"))


@dataclass_transform(frozen_default=True, eq_default=False)
def singular(cls: type[T]) -> type[T]:
    """The same for facts that are equal only to themselves, as `eq=False` would have it."""
    return _made(cls, ("__init__",))


def _replace(fact: Any, /, **changes: Any) -> Any:  # noqa: ANN401 - any fact
    values = dict(zip(fact.__match_args__, _values(fact), strict=True))
    return type(fact)(**{**values, **changes})


if not TYPE_CHECKING:  # to a type checker it is that of `dataclasses`, which is slow to import
    replace = _replace


def is_fact(kind: type) -> bool:
    """Whether a class was made here."""
    return isinstance(kind.__dict__.get("__dataclass_fields__"), _Shape)


def field_names(kind: Any) -> tuple[str, ...]:  # noqa: ANN401 - a class
    """The names of the fields of a class made here, those of its bases first."""
    names: tuple[str, ...] = kind.__match_args__
    return names


def field_types(kind: Any) -> dict[str, Any]:  # noqa: ANN401 - a class
    """The types of the fields of a class made here, by name."""
    shape: _Shape = kind.__dict__["__dataclass_fields__"]
    return dict(shape.types)


def field_defaults(kind: Any) -> dict[str, Any]:  # noqa: ANN401 - a class
    """The defaults of the fields of a class made here, by name; those without one are not in it."""
    shape: _Shape = kind.__dict__["__dataclass_fields__"]
    return dict(shape.defaults)


def _made(cls: type[T], methods: tuple[str, ...]) -> type[T]:
    own = dict(cls.__dict__)
    names = tuple(_annotations(cls))
    shape = _Shape(cls, {name: own.pop(name) for name in names if name in own}, methods)
    for name in ("__dict__", "__weakref__"):
        own.pop(name, None)
    given: dict[str, Any] = {**_SHARED, **{name: _uncompiled(name, shape) for name in methods}}
    given |= own
    given |= {"__slots__": names, "__match_args__": shape.names, "__dataclass_fields__": shape}
    kind: Any = type(cls)
    made = kind(cls.__name__, cls.__bases__, given)
    shape.home = made
    return made  # type: ignore[no-any-return]  # the class with methods


class _Shape:
    """The fields of a class and the names of the methods to compile for it.

    It stands where `dataclasses` looks for the fields of a class, and describes them then.
    """

    def __init__(self, cls: type, defaults: dict[str, Any], methods: tuple[str, ...]) -> None:
        if any(type(default).__name__ == "Field" for default in defaults.values()):
            raise TypeError(f"{cls.__name__}: a default must be a plain value, not a `field(…)`")
        self.types: dict[str, Any] = {}
        self.defaults: dict[str, Any] = {}
        for base in cls.__bases__:
            inherited = base.__dict__.get("__dataclass_fields__")
            if isinstance(inherited, _Shape):
                self.types |= inherited.types
                self.defaults |= inherited.defaults
        self.types |= _annotations(cls)
        self.defaults |= defaults
        self.names = tuple(self.types)
        self.methods = methods
        self.home: Any = cls
        self.calls = 0
        self._fields: dict[str, Field[Any]] = {}

    def __get__(self, instance: object, owner: type) -> "dict[str, Field[Any]]":
        if not self._fields:
            from dataclasses import dataclass  # noqa: PLC0415 - most runs need none of it

            space = {"__annotations__": self.types, "__doc__": "", **self.defaults}
            model: Any = dataclass(init=False, repr=False, eq=False)(type("Model", (), space))
            self._fields = model.__dataclass_fields__
        return self._fields

    def put_methods(self) -> dict[str, Any]:
        """Compile the methods and put those that the class has not of its own in place."""
        compiled = _compiled(self.home, self.names, self.defaults)
        for name in self.methods:
            if getattr(self.home.__dict__[name], "stands_for", None) is self:
                setattr(self.home, name, compiled[name])
        return compiled

    def all_given(self, values: tuple[Any, ...], named: dict[str, Any]) -> dict[str, Any] | None:
        """The value of every field, or None where a call does not fit."""
        given = dict(zip(self.names, values, strict=False))
        found = {**self.defaults, **given, **named}
        fits = len(values) == len(given) and not given.keys() & named.keys()
        return found if fits and found.keys() == self.types.keys() else None


def _annotations(cls: type) -> dict[str, Any]:
    """The types of a class's own fields; `inspect`, which gives them too, is slow to import."""
    if sys.version_info >= (3, 14):  # they are worked out when asked for there
        from annotationlib import Format, get_annotations  # noqa: PLC0415 - newer than 3.11

        return get_annotations(cls, format=Format.FORWARDREF)
    own: dict[str, Any] = cls.__dict__.get("__annotations__", {})  # noqa: RUF063 - as above
    return own


def _uncompiled(name: str, shape: _Shape) -> Callable[..., Any]:
    """Stands for a method until it has been called a few times."""

    def method(self: Any, *values: Any, **named: Any) -> Any:  # noqa: ANN401 - any fact
        shape.calls += 1
        found = shape.all_given(values, named) if name == "__init__" else {}
        if shape.calls > _FEW or found is None:  # what is compiled says what is wrong with a call
            return shape.put_methods()[name](self, *values, **named)
        if name == "__hash__":
            return hash(_values(self))
        if name == "__eq__":
            same = type(values[0]) is type(self)
            return _values(self) == _values(values[0]) if same else NotImplemented
        for each, value in found.items():
            object.__setattr__(self, each, value)
        return None

    method.stands_for = shape  # type: ignore[attr-defined]  # a mark, for `put_methods`
    return method


def _values(fact: Any) -> tuple[Any, ...]:  # noqa: ANN401 - any fact
    return tuple(getattr(fact, name) for name in fact.__match_args__)


def _compiled(cls: Any, names: tuple[str, ...], defaults: dict[str, Any]) -> dict[str, Any]:  # noqa: ANN401 - a class
    space: dict[str, Any] = {f"_set_{name}": getattr(cls, name).__set__ for name in names}
    space |= {f"_of_{name}": value for name, value in defaults.items()}
    given = [f"{name}=_of_{name}" if name in defaults else name for name in names]
    sets = "".join(f"  _set_{name}(self, {name})\n" for name in names)
    own, theirs = (f"({''.join(f'{who}.{name}, ' for name in names)})" for who in ("self", "other"))
    found: dict[str, Any] = {}
    exec(  # noqa: S102 - what is compiled holds the names of our own fields and nothing else
        f"def __init__({', '.join(('self', *given))}):\n{sets}  return None\n"
        f"def __hash__(self):\n  return hash({own})\n"
        f"def __eq__(self, other):\n"
        f"  if other.__class__ is not self.__class__:\n    return NotImplemented\n"
        f"  return {own} == {theirs}\n",
        space,
        found,
    )
    return found


def _repr(self: Any) -> str:  # noqa: ANN401 - any fact
    values = (f"{name}={getattr(self, name)!r}" for name in self.__match_args__)
    return f"{type(self).__qualname__}({', '.join(values)})"


def _refuse_set(self: object, name: str, value: object) -> NoReturn:
    del self, value
    if name == "__orig_class__":  # `typing` tries to set it, and can do without
        raise AttributeError(name)
    from dataclasses import FrozenInstanceError  # noqa: PLC0415 - as above

    raise FrozenInstanceError(f"cannot assign to field {name!r}")


def _refuse_delete(self: object, name: str) -> NoReturn:
    del self
    from dataclasses import FrozenInstanceError  # noqa: PLC0415 - as above

    raise FrozenInstanceError(f"cannot delete field {name!r}")


def _state(self: Any) -> list[Any]:  # noqa: ANN401 - any fact
    return list(_values(self))


def _restore(self: Any, state: list[Any]) -> None:  # noqa: ANN401 - any fact
    for name, value in zip(self.__match_args__, state, strict=True):
        object.__setattr__(self, name, value)


_SHARED: dict[str, Callable[..., Any]] = {
    "__repr__": _repr,
    "__setattr__": _refuse_set,
    "__delattr__": _refuse_delete,
    "__getstate__": _state,
    "__setstate__": _restore,
}
