"""What the walk remembers, and how it looks around in the note."""

from __future__ import annotations

from typing import Any

from notesparse.language.cues import cue_page
from notesparse.observing import owners
from notesparse.observing.draft import Place, PlantDraft, VisitDraft
from notesparse.observing.fold import EVIDENCE, Context
from notesparse.observing.naming.names import Name
from notesparse.observing.paper import forms
from notesparse.observing.paper.table import Table
from notesparse.observing.walking.elsewhere import elsewhere, printed
from notesparse.observing.walking.then_and_now import other_times
from notesparse.observing.walking.together import Together
from notesparse.reading.parse import Phrase, Segment
from notesparse.span import Span

_LISTED = cue_page("walking/listening")

ORGANS = {"flowers", "pods", "seeds", "state", "podshare"}
OWN = {"trif", "nodes", "topleaf", "scars", "emergence"} | ORGANS
LINKS = {"HAS", "BUT", "AND", "IN", "AT", "WITH"}


_BEFORE_AT_BEFORE = _LISTED.words("before_at_before")


class Listener:
    """What one pass over the segments of a note remembers."""

    def __init__(
        self,
        ctx: Context,
        segments: list[Segment],
        names: dict[int, Name],
        tables: list[Table],
        rivals: list[list[Phrase]] | None = None,
        placed: dict[int, int] | None = None,
    ) -> None:
        self.placed = placed or {}  # lines that begin with a place in the field: first piece -> where its words end
        self.rivals = rivals or []
        self.tables = {t.start: t for t in tables}
        self.ctx = ctx
        self.segments = segments
        self.names = names
        self.number: tuple[Any, Span, int, int] | None = None  # a bare number that waits for its head
        self.negative: tuple[Span, int, int] | None = None
        self.at_head = True  # nothing observed yet in this visit
        self.line_head = True
        self.after_name = False
        self.barred: str | None = None  # why the words up to the next boundary are no evidence
        self.barred_from = 0
        self.groups_done: set[int] = set()
        self.clause_from = 0
        self.list_until = -1
        self.barred_limit = 0
        self.resume_at = 0
        self.where_ahead: str | None = None  # the part of the field that the next stage is of
        self.false_start = -1  # a correction of a number that had no noun yet
        self.form = forms.form_lines(ctx.lattice)
        self.other_times, self.now_said = other_times(ctx.lattice)
        # stretches that are of nothing here: first piece -> end and why
        self.not_ours = {a: (b, "not this field") for a, b in elsewhere(ctx.lattice).items()}
        self.not_ours |= {a: (b, "printed on seed, and no stage") for a, b in printed(ctx.lattice).items()}
        ctx.form = bool(self.form)
        self.key_signs = {x for t in tables for x in t.signs}  # letters of a key, where they stand in no table
        self.together: list[Together] = []  # the lists of fields that were told of together
        self.count_of: str | None = None  # what a head said that the shares below it are of
        self.said_behind: set[int] = set()  # shares that were used by what stands before them
        self.cell: tuple[int, int] | None = None  # the pieces of a table cell that are read like prose
        self.scars = 0  # scars told before the leaves that they are counted with
        self.owned: owners.Owners | None = None  # plants named behind what is being said
        self.behind = False  # some plants were named so
        self.otherwise: list[Any] = []  # plants that are otherwise than all, with what was said of all
        self.passed: Place | None = None  # a place of which it was said that nothing is there
        # the one plant that is otherwise than all, and the clause that said so
        self.odd_one: tuple[PlantDraft, int] | None = None
        # sentences whose findings are of another field than the one in hand: that field, the visit in hand, which pieces
        self.lent: list[tuple[VisitDraft, VisitDraft, Span]] = []
        self.stands_for: str | None = None  # what a verb alone was said of last: 4 is, 5 isn't
        self.turn: list[str] = []  # labels of the plants that were told of by where they stand in the row
        self.called_so: list[PlantDraft] = []  # the plants that were told of by the stage they were called
        self.number_later: int | None = None  # the segment that counted plants before their field was named
        self.counted_to = -1  # where the words end that counted the plants of this visit
        self.owned_to = -1  # where the last plants named so end
        self.spread: frozenset[int] | None = None  # line ends behind which a plant is still told of, once looked for

    def ahead(self, at: int, limit: int = 8) -> tuple[Phrase | None, set[str], bool]:
        """The next phrase in the clause, the link words before it, and whether a mark stands between."""
        links: set[str] = set()
        mark = False
        for s in self.segments[at + 1 : at + 1 + limit]:
            if s.phrase is not None:
                if s.phrase.rule == "filler":
                    links |= {e.kind for e in self.ctx.lattice.edges[s.start] if e.end == s.end and e.kind in LINKS}
                    continue
                return s.phrase, links, mark
            p = self.ctx.lattice.pieces[s.start]
            if p.form == "nl" or (p.text in ".;" and self.ctx.lattice.soft[s.start] is None):
                return None, links, True
            if p.form == "mark":
                mark = True
            links |= {e.kind for e in self.ctx.lattice.edges[s.start] if e.kind in LINKS}
        return None, links, mark

    def in_clause(self, at: int, rules: set[str], step: int = 1) -> Phrase | None:
        """A phrase of these rules in the same clause, looking forward or back."""
        k = at + step
        while 0 <= k < len(self.segments):
            s = self.segments[k]
            if s.phrase is None:
                if self.hard_end(s.start):
                    return None
            elif s.phrase.rule == "filler":
                pass
            elif s.phrase.rule in rules:
                return s.phrase
            elif s.phrase.rule == "label":
                return None
            k += step
        return None

    def cut_short(self, ph: Phrase, nxt: Phrase) -> bool:
        """Only the dot of a word that is cut short stands between: `11 trif. average`."""
        dot = self.ctx.lattice.at(ph.end) == "." and nxt.start == ph.end + 1
        return dot and self.ctx.lattice.soft[ph.end] is not None

    def hard_end(self, i: int) -> bool:
        p = self.ctx.lattice.pieces[i]
        return p.form == "nl" or (p.form == "mark" and p.text in ".;!" and self.ctx.lattice.soft[i] is None)

    def hard_end_or_over(self, i: int) -> bool:
        """The sentence ends at piece i."""
        return i >= len(self.ctx.lattice.pieces) or self.hard_end(i)

    def begins(self, i: int) -> bool:
        """Only fillers stand between piece i and the mark before it."""
        pieces = self.ctx.lattice.pieces
        if i == self.counted_to:
            return True  # looked at two plants | six trifs on one
        while i > 0 and pieces[i - 1].form == "word" and self.ctx.use[i - 1] != EVIDENCE:
            i -= 1
        return i == 0 or pieces[i - 1].form in {"nl", "mark"} or pieces[i - 1].text in {"and", "but"}

    def sentence_start(self, i: int) -> int:
        """The first piece of the sentence or line that piece i stands in."""
        pieces = self.ctx.lattice.pieces
        while i and pieces[i - 1].form != "nl" and pieces[i - 1].text not in {".", ";"}:
            i -= 1
        return i

    def ends_at(self, i: int) -> bool:
        """The clause ends at piece i, or a mark stands there."""
        pieces = self.ctx.lattice.pieces
        return i >= len(pieces) or pieces[i].form in {"mark", "nl"}

    def joined(self, end: int, i: int) -> bool:
        """No mark stands between character `end` and piece i."""
        pieces = self.ctx.lattice.pieces
        first = self.ctx.lattice.first_from(end)
        return not any(p.form in {"mark", "nl"} for p in pieces[first:i])

    def lattice_joined(self, i: int, j: int) -> bool:
        """No mark stands at pieces [i, j)."""
        return not any(self.ctx.lattice.pieces[x].form in {"mark", "nl"} for x in range(i, j))

    def clause_start(self, k: int) -> int:
        j = k - 1
        while j >= 0:
            s = self.segments[j]
            if s.phrase is None and self.hard_end(s.start):
                return self.ctx.lattice.pieces[s.start].span.end
            j -= 1
        return 0

    def clause_is_fresh(self, k: int) -> bool:
        start = self.clause_start(k)
        return not any(
            self.ctx.lattice.pieces[s.start].span.start >= start
            and s.phrase is not None
            and s.phrase.rule not in {"goto", "fieldcue", "correct"}
            for s in self.segments[:k]
        )

    def at_before(self, ph: Phrase) -> bool:
        """A place word stands before, which is not the end of a verb (came in at ten)."""
        at = self.ctx.lattice.at(ph.start - 1) in _BEFORE_AT_BEFORE
        verb = (e for i in range(max(0, ph.start - 4), ph.start - 1) for e in self.ctx.lattice.edges[i])
        return at and not any(e.kind == "HAS" and e.end == ph.start and e.how == "exact" for e in verb)

    def brown_context(self) -> bool:
        """Whether a share without a noun is of the pods: they were spoken of last, or of the plants before this
        label."""
        visit = self.ctx.visit
        if visit is None or not visit.plants:
            return False
        here = self.ctx.plants[-1] if self.ctx.plants else None
        if here is not None and here.empty:
            return self.ctx.pods_brown_head or any(
                "mature_pods_percent" in p.facts or "mature_pods" in p.facts for p in visit.plants
            )
        return self.ctx.last_what == "mature" and (here is None or "mature_pods_percent" not in here.facts)

    def said_elsewhere(self, nxt: Phrase | None) -> bool:
        """Behind a comma a second place is that of what follows, if it is of another thing."""
        ctx = self.ctx
        if nxt is None or not ctx.open or not ctx.open[0].places or not ctx.link & {"COMMA", "BUT"}:
            return False
        filled = ctx.open[0].what == "seeds" or ctx.open[0].fill is not None
        return nxt.form in {"pod_flat", "pod_almost_flat"} and filled

    def only_organ(self) -> str | None:
        """The one organ that was spoken of on the plants before, the last of them first; None where there were
        several."""
        for p in reversed(self.ctx.visit.plants if self.ctx.visit else []):
            if p.sightings:
                whats = {s.what for s in p.sightings}
                return whats.pop() if len(whats) == 1 else None
        return None

    def series_key(self) -> str | None:
        """What bare numbers after labels are, where the plants before them say so: `2) 7 open`, `p2 97`."""
        visit = self.ctx.visit
        if visit is None or not self.ctx.plants:
            return None
        others = [p for p in visit.plants if all(p is not q for q in self.ctx.plants) and not p.dropped]
        earlier = [p for p in others if not (p.empty and (p.counted or self._lost(visit, p)))]
        for key in ("trifoliates", "nodes", "mature_pods_percent"):
            if earlier and key in earlier[-1].facts:
                return key
        return "mature_pods_percent" if self.ctx.pods_brown_head else None

    @staticmethod
    def _lost(visit: VisitDraft, p: PlantDraft) -> bool:
        """`plant 5 is dead`: damage is all that was found of it."""
        return any(f.kind == "damage" and p.span.start <= f.span.start for f in visit.findings)

    def stands_alone_at(self, ph: Phrase) -> bool:
        """Nothing but this stands between two marks."""
        return self.ends_at(ph.end) and (not ph.start or self.ctx.lattice.pieces[ph.start - 1].form in {"mark", "nl"})

    def name_after(self, k: int) -> bool:
        """A field is named next on this line, with no more than marks and fillers between."""
        for s in self.segments[k + 1 : k + 5]:
            if s.start in self.names:
                return self.names[s.start].seen
            p = self.ctx.lattice.pieces[s.start]
            if p.form == "nl" or not (
                p.form == "mark"
                or self.ctx.lattice.filler[s.start]
                or (s.phrase is not None and s.phrase.rule == "filler")
            ):
                return False
        return False
