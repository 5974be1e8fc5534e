"""Column heads: what a column holds, in what unit, at what place of the plant, how it was counted (guide 4.21)."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import field, fields
from operator import attrgetter

from notesparse.language.columns import ColumnWords, HeadWord, column_words, head_tokens, squeeze
from notesparse.language.cues import cue_page
from notesparse.lazy import dataclass
from notesparse.observing.finding import units
from notesparse.reading.parse import Phrase, phrases_at
from notesparse.text.lattice import Lattice
from notesparse.text.match import is_abbreviation

_COMMON = cue_page("shared")
_LISTED = cue_page("paper/heads")

ORGANS = ("flowers", "pods", "seeds")
_KINDS = {
    "PLANT": "plant",
    "TRIF": "trifoliates",
    "NODES": "nodes",
    "FLOWER": "flowers",
    "POD": "pods",
    "SEED": "seeds",
    "BROWN": "brown",
}
_UNITS = {"INCH": "in", "MM": "mm", "CM": "cm"}
_FINDINGS = {"INSECT", "DISEASE", "DEFOL", "WEED", "DAMAGE", "HEIGHTWORD", "LEAFTURN", "LEAFDROP"}
_OF_LEAVES = {"LEAFTURN", "LEAFDROP", "DEFOL"}
_TOP_PLACES = {"top_n", "top_two", "top_four", "top_1", "up_top", "lower", "main_stem"}
_MOST_UNKNOWN = 3  # words of a head that may be unknown; with more it is no head
_OF_WORDS = _LISTED.words("of_words")
_COUNTED = _LISTED.words("counted")
_HIGH = _LISTED.words("high")
_FLAT = _LISTED.words("flat")
_PAIRED = frozenset({"trifoliates", "nodes", "v", "r"})  # what two figures of one cell may be of
_INSIGNIFICANT = set(".,():;-/=~*|[]_?!")


@dataclass(slots=True)
class Column:
    """One column: `what` it holds, and how its figures are to be taken."""

    what: list[str] = field(default_factory=list)
    pieces: list[int] = field(default_factory=list)
    left: int = 0
    right: int = 0
    unit: str | None = None  # in, mm, cm, 16, 8, 4 (parts of an inch)
    place: Phrase | None = None
    by_node: str | None = None  # the figure is a node, counted down or up
    measure: bool = False
    count: bool = False
    plural: bool = False
    percent: bool = False
    of: int | None = None  # so many were counted on each plant (ripe pods, of 20 counted)
    codes: dict[str, tuple[int, int]] = field(
        default_factory=dict
    )  # a cell's sign -> the pieces that say what it means
    code_organs: dict[str, str] = field(default_factory=dict)  # sign -> what its place is of: `bt = in top two`
    finding: tuple[str, str] | None = None
    unknown: list[int] = field(default_factory=list)
    per: str | None = None  # plants counted in so much of the row: `10 ft`
    rate: str | None = None  # what a finding is counted by: `per 25 sweeps`
    others: bool = False  # how many plants have not what the column before counts: `in bloom   not yet`
    where: bool = False  # where on the plant the thing of the column before it was
    node_signs: set[str] = field(default_factory=set)  # signs before the node of a cell: `N2`
    branch: bool = False  # seen on branches: no evidence for a stage
    high: bool = False  # the highest one that has it: a bare figure is a node
    flat: bool = False  # the head asks whether the leaf is flat: `unifol. flat`
    cell_place: tuple[str, tuple[int, ...], tuple[int, int]] | None = None  # a place at the end of the cell in hand
    beside: str | None = None  # a second count behind a stroke in each cell: `tf/nd` over `9/10`
    sizes: bool = False  # a legend for every size of the table
    in_pods: bool = False  # `seed in the pods, third node from top`: the place is that of the pod too

    @property
    def known(self) -> bool:
        return bool(self.what)

    @property
    def label(self) -> bool:
        return self.what == ["plant"]

    def copy(self) -> Column:
        """A column of its own, that can be changed without changing this one."""
        own = Column(*_fields_of(self))
        own.what, own.pieces, own.unknown = [*self.what], [*self.pieces], [*self.unknown]
        own.codes, own.code_organs, own.node_signs = {**self.codes}, {**self.code_organs}, {*self.node_signs}
        return own

    def take(self, other: Column) -> None:
        """What a legend adds to this column, where its own head does not say it."""
        self.unit = self.unit or other.unit
        self.place = self.place or other.place
        self.by_node = self.by_node or other.by_node
        self.measure = self.measure or other.measure
        self.count = self.count or other.count
        self.percent = self.percent or other.percent
        self.of = self.of or other.of
        self.in_pods = self.in_pods or other.in_pods
        self.codes = {**other.codes, **self.codes}


_fields_of = attrgetter(*(f.name for f in fields(Column)))


def own_the_nodes(columns: Sequence[Column]) -> None:
    """`node dn` beside `seed`: a node of which no thing is named is that of the organ in the next column."""
    for at, c in enumerate(columns):
        if c.what or c.by_node is None or c.unknown or at + 1 >= len(columns):
            continue
        beside = columns[at + 1].what
        organ = "seeds" if beside == ["fill"] else next((w for w in beside if w in ORGANS), None)
        if organ is not None:
            c.what = [organ]


def read_heads(
    lattice: Lattice,
    groups: Sequence[Sequence[int]],
    keys: dict[str, Column] | None = None,
    bare_measure: bool = False,
) -> list[Column]:
    """The columns that stand in a head of these piece runs (one run a line), split where a second thing is named."""
    return [column.copy() for column in seen_heads(lattice, groups, keys, bare_measure)]


def seen_heads(
    lattice: Lattice,
    groups: Sequence[Sequence[int]],
    keys: dict[str, Column] | None = None,
    bare_measure: bool = False,
) -> list[Column]:
    """The same columns, to be looked at and left as they are: the same line is asked for by every kind of table, so what
    was found is kept."""
    word = lattice.word
    if keys and any(word(i) in keys for run in groups for i in run):
        return _heads_in(lattice, groups, keys, bare_measure)
    asked = (*map(tuple, groups), bare_measure)
    found = lattice.found.get(asked)
    if found is None:
        found = lattice.found[asked] = _heads_in(lattice, groups, {}, bare_measure)
    return found


def _heads_in(
    lattice: Lattice, groups: Sequence[Sequence[int]], keys: dict[str, Column], bare_measure: bool
) -> list[Column]:
    words = column_words()
    tokens: list[tuple[int, str]] = []
    codes: dict[str, tuple[int, int]] = {}
    pieces: list[int] = []
    for run in groups:
        skip: set[int] = set()
        _codes(lattice, run, codes, skip)
        for i in run:
            pieces.append(i)
            if i in skip:
                continue
            text = lattice.pieces[i].text
            if text in _INSIGNIFICANT:
                continue
            tokens.append((i, text))
    here = Column()
    if any(codes.get(word) and lattice.original(*codes[word]) == "1" for word in _FIRST_NODE):  # node (tip = 1)
        codes = {sign: at for sign, at in codes.items() if sign not in _FIRST_NODE}
        here.by_node = "down"
    out: list[Column] = []
    waiting: list[int] = []  # what was said before the thing is named (longest, open)
    joiner = False
    here_from = 0
    t = 0
    while t < len(tokens):
        i, text = tokens[t]
        length = _row_length(lattice, tokens, t)
        if length is not None and here.what in ([], ["emerged"], ["plant"], ["stand"]):
            here.what, here.per, t = ["stand"], *length
            continue
        rate = _rate(lattice, tokens, t) if here.what == ["finding"] else None
        if rate is not None:
            here.rate, t = rate
            continue
        counted = _of(lattice, tokens, t)
        if counted is not None:
            here.of, t = counted
            continue
        if text == "'s" and here.what[-1:] and here.what[-1] in ORGANS and tokens[t + 1 : t + 2]:
            if tokens[t + 1][1] in _NODE_WORDS:
                here.by_node, t = here.by_node or "down", t + 2  # Pod's node
                continue
        word, end = _match(words, tokens, t)
        for e in lattice.edges[i]:  # p1ant; lvs yellow: of their colour, and no count
            if e.end > i + 1 and (
                (e.how == "figure" and e.kind in _KINDS) or (e.how == "exact" and e.kind in _OF_LEAVES)
            ):
                word, end = _sense(lattice, i, tokens, t)
                break
        place = _place(lattice, tokens, t)
        if word is not None and word.kind == "by_node" and place is None and end > t + 1:
            place = _place(lattice, tokens, end - 1)  # taken from the top four nodes
            place = place if place is not None and place[1] > end else None
        key = keys.get(text)
        if key is not None and (word is None or word.kind != "head" or end == t + 1):
            summed = joiner and here.what == ["trifoliates"] and key.what == ["scars"]  # tf + sc
            here = _new(out, here, summed)
            here.what = [*here.what, *key.what]
            here.take(key)
            here.plural, here.finding = key.plural, key.finding
            t += 1
            joiner = False
            continue
        if place is not None and (word is None or place[1] > end or (word.kind == "plain" and place[1] >= end)):
            here.place = place[0]
            t = place[1]
            continue
        if word is None:
            word, end = _sense(lattice, i, tokens, t)
        if word is None:
            (here.unknown if not lattice.filler[i] else waiting).append(i)
            t += 1
            if len(here.unknown) > _MOST_UNKNOWN:
                return [here]
            continue
        if word.kind == "head" and word.means == "nodes" and _nodes_with(words, tokens, end):
            t = end
            continue
        if (
            text in _ONE_NODE
            and t == 1
            and len(here.what) == 1
            and here.what[0] in ORGANS
            and _own_cell(lattice, tokens)
        ):
            here.by_node, t = here.by_node or "down", end  # fl node: which it is at
            continue
        if word.kind == "head":
            means = word.means
            if means == "plant" and here.count and not here.what:
                here.count = False
            if {means, *here.what} == {"brown", "pods"} and _beside(lattice, here_from, i):
                means, here.what = "brown", ["brown"]  # any pod at mature colour, mature pod on the main stem
            if means == "pods" and here.what == ["seeds"] and _inside(tokens, t):
                here.in_pods, t = True, end
                continue
            if here.what and means not in here.what and not joiner:
                here = _new(out, here, joiner)
            if means == "brown" and here.what == ["pods"]:
                here.what = []
            if means == "pods" and here.what == ["brown"]:
                means = "brown"
            here_from = i
            if means not in here.what:
                here.what.append(means)
            here.plural = here.plural or tokens[end - 1][1].endswith("s")
            joiner = False
        elif word.kind == "finding":
            here = _new(out, here, False)
            here.what = ["finding"]
            here.finding = tuple(word.means.split("|", 1))  # type: ignore[assignment]
            joiner = False
        elif word.kind == "and":
            joiner = bool(here.what)
        elif word.kind == "unit":
            here.unit = word.means
        elif word.kind == "by_node":
            here.by_node = (here.by_node or "down") if word.means == "which" else word.means
        elif word.kind == "measure":
            here.measure = True
        elif word.kind == "count":
            here.count = True
        elif word.kind == "branch":
            here.branch = True
        elif word.kind == "percent":
            here.percent = True
        elif word.kind == "all":
            here.sizes = here.measure = True
        t = end
    out.append(here)
    texts = [lattice.pieces[i].text for i in pieces]
    if (
        len(out) == 2
        and texts.count("/") == 1
        and out[0].what != out[1].what
        and not (out[0].unknown or out[1].unknown)
    ):
        if all(len(c.what) == 1 and c.what[0] in _PAIRED for c in out):
            out[0].beside = out[1].what[0]
            out = out[:1]
    out = [
        c
        for c in out
        if c.what
        or c.count
        or c.unknown
        or c.unit
        or c.place
        or c.sizes
        or c.by_node
        or c.branch
        or (bare_measure and (c.measure or c.percent))
    ]
    for c in out:
        c.codes.update(codes)
        if c.by_node and c.place is not None and c.place.form in {"top_1", "up_top"}:
            c.place = None  # highest node that has one, counted from the top: the figure is the place
        if not c.what and c.count and not c.by_node:
            c.what = ["plant"]
        if c.what == ["pods"] and c.percent and not c.measure:
            c.what = ["brown"]
        c.what = [w for w in c.what if w != "pods"] if "brown" in c.what and c.of is not None else c.what
        c.high = len(out) == 1 and bool(_HIGH & set(texts)) and c.what[:1] in (["flowers"], ["pods"], ["seeds"])
        c.flat = len(out) == 1 and bool(_FLAT & set(texts))
        if len(c.what) > 1 and "plant" in c.what:
            c.what = [w for w in c.what if w != "plant"]
    if len(out) == 1 and pieces:
        c = out[0]
        c.pieces = pieces
        c.left = min(lattice.pieces[i].column for i in pieces)
        c.right = max(lattice.pieces[i].column + len(lattice.pieces[i].text) for i in pieces)
    return out


def _own_cell(lattice: Lattice, tokens: list[tuple[int, str]]) -> bool:
    """The first two words of a head stand side by side, with a wide gap or a line before and behind them."""
    first, last = tokens[0][0], tokens[1][0]
    p = lattice.pieces
    opens = first == 0 or p[first - 1].form == "nl" or p[first].gap >= _GAP or p[first - 1].text in {"|", ","}
    if not opens or not all(x.gap < _GAP and x.form != "nl" for x in p[first + 1 : last + 1]):
        return False
    shut = last + 1 == len(p) or p[last + 1].form == "nl" or p[last + 1].gap >= _GAP
    return shut or p[last + 1].text in {"(", "|", ","}


_BEFORE_INSIDE = _LISTED.words("before_inside")


def _inside(tokens: list[tuple[int, str]], t: int) -> bool:
    """`seed seen in the pods`, `beans felt inside`: the pod at token t only holds the seed."""
    k = t - (t > 0 and tokens[t - 1][1] in _BEFORE_INSIDE)
    return k > 0 and tokens[k - 1][1] in {"in", "inside", "within"}


_GAP = 2  # blanks between two heads


def _beside(lattice: Lattice, a: int, b: int) -> bool:
    """Between pieces a and b of a head nothing parts one head from the next: no line, no wide gap, no mark."""
    return a < b and all(
        p.gap < _GAP and p.form != "nl" and p.text not in {",", ";", "|", "/"} for p in lattice.pieces[a + 1 : b + 1]
    )


_BEARS = _LISTED.words("bears")


def _nodes_with(words: ColumnWords, tokens: list[tuple[int, str]], at: int) -> bool:
    """`nodes with an open flower, counted up from the bottom`, `nodes in blossom, from the top`: behind `nodes`, the figures
    are places of the flower."""
    if at >= len(tokens) or tokens[at][1] not in _BEARS:
        return False
    behind = (_match(words, tokens, t)[0] for t in range(at + 1, len(tokens)))
    return any(word is not None and word.kind == "by_node" and word.means != "which" for word in behind)


_BEHIND_OF = _LISTED.words("behind_of")


def _of(lattice: Lattice, tokens: list[tuple[int, str]], t: int) -> tuple[int, int] | None:
    """`of 20 counted`, `out of 25`, `per 20`, `/40` in a head: (how many were counted on each plant, where it ends)."""
    k = t
    while k < len(tokens) and tokens[k][1] in _OF_WORDS:
        k += 1
    if k >= len(tokens) or lattice.pieces[tokens[k][0]].form != "int" or not 5 <= int(tokens[k][1]) <= 200:
        return None
    if (k == t and lattice.pieces[tokens[k][0] - 1].text != "/") or (k == t + 1 and tokens[t][1] == "in"):
        return None
    at = tokens[k][0]
    if (at + 1 < len(lattice.pieces) and lattice.pieces[at + 1].text in _BEHIND_OF) or (
        k == t and tokens[k][1] in {"8", "16", "32"}
    ):
        return None
    end = k + 1
    while end < len(tokens) and tokens[end][1] in _COUNTED:
        end += 1
    return int(tokens[k][1]), end


_BEHIND_ROW_LENGTH = _LISTED.words("behind_row_length")


def _row_length(lattice: Lattice, tokens: list[tuple[int, str]], t: int) -> tuple[str, int] | None:
    """`in 10 ft`, `per 3 ft of row`, `/ ft`: the length of row in which plants were counted, and where it ends."""
    if tokens[t][1] not in {"in", "per"} or t + 1 >= len(tokens):
        return None
    k = t + 1
    edges = lattice.edges[tokens[k][0]]
    n = next((str(e.means) for e in edges if e.kind == "INT" and e.end == tokens[k][0] + 1), None)
    k += n is not None
    if k >= len(tokens) or not any(e.kind == "FOOT" for e in lattice.edges[tokens[k][0]]):
        return None
    end = k + 1
    while end < len(tokens) and tokens[end][1] in _BEHIND_ROW_LENGTH:
        end += 1
    return (f"{n} ft" if n is not None else "ft"), end


def _rate(lattice: Lattice, tokens: list[tuple[int, str]], t: int) -> tuple[str, int] | None:
    """`per 25 sweeps`, `/ plant` behind an insect in a head: what it is counted by, and where that ends."""
    i = tokens[t][0]
    if tokens[t][1] not in _PER and lattice.pieces[i - 1].text != "/":
        return None
    sweeps = [x for _, x in tokens[t : t + 3]]
    if len(sweeps) > _SWEEPS and sweeps[1].isdigit() and sweeps[2] in _SHORT_SWEEPS:
        return f"per {sweeps[1]} sweeps", t + 3
    said = units.per(lattice, i if tokens[t][1] in _PER else i - 1)
    if said is None or said.unit is None or said.end > tokens[-1][0] + 1:
        return None
    end = t + 1
    while end < len(tokens) and i < tokens[end][0] < said.end:
        end += 1
    return said.unit, end


def _new(out: list[Column], here: Column, joiner: bool) -> Column:
    """The column for the thing that is named now: the same one, unless it holds a thing already."""
    if not here.what or joiner:
        return here
    out.append(here)
    return Column()


def split_line(lattice: Lattice, start: int, end: int, keys: dict[str, Column] | None = None) -> list[Column]:
    """A head line with single blanks (`pl tf nd fl pd`): its columns, one after the other."""
    found: list[Column] = []
    a = start
    while a < end:
        best: tuple[int, Column] | None = None
        for b in range(a + 1, min(end, a + 7) + 1):
            if b < end and lattice.pieces[b].glued and lattice.pieces[b].form == "mark":
                continue
            got = read_heads(lattice, [range(a, b)], keys)
            if got and len(got[0].unknown) > _MOST_UNKNOWN:
                break
            if (len(got) == 1 and got[0].known and not got[0].unknown and got[0].what != ["finding"]) or (
                len(got) == 1 and got[0].finding is not None
            ):
                best = (b, got[0])
        if best is None:
            return []
        best[1].pieces = list(range(a, best[0]))
        best[1].left = lattice.pieces[a].column
        best[1].right = lattice.pieces[best[0] - 1].column + len(lattice.pieces[best[0] - 1].text)
        found.append(best[1])
        a = best[0]
    return found


def _codes(lattice: Lattice, run: Sequence[int], codes: dict[str, tuple[int, int]], skip: set[int]) -> None:
    """`x = none`, `0 = no open bloom   1 = only below the top two nodes`."""
    signs = [k for k in range(1, len(run)) if lattice.pieces[run[k]].text == "=" and k + 1 < len(run)]
    if not signs:
        _listed_codes(lattice, run, codes, skip)
        _bracketed_codes(lattice, run, codes, skip)
    for nth, k in enumerate(signs):
        if len(signs) == 1 and _numbers_nodes(lattice, run, k):
            continue
        stop = signs[nth + 1] - 1 if nth + 1 < len(signs) else len(run)
        b = k + 1
        while b < stop and lattice.pieces[run[b]].text not in ")" and not ends_sentence(lattice, run[b]):
            b += 1
        while b > k + 1 and lattice.pieces[run[b - 1]].text in ",;.":
            b -= 1
        if run[k - 1] in skip or b == k + 1:
            continue
        codes[lattice.pieces[run[k - 1]].text] = (run[k + 1], run[b - 1] + 1)
        skip.update(run[k - 1 : b])


def _numbers_nodes(lattice: Lattice, run: Sequence[int], k: int) -> bool:
    """`(1 = top node)`: how the nodes are numbered, and no code of a cell."""
    a, b = k, k + 1
    while a > 0 and lattice.pieces[run[a - 1]].text not in _PARTED:
        a -= 1
    while b < len(run) and lattice.pieces[run[b]].text not in _PARTED:
        b += 1
    told = column_words().heads.get(head_tokens(lattice.original(run[a], run[b - 1] + 1)), ())
    return any(w.kind == "by_node" for w in told)


_FOR_LISTED_CODES = _LISTED.words("for_listed_codes")


def _listed_codes(lattice: Lattice, run: Sequence[int], codes: dict[str, tuple[int, int]], skip: set[int]) -> None:
    """`Code for bloom: 0 none, 1 below top 2, 2 in top 2`: the codes of a legend, one after the other from 0 or 1 on."""
    texts = [lattice.pieces[i].text for i in run]
    if not _FOR_LISTED_CODES & set(texts):
        return
    begin = next((k + 1 for k, x in enumerate(texts) if x == ":"), None)
    begin = (
        begin
        if begin is not None
        else next((k for k, x in enumerate(texts) if x in {"0", "1", "a"} and k + 1 < len(run)), None)
    )
    if begin is None:
        return
    parts: list[list[int]] = [[]]
    for i in run[begin:]:
        if lattice.pieces[i].text in ",;":
            parts.append([])
        else:
            parts[-1].append(i)
    order = [lattice.pieces[p[0]].text for p in parts if p]
    if len(order) < 2 or order not in (
        [str(n) for n in range(len(order))],
        [str(n + 1) for n in range(len(order))],
        list("abcdef")[: len(order)],
    ):
        return
    for part in parts:
        first = 2 if len(part) > 2 and lattice.pieces[part[1]].text in "-:)=" else 1
        if len(part) <= first:
            return
    for part in parts:
        first = 2 if len(part) > 2 and lattice.pieces[part[1]].text in "-:)=" else 1
        end = part[-1] + 1
        while end > part[first] + 1 and lattice.pieces[end - 1].text == ".":
            end -= 1
        codes[lattice.pieces[part[0]].text] = (part[first], end)
        skip.update(part)


def ends_sentence(lattice: Lattice, i: int) -> bool:
    """A full stop behind a word that is no abbreviation: what follows belongs to no sign before it."""
    if lattice.pieces[i].text != "." or not 0 < i < len(lattice.pieces) - 1:
        return False
    word, after = lattice.pieces[i - 1], lattice.pieces[i + 1]
    number_of = word.text in {"no", "nos"} and after.text == "of"
    spoken = word.form == "word" and after.form == "word" and bool(after.gap)
    return spoken and not number_of and not is_abbreviation(word.text)


def bracketed(lattice: Lattice, run: Sequence[int]) -> tuple[int, list[tuple[int, int, int]]] | None:
    """`bloom (0 none, L low only, T top 2 nodes)`: where the bracket opens, and of each code its piece and the pieces [a, b) of its meaning."""
    texts = [lattice.pieces[i].text for i in run]
    if "(" not in texts[1:]:
        return None
    k = texts.index("(", 1)
    end = next((m for m in range(k + 1, len(run)) if texts[m] == ")"), len(run))
    parts: list[list[int]] = [[]]
    for i in run[k + 1 : end]:
        if lattice.pieces[i].text in ",;":
            parts.append([])
        else:
            parts[-1].append(i)
    out: list[tuple[int, int, int]] = []
    for part in parts:
        first = 2 if len(part) > 2 and lattice.pieces[part[1]].text in "-:=" else 1
        if len(part) <= first or not _a_sign(lattice, part[0]) or lattice.pieces[part[first]].form == "mark":
            return None
        out.append((part[0], part[first], part[-1] + 1))
    if 2 * sum(_says_something(lattice, range(a, b)) for _, a, b in out) <= len(out):
        return None
    if len(out) < _FEWEST_CODES or len({texts[run.index(i)] for i, _, _ in out}) < len(out):
        return None
    return run[k], out


def _a_sign(lattice: Lattice, i: int) -> bool:
    text = lattice.pieces[i].text
    return len(text) <= _LONGEST_CODE and text not in _NO_CODES


def _says_something(lattice: Lattice, run: Sequence[int]) -> bool:
    """Words of a place, of none, or of a thing of the trade."""
    if not any(lattice.pieces[i].form == "word" for i in run):
        return False
    if squeeze(lattice.original(run[0], run[-1] + 1)) in column_words().cells:
        return True
    return any(e.how == "exact" and e.kind in _TOLD for i in run for e in lattice.edges[i] if e.end <= run[-1] + 1)


def _bracketed_codes(lattice: Lattice, run: Sequence[int], codes: dict[str, tuple[int, int]], skip: set[int]) -> None:
    found = bracketed(lattice, run)
    if found is None:
        return
    for i, a, b in found[1]:
        codes[lattice.pieces[i].text] = (a, b)
    last = found[1][-1][2]
    skip.update(i for i in run if found[0] <= i <= last)


def _match(words: ColumnWords, tokens: list[tuple[int, str]], t: int) -> tuple[HeadWord | None, int]:
    """The longest known words at token t; of two meanings the head's."""
    for n in range(min(words.longest.get(tokens[t][1], 0), len(tokens) - t), 0, -1):
        found = words.heads.get(tuple([x for _, x in tokens[t : t + n]]))
        if found:
            return found[0], t + n
    return None, t


def _sense(lattice: Lattice, i: int, tokens: list[tuple[int, str]], t: int) -> tuple[HeadWord | None, int]:
    """What the other word files know (damaged and misspelt words too)."""
    for e in sorted(lattice.edges[i], key=lambda e: (-e.end, e.cost)):
        end = t
        while end < len(tokens) and tokens[end][0] < e.end:
            end += 1
        if e.kind in _KINDS and e.cost < 0.9:
            return HeadWord("head", _KINDS[e.kind]), end
        if e.kind in _UNITS:
            return HeadWord("unit", _UNITS[e.kind]), end
        if e.kind in _FINDINGS and e.how == "exact":
            return HeadWord("finding", f"{e.kind}|{e.means}"), end
    return None, t


_NODE_WORDS = _COMMON.words("node")
_ONE_NODE = _LISTED.words("one_node")
_PER = _LISTED.words("per")
_SWEEPS = 2
_SHORT_SWEEPS = _LISTED.words("short_sweeps")
_TOPS = frozenset({"TOP", "UPTOP", "LOW", "TOPSOUND"})
_FIRST_NODE = _LISTED.ordered("first_node")
_PARTED = frozenset("(),;:[]")
_FEWEST_CODES = 2
_LONGEST_CODE = 2  # letters of a code in a bracket
_NO_CODES = _LISTED.words("no_codes")
_TOLD = _TOPS | {
    "NO",
    "NONE",
    "NOT",
    "FLOWER",
    "POD",
    "SEED",
    "BUD",
    "ROLLED",
    "OPEN",
    "BELOWTOP",
    "UNI",
    "BROWN",
    "R",
    "V",
}


def _place(lattice: Lattice, tokens: list[tuple[int, str]], t: int) -> tuple[Phrase, int] | None:
    """A place of the plant said in a head: `upper four nodes`, `(4 upper nodes)`, `on the top 4`."""
    i = tokens[t][0]
    kinds = lattice.kinds(i)
    nth = "ORD" in kinds  # seed, 3rd node from top
    if not nth and kinds.isdisjoint(_TOPS) and not ("INT" in kinds and "TOP" in lattice.kinds(i + 1)):
        return None
    last = tokens[-1][0]
    best: Phrase | None = None
    for p in phrases_at(lattice, i):
        told = p.form in _TOP_PLACES or (nth and p.form == "ord_down")
        if p.rule == "place" and told and p.end <= last + 1 and (best is None or p.end > best.end):
            best = p
    if best is None and t + 1 < len(tokens) and any(e.kind == "POD" for e in lattice.edges[tokens[t + 1][0]]):
        bare = next((p for p in phrases_at(lattice, i) if p.form == "bare_top" and p.end == i + 1), None)
        best = bare._replace(form="up_top") if bare is not None else None  # Top pods: 1/4, 3/8
    if best is None or best.form == "main_stem":
        return None
    if best.form == "up_top":  # on top four nodes, in the top four
        inside = [x for x in range(t + 1, len(tokens)) if tokens[x][0] < best.end]
        places = [_place(lattice, tokens, x) for x in inside]
        longer = next((x for x in places if x is not None and x[0].end > best.end), None)
        if longer is not None:
            return longer
    end = t + 1
    while end < len(tokens) and i < tokens[end][0] < best.end:
        end += 1
    return best, end
