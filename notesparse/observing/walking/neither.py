"""`Neither 1 nor 3 is blooming`, `neither plant 2 nor plant 4 has a pod`: two plants that have it not (guide 4.7)."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing.fold import EVIDENCE
from notesparse.observing.walking.clause_ends import clear_waiting
from notesparse.observing.walking.counted import cut, from_one, labels_at, may_be_new
from notesparse.observing.walking.listening import Listener

_LISTED = cue_page("walking/neither")
_COMMON = cue_page("shared")

_HAVE = _COMMON.words("being_or_having") | _COMMON.words("showing")
_PLANT = _COMMON.words("plant_no")
_SMALL = _LISTED.words("small")


def neither(w: Listener, i: int) -> int | None:
    """At piece i stands `neither`, and behind it two plants by their numbers: where what they have not begins."""
    ctx, at = w.ctx, w.ctx.lattice.at
    if at(i) not in {"neither", "nor"} or (at(i) == "nor" and not w.begins(i)):
        return None
    one = labels_at(w, i + 1, _PLANT)
    if one is None or at(one[1]) not in {"nor", "or", "and"} or len(one[0]) > 1:
        return None
    two = labels_at(w, one[1] + 1, _PLANT)
    if two is None or len(two[0]) > 1 or at(two[1]) not in _HAVE:
        return None
    labels = one[0] + two[0]
    named = [p for p in ctx.living() if p.label in labels]
    rising = labels == sorted(set(labels), key=int) and at(i) == "neither"
    first = rising and not named and (not ctx.living() or may_be_new(w, labels))
    if len(named) != 2 and not first:
        return None
    end = two[1] + 1
    while at(end) in _SMALL:
        end += 1
    clear_waiting(w)
    named = named if len(named) == 2 else ctx.begin(labels, ctx.span(i + 1, two[1]))
    ctx.close()
    ctx.plants, ctx.explicit, ctx.group = named, True, None
    ctx.statements.clear()
    ctx.mark(i, end, EVIDENCE)
    w.negative = (ctx.span(i, two[1]), i, end)
    cut(w, end)
    return end


_NONE_OF = _LISTED.rows("none_of")
_NONE = frozenset(words[0] for words in _NONE_OF)


def none_of_these(w: Listener, i: int) -> int | None:
    """`none of 1, 2 or 3 is blooming`: where what they have not begins."""
    ctx, at = w.ctx, w.ctx.lattice.at
    if at(i) not in _NONE:
        return None
    words = next((len(x) for x in _NONE_OF if all(at(i + n) == word for n, word in enumerate(x))), 0)
    if not words or not w.begins(i):
        return None
    labels: list[str] = []
    k = i + words
    while (got := labels_at(w, k, _PLANT)) is not None:
        labels += got[0]
        k = got[1]
        if at(k) not in {"or", "nor", "and", ","}:
            break
        k += 1
    if len(labels) < _FEWEST_NAMED or len(set(labels)) < len(labels) or at(k) not in _HAVE:
        return None
    known = {p.label: p for p in ctx.living()}
    new = [x for x in labels if x not in known]
    if new and known and not from_one(sorted([*known, *new], key=lambda x: int(x) if x.isdigit() else 0)):
        return None
    end = k + 1
    while at(end) in _SMALL:
        end += 1
    clear_waiting(w)
    ctx.close()
    made = {p.label: p for p in ctx.begin(new, ctx.span(i, k))} if new else {}
    ctx.plants, ctx.explicit, ctx.group = [(known | made)[x] for x in labels], True, None
    ctx.statements.clear()
    ctx.mark(i, end, EVIDENCE)
    w.negative = (ctx.span(i, k), i, end)
    cut(w, end)
    return end


_FEWEST_NAMED = 2
