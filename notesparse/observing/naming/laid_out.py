"""Pages and messages that go from field to field by the heads of their lines or sentences: `spencer b: 7 of 10 r4`, and
under it `behind the bins: r5`.

Where some heads are surely names, the others that are laid out alike are names as well, and the whole head is the name
(`Otto No.` and not Otto), whatever its words may mean elsewhere. Without this, what is told behind a head that was not
understood would be told of the field before it.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import replace

from notesparse.language.cues import cue_page
from notesparse.language.lists import claim_words, odd_name_words
from notesparse.lazy import dataclass
from notesparse.observing.naming.names import Name
from notesparse.observing.naming.oddnames import ends_as_talk, misspelled, odd
from notesparse.observing.naming.placing import left_out_behind, not_visited
from notesparse.observing.naming.refusing import called_otherwise
from notesparse.observing.naming.surroundings import (
    OF_FIGURES,
    Surroundings,
    behind_its_number,
    first_plant,
    kinds,
    noun_at,
    noun_in,
    pass_fillers,
    place_in_turn,
    strength,
    title,
    upper,
)

_LISTED = cue_page("naming/laid_out")
_COMMON = cue_page("shared")

_MOST = 5  # words of a head
_LONGEST_TURN = 5  # words that turn to another field: now we are over at
_GAP = 2  # blanks that part a head from what is told
_SHORT = 4  # letters of a word that is cut short with a stop: Sec. 4, Otto No.
_SURE = 2  # heads that are names, beside which the others are names too
_ALL_ALIKE = 3  # heads of one layout, where all look like names
_STRONG = frozenset({":", "-", "gap"})
_OF_A_FIELD = frozenset(
    {"stage", "ratio", "percent", "planted", "emerged", "rows", "sampled", "group", "lots", "podshare", "average"}
)
_TOLD = _OF_A_FIELD | {"label"}
_WRITTEN = _OF_A_FIELD | {
    "average",
    "call",
    "trif",
    "nodes",
    "flowers",
    "pods",
    "seeds",
    "emergence",
    "findhead",
    "date",
}
_CUES = frozenset(
    {"line", "note", "sentence", "comma", "date", "field", "fieldno", "go", "anew", "turn", "midway", "same"}
)
_TAKEN = frozenset({"line", "note", "sentence", "comma", "date", "anew", "midway", "turn", "daily"})
_MAY = frozenset(
    {
        *(
            "LETTER",
            "FIELDNOUN",
            "COMPASS",
            "INT",
            "HALF",
            "FRAC",
            "WHEREWORD",
            "LOW",
            "TOP",
            "UPTOP",
            "LONG",
            "ALMOST",
        ),
        *("ROWS", "ROWW", "ROWSUFFIX", "TIP", "BROWN", "GREEN", "YELLOW", "OF", "THE", "AND", "SLASH", "DASH", "HAS"),
        *("WHOLEW", "TRYSOUND", "INTSOUND", "STILL", "EARLY", "ANYOF", "OUTOF", "ORD", "NOSOUND", "BEHIND"),
    }
)
_OF_A_TITLE = frozenset(
    {"OTHERCROP", "STANDWORD", "WEATHER", "NO", "WEEKDAY", "SEED", "SCAR", "NEXT", "SOILSTATE", "SOILWORD"}
)
_LIES = _COMMON.words("lying") | {"north", "south"}
TURNS_ANYWHERE = _LISTED.words("turns_anywhere")

_SIZED = _COMMON.words("sized")
_SIDES = _COMMON.words("part_of_a_field") | {"rows"}
_INSIDE = _LISTED.words("inside")
_SPOT = _LISTED.words("spot")


@dataclass(frozen=True, slots=True)
class _Head:
    """Pieces [start, end) at the head of a line or a sentence, and what parts them from what is told at piece `told`."""

    start: int
    end: int
    parted: str
    told: int
    rule: str | None
    opens: str  # line, sentence, list, turn
    cue_start: int

    @property
    def of_a_line(self) -> bool:
        return self.opens == "line"

    @property
    def layout(self) -> tuple[str, str]:
        return self.opens, self.parted


def laid_out(s: Surroundings, chosen: list[Name]) -> list[Name]:
    """The names with the heads that are laid out like them."""
    spans = {(name.start, name.end) for name in chosen}
    heads = [h for h in _heads(s) if (h.start, h.end) in spans or _plausible(s, h)]
    by_start = {name.start: name for name in chosen if name.cue in _CUES}
    sure = [h for h in heads if h.start in by_start]
    counts = Counter(h.layout for h in heads if h in sure or (h.opens == "turn" and _turns_surely(s, h)))
    lines = sum(h.of_a_line for h in sure)
    out = list(chosen)
    for h in heads:
        alike = counts[h.layout] - (h in sure and _SURE > counts[h.layout]) + _first_too(s, h, sure)
        alike += _both_from_one(s, h, sure)
        established = alike >= _SURE or (h.of_a_line and lines >= _SURE and h.parted in _STRONG)
        turns = counts[h.layout] + len(chosen) > 1 or title(s, h.start, h.end)
        turned = h.opens == "turn" and _turns_surely(s, h) and turns
        weakly = h.opens == "turn" and counts[h.layout] + len(chosen) >= _SURE
        turned = turned or weakly or _led(s, h, chosen) or (bool(chosen) and _titled_and_told(s, h))
        turned = turned or _strange_and_shared(s, h, chosen)
        if not (established or turned or _listed(s, heads, h, sure) or _all_alike(s, heads, h, sure)):
            continue
        if _a_side(s, h) or (_a_place(s, h) and not (turned or _alike(s, heads, h))):
            continue
        out = _with(s, out, h)
    return sorted(out, key=lambda name: name.start)


def _first_too(s: Surroundings, h: _Head, sure: list[_Head]) -> int:
    """`Saddle - R3. Cottonwood - R2. Gopher - R1`: beside the heads of sentences the one that begins their line."""
    if h.opens != "sentence" or h.parted not in _STRONG:
        return 0
    return sum(x.of_a_line and x.parted == h.parted and s.lines[x.start] == s.lines[h.start] for x in sure)


def _both_from_one(s: Surroundings, h: _Head, sure: list[_Head]) -> int:
    """`Cedars: First plant 8 trifs ...`, and under it `Lane piece: First plant ...`: a title at the head of a line, laid out
    like one that is surely a name; behind both, plants are counted from the first."""
    alone = h.parted in _STRONG and h.of_a_line and title(s, h.start, h.end) and s.cased and not s.shouted
    alike = [x for x in sure if x is not h and x.layout == h.layout]
    return _SURE * (alone and bool(alike) and all(_first_behind(s, x.end + 1) for x in [h, *alike]))


def _first_behind(s: Surroundings, at: int) -> bool:
    at += s.text(at) == "the"
    return s.text(at) == "first" or (strength(s, at)[1] == "label" and _from_the_first(s, at))


def _owned(s: Surroundings, h: _Head) -> bool:
    """`Bloom's place`, with a capital where the note has any."""
    return s.cased and s.text(h.start + 1) == "'s" and upper(s, h.start) and noun_at(s, h.end - 1)


def _titled_and_told(s: Surroundings, h: _Head) -> bool:
    """`Seed Corn Forty R3.`, `Bloom's place R2.` in a note that names fields: two words and more with capitals, or somebody's
    place, at the head of a line or a sentence and right before a stage or a share of a field."""
    if h.opens not in {"line", "sentence"} or h.rule not in {"stage", "ratio"} or s.shouted or not s.cased:
        return False
    telling = [x for x in range(h.start, h.end) if _telling(s, x)]
    return _owned(s, h) or (len(telling) > 1 and title(s, h.start, h.end))


_SHARES = frozenset({"ratio", "percent", "sampled", "podshare"})


def _strange_and_shared(s: Surroundings, h: _Head, chosen: list[Name]) -> bool:
    """`wren forty is r8. chokecherry ten plants seven of them r8`, `Plum hollow only 40% of the pods brown`: behind a field
    of which all was told, words of no trade, or with a noun of places, at the head of a sentence, and a share right behind."""
    if h.opens not in {"line", "sentence"} or h.rule not in _SHARES or h.parted != "bare":
        return False
    before = [name for name in chosen if name.seen and name.end <= h.start]
    if not before or not any(
        p.rule in {"stage", *_SHARES} for x in range(before[-1].end, h.start) for p in s.phrases[x]
    ):
        return False
    words = [x for x in range(h.start, h.end) if _telling(s, x)]
    if s.text(h.start) in _LIES | s.words.relations | s.words.standing | s.words.inside:
        return False  # by the barn ten plants
    strange = [x for x in words if odd(s.lattice, x) and not s.lattice.edges[x] and not _done_or_so(s, x)]
    if len(words) == 1 and h.rule in {"percent", "podshare"} and s.text(h.start).endswith("s"):
        return False  # stems only 60% brown
    return bool(strange) or (len(words) > 1 and noun_in(s, h.start, h.end))


_DONE_OR_SO = _LISTED.ordered("done_or_so")


def _done_or_so(s: Surroundings, x: int) -> bool:
    """`yanked ten plants`, `closer 60% R4`: a word that ends as what was done, or how."""
    return ends_as_talk(s.text(x)) or s.text(x).endswith(_DONE_OR_SO)


_ROUNDS = _LISTED.words("rounds")


def past_the_round(s: Surroundings, chosen: list[Name]) -> list[Name]:
    """`july second west route | heron house field first plant one`: the round of the day, and behind it the field."""
    if not chosen:
        return chosen
    first = chosen[0]
    cut = next((x + 1 for x in range(first.start, min(first.start + 2, first.end)) if s.text(x) in _ROUNDS), None)
    numbered = cut is not None and s.pieces[cut].form == "int"  # Route 9 corner: a road by its number
    if cut is None or numbered or first.end - cut < 2 or first.cue not in {"note", "date", "turn", "anew", "daily"}:
        return chosen
    text = s.lattice.written(cut, first.end).removesuffix(" field")
    return [replace(first, start=cut, cue_start=cut, text=text), *chosen[1:]]


def _led(s: Surroundings, h: _Head, chosen: list[Name]) -> bool:
    """`back of joes, pltd 5/18`: the last words are a name, and those before them say where it lies."""
    name = next((x for x in chosen if x.end == h.end and h.start < x.start), None)
    return name is not None and all(s.text(x) in _LIES | {"back", "of", "the"} for x in range(h.start, name.start))


def _listed(s: Surroundings, heads: list[_Head], h: _Head, sure: list[_Head]) -> bool:
    """`dump road r2, orchard r3, gin lot r4`: one of several in a list, of which one at least is surely a name."""
    if h.parted != "bare" or h.opens == "turn":
        return False
    here = [x for x in heads if s.lines[x.start] == s.lines[h.start] and x.parted == "bare"]
    items = [x for x in here if _an_item(s, x) and not _a_place(s, x)]
    led = any(x in sure for x in here) or (here[0].of_a_line and len(items) >= _ALL_ALIKE)
    of_a_list = _an_item(s, h) or here[0] is h
    shown = len(here) >= _SURE and bool(items) and all(_looks(s, x) for x in here)
    written = bool(items) and all(title(s, x.start, x.end) for x in items)
    return of_a_list and h.rule in _OF_A_FIELD and (shown or ((len(items) >= _SURE or written) and led))


def _an_item(s: Surroundings, h: _Head) -> bool:
    """Behind a comma or a semicolon: `Peavey V9 R1; Oxbow V10 R2`."""
    return h.opens == "list" or s.text(h.start - 1) == ";"


def _with(s: Surroundings, chosen: list[Name], h: _Head) -> list[Name]:
    """The names with this head as one of them."""
    if h.parted == "talk":
        chosen = [name for name in chosen if not h.end <= name.start < h.told]
    over = [name for name in chosen if name.start < h.end and h.start < name.end]
    end = h.end + (bool(over) and over[-1].end == h.end + 1 and s.text(h.end) == ".")  # OTTO NO.
    told = h.rule == "label" or _counted(s, h.told)  # behind bins p1; sheep lane 8 R3 2 R2
    swallowed = h.parted == "bare" and told and [x.start for x in over] == [h.start]
    first = min(h.start, h.cue_start)
    taken = _TAKEN | {"go"} if h.opens == "turn" and [x.start for x in over] == [h.start] else _TAKEN
    if any((name.end > end and not swallowed) or name.start < first or name.cue not in taken for name in over):
        return chosen
    cue = "spot" if _a_place(s, h) else "head"
    again = {"line", "sentence", "turn", "midway"} if cue == "spot" else {"line", "sentence"}
    if over and (over[0].start, over[0].end) == (h.start, h.end) and over[0].seen:
        return [replace(name, cue=cue) if name is over[0] and name.cue in again else name for name in chosen]
    if any(not name.seen for name in over):
        return chosen
    if len(over) > 1:
        return chosen
    text = s.lattice.written(h.start, h.end - (s.text(h.end - 1) in _FIELD))
    behind = pass_fillers(s, h.end, "-:,")
    seen = not not_visited(s, behind) and left_out_behind(s, h.end) is None
    kept = [name for name in chosen if name not in over]
    return [*kept, Name(h.start, h.end, text, cue, seen, first)]


def _heads(s: Surroundings) -> Iterator[_Head]:
    """What stands at the head of each line and sentence, in a list, and behind words that turn to another field, as far as
    something is told behind it."""
    for i in range(s.n):
        opens = _opens(s, i)
        at = s.n if opens is None else _past_the_day(s, i)
        turn = _turn_end(s, i) if opens != "list" and (opens or s.text(i) in TURNS_ANYWHERE) else 0
        if turn:
            opens, at = "turn", turn
        if opens is None or at >= s.n or s.pieces[at].form == "nl" or s.lines[i] in s.table_lines:
            continue
        head = _head(s, at, opens, i if turn else at)
        if head is not None and called_otherwise(s, head.end):
            continue  # this is the half acre we call Scale House
        if head is not None and (opens != "list" or (head.parted == "bare" and head.rule != "label")):
            yield head


def _opens(s: Surroundings, i: int) -> str | None:
    if i == 0 or s.pieces[i - 1].form == "nl":
        return "line"
    if s.text(i - 1) in {".", ";"} and s.lattice.soft[i - 1] is None:
        return "sentence"
    return "list" if s.text(i - 1) in {",", ";"} else None


def _numbered_title(s: Surroundings, i: int) -> bool:
    """Two words with capitals behind the number of a line."""
    return behind_its_number(s, i) and upper(s, i) and upper(s, i + 1)


_LIES_THERE = frozenset({"ROWS", "ROWW", "ROWSUFFIX", "ROWWORD", "WHEREWORD"})


def _turn_end(s: Surroundings, i: int) -> int:
    """Where the words end that turn to another field from piece i on, with the mark behind them; 0 where none do."""
    if s.text(i) not in s.words.turn_first or (i and s.text(i - 1) in (s.words.turn_first | s.words.turn_on) - {"one"}):
        return 0
    if any(
        p.rule in {"date", "planted", "emerged"} and p.end > i for x in range(max(0, i - 5), i) for p in s.phrases[x]
    ):
        return 0  # up May twenty first
    if s.text(i) == "next" and i and kinds(s, i - 1) & _LIES_THERE:
        return 0  # in the rows next the gravel
    if s.text(i) == "next" and s.text(i + 1) in {"door", "doors"}:
        return 0  # sunflowers next door are R five
    if s.text(i) == "next" and s.text(i + 1) == "to" and _lies_beside(s, i):
        return 0  # 30% next to the woods
    if _numbered_title(s, i):
        return 0  # 5. Last Chance: V8
    end = i + 1
    while end < s.n and end - i < _LONGEST_TURN and s.text(end) in s.words.turn_on:
        end += 1
    if s.text(i) == "first" and s.text(i + 1) in {"one", ""}:
        return 0  # first one seventy percent of the pods are brown: a plant
    while end > i + 1 and s.text(end - 1) == "back" and s.text(end) == "of":
        end -= 1  # last one back of the barn
    return end + (s.text(end) in {",", ":"})


def _lies_beside(s: Surroundings, i: int) -> bool:
    """`30% next to the woods.`, `R1 next to the quonset`: in the middle of a sentence, before a place that has no name."""
    if _opens(s, i) in {"line", "sentence"}:
        return False
    known = max((e.end for e in s.lattice.edges[i] if e.kind == "WHEREWORD"), default=0)
    plain = i + 4 if s.text(i + 2) == "the" and noun_at(s, i + 3) and not upper(s, i + 3) else 0
    end = max(known, plain)
    return bool(end) and (end >= s.n or not (s.pieces[end].form == "word" and noun_at(s, end)))


def _turns_surely(s: Surroundings, h: _Head) -> bool:
    """Two words and more turn to what is named."""
    return sum(s.pieces[x].form == "word" for x in range(h.cue_start, h.start)) > 1


def _past_the_day(s: Surroundings, i: int) -> int:
    """Behind a mark of a list, and behind a day (8/21 Bramble Ford: ...)."""
    at = i + 1 if s.text(i) in {"-", "*"} and i + 1 < s.n and not s.pieces[i + 1].glued else i
    day = _day_end(s, at)
    return pass_fillers(s, day) if day else at


def _day_end(s: Surroundings, i: int) -> int:
    """Where the day ends that begins at piece i; 0 where none does."""
    surely = i < s.n and strength(s, i) >= (1.5, "")
    return max((p.end for p in s.phrases[i] if p.rule == "date"), default=0) if surely else 0


def _head(s: Surroundings, at: int, opens: str, cue_start: int) -> _Head | None:
    end = at
    while end < s.n and end - at <= 2 * _MOST:
        day = _day_end(s, end) if end > at else 0
        parted = _parted(s, at, day or end)
        if parted is not None:
            return _told(s, _Head(at, end, parted, day or end, None, opens, cue_start))
        if opens == "turn" and end > at and s.text(end) in _TALKS_ON:
            return _talked(s, _Head(at, end, "talk", end, "label", opens, cue_start))
        if day:
            return None
        end += 1
    return None


_IS = _COMMON.words("being_or_having")
_TALKS_ON = _LISTED.words("talks_on")
_FAR = 14  # words of talk between the name and its first plant


def _talked(s: Surroundings, h: _Head) -> _Head | None:
    """`now over at heron pond and the flies are something else plant one`: talk, and then the first plant."""
    for x in range(h.end, min(h.end + _FAR, s.n)):
        rule = _begins(s, x)
        if s.pieces[x].form == "nl" or s.text(x) in {".", ";"} or (rule == "label" and not _from_the_first(s, x)):
            return None
        if rule in {"label", "stage", "ratio", "call"}:
            return replace(h, told=x, rule=rule)
    return None


def _parted(s: Surroundings, at: int, end: int) -> str | None:
    """What parts the head from the rest at piece `end`, if anything does."""
    if end == at or end >= s.n:
        return None
    p, after = s.pieces[end], s.text(end + 1)
    if p.form == "nl":
        return "alone"
    if p.text == "." and after in {":", "-", "–", ","}:
        return None  # otto so. - ...
    if p.text == "." and s.text(end - 1) in {"so", "no"} and end - at > 1 and _begins(s, end + 1) in _OF_A_FIELD:
        return "gap" if s.pieces[end + 1].gap >= _GAP else None  # otto so. r3
    if p.text == ".":
        short = len(s.text(end - 1)) <= _SHORT and s.pieces[end - 1].form == "word"
        wide = end + 1 < s.n and s.pieces[end + 1].gap >= _GAP
        inside = short and s.lattice.soft[end] is not None and not wide and after and _begins(s, end + 1) not in _TOLD
        return None if inside and s.pieces[end + 1].form != "nl" else "gap" if wide else "."
    if p.gap >= _GAP:
        return "gap"
    if p.text in {":", ","}:
        return p.text
    if p.text in {"-", "–"}:
        dash = end + 1 < s.n and not (p.glued and s.pieces[end + 1].glued)
        return "-" if dash or p.text == "–" else None
    place = p.text == "'s" and s.cased and upper(s, at) and noun_at(s, end + 1)  # Bloom's place R2
    if p.text in _IS and not place and _begins(s, pass_fillers(s, end + 1)) in _OF_A_FIELD:
        return "bare"  # lake field is V six
    if p.text == "only" and _begins(s, end + 1) in _SHARES:
        return "bare"  # plum hollow only 40% of the pods brown
    inside = s.text(end - 1) == "-" or not s.lattice.original(end, end + 1).isascii()  # drive-up, W½
    rule = None if inside else _begins(s, end)
    return "bare" if rule in _TOLD else None


def _told(s: Surroundings, h: _Head) -> _Head | None:
    """The head, where what is told of a field stands behind it, from piece `told` on."""
    k = h.told + (s.text(h.told) in _IS)
    k += s.text(k) == "only"
    while k < s.n and (s.text(k) in {":", ",", "-", "–", "."} or (s.pieces[k].form == "nl" and h.parted == "alone")):
        k += 1
    told = pass_fillers(s, k)
    rule = "label" if s.text(told - 1) == "(" and s.text(told + 1) == ")" else _begins(s, told)
    if h.parted == "alone" and told < s.n and s.lines[told] in s.table_lines:
        rule = "label"
    left_out = left_out_behind(s, h.told) is not None and h.parted != "alone"
    if rule == "label" and not _from_the_first(s, told):
        return None
    rules = _WRITTEN if h.parted in _STRONG else _OF_A_FIELD | {"findhead"} if h.parted != "bare" else _OF_A_FIELD
    if rule not in rules | {"label"} and not left_out:
        return None
    return replace(h, told=told, rule=rule)


def _begins(s: Surroundings, i: int) -> str | None:
    """The rule of what begins here, where it begins surely."""
    if _counted(s, i):
        return "ratio"
    if i < s.n and any(p.form == "n_plants" for p in s.phrases[i]):
        return "sampled"  # 3 plants 8 trifs
    none = max((p.end for p in s.phrases[i] if p.form == "group_none"), default=0) if i < s.n else 0
    if none and none < s.n and strength(s, none)[1] in {"flowers", "pods", "seeds", "stage"}:
        return "group"  # none of the 10 flowering
    begun, rule = strength(s, i)
    return rule if begun >= 1.0 or rule in {"lots", "emergence"} else None


def _counted(s: Surroundings, i: int) -> bool:
    """`8 R3 2 R2`, `8 R3, 2 R2`: so many plants of each stage."""
    for _ in range(_SURE):
        if i >= s.n or s.pieces[i].form != "int":
            return False
        end = max((p.end for p in s.phrases[i + 1] if p.rule == "stage"), default=0) if i + 1 < s.n else 0
        if not end:
            return False
        i = end + (s.text(end) in {",", "and"})
    return True


def _from_the_first(s: Surroundings, told: int) -> bool:
    """The plants behind the head are counted from the first one on."""
    return first_plant(s, told) or told in s.lists or s.lines[told] in s.table_lines or _letter_a(s, told)


def _letter_a(s: Surroundings, i: int) -> bool:
    at = i + (s.text(i) == "(")
    return s.text(at) in {"a", "1"} or s.text(at + 1) in {"a", "1"}


def _plausible(s: Surroundings, h: _Head) -> bool:
    """The words of the head may be a name's."""
    words = [x for x in range(h.start, h.end) if s.pieces[x].form in {"word", "int"}]
    marks = [x for x in range(h.start, h.end) if s.pieces[x].form not in {"word", "int"}]
    if not 1 <= len([x for x in words if s.text(x) not in {"'s", "s"}]) <= _MOST:
        return False
    if h.opens == "sentence" and s.cased and not (_written(s, h) or _owned(s, h)):
        return False  # Deer tracks. Six of ten blooming
    if any(s.text(x) not in _INSIDE for x in marks) or not _names_something(s, h, words):
        return False
    return _may_begin(s, h) and _may_end(s, h) and all(_may_stand(s, h, x) for x in words)


def _written(s: Surroundings, h: _Head) -> bool:
    """Every word begins with a capital, but for small words and second halves: Drive-in 40."""
    second = {x for x in range(h.start + 1, h.end) if s.text(x - 1) == "-"}
    return all(title(s, x, x + 1) for x in range(h.start, h.end) if x not in second and _telling(s, x))


def _telling(s: Surroundings, x: int) -> bool:
    return s.pieces[x].form == "word" and s.text(x) not in _INSIDE


def _names_something(s: Surroundings, h: _Head, words: list[int]) -> bool:
    """A word among them is no number and no small word."""
    code = len(words) == 2 and s.pieces[words[1]].glued and s.pieces[words[0]].form == "int"
    if code:
        return len(s.text(words[1])) == 1
    telling = [x for x in words if s.pieces[x].form == "word" and s.text(x) not in _INSIDE and len(s.text(x)) > 1]
    counts = all(_number(s, x) for x in telling) or (h.opens == "turn" and all(_counts(s, x) for x in telling))
    return any(not s.lattice.filler[x] for x in telling) and not counts


def _counts(s: Surroundings, x: int) -> bool:
    """A number in words, though fields are called by it too: last one forty percent."""
    return any(e.kind == "INT" and e.end == x + 1 for e in s.lattice.edges[x])


def _number(s: Surroundings, x: int) -> bool:
    kinds = {e.kind for e in s.lattice.edges[x] if e.how in {"exact", "number"}}
    return bool(kinds & {"INT", "ORD"}) and "FIELDNOUN" not in kinds


def _may_begin(s: Surroundings, h: _Head) -> bool:
    first = s.text(h.start)
    alone = h.end - h.start == 1
    if first in claim_words().people and s.text(h.start + 1) != "'s":
        return False
    if first in OF_FIGURES | s.words.of_the_form or (first in odd_name_words().done and not title(s, h.start, h.end)):
        return False
    if first in _LIES | {"the"}:
        return not alone
    if first in s.words.never_first:
        return not alone and first in s.words.opens_a_head
    return not (alone and ends_as_talk(first) and not title(s, h.start, h.end))


_FOR_MAY_END = _LISTED.words("for_may_end")


def _may_end(s: Surroundings, h: _Head) -> bool:
    last = s.text(h.end - 1)
    if place_in_turn(s, h.start, h.end):
        return False  # okay second place I drove over to is Dry Run
    if h.end - h.start > 1 and last in s.words.never_last - _FOR_MAY_END:
        return False
    return not (h.parted in {"bare", ","} and (last in {"of", "the", "and"} or last in s.words.lag_verbs))


_FIELD = _COMMON.words("field")


def _named_so(s: Surroundings, h: _Head) -> bool:
    """`lake field`, `Heron field`: a word before `field` that says which; not `the field`, `best field`."""
    which = s.text(h.end - 2)
    strange = not s.lattice.known[h.end - 2] and not s.lattice.filler[h.end - 2]
    return noun_in(s, h.start, h.end - 1) or (strange and not which.endswith("est"))


def _may_stand(s: Surroundings, h: _Head, x: int) -> bool:
    text = s.text(x)
    joined = "-" in {s.text(x - 1) if x > h.start else "", s.text(x + 1) if x + 1 < h.end else ""}
    if joined and s.pieces[x].form == "word":
        return True  # Drive-in
    titled = title(s, h.start, h.end)
    if misspelled(s.lattice, x) and not titled:
        return False
    last = x == h.end - 1
    if last and text in _FIELD and x > h.start and _named_so(s, h):
        return True  # lake field
    if x == h.start and _owned(s, h):
        return True  # Bloom's place
    if text in {"so", "no"} and x > h.start and s.text(x + 1) == ".":
        return True  # Otto No., Otto So.
    if last and len(text) == 1 and x > h.start:
        return True  # 7A, Spencer B
    inside = text in _INSIDE | s.words.inside | s.words.before_a_noun | _LIES or (text in _SIZED and not last)
    if s.lattice.filler[x] and not (inside or titled):
        return False
    exact = {e.kind for e in s.lattice.edges[x] if e.how == "exact"}
    if last and exact == {"STOP"} and noun_in(s, x - 1, x):
        return True  # Bin site
    of_a_title = (titled and h.end - h.start > 1) or noun_in(s, h.start, h.end)
    of_a_title = of_a_title or (h.parted in _STRONG and h.rule in _TOLD and _strange_in(s, h.start, h.end))
    found = _FOUND if h.parted in _STRONG and _of_the_beans(s, h) else frozenset[str]()
    return not exact - _MAY - (_OF_A_TITLE if of_a_title else set()) - found


_FOUND = frozenset({"DAMAGE", "INSECT", "WEED", "DISEASE"})


def _of_the_beans(s: Surroundings, h: _Head) -> bool:
    """`Gopher - none of the 10 flowering`, `Hopper: R3`: what stands behind it is no count of an animal or a weed."""
    behind = max((p.end for p in s.phrases[h.told] if p.rule in {"ratio", "percent", "group"}), default=h.told)
    behind += s.text(behind) in {"at", "in"}
    return _begins(s, behind) in {"stage", "flowers", "pods", "seeds", "trif"}


def _a_place(s: Surroundings, h: _Head) -> bool:
    """`hilltop`, `north fence`, `the low ground`: nothing but words for places in a field."""
    places = s.words.compass | s.words.terrain | _SPOT | _SIDES
    side = s.text(h.end - 1) in _SIDES and h.end - h.start > 1  # shady side, swamp edge
    every = all(s.text(x) in places for x in range(h.start, h.end))
    plain = not noun_in(s, h.start, h.end) and s.pieces[h.end - 1].form != "int"
    lone = h.opens == "list" and h.end - h.start == 1 and plain  # home 80 r3, irrigated r4
    return (every or side or lone) and not title(s, h.start, h.end)


def _strange_in(s: Surroundings, a: int, b: int) -> bool:
    return any(not s.lattice.known[x] and not s.lattice.filler[x] and s.pieces[x].form == "word" for x in range(a, b))


_FOR_A_SIDE = _LISTED.words("for_a_side")


def _a_side(s: Surroundings, h: _Head) -> bool:
    """`north end`, `the west half`, `low ground`: a part of the field before it, however it is written."""
    words = [s.text(x) for x in range(h.start, h.end)]
    parts = s.words.compass | _SPOT | _SIDES | _FOR_A_SIDE
    return all(x in parts for x in words) and words[-1] not in s.words.compass


def _alike(s: Surroundings, heads: list[_Head], h: _Head) -> bool:
    """Two heads beside it, laid out alike, are of words that are no places in a field."""
    return sum(x.layout == h.layout and not _a_side(s, x) and not _a_place(s, x) for x in heads if x is not h) >= _SURE


def _looks(s: Surroundings, h: _Head) -> bool:
    """Two words and more with a noun of places or a number among them."""
    number = any(s.pieces[x].form == "int" for x in range(h.start, h.end))
    return h.end - h.start > 1 and (noun_in(s, h.start, h.end) or number)


def _all_alike(s: Surroundings, heads: list[_Head], h: _Head, sure: list[_Head]) -> bool:
    """Hardly a head is surely a name, but three and more are laid out alike, and a field is told of behind each."""
    alike = [x for x in heads if x.layout == h.layout and not _a_side(s, x) and not _a_place(s, x)]
    told = all(x.rule in _TOLD for x in alike)
    written = h.opens == "sentence" and all(title(s, x.start, x.end) for x in alike)
    shown = sum(_looks(s, x) for x in alike) >= _SURE and not any(x.parted == "alone" for x in heads[:1])
    surely = h.of_a_line and (bool(sure) or (h.parted in _STRONG and shown))
    return len(alike) >= _ALL_ALIKE and told and (surely or written)
