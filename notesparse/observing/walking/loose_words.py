"""What no phrase took: marks, line ends, fillers, known words out of place, words that nobody knows."""

from __future__ import annotations

from bisect import bisect_left

from notesparse.language.cues import cue_page
from notesparse.language.lists import name_words
from notesparse.observing import leaves
from notesparse.observing.fold import EVIDENCE, FILLER, UNREAD
from notesparse.observing.walking.clause_ends import end_clause
from notesparse.observing.walking.groups import all_but, left_out
from notesparse.observing.walking.listening import LINKS, Listener
from notesparse.observing.walking.places import there
from notesparse.observing.walking.spots import new_stop
from notesparse.observing.walking.spread_lines import going_on
from notesparse.outcome import Correction
from notesparse.reading.parse import Phrase, Segment

_COMMON = cue_page("shared")
_LISTED = cue_page("walking/loose_words")
GOES_ON = _LISTED.words("goes_on")
_FOR_FOLDED_AFTER_ALL = _COMMON.words("being") | {"still"}


def _folded_after_all(w: Listener, i: int) -> bool:
    """`P3 unis flat, no wait, P3 was folded too`: the unifoliates again, where nothing else of the plant may be rolled."""
    ctx = w.ctx
    rolled = any(e.kind == "ROLLED" and e.how == "exact" for e in ctx.lattice.edges[i])
    if not rolled or not ctx.explicit or len(ctx.plants) != 1 or ctx.plants[0].last("trifoliates") is not None:
        return False
    said = {ctx.lattice.at(x) for x in range(max(0, i - 3), i)} & _FOR_FOLDED_AFTER_ALL
    if not said or ctx.plants[0].last("unifoliates") is None:
        return False
    leaves.put(ctx, "unifoliates", "rolled", ctx.span(i, i + 1))
    ctx.mark(i, i + 1, EVIDENCE)
    return True


def loose(w: Listener, i: int, k: int) -> None:
    """A piece that no phrase took: a mark, a filler, a known word out of place, or a word that is not known."""
    ctx = w.ctx
    p = ctx.lattice.pieces[i]
    struck = ctx.struck.get(i)
    if struck is not None:  # what was struck out is put right, and is no evidence
        ctx.corrected.append(Correction("4.21", ctx.span(i, struck), "struck out"))
        ctx.mark(i, struck, FILLER)
        w.resume_at = struck
        return
    if _folded_after_all(w, i):
        return
    if p.text == "either" and k and w.ends_at(i + 1):
        before = w.segments[k - 1].phrase
        if before is not None and before.form.endswith("_no"):
            ctx.mark(i, i + 1, FILLER)  # no flowers either
            return
    if p.text == "s" and p.glued and k > 1 and ctx.lattice.at(i - 1) == "'":
        label = w.segments[k - 2].phrase
        if label is not None and label.rule == "label" and label.end == i - 1:
            ctx.mark(i, i + 1, FILLER)  # plant 1's top leaf
            return
    if p.text in w.key_signs and not p.glued:
        ctx.mark(i, i + 1, UNREAD, "a sign of the key that is not read here")  # r = next leaf rolled, in `1  3t r`
        return
    if p.form == "nl" and i and ctx.lattice.pieces[i - 1].text in GOES_ON:
        ctx.mark(i, i + 1, FILLER)  # plant 3 has 12 trifs and / pods 1/4 inch: one sentence, broken by the paper's edge
        return
    if p.form == "nl":
        end_clause(w, k)
        ctx.line += 1
        w.line_head = True
        w.after_name = False
        ctx.mark(i, i + 1, FILLER)
        after = next((s.phrase for s in w.segments[k + 1 : k + 2]), None)
        if after is not None and after.rule == "correct" and ctx.plants:
            return  # no wait, there is a flower: of the plant on the line before
        if ctx.line_labels or not ctx.explicit:
            ctx.close()
        if ctx.line_labels and ctx.explicit:
            if ctx.plants and all(q.empty for q in ctx.plants):
                ctx.label_lines = True
            elif not ctx.label_lines and i not in going_on(w):
                ctx.leave_plants()
        return
    if w.hard_end(i):
        end_clause(w, k)
        ctx.mark(i, i + 1, FILLER)
        return
    if p.form == "word" and (new_stop(w, i, k) or (not w.barred and there(w, i))):
        return
    but = left_out(w, i, ctx.living()) if ctx.open and ctx.open[0].group and not w.barred else None
    if but is not None and w.ends_at(but[1]):
        all_but(w, i, *but)  # none are blooming except the first
        return
    if p.form == "mark":
        if p.text == ";" and w.barred == "another time":
            w.barred = None  # was R1 last Friday; one bloom, 4th node down
        ctx.mark(i, i + 1, UNREAD if w.barred else FILLER, w.barred or "")
        if p.text in ",:(":
            ctx.link.discard("HAS")
            if p.text == ",":
                ctx.link.add("COMMA")
        return
    if not w.barred and p.text in {"with", "w"} and _of_the_counted(w, k):
        w.barred, w.barred_from, w.barred_limit = "seen on plants that were only counted", i, 0
    if w.barred:
        ctx.mark(i, i + 1, UNREAD, w.barred)
        return
    kinds = {e.kind for e in ctx.lattice.edges[i]}
    ctx.link |= kinds & LINKS
    w.after_name = w.after_name and ctx.lattice.filler[i]
    denied = _denied_verb(w, i) if "NOT" in kinds else 0
    if denied:
        ctx.mark(i, denied, UNREAD, "no known word")  # can't decide, with a bloom at the top
        w.resume_at = denied
        return
    bare = p.text in {"without", "w/o"} and w.ends_at(i + 1)  # eleven without, flowers top two
    if kinds & {"NONE", "NO", "NOT"} and not bare:
        w.negative = (ctx.span(i, i + 1), i, i + 1)
    if "BEAN" in kinds and (w.ahead(k)[0] or Phrase(0, 0, "", "", (), 0.0)).rule in {"stage", "call"}:
        ctx.mark(i, i + 1, FILLER)  # the beans are at R4
    elif ctx.lattice.filler[i] or kinds & {
        "COUNTING",
        "HEDGE",
        "ONLY",
        "YET",
        "STILL",
        "FEW",
        "HAS",
        "BUT",
        "AND",
        "FILLER",
        "SOMEW",
        "SAMPLED",
        "IN",
        "AT",
        "LONG",
        "EARLY",
    }:
        ctx.mark(i, i + 1, FILLER)
    elif kinds & {
        "PLANT",
        "BEAN",
        "ONE",
        "LEAF",
        "ROWS",
        "TOP",
        "OR",
        "TO",
        "OF",
        "AS",
        "FIELDNOUN",
        "R",
        "V",
        "THE",
        "ALMOST",
        "NODE",
        "NODES",
        "OPEN",
        "PLUS",
        "LIKE",
        "LAST",
        "UPW",
        "MORE",
        "EVERYW",
        "ALLPL",
        "STOP",
        "PER",
        "NUMBERW",
    }:
        noun = "FIELDNOUN" in kinds and w.at_head
        headed = ctx.lattice.at(i - 1) == "the" and ctx.lattice.at(i + 1) in {":", "-"} and p.text not in _ANY_FIELD
        called = noun and (ctx.lattice.original(i, i + 1)[:1].isupper() or headed)  # in the wedge: plant 1 ...
        told = kinds & {"ALMOST", "OPEN"} or called  # 8/28 Oxbow top 4 nodes: a field's name, most likely
        ctx.mark(i, i + 1, UNREAD if told else "weak", "a known word out of place")
    elif p.form in {"int", "dec", "big", "dmy"}:
        ctx.mark(i, i + 1, UNREAD, "a number with nothing to count")
    else:
        if not ctx.lattice.known[i] and ctx.tally is not None and ctx.tally.what is None:
            _let_go(w, i)  # half have dropped, pods brown
            return
        ctx.mark(i, i + 1, UNREAD, "no known word" if not ctx.lattice.known[i] else "a known word out of place")


_FAR = 3  # pieces of a verb and what belongs to it
_SURE = _LISTED.words("sure")


def _denied_verb(w: Listener, i: int) -> int:
    """`can't decide,`, `don't rightly recall.`: a no that turns round a verb that nobody knows, before a mark, turns nothing
    behind the mark, nor does `not sure,`; where the mark stands, 0 where that is not so."""
    lattice = w.ctx.lattice
    end = i + 1
    while end < len(lattice.pieces) and lattice.pieces[end].form == "word" and end - i <= _FAR:
        end += 1
    over = end >= len(lattice.pieces) or lattice.pieces[end].form in {"mark", "nl"}
    strange = any(not lattice.known[x] and not lattice.edges[x] for x in range(i + 1, end))
    strange = strange or (lattice.at(end - 1) in _SURE and end == i + 2)
    told = any(s.phrase is not None and i < s.start < end and s.phrase.rule != "filler" for s in _from(w, i))
    return end if over and strange and not told else 0


def _from(w: Listener, i: int) -> list[Segment]:
    """The segments of the few pieces from piece i on."""
    first = bisect_left(w.segments, i, key=lambda s: s.start)
    return w.segments[first : first + _FAR + 2]


_ANY_FIELD = _COMMON.words("land") | _COMMON.words("field") | {"fields"}


def _of_the_counted(w: Listener, k: int) -> bool:
    """`8 of 10 at R3 with half inch pods`: what they have besides is of no plant by itself."""
    t, (nxt, _, mark) = w.ctx.tally, w.ahead(k)
    if t is None or t.what is None or w.ctx.explicit or t.span.start < w.clause_from or mark or nxt is None:
        return False
    return nxt.rule in {"flowers", "pods", "seeds", "podshare", "state", "length"} and not nxt.form.endswith("_no")


def _let_go(w: Listener, i: int) -> None:
    """A share whose doing is not understood is of nothing that follows up to the next mark, the next field or a hum."""
    ctx, pieces, hums = w.ctx, w.ctx.lattice.pieces, name_words().hums
    ends = (j for j in range(i, len(pieces)) if pieces[j].form in {"mark", "nl"} or pieces[j].text in hums)
    end = min([next(ends, len(pieces)), *(at for at in w.names if at > i)])
    start = next(
        (j for j in range(i, -1, -1) if ctx.tally is not None and pieces[j].span.start <= ctx.tally.span.start), i
    )
    ctx.mark(start, end, UNREAD, "a share of something that is not understood")
    ctx.tally = None
    w.resume_at = end
