"""The outcome of a text with other words in it, carried back to the note: every span is one of the note's own text."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from notesparse.doubts.instead import Words
from notesparse.observing.account import partition
from notesparse.outcome import Note, Outcome, Unread, Visit
from notesparse.span import Span

NOT_HEARD = "these words are not known"


def carried_back(outcome: Outcome, note: Note, instead: Words) -> Outcome:
    """`outcome` is of `instead.text`; the same of the note itself. Quotes are the note's own words."""
    back, text = instead.back, note.text
    lost = [Unread(span, span.of(text), NOT_HEARD) for span, said in instead.words.items() if said is None]
    unread = [*lost, *(replace(u, span=back(u.span)) for u in outcome.unread)]
    parts = partition(text, map(back, outcome.evidence), [u.span for u in unread])
    return replace(
        outcome,
        note=note,
        visits=tuple(_visit(v, instead) for v in outcome.visits),
        questions=tuple(replace(q, span=back(q.span), quote=back(q.span).of(text)) for q in outcome.questions),
        assumptions=tuple(replace(a, span=back(a.span)) for a in outcome.assumptions),
        corrected=tuple(replace(c, span=back(c.span)) for c in outcome.corrected),
        unread=tuple(
            Unread(s, s.of(text), next((u.why for u in unread if u.span.overlaps(s)), NOT_HEARD)) for s in parts[2]
        ),
        repairs=tuple(replace(r, span=back(r.span), words=back(r.span).of(text)) for r in outcome.repairs),
        evidence=parts[0],
        filler=parts[1],
        steps=tuple(replace(s, span=back(s.span), words=back(s.span).of(text)) for s in outcome.steps),
    )


def _visit(visit: Visit, instead: Words) -> Visit:
    back = instead.back

    def all_back(spans: Mapping[str, Span]) -> dict[str, Span]:
        return {key: back(span) for key, span in spans.items()}

    return replace(
        visit,
        plants=tuple(replace(p, spans=all_back(p.spans)) for p in visit.plants),
        tallies=tuple(replace(t, span=back(t.span)) for t in visit.tallies),
        stated=tuple(replace(s, span=back(s.span)) for s in visit.stated),
        findings=tuple(replace(f, span=back(f.span)) for f in visit.findings),
        spans=all_back(visit.spans),
    )
