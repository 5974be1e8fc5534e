"""What was said of one plant and was seen on another: `no wait, that pod was on 3` (guide 4.17)."""

from __future__ import annotations

import copy

from notesparse.language.cues import cue_page
from notesparse.observing.draft import PlantDraft
from notesparse.observing.fold import EVIDENCE, UNREAD
from notesparse.observing.walking.bars import bar
from notesparse.observing.walking.counted import labels_at, numbers_at
from notesparse.observing.walking.listening import Listener
from notesparse.outcome import Correction
from notesparse.reading.parse import Phrase
from notesparse.span import Span

_COMMON = cue_page("shared")
_LISTED = cue_page("walking/moved")

_THAT = _COMMON.words("them") | {"that", "the"}
_WAS = _LISTED.words("was")
_ON = _LISTED.words("on")
_SURELY = _LISTED.words("surely")


def to_another(w: Listener, ph: Phrase) -> bool:
    """At `pod` of `that pod was on 3`: the pods of this plant are those of plant 3; taken, where such words stand here."""
    ctx, at = w.ctx, w.ctx.lattice.at
    if at(ph.start - 1) not in _THAT or len(ctx.plants) != 1 or ctx.visit is None:
        return False
    i = ph.end
    while at(i) in _SURELY:
        i += 1
    if at(i) not in _WAS:
        return False
    i += 1
    while at(i) in _SURELY:
        i += 1
    got = numbers_at(w, i + 1) if at(i) in _ON else None
    if got is None or len(got[0]) != 1 or not w.ends_at(got[1]):
        return False
    here, label = ctx.plants[0], got[0][0]
    said = [s for s in here.sightings if s.what == ph.rule]
    there = ctx.visit.plant(label)
    if not said or there is here:
        return False
    if there is None:
        there = ctx.begin([label], ctx.span(i + 1, got[1]))[0]
    for s in said:
        here.sightings.remove(s)
        there.sightings.append(s)
    ctx.corrected.append(
        Correction("4.17", ctx.span(ph.start, got[1]), f"{ph.rule} of plant {here.label} put to {label}")
    )
    ctx.close()
    ctx.plants, ctx.explicit = [there], True
    ctx.mark(ph.start - 1, got[1], EVIDENCE)
    w.resume_at = got[1]
    return True


_EXCHANGED = _COMMON.words("exchanged")
_CUES = _LISTED.words("cues")
_TURNS_ROUND = _EXCHANGED | _LISTED.words("turns_round")
_I_HAD = _LISTED.words("i_had")
_SHOULD = _LISTED.words("should")


def _labels(w: Listener, i: int) -> tuple[list[str], int] | None:
    """`2 and 4`, `#4 and #5`, `plants 2 and 4`."""
    return labels_at(w, i) or numbers_at(w, i)


def _way_round(w: Listener, i: int) -> int | None:
    """Where `the other way round` ends that begins at piece i."""
    at = w.ctx.lattice.at
    k = i + (at(i) == "the")
    return k + 3 if (at(k), at(k + 1)) == ("other", "way") and at(k + 2) in {"round", "around"} else None


_COUNTS = ("trifoliates", "nodes", "stated_r", "stated_v", "mature_pods")


def _told_last(live: list[PlantDraft]) -> str | None:
    """The kind of what was told last of any of these plants."""
    said = [(s.span.end, s.what) for p in live for s in p.sightings if not s.copied]
    said += [(e.span.end, key) for p in live for key in _COUNTS if (e := p.last(key)) is not None and not e.copied]
    return max(said)[1] if said else None


def _how(p: PlantDraft, what: str) -> str | None:
    """What a plant was said to have of a kind, so that plants can be held against each other."""
    e = p.last(what)
    if e is not None:
        return str(e.value)
    said = [
        (s.present, [(x.form, x.numbers) for x in s.places], s.length and s.length.mm)
        for s in p.sightings
        if s.what == what
    ]
    return str(said) if said else None


def _of_what_was_told_last(w: Listener, span: Span) -> bool:
    """`plant one flowers, plant two just buds, no, other way round`: what was told last of some is of the others; other
    counts stay. Taken back only where it was told of two, or in two ways."""
    live = w.ctx.living()
    what = _told_last(live)
    how = {p.label: _how(p, what) for p in live} if what is not None else {}
    told = [p for p in live if how.get(p.label) is not None]
    ways = list(dict.fromkeys(how[p.label] for p in told))
    pair = len(told) == _PAIR or what in _COUNTS
    if what is None or len(ways) != _PAIR or (pair and (len(told) > _PAIR or len(live) < _PAIR)):
        return False
    one, two = (next(p for p in told if how[p.label] == way) for way in ways)
    kept = {
        way: (p.facts.get(what), [s for s in p.sightings if s.what == what])
        for way, p in zip(ways, (one, two), strict=True)
    }
    for p in told:
        facts, sightings = kept[ways[1] if how[p.label] == ways[0] else ways[0]]
        p.sightings = [s for s in p.sightings if s.what != what] + copy.deepcopy(sightings)
        if facts is not None:
            p.facts[what] = copy.deepcopy(facts)
    names = ", ".join(p.label for p in told)
    w.ctx.corrected.append(Correction("4.17", span, f"{what} of plants {names} exchanged"))
    w.ctx.close()
    w.ctx.correcting = None
    w.ctx.leave_plants()
    return True


_PAIR = 2
_NOT_SAID = "the other way round: which plants are meant is not said"


_FOR_EXCHANGE_SPOKEN = _LISTED.words("for_exchange_spoken")


def exchange_spoken(w: Listener, ph: Phrase, span: Span) -> bool | str:
    """`I had those two backwards`, `got that backwards`: of the last two plants all of it, else what was told last."""
    words = {w.ctx.lattice.at(i) for i in range(ph.start, ph.end)}
    live = w.ctx.living()
    if live and (words & _FOR_EXCHANGE_SPOKEN) and not words & {"two", "those", "them"}:
        if _of_what_was_told_last(w, span) or (len(live) == _PAIR and exchange(w, span)):
            return True
        bar(w, ph, _NOT_SAID)
        return "barred"
    return exchange(w, span)


_BEFORE_DIFFERS = _COMMON.words("being") | {"just"}


def _differs(w: Listener, k: int) -> bool:
    """`plant two is the other way round`: said of the plant just named, and nothing is put right."""
    just_named = w.ctx.explicit and all(p.empty for p in w.ctx.plants)
    return just_named or w.ctx.lattice.at(k - 1) in _BEFORE_DIFFERS


def exchange_named(w: Listener, i: int) -> int | None:
    """`I had 2 and 4 switched`, `swap 2 and 3`: where the words end."""
    ctx, at = w.ctx, w.ctx.lattice.at
    if ctx.lattice.said.isdisjoint(_TURNS_ROUND):
        return None
    k = i
    while at(k) in _CUES:
        k += 1
    if ctx.visit is None:
        return None
    round_to = _way_round(w, k)
    if round_to is None and at(k) in _EXCHANGED and w.ends_at(k + 1 + (at(k + 1) in _CUES - {","})):
        round_to = k + 1  # p1 R2 p2 R3 - reversed
    if round_to is not None and (w.begins(k) or k > i or not _differs(w, k)):
        while at(round_to) in _CUES - {","}:
            round_to += 1
        if not _of_what_was_told_last(w, ctx.span(i, round_to)):
            ctx.mark(i, round_to, UNREAD, _NOT_SAID)
            return round_to
        ctx.mark(i, round_to, EVIDENCE)
        return round_to
    had = at(k) in _I_HAD
    while at(k) in _I_HAD:
        k += 1
    got = _labels(w, k)
    if got is None or len(got[0]) != 2:
        return None
    asked_for = {at(x) for x in range(i, k)} & {"switch", "swap"}
    end = got[1]
    while at(end) in _SHOULD:
        end += 1
    turned = _way_round(w, end) or (end + 1 if at(end) in _EXCHANGED | {"mixed"} else None)
    turned = turned + (at(turned) == "up") if turned is not None and at(turned - 1) == "mixed" else turned
    if turned is None and not (asked_for and w.ends_at(got[1])):
        return None
    if not had and turned is None:
        return None
    end = turned or got[1]
    pair = [p for p in (ctx.visit.plant(x) for x in got[0]) if p is not None]
    if len(pair) != 2 or not exchange(w, ctx.span(i, end), pair):
        return None
    ctx.leave_plants()
    ctx.mark(i, end, EVIDENCE)
    return end


def exchange(w: Listener, span: Span, pair: list[PlantDraft] | None = None) -> bool:
    """`I had those two backwards`: what was said of each of the last two plants, or of these two, is of the other."""
    live = pair or w.ctx.living()
    if len(live) < 2:
        return not live and _exchange_fields(w, span)
    one, two = live[-2:]
    one.label, two.label = two.label, one.label
    one.span, two.span = two.span, one.span
    w.ctx.corrected.append(Correction("4.17", span, f"plants {two.label} and {one.label} exchanged"))
    w.ctx.close()
    return True


def _exchange_fields(w: Listener, span: Span) -> bool:
    """`Whistler R5. Mud Lane R4. I had those two backwards.`: the same of the last two fields, of which no plant is told."""
    ctx = w.ctx
    told = [v for v in ctx.visits if v.name is not None and not v.empty]
    if len(told) < 2 or any(v.plants for v in told[-2:]) or told[-1] is not ctx.visit:
        return False
    one, two = told[-2:]
    one.stated, two.stated = two.stated, one.stated
    one.tallies, two.tallies = two.tallies, one.tallies
    ctx.corrected.append(Correction("4.17", span, f"what was said of {one.name} and of {two.name} exchanged"))
    ctx.statements.clear()
    return True
