"""`Brown pods: p1 1, p2 0, p3 3 of 30, p4 every last one`, in a row or in lines `1) 38 of 40`: how many pods of each plant
are of mature colour; and `is that pod brown? No`, asked and told of one plant (guide
4.14). So too the share with no plant named, in order: `pct ripe pods by plant: 96 88 95`."""

from __future__ import annotations

from typing import Any

from notesparse.language.cues import cue_page
from notesparse.observing import leaves
from notesparse.observing.fold import EVIDENCE, UNREAD
from notesparse.observing.lists import numbered_plant
from notesparse.observing.walking import counted
from notesparse.observing.walking.listening import Listener
from notesparse.reading.parse import Phrase
from notesparse.span import Span
from notesparse.text.scan import Piece

_LISTED = cue_page("walking/ripe_pods")
_COMMON = cue_page("shared")

_AFTER_HEAD = _LISTED.words("after_head")
_BY_PLANT = _LISTED.words("by_plant")
_AFTER_LABEL = _COMMON.words("having") | {"-", ":", "="}
_BETWEEN = _COMMON.words("and") | {".", "/", ";"}
_OF_THEM = _LISTED.words("of_them")
_NONE = _COMMON.words("none") | _COMMON.words("no")
_MOST_PARTS = 10
_EVERY = _COMMON.words("all")
_SHARES = _LISTED.words("shares")
_OF = _COMMON.words("pod") | {"of", "the"}
_IN_ORDER = _LISTED.words("in_order")
_FEWEST_IN_ORDER = 3  # figures
_MOST_COUNTED = 12  # pods; more are percent
_FEWEST = 2  # plants; one by itself is read as prose


def ripe_pods_of_each(w: Listener, i: int) -> int | None:
    """Puts what stands behind the words for ripe pods at piece i; where it ends, None where there is no such list."""
    in_order = _in_order(w, i)
    if in_order is not None:
        return in_order
    ctx, pieces = w.ctx, w.ctx.lattice.pieces
    head = _said(w, i, "BROWN", "POD") or _said(w, i, "POD", "BROWN")
    if not head:
        return None
    k = head
    while k < len(pieces) and pieces[k].text in _BY_PLANT and w.ends_at(_past(pieces, k, _BY_PLANT)):
        k = _past(pieces, k, _BY_PLANT)
    k = _past(pieces, k, _AFTER_HEAD)
    over = _over_shares(w, head)
    k = over + 1 if over is not None else k
    in_lines = k < len(pieces) and pieces[k].form == "nl"
    k = _past_lines(pieces, k)
    found: list[tuple[str, int, int, Any]] = []
    while True:
        k += in_lines and w.ctx.lattice.at(k) == "(" and w.ctx.lattice.at(k + 2) == ")"  # (1) 38 of 40
        one = numbered_plant(w.ctx.lattice, k) or _lettered(w, k) or (_numbered_line(pieces, k) if in_lines else None)
        if one is None:
            break
        label, at = one
        while at < len(pieces) and (pieces[at].text in _AFTER_LABEL or _says_nothing(w, at)):
            at += 1
        told = _told(w, at)
        if told is None:
            break
        value, end = told
        found.append((label, k, end, value))
        k = _past_lines(pieces, _past(pieces, end, _BETWEEN))
    if len(found) < _FEWEST:
        return _only_a_head(w, i, head)
    last = found[-1][2]
    percent = any(isinstance(value, int) and value > _MOST_COUNTED for *_, value in found)
    ctx.pods_brown_head = ctx.pods_brown_head or percent  # what comes next may be told likewise
    for label, start, end, value in found:
        span = ctx.span(start, end)
        there = ctx.visit.plant(label) if ctx.visit is not None else None
        plant = there if there is not None else ctx.begin([label], span)[0]
        if isinstance(value, int) and not percent:
            value = "one" if value else "none"
        plant.put("mature_pods" if isinstance(value, str) else "mature_pods_percent", _told_as(value), span)
    ctx.mark(i, last, EVIDENCE)
    ctx.leave_plants()
    return last


def _said(w: Listener, i: int, first: str, then: str) -> int:
    """Where `brown pods`, `pods brown` ends that begins at piece i; 0 where it does not stand there."""
    edges = w.ctx.lattice.edges
    mid = max((e.end for e in edges[i] if e.kind == first and e.how == "exact"), default=0)
    return max((e.end for e in edges[mid] if e.kind == then), default=0) if i < mid < len(edges) else 0


def _says_nothing(w: Listener, i: int) -> bool:
    """`about`, `lets say` before a figure."""
    lattice = w.ctx.lattice
    hedge = lattice.filler[i] or any(e.kind == "HEDGE" for e in lattice.edges[i])
    return hedge and lattice.pieces[i].form == "word" and lattice.at(i) not in _NONE | _EVERY | {"a"}


_COLOURED = frozenset({"n_brown", "brown", "pods_brown"})
_NO = _COMMON.words("no") | {"n"}
_YES = _COMMON.words("yes")
_ONE = _LISTED.words("one")
_JUST = _LISTED.words("just")


def asked_and_told(w: Listener, ph: Phrase, span: Span) -> bool:
    """`is that pod brown? No, just mud on it`, `is that one tan? Yes`: the answer says whether the plant has a ripe pod."""
    ctx, at = w.ctx, w.ctx.lattice.at
    if ph.form not in _COLOURED or at(ph.end) != "?" or not ctx.plants or not ctx.explicit:
        return False
    answer = ph.end + 1
    asked_of_one = bool({at(x) for x in range(max(0, ph.start - 2), ph.end)} & _ONE)
    if at(answer) not in _NO | _YES or not (w.ends_at(answer + 1) or at(answer + 1) in _JUST):
        return False
    if at(answer) in _YES and not asked_of_one:
        return False
    whole = span.cover(ctx.span(answer, answer + 1))
    leaves.put(ctx, "mature_pods", "one" if at(answer) in _YES else "none", whole)
    ctx.last_what = "mature"
    ctx.mark(ph.start, answer + 1, EVIDENCE)
    end = answer + 1 + (at(answer + 1) == ",")
    counted.cut(w, end)
    w.resume_at = end
    return True


_HOW_COUNTED = _LISTED.words("how_counted")


def _only_a_head(w: Listener, i: int, head: int) -> int | None:
    """`Tan pods per plant, counted.`, `Ripe pods counted plant by plant:`: what is counted in what follows, and no pod that
    was seen."""
    pieces, at = w.ctx.lattice.pieces, w.ctx.lattice.at
    end = head
    while at(end) in _HOW_COUNTED:
        end += 1
    said = {at(x) for x in range(head, end)}
    per = bool(said & {"counted", "count", "counts"}) or bool(
        said & {"per", "by"} and said & {"plant", "plants", "plt"}
    )
    opens = i == 0 or pieces[i - 1].form in {"mark", "nl"}
    ends = end >= len(pieces) or pieces[end].form in {"mark", "nl"} or (at(end) in {"at", "in"} and end + 1 in w.names)
    if opens and (told := _over_shares(w, head)) is not None:
        w.ctx.pods_brown_head = True
        w.ctx.mark(i, told, EVIDENCE)
        return told
    if not per or not opens or not ends:
        return None
    shares = any(
        pieces[k].form == "int" and pieces[k + 1].text == "of" and pieces[k + 2].form == "int"
        for k in range(end, len(pieces) - 2)
    )
    if shares:  # field by field, each with its plants: (1) 38 of 40
        w.ctx.pods_brown_head = True
        w.ctx.mark(i, end, EVIDENCE)
    else:
        w.ctx.mark(i, end, UNREAD, "how something was counted, and no value")
    return end


_WHERE_COUNTED = _LISTED.words("where_counted") | _HOW_COUNTED
_TO_THE_SHARE = 3  # pieces of a label, and what stands behind it


def _over_shares(w: Listener, head: int) -> int | None:
    """`brown pods on the main stem. plant A 38 of 40. plant B 24 of 32`: where the head ends that stands over the shares of
    plants, the first of them right behind it."""
    pieces, at = w.ctx.lattice.pieces, w.ctx.lattice.at
    end = _past(pieces, head, _WHERE_COUNTED)
    if w.ctx.living():
        return None  # plant 1 R6. brown pods. plant 2 38 of 40: of plant 1
    if at(end) not in {".", ",", ":", ";"} and (end >= len(pieces) or pieces[end].form != "nl"):
        return None
    label = _past_lines(pieces, end + 1)
    for k in range(label + 1, min(label + 1 + _TO_THE_SHARE, len(pieces) - 2)):
        if pieces[k].form == "int" and at(k + 1) in {"of", "/"} and pieces[k + 2].form == "int":
            plant = any(e.kind in {"PLANT", "PLETTER"} for e in w.ctx.lattice.edges[label])
            return end if plant or _lettered(w, label) is not None else None
    return None


_FOR_IN_ORDER = _LISTED.words("for_in_order")


def _in_order(w: Listener, i: int) -> int | None:
    """`pct ripe pods by plant: 96 88 95`: a row of shares with no plant named, behind words that say it goes by plants."""
    ctx, pieces, edges = w.ctx, w.ctx.lattice.pieces, w.ctx.lattice.edges
    if pieces[i].text not in _SHARES or ctx.living():
        return None
    k = _past(pieces, i + 1, _OF)
    brown = (
        max((e.end for e in edges[k] if e.kind == "BROWN" and e.how == "exact"), default=0) if k < len(pieces) else 0
    )
    head = _past(pieces, brown, _OF)
    if not brown or not {"pod", "pods"} & {p.text for p in pieces[i:head]}:
        return None
    k = _past(pieces, head, _IN_ORDER)
    if not _FOR_IN_ORDER & {p.text for p in pieces[head:k]}:
        return None
    k = _past(pieces, k, _AFTER_HEAD)
    found: list[int] = []
    while k < len(pieces) and pieces[k].form == "int" and int(pieces[k].text) <= 100:
        found.append(k)
        k = _past(pieces, k + 1, frozenset({",", "%", "and"}))
    if len(found) < _FEWEST_IN_ORDER or not (w.ends_at(k) or pieces[found[-1] + 1].form in {"mark", "nl"}):
        return None
    for nth, at in enumerate(found, 1):
        span = ctx.span(at, at + 1)
        ctx.begin([str(nth)], span)[0].put("mature_pods_percent", float(pieces[at].text), span)
    end = found[-1] + 1
    end += end < len(pieces) and pieces[end].text == "%"
    ctx.mark(i, end, EVIDENCE)
    ctx.leave_plants()
    return end


def _past(pieces: list[Piece], k: int, these: frozenset[str]) -> int:
    while k < len(pieces) and pieces[k].text in these:
        k += 1
    return k


def _past_lines(pieces: list[Piece], k: int) -> int:
    while k < len(pieces) and pieces[k].form == "nl":
        k += 1
    return k


def _numbered_line(pieces: list[Piece], k: int) -> tuple[str, int] | None:
    """`1) ...`, `2. ...` at the head of a line, and `(1) ...`: the label, and where it ends."""
    bracketed = 1 < k < len(pieces) and pieces[k - 1].text == "("
    if (
        not 0 < k < len(pieces) - 1
        or pieces[k - 1 - bracketed].form != "nl"
        or pieces[k].form != "int"
        or len(pieces[k].text) > 2
    ):
        return None
    return (pieces[k].text, k + 2) if pieces[k + 1].text in {")", ".", ":", "-"} else None


def _lettered(w: Listener, k: int) -> tuple[str, int] | None:
    """`A 20%, B none`: a capital, behind a mark or at the head of the row."""
    k += bool(k) and k < len(w.ctx.lattice.pieces) and any(e.kind == "PLANT" for e in w.ctx.lattice.edges[k])
    own = w.ctx.lattice.original(k, k + 1) if k < len(w.ctx.lattice.pieces) else ""
    alone = (
        len(own) == 1
        and "A" <= own <= "J"
        and (
            w.ctx.lattice.pieces[k - 1].form in {"mark", "nl"}
            or "PLANT" in {e.kind for e in w.ctx.lattice.edges[k - 1]}
        )
    )
    return (own, k + 1) if k and alone else None


def _part(w: Listener, i: int) -> tuple[float, int] | None:
    """`half`, `a third`, `three fifths`: as a percentage, and where it ends."""
    edges = w.ctx.lattice.edges
    told = next((e for e in edges[i] if e.kind == "FRAC" and 0 < e.means < 1), None)
    if told is not None:
        return round(100.0 * float(told.means), 1), told.end
    many = next((e for e in edges[i] if e.kind == "INT" and e.how == "number"), None)
    n, end = (int(many.means), many.end) if many is not None else (1, i + 1)
    if (many is None and w.ctx.lattice.at(i) != "a") or end >= len(edges):
        return None
    whole = next((e for e in edges[end] if e.kind == "ORD" and n < e.means <= _MOST_PARTS and e.means > 2), None)
    return (round(100.0 * n / whole.means, 1), whole.end) if whole is not None else None


def _told_as(value: Any) -> Any:
    return float(value) if isinstance(value, int) else value


def _told(w: Listener, i: int) -> tuple[Any, int] | None:
    """`1`, `none`, `3 of 30`, `all`; what it says of the pods, and where it ends."""
    pieces, edges = w.ctx.lattice.pieces, w.ctx.lattice.edges
    if i >= len(pieces):
        return None
    text = pieces[i].text
    if text in _NONE and w.ends_at(i + 1):
        return "none", i + 1
    none = i + 1 + (i + 1 < len(pieces) and pieces[i + 1].text == "a")
    if text == "not" and none < len(pieces) and pieces[none].text == "one" and w.ends_at(none + 1):
        return "none", none + 1
    part = _part(w, i)
    if part is not None and w.ends_at(part[1]):
        return part
    if text in _EVERY and w.ends_at(_past(pieces, i + 1, _OF_THEM)):
        return 100.0, _past(pieces, i + 1, _OF_THEM)
    number = max((e for e in edges[i] if e.kind == "INT" and e.how == "number"), key=lambda e: e.end, default=None)
    if number is None:
        return None
    end = number.end
    percent = max((e.end for e in edges[end] if e.kind == "PCT"), default=0) if end < len(pieces) else 0
    if percent and 0 <= number.means <= 100:
        return float(number.means), percent
    if end + 1 < len(pieces) and pieces[end].text in {"of", "/"}:
        whole = max((e for e in edges[end + 1] if e.kind == "INT"), key=lambda e: e.end, default=None)
        if whole is not None and 0 <= number.means <= whole.means and whole.means > 0 and w.ends_at(whole.end):
            return round(100.0 * number.means / whole.means, 1), whole.end
        return None
    if not w.ends_at(end):
        return None
    return (int(number.means), end) if number.means <= 100 else None
