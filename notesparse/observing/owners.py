"""Plants named behind what is said of them: `no flowers on plants A and B`, `14 trifoliates on number one` (guide
4.7)."""

from __future__ import annotations

from collections.abc import Sequence

from notesparse.language.cues import cue_page
from notesparse.language.lists import name_words
from notesparse.lazy import dataclass
from notesparse.observing.draft import PlantDraft
from notesparse.observing.fold import EXCEPT, Context
from notesparse.observing.series import figure_at
from notesparse.text.spoken import DOING

_LISTED = cue_page("observing/owners")
_COMMON = cue_page("shared")

_BEFORE = _COMMON.words("of")
_HOLDS = {"SEED", "BEAN"}
_JOIN = _COMMON.words("and") | {"or"}
_RUN = _COMMON.words("through")
_NONE = _COMMON.words("none") | {"no", "not"}
_OF_SO_MANY = _LISTED.words("of_so_many")
_SAYS_PLANT = {"PLANT", "PLETTER", "NUMBERW", "HASH", "NODOT"}


@dataclass(frozen=True, slots=True)
class Owners:
    """The plants named at pieces [start, end), which are the owners of what stands before."""

    start: int
    end: int
    plants: list[PlantDraft]


_AFTER = _LISTED.words("after")


def _label(ctx: Context, i: int) -> tuple[str, int] | None:
    if i + 1 < len(ctx.lattice.pieces) and any(e.kind in {"HASH", "PLANT", "PLETTER"} for e in ctx.lattice.edges[i]):
        i += 1  # #2 & #5
    if i + 2 < len(ctx.lattice.pieces) and [p.text for p in ctx.lattice.pieces[i : i + 2]] == ["no", "."]:
        i += 2  # no. 2 and no. 5
    if i >= len(ctx.lattice.pieces):
        return None
    nth = _ordinal(ctx, i)
    if nth is not None:
        return nth
    edges = [e for e in ctx.lattice.edges[i] if e.kind == "INT"]
    if edges:
        e = max(edges, key=lambda e: e.end)
        return str(e.means), e.end
    p = ctx.lattice.pieces[i]
    if p.form == "word" and len(p.text) == 1 and p.text.isalpha():
        return ctx.lattice.original(i, i + 1), i + 1
    return None


def _ordinal(ctx: Context, i: int) -> tuple[str, int] | None:
    """`third plant`: the label that it names, and where it ends. `the first one`, `the next one` are plants only where
    none was named before what is said of it."""
    pieces, edges = ctx.lattice.pieces, ctx.lattice.edges
    if i + 1 >= len(pieces):
        return None
    if pieces[i].text == "next" and pieces[i + 1].text in {"plant", "plt", "one"} and ctx.visit is not None:
        return (ctx.next_label(), i + 2) if any(not p.dropped for p in ctx.visit.plants) else None
    for e in edges[i]:
        if e.kind == "ORD" and e.end < len(pieces) and pieces[e.end].text in {"plant", "plt"}:
            return str(e.means), e.end + 1
        if e.kind == "ORD" and e.end < len(pieces) and pieces[e.end].text == "one" and _none_named(ctx):
            return str(e.means), e.end + 1
    return None


def _none_named(ctx: Context) -> bool:
    """No plant of the visit was named before what is said of it."""
    return ctx.visit is None or all(p.dropped or p.named_behind for p in ctx.visit.plants)


def may_be_new(ctx: Context, labels: Sequence[str]) -> bool:
    """Whether plants of these numbers may be told of now: with those before them they count up from one, or so many were
    counted."""
    live = {p.label for p in ctx.living()}
    if not all(x.isdigit() for x in (*labels, *live)):
        return False
    numbers = sorted({int(x) for x in (*labels, *live)})
    up = numbers == list(range(1, len(numbers) + 1)) and bool(live)
    return up or (ctx.sample is not None and 0 < numbers[0] and numbers[-1] <= ctx.sample)


def ends(ctx: Context, i: int) -> bool:
    while i < len(ctx.lattice.pieces) and ctx.lattice.pieces[i].text in _AFTER:
        i += 1  # flowers on 1 and 4 only
    if i >= len(ctx.lattice.pieces) or ctx.lattice.pieces[i].text in name_words().hums:
        return True
    p = ctx.lattice.pieces[i]
    if p.form == "mark" and p.text in ".,":  # no point or comma of a number
        return i + 1 >= len(ctx.lattice.pieces) or not (
            ctx.lattice.pieces[i + 1].glued and ctx.lattice.pieces[i + 1].form != "nl"
        )
    return p.form == "nl" or (p.form == "mark" and p.text in ";!?)")


def listed(ctx: Context, i: int) -> list[tuple[list[str], int]]:
    """The lists of labels that begin at piece i, each with its end."""
    first = _some_labels(ctx, i)
    if first is None:
        return []
    labels, at = list(first[0]), first[1]
    out = [(labels[:], at)]
    pieces = ctx.lattice.pieces
    while at < len(pieces) and (
        pieces[at].text in _JOIN | _RUN or figure_at(ctx.lattice, at) is not None or _marked_next(ctx, at)
    ):
        run = pieces[at].text in _RUN
        if not _marked_next(ctx, at):
            at += figure_at(ctx.lattice, at) is None  # blooms on 1 3 5; on three four and five
        elif pieces[at].text == "/":
            at += 1
        while at < len(pieces) and pieces[at].text in _JOIN and not run:
            at += 1
        nxt = _some_labels(ctx, at)
        if nxt is None:
            break
        if run and labels[-1].isdigit() and nxt[0][0].isdigit() and 0 < int(nxt[0][0]) - int(labels[-1]) < 60:
            labels += [str(n) for n in range(int(labels[-1]) + 1, int(nxt[0][0]))]
        labels += nxt[0]
        at = nxt[1]
        out.append((labels[:], at))
    return out


def _marked_next(ctx: Context, i: int) -> bool:
    """`fl on #2 #3 #6`, `pods on p1 p4`, `#2/#4`: the next plant, with its mark again and nothing or a stroke before it."""
    stroke = i + 1 < len(ctx.lattice.pieces) and ctx.lattice.at(i) == "/"
    return i > 1 and _marked_label(ctx, i - 2) and _marked_label(ctx, i + stroke)


def _marked_label(ctx: Context, i: int) -> bool:
    """`#2`, `p4`, `pl 1` at piece i."""
    pieces = ctx.lattice.pieces
    if i + 1 >= len(pieces) or pieces[i + 1].form != "int":
        return False
    marked = any(e.kind in {"HASH", "PLETTER", "PLANT"} for e in ctx.lattice.edges[i])
    return marked and (pieces[i + 1].glued or pieces[i].text in {"pl", "plt"})


def _all_marked(ctx: Context, a: int, b: int) -> bool:
    """`fl on #2 #4 pods on #1 #3`: each with its mark, so that no count stands among them."""
    pieces = ctx.lattice.pieces
    return a < b and all(
        i == a or _marked_label(ctx, i - 1) or _marked_label(ctx, i) or pieces[i].text == "/" for i in range(a, b)
    )


def _some_labels(ctx: Context, i: int) -> tuple[list[str], int] | None:
    """The label at piece i, or those that were seen there as one of a series: `3 and 4`."""
    bare = next((e for e in ctx.lattice.edges[i] if e.kind == "BARE"), None) if i < len(ctx.use) else None
    if bare is not None:
        end = bare.end - (ctx.lattice.at(bare.end - 1) in {".", ",", ":", ")"})
        return list(bare.means), end
    one = _label(ctx, i)
    return ([one[0]], one[1]) if one is not None else None


def _one_only(ctx: Context, start: int, on: int, end: int) -> bool:
    """`flowers on 3 only`, a sentence of its own: one plant, and no node."""
    pieces = ctx.lattice.pieces
    alone = start == 0 or pieces[start - 1].form == "nl" or pieces[start - 1].text == "." or _behind_owners(ctx, start)
    return pieces[on].text == "on" and (alone or (end < len(pieces) and pieces[end].text in {"only", "alone"}))


def _behind_owners(ctx: Context, start: int) -> bool:
    """`blooming on 1 and 2, nothing open on 3`: the clause before ends with plants too."""
    pieces = ctx.lattice.pieces
    last = start - 1 - (start > 0 and pieces[start - 1].text == ",")
    i = last
    while i > 0 and (figure_at(ctx.lattice, i) is not None or pieces[i].text in _JOIN):
        i -= 1
    return 0 < i < last and pieces[i].text == "on"


def _after_the_word(ctx: Context, at: int) -> tuple[int, bool]:
    """Past `plant`, `number`, `#`: where the labels begin, and whether a word said that they are plants."""
    pieces, said = ctx.lattice.pieces, False
    while at < len(pieces) and (
        any(e.kind in _SAYS_PLANT for e in ctx.lattice.edges[at]) or pieces[at].text in {"the", "both"}
    ):
        said = said or pieces[at].text != "the"
        at += 1
        if at < len(pieces) and pieces[at - 1].text in {"no", "nos"} and pieces[at].text == ".":
            at += 1
    return at, said


def _line_closes_with_a_label(ctx: Context, start: int) -> bool:
    """`8 trifs p1, 9 trifs p2`, `no seed pl 1; seed felt pl 3 and 4`: labels with nothing behind them end the sentence."""
    pieces, soft = ctx.lattice.pieces, ctx.lattice.soft
    ends = (
        i for i in range(start, len(pieces)) if pieces[i].form == "nl" or (pieces[i].text == "." and soft[i] is None)
    )
    end = next(ends, len(pieces))
    while end > start and pieces[end - 1].form == "mark":
        end -= 1
    for i in range(max(start, end - _LONGEST_LIST), end):
        at, said = _after_the_word(ctx, i)
        behind = [pieces[k].text for k in range(at, end)]
        joins = _LONGEST_LIST if _RUN & set(behind) else sum(word in _JOIN for word in behind)  # p1 100, p2 97: no list
        if said and at > i and any(stop == end and len(some) <= joins + 1 for some, stop in listed(ctx, at)):
            return True
    return False


_LONGEST_LIST = 8  # pieces


def _known_alone(ctx: Context, i: int, known: dict[str, PlantDraft]) -> bool:
    """`no fl p1 p3, pods p2`: at piece i plants with their sign, all of them told of before, end the clause."""
    if not _marked_label(ctx, i) or _marked_label(ctx, i - 2):
        return False
    lists = [labels for labels, end in listed(ctx, i) if ends(ctx, end)]
    return any(all(x in known and not known[x].empty for x in labels) for labels in lists)


def _chained(ctx: Context, end: int, behind: bool) -> bool:
    """`eight trifs on plant one nine on plant two ten on plant three`, with no stops between: the next plant named is
    named behind what is said of it too, or there is no next one and those before were named so."""
    pieces = ctx.lattice.pieces
    for k in range(end, min(end + 14, len(pieces))):
        if pieces[k].form == "nl":
            break
        if any(e.kind in {"PLANT", "PLETTER", "HASH"} for e in ctx.lattice.edges[k]):
            return pieces[k - 1].text in _BEFORE and k > end + 1
    return behind


def _again(ctx: Context, end: int, label: str, known: dict[str, PlantDraft]) -> bool:
    """`V5 on 1, V6 on 2`: figures that count on from 1, one behind each saying, are plants."""
    pieces = ctx.lattice.pieces
    numbers = sorted(int(x) for x in known if x.isdigit())
    if label.isdigit() and len(numbers) == len(known) > 1 and label not in known and int(label) < numbers[-1]:
        return ends(ctx, end)  # top node on 1 & 3, 4th node on 2
    if not label.isdigit() or int(label) != len(known) + 1:
        return False
    if known and len(known) > 1 and all(str(n) in known for n in range(1, int(label))):
        return True  # V6 on 2, V5 on 3
    for k in range(end + 1, min(end + 7, len(pieces))):
        nxt = _label(ctx, k + 1) if pieces[k].text == "on" else None
        if nxt is not None:
            return (
                pieces[end].text in {",", ".", ";"}
                and nxt[0] == str(int(label) + 1)
                and (ends(ctx, nxt[1]) or pieces[nxt[1]].text in {"and", "but"})
            )
    return False


def _the_second(ctx: Context, start: int, known: dict[str, PlantDraft]) -> Owners | None:
    """`nine trifs on the first plant. eight on the second`: a figure alone, and the plant that counts on."""
    pieces, edges = ctx.lattice.pieces, ctx.lattice.edges
    counts = [e.end for e in edges[start] if e.kind == "INT"]
    shares = [e.end for end in counts if ctx.lattice.at(end) in {"of", "/"} for e in edges[end + 1] if e.kind == "INT"]
    on = next((end for end in [*counts, *shares] if ctx.lattice.at(end) == "on"), 0)  # 70 of 72 on the 2nd
    if not on or on + 2 >= len(pieces) or pieces[on + 1].text != "the":
        return None
    for e in edges[on + 2]:
        follows = e.kind == "ORD" and int(e.means) == len(known) + 1
        if follows and (ends(ctx, e.end) or pieces[e.end].text in {"and", "but", "with"}):
            made = ctx.begin([str(e.means)], ctx.span(on, e.end))
            made[0].named_behind = True
            return Owners(on, e.end, made)
    return None


def _in_them(ctx: Context, start: int, i: int, known: dict[str, PlantDraft]) -> bool:
    """`no seed in 1 or 2`, `seeds felt in plants 1 and 2`: at piece i stands `in`, and behind it plants that were told of,
    or that are called so."""
    if ctx.lattice.at(i) != "in" or not any(e.kind in _HOLDS for k in range(start, i) for e in ctx.lattice.edges[k]):
        return False
    if i + 1 < len(ctx.use) and any(e.kind in _SAYS_PLANT and e.how == "exact" for e in ctx.lattice.edges[i + 1]):
        return True
    lists = [labels for labels, end in listed(ctx, i + 1) if ends(ctx, end) and len(labels) > 1]
    return any(set(labels) <= set(known) for labels in lists)


def _stage_at(ctx: Context, i: int) -> bool:
    return i < len(ctx.lattice.pieces) and any(e.kind in {"R", "V"} for e in ctx.lattice.edges[i])


def _placed(ctx: Context, start: int, on: int) -> bool:
    """`Beans touching at the top two nodes on 1, 3 and 4`: the place on the stem is told, so that these are plants."""
    lists = [labels for labels, end in listed(ctx, on + 1) if ends(ctx, end) and len(labels) > 1]
    return bool(lists) and _noded(ctx, start, on)


def _noded(ctx: Context, start: int, on: int) -> bool:
    return any(e.kind in {"NODE", "NODES"} for k in range(start, on) for e in ctx.lattice.edges[k])


def _one_of_a_run(ctx: Context, start: int, on: int, label: str) -> bool:
    """`plants 1 thru 3: 9 trifs, bloom top node on 2`: one of the plants that were named together, the place being told."""
    run = len(ctx.plants) > 1 and any(p.label == label for p in ctx.plants)
    return run and ctx.lattice.at(on) == "on" and ctx.lattice.at(on - 1) != "not" and _noded(ctx, start, on)


_IS = _LISTED.words("is")
_PUT_RIGHT = _COMMON.words("sorry") | {"make", "mean"}


def _that_is(ctx: Context, start: int, known: dict[str, PlantDraft]) -> Owners | None:
    """`seed an eighth of an inch third node down, R5, that's plant four`: named at the end of the sentence, with marks
    before."""
    pieces, soft = ctx.lattice.pieces, ctx.lattice.soft
    for i in range(start, min(start + 40, len(pieces))):
        p = pieces[i]
        nxt = pieces[i + 1] if i + 1 < len(pieces) else p
        no = p.text in {"no", "not"} and (nxt.form == "mark" or nxt.text in _PUT_RIGHT | {"that", "thats", "this"})
        if p.form == "nl" or no or p.text in _PUT_RIGHT or (p.text in {".", ";"} and soft[i] is None):
            return None
        if any(e.kind in {"PLANT", "PLETTER"} for e in ctx.lattice.edges[i]):
            return None
        if p.text not in {"that", "thats", "this"} or i == start:
            continue
        at = i + 1
        while at < len(pieces) and pieces[at].text in _IS:
            at += 1
        first, said = _after_the_word(ctx, at)
        if not said or (at == i + 1 and p.text != "thats"):
            continue
        for labels, end in reversed(listed(ctx, first)):
            if ends(ctx, end) and len(labels) == 1 and labels[0].lower() not in known:
                made = ctx.begin(labels, ctx.span(first, end))
                made[0].named_behind = True
                return Owners(i, end, made)
    return None


def _cut_short(ctx: Context, i: int) -> bool:
    """The dot of `fl. on 1 and 2`."""
    pieces = ctx.lattice.pieces
    dot = pieces[i].text == "." and ctx.lattice.soft[i] is not None if i < len(pieces) else False
    return dot and i > 0 and pieces[i - 1].form == "word"


_LEADS_TO = _LISTED.words("leads_to")


def _told_before(ctx: Context, i: int, known: dict[str, PlantDraft]) -> Owners | None:
    """`bloom top node, plants 1 and 3.`: at piece i, at the end of a sentence of its own, plants that were told of."""
    doing = ctx.lattice.at(i) == ":" and ctx.lattice.at(i - 1) in DOING  # blooming: 1 and 3
    first = i + (ctx.lattice.at(i) == "," or doing)
    if first >= len(ctx.use):
        return None
    if not doing and not any(e.kind == "PLANT" and e.how == "exact" for e in ctx.lattice.edges[first]):
        return None
    if ctx.lattice.at(i - 1) in EXCEPT | _LEADS_TO or not ctx.lattice.known[i - 1]:
        return None  # no pods other than plant 3, unlike plant 3
    at, _ = _after_the_word(ctx, first)
    for labels, end in reversed(listed(ctx, at)):
        if ctx.lattice.at(end) in {"", ".", ";", ")"} and ends(ctx, end) and not (doing and len(labels) == 1):
            plants = [known.get(label.lower()) for label in labels]
            told = [p for p in plants if p is not None and not p.empty]
            return Owners(first, end, told) if len(told) == len(labels) else None
    return None


_BEFORE_AHEAD = _LISTED.words("before_ahead")


def ahead(ctx: Context, start: int, behind: bool = False, *, surely: bool = False) -> Owners | None:
    """The plants named at the end of the clause whose first word stands at piece `start`; those that were not named
    before begin here. `behind`: the note names its plants behind what is said of them. `surely`: what is said cannot be
    of a node, so that a figure alone is a plant."""
    visit = ctx.visit
    pieces = ctx.lattice.pieces
    known = {p.label.lower(): p for p in visit.plants if not p.dropped} if visit is not None else {}
    opens = start == 0 or pieces[start - 1].form == "nl" or pieces[start - 1].text in {".", ";"}
    nth = _the_second(ctx, start, known) if behind else None
    nth = _that_is(ctx, start, known) if nth is None and (behind or not known) else nth
    if nth is not None:
        return nth
    bare = (behind or not known or opens) and _line_closes_with_a_label(ctx, start)
    for i in range(start, min(start + 16, len(pieces))):
        if opens and i > start and (told := _told_before(ctx, i, known)) is not None:
            return told
        if (ends(ctx, i) and not (i == start + 1 and _cut_short(ctx, i))) or pieces[i].text == "(":
            return None
        preposition = pieces[i].text in _BEFORE or _in_them(ctx, start, i, known)
        if not preposition and not ((bare or _known_alone(ctx, i, known)) and i > start):
            continue
        if i > start and pieces[i - 1].text in EXCEPT | _BEFORE_AHEAD:
            return None  # no pods except on plant 3
        if i > start + 1 and pieces[i - 1].text in _NONE and pieces[i - 2].text in {"and", "but"}:
            return None  # there is a flower at the top node and none on plant 2
        at, said = _after_the_word(ctx, i + preposition)
        said = said or _ordinal(ctx, at) is not None or (preposition and not known and _placed(ctx, start, i))
        if not preposition and not (said and at > i):
            continue
        for labels, end in reversed(listed(ctx, at)):
            if len(labels) == 1 and pieces[i].text == "of" and i > start and pieces[i - 1].text in _OF_SO_MANY:
                continue  # no pods on any of 3
            said = said or (preposition and len(labels) == 1 and _again(ctx, end, labels[0], known))
            but = end < len(pieces) and pieces[end].text in {"and", "but"}
            said = said or (preposition and len(labels) == 1 and _one_of_a_run(ctx, start, i, labels[0]))
            at_place = preposition and ctx.lattice.at(end) == "at" and set(labels) <= set(known) and len(known) > 1
            said = said or at_place  # blooms on 1 at the top node
            of_two = at_place or (
                but and len(labels) > 1 and preposition and _stage_at(ctx, end + 1)
            )  # R6 on 1 and 3 and R5 on the rest
            then_none = end + but < len(pieces) and pieces[end + but].text in _NONE
            goes_on = (
                of_two
                or (then_none and len(known) > 1 and preposition)
                or (
                    said
                    and (
                        (end < len(pieces) and pieces[end].text in {"and", "but"})
                        or (
                            preposition
                            and (len(labels) == 1 or _all_marked(ctx, at, end))
                            and _chained(ctx, end, behind)
                        )
                    )
                )
            )
            if not (ends(ctx, end) or goes_on) or not (
                said or (len(known) > 1 and (surely or len(labels) > 1 or _one_only(ctx, start, i, end)))
            ):
                continue
            new = [label for label in labels if label.lower() not in known]
            if new and not said and not (preposition and len(labels) > 1 and known and may_be_new(ctx, labels)):
                continue
            made = {p.label.lower(): p for p in ctx.begin(new, ctx.span(at, end))} if new else {}
            for p in made.values():
                p.named_behind = True
            return Owners(i, end, [(known | made)[label.lower()] for label in labels])
    return None
