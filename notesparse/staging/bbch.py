"""The BBCH code that is published beside a stage, by `bbch.toml`: approximate, for the rule open-trifoliates only."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from pathlib import Path
from types import MappingProxyType

_CODES: Mapping[str, int] = MappingProxyType(tomllib.loads(Path(__file__).with_name("bbch.toml").read_text("utf-8")))


def bbch(stage: str | None) -> int | None:
    """The two-digit BBCH code of a whole stage, or None where no table pairs them."""
    return _CODES.get(stage or "")


def field_bbch(v: str | None, r: str | None, counting_rule: str) -> int | None:
    """The two-digit code of a field at V and R: that of R once it flowers (`none` is no R stage), else that of V."""
    if r is not None and r != "none":
        return bbch(r)
    return bbch(v) if counting_rule == "open-trifoliates" else None
