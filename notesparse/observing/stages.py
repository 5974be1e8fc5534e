"""Stages as the scout states them, of a plant or of the field (guide 4.15)."""

from __future__ import annotations

from typing import Any

from notesparse.observing.draft import Ask, StatedDraft
from notesparse.observing.fold import Context
from notesparse.observing.leaves import put
from notesparse.reading.parse import Phrase
from notesparse.span import Span


def _num(e: Any) -> str:
    value = e.means
    if e.kind == "DEC":
        return f"{float(value):g}"
    return str(int(value))


def read_stage(ph: Phrase, denied: bool = False) -> dict[str, Any] | None:
    """{'r': 'R3'} or {'v': ('V5', 'V6')}; None for a stage that is said not to be reached (`denied`: which stage
    that is)."""
    f = ph.form
    edges = [e for _, e in ph.path]
    nums = [_num(e) for e in edges if e.kind in {"INT", "INTSOUND", "DEC"}]
    early = next((str(e.means) for e in edges if e.kind == "EARLY"), "")
    names = [str(e.means) for e in edges if e.kind == "STAGENAME"]
    if f in {"r_not_yet", "v_not_yet", "name_not_yet"} and not denied:
        return None
    if denied:
        f = {"r_not_yet": "r1", "v_not_yet": "v1"}.get(f, f)
    if f == "v_r":
        return {"v": f"V{nums[0]}", "r": f"R{nums[1]}"}
    if f == "the_v_r":
        return {"v": f"V{nums[0]}", "r": f"R{nums[1]}"}
    if f in {"r1", "r_query", "r_mod"}:
        code = f"R{nums[0]}"
        return {"r": f"{early} {code}".strip()}
    if f == "r_point":  # R five point five
        return {"r": f"R{float(nums[0]) + float(nums[1]):g}"}
    if f == "r_half":
        return {"r": f"R{nums[0]}.5"}
    if f == "v_half":
        return {"v": f"V{nums[0]}.5"}
    if f == "r_range":
        return {"r": (f"R{nums[0]}", f"R{nums[1]}")}
    if f in {"v1", "v_query", "v1m", "the_v"}:
        return {"v": f"{early} V{nums[0]}".strip()}
    if f == "v_range":
        return {"v": (f"V{nums[0]}", f"V{nums[1]}")}
    if names:
        letter = names[0][0].lower()
        if f == "name_range":
            second = names[1] if len(names) > 1 else f"{names[0][0]}{nums[0]}" if nums else names[0]
            return {letter: (names[0], second)}
        return {letter: f"{early} {names[0]}".strip()}
    return None


def state_stage(ctx: Context, ph: Phrase, span: Span, *, of_field: bool, where: str | None = None) -> bool:
    """Write a stated stage; False if it is no statement."""
    value = read_stage(ph)
    if value is None:
        return False
    if ph.form in {"r_query", "v_query", "name_query"}:
        key = next(iter(value))
        text = value[key]
        plant = ctx.plants[-1] if ctx.plants and not of_field else None
        ctx.here()
        ctx.ask(
            Ask(
                "4.15",
                span,
                f"Is {text} what you state here? There is a question mark after it.",
                [("not stated", {f"stated_{key}": None}), (f"yes, {text}", {f"stated_{key}": text})],
                plant,
                0,
                f"stated_{key}",
                always=True,
            )
        )
        return True
    for letter, code in value.items():
        if of_field:
            visit = ctx.here()
            stated = StatedDraft(letter, code, span, where)
            old = [s for s in visit.stated if s.letter == letter and s.where == where and not s.average]
            if old and ctx.correcting is not None:
                for s in old[-1:]:
                    visit.stated.remove(s)
                    from notesparse.outcome import Correction

                    ctx.corrected.append(Correction("4.17", s.span, f"{s.value} replaced by {code}"))
            visit.stated.append(stated)
            ctx.said(f"stated_{letter}", span, lambda v=visit, s=stated: v.stated.remove(s) if s in v.stated else None)  # type: ignore[misc]
        else:
            put(ctx, f"stated_{letter}", code, span)
    if ctx.correcting is not None:
        ctx.correcting = None
    return True
