"""Spellings of the word files at a piece, of one word or several, and what their neighbours say against them."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.language.vocabulary import Sense, Trie, Vocabulary
from notesparse.text import match, numbers
from notesparse.text.marks import organ_before
from notesparse.text.net import FIGURE, NEAR, SOUND, Edge, Net

_LISTED = cue_page("text/spellings")
_COMMON = cue_page("shared")

_NOT_UNIT = _LISTED.words("not_unit")
_WHOLE = _LISTED.words("whole")
_BEFORE_A_STOP = _LISTED.words("before_a_stop")
_FOUND = frozenset({"INSECT", "DISEASE", "WEED"})
_PARTS = _COMMON.words("parts_of_an_inch") | {"ths"}


def spellings(net: Net, i: int, words: Vocabulary) -> None:
    """Every sense of every spelling that begins at piece i."""
    pieces = net.pieces
    node: Trie | None = words.trie
    j = i
    damaged = slipped = False
    while node is not None and j < len(pieces) and pieces[j].form != "nl":
        q = pieces[j]
        if q.text == "-" and j > i and q.text not in node:
            j += 1  # tri-foliates
            continue
        if q.text == "." and j > i and q.text not in node and _shortens(net, j):
            j += 1  # lvs. off, stems grn.
            continue
        step, end = node.get(q.text), j + 1
        if step is None:
            step, end = _damaged_step(net, node, j, words)
            damaged = damaged or step is not None
        if step is None and j > i and not slipped:
            step, end = _slip(net, node, j, words), j + 1
            slipped = step is not None
        node = step
        if node is not None:
            j = end
            for sense in node.get("", ()):
                if not slipped:
                    _add(net, i, j, sense, damaged)
                elif sense[0] in _FOUND:
                    net.add(i, j, sense[0], sense[1], NEAR, "near 0.80")


def _shortens(net: Net, j: int) -> bool:
    """The dot at piece j belongs to a shortened word, and what that is said of goes on in small letters."""
    short, behind = net.at(j - 1), net.piece(j + 1)
    ends = behind is None or behind.glued or behind.form != "word" or net.original(j + 1, j + 2)[:1].isupper()
    return not ends and net.glued(j) and len(short) > 1 and short not in _WHOLE and match.is_abbreviation(short)


def _slip(net: Net, node: Trie, j: int, words: Vocabulary) -> Trie | None:
    """A misspelled word inside the name of an animal, a disease or a weed: bean leaf beetel, stink bgus, white mlod."""
    p = net.pieces[j]
    if p.form != "word" or p.glued or len(p.text) < 4 or p.text in words.never or p.text in words.trie:
        return None
    near = [node[w] for w in node if match.one_off(p.text, w)]
    meant = {tuple((s[0], s[1]) for s in step.get("", ())) for step in near}
    return near[0] if len(meant) == 1 else None


def _add(net: Net, i: int, j: int, sense: Sense, damaged: bool) -> None:
    kind, means, _, sound, cost = sense
    if damaged:
        if kind != "FILLER":
            net.add(i, j, kind, means, FIGURE, "figure")
    elif kind != "FILLER":
        if sound:
            net.add(i, j, kind, means, SOUND if cost is None else cost, "sound")
        else:
            net.add(i, j, kind, means, 0.0, "exact")
    elif j > i + 1:
        net.add(i, j, "FILLER", "", 0.0, "exact")
    else:
        net.filler[i] = True
        net.soft[i] = 0.05


def _damaged_step(net: Net, node: Trie, j: int, words: Vocabulary) -> tuple[Trie | None, int]:
    """A damaged word inside a form of several words: bean 1eaf beetle, node frorn top."""
    if net.pieces[j].glued or net.pieces[j].form not in {"int", "word"}:
        return None, j
    k = net.run_end(j)
    run = net.original(j, k)
    known = words.singles.get(run.lower(), ())
    if len(run) < 3 or run.isdigit() or any(not sound for _, _, _, sound, _ in known):
        return None, j  # brown stern rot: only misheard is stern a word of the trade
    for word in match.damaged_words(run):
        step = node.get(word)
        if step is not None:
            return step, k
    return None, j


_BEFORE_IN_PLACE = _LISTED.words("before_in_place")
_BEFORE_IN_PLACE_2 = _LISTED.words("before_in_place_2")
_FOR_IN_PLACE = _LISTED.words("for_in_place")
_BEFORE_ONE = _LISTED.words("before_one")
_OF_A_LEAF = _LISTED.words("of_a_leaf")
_HAS = _COMMON.words("having")


_ONLY_A_PLACE = frozenset({"FIELDNOUN", "STOP"})


def in_place(net: Net, i: int) -> None:
    """What the pieces around take from a word, or add to it."""
    pieces, p, out = net.pieces, net.pieces[i], net.edges[i]
    before = pieces[i - 1] if i else None
    two_before = pieces[i - 2] if i > 1 else None
    if (
        p.text == "in"
        and not p.glued
        and net.at(i + 1) in _NOT_UNIT
        and not (_part_before(net, i) or _long_pod(net, i))
    ):
        out[:] = [e for e in out if e.kind != "INCH"]  # 5 in the top four: no inches
    if p.text == "1" and net.at(i - 1) in _BEFORE_ONE and net.at(i + 1) in _OF_A_LEAF:
        out[:] = []
        net.add(i, i + 1, "ONE", "one", 0.0, "exact")  # 5 tf nxt 1 still rolled, 7th 1 not open
    if p.text in {"come", "came"} and net.at(i + 1) == "up" and net.at(i + 2) == "with":
        out[:] = [e for e in out if e.end > i + 2]  # the stand I come up with
    if net.at(i + 1) == "one" and p.text in _HAS and _the_next_plant(net, i + 2):
        out[:] = [e for e in out if e.kind != "HAS" or e.end == i + 1]  # plant two only has one plant three has two
    figure_before = before is not None and before.form == "int"
    if p.text == "or" and figure_before and (two_before is None or two_before.text not in _BEFORE_IN_PLACE):
        out[:] = [e for e in out if e.kind != "RSOUND"]  # 3 or 4
    if (
        p.text in {"n", "y"}
        and before is not None
        and before.text in {":", "=", "?"}
        and i > 1
        and any(e.kind in {"FLOWER", "POD", "SEED"} and e.end == i - 1 for e in net.edges[i - 2])
    ):  # fl:n pd:y
        if p.text == "n":
            net.add(i, i + 1, "NONE", "none", 0.0, "exact")
        net.known[i] = net.filler[i] = True
    if p.text == "at" and _ordinal_alone(net, i + 1) and organ_before(net, i):
        net.add(i, i + 1, "ATMARK", "at", 0.0, "exact")  # pod 3/8 at 3rd, no seed
    if p.text in {"n", "y"} and p.gap == 1 and _organ_ends(net, i) and _answer_ends(net, i + 1):
        if p.text == "n":
            net.add(i, i + 1, "NONE", "none", 0.0, "exact")  # sd n: no seed, and no north
            out[:] = [e for e in out if e.kind == "NONE"]
        net.known[i] = net.filler[i] = True
    if p.text == "nf" and _leaves_end(net, i - (net.at(i - 1) == ",")):
        net.add(i, i + 1, "NOTHINGOPEN", "no open flower", 0.0, "exact")  # 8 tri nf
        net.known[i] = True
    if p.text == "n" and p.glued and figure_before and not (i + 1 < len(pieces) and pieces[i + 1].glued):
        net.add(i, i + 1, "NODES", "node", 0.1, "exact")  # 12n
    if p.text == "no" and before is not None and net.at(i + 1) in {"has", "had"}:
        if before.text in _BEFORE_IN_PLACE_2 or any(e.kind == "ORD" and e.end == i for e in net.edges[i - 1]):
            out[:] = [Edge(i + 1, "NODE", "node", NEAR, "near 0.80")]  # top no has a flower: a node cut short
            net.filler[i] = False
    if p.text in {"beans", "plants"} and net.at(i + 1) == "down" and _down_somewhere(net, i):
        out[:] = [e for e in out if not (e.kind == "DAMAGE" and e.end == i + 2)]
    if p.text in {"st", "sta"} and not (_numbered_at_the_head(net, i) or _numbered_at_the_end(net, i)):
        out[:] = [e for e in out if e.kind != "STOP"]  # St. Johns, 1st, 4th St.
    if before is not None and before.text == "mill" and p.gap == 1 and out and {e.kind for e in out} <= _ONLY_A_PLACE:
        net.edges[i - 1] = [e for e in net.edges[i - 1] if e.kind != "MM"]  # gauge said .6 Mill Creek
    if p.text in {"of", "but", "except"}:
        net.soft[i] = None
    if (
        p.text in _FOR_IN_PLACE
        and i
        and any(e.kind in {"TRIF", "NODES", "COUNTW"} and e.end == i for e in net.edges[i - 1])
    ):
        net.soft[i] = 0.05  # trifs were 8
    if net.filler[i] and any(e.kind == "INTSOUND" for e in out):
        net.soft[i] = 0.7  # for, to: a number may hide here
    if p.text in {"sw", "sws"} and figure_before and (p.glued or (two_before is not None and two_before.text == "/")):
        net.add(i, i + 1, "SWEEP", "sweep", 0.0, "exact")  # 3/25sw


def _leaves_end(net: Net, i: int) -> bool:
    """A word for leaves or nodes ends before piece i."""
    return i > 0 and any(e.kind in {"TRIF", "TRIPS", "NODES"} and e.end == i for e in net.edges[i - 1])


def _numbered_at_the_head(net: Net, i: int) -> bool:
    """`st. 2   pl 1 9 tf`, `Sta. 4`: a line or a sentence begins here, and the number of a stop follows."""
    k = i + 1 + (net.at(i + 1) == "." and net.glued(i + 1))
    number = net.piece(k)
    if number is None or number.form != "int" or len(number.text) > 2:
        return False
    led = net.opens(i) or net.at(i - 1) in _BEFORE_A_STOP  # same as st. 1
    return led and (number.gap > 0 or k > i + 1)


def _numbered_at_the_end(net: Net, i: int) -> bool:
    """`stand 6 per ft st 1, 4 per ft st 2`, `defol 5% sta. 3`: behind what was found, the number of a stop ends the clause."""
    k = i + 1 + (net.at(i + 1) == "." and net.glued(i + 1))
    number, before = net.piece(k), net.pieces[i - 1] if i else None
    if number is None or number.form != "int" or number.gap != 1 or len(number.text) > 2 or before is None:
        return False
    street = before.form == "int" or net.original(i - 1, i)[:1].isupper()  # Elm St 2, 4 st
    after = net.piece(k + 1)
    return (
        not street
        and not net.pieces[i].glued
        and (after is None or after.form == "nl" or after.text in {",", ".", ";", "and"})
    )


_FOR_DOWN_SOMEWHERE = _COMMON.words("beside") | {"through"}
_BEHIND_DOWN_SOMEWHERE = _COMMON.words("node") | _COMMON.words("pod") | {"one", "ones"}


def _down_somewhere(net: Net, i: int) -> bool:
    """`five percent of the plants down by the creek`, `beans down in the low ones`: where they are, and not lodged."""
    k = i + 2
    if net.at(k) not in _FOR_DOWN_SOMEWHERE:
        return False
    before = net.at(i - 1) if net.at(i - 1) != "the" else net.at(i - 2)
    k += 1 + (net.at(k + 1) == "the")
    low = net.at(k) in {"low", "lower", "bottom"} and net.at(k + 1) in _BEHIND_DOWN_SOMEWHERE
    return low or before == "of"


_BEHIND_ORDINAL_ALONE = _COMMON.words("ordinal_tails")


def _ordinal_alone(net: Net, i: int) -> bool:
    """`3rd` at piece i, and the clause ends behind it: no day of a month, and no node from below."""
    if i >= len(net.pieces) or net.pieces[i].form != "int" or net.at(i + 1) not in _BEHIND_ORDINAL_ALONE:
        return False
    after = net.piece(i + 2)
    return after is None or after.form == "nl" or after.text in {",", ";"} or after.gap >= 2


def _organ_ends(net: Net, i: int) -> bool:
    """`fl`, `sd` right before piece i."""
    return i > 0 and any(
        e.kind in {"FLOWER", "POD", "SEED"} and e.end == i and e.how == "exact" for e in net.edges[i - 1]
    )


def _answer_ends(net: Net, i: int) -> bool:
    """The clause ends before piece i, or the next answer begins there: `fl n, pd y`, `fl n pd n`."""
    after = net.piece(i)
    if after is None or after.form == "nl" or after.gap >= 2 or (after.text in {",", ";"} and not after.gap):
        return True
    if after.text == ".":
        return after.glued
    return net.at(i + 1) in {"n", "y"} and after.form == "word"


def _the_next_plant(net: Net, i: int) -> bool:
    """`plant four`, `fourth plant` at piece i."""
    return net.at(i) == "plant" or (net.at(i + 1) == "plant" and numbers.ordinal(net.at(i)) is not None)


_POD_PLACES = _LISTED.words("pod_places")
_COUNTED_IN_PODS = _LISTED.words("counted_in_pods")


def _long_pod(net: Net, i: int) -> bool:
    """`p6 1 in pod 2nd node down`, `1 in pods top 4`: a place behind the pod, so that the small figure before `in` is its
    length; no `10 plants, 1 in pod`, no `seed 2 in pod`."""
    if net.at(i + 1) not in {"pod", "pods"} or net.at(i - 1) not in {"1", "2"} or net.at(i - 2) in _COUNTED_IN_PODS:
        return False
    place = net.piece(i + 2)
    return place is not None and (place.text in _POD_PLACES or (place.form == "int" and net.glued(i + 3)))


def _part_before(net: Net, i: int) -> bool:
    """A decimal, a fraction or a part of an inch ends before piece i."""
    if not i:
        return False
    before = net.pieces[i - 1]
    return before.form == "dec" or before.text in _PARTS or (i > 1 and net.pieces[i - 2].text == "/")
