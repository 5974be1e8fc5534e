"""Questions about flowers, pods and seeds, and what is answered: `blooming? 1 yes, 2 no`, `brown pods? none on 3`, `pods ___`."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing import organs, tallies
from notesparse.observing.draft import TallyDraft
from notesparse.observing.fold import EVIDENCE, UNREAD
from notesparse.observing.walking.bars import bar
from notesparse.observing.walking.listening import Listener
from notesparse.reading.parse import Phrase
from notesparse.span import Span

_LISTED = cue_page("walking/organ_answers")


_FILLS_IN = frozenset({":", "=", "?"})


def _asked_at(w: Listener, i: int) -> int:
    """Past the colon, the question mark or the row of dots at piece i, or -1."""
    pieces = w.ctx.lattice.pieces
    if i < len(pieces) and pieces[i].text in _FILLS_IN:
        return i + 1
    end = i
    while end < len(pieces) and pieces[end].text in {".", "_"}:
        end += 1
    return end if end - i >= 2 else -1


def left_blank(w: Listener, ph: Phrase, k: int) -> bool:
    """`seed:` with nothing behind it, before the next thing to be filled in: a blank says nothing (guide 4.21)."""
    pieces, n = w.ctx.lattice.pieces, len(w.ctx.lattice.pieces)
    i = _asked_at(w, ph.end)
    if i < 0 or not (w.line_head or not ph.start or pieces[ph.start - 1].form != "word"):
        return False
    if i < n and pieces[i].form != "nl":
        nxt, _, _ = w.ahead(k)  # flowers: pods: 1/4
        return (
            pieces[i - 1].text != "?"
            and nxt is not None
            and nxt.start == i
            and nxt.form in {"fl_yes", "pod_yes", "seed_yes"}
            and _asked_at(w, nxt.end) >= 0
        )
    while i < n and pieces[i].form == "nl":
        i += 1
    if i >= n or i in w.names:
        return True
    line = next((x for x in range(i, n) if pieces[x].form == "nl"), n)
    if any(_asked_at(w, x) >= 0 for x in range(i + 1, min(line, i + 6))):
        return True
    labelled = any(
        s.start == i and s.phrase is not None and s.phrase.rule == "label" for s in w.segments[k + 1 : k + 12]
    )
    return labelled and w.ctx.visit is not None and bool(w.ctx.visit.plants)


_ANSWERS = _LISTED.table("answers", bool)


def _ones(w: Listener, i: int, n: int) -> tuple[list[tuple[int, bool]], int]:
    """`fl 0 1 0 0 1` behind as many plants, three or more: the answers, and where they end."""
    pieces = w.ctx.lattice.pieces
    run = range(i, min(i + n, len(pieces)))
    after = pieces[i + n] if i + n < len(pieces) else None
    ends = after is None or after.form in {"nl", "mark"}
    if n < 3 or len(run) < n or not ends or any(pieces[k].text not in {"0", "1"} or pieces[k].glued for k in run):
        return [], i
    return [(k, pieces[k].text == "1") for k in run], i + n


_YES_AND_NO = (True, False)
_A_DOUBT = 2  # `blooming? no, yes` is thought better of; three answers are of three plants


def yes_or_no_each(w: Listener, ph: Phrase, span: Span) -> bool:
    """`tf 8/9/8. fl n/y/n`: as many answers as there are plants, in their order."""
    ctx = w.ctx
    pieces, live = ctx.lattice.pieces, ctx.living()
    if ph.form.endswith("_no") and pieces[ph.start].text in _ANSWERS:
        return False  # no flowers
    i, said = ph.start + 1, list[tuple[int, bool]]()
    if i < len(pieces) and pieces[i].text in {":", "-", "="}:
        i += 1
    while i < len(pieces) and (pieces[i].text in _ANSWERS or (said and pieces[i].text in {"/", ","})):
        if pieces[i].text in _ANSWERS:
            said.append((i, _ANSWERS[pieces[i].text]))
        i += 1
    if not said and i == ph.end:
        said, i = _ones(w, i, len(live))
    if i > ph.end and len(said) > 1 and pieces[i - 1].text == ",":
        bar(w, ph, "answers for plants, not all of them read")  # flowers: none, none, one at the fifth node
        return True
    mixed = len({yes for _, yes in said}) == len(_YES_AND_NO)
    if mixed and not live and (len(said) == ctx.sample or (len(said) > _A_DOUBT and ctx.sample is None)):
        live = ctx.begin([str(n + 1) for n in range(len(said))], span, named=False)
    if mixed and len(said) > _A_DOUBT and len(said) != len(live):  # 5 plants. blooms y y n y
        ctx.mark(ph.start, i, UNREAD, f"{len(said)} answers for {len(live) or ctx.sample or 0} plants")
        w.resume_at = i
        return True
    if len(said) < 2 or len(said) != len(live) or not mixed:
        return False
    for plant, (at, yes) in zip(live, said, strict=True):
        ctx.plants, ctx.explicit = [plant], True
        organs.look(ctx, ph.rule, yes, ctx.span(at, at + 1))
    ctx.mark(ph.start, i, EVIDENCE)
    ctx.leave_plants()
    w.resume_at = i
    return True


_FOR_NOT_LOOKED_FOR = _LISTED.words("for_not_looked_for")


def not_looked_for(w: Listener, ph: Phrase) -> bool:
    """`No pods looked for`, `no seeds counted`: nobody looked, which is not that there are none."""
    pieces = w.ctx.lattice.pieces
    at = ph.end + (ph.end < len(pieces) and pieces[ph.end].text in {"yet", "were", "was"})  # no pods yet looked for
    if at >= len(pieces) or pieces[ph.start].text != "no":
        return False
    return pieces[at].text in _FOR_NOT_LOOKED_FOR


_ASKED = {"fl_yes", "pod_yes", "seed_yes", "bean_yes", "seed_touch", "full", "brown", "n_brown", "pods_brown"}
_ANSWERED = {
    "fl_count": "fl_yes",
    "pod_count": "pod_yes",
    "pod_int": "pod_yes",
    "fl_no": "fl_yes",
    "pod_no": "pod_yes",
    "seed_no": "seed_yes",
}
_SO_MANY = _LISTED.table("so_many", int)


def how_many_asked(w: Listener, ph: Phrase, span: Span) -> bool:
    """`12 plants. blooming? 7. any pods? none`: so many of the plants looked at, where none is spoken of."""
    ctx = w.ctx
    pieces = ctx.lattice.pieces
    inside = ph.form in _ANSWERED and ph.end - ph.start > 2 and pieces[ph.end - 2].text == "?"
    i = ph.end - 1 if inside else ph.end + 1  # the answer
    if ctx.plants or ctx.explicit or i >= len(pieces) or pieces[i - 1].text != "?":
        return False
    of = ctx.sample if ctx.sample_visit == max(len(ctx.visits), 1) else None
    end = i + 1
    if i + 2 < len(pieces) and pieces[i + 1].text in {"of", "/"} and pieces[i + 2].form == "int":
        of, end = int(pieces[i + 2].text), i + 3  # beans touching? 3 of 5
    if not w.ends_at(end):
        return False
    n = int(pieces[i].text) if pieces[i].form == "int" else _SO_MANY.get(pieces[i].text)
    if of is None and n is not None and (ph.form == "fl_count" or (ph.rule == "state" and ph.form in _ASKED)):
        ctx.mark(ph.start, end, UNREAD, "so many plants: of how many is not said")
        w.resume_at = end
        return True
    if of is None or n is None or n > of or not (inside or ph.form in _ASKED):
        return False
    ctx.tally = TallyDraft(None, n, of, None, span)
    meant = _ANSWERED[ph.form] if inside else "full" if ph.form == "seed_touch" else ph.form
    asked = Phrase(ph.start, ph.end, ph.rule, meant, ph.path, 0.0)
    done = tallies.finish(ctx, asked, span.cover(ctx.span(i, end)))
    ctx.tally, ctx.open = None, []
    if done:
        ctx.mark(ph.start, end, EVIDENCE)
        w.resume_at = end
    return done


def asked_of_each(w: Listener, ph: Phrase) -> bool:
    """`fl: 1 n, 2 y`, `flowers y/n: n y y n`: a head, and what each plant has stands behind it."""
    texts = [p.text for p in w.ctx.lattice.pieces[ph.end : ph.end + 7] if p.form != "nl"]
    if (
        len(texts) > 1
        and texts[0] in ":=?"
        and texts[1] in {"y", "n"}
        and texts[2:3] not in (["y"], ["n"], [","], ["/"])
    ):
        return False  # fl:y pd:n
    if (
        len(texts) > 3
        and texts[0].isdigit()
        and texts[1] in {"y", "n"}
        and texts[2].isdigit()
        and texts[3] in {"y", "n"}
    ):
        return True  # flowers 1 y 2 n
    return bool({":", "?"} & set(texts[:4])) and len({"y", "n"} & set(texts)) == 2
