"""The settings that change how a note is read."""

from __future__ import annotations

from dataclasses import dataclass

COUNTING_RULES: tuple[str, ...] = ("open-trifoliates", "open-nodes", "developed-trifoliates")
"""The ways of numbering V that may be chosen (reading guide, section 7); the first is the default."""


@dataclass(frozen=True)
class Options:
    """How to read.

    `counting_rule` is one of `COUNTING_RULES`; `day_first` reads ``7/8`` as the seventh of August; `strict_top` skips
    the node of the topmost unrolled leaf when nodes are counted from the top (guide 5.3).
    """

    counting_rule: str = "open-trifoliates"
    day_first: bool = False
    strict_top: bool = False
