"""Same, like, ditto, also: no plant that is as another."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.reading.phrase import Phrase
from notesparse.reading.unfit.beside import kinds, text
from notesparse.reading.unfit.heads import before_count
from notesparse.reading.unfit.labels.next_ones import behind_a_label
from notesparse.text.lattice import Lattice

_LISTED = cue_page("unfit/labels/same")
_LABEL_AT_MOST = 4  # pieces of a label at the head of a row


def words_between(lattice: Lattice, p: Phrase) -> bool:
    """`same as the first only the pod's lower`: the organ stands right behind the same, or it is another saying."""
    (_, same), (organ, _) = p.path[:2]
    return any(text(lattice, i) != "the" for i in range(same.end, organ))


def the_first_third(lattice: Lattice, p: Phrase) -> bool:
    """`same pod as the first | third plant`: two ordinals, and the second is the next plant."""
    at = next((i for i, e in p.path if e.kind == "ORD"), 0)
    return bool(kinds(lattice, at - 1) & {"ORD"})


def do_of_talk(lattice: Lattice, p: Phrase) -> bool:
    """`what do you think`: a `do` with no point is the same again only between a label and the end of what is said."""
    bare = any(text(lattice, i) == "do" and text(lattice, i + 1) != "." for i in range(p.start, p.end))
    return bare and not_behind_a_label(lattice, p)


def not_behind_a_label(lattice: Lattice, p: Phrase) -> bool:
    """`4-7  as 2`, `plant three as two`: like plant 2, where it stands between a label and the end of what is said of its
    plant."""
    pieces = lattice.pieces
    behind = any(
        e.kind == "BARE" and e.end == p.start for k in range(max(0, p.start - 8), p.start) for e in lattice.edges[k]
    )
    i = p.start - 1 - (p.start > 1 and pieces[p.start - 1].text in {".", ":", "-"})  # pl 4 as 3, Plant 4. As 3.
    mark = 1 + (i > 1 and pieces[i - 1].text == ".")  # Pl. 4 as 3
    behind = behind or (
        i > 0
        and "INT" in kinds(lattice, i)
        and any(e.kind in {"PLANT", "PLETTER", "HASH", "NODOT", "NUMBERW"} for e in lattice.edges[i - mark])
    )
    ended = p.end >= len(pieces) or pieces[p.end].form == "nl" or pieces[p.end].text in {".", ",", ";", "but", "except"}
    ended = ended or bool(kinds(lattice, p.end) & {"PLANT", "PLETTER"})  # plant three as one plant four ten trifs
    return not (behind and ended)


_NAMES_ONE = frozenset({"PLANT", "PLETTER", "HASH", "NODOT", "NUMBERW"})
_AFTER_ALSO = _LISTED.words("after_also")
_FOR_ALSO_OF_NO_PLANT = _LISTED.words("for_also_of_no_plant")


def also_of_no_plant(lattice: Lattice, p: Phrase) -> bool:
    """`p2 also`, `plant two likewise`: the same as the plant before, where nothing but the label stands before it and no
    more is told behind it; anywhere else (`p2 also has pods`, `five as well`) it is only a word of talk."""
    i = p.start - 1
    while i >= 0 and text(lattice, i) in _FOR_ALSO_OF_NO_PLANT:
        i -= 1
    first = next((k for k in range(max(0, i - 3), i + 1) if kinds(lattice, k) & _NAMES_ONE), None)
    number = i > 0 and bool(kinds(lattice, i) & {"INT", "LETTER", "ORD"})
    number = number and not kinds(lattice, i - 1) & {"INT"}  # plant two five as well
    number = number and not (first is not None and kinds(lattice, first - 1) & {"ORD"})  # fourth plant 8 as well
    labelled = (first is not None and first < i and number) or any(
        e.kind == "BARE" and i < e.end <= p.start for k in range(max(0, i - 8), i + 1) for e in lattice.edges[k]
    )
    ended = p.end >= len(lattice.pieces) or lattice.pieces[p.end].form == "nl" or text(lattice, p.end) in _AFTER_ALSO
    labelled = labelled or _an_ordinal_heads(lattice, i)  # Third, likewise
    return not labelled or not (ended or bool(kinds(lattice, p.end) & {"PLANT", "PLETTER", "HASH"}))


def _an_ordinal_heads(lattice: Lattice, i: int) -> bool:
    """The ordinal at piece i stands at the head of a sentence or a line."""
    k = i - 1 - (text(lattice, i - 1) in {"the", "and", "then"})
    head = k < 0 or lattice.pieces[k].form == "nl" or text(lattice, k) in {".", ";"}
    return i >= 0 and head and "ORD" in kinds(lattice, i)


def said_of_one(lattice: Lattice, p: Phrase) -> bool:
    """`next one eleven, same on the flowers`: a count, and no plant eleven."""
    return text(lattice, p.start - 1) == "one" or text(lattice, p.end) in {"on", "for"}


def count_of_a_label(lattice: Lattice, p: Phrase) -> bool:
    """`no.2, 8 do.`, `p2 8 ditto`: eight of what the plant before has, behind a label; no plant eight."""
    i = p.start - (text(lattice, p.start - 1) == ",")
    counted = len(p.path) == 2 and p.path[0][1].kind == "INT" and p.path[1][1].kind == "DITTO"
    return counted and behind_a_label(lattice, i)


_FOR_SAME_PLACE = _LISTED.words("for_same_place")


def same_place(lattice: Lattice, p: Phrase) -> bool:
    """`half inch, same four nodes`, `same node`, `same spot`: where on the plant, and no plant like the last."""
    i = p.end + ("INT" in kinds(lattice, p.end))
    return text(lattice, i) in _FOR_SAME_PLACE


def before_ordinal(lattice: Lattice, p: Phrase) -> bool:
    """`same as the first`: which plant it is like is said behind it."""
    i = p.end
    while text(lattice, i) in {"the", "on"}:
        i += 1
    said = {text(lattice, x) for x in range(p.start, p.end)}
    return bool(said & {"as", "like"}) and "ORD" in kinds(lattice, i)


def like_count(lattice: Lattice, p: Phrase) -> bool:
    """`like thirty percent`, `like 1/4 in`, `like 2 leafhoppers`: about so much, and no plant."""
    return p.path[0][1].kind == "LIKE" and (
        before_count(lattice, p)
        or bool(kinds(lattice, p.end) & {"INSECT", "WEED", "DISEASE"})
        or (text(lattice, p.end) == "/" and lattice.pieces[p.end].glued)
    )


def past_the_first(lattice: Lattice, p: Phrase) -> bool:
    """`the same as the first, and the fourth plant had 8`: like the first, and then another plant."""
    at = next((e.end for _, e in p.path if e.kind in {"SAMEAS", "LIKE"}), None)
    last = max((i for i, _ in p.path), default=0)
    if at is None:
        return False
    if p.path[-1][1].kind == "PLANT" and kinds(lattice, p.end) & {"INT", "INTSOUND"}:
        return True  # like the first plant four five trips
    taken = {i for i, e in p.path if e.kind == "ORD"}
    named = max(taken, default=last)  # like the first the fifth one five trips
    return any("ORD" in kinds(lattice, x) and x not in taken for x in range(at, named)) or any(
        "ORD" in kinds(lattice, x) for x in range(at, last) if text(lattice, x + 1) in {",", "."}
    )


def ditto_and_next(lattice: Lattice, p: Phrase) -> bool:
    """`plant two ditto plant three ...`: the next plant; `plant five ditto plant four`: the one that it is like."""
    if p.path[0][1].kind != "DITTO":
        return False
    named = next((int(e.means) for _, e in p.path if e.kind in {"INT", "INTSOUND"}), 0)
    for i in range(p.start - 1, max(0, p.start - 40), -1):
        here = next((int(e.means) for e in lattice.edges[i] if e.kind == "INT" and isinstance(e.means, int)), None)
        numbered = kinds(lattice, i - 1) & {"PLANT", "PLETTER", "HASH", "NUMBERW"}
        if here is not None and (numbered or (text(lattice, i - 1) == "." and "NODOT" in kinds(lattice, i - 2))):
            return here <= named
        bare = next((e.means[-1] for e in lattice.edges[i] if e.kind == "BARE"), "")
        if bare.isdigit():
            return int(bare) <= named  # Fourth: ditto number 1
    return True


def ditto_then_an_ordinal(lattice: Lattice, p: Phrase) -> bool:
    """`second ditto, third 10 trifs`: the next plant; `third: ditto the first.`: the one that it is like."""
    if p.path[0][1].kind != "DITTO":
        return False
    at = next((i for i, e in p.path if e.kind == "ORD"), p.end)
    together = all(text(lattice, i) == "the" for i in range(p.path[0][1].end, at))
    ends = p.end >= len(lattice.pieces) or lattice.pieces[p.end].form == "nl" or text(lattice, p.end) in _AFTER_ALSO
    return not (together and ends)


def of_a_stage(lattice: Lattice, p: Phrase) -> bool:
    """`plant three R5 same as one`: the number of a stage, and no plant."""
    return text(lattice, p.start - 1) in {"r", "v"}


_AFTER_A_ROW = _LISTED.words("after_a_row")


def ditto_of_no_row(lattice: Lattice, p: Phrase) -> bool:
    """`D  ditto A`, `3  do. 1`, `4) ditto 1 but pods 15 mm` behind a label: another plant, alone or with what is otherwise
    behind it; `ditto a pod`, `ditto 12 trifs` are not."""
    k, steps = p.start, 0
    while k > 0 and lattice.pieces[k - 1].form != "nl" and not (steps and kinds(lattice, k) & {"PLANT", "PLETTER"}):
        k, steps = k - 1, steps + 1
    alone = p.end >= len(lattice.pieces) or lattice.pieces[p.end].form == "nl" or text(lattice, p.end) in _AFTER_A_ROW
    return not (1 <= steps <= _LABEL_AT_MOST and alone)


_COUNTED_BEHIND = frozenset({"PLANT", "TRIF", "TRIPS", "NODE", "NODES", "INCH", "MM", "FOOT", "PCT"})


def like_an_article(lattice: Lattice, p: Phrase) -> bool:
    """`rolled up like a cigar`: what it looks like, and no plant a."""
    if lattice.original(p.end - 1, p.end) != "a" or p.end >= len(lattice.pieces):
        return False
    nxt = lattice.pieces[p.end]
    figure = nxt.form == "int" and text(lattice, p.end - 2) != "as"  # plant c same as a 14 trifs
    return figure or (nxt.form == "word" and not lattice.known[p.end])


def a_letter_behind(lattice: Lattice, p: Phrase) -> bool:
    """`plant C: same as A but 14 mm`: the letter is the plant that it is like, and no small word."""
    letter = text(lattice, p.end) if p.end < len(lattice.pieces) else ""
    if len(letter) != 1 or "LETTER" not in kinds(lattice, p.end):
        return False
    if text(lattice, p.end - 1) not in {"as", "like"} and not lattice.original(p.end, p.end + 1).isupper():
        return False
    named = any(
        text(lattice, i) == letter and ("BARE" in kinds(lattice, i) or kinds(lattice, i - 1) & {"PLANT", "PLETTER"})
        for i in range(1, p.start)
    )
    return named and not like_an_article(lattice, Phrase(p.start, p.end + 1, p.rule, p.form, p.path, 0.0))


_FOR_LIKE_A_LENGTH = _LISTED.words("for_like_a_length")


def like_a_length(lattice: Lattice, p: Phrase) -> bool:
    """`they're like an eighth of an inch`, `like a quarter inch`: how long, and no plant eight."""
    if not any(e.kind in {"LIKE", "SAMEAS"} and text(lattice, at) == "like" for at, e in p.path):
        return False
    behind = [text(lattice, x) for x in range(p.end, min(p.end + 4, len(lattice.pieces)))]
    units = _FOR_LIKE_A_LENGTH
    return (
        bool(units & set(behind[:1]))
        or (behind[:1] == ["of"] and bool(units & set(behind)))
        or (text(lattice, p.end - 1) in {"a", "an"} and bool(units & set(behind[:2])))
    )


def like_so_many(lattice: Lattice, p: Phrase) -> bool:
    """`looks like six plants to the foot`: a count, and no plant six."""
    named = {e.kind for _, e in p.path} & {"PLANT", "PLETTER", "HASH", "NUMBERW", "NODOT"}
    next_plant = text(lattice, p.end) == "plant" and "INT" in kinds(lattice, p.end + 1)  # same as one | plant four
    return not named and not next_plant and bool(kinds(lattice, p.end) & _COUNTED_BEHIND)


def as_well(lattice: Lattice, p: Phrase) -> bool:
    """`third node down as well plant three`: as well is also."""
    return any(e.kind == "AS" and text(lattice, at + 1) == "well" for at, e in p.path)


def as_tall(lattice: Lattice, p: Phrase) -> bool:
    """`as tall as plant 2`, `not as far along as plant 1`: alike in one thing, and no more."""
    if p.path[0][1].kind != "AS":
        return False
    return "as" in {text(lattice, i) for i in range(max(0, p.start - _COMPARED), p.start - 1)}


_COMPARED = 4  # pieces of `as far along`
