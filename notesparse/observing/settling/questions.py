"""Questions of one plant, put to the context with the plant's visit."""

from __future__ import annotations

from typing import Any

from notesparse.observing.draft import Ask, Entry, PlantDraft, VisitDraft
from notesparse.observing.fold import Context
from notesparse.span import Span, cover_all

Choices = list[tuple[str, dict[str, Any]]]


def ask(
    ctx: Context,
    p: PlantDraft,
    rule: str,
    span: Span,
    text: str,
    choices: Choices,
    key: str,
    *,
    taken: int = 0,
    always: bool = False,
    habit: str = "",
    habits: tuple[str, ...] = (),
) -> None:
    """A question about the fact `key` of a plant; the choice `taken` is recorded meanwhile."""
    ctx.ask(
        Ask(rule, span, text, choices, p, taken, key, always=always, visit=visit_of(ctx, p), habit=habit, habits=habits)
    )


def visit_of(ctx: Context, p: PlantDraft) -> VisitDraft | None:
    return next((v for v in ctx.visits if p in v.plants), None)


def asked(ctx: Context, p: PlantDraft, key: str) -> bool:
    """Whether a fact of the plant is asked about already."""
    return any(a.key == key and (a.plant is p or any(p is other for other in a.also)) for a in ctx.asks)


def clash(entries: list[Entry]) -> bool:
    return any(e.value != entries[0].value for e in entries[1:])


def ask_clash(ctx: Context, p: PlantDraft, key: str, entries: list[Entry]) -> None:
    """Two values of one fact (guide 4.7)."""
    if asked(ctx, p, key):
        return
    whole = cover_all(e.span for e in entries) if key.startswith("stated") else entries[-1].span
    values = []
    for e in entries:
        if e.value not in values:
            values.append(e.value)
    choices: Choices = [(_say(v), {key: v}) for v in values]
    told = f"two values of {key.replace('_', ' ')}: {' and '.join(_say(v) for v in values)}. Which is right?"
    for same in ctx.asks:  # the same words, of more than one plant
        if (same.rule, same.span, same.key, same.choices) == ("4.7", whole, key, choices) and same.plant is not None:
            same.also = (*same.also, p)
            labels = [x.label for x in (same.plant, *same.also)]
            same.text = f"Plants {', '.join(labels[:-1])} and {labels[-1]} have {told}"
            return
    ask(ctx, p, "4.7", whole, f"Plant {p.label} has {told}", choices, key, always=True)


def _say(value: Any) -> str:
    if value is True:
        return "yes"
    if value is False:
        return "no"
    if isinstance(value, tuple):
        return " to ".join(str(v) for v in value)
    return str(value)


def ask_unusual(ctx: Context, p: PlantDraft, span: Span, text: str, key: str, value: Any) -> None:
    """A length that hardly any plant has (guide 8)."""
    choices: Choices = [("yes", {key: value}), ("not known", {key: None})]
    ask(ctx, p, "8", span, f"{text} is unusually long: is that right?", choices, key, always=True)


def ask_fill(ctx: Context, p: PlantDraft, span: Span) -> None:
    text = f"Do the seeds of plant {p.label} touch (fill the pod cavity)?"
    choices: Choices = [("not quite", {"seed_fill": "partial"}), ("yes", {"seed_fill": "full"})]
    ask(ctx, p, "4.13", span, text, choices, "seed_fill")
