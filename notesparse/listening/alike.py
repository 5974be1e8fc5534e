"""Two ways that a stretch was heard, word beside word; and which differences are only spelling."""

from __future__ import annotations

from collections.abc import Sequence

from notesparse.lazy import dataclass

_PLURALS = {
    "leaves": "leaf", "halves": "half", "inches": "inch", "axes": "axis", "feet": "foot", "bodies": "body",
}  # fmt: skip
_TRIFOLIATE = ("trif", "trifoliate", "trifoliolate", "trifoliolates")
_STAGES = frozenset("one two three four five six seven eight".split())


def folded(says: Sequence[str]) -> list[str]:
    """The words as they are compared: plurals and spellings of one word are the same, `are three` is `r three`."""
    out = [_fold(word) for word in says]
    for at in range(len(out) - 1):
        if out[at] in ("are", "our", "ar") and out[at + 1] in _STAGES:
            out[at] = "r"
    return out


def _fold(word: str) -> str:
    word = word.removesuffix("'s").replace("'", "")
    word = _PLURALS.get(word, word)
    if len(word) > 3 and word.endswith("s") and not word.endswith("ss"):
        word = word[:-1]
    return "trifoliate" if word in _TRIFOLIATE else {"okay": "ok", "centre": "center", "grey": "gray"}.get(word, word)


@dataclass(frozen=True, slots=True)
class Side:
    """Words ``[a, b)`` of the one beside words ``[c, d)`` of the other; `same` where they are."""

    a: int
    b: int
    c: int
    d: int
    same: bool


def beside(one: Sequence[str], other: Sequence[str]) -> list[Side]:
    """Both from left to right, runs of what is the same and of what differs in turn, by the fewest changes."""
    x, y = folded(one), folded(other)
    cost = [[0.0] * (len(y) + 1) for _ in range(len(x) + 1)]
    for i in range(1, len(x) + 1):
        cost[i][0] = float(i)
    for j in range(1, len(y) + 1):
        cost[0][j] = float(j)
    for i in range(1, len(x) + 1):
        for j in range(1, len(y) + 1):
            swap = cost[i - 1][j - 1] + (0.0 if x[i - 1] == y[j - 1] else 1.2)
            cost[i][j] = min(swap, cost[i - 1][j] + 1.0, cost[i][j - 1] + 1.0)
    steps: list[tuple[int, int, int, int, bool]] = []
    i, j = len(x), len(y)
    while i or j:
        if i and j and x[i - 1] == y[j - 1] and cost[i][j] == cost[i - 1][j - 1]:
            i, j = i - 1, j - 1
            steps.append((i, i + 1, j, j + 1, True))
        elif i and j and x[i - 1] != y[j - 1] and abs(cost[i][j] - cost[i - 1][j - 1] - 1.2) < 1e-9:
            i, j = i - 1, j - 1
            steps.append((i, i + 1, j, j + 1, False))
        elif i and abs(cost[i][j] - cost[i - 1][j] - 1.0) < 1e-9:
            i -= 1
            steps.append((i, i + 1, j, j, False))
        else:
            j -= 1
            steps.append((i, i, j, j + 1, False))
    out: list[Side] = []
    for a, b, c, d, same in reversed(steps):
        if out and out[-1].same == same:
            out[-1] = Side(out[-1].a, b, out[-1].c, d, same)
        else:
            out.append(Side(a, b, c, d, same))
    return out
