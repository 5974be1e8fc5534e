"""What can be said: the card, as text and as a page to print, and the entries of a word."""

from __future__ import annotations

import html
from collections.abc import Sequence
from typing import Protocol

from notesparse.record.caution import CAUTION
from notesparse.views.cells import WIDTH, fit, fold, width_of
from notesparse.views.paint import Paint, plain

_SHOWN = 24  # spellings of one meaning; the rest are counted
TITLE = "What you can say"
LEAD = "Say it as you see it, in any order, one plant after the other. Each line is read just as it stands here."
FOOT = (
    "Nodes are counted down from the top. Name the size and the node wherever you can: it saves a question. "
    "What is not understood is shown, never guessed."
)


class Line(Protocol):
    """One example of a card."""

    @property
    def say(self) -> str: ...
    @property
    def gives(self) -> str: ...


class Matter(Protocol):
    """One topic of a card."""

    @property
    def title(self) -> str: ...
    @property
    def examples(self) -> Sequence[Line]: ...


class Meaning(Protocol):
    """The spellings of one meaning."""

    @property
    def topic(self) -> str: ...
    @property
    def means(self) -> str: ...
    @property
    def say(self) -> tuple[str, ...]: ...
    @property
    def sounds(self) -> tuple[str, ...]: ...


def card(topics: Sequence[Matter], width: int = WIDTH, paint: Paint = plain) -> list[str]:
    """The card on one page of text."""
    wide = max(width_of(e.say) for t in topics for e in t.examples)
    lines = [paint("title", TITLE), *fold(LEAD, width)]
    for topic in topics:
        lines += [paint("title", topic.title)]
        for e in topic.examples:
            beside = 5 + wide + width_of(e.gives) <= width
            lines.append("   " + (fit(e.say, wide) + "  " + e.gives if beside else e.say))
            if not beside:
                lines += fold(e.gives, width, "      ")
    return [*lines, "", *fold(FOOT, width), *fold(CAUTION, width)]


def card_page(topics: Sequence[Matter]) -> str:
    """The card as one self-contained HTML page that prints on one sheet."""
    parts = []
    for topic in topics:
        rows = "\n".join(f"<dt>{html.escape(e.say)}</dt><dd>{html.escape(e.gives)}</dd>" for e in topic.examples)
        parts.append(f"<section><h2>{html.escape(topic.title)}</h2>\n<dl>\n{rows}\n</dl></section>")
    return _PAGE.format(title=TITLE, lead=LEAD, body="\n".join(parts), foot=FOOT, caution=CAUTION)


def meanings(
    query: str, found: Sequence[Meaning], said: Sequence[Line], width: int = WIDTH, paint: Paint = plain
) -> list[str]:
    """The entries of a word, and the examples of the card in which it stands."""
    lines: list[str] = []
    for e in found:
        lines += [paint("title", e.means), *fold(e.topic + ".", width, "   ")]
        lines += _spellings("written", e.say, query, width) + _spellings("also heard as", e.sounds, query, width) + [""]
    if said:
        lines += [paint("title", "On the card")]
        for one in said:
            lines += [f"   {one.say}", *fold(one.gives, width, "      ")]
        lines += [""]
    return lines[:-1]


def _spellings(what: str, spellings: Sequence[str], query: str, width: int) -> list[str]:
    """The spellings that hold the query first, then the shortest; so many that they can be looked over."""
    if not spellings:
        return []
    first = sorted(dict.fromkeys(spellings), key=lambda s: (query.casefold() not in s.casefold(), len(s), s))
    more = f" and {len(first) - _SHOWN} more" if len(first) > _SHOWN else ""
    return fold(f"{what}: {', '.join(first[:_SHOWN])}{more}", width, "   ", "      ")


_PAGE = """<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>{title}</title>
<style>
:root {{ color-scheme: light dark; }}
body {{ font: 1rem/1.35 system-ui, sans-serif; max-width: 60rem; margin: 1rem auto; padding: 0 1rem; }}
h1 {{ font-size: 1.4rem; margin: 0 0 .2rem; }}
p {{ margin: 0 0 .6rem; }}
main {{ columns: 22rem 2; column-gap: 2rem; }}
section {{ break-inside: avoid; margin: 0 0 .7rem; }}
h2 {{ font-size: 1rem; margin: 0 0 .15rem; border-bottom: 1px solid; }}
dl {{ margin: 0; }}
dt {{ font-weight: 600; }}
dd {{ margin: 0 0 .2rem 1rem; }}
footer {{ border-top: 1px solid; padding-top: .4rem; }}
@page {{ size: auto; margin: 12mm; }}
@media print {{
  body {{ font-size: 8.6pt; line-height: 1.25; max-width: none; margin: 0; padding: 0; }}
  main {{ columns: 2; column-gap: 8mm; }}
  section {{ margin-bottom: 2.2mm; }}
}}
</style>
</head>
<body>
<h1>{title}</h1>
<p>{lead}</p>
<main>
{body}
</main>
<footer>
<p>{foot}</p>
<p>{caution}</p>
</footer>
</body>
</html>
"""
