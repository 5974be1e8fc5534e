"""Heads of lines that are laid out alike: what one of them is no name of, the others are no names of either."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.language.lists import odd_name_words
from notesparse.observing.naming.names import Name
from notesparse.observing.naming.placing import not_visited
from notesparse.observing.naming.surroundings import Surroundings, noun_at, noun_in, pass_fillers, strength, title

_COMMON = cue_page("shared")

_HEAD = 3  # words of the head of a line
_FIELD = _COMMON.words("field") | {"farm"}


def but_heads(s: Surroundings, chosen: list[Name]) -> list[Name]:
    """The names without the heads of a form (`Field: Grange corner`, and under it `Crop stage: V8`, `Weeds: ...`), and
    without parts of a field that are told in the same way as others (`North end: ...`, and under it `Middle: ...`)."""
    labelled = [name for name in chosen if _labelled(s, name)]
    kept: list[Name] = []
    for name in chosen:
        colon = _colon(s, name)
        if colon is not None and name.cue in {"line", "sentence", "note"} and (kept or labelled):
            of_a_form = bool(labelled) and not noun_in(s, name.start, name.end)
            if of_a_form or (kept and colon == name.end and _a_part(s, name) and _parts_beside(s, name)):
                continue
        kept.append(name)
    return kept


_NO_HEAD = frozenset(
    {
        "HALF",
        "ALMOST",
        "FIELDNOUN",
        "COMPASS",
        "LETTER",
        "LOW",
        "TOP",
        "WHEREWORD",
        "LONG",
        "INT",
        "UPTOP",
        "ROWS",
        "ROWW",
        "WHOLEW",
        "HEIGHTWORD",
    }
)


def more_heads(s: Surroundings, chosen: list[Name], used: set[int]) -> list[Name]:
    """`Short Rows - 1 one tan pod` under `Rusty's bottom - R6`: a head written as one beside it that is a name."""
    firsts = set(_lines(s).values())
    heads = [h for h in (_head(s, at) for at in sorted(firsts)) if h is not None]
    heads += [h for h in (_dated_head(s, at) for at in sorted(firsts)) if h is not None]
    named = {name.start for name in chosen}
    if blocks := _blocks(s, sorted(firsts), named, used):
        return blocks
    beside = {s.lines[name.start]: s.text(name.end) for name in chosen if name.start in firsts}
    days = {day for name in chosen if name.start in firsts and (day := _day(s, name.end)[0])}
    more: list[Name] = []
    for start, end, mark in [*heads, *reversed(heads)]:  # down the page and up again: each stands beside the next
        line = s.lines[start]
        alike = mark in {beside.get(line - 1), beside.get(line + 1)}
        alike = alike or mark in days
        block = _opens_block(s, start) and list(beside.values()).count(mark) > 1
        if start in named or used & set(range(start, end)) or not (alike or block):
            continue
        words = s.lattice.written(start, end)
        more.append(Name(start, end, words, "line", not not_visited(s, pass_fillers(s, end, "-:,")), start))
        named.add(start)
        beside[line] = mark
    return sorted(more, key=lambda name: name.start)


def _dated_head(s: Surroundings, start: int) -> tuple[int, int, str] | None:
    """`Hilltop 9/14` under `Boatyard 9/14`: up to three words with capitals at the head of a line, before a day (which ends
    the line where they do not tell): where they begin and end, and the day as it is written."""
    plain, end = s.shouted or not s.cased, start
    while end < min(start + _HEAD, s.n) and s.pieces[end].form == "word" and (plain or title(s, end, end + 1)):
        end += 1
    day, behind = _day(s, end) if end > start else ("", end)
    if plain and behind < s.n and s.pieces[behind].form != "nl":
        return None
    if not day or s.text(start) in s.words.never_first | odd_name_words().done or s.text(end - 1) in s.words.never_last:
        return None
    known = {e.kind for x in range(start, end) for e in s.lattice.edges[x] if e.how == "exact" and e.end <= end}
    side = any(s.text(x) in s.words.compass for x in range(start, end))
    return None if side or known - _NO_HEAD else (start, end, day)


def _day(s: Surroundings, i: int) -> tuple[str, int]:
    """The day in figures that begins at piece i, as it is written, and where it ends."""
    if i >= s.n or s.pieces[i].form not in {"int", "dmy", "dec"}:
        return "", i
    end = max((p.end for p in s.phrases[i] if p.rule == "date"), default=i)
    return (s.lattice.written(i, end) if end > i else ""), end


_FEWEST = 2  # blocks
_TOLD_OF_A_FIELD = frozenset({"label", "sampled", "ratio", "stage", "percent"})


def _blocks(s: Surroundings, firsts: list[int], named: set[int], used: set[int]) -> list[Name]:
    """`Sandhill - hrs 1412. R3.` and under an empty line `Catchpen - hrs 977. Pulled four.`: heads of blocks that are laid
    out alike, on a page that names no other field, with plants or a stage in each; not all are places in a field."""
    starts = [at for at in firsts if at == 0 or _opens_block(s, at)]
    heads = [h for h in (_head(s, at, spots=True) for at in starts) if h is not None]
    if len(heads) < _FEWEST or named - {h[0] for h in heads} or len({mark for _, _, mark in heads}) > 1:
        return []
    ends = [*(h[0] for h in heads[1:]), s.n]
    told = all(
        any(strength(s, x)[1] in _TOLD_OF_A_FIELD for x in range(h[1], end)) for h, end in zip(heads, ends, strict=True)
    )
    if not told or all(_head(s, h[0]) is None for h in heads):
        return []
    more = [h for h in heads if h[0] not in named and not used & set(range(h[0], h[1]))]
    return [Name(a, b, s.lattice.written(a, b), "line", True, a) for a, b, _ in more]


def _opens_block(s: Surroundings, start: int) -> bool:
    """An empty line stands above."""
    return start > 1 and s.pieces[start - 1].form == s.pieces[start - 2].form == "nl"


def _head(s: Surroundings, start: int, spots: bool = False) -> tuple[int, int, str] | None:
    """Up to three words with capitals at the head of a line, before a stroke with blanks or a colon, or in talk without
    capitals a noun of places before a semicolon (big rock; r3): where they begin and end, and the mark. A place
    in a field is one with `spots`."""
    end = start
    while end < min(start + 2 * _HEAD, s.n) and (s.pieces[end].form == "word" or s.text(end) in {"'s", "&"}):
        end += 1
    mark = s.text(end)
    behind = end + 1
    while s.text(behind) == "-" and s.pieces[behind].glued:
        behind += 1  # Halfway House -- #1
    stroke = mark == "-" and behind < s.n and not s.pieces[end].glued and not s.pieces[behind].glued
    small = not s.cased and not s.shouted and mark == ";" and end - start > 1 and noun_at(s, end - 1)
    if end == start or not (small or (s.cased and (stroke or mark == ":") and title(s, start, end))):
        return None
    owners = {x for x in range(start, end) if s.text(x).endswith("'s") or s.text(x + 1) == "'s"}  # Brown's
    plain = [x for x in range(start, end) if x not in owners and s.text(x) != "&"]
    known = {e.kind for x in plain for e in s.lattice.edges[x] if e.how == "exact" and e.end <= end}
    spot = any(e.kind == "WHEREWORD" and e.end == end and e.how == "exact" for e in s.lattice.edges[start])
    terrain = end == start + 1 and s.text(start) in s.words.terrain
    if (spot or terrain) and not spots:
        return None
    if known - _NO_HEAD or s.text(start) in s.words.never_first or s.text(end - 1) in s.words.never_last:
        return None
    return start, end, mark


def _lines(s: Surroundings) -> dict[int, int]:
    """The first piece of each line that has one."""
    lines: dict[int, int] = {}
    for x in range(s.n):
        if s.pieces[x].form != "nl":
            lines.setdefault(s.lines[x], x)
    return lines


def _labelled(s: Surroundings, name: Name) -> bool:
    """`Field: Grange corner`: behind a head that says so."""
    head = {s.text(x) for x in range(name.cue_start, name.start)}
    return ":" in head and bool(head & _FIELD)


def _colon(s: Surroundings, name: Name) -> int | None:
    """Where the head of the line ends that the name begins; None where it begins none."""
    if name.start and s.pieces[name.start - 1].form != "nl":
        return None
    return next(
        (x for x in range(name.end, min(name.end + _HEAD, s.n)) if s.text(x) == ":" and _all_words(s, name.start, x)),
        None,
    )


def _all_words(s: Surroundings, start: int, end: int) -> bool:
    return all(s.pieces[x].form == "word" for x in range(start, end))


def _a_part(s: Surroundings, name: Name) -> bool:
    """`Middle`, `the draw`: where in a field things are."""
    return name.end - name.start <= 2 and s.text(name.end - 1) in s.words.terrain


def _parts_beside(s: Surroundings, name: Name) -> bool:
    """The line above or below begins with a part of a field and a colon."""
    lines = _lines(s)
    here = s.lines[name.start]
    for line in (here - 1, here + 1):
        at = lines.get(line)
        if at is None:
            continue
        ends = [e.end for e in s.lattice.edges[at] if e.kind == "WHEREWORD" and e.how == "exact"]
        if any(s.text(end) == ":" for end in ends):
            return True
    return False
