"""A field named again by its first word: `Teasel Bottom: R2, ... Hawk Ridge: R1. Teasel had some aphids` (guide 1.2)."""

from __future__ import annotations

from dataclasses import replace

from notesparse.observing.naming.names import Name
from notesparse.observing.naming.surroundings import Surroundings, noun_at


def but_short_forms(s: Surroundings, chosen: list[Name]) -> list[Name]:
    """The names, each that is the beginning of just one field before it written as that field. A number or a compass word
    behind makes another field (Ames, behind Ames 40 and Ames 80, is none of the two)."""
    out: list[Name] = []
    for name in chosen:
        whole = {old.text for old in out if _shortened(s, old, name)}
        out.append(replace(name, text=whole.pop()) if len(whole) == 1 else name)
    return out


def _shortened(s: Surroundings, old: Name, name: Name) -> bool:
    """Whether the words of `name` are the first of `old`, and what is left out only says what kind of place it is, or
    belongs to the name."""
    words = [s.text(x) for x in range(name.start, name.end)]
    whole = [s.text(x) for x in range(old.start, old.end)]
    left = whole[len(words) :]
    if not left or whole[: len(words)] != words or old.end > name.start or noun_at(s, name.start):
        return False
    return all(w.isalpha() and len(w) > 1 and w not in s.words.compass for w in left)
