"""`half the beans are R3`, `60% of my beans are blooming`: a share of the plants, and no seed in their pods (guide 4.14)."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.text.net import Net

_COMMON = cue_page("shared")
_LISTED = cue_page("text/counted_beans")

_OURS = _COMMON.words("our") | {"of", "these"}
_SHARES = _LISTED.words("shares")
_BETWEEN = _COMMON.words("being") | _LISTED.words("between")
_BLOOMING = _COMMON.words("blooming")
_FLOWERS = frozenset({"bloom", "flower"})


def counted_beans(net: Net) -> None:
    """Beans behind a share and before a stage or blooming are plants."""
    if "beans" not in net.said:
        return
    for i, p in enumerate(net.pieces):
        if p.text == "beans" and _behind_a_share(net, i) and _before_a_stage(net, i + 1):
            net.edges[i] = [e for e in net.edges[i] if e.kind not in {"BEAN", "SEED"}]
            net.add(i, i + 1, "PLANT", "plant", 0.0, "exact")


def _behind_a_share(net: Net, i: int) -> bool:
    k = i - 1
    while net.at(k) in _OURS:
        k -= 1
    return k < i - 1 and net.at(k) in _SHARES


def _before_a_stage(net: Net, i: int) -> bool:
    k = i
    while net.at(k) in _BETWEEN:
        k += 1
    code = net.at(k) in {"r", "v"} and net.at(k + 1).isdigit()
    return code or net.at(k) in _BLOOMING or (net.at(k) == "in" and net.at(k + 1) in _FLOWERS)
