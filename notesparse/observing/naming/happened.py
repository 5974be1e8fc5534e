"""Words that tell what happened to something, and name no field: `gravel's washed out at the culvert`, `Pump started back
up 7-30`, `the growing point is good`, `Hail 6-12.`, `Greased the combine.`

Without this such a saying would begin a visit of its own, and take the plants behind it from their field.
"""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing.naming.surroundings import Surroundings, noun_at, title, upper

_LISTED = cue_page("naming/happened")

_CAME_OVER = frozenset({"DAMAGE", "WEATHER"})
_RAN = _LISTED.words("ran")
_MET = _RAN | _LISTED.words("met")
_ON_A_PLANT = frozenset(_LISTED.rows("on_a_plant"))


_NOBODYS_NAME = _LISTED.words("nobodys_name")
_FOR_HAPPENED = _LISTED.words("for_happened")


def happened(s: Surroundings, i: int, j: int) -> bool:
    """Pieces [i, j) are what something happened to, or a part of a plant."""
    if j - i == 2 and (s.text(i), s.text(i + 1)) in _ON_A_PLANT and not title(s, i, j):
        return True
    if j == i + 1 and (i or s.text(i) in _NOBODYS_NAME) and _came_on_a_day(s, i):
        return True
    if j > i + 1 and _on_a_weekday(s, i):
        return True
    if s.text(j - 1) in _ADDRESS and j < s.n and s.text(j) == ".":
        return s.text(j - 1) in _OF_PEOPLE or (
            j - i == 2 and _done(s.text(i))
        )  # Gave Mrs. Kern the list, Paid Dr. Owens
    if j == i + 1 and _done(s.text(i)) and j < s.n and s.pieces[j].form == "word" and _done_to_it(s, j):
        return True
    behind = j + (s.text(j) == "'s")
    came = behind < s.n and any(e.kind in _CAME_OVER and e.how == "exact" for e in s.lattice.edges[behind])
    if s.text(behind - 1) == "'s" and came and not noun_at(s, behind):
        return True
    met = any(e.kind in _CAME_OVER and e.how == "exact" for e in s.lattice.edges[i]) and s.text(j - 1) in _MET
    if j - i > 1 and met and not upper(s, j - 1) and s.text(j) in _FOR_HAPPENED:
        return True  # Hail nicked it
    if _met_it(s, i, j) or (j - i > 1 and s.text(j - 1) == "runs" and not upper(s, j - 1) and _counted(s, j)):
        return True
    one = j == i + 1 and j < s.n and s.pieces[j].form == "word" and s.text(j) in _RAN
    return one and not (s.cased and upper(s, j))


_OF_PEOPLE = _LISTED.words("of_people")
_ADDRESS = _OF_PEOPLE | _LISTED.words("address")
_LOOSE = frozenset({"the_v", "ord_day"})  # the two barrows, the first gate
_BY_ITSELF = _LISTED.words("by_itself")
_SHORTEST = 5  # letters of a word in ed: fixed, and no Fred
_TOLD = frozenset(
    "trif nodes flowers pods seeds stage ratio percent podshare call average findhead sampled topleaf emergence moisture lots "
    "state notvisited same date stop place".split()
)


def _done(word: str) -> bool:
    """`greased`, `sold`: a word that tells what somebody did."""
    return word in _BY_ITSELF or (len(word) >= _SHORTEST and word.endswith("ed") and not word.endswith("eed"))


def _done_to_it(s: Surroundings, k: int) -> bool:
    """`Greased the combine.`, `Sold the last ten bags.`: behind the word up to the end of the sentence only what it was done
    to, and nothing of the trade."""
    first = k
    while k < s.n and s.pieces[k].form != "nl" and not (s.text(k) == "." and s.lattice.soft[k] is None):
        if any(p.rule in _TOLD and p.form not in _LOOSE for p in s.phrases[k]):
            return False
        k += 1
    return k > first + 1


def _came_on_a_day(s: Surroundings, i: int) -> bool:
    """`Hail 6-12.`, `Frost 5-28, stand thinned`: below the head of the note, a day and no year behind what came over the field."""
    figures = s.text(i + 2) in {"-", "/"} and s.pieces[i + 1].form == "int"
    if not figures and not any(
        e.kind == "MONTH" and e.how == "exact" for e in (s.lattice.edges[i + 1] if i + 1 < s.n else ())
    ):
        return False
    return any(e.kind in _CAME_OVER and e.how == "exact" and e.end == i + 1 for e in s.lattice.edges[i])


def _on_a_weekday(s: Surroundings, i: int) -> bool:
    """`hail friday on windmill hollow`: what came over the field, its day, and where."""
    if not any(e.kind == "WEEKDAY" and e.how == "exact" for e in s.lattice.edges[i + 1]):
        return False
    return any(e.kind in _CAME_OVER and e.how == "exact" and e.end == i + 1 for e in s.lattice.edges[i])


_SOME = _LISTED.words("some")
_FAR = 4  # pieces from the verb to what came over the field


def _met_it(s: Surroundings, i: int, j: int) -> bool:
    """`Candlestick caught | some hail`: the verb is no part of the name."""
    if j - i < 2 or s.text(j - 1) not in _MET or upper(s, j - 1):
        return False
    k = j
    while k < min(s.n - 1, j + _FAR) and s.text(k) in _SOME:
        k += 1
    return k < s.n and any(e.kind in _CAME_OVER and e.how == "exact" for e in s.lattice.edges[k])


def _counted(s: Surroundings, j: int) -> bool:
    """`Dell runs | 5 trifs`, `about 6`, `V5`: what the field comes to on the whole."""
    j += s.text(j) in {"about", "around", "at"}
    return j < s.n and any(e.kind in {"INT", "V", "R"} for e in s.lattice.edges[j])
