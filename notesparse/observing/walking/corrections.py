"""No wait, scratch that, make it: what was said before is put right (guide 4.17)."""

from __future__ import annotations

from typing import Any

from notesparse.language.cues import cue_page
from notesparse.observing import leaves, organs, revise
from notesparse.observing.draft import Length, PlantDraft
from notesparse.observing.fold import EVIDENCE, FILLER, UNREAD, numbers_of, one_label
from notesparse.observing.walking import said_once
from notesparse.observing.walking.bars import bar
from notesparse.observing.walking.by_place import number_at
from notesparse.observing.walking.counted import numbers_at
from notesparse.observing.walking.listening import Listener
from notesparse.observing.walking.moved import exchange_spoken
from notesparse.observing.walking.owned import put_right_on
from notesparse.outcome import Correction
from notesparse.reading.parse import Phrase
from notesparse.span import Span
from notesparse.text.lattice import Lattice

_LISTED = cue_page("walking/corrections")
_COMMON = cue_page("shared")

_NAMED = {"FLOWER": "flowers", "POD": "pods", "SEED": "seeds", "TRIF": "trifoliates", "NODE": "nodes", "NODES": "nodes"}
_FROM_THE_TOP = frozenset({"top_1", "top_n", "top_two", "top_four", "ord_down", "num_down", "ords_down", "below_top"})
BACK_IN_BRANCH = _LISTED.words("back_in_branch")


def read_correction(w: Listener, ph: Phrase, span: Span, k: int) -> bool | str:
    ctx = w.ctx
    f = ph.form
    nxt, _links, mark = w.ahead(k)
    if f == "swapped":
        return exchange_spoken(w, ph, span)
    if f == "n_not_n":
        a, b = numbers_of(ph)[:2]
        return revise.put_number(ctx, b, a, span) or _at_once(w, ph, a, b, span)
    if f in {"cue", "cue_n"} and _spoken_of(w, ph):
        bar(w, ph, "of which plant it is told, and no new count")
        return "barred"
    if ph.start == w.false_start:  # 11, no, 12 trifs: no count of the plant was said before
        return True
    said = ctx.lattice.original(ph.start, ph.path[0][1].end).lower()
    if f in {"cue", "cue_n"} and said.startswith("no") and said.endswith(",") and not goes_over(w, nxt, f):
        w.negative = (ctx.span(ph.start, ph.start + 1), ph.start, ph.start + 1)  # pods? no, ...
        return False
    if f == "take_back" and said in {"scratch", "strike"} and not w.stands_alone_at(ph):
        return False
    names_a_plant = nxt is not None and nxt.rule == "label" and nxt.start == ph.end  # ... R4. *p3 is 12 tf
    names_a_plant = names_a_plant or _nth(w, ph.end) is not None  # sry *3rd has 8
    if (
        f == "star"
        and not w.line_head
        and not names_a_plant
        and w.clause_is_fresh(k)
        and ctx.plants
        and ph.end < len(ctx.lattice.pieces)
        and ctx.lattice.pieces[ph.end].glued
    ):
        ctx.star = span  # plant 1 11 trifs. *12 trifs
        return True
    if f == "star":
        if not w.line_head and not (names_a_plant and not ctx.lattice.pieces[ph.start].glued):
            return "filler"
        ctx.star = span
        visit = ctx.visit
        live = [p for p in visit.plants if not p.dropped] if visit else []
        if not live:
            return "filler"
        if _a_letter_not_told(ctx.lattice, ph.end, {p.label for p in live}):
            bar(w, ph, "a plant that was not told of before")
            return "barred"
        target = live[-1]
        for s in w.segments[k + 1 : k + 8]:
            if s.phrase is None and w.hard_end(s.start):
                break
            nth = _nth(w, s.start) if s.phrase is None or s.phrase.form in _BARE_ORDINALS else None
            if nth is not None and target is live[-1]:
                target = nth
                end = next(e.end for e in ctx.lattice.edges[s.start] if e.kind == "ORD")
                ctx.mark(s.start, end, EVIDENCE)
                w.resume_at = max(w.resume_at, end if s.phrase is not None and s.start == ph.end else 0)
            lettered = _lettered(w, s.start) if s.phrase is None else None
            if lettered is not None:
                target = lettered  # *c is 12tf
                ctx.mark(s.start, s.start + 1, EVIDENCE)
                w.resume_at = max(w.resume_at, s.start + 1)
            if s.phrase is not None and s.phrase.rule in {"bareint", "label"}:
                label = one_label(ctx.lattice, s.phrase) or ""
                found = visit.plant(label) if visit else None
                if found is not None:
                    target = found
        ctx.plants = [target]
        ctx.explicit = True
        return True
    if f == "take_back":
        whole = bool(
            {ctx.lattice.pieces[s.start].text for s in w.segments[k + 1 : k + 8] if s.phrase is None} & BACK_IN_BRANCH
        ) or bool(branch_ahead(w, k))
        behind = next((s.phrase for s in w.segments[k + 1 : k + 3] if s.phrase is not None), None)
        again = (
            behind is not None
            and behind.rule == "label"
            and ctx.plants
            and [str(n) for n in numbers_of(behind)[:1]] == [ctx.plants[-1].label]
        )
        whole = whole or bool(again and ctx.explicit)  # strike that. Plant five, ...: told anew
        if (
            nxt is not None
            and nxt.rule == "bareint"
            and nxt.path[0][1].kind == "INT"
            and not whole
            and w.ends_at(nxt.end)
            and ctx.statements
            and ctx.statements[-1].put is not None
        ):
            ctx.correcting = span  # scratch that, 12
            return True
        if (
            nxt is not None
            and nxt.rule in {"trif", "nodes", "stage"}
            and not whole
            and any(s.kind == kind_of(nxt) for s in ctx.statements)
            and not mark
        ):
            ctx.taking_back = span
            return True
        number = ph.end + 1 < len(ctx.lattice.pieces) and any(e.kind == "INT" for e in ctx.lattice.edges[ph.end + 1])
        if ctx.lattice.at(ph.end) in {"about", "regarding"} and not number:
            return _about(w, ph)
        if _for_some(w, ph):
            return True
        revise.take_back(ctx, whole)
        if whole:
            reason_behind(w, k)
        return True
    if f == "cue" and ctx.visit is None and not ctx.statements:
        return "filler"  # sorry these r late: nothing was said yet
    then = next((s.phrase for s in w.segments[k + 1 :] if s.phrase is not None and s.phrase.form != "see_alone"), None)
    if f == "cue" and then is not None and then.rule == "label" and _goes_on_to(w, ph, then):
        return "filler"
    if f == "cue":
        if nxt is not None and _ripe_share(w, ph, nxt):
            return True
        if nxt is None or (
            nxt.rule
            not in {
                "trif",
                "nodes",
                "stage",
                "place",
                "length",
                "label",
                "flowers",
                "pods",
                "seeds",
                "state",
                "percent",
                "podshare",
                "topleaf",
                "date",
                "bareint",
                "correct",
                "emergence",
                "findhead",
                "same",
            }
        ):
            return "filler"
        ctx.correcting = span
        return True
    # a bare number or ordinal after the cue
    if f == "cue_n":
        n = numbers_of(ph)[0]
        if _length_told_last(w, n, span) or _count_on_another(w, ph.end, n, span):
            return True
        for told in reversed(ctx.statements):
            if told.put is not None:
                ctx.corrected.append(Correction("4.17", told.span, f"replaced by {n}"))
                told.put(n)
                move_span(w, told, span)
                return True
        if said_once.put_right(ctx, n, span):
            return True
        for sight in ctx.open:
            if sight.length is not None or sight.count_int is not None:
                return False
        if ctx.plants and ctx.plants[-1].last("mature_pods_percent"):
            e = ctx.plants[-1].last("mature_pods_percent")
            if e is not None:
                ctx.corrected.append(Correction("4.17", e.span, f"{e.value:g} replaced by {n}"))
                e.value, e.span = float(n), span
                return True
        return False
    if f == "cue_ord":
        n = numbers_of(ph)[0]
        has = ph.end < len(ctx.use) and any(e.kind == "HAS" for e in ctx.lattice.edges[ph.end])
        if has and nxt is not None and revise.back_to(ctx, str(n), span):
            return True  # sorry, 3rd has 8
        if ctx.open and ctx.open[0].places:
            for sight in ctx.open:
                old = sight.places[-1]
                sight.places[-1] = type(old)(old.form, (n,), span)
                sight.spans.append(span)
            ctx.corrected.append(Correction("4.17", old.span, f"replaced by {n}"))
            return True
        return False
    return False


_IS = _COMMON.words("being")
_WHERE = _LISTED.words("where")
_THE_ONE = _COMMON.words("the_or_a")


def _spoken_of(w: Listener, cue: Phrase) -> bool:
    """`Wait, 3 was what I counted twice`, `no, 2 is the one with the scar`: the number is a plant's, and no value."""
    at = w.ctx.lattice.at
    end = cue.end + (at(cue.end) == ",")
    known = w.ctx.visit.plant if w.ctx.visit is not None else None
    if cue.form == "cue_n":
        label = str(numbers_of(cue)[0])
    elif end < len(w.ctx.use) and (number := number_at(w, end)) is not None:
        label, end = str(number.means), number.end
    else:
        return False
    if at(end) not in _IS:
        return False
    one = at(end + 1) in _THE_ONE and "one" in {at(end + 1), at(end + 2)} and at(end + 3) in _CLAUSE
    what = at(end + 1) == "what" and known is not None and known(label) is not None
    opened = at(end) == "'s" and at(end + 1) == "open"  # no flowers, oh wait one's open
    return at(end + 1) in _WHERE or one or what or opened


_CLAUSE = _COMMON.words("opens_a_clause")
_HEDGES = 2  # pieces between the cue and the share: no wait, about 96 percent


def _ripe_share(w: Listener, cue: Phrase, share: Phrase) -> bool:
    """`three of twenty pods brown no make that five of twenty`, `all brown, no wait 96 percent`: another share of ripe
    pods behind the cue."""
    ctx = w.ctx
    told = ctx.plants[-1].last("mature_pods_percent") if ctx.explicit and ctx.plants else None
    between = range(cue.end, share.start)
    if told is None or len(between) > _HEDGES or not all(ctx.lattice.filler[i] or i == cue.end for i in between):
        return False
    last = ctx.statements[-1] if ctx.statements else None
    if last is not None and last.span.start > told.span.start:
        return False
    if share.form == "n_of_m" and len(between) <= 1:
        part, of = numbers_of(share)[:2]
        value, said = (round(100.0 * part / of, 1) if of else -1.0), f"{part} of {of}"
    elif share.form == "pct" and not _of_plants(w, share):
        value = float(numbers_of(share)[0])
        said = f"{value:g}"
    else:
        return False
    if not 0.0 <= value <= _ALL:
        return False
    ctx.corrected.append(Correction("4.17", told.span, f"{told.value:g} replaced by {said}"))
    told.value, told.span = value, ctx.span(share.start, share.end)
    ctx.mark(share.start, share.end, EVIDENCE)
    w.resume_at = share.end
    return True


_ALL = 100.0


def _of_plants(w: Listener, share: Phrase) -> bool:
    lattice = w.ctx.lattice
    inside = range(share.start, min(share.end + 3, len(lattice.pieces)))
    return any(e.kind in {"PLANT", "ALLPL"} and e.how == "exact" for i in inside for e in lattice.edges[i])


def _length_told_last(w: Listener, n: int, span: Span) -> bool:
    """`seed 9 mm, make that 7`: a length was told after all else, and the number is in its unit."""
    ctx = w.ctx
    if ctx.lengths and _waiting(w, n, span):
        return True
    sized = [s for s in ctx.open or revise.last_of(ctx, ctx.last_what or "") if s.length is not None]
    if not sized or sized[0].length is None or sized[0].length.bare is not None:
        return False
    old = sized[0].length
    if ctx.statements and ctx.statements[-1].span.start >= old.span.end:
        return False
    ctx.correcting = ctx.correcting or span
    organs.attach_length(ctx, Length(n * _unit(w, old), old.inches, span), sized)
    return True


def _unit(w: Listener, old: Length) -> float:
    said = w.ctx.lattice.text[old.span.start : old.span.end].casefold().rstrip(". ")
    return 25.4 if old.inches else 10.0 if said.endswith(("cm", "centimeter", "centimeters")) else 1.0


def _waiting(w: Listener, n: int, span: Span) -> bool:
    """`plant 2 18 mm second node down, correction 19`: the length that is put right waits for what it is of."""
    ctx, old = w.ctx, w.ctx.lengths[-1]
    if old.bare is not None or (ctx.statements and ctx.statements[-1].span.start >= old.span.end):
        return False
    ctx.corrected.append(Correction("4.17", old.span, f"replaced by {n}"))
    ctx.lengths[-1] = Length(n * _unit(w, old), old.inches, span)
    return True


def goes_over(w: Listener, nxt: Phrase | None, form: str) -> bool:
    """After `no,` comes another value of what was said last."""
    ctx = w.ctx
    last = ctx.statements[-1] if ctx.statements else None
    if last is None:
        return False
    if nxt is not None and nxt.rule == "place":  # fl 2nd from top, no, 3rd from top
        told = ctx.open[0] if ctx.open else None
        return told is not None and bool(told.present and told.places) and nxt.form in _FROM_THE_TOP
    if form == "cue_n":
        return last.put is not None
    if nxt is not None and nxt.rule == "bareint":
        return last.put is not None and w.ends_at(nxt.end)
    if nxt is not None and nxt.rule == "length":
        return any(s.length is not None for s in ctx.open or revise.last_of(ctx, ctx.last_what or ""))
    return nxt is not None and nxt.rule in {"trif", "nodes", "stage"} and last.kind == kind_of(nxt)


def reason_behind(w: Listener, k: int) -> None:
    """`scratch that, I was on a branch`: why it was taken back is no content."""
    words = list(w.segments[k + 1 : k + 9])
    for _n, s in enumerate(words):
        if s.phrase is None and (w.hard_end(s.start) or not w.ctx.lattice.pieces[s.start].text):
            return
        if (s.phrase is not None and s.phrase.form == "branch") or (
            s.phrase is None and w.ctx.lattice.pieces[s.start].text in BACK_IN_BRANCH
        ):
            w.ctx.mark(words[0].start, s.end, FILLER)
            w.resume_at = s.end
            return
        if s.phrase is not None and s.phrase.rule not in {"filler", "past", "goto", "where"}:
            return


def move_span(w: Listener, s: Any, span: Span) -> None:
    """The words of a value that was put right; what was asked of the value before is settled."""
    if s.plant is not None:
        w.ctx.asks = [a for a in w.ctx.asks if a.plant is not s.plant or a.key != s.kind or not a.span.overlaps(s.span)]
        e = s.plant.last(s.kind)
        if e is not None:
            e.span = span


def branch_ahead(w: Listener, k: int) -> bool:
    p = w.in_clause(k, {"place"})
    return p is not None and p.form == "branch"


def kind_of(ph: Phrase) -> str:
    return {"trif": "trifoliates", "nodes": "nodes"}.get(
        ph.rule, "stated_r" if ph.form.startswith(("r", "name")) else "stated_v"
    )


def _at_once(w: Listener, ph: Phrase, said: int, wrong: int, span: Span) -> bool:
    """`plant 5 12 not 11 trifs`: put right before anything was counted on the plant."""
    ctx = w.ctx
    kinds = {e.kind for _, e in ph.path}
    key = "trifoliates" if "TRIF" in kinds else "nodes" if kinds & {"NODE", "NODES"} else w.series_key()
    if key not in {"trifoliates", "nodes"} or not ctx.plants or not ctx.explicit or ctx.plants[-1].last(key):
        return False
    ctx.corrected.append(Correction("4.17", span, f"{said}, not {wrong}"))
    return leaves.count(ctx, key, said, span) is not None


_HELD_UP = 2  # words of what came between
_HUMS = _LISTED.words("hums")
_FOR_GOES_ON_TO = _LISTED.words("for_goes_on_to")


def _goes_on_to(w: Listener, cue: Phrase, label: Phrase) -> bool:
    """`plant one 7 trifs hang on plant two is 8 trifs`, `hold on somebody's coming okay plant three 9 trifs`: the next
    plant, with a count of its own or behind other talk; nothing is put right."""
    ctx, at = w.ctx, w.ctx.lattice.at
    last = ctx.plants[-1] if ctx.explicit and len(ctx.plants) == 1 else None
    number = next((int(e.means) for _, e in label.path if e.kind in {"INT", "ORD"}), None)
    if last is None or not last.label.isdigit() or number != int(last.label) + 1:
        return False
    between = [i for i in range(cue.end, label.start) if ctx.lattice.pieces[i].form == "word"]
    if any(at(i) in _FOR_GOES_ON_TO for i in between[-2:]):
        return False  # hang on that was plant two
    if sum(at(i) not in _HUMS for i in between) >= _HELD_UP:
        return True
    count = next((s.phrase for s in w.segments if s.start >= label.end and s.phrase is not None), None)
    told = last.last("trifoliates") or last.last("nodes")
    own = count is not None and count.rule in {"trif", "nodes"} and count.start <= label.end + 2
    return bool(told and own and count is not None and numbers_of(count)[:1] != [told.value])


_BARE_ORDINALS = frozenset({"ord_day", "bareint"})


def _nth(w: Listener, i: int) -> PlantDraft | None:
    """The plant of the visit whose ordinal stands at piece i: `*3rd has 8`."""
    ordinals = [e.means for e in w.ctx.lattice.edges[i] if e.kind == "ORD"] if i < len(w.ctx.lattice.edges) else []
    return w.ctx.visit.plant(str(ordinals[0])) if ordinals and w.ctx.visit is not None else None


_BEHIND_LETTERED = _COMMON.words("being_or_having") | {"="}


def _lettered(w: Listener, i: int) -> PlantDraft | None:
    """`c is 12tf`: the plant of this letter, where what it has is told right behind."""
    ctx, pieces = w.ctx, w.ctx.lattice.pieces
    letter = pieces[i].form == "word" and len(pieces[i].text) == 1
    there = ctx.visit.plant(ctx.lattice.original(i, i + 1)) if letter and ctx.visit is not None else None
    if there is None or i + 1 >= len(pieces):
        return None
    counted = [e.end for e in ctx.lattice.edges[i + 1] if e.kind == "INT" and e.end < len(pieces)]
    told = any(e.kind in {"TRIF", "NODES"} for end in counted for e in ctx.lattice.edges[end])  # *C 10 trifs
    told = told or any(s.start == i + 1 and s.phrase is not None for s in w.segments)  # *D one tan pod
    return there if told or pieces[i + 1].text in _BEHIND_LETTERED else None


def _a_letter_not_told(lattice: Lattice, i: int, labels: set[str]) -> bool:
    """`*D 11 trif` behind plants A, B and C: a letter that no plant bears."""
    if i + 1 >= len(lattice.pieces):
        return False
    own = lattice.original(i, i + 1)
    lettered = labels and all(len(x) == 1 and x.isalpha() for x in labels)
    if not lettered or len(own) != 1 or not own.isupper() or own in labels:
        return False
    return not any(e.kind == "BARE" for e in lattice.edges[i])


def read_not_number(w: Listener, ph: Phrase, span: Span) -> bool | str:
    ctx = w.ctx
    if ctx.statements and ctx.statements[-1].put is not None:
        ctx.corrected.append(Correction("4.17", span, f"not {numbers_of(ph)[0]}"))
        return True
    return False


_FOR = _COMMON.words("of")
_A_PLANT = _COMMON.words("plant") | _COMMON.words("plants") | _COMMON.words("number") | {"p"}


def _for_some(w: Listener, ph: Phrase) -> bool:
    """`all with a bloom; take that back for 2`: what was said last of several plants is taken back for some of them."""
    ctx = w.ctx
    if ctx.lattice.at(ph.end) not in _FOR or not ctx.statements:
        return False
    labels, end = numbers_at(w, ph.end + 1, _A_PLANT) or ([], 0)
    named = [p for p in ctx.living() if p.label in labels]
    what = ctx.statements[-1].kind
    if not named or len(named) != len(labels) or len(named) == len(ctx.living()):
        return False
    for p in named:
        gone = [s.span for s in p.sightings if s.what == what] + [e.span for e in p.facts.pop(what, [])]
        p.sightings = [s for s in p.sightings if s.what != what]
        ctx.corrected += [Correction("4.17", at, f"taken back for plant {p.label}") for at in gone[-1:]]
    ctx.close()
    ctx.plants, ctx.explicit, ctx.group = named, True, None
    ctx.mark(ph.end, end, EVIDENCE)
    w.resume_at = end
    return True


def _count_on_another(w: Listener, end: int, n: int, span: Span) -> bool:
    """`... plant three eight trifs no wait nine on plant one`: the count that was told last, put right on another plant."""
    ctx = w.ctx
    told = ctx.statements[-1] if ctx.statements else None
    owned = put_right_on(w, end) if told is not None and told.kind in {"trifoliates", "nodes"} else None
    if told is None or owned is None or any(p.last(told.kind) is None for p in owned.plants):
        return False
    ctx.close()
    ctx.plants, ctx.explicit, ctx.group, ctx.correcting = owned.plants, True, None, span
    leaves.put(ctx, told.kind, n, span)
    ctx.mark(owned.start, owned.end, EVIDENCE)
    w.resume_at = max(w.resume_at, owned.end)
    return True


def _about(w: Listener, ph: Phrase) -> str | bool:
    """`forget what I said about the pods`: what is named goes; about the sprayer, nothing of the plant does."""
    ctx = w.ctx
    end = ph.end
    while not w.ends_at(end):
        end += 1
    named = {_NAMED[e.kind] for i in range(ph.end, end) for e in ctx.lattice.edges[i] if e.kind in _NAMED}
    w.resume_at = end
    if ctx.statements and ctx.statements[-1].kind in named:
        revise.take_back(ctx, False)
        ctx.mark(ph.start, end, FILLER)
        return True
    ctx.mark(ph.start, end, UNREAD, "what is taken back is not clear" if named else "of something else")
    return "barred"
