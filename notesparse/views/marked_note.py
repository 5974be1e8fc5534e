"""A kept note as HTML: its own text with the words marked that a value rests on, that are asked, or that were not read."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from html import escape
from typing import Any

READ, UNREAD, ASKED = "read", "unread", "asked"


def marked_note(text: str, record: Mapping[str, Any]) -> str:
    """The note as HTML. Runs of one kind are `<mark class=...>`; a question's first mark bears its number."""
    kinds: list[str] = [""] * len(text)
    for kind, spans in (
        (READ, evidence(record)),
        (UNREAD, [tuple(u["span"]) for u in record["unread"]]),
        (ASKED, [tuple(q["span"]) for q in record["questions"] if q["answer"] is None]),
    ):
        for start, end in spans:
            kinds[start:end] = [kind] * (min(end, len(text)) - start)
    numbers: dict[int, list[str]] = {}
    for number, q in enumerate((q for q in record["questions"] if q["answer"] is None), 1):
        numbers.setdefault(q["span"][0], []).append(str(number))
    out: list[str] = []
    at = 0
    while at < len(text):
        end = at + 1
        while end < len(text) and kinds[end] == kinds[at] and end not in numbers:
            end += 1
        words = escape(text[at:end])
        tag = f"<sup>{', '.join(numbers[at])}</sup>" if at in numbers else ""
        out.append(f'<mark class="{kinds[at]}">{words}{tag}</mark>' if kinds[at] else words)
        at = end
    return "".join(out)


def evidence(record: Mapping[str, Any]) -> Sequence[tuple[int, int]]:
    """The spans of all words that a value of the record rests on."""
    return sorted(set(_spans(record["visits"])))


def _spans(part: Any) -> Iterator[tuple[int, int]]:
    if isinstance(part, Mapping):
        for key, value in part.items():
            if key == "span" and value:
                yield (value[0], value[1])
            elif key == "spans":
                yield from ((a, b) for a, b in value.values())
            else:
                yield from _spans(value)
    elif isinstance(part, list):
        for value in part:
            yield from _spans(value)
