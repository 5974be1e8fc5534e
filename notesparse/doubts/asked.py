"""Reading a note of which some words are doubtful: each hearing is read, and asked about where the record differs.

An answered doubt chooses which words are read. So the record after an answer is the one that its choice was weighed by.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from typing import Any

from notesparse.doubts.carried import carried_back
from notesparse.doubts.differing import Differing, differing, plain
from notesparse.doubts.fitting import fitting
from notesparse.doubts.instead import Instead
from notesparse.lazy import dataclass
from notesparse.outcome import (
    DOUBTED,
    Answer,
    Choice,
    Correction,
    Doubt,
    Edit,
    Note,
    Outcome,
    PlantRecord,
    Question,
    Unapplied,
    Visit,
)
from notesparse.span import Span

MOST_READINGS = 60
"""How often one note is read anew for its doubts; what is beyond is told, and weighed once others are answered."""

NOT_WEIGHED = f"not weighed yet, as more than {MOST_READINGS} other wordings are doubtful: answer some, and it comes up"

ReadOnce = Callable[[Instead, Sequence[Answer]], Outcome]
_Said = dict[Span, str | None]


def read_doubting(note: Note, doubts: Sequence[Doubt], answers: Sequence[Answer], read_once: ReadOnce) -> Outcome:
    """The outcome of a note as its words were answered to be, with a question for each doubt that matters.

    `read_once` reads a text in the place of the note's own, with the answers that are not about doubts.
    """
    if not doubts and not any(a.rule in DOUBTED for a in answers):
        return read_once(Instead(note.text, {}), answers)
    return _Doubting(note, doubts, answers, read_once).outcome()


@dataclass(frozen=True, slots=True)
class _Weighed:
    """A doubt with its hearings (None: the words are not known), and what each of them makes."""

    doubt: Doubt
    hearings: tuple[str | None, ...]
    differ: Differing | None


class _Doubting:
    def __init__(self, note: Note, doubts: Sequence[Doubt], answers: Sequence[Answer], read_once: ReadOnce) -> None:
        self.note, self.read_once = note, read_once
        self.doubts, outside = fitting(doubts, note.text)
        self.unapplied = [Unapplied(replace(d, span=Span(0, 0)), "it lies outside of the note") for d in outside]
        self.answers = [a for a in answers if a.rule not in DOUBTED]
        self.said: _Said = {}
        for answer in answers:
            if answer.rule in DOUBTED and not self._take(answer):
                self.unapplied.append(Unapplied(answer, "this is not asked any more"))
        self.doubts.sort(key=lambda d: d.span)
        self.meanwhile = self._read(self.said)
        self.left = MOST_READINGS

    def _take(self, answer: Answer) -> bool:
        """Whether an answer about words fits. A doubt that is known of no more does not take the answer with it."""
        span, words = Span(*answer.span), answer.values.get("words", 0)
        if not (words is None or isinstance(words, str)) or span in self.said:
            return False
        if not any(d.span == span for d in self.doubts):
            if any(d.span.overlaps(span) for d in self.doubts) or not (0 <= span.start < span.end):
                return False
            if span.end > len(self.note.text) or not span.of(self.note.text).strip():
                return False
            self.doubts.append(Doubt(span, (words,) if words else (), "", answer.rule))
        doubt = next(d for d in self.doubts if d.span == span)
        hearings = (span.of(self.note.text), *doubt.others)
        self.said[span] = next((h for h in hearings if words is not None and _alike(h, words)), words)
        return True

    def _read(self, said: _Said) -> Outcome:
        """The note with these words in the place of its own."""
        own = self.note.text
        instead = Instead(own, {span: words for span, words in said.items() if words != span.of(own)})
        outcome = self.read_once(instead, self.answers)
        return carried_back(outcome, self.note, instead) if instead.words else outcome

    # which doubts matter --------------------------------------------------------------------------------------------

    def outcome(self) -> Outcome:
        """The outcome with all that is asked of the doubts, and all that was answered."""
        waiting = [d for d in self.doubts if d.span not in self.said]
        weighed = [self._weighed(d) for d in [*waiting, *(d for d in self.doubts if d.span in self.said)]]
        asked = [q for w in weighed if w is not None for q in self._question(w)]
        questions = sorted([*self.meanwhile.questions, *asked], key=_order)
        return replace(
            self.meanwhile,
            visits=tuple(self._told(weighed)),
            questions=tuple(replace(q, id=f"q{n}") for n, q in enumerate(questions, 1)),
            corrected=tuple(sorted([*self.meanwhile.corrected, *self._corrected()], key=lambda c: c.span)),
            unapplied=(*self.unapplied, *self.meanwhile.unapplied),
        )

    def _weighed(self, doubt: Doubt) -> _Weighed | None:
        own = doubt.span.of(self.note.text)
        answered = doubt.span in self.said
        hearings: list[str | None] = [own, *(doubt.others or (None,))]
        now = self.said.get(doubt.span, own)
        if answered and now not in hearings and now is None:
            hearings.append(None)
        if not doubt.others and not answered and not any(e.overlaps(doubt.span) for e in self.meanwhile.evidence):
            return None  # only unsure, of words that say nothing
        needed = sum(words != now for words in hearings)
        if needed > self.left:
            if not answered:
                self.unapplied.append(Unapplied(doubt, NOT_WEIGHED))
                return None
            return _Weighed(doubt, tuple(hearings), None)
        self.left -= needed
        outcomes = [self.meanwhile if w == now else self._read({**self.said, doubt.span: w}) for w in hearings]
        kept = [
            i
            for i, one in enumerate(outcomes)
            if i == 0
            or (answered and hearings[i] == now)
            or not any(differing([one, other]) is None for other in outcomes[:i])
        ]
        differ = differing([outcomes[i] for i in kept])
        if not answered and (differ is None or self._asked_anyway(doubt, differ)):
            return None
        return _Weighed(doubt, tuple(hearings[i] for i in kept), differ)

    def _asked_anyway(self, doubt: Doubt, differ: Differing) -> bool:
        """Whether a question about the same words has each hearing among its choices, by what they make."""
        here = (differ.visit, differ.plant, differ.stop)
        only_asked = all(_recorded(made) == _recorded(differ.makes[0]) for made in differ.makes)
        return any(
            all(any(_holds(choice, made, q.ask) for choice in q.choices) for made in differ.makes)
            for q in self.meanwhile.questions
            if q.answer is None and q.span.overlaps(doubt.span)
            if only_asked or (q.visit, q.plant, q.stop) == here
        )

    # how they are asked ---------------------------------------------------------------------------------------------

    def _question(self, w: _Weighed) -> list[Question]:
        doubt, differ = w.doubt, w.differ
        k = max(0, min(differ.visit, len(self.meanwhile.visits) - 1)) if differ is not None else 0
        plant, stop = (differ.plant, differ.stop) if differ is not None else (None, None)
        choices = []
        for at, words in enumerate(w.hearings):
            makes = differ.makes[at] if differ is not None else {}
            choices.append(Choice(_reading(doubt, at, words), makes, (Edit(k, plant, "words", words, stop),)))
        answer: int | str | None = None
        if doubt.span in self.said:
            now = self.said[doubt.span]
            answer = w.hearings.index(now) if now in w.hearings else now
        own = doubt.span.of(self.note.text)
        return [
            Question(
                "",
                doubt.how,
                doubt.span,
                own,
                k,
                plant,
                _sentence(doubt, own, w.hearings),
                tuple(choices),
                0,
                answer,
                answer is None and differ is not None and differ.moves_field,
                stop,
                differ.key if differ is not None else None,
            )
        ]

    def _told(self, weighed: Sequence[_Weighed | None]) -> list[Visit]:
        """The visits, with the values that rest on words which a person has settled marked as confirmed."""
        visits = list(self.meanwhile.visits)
        for w in weighed:
            if w is None or w.differ is None or w.doubt.span not in self.said:
                continue
            for k, label, stop, key in w.differ.keys:
                if k < len(visits) and not self._still_open(k, label, stop, key):
                    plants = (
                        _confirmed(p, key, w.doubt.span) if (p.label, p.stop) == (label, stop) else p
                        for p in visits[k].plants
                    )
                    visits[k] = replace(visits[k], plants=tuple(plants))
        return visits

    def _still_open(self, visit: int, plant: str, stop: str | None, key: str) -> bool:
        return any(
            q.answer is None and (q.visit, q.plant) == (visit, plant) and q.stop in (None, stop)
            for q in self.meanwhile.questions
            if len({repr(c.makes.get(key)) for c in q.choices}) > 1
        )

    def _corrected(self) -> list[Correction]:
        """What was said in the place of the note's own words stays visible."""
        out = []
        for doubt in self.doubts:
            own = doubt.span.of(self.note.text)
            words = self.said.get(doubt.span, own)
            if words is None:
                out.append(Correction(doubt.how, doubt.span, f"“{own}” is not known"))
            elif words != own:
                out.append(Correction(doubt.how, doubt.span, f"“{own}” replaced by “{words}”"))
        return out


_MISSING = object()
_WORDS = {"heard": ("heard", "which was said?"), "typed": ("read", "which stands there?")}


def _sentence(doubt: Doubt, own: str, hearings: Sequence[str | None]) -> str:
    verb, which = _WORDS.get(doubt.how, _WORDS["heard"])
    where = f" ({doubt.where})" if doubt.where else ""
    others = [f"or “{words}”" if words else "or nothing" for words in hearings[1:] if words is not None]
    if others:
        return f"“{_even(own)}” was {verb}, {', '.join(others)}{where}: {which}"
    return f"“{_even(own)}” was {verb}, not clearly{where}: is it right?"


def _reading(doubt: Doubt, at: int, words: str | None) -> str:
    if at == 0:
        return f"“{_even(words or '')}”, as {_WORDS.get(doubt.how, _WORDS['heard'])[0]}"
    return "not known" if words is None else f"“{_even(words)}”" if words else "nothing"


def _confirmed(plant: PlantRecord, key: str, span: Span) -> PlantRecord:
    if key not in plant.spans or not plant.spans[key].overlaps(span) or getattr(plant.facts, key) is None:
        return plant
    return replace(plant, told={key: "confirmed", **plant.told})


def _holds(choice: Choice, made: Mapping[str, Any], ask: str) -> bool:
    """Whether a choice of the question `ask` makes all that a hearing makes, and that hearing asks nothing but it."""
    return set(made.get("then_asked", ())) <= {ask} and all(
        plain(choice.makes.get(key, _MISSING)) == value for key, value in _recorded(made).items()
    )


def _recorded(made: Mapping[str, Any]) -> dict[str, Any]:
    return {key: value for key, value in made.items() if key != "then_asked"}


def _alike(one: str, two: str) -> bool:
    return one.casefold().split() == two.casefold().split()


def _even(words: str) -> str:
    return " ".join(words.split())


def _order(q: Question) -> tuple[bool, bool, bool, Span]:
    """The open ones first; of these the ones that can change a field's stage, then those that change a plant's."""
    stages = {(c.makes.get("v_stage"), c.makes.get("r_stage")) for c in q.choices if "v_stage" in c.makes}
    moves_field = len({(c.makes.get("field_v"), c.makes.get("field_r")) for c in q.choices}) > 1
    return (q.answer is not None, not moves_field, len(stages) < 2, q.span)
