"""What is finished on its first use, so that a start does not pay for what one note does not need: classes of named
values, and patterns.

`dataclass` makes what `dataclasses.dataclass` makes, and `fields`, `replace` and `asdict` take it for that. But of each
class only the `__init__` is written as code of its own, and that when the first value is made: the standard one writes
and compiles six functions for every class that is imported, a fifth of the time of a start.
`pattern` is `re.compile`, compiled when it is first asked something.
"""

from __future__ import annotations

import dataclasses
import re
from functools import cache
from operator import attrgetter
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from dataclasses import dataclass as dataclass

    pattern = re.compile
else:

    def dataclass(cls: type | None = None, /, *, frozen: bool = False, slots: bool = False) -> Any:
        """A class of named values: with `frozen` they cannot be set anew, and the class can stand in a set."""
        if cls is None:
            return lambda cls: dataclass(cls, frozen=frozen, slots=slots)
        common = {"__init__": _first_init, "__eq__": _equal, "__repr__": _shown, "__hash__": None}
        for name, method in {**common, **(_FROZEN if frozen else {})}.items():
            if name not in cls.__dict__:
                setattr(cls, name, method)
        return dataclasses.dataclass(init=False, repr=False, eq=False, slots=slots)(cls)

    class pattern:
        """A regular expression."""

        def __init__(self, source: str, flags: int = 0) -> None:
            self._asked = source, flags

        def __getattr__(self, name: str) -> Any:
            found = getattr(re.compile(*self._asked), name)
            setattr(self, name, found)
            return found


def _first_init(self: Any, *given: Any, **named: Any) -> None:
    cls = type(self)
    cls.__init__ = _init_of(cls)
    cls.__init__(self, *given, **named)


def _init_of(cls: Any) -> Any:
    """The `__init__` of a class, from its fields."""
    known: dict[str, Any] = {"missing": dataclasses.MISSING}
    asked, lines = [], []
    for f in dataclasses.fields(cls):
        value = f.name
        if f.default is not dataclasses.MISSING:
            known[f"default_{f.name}"] = f.default
            asked.append(f"{f.name}=default_{f.name}")
        elif f.default_factory is not dataclasses.MISSING:
            known[f"make_{f.name}"] = f.default_factory
            asked.append(f"{f.name}=missing")
            value = f"make_{f.name}() if {f.name} is missing else {f.name}"
        else:
            asked.append(f.name)
        if cls.__setattr__ is object.__setattr__:
            lines.append(f"self.{f.name} = {value}")
        else:
            known[f"set_{f.name}"] = getattr(cls, f.name).__set__
            lines.append(f"set_{f.name}(self, {value})")
    if hasattr(cls, "__post_init__"):
        lines.append("self.__post_init__()")
    exec(f"def __init__(self, {', '.join(asked)}):\n " + "\n ".join(lines or ["pass"]), known)
    return known["__init__"]


def _getter(cls: Any) -> Any:
    return attrgetter(*(f.name for f in dataclasses.fields(cls) if f.compare))


_compared: Any = cache(_getter)
"""What takes from a value of a class all that makes two of them equal."""


def _equal(self: Any, other: object) -> Any:
    values = _compared(type(self))
    return values(self) == values(other) if other.__class__ is self.__class__ else NotImplemented


def _hashed(self: Any) -> int:
    return hash(_compared(type(self))(self))


def _shown(self: Any) -> str:
    values = ", ".join(f"{f.name}={getattr(self, f.name)!r}" for f in dataclasses.fields(self) if f.repr)
    return f"{type(self).__qualname__}({values})"


def _kept(self: Any, name: str, *value: Any) -> None:
    raise dataclasses.FrozenInstanceError(f"{name!r} of a {type(self).__name__} stays as it is")


def _copied(self: Any) -> Any:
    return type(self), tuple(getattr(self, f.name) for f in dataclasses.fields(self))


_FROZEN = {"__hash__": _hashed, "__setattr__": _kept, "__delattr__": _kept, "__reduce__": _copied}
