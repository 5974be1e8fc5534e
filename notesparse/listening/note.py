"""What was heard as the text of a note: an utterance a line, with the places of its doubts and of what was refused."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from notesparse.lazy import dataclass, pattern
from notesparse.listening.heard import Hearing, Recording, Unsure, Utterance, spoken, stretch
from notesparse.listening.trade import NUMBERS
from notesparse.outcome import Doubt
from notesparse.span import Span

NOT_UNDERSTOOD = "[inaudible]"
"""Stands in the text for a stretch that was refused: a word that no reading knows, so that it is shown as unread."""

GOES_ON = 1.5
"""A pause of at most so many seconds is a breath: what follows stands on the same line, as a new sentence."""


@dataclass(frozen=True, slots=True)
class Heard:
    """A recording as a note: the text, where each utterance stands in it, the doubts, and by what it was heard."""

    recording: Recording
    utterances: tuple[Utterance, ...]
    text: str
    spans: tuple[Span, ...]
    doubts: tuple[Doubt, ...]
    by: str  # the recognisers, in words
    weak: bool
    model: str | None = None  # SHA-256 of the large model's weights

    def as_dict(self) -> dict[str, Any]:
        """What lies beside the note, and under `heard` in the JSON of the record. Times are seconds."""
        return {
            "source": self.recording.name,
            "sha256": self.recording.sha256,
            "seconds": round(self.recording.seconds, 2),
            "by": self.by,
            "weak": self.weak,
            "model": self.model,
            "doubts": [
                {"span": list(d.span), "others": list(d.others), "where": d.where, "how": d.how} for d in self.doubts
            ],
            "utterances": [
                {
                    "start": round(u.start, 2),
                    "end": round(u.end, 2),
                    "span": list(span),
                    "words": [[w.say, round(w.start, 2), round(w.end, 2), round(w.sure, 3)] for w in u.hearing.words],
                    "second": spoken(u.second),
                    "repairs": [
                        {
                            "start": round(c.start, 2),
                            "end": round(c.end, 2),
                            "heard": spoken(c.heard),
                            "taken": spoken(c.taken),
                        }
                        for c in u.changes
                    ],
                    "refused": u.refused,
                }
                for u, span in zip(self.utterances, self.spans, strict=True)
            ],
            "refused": [
                {"start": round(u.start, 2), "end": round(u.end, 2), "span": list(span), "why": u.refused}
                for u, span in zip(self.utterances, self.spans, strict=True)
                if u.refused is not None
            ],
        }


def note_of(
    recording: Recording, utterances: Sequence[Utterance], by: str, weak: bool, model: str | None = None
) -> Heard:
    """The note that these utterances make."""
    text = ""
    spans: list[Span] = []
    doubts: list[Doubt] = []
    before: Utterance | None = None
    for utterance in utterances:
        text += _between(before, utterance, text)
        start = len(text)
        if utterance.refused is not None:
            text += NOT_UNDERSTOOD
        else:
            places: list[Span] = []
            for at, token in enumerate(utterance.hearing.tokens):
                text += " " if at else ""
                written = _together(utterance.hearing, at, token)
                places.append(Span(len(text), len(text) + len(written)))
                text += written
            doubts += [_doubt(utterance, unsure, places, text, recording.name) for unsure in utterance.unsure]
            if before is not None and before.refused is not None and utterance.hearing.tokens:
                doubts.append(_whose(before, places[0], text, recording.name))
        spans.append(Span(start, len(text)))
        before = utterance
    return Heard(recording, tuple(utterances), text + "\n", tuple(spans), tuple(doubts), by, weak, model)


def with_names_doubted(made: Heard, names: Sequence[Span]) -> Heard:
    """The note with a doubt at each field's name that has none. A name may be any words, so the small recogniser, which
    knows only those of the trade, can but guess at it."""
    more = []
    for name in names:
        if any(name.overlaps(d.span) for d in made.doubts):
            continue
        at = next((u for u, span in zip(made.utterances, made.spans, strict=True) if span.overlaps(name)), None)
        if at is not None:
            more.append(Doubt(name, (), f"{stretch(at.start, at.end)} of {made.recording.name}", "heard"))
    return replace(made, doubts=tuple(sorted([*made.doubts, *more], key=lambda d: d.span)))


def _between(before: Utterance | None, utterance: Utterance, text: str) -> str:
    if before is None:
        return ""
    if before.refused is not None or utterance.refused is not None or utterance.start - before.end > GOES_ON:
        return "\n"
    return " " if text[-1:] in ".?!" else "." * (text[-1:] not in ",;:") + " "


_PARTS = pattern(
    r"(?:half|halves|thirds?|quarters?|fifths?|eighths?|sixteenths?|\d+ths?|inch(?:es)?|percent|milli\w+|centi\w+)\b",
    re.IGNORECASE,
)
_FRACTION = pattern(r"(?:hal|third|quarter|fifth|eighth|sixteenth)", re.IGNORECASE)
"""What belongs to the number before it. The recogniser of words does not hear commas: it makes them up."""


def _together(hearing: Hearing, at: int, token: str) -> str:
    """The token as it is written down: without a mark between a number and what it counts, and a fraction
    all in words (`3, sixteenths` is three sixteenths)."""
    says = [w.say for w in hearing.words if w.token == at]
    behind = hearing.tokens[at + 1] if at + 1 < len(hearing.tokens) else ""
    if not (says and says[-1] in NUMBERS and _PARTS.match(behind)):
        return token
    return spoken(says) if _FRACTION.match(behind) else token.rstrip(",.;:")


def _whose(before: Utterance, first: Span, text: str, source: str) -> Doubt:
    """Behind a stretch that was refused: it may have named another plant, and then what follows is of that one. Where
    no plant was named so far, any other serves to ask."""
    place = f"{stretch(before.start, before.end)} of {source}, which was not understood, comes before it"
    another = "next plant" if re.search(r"\bplant", text[: first.start], re.IGNORECASE) else "plant two"
    return Doubt(first, (f"{another} {first.of(text)}",), place, "heard")


def _doubt(utterance: Utterance, unsure: Unsure, places: Sequence[Span], text: str, source: str) -> Doubt:
    """The doubt at its tokens. Where only a part of a token is doubtful, the other hearings hold the rest of it too."""
    words = utterance.hearing.words
    tokens = [words[i].token for i in range(unsure.first, unsure.last)]
    first = next(i for i, w in enumerate(words) if w.token == tokens[0])
    last = max(i for i, w in enumerate(words) if w.token == tokens[-1]) + 1
    before = [w.say for w in words[first : unsure.first]]
    behind = [w.say for w in words[unsure.last : last]]
    span = Span(places[tokens[0]].start, places[tokens[-1]].end)
    while span.end > span.start + 1 and text[span.end - 1] in ".,;:?!":
        span = Span(span.start, span.end - 1)
    others = tuple(spoken([*before, *other, *behind]) for other in unsure.others)
    return Doubt(span, others, f"{stretch(words[first].start, words[last - 1].end)} of {source}", "heard")
