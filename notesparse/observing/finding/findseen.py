"""Whether a finding says something, and whether it was seen: no forecast, wish, limit or other day (guide 4.20)."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing.finding.findwords import GENERIC, Item
from notesparse.observing.finding.units import longest, text_at
from notesparse.observing.fold import Context

_COMMON = cue_page("shared")
_LISTED = cue_page("finding/findseen")

_TIMES = _LISTED.words("times")
_TREATED = _LISTED.words("treated")
_FORECAST = _LISTED.words("forecast")
_OF_WHICH = _LISTED.words("of_which")
_ASKED = _LISTED.words("asked")
_BROAD = {"stand", "population", "plant count", "hoop count", "thousandth of an acre", "uniform stand"}


_IS = _COMMON.words("being")
_HAS_WEATHER = _LISTED.words("has_weather")
_BEHIND_SAYS_SOMETHING = _LISTED.words("behind_says_something")


def says_something(ctx: Context, item: Item) -> bool:
    """A head alone that names no thing (`bugs`, `stand`, `gauge`) and has no value, place or word is no finding."""
    if item.value is not None or item.wheres:
        return True
    if text_at(ctx.lattice, item.start) == "def":
        return False  # def R3: definitely
    if item.kind in GENERIC and item.name is None:
        return item.told and text_at(ctx.lattice, item.head_end) not in _BEHIND_SAYS_SOMETHING
    if item.kind == "stand":
        return item.name is not None and item.name not in _BROAD
    if item.kind == "weather":
        return (item.told and item.end > item.head_end) or (
            item.name not in {"degrees", "rain gauge", "heat index"}
            and (item.name not in {"hot", "cold", "cool", "warm", "calm"} or not _amid_words(ctx, item))
        )
    if item.kind == "other":
        return item.name not in {"grain moisture", "test weight", "yield"} and (
            item.told or item.name not in {"color", "condition", "roots", "residue cover", "vigor"}
        )
    return item.kind not in {"height", "soil moisture"}


def _amid_words(ctx: Context, item: Item) -> bool:
    """`my coffee went cold`, `thumbs are cold`, `the truck's hot`: a word for the weather after a word that is not understood,
    and no `mornings are cold`."""
    j = item.start - 1
    if ctx.lattice.at(j) in _IS:
        j -= 1
    odd = j >= 0 and ctx.lattice.pieces[j].form == "word" and not ctx.lattice.known[j]
    return odd and ctx.lattice.at(j) not in _HAS_WEATHER


def _words_before(ctx: Context, i: int) -> set[str]:
    """The words of the clause before piece i, eight at most."""
    out: set[str] = set()
    for j in range(i - 1, max(-1, i - 9), -1):
        p = ctx.lattice.pieces[j]
        if p.form == "nl" or (p.form == "mark" and p.text in ".;,"):
            break
        out.add(p.text)
    return out


_SET_ON_FIRE = _LISTED.words("set_on_fire")
_BURNT = _LISTED.words("burnt")
_ON = _COMMON.words("beside") | {"from"}
_FAR = 9  # pieces from the fire to what burns


def _a_fire(ctx: Context, item: Item) -> bool:
    """`the wheat stubble got burned off`, `burned the ditch`: what was set on fire, and no injury of the beans."""
    at, pieces = ctx.lattice.at, ctx.lattice.pieces
    if item.kind != "damage" or at(item.start) not in _BURNT:
        return False
    first = item.start
    while first and item.start - first < _FAR and pieces[first - 1].form == "word":
        first -= 1
    last = item.start + 1
    while last < len(pieces) and last - item.start < _NEAR and pieces[last].form == "word":
        last += 1
    return any(at(x) in _SET_ON_FIRE and not {at(x - 1), at(x - 2)} & _ON for x in range(first, last))


_NEAR = 4  # pieces from the word for the fire to what they burned


_PASSED_BY = _LISTED.words("passed_by")
_OVER = _LISTED.words("over")
_NOT_QUITE = _LISTED.words("not_quite")
_US = _LISTED.words("us")
_AROUND = _LISTED.words("around")


def passed_by(ctx: Context, item: Item) -> tuple[int, int] | None:
    """`missed the hail`, `dodged that frost`, `hail missed us`, `the hail went around`: there was none here; the pieces
    that say so."""
    at = ctx.lattice.at
    if item.kind != "damage" or item.value is not None:
        return None
    i = item.start - 1
    while i > 0 and at(i) in _OVER:
        i -= 1
    if i >= 0 and at(i) in _PASSED_BY and not {at(i - 1), at(i - 2)} & _NOT_QUITE:
        return i, item.head_end
    end = item.head_end
    over_there = at(end) in {"missed", "skipped", "bypassed"} and at(end + 1) in _US
    around = at(end) == "went" and at(end + 1) in _AROUND
    return (item.start, end + 2) if over_there or around else None


_FOR_NOT_SEEN = _LISTED.words("for_not_seen")
_FOR_NOT_SEEN_2 = _LISTED.words("for_not_seen_2")


def not_seen(ctx: Context, item: Item) -> str | None:
    """Rain that is hoped for, the frost of the forecast, the time after the storm: no observation of this day."""
    lat = ctx.lattice
    if item.past:
        return "another time"
    if _a_fire(ctx, item):
        return "a fire, and no injury"
    clause = _words_before(ctx, item.start)
    if clause & _TREATED:
        return "a treatment or a limit, and nothing seen"
    if item.value is None and text_at(lat, item.start - 1) in _OF_WHICH and clause & _ASKED:
        return "planned, expected or said by somebody else"  # Ray asked about rust
    soon = [text_at(lat, j) for j in range(max(0, item.start - 3), item.start)]
    if any(w in {"might", "may", "could"} for w in soon) and soon[-1] in _FOR_NOT_SEEN:
        return "planned, expected or said by somebody else"
    if item.kind == "weather" or (item.kind == "damage" and item.name in {"frost", "cold injury"}):
        before = [text_at(lat, j) for j in range(max(0, item.start - 5), item.start)]
        cut = max((n + 1 for n, w in enumerate(before) if w in {".", ",", ";", "\n"}), default=0)
        words = set(before[cut:])
        if words & _FOR_NOT_SEEN_2:
            return "planned, expected or said by somebody else"
        if item.kind == "weather" and item.value is None and words & _TIMES:
            return "another time"
        after = {text_at(lat, j) for j in range(item.start, min(item.end + 2, len(lat.pieces)))}
        if after & _FORECAST and item.value is None:
            return "planned, expected or said by somebody else"
    if item.kind in {"damage", "disease"} and longest(lat, item.end, "BROWN", sound=False) is not None:
        return "not a normal pod: no evidence for a stage"
    return None
