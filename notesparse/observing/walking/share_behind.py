"""The share that is named behind what it is of: `flowering, 6 of 10`, `fl 4/5`, `R2 7/10` (guide 4.16)."""

from __future__ import annotations

from fractions import Fraction

from notesparse.language.cues import cue_page
from notesparse.observing import headers, tallies
from notesparse.observing.dates import long_after, read_day
from notesparse.observing.fold import EVIDENCE, numbers_of
from notesparse.observing.walking.listening import ORGANS, Listener
from notesparse.reading.parse import Phrase
from notesparse.span import Span
from notesparse.text.lattice import Edge

_LISTED = cue_page("walking/share_behind")
_COMMON = cue_page("shared")

_SIZES = ORGANS | {"place", "length"}
_LOOSE = _LISTED.words("loose")
_SHARES = frozenset(
    {
        *("n_of_m", "of_m_n", "n_in_m", "pct", "half", "less_half", "most", "n_of_them", "n_all"),
        *("frac", "frac_of_n"),
        *("group_n", "half_of_n", "pct_of_n", "group_none", "all_but", "n_but"),
    }
)
_FILLS_IN = frozenset({":", "=", "-"})
_INCHES = frozenset({2, 4, 8, 16, 32})
_SEASON = range(4, 12)
"""Months in which anything is seen of a field of soybeans."""


def share_behind(w: Listener, k: int) -> Phrase | None:
    """`small beans in the top four in 4 of 5 plants`: the share behind the organ, its places and its sizes."""
    ctx, organ = w.ctx, w.segments[k].phrase
    if organ is None or organ.rule not in _SIZES | {"emergence"} or ctx.explicit:
        return None
    listed = ctx.visit is not None and bool(ctx.visit.plants)
    begun = w.begins(organ.start)
    if listed and not begun:
        return None
    end = organ.end
    for j in range(k + 1, len(w.segments)):
        s = w.segments[j]
        ph = s.phrase
        part = _a_part_of_them(w, s.start) if s.start == end and not listed else None
        if part is not None:
            return part
        if ph is None:
            if w.hard_end(s.start):
                return None
            continue
        if ph.rule in _SIZES | {"main", "filler"}:
            end = ph.end
            continue
        slashed = counted_out(w, organ, ph, end)
        if slashed is not None:
            return slashed
        if listed and not w.line_head and not _of_all_listed(w, organ, ph, end):
            return None
        share = share_answered(w, ph)
        if share is not None:
            return share
        if _of_leaves(w, end, s.start):
            return None
        of_others = ph.form in {"other_n", "other_one"} and organ.rule == "emergence"  # cots only on the other two
        if (ph.form in _SHARES or of_others) and s.start - end <= 2 + _loose_between(w, end, s.start):
            return ph if _is_of(w, k, j, end) else None
        return None
    return None


_SMALLEST = 10  # parts of the plants: a tenth


def _a_part_of_them(w: Listener, i: int) -> Phrase | None:
    """`(flowers) on about a third`, `on two thirds`, `on 1/3 or so`: a part of the plants, where nothing is named of which
    it is."""
    at, edges = w.ctx.lattice.at, w.ctx.lattice.edges
    if "on" not in {at(i), at(i - 1)}:
        return None
    i += at(i) == "on"
    while at(i) in _LOOSE:
        i += 1
    part = _part_at(w, i) if i < len(edges) else None
    if part is None:
        return None
    value, end = part
    stop = end + 2 * ((at(end), at(end + 1)) == ("or", "so"))
    if not 0 < value < 1 or not w.ends_at(stop) or at(stop) == '"':
        return None
    return Phrase(i, stop, "ratio", "frac_doing", ((i, Edge(end, "FRAC", value, 0.0, "exact")),), 0.0)


def _part_at(w: Listener, i: int) -> tuple[Fraction, int] | None:
    at, edges = w.ctx.lattice.at, w.ctx.lattice.edges
    if at(i) in {"a", "one"} and at(i + 1) == "third":
        return Fraction(1, 3), i + 2
    if at(i).isdigit() and at(i + 1) == "/" and at(i + 2).isdigit() and 0 < int(at(i + 2)) <= _SMALLEST:
        return Fraction(int(at(i)), int(at(i + 2))), i + 3
    found = max((e for e in edges[i] if e.kind == "FRAC"), key=lambda e: e.end, default=None)
    return (Fraction(found.means), found.end) if found is not None else None


_FOR_OF_LEAVES = _COMMON.words("leaf") | _COMMON.words("stem") | {"canopy", "leaf"}


def _of_leaves(w: Listener, end: int, start: int) -> bool:
    """`70% of pods brown, lvs about half down`: the leaves stand between."""
    return any(p.text in _FOR_OF_LEAVES for p in w.ctx.lattice.pieces[end:start])


def counted_out(w: Listener, of: Phrase, ph: Phrase, end: int) -> Phrase | None:
    """`fl 4/5`, `R2 7/10`: so many plants of so many right behind what is told of them, and neither a day nor a part of
    an inch. `end` is where what is told of them ends."""
    if ph.form not in {"md", "n_slash_m"} or not _beside(w, end, ph) or not (w.ends_at(ph.end) or _paired(w, ph)):
        return None
    share = _as_a_share(w, ph)
    if share is None:
        return None
    count, many = numbers_of(share)[:2]
    if count > many or many < 2:
        return None
    known = _known(w)
    if known is not None:
        return share if many == known else None
    if _of_a_row_of_days(w, ph):
        return None
    if many in _INCHES and 0 < count < many and of.rule not in {"flowers", "stage"}:
        return None  # pods 3/4
    ctx, said = w.ctx, w.ctx.span(share.start, share.end)
    if ctx.pins.get(said) == "the date":  # so it was answered
        if not any(a.span == said for a in ctx.asks):
            _ask_day(w, share, said)
        w.said_behind.add(share.start)
        ctx.mark(share.start, share.end, EVIDENCE)
        return None
    return None if _is_its_day(w, ph) else share


def _as_a_share(w: Listener, ph: Phrase) -> Phrase | None:
    """The reading of `7/10` as so many of so many, where it was read as a day."""
    if ph.form == "n_slash_m":
        return ph
    return next((p for p in w.rivals[ph.start] if p.form == "n_slash_m" and p.end == ph.end), None)


def _paired(w: Listener, share: Phrase) -> bool:
    """`fl 10/10 pods 4/10`: what stands behind has a share of its own behind it."""
    behind = [s for s in w.segments if s.start >= share.end][:2]
    if len(behind) < 2 or any(s.phrase is None for s in behind) or behind[0].start != share.end:
        return False
    organ, own = behind[0].phrase, behind[1].phrase
    assert organ is not None and own is not None
    return (
        organ.rule in ORGANS | {"stage"} and own.form in {"md", "n_slash_m", "n_of_m", "pct"} and own.start == organ.end
    )


def _of_a_row_of_days(w: Listener, ph: Phrase) -> bool:
    """`R1 7/3, R2 7/10, R3 7/17`: several days of a month, where no two are of as many plants."""
    pairs = [numbers_of(s.phrase)[:2] for s in w.segments if s.phrase is not None and s.phrase.form == "md"]
    here = numbers_of(ph)[:2]
    others = [pair for pair in pairs if pair != here]
    return any(a == here[0] for a, _ in others) and not any(b == here[1] for _, b in others)


def of_the_place(w: Listener, ph: Phrase, span: Span, k: int) -> bool:
    """`fl 4/5, top two 3/5`: how many have the flowers there, behind how many have any."""
    ctx = w.ctx
    share = w.ahead(k)[0]
    told = ctx.visit.tallies if ctx.visit is not None else []
    if share is None or not told or told[-1].what not in {"R1", "R2"} or not w.begins(ph.start):
        return False
    if not (_beside(w, ph.end, share) and w.ends_at(share.end)):
        return False
    if share.form not in {"n_of_m", "pct"}:
        share = counted_out(w, ph, share, ph.end)
    if share is None:
        return False
    said = ctx.span(share.start, share.end)
    t = tallies.start(ctx, share, said)
    ctx.tally = None
    if t is None:
        return False
    t.what, t.span = "R2", span.cover(said)
    ctx.here().tallies.append(t)
    w.said_behind.add(share.start)
    ctx.mark(ph.start, share.end, EVIDENCE)
    return True


def of_the_share(w: Listener, ph: Phrase, span: Span, share: Phrase) -> bool:
    """What the phrase tells is told of the share behind it; False where it is nothing that plants are counted for."""
    ctx = w.ctx
    said = ctx.span(share.start, share.end)
    known = _known(w)
    t = tallies.start(ctx, share, said)
    if t is not None and share.form == "group_n":
        t.count = t.of = float(numbers_of(share)[0])
    if t is None or not tallies.finish(ctx, ph, span):
        ctx.tally = None
        return False
    t.span = t.span.cover(said)
    w.said_behind |= set(range(share.start, share.end)) if share.form == "frac_doing" else {share.start}
    ctx.mark(ph.start, ph.end, EVIDENCE)
    if share.form == "n_slash_m":
        ctx.mark(share.start, share.end, EVIDENCE)
        answered = ctx.lattice.pieces[share.start - 1].text in _FILLS_IN | {"count"} and not _the_first(w, ph)
        if known is None and not answered:
            _ask_day(w, share, said)
    return True


def _the_first(w: Listener, ph: Phrase) -> bool:
    """`first flower: 7/10`, which is a day as well."""
    return "first" in {p.text for p in w.ctx.lattice.pieces[max(0, ph.start - 1) : ph.end]}


def _ask_day(w: Listener, share: Phrase, said: Span) -> None:
    """Asks where the numbers may as well be a day of the season."""
    ctx = w.ctx
    here = [s.phrase for s in w.segments if s.start == share.start and s.phrase is not None]
    md = next((p for p in [*here, *w.rivals[share.start]] if p.form == "md"), None)
    a, b = numbers_of(share)[:2]
    day = read_day(md, headers.base(ctx), ctx.day_first) if md is not None else None
    if day is None or a not in _SEASON or _more_of(w, share, b):
        return
    if ctx.note_date is None or not long_after(day.iso, ctx.note_date):
        ctx.ask(tallies.plants_or_day(said, "/", a, b, day.iso))


def _more_of(w: Listener, share: Phrase, many: int) -> bool:
    """Another share of as many plants stands in the note: `fl 4/5, top two 3/5`."""
    return any(
        p.form == "n_slash_m" and p.start != share.start and numbers_of(p)[1] == many for at in w.rivals for p in at
    )


def _is_its_day(w: Listener, ph: Phrase) -> bool:
    """The day of the note, or of the visit."""
    ctx = w.ctx
    day = read_day(ph, headers.base(ctx), ctx.day_first) if ph.form == "md" else None
    if day is None:
        return False
    dated = ctx.visit.head.get("date") if ctx.visit is not None else None
    return day.iso in {ctx.note_date, dated.value if dated is not None else None}


def _known(w: Listener) -> int | None:
    """How many plants were counted or listed."""
    listed = len(w.ctx.living())
    return listed if listed > 1 else tallies.sample(w.ctx)


def _beside(w: Listener, end: int, ph: Phrase) -> bool:
    """Nothing stands between, or what stands before an answer."""
    pieces = w.ctx.lattice.pieces
    return ph.start == end or (ph.start == end + 1 and pieces[end].text in _FILLS_IN)


def _of_all_listed(w: Listener, organ: Phrase, ph: Phrase, end: int) -> bool:
    """`trifs 9 9 8 10 9; pods 3 of 5`, `fl 80%`: of the plants that were listed."""
    if not _beside(w, end, ph) or not w.ends_at(ph.end):
        return False
    n = numbers_of(ph)
    return (ph.form == "n_of_m" and n[-1] == _known(w)) or (ph.form == "pct" and organ.rule == "flowers")


_BEFORE_IS_OF = _COMMON.words("at") | {"of"}


def _is_of(w: Listener, k: int, j: int, end: int) -> bool:
    """Whether the share at segment j is of the organ at segment k before it, and not of what comes next."""
    ctx, organ, ph = w.ctx, w.segments[k].phrase, w.segments[j].phrase
    assert organ is not None and ph is not None
    after = w.in_clause(j, ORGANS | {"stage"})
    if ctx.visit is not None and ctx.visit.plants and ph.form != "n_of_m" and not _of_all_listed(w, organ, ph, end):
        return False  # under the plants: bloom on 2 of 8
    if _beside(w, end, ph) and (w.ends_at(ph.end) or _paired(w, ph)) and (w.begins(organ.start) or w.after_name):
        return True  # pods 3 of 5, seed 0 of 5
    said = ctx.lattice.original(ph.start, ph.end).lower().startswith(("on ", "in ", "of "))
    before = ph.start - 1
    while before > end and ctx.lattice.pieces[before].text in _LOOSE:
        before -= 1
    on = said or ctx.lattice.pieces[before].text in _BEFORE_IS_OF
    so = {p.text for p in ctx.lattice.pieces[ph.end : after.start]} & {"so", ","} if after is not None else None
    if after is not None and after.start <= ph.end + 3 and not (on and so):
        return False
    if ph.rule == "group" and not (on and numbers_of(ph)):
        return False
    one_plant_in = any(e.kind == "PLANT" for _, e in ph.path)  # a bloom here and there, maybe one plant in eight
    return on or j == k + 1 or ph.start - organ.end <= 2 or one_plant_in


def _loose_between(w: Listener, start: int, end: int) -> int:
    """`flowers just starting on maybe two out of ten`: words that carry nothing."""
    return sum(p.text in _LOOSE for p in w.ctx.lattice.pieces[start:end])


def share_answered(w: Listener, ph: Phrase) -> Phrase | None:
    """`Open flower at the top two nodes: 6 of 10`, `At R2: 6/10`: the share behind a colon, if this phrase is one that
    ends the line."""
    at, pieces = ph.start, w.ctx.lattice.pieces
    if not at or pieces[at - 1].text not in {":", "-", "="} or not w.ends_at(ph.end):
        return None
    if ph.rule == "date" and pieces[at - 1].text == ":":
        return _as_a_share(w, ph)
    return ph if ph.form in {"n_of_m", "n_slash_m"} else None
