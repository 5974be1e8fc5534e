"""A site to the name that stands there, with its score and its words."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing.naming.damaged_names import mended
from notesparse.observing.naming.growing import LONGEST, best_at
from notesparse.observing.naming.happened import happened
from notesparse.observing.naming.names import Name
from notesparse.observing.naming.numbered import numbered
from notesparse.observing.naming.oddnames import odd_name
from notesparse.observing.naming.refusing import OCCASIONS, an_animal_cut_short, place_then_name, tested
from notesparse.observing.naming.sites import Site
from notesparse.observing.naming.surroundings import (
    OF_FIGURES,
    Surroundings,
    kinds,
    noun_at,
    noun_in,
    pass_fillers,
    strength,
    title,
    upper,
)
from notesparse.observing.naming.worth import grows_there

_LISTED = cue_page("naming/placing")

Scored = tuple[float, Name]
_SAYS = frozenset(
    {
        "TRIF",
        "POD",
        "SEED",
        "BEAN",
        "FLOWER",
        "NODE",
        "NODES",
        "WEEKDAY",
        "MONTH",
        "HAS",
        "PLANT",
        "OTHERCROP",
        "NEIGHBOR",
        "OTHERFIELD",
        "WEED",
        "INSECT",
        "DISEASE",
        "CALLING",
        "OVERALL",
        "NOTVISITED",
    }
)
_SAID = frozenset({"stage", "label", "date", "planted", "trif", "nodes"})
_OF_LAND = frozenset({"WHEREWORD", "LOW", "TOP", "UPTOP", "SOILWORD", "SOILSTATE", "COMPASS"})
"""The ground behind such a word is a part of a field: bottom ground, sandy ground."""
_MISSPELT = _LISTED.words("misspelt")
_LIKE = {"skip": "go", "fieldword": "field", "fieldtalk": "field"}  # kinds of site that are judged as another


def _inside_of_all(s: Surroundings, i: int) -> bool:
    """`all of whats standing is V2`: inside the words for all of the plants begins no name."""
    return any(
        e.kind == "ALLOF" and e.end > i and e.how == "exact"
        for k in range(max(0, i - 4), i)
        for e in s.lattice.edges[k]
    )


_BEHIND_AT_SITE = _LISTED.words("behind_at_site")


def at_site(s: Surroundings, site: Site) -> Scored | None:
    """The best name at a site."""
    if site.kind == "fieldno":
        return 5.0, numbered(s, site.at, site.cue_start)
    if site.kind == "before":
        return _before_field(s, site)
    if _inside_of_all(s, site.at):
        return None
    found = best_at(s, site.at, _LIKE.get(site.kind, site.kind), site.bonus)
    if found is None:
        return None
    score, end = found
    kind, start = site.kind, site.at
    if s.text(end - 1) in OCCASIONS and end - start > 1 and not (s.cased and upper(s, end - 1)):
        end -= 1  # mill creek check july ninth
    if kind in {"fieldword", "fieldtalk"}:
        if not _surely(s, start, end, talk=kind == "fieldtalk"):
            return None
        kind = "field"
    shared = s.text(end + 1) in _BEHIND_AT_SITE  # Feedlot N half the plants
    if s.text(end) == "half" and s.text(end - 1) in s.words.compass and end - start > 1 and not shared:
        end += 1  # Sec 22 west half
    elif s.text(end) == "half" and _half_of_a_title(s, start, end):
        end += 1  # 9/28/96     Coyote Half     MG 3.6
    text = mended(s.lattice.original(start, end))
    if s.text(end) in {"field", "fld"} and s.pieces[end].form == "word":
        end += 1
        score += 1.5
    elif s.text(end - 1) in _MISSPELT and end - start > 1:
        text = s.lattice.original(start, end - 1)  # Flint Ridge fild
    elif text.lower().endswith((" field", " fld")):
        text = text[: text.rindex(" ")].rstrip()
        score += 1.0
    told = strength(s, end + 1)
    if s.text(end) == "site" and (told[1] == "date" if kind in {"note", "line"} else kind == "go" and told[0] >= 1.0):
        end += 1  # Bin site 8/16; last is the bin site seven of ten
        text = s.lattice.original(start, end)
    if s.text(end) == "ground" and (title(s, start, end) or _their_ground(s, end)):
        end += 1  # the Ketteler ground
        text = s.lattice.original(start, end)
    after = left_out_behind(s, end) or pass_fillers(s, end)
    seen = kind != "skip" and (not not_visited(s, after) or _another_left_out(s, end, after))
    return score, Name(start, end, _squeezed(text), kind, seen, site.cue_start)


def _half_of_a_title(s: Surroundings, start: int, end: int) -> bool:
    """`Coyote Half` with capitals, and the line or the cell over behind it."""
    over = end + 1 >= s.n or s.pieces[end + 1].form == "nl" or s.pieces[end + 1].gap >= _WIDE
    return over and upper(s, end) and not s.shouted and s.pieces[end].gap == 1 and title(s, start, end)


_WIDE = 3  # blanks between two values of a head


def _their_ground(s: Surroundings, at: int) -> bool:
    """`the parsonage ground`, and neither `sandy ground` nor `plum hollow ground is still tacky`."""
    soil = any("SOILSTATE" in kinds(s, x) for x in range(at + 1, min(at + 4, s.n)))
    return not soil and not kinds(s, at - 1) & _OF_LAND


def _before_field(s: Surroundings, site: Site) -> Scored | None:
    """The words up to `field`, if none of them says something in the trade."""
    end = site.at
    while s.text(end) != "field":
        if kinds(s, end) & _SAYS or any(p.rule in _SAID and p.end > end for p in s.phrases[end]):
            return None
        end += 1
    if place_then_name(s, site.at, end):
        return None
    text = _squeezed(s.lattice.original(site.at, end))
    return 4.0, Name(site.at, end + 1, text, "field", not not_visited(s, pass_fillers(s, end + 1)), site.cue_start)


def odd_at_site(s: Surroundings, site: Site) -> Scored | None:
    """A name of words that mean nothing in the trade, at a head."""
    if site.kind not in {"note", "line", "date"}:
        return None
    at = site.at
    end = odd_name(s.lattice, at, set_off_only=site.kind == "line" and not title(s, at, at + 1))
    if end is None or (
        site.kind == "line" and not title(s, at, end) and "along" in {s.text(i) for i in range(at, end)}
    ):
        return None  # Wild cane along the slough
    if end == at + 1 and s.text(at) in OF_FIGURES and s.text(end) == ":":
        return None  # Range: 12 to 15 nodes
    if an_animal_cut_short(s, at, end) or grows_there(s, at) or tested(s, at, end) or happened(s, at, end):
        return None
    if s.text(at) in s.words.never_first and not title(s, at, at + 1):
        return None  # beg. seed, hogs rooted up the corner
    return 3.1, Name(at, end, _squeezed(s.lattice.original(at, end)), site.kind, True, site.cue_start)


def leaders(s: Surroundings) -> list[Scored]:
    """`Candle Hill ........ R4`: what stands before a row of dots at a line's head is a name."""
    out: list[Scored] = []
    start = 0
    if _a_form_of_leaders(s):
        return out
    for i, p in enumerate(s.pieces):
        if p.form == "nl":
            start = i + 1
        elif p.text == "." and start < i <= start + LONGEST and s.pieces[i - 1].text != ".":
            end = i
            while s.text(end) == ".":
                end += 1
            if end - i >= 4 and end < s.n and s.pieces[end].form != "nl" and title(s, start, i):
                text = _squeezed(s.lattice.original(start, i))
                out.append((9.0, Name(start, i, text, "line", not not_visited(s, end), start)))
    return out


def _a_form_of_leaders(s: Surroundings) -> bool:
    """`FIELD ........ Osier Three`, `ROWS ......... 15 in.`: the words before the dots are heads."""
    return any(
        s.text(e.end) == "." and s.text(e.end + 1) == "."
        for i in range(s.n)
        if i == 0 or s.pieces[i - 1].form == "nl"
        for e in s.lattice.edges[i]
        if e.kind in {"FIELDCUE", "ROWS", "PLANTED", "GROUP", "VARIETY"}
    )


def _squeezed(text: str) -> str:
    return " ".join(text.split())


def not_visited(s: Surroundings, i: int) -> bool:
    return i < s.n and any(e.kind == "NOTVISITED" for e in s.lattice.edges[i])


_A_REASON = 8  # pieces between a name and the words that say that nobody looked
_SEEN_THERE = frozenset({"stage", "ratio", "label", "sampled", "percent", "trif", "nodes", "flowers", "pods", "seeds"})


_FOR_LEFT_OUT_BEHIND = _LISTED.words("for_left_out_behind")


def left_out_behind(s: Surroundings, end: int) -> int | None:
    """`Borrow Pit: flooded, not sampled`, `School got rained out never walked it`: where it is said that the field was not
    looked at, in the same sentence, with nothing seen there before; None where it is not said."""
    for x in range(end, min(end + _A_REASON, s.n)):
        ended = s.pieces[x].form == "nl" or (s.text(x) in {".", ";"} and s.lattice.soft[x] is None)
        if ended or strength(s, x)[1] in _SEEN_THERE:
            return None
        if not_visited(s, x):
            whole = max(e.end for e in s.lattice.edges[x] if e.kind == "NOTVISITED")
            whole += s.text(whole) in _FOR_LEFT_OUT_BEHIND
            over = whole >= s.n or s.pieces[whole].form in {"nl", "mark"} or s.lattice.filler[whole]
            return x if over else None
    return None


def _another_left_out(s: Surroundings, end: int, after: int) -> bool:
    """`R3 at Miller's, couldn't get into Ames`, `at the goat pen didn't get to the terrace piece`: another field is named
    behind the words."""
    past = max(e.end for e in s.lattice.edges[after] if e.kind == "NOTVISITED")
    if s.text(past) == "the" and noun_in(s, past + 1, min(past + 4, s.n)):
        return True
    return s.text(end) == "," and past < s.n and s.pieces[past].form == "word" and not s.lattice.filler[past]


_MAY_STAND = frozenset({"FIELDNOUN", "COMPASS", "LETTER", "INT"})


def _said_alone(s: Surroundings, start: int, end: int) -> bool:
    """`Field is tower hill.`: a sentence that tells no more, of words that fields are named after."""
    named = s.text(start - 1) in {"is", "'s", "was"} and s.text(end) == "." and end - start > 1 and noun_at(s, end - 1)
    return named and all(kinds(s, x) <= _MAY_STAND for x in range(start, end))


def _surely(s: Surroundings, start: int, end: int, talk: bool) -> bool:
    """After a bare `field`, which also begins a saying about it (field looks rough), a name shows itself."""
    if s.text(end) == "row" and title(s, start, end + 1) and s.cased:
        end += 1  # Field is Beech Row, May 28
    begun, rule = strength(s, pass_fillers(s, end))
    if title(s, start, end):
        told = s.text(start - 1) == "is" and end - start > 1 and s.text(end) == "."  # Field is Kettle Hill.
        return not talk or begun >= 1.0 or told
    nl = end
    while nl < s.n and s.pieces[nl].text in ".,:-":
        nl += 1
    if not talk and nl < s.n and s.pieces[nl].form == "nl":  # field creek bottom, on a line of its own
        return strength(s, pass_fillers(s, nl + 1))[0] >= 1.0 and noun_in(s, start, end)
    if rule == "date" or _said_alone(s, start, end):
        return True
    if begun < 1.0:
        return False
    if rule == "planted" or (not talk and noun_in(s, start, end)):
        return True
    return not talk and rule == "label" and not any(s.lattice.known[k] for k in range(start, end))
