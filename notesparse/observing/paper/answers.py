"""Question and answer lines that prose does not read: `fl? y`, `brown pod on the main stem? 0` (guide 4.19, 4.21)."""

from __future__ import annotations

from collections.abc import Sequence

from notesparse.language.columns import column_words, squeeze
from notesparse.language.cues import cue_page
from notesparse.lazy import dataclass
from notesparse.observing.draft import TallyDraft
from notesparse.observing.fold import EVIDENCE, Context, numbers_of
from notesparse.observing.paper.cells import Reader
from notesparse.observing.paper.heads import ORGANS, Column, read_heads
from notesparse.observing.stages import read_stage
from notesparse.reading.parse import phrases_at
from notesparse.text.columns import Line
from notesparse.text.lattice import Lattice

_LISTED = cue_page("paper/answers")

_STAGE = {"flowers": "R1", "pods": "R3", "seeds": "R5", "brown": "R7"}
_NO_FURTHER = _LISTED.words("no_further")
_WORDS = {"yes", "no", "x", "nothing", "unreadable"}


@dataclass(frozen=True, slots=True)
class Answer:
    """A question's column, or the stage that it asks for, with its answer at pieces [start, end), and the number of plants
    looked at, if it was said."""

    column: Column | None
    start: int
    end: int
    sample: int | None
    stage: str | None = None


def find_answers(lattice: Lattice, lines: Sequence[Line], taken: set[int]) -> list[tuple[Line, Answer]]:
    """The lines of a form whose answer is a sign, or a count of the plants that were looked at."""
    out: list[tuple[Line, Answer]] = []
    sample: int | None = None
    for line in lines:
        if line.blank or line.number in taken or line.end - line.start > 24:
            continue
        for ph in phrases_at(lattice, line.start):
            if ph.rule == "sampled" and ph.end == line.end and numbers_of(ph):
                sample = numbers_of(ph)[0]
        shared = _of_so_many(lattice, line) or (_at_a_stage(lattice, line, sample) if sample is not None else None)
        if shared is not None:
            out.append((line, shared))
            continue
        texts = [lattice.pieces[i].text for i in range(line.start, line.end)]
        if texts.count("?") != 1 or texts[0] == "?" or texts[-1] == "?":
            continue
        q = line.start + texts.index("?")
        got = read_heads(lattice, [range(line.start, q)])
        if len(got) != 1 or not got[0].known or got[0].unknown or got[0].label or len(got[0].what) != 1:
            continue
        column = got[0]
        sign = column_words().cells.get(squeeze(lattice.original(q + 1, line.end)))
        first = lattice.pieces[q + 1]
        counted = (
            sample is not None
            and column.what[0] in _STAGE
            and line.end == q + 2
            and first.form == "int"
            and int(first.text) <= sample
        )
        if counted or (
            sample is None and sign in _WORDS and column.what[0] in (*ORGANS, "brown") and first.form == "word"
        ):
            out.append((line, Answer(column, q + 1, line.end, sample if counted else None)))
    return out


def _of_so_many(lattice: Lattice, line: Line) -> Answer | None:
    """`Plants in bloom (of 10): 0`: a count of the plants whose number stands in the question."""
    texts = [lattice.pieces[i].text for i in range(line.start, line.end)]
    of = next((k for k, t in enumerate(texts) if t == "of" and texts[k - 1 : k] == ["("]), 0)
    if not of or len(texts) != of + 5 or texts[of + 2] != ")" or texts[of + 3] not in {":", "?", "="}:
        return None
    if not (texts[of + 1].isdigit() and texts[of + 4].isdigit() and int(texts[of + 4]) <= int(texts[of + 1])):
        return None
    got = [c for c in read_heads(lattice, [range(line.start, line.start + of - 1)]) if not c.label]
    if len(got) != 1 or got[0].unknown or len(got[0].what) != 1 or got[0].what[0] not in _STAGE:
        return None
    return Answer(got[0], line.end - 1, line.end, int(texts[of + 1]))


def _at_a_stage(lattice: Lattice, line: Line, sample: int) -> Answer | None:
    """`still R5? 3`, `only R2? 4`: how many of the plants that were looked at are at that stage and no further."""
    last = line.end - 1
    if lattice.at(line.start) not in _NO_FURTHER or lattice.at(last - 1) != "?" or lattice.pieces[last].form != "int":
        return None
    for ph in phrases_at(lattice, line.start + 1):
        stage = read_stage(ph) if ph.form in {"r1", "r_query"} and ph.end + (ph.form == "r1") == last else None
        if stage is not None and int(lattice.pieces[last].text) <= sample:
            return Answer(None, last, line.end, sample, str(stage["r"]))
    return None


def read_answer(ctx: Context, start: int, answer: Answer, reader: Reader) -> None:
    """A count is a tally of the sample; a sign is said of the plant that is spoken of."""
    span = ctx.span(start, answer.end)
    ctx.mark(start, answer.start, EVIDENCE)
    what = answer.column.what[0] if answer.column is not None else ""
    if answer.sample is not None:
        ctx.mark(answer.start, answer.end, EVIDENCE)
        ctx.here().tallies.append(
            TallyDraft(
                answer.stage or _STAGE[what],
                int(ctx.lattice.pieces[answer.start].text),
                answer.sample,
                None,
                span,
                exclusive=answer.stage is not None,
            )
        )
        return
    if answer.column is None:
        return
    plants = ctx.plants or ctx.begin([ctx.next_label()], span, named=False)
    named = ctx.explicit
    reader.cell(answer.column, 0, answer.start, answer.end, plants, None, {})
    ctx.plants, ctx.explicit = plants, named
