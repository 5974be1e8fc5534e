"""Same again, corrections, taking back (guide 4.17, 4.18)."""

from __future__ import annotations

import copy
import itertools

from notesparse.language.lists import same_again_words
from notesparse.observing.draft import Ask, FindingDraft, PlantDraft, Sighting, merged
from notesparse.observing.fold import EVIDENCE, UNREAD, Context, numbers_of
from notesparse.observing.same_of import only_for, the_rest
from notesparse.outcome import Correction
from notesparse.reading.parse import Phrase
from notesparse.span import Span


def copy_facts(source: PlantDraft, target: PlantDraft, span: Span, only: str | None = None) -> None:
    """All facts of one plant, as the other's own words say `same`."""
    for key, entries in source.facts.items():
        if only and not key.startswith(only):
            continue
        if entries:
            e = copy.copy(entries[-1])
            e.span, e.copied = span, True
            target.facts.setdefault(key, []).insert(0, e)
    copied = []
    for s in [s for what in ("flowers", "pods", "seeds") for s in merged(source, what)]:
        if only and s.what != only:
            continue
        c = copy.deepcopy(s)
        c.spans = [span]
        c.copied = True
        copied.append(c)
    target.sightings[:0] = copied


_ONE_THING = {
    f"same_{what}{whose}": what for what in ("pods", "flowers", "seeds") for whose in ("", "_letter", "_last")
} | {"same_trifs_last": "trifoliates"}
_THEIR_OWN_LABELS = {"n_same", "n_same_n", "list_same", "list_same_n", "range_same", "range_same_n"}


def _like_what(ctx: Context, ph: Phrase) -> tuple[str | None, int]:
    """What stands after a bare `same as`: a label that was heard as another word, or words that name no plant of the
    note."""
    pieces = ctx.lattice.pieces
    far = any(
        e.kind in {"YESTERDAY", "WEEKDAY", "PASTCUE"}
        for j in range(ph.end, min(ph.end + 4, len(pieces)))
        for e in ctx.lattice.edges[j]
        if not any(pieces[x].form in {"mark", "nl"} for x in range(ph.end, j + 1))
    )
    if far:  # same as the last one yesterday
        return f"“{ctx.lattice.original(ph.start, ph.end)} ...”", ph.end
    words = same_again_words()
    i = ph.end
    if ph.form == "same_n":  # same as the one I did friday
        i = ph.path[-1][0]
    elif ph.path[-1][1].kind != "SAMEAS":
        return None, ph.end
    while i < len(pieces) and pieces[i].text in {"the", "a"}:
        i += 1
    if i >= len(pieces) or pieces[i].form != "word" or pieces[i].text in words.the_last:
        return None, ph.end
    if pieces[i].text in words.sounds and (
        i + 1 >= len(pieces)
        or pieces[i + 1].form in {"mark", "nl"}
        or any(e.kind == "PLANT" for e in ctx.lattice.edges[i + 1])
    ):
        return words.sounds[pieces[i].text], i + 1
    if (
        pieces[i].text == "one"
        and i + 1 < len(pieces)
        and pieces[i + 1].form == "word"
        and pieces[i + 1].text not in words.the_last
    ) or not ctx.lattice.known[i]:
        return f"“{ctx.lattice.original(ph.path[0][1].end, i + 1)} ...”", ph.end
    return None, ph.end


def _undo_same(ctx: Context, target: PlantDraft) -> None:
    """`same as 3, I mean same as 2`: what was copied first goes."""
    gone = [span for plant, _, span in ctx.same_targets if plant is target]
    gone += [e.span for entries in target.facts.values() for e in entries if e.copied] + [
        s.span for s in target.sightings if s.copied
    ]
    if not gone:
        return
    _leave_out_the_copied(ctx, target)
    ctx.corrected.append(Correction("4.17", gone[0], "the same as another plant"))


def _leave_out_the_copied(ctx: Context, target: PlantDraft) -> None:
    ctx.same_targets = [t for t in ctx.same_targets if t[0] is not target]
    for key in list(target.facts):
        target.facts[key] = [e for e in target.facts[key] if not e.copied]
        if not target.facts[key]:
            del target.facts[key]
    target.sightings[:] = [s for s in target.sightings if not s.copied]


def _say_same(ctx: Context, targets: list[PlantDraft], span: Span) -> None:
    """`Plant 3 same as plant 2, scratch that`: it can be taken back like anything else that is said."""

    def undo() -> None:
        for target in targets:
            _leave_out_the_copied(ctx, target)

    ctx.said("same", span, undo)


def same(ctx: Context, ph: Phrase, span: Span) -> bool:
    f = "same_last" if ph.form == "same_also" else ph.form
    visit = ctx.here()
    if f in _THEIR_OWN_LABELS:
        nums = numbers_of(ph)[:-1] if f.endswith("_n") else numbers_of(ph)
        if f.startswith("range"):
            if not nums[0] < nums[1] <= nums[0] + 60:
                return False
            nums = list(range(nums[0], nums[1] + 1))
        ctx.begin([str(n) for n in nums], span)
        f = "same_n" if f.endswith("_n") else "same_last"
    plants = ctx.plants
    rest = the_rest(ctx, ph, str(numbers_of(ph)[-1])) if f == "same_n" else []
    if rest:
        ctx.close()
        ctx.plants, ctx.explicit, ctx.group = rest, True, None
        plants = rest
    if (
        len(plants) == 1
        and not ctx.explicit
        and f == "same_last"
        and plants[0].line != ctx.line
        and not plants[0].empty
    ):
        plants = ctx.begin([ctx.next_label()], span, named=False)  # 7 trif., no bloom, and under it: do.
    live = [p for p in visit.plants if not p.dropped and p not in plants]
    if not plants:
        if not live:
            return False
        plants = ctx.begin([ctx.next_label()], span, named=False)
    label: str | None = None
    the_one = f == "same_n" and ctx.lattice.original(ph.start, ph.end).lower().endswith("the one")
    if f in {"same_n", "same_row", "as_n", "same_ord", "same_pods", "same_flowers", "same_seeds"} and not the_one:
        label = str(numbers_of(ph)[-1])
    elif f in {"same_letter", "same_row_letter"} or f.endswith("s_letter"):
        label = str(next(e.means for _, e in ph.path if e.kind == "LETTER"))
    elif ph.form == "same_also":
        pass  # plant two likewise, plant three was chewed off: nothing is named behind it
    elif f == "same_last" or the_one:
        label, end = _like_what(ctx, ph)
        span = span.cover(ctx.span(ph.start, end))
        ctx.mark(ph.end, end, EVIDENCE)
    if ctx.correcting is not None:
        for target in plants:
            _undo_same(ctx, target)
        ctx.correcting = None
    _say_same(ctx, plants, span)
    for target in plants:
        source: PlantDraft | None
        if label is not None:
            source = next(
                (
                    p
                    for p in reversed(visit.plants)
                    if p.label.casefold() == label.casefold() and not p.dropped and p is not target
                ),
                None,
            )
        else:
            first = visit.plants.index(plants[0])
            source = next((p for p in reversed(visit.plants[:first]) if not p.dropped and not p.empty), None)
            if source is not None and _unread_between(ctx, visit.plants, source, first):
                source = None  # plant two whatever it has, plant three the same
        if source is None or source.empty:
            others = [p for p in visit.plants if not p.dropped and p is not target and not p.empty]
            ctx.same_targets.append((target, label or "the plant before it", span))
            del others
            return True
        copy_facts(source, target, span, _ONE_THING.get(f) or only_for(ctx, ph))
    ctx.close()
    ctx.last_what = next((s.what for s in reversed(plants[-1].sightings)), None)
    return True


def _unread_between(ctx: Context, plants: list[PlantDraft], source: PlantDraft, first: int) -> bool:
    """A plant that was named, and of which nothing could be read, stands between the source and plant number `first`."""
    between = plants[plants.index(source) + 1 : first]
    return any(p.named and p.empty and not p.dropped and not p.counted and _unread_behind(ctx, p) for p in between)


def _unread_behind(ctx: Context, plant: PlantDraft) -> bool:
    """Words behind its label were not understood."""
    pieces = ctx.lattice.pieces
    first = ctx.lattice.first_from(plant.span.end)
    behind = itertools.takewhile(lambda x: pieces[x].form != "nl" and pieces[x].text != ".", range(first, len(pieces)))
    return any(ctx.use[x] in {UNREAD, "weak"} for x in behind)


def settle_targets(ctx: Context) -> None:
    """`same as plant 6` where there is no plant 6 before it (yet): asked, with the plants there are as choices."""
    for target, label, span in ctx.same_targets:
        visit = next((v for v in ctx.visits if target in v.plants), None)
        if visit is None:
            continue
        others = [p for p in visit.plants if p is not target and not p.dropped and not p.empty]
        choices: list[tuple[str, dict[str, object]]] = [("not known", {})]
        labels = list(dict.fromkeys(p.label for p in others))
        choices += [(f"as plant {label}", {"same_as": label}) for label in labels[:6]]
        ctx.ask(
            Ask(
                "4.18",
                span,
                f"Plant {target.label} is said to be the same as {label if not label.isalnum() else 'plant ' + label}, "
                "which this note does not describe. Which plant is it like?",
                choices,
                target,
                0,
                "same_as",
                always=True,
                visit=visit,
            )
        )


def take_back(ctx: Context, whole_plant: bool) -> None:
    """`scratch that`: the last statement goes, or the plant back to its label."""
    if not ctx.statements:
        return
    if whole_plant:
        plant = ctx.statements[-1].plant
        gone = []
        while ctx.statements and ctx.statements[-1].plant is plant:
            s = ctx.statements.pop()
            s.undo()
            gone.append(s.span)
        if plant is not None:
            plant.dropped = True
        if gone:
            ctx.corrected.append(
                Correction("4.17", Span(min(g.start for g in gone), max(g.end for g in gone)), "taken back")
            )
            _unmark(ctx, gone)
        ctx.leave_plants()
        return
    s = ctx.statements.pop()
    s.undo()
    ctx.asks = [a for a in ctx.asks if not a.span.overlaps(s.span)]
    ctx.corrected.append(Correction("4.17", s.span, "taken back"))
    _unmark(ctx, [s.span])
    ctx.close()


def hurt(ctx: Context, i: int) -> None:
    """`plant 2 broke off`: at piece i stands the damage of the plant just named, of which nothing else is said so
    far."""
    visit = ctx.visit
    if visit is None or not visit.findings or not ctx.explicit or len(ctx.plants) != 1 or not ctx.plants[0].empty:
        return
    f, p = visit.findings[-1], ctx.plants[0]
    between = [k for k in range(i) if p.span.end <= ctx.lattice.pieces[k].span.start]
    if between and ctx.lattice.pieces[between[0]].text == "." and ctx.lattice.glued(between[0]):
        between = between[1:]  # Pl 5. cut off
    if f.kind == "damage" and all(
        ctx.lattice.filler[k] or ctx.lattice.pieces[k].text in {",", ":", "-", "=", "was", "were"} for k in between
    ):
        ctx.hurt.append((f, p))


def leave_out_the_hurt(ctx: Context) -> None:
    """A plant of which nothing but its damage is told is no plant (guide 4.17)."""
    for f, p in ctx.hurt:
        of_many = all(s.group for s in p.sightings) and all(e.group for told in p.facts.values() for e in told)
        unsaid = not of_many and _none_of_the_gone(ctx, f, p)
        if p.empty or of_many or unsaid:  # plant 4 broke off; no flowers on any of them
            p.dropped = True
            f.span = p.span.cover(f.span)
            f.where = f"plant {p.label}" + (f", {f.where}" if f.where else "")


_GONE = frozenset({"broke off", "cut off", "dead plants", "missing plants", "uprooted"})


def _none_of_the_gone(ctx: Context, f: FindingDraft, p: PlantDraft) -> bool:
    """`Plant 3. broke off. No bloom.`: nothing was there to look at, so whose the no is, is not said; it is shown unread."""
    if f.name not in _GONE or p.facts or p.asks or any(s.present is not False for s in p.sightings):
        return False
    spans = [x for s in p.sightings for x in s.spans]
    first = ctx.lattice.first_from(f.span.end)
    parted = ctx.lattice.at(first) in {".", ";", "\n"} or f.name == "dead plants"
    if not spans or not parted:
        return False
    for span in spans:
        ctx.mark_span(span, UNREAD, "behind a plant that is gone: of which plant is not said")
    p.sightings.clear()
    return True


def put_number(ctx: Context, old: int, new: int, span: Span) -> bool:
    """`12 not 11`: the count of 11 that the plant has becomes 12."""
    for p in ctx.plants:
        for key in ("trifoliates", "nodes"):
            e = p.last(key)
            if e is not None and e.value == old:
                ctx.corrected.append(Correction("4.17", e.span, f"{old} replaced by {new}"))
                ctx.asks = [a for a in ctx.asks if not (a.plant is p and a.key == key)]
                e.value, e.span = new, span
                return True
    return False


def not_that_stage(ctx: Context, said: dict[str, object], denied: dict[str, object], span: Span) -> bool:
    """`R4 not R3`: the stage that was stated before is put right."""
    for letter, code in denied.items():
        if letter not in said:
            return False
        entry = ctx.plants[-1].last(f"stated_{letter}") if ctx.plants else None
        stated = (
            [s.value for s in ctx.visit.stated if s.letter == letter and s.where is None]
            if ctx.visit is not None and not ctx.plants
            else []
        )
        if (entry.value if entry is not None else stated[-1] if stated else None) != code:
            return False
    ctx.correcting = span
    return True


def back_to(ctx: Context, label: str, span: Span) -> bool:
    """`correction, plant 2 is 12 trifs`: what follows puts a plant right that was described before."""
    found = ctx.visit.plant(label) if ctx.visit is not None else None
    if found is None or found.empty:
        return False
    ctx.close()
    ctx.plants, ctx.explicit, ctx.group, ctx.finding = [found], True, None, None
    ctx.statements.clear()
    ctx.correcting = ctx.correcting or span
    return True


def not_ours(ctx: Context, span: Span, why: str) -> None:
    """`those were the neighbor's rows`: the plants that were described up to there are left out, and shown as unread."""
    gone: list[Span] = []
    for p in ctx.living():
        gone += [p.span, *(e.span for es in p.facts.values() for e in es), *(x for s in p.sightings for x in s.spans)]
        p.dropped = True
        ctx.asks = [a for a in ctx.asks if a.plant is not p]
    if gone:
        ctx.corrected.append(Correction("4.17", span, "the plants before are of another field"))
        _unmark(ctx, gone, why)
    ctx.statements.clear()
    ctx.leave_plants()


def last_of(ctx: Context, what: str) -> list[Sighting]:
    """What was said last of this organ, plant by plant."""
    seen = [[s for s in p.sightings if s.what == what] for p in ctx.plants]
    return [row[-1] for row in seen if row]


def _unmark(ctx: Context, spans: list[Span], why: str = "taken back") -> None:
    for k, p in enumerate(ctx.lattice.pieces):
        if any(s.start <= p.span.start < s.end for s in spans):
            ctx.use[k] = "unread"
            ctx.why[k] = why
