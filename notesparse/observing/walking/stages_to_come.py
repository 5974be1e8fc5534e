"""Stages that nobody saw: to come, hoped for, of a treatment, of another day, or the name of a field to be walked."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing.walking.claims import if_it_were
from notesparse.observing.walking.listening import Listener
from notesparse.reading.parse import Phrase

_LISTED = cue_page("walking/stages_to_come")
_WALKED_LATER = _LISTED.words("walked_later")
_TO_DO = _LISTED.words("to_do")
_GROUND = _LISTED.words("ground")


def field_to_come(w: Listener, ph: Phrase) -> int | None:
    """`R2 East I'll get to tomorrow`, `still have to do R2 West`: the name of a field that is yet to be walked, and no
    stage; the end of its clause."""
    pieces, i = w.ctx.lattice.pieces, ph.end
    if i >= len(pieces) or pieces[i].form != "word":
        return None
    if not (w.ctx.lattice.original(i, i + 1)[:1].isupper() or pieces[i].text in _GROUND):
        return None
    end = next((j for j in range(i, len(pieces)) if pieces[j].form in {"mark", "nl"}), len(pieces))
    before = [p.text for p in pieces[w.sentence_start(ph.start) : ph.start] if p.text != "the"]
    ahead = any(p.text in _WALKED_LATER or p.text.endswith(("'ll", "’ll")) for p in pieces[i:end])
    return end if (not before and ahead) or (before and before[-1] in _TO_DO and "to" in before) else None


_TO_COME = _LISTED.words("to_come")
_MAY = _LISTED.words("may")
_BECOMES = _LISTED.words("becomes")
_AIMS = _LISTED.words("aims")
_ONCE_THEY = _LISTED.words("once_they")
_TREATMENTS = _LISTED.words("treatments")
_WHEN = _LISTED.words("when")


def expected(w: Listener, ph: Phrase) -> bool:
    """`coming v4 so call the sprayer`, `could go R1 any day`, `V6 by the fourth of july`: not reached yet; `spray when
    its V5`, `fungicide at R3`, `R3 is when we spray`: the stage of a treatment."""
    ways = (_led_to_it, _at_a_treatment, _told_for_later, _so_then, _would_be, _soon, if_it_were)
    return any(way(w, ph) for way in ways)


_SOON = _LISTED.rows("soon")
_IS_IT = _LISTED.words("is_it")


def _soon(w: Listener, ph: Phrase) -> bool:
    """`V7, R1 soon`, `R3 is coming on`, `R5 any day now`: it is not there yet."""
    at = w.ctx.lattice.at
    i = ph.end
    while at(i) in _IS_IT:
        i += 1
    return any(tuple(at(x) for x in range(i, i + len(way))) == way and w.ends_at(i + len(way)) for way in _SOON)


_WOULD = _LISTED.words("would")


def _would_be(w: Listener, ph: Phrase) -> bool:
    """`R7 would be next week`, `R7 means one pod has turned`: the stage is what is spoken of, and nobody saw it."""
    at = w.ctx.lattice.at
    return w.begins(ph.start) and at(ph.end) in _WOULD


def _so_then(w: Listener, ph: Phrase) -> bool:
    """`Sprayed 7/8, they were R1 then`: what was so on another day."""
    at = w.ctx.lattice.at
    then = at(ph.end) == "then" or (at(ph.end), at(ph.end + 1)) in {("at", "the"), ("back", "then"), ("that", "day")}
    timed = at(ph.end) != "at" or at(ph.end + 2) == "time"
    return then and timed and any(at(i) in {"were", "was", "still"} for i in range(max(0, ph.start - 3), ph.start))


_BEFORE_LED_TO_IT = _LISTED.words("before_led_to_it")
_FOR_LED_TO_IT = _LISTED.words("for_led_to_it")
_FOR_LED_TO_IT_2 = _LISTED.words("for_led_to_it_2")


def _led_to_it(w: Listener, ph: Phrase) -> bool:
    pieces = w.ctx.lattice.pieces
    i = ph.start - (pieces[ph.start].text != "be")
    if i > 0 and pieces[i].text == "be" and pieces[i - 1].text in _BEFORE_LED_TO_IT:
        return True  # another week and they'll be V6
    i = ph.start - 1
    if i >= 0 and pieces[i].text == "by":
        return True  # get this sprayed by V6
    if i > 0 and pieces[i].text == "for" and pieces[i - 1].text in _AIMS:
        return True  # the label calls for V6
    while i > 0 and pieces[i].text in _FOR_LED_TO_IT | _BECOMES:
        if pieces[i].text in _BECOMES and pieces[i - 1].text in _MAY:
            return True
        i -= 1
    if i >= 0 and pieces[i].text in _TO_COME:
        return True
    i = ph.start - 1
    while i >= 0 and pieces[i].text in _ONCE_THEY:
        i -= 1
    return 0 <= i < ph.start - 1 and pieces[i].text in _FOR_LED_TO_IT_2


def _at_a_treatment(w: Listener, ph: Phrase) -> bool:
    pieces = w.ctx.lattice.pieces
    if [p.text for p in pieces[ph.end : ph.end + 2]] == ["is", "when"]:
        return True
    at = ph.start if pieces[ph.start].text in {"at", "@"} else ph.start - 1
    if at < 1 or pieces[at].text not in {"at", "on", "for", "@"}:
        return False
    for i in range(at - 1, max(-1, at - 6), -1):
        if pieces[i].form in {"nl", "mark", "int"}:
            return False
        if pieces[i].text in _TREATMENTS:
            return True
    return False


def _told_for_later(w: Listener, ph: Phrase) -> bool:
    pieces, edges = w.ctx.lattice.pieces, w.ctx.lattice.edges
    at = ph.end
    if at < len(pieces) and pieces[at].text in {"tomorrow", "tmrw", "tomorow"}:
        return True  # R3 tomorrow
    if [p.text for p in pieces[at : at + 2]] in (["next", "week"], ["next", "visit"], ["next", "time"]):
        return True
    if at + 1 < len(pieces) and pieces[at].text == "any" and pieces[at + 1].text in _WHEN:
        return True
    if at < len(pieces) and pieces[at].text == "in":
        return any(p.text in {"days", "weeks", "week"} for p in pieces[at + 1 : at + 5]) and not any(
            p.form in {"mark", "nl"} for p in pieces[at + 1 : at + 3]
        )
    if at >= len(pieces) or pieces[at].text not in {"by", "around", "about"}:
        return False
    by = pieces[at].text == "by"
    at += 1
    while at < len(pieces) and pieces[at].text in {"the", "about", "around"}:
        at += 1
    told = {e.kind for e in edges[at]} if at < len(pieces) else set()
    day = bool(told & {"MONTH", "WEEKDAY"}) or (
        by and at < len(pieces) and pieces[at].text in {"time", "end", "weekend"}
    )
    return day or any(
        w.ends_at(e.end) or pieces[e.end].text == "of" or any(x.kind == "MONTH" for x in edges[e.end])
        for e in (edges[at] if at < len(pieces) else [])
        if e.kind == "ORD"
    )
