"""What a farm says for itself: the names of its fields and the taught words, as sentences for the model."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping

from notesparse.language.taught import taught_in
from notesparse.lazy import dataclass
from notesparse.spoken.draw import Draw
from notesparse.spoken.numerals import spell
from notesparse.spoken.sampler import FIELD, sentence
from notesparse.spoken.spellings import words_of

SEED = 7
DRAWN = 20_000
"""So many sentences are made up; kept are those in which one of the farm's own words came up."""
MOST = 3_000
"""So many of them are kept, a tenth of what the model learns from: its own fields are likelier than any others."""

Said = tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Own:
    """Names of fields as they are written, and the text of the user's word file."""

    names: tuple[str, ...] = ()
    taught: str = ""

    @property
    def key(self) -> str:
        """Of the contents; empty where there is nothing."""
        if not self.instead():
            return ""
        return hashlib.sha256(repr((sorted(self.names), self.taught)).encode()).hexdigest()[:12]

    def instead(self) -> Mapping[str, tuple[Said, ...]]:
        """What is said in the place of a field's name, and of each token kind that a word was taught for."""
        said: dict[str, dict[Said, None]] = {}
        for name in sorted(self.names):
            if words := spell(name):
                said.setdefault(FIELD, {})[tuple(words)] = None
        for word in taught_in(self.taught):
            if word.kind and (words := list(words_of(word.say))):
                said.setdefault(word.kind, {})[tuple(words)] = None
        return {kind: tuple(some) for kind, some in said.items()}

    @property
    def words(self) -> frozenset[str]:
        """Every word of them."""
        return frozenset(word for some in self.instead().values() for words in some for word in words)


def own_sentences(own: Own) -> list[list[str]]:
    """Sentences with the farm's own words in them, and each of these once by itself."""
    instead, draw = own.instead(), Draw(SEED)
    if not instead:
        return []
    out = [list(words) for some in instead.values() for words in some]
    for _ in range(DRAWN):
        if len(out) >= MOST:
            break
        came_up: list[str] = []
        words = sentence(draw, instead, came_up)
        if came_up:
            out.append(words)
    return out
