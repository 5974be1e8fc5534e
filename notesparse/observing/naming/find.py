"""Where a field is named. A name may be any words, so it is found by where it stands and by what follows it, before the
phrases are chosen: `River 3`, `R4 Road` and `Lower Thirty` must not be read as counts and stages.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import replace

from notesparse.language.cues import cue_page
from notesparse.observing.naming.addressed import no_field_here, past_the_way
from notesparse.observing.naming.alike import but_heads, more_heads
from notesparse.observing.naming.called import called
from notesparse.observing.naming.capitals import (
    at_the_head,
    grown,
    numbered_fields,
    only_site,
    titled_places,
    titled_whole,
)
from notesparse.observing.naming.codes import coded
from notesparse.observing.naming.damaged_names import in_case, mended
from notesparse.observing.naming.done_there import done_there
from notesparse.observing.naming.in_turn import told_in_turn
from notesparse.observing.naming.laid_out import laid_out, past_the_round
from notesparse.observing.naming.listed import with_their_lists, with_what_stands_for_them
from notesparse.observing.naming.names import Name
from notesparse.observing.naming.next_page import next_page
from notesparse.observing.naming.numbered_heads import numbered_heads, whole_lines
from notesparse.observing.naming.oddnames import odd
from notesparse.observing.naming.only_place import only_place, told_right_before
from notesparse.observing.naming.owned_on import owned_on
from notesparse.observing.naming.parts_again import parts_again
from notesparse.observing.naming.placing import Scored, at_site, leaders, odd_at_site
from notesparse.observing.naming.proper import proper
from notesparse.observing.naming.put_right import put_right
from notesparse.observing.naming.refusing import put_in_the_ground, where_a_stop_is
from notesparse.observing.naming.same_field import same_as_before
from notesparse.observing.naming.short_forms import but_short_forms
from notesparse.observing.naming.siblings import siblings
from notesparse.observing.naming.sites import find_sites
from notesparse.observing.naming.surroundings import (
    NAMEY,
    Surroundings,
    capital,
    kinds,
    noun_at,
    noun_in,
    pass_fillers,
    strength,
    surroundings,
    title,
    upper,
)
from notesparse.observing.naming.together import told_at, told_behind, told_together
from notesparse.observing.naming.turning import turned
from notesparse.observing.naming.wells import by_wells
from notesparse.reading.phrase import Phrase
from notesparse.text.lattice import Lattice

_LISTED = cue_page("naming/find")
_COMMON = cue_page("shared")

_NEED = {
    "note": 2.6,
    "line": 3.0,
    "sentence": 2.6,
    "comma": 3.6,
    "go": 2.7,
    "field": 2.5,
    "skip": 1.5,
    "date": 2.6,
    "fieldno": 0.0,
    "anew": 2.0,
    "daily": 2.0,
    "midway": 2.0,
    "turn": 2.0,
    "together": 2.0,
    "pair": 2.0,
    "same": 2.0,
}  # the score that a name needs where it stands so


_NEED_IN_A_LIST = 2.2  # where the note goes from field to field, of what is written with capitals


_OF_PLANTS = frozenset({"stage", "ratio", "percent", "trif", "nodes", "flowers", "pods", "seeds"})
_SEEN_THERE = frozenset({"stage", "ratio", "date", "label", "sampled", "percent", "planted"})
_TOLD = (_SEEN_THERE | _OF_PLANTS) - {"date", "planted"}


def find_names(
    lattice: Lattice,
    phrases: list[list[Phrase]],
    bare: set[int],
    table_lines: set[int],
    lists: frozenset[int] = frozenset(),
    cells: Sequence[tuple[int, int]] = (),
) -> list[Name]:
    """All names of one note, in order; `cells` are those that stand in its tables."""
    s = surroundings(lattice, phrases, bare, table_lines, lists)
    chosen, used = _chosen(s, _found(s))
    if len({name.text.casefold() for name in chosen}) > 1:
        s = replace(s, several=True)
        chosen, used = _chosen(s, _found(s))
    heads = [name for name in at_the_head(s, chosen, used) if not no_field_here(s, name)]
    chosen = sorted([*heads, *chosen], key=lambda name: name.start) or only_place(s)
    chosen = past_the_round(s, chosen)
    chosen = but_heads(s, _but_behind_a_day(s, chosen))
    chosen = sorted([*chosen, *more_heads(s, chosen, used), *told_in_turn(s, chosen)], key=lambda name: name.start)
    chosen = _but_the_labelled(s, titled_whole(s, [grown(s, name, used) for name in chosen]))
    kept = _but_what_was_found(s, _as_said_before(s, _like_the_first(s, chosen)))
    kept = owned_on(s, _but_the_marks(s, laid_out(s, _but_within_a_count(s, kept))))
    kept = by_wells(s, numbered_heads(s, whole_lines(s, _but_the_verbs(s, kept))))
    kept = with_their_lists(s, siblings(s, put_right(s, parts_again(s, kept))))
    used = {i for name in kept for i in range(name.start, name.end)}
    kept = _numbered_on(s, _on_the_other_side(s, kept, used), used)
    kept = _named_last(s, _by_their_numbers(s, kept, used))
    again = _again(s, kept, used)
    listed = with_their_lists(s, again)
    if len(listed) > len(again):
        listed = _again(s, listed, {i for name in listed for i in range(name.start, name.end)})
    listed = [name for name in listed if not _put_the_other_way(s, name)]
    listed = [name for name in listed if name.cue == "again" or not no_field_here(s, name)]
    out = _of_the_tables(s, but_short_forms(s, with_what_stands_for_them(s, listed)), cells)
    return [replace(name, text=text) if (text := _mended(s, name)) != name.text else name for name in out]


def _mended(s: Surroundings, name: Name) -> str:
    """The name with the letters that figures stood for, in its words that were put together: `Mi1l Creek`."""
    text = mended(name.text)
    for p in s.pieces[name.start : name.end]:
        if p.mended:
            text = text.replace(p.span.of(s.lattice.text), in_case(p.text, p.span.of(s.lattice.text)))
            text = text[:-6] if text.lower().endswith(" field") else text  # Mi1l Creek fie1d
    last = s.pieces[name.end - 1]
    if last.slip and last.text == "field" and name.end - name.start > 1:
        text = text.removesuffix(last.span.of(s.lattice.text)).rstrip()  # Mill Creek fiedl
    return text


_TURNS = _LISTED.words("turns")


def _but_behind_a_day(s: Surroundings, chosen: list[Name]) -> list[Name]:
    """`Potters Corner on July 2nd as you asked me to`, `The creamery field, August fifth. These are for the fair table.`: the
    day is that of the field right before it, and behind it talk goes on."""
    named = {name.end + (s.text(name.end) in {",", "on", "-"}) for name in chosen}
    days = sorted({p.end for i in named if i < s.n for p in s.phrases[i] if p.rule == "date"})
    return [name for name in chosen if name.cue != "date" or not days or not _talk_behind(s, days, name)]


def _talk_behind(s: Surroundings, days: Sequence[int], name: Name) -> bool:
    """Nothing but words of talk stands between such a day and the name, and none that turns to another field."""
    day = max((x for x in days if x <= name.start), default=name.start)
    words = {s.text(x) for x in range(day, name.start) if s.pieces[x].form == "word"}
    again = any(p.rule == "date" for x in range(day, name.start) for p in s.phrases[x])
    return bool(words) and not words & _TURNS and not again


_PUTS = _COMMON.words("change")


def _but_the_verbs(s: Surroundings, chosen: list[Name]) -> list[Name]:
    """`change Beacon to R3`, `let me fix Beacon`: what is done with a field that was named before."""
    out: list[Name] = []
    for name in chosen:
        words = [s.text(x) for x in range(name.start, name.end)]
        for old in out:
            own = [s.text(x) for x in range(old.start, old.end)]
            if words[0] in _PUTS and words[1:] == own:
                name = Name(name.start + 1, name.end, old.text, "again", True, name.start + 1)
                break
        out.append(name)
    return out


def _named_last(s: Surroundings, chosen: list[Name]) -> list[Name]:
    """`Plant 1 R4. Plant 2 R3. Field is tower hill.`, `R3 all over. Stovepipe 7/12`: the only name, behind all that was seen
    there."""
    if len(chosen) != 1 or not chosen[0].seen:
        return chosen
    name = chosen[0]
    before = name.start - 1 - (s.text(name.start - 1) == "the")
    if told_right_before(s, before) and not any(
        s.text(x) in {".", ";"} or s.pieces[x].form == "nl" for x in range(before)
    ):
        return [replace(name, cue="only", cue_start=before)]  # R3 in Kettle Bottom, no bugs
    if name.cue != "field" and not (name.cue in {"sentence", "line"} and _with_the_day(s, name)):
        return chosen
    seen = [p.start for at in s.phrases for p in at if p.rule in _SEEN_THERE - {"date", "planted"}]
    dated = name.cue != "field"  # what may be a share too is its day
    if not seen or min(seen) >= name.cue_start or (not dated and any(x >= name.end for x in seen)):
        return chosen
    return [replace(name, cue="only")]


def _with_the_day(s: Surroundings, name: Name) -> bool:
    """The name is written with capitals, and nothing but its day stands behind it."""
    at = name.end + (s.text(name.end) == ",")
    days = [p for p in s.phrases[at] if p.rule == "date"] if at < s.n else []
    over = any(all(s.pieces[x].form in {"mark", "nl"} for x in range(p.end, s.n)) for p in days)
    return over and title(s, name.start, name.end)


def _of_the_tables(s: Surroundings, chosen: list[Name], cells: Sequence[tuple[int, int]]) -> list[Name]:
    """`Behind bins - beetles on the west side` under a table with a row for `Behind bins`: the field of that row again."""
    names = {tuple(p.text for p in s.pieces[a:b]): s.lattice.written(a, b) for a, b in cells}
    out = list(chosen)
    for i in (x for x in range(s.n) if x == 0 or s.pieces[x - 1].form == "nl" or s.text(x - 1) in {".", ";"}):
        said = [k for k in names if tuple(p.text for p in s.pieces[i : i + len(k)]) == k]
        if not said or s.lines[i] in s.table_lines:
            continue
        words = max(said, key=len)
        out = [name for name in out if name.end <= i or name.start >= i + len(words)]
        out.append(Name(i, i + len(words), names[words], "line", True, i))
    return sorted(out, key=lambda name: name.start)


def _found(s: Surroundings) -> list[Scored]:
    """What may be a name, at every site."""
    found = [
        *leaders(s),
        *turned(s),
        *told_together(s),
        *told_behind(s),
        *told_at(s),
        *titled_places(s),
        *numbered_fields(s),
        *only_site(s),
        *same_as_before(s),
        *coded(s),
        *proper(s),
        *called(s),
        *done_there(s),
        *next_page(s),
    ]
    for site in find_sites(s):
        if site.at < s.n and s.pieces[site.at].form != "nl":
            found += [name for name in (at_site(s, site), odd_at_site(s, site)) if name is not None]
    found = [(score, name) for score, name in found if not put_in_the_ground(s, name.start)]
    found = [(score, past_the_way(s, whole)) for score, name in found if (whole := _whole(s, name)) is not None]
    found = [(score, name) for score, name in found if not where_a_stop_is(s, name.start, name.end)]
    found = [(score, name) for score, name in found if not no_field_here(s, name)]
    walked = {x for _, name in found if name.cue == "anew" for x in range(name.start, name.end)}
    return [  # sunday hill i drove past didnt get out mays bottom next plant one: the second was walked
        (score, name) for score, name in found if name.cue != "skip" or not walked & set(range(name.start, name.end))
    ]


def _whole(s: Surroundings, name: Name) -> Name | None:
    """The name from the first half of its word on (Mother-in-Law's); None where that has no capital (across from the
    co-op)."""
    start = name.start
    while start > 1 and s.text(start - 1) == "-" and s.pieces[start - 1].glued and s.pieces[start].glued:
        if s.pieces[start - 2].form != "word":
            return name
        start -= 2
    if start == name.start or not capital(s, start):
        return name if start == name.start else None
    text = s.lattice.written(start, name.end)
    return replace(name, start=start, cue_start=min(start, name.cue_start), text=text)


def _chosen(s: Surroundings, found: list[Scored]) -> tuple[list[Name], set[int]]:
    """The surest names that do not overlap, in order, and the pieces that they hold."""
    used: set[int] = set()
    chosen: list[Name] = []
    for score, name in sorted(found, key=lambda one: (-one[0], one[1].start)):
        held = set(range(name.start, name.end))
        need = _NEED[name.cue]
        if s.several and name.cue in {"sentence", "comma", "line"} and title(s, name.start, name.end):
            need = min(need, _NEED_IN_A_LIST)
        if score >= need and not used & held:
            used |= held
            chosen.append(name)
    return sorted(chosen, key=lambda name: name.start), used


def _like_the_first(s: Surroundings, chosen: list[Name]) -> list[Name]:
    """Where the first name of a page is written with capitals, what stands later without them is no name
    (Rotary hoed June 10; back to the flags), unless a word for a field is in it."""
    if not chosen or not (title(s, chosen[0].start, chosen[0].end) or _field_in_capitals(s, chosen[0])):
        return chosen
    chosen = [chosen[0], *(name for name in chosen[1:] if not _on_the_way(s, chosen[0], name))]
    if chosen[0].cue not in {"note", "date"}:
        return chosen
    return [
        chosen[0],
        *(
            name
            for name in chosen[1:]
            if name.cue in {"field", "fieldno", "skip", "comma"}
            or title(s, name.start, name.end)
            or noun_in(s, name.start, name.end)
            or (upper(s, name.start) and s.pieces[name.end - 1].text in s.words.compass)
            or (name.cue == "line" and upper(s, name.start) and _before_a_full_day(s, name.end))
        ),
    ]


def _before_a_full_day(s: Surroundings, at: int) -> bool:
    """`Ditchbank trial        22.8.2016`: a day with its year stands at piece `at`."""
    return at < s.n and any(p.form in {"dmy", "month_day_year", "day_month_year"} for p in s.phrases[at])


def _field_in_capitals(s: Surroundings, name: Name) -> bool:
    capitals = any(upper(s, i) for i in range(name.start, name.end))
    return name.cue == "field" and capitals and not s.shouted


_WAY_PAST = _LISTED.words("way_past")


def _on_the_way(s: Surroundings, first: Name, name: Name) -> bool:
    """`This is Marsh Lane field. Walked past the terraces and stopped by the old hog wallow. plant 1: ...`, `Heron Bend 18 Aug.
    Walked in from the gate`: small letters, and a field in capitals of which nothing was told yet."""
    before = name.start - (2 if s.text(name.start - 1) == "the" else 1)
    by = {s.text(i) for i in range(min(name.cue_start, before), name.start)} & _WAY_PAST
    small = not any(upper(s, i) for i in range(name.start, name.end))
    begun = (strength(s, x) for x in range(first.end, name.start))
    told = any(worth >= 1.0 and rule in _OF_PLANTS for worth, rule in begun)
    return name.cue in {"go", "turn", "date"} and bool(by) and small and not told


def _as_said_before(s: Surroundings, chosen: list[Name]) -> list[Name]:
    """A name of which only the beginning was taken, where the whole is a name elsewhere (R4 at Pond, of Pond lot)."""
    words = [[p.text for p in s.pieces[name.start : name.end]] for name in chosen]
    whole: list[Name] = []
    for name, own in zip(chosen, words, strict=True):
        longer = max((w for w in words if w[: len(own)] == own), key=len)
        end = name.start + len(longer)
        if len(longer) > len(own) and [p.text for p in s.pieces[name.start : end]] == longer:
            name = replace(name, end=end, text=s.lattice.written(name.start, end))
        whole.append(name)
    return whole


def _but_within_a_count(s: Surroundings, chosen: list[Name]) -> list[Name]:
    """`plant one eight trifs um combine ruts east to west plant two`: in talk where the plants are counted on, words in
    small letters turn to no other field."""
    kept: list[Name] = []
    for n, name in enumerate(chosen):
        after = chosen[n + 1].cue_start if n + 1 < len(chosen) else s.n
        before = _plant_number(s, range(name.cue_start - 1, kept[-1].end - 1 if kept else -1, -1))
        behind = _plant_number(s, range(name.end, after))
        counted_on = before is not None and behind == before + 1
        if not (kept and counted_on and name.cue in {"turn", "go"} and not title(s, name.start, name.end)):
            kept.append(name)
    return kept


_FOUND = frozenset({"INSECT", "DISEASE", "WEED"})
_ON = _COMMON.words("beside")


def _but_what_was_found(s: Surroundings, chosen: list[Name]) -> list[Name]:
    """`Japanese beetles on the edge only.`, `Red clover worms at the fence`: under what was seen of plants a bug, a disease or a
    weed with its place, or a word that belongs to it, is no field."""
    ends = [*(name.cue_start for name in chosen[1:]), s.n]
    return [
        name
        for n, name in enumerate(chosen)
        if not (
            _between_findings(s, name) if n == 0 else _found_there(s, name, ends[n]) or _where_it_was(s, name, ends[n])
        )
    ]


_BOTH_SIDES = frozenset({"INSECT", "DISEASE", "WEED", "DEFOL", "DAMAGE"})
_SOON = 4  # pieces


def _between_findings(s: Surroundings, name: Name) -> bool:
    """`frogeye, creek bottom, defol 12%`: a place in small letters between commas, and what was found there on both sides."""
    if name.cue != "comma" or s.text(name.end) != "," or s.text(name.end - 1) not in s.words.terrain:
        return False
    if name.end - name.start != 2 or any(upper(s, x) for x in range(name.start, name.end)):
        return False
    before = any(kinds(s, x) & _BOTH_SIDES for x in range(max(0, name.start - _SOON), name.start))
    return before and any(kinds(s, x) & _BOTH_SIDES for x in range(name.end, min(s.n, name.end + _SOON)))


_LEADS_TO_IT = frozenset({"INSECT", "DISEASE", "WEED", "DEFOL", "DAMAGE"})
_OVER = frozenset({".", ";"})


def _where_it_was(s: Surroundings, name: Name, end: int) -> bool:
    """`frogeye on a few leaves, N slope.`, `Aphids: creek bottom` on a line: a place that ends what begins with a finding,
    of words for the lie of the land alone; up to the next name (piece `end`) no plant is counted from the first."""
    if name.cue != "comma" or s.text(name.end - 1) not in s.words.terrain or name.end - name.start != 2:
        return False
    over = name.end >= s.n or s.pieces[name.end].form == "nl" or s.text(name.end) in _OVER
    if not over or not (noun_at(s, name.start) or "COMPASS" in kinds(s, name.start)):
        return False
    head = name.start - 1
    while head > 0 and s.pieces[head - 1].form != "nl" and s.text(head - 1) not in _OVER | {":"}:
        head -= 1
    head -= 2 * (head > 1 and s.text(head - 1) == ":")
    if not any(e.kind in _LEADS_TO_IT for x in range(max(0, head), name.start) for e in s.lattice.edges[x]):
        return False
    told = any(p.rule in _SEEN_THERE - {"date", "percent"} for x in range(name.end, end) for p in s.phrases[x])
    return not told or _plant_number(s, range(name.end, end)) not in {None, 1}


def _found_there(s: Surroundings, name: Name, end: int) -> bool:
    """Whether a name is what was seen, or the first word of it; up to the next name (piece `end`) no plant is told of."""
    if name.cue not in {"line", "sentence", "comma"}:
        return False

    def found(x: int, last: int) -> bool:
        return any(e.how == "exact" and e.kind in _FOUND and e.end <= last for e in s.lattice.edges[x])

    words = range(name.start, name.end)
    placed = any(s.text(x) in _ON for x in words) and any(found(x, name.end) for x in words)
    lone = len(words) == 1 and not noun_at(s, name.start) and s.text(name.end) not in {",", ":", "-", "."}
    told = any(p.rule in _SEEN_THERE - {"date", "percent"} for x in range(name.end, end) for p in s.phrases[x])
    if _there_is(s, name) or (not told and _a_side_of_it(s, name)):
        return True
    return placed or (lone and not told and name.end < s.n and found(name.end, s.n))


def _there_is(s: Surroundings, name: Name) -> bool:
    """`There's a badger hole by the third row`: what lies in the field."""
    start = name.start - 1
    is_there = [s.text(x) for x in range(start - 2, start)] in (["there", "'s"], ["there", "is"]) or s.text(
        start - 1
    ) == "theres"
    return start > 1 and s.text(start) in {"a", "an"} and is_there


_BEHIND_A_SIDE_OF_IT = _COMMON.words("being_or_having") | _COMMON.words("looking")


def _a_side_of_it(s: Surroundings, name: Name) -> bool:
    """`west strip is cupped`, `east corner has mites`: in small letters, in a note that writes names with capitals."""
    side = s.text(name.start) in s.words.compass | {"middle", "center", "centre"}
    lies = s.text(name.end) in _BEHIND_A_SIDE_OF_IT
    small = s.cased and not any(upper(s, x) for x in range(name.start, name.end))
    return side and lies and small and name.end - name.start == 2


def _plant_number(s: Surroundings, places: range) -> int | None:
    """The number of the first plant that is named at one of these pieces."""
    for x in places:
        for p in s.phrases[x]:
            numbers = [int(e.means) for _, e in p.path if e.kind in {"INT", "ORD"}]
            if p.form in {"plant_n", "plant_ord"} and len(numbers) == 1:
                return numbers[0]
    return None


_EXCHANGED = _COMMON.words("exchanged")


def _put_the_other_way(s: Surroundings, name: Name) -> bool:
    """`got that backwards, 3 and 4 have them`, `other way round, plant one nine`: plants exchanged, and no name."""
    words = [s.text(x) for x in range(name.start, name.end)]
    behind = words[1:] or ([] if name.start == 0 else words)
    turned = {"other way", "way round", "way around"}
    return bool(_EXCHANGED & set(behind)) or any(" ".join(words[x : x + 2]) in turned for x in range(len(words)))


_ROWS = 2  # lines of a table, in which something was seen


def _but_the_labelled(s: Surroundings, chosen: list[Name]) -> list[Name]:
    """`field: V6 Lane`, and under it `7/18, lock is 3312`: where the page says which its field is, nothing else that
    stands before the first thing seen is its name."""
    kept: list[Name] = []
    for name in chosen:
        last = kept[-1] if kept else None
        labelled = last is not None and ":" in {s.text(x) for x in range(last.cue_start, last.start)}
        if last is not None and labelled and name.cue in {"date", "line", "sentence", "comma"}:
            between = (strength(s, x)[1] for x in range(last.end, name.start))
            rows = {s.lines[x] for x in range(last.end, name.start)} & s.table_lines
            if len(rows) < _ROWS and not any(rule in _TOLD for rule in between):
                continue
        kept.append(name)
    return kept


def _but_the_marks(s: Surroundings, chosen: list[Name]) -> list[Name]:
    """`Okay. Bonnie's.`: the names without the marks before their first word."""
    out = []
    for name in chosen:
        start = name.start
        while start < name.end - 1 and s.text(start) in {".", ",", ";", ":", "-"}:
            start += 1
        text = s.lattice.written(start, name.end)
        out.append(name if start == name.start else replace(name, start=start, text=text))
    return out


def _again(s: Surroundings, chosen: list[Name], used: set[int]) -> list[Name]:
    """A name already used, said again anywhere: the note is back there."""
    names: dict[tuple[str, ...], Name] = {}
    written: set[tuple[str, ...]] = set()  # one word of a list, and only where it has its capital
    plain: set[tuple[str, ...]] = set()  # one word that may be said for anything: only with a word more is it a name
    for name in chosen:
        words = tuple(p.text for p in s.pieces[name.start : name.end] if p.form != "mark")
        if len(words) > 2 and words[-1] == "field" and not name.text.lower().endswith("field"):
            words = words[:-1]
        if len(words) > 2 and words[0] == "the":
            words = words[1:]
        if len(words) > 1 or (
            words and any(noun_at(s, k) or not s.lattice.known[k] for k in range(name.start, name.end))
        ):
            names.setdefault(words, name)
        elif words and name.cue in {"note", "date", "line"} and title(s, name.start, name.end):
            names.setdefault(words, name)
            plain.add(words)
        elif words and name.cue in {"together", "comma", "pair"} and title(s, name.start, name.end):
            names.setdefault(words, name)
            written.add(words)
    places = _places(s, set(names))
    more: list[Name] = []
    for words, name in names.items():
        for i in places[words]:
            held = range(i, i + len(words))
            if any(x in used for x in held):
                continue
            if words in written and not title(s, i, held.stop):
                continue
            longer = _goes_on(s, held.stop)
            if words in plain and (longer == held.stop or not title(s, i, held.stop)):
                continue
            if longer > held.stop and not used & set(range(held.stop, longer)):
                held = range(i, longer)  # Bluestem annex, after Bluestem: another field
                more.append(Name(i, longer, s.lattice.written(i, longer), "sentence", True, i))
            else:
                more.append(Name(i, held.stop, name.text, "again", True, i))
            used.update(held)
    return sorted([*chosen, *more], key=lambda name: name.start)


def _on_the_other_side(s: Surroundings, chosen: list[Name], used: set[int]) -> list[Name]:
    """`E Tank: R6` and further on `W Tank: R5`: the same name with another side before it."""
    more: list[Name] = []
    for name in chosen:
        words = [p.text for p in s.pieces[name.start : name.end]]
        if len(words) < 2 or words[0] not in s.words.compass:
            continue
        for i in range(s.n - len(words) + 1):
            end = i + len(words)
            side = s.text(i) in s.words.compass and s.text(i) != words[0] and not used & set(range(i, end))
            if side and [p.text for p in s.pieces[i + 1 : end]] == words[1:] and (not s.cased or title(s, i, end)):
                more.append(Name(i, end, s.lattice.written(i, end), "sentence", True, i))
                used.update(range(i, end))
    return sorted([*chosen, *more], key=lambda name: name.start)


def _numbered_on(s: Surroundings, chosen: list[Name], used: set[int]) -> list[Name]:
    """`osage one`, and further on `osage two`: the same name with another number behind it."""
    more: list[Name] = []
    for name in chosen:
        words = [p.text for p in s.pieces[name.start : name.end]]
        if (
            len(words) != 2
            or not _number_word(s, name.end - 1)
            or any(e.how == "exact" for e in s.lattice.edges[name.start])
        ):
            continue
        for i in range(name.end, s.n - 1):
            other = s.text(i) == words[0] and _number_word(s, i + 1) and s.text(i + 1) != words[1]
            if other and i not in used:
                more.append(Name(i, i + 2, s.lattice.written(i, i + 2), "sentence", True, i))
                used.update((i, i + 1))
    held = {x for name in more for x in range(name.start, name.end)}
    kept = [name for name in chosen if not held & set(range(name.start, name.end))]
    return sorted([*kept, *more], key=lambda name: name.start)


_BEFORE_A_NUMBER = _LISTED.words("before_a_number")


def _by_their_numbers(s: Surroundings, chosen: list[Name], used: set[int]) -> list[Name]:
    """`Pivot 2`, and further on `Next is Pivot 3`; `tract 4408`, and further on `4411 7 of 10 R6`."""
    more: list[Name] = []
    for name in chosen:
        last = name.end - 1
        if name.end - name.start != 2 or s.pieces[last].form != "int":
            continue
        for i in range(name.end, s.n - 1):
            opens = s.pieces[i - 1].form == "nl" or s.text(i - 1) in {".", ";"}
            long = s.pieces[i].form == "int" and len(s.text(i)) == len(s.text(last)) > 2
            told = strength(s, pass_fillers(s, i + 1))[1] in _SEEN_THERE
            back = s.text(i) == s.text(last)
            if opens and long and (told or back) and i not in used:
                more.append(Name(i, i + 1, name.text if back else s.text(i), "again" if back else "sentence", True, i))
                used.add(i)
            same = s.text(i) == s.text(name.start) and noun_at(s, i) and upper(s, i) and upper(s, name.start)
            short = [x for x in chosen if (x.start, x.end) == (i, i + 1)]  # Pivot | 3
            free = not used & {i, i + 1} or (bool(short) and i + 1 not in used)
            if same and s.pieces[i + 1].form == "int" and free and s.text(i - 1) in _BEFORE_A_NUMBER:
                chosen = [x for x in chosen if x not in short]
                more.append(Name(i, i + 2, s.lattice.written(i, i + 2), "go", True, i))
                used |= {i, i + 1}
    return sorted([*chosen, *more], key=lambda name: name.start)


def _number_word(s: Surroundings, i: int) -> bool:
    return s.pieces[i].form == "word" and any(e.kind == "INT" and e.end == i + 1 for e in s.lattice.edges[i])


def _goes_on(s: Surroundings, at: int) -> int:
    """Where a name that begins with another field's ends: one or two words more, and then what is seen there."""
    end = at
    if s.text(at) in s.words.before_a_noun and at + 1 < s.n and s.pieces[at + 1].form == "int":
        return at + 2  # Cobbs back 20
    while end < min(s.n, at + 2) and s.pieces[end].form == "word" and (odd(s.lattice, end) or kinds(s, end) & NAMEY):
        end += 1
    end += end > at and s.text(end) == "." and s.pieces[end].glued and len(s.text(end - 1)) < 5  # ext.
    return end if end > at and strength(s, pass_fillers(s, end))[1] in _SEEN_THERE else at


def _places(s: Surroundings, names: set[tuple[str, ...]]) -> dict[tuple[str, ...], list[int]]:
    """Where the words of each name stand in the note, all names in one walk."""
    lengths: dict[str, set[int]] = defaultdict(set)  # the first word of a name -> how many words such names have
    for words in names:
        lengths[words[0]].add(len(words))
    places: dict[tuple[str, ...], list[int]] = defaultdict(list)
    for i, p in enumerate(s.pieces):
        for length in lengths.get(p.text, ()):
            words = tuple(q.text for q in s.pieces[i : i + length])
            if words in names:
                places[words].append(i)
    return places
