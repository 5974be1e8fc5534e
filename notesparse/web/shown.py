"""What the templates show: a note's marks, its words, its visits and its open question, as plain values."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from html import escape
from typing import Any

from notesparse.asking.values import MAY_BE, other_keys
from notesparse.confirming.session import Sitting, Turn
from notesparse.lazy import dataclass
from notesparse.outcome import Outcome, letter_of
from notesparse.record.lines import to_dict
from notesparse.record.status import open_keys
from notesparse.span import Span
from notesparse.staging.interval import more_plants
from notesparse.views.explain import gives, kind_of, mended
from notesparse.views.field import field as field_lines
from notesparse.views.plant_picture import plant_picture, stages
from notesparse.views.questions import makes, shared
from notesparse.views.report import plant_facts
from notesparse.views.wording import KEYS, day, many
from notesparse.web.desk import key_of


@dataclass(frozen=True, slots=True)
class Word:
    """Marked words: what they were read as, what they give, and how they were mended."""

    number: int
    words: str
    read_as: str
    gives: str
    more: tuple[str, ...]  # repairs, and what is assumed


def words(outcome: Outcome) -> list[Word]:
    """All phrases that gave something, in the order of the note."""
    out = []
    for number, step in enumerate(_used(outcome), 1):
        more = [mended(r) for r in outcome.repairs if step.span.overlaps(r.span)]
        more += [f"{a.text} (rule {a.rule})" for a in outcome.assumptions if step.span.overlaps(a.span)]
        out.append(Word(number, step.words, kind_of(step), gives(outcome, step), tuple(more)))
    return out


def _used(outcome: Outcome) -> list[Any]:
    return sorted((s for s in outcome.steps if s.used == "evidence"), key=lambda s: s.span)


def marked(outcome: Outcome, asked: Span | None = None) -> str:
    """The note as HTML: read words lead to what they say, asked ones bear a double line, unread ones dots."""
    text = outcome.note.text
    kinds = [""] * len(text)
    links = [0] * len(text)
    for start, end in outcome.evidence:
        kinds[start:end] = ["read"] * (min(end, len(text)) - start)
    for number, step in enumerate(_used(outcome), 1):
        links[step.span[0] : step.span[1]] = [number] * (step.span[1] - step.span[0])
    for kind, spans in (
        ("unread", [u.span for u in outcome.unread]),
        ("asked", [q.span for q in outcome.questions if q.answer is None]),
        ("now", [asked] if asked is not None else []),
    ):
        for start, end in spans:
            kinds[start:end] = [kind] * (min(end, len(text)) - start)
    return "".join(_pieces(text, kinds, links))


def _pieces(text: str, kinds: list[str], links: list[int]) -> Iterator[str]:
    at = 0
    while at < len(text):
        end = at + 1
        while end < len(text) and kinds[end] == kinds[at] and links[end] == links[at]:
            end += 1
        said = escape(text[at:end])
        if kinds[at] and links[at]:
            yield f'<a class="mark {kinds[at]}" href="#w{links[at]}">{said}</a>'
        elif kinds[at]:
            yield f'<mark class="mark {kinds[at]}">{said}</mark>'
        else:
            yield said
        at = end


def visits(outcome: Outcome) -> list[dict[str, Any]]:
    """Each visit: its head, its stages in sentences, how many more plants would settle them, its plants with pictures."""
    record = to_dict(outcome)
    out = []
    for at, visit in enumerate(outcome.visits):
        stage = visit.field_stage
        plants = [
            {
                "name": f"{p['stop']} / {p['plant']}" if p["stop"] else p["plant"],
                "stages": ", ".join(stages(p, waits)),
                "facts": plant_facts(p, waits),
                "why": [s.why for s in (visit.plants[i].v, visit.plants[i].r) if s.stage is not None and s.why],
                "picture": plant_picture(p, still_open=waits),
            }
            for i, p in enumerate(record["visits"][at]["plants"])
            for waits in (open_keys(record, at, p),)
        ]
        out.append(
            {
                "field": visit.field or "Field not named",
                "day": day(visit.date) if visit.date else "no day",
                "v": stage.v,
                "r": stage.r,
                "told": _sentences(field_lines(outcome, at, 10_000)),
                "more": list(_more(stage)),
                "plants": plants,
                "findings": record["visits"][at]["findings"],
            }
        )
    return out


def _sentences(lines: list[str]) -> list[str]:
    return [" ".join(line.split()) for line in lines if line.strip()]


def _more(stage: Any) -> Iterator[str]:
    """How many more plants would settle whether half of the field have reached a stage."""
    for code, share, staged, basis in (
        (stage.v, stage.reached_v_percent, stage.staged_v, stage.basis_v),
        (stage.r, stage.reached_r_percent, stage.staged_r, stage.basis_r),
    ):
        if code in (None, "none") or share is None or not staged or basis != "plants":
            continue
        found = more_plants(round(share * staged / 100), staged)
        if found is None:
            continue
        fewest, alike = found
        going_on = f"about {alike}" if alike is not None else "more than 200"
        yield (
            f"Whether half of the field is at {code} is open: {many(fewest, 'more plant')} can settle it if all go the "
            f"likelier way, {going_on} if they go as these did."
        )


def card(sitting: Sitting, turn: Turn) -> Mapping[str, Any]:
    """The open question: words, sentence, choices with what each makes, and how far one is."""
    q, outcome = turn.question, turn.outcome
    open_now = [x for x in outcome.questions if x.answer is None]
    settled = len(outcome.questions) - len(open_now)
    text = outcome.note.text
    start = text.rfind("\n", 0, q.span[0]) + 1
    end = text.find("\n", q.span[1])
    line = text[start : end if end >= 0 else len(text)]
    made = makes(q)
    return {
        "key": key_of(turn),
        "plant": q.plant,
        "number": settled + 1 + len(sitting.skipped & {t.key for t in sitting.turns()}),
        "of": len(outcome.questions),
        "before": line[: q.span[0] - start][-90:],
        "words": line[q.span[0] - start : q.span[1] - start],
        "after": line[q.span[1] - start :][:90],
        "ask": q.ask,
        "moves": q.moves_field,
        "choices": [
            {
                "at": at,
                "letter": letter_of(at),
                "reading": c.reading,
                "makes": made[at],
                "taken": at == q.taken,
            }
            for at, c in enumerate(q.choices)
        ],
        "shared": shared(q),
        "others": _others(turn),
    }


def _others(turn: Turn) -> list[tuple[str, str, str]]:
    """The facts that something else can be typed for: key, name, what it may be."""
    return [(key, KEYS.get(key, key.replace("_", " ")), MAY_BE[key]) for key in other_keys(turn.question)]
