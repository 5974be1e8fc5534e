"""Which value is in force, and where it comes from: flag, environment, project file, user file, built-in."""

from __future__ import annotations

import os
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from notesparse.errors import InputError
from notesparse.lazy import dataclass
from notesparse.options import Options
from notesparse.settings.file import Given, nearest, project_file, put, read_settings, user_file
from notesparse.settings.table import BY_NAME, SETTINGS, Setting, setting


@dataclass(frozen=True, slots=True)
class InForce:
    """A value in force; `where` is the flag, the variable, the file and line, or `built-in`."""

    setting: Setting
    value: Any
    where: str


def in_force(flags: Mapping[str, Any] | None = None) -> dict[str, InForce]:
    """All settings; `flags` are those of the command line, None or missing where it has none."""
    given = {name: value for name, value in (flags or {}).items() if value is not None}
    project = project_file()
    layers = [(read_settings(path)) for path in (project, user_file()) if path is not None]
    out: dict[str, InForce] = {}
    scout = _one(BY_NAME["scout"], given, layers, None)
    out["scout"] = scout
    for one in SETTINGS:
        if one.name != "scout":
            out[one.name] = _one(one, given, layers, scout.value or None)
    return {one.name: out[one.name] for one in SETTINGS}


def _one(
    one: Setting, flags: Mapping[str, Any], layers: list[dict[tuple[str | None, str], Given]], scout: str | None
) -> InForce:
    if one.name in flags:
        return InForce(one, flags[one.name], f"--{one.name.replace('_', '-')}")
    said = os.environ.get(one.variable)
    if said:
        try:
            return InForce(one, one.read(said), one.variable)
        except ValueError:
            raise InputError(f"{one.variable} is {said!r}, and should be {one.may_be}.") from None
    for layer in layers:
        for whose in (scout, None) if scout is not None else (None,):
            found = layer.get((whose, one.name))
            if found is not None:
                told = f"{found.where} ({whose})" if whose is not None else found.where
                return InForce(one, found.value, told)
    return InForce(one, one.built_in, "built-in")


def taught_file(flags: Mapping[str, Any] | None = None) -> str:
    """The file of the words that the user taught: that of the setting, else words.toml beside the user's settings."""
    named = in_force(flags)["words"].value
    return str(named) if named else str(Path(user_file()).with_name("words.toml"))


def options_in_force(flags: Mapping[str, Any] | None = None, words: str = "") -> Options:
    """The options to read with. `words` is the text of the taught words."""
    now = in_force(flags)
    return Options(
        now["counting_rule"].value,
        now["day_first"].value,
        now["strict_top"].value,
        now["node_start"].value,
        now["rolled_tip"].value,
        now["bare_length"].value,
        words,
    )


def keep(name: str, value: Any, scout: str | None = None, project: bool = False) -> str:
    """Keeps a value for everybody or for one scout, in the user's file or the project's; None takes it out.

    Gives the file that was written.
    """
    one = setting(name, nearest)
    if scout is not None and not one.habit:
        raise InputError(f"{one.name} is no habit of a scout.")
    if value is not None:
        try:
            value = one.read(value)
        except ValueError:
            raise InputError(f"{one.name} is {value!r}, and should be {one.may_be}.") from None
        if one.file and not project:
            value = os.path.abspath(value)  # the user's own settings hold in every folder
    path = (project_file() or os.path.join(os.getcwd(), "notesparse.toml")) if project else user_file()
    put(path, one, value, scout)
    return path
