"""`grammar/words/*.toml` to one frozen Vocabulary; all refusals, each with file, line and spelling.

A word file holds entries ``[[word]]`` with `kind` (a token kind declared in `terminals.lark`), `means`
(what the record calls it), `say` (every spelling) and perhaps `near = false` (exact spellings only), `sound = true` (a
mis-hearing, shown as a repair) and `source`.
"""

from __future__ import annotations

import re
import tomllib
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from notesparse.errors import VocabularyError
from notesparse.language.folder import grammar_folder

_PIECES = re.compile(r"'(?:s|re|ve|ll|m|d)\b|[a-z]+(?:'[a-z]+)*|\d+|[^\sa-z\d]")
_SUFFIXES = ("'s", "'re", "'ve", "'ll", "'m", "'d")
WHOLE = frozenset({"pl'd", "rec'd", "plt'd", "let's", "plant'd"})  # words whose tail is no word of its own


Sense = tuple[str, Any, str, bool, float | None]
"""One meaning of one spelling: (kind, means, spelling, sound, cost). `sound` marks a mis-hearing: read, but shown as a
repair; `cost` says how dear it is, if not as dear as usual. A plain tuple, so that the compiled language loads fast."""

Trie = dict[str, Any]
"""Steps of spellings keyed by word piece; the key "" holds the senses (a list of Sense) of the spelling that ends here."""


@dataclass(frozen=True, slots=True)
class Vocabulary:
    trie: Trie
    near: dict[str, tuple[str, ...]]  # first letter -> spellings of one word that nearness may reach
    singles: dict[str, tuple[Sense, ...]]
    never: frozenset[str]
    glued: dict[str, tuple[Sense, ...]]  # spellings with the blanks taken out: lost spaces, joined words
    kinds: frozenset[str]

    def means(self, kind: str) -> list[str]:
        """All meanings of a kind, for `notesparse words` and the tests."""
        return sorted({str(s[1]) for ss in self.singles.values() for s in ss if s[0] == kind})


def pieces_of(spelling: str) -> tuple[str, ...]:
    """A spelling cut as the scanner cuts a note."""
    out: list[str] = []
    for piece in _PIECES.findall(spelling.casefold()):
        tail = next((s for s in _SUFFIXES if piece.endswith(s) and len(piece) > len(s) and piece not in WHOLE), None)
        out += [piece[: -len(tail)], tail] if tail else [piece]
    return tuple(out)


def _line_of(text: str, spelling: str) -> int:
    at = text.find(f'"{spelling}"')
    return text.count("\n", 0, at) + 1 if at >= 0 else 0


def load_words(texts: dict[str, str], declared: frozenset[str] | None = None) -> Vocabulary:
    """Vocabulary from file name -> TOML text. Raises VocabularyError with file, line and spelling."""
    root: Trie = {}
    singles: dict[str, list[Sense]] = {}
    glued: dict[str, list[Sense]] = {}
    near: dict[str, list[str]] = {}
    never: set[str] = set()
    seen: dict[tuple[str, ...], list[tuple[str, Sense]]] = {}
    allowed: dict[tuple[str, ...], frozenset[str]] = {}
    for name, text in sorted(texts.items()):
        try:
            data = tomllib.loads(text)
        except tomllib.TOMLDecodeError as fault:
            raise VocabularyError(f"{name}: not TOML: {fault}") from fault
        never.update(w.casefold() for w in data.get("never", ()))
        for entry in data.get("ambiguous", ()):
            allowed[pieces_of(entry["say"])] = frozenset(entry["kinds"])
        for entry in data.get("word", ()):
            kind, says = entry.get("kind"), entry.get("say")
            if not kind or not says:
                raise VocabularyError(f"{name}: an entry without kind or say: {entry}")
            if declared is not None and kind not in declared:
                line = _line_of(text, says[0])
                raise VocabularyError(f"{name}:{line}: kind {kind} of “{says[0]}” is not declared in terminals.lark")
            means = entry.get("means", says[0])
            says = [*says, *(s.replace("n't", "nt") for s in says if "n't" in s and s.replace("n't", "nt") not in says)]
            for said in says:
                parts = pieces_of(said)
                if not parts:
                    raise VocabularyError(f"{name}: an empty spelling in the entry for {means!r}")
                sense: Sense = (kind, means, said, bool(entry.get("sound", False)), entry.get("cost"))
                for other_name, other in seen.get(parts, ()):
                    if other[0] == kind and other[1] != means:
                        raise VocabularyError(
                            f"{name}:{_line_of(text, said)}: “{said}” is {means!r} here and {other[1]!r} in {other_name}")
                    if other[0] == kind and said not in entry["say"]:
                        continue
                    if other[0] == kind:
                        raise VocabularyError(f"{name}:{_line_of(text, said)}: “{said}” is given twice ({other_name})")
                seen.setdefault(parts, []).append((name, sense))
                node = root
                for part in parts:
                    node = node.setdefault(part, {})
                node.setdefault("", []).append(sense)
                joined = "".join(p for p in parts if p.isalnum() or "'" in p)
                if len(parts) == 1:
                    singles.setdefault(said.casefold(), []).append(sense)
                elif len(joined) >= 6:
                    glued.setdefault(joined, []).append(sense)
                if len(parts) == 1 and len(said) >= 4 and entry.get("near", True) and not sense[3]:
                    near.setdefault(said[0], []).append(said.casefold())
    for parts, places in seen.items():
        kinds = {sense[0] for _, sense in places}
        if len(kinds) > 1 and not kinds <= allowed.get(parts, frozenset()):
            names = ", ".join(f"{n}:{_line_of(texts[n], s[2])} ({s[0]})" for n, s in places)
            raise VocabularyError(
                f"“{' '.join(parts)}” has two senses that ambiguous.toml does not declare: {names}")
    return Vocabulary(
        trie=root,
        near={k: tuple(sorted(set(v))) for k, v in near.items()},
        singles={k: tuple(v) for k, v in singles.items()},
        never=frozenset(never) - frozenset(singles),
        glued={k: tuple(v) for k, v in glued.items()},
        kinds=frozenset(s[0] for places in seen.values() for _, s in places),
    )


@lru_cache(maxsize=1)
def vocabulary() -> Vocabulary:
    """The words of `grammar/words`, loaded once and checked."""
    from notesparse.language.grammar import declared_kinds

    folder = grammar_folder() / "words"
    texts = {f.name: f.read_text(encoding="utf-8") for f in folder.iterdir() if f.name.endswith(".toml")}
    return load_words(texts, declared_kinds())
