"""The settings that change how a note is read."""

from __future__ import annotations

from collections.abc import Mapping

from notesparse.lazy import dataclass

COUNTING_RULES: tuple[str, ...] = ("open-trifoliates", "open-nodes", "developed-trifoliates")
"""The ways of numbering V that may be chosen (reading guide, section 7); the first is the default."""

NODE_STARTS: tuple[str, ...] = ("ask", "unifoliate", "cotyledon")
"""Where the scout starts to count nodes (guide 7.2); `ask`: it is asked where a note leaves it open."""

ROLLED_TIPS: tuple[str, ...] = ("ask", "counted", "not-counted")
"""Whether `11 trifs, top one still rolled` counts the rolled one among the eleven (guide 4.8)."""

BARE_LENGTHS: tuple[str, ...] = ("ask", "mm", "16ths")
"""The unit of a pod or seed length that is a bare number where more than one is plausible (guide 4.6)."""

CHOICES: Mapping[str, tuple[str, ...]] = {
    "counting_rule": COUNTING_RULES,
    "node_start": NODE_STARTS,
    "rolled_tip": ROLLED_TIPS,
    "bare_length": BARE_LENGTHS,
}
"""The settings that are one of several words."""


@dataclass(frozen=True, slots=True)
class Options:
    """How to read: the `options` of `notesparse.read`, of which the first three are arguments of their own too; on the
    command line they are settings.

    `counting_rule` is one of `COUNTING_RULES`; `day_first` reads ``7/8`` as the seventh of August; `strict_top` skips
    the node of the topmost unrolled leaf when nodes are counted from the top (guide 5.3). `node_start`, `rolled_tip`
    and `bare_length` are habits of the scout, of `NODE_STARTS`, `ROLLED_TIPS`, `BARE_LENGTHS`: a habit that is known is
    not asked. `words` is the text of a word file of the user's own (TOML, as in `grammar/words`).
    """

    counting_rule: str = "open-trifoliates"
    day_first: bool = False
    strict_top: bool = False
    node_start: str = "ask"
    rolled_tip: str = "ask"
    bare_length: str = "ask"
    words: str = ""
