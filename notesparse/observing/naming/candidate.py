"""A stretch of words that may be a name, before it is judged."""

from __future__ import annotations

from notesparse.lazy import dataclass


@dataclass(frozen=True, slots=True)
class Candidate:
    """Pieces [i, j) at a site of a kind. `worth` is what the words add up to, `bonus` what the place adds."""

    i: int
    j: int
    worth: float
    words: int
    nouns: int  # nouns of places, or what makes a name as surely
    site: str
    bonus: float
    title: bool = False  # written as a title, where that says something

    @property
    def lone(self) -> bool:
        """One word at a sentence's beginning, where every word has its capital."""
        return self.site == "sentence" and self.words == 1

    @property
    def shows(self) -> bool:
        """The words look like a name by themselves."""
        return self.title or bool(self.nouns)

    @property
    def at_home(self) -> bool:
        """Behind a word for a field a name that shows itself is enough, and behind a word of going nearly so."""
        if self.site == "go":
            return self.title or (bool(self.nouns) and self.bonus > 0.5)
        return self.site == "field" and self.shows
