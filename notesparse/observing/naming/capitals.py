"""Names at the head of a page, told by how they are written: `DUG WELL`, `MULBERRY LANE NO. 2`, a title beside a date."""

from __future__ import annotations

from dataclasses import replace

from notesparse.language.cues import cue_page
from notesparse.language.lists import odd_name_words
from notesparse.observing.naming.names import Name
from notesparse.observing.naming.placing import not_visited
from notesparse.observing.naming.surroundings import THE_CROP, Surroundings, capital, first_plant, pass_fillers, title
from notesparse.text.columns import WIDE, Line, lines_of

_LISTED = cue_page("naming/capitals")
_COMMON = cue_page("shared")

_LONGEST_CUT = 4  # letters of a word cut short with a stop behind it
_HEAD = 2  # lines of a page's head
_MOST_WORDS = 5
_FEWEST_OF_A_TITLE = 2  # Behind Church:
_FEWEST_WORDS = 3  # Over The Brook
_MOST_BEFORE = 2
_CUES = frozenset({"GOCUE", "FIELDCUE", "AT", "NEXT", "SAMPLED"})
_MAY_OPEN = frozenset(
    {
        "FIELDNOUN",
        "STILL",
        "WHOLEW",
        "SOMEW",
        "EARLY",
        "LONG",
        "SEED",
        "BEAN",
        "INT",
        "STOP",
        "OTHERCROP",
        "LETTER",
        "NOSOUND",
    }
)
_FEWEST_LETTERS = 3  # of one word at least
_HEADS = frozenset({"MONTH", "WEEKDAY", "GROUP", "ROWS", "VARIETY", "R", "V", "PLANTED", "EMERGED", "PLANT", "MG"})
_NUMBER = _COMMON.words("number") | {"no"}
_INSIDE = frozenset({".", "'", "&", "-"})
_MAY = frozenset(
    {
        "THE",
        "ALMOST",
        "HALF",
        "FRAC",
        "LETTER",
        "FIELDNOUN",
        "COMPASS",
        "GOCUE",
        "WHEREWORD",
        "LOW",
        "TOP",
        "UPTOP",
        "LONG",
        "TIP",
        "INT",
    }
)
_CROP = frozenset({"OTHERCROP", "LEAF", "ROWSUFFIX"})
_TITLES = _LISTED.words("titles")
_WAYS = _LISTED.words("ways")
_SENTENCE_ENDS = frozenset({".", ",", ";", ":", "-"})


_WHERE = _COMMON.words("lying") | {"at"}


def titled_places(s: Surroundings) -> list[tuple[float, Name]]:
    """`Behind the Church: most are R1`, `Jul 12  Over The Brook. 9 trif`: a line's head, or what stands behind its day, that
    is written as a title, and begins with where it lies."""
    found = []
    for i in range(s.n):
        if s.text(i) not in _WHERE or s.shouted or not capital(s, i):
            continue
        dated = _behind_its_day(s, i)
        if not dated and not (i == 0 or s.pieces[i - 1].form == "nl"):
            continue
        end = i + 1
        while end < min(s.n, i + _MOST_WORDS) and (capital(s, end) or s.text(end) in {"the", "of"}):
            end += 1
        if end - i < _FEWEST_OF_A_TITLE or not capital(s, end - 1) or end >= s.n:
            continue
        headed = s.text(end) in {":", "-"}
        if headed or _over(s, i, end, dated):
            found.append((_TITLED, Name(i, end, s.lattice.written(i, end), "line" if headed else "field", True, i)))
    return found


def _behind_its_day(s: Surroundings, i: int) -> bool:
    """A day that begins the line ends at piece i, or at the mark before it; right under a line with no day, which may name the
    field, nothing is begun."""
    end = i - (s.text(i - 1) in {",", "-", ":", "."})
    first = _line_of(s, i)
    if first == i or not any(p.rule == "date" and p.end in {end, i} for p in s.phrases[first]):
        return False
    above = _line_of(s, first - 1) if first else first
    return above >= first - 1 or any(p.rule == "date" for p in s.phrases[above])


def _line_of(s: Surroundings, i: int) -> int:
    """Where the line of piece i begins."""
    return next((x + 1 for x in range(i - 1, -1, -1) if s.pieces[x].form == "nl"), 0)


def _over(s: Surroundings, i: int, end: int, dated: bool) -> bool:
    """`Over The Brook.` behind its day, `Over The Brook 7/12`: no word of it is small, and the sentence, the line or the day
    is over behind it."""
    if not all(capital(s, x) for x in range(i, end)) or end - i < _FEWEST_WORDS:
        return False
    over = s.pieces[end].form == "nl" or s.text(end) in {".", ","}
    day = end + (s.text(end) == ",")
    return over if dated else day < s.n and any(p.rule == "date" for p in s.phrases[day])


def numbered_fields(s: Surroundings) -> list[tuple[float, Name]]:
    """`the 17: 6 of 8 blooming`: a line's head that calls the field by a number alone."""
    found = []
    for i in range(s.n - 3):
        heads = s.text(i) == "the" and s.pieces[i + 1].form == "int" and s.text(i + 2) == ":"
        if heads and (i == 0 or s.pieces[i - 1].form == "nl") and s.pieces[i + 3].form != "nl":
            found.append((_TITLED, Name(i, i + 2, s.lattice.written(i, i + 2), "field", True, i)))
    return found


_SITES = _LISTED.words("sites")
_FIELDS = _COMMON.words("field") | {"farm"}


def only_site(s: Surroundings) -> list[tuple[float, Name]]:
    """`Site: Quonset 20`: the field, where a form has one such line and none for a field; sites with numbers are stops."""
    heads = [i for i in range(s.n - 2) if (i == 0 or s.pieces[i - 1].form == "nl") and s.text(i + 1) in {":", "="}]
    sites = [i for i in heads if s.text(i) in _SITES]
    if len(sites) != 1 or any(s.text(i) in _FIELDS for i in heads) or len(heads) < _FORM:
        return []
    i = sites[0]
    end = next((x for x in range(i + 2, s.n) if s.pieces[x].form == "nl" or s.text(x) == ","), s.n)
    named = 0 < end - i - 2 <= _MOST_WORDS and s.pieces[i + 2].form == "word" and len(s.text(i + 2)) > 2
    return [(_TITLED, Name(i + 2, end, s.lattice.written(i + 2, end), "field", True, i))] if named else []


_FORM = 2  # heads with a colon
_TITLED = 6.0


def grown(s: Surroundings, name: Name, used: set[int]) -> Name:
    """The name with the words in capitals that go on behind it, and its number: `MULBERRY LANE` + `NO. 2`."""
    if name.cue == "again":
        return name
    end, start = name.end, name.start
    if not s.shouted and _capitals(s, start, end) and start == name.cue_start:
        while start and s.pieces[start].gap < WIDE and _goes_on(s, start - 1, first=True) and s.text(start - 1) != ".":
            start -= 1  # THIRD GUT, where a third may be a day
    if not s.shouted and _capitals(s, name.start, end):
        while end < s.n and _goes_on(s, end):
            end += 1
        while end > name.end and s.text(end - 1) in _INSIDE - {"."}:
            end -= 1
        cut = s.pieces[end - 2].form == "word" and len(s.text(end - 2)) <= _LONGEST_CUT
        if end > name.end and s.text(end - 1) == "." and not cut:
            end -= 1  # the end of a sentence, and no RD.
        if end - start > 1 and s.text(end - 1) in THE_CROP and (end >= s.n or s.pieces[end].form in {"mark", "nl"}):
            end -= 1  # OAK SAVANNA BEANS: plant 1
    end = _past_number(s, _past_the_last_word(s, start, end))
    if (end, start) == (name.end, name.start) or used & {*range(name.end, end), *range(start, name.start)}:
        return name
    cue = min(start, name.cue_start)
    return replace(name, start=start, end=end, cue_start=cue, text=s.lattice.written(start, end))


def titled_whole(s: Surroundings, chosen: list[Name]) -> list[Name]:
    """`Saw Pit     8-30-98` at the head of a page: all of the title is the name, whatever its first words may mean."""
    lines = [x for x in lines_of(s.lattice.text, s.pieces) if not x.blank][:_HEAD]
    if s.shouted or not any(_dated(s, line) for line in lines):
        return heads_alike(s, chosen)
    out: list[Name] = []
    for name in chosen:
        cell = next(
            (c for x in lines if x.number not in s.table_lines for c in x.cells if c.start < name.start < c.end), None
        )
        if cell is not None and name.cue not in {"again", "skip"} and _opens_title(s, cell.start, name, cell.end):
            out = [x for x in out if x.end <= cell.start]
            text = s.lattice.written(cell.start, name.end)
            name = replace(name, start=cell.start, cue_start=cell.start, text=text)
        out.append(name)
    return heads_alike(s, out)


def heads_alike(s: Surroundings, chosen: list[Name]) -> list[Name]:
    """`BIG CUT    planted 5/18`, and further down `LITTLE CUT    up 6/1`: heads in capitals that are written alike."""
    if s.shouted:
        return chosen
    lines = lines_of(s.lattice.text, s.pieces)
    heads = [(x.start, end) for x in lines if (end := _planted_head(s, x) or _block_head(s, lines, x))]
    named = {(name.start, name.end) for name in chosen if name.seen}
    beside = [(x.start, end) for x in lines if (end := _gap_head(s, x))]
    if len(named & set(beside)) >= _ALIKE:
        heads = sorted({*heads, *beside})
    known = [h for h in heads if h in named]
    if not known:
        return chosen
    out = list(chosen)
    for start, end in heads:
        over = [name for name in out if name.start < end and start < name.end]
        if start < known[0][0] or (start, end) in known or any(not name.seen for name in over):
            continue
        text = s.lattice.written(start, end)
        seen = not not_visited(s, pass_fillers(s, end, "-:,"))
        out = [name for name in out if name not in over] + [Name(start, end, text, "line", seen, start)]
    return sorted(out, key=lambda name: name.start)


def _planted_head(s: Surroundings, line: Line) -> int:
    """Where the words in capitals end that stand alone before a day of planting or emergence; 0 where none do."""
    if line.blank or line.number in s.table_lines or len(line.cells) < 2:
        return 0
    end = line.cells[0].end
    words = [s.lattice.original(i, i + 1) for i in range(line.start, end)]
    plain = all(s.pieces[i].form == "word" for i in range(line.start, end))
    if not 0 < len(words) <= _MOST_WORDS or not plain or not all(x.isupper() for x in words):
        return 0
    if max(map(len, words)) < _FEWEST_LETTERS or s.text(line.start) in _TITLES | {"replant", "replanted"}:
        return 0
    return end if any(p.rule in {"planted", "emerged"} for p in s.phrases[line.cells[1].start]) else 0


_ALIKE = 2  # heads that are names, beside which another is one


def _gap_head(s: Surroundings, line: Line) -> int:
    """Where the words in capitals end that stand before a gap, as `HALFWAY         V5.`; 0 where none do."""
    if line.blank or line.number in s.table_lines or len(line.cells) < 2:
        return 0
    return _a_head(s, line.cells[0].start, line.cells[0].end)


def _block_head(s: Surroundings, lines: list[Line], line: Line) -> int:
    """Where the words in capitals end that stand alone at the head of a block, as `THE SWALE    missed the hail` under a
    blank line; 0 where none do."""
    above = lines[line.number - 1] if line.number else None
    if line.blank or line.number in s.table_lines or not (above is None or above.blank):
        return 0
    a, b = line.cells[0].start, line.cells[0].end
    return _a_head(s, a, b)


def _a_head(s: Surroundings, a: int, b: int) -> int:
    """The end of the cell, where it is nothing but a name in capitals, or one with its number (NORTH 40); else 0."""
    last = b - (s.pieces[b - 1].form == "int" and b - a > 1)
    return b if a < last and _capitals(s, a, last) and _is_name(s, a, last) else 0


def _opens_title(s: Surroundings, a: int, name: Name, end: int) -> bool:
    """One or two words with capitals before the name, no cue to go anywhere among them, and no more than a date behind."""
    words = range(a, name.start)
    if not 0 < len(words) <= _MOST_BEFORE:
        return False
    for i in words:
        own = s.lattice.original(i, i + 1)
        if s.pieces[i].form != "word" or not own[0].isupper() or s.text(i) in odd_name_words().done:
            return False
        if not s.lattice.filler[i] and _kinds(s, i) - _MAY_OPEN:
            return False
        if _kinds(s, i) & _CUES or s.text(i) in s.words.never_first:
            return False
    if not s.lattice.original(name.start, name.start + 1)[:1].isupper():
        return False
    rest = name.end
    while rest < end and s.text(rest) in {"field", ","}:
        rest += 1
    return rest >= end or any(p.rule == "date" for p in s.phrases[rest])


def _dated(s: Surroundings, line: Line) -> bool:
    return any(
        p.rule == "date" and p.form not in {"ord_day", "weekday"}
        for i in range(line.start, line.end)
        for p in s.phrases[i]
    )


def _goes_on(s: Surroundings, i: int, first: bool = False) -> bool:
    p = s.pieces[i]
    if p.form == "nl" or (p.gap >= WIDE and not first):
        return False
    if p.text in _INSIDE:
        return p.glued or p.text == "&"
    if p.form != "word" or s.text(i) in _NUMBER or _kinds(s, i) & _HEADS:
        return False
    own = s.lattice.original(i, i + 1)
    return own.isupper() and len(own) > 1


_SMALL_LAST = _LISTED.words("small_last")


def _past_the_last_word(s: Surroundings, start: int, end: int) -> int:
    """`Pivot Eleven, July 19`, `Goose Is 7/6`, `Old Still R3`: a small word with a capital behind a title, and then a
    mark, a day, a stage or a plant."""
    if _cut_short(s, start, end):
        return end + 2
    heads = start == 0 or s.pieces[start - 1].form == "nl"
    if heads and s.text(end) == "and" and end + 2 < s.n and s.text(end + 2) == ":" and not s.lattice.known[end + 1]:
        return end + 2  # carl and ednas: #1 ..
    hundred = s.text(end) == "and" and any(e.kind == "INT" for e in s.lattice.edges[end - 1])
    if hundred and s.cased and capital(s, end - 1) and capital(s, end + 1):
        return end + 2 if any(e.kind == "INT" for e in s.lattice.edges[end + 1]) else end  # the Hundred and Ten
    if end >= s.n or not s.cased or s.pieces[end].form != "word" or not title(s, start, end + 1):
        return end
    if s.text(end) not in _SMALL_LAST and not any(e.kind == "INT" for e in s.lattice.edges[end]):
        return end
    after = end + 1
    ends = after >= s.n or s.pieces[after].form == "nl" or s.text(after) in {",", ".", ":", "-"}
    told = after < s.n and any(p.rule in {"date", "stage"} or p.form == "plant_n" for p in s.phrases[after])
    return after if ends or told else end


def _cut_short(s: Surroundings, start: int, end: int) -> bool:
    """`Sycamore Pt.` before a gap or a colon: the last word of a title, cut short with a stop behind it."""
    cut = end + 1 < s.n and s.pieces[end].form == "word" and s.text(end + 1) == "." and s.pieces[end + 1].glued
    if not (cut and s.cased and len(s.text(end)) <= _LONGEST_CUT and title(s, start, end + 1)):
        return False
    behind = s.pieces[end + 2] if end + 2 < s.n else None
    ends = behind is None or behind.form == "nl" or behind.text in {":", ","}
    return s.pieces[end].gap < WIDE and (ends or (behind is not None and behind.gap >= WIDE))


def _past_number(s: Surroundings, at: int) -> int:
    """Where `NO. 2`, `No 7`, `#3` ends, if it stands here with nothing but a date, a gap or a line's end behind it."""
    k = at
    if _which_part(s, k):
        return k + 1
    if _its_code(s, k):
        return k + 2
    if s.text(k) == "," and s.text(k + 1) in _NUMBER:
        k += 1
    if s.text(k) not in _NUMBER | {"#"} or s.pieces[k].gap >= WIDE:
        return at
    k += 1
    k += s.text(k) == "."
    if k >= s.n or s.pieces[k].form != "int" or len(s.text(k)) > 2 or s.pieces[k].gap >= WIDE or _counts_on(s, k):
        return at
    k += 1
    if k >= s.n or s.pieces[k].form == "nl" or s.pieces[k].gap >= WIDE:
        return k
    if s.text(k) in _SENTENCE_ENDS:
        return k if k + 1 >= s.n or not s.pieces[k + 1].glued else at
    return k if any(p.rule == "date" for p in s.phrases[k]) else at


def _its_code(s: Surroundings, k: int) -> bool:
    """`Hill T14` at the head of a note, over its first plant or before the day: a part of the name, and no count."""
    if (
        k + 1 >= s.n
        or s.lattice.original(k, k + 1) != "T"
        or s.pieces[k + 1].form != "int"
        or not s.pieces[k + 1].glued
    ):
        return False
    if any(s.pieces[x].form in {"mark", "nl"} for x in range(k)):
        return False
    behind = k + 2
    ends = behind + 1 < s.n and (s.pieces[behind].form == "nl" or s.text(behind) in {".", ":", ","})
    over = ends and first_plant(s, behind + 1)
    return over or (behind < s.n and any(p.rule == "date" for p in s.phrases[behind]))


def _counts_on(s: Surroundings, k: int) -> bool:
    """`Old Mill, no. 1, 10 trifs. No. 2, 11 trifs`: the number at piece k is a plant's, and the next one begins a
    sentence further on."""
    nxt = str(int(s.text(k)) + 1)
    for i in range(k + 2, s.n - 1):
        at = i + 1 + (s.text(i + 1) == ".")
        opens = s.pieces[i - 1].form == "nl" or s.text(i - 1) in {".", ";"}
        if opens and s.text(i) in _NUMBER | {"#", "number"} and at < s.n and s.text(at) == nxt:
            return True
    return False


def _which_part(s: Surroundings, k: int) -> bool:
    """`Field 31 East    12 Aug`, `the Bailey nine. Plant 1`: the direction behind the number of a title, its acres in
    words before its first plant."""
    if k >= s.n or s.pieces[k].form != "word" or s.pieces[k].gap >= WIDE:
        return False
    behind = s.pieces[k + 1] if k + 1 < s.n else None
    if s.pieces[k - 1].form == "int" and "COMPASS" in _kinds(s, k) and capital(s, k) and s.cased:
        return behind is None or behind.form == "nl" or behind.text in {",", ":", "."} or behind.gap >= WIDE
    number = any(e.kind == "INT" for e in s.lattice.edges[k])
    acres = number and capital(s, k - 1) and s.cased and s.text(k) != "one" and not capital(s, k)
    return acres and s.text(k + 1) in {".", ":"} and first_plant(s, k + 2)


def at_the_head(s: Surroundings, chosen: list[Name], used: set[int]) -> list[Name]:
    """A name that only its writing tells, where the head of the page names no field."""
    lines = [x for x in lines_of(s.lattice.text, s.pieces) if not x.blank][:_HEAD]
    last = max((x.end for x in lines), default=0)
    if any(name.start < last for name in chosen) or s.shouted:
        return []
    for line in lines:
        if line.number in s.table_lines:
            continue
        for a, b in _stretches(s, line):
            if used & set(range(a, b)) or b <= a:
                continue
            if _is_name(s, a, b) and (_capitals(s, a, b) or (line is lines[0] and _titled(s, a, b, line))):
                return [Name(a, b, s.lattice.written(a, b), "note", True, a)]
    return []


def _stretches(s: Surroundings, line: Line) -> list[tuple[int, int]]:
    """The cells of a line, and what stands before or behind a date in one."""
    out: list[tuple[int, int]] = []
    for c in line.cells:
        a, start = c.start, c.start
        while a < c.end:
            date = max((p.end for p in s.phrases[a] if p.rule == "date" and p.end <= c.end), default=a)
            if date > a:
                out.append(_trimmed(s, start, a))
                start = a = date
            else:
                a += 1
        out.append(_trimmed(s, start, c.end))
    return [x for x in out if x[0] < x[1]]


def _trimmed(s: Surroundings, a: int, b: int) -> tuple[int, int]:
    while a < b and s.pieces[a].form == "mark":
        a += 1
    while b > a and s.pieces[b - 1].form == "mark" and s.text(b - 1) != ".":
        b -= 1
    return a, b


def _is_name(s: Surroundings, a: int, b: int) -> bool:
    words = [i for i in range(a, b) if s.pieces[i].form == "word"]
    rest = [i for i in range(a, b) if s.pieces[i].form != "word"]
    if not 1 <= len(words) <= _MOST_WORDS or s.text(a) in _TITLES:
        return False
    if any(s.text(i) not in _INSIDE for i in rest):
        return False
    if max(len(s.text(i)) for i in words) < _FEWEST_LETTERS:
        return False
    crop = len(words) > 1 and "OTHERCROP" in _kinds(s, a)  # CLOVER LEAF S.
    small = [i for i in words if s.text(i) in s.words.compass or (i > a and s.text(i) in _WAYS)]
    words = [i for i in words if i not in small]  # HOME PLACE W. OF BARN
    return not any(_kinds(s, i) - _MAY - (_CROP if crop else set()) for i in words)


def _titled(s: Surroundings, a: int, b: int, line: Line) -> bool:
    """Every word with a capital, and a date on the same line."""
    words = [s.lattice.original(i, i + 1) for i in range(a, b) if s.pieces[i].form == "word"]
    return _dated(s, line) and len(words) > 1 and all(w[0].isupper() for w in words)


def _capitals(s: Surroundings, a: int, b: int) -> bool:
    words = [s.lattice.original(i, i + 1) for i in range(a, b) if s.pieces[i].form == "word"]
    strokes = all(set(w) == {"I"} for w in words)
    long = any(len(w) >= _FEWEST_LETTERS for w in words)
    return long and not strokes and all(w.removeprefix("Mc").isupper() for w in words)


def _kinds(s: Surroundings, i: int) -> set[str]:
    return {e.kind for e in s.lattice.edges[i] if e.how == "exact"}
