"""A field of which is told that it is as another one is: `River 2 same`, `Finch same as Lark except R2` (guide 4.18).

What it takes from the other one is corrected at the end, when its own words and those of the other one are all known.
"""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing import headers
from notesparse.observing.draft import Ask, VisitDraft
from notesparse.observing.fold import EVIDENCE, UNREAD, Context
from notesparse.observing.naming.names import Name
from notesparse.observing.naming.same_field import BUT
from notesparse.observing.walking import together
from notesparse.observing.walking.clause_ends import clear_waiting
from notesparse.observing.walking.listening import Listener
from notesparse.span import Span

_LISTED = cue_page("walking/like_another_field")


def the_same(w: Listener, name: Name) -> None:
    """`River 2 same`, `same at Dahl`: another field of which is told what was told of the last one."""
    ctx, pieces = w.ctx, w.ctx.lattice.pieces
    start, end = min(name.cue_start, name.start), name.end
    led = any(ctx.lattice.at(x) in {"same", "ditto"} for x in range(start, name.start))  # same at Orrin, Tully R4
    end += ctx.lattice.at(end) == "," and not led
    end += end < len(pieces) and pieces[end].text == "." and w.ctx.lattice.at(end + 1) in {"ditto", "do", "same"}
    while (
        end < len(pieces)
        and pieces[end].form not in {"nl"}
        and pieces[end].text not in {".", ";", ",", "!"} | BUT - {"and"}
    ):
        end += 1
    last = _like_which(w, name, end)
    clear_waiting(w)
    w.resume_at = end
    if last is None and not w.barred and ctx.visit is not None and _says_which(w, name, end):
        _like_none_here(w, name, start, end)
        return
    if w.barred or last is None or any(not p.dropped for p in last.plants) or last.empty:
        ctx.mark(start, end, UNREAD, w.barred or "the same as a field of which nothing is told as a whole")
        return
    headers.open_visit(ctx, name, ctx.span(name.start, name.end))
    together.named(w.together, ctx, listed=False, span=ctx.span(name.start, name.end))
    together.like_the_last(ctx, last, ctx.span(start, end))
    ctx.likes.append((ctx.here(), last, ctx.span(start, end)))
    ctx.mark(start, end, EVIDENCE)
    w.at_head = False


def _like_none_here(w: Listener, name: Name, start: int, end: int) -> None:
    """`Whitetail strip same as the Pruitt ground`, of which the note tells nothing: asked (guide 4.18)."""
    ctx, span = w.ctx, w.ctx.span(start, end)
    headers.open_visit(ctx, name, ctx.span(name.start, name.end))
    together.named(w.together, ctx, listed=False, span=ctx.span(name.start, name.end))
    ctx.mark(name.start, name.end, EVIDENCE)
    ctx.mark(name.end, end, UNREAD, "the same as a field of which nothing is told as a whole")
    words = f"{name.text} is said to be the same as a field of which this note tells nothing. What is it like?"
    choices: list[tuple[str, dict[str, object]]] = [("not known", {})]
    ctx.ask(Ask("4.18", span, words, choices, None, 0, None, always=True, visit=ctx.visit))


def _says_which(w: Listener, name: Name, end: int) -> bool:
    """Words with a capital, or a noun of places, stand behind `same as`: and not `same as before`."""
    lattice = w.ctx.lattice
    at = next((k for k in range(name.end, end) if lattice.at(k) in {"as", "like"}), end)
    return any(
        lattice.original(k, k + 1)[0].isupper() or any(e.kind == "FIELDNOUN" for e in lattice.edges[k])
        for k in range(at + 1, end)
    )


def but_what_differs(w: Listener) -> None:
    """`Finch same as Lark except R2`: of what was taken from the other field, not that of which its own words tell."""
    for visit, _, span in w.ctx.likes:
        for letter in ("v", "r"):
            own = [s for s in visit.stated if s.letter == letter and s.span.start >= span.end]
            if any(_one_sentence(w, span, s.span) for s in own):
                visit.stated = [s for s in visit.stated if s.letter != letter or s.span != span]


def _one_sentence(w: Listener, a: Span, b: Span) -> bool:
    return not any(w.hard_end(i) for i, p in enumerate(w.ctx.lattice.pieces) if a.end <= p.span.start < b.start)


_LAST = frozenset(_LISTED.phrases("last")) | {""}


def _like_which(w: Listener, name: Name, end: int) -> VisitDraft | None:
    """The field that it is the same as: the last one, or the one that is named behind `same as`."""
    ctx = w.ctx
    words = [p.text for p in ctx.lattice.pieces[name.end : end]]
    at = next((words.index(x) + 1 for x in ("as", "like") if x in words), None)
    which = " ".join(words[at:]) if at is not None else ""
    if which in _LAST:
        return ctx.visit
    told = [v for v in ctx.visits if v.name is not None and not v.empty]
    like = [v for v in told if (v.name or "").lower().removeprefix("the ").startswith(which.removeprefix("the "))]
    return like[-1] if like else None


def still_alike(ctx: Context) -> None:
    """`Town 40 R2`, `Back Nine R4`, `Pickle Barn same as Town 40`: what was taken for that of a field, and turned out to be of
    another, is not of the one that is like it."""
    for visit, last, span in ctx.likes:
        stands = {(s.letter, s.value) for s in last.stated}
        visit.stated = [s for s in visit.stated if s.span != span or (s.letter, s.value) in stands]
