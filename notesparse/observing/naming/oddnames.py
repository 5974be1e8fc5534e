"""Names of fields in words of no trade meaning: `Whetstone - 5 plants`, `Kingpost 95 100 97 80` (guide 4.19).

Such a name shows itself by where it stands (the head of the note, a line's head, after a date) and by what follows: a
mark that sets it off, or at once something seen. A few words that say how a thing was seen stand there as well.
"""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.language.lists import claim_words, odd_name_words
from notesparse.text import match
from notesparse.text.lattice import Lattice

_COMMON = cue_page("shared")
_LISTED = cue_page("naming/oddnames")
_OF_A_FLOWER = _COMMON.words("flower_colours")

_LONGEST = 3
_WHEN = _LISTED.words("when")
_MONTHS = _LISTED.words("months")
_SET_OFF = {"-", ":", "=", ",", ".", "(", ">", "|"}
_NO_NAME_ENDS = _LISTED.ordered("no_name_ends")
_SEEN = {
    "INSECT",
    "DISEASE",
    "WEED",
    "DAMAGE",
    "DEFOL",
    "STANDWORD",
    "SOILWORD",
    "SOILSTATE",
    "SWEEP",
    "FLOWER",
    "POD",
    "SEED",
    "BROWN",
    "PCT",
    "NO",
    "NONE",
    "TRIF",
    "NODES",
    "INT",
    "DEC",
    "R",
    "V",
    "PLANT",
    "PLETTER",
    "STOP",
    "PLANTED",
    "EMERGED",
    "DMY",
    "MONTH",
    "WEEKDAY",
    "UNI",
    "COT",
    "GREEN",
    "HALF",
    "MOST",
    "EVERYW",
    "STAGENAME",
    "OVERALL",
    "AVERAGE",
    "HEIGHTWORD",
    "BODYHIGH",
    "SAMPLED",
    "LOTS",
    "EARLY",
    "OTHERFIND",
    "LEAFDROP",
    "LEAFTURN",
    "TURNING",
}


def misspelled(lattice: Lattice, i: int) -> bool:
    """A day, a month or what was done, one slip away from how it is spelled: looekd, moonday, juyl."""
    p = lattice.pieces[i]
    if p.form != "word" or any(e.how == "exact" for e in lattice.edges[i] if e.kind != "LETTER"):
        return False
    return match.slip_of(p.text, odd_name_words().done | _WHEN) or match.slip_of(p.text, _MONTHS, True)


_OURS = _COMMON.words("our") | {"a"}


def odd(lattice: Lattice, i: int) -> bool:
    """A word that means nothing in the trade, or only by nearness; past the end of the note there is none."""
    if i >= len(lattice.pieces):
        return False
    p, words = lattice.pieces[i], odd_name_words()
    if p.text in claim_words().people and lattice.at(i - 1) in _OURS and lattice.at(i + 1) != "'s":
        return False  # my nephew planted it
    if p.form != "word" or len(p.text) < 3 or lattice.filler[i] or p.text in words.not_first or p.text in words.done:
        return False
    if any(e.kind in {"ORD", "INT", "YEAR"} for e in lattice.edges[i]) or misspelled(lattice, i):
        return False  # Slag pile 27th; thrteen nodes
    if p.glued and i and lattice.pieces[i - 1].form in {"int", "dec", "word"}:
        return False  # 3/16ths
    if i and any(e.kind == "WEED" and e.how == "exact" and e.end > i for e in lattice.edges[i - 1]):
        return False  # Morning glory: no glory behind a greeting
    return not any((not e.how.startswith("near") or e.kind == "PLANT") and e.kind != "LETTER" for e in lattice.edges[i])


def ends_as_talk(word: str) -> bool:
    """`missing`, `really`: words that end so say how or what is done."""
    return word.endswith(_NO_NAME_ENDS)


def traded(lattice: Lattice, i: int) -> bool:
    """A single animal or weed (Firefly, Goldenrod) that may be a field's name where no finding could stand."""
    p = lattice.pieces[i]
    if p.form != "word" or p.text.endswith("s") or len(p.text) < 4:
        return False
    kinds = {e.kind for e in lattice.edges[i] if e.how == "exact"} - {"LETTER"}
    return (
        bool(kinds)
        and kinds <= {"INSECT", "WEED", "DISEASE"}
        and all(e.end == i + 1 for e in lattice.edges[i] if e.how == "exact")
    )


def _measured(lattice: Lattice, i: int) -> bool:
    """A unit of length stands at piece i: 1/2 in."""
    return i < len(lattice.edges) and bool({e.kind for e in lattice.edges[i]} & {"INCH", "MM", "CM", "FOOT"})


def before_plants(lattice: Lattice, i: int) -> bool:
    """At piece i the date, the first label or the stage of a visit stands, past a mark."""
    pieces = lattice.pieces
    while (
        i < len(pieces) and pieces[i].form == "mark" and (pieces[i].text in _SET_OFF or not pieces[i].text.isascii())
    ) or (i < len(pieces) - 1 and pieces[i].form == "nl"):
        i += 1
    if i + 1 >= len(pieces):
        return False
    if pieces[i].glued and pieces[i].form == "int":
        return False  # stinkbug3/25sw
    kinds = {e.kind for e in lattice.edges[i] if e.how == "exact"}
    if kinds & {"DMY", "MONTH", "WEEKDAY", "PLANTED", "BARE"} or (
        pieces[i].form == "int" and pieces[i + 1].text == "/" and not _measured(lattice, i + 3)
    ):
        return True
    return bool(kinds & {"PLANT", "PLETTER", "R", "V", "STOP"}) and any(e.kind == "INT" for e in lattice.edges[i + 1])


def _joins(lattice: Lattice, i: int) -> bool:
    """A word that may stand inside such a name: odd, or a noun of places or a compass word."""
    return odd(lattice, i) or any(e.kind in {"FIELDNOUN", "COMPASS"} and e.end == i + 1 for e in lattice.edges[i])


_FOR_PER = _LISTED.words("for_per")


def _per(lattice: Lattice, k: int) -> bool:
    return k < len(lattice.pieces) and (
        lattice.pieces[k].text in _FOR_PER or any(e.kind == "PCT" for e in lattice.edges[k])
    )


def odd_name(lattice: Lattice, i: int, *, set_off_only: bool) -> int | None:
    """The end of a name of odd words that begins at piece i, or None.

    With `set_off_only` a single word needs a mark or a date behind it (a sentence may begin with any word).
    """
    pieces = lattice.pieces
    j = _run_end(lattice, i)
    if j == i and j + 1 < len(pieces) and traded(lattice, i):
        return i + 1 if before_plants(lattice, i + 1) else None
    if j == i or j >= len(pieces) or _no_name(lattice, i, j):
        return None
    if j == i + 1 and i and pieces[i - 1].text == "the" and pieces[i].text.endswith("s") and pieces[j].text == "are":
        return None  # the insides are three
    k = _past_marks(lattice, j)
    if k is None:
        return None
    mark = k > j
    if k + 1 < len(pieces) and pieces[k].text in odd_name_words().behind_a_name and not mark:
        k += 1
    if k >= len(pieces) or pieces[k].form == "nl":
        return None
    kinds = {e.kind for e in lattice.edges[k] if e.how != "sound" and not e.how.startswith("near")}
    if kinds & {"DMY", "MONTH", "WEEKDAY"} or (
        pieces[k].form == "int" and k + 1 < len(pieces) and pieces[k + 1].text == "/"
    ):
        return j
    if not mark and (pieces[k].text in odd_name_words().last_of_an_animal or _counted(lattice, i, j)):
        return None  # stinck bugs
    if not kinds & _SEEN and not (pieces[k - 1].text == "(" and "WHEREWORD" in kinds):
        return None
    return j if mark or not set_off_only else None


def _run_end(lattice: Lattice, i: int) -> int:
    """Where the odd words that begin at piece i end, at most three of them."""
    pieces = lattice.pieces
    j = i
    while j < len(pieces) and j - i < _LONGEST and _joins(lattice, j) and (j == i or pieces[j].gap < 3):
        j += 1
        if j < len(pieces) and pieces[j].text in {"'s", "s"} and pieces[j].glued:
            j += 1
    return j


def _no_name(lattice: Lattice, i: int, j: int) -> bool:
    """Words that are no name whatever follows: none odd, a part of the field (north end), too many, what was done."""
    return (
        not any(odd(lattice, k) for k in range(i, j))
        or any(e.kind == "WHEREWORD" and e.end == j for e in lattice.edges[i])
        or (j - i == _LONGEST and _joins(lattice, j))
        or (j == i + 2 and second_crop(lattice, i))
        or (j == i + 1 and lattice.at(i) in _OF_A_FLOWER and any(e.kind == "FLOWER" for e in lattice.edges[j]))
        or (j == i + 1 and ends_as_talk(lattice.pieces[i].text) and not lattice.original(i, j)[:1].isupper())
    )


def second_crop(lattice: Lattice, i: int) -> bool:
    """`tobacco barn field, double crop drilled 6/18`: beans behind wheat, and no name by itself."""
    return lattice.at(i) in {"double", "dbl"} and lattice.at(i + 1) in {"crop", "cropped"}


def _past_marks(lattice: Lattice, j: int) -> int | None:
    """The piece behind the marks that set a name off; None where a hyphen goes on with the word."""
    pieces = lattice.pieces
    k = j
    while k < len(pieces) and pieces[k].form == "mark" and (pieces[k].text in _SET_OFF or not pieces[k].text.isascii()):
        if (
            pieces[k].text == "-"
            and pieces[k].glued
            and k + 1 < len(pieces)
            and pieces[k + 1].glued
            and pieces[k + 1].form == "word"
        ):
            return None
        k += 1
    return k


def _counted(lattice: Lattice, i: int, j: int) -> bool:
    """A misspelled animal with its count: aphdis 150 per plant."""
    return (
        any(e.how.startswith("near") and e.kind in {"INSECT", "WEED", "DISEASE"} for e in lattice.edges[i])
        and lattice.pieces[j].form == "int"
        and _per(lattice, j + 1)
    )


MEALS = _COMMON.words("meals")


def at_a_place(lattice: Lattice) -> tuple[int, int] | None:
    """`The hail at Tinderbox took ...`: one strange word with a capital behind `at`, in the first sentences of a note
    that names no field."""
    pieces = lattice.pieces
    if lattice.text.isupper():
        return None
    for i in range(1, len(pieces)):
        if pieces[i - 1].text == "." and lattice.soft[i - 1] is None and sum(p.text == "." for p in pieces[:i]) > 2:
            return None
        if (
            pieces[i - 1].text != "at"
            or pieces[i].text in MEALS
            or not odd(lattice, i)
            or not lattice.original(i, i + 1)[:1].isupper()
        ):
            continue
        j = i + 1
        while (
            j < min(len(pieces), i + 3)
            and pieces[j].form == "word"
            and lattice.original(j, j + 1)[:1].isupper()
            and _joins(lattice, j)
        ):
            j += 1
        if j < len(pieces) and pieces[j].text == "'s":
            continue  # lunch at Sally's
        return i, j
    return None
