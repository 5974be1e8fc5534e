"""`All R2 except 3 and 7, those R1`: several plants that are otherwise, and what goes over it (guide 4.7)."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.lazy import dataclass
from notesparse.observing import leaves, organs
from notesparse.observing.draft import PlantDraft, Sighting
from notesparse.observing.fold import EVIDENCE, EXCEPT, FILLER, UNREAD
from notesparse.observing.walking.by_place import number_at, places
from notesparse.observing.walking.counted import cut, numbers_at
from notesparse.observing.walking.listening import Listener

_LISTED = cue_page("walking/exceptions")
_COMMON = cue_page("shared")

_LABEL_WORDS = (
    _COMMON.words("plant") | _COMMON.words("plants") | _COMMON.words("number") | _COMMON.words("for_on_the") | {"p"}
)
_ANEW = frozenset({"NO", "NONE", "NOT", "FLOWER", "POD", "SEED", "BEAN", "TRIF", "NODES", "PLANT", "PLETTER", "LABELP"})
_COUNTED = frozenset({"TRIF", "NODES", "NODE", "POD", "SEED", "BEAN", "FLOWER", "INCH", "MM", "CM", "PCT", "OF"})
_THEY = _LISTED.words("they")
_SAID = _LISTED.words("said")
_HOW = "otherwise than the others: how is not said"


@dataclass(slots=True)
class Before:
    """What a plant had from what was said of all, when it was said to be otherwise."""

    plant: PlantDraft
    facts: dict[str, set[int]]  # by key: which entries it had
    sightings: list[Sighting]
    what: str  # what was said of all last: the organ, or the key of a fact
    words: tuple[int, int]  # the pieces that name the plants
    together: list[PlantDraft]  # of which it was said, this one among them


def remember(w: Listener, plants: list[PlantDraft], what: str, words: tuple[int, int]) -> None:
    """What is said of these plants up to the end of the sentence goes over what was said of all."""
    shared = {e.span for p in plants for e in p.facts.get(what, [])[-1:]}
    together = [p for p in w.ctx.living() if shared & {e.span for e in p.facts.get(what, [])}]
    w.otherwise = [
        Before(p, {k: {id(e) for e in v} for k, v in p.facts.items()}, list(p.sightings), what, words, together)
        for p in plants
    ]


def said_last(w: Listener) -> str:
    """The organ or the key of a fact that was spoken of last."""
    ctx = w.ctx
    return ctx.open[0].what if ctx.open else ctx.statements[-1].kind if ctx.statements else ""


_OF_THE_ONE = _LISTED.words("of_the_one")
_PLAIN = frozenset({"NO", "NONE", "FLOWER", "POD"})


def _of_all_again(w: Listener, end: int) -> bool:
    """`All 8 trifs except plant 4 has 7. No blooms.`: the sentence behind piece `end` says something plain, and of
    nobody."""
    pieces, edges = w.ctx.lattice.pieces, w.ctx.lattice.edges
    first = end + 1
    if first >= len(pieces) or pieces[end].text != "." or not {e.kind for e in edges[first]} & _PLAIN:
        return False
    i = first
    while i < len(pieces) and not w.ends_at(i):
        number = any(e.kind == "INT" for e in edges[i]) and pieces[i - 1].text not in {"top", "upper"}
        if number or pieces[i].text in _OF_THE_ONE or any(e.kind == "PLANT" for e in edges[i]):
            return False
        i += 1
    return True


def settle(w: Listener, end: int) -> None:
    """At the end of the sentence, at piece `end`."""
    for was in w.otherwise:
        p = was.plant
        old = {id(s) for s in was.sightings}
        new = any(id(s) not in old for s in p.sightings) or any(
            id(e) not in was.facts.get(k, set()) for k, v in p.facts.items() for e in v
        )
        if not new and was.what:
            p.facts.pop(was.what, None)
            p.sightings = [s for s in p.sightings if s.what != was.what]
            w.ctx.mark(was.words[0], was.words[1], UNREAD, _HOW)
            continue
        for key, had in was.facts.items():
            entries = p.facts.get(key, [])
            if any(id(e) not in had for e in entries):
                p.facts[key] = [e for e in entries if id(e) not in had]
        told = {s.what for s in p.sightings if id(s) not in old}
        p.sightings = [s for s in p.sightings if id(s) not in old or s.what not in told]
    together = w.otherwise[-1].together
    if len(together) > len(w.otherwise) and w.ctx.plants == [x.plant for x in w.otherwise] and _of_all_again(w, end):
        w.ctx.plants = together
    w.otherwise = []


_HAS_OR_IS = _COMMON.words("being_or_having")


def that_one(w: Listener, i: int) -> int | None:
    """`All but the third have a bloom. That one's all buds`, `it has none`: of the one that is otherwise; where the words
    end."""
    ctx, at = w.ctx, w.ctx.lattice.at
    it = at(i) == "it" and at(i + 1) in _HAS_OR_IS and len(ctx.plants) > 1
    if w.odd_one is None or not w.begins(i) or not (it or (at(i) == "that" and at(i + 1) in {"one", "1"})):
        return None
    plant, said = w.odd_one
    if ctx.clause - said not in {0, 1} or plant.dropped:
        return None
    end = i + 2 + (not it and at(i + 2) in _HAS_OR_IS)
    ctx.close()
    ctx.plants, ctx.explicit, ctx.group, w.odd_one = [plant], True, None, None
    ctx.mark(i, end, EVIDENCE)
    cut(w, end)
    return end


def goes_on(w: Listener, end: int) -> bool:
    """`except plant two, that one has ...`: behind the comma the same plant is spoken of."""
    pieces = w.ctx.lattice.pieces
    return end + 1 < len(pieces) and pieces[end].text == "," and pieces[end + 1].text in _SAID


def several(w: Listener, i: int) -> int | None:
    """Two plants or more behind `except` at piece i: where the words for them end; None where it is none."""
    ctx, pieces = w.ctx, w.ctx.lattice.pieces
    opened, bare = _opened(w, i)
    if not opened or ctx.visit is None:
        return None
    live = ctx.living()
    if len(live) < 3:
        return None
    some_on = _some_on(w, opened)
    by_place = _by_its_place(w, opened, live, bare) or _letters_at(w, some_on or opened, live)
    labels, end = (
        by_place
        or (numbers_at(w, some_on, _LABEL_WORDS) if some_on else None)
        or numbers_at(w, opened, _LABEL_WORDS)
        or ([], opened)
    )
    if end < len(pieces) and {e.kind for e in ctx.lattice.edges[end]} & _COUNTED:
        return None  # but 2 and 3 pods
    named = [p for p in live if p.label in labels]
    if named and len(named) == len(set(labels)) < len(live) and _not_told_yet(w, named):
        ctx.plants = [p for p in ctx.plants if p not in named]
        if len(named) == 1:
            w.odd_one = named[0], ctx.clause
        ctx.mark(i, end, EVIDENCE)
        cut(w, end)
        return end
    if (
        not labels
        or len(named) != len(set(labels))
        or len(named) >= len(live)
        or not any(p.facts or p.sightings for p in live)
    ):
        return None
    if not said_of_all(w, named, [p for p in live if p not in named]):
        return None
    if some_on and labels:
        return _some_there(w, i, end, named)
    after = end
    while after < len(pieces) and pieces[after].text in _THEY:
        after += 1
    if bare and not (len(labels) > 1 and _a_code(w, after)):
        return None  # p1-8 R2 (3 and 7 R1)
    after = _in_the_next_sentence(w, end) or after
    told = after < len(pieces) and pieces[after].form != "nl" and pieces[after].text not in {".", ";"}
    kinds = {e.kind for e in ctx.lattice.edges[after]} if told else set()
    if end < len(pieces) and pieces[end].text == "," and after == end + 1 and kinds & _ANEW:
        told = False  # all 9 trifs except 2 and 5, no flowers
    counted = _its_own_count(w, i, end, named[0]) if len(named) == 1 else None
    if counted is not None:
        return counted
    open_now = [s for s in ctx.open if s.group or len(ctx.plants) > 1]
    if (
        len(labels) == 1
        and not by_place
        and (told or open_now)
        and opened == i + 1
        and not (told and _no_label(w, opened, after))
    ):
        return None
    if told and opened == i + 2 and pieces[i].text in _ALL and w.begins(i) and pieces[end].text != ",":
        ctx.close()  # plants 1-3 V8. All but plant 2 are blooming
        ctx.plants, ctx.explicit, ctx.group = [p for p in live if p not in named], True, None
        ctx.except_for = named
        if len(named) == 1:
            w.odd_one = named[0], ctx.clause
        ctx.mark(i, end, EVIDENCE)
        return end
    if told:
        what = said_last(w)
        remember(w, named, what, (i, end))
        ctx.close()
        ctx.plants, ctx.explicit, ctx.group = named, True, None
        ctx.mark(i, end, EVIDENCE)
        ctx.mark(end, after, FILLER)
        return _same_kind(w, after, what) or _has_one(w, after, what) or _has_none(w, after, what) or after
    return _untold(w, i, end, named, open_now)


def _not_told_yet(w: Listener, named: list[PlantDraft]) -> bool:
    """`plants one to five with the exception of three they've all got ...`: nothing is told of the plants that were named
    last, of which these are some."""
    ctx = w.ctx
    return ctx.explicit and len(ctx.plants) > len(named) and all(p.empty and p in ctx.living() for p in ctx.plants)


_IT = _LISTED.words("it")
_MORE, _FEWER = _LISTED.words("more"), _LISTED.words("fewer")


_FOR_ITS_OWN_COUNT = _LISTED.words("for_its_own_count")


def _its_own_count(w: Listener, i: int, end: int, plant: PlantDraft) -> int | None:
    """`8 trifs on all but #4, it's got 7`, `..., which is two behind`: the count of the one that is otherwise; where these
    words end."""
    ctx, at = w.ctx, w.ctx.lattice.at
    what = said_last(w)
    entries = plant.facts.get(what, [])
    k = end + (at(end) == ",")
    if what not in {"trifoliates", "nodes"} or not entries or at(k) not in _IT:
        return None
    k += 1 + (at(k + 1) in {"one", "1"})
    if at(k) in _HAS_OR_IS:
        k += 1
    elif at(k - 1) != "its":  # its got nine
        return None
    while at(k) in _FOR_ITS_OWN_COUNT:
        k += 1
    got = number_at(w, k)
    if got is None:
        return None
    apart = (at(got.end) in _MORE) - (at(got.end) in _FEWER)
    stop = got.end + (apart != 0)
    all_have = entries[-1].value
    if not w.ends_at(stop) or not isinstance(all_have, int):
        return None
    together = [p for p in ctx.living() if any(e.span == entries[-1].span for e in p.facts.get(what, []))]
    del plant.facts[what]
    ctx.close()
    ctx.plants, ctx.explicit, ctx.group = [plant], True, None
    leaves.count(ctx, what, all_have + apart * int(got.means) if apart else int(got.means), ctx.span(i, stop))
    ctx.mark(i, stop, EVIDENCE)
    ctx.plants = together  # and what comes next is of all of them again
    w.odd_one = plant, ctx.clause
    return stop


def said_of_all(w: Listener, named: list[PlantDraft], others: list[PlantDraft]) -> bool:
    """What was said last is, in the same words, of these plants and of another one."""
    what = said_last(w)

    def words(p: PlantDraft) -> set[tuple[int, int]]:
        seen = {(s.span.start, s.span.end) for s in p.sightings if s.what == what}
        return seen | {(e.span.start, e.span.end) for e in p.facts.get(what, [])}

    return all(any(words(p) & words(q) for q in others) for p in named)


_ALL = _COMMON.words("all")
_FOR_OPENED = list(_LISTED.ordered("for_opened"))


def _opened(w: Listener, i: int) -> tuple[int, bool]:
    """Where the plants begin behind `except`, `all but`, `apart from`, `with the exception of`; 0 where nothing of the
    kind stands at piece i. And whether only a mark stands there."""
    texts = [p.text for p in w.ctx.lattice.pieces[i : i + 4]]
    if texts[0] in EXCEPT:
        return i + 1, False
    if texts[0] in _ALL and texts[1:2] and texts[1] in EXCEPT:
        return i + 2, False
    if texts[:2] in (["apart", "from"], ["aside", "from"], ["other", "than"]):
        return i + 2, False
    if texts == _FOR_OPENED:
        return i + 4, False
    if texts[:2] in (["every", "one"], ["each", "one"]) and texts[2:3] and texts[2] in EXCEPT:
        return i + 3, False
    return (i + 1, True) if texts[0] in {"(", ",", "."} else (0, False)


def _by_its_place(w: Listener, at: int, live: list[PlantDraft], bare: bool) -> tuple[list[str], int] | None:
    """`all R5 but the last, that one's R4`: the plant told by its place in the row; behind a mark alone only one is."""
    if bare and (w.ctx.lattice.at(at) != "the" or number_at(w, at + 2) is not None):
        return None
    row = [p.label for p in live]
    return places(w, at + (w.ctx.lattice.at(at) == "for"), row, led=True)


def _some_on(w: Listener, at: int) -> int:
    """`no pods except for a couple on plant 3`: where the plant is named; 0 where nothing of the kind stands here."""
    pieces = w.ctx.lattice.pieces
    first = at
    while at < len(pieces) and pieces[at].text in _SOME | {"for"}:
        at += 1
    some = at > first and pieces[at - 1].text != "for"
    return at + 1 if some and at < len(pieces) and pieces[at].text in {"on", "in"} else 0


def _some_there(w: Listener, i: int, end: int, named: list[PlantDraft]) -> int | None:
    """These have what the others have not."""
    ctx = w.ctx
    what = said_last(w)
    said = [s for p in named for s in p.sightings if s.what == what]
    if what not in {"flowers", "pods", "seeds"} or not said or said[-1].present is not False:
        return None
    for p in named:
        p.sightings = [s for s in p.sightings if s.what != what]
        p.sightings.append(Sighting(what, True, [ctx.span(i, end)], clause=ctx.clause))
    ctx.mark(i, end, EVIDENCE)
    ctx.leave_plants()
    return end


def _letters_at(w: Listener, at: int, live: list[PlantDraft]) -> tuple[list[str], int] | None:
    """`except B`, `except B and D`: plants that go by letters."""
    pieces = w.ctx.lattice.pieces
    known = {p.label.lower(): p.label for p in live if len(p.label) == 1 and p.label.isalpha()}
    labels: list[str] = []
    end = at
    while end < len(pieces) and pieces[end].text in _LABEL_WORDS:
        end += 1
    while end < len(pieces) and pieces[end].text in known:
        labels.append(known[pieces[end].text])
        end += 1
        if end + 1 < len(pieces) and pieces[end].text in {",", "and", "&", "or"} and pieces[end + 1].text in known:
            end += 1
    return (labels, end) if labels else None


def _a_code(w: Listener, i: int) -> bool:
    pieces, edges = w.ctx.lattice.pieces, w.ctx.lattice.edges
    if i + 1 >= len(pieces) or pieces[i].text not in {"r", "v"}:
        return False
    return any(e.kind == "INT" for e in edges[i + 1])


_FOR_SAME_KIND = _COMMON.words("being_or_having") | _COMMON.words("with") | {"at"}


def _same_kind(w: Listener, at: int, what: str) -> int | None:
    """`all 9 trifs except 2 and 5 have 8`: a bare figure is of what was counted; where it ends."""
    ctx, pieces = w.ctx, w.ctx.lattice.pieces
    k = at
    while k < len(pieces) and pieces[k].text in _FOR_SAME_KIND:
        k += 1
    got = number_at(w, k)
    if got is None or not w.ends_at(got.end) or what not in {"trifoliates", "nodes"}:
        return None
    leaves.count(ctx, what, int(got.means), ctx.span(k, got.end))
    ctx.mark(at, got.end, EVIDENCE)
    return got.end


_FOR_IN_THE_NEXT_SENTENCE = _LISTED.words("for_in_the_next_sentence")
_FOR_IN_THE_NEXT_SENTENCE_2 = _LISTED.words("for_in_the_next_sentence_2")


def _in_the_next_sentence(w: Listener, end: int) -> int:
    """`except three and seven. Those two have seed`: where what is said of them begins; 0 where nothing is."""
    pieces = w.ctx.lattice.pieces
    texts = [p.text for p in pieces[end : end + 2]]
    if len(texts) < 2 or texts[0] not in {".", ";"} or texts[1] not in _FOR_IN_THE_NEXT_SENTENCE:
        return 0
    at = end + 2
    while at < len(pieces) and pieces[at].text in _THEY | _FOR_IN_THE_NEXT_SENTENCE_2:
        at += 1
    return at


_ONE = _LISTED.words("one")
_SOME = _ONE | _LISTED.words("some")


def _no_label(w: Listener, at: int, after: int) -> bool:
    """`no blooms on any but 6, which has one`: the number is read as no label, and what it has is said."""
    pieces = w.ctx.lattice.pieces
    label = any(s.start <= at < s.end and s.phrase is not None and s.phrase.rule == "label" for s in w.segments)
    return not label and pieces[after].text in {"has", "had", "have"} and pieces[after + 1 : after + 2] != []


def _has_one(w: Listener, at: int, what: str) -> int | None:
    """`None have a brown pod but 6, which has one`, `except four, which has one down low`: one of what the others have
    not; where these words end."""
    ctx, pieces = w.ctx, w.ctx.lattice.pieces
    end = at + 1
    while end < len(pieces) and pieces[end].text in _ONE | {"each", "apiece"}:
        end += 1
    if at >= len(pieces) or pieces[at].text not in {"has", "had", "have"} or end == at + 1:
        return None
    span = ctx.span(at, end)
    if what == "mature_pods" and w.ends_at(end):
        leaves.put(ctx, "mature_pods", "one", span)
    elif what in {"flowers", "pods", "seeds"}:
        found = organs.look(ctx, what, True, span)
        ctx.open, ctx.open_end = found, end
    else:
        return None
    ctx.mark(at, end, EVIDENCE)
    return end


def _has_none(w: Listener, at: int, what: str) -> int | None:
    """`Each of them has one tan pod, except the fourth, which has none`: none of what the others have; where the words
    end."""
    ctx, text = w.ctx, w.ctx.lattice.at
    end = at + 2
    if text(at) not in {"has", "had", "have"} or text(at + 1) not in {"none", "nothing"} or not w.ends_at(end):
        return None
    if what == "mature_pods":
        leaves.put(ctx, "mature_pods", "none", ctx.span(at, end))
    elif what in {"flowers", "pods", "seeds"}:
        organs.look(ctx, what, False, ctx.span(at, end))
    else:
        return None
    ctx.mark(at, end, EVIDENCE)
    return end


def _untold(w: Listener, i: int, end: int, named: list[PlantDraft], said: list[Sighting]) -> int:
    """`All blooming except 2 and 5`: these are not; `all 9 trifs except 2 and 5`: how many they have is not said."""
    ctx = w.ctx
    span = ctx.span(i, end)
    plain = bool(said) and not said[0].places and said[0].length is None and said[0].present is not None
    for p in named:
        if said:
            p.sightings = [s for s in p.sightings if not any(s is x or s == x for x in said)]
            if plain:
                p.sightings.append(Sighting(said[0].what, not said[0].present, [span], clause=ctx.clause))
        elif ctx.statements and ctx.statements[-1].kind in p.facts:
            del p.facts[ctx.statements[-1].kind]
    if plain:
        ctx.mark(i, end, EVIDENCE)
    else:
        ctx.mark(i, end, UNREAD, _HOW)
    ctx.leave_plants()
    return end
