"""Fields that are told of by their place in the round, or all at once: `Frogeye in the last two.`, `The first one has
waterhemp`, `No aphids in any of them`, `Every field has foxtail` (guide 1.2).

What was found is of those fields, and not of the one that was named last. Where it cannot be told which are meant, it is of
none, and shown as unread.
"""

from __future__ import annotations

import copy
import re
from bisect import bisect_right
from collections import Counter

from notesparse.language.cues import cue_page
from notesparse.lazy import dataclass, pattern
from notesparse.observing.draft import Ask, FindingDraft, VisitDraft
from notesparse.observing.fold import EVIDENCE, UNREAD, Context
from notesparse.span import Span

_LISTED = cue_page("walking/which_fields")

_WHICH = r"(?:first|last|second|third|fourth|middle|former|latter|other|others|1 ?st|2 ?nd|3 ?rd|4 ?th)"
_FEW = r"(?: (?:two|three|four|2|3|4))?"
_NOUN = r"(?: (?:one|ones|field|fields|place|places))"
_LIST = rf"{_WHICH}{_FEW}(?: (?:and|&|,) (?:the )?{_WHICH}{_FEW})*"
_EACH = (
    r"(?:any|all|every|each|either|both)"
    r"(?: of (?:them|em|these|those|the fields|my fields|our fields)|(?: the| my| our)? (?:one|ones|field|fields|places|place|spots))"
)
_TAIL = pattern(rf"(?:^|(?<= ))(?:in|on|at) (?:the )?(?P<which>{_LIST})(?P<noun>{_NOUN})?(?: (?:only|alone|too))?$")
_HEAD = pattern(
    rf"^(?:the |only the |and the |and |but the |but )?(?P<which>{_LIST})(?P<noun>{_NOUN})?"
    r"(?= (?:has|have|had|got|shows|show|showing|with|also|both)\b)"
)
_ALL_TAIL = pattern(rf"(?:^|(?<= ))(?:in |on |at |across |over )?{_EACH}$")
_ALL_HEAD = pattern(rf"^(?:and |but )?{_EACH}(?= )")
_ANYWHERE = pattern(r"(?:^|(?<= ))anywhere(?: at all)?$")
_PLACES = _LISTED.table("places", int)
_MANY = _LISTED.table("many", int)
_SEVERAL = 2
_NOT_SAID = "which of the fields is meant is not said"


@dataclass(frozen=True, slots=True)
class _Said:
    """Pieces [start, end) of a clause or sentence, and its words."""

    start: int
    end: int
    text: str

    def pieces(self, a: int, b: int) -> tuple[int, int]:
        """The pieces of characters a to b of `text`."""
        first = self.text[:a].count(" ") + (a > 0 and self.text[a - 1] != " ")
        return self.start + first, self.start + len(self.text[:b].split(" "))


def of_which_fields(ctx: Context) -> None:
    """Each finding goes to the fields that its clause, or its sentence, tells of so."""
    if len(ctx.visits) < _SEVERAL:
        return
    spans = Counter(f.span for v in ctx.visits for f in v.findings)
    starts = [p.span.end for p in ctx.lattice.pieces]
    for visit in list(ctx.visits):
        for f in list(visit.findings):
            if spans[f.span] == 1:  # of no more than one field yet
                _place(ctx, visit, f, bisect_right(starts, f.span.start))


def _told_before(ctx: Context, visit: VisitDraft, f: FindingDraft) -> list[VisitDraft]:
    """The fields that were named before it and told of, its own among them; none where they are not several."""
    named = [v for v in ctx.visits if v.name is not None and v.name_span is not None and not v.empty]
    told = [v for v in named if v.name_span is not None and v.name_span.end <= f.span.start]
    return told if len(told) >= _SEVERAL and any(v is visit for v in told) else []


def _place(ctx: Context, visit: VisitDraft, f: FindingDraft, at: int) -> None:
    """The finding that begins at piece `at`."""
    for said in (_said(ctx, f, at, {",", "but"}), _said(ctx, f, at, set())):
        every = _ALL_TAIL.search(said.text) or _ALL_HEAD.search(said.text)
        which = None if every is not None else _TAIL.search(said.text) or _HEAD.search(said.text)
        told = _told_before(ctx, visit, f) if every is not None or which is not None else []
        if not told:
            continue
        if every is not None:
            _give(ctx, visit, f, told, said.pieces(*every.span()))
            return
        if which is None or not _of_fields(told, which):
            continue
        meant = _meant(which["which"], told)
        if meant:
            _give(ctx, visit, f, meant, said.pieces(*which.span()))
        else:
            visit.findings = [x for x in visit.findings if x is not f]
            ctx.mark(said.start, said.end, UNREAD, _NOT_SAID)
        return
    _anywhere(ctx, visit, f, at)


def _said(ctx: Context, f: FindingDraft, at: int, parts: set[str]) -> _Said:
    """The sentence of a finding, or the part of it between marks of `parts`."""
    pieces, soft = ctx.lattice.pieces, ctx.lattice.soft

    def ends(i: int) -> bool:
        text = pieces[i].text
        return pieces[i].form == "nl" or text in parts | {";", "!"} or (text == "." and soft[i] is None)

    start = end = at
    while start and not ends(start - 1):
        start -= 1
    while end < len(pieces) and (pieces[end].span.start < f.span.end or not ends(end)):
        end += 1
    return _Said(start, end, " ".join(p.text.replace(" ", "_") for p in pieces[start:end]))


_FOR_OF_FIELDS = _LISTED.words("for_of_fields")


def _of_fields(told: list[VisitDraft], which: re.Match[str]) -> bool:
    """The word for a field is said, or nothing was told of plants, of which the first and the last might be meant."""
    noun = (which["noun"] or "").strip()
    if noun in _FOR_OF_FIELDS:
        return True
    plants = any(not p.empty and not p.dropped for v in told for p in v.plants)
    return not plants and (bool(noun) or "middle" not in which["which"])


def _meant(words: str, told: list[VisitDraft]) -> list[VisitDraft]:
    """The fields of such words, in the order of the note; none where it is not sure."""
    meant: list[VisitDraft] = []
    for part in re.split(r" (?:and|&|,) (?:the )?", words):
        which, _, few = re.sub(r"(?<=\d) (?=[a-z])", "", part).partition(" ")
        many = _MANY.get(few, 1)
        if which in {"last", "latter"} and many <= len(told):
            meant += told[-many:]
        elif which == "first" and many <= len(told):
            meant += told[:many]
        elif which == "middle" and many == 1 and len(told) % 2:
            meant.append(told[len(told) // 2])
        elif which in _PLACES and many == 1 and _PLACES[which] < len(told):
            meant.append(told[_PLACES[which]])
        else:
            return []
    return [v for v in told if any(v is m for m in meant)]


def _give(ctx: Context, visit: VisitDraft, f: FindingDraft, meant: list[VisitDraft], words: tuple[int, int]) -> None:
    said = ctx.span(*words).of(ctx.lattice.text).casefold()
    if f.where is not None and (f.where.casefold() in said or said in f.where.casefold()):
        f.where = None
    visit.findings = [x for x in visit.findings if x is not f]
    for other in meant:
        other.findings.append(f if other is meant[-1] else copy.copy(f))
    ctx.mark(*words, EVIDENCE)
    held = ctx.span(*words)
    visit.plants = [p for p in visit.plants if not (p.empty and held.start <= p.span.start < held.end)]


def _anywhere(ctx: Context, visit: VisitDraft, f: FindingDraft, at: int) -> None:
    """`Old School R3, Corn Crib R4. No aphids anywhere.`: in a sentence of its own behind fields that were told of in one
    breath, all of them may be meant."""
    said = _said(ctx, f, at, set())
    if f.value != 0 or _ANYWHERE.search(said.text) is None:
        return
    told = _told_before(ctx, visit, f)
    if not told or visit is not told[-1]:
        return
    since = ctx.lattice.pieces[said.start].span.start
    first = told[0].name_span
    own = [*(x.span for x in visit.stated), *(x.span for x in visit.tallies), *(x.span for x in visit.plants)]
    if first is None or any(x.start >= since for x in own) or (visit.name_span and visit.name_span.start >= since):
        return
    if "\n" in ctx.lattice.text[first.start : since].strip() or any(v.plants for v in told):
        return
    if not any(v.findings and any(x.span.start < since for x in v.findings) for v in told):
        _give(ctx, visit, f, told, (said.end - 1, said.end))
        return
    words = f"Is this told of {visit.name} alone, or of each of the fields?"
    choices: list[tuple[str, dict[str, object]]] = [(f"{visit.name} alone", {}), ("each of the fields", {})]
    span = Span(since, ctx.lattice.pieces[said.end - 1].span.end)
    ctx.ask(Ask("1.2", span, words, choices, None, 0, None, always=True, visit=visit))
