"""What `explain` shows of a phrase: its name in words, what it means, its repairs, and why it was chosen."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from notesparse.observing.fold import Context
from notesparse.outcome import Repair
from notesparse.reading.parse import Phrase, phrase_cost

_WORDS = {
    "trif": "trifoliates",
    "fl": "flowers",
    "pod": "pods",
    "pods": "pods",
    "seed": "seeds",
    "bean": "seeds",
    "ord": "place",
    "num": "place",
    "len": "length",
    "plant": "label",
    "bare": "label",
    "uni": "unifoliates",
    "cot": "cotyledons",
    "r1": "R stage",
    "r": "R stage",
    "v1": "V stage",
    "v": "V stage",
    "md": "date",
    "dmy": "date",
    "n": "share",
    "cue": "correction",
    "pct": "percent",
}
_KEPT = {"sound", "figure", "split"}


def wording(form: str) -> str:
    """A form of the grammar in words: `trif_n` is trifoliates (n)."""
    first, _, rest = form.partition("_")
    name = _WORDS.get(first, first)
    return f"{name} ({rest.replace('_', ' ')})" if rest else name


def _said(value: Any) -> str:
    if isinstance(value, Fraction):
        whole, part = divmod(value, 1)
        if value.denominator == 1:
            return str(value.numerator)
        if value.denominator in {10, 100, 1000, 5, 20, 50, 25} and value.denominator not in {2, 4, 8, 16}:
            return f"{float(value):g}"
        return f"{whole} {part}" if whole else str(part)
    if isinstance(value, tuple):
        return ", ".join(map(str, value))
    return str(value)


def meaning(ph: Phrase) -> str:
    """The senses of a phrase's words, in their order."""
    return " ".join(_said(e.means) for _, e in ph.path if e.means not in {"", None})


def repairs(ctx: Context, ph: Phrase) -> list[Repair]:
    """Words of the phrase that were read as other words."""
    out = []
    for at, e in ph.path:
        how, _, near = e.how.partition(" ")
        if how == "exact" and any(p.mended for p in ctx.lattice.pieces[at : e.end]):
            how = "figure"  # p1anted
        if how in {"exact", "number"} and any(p.slip for p in ctx.lattice.pieces[at : e.end]):
            how, near = "near", "0.9"  # platns
        if how not in _KEPT and how != "near":
            continue
        span = ctx.span(at, e.end)
        nearness = float(near) if near else 1.0 - min(0.9, e.cost)
        out.append(Repair(span, span.of(ctx.lattice.text), _said(e.means), how, round(nearness, 2)))
    return out


# Two rules that say the same of the same words: no tie.
_ALIKE = {frozenset({"state", "podshare"}), frozenset({"where", "place"})}


def tied(ph: Phrase, rivals: list[list[Phrase]]) -> Phrase | None:
    """Another reading of the same words that no reason sets behind: a tie is a question."""
    for p in rivals[ph.start] if rivals else ():
        if p.end == ph.end and p.rule != ph.rule and frozenset({p.rule, ph.rule}) not in _ALIKE:
            if abs(phrase_cost(p) - phrase_cost(ph)) < 1e-9:
                return p
    return None


def reasons(ph: Phrase, rivals: list[list[Phrase]]) -> tuple[str, ...]:
    """Why this reading: its cost, and the readings from the same word that were dearer."""
    out = [f"cost {phrase_cost(ph):.2f} for {ph.end - ph.start} pieces"]
    others = sorted(
        (
            p
            for p in (rivals[ph.start] if rivals else ())
            if (p.form, p.end) != (ph.form, ph.end) and p.end >= ph.end - 1
        ),
        key=lambda p: (-p.end, phrase_cost(p)),
    )
    for p in others[:2]:
        out.append(f"passed over: {wording(p.form)}, {p.end - p.start} pieces, cost {phrase_cost(p):.2f}")
    return tuple(out)
