"""`grammar/words/*.toml` to one frozen Vocabulary; all refusals, each with file, line and spelling.

A word file holds entries ``[[word]]`` with `kind` (a token kind declared in `terminals.lark`), `means`
(what the record calls it), `say` (every spelling) and perhaps `near = false` (exact spellings only), `sound = true` (a
mis-hearing, shown as a repair) and `source`.
"""

from __future__ import annotations

import re
import tomllib
from functools import lru_cache
from typing import Any

from notesparse.errors import VocabularyError
from notesparse.language.folder import grammar_folder
from notesparse.lazy import dataclass, pattern

_PIECES = pattern(r"'(?:s|re|ve|ll|m|d)\b|[a-z]+(?:'[a-z]+)*|\d+|[^\sa-z\d]")
_SUFFIXES = ("'s", "'re", "'ve", "'ll", "'m", "'d")
_ENTRY = pattern(r"^\[\[word\]\]", re.MULTILINE)
_KEYS = {"kind", "means", "say", "near", "sound", "cost", "source"}
TWIN_LETTERS = 5  # shorter words are one edit from too many others for a list to help
READ_BY_CODE = frozenset(
    {  # kinds that no rule uses: the text pass makes or `observing` reads them by name
        "CLEAN",
        "AT",
        "COMPASS",
        "FEW",
        "FIELDNOUN",
        "FILLER",
        "MIL",
        "WITH",
    }
)
IDLE = frozenset(
    {  # declared, and read by nobody: to be taken out of terminals.lark, then from here
        "ALL",
        "COUPLE",
        "FIELDSTATE",
        "FILLING",
        "FULL",
        "FULLLEN",
        "HALFFILL",
        "INCHMARK",
        "MATURE",
        "PEASIZE",
        "STARTING",
        "TALLW",
        "TINY",
    }
)
WHOLE = frozenset({"pl'd", "rec'd", "plt'd", "let's", "plant'd"})  # words whose tail is no word of its own


TAUGHT = "words.toml"  # what a refusal calls the user's own word file

Sense = tuple[str, Any, str, bool, float | None]
"""One meaning of one spelling: (kind, means, spelling, sound, cost). `sound` marks a mis-hearing: read, but shown as a
repair; `cost` says how dear it is, if not as dear as usual. A plain tuple, so that the compiled language loads fast."""

Trie = dict[str, Any]
"""Steps of spellings keyed by word piece; the key "" holds the senses (a list of Sense) of the spelling that ends
here."""


@dataclass(frozen=True, slots=True)
class Vocabulary:
    trie: Trie
    near: dict[str, tuple[str, ...]]  # first letter -> spellings of one word that nearness may reach
    singles: dict[str, tuple[Sense, ...]]
    never: frozenset[str]
    glued: dict[str, tuple[Sense, ...]]  # spellings with the blanks taken out: lost spaces, joined words
    parts: frozenset[str]  # every word of every spelling
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


def _line_of(text: str, spelling: str, start: int = 0) -> int:
    """The line of a spelling, looked for from the entry that gives it."""
    at = text.find(f'"{spelling}"', start)
    if at < 0:
        at = text.find(f"'{spelling}'", start)
    return text.count("\n", 0, max(at, start)) + 1


def load_words(
    texts: dict[str, str], declared: frozenset[str] | None = None, used: frozenset[str] | None = None
) -> Vocabulary:
    """Vocabulary from file name -> TOML text. Raises VocabularyError with file, line and spelling.

    `declared` are the kinds of `terminals.lark`, `used` those that a rule or the code reads.
    """
    root: Trie = {}
    singles: dict[str, list[Sense]] = {}
    glued: dict[str, list[Sense]] = {}
    near: dict[str, list[str]] = {}
    never: set[str] = set()
    seen: dict[tuple[str, ...], list[tuple[str, int, Sense]]] = {}
    allowed: dict[tuple[str, ...], frozenset[str]] = {}
    twins: set[frozenset[str]] | None = None  # a vocabulary that lists its twins is held to the list
    for name, text in sorted(texts.items()):
        try:
            data = tomllib.loads(text)
        except tomllib.TOMLDecodeError as fault:
            raise VocabularyError(f"{name}: not TOML: {fault}") from fault
        never.update(w.casefold() for w in data.get("never", ()))
        for entry in data.get("ambiguous", ()):
            allowed[pieces_of(entry["say"])] = frozenset(entry["kinds"])
        if "twins" in data:
            twins = (twins or set()) | {frozenset(entry["say"]) for entry in data["twins"]}
        start = 0
        for entry in data.get("word", ()):
            heading = _ENTRY.search(text, start)
            start = heading.end() if heading else start
            kind, says = entry.get("kind"), entry.get("say")
            if not kind or not says:
                line = text.count("\n", 0, start) + 1
                raise VocabularyError(f"{name}:{line}: an entry without kind or say: {entry}")
            if odd := sorted(set(entry) - _KEYS):
                line = _line_of(text, says[0], start)
                raise VocabularyError(
                    f"{name}:{line}: the entry of “{says[0]}” has a key {odd[0]!r} that means nothing"
                )
            if declared is not None and kind not in declared:
                line = _line_of(text, says[0], start)
                raise VocabularyError(f"{name}:{line}: kind {kind} of “{says[0]}” is not declared in terminals.lark")
            if used is not None and kind not in used:
                line = _line_of(text, says[0], start)
                raise VocabularyError(
                    f"{name}:{line}: kind {kind} of “{says[0]}” is read by no rule, so the word would never count"
                )
            means = entry.get("means", says[0])
            says = [*says, *(s.replace("n't", "nt") for s in says if "n't" in s and s.replace("n't", "nt") not in says)]
            for said in says:
                parts = pieces_of(said)
                line = _line_of(text, said, start)
                if not parts:
                    raise VocabularyError(f"{name}:{line}: an empty spelling in the entry for {means!r}")
                sense: Sense = (kind, means, said, bool(entry.get("sound", False)), entry.get("cost"))
                for other_name, other_line, other in seen.get(parts, ()):
                    if other[0] == kind and other[1] != means:
                        raise VocabularyError(
                            f"{name}:{line}: “{said}” is {means!r} here and {other[1]!r} in {other_name}:{other_line}"
                        )
                    if other[0] == kind and said not in entry["say"]:
                        continue
                    if other[0] == kind:
                        raise VocabularyError(f"{name}:{line}: “{said}” is given twice ({other_name}:{other_line})")
                seen.setdefault(parts, []).append((name, line, sense))
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
        kinds = {sense[0] for _, _, sense in places}
        if len(kinds) > 1 and not kinds <= allowed.get(parts, frozenset()):
            names = ", ".join(f"{n}:{line} ({s[0]})" for n, line, s in places)
            raise VocabularyError(f"“{' '.join(parts)}” has two senses that ambiguous.toml does not declare: {names}")
    for one, two in near_twins(near, singles) if twins is not None else ():
        if frozenset((one, two)) not in twins:  # type: ignore[operator]  # not None here
            (a, line, s), (b, other_line, t) = seen[pieces_of(one)][0], seen[pieces_of(two)][0]
            raise VocabularyError(
                f"{a}:{line}: “{one}” ({s[0]}) is one letter from “{two}” ({t[0]}, {b}:{other_line}), so a slip of "
                "one may be read as the other: list the two as [[twins]] in ambiguous.toml, or take one out of reach "
                "with near = false"
            )
    return Vocabulary(
        trie=root,
        near={k: tuple(sorted(set(v))) for k, v in near.items()},
        singles={k: tuple(v) for k, v in singles.items()},
        never=frozenset(never) - frozenset(singles),
        glued={k: tuple(v) for k, v in glued.items()},
        parts=frozenset(word for parts in seen for word in parts),
        kinds=frozenset(s[0] for places in seen.values() for _, _, s in places),
    )


def near_twins(near: dict[str, list[str]], singles: dict[str, list[Sense]]) -> list[tuple[str, str]]:
    """Pairs of spellings of different kinds, five letters or more, that nearness reaches and one edit parts: a letter
    more, fewer or other, or two neighbours changed over."""
    words = sorted({w for some in near.values() for w in some if len(w) >= TWIN_LETTERS})
    shorter: dict[str, list[str]] = {}  # a word with any one letter taken out, and the word itself -> the words
    for word in words:
        for form in {word, *(word[:i] + word[i + 1 :] for i in range(len(word)))}:
            shorter.setdefault(form, []).append(word)
    pairs = {(a, b) for some in shorter.values() for a in some for b in some if a < b}
    kinds = {w: {s[0] for s in singles[w]} for w in words}
    return sorted((a, b) for a, b in pairs if not kinds[a] & kinds[b] and _one_edit(a, b))


def _one_edit(a: str, b: str) -> bool:
    start = next((i for i, (x, y) in enumerate(zip(a, b, strict=False)) if x != y), min(len(a), len(b)))
    x, y = a[start:], b[start:]
    return x[1:] == y[1:] or x[1:] == y or x == y[1:] or (x[1::-1] == y[:2] and x[2:] == y[2:])


def check_kinds(terminals: str, declared: frozenset[str], used: frozenset[str]) -> None:
    """Raise VocabularyError for a kind of `terminals.lark` that neither a rule nor the code reads."""
    for kind in sorted(declared - used):
        at = re.search(rf"\b{kind}\b", terminals)
        line = terminals.count("\n", 0, at.start()) + 1 if at else 0
        raise VocabularyError(
            f"terminals.lark:{line}: kind {kind} is declared, but no rule uses it; if the code reads it by itself, "
            "name it in READ_BY_CODE of language/vocabulary.py"
        )


def senses_of(words: Vocabulary, spelling: str) -> list[Sense]:
    """The senses of a spelling of one word or several, as it is written in the word files."""
    node: Any = words.trie
    for part in pieces_of(spelling):
        node = node.get(part)
        if node is None:
            return []
    return list(node.get("", ()))


@lru_cache(maxsize=4)
def vocabulary(taught: str = "", name: str = TAUGHT) -> Vocabulary:
    """The words of `grammar/words`, loaded once and checked; `taught` is the text of a user's word file, `name` what a
    refusal calls it."""
    from notesparse.language.grammar import declared_kinds, grammar_parts, kinds_in_rules

    folder = grammar_folder() / "words"
    texts = {f.name: f.read_text(encoding="utf-8") for f in folder.iterdir() if f.name.endswith(".toml")}
    if taught:
        texts[name] = taught
    used = kinds_in_rules() | READ_BY_CODE | IDLE
    check_kinds(grammar_parts()["terminals.lark"], declared_kinds(), used)
    return load_words(texts, declared_kinds(), used)
