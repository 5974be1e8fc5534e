"""What is said for each token kind: the spellings of the word files as spoken words, without mis-hearings."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from types import MappingProxyType

from notesparse.language.card import entries
from notesparse.lazy import dataclass, pattern
from notesparse.spoken.written import written

_SAYABLE = pattern(r"[a-z']+(?: [a-z']+)*")


@dataclass(frozen=True, slots=True)
class Meaning:
    """One meaning of a kind with all that is said for it."""

    kind: str
    means: str
    say: tuple[tuple[str, ...], ...]  # each a spelling, word by word


def words_of(spelling: str) -> tuple[str, ...]:
    """A spelling of a word file as spoken words, or nothing if it holds a figure or a sign that is not said."""
    plain = spelling.casefold().replace("’", "'").replace("-", " ").replace(",", " ")
    plain = " ".join(plain.split())
    return tuple(plain.split()) if _SAYABLE.fullmatch(plain) else ()


@lru_cache(maxsize=2)
def meanings(taught: str = "") -> Mapping[str, tuple[Meaning, ...]]:
    """Token kind -> its meanings, only what is said."""
    never = written().only
    out: dict[str, list[Meaning]] = {}
    for entry in entries(taught):
        said: dict[tuple[str, ...], None] = {}
        for spelling in entry.say:
            words = words_of(spelling)
            if not words or spelling in written().misheard.get(entry.kind, ()):
                continue
            if never.intersection(words) and spelling not in written().letters.get(entry.kind, ()):
                continue
            said[words] = None
        if said:
            out.setdefault(entry.kind, []).append(Meaning(entry.kind, entry.means, tuple(said)))
    return MappingProxyType({kind: tuple(some) for kind, some in out.items()})


@lru_cache(maxsize=1)
def spelled_words() -> frozenset[str]:
    """Every word of every spelling that could be said, those of `written.toml` among them."""
    return frozenset(w for entry in entries() for spelling in entry.say for w in words_of(spelling))
