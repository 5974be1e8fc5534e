"""Leaves that turn or fall, with how many: `leaves 80% yellow`, `lvs half off` (guide 4.14, 4.20)."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing.finding import units
from notesparse.observing.finding.findwords import Item
from notesparse.observing.finding.units import Amount, longest, text_at
from notesparse.text.lattice import Lattice

_COMMON = cue_page("shared")
_LISTED = cue_page("finding/leafcolour")

_DROP = _LISTED.words("drop")
_TURN = _LISTED.words("turn")
_COLOUR = _LISTED.words("colour")
_BEGIN = _LISTED.words("begin")
_BETWEEN = _LISTED.words("between")
_TO_DO = _LISTED.table("to_do", str)
_LEAVES = _COMMON.words("leaf")
_WHICH = _COMMON.words("low") | _COMMON.words("top") | _COMMON.words("upper_or_lower") | {"middle"}
_BEFORE_READ = _LISTED.words("before_read")


def read(lattice: Lattice, i: int) -> tuple[Item, int] | None:
    """The finding that begins at piece i, and its end. A share may stand before the leaves or after them."""
    k = i
    part: Amount | None = units.percent(lattice, k) or units.share(lattice, k)
    if part is not None:
        k = part.end
        while text_at(lattice, k) in {"of", "the", "its"}:
            k += 1
    elif text_at(lattice, k) in {"most", "all"} and text_at(lattice, k + 1) in {"of", "the"}:
        k += 1
        while text_at(lattice, k) in {"of", "the"}:
            k += 1
    which = None
    if text_at(lattice, k) in _WHICH:
        which = k
        k += 1
    whole = longest(lattice, k, "LEAFTURN", "LEAFDROP", sound=False)
    if whole is not None and text_at(lattice, k) in _LEAVES:
        if part is None and which is None and k == i:
            return None  # the words are one head
        return _item(lattice, i, str(whole.means), whole.end, part, which), whole.end
    if text_at(lattice, k) not in _LEAVES and not (which is None and part is None and _the_leaf(lattice, k)):
        return None
    k += 1
    for _ in range(7):
        if k >= len(lattice.pieces) or lattice.pieces[k].form == "nl":
            return None
        text = text_at(lattice, k)
        if text_at(lattice, k - 1) == "to":
            if text_at(lattice, k - 2) in _BEFORE_READ:
                return None  # leaves about to turn
            text = _TO_DO.get(text, text)  # leaves startin to turn
        if text in _TURN or (text in _DROP and not (text == "gone" and text_at(lattice, k + 1) in _TURN)):
            name = "leaf yellowing" if text in _TURN else "leaf drop"
            if part is None and which is None and not _said(lattice, i, k):
                return None
            k += text_at(lattice, k + 1) in _COLOUR  # turning yellow
            return _item(lattice, i, name, k + 1, part, which), k + 1
        if [text_at(lattice, x) for x in range(k, k + 3)] == ["on", "the", "ground"]:
            if part is None and which is None and not _said(lattice, i, k):
                return None
            return _item(lattice, i, "leaf drop", k + 3, part, which), k + 3
        said = units.percent(lattice, k) or units.share(lattice, k)
        if said is not None and part is None:
            part, k = said, said.end
        elif text in _BETWEEN:
            k += 1
        else:
            return None
    return None


def _the_leaf(lattice: Lattice, k: int) -> bool:
    """`leaf is all on the ground`, `the leaf's mostly down`: all of it, and no leaf of its own (top leaf is down)."""
    before = text_at(lattice, k - 1)
    opens = k == 0 or before == "the" or lattice.pieces[k - 1].form in {"mark", "nl"} or before in {"and", "but"}
    return text_at(lattice, k) == "leaf" and opens and text_at(lattice, k + 1) in {"is", "'s", "has"}


_OPENS = _LISTED.words("opens")
_SUBJECT = _LISTED.words("subject")
_SOME = _LISTED.words("some")
_VERB = _BETWEEN | _LISTED.words("verb")
_FALLEN = _LISTED.words("fallen")
_FOR_FALLS_TOO = _LISTED.words("for_falls_too")
_FOR_FALLS_TOO_2 = _COMMON.words("them") | {"of", "the"}
_BEFORE_FALLS_TOO = _LISTED.words("before_falls_too")


def falls_too(lattice: Lattice, i: int) -> tuple[Item, int] | None:
    """Behind leaves that turn: `& coming down`, `the bottom ones have dropped`, `about half on the ground`: they fall."""
    k = i
    while text_at(lattice, k) in _OPENS | _FOR_FALLS_TOO:
        k += 1
    part = units.percent(lattice, k) or units.share(lattice, k)
    which = None
    if part is not None:
        k = part.end
        while text_at(lattice, k) in _FOR_FALLS_TOO_2:
            k += 1
    if text_at(lattice, k) in _WHICH:
        which = k
        k += 1
        if text_at(lattice, k) not in _SUBJECT | _VERB:
            return None
    had = k
    while text_at(lattice, k) in _SUBJECT | _SOME | {"of", "them", "em"}:
        k += 1
    end_of_which = k
    verbs = k
    while (
        k < len(lattice.pieces)
        and k - verbs < 5
        and text_at(lattice, k) in _VERB
        and text_at(lattice, k) not in _FALLEN
    ):
        k += 1
    text = text_at(lattice, k)
    if [text_at(lattice, x) for x in range(k, k + 3)] == ["on", "the", "ground"] and (k > i):
        end = k + 3
    elif text in {"down", "off"}:
        before = {text_at(lattice, x) for x in range(verbs, k)}
        if part is None and not before & _BEFORE_FALLS_TOO:
            return None
        end = k + 1
    elif text in _FALLEN and (text not in {"drop", "fall"} or text_at(lattice, k - 1) in {"to", "and", "&"}):
        end = k + 1
        end += text_at(lattice, end) in {"off", "down"}
    else:
        return None
    item = Item("leaf", "leaf drop", i, end)
    if part is not None:
        item.value, item.unit = part.value, "%"
    if which is not None:
        item.wheres.append(lattice.written(which, max(end_of_which, which + 1)))
    elif end_of_which > had and part is None and text_at(lattice, had) not in _SOME:
        return None  # ones of which nothing is known
    return item, end


_FOR_SAID = _LISTED.words("for_said")


def _said(lattice: Lattice, i: int, k: int) -> bool:
    """Whether a word for all of them, or a question mark, stands between: a plant's own lower leaves are not meant."""
    return any(text_at(lattice, j) in _BEGIN | _FOR_SAID for j in range(i + 1, k))


def _item(lattice: Lattice, i: int, name: str, end: int, part: Amount | None, which: int | None) -> Item:
    item = Item("leaf", name, i, end)
    if part is not None:
        item.value, item.unit = part.value, "%"
    if which is not None:
        item.wheres.append(lattice.written(which, which + 2))
    return item
