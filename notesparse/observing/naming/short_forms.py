"""A field named again by its first words: `Teasel Bottom: R2, ... Hawk Ridge: R1. Teasel had some aphids`, `Frogeye at Old
School` of Old School 80 (guide 1.2).

Where two fields begin so, which of them is meant is not said: `Ames 40 R2. Ames 80 R3. Ames had hail.`
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import replace

from notesparse.language.cues import cue_page
from notesparse.observing.naming.names import Name
from notesparse.observing.naming.surroundings import Surroundings, noun_at, title

_COMMON = cue_page("shared")

_AT = _COMMON.words("at") | {"the"}
_HAS = _COMMON.words("being_or_having") | _COMMON.words("looking") | _COMMON.words("showing") | {"took"}
_LONGEST = 2  # words of a short form


def but_short_forms(s: Surroundings, chosen: list[Name]) -> list[Name]:
    """The names, each that is the beginning of just one field before it written as that field. A compass word behind makes
    another field, and so does a number, but where the short form is only the place of what was found."""
    out: list[Name] = []
    begun: defaultdict[str, list[Name]] = defaultdict(list)  # the names by their first word
    for name in chosen:
        alike = begun[s.text(name.start)]
        whole = {old.text for old in alike if _shortened(s, old, name)}
        out.append(replace(name, text=whole.pop()) if len(whole) == 1 else name)
        alike.append(out[-1])
    return sorted([*out, *_said_short(s, out)], key=lambda name: name.start)


def _shortened(s: Surroundings, old: Name, name: Name) -> bool:
    """Whether the words of `name` are the first of `old`, and what is left out only says what kind of place it is, or
    belongs to the name."""
    words = [s.text(x) for x in range(name.start, name.end)]
    whole = [s.text(x) for x in range(old.start, old.end)]
    left = whole[len(words) :]
    if not left or whole[: len(words)] != words or old.end > name.start or noun_at(s, name.start):
        return False
    if all(w.isdigit() for w in left):
        found_at = name.cue == "go" and s.text(name.start - 1) in _AT and _over(s, name.end)
        return found_at or (name.cue == "sentence" and s.text(name.end) in _HAS)
    return all(w.isalpha() and len(w) > 1 and w not in s.words.compass for w in left)


def _said_short(s: Surroundings, chosen: list[Name]) -> list[Name]:
    """Where the first words of a field stand alone, at the head of a sentence or as the place of what was found."""
    more: list[Name] = []
    if not s.cased or not any(name.seen and name.end - name.start > 1 for name in chosen):
        return more
    used = {x for name in chosen for x in range(name.start, name.end)}
    for i in range(s.n):
        for end in (x for x in range(min(i + _LONGEST, s.n), i, -1) if not used & set(range(i, x))):
            whole = _wholes(s, chosen, i, end) if _alone(s, i, end) else set()
            if not whole:
                continue
            cue, text = ("again", next(iter(whole))) if len(whole) == 1 else ("which", s.lattice.written(i, end))
            more.append(Name(i, end, text, cue, True, i))
            used |= set(range(i, end))
            break
    return more


def _wholes(s: Surroundings, chosen: list[Name], i: int, end: int) -> set[str]:
    """The fields named before that begin with the words of these pieces and go on."""
    words = [s.text(x) for x in range(i, end)]
    return {
        old.text
        for old in chosen
        if old.end <= i and old.end - old.start > len(words) and old.seen
        if [s.text(x) for x in range(old.start, old.start + len(words))] == words
        if not (len(words) == 1 and s.lattice.known[i])
    }


def _alone(s: Surroundings, i: int, end: int) -> bool:
    """Written with capitals: `Ames had hail`, `hail at Ames.`"""
    if not title(s, i, end) or noun_at(s, i):
        return False
    return (s.lattice.opens(i) and s.text(end) in _HAS) or (s.text(i - 1) in _AT and _over(s, end))


def _over(s: Surroundings, i: int) -> bool:
    return i >= s.n or s.pieces[i].form == "nl" or s.text(i) in {".", ";", ","}
