"""The settings that there are: names, what each may be, what it is without anybody's word, and what it means."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from notesparse.errors import InputError
from notesparse.lazy import dataclass
from notesparse.options import CHOICES


@dataclass(frozen=True, slots=True)
class Setting:
    """One setting. `allowed` are the words that it may be; empty: any text. `habit`: a scout can have a value of one's own.
    `file`: it names a file."""

    name: str
    built_in: Any
    meaning: str
    allowed: tuple[str, ...] = ()
    habit: bool = True
    file: bool = False

    @property
    def variable(self) -> str:
        """The environment variable that sets it."""
        return f"NOTESPARSE_{self.name.upper()}"

    @property
    def may_be(self) -> str:
        """What it may be, in words."""
        return " or ".join(self.allowed) if self.allowed else "a text"

    def read(self, value: Any) -> Any:
        """The value of words or of a TOML value. Raises `ValueError` where it is none."""
        if isinstance(self.built_in, bool):
            return _flag(value)
        if not isinstance(value, str) or (self.allowed and value not in self.allowed) or not value.strip():
            raise ValueError(value)
        return value


def _flag(value: Any) -> bool:
    if isinstance(value, bool):
        return value
    words = {"yes": True, "true": True, "on": True, "1": True, "no": False, "false": False, "off": False, "0": False}
    if isinstance(value, str) and value.strip().casefold() in words:
        return words[value.strip().casefold()]
    raise ValueError(value)


_YES_NO = ("yes", "no")


def _choice(name: str, meaning: str) -> Setting:
    return Setting(name, CHOICES[name][0], meaning, CHOICES[name])


SETTINGS: tuple[Setting, ...] = (
    _choice("counting_rule", "how V is numbered"),
    Setting("day_first", False, "7/8 is the seventh of August", _YES_NO),
    Setting("strict_top", False, "the node of the topmost open leaf is not counted as the top node", _YES_NO),
    _choice("node_start", "where the scout starts to count nodes"),
    _choice("rolled_tip", "whether `11 trifs, top one still rolled` counts the rolled one"),
    _choice("bare_length", "the unit of pod and seed lengths that are bare numbers"),
    Setting("scout", "", "whose habits hold", habit=False),
    Setting(
        "words", "", "the file of taught words; empty: words.toml beside the user's settings", habit=False, file=True
    ),
    Setting("season", "", "the season log that is used where none is named", habit=False, file=True),
)
BY_NAME = {setting.name: setting for setting in SETTINGS}


def setting(name: str, nearest: Callable[[str], str | None]) -> Setting:
    """The setting of a name (dashes will do). Raises `InputError` with the nearest one."""
    found = BY_NAME.get(name.replace("-", "_"))
    if found is None:
        near = nearest(name)
        hint = f"; did you mean {near}?" if near else f"; there are {', '.join(BY_NAME)}."
        raise InputError(f"There is no setting {name!r}{hint}")
    return found
