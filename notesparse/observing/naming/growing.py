"""A name grown word by word from one piece; the best stretch is the name."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.lazy import pattern
from notesparse.observing.naming.candidate import Candidate
from notesparse.observing.naming.judging import judge
from notesparse.observing.naming.surroundings import Surroundings, capital, kinds, noun_at
from notesparse.observing.naming.worth import DIRECTION, NOUN, NUMBERED_NOUN, UNKNOWN, word_worth

_LISTED = cue_page("naming/growing")

LONGEST = 5
_STROKES = pattern(r"i{4,}|\|+")
_ACRES = pattern("[2-9]0|[1-6][0-9]0")
_NUMBER_FIRST = frozenset({"note", "line", "go", "field", "date"})  # sites where a name may begin with figures


def best_at(s: Surroundings, i: int, site: str, bonus: float) -> tuple[float, int] | None:
    """The best name that begins at piece i: (score, end)."""
    if i in s.bare and s.pieces[i].form == "word" and len(s.pieces[i].text) > 1:
        return None  # bean A
    best: tuple[float, int] | None = None
    worth, words, unknown, nouns = 0.0, 0, 0, 0
    j = i
    while j < s.n and words < LONGEST:
        w = _worth_at(s, i, j, site)
        if w is None:
            break
        nouns += _names_surely(s, i, j, w, words)
        if w == UNKNOWN:
            unknown += 1
            w = UNKNOWN if unknown <= 2 else 0.0
        worth += w
        if s.pieces[j].form != "mark":
            words += 1
        j += 1
        if _goes_on(s, i, j):
            continue
        score = judge(s, Candidate(i, j, worth, words, nouns, site, bonus))
        if score is not None and (best is None or score > best[0]):
            best = (score, j)
    return best


_FOR_WORTH_AT = _LISTED.words("for_worth_at")


def _worth_at(s: Surroundings, i: int, j: int, site: str) -> float | None:
    """What piece j adds to a name that begins at piece i; None where the name is over."""
    if j > i and s.pieces[j].gap >= 3:
        return None  # a name never runs over to the next cell of a page
    if j > i and s.text(j) == "along":
        return None  # Grasshoppers along the road, 15% of the leaf
    if j > i and s.text(j) == "on" and any(p.rule == "date" for x in (j + 1, j + 2) if x < s.n for p in s.phrases[x]):
        return None  # Osage corner on the tenth
    if j > i and any(p.rule == "date" and p.end > j + 1 and "MONTH" in kinds(s, j) for p in s.phrases[j]):
        return None  # hitching post july thirtieth
    if j > i and any(e.kind == "DMY" and e.end > j + 1 for e in s.lattice.edges[j]):
        return None  # Elm O9.vii.1981
    if j > i and any(_of_a_section(s, x) for x in range(max(i + 1, j - 2), j + 1)):
        return 0.0  # Petersen E 1/2
    if j > i and _a_range_of_counts(s, j):
        return None  # Bixby 8 or 9 trifs
    if s.pieces[j].form == "int" and s.text(j + 1) == "/" and s.pieces[j + 1].glued:
        return None  # Gravel Switch 6/9
    if (j > i or site != "field") and _a_variety(s, j):
        return None  # Hill Farm variety Hutcheson 8/11
    if j > i and s.text(j + 1) in _LOOKED_AT and any(e.kind == "INT" and e.end == j + 1 for e in s.lattice.edges[j]):
        return None  # cross ridge 4 stops
    if j > i and s.text(j) == "the" and s.text(j - 1) not in s.words.ways | s.words.arriving | s.words.inside:
        return None  # this is mud lake the old man's half
    if j > i and (_top_nodes(s, j) or _of_the_whole(s, j) or _says_nothing(s, j)):
        return None  # Oxbow top 4 nodes; the lagoon field whole field R3; Wendell's bottom bug walk
    if j > i and s.text(j - 1) == "field" and s.text(j) in _FOR_WORTH_AT:
        return None  # the cemetery field next
    if _STROKES.fullmatch(s.text(j)):
        return None  # IIIII II: strokes of a tally
    w = word_worth(s, j, j == i)
    if w is None or (j in s.bare and j > i and not _before_its_first_plant(s, j)):
        return None
    if j == i and s.pieces[j].form == "int":
        return _figures_first(s, j, site, w)
    return w


_LOOKED_AT = _LISTED.words("looked_at")
_COUNTED = frozenset({"TRIF", "NODES", "NODE", "LEAF"})


def _a_range_of_counts(s: Surroundings, j: int) -> bool:
    """`8 or 9 trifs`, `5 to 6 nodes`: what is counted."""
    if not kinds(s, j) & {"INT"} or s.text(j + 1) not in {"or", "to", "-", "–"} or not kinds(s, j + 2) & {"INT"}:
        return False
    return bool((kinds(s, j + 3) | kinds(s, j + 4)) & _COUNTED)


def _of_a_section(s: Surroundings, x: int) -> bool:
    """`E 1/2`, `NW 1/4`: a part of a section of land, whose figures begin at piece x."""
    half = s.text(x) == "1" and s.text(x + 1) == "/" and s.text(x + 2) in {"2", "4"}
    return half and "COMPASS" in kinds(s, x - 1)


def _before_its_first_plant(s: Surroundings, j: int) -> bool:
    """`Mabel 2: plant 1`: behind the number stands a plant's own."""
    return s.text(j + 1) == ":" and any(
        p.form in {"plant_n", "plant_ord"} for at in s.phrases[j + 2 : j + 3] for p in at
    )


def _a_variety(s: Surroundings, j: int) -> bool:
    """`variety Hutcheson`, `var. 2417` at piece j: what was planted, and no `variety plot`."""
    if not any(e.kind == "VARIETY" and e.how == "exact" for e in s.lattice.edges[j]):
        return False
    at = j + 1 + (s.text(j + 1) in {".", ":"})
    return (
        at < s.n
        and s.pieces[at].form in {"word", "int"}
        and (not noun_at(s, at) or (s.text(at) == "lot" and at + 1 < s.n and s.pieces[at + 1].form == "int"))
        and s.text(at) not in _PLANTED_TO_COMPARE
    )


_PLANTED_TO_COMPARE = _LISTED.words("planted_to_compare")


def _top_nodes(s: Surroundings, j: int) -> bool:
    """`top 4 nodes`: a place on the plant."""
    if s.text(j) not in {"top", "upper", "uppermost"}:
        return False
    return any("NODES" in kinds(s, x) or "NODE" in kinds(s, x) for x in (j + 1, j + 2) if x < s.n)


def _of_the_whole(s: Surroundings, j: int) -> bool:
    """`whole field`: what is said of all of it begins."""
    return any(e.kind == "OVERALL" and e.end > j + 1 and e.how == "exact" for e in s.lattice.edges[j])


def _says_nothing(s: Surroundings, j: int) -> bool:
    """Two words and more that carry nothing: bug walk, stage check."""
    return any(e.kind == "FILLER" and e.end > j + 1 and e.how == "exact" for e in s.lattice.edges[j])


def _figures_first(s: Surroundings, j: int, site: str, w: float) -> float | None:
    """Figures begin a name only with a letter stuck to them (7B) or a noun behind them (40 acre)."""
    an_acreage = site == "sentence" and s.text(j + 1) == "acre"  # 30 acre is behind
    if not (site in _NUMBER_FIRST or an_acreage) or any(p.rule == "rows" for p in s.phrases[j]):
        return None
    behind = s.pieces[j + 1] if j + 1 < s.n else None
    rate = behind is not None and behind.text == "k" and len(s.pieces[j].text) > 1  # at 180K: seeds an acre
    if behind is not None and behind.glued and behind.form == "word" and len(behind.text) == 1:
        return None if rate or behind.text == "t" else 1.2
    return w if noun_at(s, j + 1) else None


def _names_surely(s: Surroundings, i: int, j: int, w: float, words: int) -> int:
    """How many signs of a name piece j adds: a noun of places, a direction behind a word, Back 30."""
    signs = 0
    if w == NUMBERED_NOUN and words >= 1 and noun_at(s, j):
        signs += 1
    if w == NOUN or (w == DIRECTION and words >= 1 and s.pieces[j].text in s.words.compass):
        signs += 1
    if j == i + 1 and s.pieces[j].form == "int" and ("COMPASS" in kinds(s, i) or s.pieces[i].text == "back"):
        signs += 1  # Back 30
    elif j == i + 1 and s.several and s.pieces[j].form == "int" and capital(s, i) and _ACRES.fullmatch(s.text(j)):
        signs += 1  # Long 40
    return signs


def _goes_on(s: Surroundings, i: int, j: int) -> bool:
    """A name cannot end before piece j: behind a mark, behind `the`, before a second half (drive-by)."""
    if any(_of_a_section(s, x) for x in range(max(i + 1, j - 2), j)):
        return True
    if s.pieces[j - 1].form == "mark" or (s.pieces[j - 1].text == "the" and j == i + 1):
        return True
    return (
        j + 1 < s.n
        and s.pieces[j].text == "-"
        and s.pieces[j].glued
        and s.pieces[j + 1].glued
        and s.pieces[j + 1].form == "word"
    )
