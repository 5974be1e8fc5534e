"""From characters to pieces: words, figures and marks with their places in the note.

The note is never rewritten. Pieces carry a plain form (lower case, NFKC, straight quotes, invisible characters left
out) beside their span in the user's own text.
"""

from __future__ import annotations

import unicodedata

from notesparse.language.cues import cue_page
from notesparse.language.vocabulary import WHOLE
from notesparse.lazy import dataclass, pattern
from notesparse.span import Span
from notesparse.text.stage_letters import codes_with_letters
from notesparse.text.stamps import clock_stamps
from notesparse.text.strokes import parting_strokes
from notesparse.text.wrapped import paper_edges

_LISTED = cue_page("text/scan")

_STRAIGHT = {
    "№": "#",
    "‘": "'",
    "’": "'",
    "‛": "'",
    "′": "'",
    "´": "'",
    "`": "'",
    "“": '"',
    "”": '"',
    "″": '"',
    "„": '"',
    "‟": '"',
    "–": "-",
    "—": "-",
    "−": "-",
    "‐": "-",
    "‑": "-",
    "⁄": "/",
    "∕": "/",
    "×": "x",
    "≈": "~",
    "↓": "↓",
    "·": "·",
}
_SUFFIXES = ("'s", "'re", "'ve", "'ll", "'m", "'d")

_SHAPES = (
    r"(?P<nl>\r\n|\n|\r)"
    r"|(?P<dmy>\d{1,4}([-/.])(?:\d{1,2}|[ivx]{1,4})\3(?:\d{4}|\d{2})(?![\d/]))"
    r"|(?P<big>(?=[\doil]*\d)[\doil]{1,3}(?:,\d{3})+(?!\d))"
    r"|(?P<dec>(?<![\d.])(?:\d+|(?<!\bno)(?<!\bnr)(?<!\bpl)(?<!\bplt)(?<!\bplant)"
    r"(?!(?<=\bp)\.1?\d(?!\d)))\.\d+(?![\d.]*\.\d))"  # p.1, p.12, but p.25
    r"|(?P<int>\d+)"
    r"|(?P<leader>(?<=\S)\.{5,}(?=\S)|(?<=[ \t])(?:\.{4,}|(?:\. ){4,}\.)(?=\s|$))"
    r"|(?P<rule>(?<=[^\W_])_+|_+(?=[^\W_]))"
    r"|(?P<word>(?<=\d)[OolI](?=(?:tf?|trs?|tri|trifs?|nds?|nodes?)\b)"
    r"|(?:(?<=\d[ .):])|(?<=\d[ .):] ))[bs](?=(?:tf|trs?|tris?|trifs?)\b)|[^\W\d_]+(?:'[^\W\d_]+)*)"
    r"|(?P<mark>[^\s])"
)
_PIECE = pattern(_SHAPES)
_LED = pattern(_SHAPES.replace(r"(?:\.{4,}|(?:\. ){4,}\.)", r"(?:\.{2,}|\.(?: \.)*)"))
_LEADER = pattern(r"(?m)^[^\n.]+[ \t](?:\.{4,}|\. \. \.(?: \.)*)[ \t]+\S")
_SHORT_LEADER = pattern(r"(?m)^[^\n.]+[ \t]\.{2,3}[ \t]+\S")  # Field ... Mule Barn, and so on every line
_DASHED = pattern(r"(?m)^[ \t]*\w[^\n\d-]*?[ \t]-{2,}[ \t]+[^\s-]+(?:[ \t]+-{2,}[ \t]+[^\s-]+){2,}[ \t]*$")
_FEWEST_LEADERS = 2  # lines: on a page with leaders the short ones are leaders too


_COUNTED = pattern(r"(tf|trs?|tris?|trifs?|nds?|nodes?)([rv])")  # 9tfR1
_LOST_BLANK = pattern(r"(no|top)(pods?|pds?|blooms?|blm|flowers?|fl|seeds?|beans?|nodes?|trifs?|two|four)")
_TRADE = (
    r"(?:nodes?|not?|top|still|small|tiny|flat|full|open|closed|rolled|blooms?|blooming|blm|flowers?|flowering|fl|podded|pods?|pds?|seeds?|beans?|nds?|dn|down|touching|brown|"
    r"green|tan|trifs?|tf|two|four|low|yet|only)"
)
_RUN = pattern(rf"{_TRADE}{{2,4}}")  # podsfull, smallseed, nottouching: thumbed without blanks
_TRADE_WORD = pattern(_TRADE)
_NO_RUN = _LISTED.words("no_run")
_PLACED = pattern(r"(st|nd|rd|th)(nodes?|nds?|nod)?(down|dwn|dn|fromtop|frmtop|fromthetop|up)?(top)?")
_LONGEST_COUNT = 12
_DAMAGED = str.maketrans("oil", "011")  # 1O8,000
_CAPITALS = pattern(r"(?=.{3})[A-Z]*l[A-Z]+|(?=.{3})[A-Z]+l")


@dataclass(frozen=True, slots=True)
class Piece:
    """The smallest thing the reader handles. `form` is nl, dmy, big, dec, int, word or mark."""

    text: str
    form: str
    span: Span
    glued: bool  # no blank between this piece and the one before it
    column: int  # code points since the line began
    gap: int  # blanks before it (a tab counts as four)
    mended: bool = False  # a word that was written with a figure for a letter
    slip: bool = False  # a misspelled word that was put right


def _plain(text: str) -> tuple[str, list[int] | None]:
    """The plain form and, if it is not the text itself in lower case, the place of each of its characters."""
    if text.isascii():
        return text.lower(), None
    out: list[str] = []
    at: list[int] = []
    for i, ch in enumerate(text):
        if ch.isascii():
            out.append(ch.lower())
            at.append(i)
            continue
        if unicodedata.category(ch) in {"Cf", "Mn", "Me", "Cs"}:  # zero width, marks, stray halves: nothing to read
            continue
        plain = _STRAIGHT.get(ch)
        if plain is None:
            plain = unicodedata.normalize("NFKC", ch).lower()
            plain = "".join(_STRAIGHT.get(c, c) for c in plain)
        if len(plain) > 1 and plain[0].isdigit() and out and out[-1].isdigit():
            plain = " " + plain  # 1¼ is one and a quarter, not eleven fourths
        for c in plain:
            out.append(c)
            at.append(i)
    return "".join(out), at


def scan(text: str) -> list[Piece]:
    """All pieces of a note, in order; blanks are left out, line ends are pieces."""
    plain, at = _plain(text)
    pieces: list[Piece] = []
    line_start = 0
    end_before = 0
    led = ("...." in plain or ". . ." in plain) and len(_LEADER.findall(plain)) >= _FEWEST_LEADERS
    led = led or ((" .. " in plain or " ... " in plain) and len(_SHORT_LEADER.findall(plain)) > _FEWEST_LEADERS)
    dashed = [m.span() for m in _DASHED.finditer(plain)] if "---" in plain else []
    dashed = dashed if len(dashed) >= _FEWEST_LEADERS else []
    edges = paper_edges(text)
    stamps = clock_stamps(plain)
    strokes = parting_strokes(plain)
    codes = codes_with_letters(text) if at is None else frozenset()
    for m in (_LED if led else _PIECE).finditer(plain):
        if dashed and m[0] == "-" and any(a <= m.start() < b for a, b in dashed) and _in_a_rule(plain, m.start()):
            continue  # PLANT ------ 1 --- 2 --- 3: dashes that lead the eye
        a, b = m.span()
        if stamps and any(x <= a < y for x, y in stamps):
            continue
        if strokes and a < end_before:
            continue  # the rest of //
        form = m.lastgroup or "mark"
        if a in strokes:
            form, b = "nl", strokes[a]
        elif form == "nl" and edges and (a if at is None else at[a]) in edges:
            continue  # the edge of the paper
        if form in {"leader", "rule"}:
            continue  # dots that lead the eye, and the line under a filled blank, are no more than a gap
        if form == "3":
            form = "dmy"
        elif form == "int" and b - a > _LONGEST_COUNT:
            form = "word"  # no count has so many figures
        parts = [(a, a + 1, "word"), (a + 1, b, "word")] if a in codes and b > a + 1 else _split(plain, a, b, form)
        for x, y, f in parts:
            real = Span(x, y) if at is None else Span(at[x], at[y - 1] + 1)
            blanks = plain[end_before:x]
            gap = sum(4 if c == "\t" else 1 for c in blanks)
            word = plain[x:y].translate(_DAMAGED) if f == "big" else plain[x:y]
            if f == "word" and "l" in word and _CAPITALS.fullmatch(text, real.start, real.end):
                word = word.replace("l", "i")  # PlT among capitals is PIT
            pieces.append(Piece(word, f, real, gap == 0 and bool(pieces), x - line_start, gap))
            end_before = y
        if form == "nl":
            line_start = b
    return pieces


def _in_a_rule(plain: str, i: int) -> bool:
    """Whether a dash stands in a run of two or more."""
    return plain[i - 1 : i] == "-" or plain[i + 1 : i + 2] == "-"


def _cut_run(word: str) -> list[tuple[int, int]]:
    """`podsfull` -> pods, full: the cut into the fewest words, the longest first; none if it is one word."""
    best: list[list[tuple[int, int]] | None] = [None] * (len(word) + 1)
    best[0] = []
    for end in range(1, len(word) + 1):
        for start in range(end - 2, -1, -1):
            before = best[start]
            if (
                before is not None
                and _TRADE_WORD.fullmatch(word, start, end)
                and (best[end] is None or len(before) + 1 <= len(best[end] or []))
            ):
                best[end] = [*before, (start, end)]
    cuts = best[len(word)] or []
    return cuts if len(cuts) > 1 else []


def _split(plain: str, a: int, b: int, form: str) -> list[tuple[int, int, str]]:
    """Cut off 's and friends; cut figures after R one by one, since R has one digit (R71 brown pod)."""
    word = plain[a:b]
    if form == "word":
        for suffix in _SUFFIXES:
            if word.endswith(suffix) and len(word) > len(suffix) and word not in WHOLE:
                cut = b - len(suffix)
                return [(a, cut, "word"), (cut, b, "word")]
        if word not in WHOLE and word not in _NO_RUN and len(word) > 4 and _RUN.fullmatch(word):
            cuts = _cut_run(word)
            if cuts:
                return [(a + x, a + y, "word") for x, y in cuts]
        if a and plain[a - 1].isdigit() and len(word) > 2:
            placed = _PLACED.fullmatch(word)
            if placed and (placed[2] or placed[3]):
                spans = [placed.span(g) for g in (1, 2) if placed[g]]
                if placed[3]:
                    x, y = placed.span(3)
                    spans += (
                        [(x, x + 4), (x + 4, y)]
                        if placed[3].startswith(("from", "frm")) and placed[3] == "fromtop"
                        else [(x, y)]
                    )
                return [(a + x, a + y, "word") for x, y in spans]
            counted = _COUNTED.fullmatch(word)
            if counted and b < len(plain) and plain[b].isdigit():
                return [(a, a + counted.end(1), "word"), (a + counted.end(1), b, "word")]
        lost = _LOST_BLANK.fullmatch(word)
        if lost:
            return [(a, a + lost.end(1), "word"), (a + lost.end(1), b, "word")]
    if form == "int" and b - a == 2 and a > 0 and plain[a - 1] == "r" and (a < 2 or not plain[a - 2].isalpha()):
        return [(a, a + 1, "int"), (a + 1, b, "int")]
    return [(a, b, form)]
