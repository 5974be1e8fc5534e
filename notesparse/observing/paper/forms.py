"""A form filled in line by line: `trifs (3 plants)? 7, 8, 7`, `how big? 5 mm`, `on plant 2? none` (guide 4.7, 4.19).

Most answers read like prose. Here stand those that need the question: a question about what was asked before, a count
of the plants looked at, a plant that the question names, and a list of values, one for each plant.
"""

from __future__ import annotations

from fractions import Fraction

from notesparse.language.cues import cue_page
from notesparse.lazy import dataclass
from notesparse.observing import leaves, organs
from notesparse.observing.draft import Entry, PlantDraft, Sighting, TallyDraft
from notesparse.observing.fold import EVIDENCE, Context
from notesparse.observing.organs import read_length
from notesparse.reading.parse import phrases_at
from notesparse.text.lattice import Lattice

_COMMON = cue_page("shared")
_LISTED = cue_page("paper/forms")

_ASKS = {"?", "="}
FEWEST = 3  # lines of a form
_NO = _LISTED.words("no")
_YES = _LISTED.words("yes")
_SIZE = _LISTED.words("size")
_WHERE = _LISTED.words("where")
_SAMPLE = _LISTED.words("sample")
_LABEL_WORDS = frozenset({"PLANT", "PLETTER", "HASH", "NUMBERW", "NODOT"})
_ORGAN = {"FLOWER": "flowers", "POD": "pods", "SEED": "seeds", "BEAN": "seeds", "TRIF": "trifoliates", "NODES": "nodes"}
_OTHER = {
    "INSECT",
    "DISEASE",
    "WEED",
    "DAMAGE",
    "DEFOL",
    "STANDWORD",
    "SOILWORD",
    "SOILSTATE",
    "WEATHER",
    "OTHERFIND",
    "LEAFTURN",
    "LEAFDROP",
    "HEIGHTWORD",
    "PLANTED",
    "VARIETY",
    "ROWS",
    "GROUP",
    "FIELDCUE",
    "EMERGED",
    "R",
    "V",
    "STAGENAME",
}
_ASKING = _LISTED.words("asking")


@dataclass(frozen=True, slots=True)
class Line:
    """A line of a form: the question's pieces [start, sep), the mark at `sep`, the answer's pieces [answer, end)."""

    start: int
    sep: int
    answer: int
    end: int


def form_lines(lattice: Lattice) -> dict[int, Line]:
    """The lines of a form by their first piece; none where the note is no form."""
    pieces = lattice.pieces
    out: dict[int, Line] = {}
    start = 0
    for i in range(len(pieces) + 1):
        if i < len(pieces) and pieces[i].form != "nl":
            continue
        marks = [k for k in range(start + 1, i - 1) if pieces[k].text in _ASKS]
        if marks and marks[0] - start <= 14 and len(marks) == 1:
            out[start] = Line(start, marks[0], marks[0] + 1, i)
        start = i + 1
    if len(out) < FEWEST:
        return {}
    for line in out.values():
        for k in range(line.start, line.sep):
            if pieces[k].text in _ASKING and not lattice.edges[k]:
                lattice.filler[k] = lattice.known[k] = True
    return out


def _kinds(lattice: Lattice, a: int, b: int) -> set[str]:
    return {e.kind for k in range(a, b) for e in lattice.edges[k] if e.how == "exact" and e.end <= b}


def _texts(lattice: Lattice, a: int, b: int) -> list[str]:
    return [lattice.pieces[k].text for k in range(a, b)]


def _number(lattice: Lattice, i: int, end: int) -> tuple[int, int] | None:
    if i >= end:
        return None
    fit = [e for e in lattice.edges[i] if e.kind == "INT" and e.how == "number" and e.end <= end]
    if not fit:
        return None
    e = max(fit, key=lambda e: e.end)
    return int(e.means), e.end


_FOR_LONE_NUMBER = _LISTED.words("for_lone_number")


def _lone_number(lattice: Lattice, line: Line) -> int | None:
    """The answer where it is one number, with a dot or a word for plants behind it at most."""
    got = _number(lattice, line.answer, line.end)
    if got is None:
        return None
    rest = [t for t in _texts(lattice, got[1], line.end) if t not in _FOR_LONE_NUMBER]
    return got[0] if not rest else None


def _values(lattice: Lattice, line: Line) -> list[int] | None:
    """`7, 8, 7`: the answer where it is two whole numbers or more and nothing else."""
    out: list[int] = []
    k = line.answer
    while k < line.end:
        if lattice.pieces[k].text in {",", "/", "and", "&", ";"}:
            k += 1
            continue
        got = _number(lattice, k, line.end)
        if got is None:
            return None
        out.append(got[0])
        k = got[1]
    return out if len(out) >= 2 else None


def _signs(lattice: Lattice, line: Line) -> list[bool] | None:
    """`no no yes`: a sign for each plant."""
    said = [t for t in _texts(lattice, line.answer, line.end) if t not in {",", "/", ";", "."}]
    if len(said) < 2 or not all(t in _NO | _YES for t in said):
        return None
    return [t in _YES for t in said]


def _label(lattice: Lattice, line: Line) -> tuple[str, int, int] | None:
    """The plant that the question names: (label, start, end)."""
    for k in range(line.start, line.sep):
        ends = [e.end for e in lattice.edges[k] if e.how == "exact" and e.kind in _LABEL_WORDS]
        if not ends:
            continue
        at = max(ends)
        while at < line.sep and (lattice.pieces[at].text in {"#", "."} or _kinds(lattice, at, at + 1) & _LABEL_WORDS):
            at += 1  # plant no. 5
        got = _number(lattice, at, line.sep) if at < line.sep else None
        if got is not None:
            return str(got[0]), k, got[1]
    return None


def _organ(lattice: Lattice, line: Line) -> str | None:
    kinds = _kinds(lattice, line.start, line.sep)
    if "BROWN" in kinds or ("GREEN" in kinds and "POD" in kinds):
        return "brown"
    for kind in ("TRIF", "NODES", "FLOWER", "SEED", "BEAN", "POD"):
        if kind in kinds:
            return _ORGAN[kind]
    return None


def _stage_of(ctx: Context, line: Line, organ: str) -> tuple[str, bool] | None:
    """The stage that plants counted under this question have, and whether the question turns it round."""
    lattice = ctx.lattice
    kinds = _kinds(lattice, line.start, line.sep)
    words = set(_texts(lattice, line.start, line.sep))
    turned = bool(kinds & {"NO", "NONE", "NOT"}) and "nothing" not in words
    top = bool(words & {"top", "upper", "uppermost"})
    if organ == "flowers":
        return ("R2" if top and words & {"2", "two", "top"} and not words & {"4", "four"} else "R1"), turned
    if organ == "pods":
        sizes = [e.means for k in range(line.start, line.sep) for e in lattice.edges[k] if e.kind in {"FRAC", "DEC"}]
        size = float(max(sizes)) if sizes else 0.0
        return ("R4" if size >= float(Fraction(3, 4)) or kinds & {"FLAT"} else "R3"), turned
    if organ == "seeds":
        return ("R6" if "TOUCHING" in kinds else "R5"), turned
    if organ == "brown":
        return ("R8" if kinds & {"EVERYW", "PCT"} or words & {"95", "all", "every"} else "R7"), turned
    return None


def _open_again(ctx: Context, whats: set[str]) -> list[Sighting]:
    """What the last answers said of these organs, opened for one more answer."""
    plants = ctx.plants or (ctx.visit.plants[-1:] if ctx.visit is not None else [])
    out: list[Sighting] = []
    for p in plants:
        last = next((s for s in reversed(p.sightings) if s.what in whats and s.present), None)
        if last is not None:
            out.append(last)
    return out


def _all_plants(ctx: Context) -> list[PlantDraft]:
    return [p for p in ctx.visit.plants if not p.dropped] if ctx.visit is not None else []


_FOR_TAKE = _LISTED.words("for_take")
_FOR_TAKE_2 = _COMMON.words("looked") | _COMMON.words("pulled")


def take(ctx: Context, line: Line) -> int | None:
    """Read as much of the line as needs its question; where prose goes on, or None: all of it is prose."""
    lattice = ctx.lattice
    question = set(_texts(lattice, line.start, line.sep))
    kinds = _kinds(lattice, line.start, line.sep)
    organ = _organ(lattice, line)
    first = lattice.pieces[line.answer].text
    span = ctx.span(line.start, line.end)
    label = _label(lattice, line)
    if kinds & _OTHER and label is None:  # plt 1? is no day of planting
        ctx.form_aside = line.end
    if kinds & _OTHER and organ in {None, "seeds", "brown"} and "POD" not in kinds:
        return None
    number = _lone_number(lattice, line)
    many = bool(question & _FOR_TAKE)
    if (
        organ is None
        and label is None
        and number is not None
        and question & _SAMPLE
        and (many or question & _FOR_TAKE_2)
    ):
        ctx.here()
        ctx.leave_plants()
        ctx.sample, ctx.sample_visit = number, len(ctx.visits)
        ctx.mark(line.start, line.end, EVIDENCE)
        return line.end
    sample = ctx.sample if ctx.sample_visit == len(ctx.visits) else None
    if (
        organ is not None
        and label is None
        and number is not None
        and sample is not None
        and 0 <= number <= sample
        and organ not in {"trifoliates", "nodes"}
    ):
        got = _stage_of(ctx, line, organ)
        if got is not None:
            what, turned = got
            t = TallyDraft(what, sample - number if turned else number, sample, None, span)
            ctx.here().tallies.append(t)
            ctx.mark(line.start, line.end, EVIDENCE)
            return line.end
    if label is not None:
        return _of_plant(ctx, line, label, organ)
    if organ in {"trifoliates", "nodes"}:
        values = _values(lattice, line)
        if values is not None or number is not None:
            return _counts(ctx, line, str(organ), values if values is not None else [int(number or 0)])
    if organ in {"flowers", "pods", "seeds"}:
        signs = _signs(lattice, line)
        if signs is not None:
            plants = _plants(ctx, line, len(signs))
            for p, sign in zip(plants, signs, strict=True):
                ctx.plants, ctx.explicit = [p], True
                organs.look(ctx, str(organ), sign, span)
            ctx.plants = plants
            ctx.mark(line.start, line.end, EVIDENCE)
            return line.end
        told = _texts(lattice, line.answer, line.end)
        if (
            first in _NO
            and (told[1:2] in (["on"], ["of"]) or (question & {"any", "all", "each"} and len(told) == 1))
            and len(_all_plants(ctx)) > 1
        ):
            ctx.plants = _all_plants(ctx)
            organs.look(ctx, str(organ), False, span)
            ctx.mark(line.start, line.end, EVIDENCE)
            return line.end
        answered = _of_the_plant_above(ctx, line, str(organ), first)
        if answered is not None:
            return answered
    if organ == "brown" and "PCT" in kinds and number is not None and number <= 100:
        plants = ctx.plants or ctx.begin([ctx.next_label()], span, named=False)
        for p in plants:
            p.put("mature_pods_percent", float(number), span)
        ctx.last_what = "mature"
        ctx.mark(line.start, line.end, EVIDENCE)
        return line.end
    if (
        organ == "brown"
        and sample is None
        and (first in _NO | _YES or _number(lattice, line.answer, line.end) is not None)
    ):
        ctx.plants = ctx.plants or ctx.begin([ctx.next_label()], span, named=False)
        ctx.mark(line.start, line.answer, EVIDENCE)
        return _brown(ctx, line, ctx.plants[-1])
    if (
        kinds & {"TOP", "LAST"}
        and kinds & {"OPEN", "ROLLED"}
        and organ in {None, "trifoliates"}
        and first in _NO | _YES
        and not kinds & {"POD", "FLOWER"}
    ):
        leaves.put(ctx, "top_leaf", "unrolled" if (first in _YES) == ("ROLLED" not in kinds) else "rolled", span)
        ctx.mark(line.start, line.end, EVIDENCE)
        return line.end
    return _asked_again(ctx, line, organ, question, kinds, first)


def _of_the_plant_above(ctx: Context, line: Line, organ: str, first: str) -> int | None:
    """`plant 1 tf? 10`, and under it `bloom? top node`, `bloom? none`: of the plant that was named above; where the answer
    goes on."""
    p = ctx.plants[-1] if len(ctx.plants) == 1 and ctx.explicit else None
    if p is None or p.line == ctx.line or any(s.what == organ for s in p.sightings):
        return None
    span = ctx.span(line.start, line.sep)
    if first in _NO and line.end == line.answer + 1:
        organs.look(ctx, organ, False, ctx.span(line.start, line.end))
        ctx.mark(line.start, line.end, EVIDENCE)
        return line.end
    said = phrases_at(ctx.lattice, line.answer)
    if any(ph.form in {"fl_buds", "fl_past", "fl_no", "pod_no", "seed_no"} for ph in said):
        ctx.mark(line.start, line.answer, EVIDENCE)
        return line.answer  # bloom? buds only
    if not any(ph.rule in {"place", "length"} for ph in said):
        return None
    ctx.close()
    organs.look(ctx, organ, True, span)
    ctx.mark(line.start, line.answer, EVIDENCE)
    ctx.open_end = line.answer
    return line.answer


def _asked_again(
    ctx: Context, line: Line, organ: str | None, question: set[str], kinds: set[str], first: str
) -> int | None:
    """`how big?`, `where?`, `touching?` after a line about pods, seeds or flowers."""
    lattice = ctx.lattice
    span = ctx.span(line.start, line.end)
    if question & _SIZE and (organ in {None, "pods", "seeds"}) and not kinds & {"HEIGHTWORD"}:
        opened = _open_again(ctx, {organ} if organ else {"pods", "seeds"})
        last = (
            [s for s in opened if s.what == (ctx.last_what if ctx.last_what in {"pods", "seeds"} else opened[-1].what)]
            if opened
            else []
        )
        lengths = [ph for ph in phrases_at(lattice, line.answer) if ph.rule == "length"]
        if last and lengths:
            ph = max(lengths, key=lambda p: p.end)
            length = read_length(ph, ctx.span(ph.start, ph.end))
            if length is not None:
                organs.attach_length(ctx, length, last)
                ctx.mark(line.start, ph.end, EVIDENCE)
                ctx.open, ctx.open_end = last, ph.end
                return ph.end
        return None
    if (
        ("TOUCHING" in kinds or question & {"filling", "filled", "full"})
        and organ in {None, "seeds"}
        and "POD" not in kinds
        and first in _NO | _YES
    ):
        opened = _open_again(ctx, {"seeds"})
        plants = ctx.plants or _all_plants(ctx)[-1:]
        if not opened and plants and ctx.last_what in {"pods", "seeds"}:
            opened = organs.look(ctx, "seeds", True, span)
        for s in opened:
            s.fill = Entry("full" if first in _YES else "partial", span)
            s.spans.append(span)
        if opened:
            ctx.mark(line.start, line.end, EVIDENCE)
            return line.end
        return None
    if question & _WHERE and organ is None:
        opened = _open_again(
            ctx, {ctx.last_what} if ctx.last_what in {"pods", "seeds", "flowers"} else {"pods", "seeds", "flowers"}
        )
        places = [ph for ph in phrases_at(lattice, line.answer) if ph.rule == "place"]
        if not places and "node" in question:
            got = _number(lattice, line.answer, line.end)
            places = [] if got is None else places
        if opened and places:
            ctx.mark(line.start, line.answer, EVIDENCE)
            ctx.open, ctx.open_end = opened, line.answer
            ctx.plants = ctx.plants or _all_plants(ctx)[-1:]
            return line.answer
    return None


def _plants(ctx: Context, line: Line, n: int) -> list[PlantDraft]:
    """The n plants that a list of answers is about: those of an earlier list, or new ones."""
    span = ctx.span(line.start, line.end)
    have = _all_plants(ctx)
    if len(have) == n:
        return have
    return ctx.begin([str(k) for k in range(1, n + 1)], span)


def _counts(ctx: Context, line: Line, key: str, values: list[int]) -> int | None:
    span = ctx.span(line.start, line.end)
    if len(values) == 1:
        if ctx.plants and any(key in p.facts for p in ctx.plants):
            return None
        used = leaves.count(ctx, key, values[0], span) is not None
    else:
        plants = _plants(ctx, line, len(values))
        used = True
        for p, value in zip(plants, values, strict=True):
            ctx.plants, ctx.explicit = [p], True
            used = leaves.count(ctx, key, value, span) is not None and used
        ctx.plants = plants
        ctx.close()
    if not used:
        return None
    ctx.mark(line.start, line.end, EVIDENCE)
    return line.end


def _of_plant(ctx: Context, line: Line, label: tuple[str, int, int], organ: str | None) -> int | None:
    """`brown pods on plant 1? 1 of them`, then `on plant 2? none`: the organ stays what it was."""
    lattice = ctx.lattice
    name, _, _ = label
    organ = organ or ctx.form_organ
    ctx.form_organ = organ
    if organ is None:
        return None
    span = ctx.span(line.start, line.end)
    had = ctx.visit.plant(name) if ctx.visit is not None else None
    if had is not None:
        ctx.plants, ctx.explicit = [had], True
        ctx.close()
    else:
        ctx.begin([name], span)
    ctx.mark(line.start, line.answer, EVIDENCE)
    p = ctx.plants[-1]
    first = lattice.pieces[line.answer].text
    got = _number(lattice, line.answer, line.end)
    if organ in {"trifoliates", "nodes"}:
        if got is None or leaves.count(ctx, organ, got[0], span) is None:
            return line.answer
        ctx.mark(line.answer, got[1], EVIDENCE)
        return got[1]
    if organ == "brown":
        return _brown(ctx, line, p)
    if first in _NO | _YES:
        organs.look(ctx, organ, first in _YES, span)
        ctx.mark(line.answer, line.answer + 1, EVIDENCE)
        ctx.open_end = line.answer + 1
        return line.answer + 1
    if any(ph.rule in {"place", "length"} for ph in phrases_at(lattice, line.answer)):
        organs.look(ctx, organ, True, ctx.span(line.start, line.sep))
        ctx.open_end = line.answer
    return line.answer


_BEHIND_BROWN = _LISTED.words("behind_brown")


def _brown(ctx: Context, line: Line, p: PlantDraft) -> int:
    """How many pods of a plant are of mature colour: `1 of them`, `none`, `12 of 30`."""
    lattice = ctx.lattice
    span = ctx.span(line.start, line.end)
    first = lattice.pieces[line.answer].text
    got = _number(lattice, line.answer, line.end)
    shares = [ph for ph in phrases_at(lattice, line.answer) if ph.form in {"n_of_m", "n_slash_m", "pct"}]
    if shares:
        ph = max(shares, key=lambda q: q.end)
        n = [float(e.means) for _, e in ph.path if e.kind in {"INT", "DEC"}]
        p.put("mature_pods_percent", round(100 * n[0] / n[1], 1) if ph.form != "pct" and len(n) > 1 else n[0], span)
        end = ph.end
    elif first in _NO:
        p.put("mature_pods", "none", span)
        end = line.answer + 1
    elif (got is not None and got[0] >= 1) or first in _YES:
        p.put("mature_pods", "one", span)
        end = got[1] if got is not None else line.answer + 1
    else:
        return line.answer
    while end < line.end and lattice.pieces[end].text in _BEHIND_BROWN:
        end += 1
    ctx.mark(line.answer, end, EVIDENCE)
    ctx.last_what = "mature"
    return end
