"""What was struck out, as whoever typed the page says it: `10 tf, that is crossed out, then 12 tf`, `9 (crossed out) 10 tf`,
`12 tf (the 12 written over a 9)` (guide 4.21).

Only a figure or words in quotation marks are struck so, and nothing before the mark that parts them from the rest.
"""

from __future__ import annotations

from collections.abc import Sequence

from notesparse.language.cues import cue_page
from notesparse.text.scan import Piece

_COMMON = cue_page("shared")
_LISTED = cue_page("text/struck_words")

_STRUCK = _COMMON.words("struck")
_OUT = _LISTED.words("out")
_LINKS = _LISTED.words("links")
_THEN = _LISTED.words("then")
_ENDS = _LISTED.words("ends")
_AFTER = _THEN | {")", "]", "."}
_PLANT = _COMMON.words("plant") | _COMMON.words("number") | {"no", "p"}
_PUT = _LISTED.words("put")
_WHERE = _LISTED.words("where")
_WHOSE = _LISTED.words("whose")
_SMALL = _LISTED.words("small")
_LONGEST = 8  # pieces of what is struck, and of a bracket


def struck_in_words(pieces: Sequence[Piece]) -> dict[int, int]:
    """Where each struck stretch begins -> where it ends (pieces, half open)."""
    out: dict[int, int] = {}
    behind = 0
    for v in range(1, len(pieces) - 1):
        if v < behind:
            continue
        found = _crossed(pieces, v, behind) or _written_over(pieces, v)
        if found is None:
            continue
        out[found[0]] = behind = found[1]
        note = _where_it_was_put(pieces, behind)
        if note is not None:
            out[note[0]] = behind = note[1]
    return out


def _crossed(pieces: Sequence[Piece], v: int, behind: int) -> tuple[int, int] | None:
    if pieces[v].text not in _STRUCK or pieces[v + 1].text not in _OUT:
        return None
    end = v + 2
    if end < len(pieces) and pieces[end].form != "nl" and pieces[end].text not in _AFTER:
        return None  # 3 deer scratched out a bed
    e = v
    while e > behind and pieces[e - 1].text in _LINKS:
        e -= 1
    bracket = pieces[e - 1].text in "(["
    if e > behind and (bracket or (e < v and pieces[e - 1].text == ",")):
        e -= 1
    b = e
    while b > behind and e - b < _LONGEST and pieces[b - 1].form != "nl" and pieces[b - 1].text not in _ENDS:
        b -= 1
        if pieces[b].gap > 1:
            break
    if b > behind and pieces[b - 1].text in "([" and not bracket:
        b -= 1  # [10 struck out] 11 tf
    b = _past_label(pieces, b, e)
    if b >= e or not any(p.form in {"int", "dec"} or p.text == '"' for p in pieces[b:e]):
        return None
    while end < len(pieces) and pieces[end].text in "])":
        end += 1
    while end < len(pieces) and pieces[end].text in _THEN:
        end += 1
    return b, end


def _past_label(pieces: Sequence[Piece], b: int, e: int) -> int:
    """Where the words of a plant begin behind its label at the head of a line."""
    if b and pieces[b - 1].form != "nl":
        return b
    k = b
    while k < e and pieces[k].text in _PLANT | {"."}:
        k += 1
    named = k > b
    if k < e and pieces[k].form == "int" and (named or (k + 1 < e and pieces[k + 1].form in {"int", "mark"})):
        k += 1
        while k < e and pieces[k].text in ".):":
            k += 1
        return k
    return b


def _written_over(pieces: Sequence[Piece], i: int) -> tuple[int, int] | None:
    """`(the 12 written over a 9)` behind a 12: what stands there now is told before the bracket."""
    if pieces[i].text not in "([":
        return None
    end = next((k for k in range(i + 1, min(i + _LONGEST + 2, len(pieces))) if pieces[k].text in ")]"), None)
    if end is None:
        return None
    texts = [p.text for p in pieces[i + 1 : end] if p.text not in _SMALL]
    if len(texts) != _WRITTEN or texts[1] not in {"written", "wrote"} or texts[2] != "over":
        return None
    return (i, end + 1) if texts[0] in {p.text for p in pieces[max(0, i - 3) : i]} else None


_WRITTEN = 4  # 12 written over 9


def _where_it_was_put(pieces: Sequence[Piece], a: int) -> tuple[int, int] | None:
    """`put under it`, `written above` on the rest of the line: where the new words stand."""
    for k in range(a, len(pieces) - 1):
        if pieces[k].form == "nl":
            return None
        if pieces[k].text in _PUT and pieces[k + 1].text in _WHERE and k > a:
            end = k + 2
            while end < len(pieces) and pieces[end].text in _WHOSE:
                end += 1
            return k, end
    return None
